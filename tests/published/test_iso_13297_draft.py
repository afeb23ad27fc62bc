"""Draft revision of ISO 13297: standardsdevelopment.bsigroup.com/projects/2025-01277. Read: the announcement of the project."""

from __future__ import annotations

from athwart.power.rules import OTHER_LIMITS
from tests.published._check import Check, each

CHECKS = [
    Check("iso-13297-draft", "highest volts", 60.0, lambda: OTHER_LIMITS["iso small craft draft"].value, "V", 0.5, "scope"),
]


@each(CHECKS)
def test_where_the_draft_ends(check: Check) -> None:
    check.holds()
