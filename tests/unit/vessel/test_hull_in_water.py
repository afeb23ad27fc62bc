"""Added mass, shallow water and the hull below the water from few data or an outline."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest

from athwart.errors import NotComputed
from athwart.vessel.added_mass import (
    Inertia,
    clarke_yaw_added_inertia,
    clarke_yaw_bracket,
    fin_added_mass,
    first_pivot,
    munk_moment,
    strip_moments,
    surge_added_mass,
    sway_added_mass,
)
from athwart.vessel.shallow import shallow_coefficient, shallow_factor
from athwart.vessel.underwater import FORMS, Dimensions, hull_in_water, surge_drag

YACHT = Dimensions("motor yacht, displacement", 13.0, 4.2, 1.1, 16_000.0)


def test_strips_of_one_draught_are_the_closed_form() -> None:
    m0, m1, m2 = strip_moments(((-6.0, 6.0, 0.65),), 1.0, 1025.0)
    assert m0 == pytest.approx(sway_added_mass(0.65, 12.0))
    assert m0 / 0.9 == pytest.approx(8163.0, rel=1e-4)
    assert m2 / 0.9 == pytest.approx(97956.4, rel=1e-4)
    assert m1 == pytest.approx(0.0)


def test_surge_added_mass_of_a_hundred_metre_ship() -> None:
    assert surge_added_mass(16_000.0, 100.0) == pytest.approx(2_811_604.7, rel=1e-5)


def test_a_slender_fin_carries_the_circle_of_its_chord() -> None:
    assert fin_added_mass(0.2, 20.0) == pytest.approx(1025.0 * pi / 4.0 * 0.2**2 * 20.0, rel=1e-4)


@pytest.mark.parametrize(("ratio", "bracket"), [(0.25, 0.028), (0.30, 0.0115), (0.33, 0.0016), (0.35, -0.005), (0.40, -0.0215)])
def test_clarkes_bracket_falls_below_nought_for_boats(ratio: float, bracket: float) -> None:
    assert clarke_yaw_bracket(0.4, 4.0, ratio) == pytest.approx(bracket, abs=1e-4)


def test_clarkes_regression_is_refused_for_a_beamy_boat() -> None:
    with pytest.raises(NotComputed, match=r"beam under 0\.25"):
        clarke_yaw_added_inertia(0.4, 3.9, 0.9, 12.0)
    assert clarke_yaw_added_inertia(0.6, 6.5, 1.6, 36.0) > 0.0


@pytest.mark.parametrize(
    "wrong", [(-1.0, 0.0, 0.0, 9.0, 0.0, 0.0), (1.0, 0.0, 0.0, 9.0, 0.0, 3.01), (1.0, 0.0, 0.0, -9.0, 0.0, 0.0)]
)
def test_an_inertia_no_body_has_is_refused(wrong: tuple[float, ...]) -> None:
    with pytest.raises(NotComputed, match="no body has"):
        Inertia(*wrong)


def test_first_pivot_is_radius_squared_over_lever() -> None:
    inertia = Inertia(1.0, 0.0, 0.0, 0.25**2, 0.0)
    assert first_pivot(inertia, 0.45) == pytest.approx(-0.13889, rel=1e-4)


def test_munk_turns_her_across_her_way() -> None:
    assert munk_moment(1e3, 8e3, 1.0, 0.5) < 0.0
    assert munk_moment(1e3, 8e3, 1.0, -0.5) > 0.0
    assert munk_moment(1e3, 8e3, 0.0, 0.5) == 0.0


@pytest.mark.parametrize(("ratio", "factor"), [(3.5, 1.23), (1.7, 1.96), (1.04, 3.56)])
def test_shallow_water_factor(ratio: float, factor: float) -> None:
    assert shallow_factor(1.0 / ratio, 0.85) == pytest.approx(factor, abs=0.01)


def test_no_water_under_the_keel_is_refused() -> None:
    with pytest.raises(ValueError, match="clear of the ground"):
        shallow_coefficient(0.6, 1.01)
    with pytest.raises(NotComputed, match="no water under the keel"):
        hull_in_water(Dimensions("barge", 20.0, 4.0, 1.0, 50_000.0, depth=1.0))


@pytest.mark.parametrize("kind", sorted(FORMS))
def test_every_kind_has_a_hull_a_body_could_have(kind: str) -> None:
    for length, beam, draught, mass in ((7.0, 2.5, 0.5, 2_500.0), (13.0, 4.2, 1.1, 16_000.0), (38.0, 7.8, 2.4, 240_000.0)):
        hull = hull_in_water(Dimensions(kind, length, beam, draught, mass))
        assert hull.inertia.is_positive_definite
        assert abs(hull.flow.centre) < 0.2 * length
        assert 0.1 < hull.inertia.sway_added / mass < 2.0
        plate = hull.flow.lateral_drag_area / (length * draught)
        assert 0.1 < plate < 1.4
        assert hull.notes


def test_an_outline_gives_the_depths_and_a_narrower_band() -> None:
    outline = ((-6.4, 0.3), (-3.0, 0.8), (2.0, 0.8), (5.5, 0.5), (6.5, 0.1))
    given = hull_in_water(Dimensions(YACHT.kind, 13.0, 4.2, 1.1, 16_000.0, outline=outline))
    assumed = hull_in_water(YACHT)
    assert given.by_outline
    assert not assumed.by_outline
    assert given.sigma < assumed.sigma
    assert "profile" in given.notes[0]
    assert given.draught == pytest.approx(0.8, abs=0.01)


def test_an_outline_beyond_the_waterline_is_refused() -> None:
    with pytest.raises(NotComputed, match="no depth"):
        hull_in_water(Dimensions(YACHT.kind, 13.0, 4.2, 1.1, 16_000.0, outline=((20.0, 1.0), (22.0, 1.0))))


def test_shallow_water_multiplies_drag_and_added_mass_and_says_so() -> None:
    deep = hull_in_water(YACHT)
    shoal = hull_in_water(Dimensions(YACHT.kind, 13.0, 4.2, 1.1, 16_000.0, depth=1.5))
    factor = shoal.shallow
    assert factor == pytest.approx(shallow_factor(shoal.draught / 1.5)), "the hull proper, by the formula as published"
    assert factor > 1.5
    drag = shoal.flow.lateral_drag_area / deep.flow.lateral_drag_area
    assert factor <= drag <= shallow_factor(1.1 / 1.5), "keel and skeg come nearer to the ground than the hull"
    assert shoal.inertia.sway_added == pytest.approx(factor * deep.inertia.sway_added)
    assert any("of the hull's" in note and "fitted" in note for note in shoal.notes)
    assert hull_in_water(Dimensions(YACHT.kind, 13.0, 4.2, 1.1, 16_000.0, depth=20.0)).shallow == pytest.approx(1.0, abs=0.02)


CATAMARAN = Dimensions("catamaran", 12.0, 1.6, 0.8, 9_000.0, hulls=2, spacing=4.8)


def test_two_hulls_have_twice_the_drag_and_added_mass_of_one() -> None:
    one = hull_in_water(replace(CATAMARAN, hulls=1, displacement=4_500.0))
    two = hull_in_water(CATAMARAN)
    assert two.flow.lateral_drag_area == pytest.approx(2.0 * one.flow.lateral_drag_area)
    assert two.inertia.sway_added == pytest.approx(2.0 * one.inertia.sway_added)
    assert two.inertia.surge_added == pytest.approx(2.0 * one.inertia.surge_added)
    assert two.surge_area == pytest.approx(2.0 * one.surge_area)
    assert two.sigma > one.sigma
    assert any("2 hulls" in note for note in two.notes)


def test_hulls_apart_turn_harder_by_the_parallel_axis_theorem() -> None:
    near, far = hull_in_water(replace(CATAMARAN, spacing=0.0)), hull_in_water(CATAMARAN)
    assert far.inertia.yaw - near.inertia.yaw == pytest.approx(9_000.0 * 2.4**2)
    assert far.inertia.yaw_added - near.inertia.yaw_added == pytest.approx(far.inertia.surge_added * 2.4**2)


def test_a_kind_that_nobody_modelled_is_outside_validity() -> None:
    with pytest.raises(NotComputed, match="outside validity"):
        hull_in_water(replace(CATAMARAN, kind="hovercraft"))


def test_surge_drag_opposes_the_way_she_goes() -> None:
    assert surge_drag(1.0, 4.0, 0.8) < 0.0 < surge_drag(-1.0, 4.0, 0.8)
