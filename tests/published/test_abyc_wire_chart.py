"""ABYC chart of conductor sizes for 3 % drop at 12 V, as a chandler reprints it. Read: the row of a 10 ft circuit.

Even AWG sizes only. The chandler is left out on purpose.
"""

from __future__ import annotations

from functools import partial

from athwart.power.conductor import awg_at_least, awg_number, us_rule_area
from tests.published._check import Check, each

EVEN = ("18", "16", "14", "12", "10", "8", "6", "4", "2", "1/0", "2/0")
ROW = {5: 18, 10: 14, 15: 12, 20: 12, 25: 10, 30: 10, 40: 8, 50: 8, 60: 6, 70: 6, 80: 6, 90: 4, 100: 4}


def size_taken(current: float) -> float:
    return float(awg_number(awg_at_least(us_rule_area(current, 10.0 * 0.3048, 0.36), EVEN)))


CHECKS = [
    Check(
        source="abyc-wire-chart",
        place="12 V, 3 %, 10 ft of circuit",
        quantity=f"AWG for {current} A",
        theirs=str(size),
        ours=partial(size_taken, float(current)),
        unit="AWG",
        tolerance=0.5,
    )
    for current, size in ROW.items()
]


@each(CHECKS)
def test_the_us_rule_gives_the_charts_row(check: Check) -> None:
    check.holds()
