"""Component data pages of voltage-sensing relays, three of them, and a chandler's data (addresses left out). Read: the volts.

Makes differ: these are typical.
"""

from __future__ import annotations

from athwart.power import charger
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="relay-thresholds",
        place=place,
        quantity=name,
        theirs=text,
        ours=lambda volts=volts: volts,  # type: ignore[misc]
        unit="V",
        tolerance=0.05,
    )
    for name, text, volts, place in (
        ("on, 12 V", "13.7", charger.SENSE_ON[12.0], "12 V relay"),
        ("off, 12 V", "12.8", charger.SENSE_OFF[12.0], "12 V relay"),
        ("on, 24 V", "27.4", charger.SENSE_ON[24.0], "24 V relay"),
        ("closes after 30 s", "27.0", charger.TIMED_24_V_CLOSE[0][0], "timed 24 V relay"),
        ("closes after 90 s", "26.0", charger.TIMED_24_V_CLOSE[1][0], "timed 24 V relay"),
        ("opens after 30 s", "25.5", charger.TIMED_24_V_OPEN[0][0], "timed 24 V relay"),
        ("opens after 10 s", "24.7", charger.TIMED_24_V_OPEN[1][0], "timed 24 V relay"),
        ("locks out", "32.4", charger.TIMED_24_V_LOCK_OUT, "timed 24 V relay"),
    )
]


@each(CHECKS)
def test_a_threshold(check: Check) -> None:
    check.holds()
