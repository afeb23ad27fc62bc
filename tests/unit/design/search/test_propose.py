"""The whole way: kept, replaced, fixed; two units on one bank, two at the bow; preferences; nothing that passes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from athwart.design.proposal import Proposal
from athwart.design.search.propose import check, propose
from athwart.errors import BriefError
from tests.unit.design.checks._boats import brief, proposal
from tests.unit.design.search._tasks import CATALOGUE, cable, only_units, unit, where

LEAD = ["agm", "thin plate agm"]
ONE_BANK: dict[str, Any] = {
    "aboard": {},
    "bank": [{"name": "common bank", "feeds": ["bow", "stern"], "place": "bow locker", "volts": "24 V", "chemistries": LEAD}],
    "layout.routes[5]": {"between": ["bow locker", "transom box"], "plus": "11.5 m", "minus": "11.5 m"},
    "choices.strings_most": 4,
}


def _kept(found: Proposal, identity: str = "bow") -> dict[str, str]:
    lane = found.lane(identity)
    bank = found.bank(lane.bank)
    assert bank is not None
    assert lane.cable is not None
    return {
        "unit": lane.kept,
        "bank": bank.kept,
        "cable": lane.cable.kept,
        "fuse": lane.fuse.kept if lane.fuse is not None else "none",
    }


# ---- aboard, replaced, fixed


def test_what_is_aboard_and_passes_stays() -> None:
    found = proposal("7", {"choices.hold_probability": None})
    assert _kept(found)["unit"] == "aboard"
    assert _kept(found)["bank"] == "aboard"
    assert found.lane("bow").passes


def test_a_bank_aboard_that_is_too_small_goes_with_its_reason() -> None:
    weak = {"chemistry": "agm", "volts": "12 V", "capacity": "40 Ah", "series": 2, "parallel": 1}
    found = proposal("7", {"aboard.lanes.bow.bank": weak})
    assert _kept(found)["bank"] == "chosen"
    (reason,) = [text for text in found.lane("bow").replaced if text.startswith("bank aboard")]
    assert "against" in reason


def test_a_cable_aboard_that_is_too_thin_goes_with_its_reason() -> None:
    found = proposal("7", {"aboard.lanes.bow.cable": {"size": "16 mm2", "joints": 8}})
    assert _kept(found)["cable"] == "chosen"
    assert any(text.startswith("cable aboard") for text in found.lane("bow").replaced)


def test_a_unit_aboard_that_is_too_weak_goes_with_its_reason() -> None:
    found = proposal("7", {"aboard.lanes.bow.unit": {"row": "tunnel-24V-350N"}})
    lane = found.lane("bow")
    assert lane.kept == "chosen"
    assert lane.unit.id != "tunnel-24V-350N"
    assert any("unit tunnel-24V-350N aboard" in text for text in lane.replaced)


def test_what_is_fixed_stays_whatever_it_breaks() -> None:
    weak = {"chemistry": "agm", "volts": "12 V", "capacity": "40 Ah", "series": 2, "parallel": 1}
    fixed = {
        "unit": {"row": "tunnel-24V-350N"},
        "bank": weak,
        "cable": {"size": "16 mm2"},
        "fuse": {"rating": "100 A", "family": "marine strip"},
    }
    found = proposal("1", {"fixed.lanes.bow": fixed})
    assert _kept(found) == dict.fromkeys(("unit", "bank", "cable", "fuse"), "fixed")
    lane = found.lane("bow")
    assert (lane.unit.id, lane.passes) == ("tunnel-24V-350N", False)
    assert lane.cable is not None
    assert lane.cable.area == pytest.approx(16e-6)


def test_a_part_may_be_fixed_beside_others_that_are_aboard() -> None:
    found = proposal("7", {"aboard.lanes.bow.cable": None, "fixed.lanes.bow": {"cable": {"size": "120 mm2", "in_parallel": 2}}})
    assert _kept(found)["cable"] == "fixed"
    assert _kept(found)["unit"] in ("aboard", "chosen")


def test_a_row_aboard_that_the_catalogue_has_not_is_told_with_its_place() -> None:
    with pytest.raises(BriefError) as caught:
        propose(brief("7", {"aboard.lanes.bow.unit": {"row": "tunnel-24V-1550"}}), CATALOGUE)
    (mistake,) = caught.value.mistakes
    assert mistake.path == "lanes.bow.unit.row"
    assert "tunnel-24V-1550N" in mistake.message


# ---- check


def test_check_chooses_nothing() -> None:
    part = {
        "aboard.lanes.bow": {"unit": {"row": "tunnel-24V-1550N"}},
        "thrusters[1]": None,
        "bank[1]": None,
        "network.trunk[3]": None,
    }
    found = proposal(
        "7",
        part
        | {
            "aboard.lanes.bow.bank": {"row": "thin-12V-150Ah", "series": 2, "parallel": 1},
            "aboard.lanes.bow.cable": {"row": "70mm2-105C"},
        },
        "check",
    )
    lane = found.lane("bow")
    assert found.mode == "check"
    assert (lane.fuse, lane.switch, lane.stop) == (None, None, None)
    assert found.charging[0].kind == "none"
    assert found.rejections == ()
    assert "aboard" in (lane.kept, _kept(found)["bank"])


def test_check_without_a_unit_aboard_says_which_is_missing() -> None:
    with pytest.raises(BriefError) as caught:
        check(brief("1"), CATALOGUE)
    assert [mistake.path for mistake in caught.value.mistakes] == ["aboard.lanes.bow.unit.row"]


# ---- several units


def test_two_units_share_one_bank_and_both_are_judged_with_both_running() -> None:
    found = proposal("7", ONE_BANK)
    assert [bank.name for bank in found.banks] == ["common bank"]
    for lane in found.lanes:
        assert lane.bank == "common bank"
        assert lane.design is not None
        assert lane.both_design is not None
        assert lane.both_design.terminal_volts < lane.design.terminal_volts
        assert lane.both_design.thrust < lane.design.thrust
        assert lane.passes


def test_a_bank_for_two_is_larger_than_each_one_s_own() -> None:
    shared, apart = proposal("7", ONE_BANK), proposal("7", {"aboard": {}})
    assert shared.banks[0].capacity > max(bank.capacity for bank in apart.banks)


def _second_bow() -> dict[str, Any]:
    twin = {
        "identity": "bow two",
        "role": "bow",
        "place": "forepeak",
        "instance": 1,
        "tunnel": {
            "x": "11.6 m",
            "axis_depth": "0.52 m",
            "hull_below_axis": "0.33 m",
            "tunnel_length": "0.78 m",
            "entry_radius": "30 mm",
            "compartment_watertight": "yes",
        },
        "wanted": {"drives": ["brushed", "brushless"], "housings": ["tunnel"], "volts": ["24 V"], "diameter_most": "300 mm"},
    }
    return {
        "thrusters[1]": twin,
        "bank[1]": {"name": "second bow bank", "feeds": ["bow two"], "place": "bow locker", "volts": "24 V", "chemistries": LEAD},
        "network.trunk[3]": {"stop": "bow two", "length": "1 m", "drop": "0.5 m"},
    }


def test_two_bow_units_share_the_need() -> None:
    one, two = proposal("1"), proposal("1", _second_bow())
    alone = one.need.ruling("bow").worst
    first, second = (two.need.ruling(name).worst for name in ("bow", "bow two"))
    assert first < 0.7 * alone
    assert second < 0.7 * alone
    assert first + second == pytest.approx(alone, rel=0.1)


# ---- how much thrust


def test_a_higher_chance_of_holding_never_takes_less_thrust() -> None:
    thrusts = []
    for share in (None, "80 %", "90 %"):
        lane = proposal("1", {"choices.hold_probability": share}).lanes[0]
        assert lane.design is not None
        assert lane.chance is not None
        thrusts.append(lane.design.thrust)
        if share is not None:
            assert lane.chance >= float(share[:-2]) / 100 - 1e-3
    assert thrusts == sorted(thrusts)
    assert thrusts[-1] > thrusts[0]


def test_what_passes_reaches_the_wind_asked() -> None:
    for example in ("1", "2", "4", "7"):
        found = proposal(example)
        for lane in found.lanes:
            assert lane.passes
            assert lane.wind_held_worst is not None
            assert lane.wind_held_worst >= found.brief.wind.speed


# ---- preferences


@pytest.fixture(scope="module")
def preferred() -> dict[str, Proposal]:
    return {
        prefer: proposal("1", {"choices.prefer": prefer}) for prefer in ("smallest adequate", "lightest", "cheapest", "quietest")
    }


def _mass(found: Proposal) -> float:
    lane = found.lanes[0]
    assert lane.cable is not None
    return lane.score


def test_the_lightest_has_the_least_mass(preferred: dict[str, Proposal]) -> None:
    assert _mass(preferred["lightest"]) == min(_mass(found) for found in preferred.values())


def test_the_cheapest_has_the_least_price_of_unit_bank_and_cable(preferred: dict[str, Proposal]) -> None:
    def price(found: Proposal) -> float:
        lane, bank = found.lanes[0], found.banks[0]
        return lane.unit.price + bank.block.price * bank.blocks

    assert price(preferred["cheapest"]) == min(price(found) for found in preferred.values())


def test_the_quietest_has_the_least_noise(preferred: dict[str, Proposal]) -> None:
    noises = {name: found.lanes[0].unit.noise for name, found in preferred.items()}
    assert None not in noises.values()
    assert noises["quietest"] == min(noise for noise in noises.values() if noise is not None)


def test_the_smallest_adequate_has_no_more_thrust_than_the_others_by_a_step(preferred: dict[str, Proposal]) -> None:
    thrust = {
        name: int(found.lanes[0].design.thrust / 100) for name, found in preferred.items() if found.lanes[0].design is not None
    }
    assert thrust["smallest adequate"] == min(thrust.values())


def test_every_unit_not_taken_keeps_its_reason() -> None:
    found = proposal("1")
    assert {entry.row for entry in found.rejections} | {found.lanes[0].unit.id} == {row.id for row in CATALOGUE.units}
    assert all(entry.rule and entry.figure and entry.limit for entry in found.rejections)


# ---- nothing passes


def test_a_catalogue_without_a_unit_that_passes_still_answers() -> None:
    found = propose(brief("1"), only_units("tunnel-24V-350N", "tunnel-24V-600N"))
    lane = found.lanes[0]
    assert not lane.passes
    assert lane.design is not None
    assert None not in (lane.switch, lane.stop, lane.cable)
    assert found.answers[0].verdict == "no"
    assert any(finding.code == "NEED-01" and finding.severity == "stop" for finding in found.findings)
    assert {entry.row for entry in found.rejections} == {"tunnel-24V-350N", "tunnel-24V-600N"}


def test_a_catalogue_of_refused_kinds_still_answers() -> None:
    found = propose(brief("1"), where(lambda row: row.housing == "external"))
    assert not found.lanes[0].passes
    assert all(entry.rule.startswith(("housing", "voltage", "a tunnel")) for entry in found.rejections)


def test_without_a_block_of_the_volts_nothing_passes_and_it_is_said() -> None:
    from athwart.errors import NotComputed

    bare = replace(CATALOGUE, blocks=tuple(row for row in CATALOGUE.blocks if row.volts > 40))
    with pytest.raises(NotComputed, match="bank"):
        propose(brief("1"), bare)


# ---- rule sets, overrides


def test_the_us_rule_set_takes_awg_sizes_everywhere_in_the_lane() -> None:
    found = proposal("1", {"choices.rule_set": "us"})
    lane = found.lanes[0]
    assert lane.cable is not None
    assert "AWG" in lane.cable.cable.gauge
    assert "AWG" in found.banks[0].link.gauge
    assert found.charging[0].cable is not None
    assert "AWG" in found.charging[0].cable.gauge


def test_an_override_lets_a_shallow_tunnel_in_and_is_shown() -> None:
    shallow = {"thrusters[0].tunnel.axis_depth": "0.24 m", "choices.hold_probability": None, "wind.speed": "9 kn"}
    override = {"choices.overrides": [{"finding": "TUNNEL-01", "reason": "Owner accepts sucked air when she is light."}]}
    one = only_units("tunnel-24V-1550N")
    without, having = propose(brief("1", shallow), one), propose(brief("1", shallow | override), one)
    assert [entry.rule for entry in without.rejections] == ["cover over the tunnel roof at the lightest waterline"]
    assert not without.lanes[0].passes
    assert having.lanes[0].passes
    assert having.lanes[0].cover_ratio < 0.5


def test_the_same_rows_come_out_of_the_catalogue_in_any_order() -> None:
    turned = replace(
        CATALOGUE,
        units=tuple(reversed(CATALOGUE.units)),
        cables=tuple(reversed(CATALOGUE.cables)),
        blocks=tuple(reversed(CATALOGUE.blocks)),
        fuses=tuple(reversed(CATALOGUE.fuses)),
    )
    a, b = proposal("1").lanes[0], propose(brief("1"), turned).lanes[0]
    assert a.unit == b.unit
    assert a.design == b.design
    assert a.cable == b.cable


def test_parts_named_by_row_are_those_rows() -> None:
    found = proposal("1", {"fixed.lanes.bow": {"cable": {"row": "150mm2-105C"}, "unit": {"row": "tunnel-24V-1800N"}}})
    lane = found.lanes[0]
    assert lane.unit is unit("tunnel-24V-1800N") or lane.unit == unit("tunnel-24V-1800N")
    assert lane.cable is not None
    assert lane.cable.cable == cable("150mm2-105C")
