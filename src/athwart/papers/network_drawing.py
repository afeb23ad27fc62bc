"""The control line on a sheet of its own: trunk, drops, feed and terminators with lengths, instances and volts at every stop."""

from __future__ import annotations

from dataclasses import replace

from athwart.design.netlist import Component, Conductor, End, Netlist
from athwart.design.proposal import NetworkChoice, NetworkStop, Proposal
from athwart.papers import symbols
from athwart.papers.one_line_base import (
    Board,
    Circuit,
    above,
    beside,
    far_end,
    flag,
    part_lines,
    reference,
    room,
    three_lines,
    wide,
    wire,
)
from athwart.papers.scene import Box, Point, Scene, wrapped
from athwart.papers.sheet import FRAME, notices, place_notes, sheet, title_of
from athwart.papers.symbols import SMALL, STEP, label

LEFT, RIGHT, TOP = FRAME.left + 6.0, FRAME.right - 6.0, FRAME.top + 6.0
FIRST_ROW, ROW = 74.0, 88.0
ROWS = 2
DROP, BOX_WIDE, BOX_TALL = 13.0, 29.0, 14.0
FEED_HALF, FEED_TALL = 4.5, 3.2
NOTES_TOP = 216.0
OHMS = (54.0, 66.0)
"""Both terminators there, power off: two of 120 Ω side by side within a tenth; common practice of the bus's trade."""


def network_drawing(proposal: Proposal) -> tuple[Scene, ...]:
    """The sheets of the control line; none where there is no line."""
    if proposal.network is None or not proposal.network.stops:
        return ()
    places: dict[tuple[str, str], str] = {}
    boards: list[Board] = []
    for _ in range(2):
        boards = _draw(proposal, proposal.network, places)
        places = {key: reference(board, at) for board in boards for key, at in board.exits.items()}
    made = []
    for board in boards:
        block = title_of(proposal, "Control line", "N", board.number, len(boards))
        words = f"Control line of {proposal.brief.name}, sheet {board.number} of {len(boards)}: {_sentence(proposal.network)}"
        made.append(sheet(board.pen, f"control-line-{board.number}", block, words))
    return tuple(made)


def _sentence(network: NetworkChoice) -> str:
    ends = " and ".join(network.terminators) or "nowhere"
    return (
        f"{len(network.stops)} stops on {network.trunk_length:.1f} m of trunk, terminators at {ends}, fed at {network.feed_at}."
    )


def control_netlist(netlist: Netlist) -> Netlist:
    """The part of the netlist this drawing shows: trunk, drops, the feed's two conductors and what they end on.

    A part that is cut off here keeps only the studs that are shown.
    """
    feeds = {entry.tag for entry in netlist.components if entry.kind == "feed"}
    conductors = [
        entry for entry in netlist.conductors if entry.kind in "TD" or {entry.start.component, entry.end.component} & feeds
    ]
    ends = {end for entry in conductors for end in (entry.start, entry.end)}
    shown = {end.component for end in ends}
    components = [
        replace(entry, terminals=tuple(stud for stud in entry.terminals if End(entry.tag, stud) in ends))
        for entry in netlist.components
        if entry.tag in shown
    ]
    return Netlist(tuple(components), tuple(conductors))


def _draw(proposal: Proposal, network: NetworkChoice, places: dict[tuple[str, str], str]) -> list[Board]:
    circuit = Circuit(control_netlist(proposal.netlist))
    tees = [entry for entry in circuit.netlist.components if entry.kind in ("tee", "feed")]
    stops = list(zip(tees, network.stops, strict=True))
    trunk = max([room(entry) + 6.0 for entry in circuit.netlist.conductors if entry.kind == "T"], default=0.0)
    pitch = max(BOX_WIDE + 4.0, trunk)
    a_row = max(1, int((RIGHT - LEFT - 58.0) / pitch))
    spread = min(56.0, (RIGHT - LEFT - 58.0) / max(1, min(a_row, len(stops))))
    pitch = max(pitch, spread)
    a_sheet = a_row * ROWS
    boards: list[Board] = []
    for first in range(0, len(stops), a_sheet):
        board = Board(len(boards) + 1, "N", elsewhere=places)
        board.pen.text((LEFT, TOP + 3.0), f"CONTROL LINE  {network.bit_rate / 1e3:g} kbit/s  {network.profile}", 2.8, bold=True)
        _draw_rows(board, circuit, network, stops, first, a_row, pitch)
        boards.append(board)
    _notes(boards[-1], proposal, network)
    return boards


def _draw_rows(
    board: Board,
    circuit: Circuit,
    network: NetworkChoice,
    stops: list[tuple[Component, NetworkStop]],
    first: int,
    a_row: int,
    pitch: float,
) -> None:
    last = min(len(stops), first + a_row * ROWS)
    before: Point | None = None
    for index in range(first, last):
        row, column = divmod(index - first, a_row)
        tee, stop = stops[index]
        half = FEED_HALF if tee.kind == "feed" else 0.0
        lone = 24.0 if last - first <= a_row else 0.0
        at = (LEFT + 34.0 + pitch * column, FIRST_ROW + lone + ROW * row)
        for trunk in circuit.at(tee.tag, "1"):
            _draw_trunk(board, circuit, trunk, tee, before, (at[0] - half, at[1]), index == first, column == 0)
        _draw_stop(board, circuit, network, tee, stop, at)
        before = (at[0] + half, at[1])
    assert before is not None
    for trunk in circuit.at(stops[last - 1][0].tag, "2"):
        _draw_end(board, circuit, trunk, stops[last - 1][0], before)


def _draw_trunk(
    board: Board, circuit: Circuit, trunk: Conductor, tee: Component, before: Point | None, at: Point, first: bool, new_row: bool
) -> None:
    pen, other = board.pen, circuit.components[far_end(trunk, tee.tag).component]
    if other.kind == "terminator":
        _draw_terminator(board, other, (LEFT + 5.0, at[1]), trunk, at)
        above(pen, trunk, LEFT + 10.0, at[0], at[1])
    elif first or before is None:
        start = (LEFT + 18.0, at[1])
        wire(pen, trunk, start, at)
        flag(board, trunk, End(tee.tag, "1"), start, "left")
        above(pen, trunk, start[0], at[0], at[1])
    elif new_row:
        middle, edge = before[1] + ROW - 38.0, before[0] + 17.0
        wire(pen, trunk, before, (edge, before[1]), (edge, middle), (LEFT + 4.0, middle), (LEFT + 4.0, at[1]), at)
        above(pen, trunk, LEFT + 5.0, at[0], at[1])
    else:
        wire(pen, trunk, before, at)
        above(pen, trunk, before[0], at[0], at[1])


def _draw_terminator(board: Board, resistor: Component, middle: Point, trunk: Conductor, at: Point) -> None:
    stud = symbols.terminator(board.pen, resistor.tag, middle, leaves_left=at[0] < middle[0])
    label(board.pen, (middle[0], middle[1] + 4.6), (resistor.tag, *resistor.rating), resistor.tag, anchor="middle")
    wire(board.pen, trunk, stud, at)


def _draw_end(board: Board, circuit: Circuit, trunk: Conductor, tee: Component, before: Point) -> None:
    """The last terminator, or a flag to the next sheet."""
    other = circuit.components[far_end(trunk, tee.tag).component]
    reach = max(room(trunk) + 1.0, 20.0)
    if other.kind == "terminator":
        _draw_terminator(board, other, (before[0] + reach + 5.0, before[1]), trunk, before)
        above(board.pen, trunk, before[0], before[0] + reach, before[1])
        return
    end = (before[0] + 8.0, before[1])
    wire(board.pen, trunk, before, end)
    flag(board, trunk, End(tee.tag, "2"), end, "right")


def _draw_stop(board: Board, circuit: Circuit, network: NetworkChoice, tee: Component, stop: NetworkStop, at: Point) -> None:
    pen, (x, y) = board.pen, at
    half, foot = (FEED_HALF, FEED_TALL) if tee.kind == "feed" else (0.0, 0.0)
    for stud, place in (("1", (x - half, y)), ("2", (x + half, y)), ("drop", (x, y + foot))):
        if circuit.at(tee.tag, stud):
            pen.port(tee.tag, stud, place)
    if tee.kind == "feed":
        symbols.words_box(pen, tee.tag, Box(x - half, y - foot, x + half, y + foot), (tee.tag,), bold_first=True)
        _draw_feed(board, circuit, tee, at)
    else:
        pen.dot(at, "NETWORK")
        label(pen, (x - 1.4, y + 3.6), (tee.tag,), tee.tag, anchor="end")
    for conductor in circuit.at(tee.tag, "drop"):
        _draw_node(board, circuit, network, conductor, tee, stop, (x, y + foot))
    for conductor in circuit.at(tee.tag, "third"):
        _draw_third(board, circuit, conductor, tee, at)
    lines = [f"at {stop.at:.1f} m"]
    if stop.volts_rest > 0:
        lines += [f"{stop.volts_rest:.2f} V at rest", f"{stop.volts_sag:.2f} V lowest"]
    top = y + FEED_TALL + DROP + BOX_TALL + 3.6
    for index, line in enumerate(lines):
        pen.text((x, top + index * 2.4), line, SMALL + 0.1, "middle")


def _draw_node(
    board: Board, circuit: Circuit, network: NetworkChoice, conductor: Conductor, tee: Component, stop: NetworkStop, at: Point
) -> None:
    """A drop and the box of what hangs on it; a new one has a second outline where something was there before."""
    pen, (x, y) = board.pen, at
    node = circuit.components[far_end(conductor, tee.tag).component]
    top = y + DROP
    wire(pen, conductor, at, (x, top))
    beside(pen, conductor, x, y + 1.0, top)
    box = Box(x - BOX_WIDE / 2, top, x + BOX_WIDE / 2, top + BOX_TALL)
    instance = f"instance {stop.instance}" if stop.instance is not None else "instance: set aboard"
    words = (node.tag, *wrapped(node.name, 22, 2), instance)
    is_new = stop.is_new and bool(network.changes)
    symbols.words_box(pen, node.tag, box, (*words, "new") if is_new else words, size=1.9, bold_first=True)
    if is_new:
        pen.rectangle(box.grown(0.7), style="help", owner=node.tag, role="picture")
    pen.port(node.tag, "net", (x, box.top))


def _draw_third(board: Board, circuit: Circuit, conductor: Conductor, tee: Component, at: Point) -> None:
    """A terminator that stands inside the trunk, above its tee."""
    pen, (x, y) = board.pen, at
    resistor = circuit.components[far_end(conductor, tee.tag).component]
    half = FEED_TALL if tee.kind == "feed" else 0.0
    box = Box(x - 1.7, y - half - 17.0, x + 1.7, y - half - 9.0)
    pen.rectangle(box, owner=resistor.tag, fill="white")
    pen.symbol(resistor.tag, box)
    wire(pen, conductor, pen.port(tee.tag, "third", (x, y - half)), pen.port(resistor.tag, "1", (x, box.bottom)))
    label(pen, (x, box.top - 3.8), (resistor.tag, *resistor.rating), resistor.tag, anchor="middle")
    label(pen, (x + 1.2, y - half - 6.6), (conductor.tag,), conductor.tag)


def _draw_feed(board: Board, circuit: Circuit, tee: Component, at: Point) -> None:
    """What feeds the line: the fuse at its source and the minus it comes back to, above the tee."""
    pen, (x, y) = board.pen, at
    turn, head = y - 9.0, y - 22.0
    for stud, side in (("+", -1.0), ("-", 1.0)):
        for conductor in circuit.at(tee.tag, stud):
            source = circuit.components[far_end(conductor, tee.tag).component]
            terminal = far_end(conductor, tee.tag).terminal
            port, out = pen.port(tee.tag, stud, (x + side * 3.0, y - FEED_TALL)), x + side * 9.0
            wire(pen, conductor, port, (port[0], turn), (out, turn), (out, head))
            if source.kind == "network converter":
                _draw_converter(board, source, terminal, (x, head), out)
            elif source.kind == "fuse":
                _, load = symbols.fuse(pen, source.tag, (out, head - 4.5), upright=True)
                assert load == (out, head)
                label(pen, (out - 2.6, head - 5.2), part_lines(source), source.tag, anchor="end")
                pen.text((out - 2.6, head - 10.4), "at its source", SMALL, "end")
            else:
                _draw_minus(board, source, terminal, (out, head))
            lines = three_lines(conductor)
            if side < 0:
                label(pen, (out - 1.3, turn - 3.2 - STEP * (len(lines) - 1)), lines, conductor.tag, anchor="end")
            else:
                label(pen, (out + 1.3, turn - 3.2 - STEP * (len(lines) - 1)), lines, conductor.tag)


def _draw_minus(board: Board, source: Component, terminal: str, at: Point) -> None:
    """The minus stud the feed comes back to."""
    words = (source.tag, *wrapped(source.name, 20, 1))
    half = max(8.0, wide(words, 1.9) / 2 + 1.2)
    box = Box(at[0] - 5.0, at[1] - 8.0, at[0] - 5.0 + 2 * half, at[1])
    symbols.words_box(board.pen, source.tag, box, words, size=1.9, bold_first=True)
    board.pen.port(source.tag, terminal, at)


def _draw_converter(board: Board, source: Component, terminal: str, middle: Point, out: float) -> None:
    """The network converter, drawn once for its two outputs."""
    pen, (x, head) = board.pen, middle
    pen.port(source.tag, terminal, (out, head))
    if any(symbol.owner == source.tag for symbol in pen.symbols):
        return
    box = Box(x - 16.0, head - 12.0, x + 16.0, head)
    words = (source.tag, *wrapped(source.name, 24, 2), *source.rating)
    symbols.words_box(pen, source.tag, box, words, size=1.9, bold_first=True)


def _notes(board: Board, proposal: Proposal, network: NetworkChoice) -> None:
    """What to measure, what the line is made of, what changes."""
    pen = board.pen
    row = proposal.catalogue.row(network.cable_row)
    cable = row.name if row is not None else network.cable_row
    measured = [
        f"Ohms between the two signal lines, all power off: {network.resistance_power_off:.0f} Ω",
        f"to be expected; {OHMS[0]:.0f} to {OHMS[1]:.0f} Ω while two terminators stand at the ends.",
        f"Trunk {network.trunk_length:.1f} m, drops together {network.drops_total:.1f} m.",
        f"Supply current of all stops {network.load:.2f} A; fuse {network.feed_fuse:g} A at the source: {network.feed}.",
        f"Cable: {cable}. One feed only; screen to the",
        "boat's earth at one point.",
        "Volts: at the stop's own supply pair; lowest at the deepest sag.",
        *notices(proposal),
    ]
    place_notes(pen, (LEFT, NOTES_TOP), tuple(measured), heading="MEASURE AND SET")
    if network.changes:
        lines = [line for number, change in enumerate(network.changes, start=1) for line in _numbered(number, change)]
        room_left = int((FRAME.bottom - 32.0 - NOTES_TOP) / 2.9) - 1
        first, rest = lines[:room_left], lines[room_left : 2 * room_left]
        place_notes(pen, (LEFT + 116.0, NOTES_TOP), tuple(first), heading="WHAT CHANGES")
        place_notes(pen, (LEFT + 248.0, NOTES_TOP + 2.9), tuple(rest))


def _numbered(number: int, change: str) -> list[str]:
    words = wrapped(change, 96, 3)
    return [f"{number}  {words[0]}", *(f"   {line}" for line in words[1:])]


__all__ = ["control_netlist", "network_drawing"]
