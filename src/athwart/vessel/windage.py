"""What stands above the water and meets the wind: elements, and their sum.

An element is given as a box, as an outline or as an area with its centroid. Heights are kept per element, for the wind is not
the same at every height. Where nobody told the area seen from ahead it is taken as a share of the area seen from the side,
and the sum says for which elements.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from athwart.explain import formula
from athwart.numerics import polygons
from athwart.units.names import Metre, Ratio, SquareMetre

ElementKind = Literal["hull", "house", "mast", "rigging", "furled sail", "canvas", "dinghy", "people", "deck gear"]


@dataclass(frozen=True, slots=True)
class ShapeFactor:
    """Drag coefficients of a kind of element, and its area from ahead as a share of that from the side if nobody told it."""

    beam: Ratio
    ahead: Ratio
    frontal_share: Ratio
    source: str
    upper: Ratio | None = None


SHAPE_FACTORS: Mapping[ElementKind, ShapeFactor] = {
    "hull": ShapeFactor(0.70, 0.5, 0.3, "orc-hull-drag", upper=0.9),
    "house": ShapeFactor(1.0, 1.0, 0.4, "windage-shape-factors"),
    "mast": ShapeFactor(1.0, 1.0, 1.0, "yacht-design-textbook"),
    "rigging": ShapeFactor(1.2, 1.2, 1.0, "yacht-design-textbook"),
    "furled sail": ShapeFactor(1.1, 1.1, 0.8, "windage-shape-factors"),
    "canvas": ShapeFactor(1.2, 1.2, 1.0, "windage-shape-factors"),
    "dinghy": ShapeFactor(1.0, 1.0, 1.0, "windage-shape-factors"),
    "people": ShapeFactor(0.9, 0.9, 0.5, "windage-shape-factors"),
    "deck gear": ShapeFactor(1.2, 1.2, 1.0, "windage-shape-factors"),
}
"""Drag by kind of element; the shares from ahead are our judgement. ``upper`` is the value to take for the cautious case."""


@dataclass(frozen=True, slots=True)
class WindageElement:
    """One piece: places from amidships, heights above the waterline; ``length`` along the boat, nought if unknown."""

    name: str
    kind: ElementKind
    lateral_area: SquareMetre
    centroid_x: Metre
    centroid_height: Metre
    frontal_area: SquareMetre
    frontal_height: Metre
    frontal_assumed: bool = False
    length: Metre = 0.0

    def __post_init__(self) -> None:
        if self.lateral_area <= 0.0 or self.frontal_area < 0.0:
            raise ValueError(
                f"{self.name}: an area of {self.lateral_area:g} m² from the side and {self.frontal_area:g} m² from ahead"
            )
        if self.centroid_height <= 0.0 or self.frontal_height <= 0.0:
            raise ValueError(f"{self.name}: its centroid is not above the waterline; windage is what stands above the water")

    @property
    def shape(self) -> ShapeFactor:
        """Drag of its kind."""
        return SHAPE_FACTORS[self.kind]


@dataclass(frozen=True, slots=True)
class Windage:
    """The whole silhouette. ``centroid_x`` and ``centroid_height`` are of the area seen from the side."""

    elements: tuple[WindageElement, ...]
    length_overall: Metre
    lateral_area: SquareMetre = field(init=False)
    frontal_area: SquareMetre = field(init=False)
    centroid_x: Metre = field(init=False)
    centroid_height: Metre = field(init=False)

    def __post_init__(self) -> None:
        if not self.elements:
            raise ValueError("a silhouette needs one element or more")
        if self.length_overall <= 0.0:
            raise ValueError(f"a boat of {self.length_overall:g} m")
        areas = tuple(element.lateral_area for element in self.elements)
        for name, value in (
            ("lateral_area", sum(areas)),
            ("frontal_area", sum(element.frontal_area for element in self.elements)),
            ("centroid_x", centroid(areas, tuple(element.centroid_x for element in self.elements))),
            ("centroid_height", centroid(areas, tuple(element.centroid_height for element in self.elements))),
        ):
            object.__setattr__(self, name, value)

    @property
    def frontal_assumed(self) -> tuple[str, ...]:
        """Names of the elements whose area from ahead nobody told."""
        return tuple(element.name for element in self.elements if element.frontal_assumed)

    @property
    def mean_height(self) -> Metre:
        """Area over length, the height that stands for the ship in the coefficient of heel."""
        return self.lateral_area / self.length_overall


@formula("x̄", "m", "sum of area × place over sum of areas", source="own-arithmetic", kind="table")
def centroid(areas: Sequence[SquareMetre], places: Sequence[Metre]) -> Metre:
    """Centre of several areas in one direction.

    Parameters
    ----------
    areas : Areas of the elements. [m²]
    places : Place (or height) of the centre of each. [m]

    Examples
    --------
    A hull of 30 m² centred amidships and a house of 10 m² two metres aft of it:

    >>> centroid((30.0, 10.0), (0.0, -2.0))
    -0.5
    """
    if len(areas) != len(places) or not areas:
        raise ValueError(f"{len(areas)} areas and {len(places)} places")
    total = sum(areas)
    if total <= 0.0:
        raise ValueError("the areas sum to nothing")
    return sum(area * place for area, place in zip(areas, places, strict=True)) / total


@dataclass(frozen=True, slots=True)
class Rise:
    """How much further a hull stands out of the water than its silhouette was drawn.

    ``mean`` at ``about``, more forward of it by ``slope``. Places from amidships; negative where she lies deeper.
    """

    mean: Metre
    slope: Ratio
    about: Metre
    aft: Metre
    forward: Metre
    beam: Metre

    def at(self, place: Metre) -> Metre:
        """At a place along the boat."""
        return self.mean + self.slope * (place - self.about)


@formula(
    "ΔA", "m²", "(forward - aft) * (rise_aft + rise_forward) / 2", source="own-arithmetic", valid="wall-sided near the waterline"
)
def risen_area(aft: Metre, forward: Metre, rise_aft: Metre, rise_forward: Metre) -> SquareMetre:
    """Area that comes out of the water when a hull rises and trims.

    Parameters
    ----------
    aft : After end of the waterline, from amidships. [m]
    forward : Its forward end. [m]
    rise_aft : Of the hull out of the water there. [m]
    rise_forward : The same at the forward end. [m]

    Examples
    --------
    >>> round(risen_area(-6.0, 6.0, 0.05, 0.03), 3)
    0.48
    """
    return (forward - aft) * (rise_aft + rise_forward) / 2.0


def risen(shape: Windage, rise: Rise) -> Windage:
    """The silhouette above the waterline as the boat lies: the hull gains or loses a strip, everything is higher or lower.

    The strip is given to the largest hull element (the largest of all where none is a hull).

    Raises
    ------
    ValueError
        A hull that sinks until nothing is left of it.
    """
    hulls = [element for element in shape.elements if element.kind == "hull"] or list(shape.elements)
    largest = max(hulls, key=lambda element: element.lateral_area)
    found = []
    for element in shape.elements:
        up = rise.at(element.centroid_x)
        if element is not largest:
            found.append(
                replace(element, centroid_height=element.centroid_height + up, frontal_height=element.frontal_height + up)
            )
            continue
        low, high = rise.at(rise.aft), rise.at(rise.forward)
        length, middle = rise.forward - rise.aft, 0.5 * (rise.aft + rise.forward)
        strip = risen_area(rise.aft, rise.forward, low, high)
        area = element.lateral_area + strip
        moment = element.lateral_area * element.centroid_x + strip * middle + (high - low) * length**2 / 12.0
        above = element.lateral_area * (element.centroid_height + up) + length * (low * low + low * high + high * high) / 6.0
        ahead = element.frontal_area + rise.beam * rise.at(middle)
        found.append(
            replace(
                element,
                lateral_area=area,
                centroid_x=moment / area if area > 0.0 else 0.0,
                centroid_height=above / area if area > 0.0 else 0.0,
                frontal_area=max(ahead, 0.0),
                frontal_height=element.frontal_height + 0.5 * up,
            )
        )
    return Windage(tuple(found), shape.length_overall)


def box(
    name: str,
    kind: ElementKind,
    start: Metre,
    end: Metre,
    bottom: Metre,
    top: Metre,
    *,
    width: Metre | None = None,
    frontal_area: SquareMetre | None = None,
) -> WindageElement:
    """A rectangle seen from the side: ends from amidships in either order, bottom and top above the waterline."""
    if start == end or top <= bottom:
        raise ValueError(f"{name}: a box from {start:g} to {end:g} m and from {bottom:g} to {top:g} m high has no area")
    if bottom < 0.0:
        raise ValueError(f"{name}: its bottom lies {-bottom:g} m below the waterline; windage is what stands above the water")
    length, height = abs(end - start), top - bottom
    middle = 0.5 * (bottom + top)
    return _element(name, kind, length * height, 0.5 * (start + end), middle, width, height, frontal_area, middle, length)


def outline(
    name: str,
    kind: ElementKind,
    points: Sequence[tuple[Metre, Metre]],
    *,
    width: Metre | None = None,
    frontal_area: SquareMetre | None = None,
) -> WindageElement:
    """A polygon seen from the side: corners (place from amidships, height above the waterline)."""
    if (lowest := min(height for _, height in points)) < 0.0:
        raise ValueError(f"{name}: the outline reaches {-lowest:g} m below the waterline; windage is what stands above the water")
    if polygons.crosses_itself(points):
        raise ValueError(f"{name}: the outline crosses itself; give its corners in order round the edge")
    area = polygons.area(points)
    if area == 0.0:
        raise ValueError(f"{name}: the outline encloses no area")
    place, height = polygons.centroid(points)
    top = max(point[1] for point in points)
    length = max(point[0] for point in points) - min(point[0] for point in points)
    return _element(name, kind, area, place, height, width, top - lowest, frontal_area, 0.5 * (lowest + top), length)


def area_with_centroid(
    name: str,
    kind: ElementKind,
    lateral_area: SquareMetre,
    centroid_x: Metre,
    centroid_height: Metre,
    *,
    frontal_area: SquareMetre | None = None,
    length: Metre = 0.0,
) -> WindageElement:
    """An area measured elsewhere, with its centroid."""
    return _element(name, kind, lateral_area, centroid_x, centroid_height, None, 0.0, frontal_area, centroid_height, length)


def _element(
    name: str,
    kind: ElementKind,
    lateral_area: SquareMetre,
    place: Metre,
    height: Metre,
    width: Metre | None,
    vertical_extent: Metre,
    frontal_area: SquareMetre | None,
    frontal_height: Metre,
    length: Metre,
) -> WindageElement:
    assumed = frontal_area is None and width is None
    if frontal_area is None:
        share = SHAPE_FACTORS[kind].frontal_share
        frontal_area = lateral_area * share if width is None else width * vertical_extent
    return WindageElement(
        name, kind, lateral_area, place, height, frontal_area, height if assumed else frontal_height, assumed, length
    )
