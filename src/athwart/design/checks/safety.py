"""Petrol vapour, retractable units, volts beyond the rule set: where the work can hurt or burn somebody."""

from __future__ import annotations

from collections.abc import Iterator

from athwart.design.checks.looks import lanes_of, over, part_path, tags, thruster_path, told, under, where_of
from athwart.design.checks.registry import check
from athwart.design.netlist import Component, ComponentKind
from athwart.design.proposal import Lane, Proposal
from athwart.findings import Code, Finding, code
from athwart.power.rules import RULE_SETS
from athwart.thruster.interlock import missing_interlocks

BOX_MARGIN = 0.10
DRAFT_VOLTS = 60.0

PETROL_01 = code(
    "PETROL-01",
    "The unit is not ignition-protected where petrol vapour may be",
    "stop",
    says="The unit sits in a space that petrol vapour may reach, and it is not ignition-protected.",
    why="Petrol vapour is heavier than air and lies in the bilge. Brushes and open contacts spark at every start.",
    remedy="Take an ignition-protected or a hydraulic unit, or part the space from the petrol as the rule describes.",
    source="33-cfr-183-410",
)
PETROL_02 = code(
    "PETROL-02",
    "A fuse, switch or contactor is not ignition-protected where petrol vapour may be",
    "stop",
    says="A fuse, switch, relay or converter sits in a petrol space and is not ignition-protected, or nothing says that it is.",
    why="The whole chain must not ignite: a protected motor behind an open contactor in the same locker is no protection.",
    remedy="Take protected parts, or move them out of that space.",
    source="33-cfr-183-410",
)
PETROL_03 = code(
    "PETROL-03",
    "The charger is not ignition-protected where petrol vapour may be",
    "stop",
    says="The charger stands in a petrol space and is not ignition-protected.",
    why="Its relays and its fan motor switch by themselves, also when nobody is aboard.",
    remedy="Move the charger, or take a protected one.",
    source="33-cfr-183-410",
)
PETROL_04 = code(
    "PETROL-04",
    "A bank stands where petrol vapour may be",
    "caution",
    says="The thruster bank stands in a petrol space.",
    why="A battery joint that works loose sparks, and so does a spanner.",
    remedy="Move the bank; else cover the terminals, fuse at the post with a protected holder, and air the space before work.",
    source="33-cfr-183-410",
)
PETROL_05 = code(
    "PETROL-05",
    "Portable petrol aboard and no space named",
    "caution",
    says="The brief says that portable petrol tanks or a petrol engine are aboard, and names no space that their vapour may reach.",
    why="Vapour runs to the lowest place. A stern locker with a portable tank makes a petrol space of its neighbour.",
    remedy="Mark the places with petrol_space in the brief, and check again.",
    source="33-cfr-183-410",
)
RETRACT_01 = code(
    "RETRACT-01",
    "May be raised while it turns",
    "stop",
    says="Nothing keeps the unit from being raised while its propeller turns.",
    why="The propeller runs into its door and the hull.",
    remedy="Interlock: raise only when the drive stands still.",
    source="common-practice",
)
RETRACT_02 = code(
    "RETRACT-02",
    "Nothing limits the boat's speed with the unit lowered",
    "stop",
    says="There is no interlock or warning of boat speed with the unit lowered, and she goes faster than the unit bears.",
    why="Leg, door and gear do not bear the water's force above the maker's speed.",
    remedy="Interlock or alarm at the unit's speed; retract by speed.",
    source="common-practice",
)
RETRACT_03 = code(
    "RETRACT-03",
    "The engine may go astern over the lowered unit",
    "caution",
    says="Nothing warns when the engine goes astern with the unit lowered.",
    why="Backing over chain or ground with the leg down breaks it off.",
    remedy="Interlock or alarm with the astern gear.",
    source="common-practice",
)
RETRACT_04 = code(
    "RETRACT-04",
    "It cannot be raised by hand",
    "caution",
    says="Neither the unit nor the brief names a way of raising it by hand.",
    why="With a flat bank or a sensor that lies, it stays down, and the boat cannot go fast or dry out.",
    remedy="Fit the hand gear, stow its handle beside it and try it at handing over.",
    source="common-practice",
)
RETRACT_05 = code(
    "RETRACT-05",
    "No locking pin",
    "note",
    says="No locking pin is named for the raised unit.",
    why="In a seaway the leg hangs on its gear alone, and works water past its seals.",
    remedy="Fit a pin and use it at sea.",
    source="common-practice",
)
RETRACT_06 = code(
    "RETRACT-06",
    "The box hardly rises above the loaded waterline",
    "stop",
    says="The top of the retracting box lies less than 100 mm above the loaded waterline.",
    why="A seal that leaks or a lid left off floods the boat.",
    remedy="Raise the box, or take another unit.",
    source="own-judgement",
)
RETRACT_07 = code(
    "RETRACT-07",
    "The box does not fit under the height named",
    "stop",
    says="The unit's box is higher or longer than the space named for it.",
    why="It would stand through the sole, or has to be cut, and a cut box leaks.",
    remedy="Take a lower unit, or another place.",
    source="own-judgement",
)
VOLTS_01 = code(
    "VOLTS-01",
    "Nominal volts beyond the rule set",
    "note",
    says="The bank's nominal volts lie above those the rule set covers.",
    why="The rule set ends at 50 V nominal. Sixteen cells of lithium iron phosphate are 51.2 V and charge to 58.4 V: beyond the present "
    "text, within the 60 V of a draft.",
    remedy="Take fifteen cells, or work to the standard for electric propulsion and have it approved.",
    source="iso-13297-scope",
)
VOLTS_02 = code(
    "VOLTS-02",
    "Charging volts beyond touch limits",
    "caution",
    says="The bank's highest volts on charge lie above 60 V d.c.",
    why="Above 60 V live parts must not be touched at all, and direct-current arcs do not go out by themselves.",
    remedy="Cover every live part against touch, and use devices rated for these volts.",
    source="iev-extra-low-voltage",
)


def _petrol(p: Proposal, place: str | None) -> bool:
    found = p.brief.place(place) if place is not None else None
    return p.brief.boat.petrol_aboard != "no" and found is not None and found.petrol_space


SPARKS: frozenset[ComponentKind] = frozenset(
    ("fuse", "main switch", "stop contactor", "network converter", "equaliser", "isolator", "panel", "stop button")
)
"""Kinds of part that can light vapour besides units and chargers, which have findings of their own."""


def _protected(p: Proposal, part: Component) -> bool:
    """Whether the row of a part says that it is ignition-protected; a part without a row says nothing."""
    if part.kind == "fuse":
        fuse = next((row for row in p.catalogue.fuses if row.id == part.row), None)
        return fuse is not None and p.catalogue.fuse_families[fuse.family].ignition_protected
    for rows in p.catalogue.tables().values():
        found = next((row for row in rows if row.id == part.row), None)
        if found is not None:
            return bool(getattr(found, "ignition_protected", False))
    return False


def _petrol_path(p: Proposal, part: Component) -> str:
    lane = next((lane for lane in p.lanes if lane.lane == part.lane), None)
    key = {"main fuse": "fuse", "main switch": "switch", "stop contactor": "stop"}.get(part.name)
    if lane is not None and key is not None:
        return part_path(p, lane, key)
    index = next(i for i, place in enumerate(p.brief.layout.places) if place.name == part.place)
    return f"layout.places[{index}].petrol_space"


@check
def petrol(p: Proposal) -> Iterator[Finding]:
    """The whole chain of a lane in spaces that petrol vapour may reach."""
    for lane in p.lanes:
        if _petrol(p, lane.thruster.place) and lane.unit.drive != "hydraulic" and not lane.unit.ignition_protected:
            yield PETROL_01.found(
                where_of(lane),
                f"{lane.unit.name} stands in {lane.thruster.place}.",
                tags=tags(p, lane, "unit"),
                path=part_path(p, lane, "unit"),
            )
    for part in p.netlist.components:
        if part.kind in SPARKS and part.place is not None and _petrol(p, part.place) and not _protected(p, part):
            yield PETROL_02.found(
                f"{part.name} {part.tag}", f"It stands in {part.place}.", tags=(part.tag,), path=_petrol_path(p, part)
            )
    for bank in p.banks:
        if not _petrol(p, bank.place):
            continue
        yield PETROL_04.found(bank.name, f"It stands in {bank.place}.", path="bank")
        choice = next((c for c in p.charging if c.bank == bank.name and c.charger is not None), None)
        if choice is not None and choice.charger is not None and not choice.charger.ignition_protected:
            lanes = lanes_of(p, bank)
            yield PETROL_03.found(
                f"charging of the {bank.name}",
                f"{choice.charger.name} stands in {bank.place}.",
                path=part_path(p, lanes[0], "charger"),
            )
    if p.brief.boat.petrol_aboard in ("engine", "portable tanks") and not any(
        place.petrol_space for place in p.brief.layout.places
    ):
        yield PETROL_05.found("boat", f"Petrol aboard: {p.brief.boat.petrol_aboard}.", path="boat.petrol_aboard")


INTERLOCKS: tuple[tuple[str, Code], ...] = (
    ("raise only when stopped", RETRACT_01),
    ("engine astern", RETRACT_03),
    ("locking pin", RETRACT_05),
)


@check
def retracting(p: Proposal) -> Iterator[Finding]:
    """Interlocks, hand gear and box of retractable units."""
    for lane in p.lanes:
        if lane.unit.housing != "retractable":
            continue
        where, path = where_of(lane), thruster_path(p, lane, "retract_interlocks")
        fitted = lane.thruster.retract_interlocks
        missing = set(missing_interlocks(fitted))
        for name, entry in INTERLOCKS:
            if name in missing:
                yield entry.found(where, f"No interlock: {name}.", tags=tags(p, lane, "unit"), path=path)
        speed, bears = p.brief.duty.speed_under_way, lane.unit.speed_lowered_most
        if "speed limit" in missing and (speed is None or bears is None or speed > bears):
            yield RETRACT_02.found(
                where,
                "Nothing minds her speed with the unit lowered.",
                value=told(speed, "speed", "kn") if speed is not None else "speed not given",
                limit=told(bears, "speed", "kn") if bears is not None else "the unit's own limit",
                margin=over(speed, bears) if speed is not None and bears is not None else None,
                tags=tags(p, lane, "unit"),
                path=path,
            )
        if "manual raise" not in fitted and (lane.unit.manual_raise is not True or p.mode == "check"):
            yield RETRACT_04.found(where, "No hand gear is named.", tags=tags(p, lane, "unit"), path=path)
        yield from _box(p, lane)


def _box(p: Proposal, lane: Lane) -> Iterator[Finding]:
    where, tunnel = where_of(lane), lane.thruster.tunnel
    room, height = tunnel.height_above_waterline_for_box, lane.unit.box_height
    if room is not None and room < BOX_MARGIN:
        yield RETRACT_06.found(
            where,
            "The box ends close to the water.",
            value=told(room, "length", "mm"),
            limit=told(BOX_MARGIN, "length", "mm"),
            margin=under(room, BOX_MARGIN),
            path=thruster_path(p, lane, "tunnel.height_above_waterline_for_box"),
        )
    above = height - tunnel.axis_depth if height is not None else None
    if (
        room is not None
        and above is not None
        and height is not None
        and height > room + tunnel.axis_depth + 0.5 * (lane.unit.tunnel_diameter or 0.0)
    ):
        yield RETRACT_07.found(
            where,
            "The box is higher than the room for it.",
            value=told(height, "length", "mm"),
            limit=told(room + tunnel.axis_depth, "length", "mm"),
            margin=over(height, room + tunnel.axis_depth),
            path=thruster_path(p, lane, "tunnel.height_above_waterline_for_box"),
        )
    length = tunnel.box_length_most
    if length is not None and lane.unit.box_length is not None and lane.unit.box_length > length:
        yield RETRACT_07.found(
            where,
            "The box is longer than the room for it.",
            value=told(lane.unit.box_length, "length", "mm"),
            limit=told(length, "length", "mm"),
            margin=over(lane.unit.box_length, length),
            path=thruster_path(p, lane, "tunnel.box_length_most"),
        )


@check
def volts(p: Proposal) -> Iterator[Finding]:
    """Nominal and charging volts against the rule set and touch limits."""
    most = RULE_SETS[p.brief.choices.rule_set].greatest_volts.value
    for bank in p.banks:
        if bank.volts > most:
            yield VOLTS_01.found(
                bank.name,
                f"{bank.block.name}, {bank.series} in series.",
                value=told(bank.volts, "voltage"),
                limit=told(most, "voltage"),
                margin=over(bank.volts, most),
                path="bank",
            )
        if bank.charging_volts > DRAFT_VOLTS:
            yield VOLTS_02.found(
                bank.name,
                "On charge.",
                value=told(bank.charging_volts, "voltage"),
                limit=told(DRAFT_VOLTS, "voltage"),
                margin=over(bank.charging_volts, DRAFT_VOLTS),
                path="bank",
            )
