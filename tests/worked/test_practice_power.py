"""Readings, joints and loops of practice: OUR OWN ARITHMETIC, and figures FROM MEMORY where said."""

from __future__ import annotations

import pytest

from athwart.power.battery import charging_volts
from athwart.power.battery_data import chemistry
from athwart.power.conductor import conductor_resistance, loop_voltage_drop, resistance_voltage_drop
from athwart.power.contact import resistance_from_drop
from athwart.power.rules import OTHER_LIMITS, rule_set
from athwart.units.gauges import awg_area


def test_a_length_that_is_one_way_or_there_and_back() -> None:
    """Own arithmetic on an owner's case: 19.81 m, 200 A, 12 V, in per cent (rho 0.017241 ohm mm2/m)."""
    assert 100.0 * loop_voltage_drop(200.0, 19.81, awg_area(0)) / 12.0 == pytest.approx(21.3, abs=0.05)
    assert 100.0 * loop_voltage_drop(200.0, 19.81 / 2.0, awg_area(-1)) / 12.0 == pytest.approx(8.4, abs=0.05)


def test_areas_of_gauges() -> None:
    """From memory: AWG 2, 0, 00, 0000 in mm2."""
    assert [awg_area(size) * 1e6 for size in (2, 0, -1, -3)] == pytest.approx([33.63, 53.48, 67.43, 107.22], abs=0.01)


def test_heat_and_drop_of_a_joint() -> None:
    """Own arithmetic: 1 milliohm at 400 A."""
    drop = resistance_voltage_drop(400.0, 0.001)
    assert (drop, 400.0 * drop) == pytest.approx((0.4, 160.0))


def test_resistances_from_readings() -> None:
    """Own arithmetic: 25.5 V at rest, 22.7 V at the bank and 21.1 V at the motor with 400 A, in milliohm and per cent."""
    assert 1e3 * resistance_from_drop(25.5 - 22.7, 400.0) == pytest.approx(7.0, abs=0.05)
    assert 1e3 * resistance_from_drop(22.7 - 21.1, 400.0) == pytest.approx(4.0, abs=0.05)
    share = (22.7 - 21.1) / 24.0
    assert 100.0 * share == pytest.approx(6.67, abs=0.005)
    assert share <= OTHER_LIMITS["bank to motor"].value


def test_copper_at_50_degrees() -> None:
    """From memory: 4.00 milliohm at 20 °C read at 50 °C with 0.0039 1/K; ours has 0.00393, so half a per mille more."""
    assert 1e3 * conductor_resistance(0.004, 1.0, 323.15) == pytest.approx(4.468, abs=0.005)


@pytest.mark.parametrize(("cells", "nominal", "highest"), [(16, 51.2, 58.4), (15, 48.0, 54.75)])
def test_lithium_iron_phosphate_near_the_limit_of_the_standard(cells: int, nominal: float, highest: float) -> None:
    """From memory: 3.2 and 3.65 V a cell; 16 cells lie above 50 V nominal and below the draft's 60 V."""
    volts = cells * chemistry("lfp").cell_volts
    assert volts == pytest.approx(nominal)
    assert highest < OTHER_LIMITS["iso small craft draft"].value
    assert (volts > rule_set("iso small craft").greatest_volts.value) == (cells == 16)
    assert volts < charging_volts("lfp", cells) <= highest
