"""Lines: speed of the oil and its limits, pressure lost in them, laminar, turbulent and between.

Cold oil is thick and flows laminar; hot oil is thin and may be turbulent, and then loses more than the laminar law says.
Between Reynolds 2000 and 4000 nobody knows which: both are computed, the larger counts, and the result says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import log, log10, pi, sqrt
from types import MappingProxyType
from typing import Literal

from athwart.explain import formula
from athwart.units.names import (
    CubicMetrePerSecond,
    KilogramPerCubicMetre,
    Metre,
    MetrePerSecond,
    Pascal,
    Ratio,
    SquareMetrePerSecond,
)

OIL_DENSITY: KilogramPerCubicMetre = 870.0
LAMINAR: Ratio = 2000.0
TURBULENT: Ratio = 4000.0
SMOOTH: Metre = 0.0

LineKind = Literal["suction", "return", "pressure"]
Regime = Literal["laminar", "transition", "turbulent"]


@dataclass(frozen=True, slots=True)
class SpeedLimit:
    """Speeds of oil in a kind of line: the textbook's most, and the band used to choose a bore."""

    book: MetrePerSecond
    low: MetrePerSecond
    high: MetrePerSecond


SPEEDS: Mapping[str, SpeedLimit] = MappingProxyType(
    {
        "suction": SpeedLimit(1.2, 0.5, 1.2),
        "return": SpeedLimit(3.0, 2.0, 3.0),
        "pressure": SpeedLimit(4.5, 4.0, 6.0),
    }
)
"""Book: fluid-power-circuits; the bands are ours out of it and two suppliers' pages that run from 0.5 to 10 m/s."""

BURST_RATIO: Mapping[str, Ratio] = MappingProxyType({"normal": 4.0, "severe": 6.0, "severe and hazardous": 8.0})
"""Burst pressure over working pressure."""


@formula("v", "m/s", "4 * flow / (pi * bore ** 2)", source="hydraulics-textbook")
def line_speed(flow: CubicMetrePerSecond, bore: Metre) -> MetrePerSecond:
    """Mean speed of oil in a line.

    Parameters
    ----------
    flow : Of oil. [m³/s]
    bore : Inner diameter. [m]

    Examples
    --------
    60 l/min in 16 mm:

    >>> round(line_speed(1e-3, 16e-3), 3)
    4.974
    """
    return 4.0 * flow / (pi * bore**2)


@formula("d", "m", "sqrt(4 * flow / (pi * speed))", source="hydraulics-textbook")
def least_bore(flow: CubicMetrePerSecond, speed: MetrePerSecond) -> Metre:
    """Bore that keeps the oil at a speed.

    Parameters
    ----------
    flow : Of oil. [m³/s]
    speed : Allowed. [m/s]
    """
    return sqrt(4.0 * flow / (pi * speed))


def both_ways_speed_limit() -> MetrePerSecond:
    """Speed for the two hoses of a reversing motor: each is the return line in turn, while it must bear full pressure."""
    return SPEEDS["return"].high


def speed_limit(kind: str) -> SpeedLimit:
    """Limits of a kind of line."""
    if kind not in SPEEDS:
        raise ValueError(f"no speed limit for a {kind!r} line; there are {', '.join(SPEEDS)}")
    return SPEEDS[kind]


@formula("p", "Pa", "burst / ratio", source="fluid-power-circuits", valid="4 normal, 6 severe, 8 severe and hazardous")
def working_pressure(burst: Pascal, ratio: Ratio = 4.0) -> Pascal:
    """Pressure a hose may work at.

    Parameters
    ----------
    burst : It bursts at. [Pa]
    ratio : Burst over working pressure. [1]
    """
    return burst / ratio


@formula("Re", "1", "speed * bore / viscosity", source="hydraulics-textbook")
def reynolds(speed: MetrePerSecond, bore: Metre, viscosity: SquareMetrePerSecond) -> Ratio:
    """Reynolds number of the oil in a line.

    Parameters
    ----------
    speed : Of the oil. [m/s]
    bore : Inner diameter. [m]
    viscosity : Kinematic; 1 cSt is 1e-6. [m²/s]
    """
    return speed * bore / viscosity


def regime(reynolds_number: Ratio) -> Regime:
    """Laminar below 2000, turbulent from 4000, in transition between.

    >>> regime(1500.0), regime(2234.0), regime(9000.0)
    ('laminar', 'transition', 'turbulent')
    """
    if reynolds_number < LAMINAR:
        return "laminar"
    return "transition" if reynolds_number < TURBULENT else "turbulent"


@formula("f", "1", "64 / reynolds_number", source="hydraulics-textbook", valid="Re below 2000")
def laminar_friction(reynolds_number: Ratio) -> Ratio:
    """Darcy friction factor of laminar flow.

    Parameters
    ----------
    reynolds_number : Of the flow. [1]
    """
    return 64.0 / reynolds_number


@formula(
    "f",
    "1",
    "1 / sqrt(result) + 2 * log10(relative_roughness / 3.7 + 2.51 / (reynolds_number * sqrt(result)))",
    source="colebrook",
    kind="equation",
    valid="Re from 4000; from 2000 in transition, where either may hold",
)
def turbulent_friction(reynolds_number: Ratio, relative_roughness: Ratio = 0.0) -> Ratio:
    """Darcy friction factor of turbulent flow (Colebrook), solved by Newton's method from Haaland's estimate.

    Parameters
    ----------
    reynolds_number : Of the flow. [1]
    relative_roughness : Roughness over bore. [1]

    Examples
    --------
    >>> round(turbulent_friction(1e5), 5)
    0.01799
    """
    if reynolds_number < LAMINAR:
        raise ValueError(f"Re {reynolds_number:.0f} is laminar; turbulent friction starts at {LAMINAR:.0f}")
    if not 0.0 <= relative_roughness <= 0.1:
        raise ValueError(f"relative roughness {relative_roughness:g} is outside 0 to 0.1")
    a, b = relative_roughness / 3.7, 2.51 / reynolds_number
    x = -1.8 * log10(a**1.11 + 6.9 / reynolds_number)
    for _ in range(8):
        x -= (x + 2.0 * log10(a + b * x)) / (1.0 + 2.0 * b / (log(10.0) * (a + b * x)))
    return 1.0 / x**2


@formula("Δp", "Pa", "(friction * length / bore + fittings) * density * speed ** 2 / 2", source="hydraulics-textbook")
def pressure_loss(
    friction: Ratio,
    length: Metre,
    bore: Metre,
    speed: MetrePerSecond,
    density: KilogramPerCubicMetre = OIL_DENSITY,
    fittings: Ratio = 0.0,
) -> Pascal:
    """Pressure lost in a line with its fittings (Darcy, Weisbach).

    Parameters
    ----------
    friction : Darcy friction factor. [1]
    length : Of the line. [m]
    bore : Inner diameter. [m]
    speed : Of the oil. [m/s]
    density : Of the oil. [kg/m³]
    fittings : Sum of their loss coefficients. [1]
    """
    return (friction * length / bore + fittings) * density * speed**2 / 2.0


@dataclass(frozen=True, slots=True)
class LineLoss:
    """Loss of a line at one state of the oil. In transition ``loss`` is the larger of the two laws: ``unsure`` says so."""

    speed: MetrePerSecond
    reynolds: Ratio
    regime: Regime
    loss: Pascal
    laminar_loss: Pascal | None
    turbulent_loss: Pascal | None

    @property
    def unsure(self) -> bool:
        """Whether either law may hold."""
        return self.regime == "transition"


def line_loss(
    flow: CubicMetrePerSecond,
    bore: Metre,
    length: Metre,
    viscosity: SquareMetrePerSecond,
    density: KilogramPerCubicMetre = OIL_DENSITY,
    roughness: Metre = SMOOTH,
    fittings: Ratio = 0.0,
) -> LineLoss:
    """Pressure lost in a line by the law its Reynolds number asks for.

    60 l/min, 12 m of 19 mm hose: thin hot oil loses more than the laminar law says.

    >>> loss = line_loss(1e-3, 19e-3, 12.0, 30e-6)
    >>> loss.regime, round(loss.loss / 1e5, 2), round(loss.laminar_loss / 1e5, 2)
    ('transition', 1.63, 0.98)
    """
    if not (flow > 0.0 and bore > 0.0 and viscosity > 0.0 and length >= 0.0):
        raise ValueError("flow, bore and viscosity must be above nought, the length not below")
    speed = line_speed(flow, bore)
    number = reynolds(speed, bore, viscosity)
    kind = regime(number)
    laminar = pressure_loss(laminar_friction(number), length, bore, speed, density, fittings) if kind != "turbulent" else None
    turbulent = None
    if kind != "laminar":
        turbulent = pressure_loss(turbulent_friction(number, roughness / bore), length, bore, speed, density, fittings)
    loss = max(value for value in (laminar, turbulent) if value is not None)
    return LineLoss(speed, number, kind, loss, laminar, turbulent)
