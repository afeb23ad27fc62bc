"""Beaufort wind scale of the World Meteorological Organization, as printed on two weather pages that agree.

delta-s.org/weer/beaufort.html and meteothes.gr/wxbeaufort-en.html: upper bounds of forces 0 to 11 in metres per second,
ten-minute mean at 10 m. Read: the column of speeds.
"""

from __future__ import annotations

from functools import partial

from athwart.units import parse
from tests.published._check import Check, each

TOPS = ("0.2", "1.5", "3.3", "5.4", "7.9", "10.7", "13.8", "17.1", "20.7", "24.4", "28.4", "32.6")

CHECKS = [
    Check(
        source="beaufort-scale",
        place=f"row of force {force}, upper bound",
        quantity=f"top speed of force {force}",
        theirs=top,
        ours=partial(parse, f"{force} Bft", "wind_speed"),
        unit="m/s",
        tolerance=0.05,
    )
    for force, top in enumerate(TOPS)
]


@each(CHECKS)
def test_a_force_reads_as_the_top_of_its_class(check: Check) -> None:
    check.holds()
