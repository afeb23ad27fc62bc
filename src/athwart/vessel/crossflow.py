"""Cross-flow drag of a hull that drifts and turns at the same time: pieces along the hull, integrated exactly.

Each piece has one product of section drag and depth. Where sway and yaw cancel along the hull the water changes side; the
integral is split there, so it is exact for any mix of the two and never adds energy. Its moments are summed once, after which a
force costs a search and a dozen products, whatever the number of pieces.

Speeds are relative to the water. Axes as in the package.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import sqrt

from athwart.explain import formula
from athwart.numerics.tables import interpolate
from athwart.units.names import KilogramPerCubicMetre, Metre, MetrePerSecond, Newton, NewtonMetre, RadianPerSecond, Ratio
from athwart.vessel.hydrostatics import RHO_SALT

SECTION_DRAG: tuple[tuple[float, float], ...] = (
    (0.0109, 1.966),
    (0.177, 1.966),
    (0.353, 1.898),
    (0.452, 1.787),
    (0.473, 1.584),
    (0.493, 1.279),
    (0.4933, 1.211),
    (0.558, 1.084),
    (0.646, 0.999),
    (0.834, 0.880),
    (0.988, 0.828),
    (1.308, 0.760),
    (1.639, 0.691),
    (1.860, 0.657),
    (2.313, 0.631),
    (2.600, 0.596),
    (3.009, 0.587),
    (3.451, 0.586),
    (3.738, 0.560),
    (4.003, 0.559),
)
"""Half beam over draught and drag of a two-dimensional section on its depth."""
FIN_DRAG: Ratio = 1.2
"""Keel, skeg, rudder broadside to the water: a flat plate (from memory)."""
HARD_CHINE: Ratio = 1.2
"""Drag of a hard-chine section over that of the table (own judgement)."""


@formula("C_D", "1", "two-dimensional drag by half beam over draught, straight lines between points", source="hoerner-cross-flow",
         kind="table", valid="rounded sections; constant beyond the ends of the table")  # fmt: skip
def section_drag(half_beam_over_draught: Ratio) -> Ratio:
    """Drag coefficient of a hull section in cross flow, on its depth.

    Parameters
    ----------
    half_beam_over_draught : Half the local beam over the local draught. [1]

    Notes
    -----
    The fall between 0.45 and 0.5 is nearly a step: a deep narrow section there is very uncertain. Against a model of a 31 m
    vessel from captive tests the table lies within a factor of 0.7 to 1.6. Uncertainty: 30 % for plain hulls.

    Examples
    --------
    >>> [round(section_drag(ratio), 3) for ratio in (0.5, 1.0, 2.0, 5.0)]
    [1.198, 0.825, 0.649, 0.559]
    """
    if half_beam_over_draught <= 0.0:
        raise ValueError(f"half beam over draught of {half_beam_over_draught:g}; it must be more than 0")
    return interpolate(SECTION_DRAG, min(max(half_beam_over_draught, SECTION_DRAG[0][0]), SECTION_DRAG[-1][0]))


@formula("Y", "N", "-0.5 * water_density * drag * draught * length * sway_speed * abs(sway_speed)", source="own-arithmetic",
         valid="pure sway, one drag and depth over the whole length")  # fmt: skip
def sway_drag(
    sway_speed: MetrePerSecond, drag: Ratio, draught: Metre, length: Metre, water_density: KilogramPerCubicMetre = RHO_SALT
) -> Newton:
    """Force on a hull of one depth that drifts sideways.

    Parameters
    ----------
    sway_speed : Sideways through the water, to starboard positive. [m/s]
    drag : Section drag. [1]
    draught : Depth of the hull. [m]
    length : At the waterline. [m]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(sway_drag(0.5, 0.64894, 1.0, 12.0), 2)
    -997.75
    """
    return -0.5 * water_density * drag * draught * length * sway_speed * abs(sway_speed)


@formula("N", "N·m", "-water_density * drag * draught * yaw_rate * abs(yaw_rate) * length ** 4 / 64", source="own-arithmetic",
         valid="pure yaw about amidships, one drag and depth over the whole length")  # fmt: skip
def yaw_drag(
    yaw_rate: RadianPerSecond, drag: Ratio, draught: Metre, length: Metre, water_density: KilogramPerCubicMetre = RHO_SALT
) -> NewtonMetre:
    """Moment on a hull of one depth that turns on the spot.

    Parameters
    ----------
    yaw_rate : Bow to starboard positive. [rad/s]
    drag : Section drag. [1]
    draught : Depth of the hull. [m]
    length : At the waterline. [m]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(yaw_drag(0.05, 0.64894, 1.0, 12.0), 2)
    -538.78
    """
    return -water_density * drag * draught * yaw_rate * abs(yaw_rate) * length**4 / 64.0


@formula("v", "m/s", "sqrt(side_force / (0.5 * water_density * drag * draught * length))", source="own-arithmetic")
def drift_speed(
    side_force: Newton, drag: Ratio, draught: Metre, length: Metre, water_density: KilogramPerCubicMetre = RHO_SALT
) -> MetrePerSecond:
    """Steady speed at which a boat drifts sideways before a force.

    Parameters
    ----------
    side_force : Of the wind, its size. [N]
    drag : Section drag. [1]
    draught : Depth of the hull. [m]
    length : At the waterline. [m]
    water_density : Of the water. [kg/m³]

    Notes
    -----
    A drift outside 2 to 10 % of the wind is wrong: that is what trials of the coast guard span.

    Examples
    --------
    A 12 m boat in 20 kn:

    >>> round(drift_speed(1751.06, 0.636, 0.9, 12.0), 3)
    0.705
    """
    return sqrt(side_force / (0.5 * water_density * drag * draught * length))


@formula("r_0", "rad/s", "sqrt(64 * thrust * place / (water_density * drag * draught * length ** 4))", source="own-arithmetic",
         valid="a pure couple on one drag and depth over the whole length")  # fmt: skip
def turning_rate_of_couple(
    thrust: Newton, place: Metre, drag: Ratio, draught: Metre, length: Metre, water_density: KilogramPerCubicMetre = RHO_SALT
) -> RadianPerSecond:
    """Steady rate of turn under a couple.

    Parameters
    ----------
    thrust : Force of the couple. [N]
    place : Its lever. [m]
    drag : Section drag. [1]
    draught : Depth of the hull. [m]
    length : At the waterline. [m]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(turning_rate_of_couple(800.0, 5.04, 0.636, 0.9, 12.0), 4)
    0.1456
    """
    return sqrt(64.0 * thrust * place / (water_density * drag * draught * length**4))


# ---- any hull


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of hull or a fin, from ``start`` aft to ``end`` forward, with its drag times depth."""

    start: Metre
    end: Metre
    drag_depth: Metre

    def __post_init__(self) -> None:
        if not self.start < self.end:
            raise ValueError(f"a piece from {self.start:g} m to {self.end:g} m has no length")
        if self.drag_depth < 0.0:
            raise ValueError(f"a drag times depth of {self.drag_depth:g} m")


@dataclass(frozen=True)
class CrossFlow:
    """Pieces that follow each other along the hull; built by :func:`cross_flow`, where fins may lie over the hull.

    ``edges`` ascend; ``drag_depth`` belongs to the stretch between two edges.
    """

    edges: tuple[Metre, ...]
    drag_depth: tuple[Metre, ...]
    water_density: KilogramPerCubicMetre = RHO_SALT

    @cached_property
    def moments(self) -> tuple[tuple[float, float, float, float], ...]:
        """At each edge the integrals from aft to there of drag times depth by x to the power 0, 1, 2 and 3."""
        sums = [(0.0, 0.0, 0.0, 0.0)]
        for c, a, b in zip(self.drag_depth, self.edges, self.edges[1:], strict=False):
            last = sums[-1]
            sums.append(_plus(last, c, a, b))
        return tuple(sums)

    @property
    def lateral_drag_area(self) -> float:
        """Integral of drag times depth in m²: the area a plate of drag 1 would need."""
        return self.moments[-1][0]

    @property
    def centre(self) -> Metre:
        """Where a pure drift is resisted."""
        return self.moments[-1][1] / self.moments[-1][0]

    def loads(self, sway_speed: MetrePerSecond, yaw_rate: RadianPerSecond) -> tuple[Newton, NewtonMetre]:
        """Side force and yaw moment amidships, exact for the pieces.

        The speed across the hull at x is sway + yaw x. It changes sign once at most, at x₀; the moments aft of x₀ then count
        with the other sign.
        """
        total = self.moments[-1]
        v, r = sway_speed, yaw_rate
        aft = (0.0, 0.0, 0.0, 0.0)
        if r != 0.0:
            turn = -v / r
            if turn >= self.edges[-1]:
                aft = total
            elif turn > self.edges[0]:
                piece = bisect_right(self.edges, turn) - 1
                aft = _plus(self.moments[piece], self.drag_depth[piece], self.edges[piece], turn)
        sign = 1.0 if r > 0.0 or (r == 0.0 and v > 0.0) else -1.0
        m0, m1, m2, m3 = (sign * (total[k] - 2.0 * aft[k]) for k in range(4))
        half = -0.5 * self.water_density
        side = half * (v * v * m0 + 2.0 * v * r * m1 + r * r * m2)
        yaw = half * (v * v * m1 + 2.0 * v * r * m2 + r * r * m3)
        return side, yaw

    def scaled(self, factor: Ratio) -> CrossFlow:
        """The same hull with all drag multiplied: shallow water, fouling, a sample of the uncertainty."""
        return CrossFlow(self.edges, tuple(c * factor for c in self.drag_depth), self.water_density)


def _plus(
    sums: tuple[float, float, float, float], drag_depth: float, start: float, end: float
) -> tuple[float, float, float, float]:
    a2, b2 = start * start, end * end
    return (
        sums[0] + drag_depth * (end - start),
        sums[1] + drag_depth * (b2 - a2) / 2.0,
        sums[2] + drag_depth * (b2 * end - a2 * start) / 3.0,
        sums[3] + drag_depth * (b2 * b2 - a2 * a2) / 4.0,
    )


def cross_flow(pieces: Sequence[Piece], water_density: KilogramPerCubicMetre = RHO_SALT) -> CrossFlow:
    """Pieces in any order, fins lying over the hull, as stretches that follow each other; a gap has no drag."""
    if not pieces:
        raise ValueError("a hull wants one piece or more")
    edges = sorted({edge for piece in pieces for edge in (piece.start, piece.end)})
    drag = []
    for a, b in pairwise(edges):
        middle = 0.5 * (a + b)
        drag.append(sum(piece.drag_depth for piece in pieces if piece.start < middle < piece.end))
    if not any(drag):
        raise ValueError("no piece has any drag")
    return CrossFlow(tuple(edges), tuple(drag), water_density)
