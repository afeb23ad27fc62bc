"""Lines and oil: regimes, losses, limits."""

from __future__ import annotations

from math import log10, sqrt

import pytest

from athwart.hydraulics.lines import (
    both_ways_speed_limit,
    laminar_friction,
    least_bore,
    line_loss,
    line_speed,
    pressure_loss,
    regime,
    speed_limit,
    turbulent_friction,
)
from athwart.hydraulics.oil import cooler_power, loss_power, oil_rise, reservoir_by_heat, wall_heat

FLOW = 1e-3  # 60 l/min


def test_a_bore_for_a_speed_gives_that_speed() -> None:
    assert line_speed(FLOW, least_bore(FLOW, 4.5)) == pytest.approx(4.5)


def test_laminar_loss_is_the_law_of_poiseuille() -> None:
    speed = line_speed(FLOW, 16e-3)
    loss = line_loss(FLOW, 16e-3, 12.0, 400e-6)
    assert loss.regime == "laminar"
    assert loss.loss == pytest.approx(32 * 400e-6 * 870.0 * 12.0 * speed / 16e-3**2)
    assert loss.turbulent_loss is None
    assert not loss.unsure


def test_in_transition_both_laws_stand_and_the_larger_counts() -> None:
    loss = line_loss(FLOW, 19e-3, 12.0, 30e-6)
    assert loss.unsure
    assert loss.laminar_loss is not None
    assert loss.turbulent_loss is not None
    assert loss.loss == max(loss.laminar_loss, loss.turbulent_loss)


def test_turbulent_flow_has_no_laminar_loss() -> None:
    loss = line_loss(FLOW, 16e-3, 12.0, 10e-6, roughness=20e-6, fittings=3.0)
    assert loss.regime == "turbulent"
    assert loss.laminar_loss is None
    bare = line_loss(FLOW, 16e-3, 12.0, 10e-6, roughness=20e-6)
    assert loss.loss - bare.loss == pytest.approx(3.0 * 870.0 * loss.speed**2 / 2.0)


@pytest.mark.parametrize(("number", "rough"), [(2000.0, 0.0), (4e3, 0.0), (1e5, 1e-4), (1e7, 0.05)])
def test_turbulent_friction_satisfies_colebrook(number: float, rough: float) -> None:
    f = turbulent_friction(number, rough)
    assert 1.0 / sqrt(f) == pytest.approx(-2.0 * log10(rough / 3.7 + 2.51 / (number * sqrt(f))))


def test_friction_outside_its_range_is_refused() -> None:
    with pytest.raises(ValueError, match="laminar"):
        turbulent_friction(1999.0)
    with pytest.raises(ValueError, match="roughness"):
        turbulent_friction(1e5, 0.2)
    with pytest.raises(ValueError, match="above nought"):
        line_loss(0.0, 19e-3, 12.0, 30e-6)


def test_regimes_change_at_2000_and_4000() -> None:
    assert [regime(number) for number in (1999.9, 2000.0, 3999.9, 4000.0)] == ["laminar", "transition", "transition", "turbulent"]


def test_loss_by_hand() -> None:
    assert pressure_loss(laminar_friction(1000.0), 10.0, 0.02, 2.0) == pytest.approx(0.064 * 500 * 870.0 * 2.0)


def test_hoses_of_a_reversing_motor_are_sized_as_return_lines() -> None:
    assert both_ways_speed_limit() == speed_limit("return").book == 3.0
    with pytest.raises(ValueError, match="suction, return, pressure"):
        speed_limit("drain")


def test_losses_end_in_the_oil() -> None:
    lost = loss_power(15_000.0, 0.75)
    assert lost == pytest.approx(5_000.0)
    assert oil_rise(lost, 120.0, reservoir_by_heat(lost, 120.0, 15.0)) == pytest.approx(15.0)
    assert cooler_power(500.0, 1.6, 30.0) == 0.0
    assert cooler_power(5_000.0, 1.6, 30.0) == pytest.approx(5_000.0 - wall_heat(1.6, 30.0))
