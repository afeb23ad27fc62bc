"""Does it hold: need against thrust, and whether the question was put so that the answer means something."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees

from athwart.design.checks.looks import over, share, thruster_path, told, under, where_of
from athwart.design.checks.registry import check
from athwart.design.places import body_x
from athwart.design.proposal import TOO_WEAK, Case, Lane, Proposal
from athwart.design.requirements import need as demand
from athwart.design.search.floating import waterplane
from athwart.findings import Finding, code
from athwart.power.rules import RULE_SETS
from athwart.units import Metre, Ratio, beaufort_of, beaufort_top
from athwart.vessel import balance
from athwart.vessel.gusts import gust_factor
from athwart.vessel.wind import FORECAST_AVERAGE

CHANCE_CAUTION: Ratio = 0.8
CHANCE_STOP: Ratio = 0.5
WORST_OVER_BEAM: Ratio = 1.2
FORCE_MOST = 8
LENGTHS: tuple[Metre, Metre] = (6.0, 40.0)
LOADING: tuple[Ratio, Ratio] = (0.25, 1.0)
"""Thrust on the beam over windage, in dynamic pressures."""
WINDAGE_OVER_LENGTH: tuple[Ratio, Ratio] = (0.06, 0.35)
FAR_MORE: Ratio = 2.0
STERN_END: Ratio = 0.48
DOUBTFUL_KINDS = ("barge", "houseboat", "catamaran")

NEED_01 = code(
    "NEED-01",
    "No complete system passes",
    "stop",
    says="Every unit of the catalogue was refused by a rule, or falls short with the best bank and cable that can be put behind "
    "it. The proposal shows the one that came nearest, so that there is something to look at; it is not a system to build.",
    why="A unit is judged with its whole chain: thrust at its own terminal volts, a bank that lasts, a cable and a fuse that keep "
    "their limits. Relaxing one of these quietly would only move the failure aboard.",
    remedy="Look at the rejections: ask for less wind, allow another drive, housing, voltage or diameter, move the bank nearer, or "
    "add units to the catalogue.",
    source="own-judgement",
)
NEED_02 = code(
    "NEED-02",
    "Chance of holding is low",
    "caution",
    says="Thrust and need are both uncertain; this is the chance that the thrust covers the need at the worst heading. Below the "
    "chance wanted (80 % unless the brief says otherwise) it is a caution, below 50 % nominal thrust does not even reach nominal need.",
    why="Areas, coefficients, the wind somebody remembers and the thrust on a label are each known to some 10 %. A system that holds "
    "exactly on paper fails in about every other such wind.",
    remedy="Take the next larger unit, set choices.hold_probability to the chance you want, or measure windage better.",
    source="own-judgement",
)
NEED_03 = code(
    "NEED-03",
    "Label thrust would hold, thrust at its volts does not",
    "caution",
    says="The figure on the unit's label exceeds the need, but behind this bank and this cable, cold and aged, the unit gives less.",
    why="Thrust goes with the square of the rotor's speed, and speed follows the volts that are left at the terminals. A comparison "
    "of labels with need is the commonest way to a thruster that disappoints.",
    remedy="Shorten or thicken the cable, take a bank of less resistance or a higher voltage, or a larger unit.",
    source="thrust-square-law",
)
NEED_04 = code(
    "NEED-04",
    "Worst heading needs much more than the beam",
    "note",
    says="At its worst heading the wind asks over a fifth more thrust than straight on the beam, which is the figure the trade quotes.",
    why="With the wind forward of the beam its force acts further forward, away from the end that is made fast. The worst heading "
    "is what this proposal is judged by.",
    remedy="Nothing to mend; compare like with like when another quotation names a beam wind.",
    source="blendermann-1994",
)
NEED_05 = code(
    "NEED-05",
    "A mean wind was raised to a gust",
    "note",
    says="The wind of the brief is a mean; the need was worked out for the gust that goes with it.",
    why="A boat alongside is blown off by the gust. Force goes with the square, so a factor of 1.4 on the speed doubles the thrust.",
    remedy="If the figure is a gust already, say `is: gust`.",
    source="wmo-gust-factors",
)
NEED_06 = code(
    "NEED-06",
    "The wind was brought down to the boat's height",
    "note",
    says="The wind was read high up; lower down, where hull and deckhouse are, it is weaker, and the need counts that weaker wind.",
    why="Over ten metres of height a wind loses a tenth to a third. Who types a deck reading as a forecast buys too small a unit.",
    remedy="If the figure was read on deck, say `read_at: on deck`.",
    source="wind-power-law",
)
NEED_07 = code(
    "NEED-07",
    "More wind than Beaufort 8",
    "caution",
    says="The mean wind behind the figure asked lies above force 8. The balance used here knows no waves and no motion.",
    why="In such a wind waves reach into the harbour, the bow pitches and a tunnel draws air; a static balance of wind and thrust no "
    "longer tells whether the boat is held.",
    remedy="Ask for a wind in which the boat would really berth, and keep lines and tugs for the rest.",
    source="beaufort-scale",
)
NEED_08 = code(
    "NEED-08",
    "Boat outside the range of the models",
    "caution",
    says="Length or kind of the boat lies outside what the wind model and the rules of thumb here were made for; the figures are "
    "carried over from the nearest kind.",
    why="The coefficients come from ships and yachts of usual shape. Very short boats move before a static balance is reached, very "
    "long ones have class rules of their own, and box-shaped craft have no row in the table.",
    remedy="Have the wind loads of such a boat worked out by a naval architect and compare.",
    source="blendermann-1994",
)
NEED_09 = code(
    "NEED-09",
    "Hull longer than the rule set covers",
    "caution",
    says="The rule set chosen ends at a hull length of 24 m; her electrical limits were still taken from it.",
    why="Above that length class or flag rules govern cables, fuses and ventilation, and they differ.",
    remedy="Have the installation approved by the class or flag that applies.",
    source="iso-13297-scope",
)
NEED_10 = code(
    "NEED-10",
    "Thrust asked for each square metre of windage is unusual",
    "note",
    says="Thrust needed over area seen from the side lies outside the band that fits a usual boat at the dynamic pressure asked.",
    why="A bow unit that holds against a beam wind carries about half of the side force: a quarter to the whole of the dynamic pressure "
    "on each square metre. Far outside, an area, a lever or a place is probably mistyped.",
    remedy="Check the windage elements and where the tunnel sits.",
    source="own-arithmetic",
)
NEED_11 = code(
    "NEED-11",
    "One unit holds one end only",
    "note",
    says="There is one thruster: it turns the boat about the end that is made fast. With no line ashore wind sets the whole boat "
    "sideways, and nothing aboard but engine and rudder works against that.",
    why="Holding her on station takes a force at each end. The need stated here is the one with the other end held by a line.",
    remedy="Plan the berth with a line at the other end, or add a unit there; the thrust it would need is given.",
    source="own-arithmetic",
)
NEED_12 = code(
    "NEED-12",
    "A stern unit without a bow unit",
    "caution",
    says="A thruster is wanted at the stern and none at the bow.",
    why="Wind takes the bow first, and the rudder and propeller already move the stern. A stern unit alone turns her about a bow that "
    "has to be made fast.",
    remedy="Consider the bow first, or state that the bow is always made fast.",
    source="common-practice",
)
NEED_13 = code(
    "NEED-13",
    "Windage does not suit her length",
    "caution",
    says="The area seen from the side, over the square of her length, is far from what boats have.",
    why="Feet read as metres, a box that repeats the deckhouse or a forgotten hull change the need by whole multiples, and nothing "
    "later in the chain would notice.",
    remedy="Compare the windage elements with the profile drawing.",
    source="own-judgement",
)
NEED_15 = code(
    "NEED-15",
    "Far more thrust than asked",
    "note",
    says="The unit gives at least twice what the worst heading asks.",
    why="Weight, current, cable and price follow the thrust, and a strong unit on an on/off lever jerks a light bow about.",
    remedy="A smaller unit would do; keep it if it is there already.",
    source="own-judgement",
)
NEED_16 = code(
    "NEED-16",
    "Not all headings were asked",
    "note",
    says="The brief limits the headings; the worst one of all round is worse than the worst one asked.",
    why="The wind does not read the brief: a berth taken the other way round, or a wind that veers, meets the heading left out.",
    remedy="Ask for all round unless the berth really never turns.",
    source="own-judgement",
)

NEED_17 = code(
    "NEED-17",
    "Displacement does not suit her dimensions",
    "caution",
    says="Displacement over waterline length, beam and draught gives a block that no boat of this kind has.",
    why="Tonnes read as kilograms, or a draught with the keel in it, change trim and immersion, and nothing later would notice.",
    remedy="Check displacement, beam and the draught of the hull proper.",
    source="own-judgement",
)
NEED_18 = code(
    "NEED-18",
    "The lightest waterline does not fit the lightest displacement",
    "note",
    says="By the waterplane the waterline of the lightest state should lie elsewhere than the brief says.",
    why="Immersion of the tunnel is judged at that line.",
    remedy="Read both from the same drawing or the same day.",
    source="own-arithmetic",
)
BLOCK: tuple[Ratio, Ratio] = (0.15, 0.95)
BLOCK_WITH_KEEL: Ratio = 0.06
"""Of a sailing yacht whose draught is all that is known: her keel is in it."""
LIGHT_RATIO: tuple[Ratio, Ratio] = (0.5, 2.0)


def _ruling(p: Proposal, lane: Lane) -> Case:
    return p.need.ruling(lane.thruster.identity)


@check
def passes(p: Proposal) -> Iterator[Finding]:
    """A lane for which nothing passes: only where the program was free to choose."""
    if p.mode != "propose":
        return
    for lane in p.lanes:
        if lane.passes or lane.kept == "fixed":
            continue
        own = [entry for entry in p.rejections if entry.identity == lane.thruster.identity]
        nearest = next((entry for entry in own if entry.row == lane.unit.id), own[0] if own else None)
        figure = nearest.figure if nearest else ""
        if nearest is not None and nearest.rule == TOO_WEAK and lane.design is not None:
            figure = told(lane.design.thrust, "force")
        said = f"{nearest.rule}, {figure} against {nearest.limit}" if nearest else "no rejection was recorded"
        yield NEED_01.found(
            where_of(lane),
            f"{len(own)} units were looked at and none passes. Nearest: {lane.unit.name}; refused by: {said}.",
            value=figure,
            limit=nearest.limit if nearest else "",
            margin=nearest.margin if nearest else None,
            path=thruster_path(p, lane, "wanted"),
        )


@check
def chance(p: Proposal) -> Iterator[Finding]:
    """The chance of holding, and labels that promise more."""
    wanted = p.brief.choices.hold_probability
    caution = CHANCE_CAUTION if wanted is None else wanted
    for lane in p.lanes:
        if lane.chance is None or lane.design is None:
            continue
        case = _ruling(p, lane)
        held = f", and holds {told(lane.wind_held_worst, 'wind_speed', 'kn')}" if lane.wind_held_worst is not None else ""
        if lane.chance < caution:
            yield NEED_02.found(
                where_of(lane),
                f"It gives {told(lane.design.thrust, 'force')} where the worst heading, {degrees(case.worst_heading):.0f}° off the bow, "
                f"asks {told(case.worst, 'force')}{held}; the wind asked is {told(p.need.wind_speed, 'wind_speed', 'kn')}.",
                value=share(lane.chance),
                limit=share(caution),
                margin=under(lane.chance, caution),
                severity="stop" if lane.chance < min(CHANCE_STOP, caution) - 0.005 else "caution",
                path="choices.hold_probability",
            )
        if lane.design.thrust < case.worst <= lane.unit.thrust and not lane.not_computed:
            yield NEED_03.found(
                where_of(lane),
                f"The label says {told(lane.unit.thrust, 'force')}; at {told(lane.design.terminal_volts, 'voltage')} and its depth the "
                f"unit gives {told(lane.design.thrust, 'force')}, and {told(case.worst, 'force')} are asked.",
                value=told(lane.design.thrust, "force"),
                limit=told(case.worst, "force"),
                margin=under(lane.design.thrust, case.worst),
            )
        if lane.design.thrust >= FAR_MORE * case.worst:
            yield NEED_15.found(
                where_of(lane),
                f"It gives {told(lane.design.thrust, 'force')} where {told(case.worst, 'force')} are asked.",
                value=told(lane.design.thrust, "force"),
                limit=told(FAR_MORE * case.worst, "force"),
            )


@check
def headings(p: Proposal) -> Iterator[Finding]:
    """Worst heading against the beam, and headings left out."""
    for lane in p.lanes:
        case = _ruling(p, lane)
        if case.worst > WORST_OVER_BEAM * case.beam:
            yield NEED_04.found(
                where_of(lane),
                f"{told(case.worst, 'force')} at {degrees(case.worst_heading):.0f}° off the bow, {told(case.beam, 'force')} on the beam.",
                value=told(case.worst, "force"),
                limit=told(WORST_OVER_BEAM * case.beam, "force"),
            )
    if p.brief.wind.headings == "all round":
        return
    everywhere = {case.identity: case for case in _all_round(p)}
    for lane in p.lanes:
        case, whole = _ruling(p, lane), everywhere[lane.thruster.identity]
        if whole.worst > 1.02 * case.worst:
            yield NEED_16.found(
                where_of(lane),
                f"Worst of the headings asked: {told(case.worst, 'force')}; worst of all: {told(whole.worst, 'force')} at "
                f"{degrees(whole.worst_heading):.0f}° off the bow.",
                value=told(whole.worst, "force"),
                limit=told(case.worst, "force"),
                margin=over(whole.worst, case.worst),
                path="wind.headings",
            )


def _all_round(p: Proposal) -> tuple[Case, ...]:
    wind = p.brief.wind.model_copy(update={"headings": "all round"})
    whole = demand.need(p.brief.model_copy(update={"wind": wind}), p.need.rise)
    return tuple(whole.ruling(thruster.identity) for thruster in p.brief.thrusters)


@check
def wind_asked(p: Proposal) -> Iterator[Finding]:
    """Gust factor, height profile, strength."""
    asked, found = p.brief.wind, demand.loads(p.brief, p.need.rise).wind
    if asked.is_ == "mean":
        yield NEED_05.found(
            "wind",
            f"A mean of {told(asked.speed, 'wind_speed', 'kn')} was raised by {found.gust_factor:.2f} to a gust of "
            f"{told(found.gust_where_read, 'wind_speed', 'kn')}.",
            value=told(found.gust_where_read, "wind_speed", "kn"),
            path="wind.is",
        )
    if found.height_read is not None and found.pressure_share < 1.0:
        yield NEED_06.found(
            "wind",
            f"Read at {told(found.height_read, 'length')}; on her silhouette the same wind presses like "
            f"{told(found.speed, 'wind_speed', 'kn')}, with {share(found.pressure_share)} of the pressure.",
            value=told(found.speed, "wind_speed", "kn"),
            path="wind.read_at",
        )
    factor = gust_factor(asked.surroundings, FORECAST_AVERAGE)
    mean = asked.speed if asked.is_ == "mean" else asked.speed / factor
    if beaufort_of(mean) > FORCE_MOST:
        yield NEED_07.found(
            "wind",
            f"The mean wind is {told(mean, 'wind_speed', 'kn')}, force {beaufort_of(mean)}.",
            value=told(mean, "wind_speed", "kn"),
            limit=told(beaufort_top(FORCE_MOST), "wind_speed", "kn"),
            margin=over(mean, beaufort_top(FORCE_MOST)),
            path="wind.speed",
        )


@check
def boat(p: Proposal) -> Iterator[Finding]:
    """Whether the models and rules reach as far as this boat."""
    hull = p.brief.boat
    least, most = LENGTHS
    if not least <= hull.length_overall <= most:
        yield NEED_08.found(
            "boat",
            f"She is {told(hull.length_overall, 'length')} long.",
            value=told(hull.length_overall, "length"),
            limit=f"{told(least, 'length')} to {told(most, 'length')}",
            margin=over(hull.length_overall, most) if hull.length_overall > most else under(hull.length_overall, least),
            path="boat.length_overall",
        )
    if hull.kind in DOUBTFUL_KINDS:
        yield NEED_08.found("boat", f"For a {hull.kind} the model stands in: {p.need.model}.", value=hull.kind, path="boat.kind")
    longest = RULE_SETS[p.brief.choices.rule_set].greatest_hull_length
    if longest is not None and hull.length_overall > longest.value:
        yield NEED_09.found(
            "boat",
            f"She is {told(hull.length_overall, 'length')} long; {longest.says}.",
            value=told(hull.length_overall, "length"),
            limit=told(longest.value, "length"),
            margin=over(hull.length_overall, longest.value),
            path="choices.rule_set",
        )
    ratio = p.need.lateral_area / hull.length_overall**2
    low, high = WINDAGE_OVER_LENGTH
    if not low <= ratio <= high:
        yield NEED_13.found(
            "windage",
            f"{told(p.need.lateral_area, 'area')} at a length of {told(hull.length_overall, 'length')}.",
            value=f"{ratio:.3f}",
            limit=f"{low:.2f} to {high:.2f}",
            margin=over(ratio, high) if ratio > high else under(ratio, low),
            path="boat.windage",
        )


@check
def loading(p: Proposal) -> Iterator[Finding]:
    """Thrust asked over windage, in units of the pressure asked."""
    low, high = LOADING
    for lane in p.lanes:
        if lane.thruster.role != "bow":
            continue
        units = sum(1 for other in p.lanes if other.thruster.role == "bow")
        each = _ruling(p, lane).beam * units / p.need.lateral_area
        if low * p.need.pressure <= each <= high * p.need.pressure:
            continue
        yield NEED_10.found(
            where_of(lane),
            f"{told(_ruling(p, lane).beam * units, 'force')} on the beam over {told(p.need.lateral_area, 'area')} of windage, at a dynamic "
            f"pressure of {p.need.pressure:.0f} Pa.",
            value=f"{each:.0f} N/m2",
            limit=f"{low * p.need.pressure:.0f} to {high * p.need.pressure:.0f} N/m2",
            path="boat.windage",
        )


@check
def ends(p: Proposal) -> Iterator[Finding]:
    """One end or both."""
    roles = {lane.thruster.role for lane in p.lanes}
    if roles == {"stern"}:
        yield NEED_12.found("thrusters", "Only a stern unit is wanted.", path="thrusters")
    if len(roles) != 1:
        return
    lane = p.lanes[0]
    other = "stern" if lane.thruster.role == "bow" else "bow"
    found = demand.loads(p.brief, p.need.rise)
    end = STERN_END * p.brief.boat.length_overall * (-1.0 if other == "stern" else 1.0)
    place = sum(body_x(p.brief, each.thruster.tunnel.x) for each in p.lanes) / len(p.lanes)
    bow_x, stern_x = (place, end) if other == "stern" else (end, place)
    try:
        station = balance.on_station(found.model, demand.headings(p.brief), bow_x, stern_x)
    except ValueError:
        return
    there, here = (station.stern, station.bow) if other == "stern" else (station.bow, station.stern)
    yield NEED_11.found(
        where_of(lane),
        f"The {other} must be made fast. To hold her on station in the same wind a unit at the {other} would need "
        f"{told(there.worst_thrust, 'force')} and the {lane.thruster.role} {told(here.worst_thrust, 'force')}.",
        value=f"{lane.thruster.role} only",
        limit="bow and stern",
        path="thrusters",
    )


@check
def displacement(p: Proposal) -> Iterator[Finding]:
    """Displacement against dimensions, and the lightest state against both."""
    boat = p.brief.boat
    plane = waterplane(p.brief)
    hull = max((depth for _, depth in boat.underwater), default=boat.draught)
    block = boat.displacement / (plane.water_density * boat.length_waterline * plane.beam * hull)
    with_keel = boat.kind == "sailing yacht" and not boat.underwater
    least = BLOCK_WITH_KEEL if with_keel else BLOCK[0]
    if not least <= block <= BLOCK[1]:
        limit = least if block < least else BLOCK[1]
        yield NEED_17.found(
            "boat",
            "Displacement over the block of waterline length, beam and draught.",
            value=f"{block:.2f}",
            limit=f"{limit:.2f}",
            margin=under(block, limit) if block < limit else over(block, limit),
            path="boat.displacement",
        )
    if boat.lightest is None:
        return
    rise = (boat.displacement - boat.lightest.displacement) / plane.to_sink
    said = boat.lightest.waterline_lower
    if rise > 0.005 and said > 0 and not LIGHT_RATIO[0] <= said / rise <= LIGHT_RATIO[1]:
        yield NEED_18.found(
            "boat",
            "Waterline of the lightest state.",
            value=told(said, "length", "mm"),
            limit=told(rise, "length", "mm"),
            path="boat.lightest.waterline_lower",
        )
