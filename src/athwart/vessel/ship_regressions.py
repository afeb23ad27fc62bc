"""Wind on hulls over about 25 m by two regressions over merchant ships: second opinions, never the model used.

Both were fitted to ships many times larger. Each says which of its inputs lie outside the ships it knows; a figure given there is
for a look, not for a decision. Side force and moment take the sign the wind blows towards, as everywhere in this package.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, degrees, pi, sin

from athwart.explain import formula
from athwart.numerics.tables import interpolate
from athwart.units.names import Metre, NewtonMetre, Pascal, Radian, Ratio, SquareMetre
from athwart.vessel.loads import WindLoad, blown_towards, signed_angle

ISHERWOOD, FUJIWARA = "isherwood-1972", "fujiwara-iso-15016"
"""Keys of the sources."""
SHORTEST: Metre = 25.0
SLIMMEST, BEAMIEST = 9.0, 4.0
"""Length over beam of Isherwood's ships (from memory)."""

# fmt: off
ISHERWOOD_X: tuple[tuple[float, ...], ...] = (
    (0.0, 2.152, -5.0, 0.243, -0.164, 0.0, 0.0, 0.0),
    (10.0, 1.714, -3.33, 0.145, -0.121, 0.0, 0.0, 0.0),
    (20.0, 1.818, -3.97, 0.211, -0.143, 0.0, 0.0, 0.033),
    (30.0, 1.965, -4.81, 0.243, -0.154, 0.0, 0.0, 0.041),
    (40.0, 2.333, -5.99, 0.247, -0.19, 0.0, 0.0, 0.042),
    (50.0, 1.726, -6.54, 0.189, -0.173, 0.348, 0.0, 0.048),
    (60.0, 0.913, -4.68, 0.0, -0.104, 0.482, 0.0, 0.052),
    (70.0, 0.457, -2.88, 0.0, -0.068, 0.346, 0.0, 0.043),
    (80.0, 0.341, -0.91, 0.0, -0.031, 0.0, 0.0, 0.032),
    (90.0, 0.355, 0.0, 0.0, 0.0, -0.247, 0.0, 0.018),
    (100.0, 0.601, 0.0, 0.0, 0.0, -0.372, 0.0, -0.02),
    (110.0, 0.651, 1.29, 0.0, 0.0, -0.582, 0.0, -0.031),
    (120.0, 0.564, 2.54, 0.0, 0.0, -0.748, 0.0, -0.024),
    (130.0, -0.142, 3.58, 0.0, 0.047, -0.7, 0.0, -0.028),
    (140.0, -0.677, 3.64, 0.0, 0.069, -0.529, 0.0, -0.032),
    (150.0, -0.723, 3.14, 0.0, 0.064, -0.475, 0.0, -0.032),
    (160.0, -2.148, 2.56, 0.0, 0.081, 0.0, 1.27, -0.027),
    (170.0, -2.707, 3.97, -0.175, 0.126, 0.0, 1.81, 0.0),
    (180.0, -2.529, 3.76, -0.174, 0.128, 0.0, 1.55, 0.0),
)
ISHERWOOD_Y: tuple[tuple[float, ...], ...] = (
    (0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    (10.0, 0.096, 0.22, 0.0, 0.0, 0.0, 0.0, 0.0),
    (20.0, 0.176, 0.71, 0.0, 0.0, 0.0, 0.0, 0.0),
    (30.0, 0.225, 1.38, 0.0, 0.023, 0.0, -0.29, 0.0),
    (40.0, 0.329, 1.82, 0.0, 0.043, 0.0, -0.59, 0.0),
    (50.0, 1.164, 1.26, 0.121, 0.0, -0.242, -0.95, 0.0),
    (60.0, 1.163, 0.96, 0.101, 0.0, -0.177, -0.88, 0.0),
    (70.0, 0.916, 0.53, 0.069, 0.0, 0.0, -0.65, 0.0),
    (80.0, 0.844, 0.55, 0.082, 0.0, 0.0, -0.54, 0.0),
    (90.0, 0.889, 0.0, 0.138, 0.0, 0.0, -0.66, 0.0),
    (100.0, 0.799, 0.0, 0.155, 0.0, 0.0, -0.55, 0.0),
    (110.0, 0.797, 0.0, 0.151, 0.0, 0.0, -0.55, 0.0),
    (120.0, 0.996, 0.0, 0.184, 0.0, -0.212, -0.66, 0.34),
    (130.0, 1.014, 0.0, 0.191, 0.0, -0.28, -0.69, 0.44),
    (140.0, 0.784, 0.0, 0.166, 0.0, -0.209, -0.53, 0.38),
    (150.0, 0.536, 0.0, 0.176, -0.029, -0.163, 0.0, 0.27),
    (160.0, 0.251, 0.0, 0.106, -0.022, 0.0, 0.0, 0.0),
    (170.0, 0.125, 0.0, 0.046, -0.012, 0.0, 0.0, 0.0),
    (180.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
)
ISHERWOOD_N: tuple[tuple[float, ...], ...] = (
    (0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    (10.0, 0.0596, 0.061, 0.0, 0.0, 0.0, -0.074),
    (20.0, 0.1106, 0.204, 0.0, 0.0, 0.0, -0.17),
    (30.0, 0.2258, 0.245, 0.0, 0.0, 0.0, -0.38),
    (40.0, 0.2017, 0.457, 0.0, 0.0067, 0.0, -0.472),
    (50.0, 0.1759, 0.573, 0.0, 0.0118, 0.0, -0.523),
    (60.0, 0.1925, 0.48, 0.0, 0.0115, 0.0, -0.546),
    (70.0, 0.2133, 0.315, 0.0, 0.0081, 0.0, -0.526),
    (80.0, 0.1827, 0.254, 0.0, 0.0053, 0.0, -0.443),
    (90.0, 0.2627, 0.0, 0.0, 0.0, 0.0, -0.508),
    (100.0, 0.2102, 0.0, -0.0195, 0.0, 0.0335, -0.492),
    (110.0, 0.1567, 0.0, -0.0258, 0.0, 0.0497, -0.457),
    (120.0, 0.0801, 0.0, -0.0311, 0.0, 0.074, -0.396),
    (130.0, -0.0189, 0.0, -0.0488, 0.0101, 0.1128, -0.42),
    (140.0, 0.0256, 0.0, -0.0422, 0.01, 0.0889, -0.463),
    (150.0, 0.0552, 0.0, -0.0381, 0.0109, 0.0689, -0.476),
    (160.0, 0.0881, 0.0, -0.0306, 0.0091, 0.0366, -0.415),
    (170.0, 0.0851, 0.0, -0.0122, 0.0025, 0.0, -0.22),
    (180.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
)
# fmt: on
"""Angle off the bow in degrees, then the constants A, B and C of the regression."""


@dataclass(frozen=True, slots=True)
class ShipShape:
    """What the regressions ask of a ship. Places from amidships, forward positive."""

    length: Metre
    beam: Metre
    lateral_area: SquareMetre
    frontal_area: SquareMetre
    deck_structures: SquareMetre
    """Lateral area of superstructure or deck structures."""
    centroid: Metre
    """Of the lateral area, forward of amidships."""
    centroid_height: Metre
    bridge_height: Metre
    perimeter: Metre
    """Of the lateral projection, without the waterline and slender masts."""
    masts: int = 1


@dataclass(frozen=True, slots=True)
class Coefficients:
    """Of longitudinal force (ahead positive), side force and yaw moment by size; see :func:`load` for signs."""

    longitudinal: Ratio
    side: Ratio
    yaw: Ratio


def isherwood(ship: ShipShape, wind_angle: Radian) -> Coefficients:
    """Coefficients by Isherwood.

    Parameters
    ----------
    ship : Her shape. [1]
    wind_angle : Off the bow, either side. [rad]
    """
    s = ship
    angle = degrees(abs(signed_angle(wind_angle)))
    along = 2.0 * s.lateral_area / s.length**2
    across = 2.0 * s.frontal_area / s.beam**2
    slender, ring = s.length / s.beam, s.perimeter / s.length
    place = (s.length / 2.0 - s.centroid) / s.length
    head = (1.0, along, across, slender, ring, place)
    return Coefficients(
        -_row(ISHERWOOD_X, angle, (*head, float(s.masts))),
        _row(ISHERWOOD_Y, angle, (*head, s.deck_structures / s.lateral_area)),
        _row(ISHERWOOD_N, angle, head),
    )


def _row(table: Sequence[Sequence[float]], angle: float, values: Sequence[float]) -> float:
    columns = range(1, len(values) + 1)
    return sum(value * interpolate([(row[0], row[k]) for row in table], angle) for k, value in zip(columns, values, strict=True))


def fujiwara(ship: ShipShape, wind_angle: Radian) -> Coefficients:
    """Coefficients by Fujiwara.

    Parameters
    ----------
    ship : Her shape. [1]
    wind_angle : Off the bow, either side. [rad]
    """
    s, psi = ship, abs(signed_angle(wind_angle))
    length, beam, bridge = s.length, s.beam, s.bridge_height
    frontal, lateral = s.frontal_area, s.lateral_area
    if psi <= pi / 2.0:
        ahead = 0.922 - 0.507 * lateral / (length * beam) - 1.162 * s.centroid / length
        lift = -0.458 - 3.245 * lateral / (length * bridge) + 2.313 * frontal / (beam * bridge)
        tall = 0.585 + 0.906 * s.deck_structures / lateral - 3.239 * beam / length
        side_lift = pi * lateral / length**2 + 0.116 + 3.345 * frontal / (length * beam)
    else:
        ahead = (
            -0.018
            + 5.091 * beam / length
            - 10.367 * s.centroid_height / length
            + 3.011 * s.deck_structures / length**2
            + 0.341 * frontal / beam**2
        )
        lift = (
            1.901
            - 12.727 * lateral / (length * bridge)
            - 24.407 * frontal / lateral
            + 40.310 * beam / length
            + 5.481 * frontal / (beam * bridge)
        )
        tall = 0.314 + 1.117 * s.deck_structures / lateral
        side_lift = pi * lateral / length**2 + 0.446 + 2.192 * frontal / length**2
    sine, cosine = sin(psi), cos(psi)
    against = ahead * cosine + lift * (sine - sine * cosine**2 / 2.0) * sine * cosine + tall * sine * cosine**3
    cross = 0.404 + 0.368 * frontal / (beam * bridge) + 0.902 * bridge / length
    side = cross * sine**2 + side_lift * (cosine + sine**2 * cosine / 2.0) * sine * cosine
    return Coefficients(-against, side, side * (0.297 * s.centroid / length - 0.149 * (psi - pi / 2.0)))


@formula("C_X", "1", "Isherwood's regression over merchant ships", source=ISHERWOOD, kind="table",
         valid="hulls over about 25 m, length over beam 4 to 9; a second opinion")  # fmt: skip
def isherwood_longitudinal(
    wind_angle: Radian, length: Metre, beam: Metre, lateral_area: SquareMetre, frontal_area: SquareMetre,
    deck_structures: SquareMetre, centroid: Metre, perimeter: Metre, masts: Ratio,
) -> Ratio:  # fmt: skip
    """Longitudinal force, forward positive by Isherwood, the coefficient.

    Parameters
    ----------
    wind_angle : Off the bow, either side. [rad]
    length : Over all. [m]
    beam : Largest. [m]
    lateral_area : Seen from the side. [m²]
    frontal_area : Seen from ahead. [m²]
    deck_structures : Lateral area of superstructure or deck structures. [m²]
    centroid : Of the lateral area, forward of amidships. [m]
    perimeter : Of the lateral projection, without the waterline and slender masts. [m]
    masts : Mast groups. [1]

    Examples
    --------
    A ship of 100 m in 30 degrees of wind:

    >>> round(isherwood_longitudinal(pi / 6, 100.0, 30.0, 900.0, 300.0, 100.0, 0.0, 100.0, 2.0), 3)
    -0.83
    """
    ship = ShipShape(length, beam, lateral_area, frontal_area, deck_structures, centroid, 1.0, 1.0, perimeter, int(masts))
    return isherwood(ship, wind_angle).longitudinal


@formula("C_Y", "1", "Isherwood's regression over merchant ships", source=ISHERWOOD, kind="table",
         valid="hulls over about 25 m, length over beam 4 to 9; a second opinion")  # fmt: skip
def isherwood_side(
    wind_angle: Radian, length: Metre, beam: Metre, lateral_area: SquareMetre, frontal_area: SquareMetre,
    deck_structures: SquareMetre, centroid: Metre, perimeter: Metre, masts: Ratio,
) -> Ratio:  # fmt: skip
    """Side force by Isherwood, the coefficient.

    Parameters
    ----------
    wind_angle : Off the bow, either side. [rad]
    length : Over all. [m]
    beam : Largest. [m]
    lateral_area : Seen from the side. [m²]
    frontal_area : Seen from ahead. [m²]
    deck_structures : Lateral area of superstructure or deck structures. [m²]
    centroid : Of the lateral area, forward of amidships. [m]
    perimeter : Of the lateral projection, without the waterline and slender masts. [m]
    masts : Mast groups. [1]

    Examples
    --------
    A ship of 100 m in 30 degrees of wind:

    >>> round(isherwood_side(pi / 6, 100.0, 30.0, 900.0, 300.0, 100.0, 0.0, 100.0, 2.0), 3)
    0.405
    """
    ship = ShipShape(length, beam, lateral_area, frontal_area, deck_structures, centroid, 1.0, 1.0, perimeter, int(masts))
    return isherwood(ship, wind_angle).side


@formula("C_N", "1", "Isherwood's regression over merchant ships", source=ISHERWOOD, kind="table",
         valid="hulls over about 25 m, length over beam 4 to 9; a second opinion")  # fmt: skip
def isherwood_yaw(
    wind_angle: Radian, length: Metre, beam: Metre, lateral_area: SquareMetre, frontal_area: SquareMetre,
    deck_structures: SquareMetre, centroid: Metre, perimeter: Metre, masts: Ratio,
) -> Ratio:  # fmt: skip
    """Yaw moment by Isherwood, the coefficient.

    Parameters
    ----------
    wind_angle : Off the bow, either side. [rad]
    length : Over all. [m]
    beam : Largest. [m]
    lateral_area : Seen from the side. [m²]
    frontal_area : Seen from ahead. [m²]
    deck_structures : Lateral area of superstructure or deck structures. [m²]
    centroid : Of the lateral area, forward of amidships. [m]
    perimeter : Of the lateral projection, without the waterline and slender masts. [m]
    masts : Mast groups. [1]

    Examples
    --------
    A ship of 100 m in 30 degrees of wind:

    >>> round(isherwood_yaw(pi / 6, 100.0, 30.0, 900.0, 300.0, 100.0, 0.0, 100.0, 2.0), 3)
    0.08
    """
    ship = ShipShape(length, beam, lateral_area, frontal_area, deck_structures, centroid, 1.0, 1.0, perimeter, int(masts))
    return isherwood(ship, wind_angle).yaw


@formula("C_X", "1", "Fujiwara's regression over merchant ships", source=FUJIWARA, kind="table",
         valid="hulls over about 25 m, length over beam 4 to 9; a second opinion")  # fmt: skip
def fujiwara_longitudinal(
    wind_angle: Radian, length: Metre, beam: Metre, lateral_area: SquareMetre, frontal_area: SquareMetre,
    deck_structures: SquareMetre, centroid: Metre, centroid_height: Metre, bridge_height: Metre,
) -> Ratio:  # fmt: skip
    """Longitudinal force, forward positive by Fujiwara, the coefficient.

    Parameters
    ----------
    wind_angle : Off the bow, either side. [rad]
    length : Over all. [m]
    beam : Largest. [m]
    lateral_area : Seen from the side. [m²]
    frontal_area : Seen from ahead. [m²]
    deck_structures : Lateral area of superstructure or deck structures. [m²]
    centroid : Of the lateral area, forward of amidships. [m]
    centroid_height : Of the lateral area above the waterline. [m]
    bridge_height : Top of the bridge above the waterline. [m]

    Examples
    --------
    A ship of 100 m in 30 degrees of wind:

    >>> round(fujiwara_longitudinal(pi / 6, 100.0, 30.0, 900.0, 300.0, 100.0, 0.0, 4.5, 20.0), 3)
    -0.471
    """
    ship = ShipShape(length, beam, lateral_area, frontal_area, deck_structures, centroid, centroid_height, bridge_height, 1.0)
    return fujiwara(ship, wind_angle).longitudinal


@formula("C_Y", "1", "Fujiwara's regression over merchant ships", source=FUJIWARA, kind="table",
         valid="hulls over about 25 m, length over beam 4 to 9; a second opinion")  # fmt: skip
def fujiwara_side(
    wind_angle: Radian, length: Metre, beam: Metre, lateral_area: SquareMetre, frontal_area: SquareMetre,
    deck_structures: SquareMetre, centroid: Metre, centroid_height: Metre, bridge_height: Metre,
) -> Ratio:  # fmt: skip
    """Side force by Fujiwara, the coefficient.

    Parameters
    ----------
    wind_angle : Off the bow, either side. [rad]
    length : Over all. [m]
    beam : Largest. [m]
    lateral_area : Seen from the side. [m²]
    frontal_area : Seen from ahead. [m²]
    deck_structures : Lateral area of superstructure or deck structures. [m²]
    centroid : Of the lateral area, forward of amidships. [m]
    centroid_height : Of the lateral area above the waterline. [m]
    bridge_height : Top of the bridge above the waterline. [m]

    Examples
    --------
    A ship of 100 m in 30 degrees of wind:

    >>> round(fujiwara_side(pi / 6, 100.0, 30.0, 900.0, 300.0, 100.0, 0.0, 4.5, 20.0), 3)
    0.501
    """
    ship = ShipShape(length, beam, lateral_area, frontal_area, deck_structures, centroid, centroid_height, bridge_height, 1.0)
    return fujiwara(ship, wind_angle).side


@formula("C_N", "1", "Fujiwara's regression over merchant ships", source=FUJIWARA, kind="table",
         valid="hulls over about 25 m, length over beam 4 to 9; a second opinion")  # fmt: skip
def fujiwara_yaw(
    wind_angle: Radian, length: Metre, beam: Metre, lateral_area: SquareMetre, frontal_area: SquareMetre,
    deck_structures: SquareMetre, centroid: Metre, centroid_height: Metre, bridge_height: Metre,
) -> Ratio:  # fmt: skip
    """Yaw moment by Fujiwara, the coefficient.

    Parameters
    ----------
    wind_angle : Off the bow, either side. [rad]
    length : Over all. [m]
    beam : Largest. [m]
    lateral_area : Seen from the side. [m²]
    frontal_area : Seen from ahead. [m²]
    deck_structures : Lateral area of superstructure or deck structures. [m²]
    centroid : Of the lateral area, forward of amidships. [m]
    centroid_height : Of the lateral area above the waterline. [m]
    bridge_height : Top of the bridge above the waterline. [m]

    Examples
    --------
    A ship of 100 m in 30 degrees of wind:

    >>> round(fujiwara_yaw(pi / 6, 100.0, 30.0, 900.0, 300.0, 100.0, 0.0, 4.5, 20.0), 3)
    0.078
    """
    ship = ShipShape(length, beam, lateral_area, frontal_area, deck_structures, centroid, centroid_height, bridge_height, 1.0)
    return fujiwara(ship, wind_angle).yaw


def load(found: Coefficients, ship: ShipShape, wind_angle: Radian, pressure: Pascal) -> WindLoad:
    """Forces of a set of coefficients at a pressure, signs by where the wind blows to."""
    angle = signed_angle(wind_angle)
    side = pressure * found.side * ship.lateral_area * blown_towards(angle)
    place = found.yaw / found.side * ship.length if found.side else ship.centroid
    yaw: NewtonMetre = side * place
    return WindLoad(angle, pressure * found.longitudinal * ship.frontal_area, side, place, yaw, side * ship.centroid_height)


def outside(ship: ShipShape) -> tuple[str, ...]:
    """In words, what of a ship lies outside those the regressions were made from; empty where nothing does."""
    found = []
    if ship.length < SHORTEST:
        found.append(f"{ship.length:.1f} m long; the ships were far longer, look at it from {SHORTEST:g} m on")
    ratio = ship.length / ship.beam
    if not BEAMIEST <= ratio <= SLIMMEST:
        found.append(f"length over beam {ratio:.1f}; the ships had {BEAMIEST:g} to {SLIMMEST:g}")
    return tuple(found)
