"""A boat owner's question on a long network of 22 AWG, in a public forum (address not recorded). Read: the thread.

One per cent, 0.12 V, allows 350 mA, seven load units, on a leg of 10 ft and some.
"""

from __future__ import annotations

from athwart.network.supply import load_units, pair_drop
from tests.published._check import Check, each

CHECKS = [
    Check("owner-thin-trunk", "350 mA on 10.6 ft", 0.12, lambda: pair_drop(0.35, 10.6 * 0.3048, 0.053), "V", 0.005, "first post"),
    Check("owner-thin-trunk", "load units of 350 mA", 7.0, lambda: load_units(0.35), "1", 0.5, "first post"),
]


@each(CHECKS)
def test_the_leg(check: Check) -> None:
    check.holds()
