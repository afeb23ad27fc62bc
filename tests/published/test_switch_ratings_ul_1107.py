"""Meaning of a battery switch's ratings after UL 1107: marinemechanic.com/site/page216.html. Read: the page."""

from __future__ import annotations

from athwart.power import contact
from tests.published._check import Check, each


def longest(rating: float) -> float:
    """Longest run, in minutes, that may use a rating of a switch of 200 A continuous and 350 A intermittent."""
    runs = [minute for minute in range(1, 200) if contact.switch_rating(200.0, 350.0, minute * 60.0) == rating]
    return float(max(runs))


CHECKS = [
    Check(
        source="switch-ratings-ul-1107",
        place="meaning of the ratings",
        quantity=name,
        theirs=text,
        ours=ours,
        unit=unit,
        tolerance=0.5,
    )
    for name, text, ours, unit in (
        ("continuous", "60", lambda: longest(200.0), "min"),
        ("intermittent", "5", lambda: longest(350.0), "min"),
        ("rise of the terminals", "100", lambda: contact.SWITCH_TERMINAL_RISE, "K"),
        ("rise of the housing", "65", lambda: contact.SWITCH_HOUSING_RISE, "K"),
    )
]


@each(CHECKS)
def test_a_rating(check: Check) -> None:
    check.holds()
