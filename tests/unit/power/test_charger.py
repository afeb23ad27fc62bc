"""Charging: chatter, tails, alternators at idle, isolators, switches."""

from __future__ import annotations

from math import inf

import pytest

from athwart.power.charger import (
    IDLE_SHARE,
    SENSE_OFF,
    SENSE_ON_EARLY,
    Use,
    alternator_left,
    alternator_output,
    alternator_speed_share,
    bulk_time,
    charge_current_by_cable,
    chatter_margin,
    day_balance,
    days_to_empty,
    isolator_drop,
    refill_time,
    series_parallel,
    step_up_input,
    step_up_input_volts,
)


def test_a_thin_input_cable_makes_a_sensing_charger_chatter() -> None:
    on, off = SENSE_ON_EARLY[12.0], SENSE_OFF[12.0]
    assert chatter_margin(on, off, 19.56, 33e-3) < 0.0
    assert chatter_margin(on, off, 19.56, 7.8e-3) > 0.0


def test_input_volts_satisfy_the_power_balance() -> None:
    volts = step_up_input_volts(13.4, 30e-3, 28.4 * 8.0)
    current = step_up_input(28.4, 8.0, volts)
    assert 13.4 - 30e-3 * current == pytest.approx(volts)
    with pytest.raises(ValueError, match="cannot be fed"):
        step_up_input_volts(13.4, 0.2, 300.0)


def test_a_refill_is_longer_than_its_bulk_and_ends_at_the_tail() -> None:
    bank = 100.0 * 3600.0
    assert refill_time(0.25 * bank, bank, 8.0) > bulk_time(0.25 * bank, 8.0)
    assert refill_time(0.25 * bank, bank, 16.0) < refill_time(0.25 * bank, bank, 8.0)
    assert refill_time(0.25 * bank, bank, 1.5) == pytest.approx(0.25 * bank * 1.2 * 1.05 / 1.5)
    assert refill_time(0.0, bank, 8.0) == 0.0
    assert refill_time(0.05 * bank, bank, 8.0) < refill_time(0.10 * bank, bank, 8.0)
    with pytest.raises(ValueError, match="taken out"):
        refill_time(1.1 * bank, bank, 8.0)


def test_an_alternator_at_idle_has_little_left() -> None:
    idle = alternator_output(100.0, IDLE_SHARE[1], 1.0)
    assert idle == pytest.approx(37.5)
    assert alternator_left(idle, 20.0, 19.6) < 0.0
    assert alternator_left(alternator_output(100.0, 1.0), 20.0, 19.6) > 0.0
    with pytest.raises(ValueError, match="from 600 to 4000"):
        alternator_speed_share(500.0)


def test_an_isolator_takes_its_share() -> None:
    assert isolator_drop("diode", 0.0) == pytest.approx((0.6, 0.7))
    assert isolator_drop("diode") == pytest.approx((0.8, 1.1))
    assert isolator_drop("relay", 0.5)[0] == 0.0
    for kind, share in (("valve", 0.5), ("diode", 1.5)):
        with pytest.raises(ValueError, match="isolator"):
            isolator_drop(kind, share)


def test_a_far_bank_takes_less_and_less() -> None:
    empty, full = (charge_current_by_cable(14.4, volts, 20e-3, 8e-3) for volts in (12.6, 13.8))
    assert empty == pytest.approx(64.3, abs=0.1)
    assert full < empty / 2.0


def test_a_days_balance() -> None:
    uses = [Use("six dockings", 300.0, 6 * 40.0), Use("standby", 0.2, 86_400.0)]
    assert day_balance(uses, 8.0, 4 * 3600.0) == pytest.approx(8.0 * 4 * 3600.0 / 1.2 - 72_000.0 - 17_280.0)
    assert days_to_empty(360_000.0, 0.2) == pytest.approx(10.4, abs=0.05)
    assert days_to_empty(360_000.0, 0.0) == inf


def test_a_series_parallel_switch() -> None:
    found = series_parallel(12.6, 4e-3, 14.4, 0.3e-3, 18e-3)
    assert found.run_volts == pytest.approx(25.2)
    assert found.string_resistance == pytest.approx(8.3e-3)
    assert found.charge_current_each == pytest.approx(1.8 / 20e-3 / 2.0)
