"""BCI table of rest volts and specific gravity of a flooded 12 V block, 26.7 °C: studylib.net/doc/18054160.

Read: the table and its correction of 24 mV for 5.6 K; the same values stand on a battery maker's page.
"""

from __future__ import annotations

from functools import partial

from athwart.power.battery import lead_rest_volts, rest_volts
from athwart.power.battery_data import BCI_REST
from tests.published._check import Check, each


def gravity(charge: float) -> float:
    return next(gravity for soc, _, gravity in BCI_REST if soc == charge)


def correction() -> float:
    return (rest_volts("flooded", 6, 1.0, 299.85) - rest_volts("flooded", 6, 1.0, 299.85 - 5.6)) * 1e3


ROWS = {
    1.0: ("12.65", "1.265"),
    0.75: ("12.45", "1.225"),
    0.5: ("12.24", "1.190"),
    0.25: ("12.06", "1.155"),
    0.0: ("11.89", "1.120"),
}

CHECKS = [
    check
    for charge, (volts, density) in ROWS.items()
    for check in (
        Check(
            source="bci-rest-volts",
            place=f"{charge:.0%} charged",
            quantity=f"rest volts at {charge:.0%}",
            theirs=volts,
            ours=partial(rest_volts, "flooded", 6, charge, 299.85),
            unit="V",
            tolerance=0.005,
        ),
        Check(
            source="bci-rest-volts",
            place=f"{charge:.0%} charged",
            quantity=f"rest volts at {charge:.0%} by the straight line",
            theirs=volts,
            ours=partial(lead_rest_volts, charge),
            unit="V",
            tolerance=0.03,
            reason="a straight line through a slightly curved table",
        ),
        Check(
            source="bci-rest-volts",
            place=f"{charge:.0%} charged",
            quantity=f"specific gravity at {charge:.0%}",
            theirs=density,
            ours=partial(gravity, charge),
            unit="1",
            tolerance=0.0005,
        ),
    )
] + [
    Check(
        source="bci-rest-volts",
        place="correction with temperature",
        quantity="volts a block for 5.6 K",
        theirs="24",
        ours=correction,
        unit="mV",
        tolerance=0.5,
    )
]


@each(CHECKS)
def test_a_row_of_the_table(check: Check) -> None:
    check.holds()
