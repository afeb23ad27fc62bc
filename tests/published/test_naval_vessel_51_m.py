"""A 51.5 m naval vessel whose manoeuvring model comes from captive tests.

Read in github.com/cybergalactic/MSS, commit 736eba2, CRAFT/SHIP/models/navalvessel.m (figures only). Formulas for strips are
compared with a model of the whole hull, so each tolerance is the formula's own and said with the figure.
"""

from __future__ import annotations

from math import pi

from athwart.vessel.added_mass import surge_added_mass, yaw_added_inertia, yaw_inertia
from athwart.vessel.crossflow import section_drag
from tests.published._check import Check, each

RHO, LENGTH, BEAM, DRAUGHT, VOLUME = 1014.0, 51.5, 8.6, 2.3, 357.0
SWAY_ADDED, YAW_DAMPING = 393_000.0, 202_000_000.0
SOURCE = "naval-vessel-51-m"

CHECKS = [
    Check(
        source=SOURCE,
        place="inertia of the model",
        quantity="surge added mass, 362 t naval vessel",
        theirs="17400",
        ours=lambda: surge_added_mass(VOLUME, LENGTH, RHO),
        unit="kg",
        tolerance=1_800.0,
        reason="a regression against one hull: within 10 %",
    ),
    Check(
        source=SOURCE,
        place="inertia of the model",
        quantity="yaw inertia of a slender hull, radius of gyration a quarter of the length",
        theirs="47934000",
        ours=lambda: yaw_inertia(RHO * VOLUME, LENGTH),
        unit="kg·m²",
        tolerance=0.27 * 47_934_000.0,
        reason="the vessel has 0.223 of her length where boats are taken with 0.25: a quarter more inertia",
    ),
    Check(
        source=SOURCE,
        place="inertia of the model",
        quantity="sway added mass against a half circle of water per strip, slender hull",
        theirs="393000",
        ours=lambda: RHO * pi / 2.0 * DRAUGHT**2 * LENGTH,
        unit="kg",
        tolerance=0.12 * SWAY_ADDED,
        reason="strip value without factors; this hull has 0.91 of it, a research vessel of 31 m 1.20",
    ),
    Check(
        source=SOURCE,
        place="inertia of the model",
        quantity="yaw added inertia from the sway added mass, radius 0.21 of the length",
        theirs="38700000",
        ours=lambda: yaw_added_inertia(SWAY_ADDED, LENGTH),
        unit="kg·m²",
        tolerance=0.25 * 38_700_000.0,
        reason="the vessel has 0.193; the spread counted with it is 35 %",
    ),
    Check(
        source=SOURCE,
        place="yaw damping of the model, over ρ T L⁴/64",
        quantity="cross-flow drag in yaw of a slender hull",
        theirs=f"{YAW_DAMPING / (RHO * DRAUGHT * LENGTH**4 / 64.0):.4f}",
        ours=lambda: section_drag(BEAM / 2.0 / DRAUGHT),
        unit="1",
        tolerance=0.24,
        reason="the drag of plain sections is counted as sure to 30 %",
    ),
]


@each(CHECKS)
def test_strips_against_a_slender_hull(check: Check) -> None:
    check.holds()
