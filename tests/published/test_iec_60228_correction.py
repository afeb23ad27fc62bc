"""IEC 60228, table of factors that bring a measured resistance to 20 °C. Read in one reprint: 60 and 100 °C."""

from __future__ import annotations

from functools import partial

from athwart.power.conductor import measurement_correction
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="iec-60228-correction",
        place=f"correction table, {celsius} °C",
        quantity=f"factor at {celsius} °C",
        theirs=text,
        ours=partial(measurement_correction, celsius + 273.15),
        unit="1",
        tolerance=0.0005,
    )
    for celsius, text in ((60, "0.862"), (100, "0.758"))
]


@each(CHECKS)
def test_the_correction_to_20_degrees(check: Check) -> None:
    check.holds()
