"""Every factor against pint, which knows them independently; the few things it cannot read are held to typed figures."""

from __future__ import annotations

import dataclasses
import math
from functools import cache

import pint
import pytest

from athwart.units import QUANTITIES, Unit, factor, kinds_in, names, parse
from athwart.units.gauges import SAE_AREAS, awg_area

BY_ANOTHER_NAME = {
    "kn": "knot",
    "km/h": "kilometer/hour",
    "in": "inch",
    "in²": "inch**2",
    "in³/rev": "inch**3/revolution",
    "l": "liter",
    "PS": "metric_horsepower",
    "hp": "horsepower",
    "kcmil": "kcmil",
    "cmil": "circular_mil",
    "gal US": "US_liquid_gallon",
    "gal imp": "imperial_gallon",
    "gal US/min": "US_liquid_gallon/minute",
    "gal imp/min": "imperial_gallon/minute",
    "l/min": "liter/minute",
    "l/s": "liter/second",
    "l/h": "liter/hour",
    "m³/h": "meter**3/hour",
    "kg/l": "kilogram/liter",
    "°": "degree",
    "°/s": "degree/second",
    "°/min": "degree/minute",
    "Ah": "ampere*hour",
    "mAh": "milliampere*hour",
    "Wh": "watt*hour",
    "kWh": "kilowatt*hour",
    "months": "month",
    "years": "year",
    "t": "tonne",
    "rev/s": "revolution/second",
    "cc/rev": "cc/revolution",
    "%": "percent",
    "%/K": "percent/kelvin",
    "×": "dimensionless",
    "": "dimensionless",
}
NOT_IN_PINT = {"dBA": 1.0, "dB": 1.0}
"""Levels: pint makes them logarithmic quantities of a reference; here they are plain numbers."""
DIFFERENCES = {("temperature_difference", "°C"): "delta_degC", ("temperature_difference", "°F"): "delta_degF"}
ALL = [pytest.param(kind, unit, id=f"{kind}: {unit.symbol or 'bare'}") for kind, q in QUANTITIES.items() for unit in q.units]


@cache
def registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


def in_pint(symbol: str) -> str:
    """A symbol as pint writes it."""
    if symbol in BY_ANOTHER_NAME:
        return BY_ANOTHER_NAME[symbol]
    for ours, theirs in (
        ("s^0.5", "s**0.5"),
        ("²", "**2"),
        ("³", "**3"),
        ("⁴", "**4"),
        ("·", "*"),
        ("Ω", "ohm"),
        ("°C", "degC"),
        ("°F", "degF"),
    ):
        symbol = symbol.replace(ours, theirs)
    return symbol


def agrees(kind: str, unit: Unit) -> bool:
    """Whether a unit turns numbers into the SI values pint gives, to the last few bits."""
    if unit.symbol in NOT_IN_PINT:
        return unit.to_si(61.7) == 61.7 * NOT_IN_PINT[unit.symbol]
    theirs = registry().Unit(DIFFERENCES.get((kind, unit.symbol), in_pint(unit.symbol)))
    target = registry().Unit("delta_degC" if (kind, unit.symbol) in DIFFERENCES else in_pint(QUANTITIES[kind].si))
    return all(
        math.isclose(unit.to_si(number), registry().Quantity(number, theirs).to(target).magnitude, rel_tol=4e-15)
        and math.isclose(unit.from_si(unit.to_si(number)), number, rel_tol=4e-13)
        for number in (1.0, 7.0, 61.7, 12_345.678)
    )


@pytest.mark.parametrize(("kind", "unit"), ALL)
def test_a_unit_has_the_factor_pint_gives_it(kind: str, unit: Unit) -> None:
    assert agrees(kind, unit)
    assert factor(kind, unit.symbol) == unit.factor


@pytest.mark.parametrize(("kind", "unit"), ALL)
def test_a_wrong_factor_of_any_unit_is_caught(kind: str, unit: Unit) -> None:
    assert not agrees(kind, dataclasses.replace(unit, factor=unit.factor * (1 + 1e-9), per=unit.per * (1 - 1e-9)))
    assert not agrees(kind, dataclasses.replace(unit, offset=unit.offset + 0.01))


@pytest.mark.parametrize(
    ("kind", "unit", "exact"),
    [
        ("length", "ft", 0.3048),
        ("length", "in", 0.0254),
        ("area", "ft²", 0.09290304),
        ("mass", "lb", 0.45359237),
        ("force", "kgf", 9.80665),
        ("force", "lbf", 4.4482216152605),
        ("power", "PS", 735.49875),
        ("volume", "gal US", 3.785411784e-3),
        ("volume", "gal imp", 4.54609e-3),
        ("speed", "mph", 0.44704),
        ("charge", "Ah", 3600.0),
    ],
)
def test_factors_that_are_exact_by_definition(kind: str, unit: str, exact: float) -> None:
    assert factor(kind, unit) == pytest.approx(exact, rel=1e-15)


def test_horsepower_are_two() -> None:
    """The mechanical one is 550 foot-pounds-force a second, the metric one 75 metre-kilograms-force a second."""
    assert factor("power", "hp") == pytest.approx(745.69987158227, rel=1e-13)
    assert factor("power", "hp") / factor("power", "PS") == pytest.approx(1.0138697, rel=1e-7)


def test_sae_cable_is_3_to_11_per_cent_thinner_than_its_awg_number() -> None:
    shares = [SAE_AREAS[size] / awg_area(size) for size in SAE_AREAS]
    assert all(0.89 <= share <= 0.975 for share in shares), shares


def test_awg_follows_its_two_fixed_points_and_the_rule_of_three_sizes() -> None:
    """4/0 is 0.46 in and 36 is 0.005 in by definition; three sizes are half the area within 0.3 %."""
    assert awg_area(-3) == pytest.approx(math.pi / 4 * (0.46 * 0.0254) ** 2, rel=1e-12)
    assert awg_area(36) == pytest.approx(math.pi / 4 * (0.005 * 0.0254) ** 2, rel=1e-12)
    assert all(awg_area(n) / awg_area(n + 3) == pytest.approx(2.005, abs=1e-3) for n in range(-3, 36))


def test_every_type_name_has_a_kind_that_reads_it() -> None:
    """``reckon`` takes the inputs of any formula with units."""
    units = {name: alias.__metadata__[0] for name, alias in vars(names).items() if hasattr(alias, "__metadata__")}
    assert len(units) > 40
    assert {name: unit for name, unit in units.items() if not kinds_in(unit)} == {}
    assert all(
        parse(f"0.5 {unit}", kinds_in(unit)[0]) == 0.5 for unit in units.values() if unit not in ("1", "m²", "C", "dB", "K")
    )
