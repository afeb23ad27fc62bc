"""Formulas that hold a catalogue's figures together where the physics packages have none of their own."""

from __future__ import annotations

from athwart.explain import formula
from athwart.units.names import (
    Ampere,
    CubicMetrePerSecond,
    JoulePerKelvin,
    Kelvin,
    Ohm,
    Pascal,
    Ratio,
    Second,
    Volt,
    Watt,
)


@formula("η", "1", "shaft_power / (volts * current)", source="own-arithmetic", valid="direct current at the terminals")
def motor_efficiency(shaft_power: Watt, volts: Volt, current: Ampere) -> Ratio:
    """Share of a unit's electrical power that reaches its shaft.

    Parameters
    ----------
    shaft_power : At the motor's shaft. [W]
    volts : At the terminals. [V]
    current : At those volts. [A]

    Examples
    --------
    >>> round(motor_efficiency(7840.0, 21.0, 505.0), 3)
    0.739
    """
    return shaft_power / (volts * current)


@formula(
    "η",
    "1",
    "(volts - brush_drop - current * resistance) * (current - no_load_current) / (volts * current)",
    source="dc-motor",
    valid="permanent-magnet motor",
)
def armature_efficiency(volts: Volt, current: Ampere, resistance: Ohm, brush_drop: Volt, no_load_current: Ampere) -> Ratio:
    """Efficiency of a brushed motor from what its armature, brushes and friction take.

    Parameters
    ----------
    volts : At the terminals. [V]
    current : At those volts. [A]
    resistance : Of the armature. [Ω]
    brush_drop : Over both brushes. [V]
    no_load_current : What the motor takes without a propeller. [A]

    Examples
    --------
    >>> round(armature_efficiency(21.0, 505.0, 7.92e-3, 1.0, 15.0), 3)
    0.739
    """
    return (volts - brush_drop - current * resistance) * (current - no_load_current) / (volts * current)


@formula("t", "s", "heat_capacity * rise / heat", source="own-arithmetic", valid="no heat given off; a few minutes, sealed motor")
def heating_time(heat_capacity: JoulePerKelvin, rise: Kelvin, heat: Watt) -> Second:
    """Time in which a motor's winding warms by a rise when it keeps all its heat.

    Parameters
    ----------
    heat_capacity : Of winding and the iron it lies in. [J/K]
    rise : Allowed. [K]
    heat : Lost in the winding. [W]

    Examples
    --------
    >>> round(heating_time(4500.0, 115.0, 2020.0))
    256
    """
    return heat_capacity * rise / heat


@formula("P", "W", "pressure * flow", source="own-arithmetic")
def hydraulic_power(pressure: Pascal, flow: CubicMetrePerSecond) -> Watt:
    """Power in a flow of oil.

    Parameters
    ----------
    pressure : Between the two ports. [Pa]
    flow : Of oil. [m³/s]

    Examples
    --------
    200 bar and 60 l/min, in watts:

    >>> round(hydraulic_power(200e5, 60e-3 / 60.0))
    20000
    """
    return pressure * flow
