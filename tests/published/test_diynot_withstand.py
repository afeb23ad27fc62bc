"""Forum answer on the withstand of 2.5 and 1.5 mm² cable, k 115: diynot.com thread 53639. Read: both figures.

For 2.5 mm² the page prints 82 856, a slip of digits: 115² x 2.5² is 82 656.
"""

from __future__ import annotations

from athwart.power.heating import cable_withstand
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="diynot-withstand",
        place="the answer, 2.5 mm²",
        quantity="k²S² of 2.5 mm²",
        theirs="82856",
        ours=lambda: cable_withstand(2.5e-6, 115e6),
        unit="A²s",
        tolerance=200.0,
        reason="the page's own factors give 82 656: two digits are the slip",
    ),
    Check(
        source="diynot-withstand",
        place="the answer, 1.5 mm²",
        quantity="k²S² of 1.5 mm²",
        theirs="3.0e4",
        ours=lambda: cable_withstand(1.5e-6, 115e6),
        unit="A²s",
        tolerance=500.0,
    ),
]


@each(CHECKS)
def test_the_answers_withstand(check: Check) -> None:
    check.holds()
