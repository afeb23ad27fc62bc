"""A lane of the one-line diagram right of its bank: fuse, switch, stop contactor, unit; return below; the stop loop between.

The stop loop runs in rows, every second one backwards, so that any number of helms finds room.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from athwart.design.netlist import Component, Conductor, End
from athwart.papers import symbols
from athwart.papers.one_line_base import Board, Circuit, above, below, beside, far_end, flag, part_lines, room, wire
from athwart.papers.scene import Point, wrapped
from athwart.papers.symbols import STEP, label

Path = tuple[Point, ...]

LEAST_GAP = 18.5
UNIT_ROOM = 21.0
"""Left of the middle of the unit: its box and its words."""
BUTTON, COIL = 9.0, 6.0
ROW, LADDER_ROW = 22.0, 28.0
FIRST_ROW, LADDER_FIRST = 28.0, 22.0
RETURN_UP = 9.0
FROM_LEFT = 36.5
LADDER = 11.0
UNIT_DOWN = 9.0
"""From the plus rail to the unit."""


@dataclass(slots=True)
class LanePlan:
    """A lane before it is drawn."""

    lane: int
    parts: list[Component]
    pieces: list[Conductor]
    unit: Component
    pump: Component | None
    back: Conductor | None
    drop: Conductor | None
    control_fuse: Component | None
    control_at: int | None  # after which part the control fuse hangs, -1: at the bank
    buttons: list[Component] = field(default_factory=list)
    coil: Component | None = None
    rows: int = 1
    from_left: bool = False  # the stop loop's first row begins at the bank, not below its fuse

    @property
    def latching(self) -> bool:
        """Whether the stop latches, its buttons side by side."""
        return self.coil is not None and self.coil.stop == "latching"

    @property
    def height(self) -> float:
        """Least distance of the rails."""
        if self.coil is None:
            return 56.0
        if self.latching:
            first = FIRST_ROW if self.control_fuse else LADDER_FIRST
            return first + LADDER + LADDER_ROW * (self.rows - 1) + 28.0
        return max(56.0, (FROM_LEFT if self.from_left else FIRST_ROW) + ROW * (self.rows - 1) + 22.0)


def plan_lane(circuit: Circuit, lane: int) -> LanePlan:
    """Walk back from the unit to the bank."""
    unit = circuit.components[f"M{lane}.1"]
    drop = next(iter(circuit.at(unit.tag, "net")), None)
    if "+" not in unit.terminals:
        pump = next(iter(circuit.of_kind("pump", lane)), None)
        return LanePlan(lane, [], [], unit, pump, None, drop, None, None)
    parts: list[Component] = []
    pieces: list[Conductor] = []
    here, stud = unit.tag, "+"
    while True:
        piece = next(entry for entry in circuit.at(here, stud) if entry.lane == lane and entry.end.component == here)
        pieces.insert(0, piece)
        before = circuit.components[piece.start.component]
        if before.tag not in (f"F{lane}.1", f"Q{lane}.1", f"Q{lane}.2"):
            break
        parts.insert(0, before)
        here, stud = before.tag, "1"
    back = next(entry for entry in circuit.at(unit.tag, "-"))
    plan = LanePlan(lane, parts, pieces, unit, None, back, drop, None, None)
    _plan_stop(circuit, plan)
    return plan


def _plan_stop(circuit: Circuit, plan: LanePlan) -> None:
    plan.coil = circuit.components.get(f"Q{plan.lane}.2 coil")
    plan.buttons = circuit.of_kind("stop button", plan.lane)
    fuse = circuit.components.get(f"F{plan.lane}.3")
    if plan.coil is None or fuse is None or fuse.name != "control fuse":
        return
    plan.control_fuse = fuse
    source = far_end(circuit.at(fuse.tag, "1")[0], fuse.tag).component
    names = [part.tag for part in plan.parts]
    plan.control_at = names.index(source) if source in names else -1


def loop_pieces(circuit: Circuit, plan: LanePlan) -> list[Conductor]:
    """Conductors of the stop loop in tag order."""
    return [entry for entry in circuit.netlist.conductors if entry.lane == plan.lane and entry.kind == "C"]


def lane_width(plan: LanePlan) -> float:
    """Level room of the chain from the right end of the plus rail to the middle of the unit."""
    if plan.pump is not None:
        return 110.0
    gaps = sum(max(room(piece), LEAST_GAP) for piece in plan.pieces) + 2 * symbols.HALF * len(plan.parts)
    return max(gaps + 2.0, _loop_room(plan))


def _loop_room(plan: LanePlan) -> float:
    if plan.coil is None:
        return 70.0
    return 128.0 if plan.latching else 112.0


def draw_lane(
    board: Board,
    circuit: Circuit,
    plan: LanePlan,
    start: Path,
    foot: Path,
    clear: float,
    unit_x: float,
    *,
    back_to: Point | None,
    tap_at: Point | None,
) -> Point:
    """Draw a lane from ``start`` on the plus rail to the unit at ``unit_x`` and back to ``foot`` on the minus rail.

    Both are paths from the bank: one point, or more where the lane lies below another one. ``back_to`` is where the stop loop
    comes back to the minus rail; None: it ends in a flag. ``tap_at`` is where the control fuse hangs if it hangs at the bank.
    Gives back the network stud of the unit.
    """
    if plan.pump is not None:
        return _draw_hydraulic(board, circuit, plan, start[-1], foot[-1], unit_x)
    top, bottom = start[-1][1], foot[-1][1]
    right_of = _draw_chain(board, circuit, plan, start, clear, unit_x)
    net = _draw_unit(board, plan, top, foot, max(foot[-1][0], start[-1][0]), unit_x)
    if plan.coil is not None:
        tap = tap_at
        if plan.control_at is not None and plan.control_at >= 0:
            tap = (right_of[plan.control_at] + 1.5, top)
        draw = _draw_ladder if plan.latching else _draw_loop
        draw(board, circuit, plan, clear, unit_x - UNIT_ROOM, top, bottom, tap, back_to)
    return net


def _draw_chain(board: Board, circuit: Circuit, plan: LanePlan, start: Path, clear: float, unit_x: float) -> list[float]:
    """Parts on the plus rail; gives back the right end of each."""
    pen, (x, top), lead = board.pen, start[-1], start[:-1]
    spare = unit_x - lane_width_least(plan, x, clear)
    extra = max(0.0, spare) / max(len(plan.pieces), 1)
    before, ends = start[-1], list[float]()
    for index, (piece, part) in enumerate(zip(plan.pieces, plan.parts, strict=False)):
        half = 4.5 if part.kind == "fuse" else symbols.HALF
        gap = max(room(piece), LEAST_GAP)
        left = max(before[0] + gap, clear + 3.0 if index == 0 else 0.0) + extra
        draw = {"fuse": symbols.fuse, "main switch": symbols.main_switch}.get(part.kind, symbols.contactor)
        one, two = draw(pen, part.tag, (left + half, top))
        wire(pen, piece, *lead, before, one)
        lead = ()
        above(pen, piece, max(before[0], one[0] - 2 * gap), one[0], top)
        _name_part(board, plan, index, part, left + half, top)
        before = two
        ends.append(two[0])
    last = plan.pieces[-1]
    head = top + UNIT_DOWN
    wire(pen, last, *lead, before, (unit_x, top), (unit_x, head))
    above(pen, last, before[0], unit_x, top)
    return ends


def lane_width_least(plan: LanePlan, x: float, clear: float) -> float:
    """Where the unit would stand at the least distances."""
    for index, (piece, part) in enumerate(zip(plan.pieces, plan.parts, strict=False)):
        half = 4.5 if part.kind == "fuse" else symbols.HALF
        x = max(x + max(room(piece), LEAST_GAP), clear + 3.0 if index == 0 else 0.0) + 2 * half
    return max(x, clear if not plan.parts else 0.0) + max(room(plan.pieces[-1]), LEAST_GAP)


def _name_part(board: Board, plan: LanePlan, index: int, part: Component, x: float, top: float) -> None:
    """Below the part; to the left of its load stud where the control fuse hangs there."""
    lines = part_lines(part, "" if part.kind == "fuse" else part.name)
    if index == plan.control_at:
        label(board.pen, (x + symbols.HALF - 0.6, top + 4.6), lines, part.tag, anchor="end")
    else:
        label(board.pen, (x, top + 4.6), lines, part.tag, anchor="middle")


def _draw_unit(board: Board, plan: LanePlan, top: float, foot: Path, free: float, x: float) -> Point:
    pen, unit = board.pen, plan.unit
    head = (x, top + UNIT_DOWN)
    plus, minus, net = symbols.unit(pen, unit.tag, head, str(unit.facts.get("reversing")), str(unit.facts.get("drive")))
    label(pen, (x - 1.6, minus[1] + 3.2), part_lines(unit), unit.tag, anchor="end")
    pen.text((x + 1.6, plus[1] - 1.4), "+", 2.0)
    pen.text((x + 1.6, minus[1] + 3.2), "−", 2.0)
    assert plan.back is not None
    low = foot[-1]
    wire(pen, plan.back, minus, (x, low[1]), *reversed(foot))
    above(pen, plan.back, free + 2.0, free + 2.0 + room(plan.back), low[1])
    return net


def draw_drop(board: Board, plan: LanePlan, net: Point) -> None:
    """The control line's drop to the unit as a flag."""
    if plan.drop is None:
        return
    end = (net[0] + 5.0, net[1])
    wire(board.pen, plan.drop, net, end)
    flag(board, plan.drop, End(plan.unit.tag, "net"), end, "right")


def _start_of_loop(
    board: Board, circuit: Circuit, plan: LanePlan, clear: float, top: float, level: float, tap: Point | None
) -> Point:
    """Where the first C piece begins: below the control fuse, or at a flag."""
    pen = board.pen
    if plan.control_fuse is None or tap is None:
        return clear + 19.0, level
    fuse = plan.control_fuse
    x = tap[0]
    one, two = symbols.fuse(pen, fuse.tag, (x, top + 16.0), upright=True)
    before = circuit.at(fuse.tag, "1")[0]
    wire(pen, before, tap, one)
    pen.dot(tap, "POS")
    beside(pen, before, x, top + 1.5, one[1])
    label(pen, (x + 2.8, top + 15.2), part_lines(fuse), fuse.tag)
    return two


def _draw_loop(
    board: Board,
    circuit: Circuit,
    plan: LanePlan,
    clear: float,
    limit: float,
    top: float,
    bottom: float,
    tap: Point | None,
    back_to: Point | None,
) -> None:
    """Buttons in series and the coil, row by row."""
    pen, level, left = board.pen, top + FIRST_ROW, clear + 4.0
    begin = _start_of_loop(board, circuit, plan, clear, top, level, tap)
    pieces = loop_pieces(circuit, plan)
    if begin[1] == level:
        flag(board, pieces[0], pieces[0].end, begin, "left")
    path: list[Point] = [begin, (begin[0], level)]
    x, forward = begin[0], 1
    if plan.from_left:
        over, level = begin[1] + 1.5, top + FROM_LEFT
        path = [begin, (begin[0], over), (left, over), (left, level)]
        x = left
    assert plan.coil is not None
    for piece, part in zip(pieces, [*plan.buttons, plan.coil], strict=False):
        size = COIL if part.kind == "stop coil" else BUTTON
        gap = max(room(piece), LEAST_GAP)
        edge = x + forward * (gap + size)
        if edge > limit - 4.0 or edge < left:
            turn = limit if forward > 0 else left - 2.0
            path += [(turn, level), (turn, level + ROW)]
            x, level, forward = turn, level + ROW, -forward
        at = (x + forward * (gap + size / 2), level)
        made = symbols.coil(pen, part.tag, at, flipped=forward < 0) if size == COIL else _button(board, part, at, forward)
        wire(pen, piece, *path, made[0])
        below(pen, piece, min(x, made[0][0]), max(x, made[0][0]), level)
        _name_stop(board, part, at)
        path, x = [made[1]], made[1][0]
    _end_of_loop(board, pieces[-1], plan, path[0], forward, bottom, back_to)


def _button(board: Board, part: Component, at: Point, forward: int) -> tuple[Point, Point]:
    return symbols.stop_button(board.pen, part.tag, at, breaks=part.rating == ("breaks",), flipped=forward < 0)


def _name_stop(board: Board, part: Component, at: Point) -> None:
    lines = part_lines(part) if part.kind == "stop coil" else (part.tag, *wrapped(part.name.removeprefix("stop, "), 14, 2))
    foot = at[1] - (3.4 if part.kind == "stop coil" else 6.2)
    label(board.pen, (at[0], foot - STEP * (len(lines) - 1)), lines, part.tag, anchor="middle")


def _end_of_loop(
    board: Board, piece: Conductor, plan: LanePlan, at: Point, forward: int, bottom: float, back_to: Point | None
) -> None:
    """From the coil back to the minus rail below, or to a flag."""
    pen, level = board.pen, bottom - RETURN_UP
    x = at[0] + forward * 3.0
    if back_to is None:
        end = x - room(piece) - 2.0
        wire(pen, piece, at, (x, at[1]), (x, level), (end, level))
        above(pen, piece, end, x, level)
        flag(board, piece, piece.start, (end, level), "left")
        return
    wire(pen, piece, at, (x, at[1]), (x, level), (back_to[0], level), back_to)
    above(pen, piece, x - room(piece) - 1.0, x - 1.0, level)
    pen.dot(back_to, "NEG")


def _draw_ladder(
    board: Board,
    circuit: Circuit,
    plan: LanePlan,
    clear: float,
    limit: float,
    top: float,
    bottom: float,
    tap: Point | None,
    back_to: Point | None,
) -> None:
    """Buttons side by side between a supply line and a pulse line; the coil at the left of the first."""
    pen, level = board.pen, top + (FIRST_ROW if plan.control_fuse else LADDER_FIRST)
    pieces = loop_pieces(circuit, plan)
    count = len(plan.buttons)
    supply, pulse, to_coil, home = pieces[:count], pieces[count : 2 * count - 1][::-1], pieces[-2], pieces[-1]
    begin = _start_of_loop(board, circuit, plan, clear, top, level, tap)
    if begin[1] == level:
        flag(board, supply[0], supply[0].end, begin, "left")
    first = max(begin[0] + max(room(supply[0]), LEAST_GAP), clear + 19.0 + room(home) + COIL + room(to_coil) + 5.0)
    assert plan.coil is not None
    one, two = symbols.coil(pen, plan.coil.tag, (first - room(to_coil) - COIL / 2 - 5.0, level + LADDER), flipped=True)
    label(pen, (one[0] - COIL / 2, level + LADDER + 4.6), part_lines(plan.coil), plan.coil.tag, anchor="middle")
    studs = _rungs(board, plan, first, limit, level, supply, pulse, begin)
    wire(pen, to_coil, studs[0][1], one)
    above(pen, to_coil, one[0], studs[0][1][0] - 5.0, level + LADDER)
    end = (two[0] - room(home), level + LADDER)
    if back_to is None:
        wire(pen, home, two, end)
        above(pen, home, end[0], two[0], end[1])
        flag(board, home, home.start, end, "left")
        return
    wire(pen, home, two, end, (end[0], bottom - RETURN_UP), (back_to[0], bottom - RETURN_UP), back_to)
    above(pen, home, end[0], two[0], end[1])
    pen.dot(back_to, "NEG")


def _rungs(
    board: Board,
    plan: LanePlan,
    first: float,
    limit: float,
    level: float,
    supply: list[Conductor],
    pulse: list[Conductor],
    begin: Point,
) -> list[tuple[Point, Point]]:
    """The buttons and both lines between them; every second row runs backwards with its lines changed over."""
    pen, x, forward = board.pen, first, 1
    studs: list[tuple[Point, Point]] = []
    for index, button in enumerate(plan.buttons):
        gap = max(room(supply[index]), room(pulse[index - 1]) if index else 0.0, 26.0)
        turned = False
        if index:
            x += forward * gap
            if x > limit - 22.0 or x < first - 1.0:
                turned, level, forward = True, level + LADDER_ROW, -forward
                x = limit - 22.0 if forward < 0 else first
        upper, lower = level, level + LADDER
        one, two = symbols.pulse_button(pen, button.tag, (x, level + LADDER / 2), flipped=forward < 0)
        label(
            pen,
            (x + 1.8, level + LADDER / 2 - 1.6),
            (button.tag, *wrapped(button.name.removeprefix("stop, "), 14, 2)),
            button.tag,
        )
        if index == 0:
            wire(pen, supply[0], begin, (begin[0], upper), one)
            above(pen, supply[0], x - max(room(supply[0]), LEAST_GAP), x, upper)
        else:
            before = studs[-1]
            if turned:
                edge = limit - 1.5 if forward < 0 else first - 8.0
                out = 1.5 if forward < 0 else -1.5
                wire(pen, supply[index], before[0], (edge + out, before[0][1]), (edge + out, lower), one)
                wire(pen, pulse[index - 1], before[1], (edge, before[1][1]), (edge, upper), two)
            else:
                wire(pen, supply[index], before[0], one)
                wire(pen, pulse[index - 1], before[1], two)
            ends = sorted((before[0][0] if not turned else (limit - 1.5 if forward < 0 else first - 8.0), x))
            top_piece, bottom_piece = (supply[index], pulse[index - 1]) if forward > 0 else (pulse[index - 1], supply[index])
            above(pen, top_piece, ends[0], ends[1], upper)
            below(pen, bottom_piece, ends[0], ends[1], lower)
        studs.append((one, two))
    for one, two in studs[:-1]:
        pen.dot(one, "CONTROL")
        pen.dot(two, "CONTROL")
    return studs


def set_rows(circuit: Circuit, plan: LanePlan, width: float, clear_to_tap: float) -> None:
    """Settle how the stop loop runs when the unit stands ``width`` right of where the chain is clear of the bank."""
    plan.rows = rows_needed(circuit, plan, width, clear_to_tap)


def rows_needed(circuit: Circuit, plan: LanePlan, width: float, clear_to_tap: float) -> int:
    """How many rows the stop loop takes when the unit stands ``width`` right of where the chain is clear of the bank."""
    if plan.coil is None:
        return 1
    pieces, limit = loop_pieces(circuit, plan), width - UNIT_ROOM
    if plan.latching:
        count = len(plan.buttons)
        first = 19.0 + room(pieces[-1]) + COIL + room(pieces[-2]) + 5.0
        first = max(first, clear_to_tap + max(room(pieces[0]), LEAST_GAP))
        a_row = 1 + max(0, int((limit - 22.0 - first) / max(26.0, *(room(piece) for piece in pieces))))
        return -(-count // a_row)
    below, whole = _rows(pieces, clear_to_tap, limit), _rows(pieces, 4.0, limit)
    plan.from_left = plan.control_fuse is not None and whole < below
    return min(below, whole) if plan.control_fuse is not None else below


def _rows(pieces: list[Conductor], start: float, limit: float) -> int:
    """Rows of a loop that begins at ``start``."""
    x, forward, rows = start, 1, 1
    for index, piece in enumerate(pieces[:-1]):
        size = COIL if index == len(pieces) - 2 else BUTTON
        gap = max(room(piece), LEAST_GAP)
        edge = x + forward * (gap + size)
        if edge > limit - 4.0 or edge < 4.0:
            x, forward, rows = (limit if forward > 0 else 2.0), -forward, rows + 1
        x += forward * (gap + size)
    return rows


def _draw_hydraulic(board: Board, circuit: Circuit, plan: LanePlan, start: Point, foot: Point, unit_x: float) -> Point:
    """Pump in the place of the bank, lines drawn double."""
    assert plan.pump is not None
    pen, middle = board.pen, (start[1] + foot[1]) / 2
    out, back = symbols.pump(pen, plan.pump.tag, (start[0] + 6.0, middle))
    label(pen, (start[0] + 13.0, middle - 1.0), part_lines(plan.pump, wrapped(plan.pump.name, 22, 1)[0]), plan.pump.tag)
    head = (unit_x, start[1] + UNIT_DOWN)
    into, outof, net = symbols.unit(pen, plan.unit.tag, head, "valve", "hydraulic")
    label(pen, (unit_x - 1.6, outof[1] + 3.2), part_lines(plan.unit, "not computed yet"), plan.unit.tag, anchor="end")
    for stud, end, level in (("out", into, start[1]), ("in", outof, foot[1])):
        for conductor in circuit.at(plan.pump.tag, stud):
            near = out if stud == "out" else back
            wire(pen, conductor, near, (near[0], level), (unit_x, level), end)
            above(pen, conductor, near[0] + 20.0, near[0] + 44.0, level - 0.5)
    return net
