"""What differs from run to run of a rehearsal: every chance of a run found from the seed, the run's number and its own name.

So a run has the same chances whatever runs beside it, and one run can be looked at again by its number. Spreads are one standard
deviation, relative unless said, own judgement where :mod:`athwart.vessel.uncertainty` names no source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING, Any

from athwart.design.proposal import Lane
from athwart.design.robustness.afloat import Afloat, design_thrust, full_thrust, headings_asked, pusher
from athwart.numerics import chances
from athwart.plant.manoeuvres import Exercise, WindFrom
from athwart.plant.motion import STEP, Conditions, Control, Driver, Manoeuvre, Motion, Wind
from athwart.units import Radian, Ratio, Second
from athwart.vessel import uncertainty
from athwart.vessel.spectra import FILTER, GustFilter

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Whole = NDArray[np.uint64]
else:
    Floats = Whole = Any

# ---- names of the chances of a run; a normal deviate takes two numbers
(
    WIND_SPEED,
    INTENSITY,
    DIRECTION,
    WOBBLE,
    BEGIN_1,
    BEGIN_2,
    BEGIN_3,
    STREAM,
    WINDAGE,
    LEVER,
    DRAG,
    CATALOGUE,
    IMMERSION,
    CATALOGUE_STERN,
    BATTERY,
    CURRENT,
    CURRENT_FROM,
    DELAY,
    BAND,
    LOOK,
    WRONG,
    HEAT,
    CHARGE,
) = range(0, 46, 2)

SIGMA_INTENSITY: Ratio = 0.20
SIGMA_WOBBLE: Radian = 0.15
SIGMA_DELAY: Ratio = 0.30
SIGMA_BAND: Ratio = 0.25
SIGMA_LOOK: Ratio = 0.30
WRONG_TIME: Second = 1.0
LOOK_BEYOND: Second = 2.0
"""How far a hand looks ahead beyond its own delay and the pause of its unit."""
GAIN, GAIN_RATE = 10.0, 30.0
"""Levers of full command that a hand gives for an angle of one, and for turning by one a second."""
MOST_PHASE: Ratio = 0.9
"""Most of a full push's effect before a hand can react that its answer to speed makes up; a light boat is handled softly."""
BAND_OF_PUSH: Ratio = 0.35
"""Least dead band of a hand on a switch over what one push does to the error looked ahead to."""
CALMEST: Ratio = 0.3
"""Least sample of a relative spread, so that a wild deviate makes no negative wind or drag."""


STILL = Motion(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Habits:
    """How people drive: delay, dead band of a hand as a share of the lever, chance that the first push goes the wrong way."""

    delay: Second
    band: Ratio
    wrong: Ratio


HABITS: Mapping[str, Habits] = {
    "crew": Habits(0.4, 0.06, 0.01),
    "owner": Habits(0.7, 0.09, 0.03),
    "hire fleet": Habits(1.1, 0.12, 0.08),
}
"""By users of the brief (own judgement)."""


@dataclass(frozen=True, slots=True)
class Setup:
    """A rehearsal to be sampled: the boat, the exercise, the driver, the seed."""

    afloat: Afloat
    exercise: Exercise
    driver: Driver
    wrong: Ratio
    seed: int
    step: Second = STEP

    def task(self, block: int) -> Manoeuvre:
        """The manoeuvre of a block of runs: the two sides take turns."""
        return self.exercise.manoeuvres[(block // 2) % len(self.exercise.manoeuvres)]

    @staticmethod
    def is_light(block: int) -> bool:
        """Whether a block of runs is made in the lightest state: every other one."""
        return block % 2 == 1


def driver_for(a: Afloat, delay: Second | None, kind: str | None, control: Control | None = None) -> tuple[Driver, Ratio]:
    """The driver of a brief's users at her units, and the chance of a first push to the wrong side."""
    brief = a.proposal.brief
    habits = HABITS[brief.duty.users]
    lanes = a.bows or a.sterns
    lever = abs(a.mean_place(lanes))
    own = habits.delay if delay is None else delay
    units = pusher(a, lanes)
    look = LOOK_BEYOND + own + max(units.reversal, units.lag)
    m = a.light.inertia
    quick = units.thrust.available_thrust(STILL, 1.0, 0.0) * (1.0 / m.sway + lever**2 / m.turning)
    gained = quick * (own + units.lag)  # speed of the end moved that a full push adds before a hand can react

    def is_even(units: tuple[Lane, ...]) -> bool:
        return all((control or lane.unit.control) != "on/off" for lane in units)

    aft_even = kind is None and (not a.sterns or is_even(a.sterns))
    even = is_even(lanes) if kind is None else kind == "proportional"
    return (
        Driver(
            "proportional" if even else "bang-bang",
            own,
            max(habits.band * lever, BAND_OF_PUSH * look * gained),
            look,
            min(GAIN / lever, MOST_PHASE / gained * GAIN / GAIN_RATE),
            min(GAIN_RATE / lever, MOST_PHASE / gained),
            kind_aft="proportional" if aft_even else None,
        ),
        habits.wrong,
    )


# ---- chances for many runs at once, bit for bit those of numerics.chances


def _mixed(z: Whole) -> Whole:
    import numpy as np

    z = z + np.uint64(chances.GOLDEN)
    z = (z ^ (z >> np.uint64(30))) * np.uint64(chances.FIRST_MIX)
    z = (z ^ (z >> np.uint64(27))) * np.uint64(chances.SECOND_MIX)
    return z ^ (z >> np.uint64(31))


def keys(seed: int, runs: Whole, which: int) -> Whole:
    """The bits of one chance of many runs."""
    import numpy as np

    return _mixed(_mixed(np.uint64(chances.mixed(seed)) ^ runs) ^ np.uint64(which))


def uniform(seed: int, runs: Whole, which: int) -> Floats:
    """Between 0 and 1 for many runs."""
    import numpy as np

    return ((keys(seed, runs, which) >> np.uint64(11)).astype(np.float64) + 0.5) / 9_007_199_254_740_992.0


def normal(seed: int, runs: Whole, which: int) -> Floats:
    """Standard normal deviates for many runs."""
    import numpy as np

    return np.sqrt(-2.0 * np.log(uniform(seed, runs, which))) * np.cos(2.0 * pi * uniform(seed, runs, which + 1))


def _about_one(sigma: Ratio, deviates: Floats) -> Floats:
    """Log-normal with median one."""
    import numpy as np

    return np.maximum(np.exp(sigma * deviates), CALMEST)


def table(s: Setup, runs: Whole, task: Manoeuvre, light: bool) -> tuple[Floats, Whole]:
    """Rows for the compiled text, one column a run, and the states of their streams of chances."""
    import numpy as np

    from athwart.plant import lanes as at

    with np.errstate(over="ignore"):
        a, brief, seed = s.afloat, s.afloat.proposal.brief, s.seed
        n = len(runs)
        rows = np.zeros((at.RUN_SIZE, n))
        wind = a.mean_speed * _about_one(_sigma_wind(a), normal(seed, runs, WIND_SPEED))
        sigma = wind * a.intensity * _about_one(SIGMA_INTENSITY, normal(seed, runs, INTENSITY))
        rows[at.WIND] = wind
        for k, (share, corner) in enumerate(FILTER):
            keep = np.exp(-2.0 * pi * corner * wind / a.length_scale * s.step)
            drive = sigma * np.sqrt(share * (1.0 - keep * keep))
            rows[at.KEEP_0 + k] = keep
            rows[at.DRIVE_0 + k] = drive
            rows[at.BEGIN_0 + k] = normal(seed, runs, (BEGIN_1, BEGIN_2, BEGIN_3)[k]) * drive / np.sqrt(1.0 - keep * keep)
        comes = _comes_from(s, runs, task)
        rows[at.WIND_X], rows[at.WIND_Y] = np.cos(comes), np.sin(comes)
        current = (brief.water.current or 0.0) * uniform(seed, runs, CURRENT)
        towards = 2.0 * pi * uniform(seed, runs, CURRENT_FROM)
        rows[at.CURRENT_X], rows[at.CURRENT_Y] = current * np.cos(towards), current * np.sin(towards)
        rows[at.DRAG] = _about_one(a.hull.sigma, normal(seed, runs, DRAG))
        rows[at.WINDAGE] = _about_one(_sigma_windage(a), normal(seed, runs, WINDAGE)) * (1.0 if light else a.loaded_windage)
        rows[at.LEVER] = uncertainty.LEVER_OF_LENGTH * brief.boat.length_overall * normal(seed, runs, LEVER)
        full = uniform(seed, runs, BATTERY)
        common = _about_one(uncertainty.IMMERSION, normal(seed, runs, IMMERSION))
        rows[at.BOW_FACTOR] = (
            _fuller(a, "bow", full) * common * _about_one(uncertainty.CATALOGUE_THRUST, normal(seed, runs, CATALOGUE))
        )
        rows[at.STERN_FACTOR] = (
            _fuller(a, "stern", full) * common * _about_one(uncertainty.CATALOGUE_THRUST, normal(seed, runs, CATALOGUE_STERN))
        )
        d = s.driver
        rows[at.DELAY] = np.minimum(
            np.floor(d.delay * _about_one(SIGMA_DELAY, normal(seed, runs, DELAY)) / s.step + 0.5), at.HISTORY - 1
        )
        rows[at.BAND] = d.dead_band * _about_one(SIGMA_BAND, normal(seed, runs, BAND))
        rows[at.LOOK] = d.look_ahead * _about_one(SIGMA_LOOK, normal(seed, runs, LOOK))
        rows[at.GAIN], rows[at.GAIN_RATE], rows[at.DRIVER] = d.gain, d.gain_rate, float(d.kind == "proportional")
        rows[at.DRIVER_AFT] = float((d.kind_aft or d.kind) == "proportional")
        wrong = (uniform(seed, runs, WRONG) < s.wrong) * (WRONG_TIME if d.wrong_side == 0.0 else d.wrong_side)
        rows[at.WRONG] = np.floor((wrong if d.wrong_side == 0.0 else np.full(n, d.wrong_side)) / s.step + 0.5)
        rows[at.HEADING], rows[at.COS_0], rows[at.SIN_0] = task.heading, np.cos(task.heading), np.sin(task.heading)
        rows[at.AHEAD_0] = rows[at.SPEED] = task.speed
        rows[at.OFFSET_0], rows[at.RATE_0] = task.offset, task.yaw_rate
        rows[at.SIDE_0] = task.sway
        if task.drifting:
            rows[at.SIDE_0] -= np.sign(rows[at.WIND_Y]) * a.drift * wind / a.mean_speed
        rows[at.RUN_FACTOR] = _about_one(uncertainty.RATED_TIME, normal(seed, runs, HEAT))
        rows[at.CHARGE_FACTOR] = _about_one(uncertainty.CAPACITY, normal(seed, runs, CHARGE)) * (0.5 + 0.5 * full)
        streams = keys(seed, runs, STREAM) | np.uint64(1)
    return rows, streams


def _sigma_wind(a: Afloat) -> Ratio:
    brief = a.proposal.brief
    profile = uncertainty.PROFILE if brief.wind.read_at != "on deck" else 0.0
    gust = uncertainty.GUST_FACTOR if brief.wind.is_ == "mean" else 0.0
    return float((brief.wind.uncertainty**2 + profile**2 + gust**2) ** 0.5)


def _sigma_windage(a: Afloat) -> Ratio:
    coefficient = a.coefficient_sigma
    return float((coefficient**2 + a.proposal.brief.boat.windage_uncertainty**2) ** 0.5)


def _fuller(a: Afloat, role: str, full: Floats) -> Floats:
    """Thrust over that of the design state, between a cold aged bank (0) and a full warm one (1)."""
    import numpy as np

    found = (a.bows or a.sterns) if role == "bow" else a.sterns
    if not found or (role == "stern" and not a.bows):
        return np.ones_like(full)
    most = sum(full_thrust(lane, a.proposal.bank(lane.bank)) for lane in found)
    return 1.0 + full * (most / sum(design_thrust(lane) for lane in found) - 1.0)


def _comes_from(s: Setup, runs: Whole, task: Manoeuvre) -> Floats:
    """Where the wind comes from, from the heading aimed at."""
    import numpy as np

    where: WindFrom = s.exercise.wind
    turn = uniform(s.seed, runs, DIRECTION)
    wobble = SIGMA_WOBBLE * normal(s.seed, runs, WOBBLE)
    if where == "from port":
        return task.heading - 0.5 * pi + wobble
    if where == "abeam":
        return np.where(turn < 0.5, -0.5 * pi, 0.5 * pi) + wobble
    asked = headings_asked(s.afloat.proposal.brief)
    if asked is None:
        return 2.0 * pi * turn - pi
    angles = np.array(asked, dtype=np.float64)
    chosen: Floats = angles[np.minimum((turn * len(angles)).astype(int), len(angles) - 1)]
    return chosen + wobble


# ---- one run again on plain numbers


def plain(s: Setup, task: Manoeuvre, column: Sequence[float], stream: int) -> tuple[Wind, Driver, Conditions]:
    """A column of the table as plain objects, to look at one run again."""
    from math import atan2

    from athwart.plant import lanes as at

    c = [float(value) for value in column]
    keep = (c[at.KEEP_0], c[at.KEEP_1], c[at.KEEP_2])
    drive = (c[at.DRIVE_0], c[at.DRIVE_1], c[at.DRIVE_2])
    gusts = GustFilter(c[at.WIND], keep, drive)
    settled = gusts.settled
    begins = tuple(c[at.BEGIN_0 + k] / settled[k] if settled[k] > 0.0 else 0.0 for k in range(3))
    wind = Wind(gusts, atan2(c[at.WIND_Y], c[at.WIND_X]), (begins[0], begins[1], begins[2]), int(stream))
    d = s.driver
    driver = Driver(
        d.kind, c[at.DELAY] * s.step, c[at.BAND], c[at.LOOK], c[at.GAIN], c[at.GAIN_RATE], c[at.WRONG] * s.step, d.kind_aft
    )
    given = Conditions(
        c[at.CURRENT_X],
        c[at.CURRENT_Y],
        c[at.DRAG],
        c[at.WINDAGE],
        c[at.LEVER],
        c[at.BOW_FACTOR],
        c[at.STERN_FACTOR],
        c[at.RUN_FACTOR],
        c[at.CHARGE_FACTOR],
        c[at.SIDE_0] - task.sway,
    )
    return wind, driver, given
