"""What the four cases, a current, other methods and rehearsals say beside the static need that rules."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees

from athwart.design.checks.looks import over, share, told, under, where_of
from athwart.design.checks.registry import check
from athwart.design.places import body_x
from athwart.design.proposal import Case, Held, Lane, Proposal
from athwart.design.requirements import need as demand
from athwart.findings import Finding, code
from athwart.units import Metre, Ratio
from athwart.vessel import balance, ship_regressions
from athwart.vessel.loads import WindLoad, WindModel
from athwart.vessel.shallow import WARN_BELOW
from athwart.vessel.wind import SHELTER
from athwart.vessel.windage import WindageElement

DIFFERS: Ratio = 0.25
"""Share by which a second opinion may exceed the need before it is more than a note: about one standard deviation of a need."""
SUCCESS_LEAST: Ratio = 0.8
BY_SUPPLY: Ratio = 0.05
"""Share of runs that may end by heat or an empty bank before it is said."""

NEED_14 = code(
    "NEED-14",
    "A current adds to the wind",
    "caution",
    says="The brief names a current. This is what wind and current abeam, setting the same way, ask together, standing still over the "
    "ground; the unit is chosen for it as well.",
    why="Half a knot across a long keel can push as hard as twenty knots of wind on the topsides.",
    remedy="Keep the current small at the berth meant, take the next larger unit, or wait for slack water.",
    source="own-arithmetic",
)
NEED_19 = code(
    "NEED-19",
    "Other methods ask another thrust",
    "note",
    says="For hulls of 25 m and more two regressions over ships are asked for a second opinion on the worst heading; where the boat lies "
    "outside the ships they were made from, that is said and nothing is concluded.",
    why="Each method was fitted on other hulls. Where they lie far apart the band of the need is as wide as the gap.",
    remedy="Where another method asks far more within its range: take the larger need, or have the wind loads looked at.",
    source="isherwood-1972",
)
NEED_20 = code(
    "NEED-20",
    "She does not turn through the wind asked",
    "note",
    says="Turning at a steady rate takes more thrust than holding a heading: the hull resists turning while the wind resists with it. The "
    "wind in which she still turns at that rate is less than the wind asked.",
    why="Who has to bring the bow up through the wind finds that holding and turning are two things.",
    remedy="Turn with the engine and rudder, begin the turn before the wind has the bow, or take the next larger unit.",
    source="own-arithmetic",
)
NEED_21 = code(
    "NEED-21",
    "Free to drift she does not keep every heading asked",
    "caution",
    says="With no line ashore a heading is kept only while the boat is allowed to drift; the wind asked takes the heading all the same.",
    why="A boat light or high in the bow turns away from the wind faster than the hull in the water holds her.",
    remedy="Keep a line on, help with engine and rudder, or take the next larger unit.",
    source="own-arithmetic",
)
NEED_22 = code(
    "NEED-22",
    "Shelter of the berth is counted",
    "caution",
    says="The brief says that she lies behind other boats; part of the wind's load was left out for that.",
    why="The neighbours may be away, and outside the row there is no shelter at all.",
    remedy="Ask without shelter as well; size for the open where she manoeuvres outside the row.",
    source="marina-row-shelter",
)
NEED_23 = code(
    "NEED-23",
    "The four cases could not be balanced",
    "caution",
    says="Beside the static need there is no answer on drifting, turning, station and current.",
    why="The boat or her units lie outside what the models of hull and motion know; the reason is told.",
    remedy="Mend what the reason names, or judge these cases by other means.",
    source="own-judgement",
)
NEED_24 = code(
    "NEED-24",
    "Hardly any water under the keel",
    "caution",
    says="The factor by which shallow water multiplies drag and added mass was fitted on deeper water; drifting, turning and current are "
    "reckoned with it all the same.",
    why="The hull cannot push the water under itself; near the ground its drag grows by whole multiples.",
    remedy="Take these cases as a rough guess, or give the depth at which she manoeuvres.",
    source="ufc-4-159-03",
)
REHEARSE_01 = code(
    "REHEARSE-01",
    "A manoeuvre often fails in rehearsals",
    "caution",
    says="In gusts, with drivers and states of loading and of the bank that differ, the manoeuvre succeeds in fewer runs than wanted.",
    why="A static balance knows no gusts, no late hand and no room; a rehearsal does. What ends the failed runs says what to change.",
    remedy="Thrust: the next larger unit or less wind. Control: a stepped or proportional unit, shorter bursts. Room: a wider berth. Heat "
    "or volts: shorter bursts, a larger bank.",
    source="own-judgement",
)
REHEARSE_02 = code(
    "REHEARSE-02",
    "Heat or charge ends rehearsals",
    "caution",
    says="A part of the runs ends because a motor trips on heat or the bank is empty.",
    why="A thruster that trips in the middle of a manoeuvre is worse than one that is known to be small.",
    remedy="A unit with a longer rated time, a larger bank, or a driver who uses bursts.",
    source="own-judgement",
)
REHEARSE_03 = code(
    "REHEARSE-03",
    "Manoeuvres take more full thrust than the duty says",
    "note",
    says="Time at full thrust in the longest of the manoeuvres that end by themselves, half of the runs below it, against the bursts a "
    "docking of the brief.",
    why="Bank and charging were sized for the bursts of the brief; people use what they need.",
    remedy="Look at duty.burst and duty.bursts_per_docking again.",
    source="own-judgement",
)


def _first(p: Proposal, case: str) -> Held | None:
    return next((held for held in p.cases if held.case == case), None)


def _lane_of(p: Proposal, held: Held) -> Lane:
    return p.lane(held.identity)


@check
def current(p: Proposal) -> Iterator[Finding]:
    """Wind and current from the same side, abeam, in cases B and C."""
    speed = p.brief.water.current
    if not speed:
        return
    told_speed = told(speed, "speed")
    for lane in p.lanes:
        case, state = p.need.ruling(lane.thruster.identity), lane.both_design or lane.design
        if case.with_current is None:
            yield NEED_14.found(
                where_of(lane), f"A current of {told_speed} is named and not counted.", value=told_speed, path="water.current"
            )
            continue
        if state is None:
            continue
        enough = case.with_current <= state.thrust * (1.0 + 1e-9)
        yield NEED_14.found(
            where_of(lane),
            f"In a current of {told_speed} with the wind asked, both abeam, {told(case.with_current, 'force')} are asked.",
            value=told(state.thrust, "force"),
            limit=told(case.with_current, "force"),
            margin=under(state.thrust, case.with_current),
            severity="note" if enough else "stop",
            path="water.current",
        )


@check
def other_methods(p: Proposal) -> Iterator[Finding]:
    """Isherwood and Fujiwara beside the model used, for hulls long enough."""
    if p.brief.boat.length_overall < ship_regressions.SHORTEST:
        return
    found = demand.loads(p.brief, p.need.rise)
    if found.by_elements:
        return
    ship = _ship(p, found)
    outside = ship_regressions.outside(ship)
    for lane in p.lanes[:1]:
        case = p.need.ruling(lane.thruster.identity)
        worst = {name: _worst_by(p, case, model) for name, model in _models(ship, found.wind.pressure)}
        most = max(worst.values())
        listed = ", ".join(f"{name} {told(thrust, 'force')}" for name, thrust in worst.items())
        range_words = f" Outside their range: {'; '.join(outside)}." if outside else ""
        yield NEED_19.found(
            where_of(lane),
            f"Here {told(case.worst, 'force')} by {p.need.model}; {listed}.{range_words}",
            value=told(most, "force"),
            limit=told(case.worst * (1.0 + DIFFERS), "force"),
            margin=over(most, case.worst * (1.0 + DIFFERS)),
            severity="caution" if not outside and most > case.worst * (1.0 + DIFFERS) else "note",
            path="boat.windage",
        )


def _ship(p: Proposal, found: demand.Loads) -> ship_regressions.ShipShape:
    """What the regressions ask, from the silhouette: deck structures are all that is not hull, the bridge its highest solid part."""
    shape, boat = found.windage, p.brief.boat
    solid = [e for e in shape.elements if e.kind in ("hull", "house")] or list(shape.elements)
    decks = sum(e.lateral_area for e in shape.elements if e.kind != "hull")
    top = max(_top(e) for e in solid)
    hull_top = max((_top(e) for e in shape.elements if e.kind == "hull"), default=top)
    return ship_regressions.ShipShape(
        boat.length_overall,
        boat.beam,
        shape.lateral_area,
        shape.frontal_area,
        decks,
        shape.centroid_x,
        shape.centroid_height,
        top,
        boat.length_overall + 2.0 * hull_top + 2.0 * max(top - hull_top, 0.0),
        max(1, sum(e.kind == "mast" for e in shape.elements)),
    )


def _top(element: WindageElement) -> Metre:
    """Upper edge of an element: its middle and half its mean height."""
    length = element.length or max(element.lateral_area / (2.0 * element.centroid_height), 0.1)
    return element.centroid_height + 0.5 * element.lateral_area / length


def _models(ship: ship_regressions.ShipShape, pressure: float) -> Iterator[tuple[str, WindModel]]:
    for name, method in (("Isherwood", ship_regressions.isherwood), ("Fujiwara", ship_regressions.fujiwara)):

        def model(angle: float, method=method) -> WindLoad:  # type: ignore[no-untyped-def]
            return ship_regressions.load(method(ship, angle), ship, angle, pressure)

        yield name, model


def _worst_by(p: Proposal, case: Case, model: WindModel) -> float:
    """Thrust of the ruling case's unit at its worst heading with another wind model."""
    thruster = p.brief.thruster(case.identity)
    place, pivot = body_x(p.brief, thruster.tunnel.x), demand.pivot(p.brief, case)
    count = sum(t.role == thruster.role for t in p.brief.thrusters)
    worst = 0.0
    for angle in demand.headings(p.brief):
        load = model(angle)
        worst = max(worst, abs(balance.thrust_about_pivot(load.side, load.place, place, pivot)))
    return worst / count


@check
def turning_and_drifting(p: Proposal) -> Iterator[Finding]:
    """Cases A and D beside the one that rules."""
    asked = p.need.wind_speed
    turn, free = _first(p, "D"), _first(p, "A")
    if turn is not None and turn.wind_worst < asked * (1.0 - 1e-6):
        held = told(turn.wind_worst, "wind_speed", "kn") if turn.wind_worst > 0.0 else "no wind at all"
        yield NEED_20.found(
            where_of(_lane_of(p, turn)),
            f"{turn.words[0].upper()}{turn.words[1:]}: in {held} from the worst heading, {degrees(turn.worst_heading):.0f}° off the bow.",
            value=held,
            limit=told(asked, "wind_speed", "kn"),
            margin=under(turn.wind_worst, asked),
        )
    if free is not None and free.wind_worst < asked * (1.0 - 1e-6):
        yield NEED_21.found(
            where_of(_lane_of(p, free)),
            f"She keeps every heading asked in {told(free.wind_worst, 'wind_speed', 'kn')}; the worst is "
            f"{degrees(free.worst_heading):.0f}° off the bow.",
            value=told(free.wind_worst, "wind_speed", "kn"),
            limit=told(asked, "wind_speed", "kn"),
            margin=under(free.wind_worst, asked),
        )


@check
def balanced(p: Proposal) -> Iterator[Finding]:
    """Why there are no cases."""
    if p.no_cases and any(lane.design is not None and lane.design.thrust > 0.0 for lane in p.lanes):
        yield NEED_23.found("boat", f"{p.no_cases[0].upper()}{p.no_cases[1:]}.")


@check
def depth(p: Proposal) -> Iterator[Finding]:
    """Water so shallow that the factor on drag was not fitted on it."""
    given, draught = p.brief.water.depth, p.brief.boat.draught
    if given is not None and given < WARN_BELOW * draught:
        yield NEED_24.found(
            "water",
            "Depth over draught.",
            value=f"{given / draught:.2f}",
            limit=f"{WARN_BELOW:.1f}",
            margin=under(given / draught, WARN_BELOW),
            path="water.depth",
        )


@check
def shelter(p: Proposal) -> Iterator[Finding]:
    """A berth behind others."""
    if p.brief.wind.shelter != "open":
        left = share(SHELTER[p.brief.wind.shelter])
        yield NEED_22.found("wind", f"{p.brief.wind.shelter}.", value=left, limit="100 %", path="wind.shelter")


@check
def rehearsed(p: Proposal) -> Iterator[Finding]:
    """Shares of success, what ended the rest, time on."""
    wanted = p.brief.choices.hold_probability
    least = SUCCESS_LEAST if wanted is None else wanted
    asked_time = p.need.energy_share
    longest = None
    for r in p.rehearsals:
        causes = sorted(((s.count, cause) for cause, s in r.causes if s.count), reverse=True)
        if r.success.value < least:
            failed = ", ".join(f"{cause} {count}" for count, cause in causes)
            yield REHEARSE_01.found(
                "rehearsals",
                f"{r.exercise.name}: {r.success.counted} runs succeed ({r.success.between}); the rest fails by {failed}.",
                value=share(r.success.value, 3),
                limit=share(least),
                margin=under(r.success.value, least),
                path="choices.hold_probability",
            )
        supply = sum(s.count for cause, s in r.causes if cause in ("heat", "volts"))
        if supply > BY_SUPPLY * r.success.of:
            yield REHEARSE_02.found(
                "rehearsals",
                f"{r.exercise.name}: {supply} of {r.success.of} runs.",
                value=share(supply / r.success.of, 3),
                limit=share(BY_SUPPLY),
                margin=over(supply / r.success.of, BY_SUPPLY),
            )
        if r.exercise.manoeuvres[0].goal != "stay" and (longest is None or r.bow_on[2].value > longest.bow_on[2].value):
            longest = r
    if longest is not None and longest.bow_on[2].value > asked_time:
        middle = longest.bow_on[2]
        yield REHEARSE_03.found(
            "rehearsals",
            f"{longest.exercise.name}: half of the runs use the first unit for more than {middle.value:.0f} s.",
            value=told(middle.value, "time"),
            limit=told(asked_time, "time"),
            margin=over(middle.value, asked_time),
            path="duty.burst",
        )
