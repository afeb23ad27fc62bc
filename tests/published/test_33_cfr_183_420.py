"""33 CFR 183.420, Batteries: law.lawstack.com/cfr/33/183.420. Read: the section."""

from __future__ import annotations

from athwart.thruster.installation import BATTERY_MOVEMENT, battery_pull
from tests.published._check import Check, each

CHECKS = [
    Check("33-cfr-183-420", "movement allowed", "1", lambda: BATTERY_MOVEMENT / 0.0254, "in", 0.5, "paragraph (b)"),
    Check(
        "33-cfr-183-420", "pull on a battery of 60 kg", "90", lambda: battery_pull(60.0) / 4.448222, "lbf", 0.5, "paragraph (b)"
    ),
    Check(
        "33-cfr-183-420",
        "pull on a battery of 10 kg, in its weights",
        "2",
        lambda: battery_pull(10.0) / 98.0665,
        "1",
        0.5,
        "paragraph (b)",
    ),
]


@each(CHECKS)
def test_how_a_battery_is_held(check: Check) -> None:
    check.holds()
