"""The two states in which a system is judged: visible, editable defaults.

``design``: thrust, run time and volts: cold, aged, 70 % charged, charger off, conductors hot. ``peak``: currents, faults, fuse,
switch: warm, new, full, charging, conductors cold.
"""

from __future__ import annotations

from dataclasses import dataclass

from athwart.design.brief import Brief
from athwart.units import Kelvin, Ratio, Volt

ZERO: Kelvin = 273.15
SOURCE = "own-judgement"


@dataclass(frozen=True, slots=True)
class State:
    """One of the two states."""

    name: str
    bank_temperature: Kelvin
    charge: Ratio
    resistance_growth: Ratio
    capacity_share: Ratio
    conductor_temperature: Kelvin
    charging: bool


COLDEST: dict[str, Kelvin] = {"lfp": ZERO + 5.0}
COLDEST_LEAD: Kelvin = ZERO + 0.0
WARM: Kelvin = ZERO + 25.0
CONDUCTOR_HOT: Kelvin = ZERO + 50.0
CONDUCTOR_COLD: Kelvin = ZERO + 20.0
CHARGE_SHARE: Ratio = 0.70
GROWTH: Ratio = 1.5
CAPACITY_SHARE: Ratio = 0.8
WINDING_HOT: Kelvin = ZERO + 110.0
WINDING_COLD: Kelvin = ZERO + 20.0
MAGNET_COLD: Kelvin = ZERO + 20.0
MAGNET_HOT: Kelvin = ZERO + 80.0
MAGNET_COEFFICIENT: float = -0.002
LEAD_CHARGING: Volt = 14.4
"""Charging volts of a 12 V lead block in the peak state."""


def design_state(brief: Brief, chemistry: str) -> State:
    """Cold, aged, 70 % charged."""
    coldest = brief.duty.coldest_bank
    temperature = coldest if coldest is not None else COLDEST.get(chemistry, COLDEST_LEAD)
    return State("design", temperature, CHARGE_SHARE, GROWTH, CAPACITY_SHARE, CONDUCTOR_HOT, False)


def peak_state() -> State:
    """Warm, new, full, charger on."""
    return State("peak", WARM, 1.0, 1.0, 1.0, CONDUCTOR_COLD, True)
