"""A car maker's repair manual on terminal resistors (address not recorded). Read: an excerpt."""

from __future__ import annotations

from athwart.network.bus import bus_resistance
from tests.published._check import Check, each

CHECKS = [
    Check(
        "passenger-car-manual", "two terminators, power off", 60.0, lambda: bus_resistance(2), "Ω", 0.5, "test of the resistors"
    ),
]


@each(CHECKS)
def test_resistance_between_the_lines(check: Check) -> None:
    check.holds()
