"""How a plausibility rule speaks: a figure, the band it should lie in, the formula and source behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from athwart import units


@dataclass(frozen=True, slots=True)
class Doubt:
    """One figure outside its limit."""

    what: str
    value: str
    limit: str
    formula: str
    source: str


def band(
    what: str,
    value: float,
    low: float,
    high: float,
    *,
    kind: str = "",
    unit: str | None = None,
    formula: str = "",
    source: str = "own-judgement",
) -> Iterator[Doubt]:
    """A doubt where ``value`` leaves ``low`` to ``high``; printed as a quantity of ``kind``, or as a bare number."""
    if low <= value <= high:
        return
    show = _plain if not kind else lambda number: units.show(number, kind, unit, plain=True)
    if low == -float("inf"):
        limit = f"at most {show(high)}"
    elif high == float("inf"):
        limit = f"at least {show(low)}"
    else:
        limit = f"{show(low)} to {show(high)}"
    yield Doubt(what, show(value), limit, formula, source)


def _plain(number: float) -> str:
    return f"{number:.3g}"
