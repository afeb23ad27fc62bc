"""One rotor at another speed, and its tips: thrust by the square of the speed, power by its cube, cavitation as information."""

from __future__ import annotations

from math import pi, sqrt

from athwart.explain import formula
from athwart.thruster.water import ATMOSPHERE, RHO_SALT, VAPOUR, G
from athwart.units.names import (
    KilogramPerCubicMetre,
    Metre,
    MetrePerSecond,
    Newton,
    Pascal,
    RadianPerSecond,
    Ratio,
    Watt,
)

THRUST_COEFFICIENT: Ratio = 0.30
"""Of a tunnel rotor at standstill: 0.29 to 0.32 measured on one of 1 m."""
TIP_SPEED_NOTE: MetrePerSecond = 35.0
LOADING_NOTE: Pascal = 60_000.0
"""Above these a unit deserves a note on noise (own judgement); no limits."""


@formula("T", "N", "rated_thrust * speed_share ** 2", source="own-arithmetic", valid="same rotor, standing still, no ventilation")
def thrust_at_speed(rated_thrust: Newton, speed_share: Ratio) -> Newton:
    """Thrust at a share of the rated rotor speed.

    Parameters
    ----------
    rated_thrust : At the rated speed. [N]
    speed_share : Rotor speed over the rated one. [1]

    Examples
    --------
    Nine tenths of the speed:

    >>> round(thrust_at_speed(1000.0, 0.9))
    810
    """
    if speed_share < 0.0:
        raise ValueError(f"a speed of {speed_share:g} of the rated one")
    return rated_thrust * speed_share**2


@formula("P", "W", "rated_power * speed_share ** 3", source="own-arithmetic", valid="same rotor, standing still, no ventilation")
def power_at_speed(rated_power: Watt, speed_share: Ratio) -> Watt:
    """Shaft power at a share of the rated rotor speed.

    Parameters
    ----------
    rated_power : At the rated speed. [W]
    speed_share : Rotor speed over the rated one. [1]
    """
    if speed_share < 0.0:
        raise ValueError(f"a speed of {speed_share:g} of the rated one")
    return rated_power * speed_share**3


@formula("V_tip", "m/s", "rotation * diameter / 2", source="own-arithmetic")
def tip_speed(rotation: RadianPerSecond, diameter: Metre) -> MetrePerSecond:
    """Speed of the blade tips.

    Parameters
    ----------
    rotation : Speed of the rotor. [rad/s]
    diameter : Of the rotor. [m]

    Examples
    --------
    3000 turns a minute at 185 mm:

    >>> round(tip_speed(314.16, 0.185), 2)
    29.06
    """
    return rotation * diameter / 2.0


@formula(
    "n",
    "rad/s",
    "2 * pi * sqrt(thrust / (thrust_coefficient * water_density * diameter ** 4))",
    source="research-vessel-31-m",
    valid="standing still; an estimate where nobody tells the rotor's speed",
)
def rotor_speed(
    thrust: Newton,
    diameter: Metre,
    thrust_coefficient: Ratio = THRUST_COEFFICIENT,
    water_density: KilogramPerCubicMetre = RHO_SALT,
) -> RadianPerSecond:
    """Speed of a rotor from its thrust: what catalogues do not tell, for their speed is the motor's.

    Parameters
    ----------
    thrust : Of one rotor. [N]
    diameter : Of the rotor. [m]
    thrust_coefficient : Thrust over density, turns a second squared and diameter to the fourth; 0.29 to 0.32 at standstill. [1]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    A unit of 1 m whose measured force at 200 turns a minute is 3628 N, in turns a minute:

    >>> round(rotor_speed(3627.5, 1.0, 0.3185) * 60.0 / (2.0 * pi))
    200
    """
    return 2.0 * pi * sqrt(thrust / (thrust_coefficient * water_density * diameter**4))


@formula("σ_tip", "1", "(ATMOSPHERE + water_density * G * axis_depth - VAPOUR) / (0.5 * water_density * tip_speed ** 2)",
         source="own-arithmetic")  # fmt: skip
def tip_cavitation_number(tip_speed: MetrePerSecond, axis_depth: Metre, water_density: KilogramPerCubicMetre = RHO_SALT) -> Ratio:
    """Cavitation number on the speed of the tips; small fast units run near 0.25, cavitate and are heard.

    Parameters
    ----------
    tip_speed : Of the blade tips. [m/s]
    axis_depth : Of the axis below the surface. [m]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(tip_cavitation_number(29.06, 0.5), 3)
    0.24
    """
    return (ATMOSPHERE + water_density * G * axis_depth - VAPOUR) / (0.5 * water_density * tip_speed**2)
