"""A sailing magazine's answer to a reader on volts lost: sailmagazine.com/diy/ask-sail/groundless-fears. Read: the answer."""

from __future__ import annotations

from athwart.power.rules import OTHER_LIMITS
from tests.published._check import Check, each

CHECKS = [
    Check(
        "sailing-magazine-drop",
        "share of nominal lost at most from bank to motor",
        10.0,
        lambda: 100.0 * OTHER_LIMITS["bank to motor"].value,
        "%",
        0.5,
        "answer",
    ),
]


@each(CHECKS)
def test_the_limit_of_practice(check: Check) -> None:
    check.holds()
