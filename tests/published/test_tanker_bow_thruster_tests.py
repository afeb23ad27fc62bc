"""Model tests of a 60 000 t tanker with a 1500 hp bow thruster, International Shipbuilding Progress 14 (1967) no. 156.

doi 10.3233/ISP-1967-1415601. Read: the abstract (half the turning moment at 4 knots, the moment of standstill again at 15).
"""

from __future__ import annotations

from functools import partial
from math import pi

from athwart.thruster.disc import jet_speed
from athwart.thruster.speed_loss import moment_left, speed_ratio
from tests.published._check import Check, each

DIAMETER = 2.0
QUALITY = 0.62


def left(knots: float) -> float:
    thrust = QUALITY * (1_103_250.0 * DIAMETER) ** (2.0 / 3.0) * (1025.0 * pi / 2.0) ** (1.0 / 3.0)
    return moment_left(speed_ratio(knots * 0.514444, jet_speed(thrust, DIAMETER)))


CHECKS = [
    Check(
        source="tanker-bow-thruster-tests",
        place="abstract",
        quantity=f"share of the turning moment left at {knots} kn",
        theirs=theirs,
        ours=partial(left, knots),
        unit="1",
        tolerance=0.05,
        reason="" if knots == 0 else "the abstract gives no diameter: 2.0 m and a thrust quality of 0.62 are assumed",
    )
    for knots, theirs in ((0, "1.0"), (4, "0.50"), (15, "1.00"))
]


@each(CHECKS)
def test_the_turning_moment_of_the_tanker(check: Check) -> None:
    check.holds()
