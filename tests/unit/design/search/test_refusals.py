"""Each rule that needs no circuit refuses once and lets pass once; the first that refuses is the reason kept."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from athwart.catalogue.records import ThrusterUnit
from athwart.design.search import refusals
from tests.unit.design.checks._boats import brief
from tests.unit.design.search._tasks import unit

PLAIN = "tunnel-24V-1550N"
PETROL = {
    "boat.petrol_aboard": "engine",
    "propulsion.engines[0].fuel": "petrol",
    "layout.places[0].petrol_space": "yes",
}
NO_TUNNEL: dict[str, Any] = {"thrusters[0].tunnel.tunnel_length": None, "thrusters[0].wanted": {}}


def _rule(row: ThrusterUnit, changes: dict[str, Any], drop: float = 0.04) -> str | None:
    boat = brief("1", changes)
    found = refusals.refusal(row, refusals.Setting(boat, boat.thruster("bow"), drop))
    return None if found is None else found[0]


CASES: tuple[tuple[str, str, dict[str, Any], dict[str, Any]], ...] = (
    ("drive not among those wanted", PLAIN, {"thrusters[0].wanted.drives": ["brushless"]}, {}),
    ("housing not among those wanted", PLAIN, {"thrusters[0].wanted.housings": ["rim"]}, {}),
    ("control not among those wanted", PLAIN, {"thrusters[0].wanted.controls": ["proportional"]}, {}),
    ("voltage not among those wanted", PLAIN, {"thrusters[0].wanted.volts": ["48 V"]}, {}),
    ("a tunnel is described", "retract-24V-1600N", {"thrusters[0].wanted": {}}, NO_TUNNEL),
    ("no tunnel length is given", PLAIN, NO_TUNNEL, {}),
    (
        "no engine with a take-off",
        "tunnel-hyd-2000N",
        {"thrusters[0].wanted": {}, "bank": []},
        {
            "thrusters[0].wanted": {},
            "bank": [],
            "propulsion.engines[0].take_off": {"name": "front"},
            "thrusters[0].tunnel.axis_depth": "0.8 m",
            "thrusters[0].tunnel.hull_below_axis": "0.5 m",
        },
    ),
    ("the bank asked for has another voltage", PLAIN, {"bank[0].volts": "48 V"}, {}),
    (
        "petrol vapour may reach its place",
        PLAIN,
        PETROL,
        {"boat.petrol_aboard": "engine", "propulsion.engines[0].fuel": "petrol"},
    ),
    (
        "the boat dries out",
        "pod-24V-750N",
        NO_TUNNEL | {"duty.dries_out": "yes"},
        NO_TUNNEL,
    ),
    ("speed under way for an external pod", "pod-24V-750N", NO_TUNNEL | {"duty.speed_under_way": "20 kn"}, NO_TUNNEL),
    ("runs out of time", PLAIN, {"duty.longest_hold": "10 min"}, {}),
    ("duty: full-thrust time", PLAIN, {"duty.bursts_per_docking": 200}, {}),
    ("noise", PLAIN, {"duty.noise_most": "50 dBA"}, {"duty.noise_most": "95 dBA"}),
    ("quiet running asked", PLAIN, {"duty.quiet": "yes"}, {}),
    ("diameter", PLAIN, {"thrusters[0].wanted.diameter_most": "150 mm"}, {}),
    ("hull below the tunnel axis", PLAIN, {"thrusters[0].tunnel.hull_below_axis": "0.10 m"}, {}),
    ("cover over the tunnel roof", PLAIN, {"thrusters[0].tunnel.axis_depth": "0.22 m"}, {}),
    ("tunnel too short", PLAIN, {"thrusters[0].tunnel.tunnel_length": "0.15 m"}, {}),
    ("tunnel too long", PLAIN, {"thrusters[0].tunnel.tunnel_length": "4 m"}, {}),
    (
        "height of the retracting box",
        "retract-24V-1600N",
        NO_TUNNEL | {"thrusters[0].tunnel.height_above_waterline_for_box": "0.1 m"},
        NO_TUNNEL | {"thrusters[0].tunnel.height_above_waterline_for_box": "2 m"},
    ),
    (
        "length of the retracting box",
        "retract-24V-1600N",
        NO_TUNNEL | {"thrusters[0].tunnel.box_length_most": "0.2 m"},
        NO_TUNNEL | {"thrusters[0].tunnel.box_length_most": "3 m"},
    ),
    ("does not go into the space", PLAIN, {"layout.places[0].space.height": "0.2 m"}, {}),
    ("mass", PLAIN, {"thrusters[0].wanted.mass_most": "10 kg"}, {"thrusters[0].wanted.mass_most": "90 kg"}),
    ("price", PLAIN, {"thrusters[0].wanted.price_most": 100}, {"thrusters[0].wanted.price_most": 9000}),
)


@pytest.mark.parametrize(("rule", "row", "refusing", "passing"), CASES, ids=[case[0] for case in CASES])
def test_each_rule_refuses_once_and_passes_once(rule: str, row: str, refusing: dict[str, Any], passing: dict[str, Any]) -> None:
    found = _rule(unit(row), refusing)
    assert found is not None
    assert found.startswith(rule)
    other = _rule(unit(row), passing)
    assert other is None or not other.startswith(rule)


def test_a_unit_that_suits_is_refused_by_nothing() -> None:
    assert _rule(unit(PLAIN), {}) is None


def test_every_rule_of_the_program_is_among_the_cases() -> None:
    rules = {rule.__name__ for rule in refusals.RULES}
    assert len(rules) == 11
    seen = set()
    for _, row, refusing, _ in CASES:
        boat = brief("1", refusing)
        setting = refusals.Setting(boat, boat.thruster("bow"), 0.04)
        first = next(rule for rule in refusals.RULES if rule(unit(row), setting) is not None)
        seen.add(first.__name__)
    assert seen == rules


def test_an_unknown_noise_is_refused_where_a_limit_is_asked() -> None:
    silent = replace(unit(PLAIN), noise=None)
    assert _rule(silent, {"duty.noise_most": "95 dBA"}) == "noise limit asked and the unit's noise is unknown"


def test_an_ignition_protected_unit_may_stand_in_petrol_vapour() -> None:
    assert _rule(unit("tunnel-24V-1550N-ip"), PETROL) is None


def test_a_hire_fleet_counts_three_times_the_bursts() -> None:
    allowed = unit(PLAIN).minutes_in_hour
    assert allowed is not None
    bursts = int(allowed / 5.0 * 0.6)
    assert _rule(unit(PLAIN), {"duty.bursts_per_docking": bursts}) is None
    found = _rule(unit(PLAIN), {"duty.bursts_per_docking": bursts, "duty.users": "hire fleet"})
    assert found is not None
    assert found.startswith("duty")


def test_a_lower_waterline_takes_cover_away() -> None:
    assert _rule(unit(PLAIN), {}, drop=0.0) is None
    found = _rule(unit(PLAIN), {}, drop=0.35)
    assert found is not None
    assert found.startswith("cover")


def test_an_override_with_a_reason_lets_a_thin_cover_pass() -> None:
    reason = "Owner accepts suction of air in the lightest state."
    changes = {"thrusters[0].tunnel.axis_depth": "0.22 m", "choices.overrides": [{"finding": "TUNNEL-01", "reason": reason}]}
    assert _rule(unit(PLAIN), changes) is None


def test_a_refusal_says_by_how_much() -> None:
    boat = brief("1", {"thrusters[0].wanted.mass_most": "10 kg"})
    found = refusals.refusal(unit(PLAIN), refusals.Setting(boat, boat.thruster("bow"), 0.04))
    assert found is not None
    _, figure, limit, margin = found
    assert (figure, limit) == (f"{unit(PLAIN).mass:.0f} kg", "10 kg")
    assert margin == pytest.approx((10.0 - unit(PLAIN).mass) / 10.0)
