"""Equipment tables from streams of CSV or XLSX: every bad cell with its place, all at once.

A table is a sheet or a file named as in :data:`~athwart.catalogue.records.SHEETS`, or ``fuse curves``. Its first row holds the
column heads; the unit stands in the head (``thrust_N``) and bare numbers stand in that unit. Another unit of the same kind may
stand in the head instead (``thrust_lbf``) or in a cell (``1.2 kN``). Empty, ``?``, ``-`` and ``unknown`` mean unknown. Rows
whose first cell starts with ``#`` are remarks. Columns are separated by commas, semicolons or tabs.

Nothing here opens a file: a stream comes in, with the name to show in messages.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from hashlib import sha256
from io import BytesIO, StringIO
from typing import Any, BinaryIO, TextIO

from athwart.catalogue.cells import Cell, Column, Refused, columns_of, is_unknown, stands
from athwart.catalogue.curves import CURVES, read_curves
from athwart.catalogue.records import SHEETS, Catalogue, Fuse, FuseFamily, Row
from athwart.errors import CatalogueError, Mistake

SHEET_NAMES: tuple[str, ...] = (*SHEETS, CURVES)
ROWS_MOST = 20_000
COLUMNS_MOST = 200
HEADS_WITHIN = 100_000
"""Characters in which the row of heads must stand."""
LEFT_ALONE = ("notes", "remarks", "read me")
"""Sheets of a workbook that are nobody's table."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """The cells of one table, as read: ``rows`` are (row number, cells). ``digest`` is of the text or workbook they came from."""

    name: str
    rows: tuple[tuple[int, tuple[Cell, ...]], ...]
    file: str
    digest: str
    mistakes: tuple[Mistake, ...] = ()


@dataclass(frozen=True, slots=True)
class Loaded:
    """A catalogue of the good rows, and the mistakes of the others (empty unless they were asked to be left out)."""

    catalogue: Catalogue
    mistakes: tuple[Mistake, ...]


def cell_name(sheet: str, row: int, column: int) -> str:
    """Place of a cell as spreadsheets write it; row and column count from 1.

    >>> cell_name("cables", 7, 3), cell_name("cables", 2, 28)
    ('cables!C7', 'cables!AB2')
    """
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return f"{sheet}!{letters}{row}"


def sheet_name(text: str) -> str:
    """The table a sheet or file is meant for: capitals, hyphens and underlines do not count.

    >>> sheet_name("Thruster_Units")
    'thruster units'
    """
    return " ".join(text.replace("_", " ").replace("-", " ").split()).casefold()


# ---- streams


def csv_sheet(name: str, stream: TextIO, file: str = "") -> Sheet:
    """The table in a stream of CSV text."""
    text = stream.read().removeprefix("\ufeff")
    digest = sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
    wanted = sheet_name(name)
    rows: list[tuple[int, tuple[Cell, ...]]] = []
    reader = csv.reader(StringIO(text, newline=""), delimiter=_delimiter(text, wanted), strict=True)
    try:
        for cells in reader:
            if len(rows) >= ROWS_MOST or len(cells) > COLUMNS_MOST:
                raise csv.Error(f"more than {ROWS_MOST} rows or {COLUMNS_MOST} columns")
            rows.append((reader.line_num, tuple(cells)))
    except csv.Error as error:
        mistake = Mistake(f"the table cannot be read further: {error}", file or wanted, reader.line_num, path=wanted)
        return Sheet(wanted, tuple(rows), file, digest, (mistake,))
    return Sheet(wanted, tuple(rows), file, digest)


def workbook_sheets(stream: BinaryIO, file: str = "") -> tuple[Sheet, ...]:
    """The tables of an XLSX workbook, one a sheet; values as last calculated, no formula is run."""
    from zipfile import BadZipFile

    from openpyxl.reader import excel
    from openpyxl.utils.exceptions import InvalidFileException

    data = stream.read()
    digest = sha256(data).hexdigest()
    try:
        opener: Any = excel.load_workbook
        book = opener(BytesIO(data), read_only=True, data_only=True)
        sheets = [
            Sheet(sheet_name(page.title), _page_rows(page), file, digest)
            for page in book.worksheets
            if not _is_left_alone(page.title)
        ]
        book.close()
    except (BadZipFile, InvalidFileException, KeyError, ValueError, TypeError, AttributeError, SyntaxError, OSError) as error:
        raise CatalogueError(
            "not a workbook", (Mistake("this is no XLSX workbook that can be read", file, read=type(error).__name__),)
        ) from None
    return tuple(sheets)


def _is_left_alone(title: str) -> bool:
    return title.startswith("#") or sheet_name(title) in LEFT_ALONE


def _page_rows(page: Any) -> tuple[tuple[int, tuple[Cell, ...]], ...]:
    rows: list[tuple[int, tuple[Cell, ...]]] = []
    for number, cells in enumerate(page.iter_rows(values_only=True, max_col=COLUMNS_MOST, max_row=ROWS_MOST), start=1):
        kept = list(cells)
        while kept and kept[-1] is None:
            kept.pop()
        if kept:
            rows.append((number, tuple(kept)))
    return tuple(rows)


def _delimiter(text: str, wanted: str) -> str:
    """The separator under which the row of heads has the most known columns."""
    head = next(
        (line for line in text[:HEADS_WITHIN].split("\n") if line.strip() and not line.lstrip().startswith(("#", '"#'))), ""
    )
    known = {column.header for column in _columns(wanted)} if wanted in SHEETS or wanted == CURVES else set()
    return max(
        (",", ";", "\t"), key=lambda mark: (sum(part.strip(' \r\n"') in known for part in head.split(mark)), head.count(mark))
    )


def _columns(sheet: str) -> Iterable[Column]:
    from athwart.catalogue.curves import CURVE_COLUMNS

    return CURVE_COLUMNS if sheet == CURVES else columns_of(SHEETS[sheet][1])


# ---- rows


class _Desk:
    """Collects the mistakes of one sheet with their places."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.mistakes: list[Mistake] = list(sheet.mistakes)

    def refuse(self, row: int, column: int, message: str, read: str = "", allowed: str = "") -> None:
        name = self.sheet.name
        self.mistakes.append(Mistake(message, self.sheet.file, row, column, cell_name(name, row, column), read[:80], allowed))


@dataclass(frozen=True, slots=True)
class _Heads:
    """The heads of a sheet: index of the first row below them, the column of each place, and how many places there are."""

    first: int
    places: dict[int, Column]
    width: int


def _heads(sheet: Sheet, desk: _Desk, columns: Sequence[Column]) -> _Heads | None:
    """The heads; None where they cannot be used."""
    found: dict[int, Column] = {}
    index = next((i for i, (_, cells) in enumerate(sheet.rows) if not _is_remark(cells)), None)
    if index is None:
        desk.refuse(
            1, 1, "the table is empty: a row of column heads is needed", allowed=", ".join(c.header for c in columns if c.needed)
        )
        return None
    row, cells = sheet.rows[index]
    named = _heads_by_text(tuple(columns))
    for place, cell in enumerate(cells, start=1):
        text = stands(cell)
        if not text:
            continue
        column = named.get(text)
        if column is None:
            near = get_close_matches(text, named, 1)
            hint = f"; did you mean {near[0]!r}?" if near else ""
            desk.refuse(row, place, f"no column of this name{hint}", text, ", ".join(c.header for c in columns))
        elif any(column.name == other.name for other in found.values()):
            desk.refuse(row, place, f"the column {column.name.replace('_', ' ')} is there twice", text)
        else:
            found[place] = column
    present = {column.name for column in found.values()}
    missing = [column.header for column in columns if column.needed and column.name not in present]
    for header in missing:
        desk.refuse(row, len(cells) + 1, f"the column {header} is missing", allowed=header)
    return None if missing else _Heads(index + 1, found, len(cells))


@cache
def _heads_by_text(columns: tuple[Column, ...]) -> dict[str, Column]:
    """Every head that is understood, in any unit of its kind."""
    found = {column.header: column for column in columns}
    for column in columns:
        for other in column.in_other_units():
            found.setdefault(other.header, other)
    return found


def _is_remark(cells: Sequence[Cell]) -> bool:
    if all(cell is None or (isinstance(cell, str) and not cell.strip()) for cell in cells):
        return True
    return isinstance(cells[0], str) and cells[0].lstrip().startswith("#")


def _values(row: int, cells: Sequence[Cell], heads: _Heads, desk: _Desk) -> dict[str, object] | None:
    """Field values of a row; None where a cell was refused."""
    values: dict[str, object] = {}
    good = True
    for place, cell in enumerate(cells[heads.width :], start=heads.width + 1):
        if not is_unknown(cell):
            desk.refuse(row, place, "this cell stands under no column head", stands(cell))
            good = False
    for place, column in heads.places.items():
        cell = cells[place - 1] if place <= len(cells) else None
        try:
            values[column.name] = column.read(cell)
        except Refused as error:
            desk.refuse(row, place, error.message, stands(cell), error.allowed)
            good = False
    return values if good else None


def _records(sheet: Sheet, record: type[Row], desk: _Desk) -> tuple[dict[str, int], list[tuple[int, Row]]]:
    """Place of each field's column, and the rows that could be read."""
    heads = _heads(sheet, desk, columns_of(record))
    if heads is None:
        return {}, []
    made: list[tuple[int, Row]] = []
    for row, cells in sheet.rows[heads.first :]:
        if not _is_remark(cells) and (values := _values(row, cells, heads, desk)) is not None:
            made.append((row, record(**values)))  # type: ignore[arg-type]
    return {column.name: place for place, column in heads.places.items()}, made


def load(sheets: Iterable[Sheet], name: str, *, good_rows_only: bool = False, base: Catalogue | None = None) -> Loaded:
    """A catalogue from tables.

    ``base`` is the catalogue these tables will extend: its fuse families are known to their fuses. Tables that are not there
    are empty.

    Raises
    ------
    CatalogueError
        With every mistake, unless ``good_rows_only`` leaves the bad rows out; then they are in ``Loaded.mistakes``.
    """
    mistakes: list[Mistake] = []
    tables: dict[str, list[Row]] = {sheet: [] for sheet in SHEETS}
    families: dict[str, FuseFamily] = {}
    taken: dict[str, str] = {}
    parts = sorted(
        sheets, key=lambda sheet: (sheet.name != CURVES, SHEET_NAMES.index(sheet.name) if sheet.name in SHEET_NAMES else 99)
    )
    seen: set[str] = set()
    for sheet in parts:
        desk = _Desk(sheet)
        if sheet.name not in SHEET_NAMES or sheet.name in seen:
            near = get_close_matches(sheet.name, SHEET_NAMES, 1)
            hint = f"; did you mean {near[0]!r}?" if near and sheet.name not in seen else ""
            said = "this table is there twice" if sheet.name in seen else f"no table of this name{hint}"
            mistakes.append(Mistake(said, sheet.file, path=sheet.name, read=sheet.name, allowed=", ".join(SHEET_NAMES)))
            continue
        seen.add(sheet.name)
        if sheet.name == CURVES:
            heads = _heads(sheet, desk, _curve_columns())
            if heads is not None:
                families = _families(sheet, heads, desk)
        else:
            known = {*families, *(base.fuse_families if base is not None else ())}
            tables[sheet.name] = _table(sheet, desk, taken, known)
        mistakes += desk.mistakes
    if mistakes and not good_rows_only:
        count = len(mistakes)
        raise CatalogueError(f"{name}: {count} mistake{'s' if count > 1 else ''}", tuple(mistakes))
    return Loaded(_catalogue(name, parts, tables, families), tuple(mistakes))


def _families(sheet: Sheet, heads: _Heads, desk: _Desk) -> dict[str, FuseFamily]:
    rows = [
        (row, values)
        for row, cells in sheet.rows[heads.first :]
        if not _is_remark(cells) and (values := _values(row, cells, heads, desk)) is not None
    ]
    places = {column.name: place for place, column in heads.places.items()}

    def refuse(row: int, column: str, message: str, read: str, allowed: str) -> None:
        desk.refuse(row, places.get(column, 1), message, read, allowed)

    return read_curves(rows, refuse)


def _curve_columns() -> tuple[Column, ...]:
    return tuple(_columns(CURVES))


def _table(sheet: Sheet, desk: _Desk, taken: dict[str, str], families: set[str]) -> list[Row]:
    """The good rows of a table: each id once in all tables, each fuse of a known family."""
    kept: list[Row] = []
    places, rows = _records(sheet, SHEETS[sheet.name][1], desk)
    for row, entry in rows:
        if entry.id in taken:
            desk.refuse(row, places["id"], f"this id is taken by {taken[entry.id]}", entry.id, "an id of its own")
            continue
        if isinstance(entry, Fuse) and entry.family not in families:
            near = get_close_matches(entry.family, families, 1)
            hint = f"; did you mean {near[0]!r}?" if near else ""
            known = ", ".join(sorted(families)) or f"a family of the table {CURVES!r}"
            desk.refuse(row, places["family"], f"its family has no curve{hint}", entry.family, known)
            continue
        taken[entry.id] = cell_name(sheet.name, row, places["id"])
        kept.append(entry)
    return kept


def _catalogue(name: str, sheets: Sequence[Sheet], tables: dict[str, list[Row]], families: dict[str, FuseFamily]) -> Catalogue:
    made: dict[str, Any] = {attribute: tuple(tables[sheet]) for sheet, (attribute, _) in SHEETS.items()}
    digest = sha256("\n".join(f"{sheet.name} {sheet.digest}" for sheet in sheets).encode()).hexdigest()
    invented = any(entry.invented for rows in tables.values() for entry in rows)
    return Catalogue(name=name, digest=digest, invented=invented, fuse_families=families, **made)


def merge(base: Catalogue, own: Catalogue) -> Catalogue:
    """``own`` on top of ``base``: a row with the same id in the same table replaces, others are added; families likewise.

    Raises
    ------
    CatalogueError
        An id of ``own`` stands in another table of ``base``.
    """
    places = {entry.id: sheet for sheet, rows in base.tables().items() for entry in rows}
    clashes = [
        Mistake(
            f"this id stands in the table {places[entry.id]!r} of {base.name}", path=sheet, read=entry.id, allowed="another id"
        )
        for sheet, rows in own.tables().items()
        for entry in rows
        if places.get(entry.id, sheet) != sheet
    ]
    if clashes:
        raise CatalogueError(f"{own.name} does not go with {base.name}", tuple(clashes))
    tables: dict[str, Any] = {}
    for sheet, (attribute, _) in SHEETS.items():
        mine = {entry.id: entry for entry in own.tables()[sheet]}
        theirs = [mine.pop(entry.id, entry) for entry in base.tables()[sheet]]
        tables[attribute] = (*theirs, *mine.values())
    return Catalogue(
        name=f"{own.name} on {base.name}",
        digest=sha256(f"{base.digest} {own.digest}".encode()).hexdigest(),
        invented=any(entry.invented for rows in tables.values() for entry in rows),
        fuse_families={**base.fuse_families, **own.fuse_families},
        **tables,
    )
