"""Whether the figures of a catalogue can be true: each row held to physics.

Findings, not refusals: a maker's figure that looks wrong is shown with the limit, the formula behind it and the source of the
limit, and the row stays in use. Bands are wide on purpose; what leaves one is nearly always a slip of the pen, a wrong unit, or
a figure that another condition belongs to (gross thrust, another terminal voltage). Unknown figures are not judged.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from athwart.catalogue.cells import columns_of
from athwart.catalogue.plausible_battery import BLOCK_RULES
from athwart.catalogue.plausible_parts import (
    CABLE_RULES,
    CHARGER_RULES,
    CONTACTOR_RULES,
    FUSE_RULES,
    NETWORK_RULES,
    PANEL_RULES,
    PUMP_RULES,
    SUNDRY_RULES,
    SWITCH_RULES,
    curve_rules,
)
from athwart.catalogue.plausible_units import UNIT_RULES
from athwart.catalogue.records import SHEETS, Catalogue, Row
from athwart.catalogue.verdicts import Doubt

ABOVE_NOUGHT = frozenset({"length", "mass", "force", "charge", "conductor", "power", "flow", "displacement_per_rev", "rotation"})
NOT_NEGATIVE = frozenset({"voltage", "current", "time", "resistance", "number", "pressure", "speed", "ratio", "per_km"})


@dataclass(frozen=True, slots=True)
class Implausible:
    """A figure that physics does not bear out. ``formula`` names the one in the book, empty for a plain comparison."""

    row: str
    sheet: str
    what: str
    value: str
    limit: str
    formula: str
    source: str


RULES: Mapping[str, tuple[Callable[..., Iterator[Doubt]], ...]] = {
    "thruster units": UNIT_RULES,
    "battery blocks": BLOCK_RULES,
    "cables": CABLE_RULES,
    "fuses": FUSE_RULES,
    "switches": SWITCH_RULES,
    "contactors": CONTACTOR_RULES,
    "chargers": CHARGER_RULES,
    "panels": PANEL_RULES,
    "network cables": NETWORK_RULES,
    "sundries": SUNDRY_RULES,
    "hydraulic pumps": PUMP_RULES,
}


def implausible(catalogue: Catalogue) -> tuple[Implausible, ...]:
    """Every figure of a catalogue that cannot well be true, in the order of its tables."""
    found: list[Implausible] = []
    for sheet, rows in catalogue.tables().items():
        for row in rows:
            found += [_named(row.id, sheet, doubt) for doubt in _doubts(sheet, row)]
    for family in catalogue.fuse_families.values():
        found += [_named(family.family, "fuse curves", doubt) for doubt in curve_rules(family)]
    return tuple(found)


def _named(row: str, sheet: str, doubt: Doubt) -> Implausible:
    return Implausible(row, sheet, doubt.what, doubt.value, doubt.limit, doubt.formula, doubt.source)


def _doubts(sheet: str, row: Row) -> Iterator[Doubt]:
    """Signs first: a row with a figure below nought is not reckoned with any further."""
    wrong = list(_signs(sheet, row))
    yield from wrong
    if not wrong:
        for rule in RULES[sheet]:
            yield from rule(row)


def _signs(sheet: str, row: Row) -> Iterator[Doubt]:
    for column in columns_of(SHEETS[sheet][1]):
        value = getattr(row, column.name)
        if value is None or isinstance(value, (bool, str)):
            continue
        least = "above 0" if column.kind in ABOVE_NOUGHT and not (column.name == "mass" and value == 0) else "0 or more"
        if column.kind in ABOVE_NOUGHT | NOT_NEGATIVE and (value < 0 or (value == 0 and least == "above 0")):
            yield Doubt(column.header, f"{value:g}", least, "", "own-arithmetic")
