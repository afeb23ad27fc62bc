"""Look-ups in tables of points; outside the table is an error, never the end value."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from math import exp, log


def interpolate(points: Sequence[tuple[float, float]], x: float) -> float:
    """Straight line between points with rising abscissa.

    Raises
    ------
    ValueError
        ``x`` lies outside the points.
    """
    right = _right(points, x)
    (x0, y0), (x1, y1) = points[right - 1], points[right]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def log_interpolate(points: Sequence[tuple[float, float]], x: float) -> float:
    """Straight line between points with both axes logarithmic; all figures above nought."""
    right = _right(points, x)
    (x0, y0), (x1, y1) = points[right - 1], points[right]
    return exp(log(y0) + (log(y1) - log(y0)) * (log(x) - log(x0)) / (log(x1) - log(x0)))


def _right(points: Sequence[tuple[float, float]], x: float) -> int:
    first, last = points[0][0], points[-1][0]
    if not first <= x <= last:
        raise ValueError(f"{x:g} lies outside the table, which runs from {first:g} to {last:g}")
    return min(bisect_right(points, x, key=lambda point: point[0]), len(points) - 1)
