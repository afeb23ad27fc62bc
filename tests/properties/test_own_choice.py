"""What propose chooses it does not then forbid: over kinds, lengths and rule sets its own parts draw no stop."""

from __future__ import annotations

import re

import pytest

from athwart.catalogue.builtin import builtin
from athwart.design.search.propose import propose
from athwart.store.briefs import parse_brief
from athwart.store.starting import (
    PROPORTIONS,
    Answers,
    assumed_beam,
    assumed_displacement,
    assumed_draught,
    assumed_run,
    length_text,
    mass_text,
    starting_brief,
)


def started(kind: str, length: float, rules: str) -> str:
    beam, draught = assumed_beam(kind, length), assumed_draught(kind, length)
    mass = assumed_displacement(kind, length, beam, draught)
    text = starting_brief(
        Answers(
            name="Ostrelle",
            kind=kind,
            length_text=f"{length} m",
            length=length,
            beam_text=length_text(beam),
            draught_text=length_text(draught),
            draught=draught,
            displacement_text=mass_text(mass),
            displacement=mass,
            wind_text="18 kn",
            read_at="on deck",
            read_height_text="",
            is_gust=False,
            volts_text="12 V",
            housing="tunnel",
            bank_is_near=True,
            run_text=f"{assumed_run(length, True):.1f} m",
        )
    )
    return re.sub(r"^  rule_set: .*$", f"  rule_set: {rules}", text, flags=re.MULTILINE)


@pytest.mark.parametrize("rules", ["iso small craft", "us"])
@pytest.mark.parametrize("kind", sorted(set(PROPORTIONS) - {"catamaran"}))
def test_no_stop_on_what_was_chosen(kind: str, rules: str) -> None:
    for length in (6.0, 11.0, 20.0):
        file = parse_brief(started(kind, length, rules), "started.yaml")
        proposal = propose(file.brief, builtin(), defaults=file.defaults)
        if not proposal.lanes[0].passes:
            continue
        stops = [(f.code, f.where, f.what) for f in proposal.findings if f.severity == "stop" and not f.code.startswith("TUNNEL")]
        assert stops == [], (kind, length)
