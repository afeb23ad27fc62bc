"""Tables written and read back for the tests."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from io import BytesIO, StringIO
from math import inf, isnan
from typing import Any

from athwart.catalogue.builtin import builtin
from athwart.catalogue.cells import columns_of
from athwart.catalogue.curves import CURVE_COLUMNS
from athwart.catalogue.reading import Loaded, Sheet, csv_sheet, load
from athwart.catalogue.records import SHEETS, Catalogue, FuseFamily, Row
from athwart.units import QUANTITIES

Cells = list[list[str]]


def cells_of(sheet: str, rows: Sequence[Row]) -> Cells:
    """Heads and rows as text, numbers to sixteen figures in the units of the heads."""
    columns = columns_of(SHEETS[sheet][1])
    return [
        [column.header for column in columns],
        *[[text_of(column.kind, column.unit, getattr(row, column.name)) for column in columns] for row in rows],
    ]


def text_of(kind: str, unit: str, value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    assert isinstance(value, (int, float))
    if kind == "per_km":
        return f"{value * 1e3:.15g}"
    if unit:
        return f"{QUANTITIES[kind].table[unit].from_si(value):.15g}"
    return f"{value:.15g}"


def curve_cells(families: Mapping[str, FuseFamily]) -> Cells:
    """The table of curves; what is common to a family in its first row only."""
    rows = [[column.header for column in CURVE_COLUMNS]]
    for family in families.values():
        breaking = "; ".join(f"{current:g} A @ {volts:g} V" for volts, current in family.breaking_capacity)
        for number, (multiple, least, most) in enumerate(family.points):
            first = number == 0
            flags = ["yes" if flag else "no" for flag in (family.current_limiting, family.ignition_protected)]
            rows.append(
                [
                    family.family,
                    *([family.form, f"{family.volts_most:g}", breaking] if first else ["", "", ""]),
                    f"{multiple:g}",
                    "" if isnan(least) else f"{least:g}",
                    "" if isnan(most) else "never" if most == inf else f"{most:g}",
                    *([*flags, family.source, "yes" if family.verified else "no"] if first else [""] * 4),
                ]
            )
    return rows


def sheet_of(name: str, cells: Sequence[Sequence[str]], delimiter: str = ",", file: str = "own.csv") -> Sheet:
    """A table of cells, through CSV text."""
    stream = StringIO(newline="")
    csv.writer(stream, delimiter=delimiter, lineterminator="\n").writerows(cells)
    return csv_sheet(name, StringIO(stream.getvalue(), newline=""), file)


def workbook_of(tables: Mapping[str, Sequence[Sequence[object]]]) -> BytesIO:
    """A workbook of tables."""
    import openpyxl

    library: Any = openpyxl
    book = library.Workbook()
    book.remove(book.active)
    for name, rows in tables.items():
        page = book.create_sheet(name)
        for row in rows:
            page.append(list(row))
    stream = BytesIO()
    book.save(stream)
    stream.seek(0)
    return stream


def own(sheet: str, cells: Sequence[Sequence[str]], *, good_rows_only: bool = False, base: Catalogue | None = None) -> Loaded:
    """One table read as a catalogue of its own."""
    return load([sheet_of(sheet, cells)], "own", good_rows_only=good_rows_only, base=base)


def some(sheet: str, count: int = 1) -> Cells:
    """Heads and the first rows of a built-in table."""
    return cells_of(sheet, builtin().tables()[sheet][:count])
