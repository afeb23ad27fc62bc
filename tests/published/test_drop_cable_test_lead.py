"""Support page on a test lead for drop cables (address not recorded). Read: an excerpt."""

from __future__ import annotations

from athwart.network.supply import ALLOWED_DROP, LEAST_NODE_VOLTS, MOST_NODE_VOLTS
from tests.published._check import Check, each

KEY = "drop-cable-test-lead"
CHECKS = [
    Check(KEY, "least volts at a node", "9.0", lambda: LEAST_NODE_VOLTS, "V", 0.05, "limits of the test"),
    Check(KEY, "most volts at a node", 16.0, lambda: MOST_NODE_VOLTS, "V", 0.5, "limits of the test"),
    Check(KEY, "drop from a 12 V battery", 1.5, lambda: ALLOWED_DROP["12 V battery"], "V", 0.05, "limits of the test"),
]


@each(CHECKS)
def test_a_limit_of_the_test_lead(check: Check) -> None:
    check.holds()
