"""Read-me of an open ship simulator, section on the bow thruster: 160 kW in a 1.0 m tunnel in fresh water, about 21 kN.

Seen as an excerpt, address not recorded. It says 13.5 kgf/kW, inside the usual 10 to 15.
"""

from __future__ import annotations

from athwart.thruster.disc import class_thrust_of, thrust_quality
from tests.published._check import Check, each

CHECKS = [
    Check(
        "river-ship-unit",
        "thrust of 160 kW in 1.0 m, against the class rule for a plain-edged tunnel",
        "21.0",
        lambda: class_thrust_of(160e3, 1.0, inlet="other") / 1000.0,
        "kN",
        0.4,
        place="section on the bow thruster",
        reason="their figure says 'about'; the class rule is another method",
    ),
    Check(
        "river-ship-unit",
        "thrust for each kilowatt, by the class rule",
        "13.5",
        lambda: class_thrust_of(160e3, 1.0, inlet="other") / 9.80665 / 160.0,
        "kgf/kW",
        0.3,
        place="section on the bow thruster",
        reason="their figure says 'about'; the class rule is another method",
    ),
    Check(
        "river-ship-unit",
        "thrust quality of it",
        "0.613",
        lambda: thrust_quality(21_000.0, 160e3, 1.0, 1000.0),
        "1",
        5e-4,
        place="section on the bow thruster: worked from its figures",
    ),
]


@each(CHECKS)
def test_the_unit_of_a_river_ship(check: Check) -> None:
    check.holds()
