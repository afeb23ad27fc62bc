"""UFC 4-159-03 Design: Moorings, table 4-6: transverse current force on a frigate, 1.5 m/s, five depths of water.

Read on the stored pages. Length and draught of the ship are from memory (they fit); the deep-water coefficient is fitted back to
the first figure, for the section it needs is not on the page.
"""

from __future__ import annotations

from functools import partial

from athwart.vessel.shallow import current_side_force, shallow_coefficient
from tests.published._check import Check, each

LENGTH, DRAUGHT, CURRENT, DEEP = 124.4, 4.389, 1.5, 0.85


def force(draught_over_depth: float) -> float:
    return current_side_force(CURRENT, LENGTH, DRAUGHT, shallow_coefficient(DEEP, draught_over_depth)) / 1e6


CHECKS = [
    Check(
        source="ufc-4-159-03",
        place="table 4-6",
        quantity=f"current force on the beam, draught over depth {ratio}",
        theirs=theirs,
        ours=partial(force, ratio),
        unit="MN",
        tolerance=0.006,
        reason="length and draught of the ship from memory",
    )
    for ratio, theirs in ((0.096, "0.55"), (0.288, "0.66"), (0.576, "1.03"), (0.720, "1.30"), (0.960, "1.90"))
]


@each(CHECKS)
def test_a_current_force(check: Check) -> None:
    check.holds()
