"""Pump and motor, and the verdict at idle."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest

from athwart.hydraulics.pump import PumpAtIdle, hydraulic_power, motor_speed, motor_torque, pump_at_idle, pump_flow, pump_torque

RPM = 2.0 * pi / 60.0
CC = 1e-6 / (2.0 * pi)


def judged(displacement: float = 92.0, variable: bool = False, ratio: float = 1.0, needed: float = 60.0) -> PumpAtIdle:
    return pump_at_idle(
        displacement * CC,
        0.93,
        700 * RPM,
        2200 * RPM,
        ratio,
        250e5,
        2400 * RPM,
        needed / 60e3,
        200e5,
        line_loss=6e5,
        variable=variable,
    )


def test_a_pump_that_just_gives_the_flow_at_idle_does_not_by_a_little_less() -> None:
    assert not judged().passes  # 59.9 l/min
    assert judged(93.0).passes
    assert judged(93.0).limits()[0][3]


def test_line_loss_comes_on_top_of_the_units_pressure() -> None:
    found = judged()
    assert found.pressure_needed == pytest.approx(206e5)
    assert found.enough_pressure
    assert not replace(found, pressure_needed=251e5).enough_pressure


def test_a_step_up_drive_makes_a_smaller_pump_do() -> None:
    assert judged(62.0, ratio=1.5).enough_flow
    assert not judged(62.0, ratio=1.5).speed_borne


def test_a_fixed_pump_pours_too_much_at_cruise_and_a_variable_one_does_not() -> None:
    assert judged(93.0).must_be_unloaded
    assert not judged(93.0, variable=True).must_be_unloaded
    assert judged(93.0).flow_cruise == pytest.approx(pump_flow(93.0 * CC, 2200 * RPM, 0.93))


def test_a_variable_pump_takes_the_torque_of_the_flow_needed() -> None:
    fixed, variable = judged(140.0), judged(140.0, variable=True)
    assert variable.torque == pytest.approx(fixed.torque / fixed.flow_ratio)
    assert judged(93.0).torque == pytest.approx(pump_torque(206e5, 93.0 * CC))
    assert fixed.power == pytest.approx(fixed.torque * 700 * RPM)


def test_power_goes_through_pump_and_motor_with_their_efficiencies() -> None:
    flow, pressure = 1e-3, 200e5
    shaft = motor_torque(pressure, 23 * CC, 0.93) * motor_speed(flow, 23 * CC, 0.93)
    assert shaft == pytest.approx(hydraulic_power(pressure, flow) * 0.93 * 0.93)


@pytest.mark.parametrize(
    ("idle", "cruise", "ratio", "flow"), [(0.0, 1.0, 1.0, 1.0), (2.0, 1.0, 1.0, 1.0), (1.0, 2.0, 0.0, 1.0), (1.0, 2.0, 1.0, 0.0)]
)
def test_nonsense_is_refused(idle: float, cruise: float, ratio: float, flow: float) -> None:
    with pytest.raises(ValueError, match="above nought"):
        pump_at_idle(1e-5, 0.93, idle, cruise, ratio, 250e5, 300.0, flow, 200e5)
