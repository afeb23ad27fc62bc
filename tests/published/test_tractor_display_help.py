"""Help page of a tractor's display on its bus (address not recorded). Read: an excerpt."""

from __future__ import annotations

from athwart.network.bus import bus_resistance
from tests.published._check import Check, each

CHECKS = [
    Check("tractor-display-help", "one terminator missing", 120.0, lambda: bus_resistance(1), "Ω", 0.5, "ohms of the bus"),
]


@each(CHECKS)
def test_a_reading_of_the_bus(check: Check) -> None:
    check.holds()
