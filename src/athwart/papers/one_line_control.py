"""The control line of the one-line diagram: the trunk in the order it runs in the boat, a terminator drawn at each end."""

from __future__ import annotations

from dataclasses import dataclass

from athwart.design.netlist import Component, Conductor, End
from athwart.papers import symbols
from athwart.papers.one_line_base import Board, Circuit, above, beside, far_end, flag, room, wire
from athwart.papers.scene import Box, Pen, Point, wrapped
from athwart.papers.symbols import label

PITCH_LEAST = 25.0
ROW_TALL = 66.0
DROP_DOWN = 12.5
NODE_WIDE, NODE_TALL = 21.0, 9.5
FEED_HALF = 4.5


@dataclass(slots=True)
class ControlPlan:
    """The line before it is drawn."""

    tees: list[Component]
    ends: list[Component]
    trunk: list[Conductor]
    pitch: float

    def spread(self, width: float, most: float = 48.0) -> None:
        """Wider apart where one row has room to spare."""
        if self.rows(width) == 1:
            self.pitch = max(self.pitch, min(most, (width - 60.0) / (len(self.tees) + 0.8)))

    def columns(self, width: float) -> int:
        """Tees a row."""
        return max(1, int((width - 48.0) / self.pitch))

    def rows(self, width: float) -> int:
        """Rows needed."""
        return -(-len(self.tees) // self.columns(width))


def plan_control(circuit: Circuit) -> ControlPlan | None:
    """The trunk; None where there is no control line."""
    tees = [entry for entry in circuit.netlist.components if entry.kind in ("tee", "feed")]
    if not tees:
        return None
    trunk = [entry for entry in circuit.netlist.conductors if entry.kind == "T"]
    pitch = max([PITCH_LEAST, *(room(entry) + 5.0 for entry in trunk)])
    ends = [far_end(entry, tee.tag) for tee, entry in _ends(circuit, tees)]
    found = [circuit.components[end.component] for end in ends if circuit.components[end.component].kind == "terminator"]
    return ControlPlan(tees, found, trunk, pitch)


def _ends(circuit: Circuit, tees: list[Component]) -> list[tuple[Component, Conductor]]:
    made = [(tees[0], entry) for entry in circuit.at(tees[0].tag, "1")]
    return made + [(tees[-1], entry) for entry in circuit.at(tees[-1].tag, "2")]


@dataclass(slots=True)
class ControlDrawn:
    """Where the line can be met."""

    tees: dict[str, Point]
    feed_plus: Point | None
    feed_minus: Point | None
    bottom: float
    raised: float = 0.0  # how much higher the flags of the feed stand, to clear lines below them


def draw_control(
    board: Board, circuit: Circuit, plan: ControlPlan, left: float, right: float, y: float, wired: set[str], raised: float = 0.0
) -> ControlDrawn:
    """Draw the line in rows from ``left`` to ``right``, the first at ``y``; conductors in ``wired`` are left to the caller."""
    pen, columns = board.pen, plan.columns(right - left)
    drawn = ControlDrawn({}, None, None, y + 28.0, raised)
    before: Point | None = None
    for index, tee in enumerate(plan.tees):
        row, column = divmod(index, columns)
        first = max(0.8 * plan.pitch, plan.pitch - 1.0 if plan.tees[0].kind == "feed" else 0.0) if row == 0 else 0.6 * plan.pitch
        at = (left + 13.0 + first + plan.pitch * column, y + ROW_TALL * row)
        trunk = next(iter(circuit.at(tee.tag, "1")), None)
        entry = (at[0] - (FEED_HALF if tee.kind == "feed" else 0.0), at[1])
        if trunk is not None:
            _draw_trunk(pen, circuit, trunk, tee, before, entry, left, right, column == 0 and index > 0)
        before = _draw_tee(board, circuit, tee, at, drawn, wired)
        drawn.bottom = at[1] + 28.0
    _draw_last(pen, circuit, plan.tees[-1], before or (left, y), plan.pitch)
    return drawn


def _draw_trunk(
    pen: Pen,
    circuit: Circuit,
    trunk: Conductor,
    tee: Component,
    before: Point | None,
    at: Point,
    left: float,
    right: float,
    new_row: bool,
) -> None:
    other = circuit.components[far_end(trunk, tee.tag).component]
    if other.kind == "terminator":
        stud = symbols.terminator(pen, other.tag, (left + 5.0, at[1]), leaves_left=False)
        label(pen, (left + 5.0, at[1] + 4.6), (other.tag, *other.rating), other.tag, anchor="middle")
        wire(pen, trunk, stud, at)
        above(pen, trunk, stud[0], at[0], at[1])
    elif before is not None and not new_row:
        wire(pen, trunk, before, at)
        above(pen, trunk, before[0], at[0], at[1])
    elif before is not None:
        middle = before[1] + 34.0
        edge = min(right, before[0] + 14.0)
        wire(pen, trunk, before, (edge, before[1]), (edge, middle), (left + 4.0, middle), (left + 4.0, at[1]), at)
        above(pen, trunk, left + 6.0, left + 6.0 + room(trunk), middle)


def _draw_last(pen: Pen, circuit: Circuit, tee: Component, before: Point, pitch: float) -> None:
    for trunk in circuit.at(tee.tag, "2"):
        other = circuit.components[far_end(trunk, tee.tag).component]
        x = before[0] + max(room(trunk) + 1.0, 18.0)
        stud = symbols.terminator(pen, other.tag, (x + 5.0, before[1]), leaves_left=True)
        label(pen, (x + 5.0, before[1] + 4.6), (other.tag, *other.rating), other.tag, anchor="middle")
        wire(pen, trunk, before, stud)
        above(pen, trunk, before[0], stud[0], before[1])


def _draw_tee(board: Board, circuit: Circuit, tee: Component, at: Point, drawn: ControlDrawn, wired: set[str]) -> Point:
    """A joint, or the box of the feed; gives back where the trunk goes on."""
    pen, (x, y) = board.pen, at
    drawn.tees[tee.tag] = at
    half = FEED_HALF if tee.kind == "feed" else 0.0
    for stud, place in (
        ("1", (x - half, y)),
        ("2", (x + half, y)),
        ("drop", (x, y + (_drop_side(circuit, tee, wired) if half else 0.0))),
    ):
        if circuit.at(tee.tag, stud):
            pen.port(tee.tag, stud, place)
    if tee.kind == "feed":
        box = Box(x - half, y - 3.2, x + half, y + 3.2)
        pen.rectangle(box, owner=tee.tag, fill="white")
        pen.symbol(tee.tag, box)
        pen.text((x, y + 0.8), tee.tag, 2.0, "middle", bold=True, tag=tee.tag, owner=tee.tag)
        _draw_feed(board, circuit, tee, at, drawn, wired)
    else:
        pen.dot(at, "NETWORK")
        label(pen, (x - 1.4, y + 3.4), (tee.tag,), tee.tag, anchor="end")
    for conductor in circuit.at(tee.tag, "drop"):
        if conductor.tag not in wired:
            _draw_drop(board, circuit, conductor, tee, (x, y + (3.2 if half else 0.0)))
    for conductor in circuit.at(tee.tag, "third"):
        _draw_third(pen, circuit, conductor, tee, at)
    return x + half, y


def _drop_side(circuit: Circuit, tee: Component, wired: set[str]) -> float:
    """The drop leaves the feed's box below; above where the caller draws it."""
    return -3.2 if any(entry.tag in wired for entry in circuit.at(tee.tag, "drop")) else 3.2


def _draw_feed(board: Board, circuit: Circuit, tee: Component, at: Point, drawn: ControlDrawn, wired: set[str]) -> None:
    """Plus and minus of the supply pair come in from above."""
    x, y = at
    plus, minus = board.pen.port(tee.tag, "+", (x - 3.0, y - 3.2)), board.pen.port(tee.tag, "-", (x + 3.0, y - 3.2))
    drawn.feed_plus, drawn.feed_minus = plus, minus
    for index, (stud, place) in enumerate((("+", plus), ("-", minus))):
        for conductor in circuit.at(tee.tag, stud):
            if conductor.tag in wired:
                continue
            turn = y - 9.5 - drawn.raised
            top = turn - 12.5
            out = place[0] + (-5.0 if index == 0 else 5.0)
            wire(board.pen, conductor, place, (place[0], turn), (out, turn), (out, top))
            flag(board, conductor, End(tee.tag, stud), (out, top), "up")
            if index == 0:
                lines = (conductor.tag, *(word for word in (conductor.size, f"{conductor.length:.1f} m") if word))
                label(board.pen, (out - 1.3, top + 4.0), lines, conductor.tag, anchor="end")
            else:
                beside(board.pen, conductor, out, top, turn)


def _draw_drop(board: Board, circuit: Circuit, conductor: Conductor, tee: Component, at: Point) -> None:
    """Down to a panel or node, or to a flag where a unit is drawn elsewhere."""
    pen, (x, y) = board.pen, at
    end = far_end(conductor, tee.tag)
    node = circuit.components[end.component]
    beside(pen, conductor, x, y + 0.8, y + DROP_DOWN)
    wire(pen, conductor, at, (x, y + DROP_DOWN))
    if node.kind == "unit":
        flag(board, conductor, End(tee.tag, "drop"), (x, y + DROP_DOWN), "down")
        return
    box = Box(x - NODE_WIDE / 2, y + DROP_DOWN, x + NODE_WIDE / 2, y + DROP_DOWN + NODE_TALL)
    symbols.words_box(pen, node.tag, box, (node.tag, *wrapped(node.name, 18, 2)), size=1.8, bold_first=True)
    pen.port(node.tag, "net", (x, box.top))


def _draw_third(pen: Pen, circuit: Circuit, conductor: Conductor, tee: Component, at: Point) -> None:
    """A terminator that stands where none belongs: drawn above its tee."""
    x, y = at
    resistor = circuit.components[far_end(conductor, tee.tag).component]
    half = 3.2 if tee.kind == "feed" else 0.0
    box = Box(x - 1.7, y - half - 14.0, x + 1.7, y - half - 6.0)
    pen.rectangle(box, owner=resistor.tag, fill="white")
    pen.symbol(resistor.tag, box)
    wire(pen, conductor, pen.port(tee.tag, "third", (x, y - half)), pen.port(resistor.tag, "1", (x, box.bottom)))
    label(pen, (x, box.top - 4.2), (resistor.tag, *resistor.rating), resistor.tag, anchor="middle")
    label(pen, (x + 1.2, y - half - 2.4), (conductor.tag,), conductor.tag)
