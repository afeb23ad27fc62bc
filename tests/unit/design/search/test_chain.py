"""One unit's own chain: first adequate bank, cable, fuse, switch and stop, and what each limit refuses."""

from __future__ import annotations

from dataclasses import replace
from math import exp

import pytest

from athwart.design.search import banking, chain, running
from tests.unit.design.checks._boats import brief, proposal
from tests.unit.design.search._tasks import CATALOGUE, block, cable, task, task_of, unit

UNIT = unit("tunnel-24V-1550N")


def _evaluate(
    made: chain.Task, row: str = "thin-12V-150Ah", parallel: int = 1, conductor: str = "70mm2-105C", together: int = 2
) -> chain.Chain:
    taken = replace(block("lfp-12V-300Ah"), discharge_coldest=268.15) if row == "frost" else block(row)
    bank = banking.bank(made.brief, made.wish, taken, 2, parallel, cable(conductor))
    return chain.evaluate(made, UNIT, bank, cable(conductor), together, {})


def _broken(found: chain.Chain) -> set[str]:
    return {limit[0].split(",")[0] for limit in found.broken}


def test_a_full_chain_has_every_part_and_breaks_nothing() -> None:
    found = _evaluate(task())
    assert found.adequate
    assert None not in (found.bank, found.cable, found.fuse, found.switch, found.stop, found.design, found.peak)


def test_thrust_is_that_at_the_volts_of_the_chain_not_the_label() -> None:
    found = _evaluate(task())
    assert found.design is not None
    assert found.design.terminal_volts < 24.0
    assert found.thrust < UNIT.thrust
    ratio = running.thrust_ratio_at(UNIT, "design", found.design.terminal_volts)
    assert found.thrust == pytest.approx(UNIT.thrust * ratio, rel=1e-6)


def test_immersion_and_gross_figures_take_their_share() -> None:
    made = task()
    shallow = replace(made, immersion={UNIT.tunnel_diameter or 0.0: 0.8})
    assert _evaluate(shallow).thrust == pytest.approx(0.8 * _evaluate(made).thrust)


def test_bank_volts_are_terminal_volts_and_the_path() -> None:
    found = _evaluate(task())
    for state in (found.design, found.peak):
        assert state is not None
        assert state.bank_volts == pytest.approx(state.terminal_volts + state.current * state.path_resistance)
        assert state.bank_volts == pytest.approx(state.open_volts - state.current * state.bank_resistance)


def test_the_peak_state_takes_more_current_than_the_design_state() -> None:
    found = _evaluate(task())
    assert found.design is not None
    assert found.peak is not None
    assert found.peak.current > found.design.current
    assert found.start is not None
    assert found.start > 2 * found.peak.current


@pytest.mark.parametrize(
    ("limit", "made", "row"),
    [
        ("terminal volts in the design state", task(), "agm-12V-55Ah"),
        ("charge of a docking and the longest hold", task(docking_time=1500.0), "thin-12V-150Ah"),
        ("motor's time to its trip at the largest current", task(run_time=900.0), "thin-12V-150Ah"),
        ("protection circuit for the longest run", task(), "lfp-12V-150Ah"),
        ("protection circuit at the start", task(), "lfp-12V-160Ah-high"),
        ("coldest the block may be discharged", task("1", {"duty.coldest_bank": "-18 °C"}), "frost"),
    ],
)
def test_each_bank_and_motor_limit_refuses(limit: str, made: chain.Task, row: str) -> None:
    assert limit in _broken(_evaluate(made, row))


def test_other_loads_lower_the_terminal_volts() -> None:
    alone, beside = _evaluate(task()), _evaluate(task(other_design=150.0, other_peak=150.0))
    assert alone.design is not None
    assert beside.design is not None
    assert beside.design.terminal_volts < alone.design.terminal_volts
    assert beside.thrust < alone.thrust


def test_without_a_switch_that_breaks_the_stalled_motor_no_chain_is_adequate() -> None:
    made = task()
    weak = replace(made, catalogue=replace(CATALOGUE, switches=tuple(replace(s, breaking=100.0) for s in CATALOGUE.switches)))
    assert "main switch that breaks the stalled current" in _broken(_evaluate(weak))


def test_without_a_stop_no_chain_is_adequate() -> None:
    bare = replace(task(), catalogue=replace(CATALOGUE, contactors=()))
    assert "stop device that breaks the stalled current" in _broken(_evaluate(bare))


def test_where_vapour_may_be_fuse_switch_and_stop_are_ignition_protected() -> None:
    found = _evaluate(task(ignition=True))
    assert found.fuse is not None
    assert found.switch is not None
    assert found.stop is not None
    assert found.fuse.family.ignition_protected
    assert found.switch.ignition_protected
    assert found.stop.ignition_protected


def test_strings_side_by_side_each_have_a_fuse_or_do_not_pass() -> None:
    made = task("1", {"bank[0].chemistries": ["agm"]}, required=900.0)
    best, _ = chain.best_chain(replace(made, catalogue=replace(CATALOGUE, blocks=(block("agm-12V-110Ah"),))), UNIT)
    assert best is not None
    assert best.bank is not None
    assert best.bank.parallel > 1
    assert best.bank.string_fuse is not None
    bare = replace(best.bank, string_fuse=None)
    assert best.cable is not None
    found = chain.evaluate(made, UNIT, bare, best.cable.cable, best.cable.parallel, {})
    assert "a fuse at the positive of each string" in _broken(found)


def test_the_best_chain_is_the_lightest_bank_that_reaches_the_thrust() -> None:
    made = task(required=1380.0)
    best, _ = chain.best_chain(made, UNIT)
    assert best is not None
    assert best.adequate
    assert best.thrust >= 1380.0
    assert best.bank is not None
    lighter = [
        (row, series, parallel)
        for row, series, parallel in banking.candidates(CATALOGUE, made.wish, 24.0, 3)
        if row.mass * series * parallel < best.bank.mass
    ]
    assert lighter
    for row, series, parallel in lighter:
        bank = banking.bank(made.brief, made.wish, row, series, parallel, cable("150mm2-105C"))
        found = chain.evaluate(made, UNIT, bank, cable("150mm2-105C"), 2, {})
        assert not found.adequate or found.thrust < 1380.0


def test_more_thrust_asked_never_takes_a_lighter_chain() -> None:
    masses = []
    for required in (800.0, 1100.0, 1300.0, 1390.0):
        best, _ = chain.best_chain(task(required=required), UNIT)
        assert best is not None
        masses.append(best.bank.mass if best.bank is not None else 0.0)
    assert masses == sorted(masses)


def test_what_cannot_be_reached_gives_the_nearest_and_the_most_seen() -> None:
    best, most = chain.best_chain(task(required=3000.0), UNIT)
    assert best is not None
    assert best.thrust <= most < 3000.0


def test_a_chain_that_is_shown_all_the_same_has_its_fuse_switch_and_stop() -> None:
    made = task(required=1000.0, run_time=900.0)
    best, _ = chain.best_chain(made, UNIT)
    assert best is not None
    assert best.broken
    shown = chain.completed(made, best)
    assert shown.switch is not None
    assert shown.stop is not None
    assert {limit[0] for limit in best.broken} <= {limit[0] for limit in shown.broken}


def test_required_thrust_is_the_need_with_its_margin() -> None:
    assert chain.required_thrust(1000.0, 0.2, brief("1", {"choices.hold_probability": None})) == 1000.0
    with_margin = brief("1", {"choices.hold_probability": None, "choices.margins": {"thrust": "10 %"}})
    assert chain.required_thrust(1000.0, 0.2, with_margin) == pytest.approx(1100.0)


def test_a_chance_of_holding_raises_the_required_thrust() -> None:
    at = [
        chain.required_thrust(1000.0, 0.2, brief("1", {"choices.hold_probability": share})) for share in ("50 %", "80 %", "95 %")
    ]
    assert at[0] == 1000.0
    assert at[1] == pytest.approx(1000.0 * exp(0.8416 * 0.2), rel=1e-3)
    assert at[0] < at[1] < at[2]


def test_chain_and_circuit_agree_where_one_string_feeds_one_unit() -> None:
    """The search's sums and the solved netlist, to far less than 0.05 %."""
    for example in ("1", "2", "4"):
        lane = proposal(example).lanes[0]
        bank = proposal(example).banks[0]
        assert lane.design is not None
        assert lane.cable is not None
        made = task_of(
            brief(example),
            other_design=sum(load.current for wish in brief(example).bank for load in wish.shared_with if load.at_the_same_time),
        )
        found = chain.evaluate(made, lane.unit, bank, lane.cable.cable, lane.cable.parallel, {"cable": lane.cable.kept})
        assert found.design is not None
        assert found.design.terminal_volts == pytest.approx(lane.design.terminal_volts, rel=5e-5)
        assert found.design.current == pytest.approx(lane.design.current, rel=5e-5)


def test_a_longer_run_is_asked_where_the_brief_wants_a_margin() -> None:
    plain, margin = proposal("1"), proposal("1", {"choices.margins": {"run_time": "100 %"}})
    assert plain.need.run_time == margin.need.run_time == 60.0
    lane = margin.lanes[0]
    assert lane.run_time_full is not None
    if lane.passes:
        assert lane.run_time_full >= 120.0 * 0.9
    assert (lane.unit.id, lane.cable) != (plain.lanes[0].unit.id, plain.lanes[0].cable)
