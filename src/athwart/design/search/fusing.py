"""The main fuse of a lane: smallest rating that carries the longest run and protects cable and bank.

Questions in a stated order, each kept with its figure: carries the run; rule's ceiling for the conductor; rule's volts; breaks
the largest fault; opens at the smallest within 5 s or what the cable bears; protects the cable at every current between.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from math import inf

from athwart.catalogue.records import Cable, Catalogue, Fuse, FuseFamily
from athwart.design import states
from athwart.design.brief import Brief
from athwart.design.limits import Limit
from athwart.design.proposal import FuseChoice, Keep
from athwart.design.search.cabling import thermal
from athwart.power import fuse as law
from athwart.power import heating
from athwart.power.rules import RULE_SETS, fuse_ceiling
from athwart.units import Ampere, Kelvin, Metre, Second, Volt

FROM_SOURCE: Metre = 0.15
"""Where the main fuse is put: along the conductor from the bank's positive (own judgement, inside both rule sets)."""
ADIABATIC_TO: Second = 5.0
LEAST_RATING = 0.8
"""Rating over the run's current, however slow the fuse: bursts follow one another (from memory: 0.8 to 1.0 for slow types)."""
OVERLOAD_BELOW_LOCKED = 0.9
"""The least overload that only the fuse ends: a little below the locked propeller's current; smaller ones are the unit's own
thermal protection and the ceiling by ampacity (own judgement)."""


@dataclass(frozen=True, slots=True)
class FuseDuty:
    """What the fuse has to do."""

    run_current: Ampere
    run_time: Second
    largest_fault: Ampere
    smallest_fault: Ampere
    volts: Volt
    ampacity: Ampere
    air: Kelvin
    locked: Ampere = 0.0


@lru_cache(maxsize=512)
def withstand(cable: Cable, parallel: int, start: Kelvin) -> Callable[[Ampere], Second]:
    """Seconds the cable bears a current: transient to its rated temperature, adiabatic to its final one below 5 s."""
    node = thermal(cable)
    constant = heating.adiabatic_constant(start, node.insulation.final)

    def bears(current: Ampere) -> Second:
        each = current / parallel
        short = heating.adiabatic_time(each, cable.area, constant)
        if short <= ADIABATIC_TO:
            return short
        slow = heating.time_to_temperature(
            node.insulation.final, each, node.resistance_20, node.thermal_resistance, node.heat_capacity, start, start
        )
        return max(ADIABATIC_TO, slow)

    return bears


def _limits(
    brief: Brief, family: FuseFamily, rating: Ampere, duty: FuseDuty, cable: Cable, parallel: int, everything: bool
) -> tuple[Limit, ...]:
    rules = RULE_SETS[brief.choices.rule_set]
    found: list[Limit] = []

    def keep(name: str, value: float, limit: float, passed: bool) -> bool:
        found.append((name, value, limit, passed))
        return passed or everything

    least_rating = LEAST_RATING * duty.run_current
    if not keep("rating over the run's current, A", rating, least_rating, rating >= least_rating):
        return tuple(found)
    carries = law.carries_run(family, rating, duty.run_current, duty.run_time, law.ambient_derating(duty.air))
    if not keep("carries the longest run, s", carries.value, carries.limit, carries.passed):
        return tuple(found)
    ceiling = fuse_ceiling(rules, duty.ampacity, duty.volts)
    if not keep("rating within the conductor's by the rule, A", rating, ceiling, rating <= ceiling * (1 + 1e-9)):
        return tuple(found)
    if not keep("rated volts, V", duty.volts, family.volts_most, duty.volts <= family.volts_most + 1e-9):
        return tuple(found)
    breaks = law.breaks_fault(family, duty.volts, duty.largest_fault)
    if not keep("breaking capacity over the largest fault, A", duty.largest_fault, breaks.value, breaks.passed):
        return tuple(found)
    bears = withstand(cable, parallel, duty.air)
    within = min(law.FAULT_OPENS_WITHIN, bears(duty.smallest_fault))
    opens = law.opens_at(family, rating, duty.smallest_fault, within)
    if not keep("opens at the smallest fault, s", opens.value, opens.limit, opens.passed):
        return tuple(found)
    least = OVERLOAD_BELOW_LOCKED * min(duty.locked, duty.smallest_fault)
    protects = law.protects_cable(family, rating, bears, duty.largest_fault, least_overload=least)
    keep("opens before the cable suffers, s", protects.value, protects.limit, protects.passed)
    return tuple(found)


def choose(
    brief: Brief,
    catalogue: Catalogue,
    duty: FuseDuty,
    cable: Cable,
    parallel: int,
    locked_current: Ampere,
    *,
    kept: tuple[Fuse, Keep, Metre] | None = None,
    ignition: bool = False,
) -> tuple[FuseChoice | None, tuple[Limit, ...]]:
    """The fuse taken and, where none is, the limits of the one that came furthest. A fixed fuse is taken whatever it breaks."""
    furthest: tuple[Limit, ...] = ()
    pool: list[tuple[Fuse, Keep, Metre]] = [kept] if kept is not None else []
    if kept is None or kept[1] != "fixed":
        rows = [fuse for fuse in catalogue.fuses if fuse.rating >= LEAST_RATING * duty.run_current]
        pool += [(fuse, "chosen", FROM_SOURCE) for fuse in sorted(rows, key=lambda f: (f.rating, f.price, f.id))]
    for fuse, keep, distance in pool:
        family = catalogue.fuse_families[fuse.family]
        if ignition and not family.ignition_protected and keep != "fixed":
            continue
        fixed = keep == "fixed"
        limits = _limits(brief, family, fuse.rating, duty, cable, parallel, fixed)
        if all(limit[3] for limit in limits) or fixed:
            return (
                FuseChoice(
                    fuse,
                    family,
                    keep,
                    distance,
                    limits,
                    law.opening_band(family, fuse.rating, duty.smallest_fault).most,
                    law.opening_band(family, fuse.rating, locked_current).most if locked_current > 0 else inf,
                ),
                limits,
            )
        if len(limits) > len(furthest) or keep != "chosen":
            furthest = limits
    return None, furthest


def judged_alone(
    brief: Brief,
    catalogue: Catalogue,
    duty: FuseDuty,
    cable: Cable,
    parallel: int,
    locked_current: Ampere,
    fuse: Fuse,
    keep: Keep,
    distance: Metre,
) -> FuseChoice:
    """A fuse that is there, judged on every question, kept whatever it breaks."""
    family = catalogue.fuse_families[fuse.family]
    return FuseChoice(
        fuse,
        family,
        keep,
        distance,
        _limits(brief, family, fuse.rating, duty, cable, parallel, True),
        law.opening_band(family, fuse.rating, duty.smallest_fault).most,
        law.opening_band(family, fuse.rating, locked_current).most if locked_current > 0 else inf,
    )


def start_temperature(air: Kelvin) -> Kelvin:
    """Conductor before a fault: at the air's temperature plus what a docking leaves, at most the rated one (own judgement)."""
    return max(air, states.CONDUCTOR_HOT)
