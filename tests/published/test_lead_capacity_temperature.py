"""A battery maker's support page: change of lead's capacity against 25 °C by length of discharge (address left out).

Read: the whole table, 0 to 40 °C.
"""

from __future__ import annotations

from functools import partial

from athwart.power.battery import lead_capacity_at
from tests.published._check import Check, each

CELSIUS = (0, 5, 10, 15, 20, 25, 30, 35, 40)
COLUMNS = {
    600: (-20, -15, -12, -8, -3, 0, 5, 8, 10),
    2700: (-18, -13, -11, -7, -2, 0, 4, 6, 8),
    7200: (-16, -12, -10, -6, -1, 0, 3, 4, 5),
}


def change(celsius: int, seconds: int) -> float:
    return (lead_capacity_at(celsius + 273.15, float(seconds)) - 1.0) * 100.0


CHECKS = [
    Check(
        source="lead-capacity-temperature",
        place=f"{celsius} °C, discharges of about {seconds // 60} min",
        quantity=f"capacity at {celsius} °C in {seconds // 60} min",
        theirs=str(printed),
        ours=partial(change, celsius, seconds),
        unit="%",
        tolerance=0.5,
    )
    for seconds, column in COLUMNS.items()
    for celsius, printed in zip(CELSIUS, column, strict=True)
]


@each(CHECKS)
def test_a_cell_of_the_table(check: Check) -> None:
    check.holds()
