"""Sixteen runs side by side against the plain text, run for run; Gauss points; chances; the same for any neighbours."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from athwart.plant import lanes, many
from athwart.plant.motion import CAUSES, Boat, Conditions, Driver, Manoeuvre, Outcome, simulate
from athwart.vessel.crossflow import CrossFlow, Piece, cross_flow
from tests.unit.plant._boats import boat, bow, gusty, hull, stern

TASKS = {
    "hold": Manoeuvre("hold", "stay", 60.0, limit_heading=0.25, grace=3.0),
    "turn": Manoeuvre("turn", "arrive", 60.0, heading=-pi / 2, goal_heading=0.1, goal_rate=0.03),
    "tied": Manoeuvre("tied", "stay", 60.0, line_place=-6.4, line_stiffness=17e3, line_damping=16e3, limit_heading=0.3),
    "ends": Manoeuvre("ends", "stay", 60.0, steers_ends=True, bow_end=6.4, stern_end=-6.4, limit_offset=2.0, grace=3.0),
    "way": Manoeuvre("way", "travel", 60.0, speed=1.0, steers_ends=True, bow_end=6.4, stern_end=-6.4, limit_offset=2.0, way=30.0,
                     outside=13.0, engine_most=3000.0, engine_gain=8000.0),
    "quay": Manoeuvre("quay", "arrive", 60.0, heading=0.35, bow_end=6.4, stern_end=-6.4, fender=40e3, goal_heading=0.07,
                      line_place=-6.4, line_stiffness=17e3, line_damping=16e3),
    "stop": Manoeuvre("stop", "arrive", 60.0, steers_ends=True, bow_end=6.4, stern_end=-6.4, goal_speed=0.1, limit_offset=6.0,
                      sway=0.4, yaw_rate=0.02),
}  # fmt: skip
BOATS = {
    "bow": boat(first=bow(2500.0, control="proportional")),
    "both": replace(
        boat(first=bow(2500.0, control="proportional"), second=stern(1900.0, control="proportional")), charge_aft=1e9
    ),
}


def runs(kind: str = "proportional", count: int = 16) -> list[many.Run]:
    driver = Driver(kind, delay=0.4, look_ahead=3.0)  # type: ignore[arg-type]
    return [
        many.Run(
            gusty(6.0, 0.35 * i - 2.5, 1_000_003 * i + 7),
            replace(driver, delay=0.1 * (i % 9), wrong_side=0.5 * (i % 5 == 0)),
            Conditions(0.1 * (i % 3), -0.05 * (i % 2), 0.8 + 0.03 * i, 1.1 - 0.01 * i, 0.02 * i, 1.0 + 0.01 * i, 0.9, 1.0, 1.0),
        )
        for i in range(count)
    ]


def column(out: Outcome) -> list[float]:
    """As the compiled text lays out its results."""
    return [
        float(out.success), float(CAUSES.index(out.cause)), out.ended, out.bow_on, out.stern_on, out.charge, out.worst_offset,
        out.worst_heading, out.end_heading, out.end_offset, out.full_share, out.charge_aft,
    ]  # fmt: skip


def side_by_side(b: Boat, task: Manoeuvre, chosen: list[many.Run]) -> np.ndarray:
    table, seeds = many.rows(chosen, task)
    return many.run_block(many.packed(b, task), table, seeds)[0]


PAIRS = [(task, units) for task in sorted(TASKS) for units in sorted(BOATS) if units == "both" or task not in ("ends", "stop")]
"""Nothing holds the stern of a boat with a bow unit alone."""


@pytest.mark.parametrize(("task", "units"), PAIRS)
def test_run_for_run_as_the_plain_text(task: str, units: str) -> None:
    """An even lever, for a switch may flip on the last bit; cross flow differs by the Gauss points' error."""
    chosen, b = runs(), BOATS[units]
    found = side_by_side(b, TASKS[task], chosen)
    for i, one in enumerate(chosen):
        mine = column(simulate(b, TASKS[task], one.wind, one.driver, one.given))
        assert mine[:2] == found[:2, i].tolist()
        close = 1e-2 if TASKS[task].goal == "arrive" else 2e-3  # a goal may be met a step sooner
        assert mine[2:] == pytest.approx(found[2:, i].tolist(), rel=close, abs=close)


def test_a_hand_on_a_switch_does_the_same_on_the_whole() -> None:
    chosen = runs("bang-bang")
    b = boat(second=stern())
    found = side_by_side(b, TASKS["tied"], chosen)
    mine = np.array([column(simulate(b, TASKS["tied"], one.wind, one.driver, one.given)) for one in chosen]).T
    assert found[0].tolist() == mine[0].tolist()
    assert np.median(np.abs(found[3] - mine[3])) < 0.11


def test_neighbours_do_not_matter() -> None:
    """The same run alone in its block, and the block turned round, bit for bit."""
    chosen, b = runs("bang-bang"), BOATS["both"]
    whole = side_by_side(b, TASKS["hold"], chosen)
    turned = side_by_side(b, TASKS["hold"], chosen[::-1])
    alone = side_by_side(b, TASKS["hold"], [chosen[3]])
    assert np.array_equal(whole, turned[:, ::-1])
    assert np.array_equal(alone[:, 0], whole[:, 3])


def test_tracks_are_sampled_evenly_until_the_end() -> None:
    table, seeds = many.rows(runs(), TASKS["turn"])
    results, tracks = many.run_block(many.packed(BOATS["bow"], TASKS["turn"]), table, seeds, samples=61, every=10)
    for i in range(16):
        times = tracks[i, :, 0]
        under_way = times[~np.isnan(times)]
        assert np.allclose(under_way, np.arange(len(under_way)))
        assert under_way[-1] <= results[lanes.ENDED, i] < under_way[-1] + 1.1
    assert tracks[0, 0, 3] == pytest.approx(-pi / 2)


# ---- Gauss points


@given(v=st.floats(-1.5, 1.5), r=st.floats(-0.3, 0.3))
def test_gauss_points_of_the_hulls_own_drag(v: float, r: float) -> None:
    flow = hull().flow
    x, c = many.gauss_points(flow)
    w = v + x * r
    half = -0.5 * flow.water_density
    side, yaw = half * float((c * w * abs(w)).sum()), half * float((c * x * w * abs(w)).sum())
    want = flow.loads(v, r)
    most = 0.5 * flow.water_density * flow.lateral_drag_area * (abs(v) + 6.4 * abs(r)) ** 2
    assert side == pytest.approx(want[0], abs=4e-3 * most)
    assert yaw == pytest.approx(want[1], abs=4e-3 * most * 6.4)


@pytest.mark.parametrize("power", range(24))
def test_gauss_points_are_exact_for_powers(power: int) -> None:
    flow = cross_flow([Piece(-6.0, 1.0, 0.8), Piece(-5.5, -4.0, 0.9), Piece(1.0, 6.3, 0.4)])
    x, c = many.gauss_points(flow)
    want = sum(
        d * (b ** (power + 1) - a ** (power + 1)) / (power + 1)
        for d, a, b in zip(flow.drag_depth, flow.edges, flow.edges[1:], strict=False)
    )
    assert float((c * x**power).sum()) == pytest.approx(want, rel=1e-9, abs=1e-9 * 6.3**power)


def test_weights_are_above_nought_and_a_gap_in_the_hull_is_borne() -> None:
    flow = CrossFlow((-6.0, -2.0, 1.0, 6.0), (0.7, 0.0, 0.5))
    x, c = many.gauss_points(flow)
    assert (c > 0.0).all()
    assert x.min() > -6.0
    assert x.max() < 6.0
    assert float(c.sum()) == pytest.approx(flow.lateral_drag_area)


def test_another_model_behind_the_door_is_refused() -> None:
    class Door:
        def available_thrust(self, state: object, command: float, time: float) -> float:
            return command

    with pytest.raises(TypeError, match="steady model"):
        many.packed(boat(first=replace(bow(), thrust=Door())), TASKS["hold"])
