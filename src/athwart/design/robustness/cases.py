"""The four cases of a proposal afloat, and the largest wind held at every heading in each.

A: heading held by one unit, the boat free to drift. B: one end held by its unit, the other made fast. C: on station, by bow and
stern unit, by engine and rudder in the stern unit's place, or by two screws against each other. D: turning at a rate through the
wind. Winds are said as the brief asks them: where and as it was read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import copysign, cos, hypot, inf, pi, sin
from typing import Literal

from athwart.design.brief import Brief
from athwart.design.proposal import CaseName, Held, Lane, Proposal
from athwart.design.requirements.need import asks_abeam
from athwart.design.robustness.afloat import (
    Afloat,
    afloat,
    design_thrust,
    engine_and_rudder,
    full_thrust,
    headings_asked,
    twin_screws,
)
from athwart.errors import NotComputed
from athwart.units import KNOT, Metre, MetrePerSecond, Newton, Radian, RadianPerSecond, Ratio
from athwart.vessel import uncertainty
from athwart.vessel.crossflow import CrossFlow
from athwart.vessel.steady import Steady, held_loads, largest_wind, moving, turn_rate, water_loads
from athwart.vessel.underwater import HullInWater

MOST_SHARE: Ratio = 3.0
MOST_WIND: MetrePerSecond = 20.0
"""Winds are sought up to three times the one asked, and to this."""
STEP: Radian = pi / 18.0
CURRENT: MetrePerSecond = 0.25
"""Current abeam of the polars where the brief gives none: half a knot (own judgement)."""
AHEAD: Radian = 1e-4
"""Right ahead and right astern are taken a hair to starboard, for a drift has to fall to one side."""


@dataclass(frozen=True, slots=True)
class Curve:
    """Largest wind held over the angle it comes from; winds as asked, nought where the case is lost in a calm."""

    name: str
    points: tuple[tuple[Radian, MetrePerSecond], ...]

    @property
    def least(self) -> tuple[Radian, MetrePerSecond]:
        """The worst heading and what is held there."""
        return min(self.points, key=lambda point: point[1])


@dataclass(frozen=True, slots=True)
class Polar:
    """A case with its curves."""

    case: CaseName
    name: str
    words: str
    curves: tuple[Curve, ...]


Thrusts = tuple[Newton, Newton]
"""Of the bow units together and of the stern units together; nought where there are none."""


@dataclass(frozen=True, slots=True)
class Balances:
    """Which winds a boat holds, case by case. ``speed`` is the gust at the silhouette."""

    a: Afloat

    def demand_free(self, speed: MetrePerSecond, angle: Radian, place: Metre) -> Steady:
        """Case A."""
        aside = AHEAD if angle == 0.0 else copysign(pi - AHEAD, angle) if abs(angle) > pi - AHEAD else angle
        return moving(self.a.hull, self.a.wind, speed, aside, place)

    def need_turning(self, speed: MetrePerSecond, angle: Radian, place: Metre, rate: RadianPerSecond) -> Newton:
        """Case D: the larger push of the two turns; what the wind does by itself needs none."""
        needs = []
        for turn in (rate, -rate):
            thrust = self._turning(speed, angle, place, turn)
            needs.append(max(0.0, thrust if turn * place > 0.0 else -thrust))
        return max(needs)

    def _turning(self, speed: MetrePerSecond, angle: Radian, place: Metre, rate: RadianPerSecond) -> Newton:
        """Thrust that keeps a rate as she passes a heading, with the drift she has when that heading is held."""
        held = self.demand_free(speed, angle, place)
        yaw = self.a.wind.loads_of(speed * cos(angle) + held.surge, speed * sin(angle) + held.sway)[2]
        return -(yaw + water_loads(self.a.hull, held.surge, held.sway, rate)[2]) / place

    def need_end(
        self, speed: MetrePerSecond, angle: Radian, place: Metre, pivot: Metre, current: tuple[float, float] = (0.0, 0.0)
    ) -> Newton:
        """Case B."""
        side, yaw = held_loads(self.a.hull, self.a.wind, speed, angle, *current)
        return abs((yaw - pivot * side) / (place - pivot))

    def needs_station(
        self, speed: MetrePerSecond, angle: Radian, bow: Metre, stern: Metre, current: tuple[float, float] = (0.0, 0.0)
    ) -> Thrusts:
        """Case C."""
        side, yaw = held_loads(self.a.hull, self.a.wind, speed, angle, *current)
        at_bow = (yaw - stern * side) / (bow - stern)
        return abs(at_bow), abs(side - at_bow)

    def needs_screws(
        self, speed: MetrePerSecond, angle: Radian, bow: Metre, current: tuple[float, float] = (0.0, 0.0)
    ) -> tuple[Newton, float]:
        """Case C with two screws: the bow unit takes the whole side force, the screws the moment left over."""
        side, yaw = held_loads(self.a.hull, self.a.wind, speed, angle, *current)
        return abs(side), abs(yaw - bow * side)


def thrusts(a: Afloat, state: Literal["design", "full"]) -> Thrusts:
    """What the units give in a state, one way as the other."""
    give = design_thrust if state == "design" else lambda lane: full_thrust(lane, a.proposal.bank(lane.bank))
    return _together(a, give)


def _together(a: Afloat, give: Callable[[Lane], Newton]) -> Thrusts:
    return sum(give(lane) for lane in a.bows), sum(give(lane) for lane in a.sterns)


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to answer a case: which winds it holds at an angle."""

    case: CaseName
    name: str
    words: str
    identity: str
    thrust: Newton
    need: Callable[[MetrePerSecond, Radian, tuple[float, float]], Newton]
    """Size of the thrust that the unit named must give; infinite where another part of the way gives out first."""


def _ways(a: Afloat, give: Thrusts) -> Iterator[_Way]:
    balances = Balances(a)
    half = 0.5 * a.proposal.brief.boat.length_overall
    lanes = a.bows or a.sterns
    if not lanes:
        return
    role, place = ("bow", a.mean_place(a.bows)) if a.bows else ("stern", a.mean_place(a.sterns))
    identity = lanes[0].thruster.identity
    mine = give[0] if a.bows else give[1]
    still = (0.0, 0.0)
    yield _Way(
        "A", "free to drift", f"heading held by the {role} unit, the boat free to drift", identity, mine,
        lambda u, angle, current: abs(balances.demand_free(u, angle, place).thrust) if current == still else inf,
    )  # fmt: skip
    pivot = (-half if a.bows else half) - a.shift
    end = "stern" if a.bows else "bow"
    yield _Way(
        "B", f"{end} made fast", f"{role} held by its unit, {end} made fast", identity, mine,
        lambda u, angle, current: balances.need_end(u, angle, place, pivot, current),
    )  # fmt: skip
    if a.bows and a.sterns:
        aft = a.mean_place(a.sterns)

        def by_both(u: MetrePerSecond, angle: Radian, current: tuple[float, float]) -> Newton:
            at_bow, at_stern = balances.needs_station(u, angle, place, aft, current)
            shares = [
                need / there if there > 0.0 else (0.0 if need < 1.0 else inf)
                for need, there in ((at_bow, give[0]), (at_stern, give[1]))
            ]
            return max(shares) * give[0] if give[0] > 0.0 else (0.0 if max(shares) <= 1.0 else inf)

        yield _Way("C", "on station", "on station by bow and stern unit", identity, give[0], by_both)
    helper = engine_and_rudder(a)
    if a.bows and helper is not None:

        def by_rudder(u: MetrePerSecond, angle: Radian, current: tuple[float, float]) -> Newton:
            at_bow, at_stern = balances.needs_station(u, angle, place, helper.place, current)
            return at_bow if at_stern <= helper.side else inf

        words = f"on station by bow unit, engine and rudder ({helper.words}), {helper.thrust:.0f} N ahead taken by a line"
        yield _Way("C", "engine and rudder", words, identity, give[0], by_rudder)
    screws = twin_screws(a)
    if a.bows and screws is not None:

        def by_screws(u: MetrePerSecond, angle: Radian, current: tuple[float, float]) -> Newton:
            at_bow, moment = balances.needs_screws(u, angle, place, current)
            return at_bow if moment <= screws.moment else inf

        yield _Way("C", "two screws", f"on station by bow unit and {screws.words}", identity, give[0], by_screws)
    rate = turn_rate(a.proposal.brief.boat.length_overall)
    words = f"turning through the wind at {rate * 180.0 / pi:.0f} degrees a second by the {role} unit"
    yield _Way(
        "D", "turning", words, identity, mine,
        lambda u, angle, current: balances.need_turning(u, angle, place, rate) if current == still else inf,
    )  # fmt: skip


def _angles(a: Afloat) -> tuple[Radian, ...]:
    asked = headings_asked(a.proposal.brief)
    if asked is not None:
        return asked
    return tuple(k * STEP for k in range(round(pi / STEP) + 1))


def _wind(a: Afloat, way: _Way, angle: Radian, current: tuple[float, float] = (0.0, 0.0)) -> MetrePerSecond:
    """Largest gust at the silhouette that a way holds at an angle, said as asked."""

    def holds(speed: MetrePerSecond) -> bool:
        try:
            return way.need(speed, angle, current) <= way.thrust
        except NotComputed:
            return False

    return largest_wind(holds, most_looked(a.proposal.brief) / a.asked_per_gust) * a.asked_per_gust


def most_looked(brief: Brief) -> MetrePerSecond:
    """The largest wind that is looked for."""
    return max(MOST_SHARE * brief.wind.speed, MOST_WIND)


def four_cases(a: Afloat) -> tuple[Held, ...]:
    """Every case the boat has a way for, in the wind asked and at the headings asked."""
    found = []
    still = (0.0, 0.0)
    most = most_looked(a.proposal.brief) * (1.0 - 1e-6)
    for way in _ways(a, _together(a, design_thrust)):
        needs = [(way.need(a.gust_speed, angle, still), angle) for angle in _angles(a)]
        worst = max(needs)[0]
        beam = max(way.need(a.gust_speed, angle, still) for angle in (pi / 2.0, -pi / 2.0))
        abeam = min(_wind(a, way, angle) for angle in (pi / 2.0, -pi / 2.0))
        least, _, heading = min((_wind(a, way, angle), -need, angle) for need, angle in needs)
        found.append(
            Held(
                way.case,
                way.name,
                way.words,
                way.identity,
                beam,
                worst,
                abs(heading),
                way.thrust,
                least,
                abeam,
                _band(a, way, heading, least),
                _with_current(a, way),
                (least >= most, abeam >= most),
            )
        )
    return tuple(found)


def _band(a: Afloat, way: _Way, heading: Radian, least: MetrePerSecond) -> Ratio:
    """Relative spread of the wind held: half that of need and thrust; where she moves, lever and drag are tried off by theirs."""
    lane = a.proposal.lane(way.identity)
    state = lane.both_design or lane.design
    thrust = state.thrust_sigma if state is not None else 0.0
    wind = a.proposal.need.ruling(way.identity).sigma
    if way.case not in ("A", "D") or least <= 0.0:
        return 0.5 * hypot(wind, thrust)
    moved = []
    for other in (_with_lever(a, 1.0), _with_lever(a, -1.0), replace(a, hull=_with_drag(a.hull))):
        same = next(one for one in _ways(other, _together(other, design_thrust)) if one.name == way.name)
        moved.append(abs(_wind(other, same, heading) - least) / least)
    return hypot(0.5 * wind, 0.5 * thrust, max(moved[:2]), moved[2])


def _with_lever(a: Afloat, sign: float) -> Afloat:
    """The same with the wind's side force acting so much further forward or aft as it is uncertain."""
    shift = sign * uncertainty.LEVER_OF_LENGTH * a.proposal.brief.boat.length_overall
    wind = a.wind
    return replace(a, wind=replace(wind, yaw=tuple(n + shift * y for n, y in zip(wind.yaw, wind.side, strict=True))))


def _with_drag(hull: HullInWater) -> HullInWater:
    """The same with so much less drag as it is uncertain."""
    flow = hull.flow
    less = CrossFlow(flow.edges, tuple(c / (1.0 + hull.sigma) for c in flow.drag_depth), flow.water_density)
    return replace(hull, flow=less)


def _with_current(a: Afloat, way: _Way) -> Newton | None:
    """Need with wind and the brief's current abeam, from either side."""
    speed = a.proposal.brief.water.current
    if not speed or way.case not in ("B", "C") or not asks_abeam(a.proposal.brief):
        return None
    return max(way.need(a.gust_speed, side * pi / 2.0, (0.0, -side * speed)) for side in (1.0, -1.0))


def cases_of(p: Proposal) -> tuple[tuple[Held, ...], str]:
    """The four cases of a proposal, and where its boat or its units are outside the models none and why."""
    try:
        return four_cases(afloat(p)), ""
    except NotComputed as error:
        return (), str(error)


def polars(a: Afloat) -> tuple[Polar, ...]:
    """Largest wind over its angle in every case: bank cold and aged, bank full, one unit lost, current abeam."""
    cold, full = thrusts(a, "design"), thrusts(a, "full")
    current = a.proposal.brief.water.current or CURRENT
    angles = [k * STEP for k in range(1 - round(pi / STEP), round(pi / STEP) + 1)]
    found = []
    for way, best in zip(_ways(a, cold), _ways(a, full), strict=True):
        curves = [_curve("bank cold and aged", a, way, angles), _curve("bank full and warm", a, best, angles)]
        if all(abs(f[1] - c[1]) <= 0.01 * c[1] for f, c in zip(curves[1].points, curves[0].points, strict=True)):
            curves[1] = Curve("bank full and warm: the same", curves[1].points)
        lost = _one_lost(a, way, angles)
        if lost is not None:
            curves.append(lost)
        if way.case in ("B", "C"):
            points = tuple(
                (angle, _wind(a, way, angle, (0.0, current * (-1.0 if sin(angle) > 0.0 else 1.0)))) for angle in angles
            )
            curves.append(Curve(f"current of {current / KNOT:.1f} kn with the wind abeam", points))
        found.append(Polar(way.case, way.name, way.words, tuple(curves)))
    return tuple(found)


def _curve(name: str, a: Afloat, way: _Way, angles: list[Radian]) -> Curve:
    half = {abs(round(angle / STEP)): _wind(a, way, abs(angle)) for angle in angles if angle >= 0.0}
    return Curve(name, tuple((angle, half[abs(round(angle / STEP))]) for angle in angles))


def _without(a: Afloat, lost: Lane) -> Thrusts:
    """What is left when one unit gives nothing."""
    return _together(a, lambda lane: 0.0 if lane is lost else design_thrust(lane))


def _one_lost(a: Afloat, way: _Way, angles: list[Radian]) -> Curve | None:
    """The same case with whichever unit is lost that matters most at each heading; None where the case has but one unit."""
    lanes = [*a.bows, *a.sterns] if way.name == "on station" else list(a.bows or a.sterns)
    if len(lanes) < 2:
        return None
    curves = []
    for lost in lanes:
        left = next(other for other in _ways(a, _without(a, lost)) if other.name == way.name)
        curves.append(_curve("one unit lost", a, left, angles))
    return Curve(
        "one unit lost",
        tuple(min(points, key=lambda point: point[1]) for points in zip(*(c.points for c in curves), strict=True)),
    )
