"""Second opinions for hulls over 25 m: signs, mirror, and what lies outside the ships they were made from."""

from __future__ import annotations

from math import pi, radians

import pytest

from athwart.vessel.ship_regressions import (
    ShipShape,
    fujiwara,
    fujiwara_longitudinal,
    fujiwara_side,
    fujiwara_yaw,
    isherwood,
    isherwood_longitudinal,
    isherwood_side,
    isherwood_yaw,
    load,
    outside,
)

SHIP = ShipShape(36.0, 7.5, 180.0, 55.0, 70.0, -0.6, 2.6, 7.5, 95.0)


@pytest.mark.parametrize("regression", [isherwood, fujiwara])
@pytest.mark.parametrize("degrees", [20.0, 55.0, 90.0, 140.0])
def test_a_mirrored_wind_mirrors_side_force_and_moment(regression, degrees: float) -> None:  # type: ignore[no-untyped-def]
    port, starboard = (load(regression(SHIP, side), SHIP, side, 60.0) for side in (radians(-degrees), radians(degrees)))
    assert port.side == pytest.approx(-starboard.side)
    assert port.yaw == pytest.approx(-starboard.yaw)
    assert port.longitudinal == pytest.approx(starboard.longitudinal)
    assert starboard.side < 0.0, "a wind from starboard pushes to port"


@pytest.mark.parametrize("regression", [isherwood, fujiwara])
def test_ahead_it_holds_her_back_and_astern_it_pushes(regression) -> None:  # type: ignore[no-untyped-def]
    assert regression(SHIP, 0.0).longitudinal < 0.0 < regression(SHIP, pi).longitudinal
    assert regression(SHIP, 0.0).side == pytest.approx(0.0, abs=1e-12)


def test_both_agree_on_the_beam_within_a_third() -> None:
    assert isherwood(SHIP, pi / 2).side == pytest.approx(fujiwara(SHIP, pi / 2).side, rel=0.35)


def test_small_or_beamy_hulls_are_named() -> None:
    assert outside(SHIP) == ()
    boat = ShipShape(12.0, 4.0, 28.0, 10.0, 12.0, 0.0, 1.2, 3.0, 30.0)
    words = outside(boat)
    assert len(words) == 2
    assert "12.0 m long" in words[0]
    assert "3.0" in words[1]


def test_the_book_has_both_by_numbers() -> None:
    common = (radians(30.0), 36.0, 7.5, 180.0, 55.0, 70.0, -0.6)
    by_isherwood, by_fujiwara = isherwood(SHIP, radians(30.0)), fujiwara(SHIP, radians(30.0))
    assert isherwood_longitudinal(*common, 95.0, 1.0) == by_isherwood.longitudinal
    assert isherwood_side(*common, 95.0, 1.0) == by_isherwood.side
    assert isherwood_yaw(*common, 95.0, 1.0) == by_isherwood.yaw
    assert fujiwara_longitudinal(*common, 2.6, 7.5) == by_fujiwara.longitudinal
    assert fujiwara_side(*common, 2.6, 7.5) == by_fujiwara.side
    assert fujiwara_yaw(*common, 2.6, 7.5) == by_fujiwara.yaw
