"""Motion in time: rest stays rest, motion dies down, drift and turning end where the balances say, and the driver's habits."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import cos, pi, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from athwart.plant.motion import Conditions, Driver, Manoeuvre, Motion, Outcome, Pusher, Water, simulate
from athwart.vessel.steady import moving, pivot_of, turning
from tests.unit.plant._boats import LOSSES, STILL, boat, bow, gusty, hull, steady_wind, stern

FREE = Manoeuvre("free", "stay", 600.0)
NOBODY = Driver("bang-bang", dead_band=1e9)
HAND, LEVER = Driver("bang-bang", look_ahead=3.0), Driver("proportional")
CALM = steady_wind(1e-9, 0.0)


def last(out: Outcome) -> Motion:
    return out.track[-1].motion


def test_a_boat_at_rest_in_a_calm_stays_there() -> None:
    end = last(simulate(boat(STILL), FREE, CALM, NOBODY, every=10))
    assert max(abs(value) for value in end) < 1e-9


@given(u=st.floats(-1.5, 1.5), v=st.floats(-1.0, 1.0), r=st.floats(-0.3, 0.3))
def test_the_water_only_takes_energy(u: float, v: float, r: float) -> None:
    """All of it: cross flow, damping, resistance, and the Munk moment of which a stern keeps only six tenths."""
    h = hull()
    m = h.inertia
    du, dv, dr = Water(h).accelerations((u, v, r), 0.0, 0.0, 0.0)
    power = (
        m.surge * u * du + m.sway * v * dv + m.turning * r * dr + m.cross * (v * dr + r * dv)
    )  # d/dt of half the sum of mass times speed squared
    assert power <= 1e-6


def test_a_drift_dies_down() -> None:
    track = simulate(boat(STILL), FREE, CALM, NOBODY, Conditions(sway=0.8), every=100).track
    speeds = [abs(s.motion.sway) for s in track]
    assert all(b < a for a, b in pairwise(speeds))
    assert speeds[-1] < 0.01


@pytest.mark.parametrize("angle", [40.0, 90.0, 140.0])
def test_held_on_her_heading_she_drifts_as_the_balance_says(angle: float) -> None:
    """A strong unit with a fine hand: steady sway, surge and mean thrust are those of case A."""
    strong = bow(20_000.0, control="proportional", lag=0.0)
    b = boat(first=strong)
    driver = Driver("proportional", delay=0.0, gain=1.0, gain_rate=2.0)
    out = simulate(b, FREE, steady_wind(6.0, radians(angle)), driver, every=10)
    end, want = out.track[-1], moving(b.hull, b.wind, 6.0, radians(angle), strong.place)
    assert end.motion.surge == pytest.approx(want.surge, abs=0.01)
    assert end.motion.sway == pytest.approx(want.sway, abs=0.01)
    left = strong.moment_left(end.motion.surge)
    assert end.bow_thrust * (1.0 - 0.7 * (1.0 - left)) == pytest.approx(want.thrust, rel=0.12)


def test_a_steady_push_ends_in_the_pivot_of_the_balance() -> None:
    pushing = Driver("proportional", delay=0.0, gain=-1.0, gain_rate=0.0)  # runs away to full command, as meant here
    unit = replace(bow(800.0, control="proportional", lag=0.0), losses=(1.0, 1.0))
    out = simulate(boat(STILL, first=unit), replace(FREE, heading=0.3), CALM, pushing, every=10)
    want = turning(hull(), unit.place, 800.0)
    end = last(out)
    assert end.yaw_rate == pytest.approx(want.yaw_rate, rel=0.1)
    assert -end.sway / end.yaw_rate / 12.8 == pytest.approx(pivot_of(want) / 12.8, abs=0.06)


@settings(max_examples=20, deadline=None)
@given(angle=st.floats(0.2, 3.0), speed=st.floats(2.0, 9.0), kind=st.sampled_from(("bang-bang", "proportional")))
def test_mirrored_wind_gives_the_mirrored_run(angle: float, speed: float, kind: str) -> None:
    driver = HAND if kind == "bang-bang" else LEVER
    task = replace(FREE, duration=40.0)
    one, two = (
        simulate(boat(second=stern()), task, steady_wind(speed, side * angle), driver, every=50).track for side in (1.0, -1.0)
    )
    for a, b in zip(one, two, strict=True):
        assert a.motion.x == pytest.approx(b.motion.x, abs=1e-6)
        assert a.motion.y == pytest.approx(-b.motion.y, abs=1e-6)
        assert a.motion.heading == pytest.approx(-b.motion.heading, abs=1e-6)
        assert a.bow_thrust == pytest.approx(-b.bow_thrust, abs=1e-6)


def test_a_current_carries_the_free_boat_with_it() -> None:
    end = last(simulate(boat(STILL), replace(FREE, duration=100.0), CALM, NOBODY, Conditions(0.3, -0.2), every=1))
    assert (end.x, end.y) == pytest.approx((30.0, -20.0), rel=0.01)


# ---- units and levers


@pytest.mark.parametrize(
    ("control", "wish", "lever"),
    [
        ("on/off", 0.49, 0.0), ("on/off", -0.5, -1.0), ("stepped", 0.4, 1 / 3), ("stepped", -0.95, -1.0),
        ("proportional", 0.4, 0.4), ("proportional", 7.0, 1.0),
    ],
)  # fmt: skip
def test_what_a_lever_can_say(control: str, wish: float, lever: float) -> None:
    assert bow(control=control).commanded(wish) == pytest.approx(lever)


def test_a_unit_comes_up_with_its_lag_and_waits_before_it_turns_round() -> None:
    """From a heading far off: full push, then the other way round."""
    unit = bow(1400.0, lag=0.5)
    out = simulate(boat(STILL, first=unit), replace(FREE, duration=60.0, heading=1.2), CALM, replace(HAND, delay=0.0), every=1)
    thrusts = [s.bow_thrust for s in out.track]
    assert thrusts[5] == pytest.approx(-1400.0 * (1 - 2.718281828 ** (-0.6 / 0.5)), rel=1e-6)
    turn = next(k for k, s in enumerate(out.track) if s.bow_command > 0.0)
    crossing = next(k for k in range(turn, len(thrusts)) if thrusts[k] > 0.0)
    assert (crossing - turn) * 0.1 >= 0.4


def test_the_driver_acts_late_and_first_to_the_wrong_side() -> None:
    task = replace(FREE, duration=10.0, heading=0.6)
    late = simulate(boat(STILL), task, CALM, replace(HAND, delay=1.2, wrong_side=0.8), every=1).track
    first = next(s for s in late if s.bow_command != 0.0)
    assert first.time == pytest.approx(1.2)
    assert first.bow_command == 1.0
    assert next(s for s in late if s.bow_command < 0.0).time == pytest.approx(2.0)


def test_the_door_is_asked_with_state_command_and_time() -> None:
    """Another model behind the door: a unit that fades in ten seconds."""

    class Fading:
        def __init__(self) -> None:
            self.asked: list[tuple[float, float]] = []

        def available_thrust(self, state: Motion, command: float, time: float) -> float:
            self.asked.append((command, time))
            assert len(state) == 6
            return command * 1000.0 * max(0.0, 1.0 - time / 10.0)

    door = Fading()
    unit = Pusher(5.2, door, 6.0, 0.0, 0.5, "on/off", losses=LOSSES)
    out = simulate(boat(STILL, first=unit), replace(FREE, duration=20.0, heading=2.5), CALM, HAND, every=1)
    assert max(abs(s.bow_thrust) for s in out.track if s.time < 3.0) > 800.0
    assert all(s.bow_thrust == 0.0 for s in out.track if s.time > 10.0)
    assert door.asked[-1][1] == pytest.approx(19.9)


def test_forward_speed_takes_more_of_the_moment_than_of_the_force() -> None:
    unit = bow()
    assert unit.moment_left(0.0) == 1.0
    assert 0.6 < unit.moment_left(1.2) < 0.75
    assert replace(unit, pod=True).moment_left(1.2) > unit.moment_left(1.2)
    assert unit.moment_left(100.0) == pytest.approx(1.0)


# ---- lines, quay, way


def test_lines_hold_the_stern_and_a_fender_never_pulls() -> None:
    tied = Manoeuvre("tied", "stay", 60.0, line_place=-6.4, line_stiffness=17_000.0, line_damping=16_000.0)
    out = simulate(boat(), tied, steady_wind(6.0, pi / 2), NOBODY, every=10)
    for s in out.track:
        m = s.motion
        assert abs(m.x - 6.4 * cos(m.heading) + 6.4) < 1.0
        assert abs(m.y - 6.4 * sin(m.heading)) < 1.0
    quay = Manoeuvre("quay", "stay", 60.0, bow_end=6.4, stern_end=-6.4, fender=30_000.0)
    pressed = last(simulate(boat(), quay, steady_wind(9.0, -pi / 2), NOBODY, every=10))
    away = last(simulate(boat(), quay, steady_wind(9.0, pi / 2), NOBODY, every=10))
    open_water = last(simulate(boat(), replace(quay, fender=0.0), steady_wind(9.0, pi / 2), NOBODY, every=10))
    assert 0.0 < pressed.y < 0.15
    assert away == open_water


@pytest.mark.parametrize(
    ("changes", "cause"),
    [
        ({}, "none"),
        ({"first": bow(100.0)}, "thrust"),
        ({"first": replace(bow(), run_time=2.0)}, "heat"),
        ({"charge": 500.0}, "volts"),
    ],
)
def test_why_a_run_fails(changes: dict[str, object], cause: str) -> None:
    task = Manoeuvre("hold", "stay", 90.0, limit_heading=0.3, grace=3.0, line_place=-6.4, line_stiffness=17e3, line_damping=16e3)
    b = boat(first=changes.get("first"))  # type: ignore[arg-type]
    out = simulate(replace(b, charge=changes.get("charge", b.charge)), task, gusty(7.0, pi / 2), HAND)  # type: ignore[arg-type]
    assert out.cause == cause
    assert out.success is (cause == "none")


def test_too_little_room_for_a_slow_hand_is_room() -> None:
    task = Manoeuvre("hold", "stay", 90.0, limit_heading=0.02, grace=3.0)
    out = simulate(boat(first=bow(6000.0)), task, gusty(7.0, pi / 2), replace(HAND, delay=2.0))
    assert (out.success, out.cause) == (False, "room")


def test_a_way_is_travelled_and_a_goal_kept_for_a_second() -> None:
    way = Manoeuvre("way", "travel", 60.0, speed=1.0, way=20.0, engine_most=3000.0, engine_gain=8000.0)
    out = simulate(boat(STILL), way, CALM, HAND)
    assert out.success
    assert out.ended == pytest.approx(20.0, abs=1.0)
    assert not simulate(boat(STILL), replace(way, duration=10.0), CALM, HAND).success
    turn = Manoeuvre("turn", "arrive", 90.0, heading=-1.5, goal_heading=0.1, goal_rate=0.03)
    out = simulate(boat(STILL, first=bow(2000.0, control="proportional")), turn, CALM, LEVER)
    assert out.success
    assert abs(out.end_heading) <= 0.1


def test_both_banks_are_counted_apart() -> None:
    task = Manoeuvre("turn", "arrive", 60.0, heading=-1.5, goal_heading=0.05)
    together = simulate(boat(STILL, second=stern()), task, CALM, HAND)
    apart = simulate(replace(boat(STILL, second=stern()), charge_aft=1e9), task, CALM, HAND)
    assert together.charge == pytest.approx(apart.charge + apart.charge_aft)
    assert apart.charge == pytest.approx(400.0 * apart.bow_on)
    assert not simulate(replace(boat(STILL, second=stern()), charge_aft=100.0), task, CALM, HAND).success


def test_a_run_is_the_same_twice() -> None:
    runs = [simulate(boat(second=stern()), FREE, gusty(7.0, 1.0), HAND, every=10) for _ in range(2)]
    assert runs[0] == runs[1]
