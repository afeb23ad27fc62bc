"""The page on field cases: every case once, every planted fault with the finding that answers it, no code that does not exist."""

from __future__ import annotations

import re
from pathlib import Path

from athwart.findings import CODES
from tests.contracts._registers import modules
from tests.worked.test_example_6 import PLANTED

modules()
PAGE = (Path(__file__).parents[2] / "docs" / "field-cases.md").read_text(encoding="utf-8")
ROWS = {row[0]: row for row in re.findall(r"^\| (F\d\d) \| (.+?) \| (.+?) \| (.+?) \|$", PAGE, re.MULTILINE)}
LAST = 47


def codes_of(case: str) -> set[str]:
    return set(re.findall(r"\[([A-Z]+-\d\d)\]", ROWS[case][2]))


def test_every_case_stands_once() -> None:
    assert list(ROWS) == [f"F{number:02d}" for number in range(1, LAST + 1)]


def test_every_planted_fault_names_its_finding() -> None:
    missing = [(case, code) for case, code, *_ in PLANTED if code not in codes_of(case)]
    assert missing == []


def test_no_code_is_named_that_does_not_exist() -> None:
    assert {code for case in ROWS for code in codes_of(case)} <= set(CODES)


def test_a_case_without_a_finding_says_what_answers_it() -> None:
    assert [case for case in ROWS if not codes_of(case) and ROWS[case][3] == "–"] == []
