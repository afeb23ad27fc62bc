"""A 31 m research vessel whose manoeuvring model comes from captive tests.

Read in github.com/NTNU-MCS/MCSim_python, commit b7b6534 (numbers only, the code is under
another licence). What is compared is a formula for strips against a
model of the whole hull, so the tolerance is the formula's own and said with each figure.
"""

from __future__ import annotations

from math import pi

from athwart.vessel.added_mass import surge_added_mass, yaw_inertia
from athwart.vessel.crossflow import section_drag
from tests.published._check import Check, each

RHO, LENGTH, BEAM, DRAUGHT, MASS = 1025.0, 28.9, 9.6, 2.7, 410_931.81
SWAY, SWAY_CUBED = 21_640.67, 11_198.67
YAW, YAW_CUBED = 9_397_835.8, 179_720_233.7


def sway_coefficient(speed: float) -> float:
    """The polynomial's side force as a drag on length and draught."""
    return (SWAY * speed**2 + SWAY_CUBED * speed**3) / (0.5 * RHO * LENGTH * DRAUGHT * speed**2)


def yaw_coefficient(rate: float) -> float:
    """Its moment as a drag of a hull of one depth."""
    return (YAW * rate**2 + YAW_CUBED * rate**3) / (RHO * DRAUGHT * LENGTH**4 / 64.0 * rate**2)


OURS = section_drag(BEAM / 2.0 / DRAUGHT)
CHECKS = [
    Check(
        source="research-vessel-31-m",
        place="inertia of the model",
        quantity="surge added mass, 411 t research vessel",
        theirs="79320.59",
        ours=lambda: surge_added_mass(MASS / RHO, LENGTH),
        unit="kg",
        tolerance=8_000.0,
        reason="a regression against one hull: within 10 %",
    ),
    Check(
        source="research-vessel-31-m",
        place="inertia of the model",
        quantity="yaw inertia, radius of gyration a quarter of the length",
        theirs="21450896.0",
        ours=lambda: yaw_inertia(MASS, LENGTH),
        unit="kg·m²",
        tolerance=5_000.0,
        reason="the model itself takes a quarter of the length, mass as printed",
    ),
    Check(
        source="research-vessel-31-m",
        place="inertia of the model",
        quantity="sway added mass against a half circle of water per strip",
        theirs="408192.6",
        ours=lambda: RHO * pi / 2.0 * DRAUGHT**2 * LENGTH,
        unit="kg",
        tolerance=82_000.0,
        reason="strip value without factors; this hull has 1.20 of it, a naval vessel of 51 m 0.91",
    ),
    *(
        Check(
            source="research-vessel-31-m",
            place="polynomial of the model",
            quantity=f"cross-flow drag in sway at {speed} m/s",
            theirs=f"{sway_coefficient(speed):.4f}",
            ours=lambda: OURS,
            unit="1",
            tolerance=0.6 * sway_coefficient(speed),
            reason="strips must land within a factor of 0.7 to 1.6",
        )
        for speed in (0.25, 0.5, 1.0)
    ),
    *(
        Check(
            source="research-vessel-31-m",
            place="polynomial of the model",
            quantity=f"cross-flow drag in yaw at {rate} rad/s",
            theirs=f"{yaw_coefficient(rate):.4f}",
            ours=lambda: OURS,
            unit="1",
            tolerance=0.6 * yaw_coefficient(rate),
            reason="strips must land within a factor of 0.7 to 1.6",
        )
        for rate in (0.02, 0.05, 0.1)
    ),
]


@each(CHECKS)
def test_a_figure_of_the_models(check: Check) -> None:
    check.holds()


def test_the_polynomials_drag_is_the_one_printed_beside_it() -> None:
    assert [round(sway_coefficient(v), 4) for v in (0.25, 0.5, 1.0)] == [0.6112, 0.6812, 0.8212]
    assert [round(yaw_coefficient(r), 4) for r in (0.02, 0.05, 0.1)] == [0.4307, 0.6094, 0.9073]
