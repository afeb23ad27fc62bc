"""Every drawing of every system that can be invented stands up to the audit."""

from __future__ import annotations

import re
from dataclasses import replace

from hypothesis import HealthCheck, given, settings

from athwart.papers.audit import audit
from athwart.papers.elevation import elevation
from athwart.papers.network_drawing import control_netlist, network_drawing
from athwart.papers.one_line import one_line
from athwart.papers.sheet import grid_reference
from tests.properties.proposal_strategies import Shape, proposal_of, shapes

MANY = settings(max_examples=50, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
FLAG = re.compile(r"> E(\d+)/([A-F][1-8])")


@MANY
@given(shapes())
def test_the_one_line_diagram_says_what_the_netlist_says_and_can_be_read(shape: Shape) -> None:
    proposal = proposal_of(shape)
    assert audit(one_line(proposal), proposal.netlist) == ()


@MANY
@given(shapes(most_units=2, most_banks=2))
def test_the_one_line_diagram_of_a_small_system_can_be_read(shape: Shape) -> None:
    proposal = proposal_of(shape)
    assert audit(one_line(proposal), proposal.netlist) == ()


@MANY
@given(shapes())
def test_every_flag_points_to_the_sheet_and_field_where_its_conductor_goes_on(shape: Shape) -> None:
    sheets = one_line(proposal_of(shape))
    places: dict[str, list[tuple[int, str]]] = {}
    for number, scene in enumerate(sheets, start=1):
        for entry in scene.continuations:
            places.setdefault(entry.carries, []).append((number, grid_reference(entry.at)))
    assert all(len(found) == 2 for found in places.values()), places
    printed = [(int(found[1]), found[2]) for scene in sheets for text in scene.texts() if (found := FLAG.fullmatch(text.text))]
    assert sorted(printed) == sorted(place for found in places.values() for place in found)


@MANY
@given(shapes())
def test_the_drawing_of_the_control_line_says_what_the_netlist_says_and_can_be_read(shape: Shape) -> None:
    proposal = proposal_of(shape)
    sheets = network_drawing(proposal)
    assert bool(sheets) == (proposal.network is not None)
    if sheets:
        assert audit(sheets, control_netlist(proposal.netlist)) == ()


@MANY
@given(shapes())
def test_the_elevation_of_any_boat_can_be_read(shape: Shape) -> None:
    assert audit(elevation(proposal_of(shape))) == ()


@given(shapes(most_units=3))
@settings(max_examples=10, deadline=None, derandomize=True)
def test_the_same_proposal_draws_the_same_sheets(shape: Shape) -> None:
    again = proposal_of(replace(shape))
    for draw in (one_line, network_drawing, elevation):
        assert draw(proposal_of(shape)) == draw(again)
