"""Nicholls's Seamanship and Nautical Knowledge, page 525 (archive.org text). Read: inch trim moment = 30 T²/B.

T tons (of 2240 lb) to the inch of immersion, B breadth in feet, moment in foot-tons.
"""

from __future__ import annotations

from functools import partial

from athwart.vessel.hydrostatics import moment_to_trim_by_rule
from tests.published._check import Check, each

TON = 1016.0469088
INCH = 0.0254
FOOT = 0.3048


def foot_tons_an_inch(tons_an_inch: float, feet: float) -> float:
    return moment_to_trim_by_rule(tons_an_inch * TON / INCH, feet * FOOT) * INCH / (TON * FOOT)


CHECKS = [
    Check("nicholls-seamanship", f"inch trim moment, {tons} tons an inch, {feet} ft of breadth", theirs,
          partial(foot_tons_an_inch, tons, feet), "ft·ton/in", 0.005, place="page 525: figure worked from the rule")
    for tons, feet, theirs in ((2.0, 20.0, "6.00"), (3.0, 18.0, "15.00"), (5.0, 30.0, "25.00"))
] + [
    Check("nicholls-seamanship", "coefficient of the rule in tonnes, metres and centimetres", "6.967",
          lambda: moment_to_trim_by_rule(1e5, 1.0) / 1e5, "1", 5e-4, place="page 525: converted"),
]  # fmt: skip


@each(CHECKS)
def test_the_seamans_rule(check: Check) -> None:
    check.holds()
