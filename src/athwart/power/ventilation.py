"""Ventilation of battery spaces: air by the standards' formulas, openings, classes by charging power."""

from __future__ import annotations

from collections.abc import Mapping

from athwart.explain import formula
from athwart.units.names import (
    Ampere,
    Coulomb,
    CubicMetre,
    CubicMetrePerCoulomb,
    CubicMetrePerSecond,
    MetrePerSecond,
    PerSecond,
    Ratio,
    Second,
    SecondPerMetre,
    SquareMetre,
    Volt,
    Watt,
)

AIR: CubicMetrePerCoulomb = 0.05 / 3600.0
HYDROGEN: CubicMetrePerCoulomb = 0.42e-3 / 3600.0
DILUTION: Ratio = 24.0
SAFETY: Ratio = 5.0
OPENING: SecondPerMetre = 28e-4 * 3600.0
ROOM: Second = 2.5 * 3600.0
INLAND: CubicMetrePerCoulomb = 0.11 / 3600.0
INLAND_SHARE: Ratio = 0.25
INLAND_SPEED: MetrePerSecond = 0.5
US_HYDROGEN: CubicMetrePerCoulomb = 0.0158 * 0.3048**3 / 3600.0
SMALL: Watt = 200.0
LARGE: Watt = 2000.0
HYDROGEN_LIMIT: Ratio = 0.04

#: kind -> (gas share f_g, charge current at float, at boost, in mA per Ah): f_s = 5 comes on top
GAS: Mapping[str, tuple[float, float, float]] = {
    "vented": (1.0, 1.0, 4.0),
    "sealed": (0.2, 1.0, 8.0),
    "vented nicd": (1.0, 1.0, 10.0),
}
#: A per 100 Ah by charger and battery, EN 50272-3
CHARGING_AREA_GAS: Mapping[tuple[str, str], float] = {
    ("iu", "vented"): 2.0,
    ("iu", "sealed"): 1.0,
    ("iui", "vented"): 6.0,
    ("iui", "sealed"): 1.5,
}
#: kind of battery -> least duct of natural ventilation, European inland-vessel rules
INLAND_LEAST_DUCT: Mapping[str, SquareMetre] = {"lead": 80e-4, "nicd": 120e-4}


@formula("I_g", "1/s", "current of the table x gas share x 5, per charge of capacity", source="en-50272-2-gas", kind="table")
def gas_current(kind: str, stage: str) -> PerSecond:
    """Current that makes gas, per coulomb of capacity.

    Parameters
    ----------
    kind : ``vented``, ``sealed`` or ``vented nicd``.
    stage : ``float`` or ``boost``.

    Examples
    --------
    In mA per Ah:

    >>> round(gas_current("vented", "boost") * 3.6e6, 9), round(gas_current("sealed", "float") * 3.6e6, 9)
    (20.0, 1.0)
    """
    if kind not in GAS or stage not in ("float", "boost"):
        raise ValueError(f"no gas current for {kind!r} at {stage!r}; there are {', '.join(GAS)} at float and boost")
    share, standby, boost = GAS[kind]
    return share * SAFETY * (standby if stage == "float" else boost) / 3.6e6


@formula("vqs", "m³/C", "DILUTION * HYDROGEN * SAFETY", source="en-50272-3")
def air_per_charge() -> CubicMetrePerCoulomb:
    """Air per gas-making charge and cell: 24 of air to 1 of hydrogen, five times.

    Examples
    --------
    In m³ per Ah:

    >>> round(air_per_charge() * 3600.0, 6)
    0.0504
    """
    return DILUTION * HYDROGEN * SAFETY


@formula("Q", "m³/s", "AIR * cells * gas * capacity", source="iec-62485-2", valid="to about 40 °C")
def air_flow(cells: int, gas: PerSecond, capacity: Coulomb) -> CubicMetrePerSecond:
    """Air a battery space needs, with the standard's rounded 0.05 m³/Ah a cell.

    Parameters
    ----------
    cells : Number of cells.
    gas : Gas-making current per charge of capacity, :func:`gas_current`. [1/s]
    capacity : Of a cell. [C]

    Examples
    --------
    Twelve vented cells of 100 Ah at boost, in m³/h:

    >>> round(air_flow(12, gas_current("vented", "boost"), 360_000.0) * 3600.0, 4)
    1.2
    """
    return AIR * cells * gas * capacity


@formula("A", "m²", "OPENING * air_flow", source="iec-62485-2", valid="openings in and out, each; 0.1 m/s of air")
def opening_area(air_flow: CubicMetrePerSecond) -> SquareMetre:
    """Area of each of the two openings of natural ventilation, 28 cm² per m³/h.

    Parameters
    ----------
    air_flow : Air needed. [m³/s]

    Examples
    --------
    >>> round(opening_area(4.5 / 3600.0) * 1e4, 6)
    126.0
    """
    return OPENING * air_flow


@formula("V", "m³", "ROOM * air_flow", source="iec-62485-2")
def least_room(air_flow: CubicMetrePerSecond) -> CubicMetre:
    """Least volume of a room that counts as naturally ventilated, 2.5 m³ per m³/h.

    Parameters
    ----------
    air_flow : Air needed. [m³/s]
    """
    return ROOM * air_flow


@formula("Q", "m³/s", "INLAND * INLAND_SHARE * charger_current * cells", source="eu-inland-ventilation")
def inland_air_flow(charger_current: Ampere, cells: int) -> CubicMetrePerSecond:
    """Air a battery space needs by the European inland-vessel rules: a quarter of the charger's current makes gas.

    Parameters
    ----------
    charger_current : Largest current of the charger. [A]
    cells : Number of cells.

    Examples
    --------
    >>> round(inland_air_flow(50.0, 12) * 3600.0, 3)
    16.5
    """
    return INLAND * INLAND_SHARE * charger_current * cells


@formula("A", "m²", "air_flow / INLAND_SPEED", source="eu-inland-ventilation", valid="natural ventilation; a least area besides")
def inland_duct(air_flow: CubicMetrePerSecond) -> SquareMetre:
    """Area of the duct at half a metre a second; see :data:`INLAND_LEAST_DUCT` for the least allowed.

    Parameters
    ----------
    air_flow : Air needed. [m³/s]
    """
    return air_flow / INLAND_SPEED


@formula("H", "m³/s", "US_HYDROGEN * current * cells", source="us-hydrogen-note", valid="vented cells at the end of charge")
def hydrogen_made(current: Ampere, cells: int) -> CubicMetrePerSecond:
    """Hydrogen that vented lead cells make, 0.0158 ft³ an ampere hour and cell.

    Parameters
    ----------
    current : Charging current at the end. [A]
    cells : Number of cells.
    """
    return US_HYDROGEN * current * cells


@formula("P", "W", "charger_current * volts", source="46-cfr-111-15-3")
def charging_power(charger_current: Ampere, volts: Volt) -> Watt:
    """Charging power that decides the class of a battery space.

    Parameters
    ----------
    charger_current : Largest charging current. [A]
    volts : Rated volts of the battery. [V]
    """
    return charger_current * volts


def space_class(power: Watt) -> str:
    """Class of a battery installation by its charging power: small, moderate (from 0.2 kW) or large (above 2 kW)."""
    return "small" if power < SMALL else "moderate" if power <= LARGE else "large"


def space_demand(power: Watt) -> str:
    """What the French small-craft rules ask of the place of vented lead at this charging power."""
    if power > LARGE:
        return "a compartment of its own, vented to the open air"
    return "a ventilated compartment" if power > SMALL else "no rule of place"


def charging_area_air_flow(cells: int, capacity: Coulomb, charger: str, kind: str) -> CubicMetrePerSecond:
    """Air by the traction-battery standard, whose gas currents are per 100 Ah and go by the charger's characteristic."""
    if (charger, kind) not in CHARGING_AREA_GAS:
        known = ", ".join(f"{a} with {b}" for a, b in CHARGING_AREA_GAS)
        raise ValueError(f"no gas current for charger {charger!r} with {kind!r} cells; there are {known}")
    return air_flow(cells, CHARGING_AREA_GAS[charger, kind] / 360_000.0, capacity)
