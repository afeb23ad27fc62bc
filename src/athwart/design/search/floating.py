"""Weight and trim of the chosen parts, and how deep the tunnel then lies at the lightest waterline."""

from __future__ import annotations

from dataclasses import dataclass
from math import sin

from athwart.catalogue.records import ThrusterUnit
from athwart.design.brief import Brief, Thruster, TunnelPlace
from athwart.design.places import body_x, waterline_middle
from athwart.design.proposal import Bank, ChargingChoice, Trim
from athwart.design.requirements.hull import water_density
from athwart.design.search.chain import Chain
from athwart.thruster.immersion import immersion_factor
from athwart.thruster.tunnel import CONE_LOSS, GOOD_ROUNDING, LEG, USUAL_GRID, entry_loss, loss_sum, tunnel_factor
from athwart.units import Metre, Radian, Ratio
from athwart.vessel.hydrostatics import (
    TRANSOM_FLOTATION,
    Floating,
    Waterplane,
    Weight,
    flotation_from_offsets,
    lost_buoyancy,
    with_weights,
)
from athwart.vessel.windage import Rise

WATERPLANE: dict[str, float] = {
    "sailing yacht": 0.70,
    "barge": 0.92,
    "houseboat": 0.90,
    "workboat": 0.80,
    "motor yacht, planing": 0.80,
    "passenger boat": 0.78,
}
"""Waterplane coefficient by kind where the brief has none; others 0.76 (from memory, editable in the brief)."""
USUAL_WATERPLANE = 0.76
TRANSOM_KINDS = ("motor yacht, planing", "pilot boat", "workboat", "passenger boat", "motor yacht, displacement", "tender")
GOOD_LENGTH: Ratio = 3.0
"""Of a tunnel whose length nobody told, in diameters."""


@dataclass(frozen=True, slots=True)
class Load:
    """A lane's parts as weights."""

    thruster: Thruster
    chain: Chain


def waterplane(brief: Brief) -> Waterplane:
    """The boat's waterplane, from the brief or from her kind."""
    boat = brief.boat
    coefficient = boat.waterplane_coefficient or WATERPLANE.get(boat.kind, USUAL_WATERPLANE)
    flotation = -TRANSOM_FLOTATION * boat.length_waterline if boat.kind in TRANSOM_KINDS else 0.0
    density = water_density(brief)
    hulls, beam = (2, boat.hull_beam) if boat.hull_beam is not None else (1, boat.beam)
    offsets = tuple(sorted((body_x(brief, x), hulls * y) for x, y in boat.waterline_half_breadths))
    if offsets:
        flotation = flotation_from_offsets(offsets)
    return Waterplane(boat.length_waterline, hulls * beam, coefficient, flotation, density, offsets)


def rise(brief: Brief, found: tuple[Weight, ...], *, lightest: bool = True) -> Rise:
    """How far she stands out of the water beyond her silhouette as given: lightest state or loaded, with the new parts."""
    lies = floating(brief, found)
    boat, plane = brief.boat, lies.waterplane
    lower = boat.lightest.waterline_lower if lightest and boat.lightest is not None else 0.0
    middle = waterline_middle(brief)
    half = 0.5 * boat.length_waterline
    return Rise(
        lower - lies.sinkage,
        -lies.trim / boat.length_waterline,
        plane.flotation,
        middle - half,
        middle + half,
        plane.beam,
    )


def _place_x(brief: Brief, name: str, otherwise: float) -> float:
    place = brief.place(name)
    return body_x(brief, place.x) if place is not None else otherwise


def weights(
    brief: Brief, loads: tuple[Load, ...], banks: tuple[Bank, ...], charging: tuple[ChargingChoice, ...]
) -> tuple[Weight, ...]:
    """Everything that is new aboard, and the buoyancy that tunnels and boxes give up; parts already aboard weigh already."""
    density = waterplane(brief).water_density
    found: list[Weight] = []
    for load in loads:
        x = body_x(brief, load.thruster.tunnel.x)
        unit = load.chain.unit
        if not _unit_is_aboard(brief, load.thruster):
            found.append(Weight(f"unit {load.thruster.identity}", unit.mass, x))
            found.append(Weight(f"water in {load.thruster.identity}", flooded(load.thruster, unit, density), x))
        if load.chain.cable is not None and load.chain.cable.kept == "chosen":
            c = load.chain.cable
            bank_x = _place_x(brief, load.chain.bank.place if load.chain.bank else "", x)
            found.append(
                Weight(f"cable {load.thruster.identity}", c.cable.mass * c.parallel * (c.plus + c.minus), (x + bank_x) / 2)
            )
    found += [Weight(bank.name, bank.mass, _place_x(brief, bank.place, 0.0)) for bank in banks if bank.kept == "chosen"]
    for choice in charging:
        bank = next((b for b in banks if b.name == choice.bank), None)
        if choice.charger is not None and choice.kept == "chosen" and bank is not None:
            found.append(Weight(f"charger {choice.bank}", choice.charger.mass, _place_x(brief, bank.place, 0.0)))
    return tuple(found)


def _unit_is_aboard(brief: Brief, thruster: Thruster) -> bool:
    lanes = (brief.aboard.lanes.get(thruster.identity), brief.fixed.lanes.get(thruster.identity))
    return any(parts is not None and parts.unit is not None and parts.unit.row is not None for parts in lanes)


def flooded(thruster: Thruster, unit: ThrusterUnit, density: float) -> float:
    """Mass of water in a tunnel, or in the part of a retracting box below the waterline."""
    diameter = unit.tunnel_diameter
    if diameter is None:
        return 0.0
    if unit.housing == "retractable":
        length = unit.box_length or 2 * diameter
        return length * 1.2 * diameter * max(0.0, min(thruster.tunnel.axis_depth, 1.2 * diameter)) * density
    if thruster.tunnel.tunnel_length is None:
        return 0.0
    return lost_buoyancy(diameter, thruster.tunnel.tunnel_length, density)


def tunnel_share(place: TunnelPlace, diameter: Metre) -> Ratio:
    """Share of the catalogue's thrust that ends, length and grids of a tunnel leave; what is not given is taken as good."""
    if place.entry_cone:
        entry = CONE_LOSS
    else:
        entry = entry_loss(GOOD_ROUNDING if place.entry_radius is None else place.entry_radius / diameter)
    length = GOOD_LENGTH * diameter if place.tunnel_length is None else place.tunnel_length
    return tunnel_factor(loss_sum(entry, length, diameter, LEG, USUAL_GRID if place.grid else 0.0))


def depth_left(place: TunnelPlace, drop: Metre, diameter: Metre, heel: Radian) -> Ratio:
    """Share of the thrust left near the surface, at the shallower end of the tunnel as she heels; nought out of the water."""
    if not diameter:
        return 1.0
    try:
        return immersion_factor(place.axis_depth - drop - mouth_drop(place, diameter, heel), diameter)
    except ValueError:
        return 0.0


def mouth_drop(place: TunnelPlace, diameter: Metre, heel: Radian) -> Metre:
    """How much shallower the tunnel's end on the weather side lies when the boat heels."""
    length = GOOD_LENGTH * diameter if place.tunnel_length is None else place.tunnel_length
    return 0.5 * length * sin(abs(heel))


def floating(brief: Brief, found: tuple[Weight, ...]) -> Floating:
    """How the boat lies with the weights."""
    return with_weights(waterplane(brief), found)


def trim_of(brief: Brief, found: tuple[Weight, ...]) -> Trim:
    """The same as a record for the papers."""
    lies = floating(brief, found)
    plane = lies.waterplane
    water = sum(weight.mass for weight in found if weight.name.startswith("water in "))
    return Trim(
        sum(weight.mass for weight in found) - water,
        sum(weight.mass * (weight.place - plane.flotation) for weight in found),
        lies.sinkage,
        lies.trim,
        lies.bow,
        lies.stern,
        water,
    )


def waterline_drop(brief: Brief, thruster: Thruster, found: tuple[Weight, ...]) -> float:
    """How much higher the tunnel lies against the water at the lightest state, the chosen parts' trim counted."""
    lower = brief.boat.lightest.waterline_lower if brief.boat.lightest is not None else 0.0
    return lower - floating(brief, found).deeper_at(body_x(brief, thruster.tunnel.x))
