"""Motors: defaults are named, impossible figures refused, a standing motor is a resistance."""

from __future__ import annotations

import pytest

from athwart.errors import NotComputed
from athwart.power.motor import (
    at_temperature,
    brushed_load,
    brushed_motor,
    brushed_speed,
    run_brushed,
    run_series,
    series_motor,
    series_speed,
    stalled_current,
)


def test_what_is_not_known_is_assumed_and_named() -> None:
    motor = brushed_motor(24.0, 300.0)
    assert motor.assumed == ("armature resistance", "brush drop", "no-load current")
    running = run_brushed(motor, 24.0)
    assert (running.current, running.thrust_ratio) == pytest.approx((300.0, 1.0))
    assert stalled_current(24.0, motor.brush_drop, motor.resistance) / 300.0 == pytest.approx(5.0)


def test_thrust_does_not_depend_on_the_speed_one_assumes() -> None:
    slow, fast = brushed_motor(24.0, 300.0), brushed_motor(24.0, 300.0, 300.0)
    assert run_brushed(slow, 21.0, 5e-3).current == pytest.approx(run_brushed(fast, 21.0, 5e-3).current)
    assert run_brushed(slow, 21.0).thrust_ratio == pytest.approx(run_brushed(fast, 21.0).thrust_ratio)


def test_impossible_motors_are_refused() -> None:
    with pytest.raises(ValueError, match="leaves nothing"):
        brushed_motor(24.0, 300.0, resistance=0.1)
    with pytest.raises(ValueError, match="no-load"):
        brushed_motor(24.0, 300.0, no_load_current=300.0)
    with pytest.raises(ValueError, match="leaves nothing"):
        series_motor(24.0, 300.0, 300.0, 0.1)
    with pytest.raises(ValueError, match="ferrite and rare earth"):
        at_temperature(brushed_motor(24.0, 300.0), magnets="alnico")


def test_below_its_brushes_a_motor_stands() -> None:
    motor = brushed_motor(24.0, 300.0, 360.0, 0.010, 1.0, 8.0)
    with pytest.raises(NotComputed, match="do not turn"):
        run_brushed(motor, 1.05)
    assert brushed_load(motor, 1.05) == pytest.approx(5.0)
    assert brushed_load(motor, 0.5) == 0.0
    assert brushed_load(motor, -3.0) == 0.0
    assert brushed_load(motor, 24.0) == pytest.approx(300.0)
    turning = 1.0 + 0.010 * 8.0
    assert brushed_load(motor, turning * (1 + 1e-9)) == pytest.approx(brushed_load(motor, turning), rel=1e-4)
    with pytest.raises(ValueError, match="brushes"):
        stalled_current(0.5, 1.0, 0.010)
    with pytest.raises(ValueError, match="do not turn"):
        brushed_speed(0.9, motor.constant, 0.010, motor.load, 1.0, 8.0)


def test_hot_magnets_take_more_current_and_hot_copper_less() -> None:
    motor = brushed_motor(24.0, 300.0, 360.0, 0.010, 1.0, 8.0)
    assert run_brushed(at_temperature(motor, magnet_rise=50.0), 24.0).current > 340.0
    assert run_brushed(at_temperature(motor, winding_rise=100.0), 24.0).current < 280.0
    cold = run_brushed(at_temperature(motor, winding_rise=100.0, magnet_rise=-25.0), 24.0)
    assert cold.thrust_ratio < run_brushed(at_temperature(motor, winding_rise=100.0), 24.0).thrust_ratio


def test_a_series_motor_from_its_rated_point() -> None:
    motor = series_motor(24.0, 250.0, 300.0, 0.012)
    running = run_series(motor, 24.0)
    assert (running.current, running.speed, running.thrust_ratio) == pytest.approx((250.0, 300.0, 1.0))
    behind = run_series(motor, 24.0, 6e-3)
    assert behind.terminal_volts == pytest.approx(24.0 - 6e-3 * behind.current)
    with pytest.raises(NotComputed, match="brushes"):
        run_series(motor, 0.9)
    with pytest.raises(ValueError, match="brushes"):
        series_speed(0.0, 3e-4, 0.012, 1.2e-4)
