"""46 CFR 183.340, Cable and wiring requirements of small passenger vessels. Read: laws9.com/cfr/text/46/183/340, edocket."""

from __future__ import annotations

from functools import partial

from athwart.power.rules import OTHER_LIMITS
from tests.published._check import Check, each


def printed(key: str, scale: float) -> float:
    return OTHER_LIMITS[key].value * scale


ROWS = (
    ("small passenger vessel power conductor", "14", 1.0, "AWG"),
    ("small passenger vessel control conductor", "22", 1.0, "AWG"),
    ("small passenger vessel supports", "610", 1000.0, "mm"),
)

CHECKS = [
    Check(
        source="46-cfr-183-340",
        place="46 CFR 183.340",
        quantity=key,
        theirs=text,
        ours=partial(printed, key, scale),
        unit=unit,
        tolerance=0.005 if "." in text else 0.5,
    )
    for key, text, scale, unit in ROWS
]


@each(CHECKS)
def test_a_limit_of_the_law(check: Check) -> None:
    check.holds()
