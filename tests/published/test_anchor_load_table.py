"""Anchor loads by length of boat and wind, the table known as H-40.

Read: waterwayguide.com/knowledge-center/news-post/8369, horizontal loads in pounds-force at 15, 30 and 60 knots. Compared with
the one-line fit of it on another page (alain.fraysse.free.fr/sail/rode/forces/forces_b.htm), which says it keeps within 5 %.
"""

from __future__ import annotations

from functools import partial

from athwart.vessel.second_opinions import anchor_load
from tests.published._check import Check, each

LENGTHS = (20, 30, 40, 50)
TABLE = {15: ("90", "175", "300", "400"), 30: ("360", "700", "1200", "1600"), 60: ("1440", "2800", "4800", "6400")}


def pounds(feet: int, knots: int) -> float:
    return anchor_load(feet * 0.3048, knots * 0.514444) / 4.4482216152605


CHECKS = [
    Check(
        source="anchor-load-table",
        place=f"{feet} ft, {knots} knots",
        quantity=f"anchor load of a {feet} ft boat in {knots} kn",
        theirs=theirs,
        ours=partial(pounds, feet, knots),
        unit="lbf",
        tolerance=0.05 * float(theirs),
        reason="the fit says of itself that it keeps within 5 % of the table",
    )
    for knots, row in TABLE.items()
    for feet, theirs in zip(LENGTHS, row, strict=True)
]


@each(CHECKS)
def test_the_fit_keeps_to_the_table(check: Check) -> None:
    check.holds()
