"""Brushed motors on a propeller: permanent-magnet and series-wound, behind a source with resistance, in closed form.

The propeller's torque grows with the square of speed, so current, speed and thrust follow from the volts in one quadratic.
A motor is derived from its rated point; hotter copper and weaker magnets make variants of it. Brushless drives are in
:mod:`athwart.power.drive`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt

from athwart.errors import NotComputed
from athwart.explain import formula
from athwart.power.conductor import ALPHA_CU
from athwart.units.names import (
    Ampere,
    Kelvin,
    NewtonMetre,
    NewtonMetrePerAmpereSquared,
    NewtonMetreSquareSecond,
    Ohm,
    PerKelvin,
    RadianPerSecond,
    Ratio,
    Volt,
    VoltSecondPerRadian,
    Watt,
)

#: change of the magnets' field with temperature
MAGNETS: dict[str, PerKelvin] = {"ferrite": -0.002, "rare earth": -0.001}
STALL_MULTIPLE = (4.0, 5.0, 6.0)  # stalled over running current: least, usual, most
USUAL_BRUSH_DROP: Volt = 1.0  # both brushes; twice that for hard carbon grades
NO_LOAD_SHARE: Ratio = 0.03  # of the rated current, where nothing is known


@dataclass(frozen=True, slots=True)
class BrushedMotor:
    """A permanent-magnet motor with its propeller; ``load`` is torque over speed squared. ``assumed`` names defaulted figures."""

    constant: VoltSecondPerRadian
    resistance: Ohm
    brush_drop: Volt
    no_load_current: Ampere
    load: NewtonMetreSquareSecond
    rated_speed: RadianPerSecond
    rated_volts: Volt
    rated_current: Ampere
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SeriesMotor:
    """A series-wound motor with its propeller, unsaturated."""

    constant: NewtonMetrePerAmpereSquared
    resistance: Ohm
    brush_drop: Volt
    load: NewtonMetreSquareSecond
    rated_speed: RadianPerSecond


@dataclass(frozen=True, slots=True)
class Running:
    """A motor running behind a source."""

    speed: RadianPerSecond
    current: Ampere
    terminal_volts: Volt
    thrust_ratio: Ratio
    shaft_power: Watt


# ---- permanent magnet


@formula(
    "k",
    "V·s/rad",
    "(rated_volts - brush_drop - rated_current * resistance) / rated_speed",
    source="dc-motor",
    valid="permanent-magnet motor at its rated point",
)
def motor_constant(
    rated_volts: Volt, rated_current: Ampere, rated_speed: RadianPerSecond, resistance: Ohm, brush_drop: Volt
) -> VoltSecondPerRadian:
    """Volts per speed (and torque per ampere) of a permanent-magnet motor from its rated point.

    Parameters
    ----------
    rated_volts : At the terminals. [V]
    rated_current : At those volts. [A]
    rated_speed : Then. [rad/s]
    resistance : Of the armature, warm. [Ω]
    brush_drop : Over both brushes. [V]
    """
    generated = rated_volts - brush_drop - rated_current * resistance
    if generated <= 0.0:
        raise ValueError(f"{rated_current:g} A through {resistance * 1e3:g} mΩ leaves nothing of {rated_volts:g} V to turn with")
    return generated / rated_speed


@formula(
    "c",
    "N·m·s²/rad²",
    "constant * (rated_current - no_load_current) / rated_speed ** 2",
    source="dc-motor",
    valid="at the rated point",
)
def propeller_load(
    constant: VoltSecondPerRadian, rated_current: Ampere, no_load_current: Ampere, rated_speed: RadianPerSecond
) -> NewtonMetreSquareSecond:
    """Torque of the propeller over speed squared, from the rated point.

    Parameters
    ----------
    constant : Motor constant. [V·s/rad]
    rated_current : At the rated point. [A]
    no_load_current : What the motor takes without a propeller. [A]
    rated_speed : At the rated point. [rad/s]
    """
    if no_load_current >= rated_current:
        raise ValueError(f"no-load current {no_load_current:g} A is not less than the rated {rated_current:g} A")
    return constant * (rated_current - no_load_current) / rated_speed**2


def brushed_motor(
    rated_volts: Volt,
    rated_current: Ampere,
    rated_speed: RadianPerSecond | None = None,
    resistance: Ohm | None = None,
    brush_drop: Volt | None = None,
    no_load_current: Ampere | None = None,
) -> BrushedMotor:
    """A motor from its rated point; what is unknown takes the usual figure and is named in ``assumed``.

    Without a speed the motor's own is taken as one radian a second: currents, volts and thrust ratios do not depend on it.
    """
    given = {"armature resistance": resistance, "brush drop": brush_drop, "no-load current": no_load_current}
    assumed = tuple(name for name, value in given.items() if value is None)
    drop = USUAL_BRUSH_DROP if brush_drop is None else brush_drop
    idle = NO_LOAD_SHARE * rated_current if no_load_current is None else no_load_current
    armature = (rated_volts - drop) / (STALL_MULTIPLE[1] * rated_current) if resistance is None else resistance
    speed = 1.0 if rated_speed is None else rated_speed
    constant = motor_constant(rated_volts, rated_current, speed, armature, drop)
    load = propeller_load(constant, rated_current, idle, speed)
    return BrushedMotor(constant, armature, drop, idle, load, speed, rated_volts, rated_current, assumed)


def at_temperature(
    motor: BrushedMotor, winding_rise: Kelvin = 0.0, magnet_rise: Kelvin = 0.0, magnets: str = "ferrite"
) -> BrushedMotor:
    """The motor with winding and magnets so much warmer (or, negative, colder) than at its rated point.

    For the largest current take hot magnets and cold copper, for the least thrust cold magnets and hot copper.
    """
    if magnets not in MAGNETS:
        raise ValueError(f"no magnets {magnets!r}; there are {' and '.join(MAGNETS)}")
    constant = warm_constant(motor.constant, MAGNETS[magnets], magnet_rise)
    return replace(motor, constant=constant, resistance=warm_winding(motor.resistance, winding_rise))


@formula(
    "k",
    "V·s/rad",
    "constant * (1 + coefficient * rise)",
    source="magnet-temperature",
    valid="below the magnets' irreversible loss",
)
def warm_constant(constant: VoltSecondPerRadian, coefficient: PerKelvin, rise: Kelvin) -> VoltSecondPerRadian:
    """Motor constant with the magnets warmer (or colder) than at the rated point.

    Parameters
    ----------
    constant : At the rated point. [V·s/rad]
    coefficient : Change of the field with temperature, -0.002 for ferrite. [1/K]
    rise : Magnets above their rated temperature. [K]

    Examples
    --------
    >>> round(warm_constant(0.05, -0.002, 40.0), 4)
    0.046
    """
    return constant * (1.0 + coefficient * rise)


@formula("R_a", "Ω", "resistance * (1 + ALPHA_CU * rise)", source="iec-60287-1-1", valid="copper winding")
def warm_winding(resistance: Ohm, rise: Kelvin) -> Ohm:
    """Armature resistance with the winding warmer (or colder) than at the rated point.

    Parameters
    ----------
    resistance : At the rated point. [Ω]
    rise : Winding above its rated temperature. [K]

    Examples
    --------
    >>> round(warm_winding(8e-3, 50.0) * 1e3, 3)
    9.572
    """
    return resistance * (1.0 + ALPHA_CU * rise)


@formula("R", "Ω", "armature_resistance + source_resistance", source="own-arithmetic")
def loop_resistance(armature_resistance: Ohm, source_resistance: Ohm) -> Ohm:
    """Everything the motor's current goes through.

    Parameters
    ----------
    armature_resistance : Of the motor. [Ω]
    source_resistance : Bank, cable and all in between. [Ω]

    Examples
    --------
    >>> round(loop_resistance(8e-3, 10e-3) * 1e3, 1)
    18.0
    """
    return armature_resistance + source_resistance


def varied(motor: BrushedMotor, field_factor: Ratio = 1.0, resistance_factor: Ratio = 1.0) -> BrushedMotor:
    """The motor with another field and another armature resistance; the propeller stays."""
    return replace(motor, constant=motor.constant * field_factor, resistance=motor.resistance * resistance_factor)


@formula(
    "ω",
    "rad/s",
    "(sqrt(constant ** 2 + 4 * resistance * load / constant * (volts - brush_drop - resistance * no_load_current)) - constant)"
    " / (2 * resistance * load / constant)",
    source="dc-motor",
    valid="square-law propeller, volts above the brush drop",
)
def brushed_speed(
    volts: Volt,
    constant: VoltSecondPerRadian,
    resistance: Ohm,
    load: NewtonMetreSquareSecond,
    brush_drop: Volt,
    no_load_current: Ampere,
) -> RadianPerSecond:
    """Speed of a permanent-magnet motor on a propeller.

    Parameters
    ----------
    volts : Electromotive force of the source, or terminal volts with the armature's resistance alone. [V]
    constant : Motor constant. [V·s/rad]
    resistance : Armature and everything before it, back to those volts. [Ω]
    load : Propeller torque over speed squared. [N·m·s²/rad²]
    brush_drop : Over both brushes. [V]
    no_load_current : Friction as a current. [A]

    Examples
    --------
    >>> round(brushed_speed(24.0, 0.055, 0.010, 1.2145375e-4, 1.0, 8.0), 3)
    363.636
    """
    turning = volts - brush_drop - resistance * no_load_current
    if turning <= 0.0:
        raise ValueError(f"{volts:g} V do not turn the motor: brushes and friction take {volts - turning:.2f} V")
    slope = resistance * load / constant
    return (sqrt(constant**2 + 4.0 * slope * turning) - constant) / (2.0 * slope)


@formula("I", "A", "load * speed ** 2 / constant + no_load_current", source="dc-motor", valid="square-law propeller")
def brushed_current(
    speed: RadianPerSecond, constant: VoltSecondPerRadian, load: NewtonMetreSquareSecond, no_load_current: Ampere
) -> Ampere:
    """Current of a permanent-magnet motor at a speed on its propeller.

    Parameters
    ----------
    speed : Of the motor. [rad/s]
    constant : Motor constant. [V·s/rad]
    load : Propeller torque over speed squared. [N·m·s²/rad²]
    no_load_current : Friction as a current. [A]
    """
    return load * speed**2 / constant + no_load_current


@formula("F/F₀", "1", "(speed / rated_speed) ** 2", source="thrust-square-law", valid="no inflow, tunnel well covered")
def thrust_ratio(speed: RadianPerSecond, rated_speed: RadianPerSecond) -> Ratio:
    """Thrust against the thrust at rated speed.

    Parameters
    ----------
    speed : Of the propeller. [rad/s]
    rated_speed : At which the thrust is known. [rad/s]
    """
    return (speed / rated_speed) ** 2


@formula(
    "I_st", "A", "(emf - brush_drop) / (armature_resistance + source_resistance)", source="dc-motor", valid="locked propeller"
)
def stalled_current(emf: Volt, brush_drop: Volt, armature_resistance: Ohm, source_resistance: Ohm = 0.0) -> Ampere:
    """Current with the propeller locked, or in the first moment of a start.

    Parameters
    ----------
    emf : Of the source. [V]
    brush_drop : Over both brushes. [V]
    armature_resistance : Of the motor. [Ω]
    source_resistance : Bank, cable and all in between. [Ω]
    """
    if emf <= brush_drop:
        raise ValueError(f"{emf:g} V do not pass the brushes, which take {brush_drop:g} V")
    return (emf - brush_drop) / (armature_resistance + source_resistance)


@formula("E", "V", "volts - current * resistance - brush_drop", source="dc-motor")
def back_emf(volts: Volt, current: Ampere, resistance: Ohm, brush_drop: Volt = 0.0) -> Volt:
    """Volts a running motor generates against its supply.

    Parameters
    ----------
    volts : At the terminals. [V]
    current : Of the armature. [A]
    resistance : Of the armature. [Ω]
    brush_drop : Over both brushes. [V]
    """
    return volts - current * resistance - brush_drop


def run_brushed(motor: BrushedMotor, emf: Volt, source_resistance: Ohm = 0.0) -> Running:
    """A permanent-magnet motor behind a source, steady.

    Raises
    ------
    NotComputed
        The volts do not turn it.
    """
    try:
        speed = brushed_speed(
            emf,
            motor.constant,
            loop_resistance(motor.resistance, source_resistance),
            motor.load,
            motor.brush_drop,
            motor.no_load_current,
        )
    except ValueError as error:
        raise NotComputed(str(error)) from None
    current = brushed_current(speed, motor.constant, motor.load, motor.no_load_current)
    return Running(
        speed, current, emf - source_resistance * current, thrust_ratio(speed, motor.rated_speed), motor.load * speed**3
    )


def brushed_load(motor: BrushedMotor, volts: Volt) -> Ampere:
    """Current the motor takes at its terminals, for a circuit: below the turning volts it stands and is a resistance."""
    turning = volts - motor.brush_drop - motor.resistance * motor.no_load_current
    if turning <= 0.0:
        return max(0.0, volts - motor.brush_drop) / motor.resistance
    return run_brushed(motor, volts).current


# ---- series-wound


@formula(
    "ω",
    "rad/s",
    "(sqrt(resistance ** 2 * load / constant + 4 * sqrt(load * constant) * (volts - brush_drop))"
    " - resistance * sqrt(load / constant)) / (2 * sqrt(load * constant))",
    source="dc-motor",
    valid="unsaturated, square-law propeller",
)
def series_speed(
    volts: Volt, constant: NewtonMetrePerAmpereSquared, resistance: Ohm, load: NewtonMetreSquareSecond, brush_drop: Volt = 0.0
) -> RadianPerSecond:
    """Speed of a series-wound motor on a propeller. Without a propeller, or sucking air, it runs away.

    Parameters
    ----------
    volts : Electromotive force of the source. [V]
    constant : Torque over current squared. [N·m/A²]
    resistance : Armature, field and everything before them. [Ω]
    load : Propeller torque over speed squared. [N·m·s²/rad²]
    brush_drop : Over both brushes. [V]

    Examples
    --------
    >>> round(series_speed(24.0, 3e-4, 0.012, 1.2e-4), 3)
    336.218
    """
    if volts <= brush_drop:
        raise ValueError(f"{volts:g} V do not pass the brushes, which take {brush_drop:g} V")
    a, b = sqrt(load * constant), resistance * sqrt(load / constant)
    return (sqrt(b * b + 4.0 * a * (volts - brush_drop)) - b) / (2.0 * a)


@formula("I", "A", "speed * sqrt(load / constant)", source="dc-motor", valid="unsaturated, square-law propeller")
def series_current(speed: RadianPerSecond, constant: NewtonMetrePerAmpereSquared, load: NewtonMetreSquareSecond) -> Ampere:
    """Current of a series-wound motor at a speed on its propeller.

    Parameters
    ----------
    speed : Of the motor. [rad/s]
    constant : Torque over current squared. [N·m/A²]
    load : Propeller torque over speed squared. [N·m·s²/rad²]
    """
    return speed * sqrt(load / constant)


@formula("T", "N·m", "constant * current ** 2", source="dc-motor", valid="unsaturated")
def series_torque(current: Ampere, constant: NewtonMetrePerAmpereSquared) -> NewtonMetre:
    """Torque of a series-wound motor.

    Parameters
    ----------
    current : Through armature and field. [A]
    constant : Torque over current squared. [N·m/A²]
    """
    return constant * current**2


def series_motor(
    rated_volts: Volt, rated_current: Ampere, rated_speed: RadianPerSecond, resistance: Ohm, brush_drop: Volt = USUAL_BRUSH_DROP
) -> SeriesMotor:
    """A series-wound motor from its rated point."""
    generated = rated_volts - brush_drop - rated_current * resistance
    if generated <= 0.0:
        raise ValueError(f"{rated_current:g} A through {resistance * 1e3:g} mΩ leaves nothing of {rated_volts:g} V to turn with")
    constant = generated / (rated_speed * rated_current)
    return SeriesMotor(constant, resistance, brush_drop, constant * (rated_current / rated_speed) ** 2, rated_speed)


def run_series(motor: SeriesMotor, emf: Volt, source_resistance: Ohm = 0.0) -> Running:
    """A series-wound motor behind a source, steady."""
    try:
        speed = series_speed(emf, motor.constant, motor.resistance + source_resistance, motor.load, motor.brush_drop)
    except ValueError as error:
        raise NotComputed(str(error)) from None
    current = series_current(speed, motor.constant, motor.load)
    return Running(
        speed, current, emf - source_resistance * current, thrust_ratio(speed, motor.rated_speed), motor.load * speed**3
    )
