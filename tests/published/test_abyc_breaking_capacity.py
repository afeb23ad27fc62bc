"""ABYC E-11, required breaking capacity by connected cold cranking current, 12 and 24 V, as a distributor reprints it.

Read: the three rows. The distributor is left out on purpose.
"""

from __future__ import annotations

from functools import partial

from athwart.power.fault import required_breaking_capacity
from tests.published._check import Check, each

ROWS = ((650, 1500, 750), (651, 3000, 1500), (1100, 3000, 1500), (1101, 5000, 2500), (2000, 5000, 2500))

CHECKS = [
    Check(
        source="abyc-breaking-capacity",
        place=f"{cranking} A of cranking current, {name}",
        quantity=f"breaking capacity, {name}, {cranking} A CCA",
        theirs=str(amperes),
        ours=partial(required_breaking_capacity, float(cranking), name == "branch"),
        unit="A",
        tolerance=0.5,
    )
    for cranking, main, branch in ROWS
    for name, amperes in (("main", main), ("branch", branch))
]


@each(CHECKS)
def test_a_row_of_breaking_capacity(check: Check) -> None:
    check.holds()
