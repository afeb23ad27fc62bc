"""Loss coefficients of rounded entries by two handbooks (Crane TP 410; Idelchik), as tables in github.com/CalebBell/fluids.

Read: fluids/fittings.py, entrance_rounded.
"""

from __future__ import annotations

from functools import partial

from athwart.thruster.tunnel import entry_loss, entry_loss_second_table
from tests.published._check import Check, each

FIRST = (("0.5", 0.0), ("0.28", 0.02), ("0.24", 0.04), ("0.15", 0.06), ("0.09", 0.10), ("0.04", 0.15))
SECOND = (
    ("0.5", 0.0),
    ("0.44", 0.01),
    ("0.37", 0.02),
    ("0.31", 0.03),
    ("0.26", 0.04),
    ("0.22", 0.05),
    ("0.20", 0.06),
    ("0.15", 0.08),
    ("0.09", 0.12),
    ("0.06", 0.16),
    ("0.03", 0.20),
)

CHECKS = [
    Check(
        "entry-loss-tables",
        f"entry loss, first table, r/D {ratio:g}",
        theirs,
        partial(entry_loss, ratio),
        "1",
        0.005,
        place=f"Crane, r/D {ratio:g}",
    )
    for theirs, ratio in FIRST
] + [
    Check(
        "entry-loss-tables",
        f"entry loss, second table, r/D {ratio:g}",
        theirs,
        partial(entry_loss_second_table, ratio),
        "1",
        0.005,
        place=f"Idelchik, r/D {ratio:g}",
    )
    for theirs, ratio in SECOND
]


@each(CHECKS)
def test_an_entry_loss(check: Check) -> None:
    check.holds()
