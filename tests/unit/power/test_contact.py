"""Contacts: defaults in order, coils that let go, ratings of switches."""

from __future__ import annotations

import pytest

from athwart.power.contact import (
    COIL_SOURCES,
    JOINTS,
    coil_volts,
    resistance_from_drop,
    suspect_joint_limit,
    switch_rating,
)
from athwart.sources import register


def test_every_piece_has_least_usual_and_most_and_a_source() -> None:
    for piece in JOINTS.values():
        assert piece.least <= piece.usual <= piece.most
        assert piece.source in register()
    assert set(COIL_SOURCES.values()) <= set(register())


def test_millivolts_over_amperes() -> None:
    assert resistance_from_drop(0.090, 300.0) == pytest.approx(0.3e-3)
    assert suspect_joint_limit(10e-6) == pytest.approx(15e-6)


def test_a_plain_coil_needs_more_when_warm_and_lets_go_late() -> None:
    cold, warm = coil_volts(24.0), coil_volts(24.0, coil_temperature=343.15)
    assert (cold.pull_in, cold.drop_out_least, cold.drop_out_most) == pytest.approx((18.0, 1.2, 7.2))
    assert warm.pull_in == pytest.approx(18.0 * 1.1965)
    assert cold.closes(18.0)
    assert not cold.closes(17.9)
    assert cold.holds(8.0)
    assert not cold.holds(7.0)


def test_an_electronic_coil_lets_go_early_at_any_warmth() -> None:
    assert coil_volts(24.0, "electronic", 343.15) == coil_volts(24.0, "electronic")
    assert not coil_volts(24.0, "electronic").holds(14.0)
    with pytest.raises(ValueError, match="plain and electronic"):
        coil_volts(24.0, "wide")  # type: ignore[arg-type]


def test_a_switch_is_judged_by_the_length_of_the_run() -> None:
    assert switch_rating(200.0, 350.0, 300.0) == 350.0
    assert switch_rating(200.0, 350.0, 301.0) == 200.0
    assert switch_rating(200.0, 350.0, 3601.0) is None
