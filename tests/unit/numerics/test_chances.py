"""Chances by whole numbers: known values, spread, and the stream of three deviates."""

from __future__ import annotations

from math import sqrt
from statistics import fmean, pstdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from athwart.numerics import chances


def test_the_finaliser_gives_the_published_first_numbers() -> None:
    """The generator it comes from, seeded with 1234567, as in its public reference text (from memory)."""
    state, found = 1234567, []
    for _ in range(3):
        found.append(chances.mixed(state))
        state = (state + chances.GOLDEN) & chances.MASK
    assert found == [6457827717110365317, 3203168211198807973, 9817491932198370423]


@given(seed=st.integers(0, 2**63), run=st.integers(0, 10**7), which=st.integers(0, 50))
def test_a_chance_depends_on_all_three_numbers(seed: int, run: int, which: int) -> None:
    here = chances.key(seed, run, which)
    assert 0 <= here <= chances.MASK
    assert (
        len({here, chances.key(seed + 1, run, which), chances.key(seed, run + 1, which), chances.key(seed, run, which + 1)}) == 4
    )


def test_even_and_normal_chances_have_their_moments() -> None:
    even = [chances.uniform(7, run, 0) for run in range(20_000)]
    usual = [chances.normal(7, run, 2) for run in range(20_000)]
    assert fmean(even) == pytest.approx(0.5, abs=0.01)
    assert pstdev(even) == pytest.approx(1 / sqrt(12), rel=0.02)
    assert fmean(usual) == pytest.approx(0.0, abs=0.03)
    assert pstdev(usual) == pytest.approx(1.0, rel=0.02)
    assert sum(abs(value) > 1.96 for value in usual) / 20_000 == pytest.approx(0.05, abs=0.006)


def test_three_deviates_of_a_stream_are_even_and_unlike() -> None:
    state, rows = 88_172_645_463_325_252, []
    for _ in range(20_000):
        state = chances.shifted(state)
        rows.append(chances.three_deviates(state))
    for k in range(3):
        assert fmean(row[k] for row in rows) == pytest.approx(0.0, abs=0.03)
        assert pstdev([row[k] for row in rows]) == pytest.approx(1.0, rel=0.02)
        assert fmean(rows[i][k] * rows[i + 1][k] for i in range(len(rows) - 1)) == pytest.approx(0.0, abs=0.03)
    assert fmean(row[0] * row[1] for row in rows) == pytest.approx(0.0, abs=0.03)


def test_nought_stays_nought() -> None:
    assert chances.shifted(0) == 0
