"""Area and centroid of a polygon given by its corners, in either sense of turning."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

Point = tuple[float, float]


def area(corners: Sequence[Point]) -> float:
    """Area inside, never negative.

    >>> area([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)])
    6.0
    """
    return abs(_twice_signed(corners)) / 2.0


def centroid(corners: Sequence[Point]) -> Point:
    """Centre of the area.

    >>> centroid([(0.0, 0.0), (3.0, 0.0), (0.0, 3.0)])
    (1.0, 1.0)

    Raises
    ------
    ValueError
        The corners enclose no area.
    """
    twice = _twice_signed(corners)
    if twice == 0.0:
        raise ValueError("these corners enclose no area")
    origin_x, origin_y = corners[0]  # near the figure, so that far away nothing cancels
    sum_x = sum_y = 0.0
    for (x0, y0), (x1, y1) in _sides(corners):
        u0, v0, u1, v1 = x0 - origin_x, y0 - origin_y, x1 - origin_x, y1 - origin_y
        cross = u0 * v1 - u1 * v0
        sum_x += (u0 + u1) * cross
        sum_y += (v0 + v1) * cross
    return origin_x + sum_x / (3.0 * twice), origin_y + sum_y / (3.0 * twice)


def crosses_itself(corners: Sequence[Point]) -> bool:
    """Whether two sides that are not neighbours meet: such a figure has no plain area.

    >>> crosses_itself([(0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 1.0)])
    True
    """
    sides = list(_sides(corners))
    count = len(sides)
    return any(_meet(*sides[i], *sides[j]) for i in range(count) for j in range(i + 2, count) if not (i == 0 and j == count - 1))


def _twice_signed(corners: Sequence[Point]) -> float:
    if len(corners) < 3:
        raise ValueError(f"a figure needs three corners or more, not {len(corners)}")
    origin_x, origin_y = corners[0]
    return sum((x0 - origin_x) * (y1 - origin_y) - (x1 - origin_x) * (y0 - origin_y) for (x0, y0), (x1, y1) in _sides(corners))


def _sides(corners: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(pairwise((*corners, corners[0])))


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    return _turn(a, b, c) * _turn(a, b, d) < 0.0 and _turn(c, d, a) * _turn(c, d, b) < 0.0
