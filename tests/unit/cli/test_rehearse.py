"""``athwart rehearse`` from outside: table, JSON, pictures, Parquet, one clear message for what cannot be."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pyarrow.parquet
import pytest
from click.testing import CliRunner, Result

from athwart.cli import main
from athwart.cli.rehearse import rehearse
from tests.unit.design.checks._boats import EXAMPLES, changed_text

ONE, TWO, SEVEN = (str(next(EXAMPLES.glob(f"{number}-*.yaml"))) for number in "127")


def result(*arguments: str) -> Result:
    return CliRunner().invoke(rehearse, list(arguments), standalone_mode=False)


def without_rudder(folder: Path) -> str:
    """Example 2 with nothing that holds the stern in a box berth."""
    brief = folder / "no-rudder.yaml"
    brief.write_text(changed_text(Path(TWO).read_text(encoding="utf-8"), {"propulsion.rudder_area": None}), encoding="utf-8")
    return str(brief)


def test_all_manoeuvres_in_one_table() -> None:
    out = result(SEVEN, "--runs", "64").output
    for name in ("hold heading", "hold station", "quarter turn", "leave quay", "box berth", "stop drift"):
        assert f"\n{name}" in out
    assert "of 64" in out
    assert "seed 1" in out


def test_what_cannot_be_rehearsed_is_said_and_the_rest_goes_on(tmp_path: Path) -> None:
    out = result(without_rudder(tmp_path), "--runs", "32").output
    assert "box berth: not rehearsed" in out
    assert "stop drift" in out


def test_json_is_the_same_for_any_workers() -> None:
    one, two = (
        result(ONE, "--runs", "200", "--manoeuvre", "quarter turn", "--workers", workers, "--json").output for workers in "13"
    )
    assert one == two
    body = json.loads(one)
    found = body["rehearsals"][0]
    assert found["success"]["of"] == 200
    assert {case["case"] for case in body["cases"]} == {"A", "B", "C", "D"}
    assert len(body["polars"][0]["curves"][0]["points"]) == 36


def test_pictures_are_whole(tmp_path: Path) -> None:
    out = result(SEVEN, "--runs", "48", "--manoeuvre", "box berth", "--pictures", str(tmp_path)).output
    names = sorted(path.name for path in tmp_path.iterdir())
    assert names[:3] == ["V-007-box-berth-success.svg", "V-007-box-berth-time.svg", "V-007-box-berth-track.svg"]
    assert [name.split("-case-")[1][0] for name in names[3:]] == ["A", "B", "C", "C", "D"]
    assert f"{len(names)} files" in out
    for path in tmp_path.iterdir():
        assert ElementTree.parse(path).getroot().tag.endswith("svg")


def test_every_run_as_parquet(tmp_path: Path) -> None:
    result(ONE, "--runs", "2500", "--manoeuvre", "stop drift", "--parquet", str(tmp_path))
    arrow: Any = pyarrow.parquet  # its types are not said
    table = arrow.read_table(tmp_path / "stop-drift.parquet")
    assert table.num_rows == 2500
    assert {"run", "success", "bow_on_s", "charge_C"} <= set(table.column_names)
    assert [path.name for path in tmp_path.iterdir()] == ["stop-drift.parquet"]


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (("--manoeuvre", "hold statoin"), 2, "did you mean 'hold station'"),
        (("--manoeuvre", "xyz"), 2, "there are hold heading"),
        (("--delay", "9 s"), 2, "0 s to 6 s"),
        (("--delay", "0.7"), 2, "needs its unit"),
        (("--runs", "0"), 2, "--runs"),
    ],
)
def test_one_clear_message(arguments: tuple[str, ...], code: int, words: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["rehearse", ONE, *arguments])
    assert ended.value.code == code
    assert words in capsys.readouterr().err


def test_a_manoeuvre_that_the_boat_cannot_do_ends_with_three(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["rehearse", without_rudder(tmp_path), "--manoeuvre", "box berth"])
    assert ended.value.code == 3
    assert "nothing holds the stern" in capsys.readouterr().err


def test_units_of_another_control_can_be_compared() -> None:
    shares = {}
    for control in ("on/off", "proportional"):
        out = result(ONE, "--runs", "160", "--manoeuvre", "box berth", "--control", control, "--json").output
        made = json.loads(out)["rehearsals"][0]
        assert f"units as if they were {control}" in made["notes"]
        shares[control] = made["success"]["share_1"]
    assert shares["proportional"] > shares["on/off"]


def test_gusts_are_written_with_their_mean_and_deviation(tmp_path: Path) -> None:
    file = tmp_path / "gusts.csv"
    result(ONE, "--runs", "16", "--manoeuvre", "hold heading", "--gusts", str(file))
    rows = file.read_text(encoding="utf-8").splitlines()
    assert rows[0] == "time_s,wind_m_per_s,wind_kn"
    speeds = [float(row.split(",")[1]) for row in rows[1:]]
    assert len(speeds) == 1200
    mean = sum(speeds) / len(speeds)
    sigma = (sum((v - mean) ** 2 for v in speeds) / len(speeds)) ** 0.5
    assert mean == pytest.approx(5.75, rel=0.06)
    assert sigma == pytest.approx(0.19 * 5.75, rel=0.25)
    again = tmp_path / "again.csv"
    result(ONE, "--runs", "16", "--manoeuvre", "hold heading", "--gusts", str(again))
    assert again.read_bytes() == file.read_bytes()


def test_parquet_tells_success_and_cause_by_name(tmp_path: Path) -> None:
    result(SEVEN, "--runs", "64", "--manoeuvre", "box berth", "--parquet", str(tmp_path))
    read: Any = pyarrow.parquet.read_table
    table = read(tmp_path / "box-berth.parquet")
    assert set(table["success"].to_pylist()) <= {True, False}
    assert set(table["cause"].to_pylist()) <= {"none", "thrust", "heat", "volts", "room", "control"}
