"""Brushless drives: the high-voltage answer, current limit, fold-back, no answer."""

from __future__ import annotations

import pytest

from athwart.errors import NotComputed
from athwart.power.drive import (
    Drive,
    constant_power_current,
    drive,
    drive_load,
    folded_power,
    greatest_power,
    input_power,
    run_drive,
    speed_command_power,
    thrust_command_power,
)


def test_full_power_behind_a_stiff_source() -> None:
    running = run_drive(Drive(6000.0), 25.2, 12.4e-3)
    assert running.current == pytest.approx(constant_power_current(25.2, 12.4e-3, 6000.0))
    assert running.terminal_volts > 25.2 / 2.0
    assert running.thrust_ratio == pytest.approx(1.0)
    assert run_drive(Drive(6000.0), 25.2, 0.0).current == pytest.approx(6000.0 / 25.2)


def test_without_fold_back_there_is_no_answer_beyond_the_boundary() -> None:
    most = greatest_power(25.2, 12.4e-3)
    assert run_drive(Drive(most * 0.9999), 25.2, 12.4e-3).terminal_volts == pytest.approx(12.6, rel=0.02)
    with pytest.raises(NotComputed, match="at most"):
        run_drive(Drive(most * 1.0001), 25.2, 12.4e-3)


def test_with_fold_back_there_is_one() -> None:
    part = drive(24.0, 900.0, nominal_volts=24.0)
    assert part.assumed == ("fold-back volts", "cut-out volts")
    running = run_drive(part, 25.2, 12.4e-3)
    assert 18.0 < running.terminal_volts < 21.0
    assert running.thrust_ratio < 1.0
    assert running.current == pytest.approx(drive_load(part, running.terminal_volts))


def test_the_current_limit_counts_first() -> None:
    part = drive(24.0, 400.0, current_limit=300.0, fold_back_volts=19.0, cut_out_volts=17.0)
    assert part.assumed == ()
    running = run_drive(part, 25.2, 12.4e-3)
    assert running.current == 300.0
    assert running.thrust_ratio == pytest.approx((300.0 * running.terminal_volts / 9600.0) ** (2 / 3))
    assert drive_load(part, running.terminal_volts) == pytest.approx(300.0)


def test_current_limit_within_the_fold_back() -> None:
    part = Drive(15_000.0, 350.0, 23.0, 17.0)
    running = run_drive(part, 25.2, 12.4e-3)
    assert running.current == 350.0
    assert drive_load(part, running.terminal_volts) == pytest.approx(350.0)


def test_a_bank_below_the_cut_out_drives_nothing() -> None:
    part = drive(24.0, 300.0)
    assert part.cut_volts is not None
    with pytest.raises(NotComputed, match="cannot be drawn"):
        run_drive(part, part.cut_volts - 0.5, 5e-3)
    assert drive_load(part, part.cut_volts - 0.5) == 0.0
    assert drive_load(part, -1.0) == 0.0


def test_the_lever_sets_speed_or_thrust() -> None:
    half_speed = run_drive(Drive(6000.0), 25.2, 5e-3, 0.5, "speed")
    half_thrust = run_drive(Drive(6000.0), 25.2, 5e-3, 0.5, "thrust")
    assert half_speed.thrust_ratio == pytest.approx(0.25)
    assert half_thrust.thrust_ratio == pytest.approx(0.5)
    assert speed_command_power(0.5) == pytest.approx(0.125)
    assert thrust_command_power(1.0) == 1.0
    assert drive_load(Drive(6000.0), 24.0, 0.5, "speed") == pytest.approx(6000.0 / 8.0 / 24.0)
    for lever in (0.0, 1.1):
        with pytest.raises(ValueError, match="lever"):
            run_drive(Drive(6000.0), 25.2, 5e-3, lever)


def test_power_folds_back_between_two_volts() -> None:
    assert [folded_power(6000.0, volts, 21.0, 18.0) for volts in (22.0, 19.5, 17.0)] == pytest.approx([6000.0, 3000.0, 0.0])
    for call in (lambda: folded_power(1.0, 20.0, 18.0, 21.0), lambda: drive(24.0, 300.0, None, 18.0, 21.0)):
        with pytest.raises(ValueError, match="below fold-back"):
            call()
    assert input_power(5000.0) == pytest.approx(5000.0 / 0.885 / 0.965)
