"""What a thruster unit's figures must be to each other: thrust to power and diameter, power to current, run time to heat."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from athwart.catalogue.laws import armature_efficiency, heating_time, hydraulic_power, motor_efficiency
from athwart.catalogue.records import ThrusterUnit
from athwart.catalogue.verdicts import Doubt, band
from athwart.power.motor import stalled_current
from athwart.thruster.disc import ELECTRICAL_BAND, OPEN, SHAFT_BAND, TUNNEL, ideal_thrust, thrust_quality
from athwart.units import Joule, Kelvin, Ratio, Second, Watt

JETS = {"external": OPEN}
"""Jet area over disc area: a pod without a tunnel is an open propeller, all others are reckoned as tunnels."""
EFFICIENCY = {"brushed": (0.60, 0.88), "brushless": (0.72, 0.93), "step-up inside": (0.50, 0.80)}
EFFICIENCY_APART: Ratio = 0.15
"""Shaft power in the data against shaft power from the armature's resistance."""
HYDRAULIC: tuple[Ratio, Ratio] = (0.70, 0.97)
SWEPT: tuple[Ratio, Ratio] = (0.80, 1.01)
STALL: tuple[Ratio, Ratio] = (3.0, 8.0)
RATED_VOLTS: tuple[Ratio, Ratio] = (0.75, 1.20)
WINDING_SHARE: Ratio = 0.30
"""Winding and the iron it lies in, as a share of the unit's mass (own judgement)."""
COPPER_AND_IRON = 430.0
"""Heat of a kilogram of copper and iron together, J/(kg K) (textbook, from memory)."""
WINDING_RISE: Kelvin = 115.0
"""Class F: 155 °C from 40 °C."""
COOLED: Ratio = 1.6
"""How much longer than without any cooling a run may last before it is doubted (own judgement)."""
JUDGED_BELOW: Second = 900.0
"""A longer run is a matter of cooling, not of storage, and is not judged."""
WINDING_LOSSES: Ratio = 0.7
"""Share of a motor's losses that arises in the winding, where no armature resistance is known (own judgement)."""
MASS = {"tunnel": (0.008, 0.08), "rim": (0.008, 0.10), "retractable": (0.02, 0.16), "external": (0.008, 0.08)}
"""Kilograms per newton."""


def _electrical(unit: ThrusterUnit) -> Watt | None:
    if unit.drive == "hydraulic" or not unit.rated_volts or not unit.rated_current:
        return None
    return unit.rated_volts * unit.rated_current


def _disc(unit: ThrusterUnit) -> Iterator[Doubt]:
    """Thrust against the ideal disc and against what units of this size reach, on shaft and on electrical power."""
    if unit.tunnel_diameter is None:
        return
    jet = JETS.get(unit.housing, TUNNEL)
    for name, power, (low, high) in (
        ("shaft", unit.shaft_power, SHAFT_BAND),
        ("electrical", _electrical(unit), ELECTRICAL_BAND),
    ):
        if not power:
            continue
        most = ideal_thrust(power, unit.tunnel_diameter, jet)
        if unit.thrust > most:
            yield from band(
                f"thrust above the ideal disc on {name} power", unit.thrust, -inf, most, kind="force",
                formula="thruster.disc.ideal_thrust", source="own-arithmetic",
            )  # fmt: skip
            continue
        yield from band(
            f"thrust quality on {name} power", thrust_quality(unit.thrust, power, unit.tunnel_diameter), low, high,
            formula="thruster.disc.thrust_quality", source="own-judgement",
        )  # fmt: skip


def _power(unit: ThrusterUnit) -> Iterator[Doubt]:
    """Current and volts against shaft power."""
    if _electrical(unit) is None or unit.rated_volts is None or unit.rated_current is None:
        return
    efficiency = None
    if unit.shaft_power is not None:
        efficiency = motor_efficiency(unit.shaft_power, unit.rated_volts, unit.rated_current)
        low, high = EFFICIENCY["step-up inside" if unit.step_up_inside else unit.drive]
        yield from band(
            "shaft power over rated volts and current", efficiency, low, high, formula="catalogue.laws.motor_efficiency"
        )
    if unit.armature_resistance is None or unit.step_up_inside or unit.drive != "brushed":
        return
    drop, idle = unit.brush_drop or 0.0, unit.no_load_current or 0.0
    inner = armature_efficiency(unit.rated_volts, unit.rated_current, unit.armature_resistance, drop, idle)
    if efficiency is None:
        low, high = EFFICIENCY["brushed"]
        yield from band("efficiency by the armature's resistance", inner, low, high, formula="catalogue.laws.armature_efficiency")
    else:
        low, high = efficiency * (1 - EFFICIENCY_APART), efficiency * (1 + EFFICIENCY_APART)
        yield from band(
            "efficiency by the armature's resistance against shaft power",
            inner,
            low,
            high,
            formula="catalogue.laws.armature_efficiency",
        )


def _stall(unit: ThrusterUnit) -> Iterator[Doubt]:
    if not unit.armature_resistance or unit.rated_volts is None or not unit.rated_current or unit.step_up_inside:
        return
    drop = unit.brush_drop or 0.0
    if unit.rated_volts <= drop:
        yield from band("rated volts against brush drop", unit.rated_volts, drop, inf, kind="voltage")
        return
    multiple = stalled_current(unit.rated_volts, drop, unit.armature_resistance) / unit.rated_current
    low, high = STALL
    yield from band(
        "stalled over rated current", multiple, low, high, formula="power.motor.stalled_current", source="own-judgement"
    )


def winding_losses(unit: ThrusterUnit) -> Watt | None:
    """Heat in the winding at the rated point: from the armature's resistance, else from the efficiency; None where unknown."""
    power = _electrical(unit)
    if power is None or unit.rated_current is None:
        return None
    if unit.armature_resistance is not None and not unit.step_up_inside:
        return unit.rated_current**2 * unit.armature_resistance
    if unit.shaft_power is None or unit.step_up_inside:
        return None
    return max(0.0, power - unit.shaft_power) * WINDING_LOSSES


def _heat(unit: ThrusterUnit) -> Iterator[Doubt]:
    """The rated run against the heat the winding can take up: no cooling, then a generous allowance for it."""
    loss = winding_losses(unit)
    if unit.at_limit == "continuous" or unit.rated_time is None or unit.rated_time > JUDGED_BELOW or not loss:
        return
    store: Joule = WINDING_SHARE * unit.mass * COPPER_AND_IRON
    alone = heating_time(store, WINDING_RISE, loss)
    yield from band(
        "rated run time for its heat",
        unit.rated_time,
        -inf,
        COOLED * alone,
        kind="time",
        unit="s",
        formula="catalogue.laws.heating_time",
    )


def _volts(unit: ThrusterUnit) -> Iterator[Doubt]:
    if unit.drive == "hydraulic":
        return
    if unit.volts is None:
        yield Doubt("system volts of an electric unit", "unknown", "12, 24 or 48 V", "", "own-judgement")
        return
    if unit.rated_volts is not None:
        low, high = RATED_VOLTS
        yield from band("rated terminal volts", unit.rated_volts, low * unit.volts, high * unit.volts, kind="voltage")
    if unit.fold_back_volts is not None:
        yield from band("volts it folds back from", unit.fold_back_volts, 0.6 * unit.volts, 1.1 * unit.volts, kind="voltage")
    if unit.cut_out_volts is not None:
        top = unit.fold_back_volts if unit.fold_back_volts is not None else unit.volts
        yield from band("volts it cuts out at", unit.cut_out_volts, 0.4 * unit.volts, 0.99 * top, kind="voltage")
    if unit.step_up_inside and unit.motor_volts is not None:
        yield from band("motor volts behind a step-up", unit.motor_volts, 1.2 * unit.volts, inf, kind="voltage")
    if unit.rated_current is not None:
        if unit.current_limit is not None:
            yield from band("current limit", unit.current_limit, unit.rated_current, 2.5 * unit.rated_current, kind="current")
        if unit.no_load_current is not None:
            yield from band("no-load current", unit.no_load_current, 0.0, 0.3 * unit.rated_current, kind="current")


def _hydraulics(unit: ThrusterUnit) -> Iterator[Doubt]:
    """Pressure and flow against shaft power, flow against displacement and speed."""
    if unit.drive != "hydraulic" or not unit.hydraulic_flow:
        return
    if unit.hydraulic_pressure and unit.shaft_power:
        given = hydraulic_power(unit.hydraulic_pressure, unit.hydraulic_flow)
        low, high = HYDRAULIC
        yield from band(
            "shaft power over pressure and flow", unit.shaft_power / given, low, high, formula="catalogue.laws.hydraulic_power"
        )
    if unit.hydraulic_displacement and unit.rotation:
        swept = unit.hydraulic_displacement * unit.rotation
        low, high = SWEPT
        yield from band("swept volume over flow", swept / unit.hydraulic_flow, low, high, formula="", source="own-arithmetic")


def _body(unit: ThrusterUnit) -> Iterator[Doubt]:
    low, high = MASS[unit.housing]
    yield from band("kilograms per newton", unit.mass / unit.thrust, low, high)
    yield from band("kilograms per litre of its outline", unit.mass / (unit.length * unit.width * unit.height * 1e3), 0.05, 4.0)
    yield from band("rotors", float(unit.rotors), 1.0, 4.0)
    if unit.tunnel_diameter is not None:
        yield from band("diameter", unit.tunnel_diameter, 0.08, 1.5, kind="length", unit="mm")
    if unit.minutes_in_hour is not None:
        least = min(unit.rated_time or 0.0, 3600.0)
        yield from band("run in an hour", unit.minutes_in_hour, least, 3600.0, kind="time", unit="s")


UNIT_RULES = (_disc, _power, _stall, _heat, _volts, _hydraulics, _body)
