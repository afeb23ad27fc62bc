"""Conductors: look-ups refuse what the tables do not hold."""

from __future__ import annotations

from math import pi

import pytest

from athwart import units
from athwart.errors import UnknownName
from athwart.numerics.tables import interpolate, log_interpolate
from athwart.power.conductor import (
    awg_area,
    awg_at_least,
    awg_diameter,
    awg_name,
    awg_number,
    iec60228_resistance,
    loop_inductance,
    metric_rule_area,
    resistance_factor,
    sae_area,
    us_rule_area,
)


def test_a_size_the_standard_does_not_know_is_refused_with_those_it_knows() -> None:
    with pytest.raises(ValueError, match=r"55 mm² is no nominal size.*50, 70"):
        iec60228_resistance(55e-6)
    with pytest.raises(ValueError, match="class 6"):
        iec60228_resistance(70e-6, "class 6")


@pytest.mark.parametrize("celsius", [-51.0, 201.0])
def test_copper_outside_the_straight_line_is_refused(celsius: float) -> None:
    with pytest.raises(ValueError, match="-50 to 200"):
        resistance_factor(celsius + 273.15)


def test_gauges_are_read_and_written() -> None:
    assert [awg_number(text) for text in ("10", "1/0", "2/0 AWG", " 4/0 ")] == [10, 0, -1, -3]
    assert [awg_name(number) for number in (10, 1, 0, -3)] == ["10", "1", "1/0", "4/0"]
    for text in ("5/0", "x", "41", "-1", "1/1"):
        with pytest.raises(ValueError, match="allowed"):
            awg_number(text)
    with pytest.raises(ValueError, match="allowed"):
        awg_name(-4)


def test_the_next_larger_gauge_is_taken() -> None:
    assert awg_at_least(awg_area(4)) == "4"
    assert awg_at_least(awg_area(4) * 1.01) == "3"
    with pytest.raises(ValueError, match="4/0"):
        awg_at_least(120e-6)


def test_sae_gauge_is_thinner_than_awg() -> None:
    for size in ("2", "1/0", "2/0", "3/0", "4/0"):
        assert 0.89 < sae_area(size) / awg_area(awg_number(size)) < 0.975
    with pytest.raises(UnknownName):
        sae_area("10")


def test_the_us_rule_asks_for_more_copper_than_the_metric_one() -> None:
    assert us_rule_area(100.0, 10.0, 1.2) > metric_rule_area(100.0, 10.0, 1.2)


def test_conductors_cannot_overlap() -> None:
    with pytest.raises(ValueError, match="inside"):
        loop_inductance(0.005, 0.0062)


def test_tables_end_where_they_end() -> None:
    points = [(1.0, 10.0), (2.0, 40.0)]
    assert (interpolate(points, 1.5), interpolate(points, 2.0), interpolate(points, 1.0)) == (25.0, 40.0, 10.0)
    assert log_interpolate(points, 2.0**0.5) == pytest.approx(20.0)
    for outside in (0.99, 2.01):
        with pytest.raises(ValueError, match="from 1 to 2"):
            interpolate(points, outside)


@pytest.mark.parametrize("size", ["10", "8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0"])
def test_a_gauge_read_as_text_has_the_area_of_the_formula(size: str) -> None:
    number = awg_number(size)
    assert units.parse(f"{size} AWG", "conductor") == pytest.approx(awg_area(number), rel=1e-9)
    assert awg_area(number) == pytest.approx(pi / 4.0 * awg_diameter(number) ** 2)
