"""A scene as SVG: true millimetres, text as text, no style attributes.

Two variants: one that stands alone, with a style element inside, and one for a page with a strict content policy, which has
only class names; :func:`style_sheet` is what such a page needs.
"""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from athwart.papers.scene import GREY, STYLES, Arc, Circle, Element, Line, Point, Scene, Text

FONT = "'DejaVu Sans Mono','DejaVu Sans Mono Book',monospace"
FILLS = {"none": "fn", "white": "fw", "black": "fb", "grey": "fg"}


def number(value: float) -> str:
    """A coordinate with at most two decimals."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def style_sheet() -> str:
    """Rules for all classes used."""
    grey = round(255 * (1 - GREY))
    rules = [f".{FILLS['none']}{{fill:none}}", f".{FILLS['white']}{{fill:#fff}}", f".{FILLS['black']}{{fill:#000}}"]
    rules.append(f".{FILLS['grey']}{{fill:#{grey:02x}{grey:02x}{grey:02x}}}")
    for style in STYLES.values():
        dashes = f";stroke-dasharray:{' '.join(number(part) for part in style.dashes)}" if style.dashes else ""
        rules.append(f".s-{style.name}{{stroke:#000;stroke-width:{number(style.weight)};stroke-linejoin:miter{dashes}}}")
    rules.append(f".t{{fill:#000;font-family:{FONT}}}.paper{{fill:#fff}}")
    return "".join(rules)


def svg(scene: Scene, *, standalone: bool = True) -> str:
    """The SVG text of a sheet."""
    identity = scene.name
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(scene.width)}mm" height="{number(scene.height)}mm" '
        f'viewBox="0 0 {number(scene.width)} {number(scene.height)}" xml:space="preserve" role="img" '
        f"aria-labelledby={quoteattr(f'{identity}-title {identity}-desc')}>"
    )
    lines = [head, f"<title id={quoteattr(identity + '-title')}>{escape(scene.title)}</title>"]
    lines.append(f"<desc id={quoteattr(identity + '-desc')}>{escape(scene.description)}</desc>")
    if standalone:
        lines.append(f"<style>{style_sheet()}</style>")
    lines.append(f'<rect class="paper" width="{number(scene.width)}" height="{number(scene.height)}"/>')
    lines += [part for element in scene.elements if (part := _element(element))]
    return "\n".join([*lines, "</svg>", ""])


def _element(element: Element) -> str:
    if isinstance(element, Text):
        return _text(element)
    if element.role == "hidden":
        return ""
    if isinstance(element, Line):
        shape = "polygon" if element.closed else "polyline"
        fill = FILLS[element.fill]
        return f'<{shape} class="{fill} s-{element.style}" points="{_points(element.points)}"/>'
    if isinstance(element, Circle):
        x, y = element.centre
        classes = f"{FILLS[element.fill]} s-{element.style}"
        return f'<circle class="{classes}" cx="{number(x)}" cy="{number(y)}" r="{number(element.radius)}"/>'
    return _arc(element)


def _points(points: tuple[Point, ...]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)


def _arc(arc: Arc) -> str:
    (x, y), (u, v) = arc.points(1)
    large = int(abs(arc.end - arc.start) > 180)
    sweep = int(arc.end > arc.start)
    radius = number(arc.radius)
    path = f"M{number(x)} {number(y)} A{radius} {radius} 0 {large} {sweep} {number(u)} {number(v)}"
    return f'<path class="fn s-{arc.style}" d="{path}"/>'


def _text(text: Text) -> str:
    x, y = (number(value) for value in text.at)
    extra = "" if text.anchor == "start" else f' text-anchor="{text.anchor}"'
    extra += ' font-weight="700"' if text.bold else ""
    extra += f' transform="rotate(-90 {x} {y})"' if text.upright else ""
    return f'<text class="t" x="{x}" y="{y}" font-size="{number(text.size)}"{extra}>{escape(text.text)}</text>'
