"""Heat in conductors: runaway, limits, the damage curve of a cable."""

from __future__ import annotations

from math import inf

import pytest

from athwart.errors import NotComputed
from athwart.power.heating import (
    ADIABATIC_ENDS,
    INSULATIONS,
    NON_ADIABATIC,
    OVERLOAD_ALLOWANCE,
    Cable,
    ThermalRunaway,
    adiabatic_constant,
    adiabatic_time,
    cable,
    cable_time_constant,
    insulation_for,
    insulation_thermal_resistance,
    non_adiabatic_factor,
    settled_current,
    short_time_current,
    steady_temperature,
    temperature_after,
    time_to_temperature,
    withstand_time,
)

NODE = (0.272e-3, 1.2, 320.0, 313.15, 313.15)
RUNAWAY = (1.0 / (1.2 * 0.272e-3 * 0.00393)) ** 0.5


def boat_cable() -> Cable:
    return cable(70e-6, 0.272e-3, 0.0155, INSULATIONS["pvc 105"])


def test_beyond_a_current_a_cable_never_settles() -> None:
    with pytest.raises(ThermalRunaway, match="never settles") as caught:
        cable_time_constant(RUNAWAY * 1.001, 0.272e-3, 1.2, 320.0)
    assert isinstance(caught.value, NotComputed)
    with pytest.raises(ThermalRunaway, match="never settles"):
        steady_temperature(RUNAWAY * 1.001, 0.272e-3, 1.2, 313.15)
    assert steady_temperature(RUNAWAY * 0.99, 0.272e-3, 1.2, 313.15) > 5000.0


def test_temperature_is_smooth_through_the_current_of_runaway() -> None:
    below, at, above = (temperature_after(60.0, RUNAWAY * share, *NODE) for share in (0.9999, 1.0, 1.0001))
    assert below < at < above
    assert at == pytest.approx((below + above) / 2.0, rel=1e-4)
    assert time_to_temperature(at, RUNAWAY, *NODE) == pytest.approx(60.0, rel=1e-6)
    assert time_to_temperature(above, RUNAWAY * 1.0001, *NODE) == pytest.approx(60.0, rel=1e-6)


def test_a_limit_never_reached_takes_for_ever_and_one_passed_no_time() -> None:
    settled = steady_temperature(300.0, 0.272e-3, 1.2, 313.15)
    assert time_to_temperature(settled + 0.1, 300.0, *NODE) == inf
    assert time_to_temperature(300.0, 300.0, *NODE) == 0.0
    assert time_to_temperature(360.0, 1.0, 0.272e-3, 1.2, 320.0, 313.15, 350.0) == inf


def test_a_closed_form_agrees_with_small_steps() -> None:
    current, temperature, step = 450.0, 313.15, 0.05
    for _ in range(int(300.0 / step)):
        heat = current**2 * 0.272e-3 * (1.0 + 0.00393 * (temperature - 293.15)) - (temperature - 313.15) / 1.2
        temperature += step * heat / 320.0
    assert temperature_after(300.0, current, *NODE) == pytest.approx(temperature, abs=0.01)


def test_the_settled_current_settles_there() -> None:
    current = settled_current(378.15, 0.272e-3, 1.3, 303.15)
    assert steady_temperature(current, 0.272e-3, 1.3, 303.15) == pytest.approx(378.15)
    with pytest.raises(ValueError, match="leaves nothing"):
        settled_current(303.15, 0.272e-3, 1.3, 303.15)


def test_a_bare_boat_cable_carries_somewhat_more_than_the_table() -> None:
    """Near the orders of magnitude worked out for such a cable: 399 A, 1.30 K·m/W, 407 s."""
    part = boat_cable()
    assert settled_current(378.15, part.resistance_20, part.thermal_resistance, 303.15) == pytest.approx(399.0, rel=0.1)
    assert part.thermal_resistance == pytest.approx(1.30, rel=0.2)  # a small outer diameter is on the careful side
    assert part.heat_capacity * part.thermal_resistance == pytest.approx(407.0, rel=0.25)


def test_cables_together_get_warmer_than_one_alone() -> None:
    alone = cable(70e-6, 0.272e-3, 0.0155, INSULATIONS["pvc 105"])
    pair = cable(70e-6, 0.272e-3, 0.0155, INSULATIONS["pvc 105"], together=0.8)
    assert pair.thermal_resistance > alone.thermal_resistance


def test_the_damage_curve_is_adiabatic_in_seconds_and_a_heat_balance_in_minutes() -> None:
    part = boat_cable()
    constant = adiabatic_constant(323.15, part.insulation.final)
    assert withstand_time(part, 6000.0, 303.15, 323.15) == pytest.approx(adiabatic_time(6000.0, 70e-6, constant))
    limit = part.insulation.rated + OVERLOAD_ALLOWANCE
    node = (part.resistance_20, part.thermal_resistance, part.heat_capacity, 303.15, 323.15)
    assert withstand_time(part, 800.0, 303.15, 323.15) == pytest.approx(time_to_temperature(limit, 800.0, *node))
    assert withstand_time(part, 200.0, 303.15, 323.15) == inf
    knee = next(
        current for current in range(1000, 5000) if withstand_time(part, float(current), 303.15, 323.15) <= ADIABATIC_ENDS
    )
    assert withstand_time(part, knee - 1.0, 303.15, 323.15) >= ADIABATIC_ENDS


def test_a_short_run_may_take_more_current() -> None:
    part = boat_cable()
    current = short_time_current(part, 180.0, 378.15, 303.15, 303.15)
    node = (part.resistance_20, part.thermal_resistance, part.heat_capacity, 303.15, 303.15)
    assert temperature_after(180.0, current, *node) == pytest.approx(378.15, abs=0.01)
    steady = settled_current(378.15, part.resistance_20, part.thermal_resistance, 303.15)
    assert 1.5 < current / steady < 2.1


def test_heat_into_the_insulation_allows_a_little_more() -> None:
    x, y = NON_ADIABATIC["pvc"]
    gain = non_adiabatic_factor(5.0, 70e-6, x * 1e-3, y * 1e-6)
    assert 1.0 < gain < 1.1


def test_an_unknown_insulation_is_judged_with_care() -> None:
    assert insulation_for(378.15).name == INSULATIONS["pvc 105"].name
    assert insulation_for(348.15) is INSULATIONS["pvc 70"]
    assert insulation_for(333.15).final < INSULATIONS["pvc 70"].final


def test_impossible_figures_are_refused() -> None:
    with pytest.raises(ValueError, match="no rise"):
        adiabatic_constant(433.15, 343.15)
    with pytest.raises(ValueError, match="outer diameter"):
        insulation_thermal_resistance(0.012, 0.011, 5.0)
