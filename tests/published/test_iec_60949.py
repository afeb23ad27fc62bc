"""IEC 949:1988, adiabatic constants K and β, as cable engineers quote them: dxdlw.com thread 34512. Read: that quotation."""

from __future__ import annotations

from functools import partial
from math import e

from athwart.power.conductor import COPPER_ZERO
from athwart.power.heating import IEC_949, adiabatic_constant
from tests.published._check import Check, each


def largest_constant() -> float:
    """K is k where the logarithm is one."""
    start = 293.15
    return adiabatic_constant(start, COPPER_ZERO + e * (start - COPPER_ZERO)) * 1e-6


def of_metal(metal: str, number: int) -> float:
    return IEC_949[metal][number]


CHECKS = [
    Check(
        source="iec-60949",
        place="constants of copper",
        quantity="K of copper from the heat capacity and resistivity used here",
        theirs="226",
        ours=largest_constant,
        unit="A·√s/mm²",
        tolerance=0.5,
    ),
    *(
        Check(
            source="iec-60949",
            place=f"constants of {metal}",
            quantity=f"{name} of {metal}",
            theirs=text,
            ours=partial(of_metal, metal, number),
            unit=unit,
            tolerance=0.05 if "." in text else 0.5,
        )
        for metal, pair in {"copper": ("226", "234.5"), "aluminium": ("148", "228"), "steel": ("78", "202")}.items()
        for number, (name, unit, text) in enumerate((("K", "A·√s/mm²", pair[0]), ("β", "°C", pair[1])))
    ),
]


@each(CHECKS)
def test_a_constant_of_the_standard(check: Check) -> None:
    check.holds()
