"""ISO 8820-3, -4, -5 and -6, road vehicle fuse-links: scopes in standards catalogues.

Read: genorma.com iso:proj:61249, standards.globalspec.com, standards.iteh.ai.
"""

from __future__ import annotations

from functools import partial

from athwart.power.fuse import breaking_capacity_at
from athwart.power.fuse_data import FAMILIES, ISO_8820_5_LEAST, ISO_8820_SCOPES
from tests.published._check import Check, each


def scope(part: int, column: int) -> float:
    return ISO_8820_SCOPES[part][column]


ROWS = {3: (58, 100, 1000), 4: (58, 140, 1000), 5: (32, 500, 2000), 6: (58, 300, 2000)}
NAMES = (("rated volts", "V"), ("largest rating", "A"), ("breaking capacity", "A"))

CHECKS = [
    Check(
        source="iso-8820-scopes",
        place=f"scope of part {part}",
        quantity=f"{name}, part {part}",
        theirs=str(row[column]),
        ours=partial(scope, part, column),
        unit=unit,
        tolerance=0.5,
    )
    for part, row in ROWS.items()
    for column, (name, unit) in enumerate(NAMES)
] + [
    Check(
        source="iso-8820-scopes",
        place="scope of part 5",
        quantity="smallest rating, part 5",
        theirs="30",
        ours=lambda: ISO_8820_5_LEAST,
        unit="A",
        tolerance=0.5,
    ),
    *(
        Check(
            source="iso-8820-scopes",
            place="scope of part 5",
            quantity=f"breaking capacity used for {key} at 28.8 V",
            theirs="2000",
            ours=partial(breaking_capacity_at, FAMILIES[key], 28.8),
            unit="A",
            tolerance=0.5,
        )
        for key in ("bolt-down sf51", "bolt-down sf30")
    ),
]


@each(CHECKS)
def test_a_scope(check: Check) -> None:
    check.holds()
