"""Single runs against a general integrator, segment by segment; a rehearsal against a case with an answer in closed form; gusts.

SciPy integrates each step with the driver's command, the thrust and the gust held, as the simulation holds them, and everything
else (wind felt, lines, water) as it changes within the step.
"""

from __future__ import annotations

from dataclasses import replace
from math import cos, exp, log, pi, sin, sqrt
from typing import Any

import numpy as np
import pytest
import scipy.integrate
import scipy.signal

from athwart.numerics.chances import shifted, three_deviates
from athwart.plant import lanes, many
from athwart.plant.motion import WATCHED, Boat, Conditions, Driver, Manoeuvre, Motion, Pusher, SteadyThrust, Water, Wind, simulate
from athwart.vessel.harmonics import WindHarmonics
from athwart.vessel.spectra import GustFilter, gust_filter, kaimal, kaimal_length
from athwart.vessel.uncertainty import hold_probability
from tests.unit.plant._boats import LOSSES, boat, bow, gusty, stern

STEP = 0.1
integrate: Any = scipy.integrate  # without types
signal: Any = scipy.signal


def reference(b: Boat, task: Manoeuvre, wind: Wind, driver: Driver, duration: float) -> np.ndarray:
    """x, y, heading, surge, sway, yaw rate at every step, by an adaptive method of order 5 at 1e-9 within each step."""
    water = Water(b.hull)
    units = [b.bow] + ([b.stern] if b.stern is not None else [])
    thrusts, waits = [0.0] * len(units), [0.0] * len(units)
    wishes: list[list[float]] = [[] for _ in units]
    learnt, sense = [0.0] * len(units), [0.0] * len(units)
    state = np.array([0.0, task.offset, task.heading, task.speed, task.sway, task.yaw_rate])
    settled, g, chances = wind.gusts.settled, (0.0, 0.0, 0.0), wind.chances
    g = tuple(a * s for a, s in zip(wind.begins, settled, strict=True))  # type: ignore[assignment]
    tied = state[0] + task.line_place * cos(state[2]), state[1] + task.line_place * sin(state[2])
    found = [state.copy()]
    delay = int(driver.delay / STEP + 0.5)
    for k in range(round(duration / STEP)):
        _, y, heading, u, v, r = state
        side = u * sin(heading) + v * cos(heading)
        for j, unit in enumerate(units):
            error, rate = unit.place * heading, unit.place * r
            if task.steers_ends:
                place = WATCHED * unit.place
                error, rate = y + place * sin(heading), side + place * r * cos(heading)
            before = wishes[j][-1] if wishes[j] else 0.0
            spare = j > 0 and not task.steers_ends
            wishes[j].append(unit.commanded(driver.wish(error, rate, before, spare=spare, learnt=learnt[j])))
            learnt[j] = driver.learns(learnt[j], error, STEP, aft=False, spare=spare)
            lever = wishes[j][k - delay] if k >= delay else 0.0
            target = unit.thrust.available_thrust(Motion(*state), lever, k * STEP)
            if target * sense[j] < 0.0 and abs(thrusts[j]) > 1.0:
                waits[j] = unit.reversal
            if target != 0.0:
                sense[j] = 1.0 if target > 0.0 else -1.0
            if waits[j] > 0.0:
                target, waits[j] = 0.0, waits[j] - STEP
            keep = exp(-STEP / unit.lag) if unit.lag > 0.0 else 0.0
            thrusts[j] = target + (thrusts[j] - target) * keep
        chances = shifted(chances)
        g = wind.gusts.step(g, three_deviates(chances))
        blow = max(0.0, wind.gusts.mean + sum(g))

        def rhs(t: float, s: np.ndarray, blow: float = blow, pushed: tuple[float, ...] = tuple(thrusts)) -> list[float]:
            x, y, heading, u, v, r = s
            a = wind.comes_from - heading
            ahead, push, yaw = b.wind.loads_of(blow * cos(a) + u, blow * sin(a) + v)
            for unit, thrust in zip(units, pushed, strict=True):
                left = unit.moment_left(u)
                push += thrust * (1.0 - 0.7 * (1.0 - left))
                yaw += thrust * unit.place * left
            if task.line_stiffness > 0.0:
                c, n, p = cos(heading), sin(heading), task.line_place
                fx = -task.line_stiffness * (x + p * c - tied[0]) - task.line_damping * (u * c - v * n - p * r * n)
                fy = -task.line_stiffness * (y + p * n - tied[1]) - task.line_damping * (u * n + v * c + p * r * c)
                ahead, push, yaw = ahead + fx * c + fy * n, push + fy * c - fx * n, yaw + p * (fy * c - fx * n)
            du, dv, dr = water.accelerations((u, v, r), ahead, push, yaw)
            return [u * cos(heading) - v * sin(heading), u * sin(heading) + v * cos(heading), r, du, dv, dr]

        state = integrate.solve_ivp(rhs, (0.0, STEP), state, method="RK45", rtol=1e-9, atol=1e-10).y[:, -1]
        found.append(state.copy())
    return np.array(found)


HAND = Driver("bang-bang", delay=0.5, look_ahead=3.0)
LEVER = Driver("proportional", delay=0.3, gain=1.0, gain_rate=2.0)
CASES = {
    "free, even lever": (boat(first=bow(control="proportional")), Manoeuvre("a", "stay", 60.0), LEVER),
    "turning, even lever": (boat(first=bow(control="proportional")), Manoeuvre("b", "stay", 40.0, heading=-1.4), LEVER),
    "both units on station": (
        # without a pause at reversing: it may begin a step sooner in the one than in the other, which is no error of the motion
        boat(
            first=replace(bow(control="proportional"), reversal=0.0), second=replace(stern(control="proportional"), reversal=0.0)
        ),
        Manoeuvre("c", "stay", 60.0, steers_ends=True, bow_end=6.4, stern_end=-6.4, offset=1.0),
        LEVER,
    ),
    "stern made fast, hand": (
        boat(), Manoeuvre("d", "stay", 20.0, line_place=-6.4, line_stiffness=17e3, line_damping=16e3), HAND,
    ),
    "a push to one side, hand": (boat(), Manoeuvre("e", "stay", 6.0, heading=1.5), HAND),
}  # fmt: skip


@pytest.mark.parametrize("name", sorted(CASES))
def test_within_a_thousandth_of_the_integrator(name: str) -> None:
    b, task, driver = CASES[name]
    wind = gusty(6.0, 1.1)
    track = simulate(b, task, wind, driver, every=1).track
    mine = np.array([[*s.motion] for s in track])
    theirs = reference(b, task, wind, driver, task.duration)[: len(mine)]
    ends = np.array([1.0, 1.0, 6.4, 1.0, 1.0, 6.4])  # angles and rates as what they move an end by
    error, excursion = np.abs(mine - theirs).max(axis=0) * ends, np.ptp(theirs, axis=0) * ends
    own = np.maximum(excursion, 0.2)  # metres, or metres a second of an end, where a quantity hardly moves
    assert (error / own).max() <= 1e-3


def test_half_the_step_is_four_times_as_near() -> None:
    b, task, driver = CASES["turning, even lever"]
    smooth = replace(task, duration=20.0)
    calm = Wind(GustFilter(6.0, (0.5, 0.5, 0.5), (0.0, 0.0, 0.0)), 1.1)
    hold = replace(driver, delay=0.0, gain=0.0, gain_rate=0.0)
    ends = [simulate(b, smooth, calm, hold, every=1, step=h).track for h in (0.2, 0.1, 0.05, 0.0125)]
    last = [next(s.motion for s in track if abs(s.time - 19.0) < 1e-6).heading for track in ends]
    errors = [abs(value - last[-1]) for value in last[:3]]
    assert errors[0] / errors[1] == pytest.approx(4.0, rel=0.35)
    assert errors[1] / errors[2] == pytest.approx(4.0, rel=0.35)


# ---- a share of successes that is known


def test_successes_of_many_runs_against_the_closed_form() -> None:
    """Stern tied, wind without gusts, its speed and the thrust log-normal: she holds where thrust covers need, and only there."""
    side = WindHarmonics((0.0, 0.0), (0.0, -12.0), (0.0, 0.0), 0.0)
    place, pivot, thrust, mean = 5.2, -6.4, 480.0, 8.0
    need = 12.0 * mean**2 * (0.0 - pivot) / (place - pivot)
    unit = Pusher(place, SteadyThrust(thrust, thrust), 6.0, 0.0, 0.0, "proportional", losses=LOSSES)
    b = boat(side, first=unit)
    task = Manoeuvre(
        "hold", "stay", 180.0, line_place=pivot, line_stiffness=40e3, line_damping=20e3, limit_heading=0.06, grace=0.0
    )
    driver = Driver("proportional", delay=0.0, gain=20.0, gain_rate=20.0)
    rng = np.random.default_rng(3)
    sigma_thrust, sigma_wind, runs = 0.12, 0.08, 4000
    won = 0
    for _ in range(runs // 16):
        winds = mean * np.exp(sigma_wind * rng.standard_normal(16))
        factors = np.exp(sigma_thrust * rng.standard_normal(16))
        block = [
            many.Run(
                Wind(GustFilter(float(u), (0.5,) * 3, (0.0,) * 3), pi / 2),
                driver,
                Conditions(bow=float(f)),
            )
            for u, f in zip(winds, factors, strict=True)
        ]
        table, seeds = many.rows(block, task)
        won += int(many.run_block(many.packed(b, task), table, seeds)[0][lanes.SUCCESS].sum())
    want = hold_probability(thrust, need, sigma_thrust, 2.0 * sigma_wind)
    error = sqrt(want * (1.0 - want) / runs)
    assert 0.3 < want < 0.9
    assert won / runs == pytest.approx(want, abs=3.5 * error)


# ---- gusts


def _series(mean: float, sigma: float, length: float, step: float, count: int) -> np.ndarray:
    f = gust_filter(mean, sigma, length, step)
    g, state, found = (0.0, 0.0, 0.0), 88_172_645_463_325_252, np.empty(count)
    for k in range(count):
        state = shifted(state)
        g = f.step(g, three_deviates(state))
        found[k] = g[0] + g[1] + g[2]
    return found[2000:]


def test_spectrum_of_the_filter_as_run_against_kaimal() -> None:
    """Measured on a long run by Welch's method, over the frequencies that move a boat."""
    mean, sigma, length, step = 8.0, 1.2, 14.0, 0.1
    series = _series(mean, sigma, length, step, 400_000)
    assert series.var() == pytest.approx(sigma**2, rel=0.05)
    frequency, density = signal.welch(series, fs=1.0 / step, nperseg=8192)
    wanted = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0]
    for at in wanted:
        near = (frequency > 0.8 * at) & (frequency < 1.25 * at)
        measured = density[near].mean()
        want = np.mean([kaimal(float(f), mean, sigma, length) for f in frequency[near]])
        assert log(measured / want) == pytest.approx(0.0, abs=0.22), at


def test_spectrum_against_an_independent_package() -> None:
    """The turbulence package for wind turbines: the same spectrum at unit variance."""
    import warnings

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import pandas as pd
        import pyconturb.spectral_models

    package: Any = pyconturb.spectral_models
    frequencies = np.array([0.005, 0.02, 0.1, 0.5, 2.0])
    for height, mean in ((2.0, 6.0), (10.0, 12.0), (80.0, 9.0)):
        where = pd.DataFrame([[0.0], [0.0], [0.0], [height]], index=["k", "x", "y", "z"], columns=["u"])
        theirs = package.kaimal_spectrum(frequencies, where, u_ref=mean)[:, 0]
        ours = [kaimal(float(f), mean, 1.0, kaimal_length(height)) for f in frequencies]
        assert ours == pytest.approx(theirs.tolist(), rel=2e-3)
