"""Drive against duty: time, heat, volts, hydraulics."""

from __future__ import annotations

from collections.abc import Iterator

from athwart.design.checks.looks import docking_time, over, part_path, parts_of, tags, told, under, where_of
from athwart.design.checks.registry import check
from athwart.design.limits import limit_words
from athwart.design.proposal import Lane, Proposal
from athwart.design.search import running
from athwart.findings import Finding, code

HEAT_OVER_RATED = 1.10
OLD_YEARS = 10.0
DUTY_SHARE = 0.25

DRIVE_01 = code(
    "DRIVE-01",
    "Trips before the longest hold",
    "stop",
    says="The unit's motor trips on heat before the longest hold the brief asks is over.",
    why="A brushed motor bears minutes an hour. Holding against wind is not the duty of an intermittent unit; it stops when it is needed.",
    remedy="Ask for a shorter hold, or take a brushless or hydraulic unit.",
    source="common-practice",
)
DRIVE_02 = code(
    "DRIVE-02",
    "More full thrust in an hour than the unit bears",
    "caution",
    says="The bursts of the dockings in an hour add up to more full-thrust time than the unit's row allows.",
    why="Heat adds up: pauses of seconds do not cool a motor that needs a quarter of an hour.",
    remedy="Fewer or shorter bursts, longer pauses, or a unit for more duty.",
    source="common-practice",
)
DRIVE_03 = code(
    "DRIVE-03",
    "Hire fleet with a unit that trips",
    "caution",
    says="Changing crews use a unit that trips without telling how much time is left.",
    why="Guests hold the button until it stops, then hold it again.",
    remedy="Take a unit that tapers, or show the time left at the helm and put the owner's page beside it.",
    source="common-practice",
)
DRIVE_04 = code(
    "DRIVE-04",
    "Pauses too short for a brushed motor",
    "caution",
    says="Bursts fill more than a quarter of the time while docking.",
    why="Brushes and commutator heat first, and low volts make every burst longer.",
    remedy="Longer pauses between bursts.",
    source="common-practice",
)
DRIVE_05 = code(
    "DRIVE-05",
    "On/off unit where quiet running is asked",
    "caution",
    says="The brief asks for quiet running and the unit only knows full speed.",
    why="It is always as loud as at full thrust.",
    remedy="Take a stepped or proportional unit.",
    source="common-practice",
)
DRIVE_06 = code(
    "DRIVE-06",
    "Unit and bank have different volts",
    "stop",
    says="The unit's system volts are not the bank's.",
    why="Too few volts give hardly any thrust, too many burn the motor.",
    remedy="Take the unit for these volts, or the bank for that unit.",
    source="own-arithmetic",
)
DRIVE_07 = code(
    "DRIVE-07",
    "The drive folds back in the design state",
    "note",
    says="With the bank cold and aged the drive's terminals fall below the volts at which it reduces its power.",
    why="A drive that holds its power takes more current the lower the volts; folding back protects it and costs thrust.",
    remedy="A stiffer bank or a thicker cable gives the thrust back.",
    source="drive-fold-back",
)
DRIVE_08 = code(
    "DRIVE-08",
    "Terminal volts too low under load",
    "stop",
    says="In the design state fewer volts are left at the unit than it may be run at.",
    why="Contactors chatter, drives cut out, a brushed motor labours and overheats.",
    remedy="A stiffer bank, a thicker or shorter cable, or a higher voltage.",
    source="own-judgement",
)
DRIVE_09 = code(
    "DRIVE-09",
    "Runs hotter than rated on a stiff bank",
    "note",
    says="With the bank full and warm the unit draws over a tenth more than its rated current.",
    why="Flat lithium volts and short cables give a brushed motor more than the maker of a lead-fed unit meant. Its time to the trip falls with "
    "the square.",
    remedy="Count on the shorter time that the answer states, and tell the users.",
    source="dc-motor",
)
DRIVE_10 = code(
    "DRIVE-10",
    "Hydraulic: not computed yet",
    "note",
    says="Of a hydraulic unit only duty, pressure and flow at idle are judged; thrust, lines, oil and tank are not computed yet.",
    why="A figure nobody computed must not look like one.",
    remedy="Have the maker of the hydraulics confirm thrust, lines and cooling.",
    source="own-judgement",
)
DRIVE_11 = code(
    "DRIVE-11",
    "Too little flow or pressure at idle",
    "stop",
    says="At idle the largest suitable pump gives less flow or pressure than the unit needs.",
    why="Manoeuvring is done at idle; a pump that only delivers at cruising speed leaves the unit without thrust in harbour.",
    remedy="A larger pump, a step-up at the take-off, or a raised idle.",
    source="own-arithmetic",
)
DRIVE_12 = code(
    "DRIVE-12",
    "An old unit",
    "note",
    says="The unit aboard is ten years old or older.",
    why="Brushes, seals and contacts wear whether it is used or not; worn brushes heat and trip the thermal switch.",
    remedy="Have brushes, commutator, contacts and seals looked at before it is counted on.",
    source="common-practice",
)
DRIVE_13 = code(
    "DRIVE-13",
    "Noise of the unit is not known",
    "note",
    says="Quiet running is asked and the unit's row names no noise.",
    why="Nobody can promise quiet from an unknown figure.",
    remedy="Ask the maker, with the place of measurement.",
    source="own-judgement",
)


def _brushed(lane: Lane) -> bool:
    return lane.unit.drive == "brushed" and lane.unit.at_limit == "trips"


@check
def time(p: Proposal) -> Iterator[Finding]:
    """Longest hold, an hour's bursts, pauses, users."""
    duty = p.brief.duty
    for lane in p.lanes:
        where, unit = where_of(lane), lane.unit
        if unit.at_limit == "trips" and unit.rated_time is not None and lane.peak is not None and unit.rated_current is not None:
            left = running.time_to_trip(unit.rated_time, unit.rated_current, lane.peak.current)
            if left < p.need.run_time:
                yield DRIVE_01.found(
                    where,
                    f"{unit.name} trips first.",
                    value=told(left, "time"),
                    limit=told(p.need.run_time, "time"),
                    margin=under(left, p.need.run_time),
                    tags=tags(p, lane, "unit"),
                    path="duty.longest_hold",
                )
        asked = docking_time(p) * max(1.0, min(duty.dockings_per_day, 3.0) if duty.users == "hire fleet" else 1.0)
        if unit.at_limit == "trips" and unit.minutes_in_hour is not None and asked > unit.minutes_in_hour:
            yield DRIVE_02.found(
                where,
                "An hour of dockings.",
                value=told(asked, "time"),
                limit=told(unit.minutes_in_hour, "time"),
                margin=over(asked, unit.minutes_in_hour),
                path="duty.burst",
            )
        if _brushed(lane) and duty.users == "hire fleet":
            yield DRIVE_03.found(where, "Changing crews, and it trips.", tags=tags(p, lane, "unit"), path="duty.users")
        on = duty.burst / (duty.burst + duty.pause) if duty.burst + duty.pause > 0 else 1.0
        if _brushed(lane) and on > DUTY_SHARE + 1e-9:
            yield DRIVE_04.found(
                where,
                "Bursts against pauses.",
                value=told(on, "ratio", "%"),
                limit=told(DUTY_SHARE, "ratio", "%"),
                margin=over(on, DUTY_SHARE),
                path="duty.pause",
            )
        if duty.quiet and unit.control == "on/off" and unit.drive != "hydraulic":
            yield DRIVE_05.found(
                where, f"{unit.name} is on/off.", value=unit.control, limit="stepped or proportional", path="duty.quiet"
            )
        if duty.quiet and unit.noise is None:
            yield DRIVE_13.found(where, f"{unit.name} names no noise.", path="duty.quiet")
        part = parts_of(p, lane).unit
        if lane.kept != "chosen" and part is not None and part.age_years is not None and part.age_years >= OLD_YEARS:
            yield DRIVE_12.found(
                where,
                "It is old.",
                value=f"{part.age_years:g} years",
                limit=f"{OLD_YEARS:g} years",
                path=part_path(p, lane, "unit", "age_years"),
            )


@check
def volts(p: Proposal) -> Iterator[Finding]:
    """Volts at the unit."""
    for lane in p.lanes:
        bank, unit = p.bank(lane.bank), lane.unit
        if bank is None or unit.volts is None:
            continue
        where = where_of(lane)
        if abs(bank.volts - unit.volts) > 0.09 * unit.volts:
            yield DRIVE_06.found(
                where,
                f"A {unit.volts:g} V unit on the {bank.name}.",
                value=told(bank.volts, "voltage"),
                limit=told(unit.volts, "voltage"),
                path=part_path(p, lane, "bank"),
            )
            continue
        state = lane.both_design or lane.design
        if state is None:
            continue
        least = running.least_volts(unit)
        cut = unit.cut_out_volts if running.is_constant_power(unit) and unit.cut_out_volts is not None else None
        if cut is not None and unit.fold_back_volts is not None and cut < state.terminal_volts < unit.fold_back_volts:
            yield DRIVE_07.found(
                where,
                "It folds back.",
                value=told(state.terminal_volts, "voltage"),
                limit=told(unit.fold_back_volts, "voltage"),
                margin=under(state.terminal_volts, unit.fold_back_volts),
                tags=tags(p, lane, "unit"),
            )
        elif state.terminal_volts < least * (1 - 1e-3):
            yield DRIVE_08.found(
                where,
                "Too few volts are left at it.",
                value=told(state.terminal_volts, "voltage"),
                limit=told(least, "voltage"),
                margin=under(state.terminal_volts, least),
                tags=tags(p, lane, "unit"),
                path="layout.routes",
            )
        if (
            unit.drive == "brushed"
            and lane.peak is not None
            and unit.rated_current is not None
            and bank.block.chemistry == "lfp"
            and lane.peak.current > HEAT_OVER_RATED * unit.rated_current
        ):
            yield DRIVE_09.found(
                where,
                "On full lithium volts.",
                value=told(lane.peak.current, "current"),
                limit=told(HEAT_OVER_RATED * unit.rated_current, "current"),
                tags=tags(p, lane, "unit"),
            )


@check
def hydraulics(p: Proposal) -> Iterator[Finding]:
    """What is judged of a hydraulic unit."""
    for lane in p.lanes:
        if lane.unit.drive != "hydraulic":
            continue
        yield DRIVE_10.found(where_of(lane), lane.not_computed.capitalize() + ".", tags=tags(p, lane, "unit"))
        for broken in (limit for limit in lane.hydraulic if not limit[3]):
            rule, value, limit = limit_words(broken)
            yield DRIVE_11.found(
                where_of(lane),
                f"{rule.capitalize()}.",
                value=value,
                limit=limit,
                margin=under(broken[1], broken[2]),
                path="propulsion.engines",
            )
