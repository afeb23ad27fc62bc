"""Stopping a unit that runs on: what breaks its power, from where, how fast, and whether it can."""

from __future__ import annotations

from collections.abc import Iterator

from athwart.design.checks.looks import over, part_path, parts_of, tags, told, under, where_of
from athwart.design.checks.registry import check
from athwart.design.proposal import Bank, Lane, Proposal
from athwart.findings import Finding, Severity, code
from athwart.units import Second

REACH: Second = 5.0
REACH_STOP: Second = 30.0
EXPOSED_INGRESS = 66

STOP_01 = code(
    "STOP-01",
    "Nothing breaks the power circuit",
    "stop",
    says="No device other than the reversing contactors or the drive opens the thruster's power circuit on command from the helm.",
    why="A power contactor that welds keeps the motor running whatever the control does. Switching off the panel only kills the coil, "
    "which the welded contact no longer needs.",
    remedy="Fit a stop device in the power circuit, worked from every helm, with a hand-worked main switch behind it.",
    source="common-practice",
)
STOP_02 = code(
    "STOP-02",
    "The stop only breaks the control circuit",
    "stop",
    says="The stop at the helm opens the control circuit and leaves the power circuit closed.",
    why="With a welded contact the motor runs on although panel and coil are dead.",
    remedy="Move the stop into the power circuit, or add a device there.",
    source="common-practice",
)
STOP_03 = code(
    "STOP-03",
    "The stop is the reversing contactor itself",
    "stop",
    says="The device named as stop is the contactor that switches and reverses the motor.",
    why="It is the part that welds. What has failed closed cannot be the thing that opens.",
    remedy="Fit a second device in series, of its own type and with its own coil feed.",
    source="common-practice",
)
STOP_04 = code(
    "STOP-04",
    "A helm has no stop within reach",
    "stop",
    says="At a helm that can command a thruster there is no stop within reach.",
    why="A boat that turns by itself in a fairway leaves seconds. Whoever steers must stop it without leaving the wheel.",
    remedy="Put a stop button at this helm, in series with the others where it is energise to run.",
    source="common-practice",
)
STOP_05 = code(
    "STOP-05",
    "The main switch is far from a helm",
    "caution",
    says="Reaching the hand-worked main switch from this helm takes long, or nobody wrote down how long.",
    why="A stop contactor can weld too; then only the main switch is left. Under five seconds is wanted, over thirty stops the boat "
    "only after she has hit something.",
    remedy="Move the switch, give it a remote handle, and write the seconds into the brief after trying.",
    source="own-judgement",
)
STOP_06 = code(
    "STOP-06",
    "No hand-worked main switch",
    "stop",
    says="The lane has no main switch that a hand can open.",
    why="It is the last thing that opens when everything else has welded, and the one that is locked off while somebody is in the water.",
    remedy="Fit a main switch next to the bank, lockable off.",
    source="common-practice",
)
STOP_07 = code(
    "STOP-07",
    "The main switch cannot break a stalled motor",
    "stop",
    says="The main switch is rated to break less than the unit draws with its propeller locked, at the bank's highest volts.",
    why="A switch that opens more than it can break draws an arc, burns or welds.",
    remedy="Take a switch with the breaking rating, or a unit of less stalled current.",
    source="own-judgement",
)
STOP_08 = code(
    "STOP-08",
    "The stop device cannot break a stalled motor",
    "stop",
    says="The stop device is rated to break less than the stalled current at the bank's highest volts, or for less than those volts.",
    why="It is called on exactly when something is wrong, jammed propellers included.",
    remedy="Take a device with the breaking rating at these volts.",
    source="own-judgement",
)
STOP_09 = code(
    "STOP-09",
    "The stop lets go at the deepest sag",
    "caution",
    says="An energise-to-run stop is held by the bank; with everything running, cold and aged, the bank's volts come near those at "
    "which the coil lets go.",
    why="The unit would be cut off in the middle of a burst, and its contacts would chatter under load.",
    remedy="Take an electronic coil with lower hold volts, feed the loop from the ship's battery, or take a stiffer bank.",
    source="coil-volts",
)
STOP_10 = code(
    "STOP-10",
    "A latching stop needs a feed of its own",
    "note",
    says="A latching stop opens by a pulse and stays where it is when its feed is gone; it is fed from the ship's battery, not from the "
    "thruster bank it isolates.",
    why="Fed from the same bank it could not be opened once that bank is flat, which is when contacts weld.",
    remedy="Prove at handing over that it opens with the thruster bank flat.",
    source="own-judgement",
)
STOP_11 = code(
    "STOP-11",
    "The main switch cannot be locked off",
    "caution",
    says="The main switch has no means of being locked in the off position.",
    why="A thruster that starts while somebody is in the water or in the tunnel maims. Off must mean off until that person says otherwise.",
    remedy="Take a lockable switch, or fit a lock-out hasp; the key goes with the swimmer.",
    source="common-practice",
)
STOP_12 = code(
    "STOP-12",
    "An exposed helm has a panel that lets water in",
    "caution",
    says="The panel of an open helm is of a degree of protection below IP66.",
    why="Water in a helm control starts a thruster by itself, in spray or after a night's rain.",
    remedy="Take a panel of IP66 or better, cover it, and keep the power circuit off until it is needed.",
    source="common-practice",
)
STOP_13 = code(
    "STOP-13",
    "A wireless control without a wired stop",
    "stop",
    says="A helm works by radio and has no wired stop within reach.",
    why="A radio that is lost, flat or stuck cannot stop what it started.",
    remedy="Fit a wired stop where the radio is used, and a time-out in the receiver.",
    source="own-judgement",
)
STOP_14 = code(
    "STOP-14",
    "The panel does not suit the unit's control",
    "caution",
    says="The helm's panel is made for another kind of control than the unit: on/off, stepped or proportional.",
    why="An on/off panel on a proportional unit wastes it; a proportional lever on an on/off unit promises what is not there.",
    remedy="Take the panel that belongs to the unit's control.",
    source="common-practice",
)
STOP_15 = code(
    "STOP-15",
    "Two helms command and nothing says which",
    "note",
    says="More than one helm may command at the same time.",
    why="Opposite commands from two helms reverse a motor at full speed, which is how contacts weld.",
    remedy="Let one helm take command and the others follow, and try it at handing over.",
    source="common-practice",
)
STOP_16 = code(
    "STOP-16",
    "The main switch carries less than the run asks",
    "stop",
    says="The main switch or stop device is rated for less current over the longest run than the unit draws.",
    why="It overheats, its contacts soften and weld.",
    remedy="Take a larger device.",
    source="own-judgement",
)


def _bank(p: Proposal, lane: Lane) -> Bank | None:
    return p.bank(lane.bank)


def _electric(p: Proposal) -> Iterator[Lane]:
    """Lanes with a power circuit."""
    return (lane for lane in p.lanes if lane.unit.drive != "hydraulic")


@check
def breaks_power(p: Proposal) -> Iterator[Finding]:
    """What opens the power circuit."""
    for lane in _electric(p):
        part = parts_of(p, lane).stop
        if lane.stop is not None and (part is None or p.mode == "propose"):
            continue
        path = part_path(p, lane, "stop")
        if part is not None and part.is_the_reversing_contactor:
            yield STOP_03.found(
                where_of(lane), "Its stop is the contactor that reverses the motor.", tags=tags(p, lane, "unit"), path=path
            )
        elif part is not None and part.present and part.breaks == "control circuit":
            yield STOP_02.found(where_of(lane), "Its stop opens the control circuit only.", tags=tags(p, lane, "unit"), path=path)
        elif lane.stop is None:
            yield STOP_01.found(where_of(lane), "No stop device opens its power circuit.", tags=tags(p, lane, "unit"), path=path)


@check
def reach(p: Proposal) -> Iterator[Finding]:
    """Stops and the main switch from each helm."""
    for index, helm in enumerate(p.brief.helms):
        if not helm.in_command:
            continue
        where = f"helm {helm.name}"
        if helm.wireless and not helm.stop_within_reach:
            yield STOP_13.found(where, "It works by radio and has no wired stop.", path=f"helms[{index}].wireless")
        elif not helm.stop_within_reach:
            yield STOP_04.found(where, "It has no stop within reach.", path=f"helms[{index}].stop_within_reach")
    yield from _way_to_switch(p)


def _way_to_switch(p: Proposal) -> Iterator[Finding]:
    """The helm from which the main switch is farthest, and helms of which nobody knows."""
    commanding = [(index, helm) for index, helm in enumerate(p.brief.helms) if helm.in_command]
    for index, helm in commanding:
        if helm.seconds_to_main_switch is None:
            yield STOP_05.found(
                f"helm {helm.name}",
                "Nobody wrote down how long the way to the main switch takes.",
                limit=told(REACH, "time"),
                severity="note",
                path=f"helms[{index}].seconds_to_main_switch",
            )
    known = [(helm.seconds_to_main_switch, index, helm) for index, helm in commanding if helm.seconds_to_main_switch is not None]
    if not known:
        return
    seconds, index, helm = max(known, key=lambda entry: entry[0])
    if seconds > REACH:
        severity: Severity = "stop" if seconds > REACH_STOP else "caution" if seconds > 2 * REACH else "note"
        yield STOP_05.found(
            f"helm {helm.name}",
            "From here the main switch takes too long to reach.",
            value=told(seconds, "time"),
            limit=told(REACH, "time"),
            margin=over(seconds, REACH),
            severity=severity,
            path=f"helms[{index}].seconds_to_main_switch",
        )


@check
def devices(p: Proposal) -> Iterator[Finding]:
    """Main switch and stop device against the stalled current."""
    for lane in _electric(p):
        bank = _bank(p, lane)
        if lane.switch is None:
            yield STOP_06.found(
                where_of(lane),
                "It has no hand-worked main switch.",
                tags=tags(p, lane, "unit"),
                path=part_path(p, lane, "switch"),
            )
        elif not lane.switch.lockable:
            yield STOP_11.found(
                where_of(lane),
                "Its main switch cannot be locked off.",
                tags=tags(p, lane, "main switch"),
                path=part_path(p, lane, "switch"),
            )
        if bank is None or lane.start_current is None or lane.peak is None:
            continue
        current = max(lane.peak.current, lane.design.current if lane.design else 0.0)
        for device, entry, kind in ((lane.switch, STOP_07, "main switch"), (lane.stop, STOP_08, "stop contactor")):
            if device is None:
                continue
            words = "The " + ("main switch" if kind == "main switch" else "stop device")
            mark = tags(p, lane, "main switch") if kind == "main switch" else tags(p, lane, "stop contactor")
            path = part_path(p, lane, "switch" if kind == "main switch" else "stop")
            if device.breaking < lane.start_current or device.volts_most < bank.charging_volts - 1e-9:
                yield entry.found(
                    where_of(lane),
                    f"{words} breaks {told(device.breaking, 'current')} at up to {told(device.volts_most, 'voltage')}.",
                    value=told(lane.start_current, "current"),
                    limit=told(device.breaking, "current"),
                    margin=over(lane.start_current, device.breaking),
                    tags=mark,
                    path=path,
                )
            rated = device.five_minutes if p.need.run_time <= 300 else device.continuous
            if current > rated:
                yield STOP_16.found(
                    where_of(lane),
                    f"{words} carries less than the run draws.",
                    value=told(current, "current"),
                    limit=told(rated, "current"),
                    margin=over(current, rated),
                    tags=mark,
                    path=path,
                )


@check
def holds(p: Proposal) -> Iterator[Finding]:
    """The stop's coil at the deepest sag, and a latching stop's feed."""
    for lane in _electric(p):
        bank = _bank(p, lane)
        if lane.stop is None or bank is None:
            continue
        if lane.stop.stop_kind == "latching":
            yield STOP_10.found(
                where_of(lane), "Its stop latches and is fed from the ship's battery.", tags=tags(p, lane, "stop contactor")
            )
            continue
        part = parts_of(p, lane).stop
        if part is not None and part.fed_from == "ship bank":
            continue
        state = lane.both_design or lane.design
        if lane.stop.hold_volts is None or state is None:
            continue
        least = 1.15 * lane.stop.hold_volts
        if state.bank_volts < least:
            yield STOP_09.found(
                where_of(lane),
                "With everything running the bank comes near the volts at which the stop's coil lets go.",
                value=told(state.bank_volts, "voltage"),
                limit=told(least, "voltage"),
                margin=under(state.bank_volts, least),
                tags=tags(p, lane, "stop contactor"),
                path=part_path(p, lane, "stop"),
            )


@check
def helms(p: Proposal) -> Iterator[Finding]:
    """Panels: water, control, command."""
    rows = {row.id: row for row in p.catalogue.panels}
    for index, helm in enumerate(p.brief.helms):
        row = rows.get(helm.panel or "")
        where = f"helm {helm.name}"
        if helm.exposed and row is not None and _ingress(row.ingress) < EXPOSED_INGRESS:
            yield STOP_12.found(
                where,
                f"Its panel is {row.ingress}.",
                value=row.ingress,
                limit=f"IP{EXPOSED_INGRESS}",
                path=f"helms[{index}].panel",
            )
        if row is not None and not any(lane.unit.control == row.control for lane in p.lanes):
            controls = ", ".join(sorted({lane.unit.control for lane in p.lanes}))
            yield STOP_14.found(
                where,
                f"Its panel is {row.control}; the units are {controls}.",
                value=row.control,
                limit=controls,
                path=f"helms[{index}].panel",
            )
    commanding = [helm.name for helm in p.brief.helms if helm.in_command]
    if len(commanding) > 2:
        yield STOP_15.found("helms", f"{len(commanding)} helms may command at once: {', '.join(commanding)}.", path="helms")


def _ingress(text: str) -> int:
    """Digits of a degree of protection, 0 where unknown."""
    digits = "".join(character for character in text if character.isdigit())
    return int(digits) if digits else 0
