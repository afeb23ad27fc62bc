"""Battery makers' manuals after IEEE 450 and IEEE 484, three of them (addresses left out).

Read: a new joint is remade above the average by 10 % or 5 µΩ, the greater; 20 % of growth is corrected; straps of 0.3 m.
"""

from __future__ import annotations

from functools import partial

from athwart.power.contact import STRAPS, aged_joint_limit, new_joint_limit
from tests.published._check import Check, each


def micro_ohms(average: float) -> float:
    return new_joint_limit(average * 1e-6) * 1e6


CHECKS = [
    *(
        Check(
            source="battery-joint-rule",
            place="new connections",
            quantity=f"limit beside an average of {average:g} µΩ",
            theirs=text,
            ours=partial(micro_ohms, average),
            unit="µΩ",
            tolerance=0.5,
        )
        for average, text in ((30.0, "35"), (80.0, "88"))
    ),
    Check(
        source="battery-joint-rule",
        place="later readings",
        quantity="growth to be corrected",
        theirs="20",
        ours=lambda: (aged_joint_limit(1.0) - 1.0) * 100.0,
        unit="%",
        tolerance=0.5,
    ),
    *(
        Check(
            source="battery-joint-rule",
            place="intercell straps",
            quantity=f"strap {number + 1}",
            theirs=text,
            ours=lambda number=number: STRAPS[number] * 1e6,  # type: ignore[misc]
            unit="µΩ",
            tolerance=0.5,
        )
        for number, text in enumerate(("19", "31", "48"))
    ),
]


@each(CHECKS)
def test_a_rule_of_the_manuals(check: Check) -> None:
    check.holds()
