"""``athwart propose``, ``check`` and ``why`` from outside: exit codes, one clear message each, plain text, JSON with units."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from athwart.cli import main, root
from athwart.cli.propose import propose
from tests.unit.design.checks._boats import EXAMPLES, changed_text, text_of

SOURCE = Path(__file__).parents[3] / "src"
ONE = str(EXAMPLES / "1-motor-yacht.yaml")


def example(number: str) -> str:
    """The file of an example."""
    return str(next(EXAMPLES.glob(f"{number}*.yaml")))


def athwart(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """The command as a process of its own, piped."""
    return subprocess.run(
        [sys.executable, "-m", "athwart", *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        timeout=120,
        env=os.environ | {"PYTHONPATH": str(SOURCE)} | environment,
    )


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str]) -> Callable[..., tuple[int, str, str]]:
    """Run the entry point and give exit code, standard output and standard error."""

    def run(*arguments: str) -> tuple[int, str, str]:
        with pytest.raises(SystemExit) as stopped:
            main(list(arguments))
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return int(stopped.value.code or 0), out, err

    return run


def changed(tmp_path: Path, number: str, changes: dict[str, Any]) -> str:
    """An example with changes as a file."""
    file = tmp_path / "brief.yaml"
    file.write_text(changed_text(text_of(number), changes), encoding="utf-8")
    return str(file)


# ---- exit codes


@pytest.mark.parametrize("number", ["1", "2", "4", "7"])
def test_a_clean_example_ends_with_0(number: str, said: Any) -> None:
    code, out, err = said("propose", example(number))
    assert (code, err) == (0, "")
    assert "1. Will it hold?" in out
    assert "6. What does it weigh" in out


def test_a_stop_finding_ends_with_1(said: Any) -> None:
    code, out, _ = said("propose", example("6"))
    assert code == 1
    assert "[STOP]" in out
    code, out, _ = said("check", example("6"))
    assert code == 1
    assert "Not taken" not in out


def test_a_brief_that_is_not_understood_ends_with_2_and_names_every_place(tmp_path: Path, said: Any) -> None:
    code, out, err = said(
        "propose", changed(tmp_path, "1", {"boat.beam": "4,3 bananas", "wind.speed": "fast", "duty.burst": "5 kg"})
    )
    assert (code, out) == (2, "")
    lines = err.splitlines()
    assert [re.match(r".*brief\.yaml:\d+:\d+: (\S+):", line)[1] for line in lines[:-1]] == [  # type: ignore[index]
        "boat.beam",
        "wind.speed",
        "duty.burst",
    ]
    assert lines[-1] == "3 mistakes; nothing was written."


TWO_HULLS = {"boat.kind": "catamaran", "boat.beam": "6.6 m", "boat.hull_beam": "1.6 m", "boat.hull_spacing": "4.9 m"}


def test_a_catamaran_is_answered_by_elements_and_says_what_it_leaves_out(tmp_path: Path, said: Any) -> None:
    code, out, err = said("propose", changed(tmp_path, "1", TWO_HULLS), "--all")
    assert (code, err) == (0, "")
    assert "sum of elements, the hull to leeward not counted" in out
    assert "NEED-08 boat: For a catamaran the model stands in" in out


def test_a_catamaran_without_her_hulls_is_told_what_is_missing(tmp_path: Path, said: Any) -> None:
    code, out, err = said("propose", changed(tmp_path, "1", {"boat.kind": "catamaran"}))
    assert (code, out) == (2, "")
    assert "boat.kind" in err
    assert "hull_beam (of one hull) and hull_spacing" in err


def test_two_bow_units_of_a_catamaran_share_the_need(tmp_path: Path, said: Any) -> None:
    plain = json.loads(said("propose", changed(tmp_path, "1", TWO_HULLS), "--json")[1])
    port = {
        "identity": "bow port",
        "role": "bow",
        "place": "forepeak",
        "instance": 1,
        "tunnel": {"x": "12.0 m", "axis_depth": "0.52 m", "tunnel_length": "0.78 m", "entry_radius": "30 mm"},
        "wanted": {"housings": ["tunnel"], "volts": ["24 V"]},
    }
    brief = changed(tmp_path, "1", {**TWO_HULLS, "thrusters[1]": port, "bank[0].feeds": ["bow", "bow port"]})
    code, out, err = said("propose", brief, "--json")
    assert code in (0, 1), err
    both = json.loads(out)
    assert [lane["thruster"] for lane in both["lanes"]] == ["bow", "bow port"]
    needs = [case["thrust_need_worst_N"] for case in both["need"]["cases"]]
    assert needs[0] == needs[1] == pytest.approx(plain["need"]["cases"][0]["thrust_need_worst_N"] / 2.0, rel=0.02)


def test_a_bank_colder_than_its_tables_ends_with_3(tmp_path: Path, said: Any) -> None:
    code, _, err = said("propose", changed(tmp_path, "1", {"duty.coldest_bank": "-30 °C"}))
    assert code == 3
    assert "from -20 to 40 °C" in err


def test_an_internal_error_ends_with_4_and_leaves_a_report(said: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("a fault of the program")

    monkeypatch.setattr("athwart.design.search.propose.propose", broken)
    code, out, err = said("propose", ONE)
    assert (code, out) == (4, "")
    (report,) = re.findall(r"/\S+report\.txt", err)
    assert "ZeroDivisionError: a fault of the program" in Path(report).read_text(encoding="utf-8")


# ---- what cannot be read


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"boat: [1,\n  x: {", "2:"),
        (b"\x00\xff\xfe not text", "UTF-8"),
        (b"", "this must be given"),
        (b"- a\n- list\n", ""),
        (b"boat: &a [*a]\n", ""),
        (b"a: 1\na: 2\n", ""),
    ],
)
def test_an_unreadable_file_ends_with_2_and_a_place(content: bytes, says: str, tmp_path: Path, said: Any) -> None:
    file = tmp_path / "brief.yaml"
    file.write_bytes(content)
    code, out, err = said("propose", str(file))
    assert (code, out) == (2, "")
    assert says in err
    assert re.search(r"brief\.yaml:\d+:\d+: ", err)


def test_a_file_that_is_not_there_and_a_folder_end_with_2(tmp_path: Path, said: Any) -> None:
    for path, says in ((tmp_path / "none.yaml", "does not exist"), (tmp_path, "is a directory")):
        code, out, err = said("propose", str(path))
        assert (code, out) == (2, "")
        assert says in err


def test_an_unknown_row_aboard_is_one_message_at_its_line(tmp_path: Path, said: Any) -> None:
    wrong = {
        "aboard.lanes.bow.unit.row": "tunnel-24V-1551N",
        "aboard.lanes.stern": {"unit": {"row": "tunnel-24V-1000N"}},
    }
    for command in ("propose", "check"):
        code, out, err = said(command, changed(tmp_path, "7", wrong))
        assert (code, out) == (2, "")
        assert err.count("no such row in the catalogue") == 1
        assert re.search(r"brief\.yaml:\d+:\d+: aboard\.lanes\.bow\.unit\.row: .*did you mean 'tunnel-24V-1550N'", err)


def test_all_unknown_rows_are_named_at_once(tmp_path: Path, said: Any) -> None:
    lane = "aboard.lanes.bow"
    code, _, err = said(
        "propose", changed(tmp_path, "7", {f"{lane}.unit.row": "a", f"{lane}.switch.row": "b", f"{lane}.charger.row": "c"})
    )
    assert code == 2
    assert [path for path in ("unit", "switch", "charger") if f"{lane}.{path}.row" in err] == ["unit", "switch", "charger"]
    assert "3 mistakes" in err


def test_papers_that_cannot_be_written_end_with_2(tmp_path: Path, said: Any) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    code, _, err = said("propose", ONE, "--papers", str(tmp_path / "file" / "papers"))
    assert code == 2
    assert "Not a directory" in err


def test_only_own_without_a_catalogue_is_refused(said: Any) -> None:
    code, out, err = said("propose", "--only-own", ONE)
    assert (code, out) == (2, "")
    assert "--only-own needs --catalogue" in err


def test_a_mistyped_command_gets_a_guess(said: Any) -> None:
    code, _, err = said("propse", ONE)
    assert code == 2
    assert "Did you mean 'propose'?" in err


# ---- output


def test_piped_output_is_plain_text() -> None:
    done = athwart("propose", ONE)
    assert done.returncode == 0
    assert "\x1b" not in done.stdout
    assert max(map(len, done.stdout.splitlines())) < 200
    assert all(line == line.rstrip() for line in done.stdout.splitlines())


def test_colour_needs_a_terminal_and_no_no_color(monkeypatch: pytest.MonkeyPatch) -> None:
    from athwart.cli import say

    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert say.bold("x") == "\x1b[1mx\x1b[0m"
    monkeypatch.setenv("NO_COLOR", "1")
    assert say.bold("x") == "x"
    monkeypatch.delenv("NO_COLOR")
    monkeypatch.setattr(sys.stdout, "isatty", lambda: False)
    assert say.bold("x") == "x"


def test_the_output_is_utf_8_in_a_plain_locale() -> None:
    done = athwart("propose", ONE, LC_ALL="C", PYTHONUTF8="0", PYTHONIOENCODING="")
    assert (done.returncode, done.stderr) == (0, "")
    assert "mm²" in done.stdout or "mm2" in done.stdout


def test_a_closed_pipe_is_no_error() -> None:
    command = f"{sys.executable} -m athwart propose {ONE} --all | head -n 1"
    done = subprocess.run(
        ["/bin/sh", "-c", command], capture_output=True, text=True, check=False, env=os.environ | {"PYTHONPATH": str(SOURCE)}
    )
    assert done.stdout == "Velundra\n"
    assert done.stderr == ""


def _result(*arguments: str) -> Result:
    return CliRunner().invoke(propose, list(arguments))


def test_imperial_units_are_printed_on_demand() -> None:
    metric, imperial = _result(ONE).output, _result(ONE, "--units", "imperial").output
    assert "lbf" in imperial
    assert "lbf" not in metric


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.yaml")), ids=lambda path: path.stem)
def test_imperial_answers_carry_no_metric_mass_force_or_length(path: Path) -> None:
    answers = _result(str(path), "--units", "imperial").output.partition("Thrust needed")[0]
    assert not re.search(r"\d (N|kN|kg|m|mm|cm)\b", answers.replace("forecast at 10 m", ""))


def test_all_prints_every_refusal_and_default() -> None:
    short, long = _result(ONE).output, _result(ONE, "--all").output
    assert "--all shows them" in short
    assert "--all shows them" not in long
    assert "Defaults used" in long
    assert len(long.splitlines()) > len(short.splitlines()) + 60


def _leaves(value: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _leaves(inner, (*path, key))
    elif isinstance(value, list):
        for inner in value:
            yield from _leaves(inner, path)
    else:
        yield path, value


UNITS = ("N", "V", "mV", "A", "Ah", "mohm", "ohm", "kn", "m", "mm", "mm2", "m2", "kg", "s", "deg", "C", "Pa", "kbit_s")
NUMBERS = {"number", "schema", "lane", "series", "parallel", "in_parallel", "instance"}
RATIOS = {
    "chance_of_holding",
    "cover_diameters",
    "thrust_relative_sigma",
    "relative_sigma",
    "immersion_factor",
    "tunnel_share",
    "success_share",
    "low_share",
    "high_share",
    "margin",
}
BESIDE = {"found", "asked", "band", "figure", "allowed", "price"}
"""The unit stands beside these: in the answer's ``unit``, at the end of the limit's name, in the brief's currency."""


def test_json_keys_of_numbers_carry_their_units() -> None:
    answer = json.loads(_result(example("7"), "--json").output)
    bare = set()
    for path, value in _leaves(answer):
        key = path[-1]
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            continue
        if key not in NUMBERS | RATIOS | BESIDE and not any(key == unit or key.endswith(f"_{unit}") for unit in UNITS):
            bare.add(".".join(path))
    assert sorted(bare) == []


def test_json_alone_is_on_standard_output(said: Any) -> None:
    code, out, err = said("propose", "--json", ONE)
    assert (code, err) == (0, "")
    answer = json.loads(out)
    assert answer["boat"]["name"] == "Velundra"
    assert answer["athwart"]["mode"] == "propose"
    assert [entry["number"] for entry in answer["answers"]] == [1, 2, 3, 4, 5, 6]


def test_json_of_check_says_so(said: Any) -> None:
    _, out, _ = said("check", "--json", example("6"))
    assert json.loads(out)["athwart"]["mode"] == "check"


def test_help_names_every_command() -> None:
    done = CliRunner().invoke(root, ["--help"])
    assert done.exit_code == 0
    for command in ("new", "propose", "check", "why", "reckon", "sources", "catalogue"):
        assert re.search(rf"^  {command} ", done.output, re.MULTILINE)


@pytest.mark.parametrize("command", ["new", "propose", "check", "why", "reckon", "sources", "catalogue"])
def test_every_command_has_help(command: str) -> None:
    done = CliRunner().invoke(root, [command, "--help"])
    assert done.exit_code == 0
    assert done.output.startswith("Usage:")


def test_why_derives_a_quantity(said: Any) -> None:
    code, out, err = said("why", ONE, "terminal_voltage")
    assert (code, err) == (0, "")
    assert "terminal_voltage" in out
    code, _, err = said("why", ONE, "beauty")
    assert code == 2
    assert "beauty" in err


def test_rehearsals_stand_in_the_answer_where_they_are_asked_for(said: Any) -> None:
    brief = str(next(EXAMPLES.glob("7-*.yaml")))
    plain, with_them = said("propose", brief)[1], said("propose", brief, "--rehearse", "64")[1]
    assert "Rehearsals" not in plain
    assert "Of 64 rehearsals succeed: hold heading" in re.sub(r"\s+", " ", with_them)
    assert "of 64" in with_them
    imperial = said("propose", brief, "--rehearse", "64", "--units", "imperial")[1]
    assert "of 64" in imperial
    judged = said("check", str(next(EXAMPLES.glob("6-*.yaml"))), "--rehearse", "32")[1]
    assert "of 32" in judged


def test_papers_are_rehearsed_unless_told_not_to(tmp_path: Path, said: Any) -> None:
    brief = str(next(EXAMPLES.glob("1-*.yaml")))
    said("propose", brief, "--papers", str(tmp_path / "with"), "--rehearse", "32")
    said("propose", brief, "--papers", str(tmp_path / "without"), "--rehearse", "0")
    assert (tmp_path / "with" / "V-001-hold-station-track.svg").exists()
    assert not list((tmp_path / "without").glob("*-track.svg"))
    assert list((tmp_path / "without").glob("*-case-A-*.svg"))
