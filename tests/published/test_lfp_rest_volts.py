"""Cell table of lithium iron phosphate in an open-source telemetry script. Read: 24 points, of which nine are used.

Its last point, 3.59 V, is the charged and not the rested one and is not used.
"""

from __future__ import annotations

from functools import partial

from athwart.power.battery import rest_volts
from tests.published._check import Check, each

ROWS = {
    0.0535: "3.12",
    0.0963: "3.17",
    0.1824: "3.20",
    0.3124: "3.24",
    0.3983: "3.263",
    0.5274: "3.272",
    0.6992: "3.280",
    0.7854: "3.304",
    0.9147: "3.316",
}

CHECKS = [
    Check(
        source="lfp-rest-volts",
        place=f"state of charge {charge}",
        quantity=f"rest volts of a cell at {charge}",
        theirs=text,
        ours=partial(rest_volts, "lfp", 1, charge),
        unit="V",
        tolerance=0.5 * 10.0 ** -len(text.partition(".")[2]),
    )
    for charge, text in ROWS.items()
]


@each(CHECKS)
def test_a_point_of_the_cell_table(check: Check) -> None:
    check.holds()
