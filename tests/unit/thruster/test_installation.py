"""Laminate, box, batteries, petrol vapour, interlocks."""

from __future__ import annotations

from itertools import product

import pytest

from athwart.sources import register
from athwart.thruster.ignition import PARTS, ChainPart, Separation, bulkhead_water, ignition_sources, is_isolated, part_kind
from athwart.thruster.installation import (
    TUNNEL_STEPS,
    battery_pull,
    box_freeboard,
    box_verdict,
    end_radius,
    exceeds_lowered_speed,
    length_verdict,
    shell_in_way,
    taper_width,
    tunnel_steps,
)
from athwart.thruster.interlock import INTERLOCK, MOTIONS, PROVIDES, STATES, WHY, missing_interlocks, permission, state_of


def test_length_is_judged_in_diameters() -> None:
    assert [length_verdict(ratio * 0.2, 0.2) for ratio in (1.99, 2.0, 4.0, 6.5, 6.6)] == [
        "short",
        "good",
        "good",
        "long",
        "loses thrust",
    ]


def test_steps_of_a_tunnel_follow_the_hull_material_and_name_known_sources() -> None:
    assert {step.source for step in TUNNEL_STEPS} <= set(register())
    assert {step.material for step in tunnel_steps("aluminium")} == {"any", "metal"}
    assert {step.material for step in tunnel_steps("wood")} == {"any", "grp"}


def test_the_taper_is_wide_for_a_thick_skin() -> None:
    assert taper_width(0.020) == pytest.approx(0.24)
    assert taper_width(0.004) == 0.1
    assert shell_in_way(0.008) == pytest.approx(0.012)
    assert end_radius(0.185) == pytest.approx(0.0185)


def test_a_box_is_judged_over_the_loaded_waterline() -> None:
    assert box_verdict(box_freeboard(1.10, 1.20)) == "stop"
    assert box_verdict(0.0) == "stop"
    assert box_verdict(0.099) == "caution"
    assert box_verdict(0.1) == ""


def test_speed_with_the_unit_down_is_too_much_where_no_limit_is_stated() -> None:
    assert exceeds_lowered_speed(2.0, None)
    assert exceeds_lowered_speed(2.0, 1.5)
    assert not exceeds_lowered_speed(1.5, 1.5)


def test_a_light_battery_is_pulled_by_twice_its_weight() -> None:
    assert battery_pull(15.0) == pytest.approx(2 * 15.0 * 9.80665)
    assert battery_pull(60.0) == battery_pull(80.0)


def test_the_whole_chain_is_judged_where_vapour_may_be() -> None:
    chain = [
        ChainPart("M1.1", "brushed motor", "lazarette", True),
        ChainPart("K1.1", "contactor", "lazarette", False),
        ChainPart("F1.1", "fuse", "lazarette", None),
        ChainPart("W1.1", "cable", "lazarette", None),
        ChainPart("S1.1", "main switch", "cabin", False),
    ]
    assert [part.tag for part in ignition_sources(chain, frozenset({"lazarette"}))] == ["K1.1", "F1.1"]
    assert ignition_sources(chain, frozenset()) == ()
    with pytest.raises(ValueError, match="contactor"):
        part_kind("anchor")
    assert not PARTS["hydraulic motor"].source


@pytest.mark.parametrize(
    ("separation", "isolated"),
    [
        (Separation(), False),
        (Separation(tight_bulkhead=True), True),
        (Separation(deck_between=True), True),
        (Separation(deck_between=True, part_above=False), False),
        (Separation(deck_between=True, part_above=False, liquid_and_vapour_kept_out=True), True),
        (Separation(open_distance=0.60), False),
        (Separation(open_distance=0.61), True),
    ],
)
def test_what_isolates_a_part_from_petrol(separation: Separation, isolated: bool) -> None:
    assert is_isolated(separation) is isolated


def test_a_low_bulkhead_holds_a_third_of_its_height() -> None:
    assert bulkhead_water(0.3) == pytest.approx(0.1)
    assert bulkhead_water(3.0) == 0.3048


def test_two_sensors_tell_four_states() -> None:
    assert {state_of(up, down) for up, down in product((True, False), repeat=2)} == set(STATES)


def test_the_propeller_runs_only_when_lowered() -> None:
    everything = set(WHY)
    assert [state for state in STATES if permission(state, "run", everything).allowed] == ["lowered"]


def test_nothing_moves_by_itself_when_the_sensors_contradict() -> None:
    for motion in ("lower", "raise", "run"):
        found = permission("sensor fault", motion, set(WHY))
        assert not found.allowed
        assert "by hand" in found.because


def test_every_raise_and_lower_asks_for_a_stopped_drive() -> None:
    for (_, motion), guards in INTERLOCK.items():
        assert motion not in ("raise", "lower") or "drive stopped" in guards
        assert motion in MOTIONS


def test_what_is_lacking_is_named_with_its_reason() -> None:
    found = permission("lowered", "make way", {"speed below limit"})
    assert found.lacking == ("engine not astern",)
    assert "chain" in found.because


def test_interlocks_fitted_and_missing() -> None:
    assert missing_interlocks(PROVIDES) == ()
    assert missing_interlocks([]) == tuple(PROVIDES)
    with pytest.raises(ValueError, match="speed limit"):
        missing_interlocks(["horn"])
