"""A smooth curve through points that never overshoots: monotone cubic interpolation (Fritsch and Carlson, 1980)."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise


def monotone_cubic(points: Sequence[tuple[float, float]], x: float) -> float:
    """The curve at ``x``; between two points it stays between their ordinates.

    Slopes at the points are the harmonic mean of the neighbouring chords, nought at a turn (the form of Fritsch and
    Butland); the ends take the three-point slope, limited to keep its sign.

    >>> monotone_cubic([(0.0, 1.0), (1.0, 0.5), (2.0, 1.0)], 1.0)
    0.5

    Raises
    ------
    ValueError
        Fewer than two points, abscissae that do not rise, or ``x`` outside the points.
    """
    abscissae = [point[0] for point in points]
    if len(points) < 2 or any(right <= left for left, right in pairwise(abscissae)):
        raise ValueError("a curve needs two or more points with rising abscissae")
    if not abscissae[0] <= x <= abscissae[-1]:
        raise ValueError(f"{x:g} lies outside the curve, which runs from {abscissae[0]:g} to {abscissae[-1]:g}")
    right = min(bisect_right(abscissae, x), len(points) - 1)
    (x0, y0), (x1, y1) = points[right - 1], points[right]
    slopes = _slopes(points)
    width = x1 - x0
    t = (x - x0) / width
    return (
        (1.0 + 2.0 * t) * (1.0 - t) ** 2 * y0
        + t * (1.0 - t) ** 2 * width * slopes[right - 1]
        + t * t * (3.0 - 2.0 * t) * y1
        + t * t * (t - 1.0) * width * slopes[right]
    )


def _slopes(points: Sequence[tuple[float, float]]) -> list[float]:
    widths = [b[0] - a[0] for a, b in pairwise(points)]
    chords = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in pairwise(points)]
    if len(chords) == 1:
        return [chords[0], chords[0]]
    inner = [
        _mean(before, after, left, right)
        for (before, after), (left, right) in zip(pairwise(chords), pairwise(widths), strict=True)
    ]
    first = _end(chords[0], chords[1], widths[0], widths[1])
    last = _end(chords[-1], chords[-2], widths[-1], widths[-2])
    return [first, *inner, last]


def _mean(before: float, after: float, left: float, right: float) -> float:
    """Weighted harmonic mean of two chords; nought where they turn."""
    if before * after <= 0.0:
        return 0.0
    heavy, light = 2.0 * right + left, right + 2.0 * left
    return (heavy + light) / (heavy / before + light / after)


def _end(near: float, next_chord: float, near_width: float, next_width: float) -> float:
    slope = ((2.0 * near_width + next_width) * near - near_width * next_chord) / (near_width + next_width)
    if slope * near <= 0.0:
        return 0.0
    return 3.0 * near if near * next_chord <= 0.0 and abs(slope) > 3.0 * abs(near) else slope
