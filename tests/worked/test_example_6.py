"""Example 6 has every fault of the trade: each planted one is found, and its near miss is not.

The case numbers are those of the page on field cases. A near miss is the same boat with that one fault mended.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.unit.design.checks._boats import brief, of, proposal

BOW, STERN = "aboard.lanes.bow", "aboard.lanes.stern"
PLANTED: tuple[tuple[str, str, str, dict[str, Any]], ...] = (
    # case, code, where, what mends it
    ("F01", "CABLE-01", "bow", {f"{BOW}.cable.length_is": "one way"}),
    ("F02", "CHARGE-03", "bow", {f"{BOW}.charger.input_cable": "70 mm2"}),
    ("F03", "CHARGE-01", "stern", {f"{STERN}.charger.kind": "battery to battery"}),
    ("F04", "BANK-21", "bow", {f"{BOW}.bank.age_years": "2"}),
    ("F05", "BANK-06", "bow", {"layout.places[1].access": "lift hatch"}),
    ("F07", "DRIVE-02", "bow", {"duty.burst": "4 s"}),
    ("F08", "DRIVE-03", "bow", {"duty.users": "owner"}),
    ("F09", "STOP-02", "bow", {f"{BOW}.stop.breaks": "power circuit"}),
    ("F10", "STOP-04", "inside helm", {"helms[0].stop_within_reach": "yes"}),
    ("F10", "STOP-05", "helm", {"helms[0].seconds_to_main_switch": "4 s", "helms[1].seconds_to_main_switch": "4 s"}),
    ("F11", "STOP-03", "stern", {f"{STERN}.stop.is_the_reversing_contactor": "no"}),
    ("F12", "STOP-12", "outside helm", {"helms[1].exposed": "no"}),
    ("F13", "STOP-13", "outside helm", {"helms[1].stop_within_reach": "yes"}),
    ("F13", "CARE-01", "stern", {"layout.places[3].access": "lift hatch"}),
    ("F20", "BANK-05", "bow", {f"{BOW}.bank.terminals_covered": "yes"}),
    ("F21", "CABLE-07", "bow", {f"{BOW}.cable.joint_resistance": "0.05 mohm"}),
    ("F22", "CHARGE-19", "shore", {"supply.shore_charger.temperature_sensing": "yes"}),
    ("F23", "BANK-10", "stern", {f"{STERN}.bank": {"row": "lfp-12V-300Ah", "series": "1"}}),
    ("F24", "DRIVE-12", "bow", {f"{BOW}.unit.age_years": "4"}),
    ("F25", "DRIVE-04", "bow", {"duty.pause": "90 s"}),
    ("F26", "RETRACT-05", "stern", {"thrusters[1].retract_interlocks": ["raise only when stopped", "locking pin"]}),
    ("F27", "RETRACT-04", "stern", {"thrusters[1].retract_interlocks": ["raise only when stopped", "manual raise"]}),
    ("F28", "DRIVE-01", "bow", {"duty.longest_hold": "60 s"}),
    ("F28", "RETRACT-02", "stern", {"thrusters[1].retract_interlocks": ["raise only when stopped", "speed limit"]}),
    ("F29", "TUNNEL-05", "bow", {"thrusters[0].tunnel.entry_radius": "25 mm"}),
    ("F30", "TUNNEL-10", "bow", {"thrusters[0].tunnel.compartment_watertight": "yes"}),
    ("F31", "NEED-02", "bow", {"wind.speed": "4 kn"}),
    ("F32", "TUNNEL-01", "bow", {"thrusters[0].tunnel.axis_depth": "0.70 m"}),
    ("F33", "NET-18", "bow", {f"{BOW}.negative_link": "95 mm2"}),
    ("F33", "NET-19", "bow", {f"{BOW}.negative_link_fused": "no"}),
    ("F34", "CHARGE-02", "bow", {f"{BOW}.charger.kind": "step-up"}),
    (
        "F35",
        "NET-10",
        "",
        {"aboard.network.supply_conductor": "6 mm2", "aboard.network.fed_from": "ship bank", "network.trunk[4].drop": "0.5 m"},
    ),
    (
        "F37",
        "NET-06",
        "",
        {"aboard.network.terminators_at": ["outside helm", "stern"], "network.nodes[0].terminator_inside": "no"},
    ),
    ("F38", "NET-04", "", {"aboard.network.feed_at": ["inside helm"]}),
    ("F38", "NET-16", "", {"aboard.network.screen_grounded_at": ["inside helm"]}),
    ("F41", "NET-08", "mast", {"network.trunk[4].drop": "2 m"}),
    ("F42", "NET-07", "tank", {"network.nodes[0].terminator_inside": "no"}),
    ("F44", "NET-13", "", {"thrusters[1].instance": "1"}),
    ("F45", "BANK-03", "bow", {f"{BOW}.bank.mixed_age": "no"}),
)
MODE = {"F02": "propose"}


@pytest.mark.parametrize(("case", "code", "where"), [entry[:3] for entry in PLANTED], ids=[f"{e[0]} {e[1]}" for e in PLANTED])
def test_a_planted_fault_is_found(case: str, code: str, where: str) -> None:
    assert of(proposal("6", {}, MODE.get(case, "check")), code, where)  # type: ignore[arg-type]


@pytest.mark.parametrize(("case", "code", "where", "mended"), PLANTED, ids=[f"{e[0]} {e[1]}" for e in PLANTED])
def test_its_near_miss_is_not(case: str, code: str, where: str, mended: dict[str, Any]) -> None:
    assert not of(proposal("6", mended, MODE.get(case, "check")), code, where)  # type: ignore[arg-type]


def test_every_case_the_example_lists_is_in_the_table_and_no_other() -> None:
    assert {entry.split(":")[0] for entry in brief("6").planted} == {entry[0] for entry in PLANTED}


@pytest.mark.parametrize("example", ["1", "2", "3", "4", "7"])
def test_a_clean_example_has_no_stop_and_at_most_three_cautions(example: str) -> None:
    found = proposal(example).findings
    assert not [f for f in found if f.severity == "stop"]
    assert len([f for f in found if f.severity == "caution"]) <= 3
