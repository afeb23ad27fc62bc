"""Hydraulics: OUR OWN ARITHMETIC, figures of the REFERENCE PROGRAM fluids 1.3.1, and figures FROM MEMORY where said.

One case through all: 60 l/min at 200 bar, oil of 870 kg/m³, 12 m of smooth hose.
"""

from __future__ import annotations

from math import pi

import pytest

from athwart.hydraulics.lines import line_loss, line_speed
from athwart.hydraulics.oil import oil_rise, wall_heat
from athwart.hydraulics.pump import hydraulic_power, motor_speed, motor_torque, pump_displacement, pump_flow, pump_torque

FLOW = 60e-3 / 60.0
RPM = 2.0 * pi / 60.0
CC = 1e-6 / (2.0 * pi)


def test_power_of_the_stream() -> None:
    """From memory (textbook): bar times l/min over 600, in kW."""
    assert hydraulic_power(200e5, FLOW) / 1e3 == pytest.approx(20.0, abs=0.005)


@pytest.mark.parametrize(("bore", "speed"), [(16, 4.974), (19, 3.527), (25, 2.037), (32, 1.243), (40, 0.796)])
def test_speed_in_a_line(bore: int, speed: float) -> None:
    """Own arithmetic."""
    assert line_speed(FLOW, bore / 1e3) == pytest.approx(speed, abs=0.0005)


@pytest.mark.parametrize(
    ("bore", "viscosity", "loss"),
    [
        (16, 30, 3.65), (16, 46, 2.99), (16, 400, 25.96),
        (19, 30, 1.63), (19, 46, 1.50), (19, 400, 13.1),
        (25, 30, 0.33), (25, 46, 0.50), (25, 400, 4.36),
    ],
)  # fmt: skip
def test_loss_of_the_hose(bore: int, viscosity: int, loss: float) -> None:
    """Reference program: friction by fluids 1.3.1, in bar; two of the nine lie in transition and agree all the same."""
    assert line_loss(FLOW, bore / 1e3, 12.0, viscosity * 1e-6).loss / 1e5 == pytest.approx(loss, rel=0.011)


def test_hot_oil_of_19_mm_lies_in_transition() -> None:
    """Own arithmetic: Re 2234; the laminar law would give 0.98 bar."""
    found = line_loss(FLOW, 19e-3, 12.0, 30e-6)
    assert found.reynolds == pytest.approx(2234.0, abs=1.0)
    assert found.laminar_loss is not None
    assert found.laminar_loss / 1e5 == pytest.approx(0.98, abs=0.005)


@pytest.mark.parametrize(("bore", "viscosity", "loss"), [(32, 46, 0.023), (32, 400, 0.20), (40, 400, 0.083)])
def test_suction_of_one_and_a_half_metres(bore: int, viscosity: int, loss: float) -> None:
    """Own arithmetic: the cold oil decides."""
    assert line_loss(FLOW, bore / 1e3, 1.5, viscosity * 1e-6).loss / 1e5 == pytest.approx(loss, rel=0.02)


def test_the_pump_at_idle_and_fast() -> None:
    """Own arithmetic: 60 l/min at 700 rpm, and the same pump at 2200 rpm."""
    assert pump_displacement(FLOW, 700 * RPM, 0.93) / CC == pytest.approx(92.2, abs=0.05)
    assert pump_flow(92 * CC, 2200 * RPM, 0.93) * 60e3 == pytest.approx(188.2, abs=0.05)
    assert pump_torque(200e5, 92 * CC, 0.93) == pytest.approx(315.0, rel=0.001)


def test_the_motor() -> None:
    """Own arithmetic: 22.9 cc/rev, its speed, and its ideal torque at 200 bar."""
    assert motor_speed(FLOW, 22.9 * CC, 0.93) / RPM == pytest.approx(2437.0, abs=0.5)
    assert motor_torque(200e5, 22.9 * CC, 1.0) == pytest.approx(72.9, abs=0.05)


def test_heat_of_the_oil() -> None:
    """Own arithmetic on heat capacity and wall figure from memory: 6 kW for a minute, and 1.6 m² at 30 K."""
    assert oil_rise(6e3, 60.0, 0.060) == pytest.approx(3.63, abs=0.005)
    assert oil_rise(6e3, 60.0, 0.120) == pytest.approx(1.8, abs=0.05)
    assert wall_heat(1.6, 30.0, 12.0) == pytest.approx(576.0, abs=0.5)
