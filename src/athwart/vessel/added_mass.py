"""Inertia of a hull in water: the water that moves with her, her own mass, and both as one matrix.

Strip values for sway and yaw, a regression for surge. The regression for ships (Clarke) is kept as a cross-check only: for beamy
boats its yaw inertia falls below nought.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from athwart.errors import NotComputed
from athwart.explain import formula
from athwart.units.names import (
    CubicMetre,
    Kilogram,
    KilogramPerCubicMetre,
    KilogramSquareMetre,
    Metre,
    MetrePerSecond,
    NewtonMetre,
    Ratio,
)
from athwart.vessel.hydrostatics import RHO_SALT

GYRATION: Ratio = 0.25
"""Radius of gyration in yaw as a share of length, small vessels."""
YAW_ADDED_RADIUS: Ratio = 0.21
"""Radius of the added inertia in yaw over length for fine ends; about 0.29 for boxes (own judgement, four published models)."""
END_FACTOR: Ratio = 0.9
"""Loss of the strip value by flow round the ends, length over draught of 12 to 20 (from memory)."""
CLARKE_BEAM_MOST: Ratio = 0.25
MUNK_SHARE: Ratio = 0.6
"""Share of the ideal Munk moment that a stern with skeg and rudder leaves (own judgement)."""


@formula("m_11", "kg", "2.7 * water_density * volume ** (5 / 3) / length ** 2", source="marine-systems-simulator")
def surge_added_mass(volume: CubicMetre, length: Metre, water_density: KilogramPerCubicMetre = RHO_SALT) -> Kilogram:
    """Added mass ahead and astern, by Söding.

    Parameters
    ----------
    volume : Of displacement. [m³]
    length : At the waterline. [m]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(surge_added_mass(16_000.0, 100.0) / 1e3, 1)
    2811.6
    """
    return float(2.7 * water_density * volume ** (5.0 / 3.0) / length**2)


@formula("m_22", "kg", "END_FACTOR * shape * water_density * pi / 2 * draught ** 2 * length", source="strip-added-mass",
         valid="one draught over the length")  # fmt: skip
def sway_added_mass(
    draught: Metre, length: Metre, shape: Ratio = 1.0, water_density: KilogramPerCubicMetre = RHO_SALT
) -> Kilogram:
    """Added mass sideways of a hull of one draught.

    Parameters
    ----------
    draught : Of the hull proper, without fins. [m]
    length : At the waterline. [m]
    shape : 1.0 usual, 0.8 V sections, 1.3 boxes. [1]
    water_density : Of the water. [kg/m³]
    """
    return END_FACTOR * shape * water_density * pi / 2.0 * draught**2 * length


@formula("m_fin", "kg", "water_density * pi / 4 * chord ** 2 * span * 2 * span / sqrt(4 * span ** 2 + chord ** 2)",
         source="strip-added-mass")  # fmt: skip
def fin_added_mass(chord: Metre, span: Metre, water_density: KilogramPerCubicMetre = RHO_SALT) -> Kilogram:
    """Added mass sideways of a fin under the hull, which mirrors it.

    Parameters
    ----------
    chord : Its length along the boat. [m]
    span : Its depth below the hull. [m]
    water_density : Of the water. [kg/m³]
    """
    return water_density * pi / 4.0 * chord**2 * span * 2.0 * span / sqrt(4.0 * span**2 + chord**2)


@formula("J_66", "kg·m²", "sway_added_mass * (radius * length) ** 2", source="own-judgement")
def yaw_added_inertia(sway_added_mass: Kilogram, length: Metre, radius: Ratio = YAW_ADDED_RADIUS) -> KilogramSquareMetre:
    """Added inertia in yaw from the added mass sideways.

    Parameters
    ----------
    sway_added_mass : Of the hull. [kg]
    length : At the waterline. [m]
    radius : Radius over length: 0.21 fine ends, 0.29 boxes. [1]
    """
    return sway_added_mass * (radius * length) ** 2


@formula("I_z", "kg·m²", "mass * (radius * length) ** 2", source="marine-systems-simulator")
def yaw_inertia(mass: Kilogram, length: Metre, radius: Ratio = GYRATION) -> KilogramSquareMetre:
    """Inertia of the boat herself in yaw.

    Parameters
    ----------
    mass : Displacement. [kg]
    length : At the waterline. [m]
    radius : Radius of gyration over length. [1]
    """
    return mass * (radius * length) ** 2


@formula("b", "1", "1 / 12 + 0.017 * block_coefficient * beam_over_draught - 0.33 * beam_over_length", source="clarke-1983",
         valid="beam over length under 0.25; a cross-check for hulls over 25 m")  # fmt: skip
def clarke_yaw_bracket(block_coefficient: Ratio, beam_over_draught: Ratio, beam_over_length: Ratio) -> Ratio:
    """What Clarke's regression leaves of the yaw inertia's leading term; below nought it has left its ships behind.

    Parameters
    ----------
    block_coefficient : Volume over length, beam and draught. [1]
    beam_over_draught : Of the hull. [1]
    beam_over_length : Of the hull. [1]

    Examples
    --------
    >>> [round(clarke_yaw_bracket(0.4, 4.0, ratio), 4) for ratio in (0.25, 0.33, 0.4)]
    [0.028, 0.0016, -0.0215]
    """
    return 1.0 / 12.0 + 0.017 * block_coefficient * beam_over_draught - 0.33 * beam_over_length


def clarke_yaw_added_inertia(
    block_coefficient: Ratio, beam: Metre, draught: Metre, length: Metre, water_density: KilogramPerCubicMetre = RHO_SALT
) -> KilogramSquareMetre:
    """Added inertia in yaw by Clarke's regression: a cross-check.

    Raises
    ------
    NotComputed
        Too beamy a boat: the regression holds under a beam of a quarter of the length.
    """
    if beam / length >= CLARKE_BEAM_MOST:
        raise NotComputed(
            f"Clarke's regression wants a beam under {CLARKE_BEAM_MOST:g} of the length; here it is {beam / length:.2f}"
        )
    bracket = clarke_yaw_bracket(block_coefficient, beam / draught, beam / length)
    return bracket * pi * (draught / length) ** 2 * 0.5 * water_density * length**5


@formula("N_M", "N·m", "-MUNK_SHARE * (sway_added_mass - surge_added_mass) * surge_speed * sway_speed", source="own-judgement",
         valid="low speed")  # fmt: skip
def munk_moment(
    surge_added_mass: Kilogram, sway_added_mass: Kilogram, surge_speed: MetrePerSecond, sway_speed: MetrePerSecond
) -> NewtonMetre:
    """Moment that turns a boat going obliquely further across her way, less what a skeg takes back.

    Parameters
    ----------
    surge_added_mass : Ahead. [kg]
    sway_added_mass : Sideways. [kg]
    surge_speed : Through the water, ahead. [m/s]
    sway_speed : Through the water, to starboard. [m/s]
    """
    return -MUNK_SHARE * (sway_added_mass - surge_added_mass) * surge_speed * sway_speed


# ---- one matrix


@dataclass(frozen=True, slots=True)
class Inertia:
    """Mass and added mass in surge, sway and yaw; ``cross`` couples sway and yaw where the hull is not alike fore and aft.

    Built once a hull; refuses what no body can have.
    """

    mass: Kilogram
    surge_added: Kilogram
    sway_added: Kilogram
    yaw: KilogramSquareMetre
    yaw_added: KilogramSquareMetre
    cross: float = 0.0  # kg·m

    def __post_init__(self) -> None:
        if not self.is_positive_definite:
            raise NotComputed(
                f"an inertia that no body has: surge {self.surge:.4g} kg, sway {self.sway:.4g} kg, yaw {self.turning:.4g} kg·m², "
                f"coupling {self.cross:.4g} kg·m"
            )

    @property
    def surge(self) -> Kilogram:
        """Ahead, water included."""
        return self.mass + self.surge_added

    @property
    def sway(self) -> Kilogram:
        """Sideways, water included."""
        return self.mass + self.sway_added

    @property
    def turning(self) -> KilogramSquareMetre:
        """In yaw, water included."""
        return self.yaw + self.yaw_added

    @property
    def is_positive_definite(self) -> bool:
        """Whether every motion has a kinetic energy above nought."""
        return self.surge > 0.0 and self.sway > 0.0 and self.sway * self.turning > self.cross**2


def first_pivot(inertia: Inertia, place: Metre) -> Metre:
    """Where a boat at rest turns about in the first instant of a side force at ``place``; aft of amidships negative.

    >>> round(first_pivot(Inertia(1000.0, 0.0, 0.0, 1000.0 * 9.0, 0.0), 5.4), 4)
    -1.6667
    """
    return -(inertia.turning - inertia.cross * place) / (inertia.sway * place - inertia.cross)


def strip_moments(
    stations: tuple[tuple[Metre, Metre, Metre], ...], shape: Ratio, water_density: KilogramPerCubicMetre
) -> tuple[Kilogram, float, KilogramSquareMetre]:
    """Added mass sideways, its first and second moment amidships, of pieces (start, end, draught)."""
    m0 = m1 = m2 = 0.0
    for start, end, draught in stations:
        per_metre = END_FACTOR * shape * water_density * pi / 2.0 * draught**2
        m0 += per_metre * (end - start)
        m1 += per_metre * (end**2 - start**2) / 2.0
        m2 += per_metre * (end**3 - start**3) / 3.0
    return m0, m1, m2
