"""The netlist of a plain boat, tag by tag, and what changes with its parts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from athwart.design.netlist import Netlist
from athwart.design.wiring import lengths_by_row, pieces, wire
from athwart.design.wiring_lane import split_plus
from tests.properties.proposal_strategies import BankShape, Shape, UnitShape, netlist_of, proposal_of


def path(netlist: Netlist, *tags: str) -> list[str]:
    return [f"{netlist.conductor(tag).start} > {netlist.conductor(tag).end}" for tag in tags]


def test_a_lane_runs_from_the_upper_block_to_the_unit_and_back() -> None:
    netlist = netlist_of(Shape())
    assert path(netlist, "1P1", "1P2", "1P3", "1P4", "1N1", "1L1") == [
        "G1.2 + > F1.1:1",
        "F1.1:2 > Q1.1:1",
        "Q1.1:2 > Q1.2:1",
        "Q1.2:2 > M1.1 +",
        "M1.1 - > G1.1 -",
        "G1.1 + > G1.2 -",
    ]
    assert netlist.conductor("1P1").fuse is None
    assert {netlist.conductor(tag).fuse for tag in ("1P2", "1P3", "1P4", "1N1")} == {"F1.1"}
    assert [round(netlist.conductor(tag).length, 3) for tag in ("1P1", "1P2", "1P3", "1P4")] == pytest.approx(
        [0.15, 0.306, 0.306, 1.8375], abs=1e-3
    )


def test_an_energise_to_run_loop_breaks_at_every_helm() -> None:
    netlist = netlist_of(Shape(helms=2))
    assert path(netlist, "1C1", "1C2", "1C3", "1C4") == [
        "F1.3:2 > S1.1:1",
        "S1.1:2 > S1.2:1",
        "S1.2:2 > Q1.2 coil:1",
        "Q1.2 coil:2 > G1.1 -",
    ]
    assert netlist.component("Q1.2 coil").facts["fed from"] == "bank of the unit"
    assert netlist.conductor("1C1").colour == "brown"


def test_a_latching_stop_is_fed_from_the_ship_and_its_buttons_lie_side_by_side() -> None:
    netlist = netlist_of(Shape(units=(UnitShape(stop="latching"),), helms=3, network=False))
    assert path(netlist, "1C1", "1C2", "1C3") == ["F0.1:2 > S1.1:1", "S1.1:1 > S1.2:1", "S1.2:1 > S1.3:1"]
    assert path(netlist, "1C4", "1C5", "1C6", "1C7") == [
        "S1.3:2 > S1.2:2",
        "S1.2:2 > S1.1:2",
        "S1.1:2 > Q1.2 coil:1",
        "Q1.2 coil:2 > X0.2:1",
    ]
    assert netlist.component("Q1.2 coil").facts["fed from"] == "ship's supply"


def test_a_latching_stop_without_a_ships_battery_says_that_it_hangs_on_its_own_bank() -> None:
    netlist = netlist_of(Shape(units=(UnitShape(stop="latching"),), batteries=(), alternators=0, shore=False, feed="converter"))
    assert netlist.component("Q1.2 coil").facts["fed from"] == "bank of the unit"


def test_parallel_strings_meet_at_bars_each_behind_its_own_fuse() -> None:
    netlist = netlist_of(Shape(banks=(BankShape(series=2, parallel=2),)))
    assert path(netlist, "1P1", "1P2", "1P3", "1P4") == [
        "G1.2 + > F1.4:1",
        "F1.4:2 > X1.1:1",
        "G1.4 + > F1.5:1",
        "F1.5:2 > X1.1:1",
    ]
    assert path(netlist, "1P5") == ["X1.1:1 > F1.1:1"]
    assert path(netlist, "1L1", "1L2") == ["G1.1 + > G1.2 -", "G1.3 + > G1.4 -"]


def test_units_on_one_bank_start_at_their_own_fuse_on_its_bar() -> None:
    netlist = netlist_of(Shape(units=(UnitShape(), UnitShape(role="stern"))))
    assert path(netlist, "2P1", "2N1") == ["X1.1:1 > F2.1:1", "M2.1 - > X1.2:1"]
    assert netlist.component("F1.1").facts["amps"] == 325.0


def test_a_step_up_without_isolation_is_a_second_tie_sized_as_one() -> None:
    open_minus = netlist_of(Shape())
    tie = next(entry for entry in open_minus.conductors if entry.start.component == "U1.1" and entry.start.terminal == "in-")
    assert tie.area == pytest.approx(70e-6)
    assert open_minus.component("U1.1").facts["second tie"] is True
    kept_apart = netlist_of(Shape(banks=(BankShape(isolated=True),)))
    thin = next(entry for entry in kept_apart.conductors if entry.start.component == "U1.1" and entry.start.terminal == "in-")
    assert thin.area == pytest.approx(25e-6)
    assert kept_apart.component("U1.1").name == "step-up, isolated"


def test_a_series_parallel_switch_sits_in_the_link() -> None:
    netlist = netlist_of(Shape(banks=(BankShape(charging="series/parallel switch"),)))
    assert path(netlist, "1L1", "1L2") == ["G1.1 + > U1.1:mid-", "U1.1:mid+ > G1.2 -"]


def test_a_ships_battery_that_is_the_bank_is_drawn_once() -> None:
    netlist = netlist_of(Shape(banks=(BankShape(series=1, is_ships=True, charging="alternator"),), batteries=()))
    assert not [entry for entry in netlist.components if entry.kind == "ship battery"]
    alternator = next(entry for entry in netlist.conductors if entry.purpose == "alternator to battery")
    assert str(alternator.end) == "G1.1 +"


def test_the_feed_of_the_control_line_is_fused_at_its_source() -> None:
    netlist = netlist_of(Shape(feed="ship bank"))
    plus = next(entry for entry in netlist.conductors if entry.end.component.startswith("X9") and entry.end.terminal == "+")
    assert plus.start.component.startswith("F0.")
    assert netlist.component(plus.start.component).rating == ("3 A",)
    through = netlist_of(Shape(feed="converter"))
    assert through.component("U9.1").facts["isolated"] is True
    lower = netlist_of(Shape(feed="lower block"))
    taps = [entry for entry in lower.conductors if str(entry.start) == "G1.1 +" and entry.kind == "P"]
    assert len(taps) == 1


def test_a_hydraulic_lane_has_a_pump_and_two_lines() -> None:
    netlist = netlist_of(Shape(units=(UnitShape(bank=None),)))
    assert path(netlist, "1H1", "1H2") == ["P1.1:out > M1.1:in", "M1.1:out > P1.1:in"]


@pytest.mark.parametrize(
    ("total", "source", "count"), [(2.6, 0.15, 4), (0.4, 1.0, 4), (10.0, None, 3), (5.0, 0.2, 1), (1.0, 0.2, 2)]
)
def test_pieces_are_positive_and_add_up(total: float, source: float | None, count: int) -> None:
    lengths = split_plus(total, source, count)
    assert len(lengths) == count
    assert min(lengths) > 0
    assert sum(lengths) == pytest.approx(total)


def test_parallel_wires_are_marked_a_and_b_and_counted_each() -> None:
    netlist = netlist_of(Shape(units=(UnitShape(parallel=2),)))
    assert pieces(netlist.conductor("1P4")) == ("1P4a", "1P4b")
    single = lengths_by_row(netlist_of(Shape()))[("cable-70", "70 mm²")]
    double = lengths_by_row(netlist)[("cable-70", "70 mm²")]
    assert double - single == pytest.approx(2.6 + 2.5)


def test_parts_that_do_not_belong_together_are_refused() -> None:
    whole = proposal_of(Shape())
    with pytest.raises(ValueError, match="not among"):
        wire(whole.brief, whole.catalogue, whole.lanes, (), (), None)
    no_cable = replace(whole.lanes[0], cable=None)
    with pytest.raises(ValueError, match="no cable"):
        wire(whole.brief, whole.catalogue, (no_cable,), whole.banks, (), None)
    assert whole.network is not None
    with pytest.raises(ValueError, match="no stop"):
        wire(whole.brief, whole.catalogue, whole.lanes, whole.banks, (), replace(whole.network, feed_at="nowhere"))
