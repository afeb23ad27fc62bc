"""Shiphandlers' rule of thumb for thrusters, shiphandlingpro.com/thrusters.

Read: 1000 hp (746 kW) give ten tonnes, 5000 hp give fifty.
"""

from __future__ import annotations

from athwart.thruster.disc import thrust_by_power_rule
from tests.published._check import Check, each

CHECKS = [
    Check("shiphandlers-power-rule", "thrust of 746 kW", "10", lambda: thrust_by_power_rule(746e3) / 9806.65, "tf", 0.5,
          place="rule on thrust and horsepower"),
    Check("shiphandlers-power-rule", "thrust of 3730 kW", "50", lambda: thrust_by_power_rule(3730e3) / 9806.65, "tf", 0.5,
          place="rule on thrust and horsepower"),
    Check("shiphandlers-power-rule", "thrust for each kilowatt", "131.5", lambda: thrust_by_power_rule(1000.0), "N", 0.05,
          place="rule on thrust and horsepower, converted"),
]  # fmt: skip


@each(CHECKS)
def test_the_rule_of_thumb(check: Check) -> None:
    check.holds()
