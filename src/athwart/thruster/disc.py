"""Thrust from power by momentum: the ideal disc, its merit figures, and the class rule for real units.

The jet of an open propeller contracts to half its disc area; a tunnel holds it at the full area, so the ideal tunnel gives 1.26
times the thrust of the ideal open disc. A catalogue's thrust goes before all of this; the formulas judge and scale it.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import pi, sqrt
from typing import Literal

from athwart.explain import formula
from athwart.thruster.water import RHO_SALT
from athwart.units.names import (
    CubeRootDensity,
    KilogramPerCubicMetre,
    Metre,
    MetrePerSecond,
    Newton,
    NewtonPerWatt,
    Pascal,
    RadianPerSecond,
    Ratio,
    SquareMetre,
    Watt,
    WattPerSquareMetre,
)

OPEN: Ratio = 0.5
TUNNEL: Ratio = 1.0
"""Area of the jet far behind over that of the disc."""

SHIPHANDLERS_RULE: NewtonPerWatt = 98066.5 / 746000.0
"""Ten tonnes for a thousand horsepower."""
FERRY_POWER_DENSITY: WattPerSquareMetre = 540.0
"""Mean bow-thruster power of ferries for each square metre of lateral windage (source: bow-thruster-encyclopedia)."""

ClassUnit = Literal["tunnel", "open propeller", "contra-rotating", "ducted", "cycloidal"]
Inlet = Literal["rounded", "coned", "other"]
Transmission = Literal["geared", "shaft line", "pod", "rim"]

CLASS_CONSTANTS: Mapping[ClassUnit, CubeRootDensity] = {
    "tunnel": 9.0, "open propeller": 8.0, "contra-rotating": 9.5, "ducted": 12.0, "cycloidal": 9.0,
}  # fmt: skip
"""The rule's 900, 800 and so on for kilowatts, divided by a hundred: for watts."""
CLASS_INLETS: Mapping[Inlet, Ratio] = {"rounded": 1.07, "coned": 1.0, "other": 0.93}
CLASS_TRANSMISSIONS: Mapping[Transmission, Ratio] = {"geared": 0.93, "shaft line": 0.97, "pod": 0.98, "rim": 0.995}
CLASS_REVERSED: Mapping[ClassUnit, Ratio] = {"tunnel": 1.0, "open propeller": 0.9, "ducted": 0.7}
"""Fixed pitch, running in its reverse sense."""
CLASS_GENERAL_LOSS: Ratio = 0.9

SHAFT_BAND: tuple[Ratio, Ratio] = (0.55, 0.95)
ELECTRICAL_BAND: tuple[Ratio, Ratio] = (0.40, 0.80)
REVERSE_SENSE: Ratio = 0.05
"""How much a tunnel unit may differ between its two senses; 3 to 4 % were computed for a yacht-class unit."""


@formula("A", "m²", "pi / 4 * diameter ** 2", source="own-arithmetic")
def disc_area(diameter: Metre) -> SquareMetre:
    """Area of the disc the rotor sweeps.

    Parameters
    ----------
    diameter : Of the rotor, near enough of the tunnel. [m]
    """
    return pi / 4.0 * diameter**2


@formula("T", "N", "(4 * jet_ratio * water_density * disc_area(diameter)) ** (1 / 3) * power ** (2 / 3)", source="own-arithmetic",
         valid="no losses: an upper bound")  # fmt: skip
def ideal_thrust(
    power: Watt, diameter: Metre, jet_ratio: Ratio = TUNNEL, water_density: KilogramPerCubicMetre = RHO_SALT
) -> Newton:
    """Greatest thrust momentum allows from a power, standing still.

    Parameters
    ----------
    power : At the rotor. [W]
    diameter : Of the rotor. [m]
    jet_ratio : Area of the jet far behind over the disc: 1 in a tunnel, 0.5 in the open. [1]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    4 kW in a tunnel of 185 mm:

    >>> round(ideal_thrust(4000.0, 0.185), 1)
    1208.1
    """
    return float((4.0 * jet_ratio * water_density * disc_area(diameter)) ** (1.0 / 3.0) * power ** (2.0 / 3.0))


@formula("U_jet", "m/s", "sqrt(thrust / (jet_ratio * water_density * disc_area(diameter)))", source="own-arithmetic")
def jet_speed(
    thrust: Newton, diameter: Metre, jet_ratio: Ratio = TUNNEL, water_density: KilogramPerCubicMetre = RHO_SALT
) -> MetrePerSecond:
    """Speed of the jet of a unit standing still.

    Parameters
    ----------
    thrust : Of the unit. [N]
    diameter : Of the rotor. [m]
    jet_ratio : Area of the jet far behind over the disc. [1]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(jet_speed(1208.1, 0.185), 2)
    6.62
    """
    return sqrt(thrust / (jet_ratio * water_density * disc_area(diameter)))


@formula("ζ", "1", "thrust / ((power * diameter) ** (2 / 3) * (water_density * pi / 2) ** (1 / 3))", source="own-arithmetic")
def thrust_quality(thrust: Newton, power: Watt, diameter: Metre, water_density: KilogramPerCubicMetre = RHO_SALT) -> Ratio:
    """Thrust over that of the ideal open disc of the same power and size: 1.26 for the ideal tunnel.

    Parameters
    ----------
    thrust : Of the unit. [N]
    power : At the shaft, or the electrical power; say which. [W]
    diameter : Of the rotor. [m]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    A published estimate for 160 kW in 1.0 m in a river, 21 kN:

    >>> round(thrust_quality(21_000.0, 160_000.0, 1.0, 1000.0), 3)
    0.613
    """
    return float(thrust / ((power * diameter) ** (2.0 / 3.0) * (water_density * pi / 2.0) ** (1.0 / 3.0)))


@formula("C", "1", "thrust ** 1.5 / (power * sqrt(water_density * disc_area(diameter)))", source="own-arithmetic")
def merit_coefficient(thrust: Newton, power: Watt, diameter: Metre, water_density: KilogramPerCubicMetre = RHO_SALT) -> Ratio:
    """Static merit coefficient: 1.414 for the ideal open disc, 2 for the ideal tunnel.

    Parameters
    ----------
    thrust : Of the unit. [N]
    power : At the shaft. [W]
    diameter : Of the rotor. [m]
    water_density : Of the water. [kg/m³]
    """
    return float(thrust**1.5 / (power * sqrt(water_density * disc_area(diameter))))


@formula("K_T", "1", "thrust / (water_density * (rotation / (2 * pi)) ** 2 * diameter ** 4)", source="own-arithmetic")
def thrust_coefficient(
    thrust: Newton, rotation: RadianPerSecond, diameter: Metre, water_density: KilogramPerCubicMetre = RHO_SALT
) -> Ratio:
    """Thrust coefficient of a propeller.

    Parameters
    ----------
    thrust : Of the unit. [N]
    rotation : Speed of the rotor. [rad/s]
    diameter : Of the rotor. [m]
    water_density : Of the water. [kg/m³]
    """
    return thrust / (water_density * (rotation / (2.0 * pi)) ** 2 * diameter**4)


@formula("T", "N", "constant * inlet_factor * (diameter * brake_power * transmission) ** (2 / 3)", source="dnv-st-0111",
         valid="units of ships; small units agree through their inlet only")  # fmt: skip
def class_thrust(
    brake_power: Watt, diameter: Metre, transmission: Ratio, inlet_factor: Ratio, constant: CubeRootDensity
) -> Newton:
    """Nominal thrust by the class rule, standing still.

    Parameters
    ----------
    brake_power : Of the motor. [W]
    diameter : Of the rotor. [m]
    transmission : Efficiency between motor and rotor: 0.93 geared, 0.97 shaft line, 0.98 pod, 0.995 rim-driven. [1]
    inlet_factor : For a tunnel 1.07 rounded, 1.0 coned, 0.93 any other inlet; the factor of the reverse sense for others. [1]
    constant : 9 for a tunnel, 8 open, 9.5 contra-rotating, 12 ducted (the rule's figures over a hundred, for watts). [kg^(1/3)/m]

    Examples
    --------
    900 kW in a tunnel of 2 m with rounded inlets:

    >>> round(class_thrust(900e3, 2.0, 0.93, 1.07, 9.0))
    135768
    """
    return float(constant * inlet_factor * (diameter * brake_power * transmission) ** (2.0 / 3.0))


def class_thrust_of(
    brake_power: Watt, diameter: Metre, unit: ClassUnit = "tunnel", inlet: Inlet = "other", transmission: Transmission = "geared",
    *, reversed_sense: bool = False,
) -> Newton:  # fmt: skip
    """:func:`class_thrust` with its constants looked up, and the rule's general loss taken off.

    >>> round(class_thrust_of(200e3, 1.0, inlet="coned"))
    26393
    """
    factor = CLASS_INLETS[inlet] if unit == "tunnel" else 1.0
    if reversed_sense:
        if unit not in CLASS_REVERSED:
            raise ValueError(f"the rule gives no reverse sense for a {unit} unit; it does for {', '.join(CLASS_REVERSED)}")
        factor *= CLASS_REVERSED[unit]
    nominal = class_thrust(brake_power, diameter, CLASS_TRANSMISSIONS[transmission], factor, CLASS_CONSTANTS[unit])
    return CLASS_GENERAL_LOSS * nominal


@formula("T", "N", "SHIPHANDLERS_RULE * power", source="shiphandlers-power-rule", valid="ship units, shaft power")
def thrust_by_power_rule(power: Watt) -> Newton:
    """Thrust by the shiphandlers' rule: a tonne for a hundred horsepower at the shaft.

    Parameters
    ----------
    power : At the shaft. [W]

    Examples
    --------
    >>> round(thrust_by_power_rule(746e3))
    98067
    """
    return SHIPHANDLERS_RULE * power


@formula("T_w", "N", "thrust * (1 - REVERSE_SENSE)", source="yacht-tunnel-cfd", valid="tunnel units; the allowance is rounded up")
def thrust_in_weaker_sense(thrust: Newton) -> Newton:
    """Thrust to count on when the unit runs in its weaker sense.

    Parameters
    ----------
    thrust : In the better sense. [N]
    """
    return thrust * (1.0 - REVERSE_SENSE)


@formula("p_T", "Pa", "thrust / disc_area(diameter)", source="own-arithmetic")
def disc_loading(thrust: Newton, diameter: Metre) -> Pascal:
    """Thrust over disc area.

    Parameters
    ----------
    thrust : Of the unit. [N]
    diameter : Of the rotor. [m]

    Examples
    --------
    >>> round(disc_loading(800.0, 0.185))
    29762
    """
    return thrust / disc_area(diameter)


def is_plausible(quality: Ratio, *, electrical: bool) -> bool:
    """Whether a thrust quality lies in the usual band, on shaft power or on electrical power (bands: own judgement)."""
    low, high = ELECTRICAL_BAND if electrical else SHAFT_BAND
    return low <= quality <= high


def exceeds_ideal(thrust: Newton, power: Watt, diameter: Metre, water_density: KilogramPerCubicMetre = RHO_SALT) -> bool:
    """Whether a stated thrust is more than momentum allows in a tunnel."""
    return thrust > ideal_thrust(power, diameter, TUNNEL, water_density)
