"""Fuses other than main fuses suit the place they sit in; loads that share a bank count; what exists is not sized anew."""

from __future__ import annotations

import pytest

from athwart.design import book
from athwart.design.checks.banks import cranks
from athwart.design.search.settle import other_loads
from athwart.errors import InputError
from athwart.explain import FORMULAS
from athwart.papers.bill import bill
from athwart.power.fuse import breaking_capacity_at
from tests.unit.design.checks._boats import codes, proposal

EXAMPLES = ("1", "2", "3", "4", "7")


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_small_fuse_of_an_example_breaks_what_is_behind_it(example: str) -> None:
    p = proposal(example)
    rows = {fuse.id: fuse for fuse in p.catalogue.fuses}
    looked = 0
    for part in p.netlist.components:
        if part.kind != "fuse" or part.row is None or "fault" not in part.facts:
            continue
        family = p.catalogue.fuse_families[rows[part.row].family]
        volts, fault = float(part.facts["volts"]), float(part.facts["fault"])
        if part.name == "string fuse":
            parallel = next(bank.parallel for bank in p.banks if bank.place == part.place)
            fault *= (parallel - 1) / parallel
        assert volts <= family.volts_most
        assert fault <= breaking_capacity_at(family, volts)
        looked += 1
    assert looked >= 3
    assert "FUSE-10" not in codes(p)


def test_strings_bear_the_loads_that_last() -> None:
    p = proposal("4")
    bank = p.banks[0]
    assert bank.string_fuse is not None
    others = other_loads(p.brief, bank, "peak")
    assert others > 100.0
    assert bank.string_fuse[0].rating >= 1.25 * others / bank.parallel * (1 - 1e-9)


def test_run_time_counts_the_loads_beside_the_thruster() -> None:
    p = proposal("4")
    lane, bank = p.lanes[0], p.banks[0]
    assert lane.design is not None
    assert lane.run_time_full == pytest.approx(
        bank.capacity_design / (lane.design.current + other_loads(p.brief, bank, "design")), rel=0.02
    )


def test_leads_and_feeds_that_exist_are_in_no_bill() -> None:
    for example in EXAMPLES:
        p = proposal(example)
        for wire in p.netlist.conductors:
            if wire.start.component.startswith("G0.") or wire.start.component.startswith("Q0."):
                assert wire.aboard
                assert wire.area == 0.0
        for part in p.netlist.components:
            if part.kind == "consumer":
                assert all(w.aboard for w in p.netlist.conductors if part.tag in (w.start.component, w.end.component))
        assert bill(p)


def test_who_cranks_an_engine_is_said_or_read_from_the_name() -> None:
    load = {"name": "main engine cranking", "current": "300 A"}
    bare = {"supply.batteries[1]": None, "supply.path_devices": None}
    assert "BANK-07" in codes(proposal("1", {**bare, "bank[0].shared_with": [load]}))
    assert "BANK-07" not in codes(proposal("1", {**bare, "bank[0].shared_with": [{**load, "cranks_engine": "no"}]}))
    said = proposal("1", {**bare, "bank[0].shared_with": [{"name": "lever", "current": "300 A", "cranks_engine": "yes"}]})
    assert "BANK-07" in codes(said)
    assert cranks(said.brief.bank[0].shared_with[0])


def test_a_charger_without_a_source_refills_never() -> None:
    found = proposal("1", {"supply.alternators": None, "supply.shore_charger": None, "propulsion.engines[0].alternator": None})
    assert found.answers[2].verdict == "no"
    assert found.answers[2].figure == "never"
    assert "CHARGE-01" in codes(found)


def test_the_cable_aboard_counts_by_its_own_length() -> None:
    p = proposal("6", {}, "check")
    cable = p.lanes[0].cable
    assert cable is not None
    assert cable.plus == pytest.approx(19.8)
    assert "as aboard" in cable.route


def test_the_word_follows_the_verdict() -> None:
    p = proposal("1", {"duty.longest_hold": "30 min"})
    first = p.answers[0]
    assert first.verdict == "no"
    assert not first.sentence.startswith("Yes")


def test_a_formula_that_divides_by_nought_says_so() -> None:
    with pytest.raises(InputError) as refused:
        book.reckon(FORMULAS["power.conductor.loop_voltage_drop"], ["current=300 A", "run=8 m", "area=0 mm2"])
    assert [m.path for m in refused.value.mistakes] == ["area"]
    assert "nought" in str(refused.value.mistakes[0])
