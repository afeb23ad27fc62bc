"""Fuses: when they open, what they may carry, what they protect, which one to take.

A family's curve is a band: before the least time it surely holds, after the most time it has surely opened. Nuisance is judged
by the least time, protection by the most. Between points both axes are logarithmic; below a tenth of a second, and beyond the
last point, the melting I²t is constant.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import exp, inf, isnan, log
from typing import Protocol, TypeAlias

from athwart.explain import formula
from athwart.numerics.tables import log_interpolate
from athwart.power.fuse_data import GG_CONVENTIONAL, GG_SELECTIVITY
from athwart.units.names import Ampere, Joule, Kelvin, Ohm, PerKelvin, Ratio, Second, Volt

CONSTANT_BELOW: Second = 0.1
HOTTEST_HOLDER: Kelvin = 358.15
RUN_MARGIN: Ratio = 1.25
FAULT_OPENS_WITHIN: Second = 5.0
STEPS = 60
_Side: TypeAlias = "tuple[list[tuple[float, float]], tuple[float, float]]"
CONDUCTOR_LIMITS = frozenset({"protects the cable", "rating within the conductor's"})


class Family(Protocol):
    """What a fuse family must tell; a catalogue's does."""

    @property
    def family(self) -> str: ...
    @property
    def points(self) -> tuple[tuple[float, float, float], ...]: ...
    @property
    def breaking_capacity(self) -> tuple[tuple[float, float], ...]: ...
    @property
    def volts_most(self) -> float: ...


@dataclass(frozen=True, slots=True)
class Band:
    """Between these times a fuse opens; ``inf`` where it may hold for ever."""

    least: Second
    most: Second


@dataclass(frozen=True, slots=True)
class Verdict:
    """One question about a fuse: figure, limit, answer."""

    name: str
    value: float
    limit: float
    unit: str
    passed: bool
    at_current: Ampere | None = None


@dataclass(frozen=True, slots=True)
class Candidate:
    """A fuse that was looked at, with all its verdicts."""

    family: Family
    rating: Ampere
    verdicts: tuple[Verdict, ...]

    @property
    def passed(self) -> bool:
        """Whether every verdict is good."""
        return all(verdict.passed for verdict in self.verdicts)

    @property
    def refused_by(self) -> Verdict | None:
        """The first verdict that refused it."""
        return next((verdict for verdict in self.verdicts if not verdict.passed), None)


@dataclass(frozen=True, slots=True)
class Selection:
    """The fuse taken, None if there is none, and all that were refused before it."""

    chosen: Candidate | None
    refused: tuple[Candidate, ...]

    @property
    def cable_too_thin(self) -> bool:
        """Some fuse failed by the conductor's limits alone: take the next larger cable, not a larger fuse."""
        return self.chosen is None and any(
            {verdict.name for verdict in candidate.verdicts if not verdict.passed} <= CONDUCTOR_LIMITS
            for candidate in self.refused
        )


@formula(
    "f", "1", "1 - derating * max(0, ambient_temperature - from_temperature)", source="fuse-derating", valid="holder to 85 °C"
)
def ambient_derating(ambient_temperature: Kelvin, derating: PerKelvin = 0.0015, from_temperature: Kelvin = 296.15) -> Ratio:
    """Share of its rating a fuse has in warm surroundings; below the given temperature the rating stays.

    Parameters
    ----------
    ambient_temperature : Round the fuse. [K]
    derating : Loss of rating per kelvin. [1/K]
    from_temperature : From which it loses. [K]
    """
    if ambient_temperature > HOTTEST_HOLDER:
        raise ValueError(f"a fuse in {ambient_temperature - 273.15:.0f} °C; its holder bears at most 85 °C")
    return 1.0 - derating * max(0.0, ambient_temperature - from_temperature)


@formula("E", "J", "current ** 2 * resistance * time", source="own-arithmetic")
def fuse_energy(current: Ampere, resistance: Ohm, time: Second) -> Joule:
    """Heat in a resistance during a fault.

    Parameters
    ----------
    current : Fault current. [A]
    resistance : Of the fuse, or of the whole loop. [Ω]
    time : Until the fault is broken. [s]
    """
    return current**2 * resistance * time


def opening_time(points: Sequence[tuple[float, float, float]], multiple: Ratio) -> Band:
    """Band of opening times at a multiple of the (derated) rating."""
    (least, low_knee), (most, high_knee) = _sides(tuple(points))
    return Band(_time(least, low_knee, multiple), _time(most, high_knee, multiple))


@lru_cache(maxsize=256)
def _sides(points: tuple[tuple[float, float, float], ...]) -> tuple[_Side, _Side]:
    """Least and most side of a curve with the point from which its I²t is constant; one family is asked thousands of times."""
    least = [(x, t) for x, t, _ in points if not isnan(t)]
    most = [(x, t) for x, _, t in points if not isnan(t) and t < inf]
    return (least, _knee(least)), (most, _knee(most))


def opening_band(family: Family, rating: Ampere, current: Ampere, derated: Ratio = 1.0) -> Band:
    """Band of opening times of a fuse at a current; ``derated`` is the share of its rating left in warm surroundings."""
    return opening_time(family.points, current / (rating * derated))


def breaking_capacity_at(family: Family, volts: Volt) -> Ampere:
    """What the family can break at these volts; nought above its rated volts."""
    return next((amperes for upto, amperes in family.breaking_capacity if volts <= upto), 0.0)


def conventional_time(rating: Ampere) -> Second:
    """Conventional time of a gG fuse: it holds 1.25 and opens at 1.6 of its rating within it."""
    for upto, hours in GG_CONVENTIONAL:
        if rating <= upto:
            return hours * 3600.0
    raise ValueError(f"a gG fuse of {rating:g} A; the table ends at {GG_CONVENTIONAL[-1][0]:g} A")


def are_selective(smaller: Ampere, larger: Ampere, ratio: Ratio = GG_SELECTIVITY) -> bool:
    """Whether two gG fuses in series are selective by their ratings."""
    return larger >= ratio * smaller


# ---- the questions, each a pure function


def carries_run(
    family: Family, rating: Ampere, current: Ampere, time: Second, derated: Ratio = 1.0, margin: Ratio = RUN_MARGIN
) -> Verdict:
    """Whether the fuse surely holds the longest run with a margin in time."""
    least = opening_band(family, rating, current, derated).least
    return Verdict("carries the run", least, margin * time, "s", least >= margin * time, current)


def within_ceiling(rating: Ampere, ceiling: Ampere) -> Verdict:
    """Whether the rating keeps the rule's ceiling for the conductor."""
    return Verdict("rating within the conductor's", rating, ceiling, "A", rating <= ceiling * (1.0 + 1e-9))


def breaks_fault(family: Family, volts: Volt, largest_fault: Ampere) -> Verdict:
    """Whether it can break the largest fault at the system's charging volts."""
    capacity = breaking_capacity_at(family, volts)
    return Verdict("breaks the largest fault", capacity, largest_fault, "A", capacity >= largest_fault, largest_fault)


def opens_at(
    family: Family, rating: Ampere, current: Ampere, within: Second = FAULT_OPENS_WITHIN, derated: Ratio = 1.0
) -> Verdict:
    """Whether it has surely opened within a time at a current, usually the smallest fault."""
    most = opening_band(family, rating, current, derated).most
    return Verdict("opens at the smallest fault", most, within, "s", most <= within, current)


def protects_cable(
    family: Family,
    rating: Ampere,
    withstand: Callable[[Ampere], Second],
    largest_fault: Ampere,
    derated: Ratio = 1.0,
    least_overload: Ampere = 0.0,
) -> Verdict:
    """Whether the fuse has opened, at every current, before the cable suffers.

    ``withstand`` is the cable's damage curve: seconds it bears a current. Currents from the first at which the family surely
    opens up to the largest fault are tried on a logarithmic grid and at the curve's own points; below the first the ceiling by
    ampacity rules. ``least_overload`` begins the check higher, where smaller overloads are ended by something else (a motor's
    thermal trip). The verdict shows the current with the least room: most opening time, and what the cable bears.
    """
    # a cold fuse is the slow one: protection is judged without derating unless the caller says otherwise
    base = rating * derated
    first = max(least_overload, min(multiple for multiple, _, most in family.points if not isnan(most) and most < inf) * base)
    if first >= largest_fault:
        band, bears = opening_band(family, rating, largest_fault, derated).most, withstand(largest_fault)
        return Verdict("protects the cable", band, bears, "s", band <= bears, largest_fault)
    grid = [first * exp(log(largest_fault / first) * step / STEPS) for step in range(STEPS + 1)]
    grid += [multiple * base for multiple, _, _ in family.points if first < multiple * base < largest_fault]
    worst = max(grid, key=lambda current: _room(opening_band(family, rating, current, derated).most, withstand(current)))
    most, bears = opening_band(family, rating, worst, derated).most, withstand(worst)
    return Verdict("protects the cable", most, bears, "s", most <= bears, worst)


@dataclass(frozen=True, slots=True)
class Duty:
    """What a fuse has to do in one lane. ``withstand`` is the cable's damage curve, ``ceiling`` the rule's largest rating."""

    run_current: Ampere
    run_time: Second
    ceiling: Ampere
    largest_fault: Ampere
    smallest_fault: Ampere
    volts: Volt  # of the system while charging
    withstand: Callable[[Ampere], Second]
    derated: Ratio = 1.0
    open_within: Second = FAULT_OPENS_WITHIN
    least_overload: Ampere = 0.0  # smaller ones are ended by the motor's own protection


def judge(family: Family, rating: Ampere, duty: Duty) -> Candidate:
    """All verdicts on one fuse: run, ceiling, breaking capacity, cable, smallest fault."""
    within = min(duty.open_within, duty.withstand(duty.smallest_fault))
    return Candidate(
        family,
        rating,
        (
            carries_run(family, rating, duty.run_current, duty.run_time, duty.derated),
            within_ceiling(rating, duty.ceiling),
            breaks_fault(family, duty.volts, duty.largest_fault),
            protects_cable(family, rating, duty.withstand, duty.largest_fault, least_overload=duty.least_overload),
            opens_at(family, rating, duty.smallest_fault, within),
        ),
    )


def select_fuse(families: Sequence[tuple[Family, Sequence[Ampere]]], duty: Duty) -> Selection:
    """The smallest rating of the first family (in the caller's order of preference) that passes every question.

    If none does, the answer is the next larger cable, never a larger fuse: :attr:`Selection.cable_too_thin`.
    """
    refused: list[Candidate] = []
    for family, ratings in families:
        for rating in sorted(ratings):
            candidate = judge(family, rating, duty)
            if candidate.passed:
                return Selection(candidate, tuple(refused))
            refused.append(candidate)
    return Selection(None, tuple(refused))


def _room(most: float, bears: float) -> float:
    """How far opening is from what the cable bears; larger is worse."""
    if bears == inf:
        return 0.0
    return inf if most == inf or bears == 0.0 else most / bears


def _time(points: list[tuple[float, float]], knee: tuple[float, float], multiple: float) -> float:
    """Seconds on one side of the band."""
    if multiple < points[0][0]:
        return inf
    if multiple >= knee[0]:
        return knee[1] * (knee[0] / multiple) ** 2
    return log_interpolate(points, multiple)


def _knee(points: list[tuple[float, float]]) -> tuple[float, float]:
    """Where the constant I²t begins: at a tenth of a second, or at the last point if that is slower."""
    for (x0, t0), (x1, t1) in pairwise(points):
        if t1 < CONSTANT_BELOW <= t0:
            return exp(log(x0) + log(x1 / x0) * log(CONSTANT_BELOW / t0) / log(t1 / t0)), CONSTANT_BELOW
    return points[-1]
