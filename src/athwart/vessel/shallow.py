"""Shallow water: the hull cannot push the water under itself, so drifting and turning meet more of it."""

from __future__ import annotations

from math import sqrt

from athwart.explain import formula
from athwart.units.names import CubicMetre, KilogramPerCubicMetre, Metre, MetrePerSecond, Newton, Ratio, SquareMetre
from athwart.vessel.hydrostatics import RHO_SALT

SHALLOW_COEFFICIENT: Ratio = 3.2
"""Coefficient where the keel takes the ground."""
WARN_BELOW: Ratio = 1.5
LEAST_DEPTH: Ratio = 1.02


@formula("C_0", "1", "0.22 * sqrt(length ** 2 * midship_area / (beam * volume))", source="ufc-4-159-03",
         valid="ships and barges; the square root is read from the published forces")  # fmt: skip
def deep_coefficient(length: Metre, beam: Metre, midship_area: SquareMetre, volume: CubicMetre) -> Ratio:
    """Cross-flow coefficient of a hull in deep water by the mooring manual: a second opinion beside the strips.

    Parameters
    ----------
    length : At the waterline. [m]
    beam : At the waterline. [m]
    midship_area : Of the largest section. [m²]
    volume : Of displacement. [m³]
    """
    return 0.22 * sqrt(length**2 * midship_area / (beam * volume))


@formula("C_yc", "1", "deep + (SHALLOW_COEFFICIENT - deep) * draught_over_depth ** exponent", source="ufc-4-159-03",
         valid="current to 1.5 m/s, keel clear of the ground")  # fmt: skip
def shallow_coefficient(deep: Ratio, draught_over_depth: Ratio, exponent: Ratio = 2.0) -> Ratio:
    """Cross-flow coefficient by depth of water.

    Parameters
    ----------
    deep : In deep water. [1]
    draught_over_depth : Draught over depth of water. [1]
    exponent : 2 for most hulls, 3 for blocks. [1]

    Examples
    --------
    >>> [round(shallow_coefficient(0.85, ratio), 3) for ratio in (0.096, 0.72, 0.96)]
    [0.872, 2.068, 3.016]
    """
    if not 0.0 <= draught_over_depth <= 1.0 / LEAST_DEPTH:
        raise ValueError(f"draught over depth of {draught_over_depth:g}: the keel must be clear of the ground")
    return float(deep + (SHALLOW_COEFFICIENT - deep) * draught_over_depth**exponent)


@formula("f", "1", "shallow_coefficient(deep, draught_over_depth) / deep", source="ufc-4-159-03")
def shallow_factor(draught_over_depth: Ratio, deep: Ratio = 0.6) -> Ratio:
    """How much more cross-flow drag and added mass a hull has than in deep water.

    Parameters
    ----------
    draught_over_depth : Draught over depth of water. [1]
    deep : Coefficient in deep water. [1]

    Notes
    -----
    Fitted on ships and barges; uncertainty 25 % (own judgement). Under a depth of 1.5 draughts it is a warning.

    Examples
    --------
    >>> round(shallow_factor(1.0 / 3.5, 0.85), 2)
    1.23
    """
    return shallow_coefficient(deep, draught_over_depth) / deep


@formula("Y", "N", "0.5 * water_density * current ** 2 * length * draught * coefficient", source="ufc-4-159-03",
         valid="current on the beam")  # fmt: skip
def current_side_force(
    current: MetrePerSecond, length: Metre, draught: Metre, coefficient: Ratio, water_density: KilogramPerCubicMetre = RHO_SALT
) -> Newton:
    """Force of a current on the beam of a boat that is held.

    Parameters
    ----------
    current : Its speed. [m/s]
    length : At the waterline. [m]
    draught : Of the hull. [m]
    coefficient : Cross-flow coefficient. [1]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(current_side_force(1.5, 124.4, 4.389, 3.016) / 1e6, 2)
    1.9
    """
    return 0.5 * water_density * current**2 * length * draught * coefficient
