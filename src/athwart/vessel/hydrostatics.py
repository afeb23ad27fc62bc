"""What weight in the bow does: waterplane, trim, sinkage, and the buoyancy a tunnel takes away. Closed forms for small changes.

Moments of weights are mass times length (kg·m), so the moment that trims the boat by one metre is a mass. One tonne-metre per
centimetre is 100 000 kg.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import asin, pi

from athwart.explain import formula
from athwart.units.names import (
    CubicMetrePerKilogram,
    Kilogram,
    KilogramPerCubicMetre,
    KilogramPerMetre,
    Metre,
    MetreFourth,
    MetrePerSecondSquared,
    NewtonMetre,
    Radian,
    Ratio,
    SquareMetre,
)

G: MetrePerSecondSquared = 9.80665
RHO_SALT: KilogramPerCubicMetre = 1025.0
RHO_FRESH: KilogramPerCubicMetre = 1000.0
INCH_TRIM_RULE: CubicMetrePerKilogram = 6.967e-5
LEAST_WATERPLANE: Ratio = 0.5
TRANSOM_FLOTATION: Ratio = 0.045
"""Centre of flotation aft of midships of a boat with a transom, as a share of the waterline (0.03 to 0.06, from memory)."""


@formula("C_IL", "1", "waterplane_coefficient / (12 * (3 - 2 * waterplane_coefficient))", source="waterplane-closed-form",
         valid="waterplane coefficient 0.5 to 1")  # fmt: skip
def inertia_coefficient(waterplane_coefficient: Ratio) -> Ratio:
    """Longitudinal inertia of the waterplane as a share of breadth times length cubed.

    Exact for a half-breadth that falls off from amidships by a power of the distance; 1/12 for a box.

    Parameters
    ----------
    waterplane_coefficient : Waterplane area over length times breadth. [1]

    Examples
    --------
    >>> round(inertia_coefficient(0.70), 4), round(inertia_coefficient(1.0), 4)
    (0.0365, 0.0833)
    """
    if not LEAST_WATERPLANE <= waterplane_coefficient <= 1.0:
        raise ValueError(f"a waterplane coefficient of {waterplane_coefficient:g}; allowed are {LEAST_WATERPLANE:g} to 1")
    return waterplane_coefficient / (12.0 * (3.0 - 2.0 * waterplane_coefficient))


@formula(
    "I_L", "m⁴", "inertia_coefficient(waterplane_coefficient) * beam * length_waterline ** 3", source="waterplane-closed-form"
)
def longitudinal_inertia(waterplane_coefficient: Ratio, beam: Metre, length_waterline: Metre) -> MetreFourth:
    """Inertia of the waterplane about the transverse axis through its centre.

    Parameters
    ----------
    waterplane_coefficient : Waterplane area over length times breadth. [1]
    beam : Breadth at the waterline. [m]
    length_waterline : Length at the waterline. [m]
    """
    return inertia_coefficient(waterplane_coefficient) * beam * length_waterline**3


@formula("A_w", "m²", "waterplane_coefficient * length_waterline * beam", source="own-arithmetic")
def waterplane_area(waterplane_coefficient: Ratio, beam: Metre, length_waterline: Metre) -> SquareMetre:
    """Area of the waterplane.

    Parameters
    ----------
    waterplane_coefficient : Waterplane area over length times breadth. [1]
    beam : Breadth at the waterline. [m]
    length_waterline : Length at the waterline. [m]
    """
    return waterplane_coefficient * length_waterline * beam


@formula("MCT", "kg", "water_density * inertia / length_waterline", source="mariners-formulae",
         valid="small trim; the height of the centre of gravity neglected against the metacentric radius")  # fmt: skip
def moment_to_trim(water_density: KilogramPerCubicMetre, inertia: MetreFourth, length_waterline: Metre) -> Kilogram:
    """Moment (mass times length) that trims the boat by one metre over its waterline.

    Parameters
    ----------
    water_density : Of the water. [kg/m³]
    inertia : Of the waterplane about its transverse axis. [m⁴]
    length_waterline : Length at the waterline. [m]

    Examples
    --------
    A 20 by 6 m box in salt water, in tonne-metres per centimetre:

    >>> round(moment_to_trim(1025.0, 6.0 * 20.0**3 / 12.0, 20.0) / 1e5, 2)
    2.05
    """
    return water_density * inertia / length_waterline


@formula("TPM", "kg/m", "water_density * waterplane_area", source="mariners-formulae")
def mass_to_sink(water_density: KilogramPerCubicMetre, waterplane_area: SquareMetre) -> KilogramPerMetre:
    """Mass that sinks the boat by one metre; ten tonnes a metre are 0.1 t/cm.

    Parameters
    ----------
    water_density : Of the water. [kg/m³]
    waterplane_area : Area at the waterline. [m²]
    """
    return water_density * waterplane_area


@formula("MCT", "kg", "INCH_TRIM_RULE * mass_to_sink ** 2 / beam", source="nicholls-seamanship",
         valid="a second opinion; ordinary ship forms")  # fmt: skip
def moment_to_trim_by_rule(mass_to_sink: KilogramPerMetre, beam: Metre) -> Kilogram:
    """Moment that trims the boat by one metre, by the seaman's rule 30 T²/B.

    Parameters
    ----------
    mass_to_sink : Mass that sinks the boat by one metre. [kg/m]
    beam : Breadth. [m]
    """
    return INCH_TRIM_RULE * mass_to_sink**2 / beam


@formula("t", "m", "mass * (place - flotation) / moment_to_trim", source="mariners-formulae", valid="small weights")
def trim(mass: Kilogram, place: Metre, flotation: Metre, moment_to_trim: Kilogram) -> Metre:
    """Change of trim over the waterline by a weight put aboard; by the bow positive.

    Parameters
    ----------
    mass : Put aboard. [kg]
    place : Where, from amidships. [m]
    flotation : Centre of flotation, from amidships. [m]
    moment_to_trim : Moment that trims by one metre. [kg]

    Examples
    --------
    500 kg put 8 m forward in a box of 20 by 6 m, in centimetres:

    >>> round(100 * trim(500.0, 8.0, 0.0, 205_000.0), 3)
    1.951
    """
    return mass * (place - flotation) / moment_to_trim


@formula("s", "m", "mass / mass_to_sink", source="mariners-formulae", valid="small weights")
def sinkage(mass: Kilogram, mass_to_sink: KilogramPerMetre) -> Metre:
    """Parallel sinkage by a weight put aboard.

    Parameters
    ----------
    mass : Put aboard. [kg]
    mass_to_sink : Mass that sinks the boat by one metre. [kg/m]
    """
    return mass / mass_to_sink


@formula("ΔT(x)", "m", "sinkage + trim * (at - flotation) / length_waterline", source="mariners-formulae")
def draught_change(sinkage: Metre, trim: Metre, at: Metre, flotation: Metre, length_waterline: Metre) -> Metre:
    """How much deeper the boat lies at a place.

    Parameters
    ----------
    sinkage : Parallel sinkage. [m]
    trim : Change of trim over the waterline, by the bow positive. [m]
    at : Place asked, from amidships. [m]
    flotation : Centre of flotation, from amidships. [m]
    length_waterline : Length at the waterline. [m]
    """
    return sinkage + trim * (at - flotation) / length_waterline


@formula("Δ_t", "kg", "pi / 4 * diameter ** 2 * length * water_density", source="own-arithmetic")
def lost_buoyancy(diameter: Metre, length: Metre, water_density: KilogramPerCubicMetre = RHO_SALT) -> Kilogram:
    """Buoyancy a flooded tunnel takes away, as a mass put at its place.

    Parameters
    ----------
    diameter : Of the tunnel. [m]
    length : Of the tunnel between its ends. [m]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(lost_buoyancy(0.185, 1.2), 1)
    33.1
    """
    return pi / 4.0 * diameter**2 * length * water_density


def _moment(half_breadths: Sequence[tuple[Metre, Metre]], power: int) -> float:
    """Both sides' integral of breadth times place to a power; straight lines between stations, so Simpson's rule is exact."""
    if len(half_breadths) < 2 or any(b[0] <= a[0] for a, b in pairwise(half_breadths)):
        raise ValueError("a waterline needs two stations or more, each further along the boat than the one before")
    if min(y for _, y in half_breadths) < 0.0:
        raise ValueError("a half breadth is measured from the centre line: nought or more")
    total = 0.0
    for (a, ya), (b, yb) in pairwise(half_breadths):
        middle, ym = 0.5 * (a + b), 0.5 * (ya + yb)
        total += (b - a) / 3.0 * (ya * a**power + 4.0 * ym * middle**power + yb * b**power)
    return total


@formula("A_w", "m²", "2 ∫ y dx, straight lines between stations", source="own-arithmetic", kind="table")
def area_from_offsets(half_breadths: Sequence[tuple[Metre, Metre]]) -> SquareMetre:
    """Area of a waterplane from its half breadths.

    Parameters
    ----------
    half_breadths : Place from amidships and half breadth there, going forward. [m]

    Examples
    --------
    A box of 20 by 6 m:

    >>> area_from_offsets(((-10.0, 3.0), (10.0, 3.0)))
    120.0
    """
    return _moment(half_breadths, 0)


@formula("x_F", "m", "∫ x y dx / ∫ y dx, straight lines between stations", source="own-arithmetic", kind="table")
def flotation_from_offsets(half_breadths: Sequence[tuple[Metre, Metre]]) -> Metre:
    """Centre of flotation from the half breadths of a waterplane, from amidships.

    Parameters
    ----------
    half_breadths : Place from amidships and half breadth there, going forward. [m]

    Examples
    --------
    A triangle nine metres long, its base aft:

    >>> flotation_from_offsets(((0.0, 2.0), (9.0, 0.0)))
    3.0
    """
    return _moment(half_breadths, 1) / _moment(half_breadths, 0)


@formula("I_L", "m⁴", "2 ∫ (x - x_F)² y dx, straight lines between stations", source="own-arithmetic", kind="table")
def inertia_from_offsets(half_breadths: Sequence[tuple[Metre, Metre]]) -> MetreFourth:
    """Inertia of a waterplane about the transverse axis through its centre of flotation, from its half breadths.

    Parameters
    ----------
    half_breadths : Place from amidships and half breadth there, going forward. [m]

    Examples
    --------
    >>> inertia_from_offsets(((-10.0, 3.0), (10.0, 3.0)))
    4000.0
    """
    area = _moment(half_breadths, 0)
    return _moment(half_breadths, 2) - _moment(half_breadths, 1) ** 2 / area


@dataclass(frozen=True, slots=True)
class Waterplane:
    """The waterplane of a boat; ``flotation`` from amidships, aft negative; ``offsets`` rule where they are given."""

    length_waterline: Metre
    beam: Metre
    coefficient: Ratio
    flotation: Metre = 0.0
    water_density: KilogramPerCubicMetre = RHO_SALT
    offsets: tuple[tuple[Metre, Metre], ...] = ()

    @property
    def to_sink(self) -> KilogramPerMetre:
        """Mass that sinks the boat by one metre."""
        if self.offsets:
            return mass_to_sink(self.water_density, area_from_offsets(self.offsets))
        return mass_to_sink(self.water_density, waterplane_area(self.coefficient, self.beam, self.length_waterline))

    @property
    def to_trim(self) -> Kilogram:
        """Moment that trims the boat by one metre."""
        if self.offsets:
            inertia = inertia_from_offsets(self.offsets)
        else:
            inertia = longitudinal_inertia(self.coefficient, self.beam, self.length_waterline)
        return moment_to_trim(self.water_density, inertia, self.length_waterline)


@formula("φ", "rad", "asin(heeling_moment / (displacement * G * metacentric_height))", source="mariners-formulae",
         valid="small angles, up to about ten degrees")  # fmt: skip
def heel(heeling_moment: NewtonMetre, displacement: Kilogram, metacentric_height: Metre) -> Radian:
    """Heel under a steady moment.

    Parameters
    ----------
    heeling_moment : About the centre of what resists sideways. [N·m]
    displacement : Of the boat. [kg]
    metacentric_height : Transverse, upright. [m]

    Examples
    --------
    2 kN of wind 2 m above the water's resistance on 11 t with 0.9 m, in degrees:

    >>> round(heel(4000.0, 11_000.0, 0.9) * 180.0 / pi, 2)
    2.36
    """
    sine = heeling_moment / (displacement * G * metacentric_height)
    if abs(sine) > 0.5:
        raise ValueError(f"a heel of more than 30 degrees ({heeling_moment:g} N·m): the boat's stability is outside this formula")
    return asin(sine)


@dataclass(frozen=True, slots=True)
class Weight:
    """A mass put aboard (or taken off: negative) at a place from amidships."""

    name: str
    mass: Kilogram
    place: Metre


@dataclass(frozen=True, slots=True)
class Floating:
    """How the boat lies after weights were put aboard: more than before is positive."""

    mass: Kilogram
    sinkage: Metre
    trim: Metre
    waterplane: Waterplane

    def deeper_at(self, place: Metre) -> Metre:
        """How much deeper she lies at a place."""
        plane = self.waterplane
        return draught_change(self.sinkage, self.trim, place, plane.flotation, plane.length_waterline)

    @property
    def bow(self) -> Metre:
        """At the forward end of the waterline."""
        return self.deeper_at(0.5 * self.waterplane.length_waterline)

    @property
    def stern(self) -> Metre:
        """At the after end of the waterline."""
        return self.deeper_at(-0.5 * self.waterplane.length_waterline)


def with_weights(waterplane: Waterplane, weights: Sequence[Weight]) -> Floating:
    """Sinkage and trim by several weights: they add, each by the closed forms above."""
    to_sink, to_trim = waterplane.to_sink, waterplane.to_trim
    return Floating(
        sum(weight.mass for weight in weights),
        sum(sinkage(weight.mass, to_sink) for weight in weights),
        sum(trim(weight.mass, weight.place, waterplane.flotation, to_trim) for weight in weights),
        waterplane,
    )
