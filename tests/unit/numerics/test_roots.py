"""Roots are found inside their bracket, or the refusal says why."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, exp

import pytest

from athwart.errors import NoConvergence
from athwart.numerics.roots import Bracket, bisect, brent

Finder = Callable[..., float]


@pytest.mark.parametrize("find", [bisect, brent])
@pytest.mark.parametrize(
    ("function", "low", "high", "root"),
    [
        (lambda x: x * x - 2.0, 0.0, 2.0, 2.0**0.5),
        (lambda x: cos(x) - x, 0.0, 1.0, 0.7390851332151607),
        (lambda x: (x - 1.0) ** 3, -3.0, 4.5, 1.0),
        (lambda x: exp(-x) - 1e-6, 0.0, 40.0, 13.815510557964274),
        (lambda x: x, 0.0, 1.0, 0.0),
        (lambda x: x - 1.0, 0.0, 1.0, 1.0),
        (lambda x: 2.0 - x, 3.0, 0.0, 2.0),
    ],
)
def test_a_root_is_found(find: Finder, function: Callable[[float], float], low: float, high: float, root: float) -> None:
    assert find(function, low, high) == pytest.approx(root, abs=2e-5 if root == 1.0 and low == -3.0 else 1e-9)


@pytest.mark.parametrize("find", [bisect, brent])
def test_a_bracket_without_a_change_of_sign_is_refused(find: Finder) -> None:
    with pytest.raises(ValueError, match="no change of sign"):
        find(lambda x: x * x + 1.0, -1.0, 1.0)


@pytest.mark.parametrize("find", [bisect, brent])
def test_an_end_without_a_value_is_refused(find: Finder) -> None:
    with pytest.raises(ValueError, match="no value"):
        find(lambda x: float("nan"), -1.0, 1.0)


@pytest.mark.parametrize("find", [bisect, brent])
def test_too_few_turns_carry_the_last_bracket(find: Finder) -> None:
    with pytest.raises(NoConvergence) as caught:
        find(lambda x: x**3 - 0.3, 0.0, 9.0, turns=3)
    state = caught.value.state
    assert isinstance(state, Bracket)
    assert (state.at_low > 0.0) != (state.at_high > 0.0)


def test_brent_needs_fewer_turns_than_halving() -> None:
    calls = 0

    def counted(x: float) -> float:
        nonlocal calls
        calls += 1
        return cos(x) - x

    brent(counted, 0.0, 1.0)
    assert calls < 12
