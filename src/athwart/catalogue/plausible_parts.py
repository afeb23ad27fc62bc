"""What the figures of cables, fuses, switches, chargers, network parts and pumps must be to each other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import inf, isnan, pi

from athwart.catalogue.records import (
    Cable,
    Charger,
    Contactor,
    Fuse,
    FuseFamily,
    HydraulicPump,
    NetworkCable,
    Panel,
    Sundry,
    Switch,
)
from athwart.catalogue.verdicts import Doubt, band
from athwart.errors import QuantityError
from athwart.power.charger import step_up_input
from athwart.power.conductor import iec60228_resistance, resistance_per_metre, resistance_voltage_drop
from athwart.power.conductor_data import IEC_60228
from athwart.power.fuse import opening_time
from athwart.units import KilogramPerCubicMetre, OhmPerMetre, Ratio, SquareMetre, Volt, parse

BELOW: Ratio = 0.03
ABOVE: Ratio = 0.25
"""How far a conductor's resistance may lie below and above the standard's figure."""
COPPER: KilogramPerCubicMetre = 8_900.0
SIZE_SPREAD: Ratio = 0.03
FUSE_DROP: tuple[Volt, Volt] = (0.015, 0.5)
SWITCH_DROP: Volt = 0.1
COIL_MOST = 40.0  # W, held
DENSEST: float = 12e6  # A/m², a pair of a control line
POWER_BALANCE = (0.85, 1.18)
SOURCE_RUNNING: Ratio = 1.1
"""Volts of a battery with its charging source on, over nominal."""


def _copper(area: SquareMetre, construction: str, tinned: bool) -> tuple[OhmPerMetre, str, str]:
    """Standard's resistance of a conductor, the formula and its source; AWG and odd sizes by copper's resistivity."""
    if construction.startswith("class") and any(abs(area * 1e6 - row) < 1e-6 * row for row in IEC_60228):
        return iec60228_resistance(area, construction, tinned), "power.conductor.iec60228_resistance", "iec-60228"
    return resistance_per_metre(area), "power.conductor.resistance_per_metre", "iec-60287-1-1"


def _cable_resistance(cable: Cable) -> Iterator[Doubt]:
    expected, formula, source = _copper(cable.area, cable.conductor_class, cable.tinned)
    yield from band(
        "ohm/km for its size",
        cable.resistance_per_metre * 1e3,
        expected * 1e3 * (1 - BELOW),
        expected * 1e3 * (1 + ABOVE),
        formula=formula,
        source=source,
    )


def _cable_size(cable: Cable) -> Iterator[Doubt]:
    """The printed size against the cross-section, where it is a size at all."""
    try:
        printed = parse(cable.gauge, "conductor")
    except QuantityError:
        return
    yield from band(
        f"cross-section of the size {cable.gauge}",
        cable.area,
        printed * (1 - SIZE_SPREAD),
        printed * (1 + SIZE_SPREAD),
        kind="conductor",
        formula="power.conductor.awg_area",
    )


def _cable_body(cable: Cable) -> Iterator[Doubt]:
    copper = (4.0 * cable.area / pi) ** 0.5
    yield from band("outer diameter", cable.diameter, 1.1 * copper, 4.0 * copper + 3e-3, kind="length", unit="mm")
    yield from band("kg per metre", cable.mass, 0.95 * COPPER * cable.area, 3.0 * COPPER * cable.area + 0.05)
    yield from band(
        "rated temperature of the insulation", cable.insulation_temperature, 328.15, 473.15, kind="temperature", unit="°C"
    )


def _fuse_drop(fuse: Fuse) -> Iterator[Doubt]:
    drop = resistance_voltage_drop(fuse.rating, fuse.resistance)
    low, high = FUSE_DROP
    yield from band(
        "volts lost at rated current",
        drop,
        low,
        high,
        kind="voltage",
        unit="mV",
        formula="power.conductor.resistance_voltage_drop",
    )


def curve_rules(family: FuseFamily) -> Iterator[Doubt]:
    """Times must fall as the current grows, least before most, and breaking capacity must fall as volts grow."""
    for name, index in (("least", 1), ("most", 2)):
        known = [(point[0], point[index]) for point in family.points if not isnan(point[index])]
        for (x0, t0), (x1, t1) in pairwise(known):
            if t1 > t0 or (t1 == t0 and t1 < inf):
                yield Doubt(
                    f"{name} time at {x1:g} x rating", f"{t1:g} s", f"below {t0:g} s, as at {x0:g} x", "", "own-arithmetic"
                )
    for multiple, _, _ in family.points:
        found = opening_time(family.points, multiple)
        if found.least > found.most:
            yield Doubt(
                f"least time at {multiple:g} x rating", f"{found.least:g} s", f"at most {found.most:g} s", "", "own-arithmetic"
            )
    for (v0, i0), (v1, i1) in pairwise(family.breaking_capacity):
        if i1 > i0:
            yield Doubt(f"breaking capacity at {v1:g} V", f"{i1:g} A", f"at most {i0:g} A, as at {v0:g} V", "", "own-arithmetic")
    top = family.breaking_capacity[-1][0]
    yield from band(
        "rated volts against those of its breaking capacity", family.volts_most, 0.999 * top, 1.001 * top, kind="voltage"
    )
    if not any(multiple >= 0.7 and most == inf for multiple, _, most in family.points):
        yield Doubt("a current it holds for ever", "none", "a multiple of 0.7 or more with most_s never", "", "own-judgement")


def _contact(part: Switch | Contactor) -> Iterator[Doubt]:
    drop = resistance_voltage_drop(part.continuous, part.resistance)
    yield from band(
        "volts lost at continuous current",
        drop,
        0.0,
        SWITCH_DROP,
        kind="voltage",
        unit="mV",
        formula="power.conductor.resistance_voltage_drop",
    )
    yield from band("five-minute current", part.five_minutes, part.continuous, 3.0 * part.continuous, kind="current")
    yield from band("breaking current", part.breaking, part.continuous, inf, kind="current")


def _coil(part: Contactor) -> Iterator[Doubt]:
    if part.coil_volts is None:
        return
    if part.pull_in_volts is not None:
        yield from band("pull-in volts", part.pull_in_volts, 0.4 * part.coil_volts, part.coil_volts, kind="voltage")
        if part.hold_volts is not None:
            yield from band("hold volts", part.hold_volts, 0.05 * part.coil_volts, part.pull_in_volts, kind="voltage")
    if part.stop_kind == "energise to run" and part.coil_current is not None:
        yield from band("coil power while held", part.coil_volts * part.coil_current, 0.5, COIL_MOST, kind="power", unit="W")


def _charger_power(part: Charger) -> Iterator[Doubt]:
    most = 1.0 if part.kind == "series/parallel switch" else 0.985
    yield from band("efficiency", part.efficiency, 0.6, most, source="step-up-charging")
    if part.current_in is None or not 0.0 < part.efficiency <= 1.0 or part.volts_in <= 0.0:
        return
    volts = part.volts_in if part.kind == "shore" else SOURCE_RUNNING * part.volts_in
    if part.kind == "series/parallel switch":
        volts = part.charge_volts
    expected = step_up_input(part.charge_volts, part.current_out, volts, part.efficiency)
    low, high = POWER_BALANCE
    yield from band(
        "input current for its output",
        part.current_in,
        low * expected,
        high * expected,
        kind="current",
        formula="power.charger.step_up_input",
        source="step-up-charging",
    )


def _charger_volts(part: Charger) -> Iterator[Doubt]:
    out = part.volts_in if part.kind == "series/parallel switch" else part.volts_out
    yield from band("charging volts", part.charge_volts, 1.08 * out, 1.25 * out, kind="voltage", source="charging-volts")
    if part.kind == "step-up":
        yield from band("output volts of a step-up", part.volts_out, 1.5 * part.volts_in, inf, kind="voltage")
    if part.kind == "battery to battery":
        yield from band(
            "output volts of a battery-to-battery charger",
            part.volts_out,
            0.8 * part.volts_in,
            1.25 * part.volts_in,
            kind="voltage",
        )
    if part.on_volts is not None and part.off_volts is not None:
        yield from band("off volts against on volts", part.off_volts, 0.9 * part.volts_in, part.on_volts - 0.05, kind="voltage")


def _charger_body(part: Charger) -> Iterator[Doubt]:
    if part.mass > 0.0:
        yield from band("watts per kilogram", part.charge_volts * part.current_out / part.mass, 10.0, 1500.0)
    yield from band("kilograms per litre", part.mass / (part.length * part.width * part.height * 1e3), 0.1, 4.0)


def _panel(part: Panel) -> Iterator[Doubt]:
    yield from band("network current", part.network_current, 0.0, 1.0, kind="current", source="own-judgement")
    yield from band("least volts", part.least_volts, 6.0, 12.0, kind="voltage")


def _network_cable(part: NetworkCable) -> Iterator[Doubt]:
    expected = resistance_per_metre(part.supply_area)
    yield from band(
        "ohm/km of the supply pair",
        part.supply_ohm_per_metre * 1e3,
        expected * 1e3 * (1 - BELOW),
        expected * 1e3 * (1 + 2 * ABOVE),
        formula="power.conductor.resistance_per_metre",
        source="iec-60287-1-1",
    )
    yield from band("impedance", part.impedance, 95.0, 140.0, kind="resistance", unit="Ω")
    yield from band("most current for the supply pair", part.supply_most, 0.0, DENSEST * part.supply_area, kind="current")


def _sundry(part: Sundry) -> Iterator[Doubt]:
    if part.use == "terminator" and part.resistance is not None:
        yield from band("resistance of a terminator", part.resistance, 100.0, 132.0, kind="resistance", unit="Ω")


def _pump(part: HydraulicPump) -> Iterator[Doubt]:
    yield from band("volumetric efficiency", part.volumetric_efficiency, 0.7, 0.99)
    yield from band("largest pressure", part.pressure_most, 5e6, 45e6, kind="pressure")
    yield from band("fastest speed", part.rotation_most, 52.0, 630.0, kind="rotation")
    litres = part.displacement * 2 * pi * 1e3
    yield from band("kilograms per litre of displacement", part.mass / litres, 100.0, 1500.0)


CABLE_RULES = (_cable_resistance, _cable_size, _cable_body)
FUSE_RULES = (_fuse_drop,)
SWITCH_RULES = (_contact,)
CONTACTOR_RULES = (_contact, _coil)
CHARGER_RULES = (_charger_power, _charger_volts, _charger_body)
PANEL_RULES = (_panel,)
NETWORK_RULES = (_network_cable,)
SUNDRY_RULES = (_sundry,)
PUMP_RULES = (_pump,)
