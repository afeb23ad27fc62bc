"""ISO 13297, scope: standards.iteh.ai. Read: an excerpt (50 V direct current, craft up to 24 m)."""

from __future__ import annotations

from athwart.power.rules import rule_set
from tests.published._check import Check, each

SET = rule_set("iso small craft")
CHECKS = [
    Check("iso-13297-scope", "greatest volts of the standard", 50.0, lambda: SET.greatest_volts.value, "V", 0.5, "scope"),
    Check(
        "iso-13297-scope",
        "greatest hull",
        24.0,
        lambda: SET.greatest_hull_length.value if SET.greatest_hull_length else 0.0,
        "m",
        0.5,
        "scope",
    ),
]


@each(CHECKS)
def test_where_the_standard_ends(check: Check) -> None:
    check.holds()
