"""The ship's column of the one-line diagram: plus bars above, sources between, the negative bar below.

Each battery has its bar (fuse block) with what hangs on it. Isolators and relays between sources stand at the left, each with
two lines that run over the bars and come down where they end.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from athwart.design.netlist import Component, Conductor, End
from athwart.papers import symbols
from athwart.papers.one_line_base import Board, Circuit, beside, far_end, flag, part_lines, two_lines, wire
from athwart.papers.scene import Box, Pen, Point, width_of, wrapped
from athwart.papers.symbols import STEP, label

BATTERY_WIDE, SOURCE_WIDE, FUSE_WIDE, DROP_WIDE, EXIT_WIDE = 27.5, 25.5, 13.5, 5.0, 15.0
Part = Literal["all", "sources", "fuses"]
DEVICE_WIDE, TRACK = 34.0, 24.0
NEGATIVE = "X0.2"
FUSE_DOWN = 25.0
"""From a bar to the load stud of the fuse that hangs on it."""


@dataclass(slots=True)
class Group:
    """A bar or a stud with what meets there."""

    stud: str  # component
    terminal: str
    sources: list[Component] = field(default_factory=list)  # battery, alternator, shore charger hanging below
    fuses: list[Component] = field(default_factory=list)
    direct: list[Conductor] = field(default_factory=list)  # what leaves without a fuse
    drops: list[Conductor] = field(default_factory=list)  # lines that come down from a device

    @property
    def is_bar(self) -> bool:
        """A bar, or only the stud of an alternator."""
        return self.stud.startswith("X")

    def width(self, part: Part = "all") -> float:
        """Level room."""
        sources = sum(BATTERY_WIDE if entry.kind == "ship battery" else SOURCE_WIDE for entry in self.sources)
        loads = FUSE_WIDE * (len(self.fuses) + len(self.direct))
        drops = DROP_WIDE * len(self.drops)
        return {"all": sources + loads + drops, "sources": sources + drops, "fuses": max(loads, 24.0)}[part] + 4.0


@dataclass(slots=True)
class ShipPlan:
    """The column before it is drawn."""

    groups: list[Group]
    devices: list[Component]
    exits: list[tuple[Conductor, End]]  # of devices, to a bank
    negatives: list[Conductor]  # what comes to the negative bar from outside the column

    def width(self, part: Part = "all") -> float:
        """Level room without the lines to the lanes."""
        devices = DEVICE_WIDE if self.devices else 0.0
        groups = [group for group in self.groups if part != "fuses" or group.fuses or group.direct]
        beside = 0.0 if part == "fuses" else devices + EXIT_WIDE * len(self.exits)
        return beside + sum(group.width(part) for group in groups)

    @property
    def height(self) -> float:
        """Room over the bars for the lines of the devices."""
        return TRACK * len(self.devices)


def plan_ship(circuit: Circuit) -> ShipPlan:
    """Sort what is in lane 0 into groups."""
    groups = [_group(circuit, bar) for bar in circuit.of_kind("bar", 0) if bar.tag != NEGATIVE]
    grouped = {entry.tag for group in groups for entry in group.sources}
    for source in [*circuit.of_kind("alternator"), *circuit.of_kind("shore charger")]:
        if source.tag not in grouped:
            groups.append(Group(source.tag, "+", [source], drops=_drops(circuit, source.tag, "+")))
    groups.sort(
        key=lambda group: (len(group.fuses) + len(group.direct), False, group.stud) if group.is_bar else (-1, False, group.stud)
    )
    own = {group.stud for group in groups}
    devices = circuit.of_kind("isolator")
    exits = []
    for device in devices:
        for conductor in circuit.at(device.tag):
            end = far_end(conductor, device.tag)
            if end.component not in own:
                exits.append((conductor, End(device.tag, "1" if conductor.end.component == device.tag else "2")))
    inside = {entry.tag for group in groups for entry in group.sources}
    negatives = [entry for entry in circuit.at(NEGATIVE) if far_end(entry, NEGATIVE).component not in inside]
    return ShipPlan(groups, devices, exits, negatives)


def _group(circuit: Circuit, bar: Component) -> Group:
    group = Group(bar.tag, "1")
    for conductor in circuit.at(bar.tag):
        other = circuit.components[far_end(conductor, bar.tag).component]
        if other.kind == "main switch":
            battery = next(entry for entry in circuit.at(other.tag, "1"))
            group.sources.insert(0, circuit.components[far_end(battery, other.tag).component])
        elif other.kind in ("alternator", "shore charger"):
            group.sources.append(other)
        elif other.kind == "isolator":
            group.drops.append(conductor)
        elif other.kind == "fuse":
            group.fuses.append(other)
        else:
            group.direct.append(conductor)
    return group


def _drops(circuit: Circuit, tag: str, terminal: str) -> list[Conductor]:
    return [entry for entry in circuit.at(tag, terminal) if circuit.components[far_end(entry, tag).component].kind == "isolator"]


def draw_ship(
    board: Board, circuit: Circuit, plan: ShipPlan, left: float, level: float, foot: float, wired: set[str], part: Part = "all"
) -> dict[str, Point]:
    """Draw the column: bars at ``level``, negative bar at ``foot``; gives back where the conductors of its fuses begin.

    Conductors in ``wired`` are left for the caller to draw, all others end in flags. ``part``: everything, or on a sheet of
    their own the sources or what the bars feed.
    """
    landing: dict[str, float] = {}
    loads: dict[str, Point] = {}
    if part == "fuses":
        x = left
        for group in plan.groups:
            if group.fuses or group.direct:
                x = _draw_fuses(board, circuit, group, x, level, wired)
        return loads
    pen = board.pen
    x = left + (DEVICE_WIDE if plan.devices else 0.0)
    for group in plan.groups:
        x = _draw_group(board, circuit, group, x, level, foot, loads, landing, wired, part)
    for conductor, near in plan.exits:
        landing[conductor.tag] = x + 8.0
        flag(board, conductor, near, (x + 8.0, level), "down")
        x += EXIT_WIDE
    for index, device in enumerate(plan.devices):
        _draw_device(pen, circuit, device, left, level - plan.height + TRACK * index + 6.0, level, landing)
    return loads


def _draw_fuses(board: Board, circuit: Circuit, group: Group, left: float, level: float, wired: set[str]) -> float:
    """A bar continued on another sheet, with what it feeds."""
    x = left
    for fuse in group.fuses:
        _draw_fuse(board, circuit, fuse, group.stud, x + 3.0, level, wired)
        x += FUSE_WIDE
    for conductor in group.direct:
        _draw_direct(board, conductor, group, x + 3.0, level)
        x += FUSE_WIDE
    right = max(x - 1.0, left + 20.0)
    symbols.bar(board.pen, group.stud, left, right, level)
    board.pen.text((left, level - 2.2), f"bar {group.stud} continued", symbols.LETTERING)
    return right + 4.0


def _draw_direct(board: Board, conductor: Conductor, group: Group, x: float, level: float) -> None:
    wire(board.pen, conductor, (x, level), (x, level + FUSE_DOWN))
    near = conductor.start if conductor.start.component == group.stud else conductor.end
    flag(board, conductor, near, (x, level + FUSE_DOWN), "down")


def _draw_group(
    board: Board,
    circuit: Circuit,
    group: Group,
    left: float,
    level: float,
    foot: float,
    loads: dict[str, Point],
    landing: dict[str, float],
    wired: set[str],
    part: Part,
) -> float:
    pen, x = board.pen, left
    first = left + 2.0
    for source in group.sources:
        if source.kind == "ship battery":
            _draw_battery(pen, circuit, source, group.stud, x + 8.0, level, foot)
            x += BATTERY_WIDE
        else:
            _draw_source(board, circuit, source, group, x + 8.0, level, foot)
            x += SOURCE_WIDE
    for conductor in group.drops:
        landing[conductor.tag] = x + 2.0
        x += DROP_WIDE
    for fuse in group.fuses if part == "all" else ():
        loads.update(_draw_fuse(board, circuit, fuse, group.stud, x + 3.0, level, wired))
        x += FUSE_WIDE
    for conductor in group.direct if part == "all" else ():
        loads[conductor.tag] = (x + 3.0, level)
        if conductor.tag not in wired:
            _draw_direct(board, conductor, group, x + 3.0, level)
        x += FUSE_WIDE
    last = max(x - 1.0, first + 14.0)
    if group.is_bar:
        symbols.bar(pen, group.stud, first, last, level)
        words = circuit.components[group.stud].name
        free = min((landing[entry.tag] for entry in group.drops), default=last) - first - 1.0
        label(pen, (first, level - 2.2 - STEP), (group.stud, words if width_of(words, 2.0) < free else "fuse block"), group.stud)
    elif group.drops:
        points = [landing[entry.tag] for entry in group.drops] + [left + 8.0]
        pen.join((min(points), level), (max(points), level))
        for point in points:
            pen.dot((point, level), "POS")
    return max(x, last + 1.0) + 3.0


def _draw_battery(pen: Pen, circuit: Circuit, battery: Component, bar: str, x: float, level: float, foot: float) -> None:
    """Bar, isolator, battery, negative bar."""
    switch_y, battery_y = level + 16.0, level + 35.0
    first = circuit.at(battery.tag, "+")[0]
    isolator = circuit.components[far_end(first, battery.tag).component]
    second = circuit.between(isolator.tag, bar)
    minus = circuit.at(battery.tag, "-")[0]
    lower, upper = symbols.upright_switch(pen, isolator.tag, (x, switch_y))
    plus, negative = symbols.block(pen, battery.tag, (x, battery_y))
    assert second is not None
    wire(pen, second, upper, (x, level))
    beside(pen, second, x, level, upper[1])
    wire(pen, first, plus, lower)
    beside(pen, first, x, lower[1], plus[1])
    wire(pen, minus, negative, (x, foot))
    beside(pen, minus, x, negative[1] + 2.0, negative[1] + 12.0)
    label(pen, (x + 2.2, switch_y + 0.2), (isolator.tag, "isolator"), isolator.tag)
    label(pen, (x + 6.2, battery_y - 1.8), part_lines(battery, short_name(battery)), battery.tag)


def short_name(component: Component) -> str:
    """The name given to a source where it finds room, else what it is."""
    name = component.name.removesuffix(" battery")
    return name if len(name) <= 11 else component.kind.removeprefix("ship ").removesuffix(" charger")


def _draw_source(board: Board, circuit: Circuit, source: Component, group: Group, x: float, level: float, foot: float) -> None:
    """An alternator or the shore charger between its bar and the negative bar."""
    pen, y = board.pen, level + 35.0
    if source.kind == "alternator":
        plus, minus = symbols.generator(pen, source.tag, (x, y))
    else:
        box = Box(x - 7.0, y - 5.0, x + 7.0, y + 5.0)
        symbols.converter(pen, source.tag, box, "a.c.", "d.c.")
        plus, minus = pen.port(source.tag, "+", (x, box.top)), pen.port(source.tag, "-", (x, box.bottom))
    for conductor in circuit.at(source.tag, "+"):
        other = far_end(conductor, source.tag).component
        if other == group.stud:
            wire(pen, conductor, plus, (x, level))
            beside(pen, conductor, x, level + 2.0, plus[1])
        elif circuit.components[other].kind != "isolator":
            wire(pen, conductor, plus, (x, y - 12.0))
            flag(board, conductor, End(source.tag, "+"), (x, y - 12.0), "up")
            beside(pen, conductor, x, y - 12.0, plus[1])
    if group.drops and not group.is_bar:
        pen.join(plus, (x, level))
    for conductor in circuit.at(source.tag, "-"):
        wire(pen, conductor, minus, (x, foot))
        beside(pen, conductor, x, minus[1] + 2.0, minus[1] + 12.0)
    side = 8.2 if source.kind == "shore charger" else 5.6
    label(pen, (x + side, y - 1.8), part_lines(source, short_name(source)), source.tag)


def _draw_fuse(
    board: Board, circuit: Circuit, fuse: Component, bar: str, x: float, level: float, wired: set[str]
) -> dict[str, Point]:
    pen = board.pen
    top, bottom = symbols.fuse(pen, fuse.tag, (x, level + 16.5), upright=True)
    before = circuit.between(fuse.tag, bar)
    assert before is not None
    wire(pen, before, (x, level), top)
    beside(pen, before, x, level + 1.0, top[1])
    label(pen, (x + 2.6, level + 16.0), (fuse.tag, *fuse.rating), fuse.tag)
    for conductor in circuit.at(fuse.tag, "2"):
        if conductor.tag not in wired:
            wire(pen, conductor, bottom, (x, level + FUSE_DOWN))
            flag(board, conductor, End(fuse.tag, "2"), (x, level + FUSE_DOWN), "down")
        return {conductor.tag: bottom}
    return {}


def _draw_device(
    pen: Pen, circuit: Circuit, device: Component, left: float, y: float, level: float, landing: dict[str, float]
) -> None:
    """A device at the left; stud 1 goes up and over, stud 2 straight out, both down to where they land."""
    kind = str(device.facts.get("kind", ""))
    one, two = symbols.isolator(pen, device.tag, (left + 9.0, y), kind)
    first, second = circuit.at(device.tag, "1")[0], circuit.at(device.tag, "2")[0]
    over = y - 7.5
    wire(pen, first, one, (left + 1.5, y), (left + 1.5, over), (landing[first.tag], over), (landing[first.tag], level))
    wire(pen, second, two, (landing[second.tag], y), (landing[second.tag], level))
    label(pen, (left + 16.0, over - 1.3 - STEP), two_lines(first), first.tag)
    label(pen, (left + 16.0, y - 1.3 - STEP), two_lines(second), second.tag)
    words = wrapped(f"{device.name}, {kind}" if device.name != kind else kind, 17, 2)
    label(pen, (left + 4.0, y + 5.4), (device.tag, *words), device.tag)


def negative_room(plan: ShipPlan) -> float:
    """Level room for what comes to the negative bar from outside, where each comes to a flag."""
    return 34.0 + EXIT_WIDE * len(plan.negatives)


def draw_negative_bar(
    board: Board, circuit: Circuit, plan: ShipPlan, left: float, right: float, foot: float, wired: set[str], part: Part = "all"
) -> None:
    """The bar that ties the ship's minus together, with flags below it for all that goes elsewhere."""
    if NEGATIVE not in circuit.components:
        return
    pen, here = board.pen, left + 41.0
    flagged = [entry for entry in plan.negatives if entry.tag not in wired] if part != "sources" else []
    symbols.bar(pen, NEGATIVE, left, max(right, left + 34.0 + EXIT_WIDE * len(flagged)), foot)
    if part == "fuses":
        pen.text((left, foot + 4.2), f"bar {NEGATIVE} continued", symbols.LETTERING)
    else:
        label(pen, (left, foot + 4.2), (f"{NEGATIVE} {circuit.components[NEGATIVE].name}",), NEGATIVE)
    for conductor in flagged:
        near = conductor.start if conductor.start.component == NEGATIVE else conductor.end
        wire(pen, conductor, (here, foot), (here, foot + STEP * 2))
        flag(board, conductor, near, (here, foot + STEP * 2), "down")
        here += EXIT_WIDE
