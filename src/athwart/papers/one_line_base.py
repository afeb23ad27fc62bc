"""What the parts of the one-line diagram share: the netlist with look-ups, labels of conductors, flags where one goes on."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from athwart.design.netlist import Component, Conductor, End, Netlist
from athwart.papers.scene import Pen, Point, width_of
from athwart.papers.sheet import grid_reference
from athwart.papers.symbols import LETTERING, STEP, label

Side = Literal["left", "right", "up", "down"]
THIN_BELOW = 9e-6
"""Conductors below this cross-section are drawn at control weight, m²."""
FLAG_SIZE = 1.8
FLAG_TEXT = 13.0
"""Room a flag's words may take, mm."""
STUB = 4.0


@dataclass(slots=True)
class Board:
    """One sheet being drawn: its pen, its number, where conductors leave it, and where they go on (known on the second pass)."""

    number: int
    paper: str = "E"
    pen: Pen = field(default_factory=Pen)
    exits: dict[tuple[str, str], Point] = field(default_factory=dict)  # (conductor, near end) -> where
    elsewhere: dict[tuple[str, str], str] = field(default_factory=dict)  # (conductor, far end) -> "E2/B3"
    rails: dict[int, Point] = field(default_factory=dict)  # lane -> left end of the minus rail of its bank


class Circuit:
    """The netlist with look-ups by stud; keeps count of what has been drawn."""

    def __init__(self, netlist: Netlist) -> None:
        self.netlist = netlist
        self.components = {entry.tag: entry for entry in netlist.components}
        self.conductors = {entry.tag: entry for entry in netlist.conductors}
        self._at: dict[str, list[Conductor]] = {}
        for conductor in netlist.conductors:
            for end in (conductor.start, conductor.end):
                self._at.setdefault(end.component, []).append(conductor)

    def at(self, component: str, terminal: str | None = None) -> list[Conductor]:
        """Conductors on a component, or on one stud of it."""
        found = self._at.get(component, [])
        if terminal is None:
            return list(found)
        return [entry for entry in found if End(component, terminal) in (entry.start, entry.end)]

    def between(self, one: str, other: str) -> Conductor | None:
        """The conductor from one component to another."""
        return next((entry for entry in self.at(one) if other in (entry.start.component, entry.end.component)), None)

    def of_kind(self, kind: str, lane: int | None = None) -> list[Component]:
        """Components of a kind, of a lane."""
        return [entry for entry in self.netlist.components if entry.kind == kind and lane in (None, entry.lane)]


def far_end(conductor: Conductor, component: str) -> End:
    """The end that is not on this component."""
    return conductor.end if conductor.start.component == component else conductor.start


def length_words(conductor: Conductor) -> str:
    """Length one way as printed: two decimals below half a metre, else one."""
    if conductor.length <= 0:
        return ""
    return f"{conductor.length:.2f} m" if conductor.length < 0.5 else f"{conductor.length:.1f} m"


def size_words(conductor: Conductor) -> str:
    """Cross-section as printed, with the number of wires where several lie side by side."""
    return conductor.size if conductor.parallel == 1 else f"{conductor.parallel} × {conductor.size}"


def two_lines(conductor: Conductor) -> tuple[str, ...]:
    """Tag over size and length."""
    return conductor.tag, f"{size_words(conductor)} {length_words(conductor)}".strip()


def three_lines(conductor: Conductor) -> tuple[str, ...]:
    """Tag, size and length below one another."""
    return tuple(line for line in (conductor.tag, size_words(conductor), length_words(conductor)) if line)


def wide(lines: tuple[str, ...], size: float = LETTERING) -> float:
    """Width of the longest of some lines."""
    return max((width_of(line, size) for line in lines), default=0.0)


def room(conductor: Conductor) -> float:
    """Level length a conductor needs for its label of two lines."""
    return wide(two_lines(conductor)) + 4.0


def above(pen: Pen, conductor: Conductor, left: float, right: float, y: float, extra: str = "") -> None:
    """Label over a level wire, in the middle of ``left`` to ``right``."""
    lines = (conductor.tag, extra, *two_lines(conductor)[1:]) if extra else two_lines(conductor)
    label(pen, ((left + right) / 2, y - 1.3 - STEP * (len(lines) - 1)), lines, conductor.tag, anchor="middle")


def below(pen: Pen, conductor: Conductor, left: float, right: float, y: float) -> None:
    """Label under a level wire."""
    label(pen, ((left + right) / 2, y + 2.6), two_lines(conductor), conductor.tag, anchor="middle")


def beside(pen: Pen, conductor: Conductor, x: float, top: float, bottom: float, *, lines: int = 3) -> None:
    """Label right of an upright wire, in the middle of ``top`` to ``bottom``."""
    words = three_lines(conductor) if lines == 3 else two_lines(conductor)
    label(pen, (x + 1.3, (top + bottom) / 2 + 0.8 - STEP * (len(words) - 1) / 2), words, conductor.tag)


def is_thin(conductor: Conductor) -> bool:
    """Whether a conductor is drawn at control weight."""
    return 0 < conductor.area * conductor.parallel < THIN_BELOW


def wire(pen: Pen, conductor: Conductor, *points: Point) -> None:
    """Draw a conductor."""
    pen.wire(conductor.tag, *points, thin=is_thin(conductor))


def flag(board: Board, conductor: Conductor, near: End, at: Point, side: Side) -> None:
    """The place where a conductor goes on elsewhere: an arrow, the far stud and the sheet and field it is in."""
    far = conductor.end if near == conductor.start else conductor.start
    where = board.elsewhere.get((conductor.tag, str(far)), "E0/A0")
    board.exits[conductor.tag, str(near)] = at
    pen, (x, y) = board.pen, at
    pen.goes_on(conductor.tag, at)
    words = (str(far).replace("-", "−"), f"> {where}")
    dx, dy = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}[side]
    tip = (x + 1.8 * dx, y + 1.8 * dy)
    pen.line((x + 0.7 * dy, y + 0.7 * dx), tip, (x - 0.7 * dy, y - 0.7 * dx), closed=True, fill="black", role="picture")
    if side in ("left", "right"):
        anchor: Literal["start", "end"] = "start" if side == "right" else "end"
        pen.text((x + 2.6 * dx, y - 0.5), words[0], FLAG_SIZE, anchor)
        pen.text((x + 2.6 * dx, y + 1.9), words[1], FLAG_SIZE, anchor)
    else:
        first = y + 4.2 if side == "down" else y - 5.0
        pen.text((x, first), words[0], FLAG_SIZE, "middle")
        pen.text((x, first + 2.4), words[1], FLAG_SIZE, "middle")


def reference(board: Board, at: Point) -> str:
    """Sheet and field as a flag prints them."""
    return f"{board.paper}{board.number}/{grid_reference(at)}"


def part_lines(component: Component, *more: str) -> tuple[str, ...]:
    """Tag and what follows it on a part, at most three lines."""
    return (component.tag, *(line for line in (*component.rating, *more) if line))[:3]
