"""The hull below the water of a brief: as loaded, and in the lightest state."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from athwart.design.brief import Brief
from athwart.design.places import body_x, waterline_middle
from athwart.units import KilogramPerCubicMetre
from athwart.vessel.hydrostatics import RHO_FRESH, RHO_SALT
from athwart.vessel.underwater import Dimensions, HullInWater, hull_in_water


def water_density(brief: Brief) -> KilogramPerCubicMetre:
    """Of salt or fresh water."""
    return RHO_FRESH if brief.water.kind == "fresh" else RHO_SALT


def dimensions(brief: Brief) -> Dimensions:
    """What the brief knows of the hull, loaded; places from the middle of the waterline."""
    boat = brief.boat
    shift = waterline_middle(brief)
    return Dimensions(
        boat.kind,
        boat.length_waterline,
        boat.hull_beam or boat.beam,
        boat.draught,
        boat.displacement,
        water_density(brief),
        brief.water.depth,
        tuple((body_x(brief, x) - shift, depth) for x, depth in boat.underwater),
        hulls=1 if boat.hull_beam is None else 2,
        spacing=boat.hull_spacing or 0.0,
    )


@lru_cache(maxsize=32)
def _hull(d: Dimensions) -> HullInWater:
    return hull_in_water(d)


def loaded(brief: Brief) -> HullInWater:
    """The hull as loaded.

    Raises
    ------
    NotComputed
        A kind of boat outside the models, or no water under her keel.
    """
    return _hull(dimensions(brief))


def lightest(brief: Brief) -> HullInWater:
    """The hull in the lightest state the brief names, else as loaded."""
    boat, d = brief.boat, dimensions(brief)
    if boat.lightest is None:
        return _hull(d)
    lower = boat.lightest.waterline_lower
    return _hull(
        replace(
            d,
            draught=max(boat.draught - lower, 0.3 * boat.draught),
            displacement=boat.lightest.displacement,
            outline=tuple((x, max(depth - lower, 0.0)) for x, depth in d.outline),
        )
    )
