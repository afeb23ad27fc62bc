"""A rehearsal: thousands of runs of a manoeuvre in gusts, current and hands that differ, and what came of them.

Runs go in blocks of sixteen, blocks to threads, chunks of blocks to the account, which is kept in counters: memory does not grow
with the runs, and the numbers do not depend on how many workers did them. Every share comes with its interval and every
percentile with what another seed might have made of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from itertools import pairwise
from math import ceil, pi, sqrt
from typing import TYPE_CHECKING, Any

from athwart.design.proposal import Proposal
from athwart.design.robustness import sampling
from athwart.design.robustness.afloat import Afloat, afloat, engine_and_rudder, helm_in_a_berth, in_motion
from athwart.errors import InputError, NotComputed, UnknownName
from athwart.numerics.normal import normal_deviate
from athwart.numerics.shares import wilson_high, wilson_low
from athwart.plant import many
from athwart.plant.manoeuvres import Exercise, Size, exercises
from athwart.plant.motion import CAUSES, Boat, Control, Driver, Outcome, simulate
from athwart.units import Ratio, Second

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
else:
    Floats = Any

LANES = 16
CHUNK = 128
"""Blocks sampled at once."""
KEPT = 128
"""Runs whose tracks are kept: the first, which are as random as any others."""
SECTORS = 24
HEIGHTS = (0.05, 0.25, 0.50, 0.75, 0.95)
CONFIDENCE = 0.95
BINS = 4000
SAMPLE_EVERY = 10
MOST_RUNS = 10_000_000
BAND_OF_ROOM: Ratio = 0.25
"""Most dead band of a hand over the room it has: who has little room looks closer (own judgement)."""


@dataclass(frozen=True, slots=True)
class Share:
    """A share of runs with its interval (Wilson's, 95 %)."""

    count: int
    of: int

    @property
    def value(self) -> Ratio:
        """The share itself."""
        return self.count / self.of

    @property
    def interval(self) -> tuple[Ratio, Ratio]:
        """Where the share of endless runs lies, 19 times in 20.

        >>> low, high = Share(830, 1000).interval
        >>> round(low, 3), round(high, 3)
        (0.805, 0.852)
        """
        return wilson_low(self.value, self.of, CONFIDENCE), wilson_high(self.value, self.of, CONFIDENCE)

    @property
    def counted(self) -> str:
        """As it was counted: 830 of 1000."""
        return f"{self.count} of {self.of}"

    @property
    def between(self) -> str:
        """The interval in words: 80.5% to 85.2%."""
        low, high = self.interval
        return f"{low:.1%} to {high:.1%}"


@dataclass(slots=True)
class Histogram:
    """A quantity counted in even bins, from which percentiles are read."""

    top: float
    counts: list[int]
    total: int = 0

    @classmethod
    def up_to(cls, top: float) -> Histogram:
        """Empty, from nought to ``top``."""
        return cls(max(top, 1e-9), [0] * BINS)

    def add(self, values: Floats) -> None:
        """Count values; beyond the top they fall into the last bin."""
        import numpy as np

        places = np.clip((values / self.top * BINS).astype(int), 0, BINS - 1)
        for place, count in zip(*np.unique(places, return_counts=True), strict=True):
            self.counts[int(place)] += int(count)
        self.total += len(values)

    def at(self, share: Ratio) -> float:
        """The value below which a share of the runs lies."""
        wanted, before = share * self.total, 0
        for place, count in enumerate(self.counts):
            if before + count >= wanted and count:
                return (place + (wanted - before) / count) * self.top / BINS
            before += count
        return self.top

    def percentile(self, share: Ratio) -> Percentile:
        """With its interval, from the ranks that the count of runs below might as well have been."""
        half = normal_deviate(0.5 + 0.5 * CONFIDENCE) * sqrt(share * (1.0 - share) / max(self.total, 1))
        return Percentile(share, self.at(share), self.at(max(0.0, share - half)), self.at(min(1.0, share + half)))

    @property
    def mean(self) -> float:
        """Mean of the bins' middles."""
        return sum((place + 0.5) * count for place, count in enumerate(self.counts)) * self.top / BINS / max(self.total, 1)


@dataclass(frozen=True, slots=True)
class Percentile:
    """A value below which a share of the runs lies, and where other seeds would have put it, 19 times in 20."""

    share: Ratio
    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class TrackBand:
    """Percentiles of one quantity over time, of the runs kept and still under way."""

    times: tuple[Second, ...]
    bands: tuple[tuple[float, ...], ...]  # one row a height of HEIGHTS
    under_way: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Rehearsal:
    """What came of many runs of one exercise."""

    exercise: Exercise
    driver: Driver
    runs: int
    seed: int
    success: Share
    causes: tuple[tuple[str, Share], ...]
    by_heading: tuple[tuple[float, Share], ...]
    """Middle of a sector of wind off the bow at the start (rad), and the share of successes in it."""
    bow_on: tuple[Percentile, ...]
    stern_on: tuple[Percentile, ...]
    charge: tuple[Percentile, ...]
    charge_aft: tuple[Percentile, ...]
    ended: tuple[Percentile, ...]
    worst_heading: tuple[Percentile, ...]
    worst_offset: tuple[Percentile, ...]
    mean_charge: float
    tracks: tuple[tuple[str, TrackBand], ...]
    typical: Outcome
    """The run nearest to the middle of those kept, once more on plain numbers, with its track."""
    typical_run: int
    typical_wind: float
    notes: tuple[str, ...]

    @property
    def failed_by(self) -> str:
        """What failed how many runs, in words; empty where none failed."""
        return ", ".join(f"{cause} {share.count}" for cause, share in self.causes if share.count)


def rehearse_all(
    p: Proposal,
    runs: int = 1000,
    seed: int = 1,
    *,
    names: Sequence[str] = (),
    workers: int = 2,
    delay: Second | None = None,
    wrong_side: Second = 0.0,
    kind: str | None = None,
    control: Control | None = None,
    progress: Progress | None = None,
    sinks: Callable[[str], AbstractContextManager[Sink | None]] = lambda name: nullcontext(),
) -> tuple[tuple[Rehearsal, ...], tuple[tuple[str, str], ...]]:
    """Every manoeuvre, or those named; those that cannot be rehearsed are told with the reason.

    Raises
    ------
    NotComputed
        Nothing can be rehearsed, or the only manoeuvre named cannot.
    """
    done: list[Rehearsal] = []
    left_out: list[tuple[str, str]] = []
    wanted = tuple(names) or tuple(exercises(size_of(afloat(p))))
    for name in wanted:
        with sinks(name) as sink:
            try:
                done.append(
                    rehearse(
                        p,
                        name,
                        runs,
                        seed,
                        workers=workers,
                        delay=delay,
                        wrong_side=wrong_side,
                        kind=kind,
                        control=control,
                        progress=progress,
                        sink=sink,
                    )
                )
            except NotComputed as error:
                if len(wanted) == 1 or name == wanted[0]:
                    raise
                left_out.append((name, str(error)))
                if progress is not None:
                    progress(runs)
    return tuple(done), tuple(left_out)


def size_of(a: Afloat) -> Size:
    """What the manoeuvres of a boat are cut to."""
    brief = a.proposal.brief
    return Size(
        brief.boat.length_waterline,
        brief.boat.beam,
        brief.boat.displacement,
        bool(a.bows and a.sterns),
        max(brief.duty.longest_hold, brief.duty.burst, 10.0),
        a.drift,
        not a.bows,
    )


def exercise_named(a: Afloat, name: str) -> Exercise:
    """The exercise with a name.

    Raises
    ------
    UnknownName, InputError
        There is none; the message names the nearest, or all.
    """
    known = exercises(size_of(a))
    if name not in known:
        near = get_close_matches(name, known, 1)
        if near:
            raise UnknownName("manoeuvre", name, near[0])
        raise InputError(f"no manoeuvre named {name!r}; there are {', '.join(known)}")
    return known[name]


@dataclass(slots=True)
class _Account:
    """Counters filled as chunks come in."""

    duration: float
    charge_top: float
    offset_top: float
    success: int = 0
    runs: int = 0
    causes: list[int] = field(default_factory=lambda: [0] * len(CAUSES))
    sectors: list[list[int]] = field(default_factory=lambda: [[0, 0] for _ in range(SECTORS)])
    histograms: dict[str, Histogram] = field(default_factory=dict)

    def __post_init__(self) -> None:
        tops = {
            "ended_s": self.duration, "bow_on_s": self.duration, "stern_on_s": self.duration, "charge_C": self.charge_top,
            "charge_aft_C": self.charge_top, "worst_heading_rad": pi, "worst_offset_m": self.offset_top,
        }  # fmt: skip
        self.histograms = {name: Histogram.up_to(top * 1.0001) for name, top in tops.items()}

    def percentiles(self, name: str) -> tuple[Percentile, ...]:
        """Of one column of the results."""
        return tuple(self.histograms[name].percentile(height) for height in HEIGHTS)

    def add(self, results: Floats, winds: Floats) -> None:
        """Results (RESULT_SIZE, runs) and where the wind came from at the start, off the bow."""
        import numpy as np

        columns = dict(zip(many.COLUMNS, results, strict=True))
        won = columns["success"] > 0.5
        self.success += int(won.sum())
        self.runs += len(won)
        for place in range(len(CAUSES)):
            self.causes[place] += int((columns["cause"] == place).sum())
        sectors = np.floor((winds + pi) / (2.0 * pi) * SECTORS).astype(int) % SECTORS
        for place in range(SECTORS):
            here = sectors == place
            self.sectors[place][0] += int((here & won).sum())
            self.sectors[place][1] += int(here.sum())
        for name, histogram in self.histograms.items():
            histogram.add(columns[name])


Progress = Callable[[int], None]
Sink = Callable[[dict[str, Floats]], None]


def rehearse(
    p: Proposal,
    name: str,
    runs: int = 1000,
    seed: int = 1,
    *,
    workers: int = 2,
    delay: Second | None = None,
    wrong_side: Second = 0.0,
    kind: str | None = None,
    control: Control | None = None,
    progress: Progress | None = None,
    sink: Sink | None = None,
) -> Rehearsal:
    """Rehearse a manoeuvre many times.

    Parameters
    ----------
    p : The proposal whose boat and units are rehearsed.
    name : Of the manoeuvre.
    runs : How many.
    seed : Of all chances.
    workers : Threads; the numbers do not depend on them.
    delay : Of the driver, seconds; None for that of the brief's users.
    wrong_side : Seconds that every first push goes the wrong way; 0 for the share of the brief's users.
    kind : "bang-bang" or "proportional"; None for what the units' control allows.
    control : Units as if they were on/off, stepped or proportional; None for what they are.
    progress : Called with the number of runs just done.
    sink : Called with the columns of each chunk of runs.

    Raises
    ------
    NotComputed
        The boat or her units are outside the models.
    UnknownName
        No such manoeuvre.
    """
    if not 1 <= runs <= MOST_RUNS:
        raise ValueError(f"{runs} runs; allowed are 1 to {MOST_RUNS}")
    a = afloat(p)
    exercise = exercise_named(a, name)
    driver, wrong = sampling.driver_for(a, delay, kind, control)
    if wrong_side > 0.0:
        driver = replace(driver, wrong_side=wrong_side)
    room = min(task.limit_offset for task in exercise.manoeuvres)
    driver = replace(driver, dead_band=min(driver.dead_band, BAND_OF_ROOM * room))
    setup = sampling.Setup(a, exercise, driver, wrong, seed)
    engine = exercise.name == "box berth"
    if engine and not a.bows:
        raise NotComputed("box berth: nothing holds the bow of a boat with a stern unit alone")
    boats = (in_motion(a, with_engine=engine), in_motion(a, light=True, with_engine=engine))
    if control is not None:
        boats = (_controlled(boats[0], control, engine), _controlled(boats[1], control, engine))
    if engine and boats[0].stern is None:
        raise NotComputed("box berth: nothing holds the stern; give power, propeller_diameter and rudder_area of the propulsion")
    packs = {
        (light, task.name): many.packed(boats[light], task, setup.step) for light in (False, True) for task in exercise.manoeuvres
    }
    first = exercise.manoeuvres[0]
    amperes = boats[0].bow.current + (boats[0].stern.current if boats[0].stern is not None else 0.0)
    account = _Account(
        first.duration,
        max(amperes * first.duration, 1.0),
        4.0 * first.limit_offset if first.limit_offset < 1e5 else 10.0 * p.brief.boat.length_overall,
    )
    blocks = ceil(runs / LANES)
    kept: _Done | None = None
    with ThreadPoolExecutor(workers) as pool:
        for chunk in _chunks(blocks):
            done = _run_chunk(setup, packs, chunk, runs, pool, keep=chunk[0] * LANES < KEPT)
            account.add(done.results, done.winds)
            kept = kept or done
            if sink is not None:
                sink(_columns(done, chunk[0] * LANES))
            if progress is not None:
                progress(done.results.shape[1])
    assert kept is not None
    assert kept.tracks is not None
    tracks = kept.tracks
    typical_run = _typical(kept.results)
    outcome, wind = again(setup, boats, typical_run)
    notes = (*a.notes, *_notes(a, exercise, engine), *((f"units as if they were {control}",) if control is not None else ()))
    return Rehearsal(
        exercise,
        driver,
        runs,
        seed,
        Share(account.success, account.runs),
        tuple((CAUSES[k], Share(account.causes[k], account.runs)) for k in range(1, len(CAUSES))),
        tuple(
            (-pi + (place + 0.5) * 2.0 * pi / SECTORS, Share(good, of))
            for place, (good, of) in enumerate(account.sectors)
            if of > 0
        ),
        account.percentiles("bow_on_s"),
        account.percentiles("stern_on_s"),
        account.percentiles("charge_C"),
        account.percentiles("charge_aft_C"),
        account.percentiles("ended_s"),
        account.percentiles("worst_heading_rad"),
        account.percentiles("worst_offset_m"),
        account.histograms["charge_C"].mean,
        tuple((word, _band(tracks, column)) for word, column in (("heading", 3), ("sideways", 2), ("ahead", 1))),
        outcome,
        typical_run,
        wind,
        notes,
    )


def _controlled(boat: Boat, control: Control, engine: bool) -> Boat:
    """The same boat with units of another control; a helm stays what it is."""
    helm = engine and boat.stern is not None and boat.stern.current == 0.0
    aft = boat.stern if boat.stern is None or helm else replace(boat.stern, control=control)
    return replace(boat, bow=replace(boat.bow, control=control), stern=aft)


def _notes(a: Afloat, exercise: Exercise, engine: bool) -> Iterator[str]:
    yield "half of the runs in the lightest state" if a.proposal.brief.boat.lightest is not None else "one state of loading"
    yield f"mean wind {a.mean_speed:.1f} m/s at the silhouette, standard deviation {a.intensity:.0%} of it"
    held = engine_and_rudder(a) if engine and not a.sterns else None
    if held is not None:
        side = helm_in_a_berth(a, held)
        words = f"{side:.0f} N sideways, for the push ahead has to be taken off again"
        yield f"the stern held by engine and rudder: {held.words}; {words}"
    if not a.proposal.brief.water.current:
        yield "no current"


def _chunks(blocks: int) -> Iterator[range]:
    """Chunks of blocks: the first as long as the tracks kept, then CHUNK."""
    edges = [0, *range(min(KEPT // LANES, blocks), blocks, CHUNK), blocks]
    for low, high in pairwise(dict.fromkeys(edges)):
        yield range(low, high)


@dataclass(frozen=True, slots=True)
class _Done:
    results: Floats
    winds: Floats
    tracks: Floats | None


def _run_chunk(
    s: sampling.Setup,
    packs: dict[tuple[bool, str], many.Packed],
    chunk: range,
    runs: int,
    pool: ThreadPoolExecutor,
    *,
    keep: bool,
) -> _Done:
    import numpy as np

    from athwart.plant import lanes

    duration = max(task.duration for task in s.exercise.manoeuvres)
    samples = ceil(duration / s.step / SAMPLE_EVERY) + 1 if keep else 0

    groups: dict[tuple[bool, str], list[int]] = {}
    for block in chunk:
        groups.setdefault((s.is_light(block), s.task(block).name), []).append(block)
    tables: dict[int, tuple[many.Packed, Floats, Floats]] = {}
    for key, blocks in groups.items():
        task = s.task(blocks[0])
        numbers = np.concatenate([np.arange(b * LANES, (b + 1) * LANES, dtype=np.uint64) for b in blocks])
        rows, streams = sampling.table(s, numbers, task, key[0])
        for place, block in enumerate(blocks):
            own = slice(place * LANES, (place + 1) * LANES)
            tables[block] = packs[key], np.ascontiguousarray(rows[:, own]), np.ascontiguousarray(streams[own])

    def one(block: int) -> tuple[Floats, Floats, Floats]:
        pack, rows, streams = tables[block]
        result, track = many.run_block(pack, rows, streams, samples, SAMPLE_EVERY)
        winds = np.arctan2(rows[lanes.WIND_Y], rows[lanes.WIND_X]) - s.task(block).heading
        return result, (winds + pi) % (2.0 * pi) - pi, track

    found = list(pool.map(one, chunk))
    count = min(len(chunk) * LANES, runs - chunk[0] * LANES)
    results = np.concatenate([f[0] for f in found], axis=1)[:, :count]
    winds = np.concatenate([f[1] for f in found])[:count]
    tracks = np.concatenate([f[2] for f in found])[:count] if keep else None
    return _Done(results, winds, tracks)


def _columns(done: _Done, first: int) -> dict[str, Floats]:
    import numpy as np

    columns = dict(zip(many.COLUMNS, done.results, strict=True))
    return {"run": np.arange(first, first + done.results.shape[1]), "wind_from_rad": done.winds, **columns}


def _typical(results: Floats) -> int:
    """The run kept that lies nearest to the middle in time on and in its worst heading, of those that ended as most did."""
    import numpy as np

    success = results[0] > 0.5
    common = success == (success.mean() >= 0.5)
    figures = results[[3, 7]]
    middle = np.median(figures[:, common], axis=1)
    spread = np.maximum(figures.std(axis=1), 1e-9)
    distance = (np.abs(figures - middle[:, None]) / spread[:, None]).sum(axis=0)
    distance[~common] = np.inf
    return int(np.argmin(distance))


def again(s: sampling.Setup, boats: Sequence[Any], run: int) -> tuple[Outcome, float]:
    """One run of a rehearsal once more on plain numbers with its track; and where its wind came from."""
    import numpy as np

    block = run // LANES
    task, light = s.task(block), s.is_light(block)
    rows, streams = sampling.table(s, np.array([run], dtype=np.uint64), task, light)
    wind, driver, given = sampling.plain(s, task, rows[:, 0].tolist(), int(streams[0]))
    outcome = simulate(boats[light], task, wind, driver, given, every=5, step=s.step)
    return outcome, wind.comes_from


def _band(tracks: Floats, column: int) -> TrackBand:
    import numpy as np

    times, rows, counts = [], [], []
    for k in range(tracks.shape[1]):
        values = tracks[:, k, column]
        values = values[~np.isnan(values)]
        if len(values) < 8:
            break
        times.append(float(np.nanmax(tracks[:, k, 0])))
        rows.append([float(q) for q in np.quantile(values, HEIGHTS)])
        counts.append(len(values))
    return TrackBand(tuple(times), tuple(zip(*rows, strict=True)) if rows else (), tuple(counts))


def manoeuvre_names(p: Proposal) -> tuple[str, ...]:
    """Names of the exercises, in the order they are shown."""
    return tuple(exercises(size_of(afloat(p))))
