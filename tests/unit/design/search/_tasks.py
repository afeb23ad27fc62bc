"""Tasks, rows and reduced catalogues for the tests of the search."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from athwart.catalogue.builtin import builtin
from athwart.catalogue.records import BatteryBlock, Cable, Catalogue, Fuse, ThrusterUnit
from athwart.design.brief import Brief
from athwart.design.search import aboard, banking, chain
from tests.unit.design.checks._boats import brief

CATALOGUE = builtin()


def row(row_id: str) -> Any:
    """A row of the built-in catalogue."""
    found = CATALOGUE.row(row_id)
    assert found is not None, row_id
    return found


def unit(row_id: str) -> ThrusterUnit:
    """A thruster unit."""
    found: ThrusterUnit = row(row_id)
    return found


def block(row_id: str) -> BatteryBlock:
    """A battery block."""
    found: BatteryBlock = row(row_id)
    return found


def cable(row_id: str) -> Cable:
    """A cable."""
    found: Cable = row(row_id)
    return found


def fuse(row_id: str) -> Fuse:
    """A fuse."""
    found: Fuse = row(row_id)
    return found


def only_units(*row_ids: str) -> Catalogue:
    """The built-in catalogue with these units alone."""
    return replace(CATALOGUE, units=tuple(unit(row_id) for row_id in row_ids))


def where(test: Callable[[ThrusterUnit], bool]) -> Catalogue:
    """The built-in catalogue with the units that pass a test."""
    return replace(CATALOGUE, units=tuple(entry for entry in CATALOGUE.units if test(entry)))


def task(example: str = "1", changes: Mapping[str, Any] | None = None, *, required: float = 1000.0, **others: Any) -> chain.Task:
    """The bow lane of an example as a task of the search."""
    boat = brief(example, changes)
    return task_of(boat, required=required, **others)


def task_of(boat: Brief, *, required: float = 1000.0, **others: Any) -> chain.Task:
    """The bow lane of a brief as a task of the search."""
    wish = next(entry for entry in banking.wishes(boat) if "bow" in entry.feeds)
    given = aboard.given(boat, "bow")
    usual: dict[str, Any] = {"run_time": 60.0, "docking_time": 40.0}
    return chain.Task(boat, CATALOGUE, boat.thruster("bow"), wish, given, required, {}, **(usual | others))
