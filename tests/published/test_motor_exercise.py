"""Exercise on the back electromotive force of a motor, meritnation.com question 4921996. Read: 460 V, 0.15 Ω, both answers."""

from __future__ import annotations

from athwart.power.motor import back_emf, stalled_current
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="motor-exercise",
        place="first answer",
        quantity="generated volts at 120 A",
        theirs="442",
        ours=lambda: back_emf(460.0, 120.0, 0.15),
        unit="V",
        tolerance=0.5,
    ),
    Check(
        source="motor-exercise",
        place="second answer",
        quantity="current at 447.4 V generated",
        theirs="84",
        ours=lambda: stalled_current(460.0, 447.4, 0.15),
        unit="A",
        tolerance=0.5,
    ),
]


@each(CHECKS)
def test_the_exercises_answers(check: Check) -> None:
    check.holds()
