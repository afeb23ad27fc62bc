"""Wind loads of ships: REFERENCE PROGRAMS (an open library's formulas and example ships), and a published curve of a 31 m vessel.

The reference library is github.com/cybergalactic/MSS @736eba2; its numbers were computed again from its formulas and tables.
Its angle is positive for a wind from port; ours is positive from starboard.
"""

from __future__ import annotations

from math import pi, radians, sqrt

import pytest

from athwart.vessel import blendermann
from athwart.vessel.wind import dynamic_pressure
from athwart.vessel.windage import Windage, area_with_centroid

CURVE = "research-vessel-31-m"
SHIP = Windage((area_with_centroid("all", "hull", 434.8, 1.48, 5.1, frontal_area=160.7),), 55.0)
BOAT = Windage((area_with_centroid("all", "hull", 24.0, -0.4, 1.1, frontal_area=9.0),), 12.0)


@pytest.mark.parametrize(
    ("degrees", "longitudinal", "side", "yaw"),
    [
        (0, -21636.65, 0.0, 0.0),
        (30, -22608.22, 54580.26, 646626.3),
        (90, 0.0, 90473.18, 133900.3),
        (120, 15246.14, 93432.88, -346040.6),
        (150, 26407.09, 53943.5, -479409.7),
    ],
)
def test_the_research_vessel_of_the_reference_library(degrees: float, longitudinal: float, side: float, yaw: float) -> None:
    """Reference program: forces and yaw moment of its example, wind from port."""
    load = blendermann.load(-radians(degrees), blendermann.ROWS["research vessel"], SHIP, dynamic_pressure(20.0, 1.224))
    assert load.longitudinal == pytest.approx(longitudinal, rel=1e-4, abs=0.01)
    assert load.side == pytest.approx(side, rel=1e-4, abs=0.01)
    assert load.yaw == pytest.approx(yaw, rel=1e-4, abs=0.01)


@pytest.mark.parametrize(("degrees", "heel"), [(30, 0.46313), (90, 0.7677)])
def test_the_heel_coefficient_of_the_reference_library(degrees: float, heel: float) -> None:
    """Reference program."""
    pressure = dynamic_pressure(20.0, 1.224)
    load = blendermann.load(-radians(degrees), blendermann.ROWS["research vessel"], SHIP, pressure)
    assert load.heel / (pressure * SHIP.lateral_area * SHIP.mean_height) == pytest.approx(heel, rel=1e-4)


@pytest.mark.parametrize(
    ("degrees", "longitudinal", "side", "yaw"), [(45, -295.04, 1287.47, 1669.15), (90, 0.0, 1399.7, -559.88)]
)
def test_an_invented_motor_boat_with_the_reference_formulas(degrees: float, longitudinal: float, side: float, yaw: float) -> None:
    """Reference program, boat invented."""
    load = blendermann.load(-radians(degrees), blendermann.ROWS["speed boat"], BOAT, dynamic_pressure(10.29, 1.224))
    assert load.longitudinal == pytest.approx(longitudinal, rel=2e-4, abs=0.01)
    assert load.side == pytest.approx(side, rel=2e-4)
    assert load.yaw == pytest.approx(yaw, rel=2e-4)


def test_the_lever_at_forty_five_degrees() -> None:
    """Reference program: 0.18 π/4 of the length."""
    assert blendermann.place_of_side_force(pi / 4, 0.0, 1.0) == pytest.approx(0.141372, abs=1e-6)


@pytest.mark.parametrize(("drag_or_coefficient", "area", "theirs"), [(-0.53, 81.0, -2640.2), (0.85, 172.0, 8991.3)])
def test_tabulated_forces_of_the_31_m_vessel(drag_or_coefficient: float, area: float, theirs: float) -> None:
    """Reference program: its table at 10 m/s, 1.23 kg/m³."""
    assert blendermann.side_force(dynamic_pressure(10.0, 1.23), drag_or_coefficient, area) == pytest.approx(theirs, rel=1e-4)


def test_the_yaw_moment_of_the_31_m_vessel_on_the_beam() -> None:
    """Reference program: coefficient 0.04 on area and length."""
    force = blendermann.side_force(dynamic_pressure(10.0, 1.23), 0.85, 172.0)
    assert blendermann.yaw_coefficient(0.85, 0.04 / 0.85 * 31.25, 31.25) == pytest.approx(0.04)
    assert blendermann.yaw_moment(force, 0.04 / 0.85 * 31.25) == pytest.approx(13222.5, rel=1e-4)


SIDE_CURVE = (0, .22, .40, .66, .83, .90, .88, .87, .86, .85, .83, .82, .81, .73, .58, .46, .26, .09, 0)  # fmt: skip


def test_side_force_against_the_curve_of_the_31_m_vessel() -> None:
    """Reference program (source research-vessel-31-m): 10.5 % rms between 30 and 150 degrees, the figure our sigma rests on."""
    row = blendermann.ROWS["research vessel"]
    vessel = Windage((area_with_centroid("all", "hull", 172.0, 0.0, 2.75, frontal_area=81.0),), 31.25)
    parts = []
    for step in range(3, 16):
        load = blendermann.load(-radians(10 * step), row, vessel, 1.0)
        parts.append(load.side / 172.0 / SIDE_CURVE[step] - 1.0)
    rms = sqrt(sum(part**2 for part in parts) / len(parts))
    assert rms == pytest.approx(0.105, abs=0.005)


def test_drag_from_ahead_lies_below_the_anchor_loads() -> None:
    """Own arithmetic: a motor boat of 40 ft in 30 kn; the table of anchor loads (1200 lbf) contains sheering and surge."""
    boat = Windage((area_with_centroid("all", "hull", 26.0, 0.0, 1.1, frontal_area=10.0),), 12.192)
    load = blendermann.load(0.0, blendermann.ROWS["speed boat"], boat, dynamic_pressure(30.0 * 0.514444))
    assert 0.1 * 1200.0 < -load.longitudinal / 4.4482216 < 1200.0
