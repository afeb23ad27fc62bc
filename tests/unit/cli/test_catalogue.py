"""``athwart catalogue``: what it prints and how it ends."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from athwart.catalogue.builtin import builtin
from athwart.catalogue.records import SHEETS
from athwart.cli import main
from tests.unit.catalogue.tables import Cells, some


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as ended:
        main(["catalogue", *arguments])
    out = capsys.readouterr()
    assert isinstance(ended.value.code, int)
    return ended.value.code, out.out, out.err


def write(path: Path, cells: Cells) -> str:
    with path.open("w", newline="", encoding="utf-8") as stream:
        csv.writer(stream).writerows(cells)
    return str(path)


def test_the_tables_are_listed_with_their_rows(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "list")
    assert code == 0
    assert "not for construction" in out
    assert all(sheet in out for sheet in SHEETS)
    code, out, _ = run(capsys, "list", "--json")
    assert json.loads(out)["tables"]["thruster units"] == len(builtin().units)


@pytest.mark.parametrize("sheet", [*SHEETS, "fuse curves"])
def test_every_table_is_shown_as_text_and_as_json(capsys: pytest.CaptureFixture[str], sheet: str) -> None:
    for arguments in ((), ("--wide",), ("--units", "imperial")):
        code, out, _ = run(capsys, "list", sheet, *arguments)
        assert code == 0
        assert len(out.splitlines()) > 3
    code, out, _ = run(capsys, "list", sheet, "--json")
    rows = json.loads(out)["rows"]
    assert code == 0
    assert len(rows) == len(builtin().tables().get(sheet, builtin().fuse_families))


def test_units_stand_in_the_heads_and_follow_the_system(capsys: pytest.CaptureFixture[str]) -> None:
    _, metric, _ = run(capsys, "list", "thruster")
    _, imperial, _ = run(capsys, "list", "thruster", "--units", "imperial")
    assert "thrust [N]" in metric
    assert "thrust [lbf]" in imperial
    assert "tunnel [in]" in imperial
    row = next(line for line in imperial.splitlines() if line.startswith("tunnel-24V-1550N "))
    assert " 348.45 " in row
    _, out, _ = run(capsys, "list", "cables", "--json")
    first = json.loads(out)["rows"][0]
    assert (first["area"], first["ohm_per_km"], first["insulation_C"]) == (1.5, 13.7, 70.0)


def test_part_of_a_name_is_enough_where_it_is_the_only_one(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(capsys, "list", "pumps")[0] == 0
    code, _, err = run(capsys, "list", "fuse")
    assert code == 2
    assert "Several tables match" in err
    code, _, err = run(capsys, "list", "swiches")
    assert code == 2
    assert "Did you mean 'switches'" in err


def test_the_built_in_set_passes(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "check")
    assert code == 0
    assert "nothing to doubt" in out


def test_a_doubtful_figure_ends_with_one_and_shows_limit_and_formula(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    cells = some("cables")
    cells[1][cells[0].index("ohm_per_km")] = "9"
    path = write(tmp_path / "cables.csv", cells)
    code, out, _ = run(capsys, "check", path)
    assert code == 1
    assert "power.conductor.iec60228_resistance" in out
    code, out, _ = run(capsys, "check", path, "--json")
    assert code == 1
    assert json.loads(out)["implausible"][0]["row"] == cells[1][0]


def test_a_table_that_cannot_be_read_ends_with_two_and_names_every_cell(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    cells = some("cables", 2)
    cells[1][cells[0].index("area")] = "1,250"
    cells[2][cells[0].index("tinned")] = "nearly"
    path = write(tmp_path / "cables.csv", cells)
    code, out, err = run(capsys, "check", path)
    assert (code, out) == (2, "")
    assert "cables!" in err
    assert "2 mistakes" in err
    code, out, err = run(capsys, "check", path, "--good-rows-only")
    assert code == 2
    assert "2 cells could not be read" in out
    assert "1,250" in err


def test_own_rows_are_listed_on_top_or_alone(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    cells = some("cables")
    cells[1][0] = "ours"
    path = write(tmp_path / "cables.csv", cells)
    _, out, _ = run(capsys, "list", "cables", "--catalogue", path)
    assert len(out.splitlines()) == 3 + len(builtin().cables) + 1
    _, out, _ = run(capsys, "list", "cables", "--catalogue", path, "--only-own")
    assert out.splitlines()[-1].startswith("ours ")
    assert len(out.splitlines()) == 4
