"""Cables: labelled, long enough on paper, thick enough, cool enough, well joined."""

from __future__ import annotations

from collections.abc import Iterator

from athwart.design.checks.looks import over, part_path, parts_of, run_of, told, where_of, wire_tags
from athwart.design.checks.registry import check
from athwart.design.proposal import Lane, Proposal
from athwart.design.search.cabling import rule_drop
from athwart.findings import Finding, code
from athwart.power.contact import JOINTS
from athwart.power.fuse import opening_band
from athwart.power.heating import adiabatic_constant, adiabatic_time
from athwart.power.rules import RULE_SETS

POOR_JOINT_WATTS = 25.0
MANY_JOINTS = 14
ROUTE_SLACK = 1.5

CABLE_01 = code(
    "CABLE-01",
    "Length without saying one way or there and back",
    "stop",
    says="A cable length is given and nothing says whether it is the route one way or the conductor there and back.",
    why="The two differ by a factor of two, and so does the drop. Both figures are shown.",
    remedy="Say `length_is: one way` or `there and back`.",
    source="common-practice",
)
CABLE_02 = code(
    "CABLE-02",
    "Too many volts lost by the rule",
    "stop",
    says="By the rule set's own formula the cable loses more than the rule allows at rated current.",
    why="Volts lost in copper are missing at the motor, twice: thrust goes with their square.",
    remedy="A thicker or shorter cable, or a higher voltage.",
    source="iso-10133-drop",
)
CABLE_03 = code(
    "CABLE-03",
    "The docking's current heats the cable beyond the rule",
    "stop",
    says="The steady current that heats like the bursts of a docking exceeds the rule set's continuous current for this conductor.",
    why="Insulation ages, softens and lets go where it is bundled or warm.",
    remedy="A thicker cable, insulation for more heat, or out of the bundle and the engine space.",
    source="iso-table-a1",
)
CABLE_04 = code(
    "CABLE-04",
    "Too hot after the longest run",
    "stop",
    says="After the longest run the conductor is warmer than its insulation is rated for.",
    why="Short runs are borrowed from the copper's heat capacity; this one is too long for it.",
    remedy="A thicker cable or a shorter hold.",
    source="own-arithmetic",
)
CABLE_05 = code(
    "CABLE-05",
    "The cable does not bear a short circuit until the fuse opens",
    "stop",
    says="At the largest fault the copper reaches the insulation's final temperature before the fuse has surely opened.",
    why="The insulation burns off before the fault is cleared.",
    remedy="A faster fuse or a thicker cable.",
    source="iec-60364-5-54",
)
CABLE_06 = code(
    "CABLE-06",
    "Insulation not for engine spaces",
    "stop",
    says="The route goes through an engine space and the insulation is rated too low for it.",
    why="Air there counts as 60 °C; insulation of 60 °C has nothing left for its own heat.",
    remedy="Insulation of 70 °C at least, better 105 °C, or another route.",
    source="iso-table-a1-factors",
)
CABLE_07 = code(
    "CABLE-07",
    "A joint costs volts and makes heat",
    "caution",
    says="The joints of the cable aboard cost far more than good ones do.",
    why="One milliohm at 400 A is 0.4 V and 160 W: enough to melt a battery post.",
    remedy="Remake the joints, torque them by the stud's figure, and measure millivolts over each under load.",
    source="joint-resistance",
)
CABLE_08 = code(
    "CABLE-08",
    "Many joints in the path",
    "note",
    says="The path has more joints than its pieces need.",
    why="Each one costs volts and loosens.",
    remedy="Fewer, longer pieces.",
    source="common-practice",
)
CABLE_09 = code(
    "CABLE-09",
    "Route not given",
    "caution",
    says="No route between bank and unit is in the brief; its length was estimated from places.",
    why="The whole chain rests on it, and it is paid there and back.",
    remedy="Measure the route along the way the cable will take, and enter it.",
    source="own-judgement",
)
CABLE_10 = code(
    "CABLE-10",
    "Length of the cable aboard does not fit its route",
    "note",
    says="The length entered for the cable aboard and the route's length differ by more than half.",
    why="One of them is there and back, or one is wrong.",
    remedy="Measure again; volts at bank and motor under load tell which.",
    source="own-judgement",
)
CABLE_11 = code(
    "CABLE-11",
    "The rule's table has no such conductor",
    "caution",
    says="The rule set's table names no continuous current for this size or insulation.",
    why="Without it neither ceiling of the fuse nor steady current can be judged.",
    remedy="Take a size and an insulation of the table.",
    source="iso-table-a1",
)


@check
def labelled(p: Proposal) -> Iterator[Finding]:
    """A length without its meaning, a route that was not given."""
    for lane in p.lanes:
        part, run = parts_of(p, lane).cable, run_of(p, lane)
        if part is not None and part.length is not None and part.length_is is None:
            rules = RULE_SETS[p.brief.choices.rule_set]
            current = lane.unit.rated_current or 0.0
            size = part.size or (lane.cable.cable.area if lane.cable else 1e-5)
            once, twice = (rule_drop(rules, current, loop, size) for loop in (part.length, 2 * part.length))
            yield CABLE_01.found(
                where_of(lane),
                f"If {told(part.length, 'length', 'm')} is there and back it costs {told(once, 'voltage')}, if one way {told(twice, 'voltage')}.",
                value=told(part.length, "length", "m"),
                limit="one way or there and back",
                tags=wire_tags(p, lane),
                path=part_path(p, lane, "cable", "length_is"),
            )
        if run is not None and not run.given and lane.cable is not None:
            yield CABLE_09.found(
                where_of(lane),
                f"{run.words[0].upper()}{run.words[1:]}.",
                value=told(run.loop, "length", "m"),
                limit="a route",
                tags=wire_tags(p, lane),
                path="layout.routes",
            )
        if part is not None and part.length is not None and part.length_is is not None and run is not None and run.given:
            one_way = part.length if part.length_is == "one way" else part.length / 2
            ratio = max(one_way, run.plus) / max(min(one_way, run.plus), 1e-9)
            if ratio > ROUTE_SLACK:
                yield CABLE_10.found(
                    where_of(lane),
                    "Cable against route, one way.",
                    value=told(one_way, "length", "m"),
                    limit=told(run.plus, "length", "m"),
                    tags=wire_tags(p, lane),
                    path=part_path(p, lane, "cable", "length"),
                )


OF_LIMIT = (
    ("volts lost by the rule", CABLE_02, "voltage", "V"),
    ("docking's steady current", CABLE_03, "current", "A"),
    ("conductor after the longest run", CABLE_04, "temperature", "°C"),
    ("insulation in an engine space", CABLE_06, "temperature", "°C"),
)


@check
def limits(p: Proposal) -> Iterator[Finding]:
    """The limits of the cable that are broken."""
    for lane in p.lanes:
        if lane.cable is None:
            continue
        if lane.cable.ampacity <= 0:
            yield CABLE_11.found(
                where_of(lane), f"{lane.cable.cable.name}.", tags=wire_tags(p, lane), path=part_path(p, lane, "cable")
            )
        for name, value, limit, passed in lane.cable.limits:
            if passed:
                continue
            for begins, entry, kind, unit in OF_LIMIT:
                if not name.startswith(begins) or (begins.startswith("docking") and lane.cable.ampacity <= 0):
                    continue
                zero = 273.15 if kind == "temperature" else 0.0
                yield entry.found(
                    where_of(lane),
                    f"{lane.cable.parallel} x {lane.cable.cable.gauge}.",
                    value=told(value + zero, kind, unit),
                    limit=told(limit + zero, kind, unit),
                    margin=over(value, limit),
                    tags=wire_tags(p, lane),
                    path=part_path(p, lane, "cable"),
                )
        yield from _short(p, lane)


def _short(p: Proposal, lane: Lane) -> Iterator[Finding]:
    bank = p.bank(lane.bank)
    if lane.cable is None or lane.fuse is None or bank is None:
        return
    current = bank.fault_current_most
    opens = opening_band(lane.fuse.family, lane.fuse.fuse.rating, current).most
    constant = adiabatic_constant(323.15, 433.15)
    bears = adiabatic_time(current / lane.cable.parallel, lane.cable.cable.area, constant)
    if opens > bears and bears < 5.0:
        yield CABLE_05.found(
            where_of(lane),
            f"At {told(current, 'current')}.",
            value=told(opens, "time"),
            limit=told(bears, "time"),
            margin=over(opens, bears),
            tags=wire_tags(p, lane),
            path=part_path(p, lane, "fuse"),
        )


@check
def joints(p: Proposal) -> Iterator[Finding]:
    """Joints of a cable aboard."""
    for lane in p.lanes:
        part = parts_of(p, lane).cable
        if part is None or lane.cable is None or lane.peak is None or lane.cable.kept == "chosen":
            continue
        if part.joint_resistance is not None:
            heat = lane.peak.current**2 * part.joint_resistance
            if part.joint_resistance > 2 * JOINTS["lug"].most and heat > POOR_JOINT_WATTS:
                yield CABLE_07.found(
                    where_of(lane),
                    f"{told(part.joint_resistance, 'resistance', 'mohm')} a joint at {told(lane.peak.current, 'current')}.",
                    value=told(heat, "power"),
                    limit=told(POOR_JOINT_WATTS, "power"),
                    margin=over(heat, POOR_JOINT_WATTS),
                    tags=wire_tags(p, lane),
                    path=part_path(p, lane, "cable", "joint_resistance"),
                )
        if part.joints is not None and part.joints > MANY_JOINTS:
            yield CABLE_08.found(
                where_of(lane),
                "Joints in the path.",
                value=f"{part.joints}",
                limit=f"{MANY_JOINTS}",
                margin=over(part.joints, MANY_JOINTS),
                tags=wire_tags(p, lane),
                path=part_path(p, lane, "cable", "joints"),
            )
