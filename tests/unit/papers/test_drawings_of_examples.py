"""The drawings of the example boats stand up to the audit, as proposed and as found."""

from __future__ import annotations

from pathlib import Path

import pytest

from athwart.catalogue.builtin import builtin
from athwart.design.proposal import Proposal
from athwart.design.search.propose import check, propose
from athwart.papers.audit import audit
from athwart.papers.elevation import elevation
from athwart.papers.network_drawing import control_netlist, network_drawing
from athwart.papers.one_line import one_line
from athwart.store.briefs import read_brief

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.yaml"))


def faults(proposal: Proposal) -> tuple[str, ...]:
    return (
        *audit(one_line(proposal), proposal.netlist),
        *audit(network_drawing(proposal), control_netlist(proposal.netlist)),
        *audit(elevation(proposal)),
    )


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_drawings_of_an_example_can_be_read(path: Path) -> None:
    assert faults(propose(read_brief(str(path)).brief, builtin())) == ()


def test_the_old_installation_is_drawn_as_it_was_found() -> None:
    (old,) = (path for path in EXAMPLES if path.stem.startswith("6"))
    assert faults(check(read_brief(str(old)).brief, builtin())) == ()
