"""Fuse families: time-current points, breaking capacity, rated range. Times are from memory and stay editable.

A point is (multiple of the rating, least seconds, most seconds). ``inf`` as most: it may never open. ``nan``: the point says
nothing about that side.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf, nan

from athwart.units.names import Kelvin, PerKelvin

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class FuseFamily:
    """A family of fuses with one curve. ``breaking_capacity`` holds (up to these volts, amperes), rising in volts."""

    family: str
    name: str
    points: tuple[Point, ...]
    breaking_capacity: tuple[tuple[float, float], ...]
    volts_most: float
    ratings: tuple[float, ...]
    current_limiting: bool
    derating: PerKelvin  # of the rating per kelvin above ``derating_from``
    derating_from: Kelvin
    drop_at_rated: tuple[float, float, float]  # V: least, usual, most
    source: str  # of the times
    breaking_source: str


_STEPS = (30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 125.0, 150.0, 175.0, 200.0, 225.0, 250.0, 300.0, 350.0, 400.0, 450.0, 500.0)
_CARTRIDGE = (110.0, 125.0, 150.0, 175.0, 200.0, 225.0, 250.0, 300.0, 350.0, 400.0, 450.0, 500.0, 600.0)
_GG = (50.0, 63.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0)

FAMILIES: Mapping[str, FuseFamily] = {
    family.family: family
    for family in (
        FuseFamily(
            "bolt-down sf51",
            "bolt-down, 51 mm pitch (ISO 8820-5 type SF51)",
            ((1.0, 14400.0, inf), (1.35, 120.0, 1800.0), (2.0, 1.0, 15.0), (3.5, 0.3, 5.0), (6.0, 0.1, 1.0)),
            ((32.0, 2000.0),),
            32.0,
            _STEPS,
            False,
            0.0015,
            296.15,
            (0.060, 0.090, 0.130),
            "fuse-times-bolt-down",
            "iso-8820-scopes",
        ),
        FuseFamily(
            "bolt-down sf30",
            "bolt-down, 30 mm pitch (ISO 8820-5 type SF30)",
            ((1.0, 14400.0, inf), (1.35, 60.0, 1800.0), (2.0, 1.0, 15.0), (3.5, 0.2, 5.0), (6.0, 0.04, 1.0)),
            ((32.0, 2000.0),),
            32.0,
            tuple(rating for rating in _STEPS if rating <= 200.0),
            False,
            0.0015,
            296.15,
            (0.060, 0.090, 0.130),
            "fuse-times-bolt-down",
            "iso-8820-scopes",
        ),
        FuseFamily(
            "marine strip",
            "marine strip",
            ((1.0, 14400.0, inf), (1.35, 500.0, inf), (2.0, 3.0, 20.0), (3.5, 1.0, 3.0), (6.0, 0.3, 0.8)),
            ((32.0, 6000.0),),
            32.0,
            tuple(rating for rating in _STEPS if rating >= 50.0),
            False,
            0.0015,
            296.15,
            (0.060, 0.090, 0.130),
            "fuse-times-strip",
            "fuse-breaking-typical",
        ),
        FuseFamily(
            "terminal cube",
            "cube on the battery terminal",
            ((0.75, 360000.0, inf), (1.35, 60.0, 3600.0), (2.0, 1.0, 100.0), (3.5, 0.1, 2.0), (6.0, 0.02, 0.6)),
            ((14.0, 10000.0), (32.0, 5000.0), (58.0, 2000.0)),
            58.0,
            tuple(rating for rating in _STEPS if rating <= 300.0),
            False,
            0.0015,
            296.15,
            (0.050, 0.080, 0.120),
            "fuse-times-cube",
            "fuse-breaking-typical",
        ),
        FuseFamily(
            "class t",
            "class T cartridge (UL 248-15), current limiting",
            ((1.1, 14400.0, inf), (1.35, 120.0, 7200.0), (2.0, 10.0, 720.0), (3.5, 0.2, 2.0), (6.0, 0.01, 0.1)),
            ((125.0, 20000.0),),
            125.0,
            _CARTRIDGE,
            True,
            0.002,
            298.15,
            (0.045, 0.060, 0.080),
            "fuse-times-class-t",
            "fuse-class-t-breaking",
        ),
        FuseFamily(
            "gg blade",
            "low-voltage blade gG (IEC 60269)",
            (
                (1.25, 14400.0, inf),
                (1.6, nan, 14400.0),
                (2.9, 10.0, nan),
                (7.6, nan, 5.0),
                (8.2, 0.1, nan),
                (22.0, nan, 0.1),
            ),
            ((250.0, 25000.0),),
            250.0,
            _GG,
            True,
            0.005,
            313.15,
            (0.050, 0.070, 0.100),
            "iec-60269",
            "fuse-breaking-typical",
        ),
        FuseFamily(
            "thermal breaker",
            "marine thermal breaker",
            ((1.0, 14400.0, inf), (1.35, nan, 3600.0), (2.0, 10.0, 60.0), (3.5, 3.0, 10.0)),
            ((14.0, 5000.0), (32.0, 1500.0)),
            32.0,
            tuple(rating for rating in _STEPS if 50.0 <= rating <= 300.0),
            False,
            0.005,
            298.15,
            (0.080, 0.120, 0.200),
            "fuse-times-breaker",
            "fuse-breaking-typical",
        ),
    )
}

#: ISO 8820 part -> (rated volts, largest rating A, breaking capacity A), from the scopes
ISO_8820_SCOPES: Mapping[int, tuple[float, float, float]] = {
    3: (58.0, 100.0, 1000.0),
    4: (58.0, 140.0, 1000.0),
    5: (32.0, 500.0, 2000.0),
    6: (58.0, 300.0, 2000.0),
}
ISO_8820_5_LEAST = 30.0

#: gG: (up to this rating, conventional time in hours); it holds 1.25 and opens at 1.6 of its rating within that time
GG_CONVENTIONAL: tuple[tuple[float, float], ...] = ((63.0, 1.0), (160.0, 2.0), (400.0, 3.0), (1250.0, 4.0))
GG_HOLDS, GG_OPENS = 1.25, 1.6
GG_SELECTIVITY = 1.6
