"""An inverter manual's worked example of the ABYC E-11 table: two batteries of 500 A CCA need a main breaker of 3000 A.

Read: that example. The maker is left out on purpose.
"""

from __future__ import annotations

from athwart.power.fault import required_breaking_capacity
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="inverter-manual-breaking",
        place="worked example",
        quantity="breaking capacity of the main device, two batteries of 500 A CCA",
        theirs="3000",
        ours=lambda: required_breaking_capacity(2 * 500.0),
        unit="A",
        tolerance=0.5,
    )
]


@each(CHECKS)
def test_the_manuals_example(check: Check) -> None:
    check.holds()
