"""What README and documentation show of commands is what the commands print today."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests import docs_outputs as outputs

SHOWN = [
    pytest.param(match["command"], match["text"], id=f"{page.name}: {match['command']}"[:70])
    for page in outputs.PAGES
    for match in outputs.BLOCK.finditer(page.read_text(encoding="utf-8"))
]


@pytest.mark.parametrize(("command", "text"), SHOWN)
def test_a_block_shows_what_its_command_prints(command: str, text: str) -> None:
    assert outputs.differs(text, command) == "", "make it anew: python -m tests.docs_outputs"


def test_there_is_something_to_compare() -> None:
    assert len(SHOWN) >= 5


def test_every_directive_has_its_block() -> None:
    for page in outputs.PAGES:
        text = page.read_text(encoding="utf-8")
        assert text.count("<!-- output of:") == len(outputs.BLOCK.findall(text)), page.name


def test_a_line_the_command_does_not_print_is_named() -> None:
    command = "athwart reckon loop_voltage_drop current=300A run=8m area=70mm2"
    true = outputs.printed(command)
    assert outputs.differs(true, command) == ""
    assert outputs.differs(true.replace("70 mm²", "50 mm²", 1), command) != ""
    assert outputs.differs(true.splitlines(keepends=True)[0] + outputs.CUT + "\n", command) == ""
    assert outputs.differs(true.splitlines(keepends=True)[1] + outputs.CUT + "\n", command) != "", "a cut at the top is marked too"
    assert outputs.differs(true.splitlines(keepends=True)[0], command) != "", "a cut at the end is marked too"


def test_a_block_is_made_anew_around_its_cuts() -> None:
    command = "athwart reckon loop_voltage_drop current=300A run=8m area=70mm2"
    stale = "  current = 299A\n[...]\nsource: nobody\n[...]\n"
    assert outputs.differs(outputs.renewed(stale, command), command) == ""


def test_the_picture_is_the_one_the_program_draws() -> None:
    assert Path(outputs.PICTURE).read_text(encoding="utf-8") == outputs.picture(), "make it anew: python -m tests.docs_outputs"
