"""Equipment tables are read whole or refused cell by cell."""

from __future__ import annotations

from datetime import date
from io import BytesIO, StringIO
from math import inf, isnan

import pytest

from athwart.catalogue.builtin import builtin
from athwart.catalogue.curves import CURVES, breaking_steps
from athwart.catalogue.reading import SHEET_NAMES, Loaded, Sheet, cell_name, csv_sheet, load, merge, workbook_sheets
from athwart.catalogue.records import SHEETS, Cable, columns
from athwart.errors import CatalogueError, Mistake
from tests.unit.catalogue.tables import Cells, cells_of, curve_cells, own, sheet_of, some, workbook_of


def changed(sheet: str, header: str, text: str, count: int = 1) -> Cells:
    """The first built-in rows of a table with one cell of the first row written over."""
    cells = some(sheet, count)
    cells[1][cells[0].index(header)] = text
    return cells


def value(sheet: str, header: str, text: str, field: str) -> object:
    return getattr(own(sheet, changed(sheet, header, text)).catalogue.tables()[sheet][0], field)


def refused(sheet: str, cells: Cells) -> tuple[Mistake, ...]:
    with pytest.raises(CatalogueError) as caught:
        own(sheet, cells, base=builtin())
    return caught.value.mistakes


# ---- what a cell may say


@pytest.mark.parametrize(
    ("text", "newtons"),
    [
        ("1500", 1500.0),
        ("1.2 kN", 1200.0),
        ("1,2 kN", 1200.0),
        ("1200,5", 1200.5),
        ("1 200", 1200.0),
        ("150 kgf", 150 * 9.80665),
        ("1.2e3", 1200.0),
    ],
)
def test_a_number_stands_in_the_unit_of_the_head_or_brings_its_own(text: str, newtons: float) -> None:
    assert value("thruster units", "thrust_N", text, "thrust") == pytest.approx(newtons, rel=1e-12)


def test_units_with_an_offset_and_units_per_length_are_read() -> None:
    assert value("cables", "insulation_C", "105", "insulation_temperature") == pytest.approx(378.15)
    assert value("cables", "insulation_C", "221 °F", "insulation_temperature") == pytest.approx(378.15)
    assert value("cables", "ohm_per_km", "0.27", "resistance_per_metre") == pytest.approx(0.27e-3)
    assert value("cables", "ohm_per_km", "0.27 mohm/m", "resistance_per_metre") == pytest.approx(0.27e-3)
    assert value("cables", "area", "2/0 AWG", "area") == pytest.approx(67.43e-6, rel=1e-3)
    assert value("chargers", "efficiency", "88 %", "efficiency") == pytest.approx(0.88)
    assert value("chargers", "efficiency", "0.88", "efficiency") == pytest.approx(0.88)


@pytest.mark.parametrize("text", ["", "?", "-", "unknown", " Unknown "])
def test_unknown_stays_unknown(text: str) -> None:
    assert value("thruster units", "noise_dBA", text, "noise") is None


def test_words_and_flags_do_not_mind_capitals() -> None:
    assert value("thruster units", "drive", " Brushed", "drive") == "brushed"
    assert value("thruster units", "ignition_protected", "YES", "ignition_protected") is True


@pytest.mark.parametrize(
    ("header", "text", "words"),
    [
        ("thrust_N", "1,250", "decimal comma"),
        ("thrust_N", "1.2 KN", "KN"),
        ("thrust_N", "1500 mm", "mm"),
        ("thrust_N", "strong", "number"),
        ("thrust_N", "nan", "number"),
        ("thrust_N", "", "must be known"),
        ("mass_kg", "-3", "mass"),
        ("drive", "steam", "drive"),
        ("control", "0", "control"),
        ("rotors", "1.5", "whole number"),
        ("rotors", "-1", "whole number"),
        ("price", "9 kg", "bare number"),
        ("ignition_protected", "maybe", "yes nor no"),
        ("ignition_protected", "1", "yes nor no"),
        ("name", "x" * 500, "longer"),
        ("name", "a\x07b", "printed"),
        ("noise_dBA", "#N/A", "error"),
    ],
)
def test_a_bad_cell_is_named_with_its_place_what_it_says_and_what_it_may(header: str, text: str, words: str) -> None:
    cells = changed("thruster units", header, text)
    (mistake,) = refused("thruster units", cells)
    column = cells[0].index(header) + 1
    assert (mistake.file, mistake.line, mistake.column) == ("own.csv", 2, column)
    assert mistake.path == cell_name("thruster units", 2, column)
    assert words.casefold() in mistake.message.casefold()
    assert mistake.read == text.strip()[:80]
    assert mistake.allowed


def test_all_mistakes_come_at_once_and_good_rows_only_leaves_the_bad_ones_out() -> None:
    cells = some("battery blocks", 4)
    cells[1][cells[0].index("capacity_Ah")] = "1,250"
    cells[1][cells[0].index("chemistry")] = "nuclear"
    cells[3][cells[0].index("sealed")] = "nearly"
    mistakes = refused("battery blocks", cells)
    assert [mistake.line for mistake in mistakes] == [2, 2, 4]
    loaded = own("battery blocks", cells, good_rows_only=True)
    assert loaded.mistakes == mistakes
    assert [row.id for row in loaded.catalogue.blocks] == [cells[2][0], cells[4][0]]


def test_an_optional_choice_is_a_choice() -> None:
    (mistake,) = refused("battery blocks", changed("battery blocks", "cranking_standard", "JIS"))
    assert mistake.allowed == "SAE, EN, IEC, DIN"


# ---- heads and rows


def test_a_head_may_name_another_unit_of_its_kind() -> None:
    cells = some("thruster units")
    cells[0][cells[0].index("thrust_N")] = "thrust_lbf"
    cells[0][cells[0].index("length_mm")] = "length_in"
    unit = own("thruster units", cells).catalogue.units[0]
    assert unit.thrust == pytest.approx(250.0 * 4.4482216, rel=1e-6)
    assert unit.length == pytest.approx(builtin().units[0].length * 25.4)


def test_heads_missing_twice_or_unknown_are_told() -> None:
    cells = [*map(list, some("cables"))]
    cells[0][cells[0].index("tinned")] = "tined"
    mistakes = refused("cables", cells)
    assert len(mistakes) == 2
    assert "did you mean 'tinned'" in mistakes[0].message
    assert "tinned is missing" in mistakes[1].message
    cells = [*map(list, some("cables"))]
    cells[0][cells[0].index("note")] = "mass_lb"
    assert "twice" in refused("cables", cells)[0].message


def test_optional_columns_may_be_left_out_and_order_is_free() -> None:
    cells = some("battery blocks", 3)
    keep = [
        place for place in reversed(range(len(cells[0]))) if cells[0][place] not in ("note", "cranking_A", "protection_peak_A")
    ]
    loaded = own("battery blocks", [[row[place] for place in keep] for row in cells])
    assert [block.id for block in loaded.catalogue.blocks] == [row[0] for row in cells[1:]]
    assert loaded.catalogue.blocks[0].cranking is None


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_separators_are_found_by_the_heads(delimiter: str) -> None:
    cells = changed("cables", "ohm_per_km", "0,27")
    loaded = load([sheet_of("cables", cells, delimiter)], "own")
    assert loaded.catalogue.cables[0].resistance_per_metre == pytest.approx(0.27e-3)


def test_remarks_and_empty_rows_are_passed_over_and_rows_keep_their_number() -> None:
    cells = some("cables", 2)
    bad = [*cells[2]]
    bad[cells[0].index("area")] = "thick"
    (mistake,) = refused("cables", [["# ours"], [], cells[0], cells[1], ["", ""], ["# that was all"], bad])
    assert mistake.line == 7


def test_a_cell_beside_the_table_is_told() -> None:
    cells = some("cables")
    (mistake,) = refused("cables", [cells[0], [*cells[1], "1"]])
    assert "no column head" in mistake.message
    assert mistake.column == len(cells[0]) + 1


def test_an_id_stands_once() -> None:
    cells = some("cables")
    (mistake,) = refused("cables", [*cells, cells[1]])
    assert "taken by cables!A2" in mistake.message


def test_an_unfinished_quote_and_an_empty_table_are_told() -> None:
    for text, words in (('id,"maker\n1,2', "cannot be read further"), ("", "empty"), ("# only a remark\n", "empty")):
        with pytest.raises(CatalogueError) as caught:
            load([csv_sheet("cables", StringIO(text), "own.csv")], "own")
        assert words in caught.value.mistakes[0].message


def test_a_table_of_no_known_name_or_there_twice_is_told() -> None:
    good = sheet_of("cables", some("cables"))
    with pytest.raises(CatalogueError) as caught:
        load([good, sheet_of("Cable", some("cables")), good], "own")
    first, second = sorted(caught.value.mistakes, key=lambda mistake: mistake.message)
    assert "did you mean 'cables'" in first.message
    assert "twice" in second.message


# ---- fuses and curves


def test_a_fuse_needs_the_curve_of_its_family() -> None:
    cells = changed("fuses", "family", "bolt-down sf52")
    (mistake,) = refused("fuses", cells)
    assert "no curve" in mistake.message
    assert "bolt-down sf51" in mistake.message
    curves = sheet_of(CURVES, curve_cells(builtin().fuse_families))
    assert load([sheet_of("fuses", some("fuses", 3)), curves], "own").catalogue.fuses


def test_curves_keep_never_and_not_known_apart() -> None:
    family = builtin().fuse_families["gg blade"]
    assert family.points[0][2] == inf
    assert isnan(family.points[1][1])
    assert family.breaking_capacity == ((250.0, 25_000.0),)


@pytest.mark.parametrize(
    ("row", "header", "text", "words"),
    [
        (1, "breaking", "2 kA", "not a breaking capacity"),
        (1, "breaking", "2 kA @ 58 V; 5 kA @ 32 V", "not a breaking capacity"),
        (1, "form", "", "does not say its form"),
        (2, "most_V", "48", "something else above"),
        (2, "multiple", "0", "above nought"),
        (2, "multiple", "1", "a multiple twice"),
        (2, "least_s", "0", "above nought"),
        (2, "most_s", "soon", "not a time"),
        (2, "most_s", "-3", "not a time"),
    ],
)
def test_a_bad_curve_is_told_with_its_place(row: int, header: str, text: str, words: str) -> None:
    family = builtin().fuse_families["bolt-down sf51"]
    cells = curve_cells({family.family: family})
    cells[row][cells[0].index(header)] = text
    mistakes = refused(CURVES, cells)
    assert words in mistakes[0].message
    assert mistakes[0].path.startswith("fuse curves!")


def test_a_point_or_a_family_that_says_nothing_is_told() -> None:
    family = builtin().fuse_families["bolt-down sf51"]
    cells = curve_cells({family.family: family})
    least, most = cells[0].index("least_s"), cells[0].index("most_s")
    cells[2][least] = cells[2][most] = ""
    assert "least_s, most_s or both" in refused(CURVES, cells)[0].message
    cells = curve_cells({family.family: family})
    for row in cells[1:]:
        row[most] = "never"
    assert "least and a most" in refused(CURVES, cells)[0].message


def test_times_of_a_curve_may_bring_their_unit() -> None:
    family = builtin().fuse_families["bolt-down sf51"]
    cells = curve_cells({family.family: family})
    cells[2][cells[0].index("most_s")] = "30 min"
    assert own(CURVES, cells).catalogue.fuse_families["bolt-down sf51"].points[1][2] == 1800.0
    assert breaking_steps("2 kA @ 32 W") is None


# ---- workbooks


def test_a_workbook_gives_the_same_rows_as_csv() -> None:
    tables: dict[str, list[list[object]]] = {
        sheet: [[*row] for row in cells_of(sheet, rows)] for sheet, rows in builtin().tables().items()
    }
    tables[CURVES] = [[*row] for row in curve_cells(builtin().fuse_families)]
    text = load([sheet_of(name, [[str(cell) for cell in row] for row in rows]) for name, rows in tables.items()], "own")
    tables["Notes"] = [["anything"]]
    for rows in tables.values():  # as a spreadsheet holds them: numbers as numbers
        for row in rows[1:]:
            row[:] = [float(str(cell)) if str(cell).replace(".", "", 1).isdigit() else cell or None for cell in row]
    loaded = load(workbook_sheets(workbook_of(tables), "own.xlsx"), "own")
    assert loaded.catalogue.tables() == text.catalogue.tables()
    assert len(loaded.catalogue.units) == len(builtin().units)


def test_dates_and_flags_in_a_workbook_are_refused_where_numbers_belong() -> None:
    heads, row = some("cables")
    cells: list[object] = [*row]
    cells[heads.index("area")] = date(2026, 3, 2)
    cells[heads.index("outer_mm")] = True
    cells[heads.index("tinned")] = True
    cells[heads.index("maker")] = date(2026, 3, 2)
    with pytest.raises(CatalogueError) as caught:
        load(workbook_sheets(workbook_of({"cables": [heads, cells]}), "own.xlsx"), "own")
    assert {mistake.path.removeprefix("cables!") for mistake in caught.value.mistakes} == {
        cell_name("", 2, heads.index(header) + 1).removeprefix("!") for header in ("area", "outer_mm", "maker")
    }


@pytest.mark.parametrize("data", [b"", b"id,maker\n", b"PK\x03\x04 nothing"])
def test_what_is_no_workbook_is_refused(data: bytes) -> None:
    with pytest.raises(CatalogueError) as caught:
        workbook_sheets(BytesIO(data), "own.xlsx")
    assert caught.value.mistakes[0].file == "own.xlsx"


# ---- one on top of another


def on_top(cells: Cells, sheet: str = "cables") -> Loaded:
    return own(sheet, cells, base=builtin())


def test_own_rows_replace_or_extend() -> None:
    cells = some("cables", 2)
    cells[1][cells[0].index("price")] = "99"
    cells[2][0] = "ours-10mm2"
    cells[2][cells[0].index("invented")] = "no"
    both = merge(builtin(), on_top(cells).catalogue)
    assert len(both.cables) == len(builtin().cables) + 1
    assert both.cables[0].price == 99.0
    assert both.row("ours-10mm2") is not None
    assert both.units == builtin().units
    assert both.invented
    assert both.name == f"own on {builtin().name}"
    assert len({both.digest, builtin().digest}) == 2
    assert not own("cables", [cells[0], cells[2]]).catalogue.invented


def test_an_id_of_another_table_is_refused() -> None:
    cells = some("cables")
    cells[1][0] = builtin().units[0].id
    with pytest.raises(CatalogueError) as caught:
        merge(builtin(), on_top(cells).catalogue)
    assert "thruster units" in caught.value.mistakes[0].message


def test_the_digest_is_of_the_text() -> None:
    cells = some("cables")
    first = own("cables", cells).catalogue.digest
    assert own("cables", cells).catalogue.digest == first
    cells[1][cells[0].index("note")] = "x"
    assert own("cables", cells).catalogue.digest != first
    assert len(first) == 64


def test_every_table_has_a_name() -> None:
    assert (*SHEETS, CURVES) == SHEET_NAMES


def test_a_table_of_absurd_length_is_read_no_further(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("athwart.catalogue.reading.ROWS_MOST", 3)
    (mistake,) = refused("cables", some("cables", 5))
    assert "more than 3 rows" in mistake.message


@pytest.mark.parametrize(
    ("header", "cell", "words"),
    [
        ("mass_kg", 1e301, "finite"),
        ("mass_kg", -1.0, "beyond"),
        ("ohm_per_km", -1.0, "negative"),
        ("ohm_per_km", date(2026, 3, 2), "a date stands"),
        ("tinned", 1.0, "yes nor no"),
        ("conductor_class", True, "yes or no stands"),
        ("conductor_class", 5.0, "conductor_class"),
    ],
)
def test_cells_of_the_wrong_sort_in_a_workbook_are_refused(header: str, cell: object, words: str) -> None:
    heads, row = some("cables")
    cells: list[object] = [*row]
    cells[heads.index(header)] = cell
    sheet = Sheet("cables", ((1, tuple(heads)), (2, tuple(cells))), "own.xlsx", "")
    with pytest.raises(CatalogueError) as caught:
        load([sheet], "own")
    (mistake,) = caught.value.mistakes
    assert words in mistake.message


def test_a_number_where_words_belong_is_taken_as_it_is_written() -> None:
    heads, row = some("cables")
    cells: list[object] = [*row]
    cells[heads.index("size")], cells[heads.index("note")] = 70.0, 2.5
    (cable,) = load([Sheet("cables", ((1, tuple(heads)), (2, tuple(cells))), "own.xlsx", "")], "own").catalogue.cables
    assert (cable.gauge, cable.note) == ("70", "2.5")
    assert columns(Cable)["size"].name == "gauge"
