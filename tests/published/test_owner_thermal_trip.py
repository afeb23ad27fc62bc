"""A boat owner's report of a thruster that stops after several bursts. Public forum, address not recorded. Read: the thread."""

from __future__ import annotations

from athwart.power.drive import constant_power_current
from tests.published._check import Check, each

CHECKS = [
    Check(
        "owner-thermal-trip", "12 kW at 24 V", 500.0, lambda: constant_power_current(24.0, 0.0, 12_000.0), "A", 0.5, "first post"
    ),
]


@each(CHECKS)
def test_the_current(check: Check) -> None:
    check.holds()
