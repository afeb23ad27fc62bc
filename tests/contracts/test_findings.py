"""Every finding code: complete words, a known source, and a page made from nothing else."""

from __future__ import annotations

import re
from dataclasses import fields, replace
from pathlib import Path

import pytest

from athwart.findings import CODES, SEVERITIES, Code
from athwart.sources import register
from athwart_docs import pages
from tests.contracts._registers import modules

modules()
ALL = [pytest.param(entry, id=code) for code, entry in sorted(CODES.items())]


def faults(entry: Code) -> list[str]:
    """What a code lacks."""
    found = [f"{field.name} is empty" for field in fields(entry) if not str(getattr(entry, field.name)).strip()]
    found += [] if re.fullmatch(r"[A-Z]{2,12}(-[A-Z]{2,12})*-\d{2}", entry.code) else [f"{entry.code} is not like CABLE-03"]
    found += [] if entry.severity in SEVERITIES else [f"{entry.severity} is no severity"]
    found += [] if entry.source in register() else [f"{entry.source} is no source"]
    return found


def test_there_are_codes() -> None:
    assert CODES, "the contract below would hold for lack of codes"


@pytest.mark.parametrize("entry", ALL)
def test_a_code_has_all_its_words(entry: Code) -> None:
    assert faults(entry) == []


@pytest.mark.parametrize("entry", ALL)
def test_a_code_has_a_page_with_its_words(entry: Code) -> None:
    page = pages.finding_pages()[f"findings/{entry.code}.md"]
    assert page.startswith(f"# {entry.code}: ")
    for words in (entry.title, entry.says, entry.why, entry.remedy):
        assert pages.prose(words) in page
    assert f"sources.md#source-{entry.source}" in page


def test_the_index_lists_every_code() -> None:
    index = pages.finding_pages()["findings/index.md"]
    assert [code for code in CODES if f"[{code}]({code}.md)" not in index] == []


def test_titles_are_told_apart() -> None:
    titles = [entry.title for entry in CODES.values()]
    assert sorted(titles) == sorted(set(titles))


def test_pages_that_no_longer_belong_are_removed(tmp_path: Path) -> None:
    (tmp_path / "findings").mkdir()
    (tmp_path / "findings" / "GONE-01.md").write_text("# gone\n", encoding="utf-8")
    pages.write_all(tmp_path)
    assert not (tmp_path / "findings" / "GONE-01.md").exists()
    assert {path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*.md")} == set(pages.all_pages())


def test_a_poor_code_is_caught() -> None:
    good = Code("CABLE-03", "Title", "stop", "says", "why", "remedy", "own-arithmetic")
    assert faults(good) == []
    for change in ({"why": " "}, {"code": "Cable3"}, {"severity": "bad"}, {"source": "no-such-source"}):
        assert faults(replace(good, **change)), change  # type: ignore[arg-type]
