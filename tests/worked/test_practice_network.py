"""Control line: OUR OWN ARITHMETIC, and figures FROM MEMORY where said."""

from __future__ import annotations

import pytest

from athwart.network.bus import bus_resistance, frame_time, mean_high, mean_low, profile
from athwart.network.ground import (
    allowed_shift,
    negative_shift,
    shared_resistance,
    shift_class,
    tap_fault_current,
    tap_shift,
    tap_shortfall,
    upper_block_volts,
)
from athwart.network.supply import copper_resistance, even_drop, lumped_drop
from athwart.units.gauges import awg_area


def test_three_four_and_no_terminators() -> None:
    """Own arithmetic: resistances in parallel."""
    assert bus_resistance(3) == pytest.approx(40.0, abs=0.1)
    assert bus_resistance(4) == pytest.approx(30.0, abs=0.1)
    assert bus_resistance(2, 10, node_resistance=30e3) == pytest.approx(58.82, abs=0.005)
    assert bus_resistance(2, 40, node_resistance=30e3) == pytest.approx(55.6, abs=0.05)
    assert bus_resistance(0, 10, node_resistance=30e3) == pytest.approx(3000.0, abs=1.0)


def test_mean_volts_at_30_per_cent_load() -> None:
    """Own arithmetic: half the busy time dominant, 1 V of swing."""
    assert mean_high(0.3) == pytest.approx(2.65, abs=0.005)
    assert mean_low(0.3) == pytest.approx(2.35, abs=0.005)


def test_shift_of_negatives() -> None:
    """Own arithmetic from the range a node bears."""
    assert allowed_shift(1.5, 3.5) == pytest.approx(3.5)
    assert negative_shift(400.0, shared_resistance(12.0, 70e-6)) == pytest.approx(1.182, abs=0.0005)
    assert negative_shift(400.0, 0.010) == pytest.approx(4.0)
    assert shift_class(4.0) == "out of range"
    assert tap_shift(12.0, 1) == 12.0
    assert shift_class(12.0) == "out of range"


def test_an_upper_block_tied_to_the_ships_negative_through_the_network() -> None:
    """Own arithmetic: 12 V over 5 mΩ of block and 3 m of 0.053 Ω/m."""
    assert tap_fault_current(12.0, 0.005, 0.053, 3.0) == pytest.approx(73.2, abs=0.05)


def test_supply_pairs() -> None:
    """Own arithmetic: copper of the gauge, and 20 load units over 40 m."""
    assert copper_resistance(awg_area(16)) == pytest.approx(0.01317, rel=0.001)
    assert even_drop(20, 40.0, 0.053) == pytest.approx(2.12, abs=0.005)
    assert lumped_drop(20, 40.0, 0.01317) == pytest.approx(1.054, abs=0.0005)


def test_frame_time_without_and_with_most_stuffing() -> None:
    """Own arithmetic: 131 and 157 bits at 250 kbit/s, in ms."""
    assert frame_time(250e3, 131.0) * 1e3 == pytest.approx(0.524, abs=0.0005)
    assert frame_time(250e3, 157.0) * 1e3 == pytest.approx(0.628, abs=0.0005)


def test_a_load_on_the_lower_block() -> None:
    """Own arithmetic: a week at 0.25 A, a weekend at 0.6 A, and what the upper block then gets."""
    assert tap_shortfall(0.25, 168 * 3600.0) / 3600.0 == pytest.approx(42.0, abs=0.05)
    assert tap_shortfall(0.6, 48 * 3600.0) / 3600.0 == pytest.approx(28.8, abs=0.05)
    assert upper_block_volts(28.8, 13.4) == pytest.approx(15.4, abs=0.005)


def test_the_unshielded_vehicle_bus() -> None:
    """From memory: J1939-15, 40 m of trunk, 3 m of stub, 10 nodes."""
    found = profile("J1939-15")
    assert (found.trunk.value, found.drop.value, found.nodes.value) == (40.0, 3.0, 10.0)
    assert not found.nodes.verified
