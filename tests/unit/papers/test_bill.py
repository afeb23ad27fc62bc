"""Bill of materials: counted from the netlist, nothing twice, nothing that is aboard."""

from __future__ import annotations

from math import ceil

import pytest

from athwart.design.proposal import Proposal
from athwart.design.wiring import lengths_by_row
from athwart.papers.bill import bill, ends, kept, stud_of, totals
from tests.properties import proposal_strategies as shapes
from tests.unit.papers.made import EXAMPLES, proposal_of


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_new_part_stands_on_one_line_and_no_part_aboard_on_any(name: str) -> None:
    proposal = proposal_of(name)
    lines = [line for line in bill(proposal) if line.unit == "pc" and "holder" not in line.what]
    listed = [tag for line in lines if not line.spare or line.row != "spare" for tag in line.tags]
    for part in proposal.netlist.components:
        if part.kind in ("stop coil", "ship battery", "alternator", "shore charger", "isolator", "consumer", "node"):
            continue
        if part.aboard:
            continue
        assert part.tag in listed, part
    assert not {part.tag for part in kept(proposal) if part.kind != "bar"} & {
        tag for line in lines if line.row != "lock-tag" for tag in line.tags
    } - {part.tag for part in kept(proposal) if part.kind in ("unit", "main switch")}


@pytest.mark.parametrize("name", EXAMPLES)
def test_metres_are_the_netlists_metres_with_the_waste_rounded_up_to_half_a_metre(name: str) -> None:
    proposal = proposal_of(name)
    waste = 1.0 + proposal.brief.choices.cable_waste
    bought: dict[str | None, float] = {}
    for line in bill(proposal):
        if line.unit == "m":
            bought[line.row] = bought.get(line.row, 0.0) + line.quantity
            assert line.quantity * 2 == int(line.quantity * 2)
    needed: dict[str | None, float] = {}
    for (row, size), metres in lengths_by_row(proposal.netlist).items():
        if metres > 0 and size != "hose" and not (row or "").startswith("aboard "):
            needed[row] = needed.get(row, 0.0) + metres
    assert set(bought) == set(needed)
    for row, metres in needed.items():
        assert metres * waste - 1e-9 <= bought[row] <= metres * waste + 0.5 * 3


@pytest.mark.parametrize("name", EXAMPLES)
def test_two_lugs_a_wire_each_on_the_stud_of_its_part(name: str) -> None:
    proposal = proposal_of(name)
    wires = sum(wire.parallel for wire in proposal.netlist.conductors if not wire.aboard and wire.kind in "PNLCE")
    lugs = sum(line.quantity for line in bill(proposal) if line.what.lower().startswith("lug "))
    assert lugs == 2 * wires
    for wire, end in ends(proposal):
        stud, known = stud_of(proposal, end)
        assert stud.startswith("M")
        if known:
            row = proposal.catalogue.row(proposal.netlist.component(end.component).row or "")
            assert row is None or row.stud == stud  # type: ignore[attr-defined]
        assert wire.kind in "PNLCE"


def test_parallel_wires_are_counted_each() -> None:
    one = shapes.proposal_of(shapes.Shape(units=(shapes.UnitShape(parallel=1),)))
    two = shapes.proposal_of(shapes.Shape(units=(shapes.UnitShape(parallel=2),)))

    def lugs(proposal: Proposal) -> float:
        return sum(line.quantity for line in bill(proposal) if line.what.lower().startswith("lug 70"))

    assert lugs(two) > lugs(one)


def test_each_fuse_rating_has_a_spare_and_small_ones_several() -> None:
    lines = bill(proposal_of("1-motor-yacht"))
    fuses = [line for line in lines if any(tag.startswith("F") for tag in line.tags) and "holder" not in line.what.lower()]
    assert fuses
    assert all(int(line.spare) >= 1 for line in fuses)
    assert any(int(line.spare) > 1 for line in fuses)


def test_a_brushed_unit_brings_brushes_pins_and_an_anode_as_spares() -> None:
    proposal = proposal_of("1-motor-yacht")
    spares = {line.what.split(",")[0] for line in bill(proposal) if "not fitted" in line.note}
    assert {"Shear pins", "Anode"} <= spares
    assert ("Set of brushes" in spares) == (proposal.lanes[0].unit.drive == "brushed")


def test_totals_add_up_and_count_lines_without_a_row() -> None:
    lines = bill(proposal_of("7-stern-unit-added"))
    mass, price, without = totals(lines)
    assert mass == pytest.approx(sum(line.mass or 0.0 for line in lines))
    assert price > 0
    assert without == sum(line.row is None for line in lines)
    assert ceil(mass) > 0


def test_numbers_run_from_one_without_a_gap() -> None:
    lines = bill(proposal_of("1-motor-yacht"))
    assert [line.number for line in lines] == list(range(1, len(lines) + 1))
