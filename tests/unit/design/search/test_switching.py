"""Main switch and stop: the smallest that carries the run and breaks the stalled motor."""

from __future__ import annotations

from dataclasses import replace

import pytest

from athwart.design.search import switching
from tests.unit.design.checks._boats import brief
from tests.unit.design.search._tasks import CATALOGUE


def _switch(
    current: float = 300.0, time: float = 60.0, stalled: float = 1400.0, volts: float = 28.8, ignition: bool = False
) -> str | None:
    found = switching.main_switch(CATALOGUE, current, time, stalled, volts, ignition)
    return found.id if found is not None else None


def _stop(
    current: float = 300.0,
    stalled: float = 1400.0,
    volts: float = 28.8,
    nominal: float = 24.0,
    ignition: bool = False,
    kind: str = "energise to run",
    time: float = 60.0,
) -> str | None:
    boat = brief("1", {"choices.stop_kind": kind})
    found = switching.stop_device(boat, CATALOGUE, current, time, stalled, volts, nominal, ignition)
    return found.id if found is not None else None


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({}, "switch-250A-60V"),
        ({"current": 430.0}, "switch-300A-ip"),
        ({"time": 600.0}, "switch-300A-ip"),
        ({"stalled": 2400.0}, "switch-400A-ip"),
        ({"stalled": 2900.0}, "switch-500A-60V"),
        ({"volts": 57.6, "stalled": 2900.0}, "switch-500A-60V"),
        ({"stalled": 4600.0}, None),
        ({"current": 1300.0}, None),
        ({"volts": 70.0}, None),
    ],
)
def test_the_smallest_switch_that_carries_and_breaks(asked: dict[str, float], found: str | None) -> None:
    assert _switch(**asked) == found  # type: ignore[arg-type]


def test_a_switch_that_cannot_be_locked_off_is_never_a_main_switch() -> None:
    assert _switch(current=100.0, stalled=500.0) == "switch-200A"
    bare = replace(CATALOGUE, switches=tuple(replace(row, lockable=False) for row in CATALOGUE.switches))
    assert switching.main_switch(bare, 100.0, 60.0, 500.0, 28.8, False) is None


def test_where_vapour_may_be_the_switch_is_ignition_protected() -> None:
    assert _switch(current=700.0, stalled=3400.0) == "switch-600A"
    assert _switch(current=700.0, stalled=3400.0, ignition=True) == "switch-600A-ip"
    assert _switch(current=1100.0, stalled=4000.0, ignition=True) is None


def test_an_energise_to_run_coil_is_of_the_bank_s_volts() -> None:
    assert _stop() == "stop-24V-300A-ip"
    assert _stop(nominal=12.0, volts=14.4) == "stop-12V-300A-ip"
    assert _stop(nominal=48.0, volts=57.6) == "stop-48V-300A-ip"


def test_a_stop_breaks_the_stalled_current() -> None:
    assert _stop(stalled=3400.0) == "stop-24V-500A-ip"
    assert _stop(stalled=4400.0) == "stop-24V-800A"
    assert _stop(stalled=4600.0) is None


def test_a_longer_run_goes_by_the_continuous_current() -> None:
    assert _stop(current=450.0, time=300.0) == "stop-24V-300A-ip"
    assert _stop(current=450.0, time=301.0) == "stop-24V-500A-ip"


def test_a_latching_stop_is_of_any_coil_volts_and_only_on_demand() -> None:
    assert _stop(kind="latching", nominal=24.0) in ("latch-12V-300A-ip", "latch-24V-300A-ip")
    assert _stop(kind="latching", ignition=True, current=1000.0, stalled=4000.0) is None
