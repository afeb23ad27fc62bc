"""Cross flow: exact against closed forms and a fine sum, mirror symmetry, never a source of energy."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from athwart.vessel.crossflow import CrossFlow, Piece, cross_flow, drift_speed, section_drag, sway_drag, yaw_drag

SPEEDS = st.floats(-2.0, 2.0)
RATES = st.floats(-0.4, 0.4)


def uniform(length: float = 12.0, drag: float = 0.65, draught: float = 1.0) -> CrossFlow:
    return cross_flow([Piece(-length / 2, length / 2, drag * draught)])


@st.composite
def hulls(draw: st.DrawFn) -> CrossFlow:
    edges = sorted(set(draw(st.lists(st.floats(-9.0, 9.0), min_size=3, max_size=9))))
    if len(edges) < 2 or min(b - a for a, b in pairwise(edges)) < 1e-3:
        edges = [-5.0, -1.0, 4.0]
    values = draw(st.lists(st.floats(0.05, 2.0), min_size=len(edges) - 1, max_size=len(edges) - 1))
    return CrossFlow(tuple(edges), tuple(values))


def fine_sum(hull: CrossFlow, v: float, r: float, steps: int = 4000) -> tuple[float, float]:
    side = yaw = 0.0
    for c, a, b in zip(hull.drag_depth, hull.edges, hull.edges[1:], strict=False):
        dx = (b - a) / steps
        for k in range(steps):
            x = a + (k + 0.5) * dx
            w = v + x * r
            side += -0.5 * hull.water_density * c * w * abs(w) * dx
            yaw += -0.5 * hull.water_density * c * w * abs(w) * x * dx
    return side, yaw


@pytest.mark.parametrize(("v", "r"), [(0.5, 0.0), (0.0, 0.05), (0.3, 0.04), (-0.3, 0.2), (0.2, -0.02), (0.6, 0.05)])
def test_uneven_pieces_against_a_fine_sum(v: float, r: float) -> None:
    hull = CrossFlow((-6.0, -4.0, 0.5, 6.0), (1.4, 0.5, 0.3))
    assert hull.loads(v, r) == pytest.approx(fine_sum(hull, v, r), rel=1e-4, abs=0.05)


def test_closed_forms_of_pure_sway_and_pure_yaw() -> None:
    hull = uniform()
    assert hull.loads(0.5, 0.0)[0] == pytest.approx(sway_drag(0.5, 0.65, 1.0, 12.0))
    assert hull.loads(0.5, 0.0)[1] == pytest.approx(0.0, abs=1e-9)
    assert hull.loads(0.0, 0.05)[1] == pytest.approx(yaw_drag(0.05, 0.65, 1.0, 12.0))
    assert hull.loads(0.0, 0.05)[0] == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("v", "r"), [(0.4, 0.05), (0.1, 0.05)])
def test_mixed_motion_of_one_depth_by_the_closed_forms(v: float, r: float) -> None:
    """With the still point outside and inside the hull."""
    a, p, c = 6.0, -v / r, 0.5 * 1025.0 * 0.65
    side, yaw = uniform().loads(v, r)
    if abs(p) >= a:
        assert side == pytest.approx(-c * (12.0 * v**2 + r**2 * 12.0**3 / 12.0))
        assert yaw == pytest.approx(-c * v * r * 12.0**3 / 6.0)
    else:
        i0 = ((a - p) ** 3 + (a + p) ** 3 * -1.0) / 3.0
        assert side == pytest.approx(-c * r * abs(r) * i0)
        i1 = ((a - p) ** 4 + (a + p) ** 4) / 4.0 + p * i0
        assert yaw == pytest.approx(-c * r * abs(r) * i1)


@given(hulls(), SPEEDS, RATES)
def test_cross_flow_never_adds_energy(hull: CrossFlow, v: float, r: float) -> None:
    side, yaw = hull.loads(v, r)
    assert side * v + yaw * r <= 1e-9


@given(hulls(), SPEEDS, RATES)
def test_mirrored_motion_mirrors_the_loads(hull: CrossFlow, v: float, r: float) -> None:
    assert hull.loads(-v, -r) == pytest.approx(tuple(-load for load in hull.loads(v, r)), abs=1e-6)


@given(hulls(), SPEEDS, RATES, st.floats(1e-3, 0.999))
def test_cutting_a_piece_in_two_changes_nothing(hull: CrossFlow, v: float, r: float, share: float) -> None:
    cut = hull.edges[0] + share * (hull.edges[1] - hull.edges[0])
    twice = CrossFlow((hull.edges[0], cut, *hull.edges[1:]), (hull.drag_depth[0], *hull.drag_depth))
    assert twice.loads(v, r) == pytest.approx(hull.loads(v, r), rel=1e-9, abs=1e-6)


def test_a_fin_lies_over_the_hull() -> None:
    hull = cross_flow([Piece(-6.0, 6.0, 0.5), Piece(-5.0, -3.0, 1.0)])
    assert hull.edges == (-6.0, -5.0, -3.0, 6.0)
    assert hull.drag_depth == (0.5, 1.5, 0.5)
    assert hull.lateral_drag_area == pytest.approx(8.0)
    assert hull.centre == pytest.approx(-1.0)


def test_the_moments_are_those_of_the_powers() -> None:
    hull = uniform(drag=1.0)
    assert hull.moments[-1] == pytest.approx((12.0, 0.0, 144.0, 0.0))


def test_a_sum_of_strips_at_full_end_width_would_be_a_fifth_too_much() -> None:
    """The trap of 21 strips of a twentieth of the length each: what this module does not do."""
    step = 12.0 / 20.0
    strips = sum((-6.0 + k * step) ** 2 * abs(-6.0 + k * step) * step for k in range(21))
    assert strips / (2.0 * 6.0**4 / 4.0) == pytest.approx(1.21, abs=0.005)


def test_the_table_is_held_beyond_its_ends_and_refuses_nought() -> None:
    assert section_drag(9.0) == section_drag(4.003) == 0.559
    assert section_drag(0.001) == 1.966
    with pytest.raises(ValueError, match="more than 0"):
        section_drag(0.0)


@pytest.mark.parametrize("pieces", [[], [Piece(0.0, 1.0, 0.0)]])
def test_a_hull_without_drag_is_refused(pieces: list[Piece]) -> None:
    with pytest.raises(ValueError, match="piece"):
        cross_flow(pieces)


def test_a_piece_without_length_is_refused() -> None:
    with pytest.raises(ValueError, match="no length"):
        Piece(1.0, 1.0, 0.5)
    with pytest.raises(ValueError, match="drag times depth"):
        Piece(0.0, 1.0, -0.5)


def test_a_twelve_metre_boat_drifts_at_seven_tenths_of_a_metre_in_twenty_knots() -> None:
    force = 0.5 * 1.225 * 10.29**2 * 0.9 * 30.0
    assert drift_speed(force, 0.636, 0.9, 12.0) == pytest.approx(0.705, abs=1e-3)


@pytest.mark.parametrize(
    ("place", "pivot", "share"),
    [(0.5, 0.1409, 0.9298), (0.45, 0.1618, 0.9107), (0.4, 0.1917, 0.8816), (0.35, 0.2388, 0.8337), (0.3, 0.3275, 0.7461)],
)
def test_steady_pivot_of_one_side_force(place: float, pivot: float, share: float) -> None:
    """A uniform hull under one side force: the still point lies ``pivot`` lengths aft and she turns at ``share`` of a couple's rate."""
    hull = CrossFlow((-0.5, 0.5), (1.0,), 1.0)
    couple = (64.0 * place) ** 0.5
    rate = share * couple
    side, yaw = hull.loads(pivot * rate, rate)
    assert side == pytest.approx(-1.0, rel=2e-3)
    assert yaw == pytest.approx(-place, rel=2e-3)
