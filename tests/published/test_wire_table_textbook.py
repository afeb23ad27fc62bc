"""Lessons in Electric Circuits, reference volume: table of solid copper wire by AWG size.

github.com/svenstucki/lessons_in_electric_circuits, Ref/citable.sml. Read: diameter in inches and area in circular mils, sizes 10
to 4/0; both columns are printed to four figures.
"""

from __future__ import annotations

import math
from functools import partial

from athwart.units import factor, parse
from tests.published._check import Check, each

ROWS = (
    ("10", "0.1019", "1.038e4"),
    ("8", "0.1285", "1.651e4"),
    ("6", "0.1620", "2.625e4"),
    ("4", "0.2043", "4.174e4"),
    ("2", "0.2576", "6.637e4"),
    ("1", "0.2893", "8.369e4"),
    ("1/0", "0.3249", "1.055e5"),
    ("2/0", "0.3648", "1.331e5"),
    ("3/0", "0.4096", "1.678e5"),
    ("4/0", "0.4600", "2.116e5"),
)


def diameter(size: str) -> float:
    """Diameter of a solid wire of an AWG size. [in]"""
    return math.sqrt(4.0 / math.pi * parse(f"{size} AWG", "conductor")) / factor("length", "in")


def circular_mils(size: str) -> float:
    """Area of an AWG size. [cmil]"""
    return parse(f"{size} AWG", "conductor") / factor("conductor", "cmil")


CHECKS = [
    Check(
        source="wire-table-textbook",
        place=f"row of {size} AWG, diameter",
        quantity=f"diameter of {size} AWG",
        theirs=inches,
        ours=partial(diameter, size),
        unit="in",
        tolerance=0.00005,
    )
    for size, inches, _ in ROWS
] + [
    Check(
        source="wire-table-textbook",
        place=f"row of {size} AWG, circular mils",
        quantity=f"area of {size} AWG",
        theirs=mils,
        ours=partial(circular_mils, size),
        unit="cmil",
        tolerance=5.0 if float(mils) < 1e5 else 50.0,
    )
    for size, _, mils in ROWS
]


@each(CHECKS)
def test_the_geometric_law_gives_the_table(check: Check) -> None:
    check.holds()
