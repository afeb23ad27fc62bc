"""ISO 12217-1, Small craft: stability and buoyancy assessment and categorization, worksheet 7 of a filled-in set.

Read: scribd.com/document/578669663 (lateral area 14 m², waterline 7.9 m, draught 0.54 m, 17 m/s, and the formula of the moment).
The sheet prints heel angles only; moment, force and drag are worked from its inputs by its formula.
"""

from __future__ import annotations

from athwart.vessel.second_opinions import SMALL_CRAFT_PRESSURE, implied_drag, small_craft_heeling_moment
from tests.published._check import Check, each

PLACE = "worksheet 7: figure worked from its inputs and formula"

CHECKS = [
    Check("iso-12217-1", "heeling moment of the wind", "2806.5", lambda: small_craft_heeling_moment(14.0, 7.9, 0.54, 17.0),
          "N·m", 0.05, place=PLACE),
    Check("iso-12217-1", "side force in it", "1213.8",
          lambda: small_craft_heeling_moment(14.0, 7.9, 0.54, 17.0) / (14.0 / 7.9 + 0.54), "N", 0.05, place=PLACE),
    Check("iso-12217-1", "drag coefficient in it", "0.4898", lambda: implied_drag(SMALL_CRAFT_PRESSURE * 17.0**2, 17.0),
          "1", 5e-5, place=PLACE),
]  # fmt: skip


@each(CHECKS)
def test_the_worksheet(check: Check) -> None:
    check.holds()
