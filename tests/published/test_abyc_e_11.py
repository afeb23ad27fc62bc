"""ABYC E-11, distances of fuses: a marine consultant's essay (7 and 72 in) and a supplier's note (7, 40, 72 in). Read: those.

Wire charts quoting the standard give 3 and 10 % of drop. Addresses left out.
"""

from __future__ import annotations

from athwart.power.rules import RULE_SETS
from tests.published._check import Check, each

US = RULE_SETS["us"]

CHECKS = [
    Check(
        source="abyc-e-11",
        place="7-40-72 note",
        quantity=f"fuse distance, {name}",
        theirs=text,
        ours=lambda limit=limit: limit.value / 0.0254,  # type: ignore[misc]
        unit="in",
        tolerance=0.5,
    )
    for name, text, limit in (
        ("plain", "7", US.fuse_distance_plain),
        ("sheathed", "40", US.fuse_distance_sheathed),
        ("sheathed, from a battery terminal", "72", US.fuse_distance_battery),
    )
] + [
    Check(
        source="abyc-e-11",
        place="wire charts",
        quantity=f"drop, {name}",
        theirs=text,
        ours=lambda limit=limit: limit.value * 100.0,  # type: ignore[misc]
        unit="%",
        tolerance=0.5,
    )
    for name, text, limit in (("critical circuits", "3", US.drop_critical), ("other circuits", "10", US.drop_other))
]


@each(CHECKS)
def test_a_distance_or_drop(check: Check) -> None:
    check.holds()
