"""46 CFR 111.15-3, Battery categories: law.lawstack.com/cfr/46/111.15-3. Read: the section.

Small below 0.2 kW, moderate to 2 kW, large above, by the highest charging current and the rated volts.
"""

from __future__ import annotations

from functools import partial

from athwart.power.ventilation import charging_power, space_class
from tests.published._check import Check, each

CLASSES = ("small", "moderate", "large")


def number(current: float, volts: float) -> float:
    return float(CLASSES.index(space_class(charging_power(current, volts))))


CHECKS = [
    Check(
        source="46-cfr-111-15-3",
        place="table of categories",
        quantity=f"category of {current * volts / 1e3:g} kW, 0 small, 1 moderate, 2 large",
        theirs=str(CLASSES.index(name)),
        ours=partial(number, current, volts),
        unit="1",
        tolerance=0.5,
    )
    for current, volts, name in ((12.5, 12.0, "small"), (50.0, 20.0, "moderate"), (100.0, 25.0, "large"))
]


@each(CHECKS)
def test_a_category(check: Check) -> None:
    check.holds()
