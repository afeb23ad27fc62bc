"""Chances by whole-number arithmetic: the same on every machine, each found from its own numbers without drawing those before.

``mixed`` is the finaliser of Steele, Lea and Flood's generator (2014); ``shifted`` is Marsaglia's xorshift on 64 bits (2003).
"""

from __future__ import annotations

from math import cos, log, pi, sqrt

MASK = 0xFFFFFFFFFFFFFFFF
GOLDEN = 0x9E3779B97F4A7C15
FIRST_MIX = 0xBF58476D1CE4E5B9
SECOND_MIX = 0x94D049BB133111EB
BITS_21 = 0x1FFFFF
TOP_21 = 2_097_152.0
ROOT_12 = sqrt(12.0)


def mixed(number: int) -> int:
    """64 bits that say nothing about those of the neighbouring numbers.

    >>> hex(mixed(1))
    '0x910a2dec89025cc1'
    """
    z = (number + GOLDEN) & MASK
    z = ((z ^ (z >> 30)) * FIRST_MIX) & MASK
    z = ((z ^ (z >> 27)) * SECOND_MIX) & MASK
    return z ^ (z >> 31)


def key(seed: int, run: int, which: int) -> int:
    """The bits of one chance of one run; changing any of the three changes them all."""
    return mixed(mixed(mixed(seed) ^ run) ^ which)


def uniform(seed: int, run: int, which: int) -> float:
    """Between 0 and 1, neither included.

    >>> 0.0 < uniform(1, 0, 0) < 1.0
    True
    """
    return ((key(seed, run, which) >> 11) + 0.5) / 9_007_199_254_740_992.0


def normal(seed: int, run: int, which: int) -> float:
    """A standard normal deviate, by Box and Muller from two uniform ones (``which`` and ``which`` + 1)."""
    return sqrt(-2.0 * log(uniform(seed, run, which))) * cos(2.0 * pi * uniform(seed, run, which + 1))


def shifted(state: int) -> int:
    """The next state of a stream; nought stays nought and must not begin one."""
    state ^= (state << 13) & MASK
    state ^= state >> 7
    return state ^ ((state << 17) & MASK)


def three_deviates(state: int) -> tuple[float, float, float]:
    """Three even deviates of mean 0 and variance 1 out of one state, 21 bits each."""
    return (
        ((state & BITS_21) / TOP_21 - 0.5) * ROOT_12,
        (((state >> 21) & BITS_21) / TOP_21 - 0.5) * ROOT_12,
        (((state >> 42) & BITS_21) / TOP_21 - 0.5) * ROOT_12,
    )
