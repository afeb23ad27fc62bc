"""Depth of a tunnel: cover over its roof, thrust lost near the surface, and the wall it needs.

Cover is counted at the lightest waterline, after the trim of the parts chosen. Harbour chop is tested separately, through the
factor on thrust.
"""

from __future__ import annotations

from math import sqrt
from typing import Literal

from athwart.explain import formula
from athwart.numerics.normal import normal_share
from athwart.thruster.water import RHO_SALT, G
from athwart.units.names import (
    KilogramPerCubicMetre,
    Metre,
    Newton,
    Ratio,
    RootNewtonPerCubicMetre,
)

CoverGrade = Literal["stop", "caution", "note", "good"]
HullMaterial = Literal["steel", "aluminium", "grp"]

COVER_STOP: Ratio = 0.5
COVER_CAUTION: Ratio = 0.75
COVER_NOTE: Ratio = 1.0
HULL_BELOW: Ratio = 0.1
"""Hull that should stay below the tunnel, in diameters."""
HARBOUR_CHOP: Metre = 0.15
CLASS_LEAST_DIAMETER: Metre = 1.0
CLASS_LOAD: RootNewtonPerCubicMetre = 15.2

STEEL_EXTRA: Metre = 0.002
STEEL_LEAST: Metre = 0.007
ALUMINIUM_EXTRA: Metre = 0.001
ALUMINIUM_LEAST: Metre = 0.008
GRP_LEAST: Metre = 0.008


@formula("c/D", "1", "(axis_depth - waterline_drop - diameter / 2) / diameter", source="own-arithmetic")
def cover_ratio(axis_depth: Metre, diameter: Metre, waterline_drop: Metre = 0.0) -> Ratio:
    """Water over the roof of a tunnel, in diameters; negative where the roof is out of the water.

    Parameters
    ----------
    axis_depth : Axis below the load waterline. [m]
    diameter : Of the tunnel. [m]
    waterline_drop : How much lower the waterline lies there in the lightest state, trim included. [m]

    Examples
    --------
    >>> round(cover_ratio(0.40, 0.185, 0.05), 2)
    1.39
    """
    if diameter <= 0.0:
        raise ValueError(f"a tunnel of {diameter:g} m diameter")
    return (axis_depth - waterline_drop - diameter / 2.0) / diameter


def cover_grade(ratio: Ratio) -> CoverGrade:
    """What a cover deserves: under half a diameter ``stop``, under three quarters ``caution``, under one ``note``.

    >>> [cover_grade(ratio) for ratio in (0.49, 0.5, 0.75, 1.0)]
    ['stop', 'caution', 'note', 'good']
    """
    if ratio < COVER_STOP:
        return "stop"
    if ratio < COVER_CAUTION:
        return "caution"
    return "note" if ratio < COVER_NOTE else "good"


@formula("d_max", "m", "(axis_depth - waterline_drop) / (0.5 + cover)", source="own-arithmetic")
def largest_diameter(axis_depth: Metre, cover: Ratio = COVER_STOP, waterline_drop: Metre = 0.0) -> Metre:
    """Largest tunnel with a given cover (in its own diameters) over an axis that is where it is.

    Parameters
    ----------
    axis_depth : Axis below the load waterline. [m]
    cover : Cover wanted, in diameters. [1]
    waterline_drop : How much lower the waterline lies there in the lightest state. [m]
    """
    if waterline_drop >= axis_depth:
        raise ValueError(
            f"the waterline drops {waterline_drop:g} m and the axis is {axis_depth:g} m deep: the axis is out of the water"
        )
    return (axis_depth - waterline_drop) / (0.5 + cover)


@formula("e/D", "1", "(hull_below_axis - diameter / 2) / diameter", source="own-arithmetic")
def hull_below_ratio(hull_below_axis: Metre, diameter: Metre) -> Ratio:
    """Hull left below a tunnel, in diameters; a tenth or more is wanted.

    Parameters
    ----------
    hull_below_axis : From the axis down to the keel line. [m]
    diameter : Of the tunnel. [m]
    """
    return (hull_below_axis - diameter / 2.0) / diameter


@formula(
    "β", "1", "1 - 0.675 * (1 - 0.769 * 2 * axis_depth / diameter) ** 1.258 if 2 * axis_depth / diameter < 1.3 else 1.0",
    source="minsaas-immersion", valid="axis below the surface; ventilation takes more",
)  # fmt: skip
def immersion_factor(axis_depth: Metre, diameter: Metre) -> Ratio:
    """Share of the thrust left when the axis is near the surface: loss of disc and making of waves.

    Parameters
    ----------
    axis_depth : Of the axis below the water as it stands. [m]
    diameter : Of the rotor. [m]

    Notes
    -----
    1 from 1.3 radii on. A disc that draws air loses more: 0.2 to 0.35 of the thrust is left.

    Examples
    --------
    Roof of the tunnel at the surface:

    >>> round(immersion_factor(0.10, 0.20), 3)
    0.893
    """
    if axis_depth < 0.0:
        raise ValueError(f"the axis is {-axis_depth:g} m out of the water: no thrust is computed")
    if 2.0 * axis_depth / diameter >= 1.3:
        return 1.0
    return float(1.0 - 0.675 * (1.0 - 0.769 * 2.0 * axis_depth / diameter) ** 1.258)


@formula("τ", "1", "thrust / (water_density * G * diameter ** 3)", source="own-arithmetic")
def surface_loading(thrust: Newton, diameter: Metre, water_density: KilogramPerCubicMetre = RHO_SALT) -> Ratio:
    """How hard a disc is loaded for its size under gravity: the harder, the sooner it draws air.

    Parameters
    ----------
    thrust : Of the unit. [N]
    diameter : Of the rotor. [m]
    water_density : Of the water. [kg/m³]
    """
    return thrust / (water_density * G * diameter**3)


@formula("q", "1", "sqrt(thrust / diameter ** 3) / CLASS_LOAD", source="dnv-st-0111")
def class_load_term(thrust: Newton, diameter: Metre) -> Ratio:
    """Loading term of the class rule for ventilation.

    Parameters
    ----------
    thrust : Of the unit. [N]
    diameter : Of the rotor. [m]
    """
    return sqrt(thrust / diameter**3) / CLASS_LOAD


@formula(
    "β", "1", "normal_share(4 * axis_depth / diameter - 1.5 * 0.25 * max(class_load_term(thrust, diameter) - 1, 0))",
    source="dnv-st-0111", valid="ship units of 1 m and more, calm water",
)  # fmt: skip
def class_ventilation_factor(thrust: Newton, diameter: Metre, axis_depth: Metre) -> Ratio:
    """Share of the thrust left by the class rule for ventilation, in calm water.

    Parameters
    ----------
    thrust : Of the unit. [N]
    diameter : Of the rotor. [m]
    axis_depth : Of the axis below the surface. [m]

    Notes
    -----
    The loading term has dimensions and was made for ship units; boat units, which are known to work, would come out at
    nothing. So under 1 m it is refused.

    Examples
    --------
    A real unit of 1 m, 1.06 diameters deep:

    >>> round(class_ventilation_factor(29_326.0, 1.0, 1.063), 2)
    0.66
    """
    if diameter < CLASS_LEAST_DIAMETER:
        raise ValueError(f"a rotor of {diameter:g} m; this rule was made for ship units of {CLASS_LEAST_DIAMETER:g} m and more")
    return normal_share(4.0 * axis_depth / diameter - 1.5 * 0.25 * max(class_load_term(thrust, diameter) - 1.0, 0.0))


@formula("t", "m", "max(shell + max(0.1 * shell, STEEL_EXTRA), STEEL_LEAST)", source="special-service-craft-rules",
         valid="steel hulls; guidance for a small yacht, a rule for a classed one")  # fmt: skip
def steel_wall(shell: Metre) -> Metre:
    """Wall of a steel tunnel by the shell beside it: a tenth or 2 mm more, 7 mm at least.

    Parameters
    ----------
    shell : Thickness of the plating beside it. [m]

    Examples
    --------
    >>> steel_wall(0.005), steel_wall(0.006)
    (0.007, 0.008)
    """
    return max(shell + max(0.1 * shell, STEEL_EXTRA), STEEL_LEAST)


@formula("t", "m", "max(shell + max(0.1 * shell, ALUMINIUM_EXTRA), ALUMINIUM_LEAST)", source="special-service-craft-rules",
         valid="aluminium hulls")  # fmt: skip
def aluminium_wall(shell: Metre) -> Metre:
    """Wall of an aluminium tunnel by the shell beside it: a tenth or 1 mm more, 8 mm at least.

    Parameters
    ----------
    shell : Thickness of the plating beside it. [m]
    """
    return max(shell + max(0.1 * shell, ALUMINIUM_EXTRA), ALUMINIUM_LEAST)


@formula("t", "m", "max(1.25 * shell, GRP_LEAST)", source="special-service-craft-rules", valid="fibre-reinforced plastic")
def grp_wall(shell: Metre) -> Metre:
    """Wall of a plastic tunnel by the shell beside it: a quarter more, 8 mm at least.

    Parameters
    ----------
    shell : Thickness of the shell beside it. [m]
    """
    return max(1.25 * shell, GRP_LEAST)


def tunnel_wall(shell: Metre, material: str) -> Metre:
    """Wall of a tunnel by hull material.

    Raises
    ------
    ValueError
        No rule for the material (a wooden hull takes a plastic tube, laid up to the yard's own judgement).
    """
    walls = {"steel": steel_wall, "aluminium": aluminium_wall, "grp": grp_wall}
    if material not in walls:
        raise ValueError(f"no wall rule for a hull of {material}; there is one for {', '.join(walls)}")
    return walls[material](shell)
