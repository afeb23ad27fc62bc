"""Profiles, terminators, readings of a meter, load."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from athwart.network.bus import (
    PROFILES,
    RESISTANCE_READINGS,
    Limit,
    bus_load,
    bus_resistance,
    fieldbus_lengths,
    frame_time,
    mean_high,
    mean_low,
    profile,
    resistance_reading,
    shift_from_lines,
    volts_reading,
)


def test_a_profile_names_its_limits_and_their_sources() -> None:
    assert {"IEC 61162-3", "J1939-11", "J1939-15", "ISO 11783-2"} == set(PROFILES)
    assert PROFILES["J1939-15"].drop.value == 3.0
    assert not PROFILES["J1939-15"].drop.verified
    assert PROFILES["IEC 61162-3"].drop.verified


def test_plain_can_takes_its_lengths_from_the_bit_rate() -> None:
    assert profile("plain CAN", 500_000.0).trunk.value == 100.0
    assert profile("plain CAN", 125_000.0).drops.value == fieldbus_lengths(125_000.0)[2]


@pytest.mark.parametrize("bit_rate", [100_000.0, 249_000.0, 0.0])
def test_a_bit_rate_outside_the_table_is_refused(bit_rate: float) -> None:
    with pytest.raises(ValueError, match="kbit/s; there are 1000, 500, 250, 125, 50"):
        profile("plain CAN", bit_rate)


def test_an_unknown_profile_is_refused_with_the_known_ones() -> None:
    with pytest.raises(ValueError, match="IEC 61162-3"):
        profile("marine")


def test_a_limit_allows_up_to_itself_and_an_unknown_one_everything() -> None:
    assert Limit(6.0, "own-judgement").allows(6.0)
    assert not Limit(6.0, "own-judgement").allows(6.01)
    assert Limit(None, "own-judgement").allows(1e9)


def test_nothing_between_the_lines_has_no_resistance() -> None:
    with pytest.raises(ValueError, match="open circuit"):
        bus_resistance(0)


def test_the_bands_of_readings_do_not_overlap() -> None:
    for here, there in pairwise(RESISTANCE_READINGS):
        assert here.high < there.low


@pytest.mark.parametrize(
    ("terminators", "nodes", "words"),
    [
        (2, 0, "both terminators are there"),
        (2, 40, "both terminators are there"),
        (1, 5, "one terminator is missing"),
        (3, 0, "three terminators"),
        (4, 0, "four terminators"),
        (0, 10, "no terminator"),
    ],
)
def test_what_a_line_shows_is_read_as_what_it_has(terminators: int, nodes: int, words: str) -> None:
    assert resistance_reading(bus_resistance(terminators, nodes)).means.startswith(words)


def test_a_short_an_open_line_and_an_odd_reading_are_told_apart() -> None:
    assert "touch" in resistance_reading(1.0).means
    assert "no terminator" in resistance_reading(math.inf).means
    assert resistance_reading(80.0).means == "no whole number of terminators"
    assert not resistance_reading(80.0).good


@pytest.mark.parametrize("resistance", [-1.0, math.nan])
def test_a_reading_below_nought_is_refused(resistance: float) -> None:
    with pytest.raises(ValueError, match="nought or more"):
        resistance_reading(resistance)


@pytest.mark.parametrize(
    ("high", "low", "words"),
    [
        (2.65, 2.35, "the bus works"),
        (2.35, 2.65, "the pair is swapped"),
        (2.5, 2.5, "nobody talks"),
        (0.1, 0.0, "no node is powered"),
        (12.0, 2.4, "the H line touches the supply"),
        (2.6, 11.9, "the L line touches the supply"),
        (3.9, 3.6, "the negatives lie +1.2 V apart"),
        (2.52, 2.44, "the bus works"),
        (3.2, 1.2, "outside the usual bands"),
    ],
)
def test_volts_of_the_lines_have_a_meaning(high: float, low: float, words: str) -> None:
    assert volts_reading(high, low, 12.0).means.startswith(words)


def test_mean_volts_spread_evenly_and_show_no_shift() -> None:
    assert shift_from_lines(mean_high(0.4), mean_low(0.4)) == pytest.approx(0.0)
    assert shift_from_lines(mean_high(0.4) + 1.2, mean_low(0.4) + 1.2) == pytest.approx(1.2)


def test_load_is_frames_times_their_time() -> None:
    assert bus_load(1000.0, 250_000.0) == pytest.approx(1000.0 * frame_time(250_000.0))
