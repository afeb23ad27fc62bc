"""Exercise: 5 Ω of copper wire from 20 to 50 °C, assignmentexpert.com question-204167. Read: the question and its answer.

It takes the handbook's coefficient of the element, 0.004041 1/K; cable standards, and this program, take 0.00393.
"""

from __future__ import annotations

from athwart.power.conductor import conductor_resistance
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="copper-element-coefficient",
        place="the answer",
        quantity="resistance at 50 °C of 5 Ω at 20 °C",
        theirs="5.606",
        ours=lambda: conductor_resistance(5.0, 1.0, 323.15),
        unit="Ω",
        tolerance=0.02,
        reason="0.00393 instead of 0.004041 1/K over 30 K is 0.3 % less",
    )
]


@each(CHECKS)
def test_the_exercises_answer(check: Check) -> None:
    check.holds()
