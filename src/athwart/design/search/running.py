"""A unit behind its bank and path, steady, in one state: current, volts, thrust.

Thrust's low side: magnets cold, winding hot. Largest current: magnets hot, winding cold, and the other way round; the worse is
taken. A brushless drive takes constant power, so its largest current is at the lowest volts.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from athwart.catalogue.records import ThrusterUnit
from athwart.design import states
from athwart.errors import NotComputed
from athwart.explain import formula
from athwart.power.drive import Drive, drive, drive_load, run_drive
from athwart.power.motor import BrushedMotor, at_temperature, brushed_load, brushed_motor, run_brushed, stalled_current
from athwart.thruster import disc, scaling
from athwart.units import (
    Ampere,
    Coulomb,
    Metre,
    MetrePerSecond,
    Newton,
    Ohm,
    Pascal,
    RadianPerSecond,
    Ratio,
    Second,
    Volt,
)

GROSS_TO_NET: Ratio = 0.9
"""Net over gross thrust where a catalogue states gross (own judgement)."""
VOLTS_SIGMA: Ratio = 0.03
"""Relative standard deviation of terminal volts under load (own judgement)."""
LEAST_SHARE: Ratio = 0.85
"""Least terminal volts of a brushed unit under load as a share of nominal volts (own judgement)."""


@dataclass(frozen=True, slots=True)
class Point:
    """A unit running."""

    current: Ampere
    terminal_volts: Volt
    thrust_ratio: Ratio


@formula(
    "F", "N", "label_thrust * thrust_ratio * immersion_factor * basis_factor * tunnel_share", source="thrust-square-law",
    valid="boat stopped",
)  # fmt: skip
def thrust_delivered(
    label_thrust: Newton,
    thrust_ratio: Ratio,
    immersion_factor: Ratio = 1.0,
    basis_factor: Ratio = 1.0,
    tunnel_share: Ratio = 1.0,
) -> Newton:
    """Thrust of a unit at its volts, its depth and in its tunnel.

    The catalogue's thrust at rated volts, times what the volts leave of it, times the losses near the surface and in the tunnel;
    gross figures are brought to net. Forward speed is not in it.

    Parameters
    ----------
    label_thrust : Catalogue thrust at rated terminal volts. [N]
    thrust_ratio : Thrust at the volts found over thrust at rated volts. [1]
    immersion_factor : Loss by a shallow tunnel, 1 where deep. [1]
    basis_factor : 1 for net catalogue thrust, less for gross. [1]
    tunnel_share : Loss by ends, length and grids of the tunnel, 1 for a good one. [1]

    Notes
    -----
    Fixed rotor: thrust goes with the square of speed.

    Examples
    --------
    >>> round(thrust_delivered(1380.0, 0.85), 1)
    1173.0
    """
    return label_thrust * thrust_ratio * immersion_factor * basis_factor * tunnel_share


@formula("R_path", "Ω", "copper + gear + lugs", source="own-arithmetic")
def path_resistance(copper: Ohm, gear: Ohm, lugs: Ohm) -> Ohm:
    """Everything between a bank's poles and its unit, there and back.

    Parameters
    ----------
    copper : Plus and minus conductors at their temperature. [Ω]
    gear : Fuse, main switch and stop device. [Ω]
    lugs : Joints at the ends of every piece. [Ω]

    Examples
    --------
    >>> round(path_resistance(1.3e-3, 0.4e-3, 0.4e-3) * 1e3, 3)
    2.1
    """
    return copper + gear + lugs


@formula("t", "s", "rated_time * min(1, (rated_current / current) ** 2)", source="own-judgement",
         valid="near the rated current; the heat of a run from cold")  # fmt: skip
def time_to_trip(rated_time: Second, rated_current: Ampere, current: Ampere) -> Second:
    """Time until a motor's thermal protection trips: its heat goes with the square of the current, less current gives no more.

    Parameters
    ----------
    rated_time : Until it trips at its rated current. [s]
    rated_current : Of the catalogue. [A]
    current : That it draws. [A]

    Examples
    --------
    >>> round(time_to_trip(150.0, 515.0, 731.0), 1)
    74.5
    """
    return rated_time * min(1.0, (rated_current / current) ** 2)


@formula("t", "s", "charge / (current + others)", source="own-arithmetic", valid="charge usable in the state of the bank")
def time_on_charge(charge: Coulomb, current: Ampere, others: Ampere = 0.0) -> Second:
    """Time that a bank's charge lasts a unit and the other loads that run beside it.

    Parameters
    ----------
    charge : Usable. [C]
    current : Of the unit. [A]
    others : Of other loads on the bank. [A]
    """
    return charge / (current + others)


def clear() -> None:
    """Forget cached motors, so that a tracer sees every formula run."""
    for cached in (motor_of, drive_of, variant):
        cached.cache_clear()


@lru_cache(maxsize=2048)
def motor_of(unit: ThrusterUnit) -> BrushedMotor:
    """The brushed motor of a unit at its rated point."""
    if unit.rated_volts is None or unit.rated_current is None:
        raise NotComputed(f"{unit.id} has no rated volts and current")
    return brushed_motor(
        unit.rated_volts, unit.rated_current, unit.rotation, unit.armature_resistance, unit.brush_drop, unit.no_load_current
    )


@lru_cache(maxsize=2048)
def drive_of(unit: ThrusterUnit) -> Drive:
    """The drive of a brushless unit, or of a unit with a step-up inside."""
    if unit.rated_volts is None or unit.rated_current is None:
        raise NotComputed(f"{unit.id} has no rated volts and current")
    return drive(unit.rated_volts, unit.rated_current, unit.current_limit, unit.fold_back_volts, unit.cut_out_volts, unit.volts)


def is_constant_power(unit: ThrusterUnit) -> bool:
    """Whether the unit regulates its power: a brushless drive, or a step-up before its motor."""
    return unit.drive == "brushless" or unit.step_up_inside


@lru_cache(maxsize=8192)
def variant(unit: ThrusterUnit, which: Literal["weak thrust", "hot magnets", "hot winding"]) -> BrushedMotor:
    """The motor off its rated point, which is taken warm: winding at 60 °C, magnets at 40 °C (own judgement)."""
    motor = motor_of(unit)
    rated_winding, rated_magnet = states.ZERO + 60.0, states.ZERO + 40.0
    winding = states.WINDING_COLD if which == "hot magnets" else states.WINDING_HOT
    magnet = states.MAGNET_HOT if which == "hot magnets" else states.MAGNET_COLD
    return at_temperature(motor, winding - rated_winding, magnet - rated_magnet)


def run(unit: ThrusterUnit, state: Literal["design", "peak"], emf: Volt, resistance: Ohm, command: Ratio = 1.0) -> Point:
    """The unit behind a source: ``design`` takes thrust's low side, ``peak`` the largest current."""
    if is_constant_power(unit):
        found = run_drive(drive_of(unit), emf, resistance, command)
        return Point(found.current, found.terminal_volts, found.thrust_ratio)
    if state == "design":
        found = run_brushed(variant(unit, "weak thrust"), emf, resistance)
    else:
        found = max(
            (run_brushed(variant(unit, which), emf, resistance) for which in ("hot magnets", "hot winding")),
            key=lambda point: point.current,
        )
    return Point(found.current, found.terminal_volts, found.thrust_ratio)


def start_current(unit: ThrusterUnit, emf: Volt, resistance: Ohm) -> Ampere:
    """Largest current when the propeller is locked or just starting: armature alone, or the drive's limit."""
    if is_constant_power(unit):
        part = drive_of(unit)
        return part.current_limit if part.current_limit is not None else 1.1 * part.rated_power / emf
    motor = variant(unit, "hot magnets")
    return stalled_current(emf, motor.brush_drop, motor.resistance, resistance)


def least_volts(unit: ThrusterUnit) -> Volt:
    """Least terminal volts the unit may be left with under load: where a drive folds back, else a share of nominal volts."""
    if is_constant_power(unit) and unit.fold_back_volts is not None:
        return unit.fold_back_volts
    share = LEAST_SHARE * (unit.volts or unit.rated_volts or 0.0)
    return max(share, 1.05 * unit.cut_out_volts) if unit.cut_out_volts is not None else share


def load(unit: ThrusterUnit, state: Literal["design", "peak"]) -> Callable[[Volt], Ampere]:
    """The unit as a load of a circuit: its current at any terminal volts, in the variant of a state."""
    if is_constant_power(unit):
        part = drive_of(unit)
        return lambda volts: drive_load(part, volts)
    if state == "design":
        motor = variant(unit, "weak thrust")
        return lambda volts: brushed_load(motor, volts)
    variants = (variant(unit, "hot magnets"), variant(unit, "hot winding"))
    return lambda volts: max(brushed_load(motor, volts) for motor in variants)


def thrust_ratio_at(unit: ThrusterUnit, state: Literal["design", "peak"], terminal_volts: Volt) -> Ratio:
    """Thrust over rated thrust at terminal volts: in the design state its low side, in the peak state that of the nominal motor.

    The largest current of the peak state is of a motor with hot magnets or a cold winding; its thrust is nobody's promise.
    """
    if state == "peak" and not is_constant_power(unit):
        return run_brushed(motor_of(unit), terminal_volts, 0.0).thrust_ratio
    return run(unit, state, terminal_volts, 0.0).thrust_ratio


@dataclass(frozen=True, slots=True)
class Tips:
    """A rotor at full thrust standing still: information on noise, no limit."""

    rotation: RadianPerSecond
    speed: MetrePerSecond
    cavitation: Ratio
    loading: Pascal


def tips(unit: ThrusterUnit, axis_depth: Metre) -> Tips | None:
    """Tips of a unit's rotors by its catalogue thrust; None where it has no diameter or its axis is out of the water."""
    if not unit.tunnel_diameter or axis_depth <= 0.0:
        return None
    each = unit.thrust / max(unit.rotors, 1)
    rotation = scaling.rotor_speed(each, unit.tunnel_diameter)
    speed = scaling.tip_speed(rotation, unit.tunnel_diameter)
    return Tips(rotation, speed, scaling.tip_cavitation_number(speed, axis_depth), disc.disc_loading(each, unit.tunnel_diameter))
