"""Steady balances of a boat that moves through the water: free to drift, turning at a rate, held in a current.

Cases A and D of the package, beside B (one end held) and C (on station) in :mod:`athwart.vessel.balance`. Nothing is guessed of
the drift: ahead and sideways speed are solved so that all forces balance, and what is left over in yaw is the unit's.
Axes and origin as the hull's; ``angle`` is where the wind comes from, off the bow, positive to starboard.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import copysign, cos, hypot, isfinite, pi, radians, sin, sqrt

from athwart.errors import NotComputed
from athwart.explain import formula
from athwart.units.names import (
    KilogramPerCubicMetre,
    Metre,
    MetrePerSecond,
    Newton,
    NewtonMetre,
    Radian,
    RadianPerSecond,
    Ratio,
    SquareMetre,
)
from athwart.vessel.added_mass import MUNK_SHARE
from athwart.vessel.harmonics import WindHarmonics
from athwart.vessel.underwater import SURGE_DRAG, HullInWater

TURN_RATES: tuple[tuple[Metre, RadianPerSecond], ...] = ((15.0, radians(3.0)), (25.0, radians(2.0)), (float("inf"), radians(1.0)))
"""Rate of turning asked of a boat up to a length (own judgement): the low end of what crews call lively."""
FASTEST: Ratio = 0.35
"""Most speed of a drift over that of the wind."""
MOST_STEPS = 60
CLOSE: Ratio = 1e-9


@dataclass(frozen=True, slots=True)
class Steady:
    """A boat in steady motion: speeds through the water, and the thrust that keeps her so."""

    surge: MetrePerSecond
    sway: MetrePerSecond
    yaw_rate: RadianPerSecond
    thrust: Newton

    @property
    def speed(self) -> MetrePerSecond:
        """Through the water."""
        return hypot(self.surge, self.sway)


def turn_rate(length: Metre) -> RadianPerSecond:
    """Rate of turning asked where the user asks none.

    >>> round(turn_rate(12.0) * 180 / pi, 1), round(turn_rate(30.0) * 180 / pi, 1)
    (3.0, 1.0)
    """
    return next(rate for upto, rate in TURN_RATES if length <= upto)


@formula("v", "m/s", "sqrt(side_force / (0.5 * water_density * drag_area))", source="own-arithmetic",
         valid="wind force that does not fade with the drift, no damping beside cross flow")  # fmt: skip
def beam_drift(side_force: Newton, drag_area: SquareMetre, water_density: KilogramPerCubicMetre) -> MetrePerSecond:
    """Steady speed of a boat that drifts sideways under a force.

    Parameters
    ----------
    side_force : Of the wind. [N]
    drag_area : Cross-flow drag times depth, summed along the hull. [m²]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    A 12 m boat in 20 kn on the beam, 0.9 m of draught, drag 0.636:

    >>> round(beam_drift(1751.06, 0.636 * 12.0 * 0.9, 1025.0), 3)
    0.705
    """
    return sqrt(side_force / (0.5 * water_density * drag_area))


@formula("r_0", "rad/s", "sqrt(64 * couple / (water_density * drag * draught * length ** 4))", source="own-arithmetic",
         valid="one drag and one draught over the length, no wind")  # fmt: skip
def couple_rate(
    couple: NewtonMetre, drag: Ratio, draught: Metre, length: Metre, water_density: KilogramPerCubicMetre
) -> RadianPerSecond:
    """Steady rate at which a pure couple turns a hull on the spot.

    Parameters
    ----------
    couple : Thrust times lever. [N·m]
    drag : Cross-flow drag coefficient. [1]
    draught : Of the hull. [m]
    length : At the waterline. [m]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(couple_rate(800.0 * 0.42 * 12.0, 0.636, 0.9, 12.0, 1025.0) * 180 / pi, 1)
    8.3
    """
    return sqrt(64.0 * couple / (water_density * drag * draught * length**4))


def water_loads(
    hull: HullInWater, surge: MetrePerSecond, sway: MetrePerSecond, yaw_rate: RadianPerSecond
) -> tuple[Newton, Newton, NewtonMetre]:
    """All that the water does to a hull in steady motion, inertial terms included."""
    m = hull.inertia
    y, n = hull.flow.loads(sway, yaw_rate)
    u, v, r = surge, sway, yaw_rate
    x = -0.5 * SURGE_DRAG * hull.water_density * hull.surge_area * u * abs(u) - hull.surge_damping * u
    x += m.sway * v * r + m.cross * r * r
    y += -hull.sway_damping * v - m.surge * u * r
    n += -hull.yaw_damping * r - MUNK_SHARE * (m.sway_added - m.surge_added) * u * v - m.cross * u * r
    return x, y, n


def moving(
    hull: HullInWater,
    wind: WindHarmonics,
    speed: MetrePerSecond,
    angle: Radian,
    place: Metre,
    yaw_rate: RadianPerSecond = 0.0,
) -> Steady:
    """The thrust at ``place`` that holds a heading (case A) or keeps a rate while the boat drifts as she will.

    Newton's method on the two speeds, damped, from the drift abeam.

    Raises
    ------
    NotComputed
        No steady motion was found.
    """
    ahead, starboard = speed * cos(angle), speed * sin(angle)

    def left(u: float, v: float) -> tuple[float, float, float]:
        wx, wy, wn = wind.loads_of(ahead + u, starboard + v)
        x, y, n = water_loads(hull, u, v, yaw_rate)
        thrust = -(wy + y)
        return wx + x, (wn + n) + thrust * place, thrust

    def sane(found: tuple[float, float] | None) -> tuple[float, float] | None:
        """No boat is blown along faster than this; the equations have such roots all the same."""
        return found if found is not None and hypot(*found) <= FASTEST * speed + scale else None

    wy = wind.loads_of(ahead, starboard)[1]
    drift = beam_drift(abs(wy), hull.flow.lateral_drag_area, hull.water_density)
    scale = max(drift, 0.2)
    starts = ((0.0, copysign(drift, wy)), (0.0, 0.0), (copysign(0.5 * drift, -ahead), copysign(0.5 * drift, wy)))
    for start in starts:
        found = sane(_newton(left, start, scale))
        if found is not None:
            return Steady(found[0], found[1], yaw_rate, left(*found)[2])
    raise NotComputed(f"no steady drift at {angle * 180 / pi:.0f} degrees off the bow")


def turning(hull: HullInWater, place: Metre, thrust: Newton) -> Steady:
    """Steady turning in calm water by a single side force, the boat free to move as she will."""
    m = hull.inertia
    drag, damping = 0.5 * SURGE_DRAG * hull.water_density * hull.surge_area, hull.surge_damping

    def surge(v: float, r: float) -> float:
        """Speed ahead at which resistance takes what turning and drifting together push ahead."""
        push = m.sway * v * r + m.cross * r * r
        return copysign((-damping + sqrt(damping * damping + 4.0 * drag * abs(push))) / (2.0 * drag), push)

    def left(v: float, r: float) -> tuple[float, float, float]:
        _, y, n = water_loads(hull, surge(v, r), v, r)
        return y + thrust, n + thrust * place, 0.0

    couple = abs(thrust * place)
    rate = sqrt(couple / (0.5 * hull.water_density * max(_third(hull), 1e-9)))
    side = beam_drift(abs(thrust), hull.flow.lateral_drag_area, hull.water_density)
    found = _newton(left, (copysign(0.5 * side, thrust), copysign(0.8 * rate, thrust * place)), max(side, 0.1), max(rate, 0.01))
    if found is None:
        raise NotComputed("no steady turning was found")
    return Steady(surge(*found), found[0], found[1], thrust)


def pivot_of(state: Steady) -> Metre:
    """The place along the hull that does not move sideways; aft of amidships negative."""
    return -state.sway / state.yaw_rate


def _third(hull: HullInWater) -> float:
    """Drag times depth by the cube of the distance from amidships, summed."""
    flow = hull.flow
    return sum(
        c * abs(b * b * b * abs(b) - a * a * a * abs(a)) / 4.0
        for c, a, b in zip(flow.drag_depth, flow.edges, flow.edges[1:], strict=False)
    )


def _newton(
    left: Callable[[float, float], tuple[float, float, float]],
    start: tuple[float, float],
    first_scale: float,
    second_scale: float | None = None,
) -> tuple[float, float] | None:
    """Root of two equations, damped by halving; None where it does not come close."""
    hs = (1e-6 * first_scale, 1e-6 * (second_scale or first_scale))
    a, b = start
    f, g, _ = left(a, b)
    size = max(abs(f), 1.0), max(abs(g), 1.0)
    norm = hypot(f / size[0], g / size[1])
    for _ in range(MOST_STEPS):
        if norm < CLOSE:
            return a, b
        fa, ga, _ = left(a + hs[0], b)
        fb, gb, _ = left(a, b + hs[1])
        j = ((fa - f) / hs[0], (fb - f) / hs[1], (ga - g) / hs[0], (gb - g) / hs[1])
        whole = j[0] * j[3] - j[1] * j[2]
        if whole == 0.0 or not isfinite(whole):
            return None
        da, db = -(j[3] * f - j[1] * g) / whole, -(j[0] * g - j[2] * f) / whole
        step = 1.0
        while step > 1e-4:
            na, nb = a + step * da, b + step * db
            nf, ng, _ = left(na, nb)
            new = hypot(nf / size[0], ng / size[1])
            if new < norm:
                a, b, f, g, norm = na, nb, nf, ng, new
                break
            step *= 0.5
        else:
            return (a, b) if norm < 1e-5 else None
    return (a, b) if norm < 1e-5 else None


# ---- held in a current: cases B and C


def held_loads(
    hull: HullInWater,
    wind: WindHarmonics,
    speed: MetrePerSecond,
    angle: Radian,
    current_ahead: MetrePerSecond = 0.0,
    current_starboard: MetrePerSecond = 0.0,
) -> tuple[Newton, NewtonMetre]:
    """Side force and yaw moment on a boat that stays where she is in wind and current (over the ground, in her axes)."""
    _, wy, wn = wind.loads(speed, angle)
    _, y, n = water_loads(hull, -current_ahead, -current_starboard, 0.0)
    return wy + y, wn + n


@formula("M_2", "N·m", "0.5 * spacing * (ahead + astern)", source="own-arithmetic", valid="two screws, one ahead, one astern")
def twin_screw_moment(ahead: Newton, astern: Newton, spacing: Metre) -> NewtonMetre:
    """Turning moment of two screws that work against each other: it turns and pushes not sideways.

    Parameters
    ----------
    ahead : Thrust of the one. [N]
    astern : Thrust of the other. [N]
    spacing : Between the shafts. [m]

    Examples
    --------
    >>> twin_screw_moment(3000.0, 2000.0, 1.6)
    4000.0
    """
    return 0.5 * spacing * (ahead + astern)


def largest_wind(holds: Callable[[MetrePerSecond], bool], most: MetrePerSecond) -> MetrePerSecond:
    """Largest wind for which a balance holds, by halving, to a thousandth of ``most``; nought where calm is too much already.

    >>> round(largest_wind(lambda speed: speed * speed < 100.0, 40.0), 1)
    10.0
    """
    if not holds(0.0):
        return 0.0
    if holds(most):
        return most
    low, high = 0.0, most
    while high - low > 1e-3 * most:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low
