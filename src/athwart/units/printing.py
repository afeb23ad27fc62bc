"""Printing quantities: SI in, text with a unit out; what is printed can be read again.

Narrow no-break space between value and unit and between thousands from 1 000 up, true minus, decimal point. No space before the
degree of an angle. Without ``digits``: three significant figures, four for 10 to 100 V, whole amperes from 100 up, times
from an hour up as ``1 h 20 min``; a value that is exact in fewer digits is printed short (``24 V``, ``70 mm²``), a rounded one
keeps its noughts (``22.60 V``). ``plain`` swaps the narrow space and the minus for ASCII ones.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from fractions import Fraction

from athwart.units.gauges import beaufort_of, gauge_of
from athwart.units.names import Metre
from athwart.units.quantities import DAY, HOUR, INCH, SYSTEMS, Quantity, Unit, quantity_of, unit_of
from athwart.units.reading import CrankingCurrent

SPACE = "\N{NARROW NO-BREAK SPACE}"
MINUS = "\N{MINUS SIGN}"
SIGNIFICANT = 3
SMALLEST_PLAIN = 1e-6
LARGEST_PLAIN = 1e15
_EXACT = 1e-9
_SYSTEM: ContextVar[str] = ContextVar("system of units printed", default="metric")


@contextmanager
def printed_in(system: str) -> Iterator[None]:
    """Print quantities in a system inside the block, also those whose metric unit the caller names; others stay as named.

    >>> with printed_in("imperial"):
    ...     show(1480.0, "force", plain=True), show(0.185, "length", "mm", plain=True), show(8.0, "wind_speed", "kn", plain=True)
    ('333 lbf', '7 1/4 in', '15.6 kn')
    """
    if system not in SYSTEMS:
        raise ValueError(f"no system of units {system!r}; there are {' and '.join(SYSTEMS)}")
    token = _SYSTEM.set(system)
    try:
        yield
    finally:
        _SYSTEM.reset(token)


def preferred(kind: str, unit: str | None) -> str:
    """The unit to print in: the one named, unless the system has another for this kind."""
    system = _SYSTEM.get()
    own = SYSTEMS[system][kind]
    return own if unit is None or (system != "metric" and own != SYSTEMS["metric"][kind]) else unit


def show(value: float, kind: str, unit: str | None = None, digits: int | None = None, *, plain: bool = False) -> str:
    """A value as text in ``unit`` (default: the metric one), to ``digits`` significant figures.

    Besides real units ``unit`` may be ``ft in`` for a length, ``h min`` for a time, ``Bft`` for a wind and ``AWG`` or
    ``SAE`` for a conductor; an area that is no gauge size is then printed in kcmil.

    >>> show(1480.0, "force", plain=True), show(268.15, "temperature", plain=True), show(4.8e3, "time", plain=True)
    ('1 480 N', '-5 °C', '1 h 20 min')
    """
    if not math.isfinite(value):
        raise ValueError(f"{value} {kind} cannot be printed")
    if digits is not None and digits < 1:
        raise ValueError(f"{digits} digits: at least one is needed")
    quantity = quantity_of(kind)
    unit = preferred(kind, unit)
    text = _scale(value, quantity, unit, digits) if unit in quantity.scales else None
    if text is None:
        measure = unit_of(kind, "kcmil" if unit in ("AWG", "SAE") else unit)
        text = _with_unit(_rounded(measure.from_si(value), kind, measure, digits), measure.symbol)
    return _ascii(text) if plain else text


def show_band(value: float, band: float, kind: str, unit: str | None = None, *, plain: bool = False) -> str:
    """A value with its band of one standard deviation: the band to two figures, the value to the band's last place.

    >>> show_band(1079.0, 210.0, "force", plain=True), show_band(14.2, 0.0, "length", plain=True)
    ('1 080 N ± 210', '14.2 m')
    """
    if not (math.isfinite(value) and math.isfinite(band) and band >= 0.0):
        raise ValueError(f"{value} ± {band} {kind} cannot be printed")
    quantity = quantity_of(kind)
    chosen = quantity.metric if unit is None else unit
    if chosen in quantity.scales:
        chosen = "s" if chosen == "h min" else quantity.units[0].symbol
    measure = unit_of(kind, chosen)
    half = abs(measure.scaled(band))
    if half < 1e-12 * max(1.0, abs(measure.from_si(value))):
        return show(value, kind, measure.symbol, plain=plain)
    half = float(f"{half:.1e}")  # 99.6 becomes 100, whose second figure is the tens
    places = 1 - math.floor(math.log10(half))
    text = _with_unit(fixed(measure.from_si(value), places), measure.symbol)
    text += f"{SPACE}±{SPACE}{fixed(half, places)}"
    return _ascii(text) if plain else text


def show_length_ft_in(value: Metre, *, denominator: int = 8, plain: bool = False) -> str:
    """A length in feet and inches, the inches to the nearest fraction.

    >>> show_length_ft_in(14.2, plain=True), show_length_ft_in(0.185, plain=True), show_length_ft_in(-1.6129, plain=True)
    ('46 ft 7 in', '7 1/4 in', '-5 ft 3 1/2 in')
    """
    if denominator not in (1, 2, 4, 8, 16, 32, 64):
        raise ValueError(f"{denominator}: inches are divided by 1, 2, 4, 8, 16, 32 or 64")
    parts = round(abs(value) / INCH * denominator)
    feet, rest = divmod(parts, 12 * denominator)
    inches, fraction = divmod(Fraction(rest, denominator), 1)
    words = [f"{inches}" if inches or not fraction else "", f"{fraction}" if fraction else ""]
    text = f"{SPACE.join(word for word in words if word)}{SPACE}in"
    if feet:
        text = f"{feet}{SPACE}ft" + (f"{SPACE}{text}" if rest else "")
    text = (MINUS if value < 0.0 and parts else "") + text
    return _ascii(text) if plain else text


def show_cranking(current: CrankingCurrent, *, plain: bool = False) -> str:
    """A cold-cranking current with its standard.

    >>> show_cranking(CrankingCurrent(700.0, "EN"), plain=True)
    '700 A CCA (EN)'
    """
    text = f"{show(current.amperes, 'current')} CCA ({current.standard})".replace(" ", SPACE)
    return _ascii(text) if plain else text


def fixed(number: float, places: int) -> str:
    """A number to so many decimal places (negative: tens, hundreds), thousands grouped, with a true minus.

    >>> fixed(-1234.56, 1).replace(SPACE, "_"), fixed(1479.6, -1).replace(SPACE, "_")
    ('−1_234.6', '1_480')
    """
    rounded = round(number, places)
    text = f"{abs(rounded):,.{max(places, 0)}f}".replace(",", SPACE)
    return (MINUS if rounded < 0.0 else "") + text


def _ascii(text: str) -> str:
    return text.replace(SPACE, " ").replace(MINUS, "-")


def _with_unit(number: str, symbol: str) -> str:
    if not symbol:
        return number
    joined = symbol.startswith("°") and not symbol.startswith(("°C", "°F"))
    return f"{number}{symbol}" if joined else f"{number}{SPACE}{symbol}"


def _rounded(number: float, kind: str, measure: Unit, digits: int | None) -> str:
    """The number to ``digits`` figures, or by the rules of the module."""
    if kind == "count":
        return fixed(number, 0)
    figures = digits or _figures(number, kind, measure)
    if number == 0.0 or (measure.offset and abs(number) < _EXACT * measure.offset):  # 273.15 K - 273.15 is nought, not 1e-14 °C
        return "0" if digits is None else fixed(0.0, figures - 1)
    if not SMALLEST_PLAIN <= abs(number) < LARGEST_PLAIN:
        return f"{number:.{figures - 1}e}".replace("e+", "e").replace("e-0", "e-").replace("-", MINUS)
    exponent = math.floor(math.log10(abs(float(f"{number:.{figures - 1}e}"))))  # of the rounded number: 9.996 is 10.0
    places = figures - 1 - exponent
    text = fixed(number, places)
    is_exact = abs(round(number, places) - number) <= _EXACT * max(abs(number), abs(measure.offset))
    if digits is None and is_exact and "." in text:
        text = text.rstrip("0").rstrip(".")
    return text


def _figures(number: float, kind: str, measure: Unit) -> int:
    size = abs(number)
    if kind == "voltage" and measure.symbol == "V" and 10.0 <= size < 100.0:
        return SIGNIFICANT + 1
    if kind == "current" and measure.symbol == "A" and size >= 100.0:
        return max(SIGNIFICANT, math.floor(math.log10(size)) + 1)
    return SIGNIFICANT


def _scale(value: float, quantity: Quantity, scale: str, digits: int | None) -> str | None:
    """A value on a scale that is not a factor; None where it has no place there."""
    if scale == "ft in":
        return show_length_ft_in(value)
    if scale == "h min":
        return _duration(value, digits)
    if scale == "Bft":
        return f"{beaufort_of(value)}{SPACE}Bft"
    size = gauge_of(value, scale)
    return f"{size}{SPACE}{scale}" if size else None


def _duration(seconds: float, digits: int | None) -> str:
    """Milliseconds, seconds, minutes, ``1 h 20 min`` or days, whichever a reader expects."""
    if abs(seconds) < 1.0 and seconds != 0.0:
        unit = "ms"
    elif abs(seconds) < 120.0:
        unit = "s"
    elif abs(seconds) < HOUR - 30.0:
        unit = "min"
    elif seconds < 2.0 * DAY:
        hours, minutes = divmod(round(seconds / 60.0), 60)
        return f"{hours}{SPACE}h" + (f"{SPACE}{minutes}{SPACE}min" if minutes else "")
    else:
        unit = "d"
    return show(seconds, "time", unit, digits)
