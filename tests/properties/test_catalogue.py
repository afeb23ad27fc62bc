"""Tables survive being written and read; a mutated cell is read or refused in its place, and physics never stumbles."""

from __future__ import annotations

from dataclasses import fields, replace
from math import inf, nan
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from athwart.catalogue.builtin import builtin
from athwart.catalogue.cells import columns_of
from athwart.catalogue.curves import CURVES
from athwart.catalogue.plausibility import implausible
from athwart.catalogue.reading import SHEET_NAMES, cell_name, load
from athwart.catalogue.records import SHEETS
from athwart.errors import CatalogueError
from tests.properties.strategies import quantity_texts
from tests.unit.catalogue.tables import Cells, cells_of, curve_cells, sheet_of

CATALOGUE = builtin()
TABLES: dict[str, Cells] = {sheet: cells_of(sheet, rows) for sheet, rows in CATALOGUE.tables().items()} | {
    CURVES: curve_cells(CATALOGUE.fuse_families)
}
WORDS = st.sampled_from(
    [
        "",
        "?",
        "yes",
        "no",
        "brushed",
        "net",
        "never",
        "1,250",
        "12,5",
        "2 kA @ 32 V",
        "#REF!",
        "70 mm2 M10",
        "class t",
        "\n",
        "\x00",
    ]
)


def test_every_row_survives_being_written_and_read() -> None:
    again = load([sheet_of(name, cells) for name, cells in TABLES.items()], "again").catalogue
    for sheet, rows in CATALOGUE.tables().items():
        for row, other in zip(rows, again.tables()[sheet], strict=True):
            for field in fields(row):
                one, two = getattr(row, field.name), getattr(other, field.name)
                assert two == (pytest.approx(one, rel=1e-12) if isinstance(one, float) else one), (sheet, row.id, field.name)
    assert list(again.fuse_families) == list(CATALOGUE.fuse_families)
    for name, family in CATALOGUE.fuse_families.items():
        assert again.fuse_families[name].breaking_capacity == family.breaking_capacity
        assert str(again.fuse_families[name].points) == str(family.points)


@settings(max_examples=1000)
@given(st.sampled_from(SHEET_NAMES), st.data())
def test_a_mutated_cell_gives_a_value_or_a_mistake_in_its_place(sheet: str, data: st.DataObject) -> None:
    whole = TABLES[sheet]
    number = data.draw(st.integers(0, min(len(whole) - 1, 40)), "row")
    cells = [list(whole[0]), list(whole[max(1, number)])] if sheet != CURVES else [list(row) for row in whole[:45]]
    row = 0 if number == 0 else 1 if sheet != CURVES else min(number, len(cells) - 1)
    place = data.draw(st.integers(0, len(cells[0]) - 1), "column")
    cells[row][place] = data.draw(st.one_of(quantity_texts(), WORDS, st.text(max_size=12)), "text")
    try:
        loaded = load([sheet_of(sheet, cells)], "own", base=CATALOGUE)
    except CatalogueError as error:
        assert error.mistakes
        for mistake in error.mistakes:
            assert mistake.message
            assert mistake.file == "own.csv"
            assert mistake.path.startswith(sheet)
        if row > 0 and sheet != CURVES and not set('"\n\r') & set(cells[row][place]):
            assert cell_name(sheet, 2, place + 1) in {mistake.path for mistake in error.mistakes}
        again = load([sheet_of(sheet, cells)], "own", base=CATALOGUE, good_rows_only=True)
        assert again.mistakes == error.mistakes
    else:
        implausible(loaded.catalogue)


@settings(max_examples=600)
@given(st.sampled_from(tuple(SHEETS)), st.data())
def test_any_figure_is_judged_without_stumbling(sheet: str, data: st.DataObject) -> None:
    attribute, record = SHEETS[sheet]
    row = data.draw(st.sampled_from(getattr(CATALOGUE, attribute)), "row")
    columns = [column for column in columns_of(record) if column.kind not in ("", "flag")]
    changes: dict[str, object] = {}
    for column in data.draw(st.lists(st.sampled_from(columns), min_size=1, max_size=4), "columns"):
        if column.kind == "count":
            changes[column.name] = data.draw(st.integers(0, 1000))
        else:
            changes[column.name] = data.draw(st.sampled_from([0.0, 1e-12, 1e-3, 1.0, 1e3, 1e9, -1.0]) | st.floats(-1e6, 1e6))
        if not column.needed and data.draw(st.booleans()):
            changes[column.name] = None
    bare: dict[str, Any] = {name: () for name, _ in SHEETS.values()} | {attribute: (replace(row, **changes),)}
    for doubt in implausible(replace(CATALOGUE, **bare)):
        assert doubt.row == row.id
        assert doubt.value
        assert doubt.limit


@settings(max_examples=300)
@given(
    st.lists(
        st.tuples(st.floats(0.1, 50.0), st.floats(1e-3, 1e6) | st.just(nan), st.floats(1e-3, 1e6) | st.sampled_from([nan, inf])),
        min_size=2,
        max_size=8,
        unique_by=lambda point: point[0],
    )
)
def test_any_curve_the_reader_lets_through_is_judged_without_stumbling(points: list[tuple[float, float, float]]) -> None:
    family = CATALOGUE.fuse_families["class t"]
    cells = curve_cells({"class t": replace(family, points=tuple(points))})
    try:
        loaded = load([sheet_of(CURVES, cells)], "own")
    except CatalogueError:
        return
    implausible(loaded.catalogue)
