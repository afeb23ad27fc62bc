"""FAA Advisory Circular AC 43.13-1B, chapter 11: tables 11-7 and 11-8, example 2 of the wire charts.

Read: landseaskyspace.com/ac4313, pages 11-22, 11-26 and 11-27. Length includes the ground wire. In table 11-8 the second line
prints 0.366 V where its own figures give 0.491 V; it is left out.
"""

from __future__ import annotations

from functools import partial

from athwart.power.ampacity import derated_ampacity
from athwart.power.conductor import resistance_voltage_drop
from tests.published._check import Check, each

DROPS = (
    ("11-7", "6", 0.00044, 107.0, "0.942", 0.0005, ""),
    ("11-7", "4", 0.00028, 90.0, "0.504", 0.0005, ""),
    ("11-7", "12", 0.00202, 88.0, "3.6", 0.05, ""),
    ("11-7", "14", 0.00306, 100.0, "6.12", 0.005, ""),
    ("11-8", "10, 1 V", 0.00126, 39.0, "0.98", 0.005, ""),
    ("11-8", "10, 4 V", 0.00126, 156.0, "3.93", 0.005, ""),
    ("11-8", "10, 7 V", 0.00126, 273.0, "6.88", 0.005, ""),
)


def drop(ohm_per_foot: float, feet: float) -> float:
    return resistance_voltage_drop(20.0, ohm_per_foot * feet)


CHECKS = [
    Check(
        source="faa-ac-43-13-1b",
        place=f"table {table}, No. {size}",
        quantity=f"drop at 20 A, No. {size}, {feet:g} ft",
        theirs=text,
        ours=partial(drop, ohms, feet),
        unit="V",
        tolerance=tolerance,
        reason=reason,
    )
    for table, size, ohms, feet, text, tolerance, reason in DROPS
] + [
    Check(
        source="faa-ac-43-13-1b",
        place="example 2, page 11-27",
        quantity="current of No. 14 after altitude (0.91) and bundle (0.6)",
        theirs="26",
        ours=lambda: derated_ampacity(47.0, 0.91, 0.6),
        unit="A",
        tolerance=0.5,
    )
]


@each(CHECKS)
def test_a_line_of_the_circular(check: Check) -> None:
    check.holds()
