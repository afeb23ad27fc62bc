"""Akumulátory a baterie, page 77, zdroje.elektrika.cz. Read: 4.5 m³/h need openings of 126 cm²."""

from __future__ import annotations

from athwart.power.ventilation import opening_area
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="akumulatory-a-baterie",
        place="page 77",
        quantity="opening for 4.5 m³/h",
        theirs="126",
        ours=lambda: opening_area(4.5 / 3600.0) * 1e4,
        unit="cm²",
        tolerance=0.5,
    )
]


@each(CHECKS)
def test_the_opening(check: Check) -> None:
    check.holds()
