"""Predicted commissioning readings: what a meter should show, where its probes go, within which band, and the limit.

Groups follow danger: dead, at rest, charging, first pulses with every stop drill, full thrust, after. Band and limit are two
things: outside the band there is a cause to look for, outside the limit nothing is handed over.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from athwart.design.netlist import Component, Conductor
from athwart.design.proposal import Bank, ChargingChoice, Lane, LaneState, Proposal
from athwart.errors import NotComputed
from athwart.trial import commissioned
from athwart.trial.commissioned import Figure, Solved
from athwart.units import Kelvin, Volt

GROUPS: dict[str, tuple[str, str]] = {
    "A": ("Dead", "main switch off and locked, main fuse out, bank leads off where a line says so"),
    "B": ("At rest", "fuses in, charger and engine off, nothing drawn from the bank for an hour"),
    "C": ("Charging", "engine running or shore charger on, thruster not used"),
    "D": (
        "First pulses and stop drills",
        "afloat, lines doubled, nobody in the water; one second at a time, never full thrust yet",
    ),
    "E": (
        "Full thrust",
        "afloat, made fast, charger and engine off, bank full; ten seconds each way, a pause of a minute between",
    ),
    "F": ("After", "main switch off again"),
}
INSULATION_LEAST = 1.0e6
BUS_OHMS = (54.0, 66.0)
BLOCK_GAP: Volt = 0.2
BLOCK_GAP_LOADED: Volt = 0.5
LEAST_SHARE = 0.875
"""Volts at a unit under full thrust that a full, warm bank must leave, as a share of nominal: 10.5, 21, 42 V (from memory)."""
JOINT_EXCESS = 1.5
"""A piece that loses half as much again as predicted is opened and made anew: the rule for joints measured together."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One line of a commissioning sheet. ``number`` is unique on its sheet; where nothing can be foretold it is written in.

    ``least`` and ``most`` are the pass limit in the unit's SI value, None where it is in words only (``limit``).
    """

    number: str
    group: str
    what: str
    where: str
    predicted: float | None
    sigma: float | None
    unit: str
    limit: str
    per_direction: bool = False
    least: float | None = None
    most: float | None = None
    words: str = ""  # what is expected, where it is no figure


@dataclass(frozen=True, slots=True)
class Sheet:
    """The readings of one lane."""

    lane: int
    identity: str
    number: str
    title: str
    state: str
    temperature: Kelvin
    readings: tuple[Reading, ...]

    def group(self, letter: str) -> tuple[Reading, ...]:
        """Readings of a group."""
        return tuple(reading for reading in self.readings if reading.group == letter)


@dataclass(frozen=True, slots=True)
class _Lane:
    """What the readings of a lane are taken from."""

    proposal: Proposal
    lane: Lane
    bank: Bank
    charging: ChargingChoice | None
    path: tuple[Component | Conductor, ...]  # plus side from the bank outwards, conductors and parts in turn
    back: tuple[Conductor, ...]
    blocks: tuple[tuple[str, ...], ...]  # strings, each from the minus upwards
    first: bool  # the first lane of its bank also takes the bank's own readings, the first of all those of the control line
    first_of_all: bool


def sheets(proposal: Proposal) -> tuple[Sheet, ...]:
    """One sheet a lane, in the order of the lanes."""
    made: list[Sheet] = []
    seen: set[str] = set()
    for lane in proposal.lanes:
        number = f"{proposal.brief.number}-M{lane.lane}"
        bank = proposal.bank(lane.bank)
        if bank is None or lane.unit.drive == "hydraulic":
            words = lane.not_computed or "not computed yet"
            made.append(Sheet(lane.lane, lane.thruster.identity, number, _title(lane), words, commissioned.TEMPERATURE, ()))
            continue
        parts = _parts(proposal, lane, bank, bank.name not in seen, not seen)
        seen.add(bank.name)
        readings = tuple(
            _numbered(reading for group in (_dead, _rest, _charging, _pulses, _full, _after) for reading in group(parts))
        )
        state = commissioned.state_words(bank)
        made.append(Sheet(lane.lane, lane.thruster.identity, number, _title(lane), state, commissioned.TEMPERATURE, readings))
    return tuple(made)


def _title(lane: Lane) -> str:
    return f"Commissioning sheet, {lane.thruster.identity} lane"


def _numbered(readings: Iterator[Reading]) -> Iterator[Reading]:
    counts: dict[str, int] = {}
    for reading in readings:
        counts[reading.group] = counts.get(reading.group, 0) + 1
        yield Reading(f"{reading.group}{counts[reading.group]}", *[getattr(reading, name) for name in Reading.__slots__[1:]])


# ---- what lies in the lane


def _parts(proposal: Proposal, lane: Lane, bank: Bank, first: bool, first_of_all: bool) -> _Lane:
    charging = next((choice for choice in proposal.charging if choice.bank == bank.name), None)
    path, back = power_path(proposal, lane)
    return _Lane(proposal, lane, bank, charging, path, back, strings(proposal, bank), first, first_of_all)


def power_path(proposal: Proposal, lane: Lane) -> tuple[tuple[Component | Conductor, ...], tuple[Conductor, ...]]:
    """From the bank's plus to the unit, pieces and parts in turn; and the return."""
    net = proposal.netlist
    unit = f"M{lane.lane}.1"
    path: list[Component | Conductor] = []
    here = (unit, "+")
    while True:
        wire = next((c for c in net.conductors if c.kind == "P" and (c.end.component, c.end.terminal) == here), None)
        if wire is None:
            break
        path.insert(0, wire)
        part = net.component(wire.start.component)
        if part.kind not in ("fuse", "main switch", "stop contactor"):
            break
        path.insert(0, part)
        here = (part.tag, "1")
    back = tuple(c for c in net.conductors if c.kind == "N" and (c.start.component, c.start.terminal) == (unit, "-"))
    return tuple(path), back


def strings(proposal: Proposal, bank: Bank) -> tuple[tuple[str, ...], ...]:
    """Blocks of a bank by string, from the minus upwards."""
    digits = {lane.lane for lane in proposal.lanes if lane.bank == bank.name}
    blocks = [c.tag for c in proposal.netlist.components if c.kind == "block" and c.lane in digits]
    return tuple(tuple(blocks[k : k + bank.series]) for k in range(0, len(blocks), bank.series))


def _studs(parts: _Lane) -> tuple[str, str]:
    """Plus and minus of the bank as the lane meets them."""
    plus = parts.path[0]
    assert isinstance(plus, Conductor)
    minus = parts.back[0].end
    return f"{plus.start.component}:{plus.start.terminal}", f"{minus.component}:{minus.terminal}"


def words_of(stud: str) -> str:
    """A stud as the papers write it: ``G1.2 +``, ``Q1.1:2``."""
    component, terminal = stud.rsplit(":", 1)
    return f"{component} {terminal}" if terminal in "+-" else stud


# ---- groups


def _dead(p: _Lane) -> Iterator[Reading]:
    unit = f"M{p.lane.lane}.1"
    if p.lane.unit.isolated_case is not False:
        for pole in "+-":
            yield Reading(
                "",
                "A",
                "pole to case of the unit, unit's leads off",
                f"{unit} {pole}, case",
                None,
                None,
                "MΩ",
                "≥ 1 MΩ",
                least=INSULATION_LEAST,
            )
    yield Reading(
        "",
        "A",
        "plus to minus at the unit, leads on, stop open",
        f"{unit} +, {unit} -",
        None,
        None,
        "Ω",
        "no short: ≥ 1 Ω",
        least=1.0,
    )
    for tag in _buttons(p):
        kind = "closed; pressed: open" if p.lane.stop and p.lane.stop.stop_kind == "energise to run" else "open; pressed: closed"
        yield Reading("", "A", "contact of the stop button", f"{tag}:1, {tag}:2", None, None, "", "as foretold", words=kind)
    yield Reading("", "A", "propeller by hand, both ways", unit, None, None, "", "free, no rub", words="turns free")
    if p.first_of_all and p.proposal.network is not None:
        ohms = p.proposal.network.resistance_power_off
        low, high = BUS_OHMS
        yield Reading(
            "",
            "A",
            "control line, high to low, all power off, at both ends",
            "R9.1, R9.2",
            ohms,
            0.02 * ohms,
            "Ω",
            f"{low:.0f} to {high:.0f} Ω",
            least=low,
            most=high,
        )


def _buttons(p: _Lane) -> list[str]:
    return [c.tag for c in p.proposal.netlist.components if c.kind == "stop button" and c.lane == p.lane.lane]


def _rest(p: _Lane) -> Iterator[Reading]:
    minus = _studs(p)[1]
    unit = f"M{p.lane.lane}.1"
    if p.first:
        yield from _rest_of_bank(p)
    whole = commissioned.string_volts(p.bank)
    yield Reading("", "B", "at the unit, main switch off", f"{unit} +, {unit} -", 0.0, None, "V", "≤ 0.5 V", most=0.5)
    if p.lane.switch is not None:
        yield Reading(
            "",
            "B",
            "after the main switch, on, stop open",
            f"Q{p.lane.lane}.1:2, {words_of(minus)}",
            whole.value,
            whole.sigma,
            "V",
            "as the bank ± 0.1 V",
        )
    yield Reading(
        "",
        "B",
        "at the unit, main switch on, stop released",
        f"{unit} +, {unit} -",
        whole.value,
        whole.sigma,
        "V",
        "as the bank ± 0.1 V",
    )
    if p.first_of_all:
        yield from _nodes(p, sag=False)


def _rest_of_bank(p: _Lane) -> Iterator[Reading]:
    one, whole = commissioned.rest_volts(p.bank), commissioned.string_volts(p.bank)
    for string in p.blocks:
        for tag in string:
            least = one.value - 3 * one.sigma - 0.1 * p.bank.block.volts / 12.0
            yield Reading(
                "", "B", "block", f"{tag} +, {tag} -", one.value, one.sigma, "V", f"≥ {least:.1f} V", least=round(least, 1)
            )
        if len(string) > 1:
            least = whole.value - 3 * whole.sigma - 0.1 * p.bank.volts / 12.0
            yield Reading(
                "",
                "B",
                "string",
                f"{string[-1]} +, {string[0]} -",
                whole.value,
                whole.sigma,
                "V",
                f"≥ {least:.1f} V",
                least=round(least, 1),
            )
    if p.bank.blocks > 1:
        yield Reading(
            "",
            "B",
            "largest difference between blocks",
            "from the lines above",
            0.0,
            0.03,
            "V",
            f"≤ {BLOCK_GAP:g} V",
            most=BLOCK_GAP,
        )


def _nodes(p: _Lane, sag: bool) -> Iterator[Reading]:
    network = p.proposal.network
    if network is None:
        return
    names = _node_tags(p.proposal)
    for stop in network.stops:
        if stop.name not in names:
            continue
        value = stop.volts_sag if sag else stop.volts_rest
        what = f"control line at {stop.name}" + (", lowest during the run" if sag else "")
        sigma = 0.3 if sag else 0.15
        yield Reading(
            "",
            "E" if sag else "B",
            what,
            f"{names[stop.name]}, supply pair",
            value,
            sigma,
            "V",
            "9.0 to 16.0 V",
            least=9.0,
            most=16.0,
        )


def _node_tags(proposal: Proposal) -> dict[str, str]:
    """Name of a stop -> tag of what hangs there."""
    net = proposal.netlist
    tees = {c.tag: c.name for c in net.components if c.kind in ("tee", "feed")}
    return {
        tees[c.start.component]: c.end.component
        for c in net.conductors
        if c.kind == "D" and c.start.component in tees and c.end.terminal == "net"
    }


def _charging(p: _Lane) -> Iterator[Reading]:
    choice, bank = p.charging, p.bank
    if choice is None or choice.charger is None or not p.first:
        return
    tag = next(
        (
            c.tag
            for c in p.proposal.netlist.components
            if c.kind == "charger" and c.name.startswith(choice.kind) and c.lane == _bank_lane(p)
        ),
        "U",
    )
    plus, minus = (words_of(stud) for stud in _studs(p))
    volts = choice.charger.charge_volts
    most = bank.block.charge_volts * bank.series * 1.02
    yield Reading(
        "",
        "C",
        "bank, rising to the charger's set point",
        f"{plus}, {minus}",
        volts,
        0.01 * volts,
        "V",
        f"≤ {most:.1f} V",
        most=round(most, 1),
    )
    current = choice.output_current
    yield Reading(
        "",
        "C",
        "charger, output, first minute",
        f"{tag} out+",
        current,
        0.1 * current,
        "A",
        f"≤ {bank.block.charge_most * bank.parallel:.0f} A",
        most=bank.block.charge_most * bank.parallel,
    )
    if choice.input_current > 0 and choice.from_battery is not None:
        yield Reading(
            "",
            "C",
            "charger, input, first minute",
            f"{tag} in+",
            choice.input_current,
            0.1 * choice.input_current,
            "A",
            _fuse_limit(choice),
            most=choice.fuse_source.rating if choice.fuse_source else None,
        )
        yield Reading(
            "",
            "C",
            "volts lost from ship's battery to charger, both poles added",
            f"fuse block to {tag} in+, {tag} in- to X0.2",
            choice.input_drop,
            0.15 * choice.input_drop + 0.01,
            "V",
            f"≤ {1.3 * choice.input_drop + 0.05:.2f} V",
            most=round(1.3 * choice.input_drop + 0.05, 2),
        )
    for string in p.blocks if bank.series > 1 else ():
        yield Reading(
            "",
            "C",
            "largest difference between blocks of the string, at the set point",
            f"{string[0]} to {string[-1]}",
            0.0,
            0.1,
            "V",
            f"≤ {BLOCK_GAP_LOADED:g} V",
            most=BLOCK_GAP_LOADED,
        )


def _fuse_limit(choice: ChargingChoice) -> str:
    return f"≤ {choice.fuse_source.rating:.0f} A" if choice.fuse_source is not None else "written in"


def _bank_lane(p: _Lane) -> int:
    return min(lane.lane for lane in p.proposal.lanes if lane.bank == p.bank.name)


def _pulses(p: _Lane) -> Iterator[Reading]:
    n = p.lane.lane
    end = "bow" if p.lane.thruster.role == "bow" else "stern"
    yield Reading(
        "",
        "D",
        f"one second: the {end} goes the way the lever says",
        "each helm",
        None,
        None,
        "",
        "both right, at every helm",
        True,
        words="right way",
    )
    if p.lane.start_current is not None:
        value = p.lane.start_current
        yield Reading(
            "", "D", "highest current in the first moment (peak hold)", _clamp(p), value, 0.25 * value, "A", _start_limit(p), True
        )
    yield Reading("", "D", "lever let go: stops", f"M{n}.1", None, None, "s", "≤ 1 s", True, most=1.0)
    for tag in _buttons(p):
        name = p.proposal.netlist.component(tag).name
        yield Reading(
            "", "D", f"{name}: pressed while it runs, stops", tag, None, None, "s", "≤ 1 s, stays off till reset", True, most=1.0
        )
    if p.lane.switch is not None:
        known = [h for h in p.proposal.brief.helms if h.seconds_to_main_switch is not None]
        for helm in known:
            seconds = helm.seconds_to_main_switch or 0.0
            yield Reading(
                "",
                "D",
                f"from {helm.name} to the main switch, walked, thrown by hand",
                f"Q{n}.1",
                seconds,
                0.2 * seconds,
                "s",
                "≤ 30 s",
                most=30.0,
            )
        if not known:
            yield Reading(
                "",
                "D",
                "from the helm to the main switch, walked, thrown by hand",
                f"Q{n}.1",
                None,
                None,
                "s",
                "≤ 30 s",
                most=30.0,
            )
    yield Reading("", "D", "panel or its plug pulled while it runs: stops", "each panel", None, None, "s", "≤ 2 s", most=2.0)
    if p.lane.unit.housing == "retractable":
        yield Reading(
            "",
            "D",
            "raise refused while it runs; runs refused while raised",
            f"M{n}.1",
            None,
            None,
            "",
            "both refused",
            words="refused",
        )


def _clamp(p: _Lane) -> str:
    return p.back[0].tag


def _start_limit(p: _Lane) -> str:
    breaks = p.lane.stop.breaking if p.lane.stop is not None else p.lane.switch.breaking if p.lane.switch is not None else None
    return f"≤ {breaks:.0f} A, what the stop breaks" if breaks is not None else "written in"


def _full(p: _Lane) -> Iterator[Reading]:
    try:
        solved = commissioned.solve_bank(p.proposal, p.bank, (p.lane,))
    except NotComputed as error:
        yield Reading("", "E", "current", _clamp(p), None, None, "A", "written in", True, words=f"not computed: {error}")
        return
    unit, nominal = f"M{p.lane.lane}.1", p.bank.volts
    plus, minus = _studs(p)
    amps = solved.current(p.back[0].tag)
    most = _current_most(p)
    yield Reading(
        "",
        "E",
        "current, mean of the last five seconds",
        _clamp(p),
        amps.value,
        amps.sigma,
        "A",
        f"≤ {most:.0f} A",
        True,
        most=round(most),
    )
    for string in p.blocks:
        for tag in string:
            yield _volt("block", f"{tag}:+", f"{tag}:-", solved, "")
    if p.bank.parallel > 1:
        yield from _string_currents(p, solved)
    if p.bank.blocks > 1:
        yield Reading(
            "",
            "E",
            "largest difference between blocks",
            "from the lines above",
            0.0,
            0.1,
            "V",
            f"≤ {BLOCK_GAP_LOADED:g} V",
            most=BLOCK_GAP_LOADED,
        )
    yield _volt("bank", plus, minus, solved, "")
    for part in p.path:
        if isinstance(part, Component):
            yield _volt(f"after the {part.name}", f"{part.tag}:2", minus, solved, "")
    least = LEAST_SHARE * nominal
    yield _volt("at the unit", f"{unit}:+", f"{unit}:-", solved, f"≥ {least:.1f} V", least=least, both=True)
    for piece in (*p.path, *p.back):
        yield _millivolts(piece, solved)
    if p.first_of_all:
        yield from _nodes(p, sag=True)
    others = commissioned.lanes_of_bank(p.proposal, p.bank)
    if len(others) > 1 and p.first:
        both = commissioned.solve_bank(p.proposal, p.bank, others)
        yield _volt("bank, all units of it at full thrust", plus, minus, both, "")
        for lane in others:
            tag = f"M{lane.lane}.1"
            yield _volt(
                f"at {lane.thruster.identity}, all units at full thrust",
                f"{tag}:+",
                f"{tag}:-",
                both,
                f"≥ {least:.1f} V",
                least=least,
            )


def _string_currents(p: _Lane, solved: Solved) -> Iterator[Reading]:
    """Strings share alike; one that takes less is tired or has a bad joint."""
    for string in p.blocks:
        wire = next(
            (
                c
                for c in p.proposal.netlist.conductors
                if c.kind == "N" and c.start.component == string[0] and c.tag in solved.middle.currents
            ),
            None,
        )
        if wire is not None:
            found = solved.current(wire.tag)
            low, high = 0.8 * found.value, 1.2 * found.value
            yield Reading(
                "",
                "E",
                "current of the string",
                wire.tag,
                found.value,
                found.sigma,
                "A",
                f"{low:.0f} to {high:.0f} A",
                least=round(low),
                most=round(high),
            )


def _current_most(p: _Lane) -> float:
    return max(state.current for state in (p.lane.peak, p.lane.design, p.lane.both_design) if isinstance(state, LaneState)) * 1.05


def _volt(
    what: str, plus: str, minus: str, solved: Solved, limit: str, *, least: float | None = None, both: bool = False
) -> Reading:
    found: Figure = solved.volts(plus, minus)
    floor = found.value - 4 * found.sigma
    words = limit or f"≥ {floor:.1f} V"
    return Reading(
        "",
        "E",
        what,
        f"{words_of(plus)}, {words_of(minus)}",
        found.value,
        found.sigma,
        "V",
        words,
        both,
        least=round(floor, 1) if least is None else least,
    )


def _millivolts(piece: Component | Conductor, solved: Solved) -> Reading:
    if isinstance(piece, Component):
        start, end, what = f"{piece.tag}:1", f"{piece.tag}:2", f"over {piece.tag}, {piece.name}"
    else:
        start, end = (f"{side.component}:{side.terminal}" for side in (piece.start, piece.end))
        what = f"over {piece.tag} with its lugs"
    found = solved.drop(start, end)
    most = max(JOINT_EXCESS * found.value, found.value + 0.010)
    return Reading(
        "",
        "E",
        what,
        f"{words_of(start)} to {words_of(end)}",
        found.value * 1e3,
        found.sigma * 1e3,
        "mV",
        f"≤ {most * 1e3:.0f} mV",
        most=round(most * 1e3),
    )


def _after(p: _Lane) -> Iterator[Reading]:
    yield Reading(
        "",
        "F",
        "joints of the lane felt by hand or thermometer",
        f"{p.lane.lane}P, {p.lane.lane}N",
        None,
        None,
        "K over air",
        "≤ 30 K, none hotter than its mates",
        most=30.0,
    )
    if p.first:
        whole = commissioned.string_volts(p.bank)
        plus, minus = (words_of(stud) for stud in _studs(p))
        yield Reading(
            "",
            "F",
            "bank, five minutes after",
            f"{plus}, {minus}",
            whole.value - 0.1 * p.bank.volts / 12.0,
            0.1 * p.bank.volts / 12.0,
            "V",
            "written in",
        )
    yield Reading("", "F", "quarter turn, calm, from rest", "by compass", None, None, "s", "both ways within 15 %", True)
    yield Reading("", "F", "tunnel, shaft seal, joint: dry", "bilge at the unit", None, None, "", "dry", words="dry")
