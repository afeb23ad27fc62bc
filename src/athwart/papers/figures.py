"""Numbers as the papers print them: no-break spaces, true minus, as many digits as the trade reads, the unit always there."""

from __future__ import annotations

from math import floor, inf, isfinite, log10

from athwart.units import KNOT, fixed

SPACE = "\N{NO-BREAK SPACE}"
DASH = "\N{EN DASH}"


def number(value: float | None, places: int = 0) -> str:
    """A number to so many decimals, thousands grouped; an en dash where there is none."""
    if value is None or not isfinite(value):
        return DASH if value is None or value != inf else "never"
    return fixed(value, places).replace("\N{NARROW NO-BREAK SPACE}", SPACE)


def with_unit(value: float | None, unit: str, places: int = 0) -> str:
    """A number and its unit."""
    text = number(value, places)
    return f"{text}{SPACE}{unit}" if text not in (DASH, "never") and unit else text


def significant(value: float | None, digits: int = 3) -> str:
    """A number to so many significant figures, never in powers of ten between a millionth and a billion."""
    if value is None or not isfinite(value) or value == 0.0:
        return number(value, 0)
    places = digits - 1 - floor(log10(abs(float(f"{value:.{digits - 1}e}"))))
    return number(value, places)


def newtons(value: float | None) -> str:
    """Thrust to 10 N."""
    return with_unit(value, "N", -1)


def knots(speed: float | None) -> str:
    """A wind in knots."""
    return with_unit(None if speed is None else speed / KNOT, "kn", 1)


def volts(value: float | None, places: int = 2) -> str:
    """Volts to a hundredth."""
    return with_unit(value, "V", places)


def amps(value: float | None) -> str:
    """Amperes: whole ones from 10 up."""
    return with_unit(value, "A", 0 if value is None or abs(value) >= 9.95 else 1)


def kiloamps(value: float | None) -> str:
    """A fault current."""
    return with_unit(None if value is None else value / 1e3, "kA", 2)


def metres(value: float | None, places: int = 1) -> str:
    """Metres to a tenth."""
    return with_unit(value, "m", places)


def millimetres(value: float | None) -> str:
    """Whole millimetres from metres."""
    return with_unit(None if value is None else value * 1e3, "mm", 0)


def milliohms(value: float | None) -> str:
    """Milliohms from ohms."""
    return number(None if value is None else value * 1e3, 2)


def celsius(value: float | None) -> str:
    """Degrees Celsius from kelvin."""
    return with_unit(None if value is None else value - 273.15, "°C", 0)


def amp_hours(value: float | None) -> str:
    """Ampere hours from coulombs."""
    return with_unit(None if value is None else value / 3600.0, "Ah", 0 if value is None or abs(value) >= 36_000 else 1)


def kilograms(value: float | None) -> str:
    """Whole kilograms, tenths below ten."""
    return with_unit(value, "kg", 0 if value is None or abs(value) >= 9.95 else 1)


def duration(seconds: float | None) -> str:
    """Seconds, minutes or hours, whichever a reader expects."""
    if seconds is None or not isfinite(seconds):
        return number(seconds)
    if seconds < 0.95:
        return with_unit(seconds, "s", 2)
    if seconds < 120.0:
        return with_unit(seconds, "s", 0 if seconds >= 9.95 else 1)
    if seconds < 3600.0:
        return with_unit(seconds / 60.0, "min", 1 if seconds < 600 else 0)
    return with_unit(seconds / 3600.0, "h", 1)


def percent(share: float | None, places: int = 0) -> str:
    """A share in per cent."""
    return with_unit(None if share is None else share * 100.0, "%", places)


def plus_minus(band: float | None, places: int = 0) -> str:
    """A band of one standard deviation."""
    return DASH if band is None else f"±{SPACE}{number(band, places)}"


def square_millimetres(area: float) -> str:
    """A conductor's area."""
    return with_unit(area * 1e6, "mm²", 0 if area >= 5.5e-6 else 1) if area > 0 else DASH
