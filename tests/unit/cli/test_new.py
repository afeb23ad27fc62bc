"""athwart new: a brief from an example or from questions, never over an existing file."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from athwart.cli.new import new
from athwart.resources import example, example_names
from athwart.store.briefs import read_brief
from athwart.store.starting import PROPORTIONS


def run(*arguments: str, typed: str = "") -> Result:
    return CliRunner().invoke(new, list(arguments), input=typed)


@pytest.mark.parametrize("name", example_names())
def test_an_example_is_written_and_reads(name: str, tmp_path: Path) -> None:
    path = tmp_path / "b.yaml"
    result = run(str(path), "--from", name)
    assert result.exit_code == 0, result.output
    assert read_brief(path).brief.name in example(name)
    assert "yaml-language-server" not in path.read_text(encoding="utf-8")


def test_an_example_is_named_by_number_or_file(tmp_path: Path) -> None:
    for number, name in enumerate(("1", "1-motor-yacht", "1-motor-yacht.yaml")):
        assert run(str(tmp_path / f"{number}.yaml"), "--from", name).exit_code == 0


def test_the_examples_are_listed_with_their_stories() -> None:
    lines = run("--from", "list").output.splitlines()
    assert [line.split("  ")[0] for line in lines] == list(example_names())
    assert all(len(line.split("  ")[1]) > 20 for line in lines)


def test_an_unknown_example_is_refused_with_the_known_ones(tmp_path: Path) -> None:
    result = run(str(tmp_path / "b.yaml"), "--from", "9")
    assert (result.exit_code, "1-motor-yacht" in result.output) == (2, True)
    assert list(tmp_path.iterdir()) == []


def test_nobody_to_ask_is_a_clear_error(tmp_path: Path) -> None:
    result = run(str(tmp_path / "b.yaml"))
    assert result.exit_code == 2
    assert "--from 1" in result.output
    assert run(str(tmp_path / "b.yaml"), "--no-ask").exit_code == 2


def test_a_file_is_not_overwritten_unless_forced(tmp_path: Path) -> None:
    path = tmp_path / "b.yaml"
    path.write_text("mine", encoding="utf-8")
    assert run(str(path), "--from", "1").exit_code == 2
    assert path.read_text(encoding="utf-8") == "mine"
    assert run(str(path), "--from", "1", "--force").exit_code == 0
    assert read_brief(path).brief.thrusters


@pytest.mark.parametrize("arguments", [(), ("missing/b.yaml", "--from", "1"), ("b.yaml", "--from", "1", "--ask")])
def test_what_cannot_be_done_is_said(arguments: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    result = run(*arguments)
    assert (result.exit_code, result.output.count("Error:")) == (2, 1)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("kind", list(PROPORTIONS))
@pytest.mark.parametrize("length", ["6 m", "46 ft 7 in", "40 m"])
def test_the_assumed_answers_make_a_brief_that_reads(kind: str, length: str, tmp_path: Path) -> None:
    path = tmp_path / "b.yaml"
    result = run(str(path), "--ask", typed=f"\n{kind}\n{length}\n" + "\n" * 20)
    assert result.exit_code == 0, result.output
    file = read_brief(path)
    assert (file.brief.boat.kind, file.origins["boat.length_overall"][1]) == (kind, length)
    assert "assumed" in file.text


def test_the_answers_stand_in_the_brief_as_typed(tmp_path: Path) -> None:
    path = tmp_path / "b.yaml"
    typed = "X: #1\n3\n12.5 m\n3.9 m\n2 m\n9 t\n17 kn\nmasthead\n18 m\nmean\n24 V\ntunnel\naft\n9 m\n"
    assert run(str(path), "--ask", typed=typed).exit_code == 0
    file = read_brief(path)
    assert file.brief.name == "X: #1"
    assert file.brief.wind.is_ == "mean"
    assert file.brief.wind.read_height == 18.0
    assert file.brief.supply.volts == 24.0
    assert file.brief.bank[0].place == "battery locker"
    assert file.brief.layout.routes[0].plus == 9.0
    assert file.brief.thrusters[0].tunnel.tunnel_length is not None


def test_an_answer_that_is_not_understood_is_asked_again(tmp_path: Path) -> None:
    path = tmp_path / "b.yaml"
    result = run(str(path), "--ask", typed="\nship\n1\n14\n400 m\n14 m\n" + "\n" * 20)
    assert result.exit_code == 0
    assert "bare number" in result.output
    assert "from 5 m to 45 m" in result.output
    assert read_brief(path).brief.boat.length_overall == 14.0
