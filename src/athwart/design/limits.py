"""A limit that a part keeps or breaks, and how it is said: name, figure, limit, kept. The name ends in the unit: ``bank, V``."""

from __future__ import annotations

from math import isfinite
from typing import TypeAlias

from athwart import units
from athwart.units.printing import MINUS, SPACE, fixed

Limit: TypeAlias = tuple[str, float, float, bool]


def limit_words(limit: Limit) -> tuple[str, str, str]:
    """Rule, figure and limit as text with the unit the name ends in; a rule that is only words has no figures.

    >>> limit_words(("breaking capacity over the largest fault, A", 15931.2, 6000.0, False))
    ('breaking capacity over the largest fault', '15 931 A', '6 000 A')
    >>> limit_words(("no fuse of the catalogue passes", 0.0, 0.0, False))
    ('no fuse of the catalogue passes', '', '')
    """
    words, _, unit = limit[0].rpartition(", ")
    if not words or " " in unit:
        return limit[0], "", ""
    return words, _figure(limit[1], unit), _figure(limit[2], unit)


def against(limit: Limit) -> str:
    """A limit in one line: ``drop: 0.9 V against 0.7 V``."""
    rule, value, most = limit_words(limit)
    return f"{rule}: {value} against {most}" if value else rule


SI_OF = {"N": ("force", 1.0, 0.0), "m": ("length", 1.0, 0.0), "°C": ("temperature", 1.0, 273.15), "bar": ("pressure", 1e5, 0.0),
         "l/min": ("flow", 1.0 / 60_000.0, 0.0)}  # fmt: skip
"""Units of limits whose kind another system prints otherwise: kind, factor and shift to SI."""


def _figure(value: float, unit: str) -> str:
    if not isfinite(value):
        return "never" if unit == "s" else "without limit"
    kind, factor, shift = SI_OF.get(unit, ("", 1.0, 0.0))
    if kind and units.preferred(kind, unit) != unit:
        return units.show(value * factor + shift, kind, plain=True)
    size = abs(value)
    places = 0 if size >= 99.5 or value == int(value) else 1 if size >= 9.95 else 2
    return f"{fixed(value, places).replace(SPACE, ' ').replace(MINUS, '-')} {unit}"
