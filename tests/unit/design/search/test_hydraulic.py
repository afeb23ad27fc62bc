"""Hydraulic units: judged by engine, pump, flow at idle and pressure; never called adequate by thrust."""

from __future__ import annotations

from math import pi
from typing import Any

import pytest

from athwart.design.search import hydraulic
from tests.unit.design.checks._boats import brief, proposal
from tests.unit.design.search._tasks import CATALOGUE, task, unit

TAKE_OFF: dict[str, Any] = {"propulsion.engines[0].take_off": {"name": "front", "ratio": 1.5}}
HYDRAULIC = TAKE_OFF | {
    "thrusters[0].wanted.drives": ["hydraulic"],
    "thrusters[0].wanted.volts": [],
    "thrusters[0].wanted.diameter_most": None,
}
UNIT = unit("tunnel-hyd-2000N")


def _limit(changes: dict[str, Any], starts: str) -> tuple[str, float, float, bool]:
    return next(limit for limit in hydraulic.limits(brief("1", changes), UNIT, CATALOGUE) if limit[0].startswith(starts))


def test_no_engine_with_a_take_off_is_the_first_thing_said() -> None:
    (limit,) = hydraulic.limits(brief("1"), UNIT, CATALOGUE)
    assert limit[0] == "engine with a take-off for a pump"
    assert not limit[3]


def test_flow_at_idle_is_displacement_times_speed_times_efficiency() -> None:
    boat = brief("1", TAKE_OFF)
    engine = hydraulic.engine_with_take_off(boat)
    assert engine is not None
    pump, flow = hydraulic.pump_for(CATALOGUE, engine, UNIT)
    assert pump is not None
    turns = 750 / 60 * 1.5
    cubic_metres_a_turn = pump.displacement * 2 * pi
    assert flow == pytest.approx(cubic_metres_a_turn * turns * pump.volumetric_efficiency)


def test_the_smallest_pump_that_gives_the_flow_at_idle_is_taken() -> None:
    slow, fast = (brief("1", TAKE_OFF | {"propulsion.engines[0].take_off.ratio": ratio}) for ratio in (1.2, 2.5))
    pumps = []
    for boat in (slow, fast):
        engine = hydraulic.engine_with_take_off(boat)
        assert engine is not None
        pump, flow = hydraulic.pump_for(CATALOGUE, engine, UNIT)
        assert pump is not None
        assert UNIT.hydraulic_flow is not None
        assert flow >= UNIT.hydraulic_flow
        pumps.append(pump)
    assert pumps[0].displacement > pumps[1].displacement


def test_too_slow_an_idle_falls_short() -> None:
    assert _limit(TAKE_OFF | {"propulsion.engines[0].take_off.ratio": 2.0}, "flow at idle")[3]
    assert not _limit(TAKE_OFF | {"propulsion.engines[0].take_off.ratio": 0.2}, "flow at idle")[3]


def test_a_unit_with_more_pressure_than_any_pump_is_told_so() -> None:
    from dataclasses import replace

    strong = replace(UNIT, hydraulic_pressure=400e5)
    found = {limit[0]: limit[3] for limit in hydraulic.limits(brief("1", TAKE_OFF), strong, CATALOGUE)}
    assert not found["pressure, bar"]


def test_what_is_not_computed_is_said_and_never_passes() -> None:
    judged = hydraulic.judge(task("1", TAKE_OFF), UNIT)
    assert judged.broken[-1][0] == hydraulic.NOT_COMPUTED
    assert not judged.adequate
    assert (judged.thrust, judged.bank) == (0.0, None)


def test_a_proposal_of_a_hydraulic_unit_claims_no_thrust() -> None:
    found = proposal("1", HYDRAULIC | {"bank": []})
    lane = found.lanes[0]
    assert lane.unit.drive == "hydraulic"
    assert not lane.passes
    assert lane.not_computed
    assert (lane.design, lane.wind_held_worst, lane.chance) == (None, None, None)
    assert {limit[0] for limit in lane.hydraulic} == {"flow at idle, l/min", "pressure, bar"}
    assert found.answers[0].verdict == "not computed yet"
