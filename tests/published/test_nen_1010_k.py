"""NEN 1010, table 54: k of copper conductors, witchesandangels.nl/nen1010/cn543.html. Read: the copper columns.

Constants 3.45e-3 J/(K·mm³), 234.5 °C and 17.241e-6 Ω·mm from scribd 310133671.
"""

from __future__ import annotations

from functools import partial

from athwart.power.heating import adiabatic_constant
from tests.published._check import Check, each

ROWS = (
    ("PVC 70 °C, separate", 30, 160, 143),
    ("85 °C rubber, separate", 30, 220, 166),
    ("EPR or XLPE, separate", 30, 250, 176),
    ("PVC 70 °C, core in a cable", 70, 160, 115),
    ("85 °C rubber, core in a cable", 85, 220, 134),
    ("EPR or XLPE, core in a cable", 90, 250, 143),
    ("bare, nothing that burns", 30, 500, 228),
    ("bare, normal surroundings", 30, 200, 159),
    ("bare, where fire is a risk", 30, 150, 138),
)


def constant(start: int, end: int) -> float:
    return adiabatic_constant(start + 273.15, end + 273.15) * 1e-6


CHECKS = [
    Check(
        source="nen-1010-k",
        place=f"table 54, {name}",
        quantity=f"k, {name}, {start} to {end} °C",
        theirs=str(printed),
        ours=partial(constant, start, end),
        unit="A·√s/mm²",
        tolerance=0.5,
    )
    for name, start, end, printed in ROWS
]


@each(CHECKS)
def test_a_k_of_the_table(check: Check) -> None:
    check.holds()
