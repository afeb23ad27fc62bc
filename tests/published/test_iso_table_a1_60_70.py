"""Table of a German yacht-electrics handbook, reproduced on a private page: single cores in boats, 60 and 70 °C, 30 °C ambient.

It does not name ISO 10133; its 22 values equal the remembered columns of that standard's table A.1. Address left out.
"""

from __future__ import annotations

from functools import partial

from athwart.power.ampacity import ampacity
from tests.published._check import Check, each

SIZES = (1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0)
COLUMNS = {60: (8, 12, 17, 22, 29, 40, 54, 71, 87, 105, 135), 70: (14, 18, 25, 35, 45, 65, 90, 120, 160, 210, 265)}


def amperes(size: float, rated: int) -> float:
    return ampacity("iso small craft", size * 1e-6, rated + 273.15).value


CHECKS = [
    Check(
        source="iso-table-a1-60-70",
        place=f"{rated} °C, {size:g} mm²",
        quantity=f"allowable current, {size:g} mm², {rated} °C",
        theirs=str(current),
        ours=partial(amperes, size, rated),
        unit="A",
        tolerance=0.5,
    )
    for rated, column in COLUMNS.items()
    for size, current in zip(SIZES, column, strict=True)
]


@each(CHECKS)
def test_a_cell_of_the_handbook(check: Check) -> None:
    check.holds()
