"""Two articles on the care of boat batteries, rest volts of 12 V lead. Read: both.

marineenginedigest.com/diy/Bow-Thruster-Maintenance.htm (full); safe-skipper.com/care-of-boat-batteries (the others).
"""

from __future__ import annotations

from functools import partial

from athwart.power.battery import lead_rest_volts
from tests.published._check import Check, each

REASON = "rounded rules of thumb; 12.5 V for three quarters is high, tables of the trade have 12.4 to 12.45 V"
CHECKS = [
    Check("rest-volts-rules", f"rest volts at {share:.0%}", volts, partial(lead_rest_volts, share), "V", 0.1, "text", REASON)
    for share, volts in ((1.0, "12.6"), (0.75, "12.5"), (0.5, "12.2"))
]


@each(CHECKS)
def test_the_rule_of_thumb(check: Check) -> None:
    check.holds()
