"""46 CFR 170.170, Weather criterion (United States, passenger and other vessels), paragraph (a).

Read: codes.findlaw.com, title 46, section 170.170. The formula P = a + (L/1309)² in long practice of tonnes on a square metre;
the figures for 20 m are worked from it.
"""

from __future__ import annotations

from functools import partial

from athwart.vessel.second_opinions import passenger_vessel_pressure
from tests.published._check import Check, each


def tonnes(exposure: float) -> float:
    return passenger_vessel_pressure(exposure, 20.0) / 9806.65


CHECKS = [
    Check(
        "46-cfr-170-170",
        f"pressure for 20 m, {where}",
        theirs,
        partial(tonnes, exposure),
        "t/m²",
        5e-8,
        place="paragraph (a): figure worked from the formula",
    )
    for where, exposure, theirs in (
        ("exposed", 0.055, "0.0552334"),
        ("partially protected", 0.036, "0.0362334"),
        ("protected", 0.028, "0.0282334"),
    )
] + [
    Check(
        "46-cfr-170-170",
        f"pressure for 20 m in pascal, {where}",
        theirs,
        partial(passenger_vessel_pressure, exposure, 20.0),
        "Pa",
        0.005,
        place="paragraph (a): figure worked from the formula",
    )
    for where, exposure, theirs in (
        ("exposed", 0.055, "541.66"),
        ("partially protected", 0.036, "355.33"),
        ("protected", 0.028, "276.88"),
    )
]


@each(CHECKS)
def test_the_weather_criterion_for_passenger_vessels(check: Check) -> None:
    check.holds()
