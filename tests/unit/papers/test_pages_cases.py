"""Cases and rehearsals on paper: every case with its polar, every manoeuvre with its interval, and nothing where there is nothing."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import lru_cache

import pytest

from athwart.design.proposal import Proposal
from athwart.design.robustness.rehearsal import rehearse_all
from athwart.papers.as_json import proposal_json
from athwart.papers.context import Context
from athwart.papers.dossier import dossier_data
from athwart.papers.pages_cases import cases_pages, rehearsal_pages
from athwart.papers.pictures import case_pictures, rehearsal_pictures
from athwart.papers.write import papers
from tests.unit.design.checks._boats import proposal


@lru_cache
def rehearsed(example: str) -> Proposal:
    p = proposal(example, {}, "propose")
    done, left_out = rehearse_all(p, 48)
    return replace(p, rehearsals=done, not_rehearsed=left_out)


@pytest.mark.parametrize("example", ["1", "2", "3", "4", "7"])
def test_every_case_has_its_row_and_its_polar(example: str) -> None:
    c = Context(rehearsed(example), "0" * 64, {})
    text = json.dumps(cases_pages(c), ensure_ascii=False)
    for held in c.proposal.cases:
        assert held.words in text
    assert text.count("<svg") == len(c.polars) == len(c.proposal.cases)


@pytest.mark.parametrize("example", ["1", "7"])
def test_every_manoeuvre_has_its_interval(example: str) -> None:
    c = Context(rehearsed(example), "0" * 64, {})
    text = json.dumps(rehearsal_pages(c), ensure_ascii=False)
    assert len(c.proposal.rehearsals) == 6
    for r in c.proposal.rehearsals:
        low, high = r.success.interval
        assert f"{r.success.count} of {r.success.of}" in text
        assert f"{low:.1%} to {high:.1%}" in text
        assert r.exercise.words in text


def test_without_rehearsals_or_cases_there_is_no_page() -> None:
    p = proposal("1", {}, "propose")
    assert rehearsal_pages(Context(p, "", {})) == []
    assert cases_pages(Context(replace(p, cases=()), "", {})) == []
    titles = [page.get("title") for page in dossier_data(p, "", {})["pages"]]
    assert "Four cases" in titles
    assert "Rehearsals" not in titles


def test_the_current_of_the_brief_stands_under_the_table() -> None:
    c = Context(rehearsed("7"), "", {})
    assert "With a current of" in json.dumps(cases_pages(c), ensure_ascii=False)
    assert all(h.need_current is not None for h in c.proposal.cases if h.case in ("B", "C"))
    assert all(h.need_current is None for h in c.proposal.cases if h.case in ("A", "D"))


def test_pictures_have_names_of_their_own_and_go_with_the_papers() -> None:
    p = rehearsed("7")
    names = [name for name, _ in (*rehearsal_pictures(p, p.rehearsals), *case_pictures(p, Context(p, "", {}).polars))]
    assert len(names) == len(set(names)) == 3 * len(p.rehearsals) + len(p.cases)
    assert set(names) <= set(papers(p, "athwart: 1\n", {}))


def test_json_tells_cases_and_rehearsals() -> None:
    made = proposal_json(rehearsed("7"))
    assert [case["case"] for case in made["cases"]] == [held.case for held in rehearsed("7").cases]
    assert [r["manoeuvre"] for r in made["rehearsals"]] == [r.exercise.name for r in rehearsed("7").rehearsals]
    assert all(0.0 <= r["low_share"] <= r["success_share"] <= r["high_share"] <= 1.0 for r in made["rehearsals"])


def test_drag_of_the_hull_widens_the_band_where_she_moves() -> None:
    held = {h.name: h.band for h in rehearsed("1").cases}
    assert min(held["free to drift"], held["turning"]) > held["stern made fast"]
