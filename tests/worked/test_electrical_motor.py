"""Motors on propellers: OUR OWN ARITHMETIC, and one REFERENCE PROGRAM, labelled."""

from __future__ import annotations

import pytest

from athwart.power.drive import constant_power_current, greatest_power
from athwart.power.motor import brushed_motor, run_brushed, series_current, series_speed, series_torque, varied

MOTOR = brushed_motor(24.0, 300.0, 363.63636, 0.010, 1.0, 8.0)


def test_the_rated_point_gives_the_motor() -> None:
    """Own arithmetic."""
    assert MOTOR.constant == pytest.approx(0.055, rel=1e-6)
    assert MOTOR.load == pytest.approx(1.2145375e-4, rel=1e-5)
    assert MOTOR.assumed == ()


@pytest.mark.parametrize(
    ("volts", "speed", "current", "ratio"),
    [
        (24.0, 363.636, 300.0, 1.0),
        (22.0, 335.241, 256.18, 0.8499),
        (21.0, 320.85, 235.33, 0.7785),
        (20.0, 306.325, 215.21, 0.7096),
        (18.0, 276.861, 177.27, 0.5797),
    ],
)
def test_thrust_falls_with_the_volts(volts: float, speed: float, current: float, ratio: float) -> None:
    """Own arithmetic."""
    running = run_brushed(MOTOR, volts)
    assert (running.speed, running.current, running.thrust_ratio) == pytest.approx((speed, current, ratio), rel=5e-4)


@pytest.mark.parametrize(
    ("field", "resistance", "speed", "current", "ratio"),
    [(0.9, 1.0, 388.295, 377.94, 1.1402), (1.0, 1.4, 348.052, 275.51, 0.9161), (0.9, 1.4, 368.269, 340.76, 1.0256)],
)
def test_weak_magnets_and_hot_copper(field: float, resistance: float, speed: float, current: float, ratio: float) -> None:
    """Own arithmetic at 24 V."""
    running = run_brushed(varied(MOTOR, field, resistance), 24.0)
    assert (running.speed, running.current, running.thrust_ratio) == pytest.approx((speed, current, ratio), rel=5e-4)


def test_a_motor_behind_a_bank_agrees_with_ngspice() -> None:
    """REFERENCE PROGRAM: ngspice 39.3, end of a simulated start, 25.2 V behind 12.4 mΩ."""
    running = run_brushed(MOTOR, 25.2, 12.4e-3)
    assert running.speed == pytest.approx(335.506, abs=1e-3)
    assert running.current == pytest.approx(256.570, abs=1e-3)
    assert running.terminal_volts == pytest.approx(22.0185, abs=1e-4)


def test_a_series_motor() -> None:
    """Own arithmetic: 3e-4 N·m/A², 12 mΩ, 1.2e-4 N·m·s², 24 V."""
    speed = series_speed(24.0, 3e-4, 0.012, 1.2e-4)
    current = series_current(speed, 3e-4, 1.2e-4)
    assert speed == pytest.approx(336.218, rel=5e-4)
    assert current == pytest.approx(212.643, rel=5e-4)
    assert series_torque(current, 3e-4) == pytest.approx(13.565, rel=5e-4)


def test_constant_power_has_an_end() -> None:
    """Own arithmetic: a quarter of the short-circuit power, at half the volts."""
    most = greatest_power(25.2, 12.4e-3)
    assert most == pytest.approx(25.2**2 / 4 / 12.4e-3)
    assert constant_power_current(25.2, 12.4e-3, most * (1 - 1e-12)) == pytest.approx(25.2 / 2 / 12.4e-3, rel=1e-5)
    with pytest.raises(ValueError, match="at most"):
        constant_power_current(25.2, 12.4e-3, most * 1.001)
