"""Elements of windage and their sum."""

from __future__ import annotations

import pytest

from athwart.vessel.windage import SHAPE_FACTORS, Windage, WindageElement, area_with_centroid, box, outline


def test_a_box_and_its_outline_are_the_same() -> None:
    a = box("hull", "hull", 6.0, -6.0, 0.0, 1.2, width=4.0)
    b = outline("hull", "hull", [(-6.0, 0.0), (6.0, 0.0), (6.0, 1.2), (-6.0, 1.2)], width=4.0)
    assert a.lateral_area == b.lateral_area == pytest.approx(14.4)
    assert (a.centroid_x, a.centroid_height) == pytest.approx((b.centroid_x, b.centroid_height))
    assert a.frontal_area == b.frontal_area == pytest.approx(4.8)
    assert a.length == b.length == 12.0


def test_an_area_from_ahead_that_nobody_told_is_assumed_and_named() -> None:
    told = area_with_centroid("house", "house", 10.0, -1.0, 2.0, frontal_area=5.0)
    assumed = area_with_centroid("hull", "hull", 20.0, 0.0, 0.7)
    assert assumed.frontal_area == pytest.approx(0.3 * 20.0)
    assert Windage((told, assumed), 14.0).frontal_assumed == ("hull",)


def test_the_sum_of_two_elements() -> None:
    boat = Windage(
        (area_with_centroid("hull", "hull", 30.0, 0.0, 0.7), area_with_centroid("house", "house", 10.0, -2.0, 1.9)), 14.0
    )
    assert boat.lateral_area == 40.0
    assert boat.centroid_x == -0.5
    assert boat.centroid_height == pytest.approx(1.0)
    assert boat.mean_height == pytest.approx(40.0 / 14.0)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: box("keel", "hull", 0.0, 1.0, -0.5, 1.0), "below the waterline"),
        (lambda: box("flat", "hull", 0.0, 0.0, 0.0, 1.0), "no area"),
        (lambda: outline("sheer", "hull", [(0.0, -0.2), (1.0, 0.0), (1.0, 1.0)]), "below the waterline"),
        (lambda: outline("bow-tie", "hull", [(0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 1.0)]), "crosses itself"),
        (lambda: outline("line", "hull", [(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]), "no area"),
        (lambda: area_with_centroid("mast", "mast", -1.0, 0.0, 6.0), "area"),
        (lambda: area_with_centroid("mast", "mast", 1.0, 0.0, 0.0), "above the water"),
        (lambda: Windage((), 12.0), "one element"),
        (lambda: Windage((area_with_centroid("hull", "hull", 1.0, 0.0, 1.0),), 0.0), "a boat of 0"),
    ],
)
def test_windage_that_cannot_be_is_refused(make: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        make()  # type: ignore[operator]


def test_every_kind_of_element_has_its_drag() -> None:
    for kind, shape in SHAPE_FACTORS.items():
        element = area_with_centroid("x", kind, 1.0, 0.0, 1.0)
        assert isinstance(element, WindageElement)
        assert element.shape is shape
        assert 0.4 <= shape.beam <= 1.3
