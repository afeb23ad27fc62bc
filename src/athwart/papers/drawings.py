"""All drawing sheets of a proposal, in the order they are bound."""

from __future__ import annotations

from athwart.design.proposal import Proposal
from athwart.papers.scene import Scene


def general(proposal: Proposal) -> tuple[Scene, ...]:
    """Side elevation, immersion and routes."""
    from athwart.papers.elevation import elevation

    return elevation(proposal)


def electrical(proposal: Proposal) -> tuple[Scene, ...]:
    """Power one-line diagram."""
    from athwart.papers.one_line import one_line

    return one_line(proposal)


def network(proposal: Proposal) -> tuple[Scene, ...]:
    """Control line."""
    from athwart.papers.network_drawing import network_drawing

    return network_drawing(proposal)


def drawings(proposal: Proposal) -> tuple[Scene, ...]:
    """Every sheet."""
    return (*general(proposal), *electrical(proposal), *network(proposal))
