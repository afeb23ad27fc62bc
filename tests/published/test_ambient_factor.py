"""Correction of a conductor's current for warm air by the root of temperature differences. Read: 90 °C, 30 to 50 °C."""

from __future__ import annotations

from athwart.power.ampacity import ambient_factor
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="ambient-factor",
        place="example of 90 °C insulation",
        quantity="factor, 90 °C insulation, air at 50 instead of 30 °C",
        theirs="0.816",
        ours=lambda: ambient_factor(363.15, 323.15, 303.15),
        unit="1",
        tolerance=0.0005,
    )
]


@each(CHECKS)
def test_the_example_of_the_factor(check: Check) -> None:
    check.holds()
