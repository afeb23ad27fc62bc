"""Scales that are not a factor: wire gauges and wind forces.

AWG is a geometric law. "SAE" battery cable of the same number has 3 to 11 % less copper, so it is a gauge of its own, known
for five sizes only. A wind force is a class; it reads as the top speed of its class.
"""

from __future__ import annotations

import math
from types import MappingProxyType
from typing import Final

from athwart.units.names import Metre, MetrePerSecond, SquareMetre
from athwart.units.quantities import CIRCULAR_MIL

AWG_SOURCE: Final = "astm-b258"
SAE_SOURCE: Final = "sae-gauge-table"
BEAUFORT_SOURCE: Final = "beaufort-scale"

AWG_THINNEST: Final = 40
AWG_THICKEST: Final = -3

SAE_AREAS: MappingProxyType[int, SquareMetre] = MappingProxyType(
    {
        2: 62_450.0 * CIRCULAR_MIL,
        0: 98_980.0 * CIRCULAR_MIL,
        -1: 125_100.0 * CIRCULAR_MIL,
        -2: 158_600.0 * CIRCULAR_MIL,
        -3: 205_500.0 * CIRCULAR_MIL,
    }
)
"""Area by size, 1/0 to 4/0 counted 0 to -3; printed in circular mils. Other sizes were not seen and are refused."""

BEAUFORT_TOPS: tuple[MetrePerSecond, ...] = (0.2, 1.5, 3.3, 5.4, 7.9, 10.7, 13.8, 17.1, 20.7, 24.4, 28.4, 32.6)
"""Top speed of forces 0 to 11, ten-minute mean at 10 m; force 12 has no top."""

_SCALES = ("AWG", "SAE")
_SAME_SIZE = 0.005  # gauges are at least 12 % apart; areas are printed to four digits


def gauge_size(text: str) -> int:
    """Size as a number: ``4`` is 4, ``1/0`` or ``0`` is 0, ``2/0`` or ``00`` is -1, ``4/0`` is -3.

    >>> [gauge_size(text) for text in ("4", "0", "00", "2/0", "4/0")]
    [4, 0, -1, -1, -3]
    """
    if text in ("1/0", "2/0", "3/0", "4/0"):
        return 1 - int(text[0])
    if text in ("0", "00", "000", "0000"):
        return 1 - len(text)
    if text.isascii() and text.isdigit() and not text.startswith("0") and len(text) <= 2:
        return int(text)
    raise ValueError(f"{text!r} is not a gauge: a whole number such as 4, or 1/0, 2/0, 3/0, 4/0 (0, 00, 000, 0000)")


def gauge_name(size: int) -> str:
    """Printed size: ``2/0`` for -1.

    >>> gauge_name(4), gauge_name(0), gauge_name(-3)
    ('4', '1/0', '4/0')
    """
    return str(size) if size > 0 else f"{1 - size}/0"


def awg_area(size: int) -> SquareMetre:
    """Copper area of a solid AWG conductor: the diameter falls by 92 to the power 1/39 a size, 4/0 being 0.46 in.

    >>> round(awg_area(-1) * 1e6, 2)
    67.43
    """
    if not AWG_THICKEST <= size <= AWG_THINNEST:
        raise ValueError(f"{gauge_name(size)} AWG is outside the gauge, which is read from 4/0 to {AWG_THINNEST}")
    diameter: Metre = 0.127e-3 * 92.0 ** ((36 - size) / 39)
    return math.pi / 4.0 * diameter**2


def sae_area(size: int) -> SquareMetre:
    """Copper area of SAE cable; only for the sizes whose area was seen."""
    try:
        return SAE_AREAS[size]
    except KeyError:
        known = ", ".join(gauge_name(entry) for entry in SAE_AREAS)
        raise ValueError(
            f"the area of {gauge_name(size)} SAE is not known here (known: {known}); write it in mm² or kcmil"
        ) from None


def gauge_area(size: int, scale: str) -> SquareMetre:
    """Area of a size by the scale's name, ``AWG`` or ``SAE``."""
    return awg_area(size) if scale == "AWG" else sae_area(size)


def gauge_of(area: SquareMetre, scale: str) -> str | None:
    """Printed size of an area, or None where no size of the scale has it (within half a per cent).

    >>> gauge_of(67.43e-6, "AWG"), gauge_of(70e-6, "AWG"), gauge_of(63.4e-6, "SAE")
    ('2/0', None, '2/0')
    """
    sizes = range(AWG_THICKEST, AWG_THINNEST + 1) if scale == "AWG" else tuple(SAE_AREAS)
    best = min(sizes, key=lambda size: abs(gauge_area(size, scale) - area))
    return gauge_name(best) if abs(gauge_area(best, scale) / area - 1.0) <= _SAME_SIZE else None


def beaufort_top(force: int) -> MetrePerSecond:
    """Top speed of a wind force.

    >>> beaufort_top(6)
    13.8
    """
    if force == 12:
        raise ValueError("force 12 has no top speed (32.7 m/s and more): give the speed itself, in kn or m/s")
    if not 0 <= force <= 12:
        raise ValueError(f"there is no wind force {force}: forces run from 0 to 12")
    return BEAUFORT_TOPS[force]


def beaufort_of(speed: MetrePerSecond) -> int:
    """Wind force a speed belongs to; speeds are rounded to the tenth the scale is printed in.

    >>> [beaufort_of(speed) for speed in (0.0, 13.8, 13.9, 40.0)]
    [0, 6, 7, 12]
    """
    tenth = round(speed, 1)
    return next((force for force, top in enumerate(BEAUFORT_TOPS) if tenth <= top), 12)
