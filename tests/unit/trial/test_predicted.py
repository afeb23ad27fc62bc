"""Predicted commissioning readings: in order of danger, from the netlist, with bands that grow with what is uncertain."""

from __future__ import annotations

from dataclasses import replace

import pytest

from athwart.design.proposal import Proposal
from athwart.design.search import running
from athwart.power.battery import block_source
from athwart.power.motor import at_temperature, brushed_load
from athwart.trial import commissioned
from athwart.trial.predicted import GROUPS, Reading, power_path, sheets
from tests.properties import proposal_strategies as shapes
from tests.unit.papers.made import EXAMPLES, proposal_of

ONE = "1-motor-yacht"
TWO = "7-stern-unit-added"


def one(name: str, what: str, lane: int = 1) -> Reading:
    """The one reading of a sheet with these words."""
    sheet = next(entry for entry in sheets(proposal_of(name)) if entry.lane == lane)
    found = [reading for reading in sheet.readings if reading.what == what]
    assert len(found) == 1, [reading.what for reading in sheet.readings]
    return found[0]


@pytest.mark.parametrize("name", EXAMPLES)
def test_groups_follow_danger_and_no_full_thrust_stands_before_the_stops(name: str) -> None:
    for sheet in sheets(proposal_of(name)):
        letters = [reading.group for reading in sheet.readings]
        assert letters == sorted(letters)
        assert set(letters) <= set(GROUPS)
        order = {reading.number: place for place, reading in enumerate(sheet.readings)}
        assert len(order) == len(sheet.readings), "a number stands twice on one sheet"
        stops = [order[r.number] for r in sheet.readings if "pressed while it runs" in r.what]
        full = [order[r.number] for r in sheet.group("E")]
        assert not stops or not full or max(stops) < min(full)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_button_and_every_piece_of_the_path_is_read(name: str) -> None:
    proposal = proposal_of(name)
    for sheet in sheets(proposal):
        if not sheet.readings:
            continue
        words = " ".join(f"{reading.what} {reading.where}" for reading in sheet.readings)
        for button in (c.tag for c in proposal.netlist.components if c.kind == "stop button" and c.lane == sheet.lane):
            assert button in words
        path, back = power_path(proposal, proposal.lanes[sheet.lane - 1])
        drops = [reading.what for reading in sheet.group("E") if reading.unit == "mV"]
        for piece in (*path, *back):
            assert any(piece.tag in what for what in drops)


@pytest.mark.parametrize("name", EXAMPLES)
def test_probes_stand_on_tags_of_the_netlist(name: str) -> None:
    proposal = proposal_of(name)
    known = {c.tag for c in proposal.netlist.components} | {c.tag for c in proposal.netlist.conductors}
    for sheet in sheets(proposal):
        for reading in sheet.readings:
            if reading.unit == "mV":
                for probe in reading.where.split(" to "):
                    assert probe.replace(":", " ").split()[0] in known


def test_millivolts_add_up_to_the_volts_between_bank_and_unit() -> None:
    sheet = sheets(proposal_of(ONE))[0]
    bank = one(ONE, "bank").predicted
    unit = one(ONE, "at the unit").predicted
    lost = sum(reading.predicted or 0.0 for reading in sheet.readings if reading.unit == "mV")
    assert bank is not None
    assert unit is not None
    assert lost / 1e3 == pytest.approx(bank - unit, rel=1e-6)


def test_the_solved_lane_agrees_with_the_closed_form_of_source_and_motor() -> None:
    """Second method: electromotive force behind the summed resistance, the motor's own quadratic."""
    proposal = proposal_of(ONE)
    lane, bank = proposal.lanes[0], proposal.banks[0]
    solved = commissioned.solve_bank(proposal, bank, (lane,))
    tag = f"M{lane.lane}.1"
    current = solved.middle.currents[tag]
    source = block_source(bank.block, commissioned.state_of(bank))
    path = (
        bank.series * source.emf - bank.series * source.resistance * current - solved.middle.across(f"{tag}:+", f"{tag}:-")
    ) / current
    motor = at_temperature(
        running.motor_of(lane.unit),
        commissioned.TEMPERATURE - commissioned.RATED_WINDING,
        commissioned.TEMPERATURE - commissioned.RATED_MAGNET,
    )
    by_hand = brushed_load(motor, bank.series * source.emf - (bank.series * source.resistance + path) * current)
    assert by_hand == pytest.approx(current, rel=1e-6)
    assert 0.5e-3 < path < 20e-3


def test_a_bank_as_commissioned_lies_between_the_two_design_states() -> None:
    lane = proposal_of(ONE).lanes[0]
    volts = one(ONE, "at the unit").predicted
    assert lane.design is not None
    assert volts is not None
    assert volts > lane.design.terminal_volts


def test_an_older_bank_gives_fewer_volts_under_thrust() -> None:
    proposal = proposal_of(ONE)
    bank = replace(proposal.banks[0], age_years=5.0)
    lane = proposal.lanes[0]
    new = commissioned.solve_bank(proposal, proposal.banks[0], (lane,)).volts("M1.1:+", "M1.1:-")
    old = commissioned.solve_bank(proposal, bank, (lane,)).volts("M1.1:+", "M1.1:-")
    assert old.value < new.value
    assert commissioned.ageing(bank) == pytest.approx(1.5)
    assert "5 years old" in commissioned.state_words(bank)


def test_a_band_is_the_root_of_the_squares_of_its_causes(monkeypatch: pytest.MonkeyPatch) -> None:
    proposal = proposal_of(ONE)
    lane, bank = proposal.lanes[0], proposal.banks[0]
    whole = commissioned.solve_bank(proposal, bank, (lane,)).volts("M1.1:+", "M1.1:-")
    monkeypatch.setattr(commissioned, "SIGMA", dict.fromkeys(commissioned.SIGMA, 0.0))
    sure = commissioned.solve_bank(proposal, bank, (lane,)).volts("M1.1:+", "M1.1:-")
    assert sure.sigma == pytest.approx(commissioned.VOLTMETER * sure.value)
    assert whole.sigma > sure.sigma
    assert whole.value == pytest.approx(sure.value)


def test_limits_lie_outside_the_prediction_on_the_good_side() -> None:
    for name in (ONE, TWO, "2-sailing-yacht"):
        for sheet in sheets(proposal_of(name)):
            for reading in sheet.readings:
                if reading.predicted is None:
                    continue
                if reading.least is not None and reading.what != "at the unit":
                    assert reading.predicted >= reading.least, reading
                if reading.most is not None:
                    assert reading.predicted <= reading.most, reading


def test_a_shared_bank_is_read_with_all_its_units_running_and_its_own_readings_once() -> None:
    shape = shapes.Shape(units=(shapes.UnitShape(), shapes.UnitShape(role="stern")), banks=(shapes.BankShape(parallel=2),))
    made = with_rated_units(shape)
    first, second = sheets(made)
    assert any("all units at full thrust" in reading.what for reading in first.readings)
    assert not any("all units at full thrust" in reading.what for reading in second.readings)
    assert sum(reading.what == "block" and reading.group == "B" for reading in first.readings) == 4
    assert not any(reading.what == "block" and reading.group == "B" for reading in second.readings)
    strings = [reading for reading in first.readings if reading.what == "current of the string"]
    assert len(strings) == 2
    whole = next(reading for reading in first.readings if reading.what.startswith("current, mean"))
    assert sum(reading.predicted or 0.0 for reading in strings) == pytest.approx(whole.predicted)


def test_the_control_line_is_read_once_and_its_terminators_first() -> None:
    first, second = sheets(proposal_of(TWO))
    assert any("control line, high to low" in reading.what for reading in first.group("A"))
    assert not any("control line" in reading.what for reading in second.readings)


def test_a_hydraulic_lane_and_a_unit_without_data_say_that_nothing_is_computed() -> None:
    hydraulic = shapes.proposal_of(shapes.Shape(units=(shapes.UnitShape(bank=None),), banks=()))
    assert sheets(hydraulic)[0].readings == ()
    assert sheets(hydraulic)[0].state == "not computed yet"
    unrated = sheets(shapes.proposal_of(shapes.Shape()))[0]
    assert "not computed" in unrated.group("E")[0].words


def with_rated_units(shape: shapes.Shape) -> Proposal:
    """The proposal of a shape, its units with a rated point."""
    made = shapes.proposal_of(shape)
    return replace(
        made, lanes=tuple(replace(lane, unit=replace(lane.unit, rated_volts=22.0, rated_current=340.0)) for lane in made.lanes)
    )
