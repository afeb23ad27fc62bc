"""Shift of negatives, taps of a string, size of the link."""

from __future__ import annotations

import pytest

from athwart.network.ground import (
    METRIC_SIZES,
    allowed_shift,
    link_area_by_heat,
    link_size,
    negative_shift,
    one_size_below,
    shared_resistance,
    shift_class,
    tap_daily_share,
    tap_shift,
    tap_shortfall,
    tap_verdict,
)


def test_a_poor_joint_takes_the_bus_out_of_its_range_and_a_good_cable_does_not() -> None:
    assert shift_class(negative_shift(400.0, 0.010)) == "out of range"
    assert shift_class(negative_shift(400.0, shared_resistance(12.0, 70e-6))) == "suspect"
    assert shift_class(negative_shift(400.0, shared_resistance(1.0, 95e-6))) == "level"


def test_the_edges_of_the_classes() -> None:
    assert shift_class(allowed_shift()) == "suspect"
    assert shift_class(-allowed_shift() - 1e-6) == "out of range"
    assert shift_class(1.0) == "suspect"


def test_levels_off_centre_leave_less_room() -> None:
    assert allowed_shift(1.0, 4.0) == 3.0
    assert allowed_shift(0.5, 3.5) == 2.5


def test_an_upper_block_shifts_the_network_by_what_lies_below() -> None:
    assert tap_shift(12.0, 0) == 0.0
    assert shift_class(tap_shift(12.0, 3)) == "out of range"


def test_an_equaliser_returns_what_it_can_and_never_more() -> None:
    weekend = tap_shortfall(0.6, 48 * 3600.0)
    assert weekend / 3600.0 == pytest.approx(28.8)
    assert tap_shortfall(0.6, 48 * 3600.0, 5.0, 8 * 3600.0) == 0.0
    assert tap_shortfall(0.6, 48 * 3600.0, 1.0, 8 * 3600.0) / 3600.0 == pytest.approx(20.8)


@pytest.mark.parametrize(
    ("share", "equaliser", "grave"),
    [(0.02, True, ""), (0.021, True, "caution"), (0.10, True, "caution"), (0.101, True, "stop"), (0.001, False, "caution")],
)
def test_a_tap_is_judged_by_its_daily_share(share: float, equaliser: bool, grave: str) -> None:
    assert tap_verdict(share, equaliser) == grave


def test_a_daily_share_is_charge_over_capacity() -> None:
    assert tap_daily_share(0.5, 86_400.0, 120.0 * 3600.0) == pytest.approx(0.1)


def test_one_size_below() -> None:
    below = [round(one_size_below(area) * 1e6, 1) for area in (1.5e-6, 2.5e-6, 67.43e-6, 70e-6, 300e-6)]
    assert below == [1.5, 1.5, 50.0, 50.0, 240.0]
    with pytest.raises(ValueError, match="below the smallest"):
        one_size_below(1e-6)


def test_the_link_is_ruled_by_size_or_by_fault() -> None:
    by_size = link_size(95e-6, 1e6, 143e6)
    assert (round(by_size.area * 1e6), by_size.rules) == (70, "one size below the largest positive")
    heavy = link_size(16e-6, 3000.0**2 * 1.5, 143e6)
    assert heavy.rules == "let-through until the fuses open"
    assert heavy.area == 35e-6
    assert heavy.area >= heavy.by_heat == link_area_by_heat(3000.0**2 * 1.5, 143e6)


def test_a_fault_no_size_bears_is_refused() -> None:
    with pytest.raises(ValueError, match="no size of the series"):
        link_size(95e-6, 1e12, 143e6)


def test_the_metric_series_is_in_order() -> None:
    assert sorted(METRIC_SIZES) == list(METRIC_SIZES)
