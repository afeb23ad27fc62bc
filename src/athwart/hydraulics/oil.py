"""Oil: all losses end in it. How warm a burst makes it, what the tank sheds, how large the tank must be."""

from __future__ import annotations

from athwart.explain import formula
from athwart.units.names import (
    CubicMetre,
    CubicMetrePerSecond,
    JoulePerKelvinCubicMetre,
    Kelvin,
    Ratio,
    Second,
    SquareMetre,
    Watt,
    WattPerSquareMetreKelvin,
)

OIL_HEAT: JoulePerKelvinCubicMetre = 870.0 * 1900.0
WALL: WattPerSquareMetreKelvin = 12.0  # still air, 10 to 15
RULE_LOW: Second = 180.0
RULE_HIGH: Second = 300.0


@formula("P_v", "W", "shaft_power * (1 / efficiency - 1)", source="own-arithmetic")
def loss_power(shaft_power: Watt, efficiency: Ratio) -> Watt:
    """Power that ends in the oil when a motor gives power at its shaft.

    Parameters
    ----------
    shaft_power : Of the motor. [W]
    efficiency : From the pump's shaft to the motor's, lines included. [1]
    """
    return shaft_power * (1.0 / efficiency - 1.0)


@formula("ΔT", "K", "power * time / (volume * OIL_HEAT)", source="oil-heat", valid="nothing shed meanwhile: minutes")
def oil_rise(power: Watt, time: Second, volume: CubicMetre) -> Kelvin:
    """Rise of the oil's temperature by losses stored in it; a difference.

    Parameters
    ----------
    power : Lost. [W]
    time : How long. [s]
    volume : Of oil. [m³]

    Examples
    --------
    6 kW for a minute into 60 l:

    >>> round(oil_rise(6000.0, 60.0, 0.060), 2)
    3.63
    """
    return power * time / (volume * OIL_HEAT)


@formula("P", "W", "transmission * area * rise", source="tank-wall", valid="still air")
def wall_heat(area: SquareMetre, rise: Kelvin, transmission: WattPerSquareMetreKelvin = WALL) -> Watt:
    """Heat a tank's wall sheds.

    Parameters
    ----------
    area : Of wall in free air. [m²]
    rise : Of the oil above the air; a difference. [K]
    transmission : Of the wall, 10 to 15. [W/(m²·K)]
    """
    return transmission * area * rise


@formula("V", "m³", "power * time / (rise * OIL_HEAT)", source="oil-heat", valid="short duty, nothing shed meanwhile")
def reservoir_by_heat(power: Watt, time: Second, rise: Kelvin) -> CubicMetre:
    """Oil needed to take a run's losses within an allowed rise.

    Parameters
    ----------
    power : Lost. [W]
    time : Of the run. [s]
    rise : Allowed; a difference. [K]
    """
    return power * time / (rise * OIL_HEAT)


@formula("V", "m³", "RULE_LOW * flow", source="reservoir-guide", valid="industrial rule, for comparison: boats carry less")
def reservoir_rule_low(flow: CubicMetrePerSecond) -> CubicMetre:
    """Smaller tank of the industrial rule: what the pump gives in three minutes.

    Parameters
    ----------
    flow : Of the pump. [m³/s]
    """
    return RULE_LOW * flow


@formula("V", "m³", "RULE_HIGH * flow", source="reservoir-guide", valid="industrial rule, for comparison: boats carry less")
def reservoir_rule_high(flow: CubicMetrePerSecond) -> CubicMetre:
    """Larger tank of the industrial rule: what the pump gives in five minutes.

    Parameters
    ----------
    flow : Of the pump. [m³/s]
    """
    return RULE_HIGH * flow


@formula("P", "W", "max(power - wall_heat(area, rise), 0)", source="own-arithmetic", valid="steady, long duty")
def cooler_power(power: Watt, area: SquareMetre, rise: Kelvin) -> Watt:
    """Heat left for a cooler when a long run has warmed the tank.

    Parameters
    ----------
    power : Lost on average. [W]
    area : Of the tank's wall in free air. [m²]
    rise : Of the oil above the air; a difference. [K]
    """
    return max(power - wall_heat(area, rise), 0.0)
