"""An instrument maker's installation help for IEC 61162-3 networks (address left out). Read: an excerpt.

Its formula is 0.1 × ohms a metre × metres × load units, with 0.053 Ω/m for the thin cable.
"""

from __future__ import annotations

from athwart.network.bus import profile
from athwart.network.supply import ALLOWED_DROP, copper_resistance, lumped_drop
from athwart.units.gauges import awg_area
from tests.published._check import Check, each

KEY = "marine-network-help"
CHECKS = [
    Check(KEY, "one conductor of 22 AWG", 0.053, lambda: copper_resistance(awg_area(22)), "Ω/m", 0.0005, "thin cable"),
    Check(
        KEY,
        "20 load units at the end of 40 m thin trunk",
        4.24,
        lambda: lumped_drop(20.0, 40.0, 0.053),
        "V",
        0.005,
        "drop formula",
    ),
    Check(KEY, "drop allowed", 1.67, lambda: ALLOWED_DROP["instrument maker"], "V", 0.005, "drop limit"),
    Check(KEY, "longest trunk of thin cable", 100.0, lambda: profile("IEC 61162-3").trunk.value or 0.0, "m", 0.5, "trunk"),
]


@each(CHECKS)
def test_a_figure_of_the_help(check: Check) -> None:
    check.holds()
