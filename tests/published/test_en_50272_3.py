"""EN 50272-3, traction batteries, as a battery supplier's page explains it: v = 24, q = 0.42e-3 m³/Ah, s = 5.

Read: the three factors. The supplier is left out on purpose.
"""

from __future__ import annotations

from athwart.power.ventilation import air_per_charge
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="en-50272-3",
        place="factors of the air formula",
        quantity="product v q s",
        theirs="0.0504",
        ours=lambda: air_per_charge() * 3600.0,
        unit="m³/Ah",
        tolerance=0.00005,
    )
]


@each(CHECKS)
def test_the_product_of_the_factors(check: Check) -> None:
    check.holds()
