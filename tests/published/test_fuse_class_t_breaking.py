"""Installers' mailing list, lists.re-wrenches.org, 2013-04-09, quoting a magazine test of 1992. Read: the message.

Four 6 V golf-cart blocks as two strings (12 V), 4/0 AWG, a 500 A shunt: 6960 A bolted; a 200 A class T fuse opened at a peak of
1920 A; small breakers failed.
"""

from __future__ import annotations

from dataclasses import dataclass

from athwart.power.battery import NEW_AND_FULL, bank_source
from athwart.power.conductor import awg_area, resistance_per_metre
from athwart.power.fault import prospective_current
from athwart.power.fuse import breaking_capacity_at
from athwart.power.fuse_data import FAMILIES
from tests.published._check import Check, each


@dataclass(frozen=True)
class GolfCartBlock:
    """Six volts, of the usual 220 Ah; nothing else known."""

    chemistry: str = "flooded"
    volts: float = 6.0
    cells: int = 3
    capacity: float = 220.0 * 3600.0
    resistance: float | None = None
    cranking: float | None = None
    cranking_standard: str | None = None


def bolted() -> float:
    bank = bank_source(GolfCartBlock(), NEW_AND_FULL, 2, 2)
    loop = bank.resistance + 2.0 * resistance_per_metre(awg_area(-3)) + 50e-3 / 500.0
    return prospective_current(bank.emf, loop)


CHECKS = [
    Check(
        source="fuse-class-t-breaking",
        place="bolted short circuit",
        quantity="bolted peak of a bank whose blocks are known by chemistry and volts only",
        theirs="6960",
        ours=bolted,
        unit="A",
        tolerance=1400.0,
        reason="capacity, run and age are not in the message: 220 Ah, 2 m and our usual resistance are assumed; band 20 %",
    ),
    Check(
        source="fuse-class-t-breaking",
        place="heading",
        quantity="breaking capacity of class T at 125 V",
        theirs="20",
        ours=lambda: breaking_capacity_at(FAMILIES["class t"], 125.0) / 1e3,
        unit="kA",
        tolerance=0.5,
    ),
]


@each(CHECKS)
def test_the_measured_bank(check: Check) -> None:
    check.holds()
