"""EN 50272-2, table of gas-making currents, in a reprint (address left out). Read: all six with their factors."""

from __future__ import annotations

from functools import partial

from athwart.power.ventilation import gas_current
from tests.published._check import Check, each


def milliamperes(kind: str, stage: str) -> float:
    return gas_current(kind, stage) * 3.6e6


ROWS = {"vented": (5, 20), "sealed": (1, 8), "vented nicd": (5, 50)}

CHECKS = [
    Check(
        source="en-50272-2-gas",
        place=f"{kind}, {stage}",
        quantity=f"gas current, {kind}, {stage}",
        theirs=str(printed),
        ours=partial(milliamperes, kind, stage),
        unit="mA/Ah",
        tolerance=0.5,
    )
    for kind, pair in ROWS.items()
    for stage, printed in zip(("float", "boost"), pair, strict=True)
]


@each(CHECKS)
def test_a_gas_current(check: Check) -> None:
    check.holds()
