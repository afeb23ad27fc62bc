"""Charging of a bank: which charger, from which battery, over which cable, and what it gives back in a day."""

from __future__ import annotations

from math import inf
from typing import Any

import pytest

from athwart.design.proposal import ChargingChoice
from athwart.design.search import charging
from tests.unit.design.checks._boats import Mode, brief, proposal
from tests.unit.design.search._tasks import row

BANK_24 = {"bank[0].chemistries": ["agm", "thin plate agm"]}
SERIES_PARALLEL: dict[str, Any] = {"kind": "series/parallel switch", "row": "serpar-12-24-150A", "fed_from": "house bank"}


def _choice(example: str = "1", changes: dict[str, Any] | None = None, mode: Mode = "propose") -> ChargingChoice:
    return proposal(example, changes, mode).charging[0]


def _limit(found: ChargingChoice, starts: str) -> tuple[str, float, float, bool]:
    return next(limit for limit in found.limits if limit[0].startswith(starts))


def test_a_24_volt_bank_on_a_12_volt_ship_gets_a_step_up_charger() -> None:
    found = _choice()
    assert (found.kind, found.from_battery, found.kept) == ("step-up", "house bank", "chosen")
    assert found.charger is not None
    assert (found.charger.volts_in, found.charger.volts_out) == (12.0, 24.0)
    assert found.fuse_source is not None
    assert found.fuse_bank is not None


def test_the_input_current_follows_from_the_power_and_the_volts_at_the_charger() -> None:
    found = _choice()
    assert found.charger is not None
    at_charger = 14.4 - found.path_drop - found.input_drop
    by_power = found.charger.charge_volts * found.output_current / (found.charger.efficiency * at_charger)
    assert found.input_current == pytest.approx(by_power + found.charger.quiescent, rel=1e-4)


def test_a_longer_input_route_takes_a_thicker_cable_and_keeps_three_per_cent() -> None:
    short, long = _choice(), _choice("1", {"layout.routes[1].plus": "25 m", "layout.routes[1].minus": "25 m"})
    assert short.cable is not None
    assert long.cable is not None
    assert long.cable.area > short.cable.area
    for found in (short, long):
        assert _limit(found, "volts lost in the input cable")[3]


HOUSE_24 = {
    "name": "house bank",
    "use": "house",
    "chemistry": "agm",
    "volts": "24 V",
    "capacity": "220 Ah",
    "place": "battery locker",
}


def test_matching_volts_get_a_battery_to_battery_charger() -> None:
    found = _choice(
        "1",
        {
            "supply.volts": "24 V",
            "supply.batteries": [HOUSE_24],
            "supply.alternators[0].volts": "24 V",
            "supply.alternators[0].regulated_volts": "28.4 V",
            "supply.shore_charger.volts": "24 V",
            "supply.path_devices": [],
        },
    )
    assert found.kind == "battery to battery"
    assert found.charger is not None
    assert found.charger.volts_in == found.charger.volts_out == 24.0


def test_no_battery_of_the_ship_means_no_charging() -> None:
    found = _choice(
        "1",
        {
            "supply.batteries": [],
            "supply.alternators": [],
            "supply.shore_charger": None,
            "supply.path_devices": [],
            "propulsion.engines[0].alternator": None,
        },
    )
    assert (found.kind, found.charger, found.refill_time) == ("none", None, inf)
    assert found.energy_in_per_day == 0.0


def test_no_source_aboard_stays_none_in_check_and_is_mended_in_propose() -> None:
    part = {"aboard.lanes.bow.charger": {"kind": "none"}}
    assert _choice("7", part | {"aboard.lanes.stern": {"unit": {"row": "tunnel-24V-1000N"}}}, "check").kind == "none"
    assert _choice("7", part).kind == "step-up"


def test_a_converter_is_no_charger() -> None:
    part = {"aboard.lanes.bow.charger": {"kind": "converter", "current": "10 A"}}
    as_found = _choice("7", part | {"aboard.lanes.stern": {"unit": {"row": "tunnel-24V-1000N"}}}, "check")
    assert (as_found.kind, as_found.refill_time) == ("none", inf)
    mended = _choice("7", part)
    assert (mended.kind, mended.kept) == ("step-up", "chosen")


def test_a_fixed_lack_of_charging_stays() -> None:
    found = _choice("1", {"fixed.lanes.bow.charger": {"kind": "none"}})
    assert (found.kind, found.kept) == ("none", "fixed")


def test_a_series_parallel_switch_aboard_is_kept_and_charges_at_the_source_s_volts() -> None:
    found = _choice("1", {"aboard.lanes.bow.charger": SERIES_PARALLEL})
    assert (found.kind, found.kept) == ("series/parallel switch", "aboard")
    assert found.charger is not None
    assert found.charger.charge_volts == pytest.approx(14.4)


def test_the_contact_of_a_series_parallel_switch_is_in_the_unit_s_circuit() -> None:
    plain, switched = proposal("1").lanes[0].design, proposal("1", {"aboard.lanes.bow.charger": SERIES_PARALLEL}).lanes[0].design
    assert plain is not None
    assert switched is not None
    contact_and_two_lugs = 280e-6
    lost = (switched.open_volts - switched.bank_volts) / switched.current - (plain.open_volts - plain.bank_volts) / plain.current
    assert lost == pytest.approx(contact_and_two_lugs, rel=1e-3)


def test_a_shore_charger_at_the_bank_draws_nothing_from_the_ship() -> None:
    found = _choice("1", {"fixed.lanes.bow.charger": {"kind": "shore", "row": "shore-24V-16A"}})
    assert (found.kind, found.kept, found.from_battery) == ("shore", "fixed", None)
    assert (found.input_current, found.fuse_source, found.cable) == (0.0, None, None)
    assert found.energy_in_per_day == pytest.approx(16.0 * 8 * 3600 / 1.2)


def test_a_charger_refills_in_the_time_wanted_and_gives_back_the_day() -> None:
    found = _choice()
    assert found.refill_time <= charging.REFILL
    assert found.energy_in_per_day >= found.energy_out_per_day
    assert _limit(found, "charge back in a day")[3]


def test_many_dockings_take_a_larger_charger() -> None:
    few, many = _choice(), _choice("1", {"duty.dockings_per_day": 25})
    assert many.output_current > few.output_current


def test_the_house_battery_feeds_before_the_engine_s() -> None:
    assert charging.feeder(brief("1")) is not None
    assert charging.feeder(brief("1")).name == "house bank"  # type: ignore[union-attr]
    only = brief(
        "1",
        {
            "supply.batteries[0]": None,
            "supply.alternators[0].charges": "starter battery",
            "supply.shore_charger.charges": "starter battery",
            "supply.path_devices": [],
        },
    )
    assert charging.feeder(only).name == "starter battery"  # type: ignore[union-attr]


def test_a_diode_isolator_lowers_what_the_charger_sees() -> None:
    device = {"name": "isolator", "kind": "diode isolator", "between": ["house bank", "starter battery"]}
    plain, through = _choice(), _choice("1", {"supply.path_devices": [device]})
    assert through.path_drop > 0.5 > plain.path_drop
    assert through.input_current > plain.input_current


def test_the_alternator_at_idle_loses_what_house_and_charger_take() -> None:
    small, large = (_choice("1", {"supply.alternators[0].current": current}) for current in ("55 A", "120 A"))
    assert small.alternator_idle_margin is not None
    assert large.alternator_idle_margin is not None
    assert small.alternator_idle_margin < large.alternator_idle_margin


@pytest.mark.parametrize(
    ("charger", "bank", "source", "suits"),
    [
        ("stepup-12-24-5A", "agm", "agm", True),
        ("stepup-12-24-5A", "thin plate agm", "flooded", True),
        ("stepup-12-24-5A", "lfp", "agm", False),
        ("stepup-12-24-8A", "lfp", "agm", True),
        ("serpar-12-24-150A", "agm", "agm", True),
        ("serpar-12-24-150A", "lfp", "agm", False),
    ],
)
def test_a_charger_suits_by_its_profiles(charger: str, bank: str, source: str, suits: bool) -> None:
    assert charging.suits(row(charger), bank, source) is suits


def test_input_cable_and_fuses_aboard_are_shown_as_they_are() -> None:
    part = {
        "kind": "step-up",
        "row": "stepup-12-24-15A",
        "input_cable": "16 mm2",
        "fuse_at_source": "50 A",
        "fuse_at_bank": "30 A",
    }
    found = _choice("7", {"aboard.lanes.bow.charger": part})
    assert found.kept == "aboard"
    assert found.cable is not None
    assert found.cable.area == pytest.approx(16e-6)
    assert found.fuse_source is not None
    assert found.fuse_bank is not None
    assert (found.fuse_source.rating, found.fuse_bank.rating) == (50.0, 30.0)


def test_a_described_input_cable_is_aboard_in_the_netlist_and_not_bought() -> None:
    part = {"kind": "step-up", "row": "stepup-12-24-15A", "input_cable": "17 mm2"}
    wires = proposal("7", {"aboard.lanes.bow.charger": part}).netlist.conductors
    fed = [wire for wire in wires if wire.purpose.startswith("charger input") and wire.lane < 2 and wire.size.startswith("17")]
    assert fed
    assert all(wire.aboard for wire in fed)


SHORE_24 = {"current": "30 A", "volts": "24 V", "charges": "bow bank", "temperature_sensing": "yes"}


@pytest.mark.parametrize("mode", ["propose", "check"])
def test_a_shore_charger_that_charges_the_bank_itself_is_its_charger(mode: Mode) -> None:
    unit = {"aboard.lanes.bow": {"unit": {"row": "tunnel-24V-1550N"}, "bank": {"row": "thin-12V-150Ah", "series": 2}}}
    found = _choice("1", {"supply.shore_charger": SHORE_24, "supply.shore_hours_per_day": "8 h", **unit}, mode)
    assert (found.kind, found.kept, found.output_current, found.input_current) == ("shore", "aboard", 30.0, 0.0)
    assert found.energy_in_per_day == pytest.approx(30.0 * 8 * 3600 / 1.05, rel=0.15)


def test_a_shore_charger_too_weak_for_the_day_leaves_the_step_up() -> None:
    weak = SHORE_24 | {"current": "0.5 A"}
    assert _choice("1", {"supply.shore_charger": weak, "supply.shore_hours_per_day": "1 h"}).kind == "step-up"


def test_an_alternator_that_charges_the_bank_needs_no_charger() -> None:
    second = {"name": "second alternator", "current": "80 A", "volts": "28 V", "charges": "bow bank"}
    found = _choice("1", {"supply.alternators[1]": second})
    assert (found.kind, found.charger, found.kept) == ("alternator", None, "aboard")
    assert found.output_current <= 80.0 * 0.78 + 1e-9
    assert _limit(found, "charging current")[3]
    assert found.energy_in_per_day > found.energy_out_per_day
    codes = {finding.code for finding in proposal("1", {"supply.alternators[1]": second}).findings}
    assert not codes & {"CHARGE-01", "CHARGE-10"}


def test_a_chosen_bank_leaves_the_other_consumers_their_volts() -> None:
    changes = {"aboard": None}
    bank = proposal("4", changes)
    lane = bank.lanes[0]
    assert bank.bank(lane.bank).kept == "chosen"  # type: ignore[union-attr]
    state = lane.both_design or lane.design
    assert state is not None
    assert state.bank_volts >= 44.0
    greedy = proposal("4", changes | {"bank[0].shared_with[0].least_volts": "30 V", "bank[0].shared_with[1].least_volts": "30 V"})
    assert greedy.banks[0].capacity <= bank.banks[0].capacity
    assert greedy.banks[0].block.id != bank.banks[0].block.id
