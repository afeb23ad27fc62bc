"""A scene as plain lines of text, one an element: what a test keeps and a person can read in a difference."""

from __future__ import annotations

from athwart.papers.scene import Arc, Circle, Element, Line, Point, Scene, Text


def record(scene: Scene) -> str:
    """Sheet, then elements in the order drawn, then what the audit reads."""
    lines = [f"sheet {scene.name} {scene.number} {_n(scene.width)} x {_n(scene.height)}", f"title {scene.title}"]
    lines.append(f"description {scene.description}")
    lines += [_element(element) for element in scene.elements]
    for symbol in scene.symbols:
        box = symbol.box
        lines.append(f"area {symbol.owner} {_p((box.left, box.top))} {_p((box.right, box.bottom))}")
    lines += [f"stud {port.stud} {_p(port.at)}" + (f" {_p(port.to)}" if port.to else "") for port in scene.ports]
    lines += [f"goes on {entry.carries} {_p(entry.at)}" for entry in scene.continuations]
    return "\n".join([*lines, ""])


def _element(element: Element) -> str:
    if isinstance(element, Text):
        marks = " ".join(word for word, on in (("bold", element.bold), ("upright", element.upright)) if on)
        tag = f" tag={element.tag}" if element.tag else ""
        return f"text {_p(element.at)} {_n(element.size)} {element.anchor}{' ' + marks if marks else ''}{tag} {element.text!r}"
    if isinstance(element, Line):
        carries = f" carries={element.carries}" if element.carries else ""
        closed = " closed" if element.closed else ""
        fill = f" {element.fill}" if element.fill != "none" else ""
        points = " ".join(_p(point) for point in element.points)
        return f"line {element.layer} {element.style} {element.role}{carries}{closed}{fill} {points}"
    if isinstance(element, Circle):
        return f"circle {element.layer} {element.style} {element.role} {element.fill} {_p(element.centre)} {_n(element.radius)}"
    return _arc(element)


def _arc(arc: Arc) -> str:
    return f"arc {arc.layer} {arc.style} {_p(arc.centre)} {_n(arc.radius)} {_n(arc.start)} {_n(arc.end)}"


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _p(point: Point) -> str:
    return f"({_n(point[0])} {_n(point[1])})"
