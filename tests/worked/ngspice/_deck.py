"""A second writer: from the parts of a proposal to an ngspice netlist, with formulas of its own.

It reads which catalogue rows were taken, how they are connected, lengths of routes and what the brief says of loads, joints and
age; everything else stands here again: rest volts, a battery's resistance when cold, aged and half empty, copper when warm, lugs,
lengths of pieces, the motor from its rated point, the drive that folds back. None of the program's netlist, circuit, motor,
battery or search formulas is used. A default that the documentation names is typed again as a number.

The motor is not solved in closed form here: its armature and its shaft are two coupled circuits, the shaft's node volts are
radians a second, and the simulator finds where they meet.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from math import exp, pi
from typing import Literal

from athwart.catalogue.records import BatteryBlock, ThrusterUnit
from athwart.design.brief import Brief
from athwart.design.proposal import Bank, Lane, Proposal

State = Literal["design", "peak"]
Variant = Literal["cold magnets, hot winding", "hot magnets, cold winding"]
VARIANTS: dict[State, tuple[Variant, ...]] = {
    "design": ("cold magnets, hot winding",),
    "peak": ("hot magnets, cold winding", "cold magnets, hot winding"),
}

# ---- documented defaults, typed again
LUG = 40e-6
LINK = 0.3
STUD = 0.1
MAIN_FUSE_FROM_BANK = 0.15
BOARD_PIECE = 0.40
LUGS_OF_A_LANE = 10
LOADED_FUSE = 1.5
COPPER_RISE = 0.00393
HOT_CONDUCTOR, COLD_CONDUCTOR = 50.0, 20.0
COLDEST = {"lfp": 5.0}
CHARGED = 0.70
AGED = 1.5
MIXED = 1.25
SURFACE = 0.02
WINDING = {"hot": 110.0, "cold": 20.0, "rated": 60.0}
MAGNETS = {"hot": 80.0, "cold": 20.0, "rated": 40.0}
FERRITE = -0.002
BRUSHES = 1.0
FRICTION_SHARE = 0.03
STALL = 5.0
#: volts of a 12 V flooded block at rest, 26.7 °C
FLOODED = ((0.0, 11.89), (0.25, 12.06), (0.50, 12.24), (0.75, 12.45), (1.00, 12.65))
LIFT = {"flooded": 0.0, "starting": 0.0, "agm": 0.15, "thin plate agm": 0.18, "gel": 0.15}
#: volts of one lithium iron phosphate cell at rest
LITHIUM = (
    (0.0, 2.80), (0.0535, 3.12), (0.0963, 3.17), (0.1824, 3.20), (0.3124, 3.24), (0.3983, 3.263), (0.5274, 3.272),
    (0.6992, 3.28), (0.7854, 3.304), (0.9147, 3.316), (1.0, 3.37),
)  # fmt: skip
#: milliohms of a 12 V block of 100 Ah, warm, new, full
USUAL_MILLIOHM = {"flooded": 6.5, "starting": 4.2, "agm": 4.0, "thin plate agm": 2.5, "gel": 6.5, "lfp": 5.0}
SAE_SHARE = {"SAE": 1.0, "EN": 0.97, "IEC": 0.66, "DIN": 0.59}


@dataclass(slots=True)
class Deck:
    """An ngspice netlist under way, and the pieces of each lane in order from the bank."""

    title: str
    lines: list[str] = field(default_factory=list)
    starts: list[str] = field(default_factory=list)
    shown: list[tuple[str, str]] = field(default_factory=list)

    def put(self, line: str) -> None:
        """Add a line."""
        self.lines.append(line)

    def ohms(self, name: str, start: str, end: str, value: float) -> None:
        """Add a resistor."""
        self.put(f"R{name} {start} {end} {value:.9g}")

    def show(self, name: str, expression: str) -> None:
        """Have the simulator print an expression under a name."""
        self.shown.append((name, expression))

    def text(self) -> str:
        """The whole deck, ready for a batch run."""
        control = [".control", "set numdgt=9", "op"]
        control += [f"let {name} = {expression}\nprint {name}" for name, expression in self.shown]
        options = ".options reltol=1e-8 vntol=1e-10 abstol=1e-10 gmin=1e-16 itl1=1000"
        body = [f"* {self.title}", *self.lines, *self.starts, options]
        return "\n".join([*body, *control, "quit", ".endc", ".end", ""])


def _along(points: tuple[tuple[float, float], ...], x: float) -> float:
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 <= x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    raise ValueError(x)


def _copper(ohm_per_metre: float, length: float, celsius: float) -> float:
    return ohm_per_metre * length * (1.0 + COPPER_RISE * (celsius - 20.0))


# ---- the battery


def rest_volts(block: BatteryBlock, charge: float, celsius: float) -> float:
    """A block at rest."""
    if block.chemistry == "lfp":
        return block.cells * _along(LITHIUM, charge)
    blocks_of_six = block.cells / 6.0
    return blocks_of_six * (_along(FLOODED, charge) + LIFT[block.chemistry] * charge + 0.0043 * (celsius - 26.7))


def warm_ohms(block: BatteryBlock) -> float:
    """A block new, full and at 25 °C."""
    if block.resistance is not None:
        return block.resistance
    blocks_of_twelve = block.volts / 12.0
    if block.cranking is not None and block.cranking_standard is not None:
        return 3.0 / (block.cranking / SAE_SHARE[block.cranking_standard]) * blocks_of_twelve
    return USUAL_MILLIOHM[block.chemistry] * 1e-3 * 100.0 / (block.capacity / 3600.0) * blocks_of_twelve


def block_in(bank: Bank, brief: Brief, state: State) -> tuple[float, float]:
    """Electromotive force and resistance of one block."""
    block, lithium = bank.block, bank.block.chemistry == "lfp"
    if state == "peak":
        nominal = block.volts * bank.series
        charging = block.charge_volts * bank.series if lithium else 1.2 * nominal
        running = min(charging, bank.series * rest_volts(block, 1.0, 25.0) + SURFACE * nominal)
        return running / bank.series, warm_ohms(block)
    coldest = brief.duty.coldest_bank
    celsius = COLDEST.get(block.chemistry, 0.0) if coldest is None else coldest - 273.15
    age = AGED
    if bank.age_years is not None and bank.age_years > 5.0:
        age *= min(2.0, 1.0 + (bank.age_years - 5.0) / 5.0)
    if bank.mixed_age:
        age *= MIXED
    empty = 0.0 if lithium else 0.40 * (1.0 - CHARGED)
    cold = exp((0.022 if lithium else 0.0085) * (25.0 - celsius))
    return rest_volts(block, CHARGED, celsius), warm_ohms(block) * (1.0 + empty) * cold * age


def _bank(deck: Deck, p: Proposal, bank: Bank, state: State) -> None:
    """Blocks, links, string fuses and bars, between node ``plus`` and node 0."""
    wish = next((entry for entry in p.brief.bank if entry.name == bank.name), None)
    units = sum(lane.bank == bank.name for lane in p.lanes)
    bars = bank.parallel > 1 or units > 1 or bool(wish and (wish.shared_with or wish.mid_tap_load))
    volts, inside = block_in(bank, p.brief, state)
    celsius = HOT_CONDUCTOR if state == "design" else COLD_CONDUCTOR
    piece = _copper(bank.link.resistance_per_metre, LINK, celsius) + 2 * LUG
    for s in range(1, bank.parallel + 1):
        here = f"s{s}bottom" if bars else "0"
        if bars:
            deck.ohms(f"minus{s}", "0", here, piece)
        for b in range(1, bank.series + 1):
            top = "plus" if b == bank.series and not bars else f"s{s}b{b}plus"
            deck.put(f"Vs{s}b{b} s{s}b{b}emf {here} DC {volts:.9g}")
            deck.ohms(f"s{s}b{b}", f"s{s}b{b}emf", top, inside)
            here = top
            if b < bank.series:
                deck.ohms(f"link{s}x{b}", top, f"s{s}b{b}up", piece)
                here = f"s{s}b{b}up"
        if bars and bank.string_fuse is not None and bank.parallel > 1:
            deck.ohms(f"stud{s}", here, f"s{s}fuse", _copper(bank.link.resistance_per_metre, STUD, celsius) + 2 * LUG)
            warm = LOADED_FUSE if state == "design" else 1.0
            deck.ohms(f"stringfuse{s}", f"s{s}fuse", f"s{s}fused", bank.string_fuse[0].resistance * warm)
            here = f"s{s}fused"
        if bars:
            deck.ohms(f"plus{s}", here, "plus", piece)
    others = [load for load in wish.shared_with if state == "peak" or load.at_the_same_time] if wish else []
    for number, load in enumerate(others, 1):
        deck.put(f"Iother{number} plus 0 DC {load.current:.9g}")


# ---- the lane


def _lugs(p: Proposal, lane: Lane, pieces: int) -> float:
    """Resistance of the lugs of one piece of the lane."""
    cable = lane.cable
    assert cable is not None
    if cable.kept == "chosen":
        return 2 * LUG / cable.parallel
    name = lane.thruster.identity
    part = None
    for source in (p.brief.fixed, p.brief.aboard):
        found = source.lanes.get(name)
        if part is None and found is not None and found.cable is not None:
            part = found.cable
    assert part is not None
    each = LUG if part.joint_resistance is None else part.joint_resistance
    if part.joints is not None:
        return each * part.joints / pieces
    return each * LUGS_OF_A_LANE / pieces / (cable.parallel if part.joint_resistance is None else 1)


def _lengths(plus: float, from_bank: float | None, pieces: int) -> list[float]:
    """A plus route cut at the parts in it; the last piece takes the rest."""
    if pieces == 1:
        return [plus]
    first = min(MAIN_FUSE_FROM_BANK if from_bank is None else from_bank, plus / 2)
    board = min(BOARD_PIECE, (plus - first) / (2 * pieces))
    inner = [first] + [board] * (pieces - 2)
    return [*inner, plus - sum(inner)]


def _lane(deck: Deck, p: Proposal, lane: Lane, state: State, variant: Variant) -> None:
    cable, n = lane.cable, lane.lane
    assert cable is not None
    hot = state == "design"
    celsius = HOT_CONDUCTOR if hot else COLD_CONDUCTOR
    parts: list[tuple[str, float]] = []
    if lane.fuse is not None:
        parts.append(("fuse", lane.fuse.fuse.resistance * (LOADED_FUSE if hot else 1.0)))
    if lane.switch is not None:
        parts.append(("switch", lane.switch.resistance))
    if lane.stop is not None:
        parts.append(("stop", lane.stop.resistance))
    each = cable.cable.resistance_per_metre / cable.parallel
    lug = _lugs(p, lane, len(parts) + 2)
    lengths = _lengths(cable.plus, lane.fuse.from_source if lane.fuse is not None else None, len(parts) + 1)
    order: list[tuple[str, float]] = []
    for (name, ohms), length in zip(parts, lengths, strict=False):
        order += [(f"to_{name}", _copper(each, length, celsius) + lug), (name, ohms)]
    order.append(("to_unit", _copper(each, lengths[-1], celsius) + lug))
    here = "plus"
    for name, ohms in order:
        there = f"u{n}plus" if name == "to_unit" else f"u{n}{name}"
        deck.ohms(f"{name}{n}", here, there, ohms)
        deck.show(f"drop{n}_{name}", f"v({here})-v({there})")
        here = there
    deck.ohms(f"return{n}", f"u{n}minus", "0", _copper(each, cable.minus, celsius) + lug)
    deck.show(f"drop{n}_return", f"v(u{n}minus)")
    deck.show(f"terminal{n}", f"v(u{n}plus)-v(u{n}minus)")
    deck.put(f"Vmeter{n} u{n}plus u{n}in DC 0")
    deck.show(f"current{n}", f"i(vmeter{n})")
    unit = lane.unit
    if unit.drive == "brushless" or unit.step_up_inside:
        _drive(deck, unit, n)
    else:
        _motor(deck, unit, n, variant)


def _motor(deck: Deck, unit: ThrusterUnit, n: int, variant: Variant) -> None:
    """Armature circuit and shaft: node ``wN`` is the shaft, one volt a radian a second."""
    assert unit.rated_volts is not None
    assert unit.rated_current is not None
    volts, current = unit.rated_volts, unit.rated_current
    brushes = BRUSHES if unit.brush_drop is None else unit.brush_drop
    friction = FRICTION_SHARE * current if unit.no_load_current is None else unit.no_load_current
    armature = (volts - brushes) / (STALL * current) if unit.armature_resistance is None else unit.armature_resistance
    speed = unit.rotation if unit.rotation is not None else 100.0 * pi
    k = (volts - brushes - current * armature) / speed
    c = k * (current - friction) / speed**2
    magnets, winding = ("cold", "hot") if variant.startswith("cold") else ("hot", "cold")
    k *= 1.0 + FERRITE * (MAGNETS[magnets] - MAGNETS["rated"])
    armature *= 1.0 + COPPER_RISE * (WINDING[winding] - WINDING["rated"])
    deck.ohms(f"armature{n}", f"u{n}in", f"u{n}brush", armature)
    deck.put(f"Vbrush{n} u{n}brush u{n}emf DC {brushes:.9g}")
    deck.put(f"Bemf{n} u{n}emf u{n}minus V={k:.9g}*v(w{n})")
    deck.put(f"Bshaft{n} 0 w{n} I={k:.9g}*(i(Vmeter{n})-{friction:.9g})-{c:.9g}*v(w{n})*abs(v(w{n}))")
    deck.ohms(f"shaft{n}", f"w{n}", "0", 1e12)
    deck.starts.append(f".nodeset v(w{n})={speed:.9g} v(u{n}plus)={volts:.9g} v(u{n}in)={volts:.9g}")
    deck.show(f"thrust{n}", f"(v(w{n})/{speed:.9g})^2")


def _drive(deck: Deck, unit: ThrusterUnit, n: int) -> None:
    """Constant power down to the fold-back volts, then less on a straight line to the cut-out, and never above the limit."""
    assert unit.rated_volts is not None
    assert unit.rated_current is not None
    power = unit.rated_volts * unit.rated_current
    nominal = unit.volts if unit.volts is not None else unit.rated_volts
    fold = 10.5 / 12.0 * nominal if unit.fold_back_volts is None else unit.fold_back_volts
    cut = min(0.75 * nominal, 0.9 * fold) if unit.cut_out_volts is None else unit.cut_out_volts
    limit = 1e6 if unit.current_limit is None else unit.current_limit
    volts = f"v(u{n}in,u{n}minus)"
    share = f"min(1,max(0,({volts}-{cut:.9g})/{fold - cut:.9g}))"
    deck.put(f"Bdrive{n} u{n}in u{n}minus I=min({limit:.9g},{power:.9g}*{share}/max({volts},1))")
    deck.starts.append(f".nodeset v(u{n}plus)={nominal:.9g} v(u{n}in)={nominal:.9g} v(plus)={nominal:.9g}")
    deck.show(f"thrust{n}", f"((v(u{n}plus)-v(u{n}minus))*i(vmeter{n})/{power:.9g})^(2/3)")


def deck_of(p: Proposal, bank: Bank, lanes: tuple[Lane, ...], state: State, variant: Variant, title: str) -> str:
    """The netlist of a bank with the units of these lanes running."""
    deck = Deck(title)
    _bank(deck, p, bank, state)
    for lane in lanes:
        _lane(deck, p, lane, state, variant)
    deck.show("bank", "v(plus)")
    return deck.text()
