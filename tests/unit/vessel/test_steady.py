"""Boats in steady motion: the pivot table, balances that balance, and what a current does."""

from __future__ import annotations

from math import cos, pi, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from athwart.vessel.added_mass import Inertia
from athwart.vessel.crossflow import Piece, cross_flow
from athwart.vessel.harmonics import WindHarmonics
from athwart.vessel.steady import (
    beam_drift,
    couple_rate,
    held_loads,
    largest_wind,
    moving,
    pivot_of,
    turn_rate,
    turning,
    water_loads,
)
from athwart.vessel.underwater import HullInWater
from tests.unit.plant._boats import SIMPLE, hull

LENGTH = 12.0


def plate(drag: float = 0.636, draught: float = 0.9) -> HullInWater:
    """One drag and one draught over the length, no damping, no inertia that turning could feel: the closed forms' hull."""
    flow = cross_flow([Piece(-LENGTH / 2, LENGTH / 2, drag * draught)], 1025.0)
    return HullInWater(
        LENGTH, 4.0, draught, flow, Inertia(1e-6, 0.0, 0.0, 1e-6, 0.0), 3.6, 0.0, 0.0, 0.0, 1025.0, 1.0, 0.3, False, ()
    )


@pytest.mark.parametrize(
    ("place", "pivot", "rate"),
    [(0.50, 0.141, 0.930), (0.45, 0.162, 0.911), (0.40, 0.192, 0.882), (0.35, 0.239, 0.834), (0.30, 0.328, 0.746)],
)
def test_the_pivot_table_of_a_single_side_force(place: float, pivot: float, rate: float) -> None:
    """Exact for one drag and draught: derived once with a computer algebra system, typed here."""
    found = turning(plate(), place * LENGTH, 800.0)
    assert -pivot_of(found) / LENGTH == pytest.approx(pivot, abs=6e-4)
    assert found.yaw_rate / couple_rate(800.0 * place * LENGTH, 0.636, 0.9, LENGTH, 1025.0) == pytest.approx(rate, abs=6e-4)


def test_the_12_m_boat_of_the_notes_turns_at_seven_and_a_half_degrees_a_second() -> None:
    assert turning(plate(), 0.42 * LENGTH, 800.0).yaw_rate * 180 / pi == pytest.approx(7.5, abs=0.1)


@settings(deadline=None)
@given(angle=st.floats(-pi, pi), speed=st.floats(0.5, 18.0), rate=st.sampled_from((0.0, 0.03, -0.05)))
def test_every_steady_motion_balances(angle: float, speed: float, rate: float) -> None:
    h = hull()
    found = moving(h, SIMPLE, speed, angle or 1e-3, 5.2, rate)
    wx, wy, wn = SIMPLE.loads_of(speed * cos(angle or 1e-3) + found.surge, speed * sin(angle or 1e-3) + found.sway)
    x, y, n = water_loads(h, found.surge, found.sway, rate)
    size = 14.0 * speed * speed + 100.0
    assert wx + x == pytest.approx(0.0, abs=1e-3 * size)
    assert wy + y + found.thrust == pytest.approx(0.0, abs=1e-3 * size)
    assert wn + n + found.thrust * 5.2 == pytest.approx(0.0, abs=1e-2 * size)


@given(angle=st.floats(0.05, 3.1), speed=st.floats(1.0, 15.0))
def test_mirrored_wind_mirrored_drift(angle: float, speed: float) -> None:
    one, two = moving(hull(), SIMPLE, speed, angle, 5.2), moving(hull(), SIMPLE, speed, -angle, 5.2)
    assert one.surge == pytest.approx(two.surge, abs=1e-4)
    assert one.sway == pytest.approx(-two.sway, abs=1e-4)
    assert one.thrust == pytest.approx(-two.thrust, abs=0.05)


def test_the_drift_of_a_12_m_boat_in_20_kn_is_seven_tenths_of_a_metre_a_second() -> None:
    assert beam_drift(1751.06, 0.636 * 12.0 * 0.9, 1025.0) == pytest.approx(0.7053, rel=1e-3)
    side = WindHarmonics((0.0, 0.0), (0.0, -1751.06 / 10.29**2), (0.0, 0.0), 0.0)
    felt = moving(plate(), side, 10.29, pi / 2, 5.0)
    assert -felt.sway == pytest.approx(0.7053, rel=0.08)  # the wind felt fades with the drift
    assert -felt.sway < 0.7053


def test_on_the_beam_the_free_boat_needs_far_less_than_the_tied_one() -> None:
    free = abs(moving(hull(), SIMPLE, 8.0, radians(90), 5.2).thrust)
    side, yaw = held_loads(hull(), SIMPLE, 8.0, radians(90))
    assert free < 0.5 * abs((yaw + 6.4 * side) / (5.2 + 6.4))


def test_a_current_abeam_pushes_like_the_drift_it_equals() -> None:
    side, yaw = held_loads(hull(), SIMPLE, 0.0, 0.0, 0.0, 0.4)
    _, y, n = water_loads(hull(), 0.0, -0.4, 0.0)
    assert (side, yaw) == pytest.approx((y, n), abs=1e-6)
    assert side > 0.0


def test_turning_needs_more_the_faster_it_goes() -> None:
    needs = [moving(hull(), SIMPLE, 6.0, radians(60), 5.2, rate).thrust for rate in (0.0, 0.03, 0.06, 0.09)]
    assert needs == sorted(needs)


def test_rates_asked_fall_with_the_length() -> None:
    assert [round(turn_rate(length) * 180 / pi) for length in (8.0, 15.0, 20.0, 38.0)] == [3, 3, 2, 1]


def test_largest_wind_at_both_ends() -> None:
    assert largest_wind(lambda speed: False, 30.0) == 0.0
    assert largest_wind(lambda speed: True, 30.0) == 30.0
    assert largest_wind(lambda speed: speed <= 12.3, 30.0) == pytest.approx(12.3, abs=0.03)
