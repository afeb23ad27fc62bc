"""What is drawn, as a list: lines, circles, arcs, texts on a sheet in millimetres, with what they mean.

A scene knows two things about itself: how it looks (``elements``, for the writers in :mod:`athwart.papers.svg` and
:mod:`athwart.papers.dxf`) and what it says (lines that carry a conductor, boxes of symbols, studs, texts that are tags), so that
:mod:`athwart.papers.audit` can hold it against the netlist. x to the right, y down, as on paper.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import cos, radians, sin
from typing import Literal, TypeAlias

Layer = Literal["POS", "NEG", "CONTROL", "NETWORK", "SYMBOL", "TEXT", "FRAME", "DIM"]
LAYERS: tuple[Layer, ...] = ("POS", "NEG", "CONTROL", "NETWORK", "SYMBOL", "TEXT", "FRAME", "DIM")
Anchor = Literal["start", "middle", "end"]
Fill = Literal["none", "white", "black", "grey"]
Role = Literal["wire", "node", "symbol", "dimension", "help", "frame", "picture", "hidden"]
Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Style:
    """A line: weight in mm and dashes (drawn, gap, ...) in mm."""

    name: str
    weight: float
    dashes: tuple[float, ...] = ()


STYLES: dict[str, Style] = {
    style.name: style
    for style in (
        Style("power", 0.6),
        Style("symbol", 0.3),
        Style("thick", 1.1),
        Style("bar", 1.6),
        Style("control", 0.25),
        Style("network", 0.45, (3.0, 0.9, 0.7, 0.9)),
        Style("hydraulic", 0.35),
        Style("dashed", 0.22, (1.6, 1.0)),
        Style("waterline", 0.25, (6.0, 1.2, 1.0, 1.2)),
        Style("hull", 0.5),
        Style("dimension", 0.18),
        Style("help", 0.13),
        Style("frame", 0.7),
    )
}
GREY = 0.11
"""Share of black in the one grey fill."""

ADVANCE = 0.602
"""Width of every glyph of DejaVu Sans Mono, in em: the advance in the font's own table (1233 of 2048 units)."""
ASCENT, DESCENT, FOOT = 0.76, 0.24, 0.02
"""Height of the tallest glyphs used, depth of those with a tail and of those without, in em."""
TAILS = frozenset("gjpqyµ,;()[]/|Q")
CAP_HEIGHT = 0.729
"""Height of a capital, in em: what a DXF file calls the height of a text."""


@dataclass(frozen=True, slots=True)
class Line:
    """A run of straight pieces. ``carries`` is the tag of the conductor it is, ``owner`` the symbol it belongs to."""

    points: tuple[Point, ...]
    style: str
    layer: Layer
    role: Role
    carries: str = ""
    owner: str = ""
    closed: bool = False
    fill: Fill = "none"


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle; a joint is a small one filled black with the role ``node``."""

    centre: Point
    radius: float
    style: str
    layer: Layer
    role: Role = "symbol"
    owner: str = ""
    fill: Fill = "none"


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, degrees counted clockwise on paper from the right."""

    centre: Point
    radius: float
    start: float
    end: float
    style: str
    layer: Layer
    role: Role = "symbol"
    owner: str = ""

    def points(self, pieces: int = 12) -> tuple[Point, ...]:
        """The arc as straight pieces."""
        x, y = self.centre
        angles = (radians(self.start + (self.end - self.start) * k / pieces) for k in range(pieces + 1))
        return tuple((x + self.radius * cos(angle), y + self.radius * sin(angle)) for angle in angles)


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    def grown(self, by: float) -> Box:
        """Larger on all sides; smaller where ``by`` is negative."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def overlaps(self, other: Box) -> bool:
        """Whether the two share more than an edge."""
        return self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom

    def contains(self, other: Box) -> bool:
        """Whether the other lies inside."""
        return self.left <= other.left and self.top <= other.top and self.right >= other.right and self.bottom >= other.bottom

    def cut_by(self, start: Point, end: Point) -> bool:
        """Whether a straight piece runs through the inside."""
        return self.length_inside(start, end) > 1e-6

    def length_inside(self, start: Point, end: Point) -> float:
        """How much of a straight piece lies inside."""
        (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
        first, last = 0.0, 1.0
        for speed, place, low, high in ((dx, x, self.left, self.right), (dy, y, self.top, self.bottom)):
            if abs(speed) < 1e-12:
                if not low < place < high:
                    return 0.0
                continue
            near, far = sorted(((low - place) / speed, (high - place) / speed))
            first, last = max(first, near), min(last, far)
        return float(max(0.0, last - first) * (dx * dx + dy * dy) ** 0.5)


@dataclass(frozen=True, slots=True)
class Text:
    """A text on its base line. ``tag`` is the netlist tag it names; ``owner`` the symbol it stands in."""

    at: Point
    text: str
    size: float
    anchor: Anchor = "start"
    bold: bool = False
    tag: str = ""
    owner: str = ""
    upright: bool = False

    @property
    def width(self) -> float:
        """Width on paper."""
        return ADVANCE * self.size * len(self.text)

    @property
    def box(self) -> Box:
        """What it covers; a text turned upright reads from below."""
        shift = {"start": 0.0, "middle": self.width / 2, "end": self.width}[self.anchor]
        above, below = ASCENT * self.size, (DESCENT if TAILS & set(self.text) else FOOT) * self.size
        x, y = self.at
        if self.upright:
            return Box(x - above, y - self.width + shift, x + below, y + shift)
        return Box(x - shift, y - above, x - shift + self.width, y + below)


Element: TypeAlias = Line | Circle | Arc | Text


@dataclass(frozen=True, slots=True)
class Symbol:
    """The area of a symbol: no wire through it, no text over it but its own."""

    owner: str
    box: Box


@dataclass(frozen=True, slots=True)
class Port:
    """Where a stud is on the sheet. A bar has one port as long as itself: ``at`` to ``to``."""

    stud: str
    at: Point
    to: Point | None = None


@dataclass(frozen=True, slots=True)
class Continuation:
    """Where a conductor leaves off to go on elsewhere: the same ``carries`` stands at the other end."""

    carries: str
    at: Point


@dataclass(frozen=True, slots=True)
class Scene:
    """One sheet."""

    name: str  # of the file: "one-line-1"
    number: str  # of the drawing: "A-001-E1"
    title: str
    description: str  # the picture in a sentence or two
    width: float
    height: float
    elements: tuple[Element, ...]
    symbols: tuple[Symbol, ...] = ()
    ports: tuple[Port, ...] = ()
    continuations: tuple[Continuation, ...] = ()
    frame: Box | None = None

    def texts(self) -> tuple[Text, ...]:
        """All texts."""
        return tuple(element for element in self.elements if isinstance(element, Text))

    def lines(self, *roles: Role) -> tuple[Line, ...]:
        """Lines of these roles, all without."""
        return tuple(element for element in self.elements if isinstance(element, Line) and (not roles or element.role in roles))


CONDUCTOR_LAYERS: dict[str, Layer] = {
    "P": "POS",
    "L": "POS",
    "N": "NEG",
    "E": "NEG",
    "C": "CONTROL",
    "H": "CONTROL",
    "T": "NETWORK",
    "D": "NETWORK",
}


@dataclass(slots=True)
class Pen:
    """Draws onto one sheet. Invariant: what is drawn as a wire is what the audit reads as one."""

    elements: list[Element] = field(default_factory=list)
    symbols: list[Symbol] = field(default_factory=list)
    ports: list[Port] = field(default_factory=list)
    continuations: list[Continuation] = field(default_factory=list)

    def line(
        self,
        *points: Point,
        style: str = "symbol",
        layer: Layer = "SYMBOL",
        role: Role = "symbol",
        owner: str = "",
        closed: bool = False,
        fill: Fill = "none",
    ) -> None:
        """Straight pieces."""
        self.elements.append(Line(points, style, layer, role, "", owner, closed, fill))

    def rectangle(
        self,
        box: Box,
        *,
        style: str = "symbol",
        layer: Layer = "SYMBOL",
        role: Role = "symbol",
        owner: str = "",
        fill: Fill = "none",
    ) -> None:
        """A rectangle."""
        corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
        self.line(*corners, style=style, layer=layer, role=role, owner=owner, closed=True, fill=fill)

    def wire(self, tag: str, *points: Point, thin: bool = False) -> None:
        """A conductor; its kind is the letter in its tag. A hydraulic line is drawn double."""
        kind = tag[1]
        layer = CONDUCTOR_LAYERS[kind]
        clean = tuple(point for index, point in enumerate(points) if index == 0 or point != points[index - 1])
        if kind == "H":
            self.elements.append(Line(clean, "hydraulic", layer, "hidden", tag))
            for side in (-0.45, 0.45):
                self.elements.append(Line(offset(clean, side), "hydraulic", layer, "wire"))
            return
        style = {"C": "control", "T": "network", "D": "network"}.get(kind, "control" if thin else "power")
        self.elements.append(Line(clean, style, layer, "wire", tag))

    def join(self, *points: Point, layer: Layer = "POS", thin: bool = False) -> None:
        """A piece of drawing that joins studs and is no conductor of its own."""
        if len(points) > 1 and points[0] != points[-1]:
            self.elements.append(Line(points, "control" if thin else "power", layer, "node"))

    def dot(self, at: Point, layer: Layer = "SYMBOL") -> None:
        """A joint."""
        self.elements.append(Circle(at, 0.7, "symbol", layer, "node", fill="black"))

    def circle(
        self, centre: Point, radius: float, *, owner: str = "", fill: Fill = "none", style: str = "symbol", role: Role = "symbol"
    ) -> None:
        """A circle of a symbol."""
        self.elements.append(Circle(centre, radius, style, "SYMBOL", role, owner, fill))

    def arc(self, centre: Point, radius: float, start: float, end: float, *, owner: str = "") -> None:
        """An arc of a symbol."""
        self.elements.append(Arc(centre, radius, start, end, "symbol", "SYMBOL", "symbol", owner))

    def text(
        self,
        at: Point,
        text: str,
        size: float = 2.0,
        anchor: Anchor = "start",
        *,
        bold: bool = False,
        tag: str = "",
        owner: str = "",
        upright: bool = False,
    ) -> Box:
        """A text; gives back what it covers."""
        made = Text(at, text, size, anchor, bold, tag, owner, upright)
        if text:
            self.elements.append(made)
        return made.box

    def symbol(self, owner: str, box: Box) -> None:
        """Say what area a symbol covers."""
        self.symbols.append(Symbol(owner, box))

    def port(self, component: str, terminal: str, at: Point, to: Point | None = None) -> Point:
        """Say where a stud is."""
        self.ports.append(Port(f"{component}:{terminal}", at, to))
        return at

    def goes_on(self, tag: str, at: Point) -> None:
        """Say that a conductor leaves off here."""
        self.continuations.append(Continuation(tag, at))

    def scene(
        self, name: str, number: str, title: str, description: str, width: float, height: float, frame: Box | None
    ) -> Scene:
        """The sheet as it is now."""
        return Scene(
            name,
            number,
            title,
            description,
            width,
            height,
            tuple(self.elements),
            tuple(self.symbols),
            tuple(self.ports),
            tuple(self.continuations),
            frame,
        )


def offset(points: tuple[Point, ...], side: float) -> tuple[Point, ...]:
    """A line beside one made of level and upright pieces."""
    made = []
    for index, (x, y) in enumerate(points):
        before = points[index - 1] if index else None
        after = points[index + 1] if index + 1 < len(points) else None
        dx = dy = 0.0
        for start, end in ((before, (x, y)), ((x, y), after)):
            if start is None or end is None:
                continue
            if start[1] == end[1]:
                dy = side if end[0] > start[0] else -side
            else:
                dx = -side if end[1] > start[1] else side
        made.append((x + dx, y + dy))
    return tuple(made)


def width_of(text: str, size: float) -> float:
    """Width of a text on paper."""
    return ADVANCE * size * len(text)


def wrapped(text: str, characters: int, lines: int = 2) -> tuple[str, ...]:
    """Words in at most ``lines`` lines of ``characters``; what does not fit is cut with an ellipsis."""
    made = [""]
    for word in text.split():
        longer = f"{made[-1]} {word}".strip()
        if len(longer) <= characters or not made[-1]:
            made[-1] = longer
        else:
            made.append(word)
    if len(made) > lines:
        made = [*made[: lines - 1], " ".join(made[lines - 1 :])]
    return tuple(line if len(line) <= characters else line[: characters - 1].rstrip() + "…" for line in made)
