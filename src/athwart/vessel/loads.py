"""The wind on the whole boat at one angle: what every wind model hands to the balances."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import copysign, pi, remainder

from athwart.units.names import Metre, Newton, NewtonMetre, Radian

STEP_ALL_ROUND: Radian = pi / 36.0
BEAM: Radian = pi / 2.0


@dataclass(frozen=True, slots=True)
class WindLoad:
    """Forces and moments about the origin amidships; ``place`` is where along the boat the side force acts."""

    wind_angle: Radian
    longitudinal: Newton
    side: Newton
    place: Metre
    yaw: NewtonMetre
    heel: NewtonMetre

    @property
    def is_from_starboard(self) -> bool:
        """Whether the wind comes over the starboard side."""
        return self.wind_angle > 0.0


WindModel = Callable[[Radian], WindLoad]
"""A silhouette in a given wind: angle off the bow in, load out."""


def signed_angle(angle: Radian) -> Radian:
    """The same direction between -π (not included) and π.

    >>> round(signed_angle(1.5 * pi), 4)
    -1.5708
    """
    turned = remainder(angle, 2.0 * pi)  # exact, so mirrored angles stay mirrored
    return pi if turned == -pi else turned


def blown_towards(wind_angle: Radian) -> float:
    """Sign of the side force: -1 for a wind from starboard, +1 from port, nought from right ahead or astern."""
    angle = signed_angle(wind_angle)
    return 0.0 if angle in (0.0, pi) else -copysign(1.0, angle)


def all_round(step: Radian = STEP_ALL_ROUND) -> tuple[Radian, ...]:
    """Angles off the bow all round, mirror for mirror, from just past right astern on the port side to right astern."""
    half = round(pi / step)
    return tuple(turn * pi / half for turn in range(1 - half, half + 1))


def over(model: WindModel, headings: Sequence[Radian]) -> tuple[WindLoad, ...]:
    """The load at each angle."""
    return tuple(model(heading) for heading in headings)
