"""33 CFR 183.425, Conductors: general, table 5, allowable amperage of conductors for under 50 volts and more, 30 °C ambient.

Read: the whole body of the table, federal.elaws.us/cfr/title-33/section-183.425.
"""

from __future__ import annotations

from functools import partial

from athwart.power.ampacity import awg_ampacity
from tests.published._check import Check, each

SIZES = ("18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")
COLUMNS = {
    60: (10, 15, 20, 25, 40, 55, 80, 105, 120, 140, 165, 195, 225, 260, 300),
    75: (10, 15, 20, 25, 40, 65, 95, 125, 145, 170, 195, 230, 265, 310, 360),
    80: (15, 20, 25, 35, 50, 70, 100, 130, 150, 175, 210, 245, 285, 330, 385),
    90: (20, 25, 30, 40, 55, 70, 100, 135, 155, 180, 210, 245, 285, 330, 385),
    105: (20, 25, 35, 45, 60, 80, 120, 160, 180, 210, 245, 285, 330, 385, 445),
    125: (25, 30, 40, 50, 70, 90, 125, 170, 195, 225, 265, 305, 355, 410, 475),
    200: (25, 35, 45, 55, 70, 100, 135, 180, 210, 240, 280, 325, 370, 430, 510),
}


def amperes(size: str, rated: int) -> float:
    return awg_ampacity(size, rated + 273.15).value


CHECKS = [
    Check(
        source="33-cfr-183-425",
        place=f"table 5, {size} AWG, {rated} °C",
        quantity=f"allowable current, {size} AWG, {rated} °C",
        theirs=str(current),
        ours=partial(amperes, size, rated),
        unit="A",
        tolerance=0.5,
    )
    for rated, column in COLUMNS.items()
    for size, current in zip(SIZES, column, strict=True)
]


@each(CHECKS)
def test_a_cell_of_the_law(check: Check) -> None:
    check.holds()
