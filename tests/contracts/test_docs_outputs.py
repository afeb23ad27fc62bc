"""What README and documentation show of commands is what the commands print today."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests import docs_outputs as outputs

ANEW = "make it anew: python -m tests.docs_outputs"
RECKON = "athwart reckon loop_voltage_drop current=300A run=8m area=70mm2"
SHOWN = [
    pytest.param(page, number, id=f"{page.name}: {command}"[:90])
    for page in outputs.PAGES
    for number, command in enumerate(
        step["what"] for step in outputs.steps(page.read_text(encoding="utf-8")) if step["kind"] == "output of"
    )
]


@pytest.mark.parametrize(("page", "number"), SHOWN)
def test_a_block_shows_what_its_command_prints(page: Path, number: int) -> None:
    block = outputs.shown_in(page)[number]
    assert outputs.differs(block.text, block.now) == "", ANEW


def test_there_is_something_to_compare() -> None:
    assert len(SHOWN) >= 20


def test_no_block_shows_the_program_failing_inside() -> None:
    for page in outputs.PAGES:
        for block in outputs.shown_in(page):
            assert block.now, f"{page.name}: {block.command} prints nothing"
            assert "An internal error" not in block.now


def test_every_comment_has_its_fence() -> None:
    for page in outputs.PAGES:
        text = page.read_text(encoding="utf-8")
        assert len(outputs.MARK.findall(text)) == len(outputs.steps(text)), page.name


def test_a_line_the_command_does_not_print_is_named() -> None:
    true = outputs.printed(RECKON)
    first, second = true.splitlines(keepends=True)[:2]
    assert outputs.differs(true, true) == ""
    assert outputs.differs(true.replace("70 mm²", "50 mm²", 1), true) == "  area = 70mm2 = 50 mm²"
    assert outputs.differs(first + outputs.CUT + "\n", true) == ""
    assert outputs.differs(second + outputs.CUT + "\n", true) != "", "a cut at the top is marked too"
    assert outputs.differs(first, true) != "", "a cut at the end is marked too"
    assert outputs.differs(outputs.CUT + "\n", true) == ""
    assert outputs.differs(f"{outputs.CUT}\nvalid: -50 to 200 °C, copper\n", true) == ""
    assert outputs.differs(f"{outputs.CUT}\n{first}", true) != "", "what stands last is printed last"
    assert outputs.differs(f"{outputs.CUT}\n50 to 200 °C, copper\n", true) != "", "whole lines only"
    assert outputs.differs(f"{outputs.CUT}\n{second}{first}{outputs.CUT}\n", true) != "", "in their order"


def test_a_block_is_made_anew_around_its_cuts() -> None:
    stale = "  current = 299A\n[...]\nsource: nobody\n[...]\n"
    assert outputs.differs(outputs.renewed(stale, outputs.printed(RECKON)), outputs.printed(RECKON)) == ""


def test_a_page_is_played_in_order_with_the_files_it_shows() -> None:
    brief = "athwart: 1\nname: X\nwind: {speed: 9}\n"
    command = "athwart propose a.yaml 2>&1; echo $?"
    page = (
        f"<!-- file: a.yaml -->\n```yaml\n{brief}```\n<!-- output of: {command} -->\n```text\nstale\n```\n"
        f"<!-- change: a.yaml -->\n```diff\n-name: X\n+naem: X\n```\n<!-- output of: {command} -->\n```text\nstale\n```\n"
    )
    before, after = outputs.played(page)
    assert "a.yaml:3:15: wind.speed" in before.now
    assert before.now.endswith("\n2\n"), "the exit code comes last"
    assert "naem" in after.now
    assert "naem" not in before.now
    fresh = outputs.made_anew(page)
    assert fresh.count("stale") == 0
    assert outputs.made_anew(fresh) == fresh


def test_a_change_that_does_not_fit_its_file_is_refused() -> None:
    with pytest.raises(ValueError, match="stands 0 times"):
        outputs.changed("volts: 12 V\n", "-volts: 24 V\n+volts: 48 V\n")
    with pytest.raises(ValueError, match="stands 2 times"):
        outputs.changed("a\na\n", "-a\n+b\n")


def test_the_picture_is_the_one_the_program_draws() -> None:
    drawn = outputs.picture()
    assert outputs.PICTURE.read_text(encoding="utf-8") == drawn, ANEW
    assert 'class="paper" width="420" height="297"' in drawn, "a white sheet, so that it reads on a dark page too"
