"""The link of a bank's negative to the ship's: there unless isolated, thick enough, kept where it is aboard."""

from __future__ import annotations

from typing import Any

import pytest

from athwart.design.proposal import Lane
from tests.unit.design.checks._boats import proposal


def _lane(example: str = "1", changes: dict[str, Any] | None = None) -> Lane:
    return proposal(example, changes).lanes[0]


def test_a_bank_on_its_own_is_tied_to_the_ship_s_negative() -> None:
    lane = _lane()
    assert lane.cable is not None
    assert lane.negative_link_area is not None
    assert lane.negative_link_area >= lane.cable.area * 0.98 or lane.negative_link_area >= 120e-6


def test_an_isolated_system_has_no_link() -> None:
    assert _lane("1", {"supply.common_negative": "isolated"}).negative_link_area is None
    assert _lane("4").negative_link_area is None


def test_a_link_aboard_is_shown_as_it_is() -> None:
    assert _lane("7", {"aboard.lanes.bow.negative_link": "35 mm2"}).negative_link_area == pytest.approx(35e-6)
