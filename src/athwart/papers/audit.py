"""Is a drawing fit to be built from? What is wrong with it, in sentences; nothing when all is well.

Looks: no line through a symbol, no text over a line, a symbol or another text, symbols apart, all inside the frame. Dimension
and help lines count as lines. Says: every tag of the netlist once and near what it names; the studs of every net joined into
one figure, and no two nets joined; no wire laid on another.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import pairwise

from athwart.design.netlist import Netlist
from athwart.papers.scene import Box, Circle, Line, Point, Port, Role, Scene, Symbol, Text

TOUCH = 0.02
"""Two points closer than this, in mm, are one."""
THROUGH = 0.95
"""A line may end on the middle of a bar, which is 1.6 mm thick, and may not go through it."""
LABEL_REACH = 9.0
"""How far a label may stand from the line it names, mm."""
LINES: tuple[Role, ...] = ("wire", "node", "dimension", "help", "hidden")

Segment = tuple[Point, Point]


def audit(scenes: Scene | tuple[Scene, ...], netlist: Netlist | None = None) -> tuple[str, ...]:
    """Faults of one drawing, all its sheets together; ``netlist`` None where it shows no circuit."""
    sheets = (scenes,) if isinstance(scenes, Scene) else scenes
    faults = [f"{scene.name}: {fault}" for scene in sheets for fault in looks(scene)]
    if netlist is not None:
        faults += [*tag_faults(sheets, netlist), *net_faults(sheets, netlist)]
        faults += [f"{scene.name}: {fault}" for scene in sheets for fault in _label_faults(scene, netlist)]
    return tuple(faults)


def looks(scene: Scene) -> Iterator[str]:
    """Faults that can be seen without knowing the circuit."""
    texts = [text for text in scene.texts() if text.text.strip()]
    boxes = [text.box.grown(-0.02) for text in texts]
    segments = [(line, segment) for line in scene.lines(*LINES) for segment in _segments(line)]
    yield from _line_faults(scene, segments)
    yield from _text_faults(scene, texts, boxes, segments)
    yield from _symbol_faults(scene.symbols)
    if scene.frame is not None:
        yield from _frame_faults(scene, texts)


def _line_faults(scene: Scene, segments: list[tuple[Line, Segment]]) -> Iterator[str]:
    for line, (start, end) in segments:
        for symbol in scene.symbols:
            if line.owner != symbol.owner and symbol.box.length_inside(start, end) > THROUGH:
                yield f"line {_name(line)} runs through {symbol.owner} near {_spot(start)}"


def _text_faults(scene: Scene, texts: list[Text], boxes: list[Box], segments: list[tuple[Line, Segment]]) -> Iterator[str]:
    strokes = [(line, segment) for line in scene.lines("symbol", "frame", "picture") for segment in _segments(line)]
    strokes += segments
    rounds = [element for element in scene.elements if isinstance(element, Circle) and element.role in ("symbol", "node")]
    for index, (text, box) in enumerate(zip(texts, boxes, strict=True)):
        for line, (start, end) in strokes:
            if box.cut_by(start, end):
                yield f"text {text.text!r} lies over line {_name(line)} at {_spot(text.at)}"
        for symbol in scene.symbols:
            if text.owner != symbol.owner and box.overlaps(symbol.box):
                yield f"text {text.text!r} lies over {symbol.owner} at {_spot(text.at)}"
        for circle in rounds:
            if _cut_by_circle(box, circle):
                yield f"text {text.text!r} lies over a circle at {_spot(text.at)}"
        for other, other_box in zip(texts[index + 1 :], boxes[index + 1 :], strict=True):
            if box.overlaps(other_box):
                yield f"text {text.text!r} lies over text {other.text!r} at {_spot(text.at)}"


def _cut_by_circle(box: Box, circle: Circle) -> bool:
    """Whether the rim of a circle, or a filled one, meets a box."""
    x, y = circle.centre
    nearest = (min(max(x, box.left), box.right), min(max(y, box.top), box.bottom))
    farthest = max(
        _distance((x, y), corner)
        for corner in ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    )
    near = _distance((x, y), nearest)
    return near < circle.radius and (circle.fill == "black" or farthest > circle.radius)


def _symbol_faults(symbols: tuple[Symbol, ...]) -> Iterator[str]:
    for index, one in enumerate(symbols):
        for other in symbols[index + 1 :]:
            if one.box.grown(-0.05).overlaps(other.box.grown(-0.05)):
                yield f"{one.owner} overlaps {other.owner}"


def _frame_faults(scene: Scene, texts: list[Text]) -> Iterator[str]:
    frame = scene.frame
    assert frame is not None
    for text in texts:
        if text.owner != "frame" and not frame.contains(text.box):
            yield f"text {text.text!r} leaves the frame at {_spot(text.at)}"
    for line in scene.lines(*LINES, "symbol", "picture"):
        if line.owner != "frame" and any(not frame.contains(Box(x, y, x, y)) for x, y in line.points):
            yield f"line {_name(line)} leaves the frame at {_spot(line.points[0])}"


def tag_faults(scenes: tuple[Scene, ...], netlist: Netlist) -> Iterator[str]:
    """Every tag of the netlist once, and no others."""
    count: dict[str, int] = defaultdict(int)
    for scene in scenes:
        for text in scene.texts():
            if text.tag:
                count[text.tag] += 1
                if not text.text.startswith(text.tag):
                    yield f"{scene.name}: label {text.text!r} does not name {text.tag}"
    wanted = [entry.tag for entry in netlist.components] + [entry.tag for entry in netlist.conductors]
    for tag in wanted:
        if count[tag] != 1:
            yield f"tag {tag} stands {count[tag]} times"
    for tag in sorted(set(count) - set(wanted)):
        yield f"tag {tag} is not in the netlist"
    carried = {line.carries for scene in scenes for line in scene.lines() if line.carries}
    for conductor in netlist.conductors:
        if conductor.tag not in carried:
            yield f"conductor {conductor.tag} is not drawn"


def _label_faults(scene: Scene, netlist: Netlist) -> Iterator[str]:
    """A conductor's label stands near its own line."""
    lines: dict[str, list[Segment]] = defaultdict(list)
    for line in scene.lines():
        if line.carries:
            lines[line.carries] += _segments(line)
    conductors = {entry.tag for entry in netlist.conductors}
    for text in scene.texts():
        if text.tag in conductors:
            near = min((_segment_to_box(segment, text.box) for segment in lines[text.tag]), default=1e9)
            if near > LABEL_REACH:
                yield f"label {text.tag} stands {near:.0f} mm from its line"


def net_faults(scenes: tuple[Scene, ...], netlist: Netlist) -> Iterator[str]:
    """Every net one figure, no two nets one figure, no wire on another."""
    figure = _Figures()
    for index, scene in enumerate(scenes):
        for fault in _trace(figure, index, scene, netlist):
            yield f"{scene.name}: {fault}"
    placed = {port.stud for scene in scenes for port in scene.ports}
    owner: dict[object, str] = {}
    for net in _nets(netlist):
        missing = sorted(stud for stud in net if stud not in placed)
        for stud in missing:
            yield f"stud {stud} is not drawn"
        roots = {figure.root(stud) for stud in net if stud in placed}
        name = min(net)
        if len(roots) > 1:
            yield f"the net of {name} is drawn in {len(roots)} pieces: {', '.join(sorted(net))}"
        for root in roots:
            if root in owner:
                yield f"the nets of {owner[root]} and {name} are drawn joined"
            owner[root] = name


def _nets(netlist: Netlist) -> list[set[str]]:
    """Nets with the studs of a bar or of a tee's line taken as one."""
    joined = _Figures()
    for conductor in netlist.conductors:
        joined.join(*(_stud(netlist, end.component, end.terminal) for end in (conductor.start, conductor.end)))
    groups: dict[object, set[str]] = defaultdict(set)
    for stud in list(joined.parent):
        groups[joined.root(stud)].add(str(stud))
    return [group for _, group in sorted(groups.items(), key=lambda entry: min(entry[1]))]


def _stud(netlist: Netlist, component: str, terminal: str) -> str:
    kind = next((entry.kind for entry in netlist.components if entry.tag == component), "")
    if kind == "bar":
        return f"{component}:1"
    if kind in ("tee", "feed") and terminal not in "+-":
        return f"{component}:1"
    return f"{component}:{terminal}"


class _Figures:
    """Union-find over points, wires and studs."""

    def __init__(self) -> None:
        self.parent: dict[object, object] = {}

    def root(self, thing: object) -> object:
        self.parent.setdefault(thing, thing)
        while self.parent[thing] != thing:
            self.parent[thing] = self.parent[self.parent[thing]]
            thing = self.parent[thing]
        return thing

    def join(self, one: object, other: object) -> None:
        self.parent[self.root(one)] = self.root(other)


def _trace(figure: _Figures, sheet: int, scene: Scene, netlist: Netlist) -> Iterator[str]:
    """Join what touches: a wire's end on another wire, a stud on a wire's end, what goes on elsewhere."""
    wires = [line for line in scene.lines("wire", "hidden", "node") if line.carries or line.role == "node"]
    names = {id(line): (sheet, index) for index, line in enumerate(wires)}
    for line in wires:
        if line.carries:
            figure.join(names[id(line)], ("conductor", line.carries))
    for index, line in enumerate(wires):
        for end in (line.points[0], line.points[-1]):
            for other in wires:
                if other is not line and any(_on_segment(end, segment) for segment in _segments(other)):
                    figure.join(names[id(line)], names[id(other)])
        for other in wires[index + 1 :]:
            if _laid_over(line, other):
                yield f"{_name(line)} and {_name(other)} lie on each other"
    for port in scene.ports:
        stud = _stud(netlist, *port.stud.rsplit(":", 1))
        for line in wires:
            if _port_touches(port, line):
                figure.join(stud, names[id(line)])
        figure.root(stud)


def _port_touches(port: Port, line: Line) -> bool:
    if port.to is not None:
        return any(_on_segment(end, (port.at, port.to)) for end in (line.points[0], line.points[-1]))
    return any(_on_segment(port.at, segment) for segment in _segments(line))


def _laid_over(one: Line, other: Line) -> bool:
    return any(_share_a_stretch(a, b) for a in _segments(one) for b in _segments(other))


def _share_a_stretch(one: Segment, other: Segment) -> bool:
    for axis in (0, 1):
        cross = 1 - axis
        if all(abs(point[cross] - one[0][cross]) < TOUCH for point in (*one, *other)):
            low = max(min(one[0][axis], one[1][axis]), min(other[0][axis], other[1][axis]))
            high = min(max(one[0][axis], one[1][axis]), max(other[0][axis], other[1][axis]))
            return high - low > TOUCH
    return False


def _segments(line: Line) -> list[Segment]:
    points = (*line.points, line.points[0]) if line.closed else line.points
    return list(pairwise(points))


def _distance(one: Point, other: Point) -> float:
    return float(((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2) ** 0.5)


def _on_segment(point: Point, segment: Segment) -> bool:
    return _to_segment(point, segment) < TOUCH


def _to_segment(point: Point, segment: Segment) -> float:
    (x, y), (u, v) = segment
    dx, dy = u - x, v - y
    square = dx * dx + dy * dy
    along = 0.0 if square == 0 else min(1.0, max(0.0, ((point[0] - x) * dx + (point[1] - y) * dy) / square))
    return _distance(point, (x + along * dx, y + along * dy))


def _segment_to_box(segment: Segment, box: Box) -> float:
    corners: Iterable[Point] = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    middle = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
    ends = min(_distance(end, (min(max(end[0], box.left), box.right), min(max(end[1], box.top), box.bottom))) for end in segment)
    return min(ends, *(_to_segment(point, segment) for point in (*corners, middle)))


def _name(line: Line) -> str:
    return line.carries or f"({line.role})"


def _spot(point: Point) -> str:
    return f"({point[0]:.1f}, {point[1]:.1f})"
