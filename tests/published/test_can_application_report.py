"""Application report SLOA101B, Introduction to the Controller Area Network, section on common mode. Read: an excerpt."""

from __future__ import annotations

from athwart.network import ground
from tests.published._check import Check, each

PLACE = "section on common mode"
CHECKS = [
    Check(
        "can-common-mode", "lowest volts of a line to a node's negative", -2.0, lambda: ground.COMMON_MODE_LOW, "V", 0.5, PLACE
    ),
    Check(
        "can-common-mode", "highest volts of a line to a node's negative", 7.0, lambda: ground.COMMON_MODE_HIGH, "V", 0.5, PLACE
    ),
]


@each(CHECKS)
def test_the_range_a_node_bears(check: Check) -> None:
    check.holds()
