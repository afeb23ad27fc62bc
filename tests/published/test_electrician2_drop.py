"""Lesson on voltage drop, electrician2.com/weltrain05/lpage135.html. Read: two wires of No. 16, 100 ft each way, 4 A, 24 V."""

from __future__ import annotations

from athwart.power.conductor import route_voltage_drop
from tests.published._check import Check, each


def drop() -> float:
    return route_voltage_drop(4.0, 4.99e-3 / 0.3048, 100.0 * 0.3048, 100.0 * 0.3048)


CHECKS = [
    Check(
        source="electrician2-drop",
        place="the example",
        quantity="drop of the pair",
        theirs="4.0",
        ours=drop,
        unit="V",
        tolerance=0.05,
    ),
    Check(
        source="electrician2-drop",
        place="the example",
        quantity="drop as a share of 24 V",
        theirs="16.7",
        ours=lambda: drop() / 24.0 * 100.0,
        unit="%",
        tolerance=0.07,
        reason="the page takes the share of its rounded 4.0 V",
    ),
]


@each(CHECKS)
def test_the_lessons_example(check: Check) -> None:
    check.holds()
