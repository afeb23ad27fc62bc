"""An emergency-lighting supplier's example of IEC 62485-2: 108 sealed cells of 50 Ah at float. Read: that example.

The supplier is left out on purpose.
"""

from __future__ import annotations

from athwart.power.ventilation import air_flow, gas_current, opening_area
from tests.published._check import Check, each


def air() -> float:
    return air_flow(108, gas_current("sealed", "float"), 50.0 * 3600.0)


CHECKS = [
    Check(
        source="emergency-lighting-air",
        place="worked example",
        quantity="air for 108 sealed cells of 50 Ah at float",
        theirs="0.27",
        ours=lambda: air() * 3600.0,
        unit="m³/h",
        tolerance=0.005,
    ),
    Check(
        source="emergency-lighting-air",
        place="worked example",
        quantity="openings for it",
        theirs="7.56",
        ours=lambda: opening_area(air()) * 1e4,
        unit="cm²",
        tolerance=0.005,
    ),
]


@each(CHECKS)
def test_the_suppliers_example(check: Check) -> None:
    check.holds()
