"""A US chandlery's notes on tunnels (address not recorded). Read: an excerpt.

Top of the tunnel half a diameter under water at least, three quarters recommended, one better; length two to four diameters.
The millimetres are these ratios for a tunnel of 185 mm.
"""

from __future__ import annotations

from athwart.thruster.immersion import COVER_CAUTION, COVER_NOTE, COVER_STOP
from athwart.thruster.installation import good_lengths
from tests.published._check import Check, each

KEY = "tunnel-notes"
CHECKS = [
    Check(KEY, "least cover of 185 mm", "92.5", lambda: 185.0 * COVER_STOP, "mm", 0.05, "depth"),
    Check(KEY, "recommended cover of 185 mm", "138.75", lambda: 185.0 * COVER_CAUTION, "mm", 0.005, "depth"),
    Check(KEY, "better cover of 185 mm", "185", lambda: 185.0 * COVER_NOTE, "mm", 0.5, "depth"),
    Check(KEY, "shortest good tunnel of 185 mm", "370", lambda: 1e3 * good_lengths(0.185)[0], "mm", 0.5, "length"),
    Check(KEY, "longest good tunnel of 185 mm", "740", lambda: 1e3 * good_lengths(0.185)[1], "mm", 0.5, "length"),
]


@each(CHECKS)
def test_a_ratio_of_the_notes(check: Check) -> None:
    check.holds()
