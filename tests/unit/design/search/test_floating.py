"""Weight and trim: which way she goes down, the buoyancy a tunnel costs, and what is already aboard."""

from __future__ import annotations

from math import pi

import pytest

from athwart.design.search import floating
from athwart.vessel.hydrostatics import RHO_FRESH, RHO_SALT, Weight
from tests.unit.design.checks._boats import brief, proposal
from tests.unit.design.search._tasks import unit


def _weight(x: float, mass: float = 100.0) -> tuple[Weight, ...]:
    return (Weight("thing", mass, x),)


def test_weight_forward_puts_the_bow_down_and_weight_aft_the_stern() -> None:
    boat = brief("1")
    bow, stern = floating.trim_of(boat, _weight(5.0)), floating.trim_of(boat, _weight(-6.5))
    assert bow.trim > 0 > stern.trim
    assert bow.bow_change > bow.stern_change
    assert stern.stern_change > stern.bow_change


def test_weight_at_the_centre_of_flotation_only_sinks_her() -> None:
    boat = brief("1")
    found = floating.trim_of(boat, _weight(floating.waterplane(boat).flotation))
    assert found.trim == pytest.approx(0.0, abs=1e-12)
    assert found.sinkage > 0


def test_she_sinks_by_mass_over_waterplane_and_density() -> None:
    boat = brief("1")
    plane = floating.waterplane(boat)
    found = floating.trim_of(boat, _weight(0.0, 164.0))
    assert found.sinkage == pytest.approx(164.0 / (1025.0 * 0.76 * 13.3 * 4.3), rel=2e-3)
    assert plane.water_density == RHO_SALT


def test_a_tunnel_floods_its_cylinder() -> None:
    boat = brief("1")
    row = unit("tunnel-24V-1550N")
    assert row.tunnel_diameter is not None
    expected = RHO_FRESH * pi / 4 * row.tunnel_diameter**2 * 0.78
    assert floating.flooded(boat.thruster("bow"), row, RHO_FRESH) == pytest.approx(expected, rel=1e-6)


def test_lost_buoyancy_counts_in_trim_but_is_no_mass_aboard() -> None:
    found = proposal("1").trim
    dry = sum(weight for weight in (proposal("1").lanes[0].unit.mass, proposal("1").banks[0].mass))
    assert found.lost_buoyancy > 20.0
    assert dry < found.mass < dry + 40.0
    assert found.sinkage == pytest.approx((found.mass + found.lost_buoyancy) / (1025.0 * 0.76 * 13.3 * 4.3), rel=5e-3)


def test_what_is_aboard_weighs_already() -> None:
    new, aboard = proposal("1"), proposal("7", {"thrusters[1]": None, "bank[1]": None, "network.trunk[3]": None})
    assert aboard.lanes[0].kept == "aboard"
    assert aboard.trim.mass < 0.5 * new.trim.mass


def test_a_bow_that_goes_down_gives_the_tunnel_more_cover() -> None:
    boat = brief("1")
    thruster = boat.thruster("bow")
    empty = floating.waterline_drop(boat, thruster, ())
    assert empty == pytest.approx(0.035)
    assert floating.waterline_drop(boat, thruster, _weight(5.0, 300.0)) < empty
    assert floating.waterline_drop(boat, thruster, _weight(-6.5, 300.0)) > empty


def test_no_lightest_state_means_the_loaded_waterline() -> None:
    boat = brief("1", {"boat.lightest": None})
    assert floating.waterline_drop(boat, boat.thruster("bow"), ()) == pytest.approx(0.0)
