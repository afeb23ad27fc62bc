"""Wind at the silhouette: OUR OWN ARITHMETIC, figures FROM MEMORY and REFERENCE PROGRAMS, labelled one by one."""

from __future__ import annotations

import pytest

from athwart.units import beaufort_of
from athwart.vessel.beaufort import middle_speed
from athwart.vessel.gusts import peak_factor, sea_mean, sea_wind, speed_over_hourly_mean
from athwart.vessel.second_opinions import implied_drag, pilots_side_force
from athwart.vessel.wind import ROUGHNESS, wind_by_log_law, wind_by_power_law


@pytest.mark.parametrize(("exponent", "ratio"), [(0.11, 0.8377), (0.15, 0.7855)])
def test_the_power_law_at_two_metres(exponent: float, ratio: float) -> None:
    """Own arithmetic; exponents from memory."""
    assert wind_by_power_law(1.0, 2.0, exponent) == pytest.approx(ratio, abs=5e-5)


@pytest.mark.parametrize(("ground", "ratio"), [("open sea", 0.8513), ("open grass", 0.7229)])
def test_the_log_law_at_two_metres(ground: str, ratio: float) -> None:
    """Own arithmetic."""
    assert wind_by_log_law(1.0, 2.0, ROUGHNESS[ground]) == pytest.approx(ratio, abs=5e-5)


def test_the_middle_of_each_beaufort_class_lies_in_it() -> None:
    """Own arithmetic."""
    speeds = [middle_speed(float(force)) for force in range(1, 12)]
    assert speeds == pytest.approx([0.84, 2.36, 4.34, 6.69, 9.35, 12.29, 15.48, 18.92, 22.57, 26.44, 30.5], abs=0.011)
    assert [beaufort_of(speed) for speed in speeds] == list(range(1, 12))


@pytest.mark.parametrize(("seconds", "ratio"), [(3.0, 1.50938), (30.0, 1.32352), (60.0, 1.24386), (600.0, 1.05004)])
def test_the_curve_of_averaging_times(seconds: float, ratio: float) -> None:
    """Reference program: scientimate 2.0, method cem."""
    assert speed_over_hourly_mean(seconds) == pytest.approx(ratio, rel=1e-5)


@pytest.mark.parametrize(("mean", "gust"), [(600.0, 1.43746), (60.0, 1.21347)])
def test_gusts_by_the_curve(mean: float, gust: float) -> None:
    """Reference program."""
    assert speed_over_hourly_mean(3.0) / speed_over_hourly_mean(mean) == pytest.approx(gust, rel=1e-5)


@pytest.mark.parametrize(("rate", "factor"), [(0.2, 3.2809), (0.5, 3.5484), (1.0, 3.7382)])
def test_peaks_of_a_random_wind(rate: float, factor: float) -> None:
    """Reference: a theory sheet's formula, 600 s."""
    assert peak_factor(rate, 600.0) == pytest.approx(factor, abs=5e-5)


@pytest.mark.parametrize(("height", "gust", "mean"), [(10.0, 12.494, 10.63), (2.0, 11.577, 9.306)])
def test_gusts_over_the_sea(height: float, gust: float, mean: float) -> None:
    """From memory: profile and turbulence of the sea, hourly mean of 10 m/s at 10 m."""
    assert sea_wind(10.0, height, 3.0) == pytest.approx(gust, abs=5e-4)
    assert sea_wind(10.0, height, 600.0) == pytest.approx(mean, abs=5e-3)
    assert sea_wind(10.0, height, 3600.0) == pytest.approx(sea_mean(10.0, height))


def test_the_gust_factor_over_the_sea() -> None:
    """From memory."""
    assert sea_wind(10.0, 10.0, 3.0) / sea_wind(10.0, 10.0, 600.0) == pytest.approx(1.175, abs=5e-4)
    assert sea_wind(10.0, 2.0, 3.0) / sea_wind(10.0, 2.0, 600.0) == pytest.approx(1.244, abs=5e-4)


@pytest.mark.parametrize(("speed", "tonnes"), [(15.0, 12.5), (15.43332, 13.2326)])
def test_the_pilots_rule(speed: float, tonnes: float) -> None:
    """From memory."""
    assert pilots_side_force(speed, 1000.0) / 9806.65 == pytest.approx(tonnes, rel=1e-4)


def test_the_drag_hidden_in_the_pilots_rule() -> None:
    """Own arithmetic: close to the beam value of the ship table."""
    assert implied_drag(pilots_side_force(15.0, 1.0), 15.0) == pytest.approx(0.8895, abs=5e-5)
