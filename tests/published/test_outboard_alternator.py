"""An outboard maker's workshop manual: output of a 52 A machine against engine speed (address left out). Read: the curve."""

from __future__ import annotations

from functools import partial

from athwart.power.charger import alternator_output, alternator_speed_share
from tests.published._check import Check, each


def amperes(speed: int) -> float:
    return alternator_output(52.0, alternator_speed_share(float(speed)), 1.0)


CHECKS = [
    Check(
        source="outboard-alternator",
        place=f"curve at {speed} rpm",
        quantity=f"output at {speed} rpm",
        theirs=str(current),
        ours=partial(amperes, speed),
        unit="A",
        tolerance=0.5,
    )
    for speed, current in {600: 21, 1000: 37, 1500: 44, 2000: 48, 2500: 50, 3000: 51, 4000: 52}.items()
]


@each(CHECKS)
def test_a_point_of_the_curve(check: Check) -> None:
    check.holds()
