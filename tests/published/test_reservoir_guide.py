"""A supplier's guide to reservoirs: three to five times the pump's flow a minute (address left out). Read: an excerpt."""

from __future__ import annotations

from athwart.hydraulics.oil import reservoir_rule_high, reservoir_rule_low
from tests.published._check import Check, each

FLOW = 80e-3 / 60.0
CHECKS = [
    Check("reservoir-guide", "smaller tank for 80 l/min", 240.0, lambda: 1e3 * reservoir_rule_low(FLOW), "l", 0.5, "example"),
    Check("reservoir-guide", "larger tank for 80 l/min", 400.0, lambda: 1e3 * reservoir_rule_high(FLOW), "l", 0.5, "example"),
]


@each(CHECKS)
def test_the_rule(check: Check) -> None:
    check.holds()
