"""Kinds of quantity and their units: the one table that reading, printing and the documentation use.

Values are SI; a unit is a factor and, for temperatures, an offset. Spellings are made from the symbol: ``m²`` is also read
as ``m2`` and ``m^2``, ``mΩ`` as ``mohm``, ``µ`` as ``u``, ``°C`` as ``degC``, ``N·m`` as ``Nm``, ``N m`` and ``N*m``. Capitals
count: ``kn`` is a knot and ``kN`` a kilonewton.

Scales that are not a factor (AWG and SAE gauges, Beaufort) are named in ``Quantity.scales`` and live in :mod:`.gauges`.

References
----------
The factors of foot, inch, pound, knot, statute mile, the two gallons and the kilogram-force are exact by definition. A tonne is
1000 kg. A year is 365.25 days and a month a twelfth of it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from athwart.errors import UnknownName
from athwart.units import names

FOOT = 0.3048
INCH = 0.0254
POUND = 0.45359237
GRAVITY = 9.80665
KNOT = 1852.0 / 3600.0
MILE_PER_HOUR = 0.44704
GALLON_US = 3.785411784e-3
GALLON_IMPERIAL = 4.54609e-3
DEGREE = math.pi / 180.0
TURN = 2.0 * math.pi
HOUR = 3600.0
DAY = 86_400.0
YEAR = 365.25 * DAY
ZERO_CELSIUS = 273.15
CIRCULAR_MIL = math.pi / 4.0 * (INCH / 1000.0) ** 2
HORSEPOWER = 550.0 * FOOT * POUND * GRAVITY
METRIC_HORSEPOWER = 75.0 * GRAVITY


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: ``value = number · factor + offset``; ``per`` is the whole number that divides exactly where a factor rounds."""

    symbol: str
    factor: float
    offset: float
    per: float
    spellings: tuple[str, ...]

    def to_si(self, number: float) -> float:
        """SI value of a number in this unit."""
        return (number / self.per if self.per else number * self.factor) + self.offset

    def from_si(self, value: float) -> float:
        """Number in this unit of an SI value."""
        return self.scaled(value - self.offset)

    def scaled(self, difference: float) -> float:
        """Number in this unit of an SI difference: the offset of a temperature does not enter."""
        return difference * self.per if self.per else difference / self.factor


@dataclass(frozen=True, slots=True)
class Quantity:
    """One kind of quantity.

    ``noun`` is for messages ("a length"), ``si`` the unit of the value, ``low`` and ``high`` the absolute bounds of what can be
    meant, ``bare`` whether a number without a unit is read (ratios and counts only), ``table`` every spelling with its unit.
    ``metric`` and ``imperial`` are the units to print in; ``scales`` what is read by a rule of its own instead of a factor.
    """

    kind: str
    noun: str
    si: str
    low: float
    high: float
    example: str
    metric: str
    imperial: str
    units: tuple[Unit, ...]
    scales: tuple[str, ...]
    bare: bool
    table: Mapping[str, Unit]

    @property
    def allowed(self) -> str:
        """The units, in words for a message."""
        names = [unit.symbol for unit in self.units if unit.symbol] + list(self.scales)
        if not names:
            return "a bare whole number"
        text = ", ".join(names)
        return f"{text} or a bare number" if self.bare else text


_ALIKE: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("²", ("²", "2", "^2")),
    ("³", ("³", "3", "^3")),
    ("⁴", ("⁴", "4", "^4")),
    ("Ω", ("Ω", "ohm")),
    ("µ", ("µ", "u")),
    ("°", ("°", "deg")),
    ("·", ("·", "*", " ", "")),
)


def spellings(symbol: str) -> tuple[str, ...]:
    """Ways to type a symbol, the symbol first."""
    present = [(sign, ways) for sign, ways in _ALIKE if sign in symbol]
    texts = []
    for choice in product(*(ways for _, ways in present)):
        text = symbol
        for (sign, _), way in zip(present, choice, strict=True):
            text = text.replace(sign, way)
        texts.append(text)
    return tuple(dict.fromkeys(texts))


def unit(symbol: str, factor: float, *also: str, offset: float = 0.0, per: float = 0.0) -> Unit:
    """A unit with all its spellings; ``also`` are further ones, spelt out in the same way."""
    if not per and factor < 1.0 and 1.0 / round(1.0 / factor) == factor:
        per = float(round(1.0 / factor))
    return Unit(symbol, factor, offset, per, tuple(dict.fromkeys(way for text in (symbol, *also) for way in spellings(text))))


def quantity(
    kind: str,
    noun: str,
    si: str,
    bounds: tuple[float, float],
    example: str,
    units: Iterable[Unit],
    metric: str,
    imperial: str = "",
    *,
    scales: tuple[str, ...] = (),
    bare: bool = False,
) -> Quantity:
    """A kind with its table of spellings; a spelling of two units is a mistake of this file."""
    members = tuple(units)
    table: dict[str, Unit] = {}
    for member in members:
        for spelling in member.spellings:
            if spelling in table:
                raise ValueError(f"{kind}: {spelling!r} is a spelling of two units")
            table[spelling] = member
    return Quantity(kind, noun, si, *bounds, example, metric, imperial or metric, members, scales, bare, table)


def _speeds() -> tuple[Unit, ...]:
    return (
        unit("m/s", 1.0),
        unit("kn", KNOT, "knot", "knots", "kt", "kts"),
        unit("km/h", 1.0 / 3.6, per=3.6),
        unit("mph", MILE_PER_HOUR),
    )


_TRADE = (
    quantity(
        "length",
        "a length",
        "m",
        (-1e6, 1e6),
        "14.2 m or 46 ft 7 in",
        (
            unit("m", 1.0, "metre", "metres", "meter", "meters"),
            unit("cm", 1e-2),
            unit("mm", 1e-3),
            unit("km", 1e3),
            unit("ft", FOOT, "foot", "feet", "'"),
            unit("in", INCH, "inch", "inches", '"', "''"),
        ),
        "m",
        "ft in",
        scales=("ft in",),
    ),
    quantity(
        "area",
        "an area",
        "m²",
        (0.0, 1e6),
        "27.6 m2 or 297 sq ft",
        (
            unit("m²", 1.0, "sq m", "sqm"),
            unit("cm²", 1e-4),
            unit("mm²", 1e-6),
            unit("ft²", FOOT**2, "sq ft", "sqft"),
            unit("in²", INCH**2, "sq in", "sqin"),
        ),
        "m²",
        "ft²",
    ),
    quantity(
        "conductor",
        "a conductor cross-section",
        "m²",
        (1e-9, 1e-2),
        "70 mm2 or 2/0 AWG",
        (unit("mm²", 1e-6, "sq mm", "sqmm"), unit("kcmil", 1e3 * CIRCULAR_MIL, "MCM"), unit("cmil", CIRCULAR_MIL)),
        "mm²",
        "AWG",
        scales=("AWG", "SAE"),
    ),
    quantity(
        "voltage",
        "a voltage",
        "V",
        (-1e5, 1e5),
        "24 V",
        (unit("V", 1.0, "volt", "volts"), unit("mV", 1e-3), unit("kV", 1e3)),
        "V",
    ),
    quantity(
        "current",
        "a current",
        "A",
        (-1e6, 1e6),
        "340 A",
        (unit("A", 1.0, "amp", "amps", "ampere", "amperes"), unit("mA", 1e-3), unit("kA", 1e3)),
        "A",
    ),
    quantity(
        "resistance",
        "a resistance",
        "Ω",
        (0.0, 1e9),
        "3.6 mohm",
        (unit("Ω", 1.0, "ohms"), unit("mΩ", 1e-3), unit("µΩ", 1e-6), unit("kΩ", 1e3)),
        "mΩ",
    ),
    quantity(
        "charge",
        "a capacity",
        "C",
        (-3.6e9, 3.6e9),
        "110 Ah",
        (unit("Ah", 3600.0, "A·h", "AH"), unit("mAh", 3.6)),
        "Ah",
    ),
    quantity(
        "energy",
        "an energy",
        "J",
        (-1e14, 1e14),
        "2.4 kWh",
        (
            unit("kWh", 3.6e6, "kW·h"),
            unit("Wh", 3600.0, "W·h"),
            unit("J", 1.0),
            unit("kJ", 1e3),
            unit("MJ", 1e6),
        ),
        "kWh",
    ),
    quantity(
        "power",
        "a power",
        "W",
        (-1e9, 1e9),
        "4 kW",
        (
            unit("kW", 1e3),
            unit("W", 1.0, "watt", "watts"),
            unit("hp", HORSEPOWER, "HP"),
            unit("PS", METRIC_HORSEPOWER),
        ),
        "kW",
        "hp",
    ),
    quantity(
        "force",
        "a force",
        "N",
        (-1e9, 1e9),
        "1.2 kN or 150 kgf",
        (unit("N", 1.0), unit("kN", 1e3), unit("kgf", GRAVITY), unit("lbf", POUND * GRAVITY)),
        "N",
        "lbf",
    ),
    quantity(
        "mass",
        "a mass",
        "kg",
        (0.0, 1e9),
        "16.5 t or 36 400 lb",
        (unit("kg", 1.0), unit("t", 1e3, "tonne", "tonnes"), unit("g", 1e-3), unit("lb", POUND, "lbs")),
        "kg",
        "lb",
    ),
    quantity("speed", "a speed", "m/s", (-500.0, 500.0), "5 kn", _speeds(), "kn"),
    quantity("wind_speed", "a wind speed", "m/s", (0.0, 150.0), "20 kn or 5 Bft", _speeds(), "m/s", "kn", scales=("Bft",)),
    quantity(
        "angle",
        "an angle",
        "rad",
        (-20.0 * math.pi, 20.0 * math.pi),
        "55 deg",
        (unit("°", DEGREE, "degree", "degrees"), unit("rad", 1.0)),
        "°",
    ),
    quantity(
        "angular_rate",
        "a rate of turn",
        "rad/s",
        (-1e3, 1e3),
        "6 deg/s",
        (unit("°/s", DEGREE), unit("°/min", DEGREE / 60.0), unit("rad/s", 1.0)),
        "°/s",
    ),
    quantity(
        "rotation",
        "a speed of rotation",
        "rad/s",
        (-2e4, 2e4),
        "750 rpm",
        (
            unit("rpm", TURN / 60.0, "RPM", "1/min", "rev/min", "r/min"),
            unit("rev/s", TURN, "1/s", "r/s"),
            unit("rad/s", 1.0),
        ),
        "rpm",
    ),
    quantity("frequency", "a frequency", "Hz", (0.0, 1e9), "50 Hz", (unit("Hz", 1.0), unit("kHz", 1e3)), "Hz"),
    quantity(
        "bit_rate",
        "a bit rate",
        "bit/s",
        (0.0, 1e10),
        "250 kbit/s",
        (unit("kbit/s", 1e3, "kbps"), unit("bit/s", 1.0, "bps"), unit("Mbit/s", 1e6, "Mbps")),
        "kbit/s",
    ),
    quantity(
        "temperature",
        "a temperature",
        "K",
        (0.0, 3000.0),
        "-5 °C",
        (
            unit("°C", 1.0, "C", offset=ZERO_CELSIUS),
            unit("°F", 5.0 / 9.0, "F", offset=459.67 / 1.8, per=1.8),
            unit("K", 1.0),
        ),
        "°C",
        "°F",
    ),
    quantity(
        "temperature_difference",
        "a temperature difference",
        "K",
        (-3000.0, 3000.0),
        "35 K",
        (unit("K", 1.0), unit("°C", 1.0), unit("°F", 5.0 / 9.0, per=1.8)),
        "K",
        "°F",
    ),
    quantity(
        "pressure",
        "a pressure",
        "Pa",
        (-1e5, 1e9),
        "200 bar",
        (
            unit("bar", 1e5),
            unit("Pa", 1.0),
            unit("kPa", 1e3),
            unit("MPa", 1e6),
            unit("mbar", 1e2),
            unit("psi", POUND * GRAVITY / INCH**2),
        ),
        "bar",
        "psi",
    ),
    quantity(
        "volume",
        "a volume",
        "m³",
        (0.0, 1e6),
        "120 l",
        (
            unit("l", 1e-3, "L", "litre", "litres", "dm³"),
            unit("ml", 1e-6, "mL", "cm³", "cc"),
            unit("m³", 1.0),
            unit("gal US", GALLON_US, "US gal", "gal (US)"),
            unit("gal imp", GALLON_IMPERIAL, "imp gal", "gal (imp)"),
        ),
        "l",
        "gal US",
    ),
    quantity(
        "flow",
        "a flow",
        "m³/s",
        (-1e3, 1e3),
        "60 l/min",
        (
            unit("l/min", 1e-3 / 60.0, "L/min"),
            unit("l/s", 1e-3, "L/s"),
            unit("l/h", 1e-3 / HOUR, "L/h"),
            unit("m³/h", 1.0 / HOUR),
            unit("m³/s", 1.0),
            unit("gal US/min", GALLON_US / 60.0, "US gal/min"),
            unit("gal imp/min", GALLON_IMPERIAL / 60.0, "imp gal/min"),
        ),
        "l/min",
        "gal US/min",
    ),
    quantity(
        "displacement_per_rev",
        "a displacement of a pump or motor",
        "m³/rad",
        (0.0, 1.0),
        "92 cc/rev",
        (
            unit("cc/rev", 1e-6 / TURN, "cm³/rev", "ml/rev"),
            unit("in³/rev", INCH**3 / TURN, "cu in/rev"),
            unit("m³/rad", 1.0),
        ),
        "cc/rev",
        "in³/rev",
    ),
    quantity(
        "ratio", "a ratio", "1", (-1e3, 1e3), "80 % or 0.8", (unit("%", 1e-2), unit("×", 1.0, "x"), unit("", 1.0)), "%", bare=True
    ),
    quantity("sound", "a sound level", "dB", (0.0, 200.0), "68 dBA", (unit("dBA", 1.0, "dB(A)", "dB A"),), "dBA"),
    quantity(
        "time",
        "a time",
        "s",
        (0.0, 1e10),
        "30 s or 1 h 20 min",
        (
            unit("s", 1.0, "sec", "second", "seconds"),
            unit("ms", 1e-3),
            unit("min", 60.0, "minute", "minutes"),
            unit("h", HOUR, "hour", "hours"),
            unit("d", DAY, "day", "days"),
            unit("months", YEAR / 12.0, "month"),
            unit("years", YEAR, "year"),
        ),
        "h min",
        scales=("h min",),
    ),
    quantity("count", "a count", "1", (0.0, 1e6), "3", (unit("", 1.0),), "", bare=True),
    quantity(
        "density",
        "a density",
        "kg/m³",
        (0.0, 3e4),
        "1025 kg/m3",
        (unit("kg/m³", 1.0), unit("kg/l", 1e3, "kg/L", "g/cm³"), unit("lb/ft³", POUND / FOOT**3)),
        "kg/m³",
        "lb/ft³",
    ),
)


def _one(kind: str, noun: str, example: str, *units: Unit, low: float = -1e15, high: float = 1e15) -> Quantity:
    """A kind that only the formula book needs: the first unit is the SI unit and the printed one."""
    return quantity(kind, noun, units[0].symbol, (low, high), example, units, units[0].symbol)


_BOOK = (
    _one("acceleration", "an acceleration", "9.81 m/s2", unit("m/s²", 1.0)),
    _one("moment", "a moment", "12 N·m", unit("N·m", 1.0), unit("kN·m", 1e3), unit("lbf·ft", POUND * GRAVITY * FOOT)),
    _one("inertia", "a moment of inertia", "0.02 kg·m2", unit("kg·m²", 1.0)),
    _one("resistivity", "a resistivity", "0.0172 ohm·mm2/m", unit("Ω·m", 1.0), unit("Ω·mm²/m", 1e-6)),
    _one(
        "resistance_per_length",
        "a resistance per length",
        "0.27 ohm/km",
        unit("Ω/m", 1.0),
        unit("mΩ/m", 1e-3),
        unit("Ω/km", 1e-3),
        low=0.0,
    ),
    _one("inductance", "an inductance", "4 µH", unit("H", 1.0), unit("mH", 1e-3), unit("µH", 1e-6), low=0.0),
    _one("inductance_per_length", "an inductance per length", "0.6 µH/m", unit("H/m", 1.0), unit("µH/m", 1e-6), low=0.0),
    _one("capacitance", "a capacitance", "10 mF", unit("F", 1.0), unit("mF", 1e-3), unit("µF", 1e-6), low=0.0),
    _one("temperature_coefficient", "a temperature coefficient", "0.00393 1/K", unit("1/K", 1.0), unit("%/K", 1e-2)),
    _one("temperature_rate", "a rate of temperature", "2 K/min", unit("K/s", 1.0), unit("K/min", 1.0 / 60.0)),
    _one("thermal_resistance", "a thermal resistance", "0.4 K/W", unit("K/W", 1.0), low=0.0),
    _one("thermal_resistance_of_length", "a thermal resistance of a length", "0.8 K·m/W", unit("K·m/W", 1.0), low=0.0),
    _one("heat_capacity", "a heat capacity", "4.2 kJ/K", unit("J/K", 1.0), unit("kJ/K", 1e3), low=0.0),
    _one("heat_capacity_of_length", "a heat capacity of a length", "240 J/(K·m)", unit("J/(K·m)", 1.0), low=0.0),
    _one(
        "heat_capacity_of_volume",
        "a heat capacity of a volume",
        "3450000 J/(K·m3)",
        unit("J/(K·m³)", 1.0),
        unit("MJ/(K·m³)", 1e6),
        low=0.0,
    ),
    _one("let_through", "a let-through (current squared times time)", "250000 A2s", unit("A²·s", 1.0), low=0.0),
    _one(
        "adiabatic_constant",
        "a conductor's short-time constant",
        "143 A·s^0.5/mm2",
        unit("A·s^0.5/m²", 1.0),
        unit("A·s^0.5/mm²", 1e6),
        low=0.0,
    ),
    _one("current_density", "a current density", "5 A/mm2", unit("A/m²", 1.0), unit("A/mm²", 1e6)),
    _one(
        "motor_constant",
        "a motor constant",
        "0.05 V·s/rad",
        unit("V·s/rad", 1.0, "N·m/A"),
        unit("V/rpm", 60.0 / TURN),
    ),
    _one("propeller_constant", "a propeller's load constant", "0.0004 N·m·s2/rad2", unit("N·m·s²/rad²", 1.0)),
    _one("kinematic_viscosity", "a kinematic viscosity", "46 mm2/s", unit("m²/s", 1.0), unit("mm²/s", 1e-6, "cSt"), low=0.0),
    _one(
        "thrust_per_power", "a thrust per power", "12 kgf/kW", unit("N/W", 1.0), unit("N/kW", 1e-3), unit("kgf/kW", GRAVITY / 1e3)
    ),
    _one("mass_per_time_squared", "a mass per time squared", "5 kg/s2", unit("kg/s²", 1.0)),
    _one("level", "a level", "6 dB", unit("dB", 1.0)),
)


def _of_type_names(known: Iterable[Quantity]) -> Iterator[Quantity]:
    """A kind for every type name whose unit has none yet: the formula book reads it in that unit."""
    units = {entry.si for entry in known}
    for name, alias in vars(names).items():
        symbol = next(iter(getattr(alias, "__metadata__", ())), None)
        if isinstance(symbol, str) and symbol not in units:
            units.add(symbol)
            kind = "".join(f"_{letter.lower()}" if letter.isupper() else letter for letter in name).lstrip("_")
            yield _one(kind, f"a value in {symbol}", f"2.5 {symbol}", unit(symbol, 1.0))


QUANTITIES: dict[str, Quantity] = {entry.kind: entry for entry in (*_TRADE, *_BOOK, *_of_type_names((*_TRADE, *_BOOK)))}
"""Every kind by name."""

TRADE_KINDS: tuple[str, ...] = tuple(entry.kind for entry in _TRADE)
"""The kinds a brief, a table or a paper uses; the others serve the formula book."""

SYSTEMS: dict[str, dict[str, str]] = {
    "metric": {kind: entry.metric for kind, entry in QUANTITIES.items()},
    "imperial": {kind: entry.imperial for kind, entry in QUANTITIES.items()},
}
"""Preferred unit by system and kind; ``show`` takes every one of them, also ``ft in``, ``h min`` and ``AWG``."""


def quantity_of(kind: str) -> Quantity:
    """A kind by name; an unknown one is a mistake of the programmer."""
    try:
        return QUANTITIES[kind]
    except KeyError:
        raise UnknownName("kind of quantity", kind, nearest(kind, QUANTITIES)) from None


def unit_of(kind: str, text: str) -> Unit:
    """The unit a spelling stands for; an unknown one is a mistake of the programmer."""
    table = quantity_of(kind).table
    try:
        return table[text]
    except KeyError:
        raise UnknownName(f"unit of {kind.replace('_', ' ')}", text, nearest(text, table)) from None


def factor(kind: str, unit: str) -> float:
    """SI value of one unit, for example 1852/3600 for a knot; the step of one degree for a temperature.

    >>> factor("speed", "kn"), factor("conductor", "mm2"), factor("charge", "Ah")
    (0.5144444444444445, 1e-06, 3600.0)
    """
    return unit_of(kind, unit).factor


def kinds_in(si: str) -> tuple[str, ...]:
    """Kinds whose value is in a given SI unit, the commonest first: ``m²`` is an area or a conductor.

    >>> kinds_in("m²"), kinds_in("Ω·m")
    (('area', 'conductor'), ('resistivity',))
    """
    return tuple(kind for kind, entry in QUANTITIES.items() if entry.si == si)


def nearest(text: str, known: Iterable[str]) -> str:
    """The best guess at what was meant: the same letters in another case, else the nearest spelling, else nothing."""
    from difflib import get_close_matches

    names = [name for name in known if name]
    folded = text.casefold()
    same = [name for name in names if name.casefold() == folded]
    return (same or get_close_matches(text, names, 1, 0.6) or [""])[0]
