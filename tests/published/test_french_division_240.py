"""French Divisions 240 and 244: etalab/lois-non-codifiees-et-reglements-francais.

Read: articles 240-2.31, 240-2.39, 244-2.19 and 244-2.24.
"""

from __future__ import annotations

from functools import partial

from athwart.power.rules import OTHER_LIMITS
from athwart.power.ventilation import space_demand
from tests.published._check import Check, each


def printed(key: str) -> float:
    return OTHER_LIMITS[key].value * 100.0


def first_power(words: str) -> float:
    """Least charging power, in watts, at which the rule asks for this."""
    return float(next(watt for watt in range(100, 4000) if words in space_demand(watt)))


CHECKS = [
    *(
        Check(
            source="french-division-240",
            place=place,
            quantity=key,
            theirs=text,
            ours=partial(printed, key),
            unit="%",
            tolerance=0.5,
        )
        for key, text, place in (
            ("french drop", "5", "article 240-2.31"),
            ("french supply low", "-10", "article 240-2.31"),
            ("french supply high", "20", "article 240-2.31"),
        )
    ),
    Check(
        source="french-division-240",
        place="article 240-2.39",
        quantity="charging power above which the compartment is ventilated",
        theirs="0.2",
        ours=lambda: (first_power("ventilated") - 1.0) / 1e3,
        unit="kW",
        tolerance=0.05,
    ),
    Check(
        source="french-division-240",
        place="article 244-2.24",
        quantity="charging power above which the compartment is its own",
        theirs="2.0",
        ours=lambda: (first_power("of its own") - 1.0) / 1e3,
        unit="kW",
        tolerance=0.05,
    ),
]


@each(CHECKS)
def test_a_limit_of_the_rules(check: Check) -> None:
    check.holds()
