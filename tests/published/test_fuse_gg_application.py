"""A fuse maker's application notes on gG fuses (address left out). Read: selectivity 1.6, 0.5 %/K above 40 °C."""

from __future__ import annotations

from athwart.power.fuse import ambient_derating, are_selective
from athwart.power.fuse_data import FAMILIES
from tests.published._check import Check, each

GG = FAMILIES["gg blade"]


def least_ratio() -> float:
    return next(step / 100.0 for step in range(100, 300) if are_selective(100.0, float(step)))


CHECKS = [
    Check(
        source="fuse-gg-application",
        place="selectivity",
        quantity="ratio of ratings",
        theirs="1.6",
        ours=least_ratio,
        unit="1",
        tolerance=0.05,
    ),
    Check(
        source="fuse-gg-application",
        place="derating",
        quantity="share of the rating at 60 °C",
        theirs="0.90",
        ours=lambda: ambient_derating(333.15, GG.derating, GG.derating_from),
        unit="1",
        tolerance=0.005,
    ),
]


@each(CHECKS)
def test_a_note_of_the_maker(check: Check) -> None:
    check.holds()
