"""Melting current of a wire by Onderdonk: physicsforums.com thread 364495. Read: the example, 2581 circular mils, 5 s, 25 °C.

The page writes 234 - Ta where 234 + Ta is right, and so prints 178 A. Ours is the right form, 168.9 A; with their slip put
back it gives their figure.
"""

from __future__ import annotations

from math import log10, sqrt

from athwart.power.conductor import CIRCULAR_MIL
from athwart.power.heating import melting_current
from tests.published._check import Check, each


def with_their_slip() -> float:
    right = log10(1.0 + (1083.0 - 25.0) / (234.0 + 25.0))
    slip = log10(1.0 + (1083.0 - 25.0) / (234.0 - 25.0))
    return melting_current(2581.0 * CIRCULAR_MIL, 5.0, 298.15) * sqrt(slip / right)


CHECKS = [
    Check(
        source="onderdonk",
        place="the example of the thread",
        quantity="melting current, 2581 cmil, 5 s, 25 °C, their sign slip put back",
        theirs="178",
        ours=with_their_slip,
        unit="A",
        tolerance=0.5,
    )
]


@each(CHECKS)
def test_the_example_with_its_slip(check: Check) -> None:
    check.holds()
