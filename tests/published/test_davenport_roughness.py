"""Davenport classification of terrain: roughness lengths of classes 1 to 7.

Read on two pages that agree: the roughness table of shodor.org, and wind-stats.readthedocs.io, user guide, roughness length.
"""

from __future__ import annotations

from functools import partial

from athwart.vessel.wind import ROUGHNESS
from tests.published._check import Check, each

TABLE = (
    ("open sea", "0.0002"), ("mud flats", "0.005"), ("open grass", "0.03"), ("low crops", "0.10"),
    ("scattered obstacles", "0.25"), ("parkland", "0.5"), ("suburb", "1.0"),
)  # fmt: skip


def roughness(ground: str) -> float:
    return ROUGHNESS[ground]


CHECKS = [
    Check(
        source="davenport-roughness",
        place=f"class {number}",
        quantity=f"roughness length, {ground}",
        theirs=theirs,
        ours=partial(roughness, ground),
        unit="m",
        tolerance=0.5 * 10.0 ** -len(theirs.partition(".")[2]),
    )
    for number, (ground, theirs) in enumerate(TABLE, start=1)
]


@each(CHECKS)
def test_a_roughness_length(check: Check) -> None:
    check.holds()


def test_there_are_seven_classes() -> None:
    assert len(ROUGHNESS) == len(TABLE)
