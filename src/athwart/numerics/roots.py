"""Where a function of one number is nought: bisection, and Brent's method, both inside a bracket that is checked first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from athwart.errors import NoConvergence

TURNS = 200


@dataclass(frozen=True, slots=True)
class Bracket:
    """The last interval of a search, with the values at its ends."""

    low: float
    high: float
    at_low: float
    at_high: float


def bisect(function: Callable[[float], float], low: float, high: float, tolerance: float = 1e-12, turns: int = TURNS) -> float:
    """Halve the bracket until it is narrower than ``tolerance`` (relative to its ends, at least absolute).

    >>> round(bisect(lambda x: x * x - 2.0, 0.0, 2.0), 9)
    1.414213562

    Raises
    ------
    ValueError
        The function has one sign at both ends.
    NoConvergence
        The bracket is still too wide after ``turns``; it is the state of the error.
    """
    at_low, at_high = _ends(function, low, high)
    if at_low == 0.0:
        return low
    if at_high == 0.0:
        return high
    for _ in range(turns):
        middle = 0.5 * (low + high)
        if abs(high - low) <= tolerance * max(1.0, abs(low), abs(high)):
            return middle
        value = function(middle)
        if value == 0.0:
            return middle
        if (value > 0.0) == (at_low > 0.0):
            low, at_low = middle, value
        else:
            high, at_high = middle, value
    raise NoConvergence(f"no root to {tolerance:g} after {turns} halvings", Bracket(low, high, at_low, at_high))


def brent(function: Callable[[float], float], low: float, high: float, tolerance: float = 1e-12, turns: int = TURNS) -> float:
    """Brent's method: inverse quadratic steps where they help, halving where they do not.

    >>> round(brent(lambda x: x * x - 2.0, 0.0, 2.0), 12)
    1.414213562373

    Raises
    ------
    ValueError
        The function has one sign at both ends.
    NoConvergence
        No root to ``tolerance`` after ``turns``.
    """
    a, b = low, high
    at_a, at_b = _ends(function, low, high)
    c, at_c = a, at_a
    step = last = b - a
    for _ in range(turns):
        if abs(at_c) < abs(at_b):
            a, b, c = b, c, b
            at_a, at_b, at_c = at_b, at_c, at_b
        narrow = 0.5 * tolerance * max(1.0, abs(b))
        half = 0.5 * (c - b)
        if abs(half) <= narrow or at_b == 0.0:
            return b
        trial = _interpolated(a, b, c, at_a, at_b, at_c, half) if abs(last) >= narrow and abs(at_a) > abs(at_b) else None
        if trial is not None and trial * half > 0.0 and 2.0 * abs(trial) < min(3.0 * abs(half) - narrow, abs(last)):
            last, step = step, trial
        else:
            last = step = half
        a, at_a = b, at_b
        b += step if abs(step) > narrow else (narrow if half > 0.0 else -narrow)
        at_b = function(b)
        if (at_b > 0.0) == (at_c > 0.0):
            c, at_c = a, at_a
            last = step = b - a
    raise NoConvergence(f"no root to {tolerance:g} after {turns} steps", Bracket(b, c, at_b, at_c))


def _interpolated(a: float, b: float, c: float, at_a: float, at_b: float, at_c: float, half: float) -> float | None:
    """Step from ``b`` by the secant, or by the inverse parabola through three points; None where it has no denominator."""
    s = at_b / at_a
    if a == c:
        top, bottom = 2.0 * half * s, 1.0 - s
    else:
        q, r = at_a / at_c, at_b / at_c
        top = s * (2.0 * half * q * (q - r) - (b - a) * (r - 1.0))
        bottom = (q - 1.0) * (r - 1.0) * (s - 1.0)
    bottom = -bottom if top > 0.0 else bottom
    return abs(top) / bottom if bottom != 0.0 else None


def _ends(function: Callable[[float], float], low: float, high: float) -> tuple[float, float]:
    at_low, at_high = function(low), function(high)
    if at_low != at_low or at_high != at_high:
        raise ValueError(f"the function has no value at an end of the bracket {low:g} to {high:g}")
    if at_low != 0.0 and at_high != 0.0 and (at_low > 0.0) == (at_high > 0.0):
        raise ValueError(f"no change of sign between {low:g} ({at_low:g}) and {high:g} ({at_high:g}): no root is enclosed")
    return at_low, at_high
