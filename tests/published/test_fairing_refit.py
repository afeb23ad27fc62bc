"""A boat owner's account of fairing a bow thruster's tunnel: scyr.org/stellablue, miscellaneous fixes. Read: the page.

Ends are rounded to ten per cent of the diameter; worked here for 250 mm.
"""

from __future__ import annotations

from athwart.thruster.installation import end_radius
from tests.published._check import Check, each

CHECKS = [
    Check("fairing-refit", "rounding of 250 mm", "25", lambda: 1e3 * end_radius(0.250), "mm", 0.5, "text beside the pictures")
]


@each(CHECKS)
def test_the_rounding(check: Check) -> None:
    check.holds()
