"""Online encyclopedia of ship technology, entry "bow thruster" (published by a maker of equipment; address left out on purpose).

Read: bow-thruster power of ferries, 0.54 kW for each square metre of lateral windage in the mean. Thrust and beam wind are worked
from it with the shiphandlers' rule and a side coefficient of 0.9.
"""

from __future__ import annotations

from athwart.thruster.disc import FERRY_POWER_DENSITY, thrust_by_power_rule
from athwart.vessel.second_opinions import beam_wind_of_force
from tests.published._check import Check, each


def thrust_density() -> float:
    return thrust_by_power_rule(FERRY_POWER_DENSITY)


CHECKS = [
    Check(
        "bow-thruster-encyclopedia",
        "thrust for each square metre of a mean ferry",
        "71.0",
        thrust_density,
        "N/m²",
        0.05,
        place="power for windage, mean: figure worked from it",
    ),
    Check(
        "bow-thruster-encyclopedia",
        "beam wind that holds",
        "11.35",
        lambda: beam_wind_of_force(thrust_density(), 0.9),
        "m/s",
        0.005,
        place="power for windage, mean: figure worked from it",
    ),
]


@each(CHECKS)
def test_the_mean_ferry(check: Check) -> None:
    check.holds()
