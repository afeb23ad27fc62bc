"""Waterplanes from offsets against closed forms, heel, and the silhouette of a boat that lies higher, deeper or trimmed."""

from __future__ import annotations

from math import degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from athwart.vessel.hydrostatics import (
    Waterplane,
    area_from_offsets,
    flotation_from_offsets,
    heel,
    inertia_coefficient,
    inertia_from_offsets,
)
from athwart.vessel.windage import Rise, Windage, area_with_centroid, box, outline, risen


def test_offsets_of_a_box_are_the_box() -> None:
    shape = ((-10.0, 3.0), (0.0, 3.0), (10.0, 3.0))
    assert area_from_offsets(shape) == pytest.approx(120.0)
    assert flotation_from_offsets(shape) == pytest.approx(0.0)
    assert inertia_from_offsets(shape) == pytest.approx(6.0 * 20.0**3 / 12.0)


def test_offsets_of_a_triangle_have_its_centroid_and_inertia() -> None:
    shape = ((0.0, 2.0), (9.0, 0.0))
    assert area_from_offsets(shape) == pytest.approx(18.0)
    assert flotation_from_offsets(shape) == pytest.approx(3.0)
    assert inertia_from_offsets(shape) == pytest.approx(4.0 * 9.0**3 / 36.0)


def test_a_fine_set_of_offsets_gives_the_closed_form_it_was_cut_from() -> None:
    """Half breadth 1 - |2x/L|^n has a waterplane coefficient of n/(n+1), and the closed form is exact for it."""
    n, length, beam = 2.5, 12.0, 4.0
    places = [-6.0 + 12.0 * k / 400 for k in range(401)]
    shape = [(x, 0.5 * beam * (1.0 - abs(2.0 * x / length) ** n)) for x in places]
    assert inertia_from_offsets(shape) == pytest.approx(inertia_coefficient(n / (n + 1.0)) * beam * length**3, rel=2e-4)


def test_a_waterplane_takes_its_offsets_where_it_has_them() -> None:
    plain = Waterplane(20.0, 6.0, 1.0)
    drawn = Waterplane(20.0, 6.0, 0.7, offsets=((-10.0, 3.0), (10.0, 3.0)))
    assert (drawn.to_sink, drawn.to_trim) == pytest.approx((plain.to_sink, plain.to_trim))


@pytest.mark.parametrize("shape", [((0.0, 1.0),), ((0.0, 1.0), (0.0, 1.0)), ((0.0, -1.0), (1.0, 1.0))])
def test_offsets_that_cannot_be_are_refused(shape: tuple[tuple[float, float], ...]) -> None:
    with pytest.raises(ValueError, match=r"waterline|half breadth"):
        area_from_offsets(shape)


def test_heel_is_the_righting_arm() -> None:
    assert degrees(heel(1000.0 * 9.80665 * 0.1, 1000.0, 1.0)) == pytest.approx(5.739, abs=1e-3)
    with pytest.raises(ValueError, match="more than 30 degrees"):
        heel(1e6, 1000.0, 0.5)


HULL = box("hull", "hull", -6.0, 6.0, 0.0, 1.2, width=4.0)
BOAT = Windage((HULL, area_with_centroid("house", "house", 6.0, -1.0, 1.9, frontal_area=3.0)), 12.0)


def test_a_hull_that_rises_evenly_is_the_taller_box() -> None:
    up = risen(BOAT, Rise(0.1, 0.0, 0.0, -6.0, 6.0, 4.0))
    tall = box("hull", "hull", -6.0, 6.0, 0.0, 1.3, width=4.0)
    assert up.elements[0].lateral_area == pytest.approx(tall.lateral_area)
    assert up.elements[0].centroid_height == pytest.approx(tall.centroid_height)
    assert up.elements[0].frontal_area == pytest.approx(tall.frontal_area)
    assert up.elements[1].centroid_height == pytest.approx(2.0)


def test_a_hull_that_trims_is_the_outline_it_then_shows() -> None:
    slope = 0.02
    up = risen(BOAT, Rise(0.0, slope, 0.0, -6.0, 6.0, 4.0))
    low, high = -6.0 * slope, 6.0 * slope
    shown = outline("hull", "hull", [(-6.0, 0.0), (6.0, 0.0), (6.0, 1.2 + high), (-6.0, 1.2 + low)], width=4.0)
    assert up.elements[0].lateral_area == pytest.approx(shown.lateral_area)
    assert up.elements[0].centroid_x == pytest.approx(shown.centroid_x)
    assert up.elements[0].centroid_height == pytest.approx(shown.centroid_height, rel=2e-3)


@given(st.floats(-0.2, 0.3), st.floats(-0.01, 0.01))
def test_rising_and_sinking_again_changes_nothing(mean: float, slope: float) -> None:
    there = risen(BOAT, Rise(mean, slope, 0.5, -6.0, 6.0, 4.0))
    back = risen(there, Rise(-mean, -slope, 0.5, -6.0, 6.0, 4.0))
    assert back.lateral_area == pytest.approx(BOAT.lateral_area)
    assert back.centroid_x == pytest.approx(BOAT.centroid_x, abs=1e-9)


def test_a_hull_that_sinks_away_is_refused() -> None:
    with pytest.raises(ValueError, match="an area of"):
        risen(BOAT, Rise(-1.3, 0.0, 0.0, -6.0, 6.0, 4.0))
