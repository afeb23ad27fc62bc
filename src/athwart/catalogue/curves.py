"""Fuse families: the table ``fuse curves``, one row a point.

The family stands in every row; what holds for the whole family (form, volts, breaking capacity, ...) stands at least in its
first row, and wherever else it stands it must say the same. ``least_s`` empty: nothing known of that side; ``most_s`` empty
likewise, ``never``: it may hold for ever.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from math import inf, nan
from typing import Any

from athwart.catalogue.cells import Column
from athwart.catalogue.records import FuseFamily, FuseForm
from athwart.errors import QuantityError
from athwart.units import parse

CURVES = "fuse curves"
FORMS: tuple[str, ...] = FuseForm.__args__  # type: ignore[attr-defined]
CURVE_COLUMNS: tuple[Column, ...] = (
    Column("family", "family", "", "", needed=True),
    Column("form", "form", "", "", needed=False, choices=FORMS),
    Column("volts_most", "most_V", "voltage", "V", needed=False),
    Column("breaking_capacity", "breaking", "", "", needed=False),
    Column("multiple", "multiple", "number", "", needed=True),
    Column("least", "least_s", "time", "s", needed=False),
    Column("most", "most_s", "", "", needed=False),
    Column("current_limiting", "current_limiting", "flag", "", needed=False),
    Column("ignition_protected", "ignition_protected", "flag", "", needed=False),
    Column("source", "source", "", "", needed=False),
    Column("verified", "verified", "flag", "", needed=False),
)
COMMON = ("form", "volts_most", "breaking_capacity", "current_limiting", "ignition_protected", "source", "verified")
NEVER = "never"
BREAKING_EXAMPLE = "2 kA @ 32 V; several steps with rising volts: 5 kA @ 32 V; 2 kA @ 58 V"

Refuse = Callable[..., None]
"""(row, field name, message, read, allowed)"""

_STEP = re.compile(r"\s*(?P<current>[^@]+?)\s*@\s*(?P<volts>[^@]+?)\s*").fullmatch
_SECONDS = re.compile(r"[0-9]{1,12}(?:[.,][0-9]{1,6})?", re.ASCII).fullmatch


def read_curves(rows: Sequence[tuple[int, Mapping[str, Any]]], refuse: Refuse) -> dict[str, FuseFamily]:
    """Families by name from the rows of the table; bad ones are told to ``refuse`` and left out."""
    grouped: dict[str, list[tuple[int, Mapping[str, Any]]]] = defaultdict(list)
    for row, values in rows:
        grouped[values["family"]].append((row, values))
    made = {name: _family(name, group, refuse) for name, group in grouped.items()}
    return {name: family for name, family in made.items() if family is not None}


def _family(name: str, rows: Sequence[tuple[int, Mapping[str, Any]]], refuse: Refuse) -> FuseFamily | None:
    common = _common(name, rows, refuse)
    points = [point for row, values in rows if (point := _point(row, values, refuse)) is not None]
    if common is None or len(points) != len(rows):
        return None
    points.sort(key=lambda point: point[0])
    if any(a[0] == b[0] for a, b in pairwise(points)):
        refuse(rows[0][0], "multiple", f"family {name!r} has a multiple twice", "", "each multiple once")
        return None
    if all(least != least for _, least, _ in points) or all(not most < inf for _, _, most in points):
        refuse(rows[0][0], "multiple", f"family {name!r} needs a least and a most time somewhere", "", "least_s and most_s")
        return None
    return FuseFamily(family=name, points=tuple(points), **common)


def _common(name: str, rows: Sequence[tuple[int, Mapping[str, Any]]], refuse: Refuse) -> dict[str, Any] | None:
    """What holds for the whole family."""
    found: dict[str, Any] = {}
    good = True
    for field in COMMON:
        said = [(row, values[field]) for row, values in rows if values.get(field) is not None]
        if not said:
            refuse(rows[0][0], field, f"family {name!r} does not say its {field.replace('_', ' ')}", "", "in its first row")
            good = False
            continue
        for row, value in said[1:]:
            if value != said[0][1]:
                refuse(row, field, f"family {name!r} says something else above", str(value), str(said[0][1]))
                good = False
        found[field] = said[0][1]
    if "breaking_capacity" in found:
        steps = breaking_steps(found["breaking_capacity"])
        if steps is None:
            row = next(row for row, values in rows if values.get("breaking_capacity"))
            refuse(row, "breaking_capacity", "not a breaking capacity", found["breaking_capacity"], BREAKING_EXAMPLE)
            good = False
        else:
            found["breaking_capacity"] = steps
    return found if good else None


def breaking_steps(text: str) -> tuple[tuple[float, float], ...] | None:
    """(up to these volts, amperes) from ``5 kA @ 32 V; 2 kA @ 58 V``, volts rising; None where it is not understood.

    >>> breaking_steps("5 kA @ 32 V; 2 kA @ 58 V")
    ((32.0, 5000.0), (58.0, 2000.0))
    """
    steps = []
    for part in text.split(";"):
        found = _STEP(part)
        if found is None:
            return None
        try:
            steps.append((parse(found["volts"], "voltage"), parse(found["current"], "current")))
        except QuantityError:
            return None
    rising = all(a[0] < b[0] for a, b in pairwise(steps))
    return tuple(steps) if rising and all(volts > 0.0 and current > 0.0 for volts, current in steps) else None


def _point(row: int, values: Mapping[str, Any], refuse: Refuse) -> tuple[float, float, float] | None:
    multiple, least = values["multiple"], values.get("least")
    if not multiple > 0.0:
        refuse(row, "multiple", "a multiple of the rating is above nought", str(multiple), "above 0")
        return None
    if least is not None and not least > 0.0:
        refuse(row, "least", "a time is above nought", str(least), "above 0, or empty")
        return None
    most = _most(values.get("most"))
    if most is None:
        refuse(row, "most", "not a time", str(values.get("most")), f"seconds above 0, a time such as 2 min, {NEVER}, or empty")
        return None
    if least is None and most != most:
        refuse(row, "least", "a point says least_s, most_s or both", "", "at least one of them")
        return None
    return multiple, nan if least is None else least, most


def _most(text: str | None) -> float | None:
    """Seconds; infinite for ``never``, nan for empty, None where not understood."""
    if text is None:
        return nan
    if text.casefold() == NEVER:
        return inf
    try:
        value = float(text.replace(",", ".")) if _SECONDS(text) else parse(text, "time")
    except QuantityError:
        return None
    return value if value > 0.0 else None
