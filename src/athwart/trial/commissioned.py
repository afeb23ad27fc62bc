"""The system as commissioned: bank full, between 15 and 20 °C, as old as it is; motor cold, ten seconds into its run.

Neither of the two design states: those are bounds, this is what a meter should show on the day. The circuit is the netlist
itself: every piece of conductor with its lugs, every fuse, switch and contactor, every block as a source, the unit as a load.
The band of a figure is one standard deviation: each input is moved by its own, the network is solved again, and the changes
are added by squares.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import sqrt

from athwart.design.netlist import Component, Conductor
from athwart.design.proposal import Bank, Lane, Proposal
from athwart.design.search import running
from athwart.design.search.settle import lug_resistance, power_parts
from athwart.explain import unexplained
from athwart.plant.circuit import Answer, Circuit, Load, Resistor, Source, solve
from athwart.power.battery import State, block_source
from athwart.power.conductor import resistance_factor
from athwart.power.drive import drive_load
from athwart.power.motor import at_temperature, brushed_load
from athwart.units import Ampere, Kelvin, Ohm, Ratio, Volt

ZERO: Kelvin = 273.15
TEMPERATURE: Kelvin = ZERO + 18.0
"""Bank, copper and winding on the day: the middle of 15 to 20 °C (own judgement)."""
RATED_WINDING: Kelvin = ZERO + 60.0
RATED_MAGNET: Kelvin = ZERO + 40.0
"""The rated point of a unit is taken warm, as everywhere in the search (own judgement)."""
FUSE_WARM: Ratio = 1.25
"""A fuse ten seconds into its load, over its cold resistance (own judgement, half way to 1.5)."""
AGEING_YEARS = 5.0
AGED: Ratio = 1.5
"""Resistance grows to the design state's 1.5 in five years, and on at the same pace (own judgement)."""

#: what is uncertain on the day, one standard deviation each (own judgement, from the spreads of the parts' data)
SIGMA: dict[str, float] = {
    "block": 0.20,  # resistance of a block, relative
    "copper": 0.03,  # resistance of the cable, relative
    "lug": 0.25,  # of a lug, relative: the usual one between its least and most
    "contact": 0.20,  # of fuses, switches, contactors, relative
    "unit": 0.05,  # current of the unit at its volts, relative
    "temperature": 3.0,  # K
    "rest": 0.02,  # rest volts a 12 V block
}
CLAMP: Ratio = 0.02
"""A clamp meter on direct current."""
VOLTMETER: Ratio = 0.003


@dataclass(frozen=True, slots=True)
class Moved:
    """How far each input is off its middle: factors, and kelvin or volts where added."""

    block: float = 0.0
    copper: float = 0.0
    lug: float = 0.0
    contact: float = 0.0
    unit: float = 0.0
    temperature: float = 0.0
    rest: float = 0.0


MIDDLE = Moved()


@dataclass(frozen=True, slots=True)
class Figure:
    """A value with its band of one standard deviation, the meter's own error in it."""

    value: float
    sigma: float


@dataclass(frozen=True, slots=True)
class Solved:
    """A bank with the units named in ``running`` at full thrust, solved at the middle and at every moved input."""

    middle: Answer
    moved: tuple[Answer, ...]

    def figure(self, of: Callable[[Answer], float], meter: float = 0.0) -> Figure:
        """A figure of the answer with its band."""
        value = of(self.middle)
        return Figure(value, sqrt(sum((of(answer) - value) ** 2 for answer in self.moved) + meter**2))

    def volts(self, plus: str, minus: str) -> Figure:
        """Volts between two studs."""
        value = self.middle.across(plus, minus)
        return self.figure(lambda answer: answer.across(plus, minus), VOLTMETER * abs(value))

    def current(self, tag: str) -> Figure:
        """Current through a piece, without its sign."""
        value = abs(self.middle.currents[tag])
        return self.figure(lambda answer: abs(answer.currents[tag]), CLAMP * value)

    def drop(self, start: str, end: str) -> Figure:
        """Volts lost between two studs, without their sign."""
        value = abs(self.middle.across(start, end))
        return self.figure(lambda answer: abs(answer.across(start, end)), max(0.0005, VOLTMETER * value))


def ageing(bank: Bank) -> Ratio:
    """Resistance of a bank's blocks over new ones, by their age."""
    return 1.0 + (AGED - 1.0) * (bank.age_years or 0.0) / AGEING_YEARS


def state_of(bank: Bank, moved: Moved = MIDDLE) -> State:
    """The bank on the day."""
    return State(TEMPERATURE + moved.temperature, 1.0, ageing(bank) * (1.0 + moved.block))


def state_words(bank: Bank) -> str:
    """The condition the predictions hold for."""
    age = f"{bank.age_years:g} years old" if bank.age_years else "new"
    return f"bank at {TEMPERATURE - ZERO:.0f} °C, full, {age}, rested for an hour; charger and engine off; motor cold"


def rest_volts(bank: Bank) -> Figure:
    """Rest volts of one block."""
    return _rest(bank, 1)


def string_volts(bank: Bank) -> Figure:
    """Rest volts of the bank."""
    return _rest(bank, bank.series)


def _rest(bank: Bank, series: int) -> Figure:
    value = series * block_source(bank.block, state_of(bank)).emf
    spread = SIGMA["rest"] * bank.block.volts / 12.0 * sqrt(series)
    return Figure(value, sqrt(spread**2 + (VOLTMETER * value) ** 2))


def solve_bank(proposal: Proposal, bank: Bank, lanes: tuple[Lane, ...]) -> Solved:
    """The bank with these lanes at full thrust, ten seconds in."""
    with unexplained():
        middle = solve(_circuit(proposal, bank, lanes, MIDDLE))
        moved = tuple(solve(_circuit(proposal, bank, lanes, replace(MIDDLE, **{name: sigma}))) for name, sigma in SIGMA.items())
    return Solved(middle, moved)


def lanes_of_bank(proposal: Proposal, bank: Bank) -> tuple[Lane, ...]:
    """Electric lanes on a bank."""
    return tuple(lane for lane in proposal.lanes if lane.bank == bank.name and lane.unit.drive != "hydraulic")


def _circuit(proposal: Proposal, bank: Bank, lanes: tuple[Lane, ...], moved: Moved) -> Circuit:
    parts, wires = power_parts(proposal.netlist, bank, proposal.lanes)
    resistors = [_piece(proposal, wire, moved) for wire in wires]
    resistors += [
        Resistor(part.tag, f"{part.tag}:1", f"{part.tag}:2", _gear(part, moved))
        for part in parts
        if part.kind in ("fuse", "main switch", "stop contactor")
    ]
    source = block_source(bank.block, state_of(bank, moved))
    emf: Volt = source.emf + moved.rest * bank.block.volts / 12.0
    blocks = [part.tag for part in parts if part.kind == "block"]
    sources = tuple(Source(tag, f"{tag}:+", f"{tag}:-", emf, source.resistance) for tag in blocks)
    loads = tuple(Load(f"M{lane.lane}.1", f"M{lane.lane}.1:+", f"M{lane.lane}.1:-", _load(lane, moved)) for lane in lanes)
    return Circuit(tuple(resistors), sources, loads, f"{blocks[0]}:-")


def _piece(proposal: Proposal, wire: Conductor, moved: Moved) -> Resistor:
    copper = wire.resistance * resistance_factor(TEMPERATURE + moved.temperature) * (1.0 + moved.copper)
    lug = lug_resistance(wire, proposal.lanes) * (1.0 + moved.lug)
    return Resistor(
        wire.tag, f"{wire.start.component}:{wire.start.terminal}", f"{wire.end.component}:{wire.end.terminal}", copper + lug
    )


def _gear(part: Component, moved: Moved) -> Ohm:
    return part.resistance * (FUSE_WARM if part.kind == "fuse" else 1.0) * (1.0 + moved.contact)


def _load(lane: Lane, moved: Moved) -> Callable[[Volt], Ampere]:
    share = 1.0 + moved.unit
    if running.is_constant_power(lane.unit):
        drive = running.drive_of(lane.unit)
        return lambda volts: share * drive_load(drive, volts)
    day = TEMPERATURE + moved.temperature
    motor = at_temperature(running.motor_of(lane.unit), day - RATED_WINDING, day - RATED_MAGNET)
    return lambda volts: share * brushed_load(motor, volts)
