"""Derivations: the tree ends in the number of the answer and every leaf says where it came from."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from athwart import resources
from athwart.catalogue.builtin import builtin
from athwart.design import derive
from athwart.design.proposal import Proposal
from athwart.design.search.propose import propose
from athwart.errors import UnknownName
from athwart.store.briefs import BriefFile, parse_brief


@cache
def _answered(example: str) -> tuple[BriefFile, Proposal]:
    name = next(name for name in resources.example_names() if name.startswith(example))
    file = parse_brief(resources.example(name), name)
    return file, propose(file.brief, builtin(), defaults=file.defaults)


def _leaves(node: derive.Derived) -> Iterator[derive.Leaf]:
    for _, entry in node.inputs:
        if isinstance(entry, derive.Leaf):
            yield entry
        else:
            yield from _leaves(entry)
    for inner in node.inside:
        yield from _leaves(inner)


def _derive(example: str, quantity: str, lane: int = 0) -> derive.Derived:
    file, proposal = _answered(example)
    return derive.derive(proposal, derive.quantity(quantity), proposal.lanes[lane], file.origins)


@pytest.mark.parametrize("quantity", sorted(derive.QUANTITIES))
@pytest.mark.parametrize("example", ["1", "7"])
def test_every_quantity_of_an_electric_lane_can_be_derived(example: str, quantity: str) -> None:
    tree = _derive(example, quantity)
    assert tree.text
    assert all(leaf.origin for leaf in _leaves(tree))


@pytest.mark.parametrize("example", ["1", "2", "3", "4", "7"])
def test_the_tree_ends_in_the_numbers_of_the_answer(example: str) -> None:
    lane = _answered(example)[1].lanes[0]
    assert lane.design is not None
    for quantity, answer in (
        ("terminal_voltage", lane.design.terminal_volts),
        ("current", lane.design.current),
        ("thrust", lane.design.thrust),
        ("wind_held_worst", lane.wind_held_worst),
        ("chance_of_holding", lane.chance),
        ("cover", lane.cover_ratio),
    ):
        value = _derive(example, quantity).value
        assert isinstance(value, float)
        assert value == pytest.approx(answer, rel=2e-4), quantity


def test_a_leaf_that_was_entered_names_its_line() -> None:
    file, _ = _answered("1")
    origins = [leaf.origin for leaf in _leaves(_derive("1", "path_resistance"))]
    line = file.origins["layout.routes[0].plus"][0]
    assert any(f"entered at line {line}:" in origin for origin in origins)


def test_a_leaf_of_the_catalogue_names_row_and_column() -> None:
    proposal = _answered("1")[1]
    origins = [leaf.origin for leaf in _leaves(_derive("1", "thrust"))]
    assert any(f"catalogue row {proposal.lanes[0].unit.id}, thrust_N" in origin for origin in origins)


def test_a_mistyped_quantity_gets_a_guess() -> None:
    with pytest.raises(UnknownName, match="terminal_voltage"):
        derive.quantity("terminal_volts")
