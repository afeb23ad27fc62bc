"""Why a text is not a quantity: every message of the reader is made here, off the fast path."""

from __future__ import annotations

import re
from types import MappingProxyType

from athwart.errors import Mistake, QuantityError
from athwart.units.quantities import QUANTITIES, Quantity, nearest

_LONGEST_SHOWN = 60

TWO_MEANINGS: MappingProxyType[str, str] = MappingProxyType(
    {
        "KN": "knot or kilonewton? write kn for knots, kN for kilonewtons",
        "Kn": "knot or kilonewton? write kn for knots, kN for kilonewtons",
        "MA": "milliampere or megaampere? write mA for milliamperes",
        "Ma": "milliampere or megaampere? write mA for milliamperes",
        "MV": "millivolt or megavolt? write mV for millivolts",
        "mW": "milliwatt or megawatt? write W or kW",
        "MW": "milliwatt or megawatt? write W or kW",
        "Mohm": "milliohm or megohm? write mohm for milliohms, 1000 kohm for a megohm",
        "MOhm": "milliohm or megohm? write mohm for milliohms, 1000 kohm for a megohm",
        "MΩ": "milliohm or megohm? write mohm for milliohms, 1000 kohm for a megohm",
        "mPa": "millipascal or megapascal? write MPa, kPa or bar",
        "mJ": "millijoule or megajoule? write kJ or kWh",
        "MS": "millisecond or megasecond? write ms for milliseconds",
        "Ms": "millisecond or megasecond? write ms for milliseconds",
        "T": "tonne or tesla? write t for tonnes",
        "ton": "tonne, long ton or short ton? write t for tonnes of 1000 kg, or give kg or lb",
        "tons": "tonne, long ton or short ton? write t for tonnes of 1000 kg, or give kg or lb",
        "M": "metre, minute or nautical mile? write m for metres, min for minutes",
        "G": "gram or gauss? write g or kg",
        "S": "second or siemens? write s for seconds",
        "gal": "US or imperial gallon? write gal US or gal imp",
        "gallon": "US or imperial gallon? write gal US or gal imp",
        "gallons": "US or imperial gallon? write gal US or gal imp",
        "gal/min": "US or imperial gallon? write gal US/min or gal imp/min",
        "gpm": "US or imperial gallon? write gal US/min or gal imp/min",
        "ga": "which gauge? write AWG or SAE, for example 2/0 AWG",
        "gauge": "which gauge? write AWG or SAE, for example 2/0 AWG",
        "SWG": "standard wire gauge is not read; write AWG, SAE or mm²",
    }
)
"""Spellings that mean two things; no table of units holds any of them."""

TWO_MEANINGS_IN: MappingProxyType[tuple[str, str], str] = MappingProxyType(
    {
        ("time", "m"): "minutes or months? write min for minutes, months for months",
        ("time", "mo"): "minutes or months? write min for minutes, months for months",
        ("time", "M"): "minutes or months? write min for minutes, months for months",
        ("sound", "dB"): "weighted or not? write dBA",
        ("charge", "C"): "coulomb, or a rate of discharge? write Ah",
        ("charge", "A"): "a current is not a capacity; write Ah",
        ("bit_rate", "kB/s"): "kilobytes? a bus is rated in bits: write kbit/s",
    }
)

_COMMA_GROUPS = re.compile(r"[+-]?[0-9]{1,3}(,[0-9]{3})+(?![0-9])")
_POINT_GROUPS = re.compile(r"[+-]?[0-9]{1,3}(\.[0-9]{3})+,")


def shown(text: str) -> str:
    """The text as quoted in a message: cut when long, control characters escaped."""
    return repr(text if len(text) <= _LONGEST_SHOWN else text[:_LONGEST_SHOWN] + "…")


def refusal(text: str, quantity: Quantity, reason: str) -> QuantityError:
    """The error for one text: what was read, why not, what is allowed with an example."""
    return explain(text, quantity.noun, reason, quantity.allowed, quantity.example)


def explain(text: str, noun: str, reason: str, allowed: str, example: str) -> QuantityError:
    """An error in the one form all quantities share; it also carries a :class:`Mistake` to which a place can be added."""
    allowed = f"{allowed}, for example {example}"
    message = f"{shown(text)} cannot be read as {noun}: {reason}; allowed: {allowed}"
    return QuantityError(message, (Mistake(reason, read=text, allowed=allowed),))


def ambiguous_comma(number: str) -> str:
    """``1,250``: two readings, a factor of a thousand apart."""
    whole, _, rest = number.partition(",")
    return f"{number} is ambiguous (comma between thousands or decimal comma?): write {whole}{rest} or {whole}.{rest}"


def bad_separators(number: str) -> str:
    """More than one point or comma in a number."""
    if "," in number and "." in number:
        return f"{number} has a comma and a point: write thousands with spaces and one decimal point, as 1 250.5"
    if "," in number:
        return f"{number} has more than one comma: write thousands with spaces, as 1 250 000"
    return f"{number} has more than one decimal point"


def no_number(text: str) -> str:
    """Nothing that starts like a number."""
    word = text.lstrip("+- ").casefold()
    if not word:
        return "it is empty" if not text else "there is no number"
    if word.startswith(("nan", "inf", ".nan", ".inf")):
        return "it is not a finite number"
    if text[0] in "+-" and text[1:2] == " ":
        return "there is a space between the sign and the number"
    if text[0] in "<>~≈±" or word.startswith(("about", "ca", "approx")):
        return "a limit or an estimate is not a value: give the value alone"
    return "it does not start with a number"


def unknown_unit(unit: str, number: str, quantity: Quantity) -> str:
    """A number was read, what follows it is no unit of this kind."""
    if not unit:
        return f"{number} is a bare number, {quantity.noun} needs its unit"
    if unit[0] in ".,":
        return f"after {number} comes {unit[0]!r} without a digit"
    if quantity.units[0].symbol == "" and len(quantity.units) == 1:
        return f"after {number} comes {shown(unit)}: a count has no unit"
    if meaning := TWO_MEANINGS_IN.get((quantity.kind, unit)):
        return f"unit {shown(unit)}: {meaning}"
    if other := next((entry for entry in QUANTITIES.values() if unit in entry.table or unit in entry.scales), None):
        return f"{shown(unit)} is a unit of {other.noun.partition(' ')[2]}; {quantity.noun} is needed"
    if meaning := TWO_MEANINGS.get(unit):
        return f"unit {shown(unit)}: {meaning}"
    if unit[0] in "-–—/" or unit.startswith(("to ", "...", "…", "±")):
        return f"after {number} comes {shown(unit)}: a range, a date or a fraction is not a value"
    if unit[0].isdigit():
        return f"after {number} come digits again: thousands are groups of three digits, as 1 250"
    guess = nearest(unit, quantity.table)
    return f"unit {shown(unit)} is not known" + (f"; did you mean {guess!r}?" if guess else "")


def outside(value: float, quantity: Quantity) -> str:
    """A value beyond anything that can be meant."""
    if quantity.kind == "temperature" and value < quantity.low:
        return "it is below absolute zero"
    unit = quantity.table.get(quantity.metric, quantity.units[0])
    if value < quantity.low:
        least = "negative" if quantity.low == 0.0 else f"below {_number(unit.from_si(quantity.low))} {unit.symbol}".rstrip()
        return f"{quantity.noun} cannot be {least}"
    most = f"{_number(unit.from_si(quantity.high))} {unit.symbol}".rstrip()
    return f"it is beyond what {quantity.noun} can be here (at most {most})"


def _number(value: float) -> str:
    return f"{value:.6g}".replace("e+0", "e").replace("e-0", "e-").replace("e+", "e")
