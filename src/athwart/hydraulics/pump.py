"""Pump and motor: power, flow, torque, speed; and the verdict of a pump at idle against a unit.

A fixed pump gives flow by its speed, so thrust has to be there at idle, where boats are docked, and what comes at cruising
speed must go somewhere: a variable pump, a divider or a clutch.
"""

from __future__ import annotations

from dataclasses import dataclass

from athwart.explain import formula
from athwart.units.names import CubicMetrePerRadian, CubicMetrePerSecond, NewtonMetre, Pascal, RadianPerSecond, Ratio, Watt

VOLUMETRIC: Ratio = 0.93
MECHANICAL: Ratio = 0.93


@formula("P", "W", "pressure * flow", source="hydraulics-textbook")
def hydraulic_power(pressure: Pascal, flow: CubicMetrePerSecond) -> Watt:
    """Power in a stream of oil.

    Parameters
    ----------
    pressure : Above the tank's. [Pa]
    flow : Of oil. [m³/s]

    Examples
    --------
    200 bar and 60 l/min:

    >>> round(hydraulic_power(200e5, 60e-3 / 60.0), 6)
    20000.0
    """
    return pressure * flow


@formula("Q", "m³/s", "displacement * speed * volumetric_efficiency", source="hydraulics-textbook")
def pump_flow(
    displacement: CubicMetrePerRadian, speed: RadianPerSecond, volumetric_efficiency: Ratio = VOLUMETRIC
) -> CubicMetrePerSecond:
    """Flow of a pump at a speed of its shaft.

    Parameters
    ----------
    displacement : Of the pump. [m³/rad]
    speed : Of its shaft. [rad/s]
    volumetric_efficiency : Flow given over flow swept. [1]
    """
    return displacement * speed * volumetric_efficiency


@formula("V", "m³/rad", "flow / (speed * volumetric_efficiency)", source="hydraulics-textbook")
def pump_displacement(
    flow: CubicMetrePerSecond, speed: RadianPerSecond, volumetric_efficiency: Ratio = VOLUMETRIC
) -> CubicMetrePerRadian:
    """Displacement a pump must have for a flow at a speed.

    Parameters
    ----------
    flow : Wanted. [m³/s]
    speed : Of its shaft. [rad/s]
    volumetric_efficiency : Flow given over flow swept. [1]

    Examples
    --------
    60 l/min at 700 rpm, in cubic centimetres a revolution:

    >>> round(pump_displacement(1e-3, 73.3038) * 6.2831853e6, 1)
    92.2
    """
    return flow / (speed * volumetric_efficiency)


@formula("M", "N·m", "pressure * displacement / mechanical_efficiency", source="hydraulics-textbook")
def pump_torque(pressure: Pascal, displacement: CubicMetrePerRadian, mechanical_efficiency: Ratio = MECHANICAL) -> NewtonMetre:
    """Torque a pump takes from its shaft.

    Parameters
    ----------
    pressure : It works against. [Pa]
    displacement : Of the pump. [m³/rad]
    mechanical_efficiency : Ideal torque over torque taken. [1]
    """
    return pressure * displacement / mechanical_efficiency


@formula("ω", "rad/s", "flow * volumetric_efficiency / displacement", source="hydraulics-textbook")
def motor_speed(
    flow: CubicMetrePerSecond, displacement: CubicMetrePerRadian, volumetric_efficiency: Ratio = VOLUMETRIC
) -> RadianPerSecond:
    """Speed of a motor at a flow.

    Parameters
    ----------
    flow : Given to the motor. [m³/s]
    displacement : Of the motor. [m³/rad]
    volumetric_efficiency : Flow swept over flow taken. [1]
    """
    return flow * volumetric_efficiency / displacement


@formula("M", "N·m", "pressure * displacement * mechanical_efficiency", source="hydraulics-textbook")
def motor_torque(pressure: Pascal, displacement: CubicMetrePerRadian, mechanical_efficiency: Ratio = MECHANICAL) -> NewtonMetre:
    """Torque of a motor.

    Parameters
    ----------
    pressure : Difference between its ports. [Pa]
    displacement : Of the motor. [m³/rad]
    mechanical_efficiency : Torque given over ideal torque. [1]
    """
    return pressure * displacement * mechanical_efficiency


@dataclass(frozen=True, slots=True)
class PumpAtIdle:
    """A pump on its engine, against one unit: figures at idle, and what cruising speed does to it."""

    flow: CubicMetrePerSecond
    flow_needed: CubicMetrePerSecond
    pressure_most: Pascal
    pressure_needed: Pascal
    speed_idle: RadianPerSecond
    speed_cruise: RadianPerSecond
    speed_most: RadianPerSecond
    flow_cruise: CubicMetrePerSecond
    torque: NewtonMetre  # at the pump's shaft, needed pressure
    power: Watt  # at the pump's shaft at idle, flow needed at most
    variable: bool

    @property
    def flow_ratio(self) -> Ratio:
        """Flow at idle over flow needed."""
        return self.flow / self.flow_needed

    @property
    def enough_flow(self) -> bool:
        """Whether idle gives the unit its flow."""
        return self.flow >= self.flow_needed

    @property
    def enough_pressure(self) -> bool:
        """Whether the pump bears what the unit and the lines need."""
        return self.pressure_most >= self.pressure_needed

    @property
    def speed_borne(self) -> bool:
        """Whether the pump bears cruising speed."""
        return self.speed_cruise <= self.speed_most

    @property
    def must_be_unloaded(self) -> bool:
        """Whether a fixed pump pours more than the unit takes once the engine leaves idle: divider, relief or clutch."""
        return not self.variable and self.flow_cruise > self.flow_needed

    @property
    def passes(self) -> bool:
        """Flow and pressure at idle, and speed at cruise."""
        return self.enough_flow and self.enough_pressure and self.speed_borne

    def limits(self) -> tuple[tuple[str, float, float, bool], ...]:
        """Name, figure, limit, passes; SI."""
        return (
            ("flow at idle", self.flow, self.flow_needed, self.enough_flow),
            ("pressure", self.pressure_most, self.pressure_needed, self.enough_pressure),
            ("pump speed at cruise", self.speed_cruise, self.speed_most, self.speed_borne),
        )


def pump_at_idle(
    displacement: CubicMetrePerRadian,
    volumetric_efficiency: Ratio,
    idle: RadianPerSecond,
    cruise: RadianPerSecond,
    ratio: Ratio,
    pressure_most: Pascal,
    speed_most: RadianPerSecond,
    flow_needed: CubicMetrePerSecond,
    pressure_needed: Pascal,
    line_loss: Pascal = 0.0,
    variable: bool = False,
) -> PumpAtIdle:
    """Judge a pump by what it gives at idle.

    ``ratio`` is pump speed over engine speed; ``line_loss`` is added to the pressure the unit needs. A load-sensing pump gives
    what the unit asks up to what its displacement allows, so its power at idle counts the flow needed, not the flow possible.
    """
    if not (idle > 0.0 and cruise >= idle and ratio > 0.0):
        raise ValueError("idle speed and drive ratio must be above nought, cruising speed not below idle")
    if not flow_needed > 0.0:
        raise ValueError("the unit's flow must be above nought")
    flow = pump_flow(displacement, idle * ratio, volumetric_efficiency)
    pressure = pressure_needed + line_loss
    swept = min(1.0, flow_needed / flow) if variable else 1.0
    torque = pump_torque(pressure, displacement * swept)
    return PumpAtIdle(
        flow=flow,
        flow_needed=flow_needed,
        pressure_most=pressure_most,
        pressure_needed=pressure,
        speed_idle=idle * ratio,
        speed_cruise=cruise * ratio,
        speed_most=speed_most,
        flow_cruise=pump_flow(displacement, cruise * ratio, volumetric_efficiency),
        torque=torque,
        power=torque * idle * ratio,
        variable=variable,
    )
