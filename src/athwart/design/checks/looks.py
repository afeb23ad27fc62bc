"""What several checks look at: parts as described, paths of the brief, tags of the netlist, figures as text."""

from __future__ import annotations

from math import inf, isfinite

from athwart import units
from athwart.catalogue.records import BatteryBlock, Row
from athwart.design import netlist
from athwart.design.brief import BankWish, BlockAboard, LaneParts
from athwart.design.netlist import ComponentKind
from athwart.design.places import RunOf, run_between
from athwart.design.proposal import Bank, Lane, Proposal
from athwart.design.search.aboard import Given, block_of, given

ZERO_CELSIUS = 273.15


def told(value: float, kind: str, unit: str | None = None, digits: int | None = None) -> str:
    """A figure with its unit; a time without end reads "never"."""
    if not isfinite(value):
        return "never" if kind == "time" else "without limit"
    return units.show(value, kind, unit, digits, plain=True)


def share(value: float, digits: int = 2) -> str:
    """A ratio in per cent."""
    if 0.0 < value < 5e-4:
        return "under 0.1 %"
    return told(value, "ratio", "%", digits)


def over(value: float, most: float) -> float:
    """Margin under an upper limit: negative where it is passed."""
    return (most - value) / abs(most) if most else (-1.0 if value > 0 else 0.0)


def under(value: float, least: float) -> float:
    """Margin over a lower limit: negative where it is not reached."""
    return (value - least) / abs(least) if least else 1.0


def where_of(lane: Lane) -> str:
    """A lane in words."""
    return f"{lane.thruster.identity} unit"


def thruster_path(p: Proposal, lane: Lane, field: str = "") -> str:
    """Path of a thruster's field in the brief."""
    index = p.brief.thrusters.index(lane.thruster)
    return f"thrusters[{index}]" + (f".{field}" if field else "")


def parts_of(p: Proposal, lane: Lane) -> LaneParts:
    """Parts of a lane that are aboard or fixed."""
    return given(p.brief, lane.thruster.identity).parts


def given_of(p: Proposal, lane: Lane) -> Given:
    """The same with which of them are fixed."""
    return given(p.brief, lane.thruster.identity)


def part_path(p: Proposal, lane: Lane, part: str, field: str = "") -> str:
    """Path of a part of a lane: under ``fixed`` where it is fixed, else under ``aboard``."""
    section = "fixed" if part in given_of(p, lane).fixed else "aboard"
    return f"{section}.lanes.{lane.thruster.identity}.{part}" + (f".{field}" if field else "")


def wish_of(p: Proposal, name: str) -> tuple[int, BankWish] | None:
    """The brief's wish for a bank, with its position."""
    return next(((index, wish) for index, wish in enumerate(p.brief.bank) if wish.name == name), None)


def bank_path(p: Proposal, name: str, field: str = "") -> str:
    """Path of a bank's field in the brief, empty where the brief describes no such bank."""
    found = wish_of(p, name)
    return "" if found is None else f"bank[{found[0]}]" + (f".{field}" if field else "")


def lanes_of(p: Proposal, bank: Bank) -> tuple[Lane, ...]:
    """The lanes a bank feeds."""
    return tuple(lane for lane in p.lanes if lane.bank == bank.name)


def described(p: Proposal, lane: Lane) -> tuple[BlockAboard, BatteryBlock] | None:
    """The bank aboard of a lane as the brief describes it, with its block, whether it is kept or not."""
    part = parts_of(p, lane).bank
    return None if part is None else (part, block_of(p.catalogue, part, lane.thruster.identity))


def is_kept(bank: Bank) -> bool:
    """Whether a bank exists already."""
    return bank.kept != "chosen"


def is_described(row: Row) -> bool:
    """Whether a part was described in the brief instead of named by its row, so that other figures are lent by the nearest row."""
    return netlist.is_described(row.id)


def run_of(p: Proposal, lane: Lane) -> RunOf | None:
    """The route from a lane's bank to its unit."""
    bank = p.bank(lane.bank)
    return None if bank is None else run_between(p.brief, bank.place, lane.thruster.place)


def tags(p: Proposal, lane: Lane, *kinds: ComponentKind) -> tuple[str, ...]:
    """Tags of a lane's components of these kinds."""
    return tuple(part.tag for part in p.netlist.components if part.lane == lane.lane and part.kind in kinds)


def wire_tags(p: Proposal, lane: Lane) -> tuple[str, ...]:
    """Tags of a lane's power conductors."""
    return tuple(wire.tag for wire in p.netlist.conductors if wire.lane == lane.lane and wire.kind in ("P", "N"))


def bank_tags(p: Proposal, bank: Bank) -> tuple[str, ...]:
    """Tags of a bank's blocks."""
    lanes = {lane.lane for lane in lanes_of(p, bank)}
    return tuple(part.tag for part in p.netlist.components if part.lane in lanes and part.kind == "block")


def docking_time(p: Proposal) -> float:
    """Seconds of full thrust in one docking."""
    return p.brief.duty.burst * p.brief.duty.bursts_per_docking


def limit_of(limits: tuple[tuple[str, float, float, bool], ...], begins: str) -> tuple[float, float] | None:
    """Value and limit of a broken limit whose name begins so, None where it is kept or was not asked."""
    return next(((value, limit) for name, value, limit, passed in limits if name.startswith(begins) and not passed), None)


def soonest(*times: float) -> float:
    """The least of some times; without any: never."""
    return min(times, default=inf)
