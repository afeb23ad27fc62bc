"""What a tunnel costs: entry, walls, leg and grids as a sum of loss coefficients, and the length a tunnel should have."""

from __future__ import annotations

from math import sin
from typing import Literal

from athwart.explain import formula
from athwart.numerics.tables import interpolate
from athwart.thruster.disc import disc_area
from athwart.thruster.water import RHO_SALT
from athwart.units.names import KilogramPerCubicMetre, Metre, Newton, Radian, Ratio, Watt

JET: Ratio = 1.0
WALL_FRICTION: Ratio = 0.02
LEG: Ratio = 0.15
"""Of the gear leg and hub; 0.1 to 0.3."""
ROTOR_EFFICIENCY: Ratio = 0.6
ENTRY_CONSTANT_BEYOND: Ratio = 0.15
LEAST_ROUNDING: Ratio = 0.05
GOOD_ROUNDING: Ratio = 0.10
SHORTEST: Ratio = 1.0
BEST: tuple[Ratio, Ratio] = (2.0, 4.0)
LONGEST: Ratio = 7.0

ENTRY_CRANE = ((0.0, 0.5), (0.02, 0.28), (0.04, 0.24), (0.06, 0.15), (0.10, 0.09), (0.15, 0.04))
ENTRY_IDELCHIK = (
    (0.0, 0.5), (0.01, 0.44), (0.02, 0.37), (0.03, 0.31), (0.04, 0.26), (0.05, 0.22), (0.06, 0.20), (0.08, 0.15),
    (0.12, 0.09), (0.16, 0.06), (0.20, 0.03),
)  # fmt: skip
CONE_LOSS: Ratio = 0.345
"""Entry loss of a cone wider than a tenth: from the class rule's thrust of a coned over that of a rounded tunnel."""
REFERENCE_LOSSES: Ratio = JET + 0.09 + 3.0 * WALL_FRICTION + LEG
"""Three diameters long, ends rounded by a tenth of the diameter, no grid."""
USUAL_GRID: Ratio = 2.0 * 0.1642
"""Round bars of 10 mm with gaps of 60 mm over both ends: what a grid is taken for that nobody has measured."""
BARS = {"round": 1.79, "flat": 2.42}
"""Shape factors of grid bars (from memory)."""

Bars = Literal["round", "flat"]


@formula("K_in", "1", "entry loss by rounding radius over diameter, first table", source="entry-loss-tables", kind="table",
         valid="0 and more; 0.04 from 0.15 on")  # fmt: skip
def entry_loss(radius_ratio: Ratio) -> Ratio:
    """Loss coefficient of an entry by its rounding.

    Parameters
    ----------
    radius_ratio : Rounding radius over diameter. [1]

    Notes
    -----
    The table itself says that the last value holds for every larger radius. Between its points: straight lines.

    Examples
    --------
    >>> entry_loss(0.0), round(entry_loss(0.05), 3), entry_loss(0.3)
    (0.5, 0.195, 0.04)
    """
    if radius_ratio < 0.0:
        raise ValueError(f"a radius of {radius_ratio:g} diameters")
    if radius_ratio >= ENTRY_CONSTANT_BEYOND:
        return ENTRY_CRANE[-1][1]
    return interpolate(ENTRY_CRANE, radius_ratio)


@formula("K_in", "1", "entry loss by rounding radius over diameter, second table", source="entry-loss-tables", kind="table",
         valid="0 to 0.20")  # fmt: skip
def entry_loss_second_table(radius_ratio: Ratio) -> Ratio:
    """The same by another handbook: shows how sure the figure is.

    Parameters
    ----------
    radius_ratio : Rounding radius over diameter. [1]

    Examples
    --------
    >>> entry_loss_second_table(0.05)
    0.22
    """
    return interpolate(ENTRY_IDELCHIK, radius_ratio)


@formula("K_grid", "1", "shape_factor * (bar_thickness / gap) ** (4 / 3) * sin(inclination)", source="grid-loss-kirschmer",
         valid="clean grid of parallel bars; each end of the tunnel counts")  # fmt: skip
def grid_loss(shape_factor: Ratio, bar_thickness: Metre, gap: Metre, inclination: Radian) -> Ratio:
    """Loss coefficient of a grid of bars at one end.

    Parameters
    ----------
    shape_factor : 1.79 round bars, 2.42 flat bars. [1]
    bar_thickness : Across the flow. [m]
    gap : Clear between two bars. [m]
    inclination : Of the bars to the flow; a right angle across the tunnel. [rad]

    Examples
    --------
    Round bars of 10 mm with gaps of 60 mm:

    >>> round(grid_loss(1.79, 0.010, 0.060, 1.5707963), 4)
    0.1642
    """
    return float(shape_factor * (bar_thickness / gap) ** (4.0 / 3.0) * sin(inclination))


@formula("ΣK", "1", "JET + entry + WALL_FRICTION * length / diameter + leg + grids", source="own-arithmetic")
def loss_sum(entry: Ratio, length: Metre, diameter: Metre, leg: Ratio = LEG, grids: Ratio = 0.0) -> Ratio:
    """Sum of the loss coefficients of a tunnel, the jet's own energy included.

    Parameters
    ----------
    entry : Of the entry. [1]
    length : Of the tunnel. [m]
    diameter : Of the tunnel. [m]
    leg : Of the gear leg and hub. [1]
    grids : Of the grids at both ends together. [1]

    Examples
    --------
    The reference tunnel: three diameters long, rounded by a tenth of the diameter, no grid:

    >>> round(loss_sum(entry_loss(0.10), 0.6, 0.2), 2)
    1.3
    """
    return JET + entry + WALL_FRICTION * length / diameter + leg + grids


@formula("T", "N",
         "(water_density * disc_area(diameter)) ** (1 / 3) * (2 * rotor_efficiency * power / losses) ** (2 / 3)",
         source="own-arithmetic")  # fmt: skip
def thrust_with_losses(
    power: Watt, diameter: Metre, losses: Ratio, rotor_efficiency: Ratio = ROTOR_EFFICIENCY,
    water_density: KilogramPerCubicMetre = RHO_SALT,
) -> Newton:  # fmt: skip
    """Thrust of a tunnel unit from shaft power, standing still.

    Parameters
    ----------
    power : At the shaft. [W]
    diameter : Of the tunnel. [m]
    losses : Sum of the loss coefficients; 1 for the ideal tunnel. [1]
    rotor_efficiency : Share of the shaft power that goes into the flow. [1]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(thrust_with_losses(4000.0, 0.185, 1.30))
    722
    """
    return float((water_density * disc_area(diameter)) ** (1.0 / 3.0) * (2.0 * rotor_efficiency * power / losses) ** (2.0 / 3.0))


@formula("T/T_0", "1", "(reference_losses / losses) ** (2 / 3)", source="own-arithmetic")
def thrust_share(losses: Ratio, reference_losses: Ratio) -> Ratio:
    """Thrust of a tunnel over that of another, at the same shaft power.

    Parameters
    ----------
    losses : Sum of the loss coefficients of the tunnel. [1]
    reference_losses : Of the tunnel compared with. [1]

    Examples
    --------
    A sharp entry instead of a rounded one:

    >>> round(thrust_share(1.71, 1.30), 3)
    0.833
    """
    return float((reference_losses / losses) ** (2.0 / 3.0))


@formula("k_t", "1", "min(1, thrust_share(losses, REFERENCE_LOSSES))", source="own-arithmetic",
         valid="catalogue thrust taken as that of the reference tunnel; no tunnel is credited with more")  # fmt: skip
def tunnel_factor(losses: Ratio) -> Ratio:
    """Share of a catalogue's thrust that is left in a tunnel with given losses.

    A catalogue states thrust in a good tunnel: three diameters long, ends rounded by a tenth, no grid. A better one is not
    credited with more, for nobody knows how good the maker's was.

    Parameters
    ----------
    losses : Sum of the loss coefficients. [1]

    Examples
    --------
    Sharp ends and round bars over both:

    >>> round(tunnel_factor(loss_sum(entry_loss(0.0), 0.6, 0.2, grids=2 * 0.1642)), 2)
    0.74
    """
    return min(1.0, thrust_share(losses, REFERENCE_LOSSES))


@formula("L/D", "1", "length / diameter", source="own-arithmetic")
def length_ratio(length: Metre, diameter: Metre) -> Ratio:
    """Length of a tunnel in diameters: two to four is good, under one or over seven is not.

    Parameters
    ----------
    length : Of the tunnel between its ends. [m]
    diameter : Of the tunnel. [m]
    """
    return length / diameter
