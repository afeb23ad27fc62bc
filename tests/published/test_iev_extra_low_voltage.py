"""International Electrotechnical Vocabulary, entry extra-low voltage: std.iec.ch/iev. Read: the entry."""

from __future__ import annotations

from athwart.power.rules import OTHER_LIMITS
from tests.published._check import Check, each

KEY = "iev-extra-low-voltage"
CHECKS = [
    Check(KEY, "limit of a.c.", 50.0, lambda: OTHER_LIMITS["extra-low voltage a.c."].value, "V", 0.5, "note of the entry"),
    Check(
        KEY,
        "limit of ripple-free d.c.",
        120.0,
        lambda: OTHER_LIMITS["extra-low voltage d.c."].value,
        "V",
        0.5,
        "note of the entry",
    ),
]


@each(CHECKS)
def test_where_extra_low_voltage_ends(check: Check) -> None:
    check.holds()
