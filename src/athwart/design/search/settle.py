"""The netlist solved: each lane's currents, volts and drops from the one drawn circuit.

The search reckons with sums of resistances; this is the circuit itself, block by block and piece by piece, in both states and
with every unit of a bank running together. What it finds replaces the search's figures.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from athwart.design import states
from athwart.design.brief import Brief
from athwart.design.netlist import Component, Conductor, End, Netlist
from athwart.design.proposal import Bank, Drop, Lane, LaneState
from athwart.design.search import banking, running
from athwart.design.search.chain import FUSE_HOT
from athwart.plant.circuit import Answer, Circuit, Load, Resistor, Source
from athwart.plant.circuit import solve as solve_circuit
from athwart.power.battery import NEW_AND_FULL, block_source
from athwart.power.conductor import resistance_factor
from athwart.power.contact import JOINTS
from athwart.units import Ampere, Kelvin, Ohm, Volt

SERIES_CONTACT: Ohm = JOINTS["contactor"].usual
"""The contact of a series/parallel switch that puts two blocks in series: taken as a contactor's."""
StateName = Literal["design", "peak"]


@dataclass(frozen=True, slots=True)
class Solved:
    """A bank's circuit with some units running."""

    answer: Answer
    conductors: tuple[Conductor, ...]
    resistances: dict[str, Ohm]


def power_parts(netlist: Netlist, bank: Bank, lanes: tuple[Lane, ...]) -> tuple[tuple[Component, ...], tuple[Conductor, ...]]:
    """Components and conductors that carry the units' current of one bank: all between its blocks and its units."""
    on = {f"M{lane.lane}.1" for lane in lanes if lane.bank == bank.name}
    numbers = {lane.lane for lane in lanes if lane.bank == bank.name}
    main = {f"F{n}.1" for n in numbers}
    parts = {
        c.tag: c
        for c in netlist.components
        if (c.kind == "block" and c.lane in numbers)
        or c.tag in on
        or (c.kind in ("main switch", "stop contactor", "bar") and c.lane in numbers)
        or (c.kind == "fuse" and (c.tag in main or c.name == "string fuse") and c.lane in numbers)
        or (c.kind == "charger" and "mid-" in c.terminals and c.lane in numbers)
    }
    wires = tuple(
        w for w in netlist.conductors if w.kind in ("P", "N", "L") and all(_belongs(end, parts) for end in (w.start, w.end))
    )
    used = {end.component for w in wires for end in (w.start, w.end)}
    return tuple(parts[tag] for tag in parts if tag in used), wires


def _belongs(end: End, parts: dict[str, Component]) -> bool:
    """Leave out a unit's control terminals; of a charger only the contact that closes the string carries the unit's current."""
    part = parts.get(end.component)
    return part is not None and end.terminal != "net" and (part.kind != "charger" or end.terminal in ("mid-", "mid+"))


def in_path(wire: Conductor) -> bool:
    """Whether a piece is of a unit's own path, not of the bank's inside."""
    return wire.purpose == "return of the unit" or (wire.purpose.startswith("to the ") and wire.purpose != "to the string fuse")


def lug_resistance(wire: Conductor, lanes: tuple[Lane, ...]) -> Ohm:
    """Lugs at both ends of a piece; where the joints of a cable aboard were counted or measured, its share of them."""
    lane = next((entry for entry in lanes if entry.lane == wire.lane), None)
    if lane is not None and lane.cable is not None and in_path(wire) and lane.cable.kept != "chosen":
        pieces = 2 + sum(part is not None for part in (lane.fuse, lane.switch, lane.stop))
        return lane.cable.joint_resistance / pieces
    return 2 * JOINTS["lug"].usual / wire.parallel


def circuit(
    netlist: Netlist,
    bank: Bank,
    lanes: tuple[Lane, ...],
    state: StateName,
    running_lanes: tuple[int, ...],
    brief: Brief,
    temperature: Kelvin | None = None,
) -> tuple[Circuit, tuple[Conductor, ...], dict[str, Ohm]]:
    """The circuit of a bank with the units of these lanes on."""
    parts, wires = power_parts(netlist, bank, lanes)
    design = state == "design"
    warm = temperature if temperature is not None else states.CONDUCTOR_HOT if design else states.CONDUCTOR_COLD
    factor = resistance_factor(warm)
    resistors: list[Resistor] = []
    ohms: dict[str, Ohm] = {}
    for wire in wires:
        ohms[wire.tag] = wire.resistance * factor + lug_resistance(wire, lanes)
        resistors.append(
            Resistor(
                wire.tag,
                _node(wire.start.component, wire.start.terminal, parts),
                _node(wire.end.component, wire.end.terminal, parts),
                ohms[wire.tag],
            )
        )
    sources: list[Source] = []
    loads: list[Load] = []
    emf, inside = _block(bank, brief, design)
    for part in parts:
        if part.kind == "block":
            sources.append(Source(part.tag, f"{part.tag}:+", f"{part.tag}:-", emf, inside))
        elif part.kind in ("fuse", "main switch", "stop contactor"):
            value = part.resistance * (FUSE_HOT if part.kind == "fuse" and design else 1.0)
            ohms[part.tag] = value
            resistors.append(Resistor(part.tag, f"{part.tag}:1", f"{part.tag}:2", value))
        elif part.kind == "charger":
            ohms[part.tag] = SERIES_CONTACT
            resistors.append(Resistor(part.tag, f"{part.tag}:mid-", f"{part.tag}:mid+", SERIES_CONTACT))
        elif part.kind == "unit":
            lane = next(entry for entry in lanes if part.tag == f"M{entry.lane}.1")
            if lane.lane in running_lanes:
                loads.append(Load(part.tag, f"{part.tag}:+", f"{part.tag}:-", _load(lane, state)))
    ground = _ground(parts, wires)
    return Circuit(tuple(resistors), tuple(sources), tuple(loads), ground), wires, ohms


def _node(component: str, terminal: str, parts: tuple[Component, ...]) -> str:
    part = next(p for p in parts if p.tag == component)
    return f"{component}:1" if part.kind == "bar" else f"{component}:{terminal}"


def _ground(parts: tuple[Component, ...], wires: tuple[Conductor, ...]) -> str:
    """The bank's minus: where the units' return ends."""
    back = next(w for w in wires if w.purpose == "return of the unit")
    return _node(back.end.component, back.end.terminal, parts)


def _block(bank: Bank, brief: Brief, design: bool) -> tuple[Volt, Ohm]:
    if not design:
        new = block_source(bank.block, NEW_AND_FULL)
        return bank.running_volts / bank.series, new.resistance
    cold = block_source(bank.block, banking.worn_state(brief, bank.block, bank.age_years, bank.mixed_age))
    return cold.emf, cold.resistance


def _load(lane: Lane, state: StateName) -> Callable[[Volt], Ampere]:
    return running.load(lane.unit, state)


def solve(
    netlist: Netlist, bank: Bank, lanes: tuple[Lane, ...], state: StateName, running_lanes: tuple[int, ...], brief: Brief
) -> Solved:
    """Volts and currents of a bank's circuit."""
    net, wires, ohms = circuit(netlist, bank, lanes, state, running_lanes, brief)
    return Solved(solve_circuit(net), wires, ohms)


def other_loads(brief: Brief, bank: Bank, state: str) -> Ampere:
    """Current of the other loads on a bank: in the design state those said to run at the same time, in the peak state all."""
    wish = next((entry for entry in brief.bank if entry.name == bank.name), None)
    if wish is None:
        return 0.0
    return sum(load.current for load in wish.shared_with if state == "peak" or load.at_the_same_time)


def _lane_state(lane: Lane, old: LaneState, bank: Bank, found: Solved, netlist: Netlist) -> LaneState:
    tag = f"M{lane.lane}.1"
    current = found.answer.currents[tag]
    terminal = found.answer.across(f"{tag}:+", f"{tag}:-")
    drops = tuple(_drops(lane, found, netlist))
    path = sum(d.resistance for d in drops)
    ratio = running.thrust_ratio_at(lane.unit, "design" if old.state == "design" else "peak", terminal)
    basis = running.GROSS_TO_NET if lane.unit.thrust_basis == "gross" else 1.0
    thrust = running.thrust_delivered(lane.unit.thrust, ratio, lane.immersion_factor, basis, lane.tunnel_share)
    bank_volts = terminal + sum(d.volts for d in drops)
    return replace(
        old, current=current, terminal_volts=terminal, bank_volts=bank_volts, drops=drops, path_resistance=path, thrust=thrust
    )


def _drops(lane: Lane, found: Solved, netlist: Netlist) -> list[Drop]:
    """Pieces of the lane's own path, from the bank's plus to the unit and back."""
    own = [w for w in found.conductors if w.lane == lane.lane and in_path(w)]
    out: list[Drop] = []
    for wire in own:
        out.append(
            Drop(
                wire.tag,
                wire.purpose,
                found.resistances[wire.tag],
                abs(found.answer.currents[wire.tag]) * found.resistances[wire.tag],
            )
        )
        tag = wire.end.component
        if tag in found.resistances and wire.purpose != "return of the unit":
            part = netlist.component(tag)
            out.append(Drop(tag, part.name, found.resistances[tag], abs(found.answer.currents[tag]) * found.resistances[tag]))
    return out


def settle(brief: Brief, lanes: tuple[Lane, ...], banks: tuple[Bank, ...], netlist: Netlist) -> tuple[Lane, ...]:
    """Every lane's states from the solved circuit; other loads of the bank act as an extra current on its terminals."""
    done: dict[int, Lane] = {}
    for bank in banks:
        on = tuple(lane for lane in lanes if lane.bank == bank.name and lane.design is not None and lane.peak is not None)
        numbers = tuple(lane.lane for lane in on)
        for lane in on:
            assert lane.design is not None
            assert lane.peak is not None
            fresh: dict[tuple[str, tuple[int, ...]], LaneState] = {}
            for old, which in ((lane.design, (lane.lane,)), (lane.peak, (lane.lane,)), (lane.design, numbers)):
                found = _solve_with(netlist, bank, lanes, old.state, which, brief)
                fresh[old.state, which] = _lane_state(lane, old, bank, found, netlist)
            design, peak = (fresh[state, (lane.lane,)] for state in ("design", "peak"))
            together = fresh["design", numbers] if len(numbers) > 1 else lane.both_design
            done[lane.lane] = replace(lane, design=design, peak=peak, both_design=together)
    return tuple(done.get(lane.lane, lane) for lane in lanes)


def _solve_with(
    netlist: Netlist, bank: Bank, lanes: tuple[Lane, ...], state: StateName, which: tuple[int, ...], brief: Brief
) -> Solved:
    net, wires, ohms = circuit(netlist, bank, lanes, state, which, brief)
    extra = other_loads(brief, bank, state)
    if extra > 0:
        plus = next(w for w in wires if in_path(w))
        node = _node(plus.start.component, plus.start.terminal, power_parts(netlist, bank, lanes)[0])
        net = replace(
            net, loads=(*net.loads, Load("other loads", node, net.reference, lambda volts: extra if volts > 0 else 0.0))
        )
    return Solved(solve_circuit(net), wires, ohms)
