"""A marine supplier's answers to questions on wire size, example 1. Read: that example.

12 V, 10 %, 40 ft circuit, 45 A: 16 125 circular mils, answer 8 AWG. The supplier is left out on purpose.
"""

from __future__ import annotations

from athwart.power.conductor import CIRCULAR_MIL, awg_at_least, awg_number, us_rule_area
from tests.published._check import Check, each


def circular_mils() -> float:
    return us_rule_area(45.0, 40.0 * 0.3048, 1.2) / CIRCULAR_MIL


def size_taken() -> float:
    return float(awg_number(awg_at_least(us_rule_area(45.0, 40.0 * 0.3048, 1.2))))


CHECKS = [
    Check(
        source="us-wire-faq",
        place="example 1",
        quantity="circular mils",
        theirs="16125",
        ours=circular_mils,
        unit="cmil",
        tolerance=0.5,
    ),
    Check(source="us-wire-faq", place="example 1", quantity="AWG", theirs="8", ours=size_taken, unit="AWG", tolerance=0.5),
]


@each(CHECKS)
def test_the_us_rule_gives_the_answers_size(check: Check) -> None:
    check.holds()
