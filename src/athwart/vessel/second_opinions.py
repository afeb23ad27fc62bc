"""Other published ways to a wind force: second opinions beside the model used, never mixed with it.

Each says what it was made for. The dimensioned constants are those of the rules, turned to SI where they were not.
"""

from __future__ import annotations

from math import cos, log, pi, sin, sqrt

from athwart.explain import formula
from athwart.units.names import (
    KilogramPerCubicMetre,
    KilogramPerSquareMetre,
    Metre,
    MetrePerSecond,
    MetrePerSecondSquared,
    Newton,
    NewtonMetre,
    Pascal,
    Radian,
    Ratio,
    SquareMetre,
)

G: MetrePerSecondSquared = 9.80665
RHO_CLASS: KilogramPerCubicMetre = 1.226
RHO_CLASS_WATER: KilogramPerCubicMetre = 1026.0
TONNE_PER_SQUARE_METRE: KilogramPerSquareMetre = 1000.0
ONE_METRE: Metre = 1.0
REFERENCE_LENGTH: Metre = 1309.0
CFR_PRESSURE: KilogramPerCubicMetre = 1.113
PILOTS_RULE: KilogramPerCubicMetre = 9.80665 / 18.0
SMALL_CRAFT_PRESSURE: KilogramPerCubicMetre = 0.3
IMO_STEADY: Pascal = 504.0
IMO_GUST: Ratio = 1.5
ANCHOR_EXPONENT: Ratio = 1.66
ANCHOR_RULE: KilogramPerCubicMetre = 0.0028 * 4.4482216152605 / (0.3048**ANCHOR_EXPONENT * 0.514444**2)
"""0.0028 lbf for feet and knots, turned to SI for a length in metres."""


@formula("Y", "N", "0.9 * 0.5 * RHO_CLASS * wind_speed ** 2 * lateral_area * sin(wind_angle)", source="dnv-st-0111",
         valid="ship-shaped monohulls; size only, the sign is that of the blow")  # fmt: skip
def class_side_force(wind_speed: MetrePerSecond, lateral_area: SquareMetre, wind_angle: Radian) -> Newton:
    """Side force by the class rule for station keeping, level 1, without the factor 1.25 for motion.

    Parameters
    ----------
    wind_speed : Uniform wind. [m/s]
    lateral_area : Area seen from the side. [m²]
    wind_angle : Off the bow. [rad]

    Examples
    --------
    >>> round(class_side_force(10.0, 800.0, pi / 2))
    44136
    """
    return 0.9 * 0.5 * RHO_CLASS * wind_speed**2 * lateral_area * sin(wind_angle)


@formula("X", "N", "-0.7 * 0.5 * RHO_CLASS * wind_speed ** 2 * frontal_area * cos(wind_angle)", source="dnv-st-0111",
         valid="ship-shaped monohulls")  # fmt: skip
def class_longitudinal_force(wind_speed: MetrePerSecond, frontal_area: SquareMetre, wind_angle: Radian) -> Newton:
    """Force along the boat by the class rule, level 1, forward positive.

    Parameters
    ----------
    wind_speed : Uniform wind. [m/s]
    frontal_area : Area seen from ahead. [m²]
    wind_angle : Off the bow. [rad]
    """
    return -0.7 * 0.5 * RHO_CLASS * wind_speed**2 * frontal_area * cos(wind_angle)


@formula("x_w", "m", "centroid_x + 0.3 * length * (1 - 2 * abs(wind_angle) / pi)", source="dnv-st-0111",
         valid="ship-shaped monohulls")  # fmt: skip
def class_place_of_side_force(centroid_x: Metre, length: Metre, wind_angle: Radian) -> Metre:
    """Where the side force acts by the class rule, level 1.

    Parameters
    ----------
    centroid_x : Of the lateral area, from amidships. [m]
    length : Between perpendiculars. [m]
    wind_angle : Off the bow. [rad]
    """
    return centroid_x + 0.3 * length * (1.0 - 2.0 * abs(wind_angle) / pi)


@formula("Y", "N", "0.6 * 0.5 * RHO_CLASS_WATER * speed ** 2 * lateral_area * sin(angle)", source="dnv-st-0111",
         valid="ship-shaped monohulls; size only")  # fmt: skip
def class_current_side_force(speed: MetrePerSecond, lateral_area: SquareMetre, angle: Radian) -> Newton:
    """Side force of a current by the class rule for station keeping, level 1, without the factor 1.25 for motion.

    Parameters
    ----------
    speed : Of the current. [m/s]
    lateral_area : Under water, seen from the side. [m²]
    angle : Where it comes from, off the bow. [rad]

    Examples
    --------
    >>> round(class_current_side_force(1.0, 490.0, pi / 2))
    150822
    """
    return 0.6 * 0.5 * RHO_CLASS_WATER * speed**2 * lateral_area * sin(angle)


@formula("x_c", "m", "centroid_x + min(max(0.4 * (1 - 2 * abs(angle) / pi), -0.2), 0.25) * length", source="dnv-st-0111",
         valid="ship-shaped monohulls")  # fmt: skip
def class_place_of_current(centroid_x: Metre, length: Metre, angle: Radian) -> Metre:
    """Where the side force of a current acts by the class rule, level 1.

    Parameters
    ----------
    centroid_x : Of the lateral area under water, from amidships. [m]
    length : Between perpendiculars. [m]
    angle : Where the current comes from, off the bow. [rad]
    """
    return centroid_x + min(max(0.4 * (1.0 - 2.0 * abs(angle) / pi), -0.2), 0.25) * length


@formula("V_n", "m/s", "sea_speed * (0.127 * log(height / ONE_METRE) + 0.772)", source="46-cfr-28-575",
         valid="United States fishing vessels; sea_speed 19.5 m/s in protected, 26 m/s in other waters")  # fmt: skip
def fishing_vessel_wind(sea_speed: MetrePerSecond, height: Metre) -> MetrePerSecond:
    """Wind at a height by the stability rule for fishing vessels.

    Parameters
    ----------
    sea_speed : 19.5 or 26. [m/s]
    height : Above the water. [m]

    Examples
    --------
    >>> round(fishing_vessel_wind(26.0, 6.0), 2)
    25.99
    """
    if height < 0.1:
        raise ValueError(f"a height of {height:g} m; the law wants 0.1 m or more")
    return sea_speed * (0.127 * log(height / ONE_METRE) + 0.772)


@formula("p", "Pa", "CFR_PRESSURE * wind_speed ** 2", source="46-cfr-28-575", valid="gusts included")
def fishing_vessel_pressure(wind_speed: MetrePerSecond) -> Pascal:
    """Pressure of the wind, gust and drag included, by the same rule.

    Parameters
    ----------
    wind_speed : At the height of the area. [m/s]
    """
    return CFR_PRESSURE * wind_speed**2


@formula("p", "Pa", "TONNE_PER_SQUARE_METRE * G * (exposure + (length / REFERENCE_LENGTH) ** 2)", source="46-cfr-170-170",
         valid="United States passenger and other vessels; any wind angle, no profile")  # fmt: skip
def passenger_vessel_pressure(exposure: Ratio, length: Metre) -> Pascal:
    """Design wind pressure of the weather criterion for passenger and other vessels.

    Parameters
    ----------
    exposure : 0.055 exposed, 0.036 partially protected, 0.028 protected. [1]
    length : Between perpendiculars. [m]

    Examples
    --------
    >>> round(passenger_vessel_pressure(0.055, 20.0), 1)
    541.7
    """
    return TONNE_PER_SQUARE_METRE * G * (exposure + (length / REFERENCE_LENGTH) ** 2)


@formula("M", "N·m", "SMALL_CRAFT_PRESSURE * lateral_area * (lateral_area / length_waterline + draught) * wind_speed ** 2",
         source="iso-12217-1", valid="heel of small craft; its drag of 0.49 is too small to size a thruster by")  # fmt: skip
def small_craft_heeling_moment(
    lateral_area: SquareMetre, length_waterline: Metre, draught: Metre, wind_speed: MetrePerSecond
) -> NewtonMetre:
    """Heeling moment of the wind in the stability standard for small craft.

    Parameters
    ----------
    lateral_area : Seen from the side. [m²]
    length_waterline : Length at the waterline. [m]
    draught : At the middle of the length. [m]
    wind_speed : 28, 21, 17 or 13 for the design categories A to D. [m/s]

    Examples
    --------
    >>> round(small_craft_heeling_moment(14.0, 7.9, 0.54, 17.0))
    2806
    """
    return SMALL_CRAFT_PRESSURE * lateral_area * (lateral_area / length_waterline + draught) * wind_speed**2


@formula("Y", "N", "IMO_STEADY * gust_share * lateral_area", source="imo-weather-criterion", valid="about 26 m/s on the beam")
def weather_criterion_force(lateral_area: SquareMetre, gust_share: Ratio = IMO_GUST) -> Newton:
    """Side force of the international weather criterion: 504 Pa, in gusts half as much again.

    Parameters
    ----------
    lateral_area : Seen from the side. [m²]
    gust_share : 1.5 in gusts, 1 steady. [1]

    Examples
    --------
    >>> weather_criterion_force(48.0, 1.0)
    24192.0
    """
    return IMO_STEADY * gust_share * lateral_area


@formula("C_D", "1", "pressure / (0.5 * air_density * wind_speed ** 2)", source="own-arithmetic")
def implied_drag(pressure: Pascal, wind_speed: MetrePerSecond, air_density: KilogramPerCubicMetre = 1.225) -> Ratio:
    """The drag coefficient hidden in a rule that gives a pressure for a wind.

    Parameters
    ----------
    pressure : By the rule. [Pa]
    wind_speed : It is meant for. [m/s]
    air_density : Of the air. [kg/m³]

    Examples
    --------
    The pontoon figure of the stability code, 540 Pa in 30 m/s:

    >>> round(implied_drag(540.0, 30.0), 2)
    0.98
    """
    return pressure / (0.5 * air_density * wind_speed**2)


@formula("F", "N", "PILOTS_RULE * wind_speed ** 2 * lateral_area", source="pilots-rule", valid="beam wind")
def pilots_side_force(wind_speed: MetrePerSecond, lateral_area: SquareMetre) -> Newton:
    """Side force by the harbour pilots' rule: the square of the speed in m/s over 18, in tonnes for each 1000 m².

    Parameters
    ----------
    wind_speed : On the beam. [m/s]
    lateral_area : Seen from the side. [m²]

    Examples
    --------
    15 m/s on 1000 m², in tonnes-force:

    >>> round(pilots_side_force(15.0, 1000.0) / 9806.65, 2)
    12.5
    """
    return PILOTS_RULE * wind_speed**2 * lateral_area


@formula("F", "N", "ANCHOR_RULE * ONE_METRE ** 2 * (length / ONE_METRE) ** ANCHOR_EXPONENT * wind_speed ** 2",
         source="anchor-load-fit", valid="at anchor, 6 to 18 m; sheering and surge included")  # fmt: skip
def anchor_load(length: Metre, wind_speed: MetrePerSecond) -> Newton:
    """Load on an anchor by the one-line fit of the well-known table.

    Parameters
    ----------
    length : Of the boat. [m]
    wind_speed : On the anchorage. [m/s]

    Examples
    --------
    A 40 ft boat in 30 kn, in pounds-force:

    >>> round(anchor_load(12.192, 15.43332) / 4.4482216)
    1150
    """
    return float(ANCHOR_RULE * ONE_METRE**2 * (length / ONE_METRE) ** ANCHOR_EXPONENT * wind_speed**2)


@formula("U", "m/s", "sqrt(2 * force_per_area / (air_density * side_coefficient))", source="own-arithmetic")
def beam_wind_of_force(
    force_per_area: Pascal, side_coefficient: Ratio, air_density: KilogramPerCubicMetre = 1.225
) -> MetrePerSecond:
    """The beam wind that a side force for each square metre of windage stands up to.

    Parameters
    ----------
    force_per_area : Thrust over lateral windage. [Pa]
    side_coefficient : On the beam. [1]
    air_density : Of the air. [kg/m³]

    Examples
    --------
    >>> round(beam_wind_of_force(71.0, 0.9), 2)
    11.35
    """
    return sqrt(2.0 * force_per_area / (air_density * side_coefficient))
