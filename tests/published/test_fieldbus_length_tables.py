"""Trunk and stub lengths by bit rate: a bus tester's FAQ, a gas-engine controller manual, a PLC terminal manual. Read: excerpts.

Where the three differ (10 and 11 m of stub at 250 kbit/s) the shorter figure is taken.
"""

from __future__ import annotations

from functools import partial

from athwart.network.bus import fieldbus_lengths
from tests.published._check import Check, each

TABLE = {
    1000: ("20", "1", "5"),
    500: ("100", "5", "25"),
    250: ("250", "10", "50"),
    125: ("500", "20", "100"),
    50: ("1000", "50", "250"),
}


def length(rate: int, column: int) -> float:
    return fieldbus_lengths(rate * 1000.0)[column]


CHECKS = [
    Check(
        "fieldbus-length-tables",
        f"{name} at {rate} kbit/s",
        row[column],
        partial(length, rate, column),
        "m",
        0.5,
        "table of lengths",
    )
    for rate, row in TABLE.items()
    for column, name in enumerate(("trunk", "one stub", "all stubs"))
]


@each(CHECKS)
def test_a_length(check: Check) -> None:
    check.holds()
