"""One figure somebody else printed, beside what athwart computes for it.

How a published test module looks (one file a source, the full reference in the module docstring)::

    '''Maker's Handbook of Example Cables, 3rd edition, 1999, table 4, page 12. Read: table 4 only.'''

    from athwart.power.cable import loop_voltage_drop
    from tests.published._check import Check, each

    CHECKS = [
        Check(
            source="example-handbook",              # key of sources.toml
            place="table 4, row 3",                 # where in the source
            quantity="loop drop, 400 A over 6 m in 95 mm² at 20 °C",
            theirs=0.87,                            # typed from the source, in `unit`
            ours=lambda: loop_voltage_drop(400.0, 6.0, 95e-6),
            unit="V",
            tolerance=0.005,                        # half the last printed digit, absolute, in `unit`
        ),
    ]


    @each(CHECKS)
    def test_drop_agrees_with_the_handbook(check: Check) -> None:
        check.holds()

The list must be called ``CHECKS`` and live at module level: the docs build collects it for the page "Theirs and ours".
``ours`` returns a number in ``unit``: convert from SI inside the lambda where the source prints other units. In a loop
over rows bind the row (``lambda row=row: ...`` or ``functools.partial``), else every check sees the last one. A wider
tolerance than half the last printed digit needs ``reason``; :meth:`Check.holds` cannot know the printed digits, a
contract test asks for the reason instead (``theirs`` is given as text, for example ``"0.870"``, where trailing zeros count).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal

import pytest

__tracebackhide__ = True


@dataclass(frozen=True, slots=True)
class Check:
    """A printed figure (``theirs``) and the function that makes ours; see the module docstring."""

    source: str
    quantity: str
    theirs: float | str
    ours: Callable[[], float]
    unit: str
    tolerance: float
    place: str = ""
    reason: str = ""

    @property
    def printed(self) -> float:
        """Their figure as a number."""
        return float(self.theirs)

    @property
    def half_last_digit(self) -> float:
        """Half of the last digit as typed: 0.005 for 0.87, 0.5 for 48 and for 48.0 given as a float."""
        text = self.theirs if isinstance(self.theirs, str) else repr(self.theirs).removesuffix(".0")
        exponent = Decimal(text).as_tuple().exponent
        assert isinstance(exponent, int), f"{self.quantity}: {self.theirs!r} is not a finite number"
        return 0.5 * 10.0**exponent

    @property
    def is_wide(self) -> bool:
        """Whether the tolerance is wider than half the last printed digit: then ``reason`` says why."""
        return self.tolerance > self.half_last_digit * (1.0 + 1e-9)

    def holds(self) -> None:
        """Fail unless ours lies within the tolerance of theirs; the tolerance of a check is never zero or infinite."""
        assert 0.0 < self.tolerance < math.inf, f"{self.quantity}: tolerance {self.tolerance} cannot fail or cannot hold"
        ours = self.ours()
        difference = ours - self.printed
        slack = self.tolerance * 1e-9  # a figure exactly on the edge of rounding counts as equal
        assert abs(difference) <= self.tolerance + slack, (
            f"{self.source}, {self.place or 'no place given'}: {self.quantity}: "
            f"theirs {self.theirs} {self.unit}, ours {ours:.6g}, difference {difference:+.3g}, allowed ±{self.tolerance:g}"
        )


def each(checks: Sequence[Check]) -> pytest.MarkDecorator:
    """Run a test once for each check, as its argument ``check``; an empty list is a mistake, not a pass."""
    assert checks, "a published test module without checks"
    return pytest.mark.parametrize("check", checks, ids=[f"{check.source}: {check.quantity}" for check in checks])
