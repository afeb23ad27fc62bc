"""33 CFR 183.410, Ignition protection: edocket.access.gpo.gov/cfr_2001/julqtr/33cfr183.410.htm. Read: the section."""

from __future__ import annotations

from functools import partial

from athwart.power.rules import OTHER_LIMITS
from athwart.thruster.ignition import OPEN_DISTANCE
from tests.published._check import Check, each


def printed(key: str, scale: float) -> float:
    return OTHER_LIMITS[key].value * scale


ROWS = (
    ("ignition test gas low", "4.25", 100.0, "%"),
    ("ignition test gas high", "5.25", 100.0, "%"),
)

CHECKS = [
    Check(
        source="33-cfr-183-410",
        place="paragraph (a)",
        quantity=key,
        theirs=text,
        ours=partial(printed, key, scale),
        unit=unit,
        tolerance=0.005 if "." in text else 0.5,
    )
    for key, text, scale, unit in ROWS
] + [Check("33-cfr-183-410", "open space that isolates", "2", lambda: OPEN_DISTANCE / 0.3048, "ft", 0.5, "paragraph (b)")]


@each(CHECKS)
def test_gas_and_distance(check: Check) -> None:
    check.holds()
