"""Intact stability code of the International Maritime Organization, chapter 2.3, severe wind and rolling; pontoons.

Read: study cards on the chapter (brainscape.com 14341219: 504 Pa steady, lever times 1.5 for gusts) and a designers' thread
(boatdesign.net 51319: 540 Pa for pontoons, said to be 30 m/s).
"""

from __future__ import annotations

from athwart.vessel.second_opinions import (
    IMO_GUST,
    fishing_vessel_pressure,
    fishing_vessel_wind,
    implied_drag,
)
from tests.published._check import Check, each

CHECKS = [
    Check(
        "imo-weather-criterion",
        "steady pressure, against the fishing-vessel rule at 6 m without its gust",
        "504",
        lambda: fishing_vessel_pressure(fishing_vessel_wind(26.0, 6.0)) / IMO_GUST,
        "Pa",
        5.0,
        place="2.3, steady wind pressure",
        reason="two rules made independently: they agree within 1 %",
    ),
    Check(
        "imo-weather-criterion",
        "drag coefficient in the pontoon figure",
        "0.9796",
        lambda: implied_drag(540.0, 30.0),
        "1",
        5e-5,
        place="pontoons: worked from 540 Pa in 30 m/s",
    ),
]


@each(CHECKS)
def test_the_weather_criterion(check: Check) -> None:
    check.holds()
