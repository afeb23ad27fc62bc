"""Bill of materials: counted from the netlist, rows and prices from the catalogue, spares as a column.

What is aboard already is not bought. Cable is summed by row and colour with the waste the brief asks. Lugs are counted from the
ends of the conductors by the stud they sit on; a stud the catalogue does not state is the usual one of its kind, marked so.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from athwart.catalogue.records import Fuse, FuseFamily, Row, Sundry
from athwart.design.netlist import Component, Conductor, End
from athwart.design.proposal import Lane, Proposal
from athwart.design.wiring_bank import bank_lane
from athwart.papers.figures import amps

LUGGED = frozenset("PNLCE")
USUAL_STUDS: tuple[tuple[str, float, str], ...] = (
    ("fuse", 45.0, "M5"),
    ("fuse", 205.0, "M8"),
    ("fuse", 1e9, "M10"),
    ("bar", 1e9, "M8"),
    ("stop button", 1e9, "M5"),
    ("stop coil", 1e9, "M5"),
    ("charger", 1e9, "M6"),
    ("network converter", 1e9, "M5"),
    ("equaliser", 1e9, "M5"),
    ("feed", 1e9, "M5"),
    ("ship battery", 1e9, "M8"),
    ("alternator", 1e9, "M8"),
    ("shore charger", 1e9, "M8"),
    ("isolator", 1e9, "M8"),
    ("main switch", 1e9, "M10"),
    ("stop contactor", 1e9, "M10"),
    ("unit", 1e9, "M8"),
    ("block", 1e9, "M8"),
)
"""Kind of part, up to this rating in amperes, stud (own judgement): for parts whose row states none."""
OTHER_STUD = "M6"
FEW_SPARES: dict[str, int] = {"terminal cube": 2, "plug-in blade": 5, "gg cylinder": 3}
"""Fuse family -> spares aboard: cubes and blades are cheap and small, two to five of each."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line. ``quantity`` counts ``unit``; mass and price are of the whole line, None where no row states them."""

    number: int
    quantity: float
    unit: str
    tags: tuple[str, ...]
    what: str
    rating: str
    row: str | None
    mass: float | None
    price: float | None
    spare: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class _Draft:
    quantity: float
    unit: str
    tags: tuple[str, ...]
    what: str
    rating: str
    row: Row | None
    spare: str = ""
    note: str = ""


def bill(proposal: Proposal) -> tuple[Line, ...]:
    """Everything to buy, in the order of its kind."""
    drafts = [
        *_equipment(proposal),
        *_holders(proposal),
        *_cables(proposal),
        *_lugs(proposal),
        *_small(proposal),
        *_spares(proposal),
    ]
    return tuple(
        Line(
            number, d.quantity, d.unit, d.tags, d.what, d.rating, d.row.id if d.row else None,
            d.row.mass * d.quantity if d.row else None, d.row.price * d.quantity if d.row else None, d.spare, d.note,
        )
        for number, d in enumerate(drafts, 1)
    )  # fmt: skip


def kept(proposal: Proposal) -> tuple[Component, ...]:
    """What is aboard and stays."""
    return tuple(component for component in proposal.netlist.components if component.aboard)


# ---- equipment

ORDER = (
    "unit", "pump", "block", "fuse", "main switch", "stop contactor", "stop button", "charger", "equaliser", "bar",
    "network converter", "panel", "feed", "tee", "terminator",
)  # fmt: skip
KIND_WORDS = {
    "block": "battery block", "fuse": "fuse", "main switch": "main switch, lockable off", "stop contactor": "stop contactor",
    "stop button": "stop button", "charger": "charger", "bar": "bar, covered", "network converter": "network converter",
    "panel": "helm panel", "feed": "feed tee", "tee": "trunk tee", "terminator": "terminator", "equaliser": "equaliser",
    "unit": "thruster unit", "pump": "hydraulic pump",
}  # fmt: skip


def _equipment(p: Proposal) -> Iterator[_Draft]:
    groups: dict[tuple[str, str, str], list[tuple[Component, Row | None]]] = defaultdict(list)
    for component in p.netlist.components:
        if component.aboard or component.kind not in ORDER:
            continue
        row = row_of(p, component)
        groups[component.kind, row.id if row else "", " ".join(component.rating) if row is None else ""].append((component, row))
    for (kind, _, _), found in sorted(
        groups.items(), key=lambda entry: (ORDER.index(entry[0][0]), entry[1][0][0].lane, entry[0])
    ):
        first, row = found[0]
        what = (
            row.name if row is not None else f"{KIND_WORDS[kind]}, {first.name}" if kind in ("unit", "pump") else KIND_WORDS[kind]
        )
        rating = _rating(p, first)
        note = "" if row is not None else "no row in the catalogue"
        yield _Draft(len(found), "pc", tuple(c.tag for c, _ in found), what, rating, row, _spare_of(kind, row), note)


def _rating(p: Proposal, component: Component) -> str:
    if component.kind == "unit":
        lane = next(entry for entry in p.lanes if entry.lane == component.lane)
        return f"{lane.unit.volts:g} V" if lane.unit.volts else "hydraulic"
    return "120 Ω" if component.kind == "terminator" else ", ".join(component.rating)


def _spare_of(kind: str, row: Row | None) -> str:
    if isinstance(row, Fuse):
        return str(FEW_SPARES.get(row.family, 1))
    return "1" if kind == "fuse" else ""


def row_of(p: Proposal, component: Component) -> Row | None:
    """The catalogue row of a part: its own, or the one its kind and size lead to."""
    if component.row is not None:
        return p.catalogue.row(component.row)
    if component.kind == "panel":
        return next((lane.panel for lane in p.lanes if lane.panel is not None), None)
    if component.kind == "bar":
        use = "negative bar" if "minus" in component.name or "negative" in component.name else "plus bar"
        need = _current_on(p, component.tag)
        rows = [row for row in _sundries(p, use) if (row.current or 0.0) >= need]
        return min(rows, key=lambda row: (row.current or 0.0, row.id), default=None)
    if component.kind == "stop button":
        return next((row for row in _sundries(p, "stop button") if row.size in component.rating), None)
    if component.kind == "equaliser":
        return next(iter(_sundries(p, "equaliser")), None)
    uses = {"feed": "feed tee", "tee": "tee", "terminator": "terminator"}
    return next(iter(_sundries(p, uses[component.kind])), None) if component.kind in uses else None


def _sundries(p: Proposal, use: str) -> list[Sundry]:
    return [row for row in p.catalogue.sundries if row.use == use]


def _current_on(p: Proposal, tag: str) -> float:
    return max((c.current or 0.0 for c in p.netlist.conductors if tag in (c.start.component, c.end.component)), default=0.0)


def _holders(p: Proposal) -> Iterator[_Draft]:
    found: dict[str, list[str]] = defaultdict(list)
    rows: dict[str, Sundry | None] = {}
    for component in p.netlist.components:
        fuse = p.catalogue.row(component.row) if component.kind == "fuse" and component.row and not component.aboard else None
        if not isinstance(fuse, Fuse):
            continue
        fitting = [row for row in _sundries(p, "fuse holder") if row.size == fuse.family and (row.current or 0.0) >= fuse.rating]
        row = min(fitting, key=lambda entry: (entry.current or 0.0, entry.id), default=None)
        key = row.id if row else f"holder, {fuse.family}"
        rows[key] = row
        found[key].append(component.tag)
    for key, tags in found.items():
        row = rows[key]
        words = f"to {amps(row.current)}" if row is not None and row.current else ""
        yield _Draft(
            len(tags),
            "pc",
            tuple(tags),
            row.name if row else f"fuse {key}",
            words,
            row,
            note="" if row else "no row in the catalogue",
        )


# ---- cable


def _cables(p: Proposal) -> Iterator[_Draft]:
    waste = p.brief.choices.cable_waste
    lengths: dict[tuple[str, str, str], float] = defaultdict(float)
    tags: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    areas: dict[tuple[str, str, str], float] = {}
    for wire in p.netlist.conductors:
        if wire.aboard or wire.kind == "H" or wire.length <= 0.0:
            continue
        key = (wire.row or "", wire.size, "" if wire.kind in "TD" else wire.colour)
        lengths[key] += wire.length * wire.parallel
        tags[key].append(wire.tag)
        areas[key] = wire.area
    for key in sorted(lengths, key=lambda entry: (-areas[entry], entry)):
        row = p.catalogue.row(key[0]) if key[0] else None
        metres = ceil(2 * lengths[key] * (1.0 + waste)) / 2
        what = f"{row.name if row else 'Cable, ' + key[1]}{', ' + key[2] if key[2] else ''}"
        note = f"{lengths[key]:.1f} m + {100 * waste:.0f} % waste"
        yield _Draft(metres, "m", tuple(tags[key]), what, key[1], row, note=note)


# ---- lugs


def stud_of(p: Proposal, end: End) -> tuple[str, bool]:
    """Stud a lug sits on, and whether the catalogue says so."""
    component = p.netlist.component(end.component)
    tag = component.tag.removesuffix(" coil")
    row = p.catalogue.row(component.row) if component.row else None
    if row is None and component.kind == "block":
        row = next((bank.block for bank in p.banks if bank.block.id == component.row), None)
    stud = getattr(row, "stud", None)
    if stud and component.tag == tag:
        return str(stud), True
    rating = float(component.facts.get("amps", 0.0) or 0.0)
    return next((found for kind, most, found in USUAL_STUDS if kind == component.kind and rating <= most), OTHER_STUD), False


def _lugs(p: Proposal) -> Iterator[_Draft]:
    counts: dict[tuple[float, str, str], int] = defaultdict(int)
    sure: dict[tuple[float, str, str], bool] = {}
    for wire, end in ends(p):
        stud, known = stud_of(p, end)
        key = (wire.area, wire.size, stud)
        counts[key] += wire.parallel
        sure[key] = sure.get(key, True) and known
    for key in sorted(counts, key=lambda entry: (-entry[0], entry[2])):
        _, size, stud = key
        row = _lug_row(p, size, stud)
        note = "" if sure[key] else "stud: usual size, hold against the part"
        yield _Draft(
            counts[key],
            "pc",
            (),
            row.name if row else f"Lug {size} {stud}, tinned",
            f"{size}, {stud}",
            row,
            note=note or ("" if row else "no row in the catalogue"),
        )


def _lug_row(p: Proposal, size: str, stud: str) -> Sundry | None:
    wanted = f"{size} {stud}".replace("²", "2")
    return next((row for row in _sundries(p, "lug") if (row.size or "").replace("²", "2") == wanted), None)


def ends(p: Proposal) -> Iterator[tuple[Conductor, End]]:
    """Both ends of every conductor that is new and carries lugs."""
    for wire in p.netlist.conductors:
        if not wire.aboard and wire.kind in LUGGED:
            yield wire, wire.start
            yield wire, wire.end


# ---- small parts and spares


def _small(p: Proposal) -> Iterator[_Draft]:
    boots: dict[tuple[str, str], int] = defaultdict(int)
    for wire, end in ends(p):
        if wire.kind in "PNL" and wire.area >= 9.9e-6 and p.netlist.component(end.component).kind != "bar":
            boots[stud_of(p, end)[0], "black" if wire.kind == "N" else "red"] += wire.parallel
    for (stud, colour), count in sorted(boots.items()):
        row = next((r for r in _sundries(p, "terminal boot") if r.size == stud and colour in r.name), None)
        if row is not None:
            yield _Draft(count, "pc", (), row.name, stud, row)
    blocks = tuple(c.tag for c in p.netlist.components if c.kind == "block" and not c.aboard)
    yield from _one_each(p, "battery hold-down", blocks)
    chargers = [c for c in p.charging if c.charger is not None and c.charger.temperature_sensor and c.kept == "chosen"]
    sensed = tuple(bank.name for bank in p.banks if bank.name in {c.bank for c in chargers})
    yield from _one_each(p, "temperature sensor", sensed)
    switches = tuple(c.tag for c in p.netlist.components if c.kind == "main switch" and c.lane > 0)
    yield from _one_each(p, "lock and tag", switches)
    if p.brief.supply.common_negative == "isolated":
        isolated = [bank.volts for bank in p.banks] if not p.brief.supply.insulation_monitor else []
        for volts in sorted(set(isolated)):
            tags = tuple(f"X{bank_lane(bank, p.lanes)}.2" for bank in p.banks if bank.volts == volts)
            yield from _one_each(p, "insulation monitor", tags, volts)
    wires = sum(c.parallel for c in p.netlist.conductors if not c.aboard and c.kind != "H")
    if wires:
        yield _Draft(
            2 * wires, "pc", (), "Cable marker: own tag, then far end", "both ends of each wire", None, note="printed, shrunk on"
        )


def _one_each(p: Proposal, use: str, tags: tuple[str, ...], volts: float | None = None) -> Iterator[_Draft]:
    """One a tag, of the first row of a use; with ``volts`` of the first row made for no fewer."""
    rows = [row for row in _sundries(p, use) if volts is None or (row.volts_in or 0.0) >= 0.9 * volts]
    row = next(iter(sorted(rows, key=lambda entry: entry.volts_in or 0.0)) if volts is not None else iter(rows), None)
    if tags and row is not None:
        yield _Draft(len(tags), "pc", tags, row.name, "", row)


def _spares(p: Proposal) -> Iterator[_Draft]:
    for use, size_of in (("brushes", _brush_size), ("shear pin", _tunnel_size), ("anode", _tunnel_size)):
        sizes: dict[str, list[str]] = defaultdict(list)
        for lane in p.lanes:
            size = size_of(lane)
            if size:
                sizes[size].append(f"M{lane.lane}.1")
        for size, tags in sizes.items():
            row = next((r for r in _sundries(p, use) if (r.size or "").replace(" ", "") == size), None)
            if row is not None:
                yield _Draft(
                    len(tags),
                    "set" if use != "anode" else "pc",
                    tuple(tags),
                    row.name,
                    row.size or "",
                    row,
                    spare="1",
                    note="spare aboard, not fitted",
                )


def _brush_size(lane: Lane) -> str:
    volts = lane.unit.motor_volts or lane.unit.volts
    return f"{volts:.0f}V" if lane.unit.drive == "brushed" and volts else ""


def _tunnel_size(lane: Lane) -> str:
    return f"{lane.unit.tunnel_diameter * 1e3:.0f}mm" if lane.unit.tunnel_diameter else ""


def totals(lines: Iterable[Line]) -> tuple[float, float, int]:
    """Mass, price, and how many lines have neither."""
    listed = tuple(lines)
    return (
        sum(line.mass or 0.0 for line in listed),
        sum(line.price or 0.0 for line in listed),
        sum(line.price is None for line in listed),
    )


def family_of(p: Proposal, component: Component) -> tuple[Fuse, FuseFamily] | None:
    """The fuse and its family behind a fuse of the netlist."""
    fuse = p.catalogue.row(component.row) if component.row else None
    if not isinstance(fuse, Fuse):
        fuse = next((lane.fuse.fuse for lane in p.lanes if lane.fuse is not None and component.tag == f"F{lane.lane}.1"), None)
    if fuse is None or fuse.family not in p.catalogue.fuse_families:
        return None
    return fuse, p.catalogue.fuse_families[fuse.family]
