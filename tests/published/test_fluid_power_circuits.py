"""Cundiff and Kocher, Fluid Power Circuits and Controls, chapter 9, abstract. Read: the abstract.

taylorfrancis.com/chapters/mono/10.1201/9780429183706-9
"""

from __future__ import annotations

from functools import partial

from athwart.hydraulics.lines import BURST_RATIO, speed_limit, working_pressure
from tests.published._check import Check, each


def book(kind: str) -> float:
    return speed_limit(kind).book


def ratio(duty: str) -> float:
    return 400e5 / working_pressure(400e5, BURST_RATIO[duty])


KEY, PLACE = "fluid-power-circuits", "abstract of chapter 9"
CHECKS = [
    Check(KEY, f"speed in a {kind} line", theirs, partial(book, kind), "m/s", 0.05, PLACE)
    for kind, theirs in (("pressure", "4.5"), ("return", "3.0"), ("suction", "1.2"))
] + [
    Check(KEY, f"burst over working pressure, {duty}", theirs, partial(ratio, duty), "1", 0.5, PLACE)
    for duty, theirs in (("normal", "4"), ("severe", "6"), ("severe and hazardous", "8"))
]


@each(CHECKS)
def test_a_limit_of_the_book(check: Check) -> None:
    check.holds()
