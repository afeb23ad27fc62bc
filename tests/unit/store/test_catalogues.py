"""A user's own equipment is found in a folder, a file or a workbook, and refused in words where it is none."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from athwart.catalogue.builtin import builtin
from athwart.errors import CatalogueError
from athwart.store.catalogues import catalogue_for, read_catalogue
from tests.unit.catalogue.tables import Cells, curve_cells, some, workbook_of


def write(path: Path, cells: Cells, encoding: str = "utf-8") -> Path:
    with path.open("w", newline="", encoding=encoding) as stream:
        csv.writer(stream).writerows(cells)
    return path


def ours(count: int = 1) -> Cells:
    cells = some("cables", count)
    for number, row in enumerate(cells[1:]):
        row[0] = f"ours-{number}"
    return cells


def test_without_a_path_it_is_the_built_in_one() -> None:
    assert catalogue_for(None) is builtin()


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig"])
def test_a_folder_extends_the_built_in_or_stands_alone(tmp_path: Path, encoding: str) -> None:
    write(tmp_path / "cables.csv", ours(2), encoding)
    write(tmp_path / "Fuse-Curves.csv", curve_cells(builtin().fuse_families))
    (tmp_path / "readme.txt").write_text("not a table")
    assert len(catalogue_for(tmp_path).cables) == len(builtin().cables) + 2
    alone = catalogue_for(tmp_path, only_own=True)
    assert len(alone.cables) == 2
    assert alone.units == ()
    assert alone.name == tmp_path.name


def test_a_file_and_a_workbook_are_read(tmp_path: Path) -> None:
    assert len(read_catalogue(write(tmp_path / "cables.csv", ours())).catalogue.cables) == 1
    book = tmp_path / "own.xlsx"
    book.write_bytes(workbook_of({"Cables": ours()}).getvalue())
    assert len(read_catalogue(book).catalogue.cables) == 1


def test_own_fuses_may_use_built_in_curves_only_on_top_of_them(tmp_path: Path) -> None:
    cells = some("fuses")
    cells[1][0] = "ours"
    path = write(tmp_path / "fuses.csv", cells)
    assert len(catalogue_for(path).fuses) == len(builtin().fuses) + 1
    with pytest.raises(CatalogueError) as caught:
        catalogue_for(path, only_own=True)
    assert "no curve" in caught.value.mistakes[0].message


def test_good_rows_only_keeps_the_mistakes_beside_them(tmp_path: Path) -> None:
    cells = ours(2)
    cells[1][cells[0].index("area")] = "thick"
    loaded = read_catalogue(write(tmp_path / "cables.csv", cells), good_rows_only=True)
    assert [row.id for row in loaded.catalogue.cables] == ["ours-1"]
    assert loaded.mistakes[0].file == str(tmp_path / "cables.csv")


def test_what_cannot_be_read_is_said_in_words(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "cables.csv").write_bytes("id;maker\nÄ\n".encode("latin-1"))
    (tmp_path / "cables.pdf").write_bytes(b"%PDF")
    (tmp_path / "own.xlsx").write_bytes(b"no zip")
    for name, words in (
        ("empty", "no CSV file"),
        ("cables.csv", "not UTF-8"),
        ("cables.pdf", "neither a folder"),
        ("own.xlsx", "no XLSX workbook"),
        ("nowhere.csv", "cannot be read"),
    ):
        with pytest.raises(CatalogueError) as caught:
            read_catalogue(tmp_path / name)
        assert words in caught.value.mistakes[0].message


def test_a_file_of_absurd_size_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("athwart.store.catalogues.LARGEST", 100)
    write(tmp_path / "cables.csv", ours())
    for path in (tmp_path, tmp_path / "cables.csv"):
        with pytest.raises(CatalogueError) as caught:
            read_catalogue(path)
        assert "larger than" in caught.value.mistakes[0].message


def test_a_file_that_vanishes_is_said_in_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = write(tmp_path / "cables.csv", ours())

    def gone(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", gone)
    with pytest.raises(CatalogueError) as caught:
        read_catalogue(path)
    assert "Permission denied" in caught.value.mistakes[0].message
