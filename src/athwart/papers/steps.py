"""Words of the papers that follow from the parts: install steps, fault drills, maintenance, the owner's page, file entries.

Text lives here and not in templates, so that tests can read it. A caution stands before what it guards: STOP is danger to people
or fire, CAUTION harm to parts, NOTE worth knowing. Every list defers to local codes and licensed practice.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from athwart.design.proposal import Bank, Lane, Proposal
from athwart.papers.figures import DASH, amps, duration, knots, number, volts, with_unit
from athwart.power.rules import RULE_SETS

Word = Literal["STOP", "CAUTION", "NOTE", ""]


@dataclass(frozen=True, slots=True)
class Step:
    """One act, what it takes, and what to mind while doing it."""

    number: int
    act: str
    tools: str
    word: Word = ""
    care: str = ""


@dataclass(frozen=True, slots=True)
class Drill:
    """A fault played through: what is done, what must happen, by when."""

    number: int
    fault: str
    act: str
    must: str


@dataclass(frozen=True, slots=True)
class Task:
    """A line of the maintenance plan."""

    when: str
    what: str
    measure: str


CUTTING = "Cutting a hull below the waterline: shored, surveyed, with the yard's structural approval."
LICENSED = "Work on the electrical system is done and signed by a person licensed for it where the law asks for one."
ANSWERS = (
    "These papers are calculations and proposals. The person who installs answers for the work. Where a local code, a class rule, "
    "the maker's instruction or a licensed person says otherwise, that holds."
)
UNVERIFIED = "From memory, unverified: replace by the data of the part bought."


def _tags(p: Proposal, kind: str, lane: int | None = None) -> list[str]:
    return [c.tag for c in p.netlist.components if c.kind == kind and (lane is None or c.lane == lane) and not c.aboard]


def listed(tags: list[str] | tuple[str, ...]) -> str:
    """``F1.1, F1.2 and F1.3``."""
    return tags[0] if len(tags) == 1 else f"{', '.join(tags[:-1])} and {tags[-1]}" if tags else DASH


def new_lanes(p: Proposal) -> tuple[Lane, ...]:
    """Lanes with a unit to be fitted."""
    return tuple(lane for lane in p.lanes if lane.kept == "chosen")


# ---- install


def install(p: Proposal) -> tuple[Step, ...]:
    """Steps in the order they are done; the one that makes a conductor live says so."""
    drafts = [*_before(p), *_hull(p), *_equipment(p), *_wiring(p), *_control(p), *_live(p)]
    return tuple(Step(number, *draft) for number, draft in enumerate(drafts, 1))


Draft = tuple[str, str, Word, str]


def _before(p: Proposal) -> Iterator[Draft]:
    yield (
        "Hold these papers against the boat: places, routes, clear spaces, hull thickness. What differs is told to the designer before anything is cut.",
        "tape, papers, torch",
        "NOTE",
        "A length that differs by more than a tenth changes the cable schedule.",
    )
    yield (
        "Isolate the ship's batteries and shore power, lock and tag the switches, prove dead at the fuse block.",
        "padlock, tag, voltmeter",
        "STOP",
        "A spanner across a battery burns and blinds: rings off, goggles on, insulated tools.",
    )
    if any(c.aboard and c.lane > 0 for c in p.netlist.components):
        yield (
            "Take readings of what stays aboard, as found, before anything is undone; label each wire at both ends.",
            "voltmeter, clamp meter, labels",
            "",
            "",
        )


def _hull(p: Proposal) -> Iterator[Draft]:
    for lane in new_lanes(p):
        tag, unit = f"M{lane.lane}.1", lane.unit
        if unit.housing not in ("tunnel", "rim", "retractable"):
            continue
        hole = "tunnel" if unit.housing != "retractable" else "well"
        yield (
            f"{tag}: mark the {hole} of {lane.thruster.identity} from both sides against the tunnel sheet; a second person checks before cutting.",
            "laser or plumb line, template",
            "STOP",
            CUTTING,
        )
        yield (
            f"{tag}: cut, fit and join the {hole} to the hull as the tunnel sheet says; round the ends; fair.",
            "by the yard",
            "CAUTION",
            "Seal every cut edge and core at once.",
        )
        yield (
            f"{tag}: leak test of the {hole} and its joint, before the unit goes in; date and name on sheet {p.brief.number}-M{lane.lane}.",
            "hose or vacuum, lamp",
            "STOP",
            "A joint that weeps is made anew.",
        )
        yield (
            f"{tag}: fit the unit, leg and propeller by the maker's instruction, new seals, anode unpainted.",
            "maker's tools, torque wrench",
            "CAUTION",
            "Insulate a leg of another metal from the tunnel.",
        )


def _equipment(p: Proposal) -> Iterator[Draft]:
    for bank in p.banks:
        if bank.kept == "chosen":
            tags = [
                c.tag
                for c in p.netlist.components
                if c.kind == "block" and c.row == bank.block.id and not c.aboard and c.place == bank.place
            ]
            each = with_unit(bank.block.mass, "kg")
            yield (
                f"Set {listed(tags)} at {bank.place}, held so that nothing moves 25 mm under twice its weight; posts covered.",
                "lifting strap, two people",
                "CAUTION",
                f"{each} each. {'Gas: the space is ventilated before charging starts.' if bank.block.chemistry != 'lfp' else 'Protection circuit stays off until wired.'}",
            )
    boards = [
        *_tags(p, "main switch"),
        *_tags(p, "stop contactor"),
        *[tag for tag in _tags(p, "fuse") if not tag.startswith("F0")],
    ]
    if boards:
        rules = RULE_SETS[p.brief.choices.rule_set]
        most = rules.fuse_distance(at_battery=True, sheathed=False).value * 1e3
        yield (
            f"Mount {listed(boards)}. Main and string fuses sit within {number(most)} mm of their source, along the conductor. No fuse links in yet.",
            "drill, spirit level",
            "NOTE",
            "Main switch where a hand reaches it without a tool.",
        )
    chargers = _tags(p, "charger")
    if chargers:
        yield f"Mount {listed(chargers)} upright, air free on all sides, sensor on the bank.", "screwdriver", "", ""


def _wiring(p: Proposal) -> Iterator[Draft]:
    rules = RULE_SETS[p.brief.choices.rule_set]
    spacing = number(rules.battery_support_spacing.value * 1e3)
    yield (
        f"Pull the power cables by schedule {p.brief.number}-W1; supports every {spacing} mm; clear of heat, bilge water and chafe; plus and minus side by side.",
        "cable lubricant, clips, grommets",
        "CAUTION",
        "Both ends stay taped and free until their step.",
    )
    yield (
        "Crimp lugs, one crimp die for one size, shrink a sleeve over each; markers at both ends: own tag, then far end.",
        "hexagonal or indent crimper, heat gun",
        "CAUTION",
        "Pull each lug by hand; a lug that turns is cut off.",
    )
    for lane in p.lanes:
        if lane.bank is None:
            continue
        parts = [
            tag
            for tag in (f"F{lane.lane}.1", f"Q{lane.lane}.1", f"Q{lane.lane}.2")
            if any(c.tag == tag for c in p.netlist.components)
        ]
        yield (
            f"Connect group {lane.lane}N, then group {lane.lane}P from M{lane.lane}.1 back to {listed(list(reversed(parts)))}; torque each stud and mark it.",
            "torque wrench, paint pen",
            "NOTE",
            "Torque by the maker of the part. Only lugs on a stud, the largest current lowest.",
        )
    ties = [c.tag for c in p.netlist.conductors if c.purpose == "common negative link"]
    if ties:
        yield (
            f"Connect {listed(ties)} to X0.2: the common negative, no fuse in it.",
            "torque wrench",
            "CAUTION",
            "Never by the screen or the negative of a network cable.",
        )


def _control(p: Proposal) -> Iterator[Draft]:
    for lane in p.lanes:
        buttons = _tags(p, "stop button", lane.lane)
        if buttons:
            yield (
                f"Wire the stop loop {lane.lane}C through {listed(buttons)} to the coil of Q{lane.lane}.2.",
                "crimper, meter",
                "STOP",
                "The loop breaks the power circuit, not only the panel.",
            )
    if p.network is not None:
        ends = listed([c.tag for c in p.netlist.components if c.kind == "terminator"])
        yield (
            f"Lay the control line by drawing {p.brief.number}-N1: trunk, drops, {ends} at the two ends and nowhere else; measure {number(p.network.resistance_power_off)} Ω.",
            "network tester or ohmmeter",
            "NOTE",
            "Screen to the boat's ground at one point.",
        )
        if p.network.changes:
            yield f"Control line, in this order: {'; '.join(p.network.changes)}.", "", "", ""


def _live(p: Proposal) -> Iterator[Draft]:
    sheets = listed([f"{p.brief.number}-M{lane.lane}" for lane in p.lanes if lane.bank is not None])
    if not any(lane.bank is not None for lane in p.lanes):
        return
    yield f"Take the readings of group A of {sheets}.", "insulation tester, ohmmeter", "", ""
    for bank in p.banks:
        if bank.series > 1 and bank.kept == "chosen":
            lane = min(entry.lane for entry in p.lanes if entry.bank == bank.name)
            yield (
                f"Close the links {lane}L of {bank.name}, the last one with all fuses out. Live from here on at the posts.",
                "insulated wrench",
                "STOP",
                f"{volts(bank.volts, 0)} nominal, {number(bank.fault_current_most / 1e3, 1)} kA into a short circuit.",
            )
    yield (
        f"Put in the control and charger fuses, then the main fuses. Live from here on to the main switches. Group B of {sheets}.",
        "insulated puller, meter",
        "STOP",
        "Polarity is measured before the last lug.",
    )
    yield f"Ship's fuses in, charger on: group C of {sheets}.", "clamp meter", "CAUTION", "Warm lugs: switch off, make anew."
    yield (
        f"Afloat, lines doubled: groups D, E and F of {sheets}, in that order. First turn of the propeller: one second.",
        "two people, clamp meter, voltmeter",
        "STOP",
        "Nobody in the water, nobody near the tunnel. No full thrust before every stop has been proved.",
    )
    yield (
        f"Hang the owner's sheet {p.brief.number}-O1 and the lock-out card at the helm, label switches and stops with their tags.",
        "",
        "",
        "",
    )


# ---- fault drills


def drills(p: Proposal) -> tuple[Drill, ...]:
    """Played through at handing over, with the owner at the lever."""
    found: list[tuple[str, str, str]] = []
    for lane in p.lanes:
        if lane.bank is None:
            continue
        n, name = lane.lane, lane.thruster.identity
        stops = listed(_tags(p, "stop button", n)) if _tags(p, "stop button", n) else "none fitted"
        found.append(
            (
                f"{name}: keeps running, lever released",
                f"press stop ({stops}) from each helm",
                f"power gone at M{n}.1 within 1 s; stays off",
            )
        )
        if lane.switch is not None:
            seconds = [h.seconds_to_main_switch for h in p.brief.helms if h.seconds_to_main_switch is not None]
            took = (
                f"in hand within {duration(max(seconds))} from the farthest helm" if seconds else "time walked and written down"
            )
            found.append(
                (f"{name}: stop contactor welded too", f"walk to Q{n}.1 and turn it off under load for one second", took)
            )
    if any(h.panel or h.place for h in p.brief.helms) and p.network is not None:
        found.append(
            (
                "control line cut at a helm",
                "pull the drop of one panel while the unit runs",
                "unit stops within 2 s; the other helms still command",
            )
        )
        found.append(
            ("two helms command at once", "levers moved at both", "one has command, or both are refused; never a mixture")
        )
    if any(lane.bank is not None for lane in p.lanes):
        found.append(
            (
                "bank low",
                "read the panel's warning at the fold-back or cut-out volts given by the maker",
                "owner says what it means: a few seconds left",
            )
        )
        found.append(
            ("person overboard near the boat", "main switch off, lock on, key to the person who calls", "no lever does anything")
        )
    for lane in p.lanes:
        if lane.unit.housing == "retractable":
            found.append(
                (
                    f"{lane.thruster.identity}: will not raise",
                    "raise by hand as the maker says, pin in",
                    "done by the owner, tools found without searching",
                )
            )
    return tuple(Drill(number, *entry) for number, entry in enumerate(found, 1))


# ---- maintenance


def maintenance(p: Proposal) -> tuple[Task, ...]:
    """What is looked after and when; the maker's manual rules."""
    tasks = [
        Task("each month in season", "Run each unit five seconds each way; press every stop once", "stops at once"),
        Task("each month in season", "Main switches turned off and on by hand", "free, click felt"),
        Task("twice a year", "Rest volts of each block, an hour after charging", "blocks of a string within 0.2 V"),
        Task(
            "twice a year",
            "Volts at the unit under full thrust, ten seconds, against the commissioning sheet",
            "within 0.5 V of the first reading at equal temperature",
        ),
        Task(
            "yearly",
            "Millivolts over each piece under full thrust; joints that grew by a fifth are opened, cleaned and made anew",
            "commissioning sheet, group E",
        ),
        Task("yearly", "Every stud torqued and marked; boots and supports looked over", "no mark has moved"),
        Task("yearly", "Control line: ohms with the power off", "54 to 66 Ω"),
        Task(
            "yearly, afloat or ashore",
            "Anode, propeller, tunnel ends, antifoul inside the tunnel",
            "anode at half or less is replaced",
        ),
    ]
    if any(lane.unit.drive == "brushed" for lane in p.lanes):
        tasks.append(
            Task(
                "yearly",
                "Brushes and commutator; dust taken up with a mask on and the space aired",
                "length by the maker's manual",
            )
        )
    if any(lane.unit.housing == "retractable" for lane in p.lanes):
        tasks.append(Task("yearly", "Raising gear, its seals, drain and interlocks; raise once by hand", "raises in one go"))
    if any(bank.block.chemistry in ("flooded", "starting") for bank in p.banks):
        tasks.append(Task("each month in season", "Electrolyte level", "plates covered; water without minerals only"))
    if any(bank.block.chemistry != "lfp" for bank in p.banks):
        tasks.append(
            Task(
                "winter lay-up",
                "Bank charged full every six weeks or on float; main switches off",
                "never below 12.4 V a 12 V block",
            )
        )
    tasks.append(
        Task(
            "every five years",
            "Bank weighed against its design: volts under load as at commissioning",
            "replaced as a whole, never block by block",
        )
    )
    tasks.append(Task("after every repair", "The groups of the commissioning sheet that the repair touches", "sheet signed anew"))
    return tuple(tasks)


# ---- the owner


@dataclass(frozen=True, slots=True)
class OwnerFigure:
    """A large figure of the owner's sheet with its condition."""

    figure: str
    unit: str
    condition: str


def owner_figures(p: Proposal) -> tuple[OwnerFigure, ...]:
    """Minutes, knots, hours: as they are with the bank cold and aged."""
    run = [lane.run_time_full for lane in p.lanes if lane.run_time_full is not None]
    held = [lane.wind_held_worst for lane in p.lanes if lane.wind_held_worst is not None]
    refill = [choice.refill_time for choice in p.charging]
    found = []
    if run:
        shortest = min(run)
        minutes = shortest >= 120.0
        shown = (
            number(shortest / 60.0 if shortest < 36_000 else 600.0, 0 if shortest >= 600 else 1) if minutes else number(shortest)
        )
        found.append(
            OwnerFigure(
                shown, "minutes" if minutes else "seconds", "at full thrust with a cold, aged bank; then let it cool and charge"
            )
        )
    if held:
        read = {"on deck": "read on deck", "masthead": "read at the masthead", "forecast 10 m": "forecast at 10 m"}[
            p.brief.wind.read_at
        ]
        found.append(
            OwnerFigure(
                knots(min(held)).split()[0].split("\u00a0")[0],
                "knots",
                f"from the worst side, {read}, with a cold, aged bank: about what it can hold",
            )
        )
    if refill:
        hours = max(refill) / 3600.0
        found.append(
            OwnerFigure(
                "never" if hours > 1e6 else number(hours, 1) if hours >= 1 else number(hours * 60),
                "" if hours > 1e6 else "hours" if hours >= 1 else "minutes",
                "to refill after one docking, charger on",
            )
        )
    return tuple(found)


def owner_rules(p: Proposal) -> tuple[str, ...]:
    """Rules in words of daily life."""
    rules = ["Short bursts, a second to five each, then wait for the boat to move."]
    if any(lane.unit.minimum_reversal or lane.unit.control == "on/off" for lane in p.lanes):
        rules.append("Count to two before you go from one side to the other.")
    rules.append("Weak or slow? Stop using it and charge the bank. Holding the lever longer makes it worse.")
    rules.append("It helps you to turn in harbour. It does not hold the boat against a blow: use lines.")
    if any(lane.unit.housing == "retractable" for lane in p.lanes):
        rules.append("Raise it before you go faster than walking pace.")
    rules.append("Leaving the boat: main switches off.")
    return tuple(rules)


def owner_stops(p: Proposal) -> tuple[tuple[str, str], ...]:
    """What to do when it keeps running, and with people in the water."""
    switches = [(f"Q{lane.lane}.1", place_of(p, f"Q{lane.lane}.1")) for lane in p.lanes if lane.switch is not None]
    where = "; ".join(f"{tag}, {place}" for tag, place in switches) or "no main switch"
    buttons = [c.name.removeprefix("stop, ") for c in p.netlist.components if c.kind == "stop button"]
    helms = listed(sorted(set(buttons))) if buttons else ""
    first = f"Press STOP ({helms}). Still turning? " if helms else ""
    return (
        ("It keeps running?", f"{first}Turn off the main switch: {where}."),
        ("People in the water?", f"Main switch off and locked ({where}), the key with the swimmer. Helm off is not enough."),
    )


def place_of(p: Proposal, tag: str) -> str:
    """Where a part is, in words."""
    return next((c.place or "place not given" for c in p.netlist.components if c.tag == tag), "place not given")


def lock_out(p: Proposal) -> tuple[str, ...]:
    """The card that hangs on the locked switch."""
    return (
        "DO NOT SWITCH ON. People in the water or hands in the tunnel.",
        "Only the person named here takes this lock off.",
        f"Switches locked: {listed([f'Q{lane.lane}.1' for lane in p.lanes if lane.switch is not None])}",
        "Name, date, time:",
    )


# ---- entries for the manual and the file


def manual_entries(p: Proposal) -> tuple[tuple[str, str], ...]:
    """What goes into the owner's manual."""
    found = []
    for lane in p.lanes:
        unit = lane.unit
        place = next((c.place for c in p.netlist.components if c.tag == f"Q{lane.lane}.1"), None)
        found.append(
            (
                f"{lane.thruster.identity} thruster",
                f"{unit.name}, {unit.drive}, {unit.housing}; {number(unit.thrust, -1)} N by its catalogue. {lane.not_computed}".strip(),
            )
        )
        if lane.fuse is not None:
            found.append(
                (
                    f"{lane.thruster.identity}, protection",
                    f"main fuse F{lane.lane}.1, {amps(lane.fuse.fuse.rating)} {lane.fuse.family.family}: replaced by its like only",
                )
            )
        if lane.switch is not None:
            found.append(
                (
                    f"{lane.thruster.identity}, main switch",
                    f"Q{lane.lane}.1 at {place or 'place not given'}, lockable off: {'yes' if lane.switch.lockable else 'no'}",
                )
            )
        if lane.run_time_full is not None:
            found.append(
                (
                    f"{lane.thruster.identity}, run time",
                    f"{duration(min(lane.run_time_full, 36_000.0))} at full thrust in the design state; {lane.run_time_limit} ends it",
                )
            )
    for bank in p.banks:
        found.append((bank.name, f"{bank_words(bank)} at {bank.place}; highest volts {volts(bank.charging_volts, 1)}"))
    found.append(
        (
            "people in the water",
            "main switches off and locked before anyone bathes or dives; the notice stands at each helm and at the ladder",
        )
    )
    found.append(("stowage", "no stowage over or against motors, banks, fuses and switches"))
    return tuple(found)


def file_entries(p: Proposal) -> tuple[tuple[str, str, str], ...]:
    """Technical file: what, value here, limit of scope."""
    length = p.brief.boat.length_overall
    highest = max((bank.charging_volts for bank in p.banks), default=0.0)
    nominal = max((bank.volts for bank in p.banks), default=0.0)
    rules = RULE_SETS[p.brief.choices.rule_set]
    hull = rules.greatest_hull_length
    inside = "inside" if hull is None or length <= hull.value else "outside: class or flag rules apply"
    rows = [
        ("length over all", with_unit(length, "m", 2), f"{with_unit(hull.value, 'm') if hull else 'none'}: {inside}"),
        (
            "nominal volts, d.c.",
            volts(nominal, 1),
            f"{volts(rules.greatest_volts.value, 0)}: {'inside' if nominal <= rules.greatest_volts.value else 'outside'}",
        ),
        ("highest volts, charging", volts(highest, 1), "named beside the nominal volts; parts are rated above it"),
        ("rule set", rules.title, rules.edition),
        ("petrol aboard", p.brief.boat.petrol_aboard, "ignition protection of the whole chain where petrol vapour can be"),
        (
            "hull material",
            p.brief.boat.hull_material,
            "metal hulls: negative isolated or single tie, bonding by the yard's scheme",
        ),
    ]
    return tuple(rows)


def bank_words(bank: Bank) -> str:
    """A bank in words: ``2 strings of 2 x 12 V 110 Ah agm``."""
    one = f"{bank.series} × {bank.block.volts:g} V {bank.block.capacity / 3600:.0f} Ah {bank.block.chemistry}"
    return one if bank.parallel == 1 else f"{bank.parallel} strings of {one}"
