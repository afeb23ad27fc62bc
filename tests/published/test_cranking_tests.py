"""Cold cranking ratings: test points by SAE J537, EN 50342-1, IEC and DIN, and reserve capacity.

Read in a dealer's glossary in German (all four), at itwissen.info and in car service manuals (SAE, reserve capacity).
"""

from __future__ import annotations

from functools import partial

from athwart.power.battery import cranking_test
from athwart.power.battery_data import RESERVE_CAPACITY_TEST
from tests.published._check import Check, each


def point(standard: str, row: int, column: int) -> float:
    return cranking_test(standard)[row][column]


def reserve(column: int) -> float:
    return RESERVE_CAPACITY_TEST[column]


ROWS = (
    ("SAE", 0, "-18", "30", "7.2"),
    ("EN", 0, "-18", "10", "7.5"),
    ("IEC", 0, "-18", "60", "8.4"),
    ("DIN", 0, "-18", "30", "9.0"),
    ("DIN", 1, "-18", "150", "6.0"),
    ("MCA", 0, "0", "30", "7.2"),
)
UNITS = ("°C", "s", "V")

CHECKS = [
    Check(
        source="cranking-tests",
        place=f"{standard}, test point {row + 1}",
        quantity=f"{standard} test point {row + 1} in {UNITS[column]}",
        theirs=text,
        ours=partial(point, standard, row, column),
        unit=UNITS[column],
        tolerance=0.05 if "." in text else 0.5,
    )
    for standard, row, *texts in ROWS
    for column, text in enumerate(texts)
] + [
    Check(
        source="cranking-tests",
        place="reserve capacity",
        quantity=f"reserve capacity test in {unit}",
        theirs=text,
        ours=partial(reserve, column),
        unit=unit,
        tolerance=0.05 if "." in text else 0.5,
    )
    for column, (unit, text) in enumerate((("°C", "27"), ("A", "25"), ("V", "10.5")))
]


@each(CHECKS)
def test_a_test_point(check: Check) -> None:
    check.holds()
