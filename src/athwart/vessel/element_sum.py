"""Wind loads as a sum over elements, each in the wind of its own height: the model for sailing yachts.

Rig and canvas decide the height and the area here, and no table of ships knows them. Every element gives its drag on the beam
by the sine and from ahead by the cosine of the wind angle; the hull's centre of pressure moves towards the wind as that of a
ship does, everything else stays in its place (both our judgement). Uncertainty: 20 % on the force, 15 % on its height.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, sin

from athwart.explain import formula
from athwart.units.names import Metre, Newton, Pascal, Radian, Ratio, SquareMetre
from athwart.vessel.blendermann import LEVER_SLOPE, yaw_moment
from athwart.vessel.loads import WindLoad, WindModel, blown_towards, signed_angle
from athwart.vessel.wind import DesignWind, dynamic_pressure
from athwart.vessel.windage import Windage, WindageElement

PressureAt = Callable[[Metre], Pascal]


@formula("C_D A", "m²", "drag_coefficient * length * diameter", source="yacht-design-textbook")
def drag_area_of_wire(drag_coefficient: Ratio, length: Metre, diameter: Metre) -> SquareMetre:
    """Drag area of rigging of one size.

    Parameters
    ----------
    drag_coefficient : Of a round wire or rod across the wind; 1.2. [1]
    length : All of that size together. [m]
    diameter : Of the wire. [m]

    Examples
    --------
    >>> round(drag_area_of_wire(1.2, 76.7, 0.008), 4)
    0.7363
    """
    return drag_coefficient * length * diameter


@formula("ΔY", "N", "pressure * drag_coefficient * area * sin(abs(wind_angle))", source="own-arithmetic")
def element_side_force(pressure: Pascal, drag_coefficient: Ratio, area: SquareMetre, wind_angle: Radian) -> Newton:
    """Side force on one element, without sign.

    Parameters
    ----------
    pressure : Dynamic pressure at its height. [Pa]
    drag_coefficient : On the beam. [1]
    area : Seen from the side. [m²]
    wind_angle : Off the bow. [rad]
    """
    return pressure * drag_coefficient * area * sin(abs(wind_angle))


@formula("ΔX", "N", "-pressure * drag_coefficient * area * cos(wind_angle)", source="own-arithmetic")
def element_longitudinal_force(pressure: Pascal, drag_coefficient: Ratio, area: SquareMetre, wind_angle: Radian) -> Newton:
    """Force along the boat on one element, forward positive.

    Parameters
    ----------
    pressure : Dynamic pressure at its height. [Pa]
    drag_coefficient : From ahead. [1]
    area : Seen from ahead. [m²]
    wind_angle : Off the bow. [rad]
    """
    return -pressure * drag_coefficient * area * cos(wind_angle)


def load(wind_angle: Radian, windage: Windage, pressure_at: PressureAt, *, cautious: bool = False) -> WindLoad:
    """Everything the wind does at one angle; ``cautious`` takes the upper drag where a kind has one."""
    angle = signed_angle(wind_angle)
    sign = blown_towards(angle)
    side = longitudinal = yaw = heel = 0.0
    for element in windage.elements:
        pressure = pressure_at(element.centroid_height)
        drag = element.shape.upper if cautious and element.shape.upper is not None else element.shape.beam
        force = sign * element_side_force(pressure, drag, element.lateral_area, angle)
        side += force
        yaw += yaw_moment(force, _place(element, angle, windage.length_overall))
        heel += force * element.centroid_height
        longitudinal += element_longitudinal_force(
            pressure_at(element.frontal_height), element.shape.ahead, element.frontal_area, angle
        )
    place = yaw / side if side else windage.centroid_x
    return WindLoad(angle, longitudinal, side, place, yaw, heel)


def model(windage: Windage, wind: DesignWind, *, cautious: bool = False) -> WindModel:
    """A silhouette in a design wind, as a function of the angle."""
    density = 2.0 * wind.pressure / wind.speed**2 if wind.speed else 0.0

    def pressure_at(height: Metre) -> Pascal:
        return dynamic_pressure(wind.speed_at(height), density)

    return lambda wind_angle: load(wind_angle, windage, pressure_at, cautious=cautious)


def _place(element: WindageElement, angle: Radian, length_overall: Metre) -> Metre:
    if element.kind != "hull":
        return element.centroid_x
    return element.centroid_x - LEVER_SLOPE * (abs(angle) - pi / 2.0) * (element.length or length_overall)
