"""Thousands of runs: the plain objects of :mod:`athwart.plant.motion` laid out in rows for the compiled text, and called back.

NumPy and the compiler are imported by the functions that need them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, exp, isfinite, sin
from typing import TYPE_CHECKING, Any

from athwart.plant.motion import STEP, Boat, Conditions, Driver, Manoeuvre, Pusher, SteadyThrust, Wind
from athwart.vessel.added_mass import MUNK_SHARE
from athwart.vessel.crossflow import CrossFlow
from athwart.vessel.underwater import SURGE_DRAG

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
else:
    Floats = Any

NODES = 12
"""Places along the hull where the compiled text takes the cross flow: Gauss points of the hull's own drag."""
FAR = 1e9
GOALS = ("stay", "arrive", "travel")
CONTROLS = ("on/off", "stepped", "proportional")


def gauss_points(flow: CrossFlow, count: int = NODES) -> tuple[Floats, Floats]:
    """Places and weights whose sums are exact for every power of x to 2 count - 1, weighted by the hull's drag times depth.

    Stieltjes' recurrence on the hull's own weight, then the eigenvalues of its Jacobi matrix (Golub and Welsch, 1969).
    """
    import numpy as np

    inner, weights = np.polynomial.legendre.leggauss(count + 1)
    edges, drag = np.array(flow.edges), np.array(flow.drag_depth)
    half, middle = 0.5 * np.diff(edges), 0.5 * (edges[1:] + edges[:-1])
    x = (middle[:, None] + half[:, None] * inner[None, :]).ravel()
    w = (drag[:, None] * half[:, None] * weights[None, :]).ravel()
    keep = w > 0.0
    x, w = x[keep], w[keep]
    total = w.sum()
    before, now = np.zeros_like(x), np.full_like(x, 1.0 / np.sqrt(total))
    a, b = np.zeros(count), np.zeros(count)
    for k in range(count):
        a[k] = (w * x * now * now).sum()
        raw = (x - a[k]) * now - (b[k - 1] * before if k > 0 else 0.0)
        b[k] = np.sqrt((w * raw * raw).sum())
        before, now = now, raw / b[k]
    matrix = np.diag(a) + np.diag(b[: count - 1], 1) + np.diag(b[: count - 1], -1)
    values, vectors = np.linalg.eigh(matrix)
    return values, total * vectors[0] ** 2


@dataclass(frozen=True, slots=True)
class Packed:
    """A boat and a manoeuvre laid out for the compiled text; many runs share it."""

    hull: Floats
    node_x: Floats
    node_c: Floats
    wind: tuple[Floats, Floats, Floats]
    losses: Floats
    bow: Floats
    stern: Floats
    task: Floats
    step: float


@dataclass(frozen=True, slots=True)
class Results:
    """What came of runs: one value a run in each column, and the tracks that were kept."""

    columns: dict[str, Floats]
    tracks: Floats  # kept runs, samples, TRACK_SIZE


COLUMNS = (
    "success", "cause", "ended_s", "bow_on_s", "stern_on_s", "charge_C", "worst_offset_m", "worst_heading_rad", "end_heading_rad",
    "end_offset_m", "full_share", "charge_aft_C",
)  # fmt: skip


def _filled(terms: Sequence[float]) -> Floats:
    """Terms of the wind from the second on, filled up with noughts to a multiple of those done together."""
    import numpy as np

    from athwart.plant import lanes

    missing = -(len(terms) - 2) % lanes.TOGETHER
    return np.array([*terms, *[0.0] * missing])


def packed(boat: Boat, task: Manoeuvre, step: float = STEP) -> Packed:
    """Everything of a boat and a manoeuvre that does not differ from run to run."""
    import numpy as np

    from athwart.plant import lanes

    h, m = boat.hull, boat.hull.inertia
    hull = np.zeros(lanes.HULL_SIZE)
    hull[[lanes.SURGE, lanes.SWAY, lanes.TURNING, lanes.CROSS]] = m.surge, m.sway, m.turning, m.cross
    hull[lanes.MUNK] = MUNK_SHARE * (m.sway_added - m.surge_added)
    hull[[lanes.DAMP_U, lanes.DAMP_V, lanes.DAMP_R]] = h.surge_damping, h.sway_damping, h.yaw_damping
    hull[lanes.DRAG_U] = 0.5 * SURGE_DRAG * h.water_density * h.surge_area
    hull[lanes.HALF_RHO] = 0.5 * h.water_density
    node_x, node_c = gauss_points(h.flow)
    wind = tuple(_filled(row) for row in (boat.wind.longitudinal, boat.wind.side, boat.wind.yaw))
    losses = np.array(boat.bow.losses)
    bow = _unit(boat.bow, step)
    stern = _unit(boat.stern, step) if boat.stern is not None else _no_unit(boat.bow)
    return Packed(hull, node_x, node_c, (wind[0], wind[1], wind[2]), losses, bow, stern, _task(boat, task, step), step)


def _unit(unit: Pusher, step: float) -> Floats:
    import numpy as np

    from athwart.plant import lanes

    if not isinstance(unit.thrust, SteadyThrust):
        raise TypeError("many runs side by side want the steady model of a unit")
    row = np.zeros(lanes.UNIT_SIZE)
    row[lanes.PLACE], row[lanes.TO_STARBOARD], row[lanes.TO_PORT] = unit.place, unit.thrust.to_starboard, unit.thrust.to_port
    row[lanes.JET], row[lanes.KEEP] = unit.jet_speed, exp(-step / unit.lag) if unit.lag > 0.0 else 0.0
    row[lanes.REVERSAL], row[lanes.CONTROL], row[lanes.STEPS] = unit.reversal, CONTROLS.index(unit.control), unit.steps
    row[lanes.POD], row[lanes.AMPERES], row[lanes.RUN_TIME] = unit.pod, unit.current, min(unit.run_time, FAR)
    return row


def _no_unit(like: Pusher) -> Floats:
    import numpy as np

    from athwart.plant import lanes

    row = np.zeros(lanes.UNIT_SIZE)
    row[lanes.JET], row[lanes.STEPS], row[lanes.RUN_TIME] = like.jet_speed, 1.0, FAR
    return row


def _task(boat: Boat, task: Manoeuvre, step: float) -> Floats:
    import numpy as np

    from athwart.plant import lanes

    row = np.zeros(lanes.TASK_SIZE)
    values = {
        lanes.DURATION: task.duration, lanes.STEP: step, lanes.MODE: GOALS.index(task.goal), lanes.ENDS: task.steers_ends,
        lanes.LINE_PLACE: task.line_place, lanes.LINE_STIFFNESS: task.line_stiffness, lanes.LINE_DAMPING: task.line_damping,
        lanes.FENDER: task.fender, lanes.WAY: task.way, lanes.ENGINE_MOST: task.engine_most, lanes.ENGINE_GAIN: task.engine_gain,
        lanes.GOAL_HEADING: task.goal_heading, lanes.GOAL_OFFSET: task.goal_offset, lanes.GOAL_RATE: task.goal_rate,
        lanes.GOAL_SPEED: task.goal_speed, lanes.LIMIT_HEADING: task.limit_heading, lanes.LIMIT_OFFSET: task.limit_offset,
        lanes.GRACE: task.grace, lanes.BOW_END: task.bow_end, lanes.STERN_END: task.stern_end,
        lanes.CHARGE: boat.charge if isfinite(boat.charge) else 1e15, lanes.OUTSIDE: task.outside,
        lanes.CHARGE_AFT: 0.0 if boat.charge_aft is None else min(boat.charge_aft, 1e15),
    }  # fmt: skip
    for place, value in values.items():
        row[place] = value
    return row


@dataclass(frozen=True, slots=True)
class Run:
    """One run's own values."""

    wind: Wind
    driver: Driver
    given: Conditions


def rows(runs: Sequence[Run], task: Manoeuvre, step: float = STEP) -> tuple[Floats, Any]:
    """The rows of up to sixteen runs from plain objects, and the states of their chances; short blocks repeat the last run."""
    import numpy as np

    from athwart.plant import lanes

    table = np.zeros((lanes.RUN_SIZE, lanes.LANES))
    seeds = np.zeros(lanes.LANES, dtype=np.uint64)
    for i in range(lanes.LANES):
        one = runs[min(i, len(runs) - 1)]
        g, settled, d, on = one.wind.gusts, one.wind.gusts.settled, one.driver, one.given
        column = {
            lanes.WIND: g.mean, lanes.KEEP_0: g.keep[0], lanes.KEEP_1: g.keep[1], lanes.KEEP_2: g.keep[2],
            lanes.DRIVE_0: g.drive[0], lanes.DRIVE_1: g.drive[1], lanes.DRIVE_2: g.drive[2],
            lanes.BEGIN_0: one.wind.begins[0] * settled[0], lanes.BEGIN_1: one.wind.begins[1] * settled[1],
            lanes.BEGIN_2: one.wind.begins[2] * settled[2],
            lanes.WIND_X: cos(one.wind.comes_from), lanes.WIND_Y: sin(one.wind.comes_from),
            lanes.CURRENT_X: on.current_x, lanes.CURRENT_Y: on.current_y, lanes.DRAG: on.drag, lanes.WINDAGE: on.windage,
            lanes.LEVER: on.lever, lanes.BOW_FACTOR: on.bow, lanes.STERN_FACTOR: on.stern,
            lanes.DELAY: int(d.delay / step + 0.5), lanes.BAND: d.dead_band, lanes.LOOK: d.look_ahead, lanes.GAIN: d.gain,
            lanes.GAIN_RATE: d.gain_rate, lanes.DRIVER: float(d.kind == "proportional"),
            lanes.DRIVER_AFT: float((d.kind_aft or d.kind) == "proportional"),
            lanes.WRONG: int(d.wrong_side / step + 0.5), lanes.HEADING: task.heading, lanes.COS_0: cos(task.heading),
            lanes.SIN_0: sin(task.heading), lanes.AHEAD_0: task.speed, lanes.SIDE_0: task.sway + on.sway,
            lanes.OFFSET_0: task.offset,
            lanes.RUN_FACTOR: on.run_time, lanes.CHARGE_FACTOR: on.charge, lanes.SPEED: task.speed, lanes.RATE_0: task.yaw_rate,
        }  # fmt: skip
        for place, value in column.items():
            table[place, i] = value
        seeds[i] = one.wind.chances
    return table, seeds


def run_block(pack: Packed, table: Floats, seeds: Any, samples: int = 0, every: int = 10) -> tuple[Floats, Floats]:
    """Sixteen runs; their results and, where ``samples`` is more than nought, all their tracks."""
    import numpy as np

    from athwart.plant import lanes

    result = np.zeros((lanes.RESULT_SIZE, lanes.LANES))
    tracks = np.full((lanes.LANES, samples, lanes.TRACK_SIZE), np.nan)
    kept = np.full(lanes.LANES, int(samples > 0))
    lanes.block(
        table, seeds, pack.hull, pack.node_x, pack.node_c, *pack.wind, pack.losses, pack.bow, pack.stern, pack.task, result,
        tracks, every, kept,
    )  # fmt: skip
    return result, tracks
