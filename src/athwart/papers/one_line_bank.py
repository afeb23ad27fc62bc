"""A bank of the one-line diagram: strings between plus rail and minus rail, charger at the left, loads at the right.

A *column* is what hangs between the rails beside the strings: a fuse and a load, an equaliser, a converter, a feed that goes on
elsewhere. Columns on the mid tap come first, hung on a line of their own below the plus rail.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from athwart.design.netlist import Component, Conductor, End
from athwart.papers import symbols
from athwart.papers.one_line_base import (
    Board,
    Circuit,
    above,
    beside,
    far_end,
    flag,
    part_lines,
    room,
    two_lines,
    wide,
    wire,
)
from athwart.papers.scene import Box, Pen, Point, wrapped
from athwart.papers.symbols import BLOCK_HALF, LETTERING, STEP, label

Part = Literal["all", "strings", "loads"]

LINK = 11.0
PIECE = 11.0
FUSE_TALL = 9.0
COLUMN, CONVERTER_COLUMN, EXIT, SLOT = 21.0, 46.0, 14.0, 5.0
CHARGER_WIDE = 19.0
FLAG_ROOM = 17.0
"""Room left of a block for the words of a flag."""


@dataclass(slots=True)
class Column:
    """Something between the rails: the piece to its fuse, the fuse, what follows."""

    before: Conductor
    fuse: Component
    after: Conductor | None
    load: Component | None
    tapped: bool = False

    @property
    def width(self) -> float:
        """Level room."""
        return CONVERTER_COLUMN if self.load is not None and self.load.kind == "network converter" else COLUMN


@dataclass(slots=True)
class BankPlan:
    """A bank before it is drawn."""

    lane: int
    strings: list[list[Component]]
    plus_bar: str | None
    minus_bar: str | None
    charger: Component | None
    charger_fuse: Component | None
    columns: list[Column] = field(default_factory=list)
    plus_out: list[Conductor] = field(default_factory=list)  # to main fuses, and whatever else leaves plus without a fuse here
    minus_out: list[Conductor] = field(default_factory=list)  # returns of other blocks of the drawing
    links: list[Conductor] = field(default_factory=list)  # to the ship's negative bar
    upper_out: list[Conductor] = field(default_factory=list)  # on the minus of the uppermost block
    string_fuse: tuple[str, ...] = ()
    switched: bool = False  # a series/parallel switch in the link

    @property
    def series(self) -> int:
        """Blocks a string."""
        return len(self.strings[0])

    @property
    def pitch(self) -> float:
        """Level distance of strings."""
        return max(27.0, wide(part_lines(self.strings[0][-1])) + 14.0)

    @property
    def bars(self) -> bool:
        """Whether bars join the strings."""
        return self.plus_bar is not None

    @property
    def height(self) -> float:
        """Least distance of the rails."""
        ends = (2 * PIECE + FUSE_TALL + PIECE if self.string_fuse else 2 * PIECE) if self.bars else 13.0
        blocks = 2 * BLOCK_HALF * self.series + LINK * (self.series - 1)
        columns = 60.0 if self.columns else 0.0
        return max(ends + blocks, columns, 64.0 if self.switched else 56.0)


def plan_bank(circuit: Circuit, lane: int) -> BankPlan | None:
    """What belongs to the bank that bears this digit; None where there is none."""
    blocks = circuit.of_kind("block", lane)
    if not blocks:
        return None
    strings = _strings(circuit, blocks)
    bars = [entry.tag for entry in circuit.of_kind("bar", lane)]
    chargers = circuit.of_kind("charger", lane)
    plus, minus = (bars[0], bars[1]) if bars else (None, None)
    plan = BankPlan(lane, strings, plus, minus, chargers[0] if chargers else None, None)
    plan.string_fuse = tuple(entry.tag for entry in circuit.of_kind("fuse", lane) if entry.name == "string fuse")
    plan.switched = plan.charger is not None and bool(circuit.at(plan.charger.tag, "mid+"))
    _sort_plus(circuit, plan)
    _sort_minus(circuit, plan)
    return plan


def _strings(circuit: Circuit, blocks: list[Component]) -> list[list[Component]]:
    """Blocks by string, lowest first: a new one starts where no link comes up from the block before, not even by a switch."""
    strings: list[list[Component]] = []
    for block in blocks:
        under = [far_end(entry, block.tag) for entry in circuit.at(block.tag, "-") if entry.kind == "L"]
        if (
            under
            and strings
            and (under[0].component == strings[-1][-1].tag or circuit.components[under[0].component].kind == "charger")
        ):
            strings[-1].append(block)
        else:
            strings.append([block])
    return strings


def _sort_plus(circuit: Circuit, plan: BankPlan) -> None:
    """What leaves the plus of the bank, and its mid tap."""
    top, bottom = plan.strings[0][-1].tag, plan.strings[0][0].tag
    source = plan.plus_bar or top
    seen = set[str]()
    for stud, terminal in ((bottom, "+"), (source, "1" if plan.bars else "+")):
        tapped = stud == bottom and (plan.series > 1 or plan.bars)
        for conductor in circuit.at(stud, terminal):
            if conductor.tag in seen or conductor.kind == "L":
                continue
            seen.add(conductor.tag)
            other = circuit.components[far_end(conductor, stud).component]
            _place(circuit, plan, conductor, other, tapped)
    plan.columns.sort(key=_column_order)


def _column_order(column: Column) -> tuple[bool, bool]:
    """Tapped ones first; the two columns of an equaliser side by side where both kinds meet."""
    equaliser = column.load is not None and column.load.kind == "equaliser"
    return not column.tapped, equaliser == column.tapped


def _with_strings(column: Column) -> bool:
    """Whether a column stays beside the strings where a bank takes two sheets."""
    return column.tapped or (column.load is not None and column.load.kind == "equaliser")


def _place(circuit: Circuit, plan: BankPlan, conductor: Conductor, other: Component, tapped: bool) -> None:
    if other.kind == "block" or other.tag in plan.string_fuse or other.tag in (plan.plus_bar, plan.minus_bar):
        return
    after = next((entry for entry in circuit.at(other.tag, "2")), None) if other.kind == "fuse" else None
    if other.kind == "charger" and plan.charger is not None and other.tag == plan.charger.tag:
        return
    if after is None or other.name == "main fuse" or other.name == "control fuse":
        plan.plus_out.append(conductor)
        return
    load = circuit.components[far_end(after, other.tag).component]
    if plan.charger is not None and load.tag == plan.charger.tag:
        plan.charger_fuse = other
        return
    inside = load.kind in ("consumer", "equaliser") or (load.kind == "network converter")
    plan.columns.append(Column(conductor, other, after, load if inside else None, tapped))


def _sort_minus(circuit: Circuit, plan: BankPlan) -> None:
    """What comes back to the minus of the bank, and what hangs on the minus of the uppermost block."""
    bottom, top = plan.strings[0][0].tag, plan.strings[0][-1].tag
    stud, terminal = (plan.minus_bar, "1") if plan.minus_bar else (bottom, "-")
    drawn = {column.load.tag for column in plan.columns if column.load} | ({plan.charger.tag} if plan.charger else set())
    for conductor in circuit.at(stud, terminal):
        other = circuit.components[far_end(conductor, stud).component]
        if other.kind == "block" or other.tag in drawn:
            continue
        (plan.links if other.tag == "X0.2" else plan.minus_out).append(conductor)
    if plan.series > 1 or plan.bars:
        bar = plan.minus_bar or ""
        for conductor in circuit.at(top, "-"):
            if conductor.kind != "L" and far_end(conductor, top).component != bar:
                plan.upper_out.append(conductor)


def charger_room(circuit: Circuit, plan: BankPlan) -> float:
    """Level room left of the strings."""
    charger = plan.charger
    link = wide(("common negative link",)) + 4.0 if plan.links else 4.0
    if charger is None:
        return link
    inset = _inset(circuit, charger)
    fuse = FUSE_TALL if plan.charger_fuse else 0.0
    right = sum(room(entry) for entry in _outputs(circuit, plan)) + fuse
    for stud, extra in (("out-", 9.5), ("mid+", 10.0), ("mid-", 10.0)):
        right = max(right, *(room(entry) + extra for entry in circuit.at(charger.tag, stud)), 0.0)
    return max(inset + CHARGER_WIDE + right, link)


def _inset(circuit: Circuit, charger: Component) -> float:
    """Room for the labels of what comes in."""
    return max((room(entry) + 2.0 for stud in ("in+", "in-") for entry in circuit.at(charger.tag, stud)), default=2.0)


def _outputs(circuit: Circuit, plan: BankPlan) -> list[Conductor]:
    """Charger to fuse, fuse to bank; or the one piece without a fuse."""
    assert plan.charger is not None
    first = circuit.at(plan.charger.tag, "out+")
    if plan.charger_fuse is None:
        return first
    return [*first, *circuit.at(plan.charger_fuse.tag, "1")]


def bank_width(circuit: Circuit, plan: BankPlan, *, slots: int, flags: int) -> float:
    """Level room of the whole up to the right ends of its rails."""
    return (
        _strings_right(circuit, plan)
        + _upper_room(plan)
        + sum(column.width for column in plan.columns)
        + SLOT * slots
        + EXIT * flags
    )


def _strings_right(circuit: Circuit, plan: BankPlan) -> float:
    """From the left end to where the words of the last string end."""
    words = max(wide(part_lines(plan.strings[0][0])) + 8.0, 17.0)
    return charger_room(circuit, plan) + _inside(plan) + plan.pitch * (len(plan.strings) - 1) + words


def _inside(plan: BankPlan) -> float:
    """From the left end of the rails to the first string."""
    return 9.0 if plan.bars else 0.0


def _upper_room(plan: BankPlan) -> float:
    return (FLAG_ROOM + 3.0) * bool(plan.upper_out)


@dataclass(slots=True)
class BankDrawn:
    """Where the rails can be met."""

    plus_right: float
    minus_right: float
    link_left: float  # where the link to the ship's negative leaves
    clear: float  # nothing of the bank stands right of this but rails
    minus_slots: list[float]
    plus_slots: list[float]


def draw_bank(
    board: Board,
    circuit: Circuit,
    plan: BankPlan,
    left: float,
    top: float,
    bottom: float,
    *,
    minus_slots: int,
    plus_slots: int,
    wired: set[str],
    part: Part = "all",
) -> BankDrawn:
    """Draw a bank with its charger; or only its strings, or only its loads where it takes two sheets.

    Places on the rails are kept free at the right, ``minus_slots`` then ``plus_slots``; conductors in ``wired`` are left to
    the caller, all others that leave end in flags.
    """
    if part == "loads":
        return _draw_loads(board, circuit, plan, left, top, bottom)
    pen = board.pen
    start = left + charger_room(circuit, plan)
    x = start + _inside(plan)
    for index, string in enumerate(plan.strings):
        _draw_string(pen, circuit, plan, string, x + plan.pitch * index, top, bottom)
    clear = left + _strings_right(circuit, plan)
    _draw_upper(board, plan, x, clear, top, bottom)
    columns = [column for column in plan.columns if part == "all" or _with_strings(column)]
    right = _draw_columns(board, circuit, plan, columns, x, clear + _upper_room(plan), top, bottom)
    flagged_plus = [entry for entry in plan.plus_out if entry.tag not in wired and part == "all"]
    flagged_minus = [entry for entry in plan.minus_out if entry.tag not in wired and part == "all"]
    _draw_flags(board, plan, flagged_plus, flagged_minus, right, top, bottom)
    right += EXIT * max(len(flagged_plus), len(flagged_minus))
    minus = [right + 3.0 + SLOT * index for index in range(minus_slots)]
    plus = [right + 3.0 + SLOT * (minus_slots + index) for index in range(plus_slots)]
    grown = bool(columns or plan.upper_out)
    plus_end = plus[-1] + (2.0 if plan.bars else 0.0) if plus else right if grown or flagged_plus or plan.bars else x
    minus_end = minus[-1] + (2.0 if plan.bars else 0.0) if minus else right if grown or flagged_minus or plan.bars else x
    minus_left = _draw_charger(board, circuit, plan, left, start, top, bottom, wired)
    minus_left = min(minus_left - (2.0 if plan.bars else 0.0), start if plan.bars else x)
    _draw_rails(pen, plan, start, minus_left, plus_end, minus_end, top, bottom, x)
    board.rails[plan.lane] = (minus_left, bottom)
    _draw_links(board, plan, left, minus_left, bottom, wired)
    return BankDrawn(plus_end, minus_end, minus_left, max(right, clear), minus, plus)


def _draw_loads(board: Board, circuit: Circuit, plan: BankPlan, left: float, top: float, bottom: float) -> BankDrawn:
    """The bars of a bank continued, with what did not find room beside its strings."""
    pen = board.pen
    columns = [column for column in plan.columns if not _with_strings(column)]
    right = _draw_columns(board, circuit, plan, columns, left, left + 4.0, top, bottom)
    _draw_flags(board, plan, plan.plus_out, plan.minus_out, right, top, bottom)
    right += EXIT * max(len(plan.plus_out), len(plan.minus_out))
    for tag, y, words_y in ((plan.plus_bar, top, top - 2.2), (plan.minus_bar, bottom, bottom + 3.6)):
        if tag is not None:
            symbols.bar(pen, tag, left, right, y)
            pen.text((left + 1.0, words_y), f"bar {tag} continued", LETTERING)
    return BankDrawn(right, right, left, right, [], [])


def _draw_flags(
    board: Board, plan: BankPlan, plus: list[Conductor], minus: list[Conductor], left: float, top: float, bottom: float
) -> None:
    for conductors, start, step, side in ((plus, top, 6.0, "down"), (minus, bottom, -6.0, "up")):
        for index, conductor in enumerate(conductors):
            here = left + 7.0 + EXIT * index
            wire(board.pen, conductor, (here, start), (here, start + step))
            flag(
                board, conductor, _near(conductor, plan, plus=step > 0), (here, start + step), "down" if side == "down" else "up"
            )


def _draw_links(board: Board, plan: BankPlan, left: float, right: float, bottom: float, wired: set[str]) -> None:
    """The link to the ship's negative, named as what it is."""
    for conductor in plan.links:
        above(
            board.pen,
            conductor,
            left + 1.0,
            left + 1.0 + wide(("common negative link",)) + 1.0,
            bottom,
            extra="common negative link",
        )
        if conductor.tag not in wired:
            wire(board.pen, conductor, (right, bottom), (left, bottom))
            near = conductor.start if conductor.end.component == "X0.2" else conductor.end
            flag(board, conductor, near, (left, bottom), "left")


def _near(conductor: Conductor, plan: BankPlan, *, plus: bool) -> End:
    bar = plan.plus_bar if plus else plan.minus_bar
    own = {bar} if bar else {block.tag for string in plan.strings for block in string}
    return conductor.start if conductor.start.component in own else conductor.end


def _draw_rails(
    pen: Pen,
    plan: BankPlan,
    left: float,
    minus_left: float,
    plus_right: float,
    minus_right: float,
    top: float,
    bottom: float,
    x: float,
) -> None:
    if plan.plus_bar and plan.minus_bar:
        symbols.bar(pen, plan.plus_bar, left, plus_right, top)
        symbols.bar(pen, plan.minus_bar, minus_left, minus_right, bottom)
        label(pen, (left + 1.0, top - 2.2), (plan.plus_bar,), plan.plus_bar)
        label(pen, (x, bottom + 3.6), (plan.minus_bar,), plan.minus_bar)
        return
    pen.join((left, top), (plus_right, top))
    pen.join((minus_left, bottom), (minus_right, bottom), layer="NEG")
    pen.dot((x, top), "POS")
    pen.dot((x, bottom), "NEG")


def _draw_string(
    pen: Pen, circuit: Circuit, plan: BankPlan, string: list[Component], x: float, top: float, bottom: float
) -> None:
    """One string between the rails, with its fuse where it has one."""
    upper, lower = _string_span(plan, top, bottom)
    step = (lower - upper - 2 * BLOCK_HALF) / max(len(string) - 1, 1)
    studs: list[tuple[Point, Point]] = []
    for index, block in enumerate(reversed(string)):
        y = upper + BLOCK_HALF + step * index if len(string) > 1 else (upper + lower) / 2
        studs.append(symbols.block(pen, block.tag, (x, y), protected=block.facts.get("protection") is True))
        lines = part_lines(block) if len(plan.strings) == 1 or index == 0 else (block.tag,)
        label(pen, (x + 6.2, y - 0.5), lines, block.tag)
    names = [block.tag for block in reversed(string)]
    for (above_tag, below_tag), (high, low) in zip(pairwise(names), pairwise(studs), strict=True):
        link = circuit.between(above_tag, below_tag)
        if link is not None:
            wire(pen, link, high[1], low[0])
            middle = (high[1][1] + low[0][1]) / 2
            label(pen, (x + 1.3, middle + 0.8 - STEP / 2), two_lines(link), link.tag)
    _draw_string_ends(pen, circuit, plan, names, x, top, bottom, studs[0][0], studs[-1][1])


def _string_span(plan: BankPlan, top: float, bottom: float) -> tuple[float, float]:
    if not plan.bars:
        return top + 3.0, bottom - 10.0
    return top + (2 * PIECE + FUSE_TALL if plan.string_fuse else PIECE), bottom - PIECE


def _draw_string_ends(
    pen: Pen, circuit: Circuit, plan: BankPlan, names: list[str], x: float, top: float, bottom: float, plus: Point, minus: Point
) -> None:
    if plan.plus_bar is None or plan.minus_bar is None:
        pen.join((x, top), plus)
        pen.join(minus, (x, bottom), layer="NEG")
        return
    direct = circuit.between(names[0], plan.plus_bar)
    if direct is not None:
        wire(pen, direct, plus, (x, top))
        beside(pen, direct, x, top, plus[1])
    for conductor in circuit.at(names[0], "+"):
        other = far_end(conductor, names[0]).component
        if other not in plan.string_fuse:
            continue
        load, source = symbols.fuse(pen, other, (x, top + PIECE + FUSE_TALL / 2), upright=True, flipped=True)[::-1]
        to_bar = circuit.at(other, "2")[0]
        wire(pen, conductor, plus, source)
        beside(pen, conductor, x, source[1], plus[1])
        wire(pen, to_bar, load, (x, top))
        beside(pen, to_bar, x, top, load[1])
        label(pen, (x + 2.8, top + PIECE + FUSE_TALL / 2 - 0.5), part_lines(circuit.components[other]), other)
    back = circuit.between(names[-1], plan.minus_bar)
    if back is not None:
        wire(pen, back, minus, (x, bottom))
        beside(pen, back, x, minus[1], bottom)


def _tap_level(plan: BankPlan, top: float, bottom: float) -> float:
    """Just above the plus of the lowest block."""
    upper, lower = _string_span(plan, top, bottom)
    if plan.series > 1:
        return lower - 2 * BLOCK_HALF - 1.2
    return (upper + lower) / 2 - BLOCK_HALF - 1.2


def _draw_upper(board: Board, plan: BankPlan, x: float, right: float, top: float, bottom: float) -> None:
    """What hangs on the minus of the uppermost block goes on elsewhere: from below that block straight to the right."""
    upper, lower = _string_span(plan, top, bottom)
    block_foot = upper + 2 * BLOCK_HALF if plan.series > 1 else (upper + lower) / 2 + BLOCK_HALF
    for conductor in plan.upper_out:
        level, block = block_foot + 1.2, plan.strings[0][-1].tag
        board.pen.dot((x, level), "NEG")
        wire(board.pen, conductor, (x, level), (right + 1.0, level))
        near = conductor.start if conductor.start.component == block else conductor.end
        flag(board, conductor, near, (right + 1.0, level), "right")


def _draw_columns(
    board: Board, circuit: Circuit, plan: BankPlan, columns: list[Column], x: float, right: float, top: float, bottom: float
) -> float:
    """Columns side by side from ``right``; ``x`` is where the first string stands. Gives back where they end."""
    pen = board.pen
    tapped = [column for column in columns if column.tapped]
    hang = top + 4.5
    here = right
    if tapped:
        level = _tap_level(plan, top, bottom)
        gutter = right + 1.0
        last = right + sum(column.width for column in tapped) - tapped[-1].width + 5.0
        pen.dot((x, level), "POS")
        pen.join((x, level), (gutter, level), (gutter, hang), (last, hang), thin=True)
    equaliser: dict[str, list[tuple[Column, Point, float]]] = {}
    for column in columns:
        axis = here + 5.0
        start = hang if column.tapped else top
        load = _draw_tap(pen, circuit, column, axis, start)
        if column.load is None:
            _draw_feed(board, circuit, plan, column, axis, load, bottom)
        elif column.load.kind == "equaliser":
            equaliser.setdefault(column.load.tag, []).append((column, load, axis))
        elif column.load.kind == "network converter":
            _draw_converter(board, circuit, column, axis, load, bottom)
        else:
            _draw_consumer(pen, circuit, column, axis, load, bottom)
        here += column.width
    for tag, members in equaliser.items():
        _draw_equaliser(pen, circuit, tag, members, bottom)
    return here


def _draw_tap(pen: Pen, circuit: Circuit, column: Column, x: float, start: float) -> Point:
    top, bottom = symbols.fuse(pen, column.fuse.tag, (x, start + PIECE + FUSE_TALL / 2), upright=True)
    wire(pen, column.before, (x, start), top)
    beside(pen, column.before, x, start + 0.8, top[1] + 0.4)
    label(pen, (x + 2.8, start + PIECE + FUSE_TALL / 2 - 0.5), part_lines(column.fuse), column.fuse.tag)
    return bottom


def _draw_consumer(pen: Pen, circuit: Circuit, column: Column, x: float, load: Point, bottom: float) -> None:
    assert column.load is not None
    assert column.after is not None
    box = Box(x - 4.0, load[1] + PIECE, x + 15.0, load[1] + PIECE + 11.0)
    words = wrapped(column.load.name, 16, 2)
    symbols.words_box(pen, column.load.tag, box, (column.load.tag, *words, *column.load.rating), size=1.8, bold_first=True)
    pen.port(column.load.tag, "+", (x, box.top))
    pen.port(column.load.tag, "-", (x, box.bottom))
    wire(pen, column.after, load, (x, box.top))
    beside(pen, column.after, x, load[1], box.top)
    for back in circuit.at(column.load.tag, "-"):
        wire(pen, back, (x, box.bottom), (x, bottom))
        beside(pen, back, x, box.bottom, min(bottom, box.bottom + PIECE + 2.0))


def _draw_equaliser(pen: Pen, circuit: Circuit, tag: str, members: list[tuple[Column, Point, float]], bottom: float) -> None:
    component = circuit.components[tag]
    top = max(load[1] for _, load, _ in members) + PIECE
    left, right = members[0][2], members[-1][2]
    box = Box(left - 4.0, top, right + 4.0, top + 9.0)
    symbols.words_box(pen, tag, box, (tag, component.name, *component.rating), bold_first=True)
    for column, load, x in members:
        assert column.after is not None
        end = far_end(column.after, column.fuse.tag)
        pen.port(tag, end.terminal, (x, box.top))
        wire(pen, column.after, load, (x, box.top))
        beside(pen, column.after, x, load[1], load[1] + PIECE)
    pen.port(tag, "-", (left, box.bottom))
    for back in circuit.at(tag, "-"):
        wire(pen, back, (left, box.bottom), (left, bottom))
        beside(pen, back, left, box.bottom, min(bottom, box.bottom + PIECE + 2.0))


def _draw_converter(board: Board, circuit: Circuit, column: Column, x: float, load: Point, bottom: float) -> None:
    """The network converter, its outputs going on to the control line."""
    assert column.load is not None
    assert column.after is not None
    pen, tag = board.pen, column.load.tag
    box = Box(x - 4.0, load[1] + PIECE, x + 14.0, load[1] + PIECE + 14.0)
    words = (tag, *wrapped(column.load.name.removeprefix("network "), 14, 2), *column.load.rating)
    symbols.words_box(pen, tag, box, words, bold_first=True)
    wire(pen, column.after, load, pen.port(tag, "in+", (x, box.top)))
    beside(pen, column.after, x, load[1], box.top)
    for back in circuit.at(tag, "in-"):
        wire(pen, back, pen.port(tag, "in-", (x, box.bottom)), (x, bottom))
        beside(pen, back, x, box.bottom, min(bottom, box.bottom + PIECE + 2.0))
    for stud, y in (("out+", box.top + 2.0), ("out-", box.top + 11.0)):
        for conductor in circuit.at(tag, stud):
            at = pen.port(tag, stud, (box.right, y))
            wire(pen, conductor, at, (box.right + 4.0, y))
            flag(board, conductor, End(tag, stud), (box.right + 4.0, y), "right")


def _draw_feed(board: Board, circuit: Circuit, plan: BankPlan, column: Column, x: float, load: Point, bottom: float) -> None:
    """A fused tap whose load is elsewhere."""
    assert column.after is not None
    wire(board.pen, column.after, load, (x, load[1] + 4.0))
    flag(board, column.after, End(column.fuse.tag, "2"), (x, load[1] + 4.0), "down")


def _levels(plan: BankPlan) -> dict[str, float]:
    """How far below the plus rail the studs of the charger are."""
    minus = 38.0 if plan.switched else 26.0
    return {"in+": 0.0, "in-": minus, "out+": 0.0, "mid+": 18.0, "mid-": 27.0, "out-": minus}


def _draw_charger(
    board: Board, circuit: Circuit, plan: BankPlan, left: float, start: float, top: float, bottom: float, wired: set[str]
) -> float:
    """The charger left of the strings; gives back where the minus rail must begin."""
    charger = plan.charger
    if charger is None:
        return start
    pen, levels = board.pen, _levels(plan)
    inset = left + _inset(circuit, charger)
    box = Box(inset, top - 4.0, inset + CHARGER_WIDE, top + levels["out-"] + 5.0)
    fed = bool(circuit.at(charger.tag, "in+"))
    into = f"{float(charger.facts['volts in']):g} V" if fed else "a.c."
    symbols.converter(pen, charger.tag, box, into, f"{float(charger.facts['volts out']):g} V")
    label(pen, (box.left, box.bottom + 3.2), (charger.tag, *wrapped(charger.name, 18, 2)), charger.tag)
    for stud in ("in+", "in-"):
        for conductor in circuit.at(charger.tag, stud):
            at = pen.port(charger.tag, stud, (box.left, top + levels[stud]))
            above(pen, conductor, left + 1.0, box.left, at[1])
            if conductor.tag not in wired:
                wire(pen, conductor, at, (left, at[1]))
                flag(board, conductor, End(charger.tag, stud), (left, at[1]), "left")
    _draw_output(pen, circuit, plan, box, start, top)
    _draw_mids(pen, circuit, plan, box, start, top, bottom)
    return _draw_output_minus(pen, circuit, charger, box, top + levels["out-"], bottom)


def _draw_output(pen: Pen, circuit: Circuit, plan: BankPlan, box: Box, start: float, top: float) -> None:
    assert plan.charger is not None
    out = pen.port(plan.charger.tag, "out+", (box.right, top))
    pieces = _outputs(circuit, plan)
    if plan.charger_fuse is None:
        for piece in pieces:
            wire(pen, piece, out, (start, top))
            above(pen, piece, box.right, start, top)
        return
    spare = (start - box.right - FUSE_TALL - sum(room(piece) for piece in pieces)) / 2
    middle = box.right + room(pieces[0]) + spare + FUSE_TALL / 2
    bank_side, charger_side = symbols.fuse(pen, plan.charger_fuse.tag, (middle, top), flipped=True)
    wire(pen, pieces[0], charger_side, out)
    above(pen, pieces[0], box.right, charger_side[0], top)
    wire(pen, pieces[1], (start, top), bank_side)
    above(pen, pieces[1], bank_side[0], start, top)
    label(pen, (middle, top + 4.6), part_lines(plan.charger_fuse), plan.charger_fuse.tag, anchor="middle")


def _draw_output_minus(pen: Pen, circuit: Circuit, charger: Component, box: Box, level: float, bottom: float) -> float:
    """Down to the minus rail; its label stands over the level part."""
    out = pen.port(charger.tag, "out-", (box.right, level))
    x = box.right
    for conductor in circuit.at(charger.tag, "out-"):
        x = box.right + room(conductor)
        wire(pen, conductor, out, (x, level), (x, bottom))
        above(pen, conductor, box.right, x, level)
        pen.dot((x, bottom), "NEG")
    return x


def _draw_mids(pen: Pen, circuit: Circuit, plan: BankPlan, box: Box, x: float, top: float, bottom: float) -> None:
    """The two halves of the link that a series/parallel switch opens and closes."""
    assert plan.charger is not None
    upper, lower = _string_span(plan, top, bottom)
    string = x + _inside(plan)
    middle = (upper + lower) / 2
    studs = {"mid+": upper + 2 * BLOCK_HALF, "mid-": lower - 2 * BLOCK_HALF}
    for index, stud in enumerate(("mid+", "mid-")):
        for conductor in circuit.at(plan.charger.tag, stud):
            at = pen.port(plan.charger.tag, stud, (box.right, top + _levels(plan)[stud]))
            turn, half = string - 8.5 + 3.0 * index, middle + (1.5 if index else -1.5)
            wire(pen, conductor, at, (turn, at[1]), (turn, half), (string, half), (string, studs[stud]))
            above(pen, conductor, box.right, turn, at[1])
