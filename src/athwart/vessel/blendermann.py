"""Wind loads by Blendermann's five numbers for a kind of ship: the model for motor craft.

Ship models in a nearly uniform stream; the pressure to use is the mean over the silhouette's height. Accuracy of the side
force is of the order of 10 to 15 %. The angle enters as its absolute value; the side force then takes the sign it is blown
towards, and the yaw moment is that force at a lever. So no sign is left to doubt.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, pi, sin

from athwart.explain import formula
from athwart.units.names import Metre, Newton, NewtonMetre, Pascal, Radian, Ratio, SquareMetre
from athwart.vessel.loads import WindLoad, WindModel, blown_towards, signed_angle
from athwart.vessel.windage import Windage

SOURCE = "blendermann-1994"
LEVER_SLOPE: Ratio = 0.18
"""Share of the length the centre of pressure moves for each radian off the beam; 0.149 fits Fujiwara and a real 31 m vessel."""
ALL_ANGLES = "wind angles from -π to π off the bow"


@dataclass(frozen=True, slots=True)
class Row:
    """Coefficients of a kind of ship: side, ahead and astern drag, cross force, heel."""

    name: str
    transverse_drag: Ratio
    drag_ahead: Ratio
    drag_astern: Ratio
    cross_force: Ratio
    heel: Ratio
    note: str = ""


def _rows(*rows: Row) -> Mapping[str, Row]:
    return {row.name: row for row in rows}


ROWS = _rows(
    Row("car carrier", 0.95, 0.55, 0.60, 0.80, 1.2),
    Row("cargo ship, loaded", 0.85, 0.65, 0.55, 0.40, 1.7),
    Row("cargo ship, containers on deck", 0.85, 0.55, 0.50, 0.40, 1.4),
    Row("container ship", 0.90, 0.55, 0.55, 0.40, 1.4),
    Row("destroyer", 0.85, 0.60, 0.65, 0.65, 1.1),
    Row("diving support vessel", 0.90, 0.60, 0.80, 0.55, 1.7),
    Row("drilling vessel", 1.00, 0.85, 0.925, 0.10, 1.7, "middle of the ranges 0.70 to 1.00 ahead and 0.75 to 1.10 astern"),
    Row("ferry", 0.90, 0.45, 0.50, 0.80, 1.1),
    Row("fishing vessel", 0.95, 0.70, 0.70, 0.40, 1.1),
    Row("LNG tanker", 0.70, 0.60, 0.65, 0.50, 1.1),
    Row("offshore supply vessel", 0.90, 0.55, 0.80, 0.55, 1.2),
    Row("passenger liner", 0.90, 0.40, 0.40, 0.80, 1.2),
    Row("research vessel", 0.85, 0.55, 0.65, 0.60, 1.4),
    Row("speed boat", 0.90, 0.55, 0.60, 0.60, 1.1),
    Row("tanker, loaded", 0.70, 0.90, 0.55, 0.40, 3.1),
    Row("tanker, in ballast", 0.70, 0.75, 0.55, 0.40, 2.2),
    Row("tender", 0.85, 0.55, 0.55, 0.65, 1.1),
)
"""All seventeen rows, read twice in independent transcriptions (source: blendermann-1994)."""

ROW_OF_BOAT: Mapping[str, str] = {
    "motor yacht, displacement": "ferry",
    "motor yacht, planing": "speed boat",
    "passenger boat": "ferry",
    "workboat": "offshore supply vessel",
    "fishing boat": "fishing vessel",
    "trawler yacht": "fishing vessel",
    "pilot boat": "speed boat",
    "survey boat": "research vessel",
    "houseboat": "car carrier",
    "tender": "tender",
    "barge": "cargo ship, loaded",
}
"""Which row stands for which kind of boat (own judgement). A sailing yacht takes the sum of elements, a catamaran has no row."""


def row_for(boat_kind: str) -> Row:
    """The row of a kind of boat.

    Raises
    ------
    ValueError
        No row was made for ships like it.
    """
    try:
        return ROWS[ROW_OF_BOAT[boat_kind]]
    except KeyError:
        raise ValueError(f"no row of the table stands for a {boat_kind}; there is one for {', '.join(ROW_OF_BOAT)}") from None


@formula("C_Dl", "1", "frontal_drag * frontal_area / lateral_area", source=SOURCE)
def longitudinal_drag(frontal_drag: Ratio, frontal_area: SquareMetre, lateral_area: SquareMetre) -> Ratio:
    """Drag from ahead, referred to the area seen from the side.

    Parameters
    ----------
    frontal_drag : Drag on the area seen from ahead; the astern value for winds aft of the beam. [1]
    frontal_area : Area seen from ahead. [m²]
    lateral_area : Area seen from the side. [m²]
    """
    return frontal_drag * frontal_area / lateral_area


@formula("D", "1", "1 - cross_force / 2 * (1 - longitudinal_drag / transverse_drag) * sin(2 * wind_angle) ** 2", source=SOURCE)
def denominator(wind_angle: Radian, longitudinal_drag: Ratio, transverse_drag: Ratio, cross_force: Ratio) -> Ratio:
    """What the plain sine and cosine are divided by for an oblique wind; 1 from ahead and on the beam.

    Parameters
    ----------
    wind_angle : Off the bow. [rad]
    longitudinal_drag : Drag from ahead on the lateral area. [1]
    transverse_drag : Drag on the beam. [1]
    cross_force : Cross-force parameter of the row. [1]
    """
    return 1.0 - cross_force / 2.0 * (1.0 - longitudinal_drag / transverse_drag) * sin(2.0 * wind_angle) ** 2


@formula(
    "C_Y", "1",
    "transverse_drag * sin(abs(wind_angle)) / denominator(wind_angle, longitudinal_drag, transverse_drag, cross_force)",
    source=SOURCE, valid=ALL_ANGLES,
)  # fmt: skip
def side_coefficient(wind_angle: Radian, longitudinal_drag: Ratio, transverse_drag: Ratio, cross_force: Ratio) -> Ratio:
    """Coefficient of the side force, on the lateral area, without sign.

    Parameters
    ----------
    wind_angle : Off the bow. [rad]
    longitudinal_drag : Drag from ahead on the lateral area. [1]
    transverse_drag : Drag on the beam. [1]
    cross_force : Cross-force parameter of the row. [1]

    Examples
    --------
    A motor yacht of the speed-boat row, 45 degrees off the bow:

    >>> round(side_coefficient(pi / 4, 0.55 * 9.0 / 24.0, 0.90, 0.60), 3)
    0.828
    """
    _within_half_turn(wind_angle)
    return transverse_drag * sin(abs(wind_angle)) / denominator(wind_angle, longitudinal_drag, transverse_drag, cross_force)


@formula(
    "C_X", "1",
    "-frontal_drag * cos(wind_angle) / denominator(wind_angle, longitudinal_drag, transverse_drag, cross_force)",
    source=SOURCE, valid=ALL_ANGLES,
)  # fmt: skip
def longitudinal_coefficient(
    wind_angle: Radian, frontal_drag: Ratio, longitudinal_drag: Ratio, transverse_drag: Ratio, cross_force: Ratio
) -> Ratio:
    """Coefficient of the force along the boat, on the frontal area; negative is drag from ahead.

    Parameters
    ----------
    wind_angle : Off the bow. [rad]
    frontal_drag : Drag on the frontal area; the astern value for winds aft of the beam. [1]
    longitudinal_drag : The same referred to the lateral area. [1]
    transverse_drag : Drag on the beam. [1]
    cross_force : Cross-force parameter of the row. [1]
    """
    _within_half_turn(wind_angle)
    return -frontal_drag * cos(wind_angle) / denominator(wind_angle, longitudinal_drag, transverse_drag, cross_force)


@formula("x_w", "m", "centroid_x - lever_slope * (abs(wind_angle) - pi / 2) * length_overall", source=SOURCE, valid=ALL_ANGLES)
def place_of_side_force(wind_angle: Radian, centroid_x: Metre, length_overall: Metre, lever_slope: Ratio = LEVER_SLOPE) -> Metre:
    """Where along the boat the side force acts: forward of the centroid for a wind forward of the beam, aft of it for one aft.

    Parameters
    ----------
    wind_angle : Off the bow. [rad]
    centroid_x : Of the lateral area, from amidships. [m]
    length_overall : Of the hull. [m]
    lever_slope : Share of the length for each radian off the beam. [1]

    Notes
    -----
    0.18 is the cautious slope and the table's own; 0.149 is Fujiwara's and that of a published curve of a 31 m vessel.

    Examples
    --------
    Forty-five degrees off the bow, 12 m boat, centroid amidships:

    >>> round(place_of_side_force(pi / 4, 0.0, 12.0), 3)
    1.696
    """
    _within_half_turn(wind_angle)
    return centroid_x - lever_slope * (abs(wind_angle) - pi / 2.0) * length_overall


@formula("Y", "N", "pressure * coefficient * lateral_area", source=SOURCE)
def side_force(pressure: Pascal, coefficient: Ratio, lateral_area: SquareMetre) -> Newton:
    """Side force of the wind.

    Parameters
    ----------
    pressure : Mean dynamic pressure over the silhouette. [Pa]
    coefficient : Of the side force. [1]
    lateral_area : Area seen from the side. [m²]

    Examples
    --------
    48 m² on the beam in 20 kn (10.29 m/s), speed-boat row:

    >>> round(side_force(64.85, 0.90, 48.0))
    2802
    """
    return pressure * coefficient * lateral_area


@formula("X", "N", "pressure * coefficient * frontal_area", source=SOURCE)
def longitudinal_force(pressure: Pascal, coefficient: Ratio, frontal_area: SquareMetre) -> Newton:
    """Force of the wind along the boat, forward positive.

    Parameters
    ----------
    pressure : Mean dynamic pressure over the silhouette. [Pa]
    coefficient : Of the longitudinal force. [1]
    frontal_area : Area seen from ahead. [m²]
    """
    return pressure * coefficient * frontal_area


@formula("N", "N·m", "side_force * place", source=SOURCE)
def yaw_moment(side_force: Newton, place: Metre) -> NewtonMetre:
    """Yaw moment of the wind about amidships, positive bow to starboard.

    Parameters
    ----------
    side_force : Side force, to starboard positive. [N]
    place : Where it acts, forward of amidships positive. [m]
    """
    return side_force * place


@formula("C_N", "1", "side_coefficient * place / length_overall", source=SOURCE)
def yaw_coefficient(side_coefficient: Ratio, place: Metre, length_overall: Metre) -> Ratio:
    """Coefficient of the yaw moment, on lateral area and length.

    Parameters
    ----------
    side_coefficient : Of the side force. [1]
    place : Where the side force acts. [m]
    length_overall : Of the hull. [m]
    """
    return side_coefficient * place / length_overall


@formula("C_K", "1", "heel * centroid_height / mean_height * side_coefficient", source=SOURCE)
def heel_coefficient(heel: Ratio, centroid_height: Metre, mean_height: Metre, side_coefficient: Ratio) -> Ratio:
    """Coefficient of the heeling moment, on lateral area and mean height.

    Parameters
    ----------
    heel : Heel factor of the row. [1]
    centroid_height : Of the lateral area above the waterline. [m]
    mean_height : Lateral area over length. [m]
    side_coefficient : Of the side force. [1]
    """
    return heel * centroid_height / mean_height * side_coefficient


@formula("K", "N·m", "pressure * coefficient * lateral_area * mean_height", source=SOURCE)
def heeling_moment(pressure: Pascal, coefficient: Ratio, lateral_area: SquareMetre, mean_height: Metre) -> NewtonMetre:
    """Heeling moment of the wind about the waterline.

    Parameters
    ----------
    pressure : Mean dynamic pressure over the silhouette. [Pa]
    coefficient : Of the heeling moment. [1]
    lateral_area : Area seen from the side. [m²]
    mean_height : Lateral area over length. [m]
    """
    return pressure * coefficient * lateral_area * mean_height


def load(wind_angle: Radian, row: Row, windage: Windage, pressure: Pascal, lever_slope: Ratio = LEVER_SLOPE) -> WindLoad:
    """Everything the wind does at one angle, with the signs of the axes."""
    angle = signed_angle(wind_angle)
    frontal_drag = row.drag_ahead if abs(angle) <= pi / 2.0 else row.drag_astern
    along = longitudinal_drag(frontal_drag, windage.frontal_area, windage.lateral_area)
    sideways = side_coefficient(angle, along, row.transverse_drag, row.cross_force)
    ahead = longitudinal_coefficient(angle, frontal_drag, along, row.transverse_drag, row.cross_force)
    side = blown_towards(angle) * side_force(pressure, sideways, windage.lateral_area)
    place = place_of_side_force(angle, windage.centroid_x, windage.length_overall, lever_slope)
    heel = heel_coefficient(row.heel, windage.centroid_height, windage.mean_height, sideways)
    return WindLoad(
        angle,
        longitudinal_force(pressure, ahead, windage.frontal_area),
        side,
        place,
        yaw_moment(side, place),
        blown_towards(angle) * heeling_moment(pressure, heel, windage.lateral_area, windage.mean_height),
    )


def model(row: Row, windage: Windage, pressure: Pascal, lever_slope: Ratio = LEVER_SLOPE) -> WindModel:
    """A silhouette in a given wind, as a function of the angle."""
    return lambda wind_angle: load(wind_angle, row, windage, pressure, lever_slope)


def _within_half_turn(wind_angle: Radian) -> None:
    if abs(wind_angle) > pi * (1.0 + 1e-12):
        raise ValueError(f"a wind angle of {wind_angle:g} rad; angles run from -π to π off the bow")
