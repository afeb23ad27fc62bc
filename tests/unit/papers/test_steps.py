"""Words of the papers: steps in order, cautions before what they guard, plain words for the owner."""

from __future__ import annotations

import re

import pytest

from athwart.papers import steps
from tests.unit.papers.made import EXAMPLES, proposal_of


@pytest.mark.parametrize("name", EXAMPLES)
def test_steps_end_live_and_thrust_comes_after_the_stops(name: str) -> None:
    found = steps.install(proposal_of(name))
    acts = [step.act for step in found]
    assert [step.number for step in found] == list(range(1, len(found) + 1))
    live = [place for place, act in enumerate(acts) if "Live from here on" in act]
    wiring = next(place for place, act in enumerate(acts) if act.startswith("Pull the power cables"))
    run = next(place for place, act in enumerate(acts) if act.startswith("Afloat"))
    assert live
    assert wiring < min(live) < run
    assert all(step.word for step in found if step.care)
    assert found[run].word == "STOP"


def test_a_hull_is_cut_only_under_the_sentence_that_guards_it() -> None:
    found = steps.install(proposal_of("1-motor-yacht"))
    cut = next(place for place, step in enumerate(found) if ": cut, fit and join" in step.act)
    assert any(step.care == steps.CUTTING for step in found[: cut + 1])


def test_a_unit_that_stays_is_not_fitted_again() -> None:
    acts = " ".join(step.act for step in steps.install(proposal_of("7-stern-unit-added")))
    assert "M2.1: cut" in acts
    assert "M1.1: cut" not in acts


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_stop_of_a_lane_is_drilled(name: str) -> None:
    proposal = proposal_of(name)
    words = " ".join(f"{drill.act} {drill.must}" for drill in steps.drills(proposal))
    for part in proposal.netlist.components:
        if part.kind == "stop button" or (part.kind == "main switch" and part.lane > 0):
            assert part.tag in words


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_owner_reads_no_tags_but_those_on_the_switch(name: str) -> None:
    proposal = proposal_of(name)
    words = [*steps.owner_rules(proposal), *[figure.condition for figure in steps.owner_figures(proposal)]]
    assert not any(re.search(r"\b[A-Z]\d\.\d\b", entry) for entry in words)
    assert any("main switch" in answer.lower() for _, answer in steps.owner_stops(proposal))


def test_the_owners_figures_are_those_of_the_cold_and_aged_bank() -> None:
    proposal = proposal_of("1-motor-yacht")
    lane = proposal.lanes[0]
    assert lane.wind_held_worst is not None
    figures = {figure.unit: figure.figure for figure in steps.owner_figures(proposal)}
    assert float(figures["knots"]) == pytest.approx(lane.wind_held_worst / 0.514444, abs=0.06)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_technical_file_states_the_limits_of_scope(name: str) -> None:
    rows = {what: (here, scope) for what, here, scope in steps.file_entries(proposal_of(name))}
    assert "24" in rows["length over all"][1] or "none" in rows["length over all"][1]
    assert "50" in rows["nominal volts, d.c."][1]


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_exclamation_marks_and_no_sentence_without_an_end(name: str) -> None:
    proposal = proposal_of(name)
    texts = (
        [step.act for step in steps.install(proposal)]
        + [step.care for step in steps.install(proposal)]
        + list(steps.owner_rules(proposal))
    )
    assert not any("!" in text for text in texts)
    assert all(text.endswith((".", ":")) for text in texts if text)
