"""Rehearsals: the same numbers for a seed whatever the workers, shares that add up, intervals, one run again, honest refusals."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from athwart.design.proposal import Proposal
from athwart.design.robustness import rehearsal, sampling
from athwart.design.robustness.afloat import afloat, engine_and_rudder, helm_in_a_berth, in_motion
from athwart.design.robustness.rehearsal import Histogram, Rehearsal, Share, rehearse
from athwart.errors import InputError, NotComputed, UnknownName
from athwart.numerics import chances
from athwart.plant import many
from athwart.plant.motion import CAUSES
from tests.unit.design.robustness.test_afloat import at_sea, proposal

NAMES = ("hold heading", "hold station", "quarter turn", "leave quay", "box berth", "stop drift")


@given(seed=st.integers(0, 2**63), first=st.integers(0, 10**9), which=st.integers(0, 60))
def test_chances_of_many_runs_are_those_of_one(seed: int, first: int, which: int) -> None:
    runs = np.arange(first, first + 5, dtype=np.uint64)
    with np.errstate(over="ignore"):
        bits, even, usual = (f(seed, runs, which) for f in (sampling.keys, sampling.uniform, sampling.normal))
    for k in range(5):
        assert int(bits[k]) == chances.key(seed, first + k, which)
        assert even[k] == chances.uniform(seed, first + k, which)
        assert usual[k] == pytest.approx(chances.normal(seed, first + k, which), rel=1e-12, abs=1e-14)


@pytest.mark.parametrize("name", NAMES)
def test_every_manoeuvre_of_a_boat_with_two_units(name: str) -> None:
    r = rehearse(proposal("7"), name, 320, seed=5)
    assert r.success.of == 320
    assert r.success.count + sum(share.count for _, share in r.causes) == 320
    assert sum(share.of for _, share in r.by_heading) == 320
    assert 0.0 <= r.success.interval[0] <= r.success.value <= r.success.interval[1] <= 1.0
    assert r.typical.track
    for found in (r.bow_on, r.charge, r.ended, r.worst_heading):
        values = [p.value for p in found]
        assert values == sorted(values)
        assert all(p.low <= p.value <= p.high for p in found)


def _figures(r: Rehearsal) -> tuple[object, ...]:
    return (r.success, r.causes, r.by_heading, r.bow_on, r.charge, r.ended, r.worst_heading, r.tracks, r.typical_run, r.typical)


def test_workers_change_nothing_and_seeds_do() -> None:
    one = rehearse(proposal("7"), "hold station", 500, seed=3, workers=1)
    four = rehearse(proposal("7"), "hold station", 500, seed=3, workers=4)
    other = rehearse(proposal("7"), "hold station", 500, seed=4, workers=4)
    assert _figures(one) == _figures(four)
    assert _figures(one) != _figures(other)


def test_more_runs_begin_with_the_same_ones() -> None:
    columns: dict[int, list[dict[str, np.ndarray]]] = {300: [], 5000: []}
    for runs, found in columns.items():
        rehearse(proposal("1"), "quarter turn", runs, seed=9, sink=found.append)
    few, lots = ({name: np.concatenate([c[name] for c in found]) for name in found[0]} for found in columns.values())
    assert len(lots["run"]) == 5000
    assert lots["run"].tolist() == list(range(5000))
    for name, values in few.items():
        assert np.array_equal(values, lots[name][:300], equal_nan=True)


def test_one_run_again_on_plain_numbers_ends_the_same_way() -> None:
    found: list[dict[str, np.ndarray]] = []
    rehearse(proposal("4"), "quarter turn", 64, seed=2, sink=found.append)
    columns = {name: np.concatenate([c[name] for c in found]) for name in found[0]}
    a = at_sea("4")
    driver, wrong = sampling.driver_for(a, None, None)
    setup = sampling.Setup(a, rehearsal.exercise_named(a, "quarter turn"), driver, wrong, 2)
    boats = (in_motion(a), in_motion(a, light=True))
    for run in (0, 17, 40, 63):
        out, wind = rehearsal.again(setup, boats, run)
        assert out.success == bool(columns["success"][run])
        assert out.ended == pytest.approx(columns["ended_s"][run], abs=0.21)
        assert out.bow_on == pytest.approx(columns["bow_on_s"][run], rel=0.02, abs=0.1)
        task = setup.task(run // 16)
        assert (wind - task.heading - columns["wind_from_rad"][run] + 1.0) % (2 * pi) == pytest.approx(1.0)


def test_a_late_hand_and_a_wrong_side_cost_successes() -> None:
    p = proposal("7")
    usual = rehearse(p, "hold station", 600).success.value
    late = rehearse(p, "hold station", 600, delay=2.5).success.value
    wrong = rehearse(p, "hold station", 600, wrong_side=3.0).success.value
    assert late < usual - 0.1
    assert wrong < usual - 0.05


def test_more_wind_fewer_successes() -> None:
    p = proposal("7")
    strong = replace(
        p, brief=p.brief.model_copy(update={"wind": p.brief.wind.model_copy(update={"speed": 1.5 * p.brief.wind.speed})})
    )
    assert rehearse(strong, "hold station", 400).success.value < rehearse(p, "hold station", 400).success.value - 0.15


def test_what_cannot_be_rehearsed_says_why() -> None:
    p = proposal("2")
    bare = replace(
        p, brief=p.brief.model_copy(update={"propulsion": p.brief.propulsion.model_copy(update={"rudder_area": None})})
    )
    with pytest.raises(NotComputed, match="nothing holds the stern"):
        rehearse(bare, "box berth", 16)
    done, left_out = rehearsal.rehearse_all(bare, 16)
    assert [name for name, _ in left_out] == ["box berth"]
    assert len(done) == 5
    with pytest.raises(UnknownName, match="did you mean 'hold station'"):
        rehearse(proposal("2"), "hold statoin", 16)
    with pytest.raises(InputError, match="there are hold heading"):
        rehearse(proposal("2"), "xyz", 16)
    with pytest.raises(ValueError, match="0 runs"):
        rehearse(proposal("2"), "hold heading", 0)


def test_progress_counts_every_run() -> None:
    done: list[int] = []
    rehearse(proposal("1"), "stop drift", 2500, progress=done.append)
    assert sum(done) == 2500


def test_a_single_run_is_a_rehearsal_too() -> None:
    r = rehearse(proposal("1"), "hold station", 1)
    assert r.success.of == 1
    assert r.typical_run == 0


# ---- the account


def test_interval_of_a_share() -> None:
    """Wilson's interval; 8 of 10 by hand: 0.490 to 0.943."""
    low, high = Share(8, 10).interval
    assert (low, high) == pytest.approx((0.490, 0.943), abs=5e-4)
    assert Share(0, 50).interval[0] == 0.0
    assert Share(50, 50).interval[1] == pytest.approx(1.0)


@given(values=st.lists(st.floats(0.0, 10.0), min_size=20, max_size=200), share=st.sampled_from((0.05, 0.5, 0.95)))
def test_percentiles_from_bins_are_those_of_the_values(values: list[float], share: float) -> None:
    h = Histogram.up_to(10.0001)
    h.add(np.array(values))
    ranked = sorted(values)
    at = share * len(values)
    low, high = ranked[max(0, int(at) - 1)], ranked[min(len(values) - 1, int(at) + 1)]
    assert low - 0.006 <= h.at(share) <= high + 0.006


def test_memory_of_the_account_does_not_grow() -> None:
    h = Histogram.up_to(1.0)
    for _ in range(50):
        h.add(np.random.default_rng(1).random(1000))
    assert len(h.counts) == rehearsal.BINS
    assert h.total == 50_000
    assert h.mean == pytest.approx(0.5, abs=0.02)


def test_interval_of_a_percentile_covers_other_seeds() -> None:
    """A 95 per cent interval of the median should cover the true one about 19 times in 20."""
    covered = 0
    for seed in range(60):
        h = Histogram.up_to(1.0001)
        h.add(np.random.default_rng(seed).random(400))
        p = h.percentile(0.5)
        covered += p.low <= 0.5 <= p.high
    assert covered >= 52


def test_causes_have_the_names_of_the_plain_text() -> None:
    r = rehearse(proposal("7"), "hold station", 64)
    assert [name for name, _ in r.causes] == list(CAUSES[1:])
    assert many.COLUMNS[0] == "success"


def without_stern(p: Proposal) -> Proposal:
    """Example 7 as if its stern unit had never been fitted."""
    return replace(p, lanes=p.lanes[:1])


def test_a_second_unit_never_makes_a_turn_fail() -> None:
    both, one = (rehearse(p, "quarter turn", 480).success for p in (proposal("7"), without_stern(proposal("7"))))
    assert both.value >= one.value - 0.01
    assert both.value > 0.98


@pytest.mark.parametrize("name", ["quarter turn", "hold station", "stop drift", "box berth"])
def test_less_wind_never_makes_it_fail(name: str) -> None:
    p = proposal("7")
    w = p.brief.wind
    calm = replace(p, brief=p.brief.model_copy(update={"wind": w.model_copy(update={"speed": 0.4 * w.speed})}))
    assert rehearse(calm, name, 320).success.value >= rehearse(p, name, 320).success.value - 0.01


def test_a_boat_with_a_stern_unit_alone_has_her_bow_made_fast() -> None:
    p = replace(proposal("7"), lanes=proposal("7").lanes[1:])
    station = rehearse(p, "hold station", 64)
    assert station.exercise.label == "hold station (bow fast)"
    assert station.exercise.manoeuvres[0].line_place > 0.0
    assert station.success.value > 0.9
    assert rehearse(p, "leave quay", 64).success.value > 0.9
    with pytest.raises(NotComputed, match="nothing holds the bow"):
        rehearse(p, "box berth", 16)


def test_helm_in_a_berth_is_no_stronger_than_its_push_can_be_taken_off() -> None:
    a = afloat(proposal("1"))
    helper = engine_and_rudder(a)
    assert helper is not None
    assert helm_in_a_berth(a, helper) <= 0.5 * helper.side + 1e-9
    assert helm_in_a_berth(a, helper) * helper.thrust / helper.side <= 0.03 * 9.80665 * a.proposal.brief.boat.displacement + 1e-6
