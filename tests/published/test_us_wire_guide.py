"""A chandler's printed wire guide, table for 10 % drop. Read: the row of a bilge pump, 10 A, 21 ft there and back, 12 V.

The maker of the guide is left out on purpose. It asks for 1881 circular mils and takes 16 AWG.
"""

from __future__ import annotations

from functools import partial

from athwart.power.conductor import CIRCULAR_MIL, awg_at_least, awg_number, us_rule_area
from tests.published._check import Check, each

FOOT = 0.3048


def circular_mils(current: float, loop_feet: float, volts: float, share: float) -> float:
    return us_rule_area(current, loop_feet * FOOT, volts * share) / CIRCULAR_MIL


def size_taken(current: float, loop_feet: float, volts: float, share: float) -> float:
    return float(awg_number(awg_at_least(us_rule_area(current, loop_feet * FOOT, volts * share))))


CHECKS = [
    Check(
        source="us-wire-guide",
        place="10 % table, bilge pump",
        quantity="circular mils, 10 A, 21 ft, 12 V, 10 %",
        theirs="1881.25",
        ours=partial(circular_mils, 10.0, 21.0, 12.0, 0.10),
        unit="cmil",
        tolerance=0.005,
    ),
    Check(
        source="us-wire-guide",
        place="10 % table, bilge pump",
        quantity="AWG taken, 10 A, 21 ft, 12 V, 10 %",
        theirs="16",
        ours=partial(size_taken, 10.0, 21.0, 12.0, 0.10),
        unit="AWG",
        tolerance=0.5,
    ),
]


@each(CHECKS)
def test_the_us_rule_gives_the_guides_size(check: Check) -> None:
    check.holds()
