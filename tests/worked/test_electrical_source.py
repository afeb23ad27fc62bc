"""Batteries, faults, charging and air: OUR OWN ARITHMETIC, REFERENCE PROGRAMS and figures FROM MEMORY, each labelled."""

from __future__ import annotations

from math import exp, log

import pytest

from athwart.power.battery import (
    cell_size_factor,
    cold_resistance,
    load_test_least_volts,
    load_test_resistance,
    mid_tap_gap,
    peukert_time,
    pulse_volts,
    resistance_at_temperature,
    warm_resistance,
    weak_block_sag,
)
from athwart.power.charger import bulk_time, step_up_input
from athwart.power.conductor import resistance_voltage_drop, route_resistance
from athwart.power.fault import assumed_emf, peak_current, quasi_steady_current
from athwart.power.fuse import conventional_time, opening_time
from athwart.power.fuse_data import FAMILIES, GG_HOLDS, GG_OPENS
from athwart.power.ventilation import (
    air_flow,
    charging_area_air_flow,
    gas_current,
    inland_air_flow,
    inland_duct,
    opening_area,
)

HOUR = 3600.0


def test_iec_61660_from_memory() -> None:
    """FROM MEMORY, 80 % (factors of the standard); numbers computed: 24 V nominal, 8 mΩ and 4.4 mΩ."""
    emf = assumed_emf(24.0)
    assert peak_current(emf, 8e-3, 4.4e-3) == pytest.approx(2172.4, rel=5e-4)
    assert quasi_steady_current(emf, 8e-3, 4.4e-3) == pytest.approx(1930.6, rel=5e-4)


@pytest.mark.parametrize(("current", "exponent", "hours", "charge"), [(25.0, 1.3, 2.4681, 61.7), (50.0, 1.2, 1.2619, 63.1)])
def test_peukert_with_the_hours_of_the_rating(current: float, exponent: float, hours: float, charge: float) -> None:
    """Own arithmetic: 100 Ah at 20 h; the same thing as C (C/R)^(n-1)/I^n."""
    found = peukert_time(100.0 * HOUR, 20.0 * HOUR, current, exponent) / HOUR
    assert found == pytest.approx(hours, rel=5e-4)
    assert found * current == pytest.approx(charge, rel=1e-3)
    assert found == pytest.approx(100.0 * (100.0 / 20.0) ** (exponent - 1.0) / current**exponent)


def test_resistance_from_the_cranking_current() -> None:
    """Definition seen, the 3.0 V FROM MEMORY, 80 %."""
    assert cold_resistance(700.0) == pytest.approx(7.857e-3, rel=1e-3)
    assert warm_resistance(700.0) == pytest.approx(4.286e-3, rel=1e-3)


def test_the_load_test_as_a_resistance() -> None:
    """Own arithmetic on the seen table: 6.1/CCA at 20 °C and 8.3/CCA at -18 °C."""
    assert load_test_resistance(1.0, load_test_least_volts(293.15)) == pytest.approx(6.1, abs=0.05)
    assert load_test_resistance(1.0, load_test_least_volts(255.15)) == pytest.approx(8.3, abs=0.05)


def test_a_tired_block_in_a_string() -> None:
    """Own arithmetic: 4 to 12 mΩ at 300 A."""
    assert weak_block_sag(300.0, 12e-3, 4e-3) == pytest.approx(2.4)


def test_a_gap_by_a_mid_tap() -> None:
    """Own arithmetic: 5 A for 10 h on 100 Ah."""
    assert mid_tap_gap(5.0, 10.0 * HOUR, 100.0 * HOUR) == pytest.approx(0.5)


@pytest.mark.parametrize(("seconds", "volts"), [(0.01, 21.8857), (60.0, 20.9538), (119.9, 20.7459)])
def test_two_blocks_under_a_pulse(seconds: float, volts: float) -> None:
    """REFERENCE PROGRAM: ngspice 39.3 and PyBaMM 26.10.1.1, two 12.8 V blocks, R0 4 mΩ, R1 2 mΩ, C1 20 kF, 300 A."""
    at_blocks = pulse_volts(25.6, 300.0, 2 * 4e-3, 2 * 2e-3, 2e-3 * 20e3, seconds)
    assert at_blocks - 300.0 * (0.5e-3 + 3.88e-3) == pytest.approx(volts, abs=6e-4)


def test_the_rebound_after_a_pulse() -> None:
    """REFERENCE PROGRAM as above: 59 s after the end of 121 s at 300 A the load is off and the polarisation decays."""
    left = 300.0 * 4e-3 * (1.0 - exp(-121.0 / 40.0)) * exp(-59.0 / 40.0)
    assert 25.6 - left == pytest.approx(25.3391, abs=6e-4)


def test_the_cell_size_cubic() -> None:
    """Coefficients seen in a note, the reading of x ours: within 0.011 of the remembered table."""
    celsius = (-3.9, 4.4, 10.0, 18.3, 25.0, 35.0)
    expected = (1.5088, 1.3031, 1.1947, 1.0717, 0.9995, 0.925)
    assert [cell_size_factor(c + 273.15) for c in celsius] == pytest.approx(expected, abs=2e-4)


def test_cold_lead_by_two_roads() -> None:
    """Own arithmetic: exponents of +50 % from 30 to -18 °C and of the load test; the ratio used here."""
    assert log(1.5) / 48.0 == pytest.approx(0.008447, rel=5e-4)
    assert log(1.3607) / 38.0 == pytest.approx(0.008105, rel=5e-4)
    assert resistance_at_temperature(1.0, 255.15, 0.0085) == pytest.approx(1.4412, rel=5e-4)


def test_what_a_step_up_draws() -> None:
    """Own arithmetic: 8 A at 28.4 V from 13.2 V, efficiency 0.88; 25 Ah back at 8 A."""
    assert step_up_input(28.4, 8.0, 13.2, 0.88) == pytest.approx(19.559, rel=1e-3)
    assert bulk_time(25.0 * HOUR, 8.0) / HOUR == pytest.approx(3.28, abs=0.01)


def test_the_drop_a_hysteresis_must_exceed() -> None:
    """Own arithmetic: 19.56 A through 10 m there and back of 6 mm² class 5."""
    assert resistance_voltage_drop(19.56, route_resistance(3.3e-3, 5.0, 5.0)) == pytest.approx(0.6455, rel=1e-3)


@pytest.mark.parametrize(
    ("kind", "stage", "air", "opening"),
    [("vented", "boost", 1.2, 33.6), ("sealed", "boost", 0.48, 13.44), ("sealed", "float", 0.06, 1.68)],
)
def test_air_for_twelve_cells(kind: str, stage: str, air: float, opening: float) -> None:
    """Own arithmetic with the formula and gas currents seen: 12 cells of 100 Ah."""
    flow = air_flow(12, gas_current(kind, stage), 100.0 * HOUR)
    assert flow * HOUR == pytest.approx(air, rel=1e-3)
    assert opening_area(flow) * 1e4 == pytest.approx(opening, rel=1e-3)


def test_air_of_a_charging_area() -> None:
    """Own arithmetic: 12 vented cells of 200 Ah, charger limited to 2.4 V a cell."""
    flow = charging_area_air_flow(12, 200.0 * HOUR, "iu", "vented")
    assert flow * HOUR == pytest.approx(2.4, rel=1e-3)
    assert opening_area(flow) * 1e4 == pytest.approx(67.2, rel=1e-3)


def test_air_by_the_inland_rules() -> None:
    """Own arithmetic: 24 V lead, 50 A charger."""
    flow = inland_air_flow(50.0, 12)
    assert flow * HOUR == pytest.approx(16.5)
    assert inland_duct(flow) * 1e4 == pytest.approx(91.7, abs=0.05)


def test_bolt_down_fuse_times_from_memory() -> None:
    """FROM MEMORY, 75 %: not to be used to pass or fail a fuse without the maker's curve."""
    points = FAMILIES["bolt-down sf51"].points
    expected = {1.35: (120.0, 1800.0), 2.0: (1.0, 15.0), 3.5: (0.3, 5.0), 6.0: (0.1, 1.0)}
    for multiple, (least, most) in expected.items():
        band = opening_time(points, multiple)
        assert (band.least, band.most) == pytest.approx((least, most))
    assert opening_time(points, 1.0).most == float("inf")


def test_gg_conventional_times_from_memory() -> None:
    """FROM MEMORY, 95 %."""
    assert [conventional_time(rating) / HOUR for rating in (63.0, 160.0, 400.0, 500.0)] == [1.0, 2.0, 3.0, 4.0]
    assert (GG_HOLDS, GG_OPENS) == (1.25, 1.6)
