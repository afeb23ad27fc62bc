"""An engine maker's electronic installation manual, page 235, on the J1939-11 bus (address left out). Read: an excerpt."""

from __future__ import annotations

from athwart.network.bus import TERMINATOR, profile
from tests.published._check import Check, each

VEHICLE = profile("J1939-11")
KEY = "engine-installation-manual"
CHECKS = [
    Check(KEY, "longest trunk", 40.0, lambda: VEHICLE.trunk.value or 0.0, "m", 0.5, "page 235"),
    Check(KEY, "longest stub", 1.0, lambda: VEHICLE.drop.value or 0.0, "m", 0.5, "page 235"),
    Check(KEY, "average load", 40.0, lambda: 100.0 * (VEHICLE.load_share.value or 0.0), "%", 0.5, "page 235"),
    Check(KEY, "terminator", 120.0, lambda: TERMINATOR, "Ω", 0.5, "page 235"),
]


@each(CHECKS)
def test_a_limit_of_the_vehicle_bus(check: Check) -> None:
    check.holds()
