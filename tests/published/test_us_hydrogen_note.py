"""A public note on the ventilation of battery rooms (address left out). Read: 100 vented cells at 50 A, 79 ft³/h."""

from __future__ import annotations

from athwart.power.ventilation import hydrogen_made
from tests.published._check import Check, each

FOOT = 0.3048

CHECKS = [
    Check(
        source="us-hydrogen-note",
        place="worked example",
        quantity="hydrogen of 100 cells at 50 A",
        theirs="79",
        ours=lambda: hydrogen_made(50.0, 100) * 3600.0 / FOOT**3,
        unit="ft³/h",
        tolerance=0.5,
    ),
]


@each(CHECKS)
def test_the_notes_example(check: Check) -> None:
    check.holds()
