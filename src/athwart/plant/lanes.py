"""Sixteen runs of a manoeuvre side by side, compiled: what a rehearsal of thousands calls.

The same physics as :mod:`athwart.plant.motion`, laid out so that a processor does several runs with one instruction: each
quantity is a row of sixteen. Only sums, products, quotients, roots and comparisons are used, and nothing is contracted, so a run
gives the same bits on every machine and beside any others. Importing this module imports the compiler; only a rehearsal of many
runs does. A test holds this text to the plain one.

Compiled code is kept beside this file (or in the user's cache folder). The compiler's store does not notice changes in other
files, so every constant that is compiled in stands here.
"""

from __future__ import annotations

from math import sqrt
from typing import Any

import numba
import numpy as np

Rows = Any
"""Arrays of floats; the compiler finds their types."""

LANES = 16
TOGETHER = 4
"""Places of cross flow, and terms of the wind, done in one sweep over the runs: their counts are multiples of it."""
HISTORY = 64
"""Steps that a driver may lag behind, at most, less one."""

# ---- places in ``hull``
SURGE, SWAY, TURNING, CROSS, MUNK, DAMP_U, DAMP_V, DAMP_R, DRAG_U, HALF_RHO = range(10)
HULL_SIZE = 10
# ---- places in ``bow`` and ``stern``
PLACE, TO_STARBOARD, TO_PORT, JET, KEEP, REVERSAL, CONTROL, STEPS, POD, AMPERES, RUN_TIME = range(11)
UNIT_SIZE = 11
ON_OFF, STEPPED, PROPORTIONAL = 0.0, 1.0, 2.0
# ---- places in ``task``
(DURATION, STEP, MODE, ENDS, LINE_PLACE, LINE_STIFFNESS, LINE_DAMPING, FENDER, WAY, ENGINE_MOST, ENGINE_GAIN, GOAL_HEADING,
 GOAL_OFFSET, GOAL_RATE, GOAL_SPEED, LIMIT_HEADING, LIMIT_OFFSET, GRACE, BOW_END, STERN_END, CHARGE,
 OUTSIDE, CHARGE_AFT) = range(23)  # fmt: skip
TASK_SIZE = 23
STAY, ARRIVE, TRAVEL = 0.0, 1.0, 2.0
# ---- rows of ``run``
(WIND, KEEP_0, KEEP_1, KEEP_2, DRIVE_0, DRIVE_1, DRIVE_2, BEGIN_0, BEGIN_1, BEGIN_2, WIND_X, WIND_Y, CURRENT_X, CURRENT_Y, DRAG,
 WINDAGE, LEVER, BOW_FACTOR, STERN_FACTOR, DELAY, BAND, LOOK, GAIN, GAIN_RATE, DRIVER, WRONG, HEADING, COS_0, SIN_0, AHEAD_0,
 SIDE_0, OFFSET_0, RUN_FACTOR, CHARGE_FACTOR, SPEED, RATE_0, DRIVER_AFT) = range(37)  # fmt: skip
RUN_SIZE = 37
BANG_BANG, PROPORTIONAL_DRIVER = 0.0, 1.0
# ---- rows of ``result``
(SUCCESS, CAUSE, ENDED, BOW_ON, STERN_ON, BOW_CHARGE, WORST_OFFSET, WORST_HEADING, END_HEADING, END_OFFSET, FULL,
 STERN_CHARGE) = range(12)  # fmt: skip
RESULT_SIZE = 12
NO_CAUSE, CAUSE_THRUST, CAUSE_HEAT, CAUSE_VOLTS, CAUSE_ROOM, CAUSE_CONTROL = 0.0, 1.0, 2.0, 3.0, 4.0, 5.0
# ---- columns of a track
TRACK_SIZE = 8  # time, x, y, heading, bow thrust, stern thrust, wind, sway speed
# ---- rows of the state inside
(U, V, R, TH, C, N, X, Y, G0, G1, G2, BT, ST, BW, SW, BL, SL, BI, SI, ALIVE, HELD, PRESSED, FIRST, GUST, FELT, WC, WS, FX, FY, FN,
 PU, PV, PR, C0, C1, SUM_Y, SUM_N, K1U, K1V, K1R, AHEAD, SIDE, YAW, S0, S1, WX, WY, WN, BOW_LOSS, STERN_LOSS, BE, BR, SE,
 SR, CM, NM, XM, YM, UM, HELD_X, HELD_Y, HELD_N, AU, AV, PRESSED_AFT, BUSY, BOW_LEARNT, STERN_LEARNT,
 BOW_SENSE, STERN_SENSE) = range(70)  # fmt: skip
STATE_SIZE = 70
TOP_21 = 2_097_152.0
ROOT_12 = 3.4641016151377544
FENDER_DAMPING = 0.5
AFT_BAND = 3.0
WATCHED = 0.5
PRESSED_TIME = 3.0
MOSTLY_PRESSED = 0.6
HOLD = 1.0
SIDE_LOSS = 0.7
POD_LOSS = 0.5
RELEASE = 0.4
FULL_LEVER = 0.95
LEARN = 15.0


@numba.njit(inline="always")
def _cross(s: Rows, at_v: int, at_r: int, node_x: Rows, node_c: Rows) -> None:
    """Cross-flow sums of the weighted square of the speed across the hull, its sign kept, into ``SUM_Y`` and ``SUM_N``."""
    for i in range(LANES):
        s[SUM_Y, i] = 0.0
        s[SUM_N, i] = 0.0
    for j in range(0, node_x.shape[0], TOGETHER):
        x0, x1, x2, x3 = node_x[j], node_x[j + 1], node_x[j + 2], node_x[j + 3]
        c0, c1, c2, c3 = node_c[j], node_c[j + 1], node_c[j + 2], node_c[j + 3]
        d0, d1, d2, d3 = c0 * x0, c1 * x1, c2 * x2, c3 * x3
        for i in range(LANES):
            v, r = s[at_v, i], s[at_r, i]
            w0, w1, w2, w3 = v + x0 * r, v + x1 * r, v + x2 * r, v + x3 * r
            w0, w1, w2, w3 = w0 * abs(w0), w1 * abs(w1), w2 * abs(w2), w3 * abs(w3)
            s[SUM_Y, i] += (c0 * w0 + c1 * w1) + (c2 * w2 + c3 * w3)
            s[SUM_N, i] += (d0 * w0 + d1 * w1) + (d2 * w2 + d3 * w3)


@numba.njit(inline="always")
def _accelerate(s: Rows, run: Rows, at_u: int, at_v: int, at_r: int, hull: Rows, to_u: int, to_v: int, to_r: int) -> None:
    """Accelerations from the sums and the loads, into three rows."""
    whole = hull[SWAY] * hull[TURNING] - hull[CROSS] * hull[CROSS]
    m, my, mn, mc = hull[SURGE], hull[TURNING] / whole, hull[SWAY] / whole, hull[CROSS] / whole
    sway, cross, munk, half = hull[SWAY], hull[CROSS], hull[MUNK], hull[HALF_RHO]
    du, dv, dr, drag = hull[DAMP_U], hull[DAMP_V], hull[DAMP_R], hull[DRAG_U]
    for i in range(LANES):
        u, v, r, f = s[at_u, i], s[at_v, i], s[at_r, i], run[DRAG, i]
        a = s[AHEAD, i] - f * drag * u * abs(u) - du * u + sway * v * r + cross * r * r
        y = s[SIDE, i] - f * half * s[SUM_Y, i] - dv * v - m * u * r
        n = s[YAW, i] - f * half * s[SUM_N, i] - dr * r - munk * u * v - cross * u * r
        s[to_u, i] = a / m
        s[to_v, i] = my * y - mc * n
        s[to_r, i] = mn * n - mc * y


@numba.njit(inline="always")
def _loss(s: Rows, row: int, unit: Rows, losses: Rows) -> None:
    """Share of the yaw moment that a unit keeps under way, by straight lines in a table in hundredths of the jet speed."""
    last = losses.shape[0] - 1
    for i in range(LANES):
        at = abs(s[UM, i]) / unit[JET] * 100.0
        low = min(int(at), last - 1)
        share = min(at - low, 1.0)
        left = losses[low] + share * (losses[low + 1] - losses[low])
        s[row, i] = 1.0 - POD_LOSS * (1.0 - left) if unit[POD] > 0.0 else left


@numba.njit(inline="always")
def _decide(
    s: Rows, run: Rows, error: int, rate: int, intent: int, learnt: int, unit: Rows, kind: int, wider: float, step: float
) -> None:  # fmt: skip
    """What the driver wants of a unit now, into the row ``intent``; it holds the former wish before the call.

    A unit with a band wider than one is a spare one: it helps while the goal is far, and never brakes."""
    steps, control, spare = unit[STEPS], unit[CONTROL], wider > 1.0
    for i in range(LANES):
        e, d, before, band = s[error, i], s[rate, i], s[intent, i], run[BAND, i] * wider
        ahead = e + run[LOOK, i] * d
        low = RELEASE * band
        minus = 1.0 if ahead > (low if before < 0.0 else band) else 0.0
        plus = 1.0 if ahead < -(low if before > 0.0 else band) else 0.0
        bang = plus - minus
        held, pull = s[learnt, i], run[GAIN, i] * e
        even = -(pull + run[GAIN_RATE, i] * d + held)
        is_bang = run[kind, i] == BANG_BANG
        wish = bang if is_bang else even
        wish = 0.0 if spare and (abs(e) <= band or wish * e >= 0.0) else wish
        more = min(1.0, max(-1.0, held + pull * (step / LEARN)))
        s[learnt, i] = held if spare or is_bang or abs(pull) >= 1.0 else more
        wish = min(1.0, max(-1.0, wish))
        size = abs(wish)
        side = 1.0 if wish >= 0.0 else -1.0
        stepped = side * np.floor(size * steps + 0.5) / steps
        whole = 0.0 if size < 0.5 else side
        s[intent, i] = whole if control == ON_OFF else stepped if control == STEPPED else wish


@numba.njit(inline="always")
def _follow(s: Rows, row: int, waits: int, sense: int, lever: int, run: Rows, factor: int, unit: Rows, step: float) -> None:
    """Thrust of a unit a step on: it waits before it pushes the other way, and follows with its lag."""
    keep, starboard, port, reversal = unit[KEEP], unit[TO_STARBOARD], unit[TO_PORT], unit[REVERSAL]
    for i in range(LANES):
        t, w, c = s[row, i], s[waits, i], s[lever, i]
        target = run[factor, i] * c * (starboard if c >= 0.0 else port)
        w = reversal if target * s[sense, i] < 0.0 and abs(t) > 1.0 else w
        s[sense, i] = 1.0 if target > 0.0 else -1.0 if target < 0.0 else s[sense, i]
        target = 0.0 if w > 0.0 else target
        s[waits, i] = w - step if w > 0.0 else w
        s[row, i] = target + (t - target) * keep


@numba.njit(inline="always")
def _moor(
    s: Rows, run: Rows, task: Rows, line_x: Rows, line_y: Rows, at_x: int, at_y: int, at_c: int, at_n: int, at_u: int, at_v: int,
    at_r: int,
) -> None:  # fmt: skip
    """Loads of lines and fenders where the boat is, added to those held over the step."""
    bow_end, stern_end = task[BOW_END], task[STERN_END]
    for i in range(LANES):
        s[AHEAD, i], s[SIDE, i], s[YAW, i] = s[HELD_X, i], s[HELD_Y, i], s[HELD_N, i]
    if task[LINE_STIFFNESS] > 0.0:
        for i in range(LANES):
            c, n = s[at_c, i], s[at_n, i]
            fx = -task[LINE_STIFFNESS] * (s[at_x, i] + task[LINE_PLACE] * c - line_x[i])
            fy = -task[LINE_STIFFNESS] * (s[at_y, i] + task[LINE_PLACE] * n - line_y[i])
            gx = s[at_u, i] * c - s[at_v, i] * n + run[CURRENT_X, i] - task[LINE_PLACE] * s[at_r, i] * n
            gy = s[at_u, i] * n + s[at_v, i] * c + run[CURRENT_Y, i] + task[LINE_PLACE] * s[at_r, i] * c
            fx -= task[LINE_DAMPING] * gx
            fy -= task[LINE_DAMPING] * gy
            side = fy * c - fx * n
            s[AHEAD, i] += fx * c + fy * n
            s[SIDE, i] += side
            s[YAW, i] += task[LINE_PLACE] * side
    if task[FENDER] > 0.0:
        for i in range(LANES):
            c, n, c0, n0 = s[at_c, i], s[at_n, i], run[COS_0, i], run[SIN_0, i]
            gx = s[at_u, i] * c - s[at_v, i] * n + run[CURRENT_X, i]
            gy = s[at_u, i] * n + s[at_v, i] * c + run[CURRENT_Y, i]
            along, across = c0 * n - n0 * c, n0 * n + c0 * c  # the quay's normal, ahead and to starboard
            middle = c0 * (s[at_y, i] - run[OFFSET_0, i]) - n0 * s[at_x, i]
            speed = c0 * gy - n0 * gx
            eb, es = middle + bow_end * along, middle + stern_end * along
            vb, vs = speed + bow_end * s[at_r, i] * across, speed + stern_end * s[at_r, i] * across
            fb = -task[FENDER] * (eb + FENDER_DAMPING * vb) if eb > 0.0 else 0.0
            fs = -task[FENDER] * (es + FENDER_DAMPING * vs) if es > 0.0 else 0.0
            fb, fs = min(fb, 0.0), min(fs, 0.0)
            s[AHEAD, i] += (fb + fs) * along
            s[SIDE, i] += (fb + fs) * across
            s[YAW, i] += (fb * bow_end + fs * stern_end) * across


@numba.njit(cache=True, nogil=True, error_model="numpy")
def block(
    run: Rows, seeds: Rows, hull: Rows, node_x: Rows, node_c: Rows, wind_x: Rows, wind_y: Rows, wind_n: Rows, losses: Rows,
    bow: Rows, stern: Rows, task: Rows, result: Rows, tracks: Rows, every: int, kept: Rows,
) -> None:  # fmt: skip
    """Sixteen runs from start to end.

    ``run`` (RUN_SIZE, 16), ``seeds`` (16,) whole numbers that are not nought, ``result`` (RESULT_SIZE, 16) is written, ``tracks``
    (16, samples, TRACK_SIZE) gets one sample each ``every`` steps where ``kept`` is 1; the rest of a track keeps its last sample.
    """
    s = np.zeros((STATE_SIZE, LANES))
    history = np.zeros((2, HISTORY, LANES))
    z = seeds.copy()
    dt = task[STEP]
    count = int(task[DURATION] / dt + 0.5)
    mode, ends = task[MODE], task[ENDS] > 0.0
    has_stern = stern[TO_STARBOARD] > 0.0
    whole_hull = ends
    watched = WATCHED if ends else 1.0
    apart = task[CHARGE_AFT] > 0.0
    moored = task[LINE_STIFFNESS] > 0.0 or task[FENDER] > 0.0
    bow_end, stern_end = task[BOW_END], task[STERN_END]
    terms = wind_x.shape[0]
    for i in range(LANES):
        s[U, i] = run[AHEAD_0, i]
        s[V, i] = run[SIDE_0, i]
        s[R, i] = run[RATE_0, i]
        s[TH, i] = run[HEADING, i]
        s[C, i] = run[COS_0, i]
        s[N, i] = run[SIN_0, i]
        s[Y, i] = run[OFFSET_0, i]
        s[G0, i] = run[BEGIN_0, i]
        s[G1, i] = run[BEGIN_1, i]
        s[G2, i] = run[BEGIN_2, i]
        s[ALIVE, i] = 1.0
        s[FIRST, i] = -1.0
        for k in range(RESULT_SIZE):
            result[k, i] = 0.0
        result[SUCCESS, i] = 0.0 if mode == ARRIVE else 1.0
        result[ENDED, i] = task[DURATION]
    line_x = np.empty(LANES)
    line_y = np.empty(LANES)
    for i in range(LANES):
        line_x[i] = s[X, i] + task[LINE_PLACE] * s[C, i]
        line_y[i] = s[Y, i] + task[LINE_PLACE] * s[N, i]
    sample = 0
    for k in range(count):
        time = k * dt
        judged = time >= task[GRACE]
        # ---- what there is to see
        for i in range(LANES):
            c, n, r, y = s[C, i], s[N, i], s[R, i], s[Y, i]
            side = s[U, i] * n + s[V, i] * c + run[CURRENT_Y, i]
            base = y if ends else 0.0
            base_rate = side if ends else 0.0
            sb = n if ends else s[TH, i]
            cb = c if ends else 1.0
            s[BE, i] = base + watched * bow[PLACE] * sb
            s[BR, i] = base_rate + watched * bow[PLACE] * r * cb
            s[SE, i] = base + watched * stern[PLACE] * sb
            s[SR, i] = base_rate + watched * stern[PLACE] * r * cb
            # ---- judged
            at_bow, at_stern = abs(y + bow_end * n), abs(y + stern_end * n)
            offset = max(at_bow, at_stern) if whole_hull else 0.0
            speed = max(abs(side + bow_end * r * c), abs(side + stern_end * r * c)) if whole_hull else 0.0
            turned = abs(s[TH, i])
            alive = s[ALIVE, i]
            inside = judged and s[X, i] >= task[OUTSIDE]
            result[WORST_OFFSET, i] = max(result[WORST_OFFSET, i], offset) if alive > 0.0 and inside else result[WORST_OFFSET, i]
            result[WORST_HEADING, i] = (
                max(result[WORST_HEADING, i], turned) if alive > 0.0 and inside else result[WORST_HEADING, i]
            )
            lost = 1.0 if inside and (turned > task[LIMIT_HEADING] or offset > task[LIMIT_OFFSET]) else 0.0
            good = (
                turned <= task[GOAL_HEADING]
                and abs(r) <= task[GOAL_RATE]
                and offset <= task[GOAL_OFFSET]
                and speed <= task[GOAL_SPEED]
            )
            held = s[HELD, i] + dt if good else 0.0
            s[HELD, i] = held
            arrived = 1.0 if mode == ARRIVE and held >= HOLD else 0.0
            through = 1.0 if mode == TRAVEL and s[X, i] >= task[WAY] else 0.0
            warm = run[RUN_FACTOR, i]
            hot = 1.0 if result[BOW_ON, i] > bow[RUN_TIME] * warm or result[STERN_ON, i] > stern[RUN_TIME] * warm else 0.0
            much = run[CHARGE_FACTOR, i]
            empty = 1.0 if result[BOW_CHARGE, i] > task[CHARGE] * much else 0.0
            empty = 1.0 if apart and result[STERN_CHARGE, i] > task[CHARGE_AFT] * much else empty
            failed = max(hot, max(empty, lost))
            why = CAUSE_CONTROL if s[BUSY, i] > MOSTLY_PRESSED else CAUSE_ROOM
            why = CAUSE_THRUST if max(abs(s[PRESSED, i]), abs(s[PRESSED_AFT, i])) > MOSTLY_PRESSED else why
            why = CAUSE_VOLTS if empty > 0.0 else why
            why = CAUSE_HEAT if hot > 0.0 else why
            done = max(failed * (1.0 - arrived), max(arrived, through))
            now = done > 0.0 and alive > 0.0
            success = 1.0 if arrived > 0.0 or (through > 0.0 and failed == 0.0) else 0.0
            result[SUCCESS, i] = success if now else result[SUCCESS, i]
            result[CAUSE, i] = (why if success == 0.0 else 0.0) if now else result[CAUSE, i]
            result[ENDED, i] = time if now else result[ENDED, i]
            result[END_HEADING, i] = s[TH, i] if alive > 0.0 else result[END_HEADING, i]
            result[END_OFFSET, i] = offset if alive > 0.0 else result[END_OFFSET, i]
            s[ALIVE, i] = 0.0 if now else alive
        living = 0.0
        for i in range(LANES):
            living += s[ALIVE, i]
        if living == 0.0:
            break
        # ---- the driver decides, and the lever follows after the delay
        _decide(s, run, BE, BR, BI, BOW_LEARNT, bow, DRIVER, 1.0, dt)
        if has_stern:
            _decide(s, run, SE, SR, SI, STERN_LEARNT, stern, DRIVER_AFT, 1.0 if ends else AFT_BAND, dt)
        now_at = k % HISTORY
        for i in range(LANES):
            history[0, now_at, i] = s[BI, i]
            history[1, now_at, i] = s[SI, i]
        for i in range(LANES):
            then = k - int(run[DELAY, i])
            lever = history[0, then % HISTORY, i] if then >= 0 else 0.0
            first = s[FIRST, i]
            first = float(k) if first < 0.0 and lever != 0.0 else first
            s[FIRST, i] = first
            s[BL, i] = -lever if first >= 0.0 and k - first < run[WRONG, i] else lever
            s[SL, i] = history[1, then % HISTORY, i] if then >= 0 else 0.0
        _follow(s, BT, BW, BOW_SENSE, BL, run, BOW_FACTOR, bow, dt)
        if has_stern:
            _follow(s, ST, SW, STERN_SENSE, SL, run, STERN_FACTOR, stern, dt)
        for i in range(LANES):
            alive = s[ALIVE, i]
            b, t = abs(s[BL, i]), abs(s[SL, i])
            result[BOW_ON, i] += alive * dt * b
            result[STERN_ON, i] += alive * dt * t
            aft = stern[AMPERES] * t * sqrt(t)
            result[BOW_CHARGE, i] += alive * dt * (bow[AMPERES] * b * sqrt(b) + (0.0 if apart else aft))
            result[STERN_CHARGE, i] += alive * dt * aft
            full = 1.0 if max(b, t) > FULL_LEVER else 0.0
            result[FULL, i] += alive * dt * full
            s[BUSY, i] += (full - s[BUSY, i]) * (dt / PRESSED_TIME)
            s[PRESSED, i] += ((s[BL, i] if b > FULL_LEVER else 0.0) - s[PRESSED, i]) * (dt / PRESSED_TIME)
            s[PRESSED_AFT, i] += ((s[SL, i] if t > FULL_LEVER else 0.0) - s[PRESSED_AFT, i]) * (dt / PRESSED_TIME)
        # ---- the gust of this step
        for i in range(LANES):
            a = z[i]
            a ^= a << np.uint64(13)
            a ^= a >> np.uint64(7)
            a ^= a << np.uint64(17)
            z[i] = a
        for i in range(LANES):
            a = z[i]
            d0 = (float(np.int32(a & np.uint64(0x1FFFFF))) / TOP_21 - 0.5) * ROOT_12
            d1 = (float(np.int32((a >> np.uint64(21)) & np.uint64(0x1FFFFF))) / TOP_21 - 0.5) * ROOT_12
            d2 = (float(np.int32((a >> np.uint64(42)) & np.uint64(0x1FFFFF))) / TOP_21 - 0.5) * ROOT_12
            g0 = run[KEEP_0, i] * s[G0, i] + run[DRIVE_0, i] * d0
            g1 = run[KEEP_1, i] * s[G1, i] + run[DRIVE_1, i] * d1
            g2 = run[KEEP_2, i] * s[G2, i] + run[DRIVE_2, i] * d2
            s[G0, i], s[G1, i], s[G2, i] = g0, g1, g2
            s[GUST, i] = max(0.0, run[WIND, i] + g0 + g1 + g2)
        # ---- the wind felt aboard, in the middle of the step
        for i in range(LANES):
            half = 0.5 * dt
            c, n = s[C, i], s[N, i]
            u, v, r = s[U, i], s[V, i], s[R, i]
            turn = half * r
            square = 0.5 * turn * turn
            c, n = c - turn * n - square * c, n + turn * c - square * n
            u, v = u + half * s[AU, i], v + half * s[AV, i]
            s[UM, i] = u
            blow = s[GUST, i]
            fx = blow * run[WIND_X, i] + run[CURRENT_X, i]
            fy = blow * run[WIND_Y, i] + run[CURRENT_Y, i]
            bx = fx * c + fy * n + u
            by = fy * c - fx * n + v
            felt = sqrt(bx * bx + by * by) + 1e-9
            s[FELT, i] = felt * felt * run[WINDAGE, i]
            s[WC, i], s[WS, i] = bx / felt, by / felt
            s[C0, i], s[C1, i] = 1.0, bx / felt
            s[S0, i], s[S1, i] = 0.0, by / felt
            s[WX, i] = wind_x[0] + wind_x[1] * (bx / felt)
            s[WY, i] = wind_y[1] * (by / felt)
            s[WN, i] = wind_n[1] * (by / felt)
        for j in range(2, terms, TOGETHER):
            ax0, ax1, ax2, ax3 = wind_x[j], wind_x[j + 1], wind_x[j + 2], wind_x[j + 3]
            ay0, ay1, ay2, ay3 = wind_y[j], wind_y[j + 1], wind_y[j + 2], wind_y[j + 3]
            an0, an1, an2, an3 = wind_n[j], wind_n[j + 1], wind_n[j + 2], wind_n[j + 3]
            for i in range(LANES):
                twice = 2.0 * s[WC, i]
                c0, c1, s0, s1 = s[C0, i], s[C1, i], s[S0, i], s[S1, i]
                c2, s2 = twice * c1 - c0, twice * s1 - s0
                c3, s3 = twice * c2 - c1, twice * s2 - s1
                c4, s4 = twice * c3 - c2, twice * s3 - s2
                c5, s5 = twice * c4 - c3, twice * s4 - s3
                s[C0, i], s[C1, i], s[S0, i], s[S1, i] = c4, c5, s4, s5
                s[WX, i] += (ax0 * c2 + ax1 * c3) + (ax2 * c4 + ax3 * c5)
                s[WY, i] += (ay0 * s2 + ay1 * s3) + (ay2 * s4 + ay3 * s5)
                s[WN, i] += (an0 * s2 + an1 * s3) + (an2 * s4 + an3 * s5)
        _loss(s, BOW_LOSS, bow, losses)
        if has_stern:
            _loss(s, STERN_LOSS, stern, losses)
        for i in range(LANES):
            q = s[FELT, i]
            bl, sl = s[BOW_LOSS, i], s[STERN_LOSS, i]
            b, t = s[BT, i], s[ST, i]
            s[AHEAD, i] = q * s[WX, i]
            s[SIDE, i] = q * s[WY, i] + b * (1.0 - SIDE_LOSS * (1.0 - bl)) + t * (1.0 - SIDE_LOSS * (1.0 - sl))
            s[YAW, i] = q * (s[WN, i] + run[LEVER, i] * s[WY, i]) + b * bow[PLACE] * bl + t * stern[PLACE] * sl
        if task[ENGINE_MOST] > 0.0:
            for i in range(LANES):
                push = task[ENGINE_GAIN] * (run[SPEED, i] - s[UM, i])
                s[AHEAD, i] += min(task[ENGINE_MOST], max(-task[ENGINE_MOST], push))
        # ---- tracks
        if k % every == 0:
            for i in range(LANES):
                if kept[i] > 0 and sample < tracks.shape[1] and s[ALIVE, i] > 0.0:
                    tracks[i, sample, 0] = time
                    tracks[i, sample, 1] = s[X, i]
                    tracks[i, sample, 2] = s[Y, i]
                    tracks[i, sample, 3] = s[TH, i]
                    tracks[i, sample, 4] = s[BT, i]
                    tracks[i, sample, 5] = s[ST, i]
                    tracks[i, sample, 6] = s[GUST, i]
                    tracks[i, sample, 7] = s[V, i]
            sample += 1
        # ---- Heun
        if moored:
            for i in range(LANES):
                s[HELD_X, i], s[HELD_Y, i], s[HELD_N, i] = s[AHEAD, i], s[SIDE, i], s[YAW, i]
            _moor(s, run, task, line_x, line_y, X, Y, C, N, U, V, R)
        _cross(s, V, R, node_x, node_c)
        _accelerate(s, run, U, V, R, hull, K1U, K1V, K1R)
        for i in range(LANES):
            s[PU, i] = s[U, i] + dt * s[K1U, i]
            s[PV, i] = s[V, i] + dt * s[K1V, i]
            s[PR, i] = s[R, i] + dt * s[K1R, i]
        if moored:
            for i in range(LANES):
                c, n, u, v = s[C, i], s[N, i], s[U, i], s[V, i]
                s[XM, i] = s[X, i] + dt * (u * c - v * n + run[CURRENT_X, i])
                s[YM, i] = s[Y, i] + dt * (u * n + v * c + run[CURRENT_Y, i])
                h = dt * s[R, i]
                h2 = h * h
                sh, ch = h * (1.0 - h2 / 6.0), 1.0 - h2 / 2.0 * (1.0 - h2 / 12.0)
                s[CM, i], s[NM, i] = c * ch - n * sh, n * ch + c * sh
            _moor(s, run, task, line_x, line_y, XM, YM, CM, NM, PU, PV, PR)
        _cross(s, PV, PR, node_x, node_c)
        _accelerate(s, run, PU, PV, PR, hull, FX, FY, FN)
        for i in range(LANES):
            u, v, r = s[U, i], s[V, i], s[R, i]
            au, av, ar = 0.5 * (s[K1U, i] + s[FX, i]), 0.5 * (s[K1V, i] + s[FY, i]), 0.5 * (s[K1R, i] + s[FN, i])
            s[AU, i], s[AV, i] = au, av
            un, vn, rn = u + dt * au, v + dt * av, r + dt * ar
            turn = 0.5 * dt * (r + rn)
            # the heading turns by half the step and again: sine and cosine of a small angle, kept to length one
            h = 0.5 * turn
            h2 = h * h
            sh = h * (1.0 - h2 / 6.0 * (1.0 - h2 / 20.0))
            ch = 1.0 - h2 / 2.0 * (1.0 - h2 / 12.0 * (1.0 - h2 / 30.0))
            c, n = s[C, i], s[N, i]
            cm, nm = c * ch - n * sh, n * ch + c * sh
            um, vm = 0.5 * (u + un), 0.5 * (v + vn)
            s[X, i] += dt * (um * cm - vm * nm + run[CURRENT_X, i])
            s[Y, i] += dt * (um * nm + vm * cm + run[CURRENT_Y, i])
            ce, ne = cm * ch - nm * sh, nm * ch + cm * sh
            fix = 1.5 - 0.5 * (ce * ce + ne * ne)
            s[C, i], s[N, i] = ce * fix, ne * fix
            s[TH, i] += turn
            s[U, i], s[V, i], s[R, i] = un, vn, rn
    for i in range(LANES):
        if s[ALIVE, i] > 0.0:
            if mode == ARRIVE:
                why = CAUSE_CONTROL if s[BUSY, i] > MOSTLY_PRESSED else CAUSE_ROOM
                one_way = max(abs(s[PRESSED, i]), abs(s[PRESSED_AFT, i])) > MOSTLY_PRESSED
                result[CAUSE, i] = CAUSE_THRUST if one_way else why
            if mode == TRAVEL:
                result[SUCCESS, i] = 0.0
                result[CAUSE, i] = CAUSE_ROOM
        result[FULL, i] = result[FULL, i] / max(result[ENDED, i], dt)
