"""Wind loads as harmonics of the wind angle: what a simulation sums at every step instead of asking the whole model.

A silhouette alike on both sides has a longitudinal force even in the angle and a side force and yaw moment odd in it, so cosines
serve the one and sines the others. The sum is exact at the angles it was made from up to the harmonics left out; :attr:`error`
says how far it strays from the model.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin, sqrt

from athwart.units.names import Metre, MetrePerSecond, Newton, NewtonMetre, Radian, Ratio
from athwart.vessel.loads import WindModel

HARMONICS = 12
SAMPLES = 72
"""Angles over half a turn that the harmonics are made from."""


@dataclass(frozen=True, slots=True)
class WindHarmonics:
    """Coefficients in N and N·m per (m/s)² of wind felt at the silhouette. Built by :func:`harmonics`."""

    longitudinal: tuple[float, ...]
    side: tuple[float, ...]
    yaw: tuple[float, ...]
    error: Ratio
    """Largest departure from the model over a turn, over the largest side force (yaw: over it times the length)."""

    def loads(self, speed: MetrePerSecond, angle: Radian) -> tuple[Newton, Newton, NewtonMetre]:
        """Longitudinal force, side force and yaw moment of a wind felt at an angle off the bow."""
        return self.loads_of(speed * cos(angle), speed * sin(angle))

    def loads_of(self, from_ahead: MetrePerSecond, from_starboard: MetrePerSecond) -> tuple[Newton, Newton, NewtonMetre]:
        """The same from the two parts of the wind felt: what comes from ahead and what from starboard."""
        felt = sqrt(from_ahead * from_ahead + from_starboard * from_starboard) + 1e-9
        c, n = from_ahead / felt, from_starboard / felt
        x = self.longitudinal[0] + self.longitudinal[1] * c
        y, m = self.side[1] * n, self.yaw[1] * n
        c0, c1, n0, n1 = 1.0, c, 0.0, n
        twice = 2.0 * c
        for a, b, d in zip(self.longitudinal[2:], self.side[2:], self.yaw[2:], strict=True):
            c0, c1 = c1, twice * c1 - c0
            n0, n1 = n1, twice * n1 - n0
            x += a * c1
            y += b * n1
            m += d * n1
        q = felt * felt
        return q * x, q * y, q * m


def harmonics(
    model: WindModel, speed: MetrePerSecond, length: Metre, terms: int = HARMONICS, origin: Metre = 0.0
) -> WindHarmonics:
    """The harmonics of a model that stands for a wind of ``speed`` at the silhouette; yaw moments about ``origin``."""
    if speed <= 0.0:
        raise ValueError(f"a wind of {speed:g} m/s")
    angles = [pi * (k + 0.5) / SAMPLES for k in range(SAMPLES)]
    loads = [model(angle) for angle in angles]
    per = 1.0 / (speed * speed)
    xs = [load.longitudinal * per for load in loads]
    ys = [load.side * per for load in loads]
    ns = [(load.yaw - origin * load.side) * per for load in loads]
    even = tuple(_even(xs, angles, k) for k in range(terms + 1))
    odd = tuple(_odd(ys, angles, k) for k in range(terms + 1))
    turn = tuple(_odd(ns, angles, k) for k in range(terms + 1))
    found = WindHarmonics(even, odd, turn, 0.0)
    most = max(abs(y) for y in ys)
    worst = 0.0
    for k in range(SAMPLES + 1):
        angle = pi * k / SAMPLES
        load = model(angle)
        x, y, n = found.loads(1.0, angle)
        worst = max(
            worst,
            abs(x - load.longitudinal * per) / most,
            abs(y - load.side * per) / most,
            abs(n - (load.yaw - origin * load.side) * per) / (most * length),
        )
    return WindHarmonics(even, odd, turn, worst)


def _even(values: Sequence[float], angles: Sequence[Radian], k: int) -> float:
    total = sum(value * cos(k * angle) for value, angle in zip(values, angles, strict=True))
    return (1.0 if k == 0 else 2.0) * total / len(values)


def _odd(values: Sequence[float], angles: Sequence[Radian], k: int) -> float:
    return 2.0 * sum(value * sin(k * angle) for value, angle in zip(values, angles, strict=True)) / len(values)
