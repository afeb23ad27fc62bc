"""Laws of every netlist, whatever the system."""

from __future__ import annotations

import re

import pytest
from hypothesis import HealthCheck, given, settings

from athwart.design.netlist import Netlist
from athwart.design.wiring import lengths_by_row, pieces
from tests.properties.proposal_strategies import Shape, brief_of, lanes_of, netlist_of, proposal_of, shapes

FEW = settings(max_examples=60, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
CONDUCTOR_TAG = re.compile(r"[0-9][PNLCTDEH]\d+")
EQUIPMENT_TAG = re.compile(r"[A-Z][0-9]\.\d+( coil)?")


@FEW
@given(shapes())
def test_every_thing_has_one_tag_of_the_right_form(shape: Shape) -> None:
    netlist = netlist_of(shape)
    tags = [entry.tag for entry in netlist.components] + [entry.tag for entry in netlist.conductors]
    assert len(tags) == len(set(tags))
    assert all(CONDUCTOR_TAG.fullmatch(entry.tag) for entry in netlist.conductors)
    assert all(EQUIPMENT_TAG.fullmatch(entry.tag) for entry in netlist.components)
    assert all(entry.tag[0] == str(entry.lane) and entry.tag[1] == entry.kind for entry in netlist.conductors)


@FEW
@given(shapes())
def test_every_conductor_ends_on_studs_that_exist(shape: Shape) -> None:
    netlist = netlist_of(shape)
    studs = {entry.tag: set(entry.terminals) for entry in netlist.components}
    for conductor in netlist.conductors:
        for end in (conductor.start, conductor.end):
            assert end.terminal in studs[end.component], f"{conductor.tag} on {end}"
        assert conductor.start.component != conductor.end.component
        assert conductor.length >= 0
        assert conductor.resistance >= 0


@FEW
@given(shapes())
def test_every_fuse_switch_and_contactor_has_a_conductor_on_each_side(shape: Shape) -> None:
    netlist = netlist_of(shape)
    for component in netlist.components:
        if component.kind in ("fuse", "main switch", "stop contactor", "stop coil", "isolator"):
            assert {stud for stud in component.terminals if _on(netlist, component.tag, stud)} == {"1", "2"}, component.tag


@FEW
@given(shapes())
def test_every_component_is_wired(shape: Shape) -> None:
    netlist = netlist_of(shape)
    used = {end.component for entry in netlist.conductors for end in (entry.start, entry.end)}
    assert {entry.tag for entry in netlist.components} == used


@FEW
@given(shapes())
def test_pieces_of_a_lane_add_up_to_its_route(shape: Shape) -> None:
    proposal = proposal_of(shape)
    for lane in proposal.lanes:
        if lane.cable is None:
            continue
        plus = _path(proposal.netlist, lane.lane)
        assert sum(plus) == pytest.approx(lane.cable.plus)
        back = [
            entry for entry in proposal.netlist.conductors if entry.lane == lane.lane and entry.purpose == "return of the unit"
        ]
        assert [entry.length for entry in back] == [lane.cable.minus]
        assert back[0].resistance == pytest.approx(lane.cable.cable.resistance_per_metre * lane.cable.minus / lane.cable.parallel)


@FEW
@given(shapes())
def test_no_net_joins_the_two_poles_of_anything(shape: Shape) -> None:
    netlist = netlist_of(shape)
    for net in netlist.nets():
        studs: dict[str, set[str]] = {}
        for stud in net:
            owner, terminal = stud.rsplit(":", 1)
            studs.setdefault(owner, set()).add(terminal)
        both = {owner for owner, found in studs.items() if len(found) > 1 and not owner.startswith("X")}
        assert all(studs[owner] <= {"in-", "out-"} for owner in both), f"{sorted(net)}"


@FEW
@given(shapes())
def test_nothing_that_is_fed_lies_before_a_fuse_it_claims(shape: Shape) -> None:
    netlist = netlist_of(shape)
    fuses = {entry.tag for entry in netlist.components if entry.kind == "fuse"}
    assert all(entry.fuse in fuses for entry in netlist.conductors if entry.fuse is not None)
    for conductor in netlist.conductors:
        if conductor.end.component in fuses and conductor.end.terminal == "1":
            assert conductor.fuse != conductor.end.component


@FEW
@given(shapes())
def test_one_link_to_the_ships_negative_a_bank_and_none_when_kept_apart(shape: Shape) -> None:
    proposal = proposal_of(shape)
    links = [entry for entry in proposal.netlist.conductors if entry.purpose == "common negative link"]
    assert len(links) == (0 if shape.common_negative == "isolated" else len(proposal.banks))
    assert all(entry.fuse is None and entry.area >= 70e-6 for entry in links)
    for choice in proposal.charging:
        if choice.charger is None or choice.charger.isolated or shape.common_negative == "isolated":
            continue
        lane = min(lane.lane for lane in proposal.lanes if lane.bank == choice.bank)
        ties = [
            entry
            for entry in proposal.netlist.conductors
            if entry.start.component == f"U{lane}.1" and entry.start.terminal == "in-"
        ]
        assert all(entry.area >= 70e-6 for entry in ties)


@FEW
@given(shapes())
def test_two_terminators_at_the_ends_and_one_drop_a_stop(shape: Shape) -> None:
    proposal = proposal_of(shape)
    netlist = proposal.netlist
    if proposal.network is None:
        assert not netlist.of_lane(9)[0]
        return
    assert [entry.tag for entry in netlist.components if entry.kind == "terminator"] == ["R9.1", "R9.2"]
    trunk = [entry for entry in netlist.conductors if entry.kind == "T"]
    assert trunk[0].start.component == "R9.1"
    assert trunk[-1].end.component == "R9.2"
    assert sum(entry.length for entry in trunk) == pytest.approx(proposal.network.trunk_length)
    assert len([entry for entry in netlist.conductors if entry.kind == "D"]) == len(proposal.network.stops)


@FEW
@given(shapes())
def test_metres_by_row_are_the_sum_of_the_conductors(shape: Shape) -> None:
    netlist = netlist_of(shape)
    total = sum(lengths_by_row(netlist, aboard=True).values())
    assert total == pytest.approx(sum(entry.length * entry.parallel for entry in netlist.conductors))
    assert all(len(pieces(entry)) == entry.parallel for entry in netlist.conductors)


@FEW
@given(shapes())
def test_every_lane_has_a_unit(shape: Shape) -> None:
    netlist = netlist_of(shape)
    assert [lane.lane for lane in lanes_of(shape, brief_of(shape))] == [
        entry.lane for entry in netlist.components if entry.kind == "unit"
    ]


def _on(netlist: Netlist, tag: str, stud: str) -> bool:
    return any((end.component, end.terminal) == (tag, stud) for entry in netlist.conductors for end in (entry.start, entry.end))


def _path(netlist: Netlist, lane: int) -> list[float]:
    """Lengths on the way back from the unit to the bank."""
    stud, found = (f"M{lane}.1", "+"), []
    while True:
        piece = next(entry for entry in netlist.conductors if (entry.end.component, entry.end.terminal) == stud)
        found.append(piece.length)
        before = netlist.component(piece.start.component)
        if before.kind not in ("fuse", "main switch", "stop contactor") or before.lane != lane or before.name == "string fuse":
            return found
        stud = (before.tag, "1")
