"""Water and ship regressions against values computed from open implementations (reference code) or by hand; each labelled."""

from __future__ import annotations

from math import radians

import pytest

from athwart.vessel.crossflow import CrossFlow, section_drag
from athwart.vessel.ship_regressions import ShipShape, fujiwara, isherwood
from athwart.vessel.spectra import admittance, sea_spectrum

MERCHANT = ShipShape(100.0, 30.0, 900.0, 300.0, 100.0, 0.0, 5.0, 10.0, 100.0, 2)
MODEL = ShipShape(7.0, 1.27, 1.3741, 0.249301, 0.65, 0.0, 0.235, 0.85, 10.0)


@pytest.mark.parametrize(
    ("degrees", "ahead", "side", "yaw"),
    [(0, -0.86733, 0.0, 0.0), (30, -0.82987, 0.40507, 0.0799), (90, -0.144, 0.651, 0.0087), (150, 0.48347, 0.42367, -0.10297)],
)
def test_isherwood_reference_code(degrees: float, ahead: float, side: float, yaw: float) -> None:
    """Marine Systems Simulator, isherwood72.m with exWindForce.m case 2."""
    found = isherwood(MERCHANT, radians(degrees))
    assert (found.longitudinal, found.side, found.yaw) == pytest.approx((ahead, side, yaw), abs=1e-5)


@pytest.mark.parametrize(("degrees", "against", "side", "yaw"), [(0, 0.84363, 0.0, 0.0), (30, 0.77783, 0.27531, 0.04296)])
def test_fujiwara_reference_code(degrees: float, against: float, side: float, yaw: float) -> None:
    """A public implementation of ISO 15016 and ShipMMG.jl, seven-metre model."""
    found = fujiwara(MODEL, radians(degrees))
    assert (-found.longitudinal, found.side, found.yaw) == pytest.approx((against, side, yaw), abs=1e-5)


@pytest.mark.parametrize(
    ("ratio", "drag"),
    [(0.5, 1.1977), (1.0, 0.82583), (1.5, 0.7202), (2.0, 0.64894), (2.5, 0.60822), (3.0, 0.587), (4.0, 0.55931), (5.0, 0.5593)],
)
def test_section_drag_reference_code(ratio: float, drag: float) -> None:
    """Python Vehicle Simulator, gnc.Hoerner: a table of four decimals where ours has three."""
    assert section_drag(ratio) == pytest.approx(drag, abs=1e-3)


@pytest.mark.parametrize(("f", "chi"), [(0.05, 0.98191), (0.1, 0.95564), (0.5, 0.7159)])
def test_admittance_reference_code(f: float, chi: float) -> None:
    assert admittance(f, 25.0, 10.0) == pytest.approx(chi, abs=1e-4)


@pytest.mark.parametrize(("f", "s"), [(0.01, 16.7653), (0.1, 1.21189), (1.0, 0.0442713)])
def test_sea_spectrum_reference_code(f: float, s: float) -> None:
    assert sea_spectrum(f, 10.0, 10.0) == pytest.approx(s, rel=1e-4)


def test_beam_drift_of_a_31_m_vessel_by_strips_worked() -> None:
    """10 m/s of wind: her polynomial gives 0.5668 m/s, uniform strips 0.5793."""
    hull = CrossFlow((-14.45, 14.45), (0.67 * 2.7,), 1025.0)
    assert hull.loads(0.5793, 0.0)[0] == pytest.approx(-8991.3, rel=2e-3)
