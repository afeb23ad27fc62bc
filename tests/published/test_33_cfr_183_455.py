"""33 CFR 183.455, Overcurrent protection: general, paragraphs (b) and (c). self-law.org section 183.455. Read: the section."""

from __future__ import annotations

from functools import partial

from athwart.power.rules import RULE_SETS, fuse_ceiling
from tests.published._check import Check, each

US = RULE_SETS["us"]


def inches(at_battery: bool, sheathed: bool) -> float:
    return US.fuse_distance(at_battery=at_battery, sheathed=sheathed).value / 0.0254


CHECKS = [
    Check(
        source="33-cfr-183-455",
        place="paragraph (b)",
        quantity="distance from the source",
        theirs="7",
        ours=partial(inches, False, False),
        unit="in",
        tolerance=0.5,
    ),
    Check(
        source="33-cfr-183-455",
        place="paragraph (b)",
        quantity="distance where the conductor is enclosed",
        theirs="40",
        ours=partial(inches, False, True),
        unit="in",
        tolerance=0.5,
    ),
    Check(
        source="33-cfr-183-455",
        place="paragraph (c)(1)",
        quantity="rating against the conductor's current, below 50 V",
        theirs="150",
        ours=lambda: 100.0 * fuse_ceiling(US, 1.0, 24.0),
        unit="%",
        tolerance=0.5,
    ),
    Check(
        source="33-cfr-183-455",
        place="paragraph (c)(2)",
        quantity="rating against the conductor's current, from 50 V on",
        theirs="100",
        ours=lambda: 100.0 * fuse_ceiling(US, 1.0, 50.0),
        unit="%",
        tolerance=0.5,
    ),
]


@each(CHECKS)
def test_a_limit_of_the_law(check: Check) -> None:
    check.holds()
