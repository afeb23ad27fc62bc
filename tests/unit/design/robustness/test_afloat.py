"""A proposal afloat, its four cases and polars: what the static need says, said again by another way, and laws over all headings."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import pi, sqrt

import pytest

from athwart.catalogue.builtin import builtin
from athwart.design.places import waterline_middle
from athwart.design.proposal import Held, Lane, LaneState, Proposal
from athwart.design.robustness.afloat import (
    Afloat,
    afloat,
    design_thrust,
    engine_and_rudder,
    full_thrust,
    in_motion,
    twin_screws,
)
from athwart.design.robustness.cases import Curve, Polar, cases_of, four_cases, polars
from athwart.design.search.propose import propose
from athwart.errors import NotComputed
from athwart.store.briefs import parse_brief
from tests.unit.design.checks._boats import EXAMPLES, changed_text, text_of

KNOT = 0.514444


@lru_cache
def proposal(number: str) -> Proposal:
    return propose(parse_brief(next(EXAMPLES.glob(f"{number}-*.yaml")).read_text(encoding="utf-8")).brief, builtin())


@lru_cache
def at_sea(number: str) -> Afloat:
    return afloat(proposal(number))


@lru_cache
def held(number: str) -> tuple[Held, ...]:
    return four_cases(at_sea(number))


@lru_cache
def drawn(number: str) -> tuple[Polar, ...]:
    return polars(at_sea(number))


def of(found: tuple[Held, ...], case: str, name: str = "") -> Held:
    return next(one for one in found if one.case == case and name in one.name)


def weaker(p: Proposal, share: float) -> Proposal:
    """The same with less thrust in every lane."""

    def lane(one: Lane) -> Lane:
        states = [
            replace(s, thrust=share * s.thrust) if isinstance(s, LaneState) else None for s in (one.design, one.both_design)
        ]
        return replace(one, design=states[0], both_design=states[1], peak=None)

    return replace(p, lanes=tuple(lane(one) for one in p.lanes))


@pytest.mark.parametrize("number", ["1", "2", "4", "7"])
def test_one_end_held_is_the_static_need_found_another_way(number: str) -> None:
    """Harmonics and another origin against the need; headings are coarser here."""
    case = next(c for c in proposal(number).need.cases if c.case == "B")
    found = of(held(number), "B")
    assert found.need_beam == pytest.approx(case.beam, rel=0.005)
    assert found.need_worst == pytest.approx(case.worst, rel=0.012)
    lane = proposal(number).lanes[0]
    assert lane.wind_held_worst is not None
    assert found.wind_worst == pytest.approx(lane.wind_held_worst, rel=0.012)
    assert found.wind_beam == pytest.approx(lane.wind_held_beam, rel=0.006)


def test_on_station_is_ruled_by_the_weaker_of_the_two() -> None:
    winds = [lane.wind_held_worst or 0.0 for lane in proposal("7").lanes]
    assert of(held("7"), "C", "on station").wind_worst == pytest.approx(min(winds), rel=0.02)


def test_a_free_boat_needs_less_on_the_beam_and_turning_needs_more() -> None:
    for number in ("1", "2", "4", "7"):
        found = held(number)
        assert of(found, "A").need_beam < of(found, "B").need_beam
        assert of(found, "D").need_worst > of(found, "A").need_worst
        assert of(found, "D").wind_worst < of(found, "A").wind_worst


@pytest.mark.parametrize("number", ["1", "2", "4", "7"])
def test_polars_are_alike_on_both_sides_and_full_banks_hold_more(number: str) -> None:
    for polar in drawn(number):
        for curve in polar.curves:
            at = {round(angle * 18 / pi): speed for angle, speed in curve.points}
            assert len(at) == 36
            for k in range(1, 18):
                assert at[k] == pytest.approx(at[-k], abs=0.05)
        cold, full = polar.curves[0], polar.curves[1]
        assert all(b >= a - 1e-9 for (_, a), (_, b) in zip(cold.points, full.points, strict=True))


def test_polars_go_with_the_root_of_thrust_where_only_wind_acts() -> None:
    less = polars(afloat(weaker(proposal("1"), 0.5)))
    for whole, half in zip(drawn("1"), less, strict=True):
        if whole.case != "B":
            continue
        for (angle, a), (_, b) in zip(whole.curves[0].points, half.curves[0].points, strict=True):
            if 0.3 < abs(angle) < 2.8:
                assert b / a == pytest.approx(sqrt(0.5), rel=0.01)


def test_a_current_setting_with_the_wind_takes_from_what_is_held() -> None:
    polar = next(p for p in drawn("1") if p.case == "B")
    still, moving = polar.curves[0], polar.curves[-1]
    assert "current" in moving.name
    for (angle, a), (_, b) in zip(still.points, moving.points, strict=True):
        if 0.3 < abs(angle) < 2.8:
            assert b < a


def test_a_curve_knows_its_worst_heading() -> None:
    assert Curve("x", ((0.0, 9.0), (1.0, 4.0), (2.0, 6.0))).least == (1.0, 4.0)


def test_two_units_of_a_role_of_which_one_is_lost() -> None:
    """Twice the same bow unit: thrust adds, and a polar shows the loss of one."""
    p = proposal("1")
    twice = replace(p, lanes=(p.lanes[0], replace(p.lanes[0], lane=2)))
    a = afloat(twice)
    assert in_motion(a).bow.thrust.available_thrust(None, 1.0, 0.0) == pytest.approx(  # type: ignore[arg-type]
        2.0 * design_thrust(p.lanes[0])
    )
    polar = next(one for one in polars(a) if one.case == "B")
    both, lost = polar.curves[0], next(c for c in polar.curves if c.name == "one unit lost")
    assert lost.least[1] == pytest.approx(both.least[1] / sqrt(2.0), rel=0.01)


# ---- what it is made of


def test_thrust_of_a_full_bank_is_more_than_of_a_cold_one() -> None:
    p = proposal("1")
    lane = p.lanes[0]
    assert design_thrust(lane) < full_thrust(lane, p.bank(lane.bank)) < 1.35 * design_thrust(lane)


def test_engine_rudder_and_two_screws_from_the_brief() -> None:
    helper = engine_and_rudder(at_sea("1"))
    assert helper is not None
    assert 0.3 * helper.thrust < helper.side < 0.55 * helper.thrust
    p = proposal("2")
    bare = replace(
        p, brief=p.brief.model_copy(update={"propulsion": p.brief.propulsion.model_copy(update={"rudder_area": None})})
    )
    assert engine_and_rudder(afloat(bare)) is None
    screws = twin_screws(at_sea("4"))
    assert screws is not None
    assert screws.moment > 500.0
    assert twin_screws(at_sea("1")) is None
    assert in_motion(at_sea("1")).stern is None
    assert in_motion(at_sea("1"), with_engine=True).stern is not None


def test_the_middle_of_the_waterline() -> None:
    assert waterline_middle(proposal("1").brief) == pytest.approx(0.5 * 13.3 - 7.1)
    plain = text_of("1").split("  underwater:")[0] + text_of("1")[text_of("1").index("  hull_material") :]
    assert waterline_middle(parse_brief(plain).brief) == pytest.approx(0.5 * (13.3 - 14.2))


def test_wind_of_a_gust_and_of_a_mean_is_one_wind() -> None:
    """17 kn said as a gust, or its mean with the factor of the place."""
    gust = at_sea("1")
    mean = afloat(
        propose(
            parse_brief(changed_text(text_of("1"), {"wind.speed": f"{17.0 / 1.52:.4f} kn", "wind.is": "mean"})).brief, builtin()
        )
    )
    assert mean.mean_speed == pytest.approx(gust.mean_speed, rel=1e-3)
    assert mean.intensity == pytest.approx(gust.intensity)
    assert gust.mean_speed == pytest.approx(17.0 * KNOT / 1.52, rel=1e-3)


def test_lightest_state_is_higher_out_of_the_water() -> None:
    a = at_sea("1")
    assert 0.95 < a.loaded_windage < 1.0
    assert a.light.flow.lateral_drag_area < a.hull.flow.lateral_drag_area
    assert a.light.inertia.sway < a.hull.inertia.sway


def test_a_lane_without_thrust_is_not_afloat() -> None:
    p = proposal("1")
    dead = replace(p, lanes=(replace(p.lanes[0], design=None, both_design=None),))
    with pytest.raises(NotComputed, match="no thrust"):
        in_motion(afloat(dead))


def test_the_first_answer_tells_drifting_and_turning() -> None:
    p = proposal("1")
    free, turn = of(p.cases, "A"), of(p.cases, "D")
    assert f"free to drift {free.wind_worst / KNOT:.1f} kn" in p.answers[0].remark
    assert f"turning at 3 degrees a second {turn.wind_worst / KNOT:.1f} kn" in p.answers[0].remark


def test_a_proposal_that_cannot_be_taken_afloat_has_no_cases() -> None:
    p = proposal("1")
    found, why = cases_of(replace(p, lanes=(replace(p.lanes[0], design=None, both_design=None),)))
    assert found == ()
    assert "no thrust to move her with" in why


def test_winds_that_are_only_as_far_as_was_looked_say_over() -> None:
    free = of(held("1"), "A")
    assert free.at_least == (False, True)
    assert free.wind_beam == pytest.approx(3.0 * proposal("1").brief.wind.speed, rel=1e-3)
    assert free.beam_words("51 kn") == "over 51 kn"
    assert free.worst_words("19 kn") == "19 kn"


def test_with_either_unit_lost_a_station_is_lost() -> None:
    station = next(polar for polar in drawn("7") if polar.name == "on station")
    lost = next(curve for curve in station.curves if curve.name == "one unit lost")
    whole = station.curves[0]
    assert lost.least[1] < 0.3 * whole.least[1]
    assert all(a[1] <= b[1] + 1e-9 for a, b in zip(lost.points, whole.points, strict=True))
    assert all(curve.name != "one unit lost" for polar in drawn("1") for curve in polar.curves)


@pytest.mark.parametrize("depth", ["1.75 m", "2.5 m", "3.5 m", "50 m"])
def test_turning_through_the_wind_changes_smoothly_with_its_direction(depth: str) -> None:
    """No jumps from root to root: neighbours of ten degrees within a half, but right ahead and astern, where the wind turns nothing."""
    text = changed_text(text_of("1"), {"water.depth": depth})
    a = afloat(propose(parse_brief(text).brief, builtin()))
    turning = next(polar for polar in polars(a) if polar.case == "D")
    cold, warm = ([speed for angle, speed in curve.points if 0.1 < angle < pi - 0.1] for curve in turning.curves[:2])
    assert len(cold) == 17
    assert all(c <= w + 1e-6 for c, w in zip(cold, warm, strict=True))
    assert all(max(x, y) <= 1.5 * min(x, y) for x, y in pairwise(cold))
