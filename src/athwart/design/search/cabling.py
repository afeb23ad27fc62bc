"""The cable of a lane: candidates from small to large, and the limits that each must keep.

Five limits, all printed with their figures: the rule set's volts lost at rated current; the rule set's continuous current
against the root mean square of a docking; the conductor's temperature after the longest run; what an engine space allows;
and, with the fuse known, the adiabatic limit at the largest fault (:mod:`.fusing`). Terminal volts are judged by the lane.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from athwart.catalogue.records import Cable, Catalogue, ThrusterUnit
from athwart.design import states
from athwart.design.brief import Brief
from athwart.design.limits import Limit
from athwart.design.places import RunOf
from athwart.explain import formula
from athwart.power import heating
from athwart.power.ampacity import Ampacity, ampacity, may_enter_engine_space
from athwart.power.conductor import metric_rule_voltage_drop, route_resistance, us_rule_voltage_drop
from athwart.power.rules import RULE_SETS, RuleSet
from athwart.units import Ampere, Kelvin, Ohm, Ratio, Second, Volt

AIR: Kelvin = 303.15
"""Air around the tables' conductors; engine spaces are 20 or 30 K warmer by the rule set."""
LEAST_AREA = 10e-6
"""Smallest conductor a thruster lane is given."""


@dataclass(frozen=True, slots=True)
class Judged:
    """A cable with its limits kept or broken."""

    cable: Cable
    parallel: int
    limits: tuple[Limit, ...]
    ampacity: Ampacity | None

    @property
    def passes(self) -> bool:
        """Whether every limit is kept."""
        return all(limit[3] for limit in self.limits)


@formula("I_rms", "A", "current * sqrt(min(1, on_time / cycle_time))", source="own-arithmetic", valid="equal bursts and pauses")
def duty_current(current: Ampere, on_time: Second, cycle_time: Second) -> Ampere:
    """Steady current that heats like the bursts of a docking.

    Parameters
    ----------
    current : During a burst. [A]
    on_time : Length of a burst. [s]
    cycle_time : Burst and pause. [s]

    Notes
    -----
    Valid while a cycle is short against the cable's time constant; the longest single run is judged apart.

    Examples
    --------
    >>> round(duty_current(340.0, 5.0, 20.0), 1)
    170.0
    """
    return float(current * min(1.0, on_time / cycle_time) ** 0.5)


def candidates(catalogue: Catalogue, brief: Brief, kept: tuple[Cable, int] | None = None) -> Iterator[tuple[Cable, int]]:
    """(cable, number in parallel) by total area, then fewer in parallel, then cheaper.

    US rules take AWG sizes where there are any.
    """
    awg = brief.choices.rule_set == "us"
    rows = [cable for cable in catalogue.cables if cable.area >= LEAST_AREA and cable.marine]
    of_kind = [cable for cable in rows if ("AWG" in cable.gauge.upper()) == awg] or rows
    pool = [
        (cable, n)
        for cable in of_kind
        for n in range(1, brief.choices.cable_most_in_parallel + 1)
        if n == 1 or cable.area >= 34e-6
    ]
    if kept is not None:
        yield kept
    yield from sorted(pool, key=lambda entry: (round(entry[0].area * entry[1] * 1e6, 1), entry[1], entry[0].price, entry[0].id))


@lru_cache(maxsize=1024)
def thermal(cable: Cable) -> heating.Cable:
    """A cable as a thermal node; a plus and a minus lie together."""
    return heating.cable(
        cable.area, cable.resistance_per_metre, cable.diameter, heating.insulation_for(cable.insulation_temperature), together=0.8
    )


@lru_cache(maxsize=4096)
def allowed_current(rule_set: str, cable: Cable, engine_space: bool, bundled: int) -> Ampacity | None:
    """The rule set's continuous current of one conductor, None where its table has no such size or insulation."""
    try:
        return ampacity(rule_set, cable.area, cable.insulation_temperature, engine_space, bundled)
    except ValueError:
        return None


def path_copper(cable: Cable, parallel: int, run: RunOf, temperature: Kelvin) -> Ohm:
    """Copper of plus and minus at a temperature."""
    return route_resistance(cable.resistance_per_metre / parallel, run.plus, run.minus, temperature)


def rule_drop(rules: RuleSet, current: Ampere, loop: float, area: float) -> Volt:
    """Volts lost by the rule set's own formula."""
    return (
        metric_rule_voltage_drop(current, loop, area)
        if rules.id == "iso small craft"
        else us_rule_voltage_drop(current, loop, area)
    )


def air_temperature(rules: RuleSet, engine_space: bool) -> Kelvin:
    """Air around the cable."""
    return rules.engine_space_temperature.value if engine_space else AIR


def judge(
    brief: Brief, unit: ThrusterUnit, cable: Cable, parallel: int, run: RunOf, peak_current: Ampere, run_time: Second
) -> Judged:
    """Hold a cable against the limits that need no fuse."""
    rules = RULE_SETS[brief.choices.rule_set]
    allowed = allowed_current(rules.id, cable, run.engine_space, run.bundled)
    share: Ratio = (rules.drop_critical if brief.choices.circuit_class == "3 % circuit" else rules.drop_other).value
    nominal = unit.volts or 0.0
    drop = rule_drop(rules, unit.rated_current or peak_current, run.loop, cable.area * parallel)
    steady = duty_current(peak_current, brief.duty.burst, brief.duty.burst + brief.duty.pause)
    air = air_temperature(rules, run.engine_space)
    node = thermal(cable)
    hot = heating.temperature_after(
        run_time, peak_current / parallel, node.resistance_20, node.thermal_resistance, node.heat_capacity, air, air
    )
    limits: list[Limit] = [
        ("volts lost by the rule at rated current, V", drop, share * nominal, drop <= share * nominal),
        (
            "docking's steady current, A",
            steady,
            allowed.value * parallel if allowed else 0.0,
            allowed is not None and steady <= allowed.value * parallel,
        ),
        (
            "conductor after the longest run, °C",
            hot - states.ZERO,
            cable.insulation_temperature - states.ZERO,
            hot <= cable.insulation_temperature,
        ),
    ]
    if run.engine_space and (allowed is None or not may_enter_engine_space(rules.id, cable.insulation_temperature)):
        limits.append(("insulation in an engine space, °C", cable.insulation_temperature - states.ZERO, 70.0, False))
    return Judged(cable, parallel, tuple(limits), allowed)
