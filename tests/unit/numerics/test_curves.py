"""Tables, smooth curves, polygons and the normal distribution."""

from __future__ import annotations

import pytest

from athwart.numerics import polygons
from athwart.numerics.curves import monotone_cubic
from athwart.numerics.normal import normal_deviate, normal_share
from athwart.numerics.tables import interpolate, log_interpolate

STEP = [(0.0, 0.0), (1.0, 0.0), (2.0, 1.0), (3.0, 1.0)]


def test_a_line_between_two_points() -> None:
    assert interpolate([(0.0, 1.0), (2.0, 5.0)], 0.5) == 2.0
    assert interpolate([(0.0, 1.0), (2.0, 5.0)], 2.0) == 5.0


def test_a_line_in_the_logarithms_is_a_power() -> None:
    assert log_interpolate([(1.0, 1.0), (100.0, 10.0)], 10.0) == pytest.approx(10.0**0.5)


@pytest.mark.parametrize("table", [interpolate, log_interpolate, monotone_cubic])
@pytest.mark.parametrize("x", [0.5, 3.5, float("nan")])
def test_outside_the_table_is_refused_with_its_ends(table: object, x: float) -> None:
    with pytest.raises(ValueError, match="from 1 to 3"):
        table([(1.0, 1.0), (2.0, 4.0), (3.0, 9.0)], x)  # type: ignore[operator]


def test_a_curve_goes_through_its_points_and_never_overshoots() -> None:
    assert [monotone_cubic(STEP, x) for x, _ in STEP] == [y for _, y in STEP]
    assert all(0.0 <= monotone_cubic(STEP, k / 100.0) <= 1.0 for k in range(301))
    assert monotone_cubic(STEP, 1.5) == pytest.approx(0.5)


def test_a_curve_through_a_straight_line_is_the_line() -> None:
    line = [(x, 3.0 - 2.0 * x) for x in (0.0, 0.3, 1.0, 4.0)]
    assert monotone_cubic(line, 0.77) == pytest.approx(3.0 - 2.0 * 0.77)


def test_two_points_make_a_line() -> None:
    assert monotone_cubic([(0.0, 0.0), (2.0, 4.0)], 0.5) == 1.0


def test_points_that_do_not_rise_are_refused() -> None:
    with pytest.raises(ValueError, match="rising"):
        monotone_cubic([(0.0, 0.0), (0.0, 1.0)], 0.0)
    with pytest.raises(ValueError, match="two or more"):
        monotone_cubic([(0.0, 0.0)], 0.0)


def test_an_l_by_hand() -> None:
    corner = [(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)]
    assert polygons.area(corner) == 6.0
    assert polygons.centroid(corner) == pytest.approx(((4.0 * 2.0 + 2.0 * 0.5) / 6.0, (4.0 * 0.5 + 2.0 * 2.0) / 6.0))
    assert not polygons.crosses_itself(corner)


def test_a_figure_needs_three_corners_and_an_area() -> None:
    with pytest.raises(ValueError, match="three corners"):
        polygons.area([(0.0, 0.0), (1.0, 1.0)])
    with pytest.raises(ValueError, match="no area"):
        polygons.centroid([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)])


@pytest.mark.parametrize(
    ("deviate", "share"), [(0.0, 0.5), (1.0, 0.8413447), (-1.0, 0.1586553), (1.959964, 0.975), (-3.0, 0.0013499)]
)
def test_shares_of_the_normal_distribution(deviate: float, share: float) -> None:
    assert normal_share(deviate) == pytest.approx(share, abs=5e-8)
    assert normal_deviate(share) == pytest.approx(deviate, abs=1e-4)


def test_the_ends_of_the_normal_distribution() -> None:
    assert (normal_deviate(0.0), normal_deviate(1.0)) == (float("-inf"), float("inf"))
    with pytest.raises(ValueError, match="0 to 1"):
        normal_deviate(1.1)
