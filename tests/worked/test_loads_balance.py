"""Balances, trim and chance: OUR OWN ARITHMETIC."""

from __future__ import annotations

import pytest

from athwart.vessel import hydrostatics as h
from athwart.vessel.balance import bow_thrust_on_station, stern_thrust_on_station, thrust_about_pivot
from athwart.vessel.uncertainty import hold_probability, lever_sigma, need_sigma, thrust_sigma
from athwart.vessel.windage import box, centroid


def test_the_bow_with_the_stern_made_fast() -> None:
    """Own arithmetic: moment about the stern."""
    assert thrust_about_pivot(2000.0, 0.0, 5.04, -6.0) == pytest.approx(1086.96, abs=0.005)
    assert thrust_about_pivot(1.0, 0.0, 0.42, -0.5) == pytest.approx(0.543, abs=5e-4)


def test_station_by_hand() -> None:
    """Own arithmetic: 2 kN one metre forward of amidships, units 5 m forward and 4 m aft; moments about each unit."""
    assert bow_thrust_on_station(2000.0, 1.0, 5.0, -4.0) == pytest.approx(2000.0 * 5.0 / 9.0)
    assert stern_thrust_on_station(2000.0, 1.0, 5.0, -4.0) == pytest.approx(2000.0 * 4.0 / 9.0)


def test_trim_of_a_box() -> None:
    """Own arithmetic, exact: 20 by 6 m, salt water, half a tonne 8 m forward."""
    plane = h.Waterplane(20.0, 6.0, 1.0)
    assert plane.to_trim / 1e5 == pytest.approx(2.05, rel=1e-9)
    assert plane.to_sink / 1e5 == pytest.approx(1.23, rel=1e-9)
    floating = h.with_weights(plane, [h.Weight("anchor", 500.0, 8.0)])
    assert 100.0 * floating.trim == pytest.approx(1.9512, abs=5e-5)
    assert plane.to_trim / (plane.to_sink**2 / 6.0) * 1e5 == pytest.approx(8.1301, abs=5e-5)


@pytest.mark.parametrize(
    ("waterplane", "inertia"), [(0.65, 0.031863), (0.7, 0.036458), (0.75, 0.041667), (0.8, 0.047619), (1.0, 0.083333)]
)
def test_the_closed_form_of_a_waterplane(waterplane: float, inertia: float) -> None:
    """Own arithmetic."""
    assert h.inertia_coefficient(waterplane) == pytest.approx(inertia, abs=5e-7)


def test_the_closed_form_is_the_integral() -> None:
    """Own arithmetic: half-breadth 1 - |2x/L|^n summed in a thousand strips, n = 3, waterplane coefficient 3/4."""
    strips = 20_000
    inertia = sum((1.0 - abs(2.0 * x) ** 3) * x * x / strips for x in ((k + 0.5) / strips - 0.5 for k in range(strips)))
    assert h.inertia_coefficient(0.75) == pytest.approx(inertia, rel=1e-6)


def test_a_boat_of_eleven_metres() -> None:
    """Own arithmetic: 120 kg of bank and thruster 5 m ahead of the centre of flotation."""
    plane = h.Waterplane(11.0, 3.6, 0.70)
    assert plane.to_trim / 1e5 == pytest.approx(0.163, abs=5e-4)
    assert plane.to_sink / 1e5 == pytest.approx(0.284, abs=5e-4)
    floating = h.with_weights(plane, [h.Weight("bank and unit", 120.0, 5.0)])
    assert 100.0 * floating.trim == pytest.approx(3.7, abs=0.05)
    assert 100.0 * floating.sinkage == pytest.approx(0.42, abs=0.005)
    assert 100.0 * floating.bow == pytest.approx(2.3, abs=0.05)
    assert floating.stern < 0.0


def test_a_tunnel_takes_buoyancy_away() -> None:
    """Own arithmetic: a cylinder of 0.2 m by 1 m holds 31.4 litres."""
    assert h.lost_buoyancy(0.2, 1.0, 1000.0) == pytest.approx(31.4159, abs=1e-4)


def test_equal_thrust_and_need_hold_every_second_time() -> None:
    """Own arithmetic; and one deviate more holds 84 times in a hundred."""
    assert hold_probability(1000.0, 1000.0, 0.1, 0.2) == pytest.approx(0.5)
    assert hold_probability(1000.0 * 2.718281828459045**0.5, 1000.0, 0.3, 0.4) == pytest.approx(0.8413, abs=5e-5)


def test_a_centroid_by_hand() -> None:
    """Own arithmetic: hull of 12 by 1.2 m, house of 4 by 1 m on it, 1 m aft of amidships."""
    hull, house = box("hull", "hull", -6.0, 6.0, 0.0, 1.2), box("house", "house", -3.0, 1.0, 1.2, 2.2)
    areas = (hull.lateral_area, house.lateral_area)
    assert areas == pytest.approx((14.4, 4.0))
    assert centroid(areas, (hull.centroid_height, house.centroid_height)) == pytest.approx((14.4 * 0.6 + 4.0 * 1.7) / 18.4)
    assert centroid(areas, (hull.centroid_x, house.centroid_x)) == pytest.approx(-4.0 / 18.4)


def test_spreads_add_by_their_squares_and_speeds_count_twice() -> None:
    """Own arithmetic."""
    assert need_sigma(0.12, 0.10, 0.07, 0.07, 0.08, 0.10) == pytest.approx((0.0144 + 0.01 + 2 * 0.0196 + 0.0256 + 0.01) ** 0.5)
    assert thrust_sigma(0.10, 0.05, 0.10) == pytest.approx(0.03**0.5)
    assert lever_sigma(12.0, 0.0, -6.0) == pytest.approx(0.1)
