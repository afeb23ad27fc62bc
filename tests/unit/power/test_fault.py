"""Fault currents: the larger of what is known, never less than the guess where nothing is."""

from __future__ import annotations

import pytest

from athwart.power.fault import (
    bank_fault_current,
    guessed_fault_current,
    motor_feed,
    prospective_current,
    required_breaking_capacity,
    rising_current,
)


def test_a_fault_rises_to_its_prospective_current() -> None:
    assert rising_current(25.2, 12e-3, 8e-6, 1.0) == pytest.approx(prospective_current(25.2, 12e-3))
    assert rising_current(25.2, 12e-3, 8e-6, 8e-6 / 12e-3) == pytest.approx(0.6321 * 2100.0, rel=1e-3)


def test_a_makers_figure_counts_if_larger() -> None:
    assert bank_fault_current(25.2, 8e-3, "agm", 360_000.0, declared=5000.0) == 5000.0
    assert bank_fault_current(25.2, 8e-3, "agm", 360_000.0, declared=1000.0) == pytest.approx(3150.0)


def test_an_assumed_resistance_never_makes_the_fault_small() -> None:
    assert bank_fault_current(25.2, 12e-3, "lfp", 360_000.0, assumed=True) == pytest.approx(4000.0)
    assert bank_fault_current(25.2, 12e-3, "lfp", 360_000.0) == pytest.approx(2100.0)
    assert guessed_fault_current(360_000.0, 20.0) == pytest.approx(2000.0)


def test_a_running_motor_feeds_the_fault() -> None:
    assert motor_feed(300.0) == (2100.0, 3000.0)


def test_a_cranking_total_is_not_negative() -> None:
    assert required_breaking_capacity(0.0) == 1500.0
    with pytest.raises(ValueError, match="cranking total"):
        required_breaking_capacity(-1.0)
