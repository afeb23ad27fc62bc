"""A boat owner's page on voltage drop by the metric rule. Read: the masthead light, 1.6 A, 22 m there and back, 1.5 mm².

The page works E = 0.0164 I L / S and prints 0.38 V, cut off where 0.385 would round up.
"""

from __future__ import annotations

from athwart.power.conductor import metric_rule_voltage_drop
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="owner-metric-drop",
        place="example of a masthead light",
        quantity="drop, 1.6 A, 22 m there and back, 1.5 mm²",
        theirs="0.38",
        ours=lambda: metric_rule_voltage_drop(1.6, 22.0, 1.5e-6),
        unit="V",
        tolerance=0.006,
        reason="the page cuts the third digit off instead of rounding it: its own figures give 0.385",
    )
]


@each(CHECKS)
def test_the_metric_rule_gives_the_pages_drop(check: Check) -> None:
    check.holds()
