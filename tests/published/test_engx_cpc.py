"""IET EngX forum, wiring and regulations, thread 30488: S = I √t / k at 0.4 s, k 115. Read: both examples."""

from __future__ import annotations

from functools import partial

from athwart.power.heating import adiabatic_area
from tests.published._check import Check, each


def square_millimetres(current: float) -> float:
    return adiabatic_area(current, 0.4, 115e6) * 1e6


CHECKS = [
    Check(
        source="engx-cpc",
        place=f"example of {current:g} A",
        quantity=f"least cross-section for {current:g} A",
        theirs=text,
        ours=partial(square_millimetres, current),
        unit="mm²",
        tolerance=0.5 * 10.0 ** -len(text.partition(".")[2]),
    )
    for current, text in ((328.0, "1.8"), (120.0, "0.66"))
]


@each(CHECKS)
def test_the_threads_examples(check: Check) -> None:
    check.holds()
