"""Electrical Applications 2, chapter 81, in the publisher's preview. Read: 4800 A for 20 ms, fuse 0.01 Ω, loop 0.05 Ω."""

from __future__ import annotations

from athwart.power.fuse import fuse_energy
from athwart.power.heating import let_through
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="fuse-energy-handbook",
        place="chapter 81, example",
        quantity=name,
        theirs=text,
        ours=ours,
        unit=unit,
        tolerance=0.5,
    )
    for name, text, ours, unit in (
        ("I²t", "460800", lambda: let_through(4800.0, 0.02), "A²s"),
        ("heat in the fuse", "4608", lambda: fuse_energy(4800.0, 0.01, 0.02), "J"),
        ("heat in the loop", "23040", lambda: fuse_energy(4800.0, 0.05, 0.02), "J"),
    )
]


@each(CHECKS)
def test_the_chapters_example(check: Check) -> None:
    check.holds()
