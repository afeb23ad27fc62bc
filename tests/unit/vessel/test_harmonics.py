"""Wind loads as harmonics: near the model, even and odd, about any origin."""

from __future__ import annotations

from math import pi, radians

import pytest

from athwart.vessel import blendermann
from athwart.vessel.harmonics import harmonics
from athwart.vessel.loads import WindLoad, WindModel
from athwart.vessel.windage import Windage, box

SPEED = 10.0


def model(row: str = "speed boat") -> WindModel:
    shape = Windage(
        (box("hull", "hull", -6.0, 6.0, 0.0, 1.4, width=4.0), box("house", "house", -3.0, 1.5, 1.4, 2.8, width=3.2)), 12.0
    )
    return blendermann.model(blendermann.ROWS[row], shape, 0.5 * 1.225 * SPEED**2)


@pytest.mark.parametrize("row", sorted(blendermann.ROWS))
def test_every_row_of_the_table_is_met_within_one_per_cent(row: str) -> None:
    assert harmonics(model(row), SPEED, 12.0).error < 0.01


@pytest.mark.parametrize("angle", [0.0, 17.0, 45.0, 90.0, 133.0, 180.0, -60.0])
def test_loads_at_any_angle_and_speed(angle: float) -> None:
    found = harmonics(model(), SPEED, 12.0)
    want = model()(radians(angle))
    x, y, n = found.loads(2.0 * SPEED, radians(angle))
    assert x / 4.0 == pytest.approx(want.longitudinal, abs=6.0)
    assert y / 4.0 == pytest.approx(want.side, abs=6.0)
    assert n / 4.0 == pytest.approx(want.yaw, abs=60.0)


def test_another_origin_moves_the_moment_only() -> None:
    here, there = harmonics(model(), SPEED, 12.0), harmonics(model(), SPEED, 12.0, origin=-0.7)
    for angle in (0.5, 1.5, -2.5):
        x, y, n = here.loads(SPEED, angle)
        u, v, w = there.loads(SPEED, angle)
        assert (u, v) == pytest.approx((x, y))
        assert w == pytest.approx(n + 0.7 * y)


def test_fewer_terms_stray_further_and_say_so() -> None:
    errors = [harmonics(model(), SPEED, 12.0, terms).error for terms in (3, 6, 12)]
    assert errors[0] > errors[1] > errors[2]


def test_a_calm_has_no_harmonics() -> None:
    with pytest.raises(ValueError, match="0 m/s"):
        harmonics(lambda angle: WindLoad(angle, 0.0, 0.0, 0.0, 0.0, 0.0), 0.0, 12.0)
    assert harmonics(model(), SPEED, 12.0).loads(0.0, pi) == pytest.approx((0.0, 0.0, 0.0), abs=1e-9)
