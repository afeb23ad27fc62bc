"""Beaufort forces and the wind in the middle of each; the bounds of the classes stand with the units."""

from __future__ import annotations

from athwart.explain import formula
from athwart.units import beaufort_top
from athwart.units.names import MetrePerSecond, Ratio

MIDDLE_OF_FORCE_ONE: MetrePerSecond = 0.836


@formula("U", "m/s", "MIDDLE_OF_FORCE_ONE * force ** 1.5", source="beaufort-fit", valid="forces 1 to 11")
def middle_speed(force: Ratio) -> MetrePerSecond:
    """Wind in the middle of a Beaufort class, ten-minute mean at 10 m. Size on the top of the class, not on this.

    Parameters
    ----------
    force : Beaufort force. [1]

    Examples
    --------
    >>> round(middle_speed(6.0), 2)
    12.29
    """
    if not 0.0 <= force <= 12.0:
        raise ValueError(f"Beaufort force {force:g}; allowed are 0 to 12")
    return float(MIDDLE_OF_FORCE_ONE * force**1.5)


def bounds(force: int) -> tuple[MetrePerSecond, MetrePerSecond]:
    """Lowest and highest wind of a force, as printed: the next class begins a tenth higher.

    >>> bounds(6)
    (10.8, 13.8)
    """
    top = beaufort_top(force)
    return (0.0 if force == 0 else round(beaufort_top(force - 1) + 0.1, 1)), top
