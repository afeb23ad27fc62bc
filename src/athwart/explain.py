"""How a calculation explains itself: metadata on plain functions, a tracer when somebody asks.

A function marked with :func:`formula` is registered in :data:`FORMULAS`. Called outside :func:`explained` it is the plain
function (about 0.2 µs dearer); inside, every call leaves a :class:`Step` with its inputs, its value and the steps made
within it. Loops and search run untraced; the winner is run once more under :func:`explained`.

``expr`` is Python syntax over the parameter names, module constants (annotated with their unit) and other registered
formulas of the same module. Three kinds:

* ``closed``  ``expr`` is the value;
* ``equation``  ``expr`` is a residual that is zero for the value, which it calls ``result``;
* ``table``  ``expr`` is a sentence: a look-up, an iteration over a list or a choice between branches.

Two contract tests hold ``expr`` to the code: *drift* (same number on random inputs) and *dimensions* (pint gives ``unit``).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from functools import wraps
from inspect import Signature, signature
from typing import Literal, ParamSpec, TypeVar

P = ParamSpec("P")
R = TypeVar("R")
Kind = Literal["closed", "equation", "table"]


@dataclass(frozen=True, slots=True)
class Formula:
    """What never changes about a formula: printed on paper, checked by tests."""

    name: str
    symbol: str
    unit: str
    expr: str
    source: str
    kind: Kind
    valid: str
    signature: Signature
    func: Callable[..., object]


@dataclass(slots=True)
class Step:
    """One evaluation."""

    formula: Formula
    inputs: dict[str, object]
    value: object = None
    steps: list[Step] = field(default_factory=list)
    note: str = ""


FORMULAS: dict[str, Formula] = {}
"""Register by dotted name without the package: ``power.cable.loop_voltage_drop``."""

_open: ContextVar[list[Step] | None] = ContextVar("_open", default=None)


def formula(
    symbol: str, unit: str, expr: str, source: str, *, kind: Kind = "closed", valid: str = ""
) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Register a function as a formula of the book; see the module docstring for ``expr`` and ``kind``."""

    def mark(func: Callable[P, R]) -> Callable[P, R]:
        name = f"{func.__module__.removeprefix('athwart.')}.{func.__name__}"
        sig = signature(func)

        @wraps(func)
        def call(*args: P.args, **kwargs: P.kwargs) -> R:
            if (steps := _open.get()) is None:  # nobody asked: the plain function
                return func(*args, **kwargs)
            bound = sig.bind(*args, **kwargs)
            bound.apply_defaults()
            steps.append(step := Step(info, dict(bound.arguments)))
            token = _open.set(step.steps)  # calls made inside become sub-steps
            try:
                value = func(*args, **kwargs)
                step.value = value
                return value
            finally:
                _open.reset(token)

        info = FORMULAS[name] = Formula(name, symbol, unit, expr, source, kind, valid, sig, call)
        return call

    return mark


@contextmanager
def explained() -> Iterator[list[Step]]:
    """Collect a step for every formula called in the block."""
    steps: list[Step] = []
    token = _open.set(steps)
    try:
        yield steps
    finally:
        _open.reset(token)


@contextmanager
def unexplained() -> Iterator[None]:
    """Switch the tracer off inside an :func:`explained` block: for loops whose every turn would be a step."""
    token = _open.set(None)
    try:
        yield
    finally:
        _open.reset(token)


def is_explaining() -> bool:
    """Whether a tracer is open."""
    return _open.get() is not None
