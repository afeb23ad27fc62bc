"""An instrument maker's guide to network installation (address left out). Read: an excerpt.

The guide prints 0.0057 Ω/m for the thin cable, ten times less than copper of that size has: a slip that must be refused.
"""

from __future__ import annotations

import pytest

from athwart.network.supply import ALLOWED_DROP, checked_resistance
from athwart.units.gauges import awg_area
from tests.published._check import Check, each

KEY = "marine-network-guide"
CHECKS = [
    Check(KEY, "drop allowed from a 12 V battery", 1.5, lambda: ALLOWED_DROP["12 V battery"], "V", 0.05, "table of supplies"),
    Check(
        KEY,
        "drop allowed from a regulated 13.8 V",
        "3.0",
        lambda: ALLOWED_DROP["regulated 13.8 V"],
        "V",
        0.05,
        "table of supplies",
    ),
]


@each(CHECKS)
def test_a_drop_allowed(check: Check) -> None:
    check.holds()


def test_the_slip_of_the_guide_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot be copper"):
        checked_resistance(0.0057, awg_area(22))
