"""Laws of the power chain: what must hold whatever the figures."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from athwart.errors import NotComputed
from athwart.plant.circuit import Circuit, Load, Resistor, Source, assert_balances, solve
from athwart.power.ampacity import RULE_SETS, ampacity
from athwart.power.battery import Source as Thevenin
from athwart.power.battery import bank_source, block_source, cold_aged_state, parallel_source
from athwart.power.battery_data import CHEMISTRIES
from athwart.power.conductor import awg_area, loop_voltage_drop, route_voltage_drop
from athwart.power.drive import Drive, drive_load, greatest_power, run_drive
from athwart.power.fuse import opening_band
from athwart.power.fuse_data import FAMILIES
from athwart.power.heating import INSULATIONS, cable, temperature_after, time_to_temperature, withstand_time
from athwart.power.motor import BrushedMotor, brushed_load, brushed_motor, run_brushed

AREAS = st.sampled_from([10e-6, 16e-6, 25e-6, 35e-6, 50e-6, 70e-6, 95e-6, 120e-6])
CURRENTS = st.floats(20.0, 900.0)
RUNS = st.floats(0.3, 25.0)
WARM = st.floats(253.15, 373.15)
RESISTANCES = st.floats(5e-4, 3e-2)


@dataclass(frozen=True)
class Case:
    chemistry: str
    volts: float = 12.0
    cells: int = 6
    capacity: float = 360_000.0
    resistance: float | None = None
    cranking: float | None = None
    cranking_standard: str | None = None


@st.composite
def motors(draw: st.DrawFn) -> BrushedMotor:
    volts = draw(st.sampled_from([12.0, 24.0, 48.0]))
    current = draw(st.floats(80.0, 700.0))
    share = draw(st.floats(0.08, 0.30))
    return brushed_motor(volts, current, draw(st.floats(150.0, 500.0)), share * volts / current, 0.04 * volts, 0.03 * current)


@given(CURRENTS, RUNS, AREAS, WARM, st.floats(1.01, 3.0))
def test_more_run_or_warmth_more_drop_and_more_copper_less(
    current: float, run: float, area: float, warm: float, more: float
) -> None:
    drop = loop_voltage_drop(current, run, area, warm)
    assert loop_voltage_drop(current, run * more, area, warm) == pytest.approx(drop * more)
    assert loop_voltage_drop(current, run, area * more, warm) < drop
    assert loop_voltage_drop(current, run, area, warm + 20.0) > drop


@given(CURRENTS, RUNS, RUNS, WARM)
def test_plus_and_minus_routes_add(current: float, plus: float, minus: float, warm: float) -> None:
    whole = route_voltage_drop(current, 0.272e-3, plus, minus, warm)
    assert whole == pytest.approx(
        route_voltage_drop(current, 0.272e-3, plus, 0.0, warm) + route_voltage_drop(current, 0.272e-3, 0.0, minus, warm)
    )


@given(
    st.sampled_from(RULE_SETS),
    st.floats(1.1e-6, 105e-6),
    st.floats(1.0, 1.4),
    st.sampled_from([60.0, 75.0, 90.0, 105.0, 125.0, 200.0]),
)
def test_a_thicker_or_hotter_rated_conductor_never_carries_less(rules: str, area: float, more: float, rated: float) -> None:
    assert ampacity(rules, area * more, rated + 273.15).value >= ampacity(rules, area, rated + 273.15).value
    assert ampacity(rules, area, rated + 293.15).value >= ampacity(rules, area, rated + 273.15).value
    assert ampacity(rules, area, rated + 273.15, bundle=4).value < ampacity(rules, area, rated + 273.15).value


@given(st.integers(-3, 20))
def test_three_gauges_double_the_copper(gauge: int) -> None:
    assert awg_area(gauge) / awg_area(gauge + 3) == pytest.approx(2.005, abs=0.001)


@given(st.sampled_from(sorted(CHEMISTRIES)), st.floats(258.15, 303.15), st.floats(0.5, 15.0), st.floats(0.25, 1.0))
def test_a_colder_bank_has_more_resistance_and_no_more_volts(kind: str, warm: float, colder: float, charge: float) -> None:
    block = Case(kind, 12.0, 4 if kind == "lfp" else 6)
    mild, cold = (bank_source(block, cold_aged_state(kind, t, charge), 2) for t in (warm, warm - colder))
    assert cold.resistance > mild.resistance
    assert cold.emf <= mild.emf + 1e-9
    assert cold.emf - 300.0 * cold.resistance < mild.emf - 300.0 * mild.resistance


@given(st.sampled_from(sorted(CHEMISTRIES)), st.floats(0.3, 0.95), st.floats(0.01, 0.05))
def test_a_fuller_bank_has_more_volts_and_no_more_resistance(kind: str, charge: float, more: float) -> None:
    block = Case(kind, 12.0, 4 if kind == "lfp" else 6)
    less, full = (block_source(block, cold_aged_state(kind, None, c)) for c in (charge, charge + more))
    assert full.emf > less.emf
    assert full.resistance <= less.resistance


@given(st.lists(st.tuples(st.floats(23.0, 26.0), RESISTANCES), min_size=1, max_size=5))
def test_strings_together_lie_between_the_best_and_the_worst(strings: list[tuple[float, float]]) -> None:
    whole = parallel_source([Thevenin(*string) for string in strings])
    assert min(emf for emf, _ in strings) - 1e-9 <= whole.emf <= max(emf for emf, _ in strings) + 1e-9
    assert whole.resistance <= min(r for _, r in strings) * (1.0 + 1e-12)


@given(st.sampled_from(sorted(FAMILIES)), st.floats(1.0, 25.0), st.floats(1.001, 3.0))
def test_more_current_opens_a_fuse_sooner(key: str, multiple: float, more: float) -> None:
    family = FAMILIES[key]
    slow, fast = opening_band(family, 300.0, 300.0 * multiple), opening_band(family, 300.0, 300.0 * multiple * more)
    assert fast.least < slow.least or slow.least == fast.least == inf
    assert fast.most < slow.most or slow.most == fast.most == inf
    assert slow.least <= slow.most


@given(st.sampled_from(sorted(FAMILIES)), st.floats(1.0, 20.0), st.floats(0.7, 0.99))
def test_a_fuse_never_opens_sooner_when_cooler(key: str, multiple: float, derated: float) -> None:
    family = FAMILIES[key]
    warm, cool = opening_band(family, 300.0, 300.0 * multiple, derated), opening_band(family, 300.0, 300.0 * multiple)
    assert warm.least <= cool.least
    assert warm.most <= cool.most


@given(motors(), st.floats(0.7, 1.25), st.floats(0.0, 2e-2))
def test_a_motors_current_solves_its_own_equations(motor: BrushedMotor, share: float, source: float) -> None:
    emf = share * motor.rated_volts
    running = run_brushed(motor, emf, source)
    generated = motor.constant * running.speed
    assert generated + running.current * (motor.resistance + source) + motor.brush_drop == pytest.approx(emf, rel=1e-9)
    assert motor.constant * (running.current - motor.no_load_current) == pytest.approx(motor.load * running.speed**2, rel=1e-9)
    assert brushed_load(motor, running.terminal_volts) == pytest.approx(running.current, rel=1e-9)


@given(motors(), st.floats(0.7, 1.2), RESISTANCES, st.floats(1.01, 2.0))
def test_more_resistance_less_thrust(motor: BrushedMotor, share: float, source: float, more: float) -> None:
    emf = share * motor.rated_volts
    assert run_brushed(motor, emf, source * more).thrust_ratio < run_brushed(motor, emf, source).thrust_ratio
    assert run_brushed(motor, emf * 1.01, source).thrust_ratio > run_brushed(motor, emf, source).thrust_ratio


@given(st.floats(11.0, 58.0), RESISTANCES, st.floats(0.05, 1.6))
def test_constant_power_ends_at_a_quarter_of_the_short_circuit_power(emf: float, source: float, share: float) -> None:
    part = Drive(share * greatest_power(emf, source))
    if share > 1.0:
        with pytest.raises(NotComputed):
            run_drive(part, emf, source)
    else:
        running = run_drive(part, emf, source)
        assert running.terminal_volts >= emf / 2.0 * (1.0 - 1e-9)
        assert running.terminal_volts * running.current == pytest.approx(part.rated_power, rel=1e-9)


@given(st.floats(19.0, 29.0), RESISTANCES, st.floats(2000.0, 20_000.0), st.floats(100.0, 900.0), st.floats(0.1, 1.0))
def test_a_folding_drive_always_agrees_with_its_source(
    emf: float, source: float, power: float, limit: float, lever: float
) -> None:
    part = Drive(power, limit, 21.0, 18.0)
    running = run_drive(part, emf, source, lever)
    assert 18.0 < running.terminal_volts <= emf
    assert running.current <= limit * (1.0 + 1e-12)
    assert drive_load(part, running.terminal_volts, lever) == pytest.approx(running.current, rel=1e-6)


@given(AREAS, st.floats(50.0, 900.0), st.floats(1.0, 600.0), st.floats(1.05, 2.0))
def test_more_current_or_time_heats_a_cable_more(area: float, current: float, time: float, more: float) -> None:
    part = cable(area, 1.8e-8 / area, 2.0 * (area / 3.14) ** 0.5 * 1.5 + 2e-3, INSULATIONS["pvc 105"])
    node = (part.resistance_20, part.thermal_resistance, part.heat_capacity, 303.15, 303.15)
    warm = temperature_after(time, current, *node)
    assume(warm < 5_000.0)
    assert temperature_after(time * more, current, *node) > warm > 303.15
    assert temperature_after(time, current * more, *node) > warm
    assert time_to_temperature(warm, current, *node) == pytest.approx(time, rel=1e-4)
    assert withstand_time(part, current * more, 303.15, 323.15) <= withstand_time(part, current, 303.15, 323.15)


@given(motors(), st.lists(st.floats(1e-4, 5e-3), min_size=2, max_size=8), st.floats(2e-3, 2e-2), st.floats(0.8, 1.2))
def test_any_chain_balances_and_agrees_with_the_closed_form(
    motor: BrushedMotor, pieces: list[float], inside: float, share: float
) -> None:
    emf = share * motor.rated_volts
    resistors = tuple(Resistor(f"piece {i}", f"n{i}", f"n{i + 1}", ohms) for i, ohms in enumerate(pieces))
    network = Circuit(
        resistors,
        (Source("bank", "n0", "ground", emf, inside),),
        (Load("motor", f"n{len(pieces)}", "ground", lambda volts: brushed_load(motor, volts)),),
    )
    answer = solve(network)
    assert_balances(network, answer)
    assert answer.currents["motor"] == pytest.approx(run_brushed(motor, emf, inside + sum(pieces)).current, rel=1e-7)
