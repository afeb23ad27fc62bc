"""The link between a bank's negative and the ship's: one tie, sized for the fault that the fuses let through."""

from __future__ import annotations

from dataclasses import replace

from athwart.catalogue.records import Catalogue
from athwart.design import states
from athwart.design.brief import Brief
from athwart.design.proposal import Bank, ChargingChoice, Lane
from athwart.design.search import aboard
from athwart.network.ground import link_size
from athwart.power.fuse import opening_band
from athwart.power.heating import adiabatic_constant, insulation_for
from athwart.units import SquareMetre

INSULATION = 378.15


def with_link(
    brief: Brief, catalogue: Catalogue, lane: Lane, banks: tuple[Bank, ...], charge: tuple[ChargingChoice, ...], choosing: bool
) -> Lane:
    """The lane with the area of its common-negative link, None where the bank stays isolated or is the ship's own."""
    bank = next((entry for entry in banks if entry.name == lane.bank), None)
    part = aboard.given(brief, lane.thruster.identity).parts
    if bank is None or lane.cable is None:
        return lane
    if part.negative_link is not None:
        return replace(lane, negative_link_area=part.negative_link)
    if not choosing or brief.supply.common_negative == "isolated":
        return lane
    if any(battery.name == bank.name for battery in brief.supply.batteries):
        return lane
    largest = max(lane.cable.area, *(c.cable.area for c in charge if c.bank == bank.name and c.cable is not None), 0.0)
    let_through = 0.0
    if lane.fuse is not None:
        current = bank.fault_current_most
        time = opening_band(lane.fuse.family, lane.fuse.fuse.rating, current).most
        let_through = current**2 * min(time, 5.0)
    constant = adiabatic_constant(states.WARM, insulation_for(INSULATION).final)
    sizes = link_sizes(brief, catalogue)
    try:
        return replace(lane, negative_link_area=link_size(largest, let_through, constant, sizes).area)
    except ValueError:
        return replace(lane, negative_link_area=max(sizes))


def link_sizes(brief: Brief, catalogue: Catalogue) -> tuple[SquareMetre, ...]:
    """Areas a link may have: marine cable of the rule set's gauge, thin to thick."""
    awg = brief.choices.rule_set == "us"
    return tuple(sorted({c.area for c in catalogue.cables if c.marine and ("AWG" in c.gauge.upper()) == awg}))
