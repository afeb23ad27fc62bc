"""A text on the selection of circuit breakers (address left out). Read: 12.84 V behind 5 mΩ give 2568 A."""

from __future__ import annotations

from athwart.power.fault import prospective_current
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="isc-breaker-text",
        place="worked example",
        quantity="short circuit of one block",
        theirs="2568",
        ours=lambda: prospective_current(12.84, 0.005),
        unit="A",
        tolerance=0.5,
    )
]


@each(CHECKS)
def test_the_example(check: Check) -> None:
    check.holds()
