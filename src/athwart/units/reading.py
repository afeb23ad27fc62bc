"""Reading quantities: text with a unit in, SI out.

A number has an optional sign (also the true minus), thousands grouped by spaces, and one decimal point or comma. ``1,250`` may be
a thousand or one and a quarter and is refused; so is every other mix of separators. A point is always the decimal point.
Compounds: ``46 ft 7 in``, ``46'7"``, ``5 ft 3 1/2 in``, ``7/8 in``; ``1 h 20 min``, ``2 min 30 s``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from athwart.errors import QuantityError
from athwart.units import refusals
from athwart.units.gauges import beaufort_top, gauge_area, gauge_size
from athwart.units.quantities import DAY, FOOT, HOUR, INCH, QUANTITIES, Quantity, quantity_of

LONGEST = 80
"""Characters; a quantity is short, anything longer is not one."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A quantity as typed: ``value`` is SI, ``unit`` the symbol of the unit used (``ft in``, ``AWG``, ``Bft`` for such forms)."""

    text: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class CrankingCurrent:
    """A cold-cranking current; without its standard the figure means nothing."""

    amperes: float
    standard: str


def parse(text: str, kind: str) -> float:
    """SI value of a text such as ``70 mm2``; :class:`QuantityError` says what is wrong and what is allowed.

    >>> parse("46 ft 7 in", "length"), parse("4,5 m", "length"), parse("-5 °C", "temperature")
    (14.1986, 4.5, 268.15)
    """
    quantity = QUANTITIES.get(kind) or quantity_of(kind)
    if (plain := _PLAIN(text)) and (unit := quantity.table.get(plain[2])):  # the common case, at a third of the time
        return _bounded(unit.to_si(float(plain[1])), text, quantity)
    return _read(text, quantity)[0]


def read(text: str, kind: str) -> Reading:
    """Like :func:`parse`, keeping the text and the unit used.

    >>> read("2/0 AWG", "conductor").unit
    'AWG'
    """
    value, unit = _read(text, quantity_of(kind))
    return Reading(text, value, unit)


def parse_cranking(text: str) -> CrankingCurrent:
    """A cold-cranking current with the standard it was rated by.

    >>> parse_cranking("700 A CCA (EN)")
    CrankingCurrent(amperes=700.0, standard='EN')
    """
    tidy = _tidy(text)
    if len(text) > LONGEST or not (found := _CRANKING.fullmatch(tidy)):
        raise _no_cranking(text, _why_no_cranking(tidy))
    try:
        amperes = _number(found["number"])
    except ValueError as error:
        raise _no_cranking(text, str(error)) from None
    if not 1.0 <= amperes <= 1e4:
        raise _no_cranking(text, "a cranking current of one block lies between 1 A and 10 000 A")
    standard = (found["first"] or found["last"] or "").upper()
    if not standard:
        raise _no_cranking(text, "by which standard? 700 A by one is not 700 A by another")
    if found["first"] and found["last"]:
        raise _no_cranking(text, "the standard is given twice")
    return CrankingCurrent(amperes, standard)


# ---- how a number and a unit look
_PLAIN = re.compile(r"\s*([+-]?[0-9]{1,15}(?:\.[0-9]{1,15})?) ?([^\s0-9.,+\-/](?:\S{0,11}\S)?)\s*", re.ASCII).fullmatch
_NUMBER = re.compile(
    r"(?P<sign>[+-]?)(?P<whole>[0-9]{1,3}(?: [0-9]{3})+(?![0-9])|[0-9]*)(?P<rest>(?:[.,][0-9]+)*)(?P<power>(?:[eE][+-]?[0-9]+)?)"
)
_FRACTION = r"(?:(?P<{0}whole>[0-9]+)[ -])?(?P<{0}top>[0-9]+)/(?P<{0}bottom>[0-9]+)"
_FEET = r"(?:ft|feet|foot|')"
_INCHES = r"(?:in|inches|inch|\"|'')"
_FEET_AND_INCHES = re.compile(
    rf"(?P<sign>[+-]?)(?P<feet>[0-9]+) ?{_FEET}[ -]?(?:(?P<inches>[0-9]+(?:[.,][0-9]+)?)|{_FRACTION.format('')}) ?{_INCHES}"
)
_FRACTION_ALONE = re.compile(rf"(?P<sign>[+-]?){_FRACTION.format('')} ?(?:(?P<ft>{_FEET})|{_INCHES})")
_BARE_INCHES = re.compile(rf"[+-]?[0-9]+ ?{_FEET} ?-?[0-9]+")
_DURATION = re.compile(
    r"(?:(?P<d>[0-9]+) ?(?:d|days?)(?: |$|(?=[0-9])))?(?:(?P<h>[0-9]+) ?(?:h|hours?)(?: |$|(?=[0-9])))?"
    r"(?:(?P<min>[0-9]+) ?(?:min|minutes?)(?: |$|(?=[0-9])))?(?:(?P<s>[0-9]+(?:[.,][0-9]+)?) ?(?:s|sec|seconds?))?"
)
_GAUGE = re.compile(
    r"(?:#?(?P<size>[0-9/]+) ?(?P<scale>AWG|SAE)|(?P<scale_first>AWG|SAE) ?#?(?P<size_last>[0-9/]+))",
    re.IGNORECASE | re.ASCII,
)
_FORCE = re.compile(
    r"(?:(?:Bft|Beaufort|force|F) ?(?P<last>[0-9]+)|(?P<first>[0-9]+) ?(?:Bft|Beaufort))", re.IGNORECASE | re.ASCII
)
_CRANKING = re.compile(
    r"(?:(?P<first>SAE|EN|IEC|DIN) )?(?:CCA )?(?P<number>[0-9][0-9 ,.]*?) ?(?:A CCA|A|CCA)(?: ?\(?(?P<last>SAE|EN|IEC|DIN)\)?)?",
    re.IGNORECASE | re.ASCII,
)
_SIGNS = str.maketrans(
    {
        "\N{MINUS SIGN}": "-",
        "\N{NO-BREAK SPACE}": " ",
        "\N{NARROW NO-BREAK SPACE}": " ",
        "\N{THIN SPACE}": " ",
        "\N{FIGURE SPACE}": " ",
        "\t": " ",
        "\N{GREEK SMALL LETTER MU}": "µ",
        "\N{OHM SIGN}": "Ω",
        "\N{MASCULINE ORDINAL INDICATOR}": "°",
        "\N{DEGREE CELSIUS}": "°C",
        "\N{PRIME}": "'",
        "\N{RIGHT SINGLE QUOTATION MARK}": "'",
        "\N{DOUBLE PRIME}": '"',
        "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
        "\N{DOT OPERATOR}": "·",
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "⅛": " 1/8",
        "⅜": " 3/8",
        "⅝": " 5/8",
        "⅞": " 7/8",
    }
)


def _tidy(text: str) -> str:
    return text.translate(_SIGNS).strip()


def _bounded(value: float, text: str, quantity: Quantity) -> float:
    if not quantity.low <= value <= quantity.high:
        raise refusals.refusal(text, quantity, refusals.outside(value, quantity))
    return value


def _read(text: str, quantity: Quantity) -> tuple[float, str]:
    """Value and symbol of the unit; every way a quantity may be typed."""
    if len(text) > LONGEST:
        raise refusals.refusal(text, quantity, f"it is longer than {LONGEST} characters")
    tidy = _tidy(text)
    try:
        special = _SPECIAL[quantity.kind](tidy) if quantity.kind in _SPECIAL else None
        value, symbol = special or _number_and_unit(tidy, quantity)
    except ValueError as error:
        raise refusals.refusal(text, quantity, str(error)) from None
    if quantity.kind == "count" and not value.is_integer():
        raise refusals.refusal(text, quantity, "a count is a whole number")
    return _bounded(value, text, quantity), symbol


def _number_and_unit(tidy: str, quantity: Quantity) -> tuple[float, str]:
    found = _NUMBER.match(tidy)
    if not found or not (found["whole"] or found["rest"]):
        raise ValueError(refusals.no_number(tidy))
    number = found[0]
    value = _decimal(found)
    spelling = " ".join(tidy[found.end() :].split())
    unit = quantity.table.get(spelling)
    if unit is None or (not spelling and not quantity.bare):
        raise ValueError(refusals.unknown_unit(spelling, number, quantity))
    return unit.to_si(value), unit.symbol


def _number(text: str) -> float:
    """A number alone; a comma is a decimal comma where it cannot be anything else."""
    found = _NUMBER.fullmatch(text)
    if not found or not (found["whole"] or found["rest"]):
        raise ValueError(f"{text} is not a number")
    return _decimal(found)


def _decimal(found: re.Match[str]) -> float:
    sign, whole, rest, power = found.groups()
    if rest:
        if rest.count(".") + rest.count(",") > 1:
            raise ValueError(refusals.bad_separators(found[0]))
        may_be_thousands = rest[0] == "," and len(rest) == 4 and not power and 1 <= len(whole) <= 3 and whole[0] != "0"
        if may_be_thousands:
            raise ValueError(refusals.ambiguous_comma(sign + whole + rest))
    value = float(sign + whole.replace(" ", "") + rest.replace(",", ".") + power)
    if value in (float("inf"), float("-inf")):
        raise ValueError("it is not a finite number")
    return value


# ---- forms of one kind
def _fraction(found: re.Match[str]) -> float:
    whole, top, bottom = int(found["whole"] or 0), int(found["top"]), int(found["bottom"])
    if not 0 < top < bottom <= 64:
        raise ValueError(f"{found['top']}/{found['bottom']} is not a fraction of an inch or a foot such as 1/2 or 7/8")
    return whole + top / bottom


def _imperial_length(tidy: str) -> tuple[float, str] | None:
    if found := _FEET_AND_INCHES.fullmatch(tidy):
        inches = _number(found["inches"]) if found["inches"] else _fraction(found)
        if inches >= 12.0:
            raise ValueError(f"a foot has twelve inches, {inches:g} is more")
        value = int(found["feet"]) * FOOT + inches * INCH
        return (-value if found["sign"] == "-" else value), "ft in"
    if found := _FRACTION_ALONE.fullmatch(tidy):
        value = _fraction(found) * (FOOT if found["ft"] else INCH)
        return (-value if found["sign"] == "-" else value), "ft" if found["ft"] else "in"
    if _BARE_INCHES.fullmatch(tidy):
        raise ValueError("the inches have no unit: write them as in 46 ft 7 in")
    return None


def _duration(tidy: str) -> tuple[float, str] | None:
    if ":" in tidy:
        raise ValueError("minutes and seconds or hours and minutes? write 2 min 30 s or 1 h 20 min")
    found = _DURATION.fullmatch(tidy)
    parts = [name for name in ("d", "h", "min", "s") if found and found[name]]
    if not found or len(parts) < 2:
        return None
    days, hours, minutes = (int(found[name] or 0) for name in ("d", "h", "min"))
    seconds = _number(found["s"]) if found["s"] else 0.0
    for name, number, most in (("h", hours, 24), ("min", minutes, 60), ("s", seconds, 60)):
        if name in parts[1:] and number >= most:
            raise ValueError(f"{number:g} {name} beside {parts[parts.index(name) - 1]} is too many: at most {most - 1}")
    return days * DAY + hours * HOUR + minutes * 60.0 + seconds, "h min"


def _gauge(tidy: str) -> tuple[float, str] | None:
    if found := _GAUGE.fullmatch(tidy):
        scale = (found["scale"] or found["scale_first"]).upper()
        return gauge_area(gauge_size(found["size"] or found["size_last"]), scale), scale
    folded = tidy.upper()
    if "AWG" in folded or "SAE" in folded:
        raise ValueError("a gauge is a whole number such as 4, or 1/0, 2/0, 3/0, 4/0 (0, 00, 000, 0000)")
    if tidy in ("1/0", "2/0", "3/0", "4/0"):
        raise ValueError(f"{tidy} of which gauge? write {tidy} AWG or {tidy} SAE")
    return None


def _force(tidy: str) -> tuple[float, str] | None:
    if found := _FORCE.fullmatch(tidy):
        text = found["first"] or found["last"]
        return beaufort_top(int(text) if len(text) < 4 else 999), "Bft"
    if tidy.casefold().endswith(("bft", "beaufort")) or tidy.casefold().startswith(("bft", "beaufort", "force")):
        raise ValueError("a wind force is one whole number from 0 to 11")
    return None


_SPECIAL = {"length": _imperial_length, "time": _duration, "conductor": _gauge, "wind_speed": _force}


# ---- cranking currents
def _no_cranking(text: str, reason: str) -> QuantityError:
    allowed = "amperes with CCA and one of SAE, EN, IEC, DIN"
    return refusals.explain(text, "a cranking current", reason, allowed, "700 A CCA (EN)")


def _why_no_cranking(tidy: str) -> str:
    words = re.findall(r"[A-Za-z]+", tidy.upper())
    if not tidy:
        return "it is empty"
    if other := next((word for word in words if word in ("CA", "MCA", "HCA")), None):
        return f"{other} is measured in warmth (0 °C and above), a cold-cranking current at -18 °C"
    if "JIS" in words:
        return "JIS sizes name a case, not a current"
    if "CCA" not in words and "A" not in words:
        return "there is no current with CCA or A"
    return "it is not a current followed by CCA and its standard"
