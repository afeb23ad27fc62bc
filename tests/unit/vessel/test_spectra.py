"""Gusts in time: variances, the series, the recursive filter against Kaimal's spectrum, the design gust."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, exp, log, pi, sin, sqrt
from random import Random
from statistics import fmean, pstdev

import pytest

from athwart.vessel.spectra import (
    FILTER,
    HIGHEST_HZ,
    LOWEST_HZ,
    davenport,
    design_gust,
    filter_spectrum,
    gust_filter,
    gust_series,
    harris,
    kaimal,
    kaimal_length,
    sea_spectrum,
)

MEAN, SIGMA = 9.0, 1.4
LENGTH = kaimal_length(2.5)


def variance(spectrum: Callable[[float], float], low: float, high: float, steps: int = 20_000) -> float:
    step = log(high / low) / steps
    middles = (low * exp((k + 0.5) * step) for k in range(steps))
    return sum(spectrum(f) * f * step for f in middles)


@pytest.mark.parametrize(
    "spectrum",
    [
        lambda f: kaimal(f, MEAN, SIGMA, LENGTH),
        lambda f: davenport(f, MEAN, SIGMA),
        lambda f: harris(f, MEAN, SIGMA, LENGTH),
        lambda f: filter_spectrum(f, MEAN, SIGMA, LENGTH),
    ],
    ids=["kaimal", "davenport", "harris", "filter"],
)
def test_a_spectrum_integrates_to_the_variance(spectrum: Callable[[float], float]) -> None:
    assert variance(spectrum, 1e-6, 1e5) == pytest.approx(SIGMA**2, rel=2e-3)


def test_the_sea_spectrum_between_an_hour_and_two_seconds() -> None:
    found = variance(lambda f: sea_spectrum(f, 10.0, 10.0), 1.0 / 3600.0, 0.5)
    assert found == pytest.approx(0.8902, rel=2e-3)
    assert sqrt(found) / 10.0 == pytest.approx(0.0944, rel=2e-3)


def test_the_filter_is_kaimal_within_eight_per_cent() -> None:
    for k in range(200):
        f = 1e-3 * 2e4 ** (k / 199) * MEAN / LENGTH
        assert filter_spectrum(f, MEAN, SIGMA, LENGTH) == pytest.approx(kaimal(f, MEAN, SIGMA, LENGTH), rel=0.08)
    assert sum(share for share, _ in FILTER) == pytest.approx(1.0)


def test_the_filters_own_series_has_the_spectrum_it_claims() -> None:
    """Averaged periodograms of the recursion against its closed form, over a decade and a half."""
    step, count, runs = 0.25, 512, 120
    chance = Random(20260301)
    filters = gust_filter(MEAN, SIGMA, LENGTH, step)
    bins = (4, 8, 16, 32, 64, 100)
    power = dict.fromkeys(bins, 0.0)
    everything: list[float] = []
    for _ in range(runs):
        a, b, c = (s * chance.gauss(0.0, 1.0) for s in filters.settled)
        states, series = (a, b, c), []
        for _ in range(count):
            states = filters.step(states, (chance.gauss(0, 1), chance.gauss(0, 1), chance.gauss(0, 1)))
            series.append(sum(states))
        everything += series
        for bin_ in bins:
            w = 2.0 * pi * bin_ / count
            re = sum(u * cos(w * n) for n, u in enumerate(series))
            im = sum(u * sin(w * n) for n, u in enumerate(series))
            power[bin_] += 2.0 * (re * re + im * im) * step / count / runs
    assert pstdev(everything) == pytest.approx(SIGMA, rel=0.04)
    for bin_ in bins:
        f = bin_ / count / step
        folded = sum(
            filter_spectrum(abs(f + k / step), MEAN, SIGMA, LENGTH) for k in range(-8, 9)
        )  # sampling folds high ones down
        assert power[bin_] == pytest.approx(folded, rel=0.35), f


def chances(seed: int, bins: int = 220) -> list[float]:
    chance = Random(seed)
    return [chance.random() for _ in range(2 * bins)]


def test_a_series_has_its_mean_and_deviation_and_the_same_seed_the_same_wind() -> None:
    def spectrum(f: float) -> float:
        return kaimal(f, MEAN, SIGMA, LENGTH)

    one = gust_series(spectrum, MEAN, SIGMA, chances(1))
    again = gust_series(spectrum, MEAN, SIGMA, chances(1))
    other = gust_series(spectrum, MEAN, SIGMA, chances(2))
    times = [0.5 * n for n in range(2400)]
    assert [one(t) for t in times[:50]] == [again(t) for t in times[:50]]
    assert one(10.0) != other(10.0)
    assert one.sigma == pytest.approx(SIGMA)
    many = [one.fluctuation(3.1 * n) for n in range(20_000)]
    assert fmean(many) == pytest.approx(0.0, abs=0.05 * SIGMA)
    assert pstdev(many) == pytest.approx(SIGMA, rel=0.05)


def test_a_series_does_not_come_round() -> None:
    one = gust_series(lambda f: kaimal(f, MEAN, SIGMA, LENGTH), MEAN, SIGMA, chances(3))
    first = [one.fluctuation(n * 1.0) for n in range(120)]
    for shift in (600.0, 1200.0, 1800.0, 3600.0):
        later = [one.fluctuation(shift + n * 1.0) for n in range(120)]
        assert sum(abs(a - b) for a, b in zip(first, later, strict=True)) / 120 > 0.3 * SIGMA


def test_the_wind_never_blows_backwards() -> None:
    one = gust_series(lambda f: kaimal(f, 2.0, 2.0, LENGTH), 2.0, 2.0, chances(4))
    assert min(one(0.5 * n) for n in range(4000)) == 0.0


def test_the_bins_keep_the_share_of_the_variance_they_span() -> None:
    kept = variance(lambda f: kaimal(f, MEAN, SIGMA, LENGTH), LOWEST_HZ, HIGHEST_HZ)
    assert 0.75 * SIGMA**2 < kept < SIGMA**2


def test_few_chances_are_refused() -> None:
    with pytest.raises(ValueError, match="40 chances"):
        gust_series(lambda f: 1.0, 5.0, 1.0, [0.5] * 10)


def test_a_design_gust_rises_and_goes() -> None:
    assert design_gust(-1.0, 4.0, 8.0) == design_gust(9.0, 4.0, 8.0) == 0.0
    assert design_gust(4.0, 4.0, 8.0) == pytest.approx(4.0)


@pytest.mark.parametrize(("f", "mean"), [(0.0, 5.0), (0.1, 0.0)])
def test_no_frequency_or_no_wind_is_refused(f: float, mean: float) -> None:
    with pytest.raises(ValueError, match="more than 0"):
        kaimal(f, mean, 1.0, 14.0)
