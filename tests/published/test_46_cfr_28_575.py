"""46 CFR 28.575, Severe wind and roll (United States, fishing vessels), paragraphs (a) and (b).

Read: text in github.com/AlextheYounga/ecfr. Formula and constants are the rule's; the figures at 6 m are worked from them.
"""

from __future__ import annotations

from athwart.vessel.second_opinions import fishing_vessel_pressure, fishing_vessel_wind, implied_drag
from tests.published._check import Check, each

PLACE = "paragraph (a): figure worked from the formula"


def wind() -> float:
    return fishing_vessel_wind(26.0, 6.0)


CHECKS = [
    Check("46-cfr-28-575", "wind at 6 m, unprotected waters", "25.988", wind, "m/s", 5e-4, place=PLACE),
    Check(
        "46-cfr-28-575",
        "pressure at 6 m, gust included",
        "751.7",
        lambda: fishing_vessel_pressure(wind()),
        "Pa",
        0.05,
        place=PLACE,
    ),
    Check(
        "46-cfr-28-575",
        "drag coefficient with the gust's 1.5 taken out",
        "1.2114",
        lambda: implied_drag(fishing_vessel_pressure(wind()) / 1.5, wind()),
        "1",
        5e-5,
        place=PLACE,
    ),
]


@each(CHECKS)
def test_the_rule_for_fishing_vessels(check: Check) -> None:
    check.holds()
