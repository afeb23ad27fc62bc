"""Low-voltage direct-current distribution guide, studylib.net/doc/18035772. Read: 110 cells of 0.5 mΩ, one string and four."""

from __future__ import annotations

from functools import partial

from athwart.power.battery import Source, parallel_source, string_source
from athwart.power.fault import prospective_current
from tests.published._check import Check, each


def kiloamperes(strings: int) -> float:
    one = string_source([Source(240.0 / 110.0, 0.5e-3)] * 110)
    bank = parallel_source([one] * strings)
    return prospective_current(bank.emf, bank.resistance) / 1e3


CHECKS = [
    Check(
        source="low-voltage-dc-guide",
        place=f"example of {strings} string(s)",
        quantity=f"short-circuit current, {strings} string(s)",
        theirs=text,
        ours=partial(kiloamperes, strings),
        unit="kA",
        tolerance=tolerance,
        reason=reason,
    )
    for strings, text, tolerance, reason in (
        (1, "4.37", 0.0065, "240 V over 55 mΩ is 4.364; the guide rounds up"),
        (4, "17.5", 0.05, ""),
    )
]


@each(CHECKS)
def test_the_guides_short_circuit(check: Check) -> None:
    check.holds()
