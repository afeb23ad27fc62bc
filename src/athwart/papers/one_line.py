"""The power one-line diagram: every component and conductor of the netlist once, on as many A3 sheets as it takes.

A small system is one sheet: the ship's column at the left, a lane for each unit, the control line along the foot. A larger one
has a sheet for the ship, sheets of lanes, sheets for banks too large or too widely shared for a lane, and one for the control
line; a conductor that goes on elsewhere ends in a flag with the far stud and its sheet and field.

Everything is drawn twice: the second time the flags know where they point to.
"""

from __future__ import annotations

from athwart.design.proposal import Proposal
from athwart.papers.one_line_base import Board, reference
from athwart.papers.one_line_compact import draw_compact
from athwart.papers.one_line_plan import plan_of
from athwart.papers.one_line_sheets import draw_sheets
from athwart.papers.scene import Scene
from athwart.papers.sheet import sheet, title_of


def one_line(proposal: Proposal) -> tuple[Scene, ...]:
    """The sheets of the one-line diagram."""
    places: dict[tuple[str, str], str] = {}
    drawn = _draw(proposal, places)
    places = {key: reference(board, at) for board, _ in drawn for key, at in board.exits.items()}
    drawn = _draw(proposal, places)
    made = []
    for board, title in drawn:
        block = title_of(proposal, title, "E", board.number, len(drawn))
        words = f"{title} of {proposal.brief.name}, sheet {board.number} of {len(drawn)}. {_sentence(proposal)}"
        made.append(sheet(board.pen, f"one-line-{board.number}", block, words))
    return tuple(made)


def _draw(proposal: Proposal, places: dict[tuple[str, str], str]) -> list[tuple[Board, str]]:
    plan = plan_of(proposal)
    single = draw_compact(proposal, plan, places)
    if single is not None:
        return [(single, "Power one-line diagram, all conductors")]
    return draw_sheets(proposal, plan_of(proposal), places)


def _sentence(proposal: Proposal) -> str:
    units = ", ".join(f"{lane.thruster.identity} unit of {lane.unit.thrust:.0f} N" for lane in proposal.lanes)
    count = len(proposal.banks)
    return f"It shows {units}, with {count} thruster bank{'' if count == 1 else 's'}."
