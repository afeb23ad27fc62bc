"""Conductors and their heat: OUR OWN ARITHMETIC from the formulas named, and figures FROM MEMORY where said."""

from __future__ import annotations

import pytest

from athwart.power.ampacity import ambient_factor, ampacity, awg_ampacity
from athwart.power.conductor import (
    RHO_METRIC_RULE,
    RHO_US_RULE,
    conductor_resistance,
    loop_voltage_drop,
    metric_rule_voltage_drop,
    route_voltage_drop,
    run_when_hot,
    us_rule_voltage_drop,
)
from athwart.power.heating import (
    adiabatic_constant,
    adiabatic_rate,
    adiabatic_temperature,
    adiabatic_time,
    cable_time_constant,
    short_time_gain,
    steady_temperature,
    temperature_after,
    time_to_temperature,
)
from athwart.power.rules import RULE_SETS, fuse_ceiling

ICE = 273.15


def test_the_usual_drop_constants_hide_cool_copper() -> None:
    """Own arithmetic: resistivity of both rules, and the copper temperature at which they would be right."""
    assert pytest.approx(0.0178711e-6, rel=1e-4) == RHO_US_RULE
    hidden = [20.0 + (rho / 1.7241e-8 - 1.0) / 0.00393 for rho in (RHO_US_RULE, RHO_METRIC_RULE)]
    assert hidden == pytest.approx([29.3, 7.59], rel=1e-2)


def test_24_volts_300_amperes_16_metres_there_and_back() -> None:
    """Own arithmetic: one circuit, four ways."""
    assert metric_rule_voltage_drop(300.0, 16.0, 70e-6) == pytest.approx(1.1246, rel=1e-3)
    assert us_rule_voltage_drop(300.0, 16.0, 70e-6) == pytest.approx(1.2254, rel=1e-3)
    assert route_voltage_drop(300.0, 0.272e-3, 8.0, 8.0) == pytest.approx(1.3056, rel=1e-3)
    assert route_voltage_drop(300.0, 0.272e-3, 8.0, 8.0, 333.15) == pytest.approx(1.5108, rel=1e-3)
    assert loop_voltage_drop(300.0, 8.0, 70e-6) == pytest.approx(300.0 * 1.7241e-8 * 16.0 / 70e-6)


def test_copper_at_60_degrees() -> None:
    """Own arithmetic."""
    assert conductor_resistance(0.272, 1.0, 333.15) == pytest.approx(0.31476, rel=5e-4)


def test_a_run_shortened_for_a_hot_conductor() -> None:
    """Own arithmetic on the rule of FAA AC 43.13-1B paragraph 11-66: 15.5 ft, 182 °C."""
    assert run_when_hot(15.5, 182.0 + ICE) == pytest.approx(9.471, rel=5e-4)


def test_the_factor_for_105_degrees_by_heat_balance() -> None:
    """Own arithmetic; the law's table has 0.85."""
    assert ambient_factor(378.15, 323.15) == pytest.approx(0.8563, abs=5e-4)


def test_iso_105_degrees_from_memory() -> None:
    """FROM MEMORY, 75 %: column 105 °C of table A.1; the answer says it is not verified."""
    sizes = {16: 130, 25: 170, 35: 210, 50: 270, 70: 330, 95: 390, 120: 450}
    for size, amperes in sizes.items():
        found = ampacity("iso small craft", size * 1e-6, 378.15)
        assert (found.value, found.verified) == (amperes, False)


def test_the_largest_fuse_under_the_us_rules() -> None:
    """Own arithmetic: 150 % of 330 A."""
    assert fuse_ceiling(RULE_SETS["us"], awg_ampacity("2/0", 378.15).value, 24.0) == pytest.approx(495.0)


def test_the_us_battery_distance_from_memory() -> None:
    """FROM MEMORY, 85 %: 33 CFR 183.460; seen as a rule of the voluntary standard."""
    assert RULE_SETS["us"].fuse_distance_battery.value == pytest.approx(72 * 0.0254)


def test_boat_cable_k_from_105_degrees() -> None:
    """Own arithmetic."""
    assert adiabatic_constant(378.15, 433.15) * 1e-6 == pytest.approx(87.44, rel=5e-4)


@pytest.mark.parametrize(("k", "seconds"), [(115e6, 11.25), (87.6e6, 6.53)])
def test_how_long_70_square_millimetres_bear_2400_amperes(k: float, seconds: float) -> None:
    """Own arithmetic; longer than 5 s, so on the careful side."""
    assert adiabatic_time(2400.0, 70e-6, k) == pytest.approx(seconds, rel=1e-3)


def test_how_warm_70_square_millimetres_get() -> None:
    """Own arithmetic: the k formula solved for the end temperature, and back."""
    end = adiabatic_temperature(2400.0, 70e-6, 5.0, 343.15)
    assert end - ICE == pytest.approx(107.25, abs=0.05)
    assert adiabatic_time(2400.0, 70e-6, adiabatic_constant(343.15, end)) == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("current", "after_180", "after_600", "settled", "tau"),
    [(300.0, 52.158, 66.828, 75.82, 434.12), (450.0, 68.236, 106.015, 136.308, 518.75)],
)
def test_a_cable_warms_up(current: float, after_180: float, after_600: float, settled: float, tau: float) -> None:
    """Own arithmetic: one node, 0.272 mΩ/m, 1.2 K·m/W, 320 J/(K·m), from 40 °C in air of 40 °C."""
    node = (0.272e-3, 1.2, 320.0, 313.15, 313.15)
    assert temperature_after(180.0, current, *node) - ICE == pytest.approx(after_180, abs=0.01)
    assert temperature_after(600.0, current, *node) - ICE == pytest.approx(after_600, abs=0.01)
    assert steady_temperature(current, 0.272e-3, 1.2, 313.15) - ICE == pytest.approx(settled, abs=0.01)
    assert cable_time_constant(current, 0.272e-3, 1.2, 320.0) == pytest.approx(tau, abs=0.01)
    assert time_to_temperature(after_600 + ICE, current, *node) == pytest.approx(600.0, rel=1e-3)


@pytest.mark.parametrize(("seconds", "tau", "factor"), [(180.0, 600.0, 1.9643), (180.0, 900.0, 2.3488), (600.0, 900.0, 1.4336)])
def test_what_a_short_time_gains(seconds: float, tau: float, factor: float) -> None:
    """Own arithmetic."""
    assert short_time_gain(seconds, tau) == pytest.approx(factor, rel=5e-4)


@pytest.mark.parametrize(("density", "rate"), [(10e6, 0.608), (20e6, 2.431), (30e6, 5.47)])
def test_how_fast_a_winding_heats(density: float, rate: float) -> None:
    """Own arithmetic at 75 °C."""
    assert adiabatic_rate(density, 348.15) == pytest.approx(rate, rel=2e-3)
