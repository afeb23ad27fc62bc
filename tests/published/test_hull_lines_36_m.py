"""Offsets of a 36 m research vessel, github.com/shiplab/vesseljs @f5af042, examples/ship_specs.

Read: the offsets (approximate by their own account). Waterplane coefficient and longitudinal inertia were integrated from
them at two draughts.
"""

from __future__ import annotations

from functools import partial

from athwart.vessel.hydrostatics import inertia_coefficient
from tests.published._check import Check, each

CHECKS = [
    Check(
        source="hull-lines-36-m",
        place=f"waterplane at a draught of {draught} m",
        quantity=f"inertia coefficient of the waterplane at {draught} m, coefficient {waterplane}",
        theirs=integrated,
        ours=partial(inertia_coefficient, waterplane),
        unit="1",
        tolerance=0.012 * float(integrated),
        reason="a closed form for smooth waterplanes against a real hull: within 1.2 %",
    )
    for draught, waterplane, integrated in ((2.0, 0.71843, "0.03854"), (2.787, 0.809, "0.04928"))
]


@each(CHECKS)
def test_the_closed_form_on_a_real_hull(check: Check) -> None:
    check.holds()
