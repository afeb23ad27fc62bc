"""ISO 13590:2018, Small craft, personal watercraft: overcurrent protection. Read: a public extract."""

from __future__ import annotations

from functools import partial

from athwart.power.rules import OTHER_LIMITS
from tests.published._check import Check, each


def printed(key: str, scale: float) -> float:
    return OTHER_LIMITS[key].value * scale


ROWS = (
    ("personal watercraft plain", "180", 1000.0, "mm"),
    ("personal watercraft sheathed", "500", 1000.0, "mm"),
    ("personal watercraft battery", "900", 1000.0, "mm"),
    ("personal watercraft ceiling", "150", 100.0, "%"),
)

CHECKS = [
    Check(
        source="iso-13590",
        place="electrical clause",
        quantity=key,
        theirs=text,
        ours=partial(printed, key, scale),
        unit=unit,
        tolerance=0.005 if "." in text else 0.5,
    )
    for key, text, scale, unit in ROWS
]


@each(CHECKS)
def test_a_limit_of_the_standard(check: Check) -> None:
    check.holds()
