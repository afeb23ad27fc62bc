"""The control line: feed by preference, terminators at the ends, what changes when a stern unit joins."""

from __future__ import annotations

from typing import Any

import pytest

from athwart.design.proposal import NetworkChoice
from tests.unit.design.checks._boats import Mode, proposal

STERN_AS_FOUND = {"aboard.lanes.stern": {"unit": {"row": "tunnel-24V-1000N"}}}


def _line(example: str = "1", changes: dict[str, Any] | None = None, mode: Mode = "propose") -> NetworkChoice:
    found = proposal(example, changes, mode).network
    assert found is not None
    return found


NO_HOUSE: dict[str, Any] = {
    "supply.batteries[0]": None,
    "supply.alternators[0].charges": "starter battery",
    "supply.shore_charger.charges": "starter battery",
    "supply.path_devices": [],
}


def test_the_ship_s_house_battery_is_the_first_choice_of_feed() -> None:
    assert _line().feed == "ship bank"


def test_without_a_house_battery_a_converter_over_the_bank_feeds() -> None:
    found = _line("1", NO_HOUSE)
    assert found.feed == "converter"
    assert found.converter_row is not None


def test_the_brief_may_ask_for_the_lower_block_and_sees_its_share() -> None:
    found = _line("1", {"network.feed": "lower block"})
    assert found.feed == "lower block"
    assert found.mid_tap_share is not None
    assert found.mid_tap_share == pytest.approx(found.load * 6 * 3600 / (150 * 3600), rel=0.3)


def test_a_feed_from_a_block_sags_with_the_bank() -> None:
    ship, lower = _line(), _line("1", {"network.feed": "lower block"})
    assert min(stop.volts_sag for stop in lower.stops) < min(stop.volts_sag for stop in ship.stops)


@pytest.mark.parametrize("fed", ["upper block", "lower block", "engine start", "ship bank"])
def test_check_shows_the_feed_that_is_aboard(fed: str) -> None:
    assert _line("7", STERN_AS_FOUND | {"aboard.network.fed_from": fed}, "check").feed == fed


def test_check_takes_a_whole_bank_through_a_converter() -> None:
    assert _line("7", STERN_AS_FOUND | {"aboard.network.fed_from": "thruster bank"}, "check").feed == "converter"


def test_there_are_two_terminators_at_the_two_ends() -> None:
    for example in ("1", "2", "4", "7"):
        found = _line(example)
        ends = (min(found.stops, key=lambda s: s.at).name, max(found.stops, key=lambda s: s.at).name)
        assert found.terminators == ends
        assert found.resistance_power_off == pytest.approx(60.0, abs=2.0)


def test_every_node_keeps_its_volts_at_rest_and_at_the_deepest_sag() -> None:
    found = _line("7")
    assert all(stop.volts_rest > stop.volts_sag >= 9.0 for stop in found.stops)


def test_a_thinner_or_longer_line_lowers_the_far_node() -> None:
    short, long = _line(), _line("1", {"network.trunk[2].length": "60 m", "network.feed_length": "12 m"})
    assert min(s.volts_rest for s in long.stops) < min(s.volts_rest for s in short.stops)


def test_a_stern_unit_moves_the_terminator_and_is_listed() -> None:
    found = _line("7")
    says = " ".join(found.changes)
    assert "terminator from fly bridge to stern" in says
    assert "stern" in says
    assert [stop.name for stop in found.stops if stop.is_new] == ["stern"]


def test_a_line_that_stays_as_it_is_has_no_changes() -> None:
    one_unit = {
        "thrusters[1]": None,
        "bank[1]": None,
        "network.trunk[3]": None,
    }
    assert _line("7", one_unit).changes == ()


def test_faults_of_the_line_aboard_are_mended_in_propose_and_shown_in_check() -> None:
    wrong = {
        "aboard.network.terminators_at": ["bow", "wheelhouse", "fly bridge"],
        "aboard.network.feed_at": ["bow", "wheelhouse"],
    }
    as_found = _line("7", STERN_AS_FOUND | wrong, "check")
    assert len(as_found.terminators) == 3
    assert as_found.resistance_power_off < 45.0
    mended = _line("7", wrong)
    assert len(mended.terminators) == 2
    assert any("feed" in change.lower() for change in mended.changes)


def test_no_unit_helm_or_node_is_no_line() -> None:
    found = proposal("1", {"network.trunk": [{"stop": "bow", "length": "0 m"}, {"stop": "wheelhouse", "length": "8 m"}]})
    assert found.network is not None
    assert [stop.name for stop in found.network.stops] == ["bow", "wheelhouse"]


def test_units_have_identities_of_their_own() -> None:
    identities = [stop.instance for stop in _line("7").stops if stop.name in ("bow", "stern")]
    assert sorted(identities) == [0, 1]  # type: ignore[type-var]


def test_a_unit_without_an_identity_gets_a_free_one() -> None:
    found = _line("7", {"thrusters[1].instance": None})
    identities = {stop.name: stop.instance for stop in found.stops if stop.name in ("bow", "stern")}
    assert identities["bow"] == 0
    assert identities["stern"] not in (None, 0)
