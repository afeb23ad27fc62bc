"""33 CFR 183.425 table 5, 105 °C column inside engine spaces (factor 0.85), as a cable maker's UL 1426 table prints it.

Read: that column, sizes 6 to 4/0. The maker is left out on purpose.
"""

from __future__ import annotations

from functools import partial

from athwart.power.ampacity import awg_ampacity
from tests.published._check import Check, each

ROWS = {"6": "102", "4": "136", "2": "178.5", "1": "208.3", "1/0": "242.3", "2/0": "280.5", "3/0": "327.3", "4/0": "378.3"}


def amperes(size: str) -> float:
    return awg_ampacity(size, 378.15, engine_space=True).value


CHECKS = [
    Check(
        source="33-cfr-183-425-105",
        place=f"105 °C, inside engine spaces, {size} AWG",
        quantity=f"engine-space current, {size} AWG",
        theirs=text,
        ours=partial(amperes, size),
        unit="A",
        tolerance=0.5 if "." not in text else 0.05,
    )
    for size, text in ROWS.items()
]


@each(CHECKS)
def test_a_row_inside_engine_spaces(check: Check) -> None:
    check.holds()
