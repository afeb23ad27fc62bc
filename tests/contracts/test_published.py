"""Published checks: one form, a place in the source, and a reason for every wide tolerance."""

from __future__ import annotations

import importlib
import pkgutil

import pytest

from tests import published
from tests.contracts._registers import checks
from tests.published._check import Check, each

MODULES = [module.name for module in pkgutil.iter_modules(published.__path__) if module.name.startswith("test_")]


def test_there_are_published_checks() -> None:
    assert checks(), "nothing would be validated"


@pytest.mark.parametrize("name", MODULES)
def test_a_module_names_its_source_on_top(name: str) -> None:
    module = importlib.import_module(f"tests.published.{name}")
    assert len((module.__doc__ or "").strip()) >= 40, "the full reference of the source belongs into the docstring"
    assert module.CHECKS


@pytest.mark.parametrize("check", [pytest.param(check, id=f"{check.source}: {check.quantity}") for check in checks()])
def test_a_check_says_where_and_how_closely(check: Check) -> None:
    assert check.place, "name table, equation, figure or page"
    assert not check.is_wide or check.reason, (
        f"tolerance {check.tolerance} is wider than half the last digit of {check.theirs}: give the reason"
    )


def test_a_figure_that_does_not_agree_is_caught() -> None:
    near = Check(source="x", quantity="drop", theirs=0.87, ours=lambda: 0.8749, unit="V", tolerance=0.005)
    near.holds()
    assert not near.is_wide
    far = Check(source="x", quantity="drop", theirs=0.87, ours=lambda: 0.8751, unit="V", tolerance=0.005)
    with pytest.raises(AssertionError, match="theirs"):
        far.holds()
    never = Check(source="x", quantity="drop", theirs=0.87, ours=lambda: 99.0, unit="V", tolerance=float("inf"))
    with pytest.raises(AssertionError, match="tolerance"):
        never.holds()
    with pytest.raises(AssertionError, match="without checks"):
        each([])


@pytest.mark.parametrize(("theirs", "half"), [(0.87, 0.005), (48.0, 0.5), ("48.0", 0.05), ("1.20e3", 5.0), (1250, 0.5)])
def test_the_last_printed_digit_is_known(theirs: float | str, half: float) -> None:
    check = Check(source="x", quantity="y", theirs=theirs, ours=lambda: 0.0, unit="V", tolerance=half)
    assert check.half_last_digit == pytest.approx(half)
