"""WMO/TD-1555, Guidelines for converting between various wind averaging periods in tropical cyclone conditions, 2010.

Table of 3-second gust factors by exposure and averaging time. Seen as an excerpt: carried by a public script that cites it. Its
hourly figure at sea (1.40) stands out of its row; the program refuses it, so it is not compared.
"""

from __future__ import annotations

from functools import partial

from athwart.vessel.gusts import Surroundings, gust_factor
from tests.published._check import Check, each

TIMES = (3600.0, 600.0, 180.0, 120.0, 60.0)
TABLE: tuple[tuple[Surroundings, tuple[str, ...]], ...] = (
    ("in-land", ("1.75", "1.66", "1.58", "1.55", "1.49")),
    ("off-land", ("1.60", "1.52", "1.44", "1.42", "1.36")),
    ("off-sea", ("1.45", "1.38", "1.31", "1.28", "1.23")),
    ("at sea", ("1.40", "1.23", "1.17", "1.15", "1.11")),
)

CHECKS = [
    Check(
        source="wmo-gust-factors",
        place=f"row {surroundings}, {time:g} s",
        quantity=f"gust factor {surroundings}, mean over {time:g} s",
        theirs=theirs,
        ours=partial(gust_factor, surroundings, time),
        unit="1",
        tolerance=0.005,
    )
    for surroundings, row in TABLE
    for time, theirs in zip(TIMES, row, strict=True)
    if (surroundings, time) != ("at sea", 3600.0)
]


@each(CHECKS)
def test_a_gust_factor(check: Check) -> None:
    check.holds()
