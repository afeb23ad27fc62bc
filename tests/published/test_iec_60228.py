"""IEC 60228, Conductors of insulated cables, tables 2 and 3: largest resistance at 20 °C.

Read in three independent reprints that agree in every value used; not in the standard itself.
"""

from __future__ import annotations

from functools import partial

from athwart.power.conductor import iec60228_resistance
from tests.published._check import Check, each

FLEXIBLE = {10: "1.91", 16: "1.21", 25: "0.780", 35: "0.554", 50: "0.386", 70: "0.272", 95: "0.206", 120: "0.161", 150: "0.129"}
TINNED = {10: "1.84", 16: "1.16", 25: "0.734", 35: "0.529", 50: "0.391", 70: "0.270", 95: "0.195", 120: "0.154"}


def ohms_per_kilometre(size: int, construction: str, tinned: bool) -> float:
    return iec60228_resistance(size * 1e-6, construction, tinned) * 1e3


def half(text: str) -> float:
    return 0.5 * 10.0 ** -len(text.partition(".")[2])


CHECKS = [
    Check(
        source="iec-60228",
        place=f"table {table}, {size} mm²",
        quantity=f"{construction} {'tinned' if tinned else 'plain'}, {size} mm²",
        theirs=text,
        ours=partial(ohms_per_kilometre, size, construction, tinned),
        unit="Ω/km",
        tolerance=half(text),
    )
    for table, construction, tinned, column in ((3, "class 5", False, FLEXIBLE), (2, "class 2", True, TINNED))
    for size, text in column.items()
]


@each(CHECKS)
def test_a_row_of_the_standard(check: Check) -> None:
    check.holds()
