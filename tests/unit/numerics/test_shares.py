"""Wilson's interval against its own definition: the ends are where the counted share lies just so many deviations away."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from athwart.numerics.normal import normal_deviate
from athwart.numerics.shares import wilson_high, wilson_low


@given(st.floats(0.01, 0.99), st.integers(10, 100_000))
def test_the_ends_are_the_shares_whose_own_spread_reaches_the_count(share: float, trials: int) -> None:
    z = normal_deviate(0.975)
    for end in (wilson_low(share, trials), wilson_high(share, trials)):
        assert abs(share - end) == pytest.approx(z * sqrt(end * (1.0 - end) / trials), rel=1e-6)


def test_none_and_all_still_leave_doubt() -> None:
    assert wilson_low(0.0, 1000.0) == 0.0
    assert wilson_high(0.0, 1000.0) == pytest.approx(0.00383, abs=1e-5)
    assert wilson_high(1.0, 1000.0) == 1.0
    with pytest.raises(ValueError, match="a share of"):
        wilson_low(1.2, 10.0)
