"""Charts of the dossier as SVG: wind held against its direction, volts along a lane, fuse against cable and motor.

Black on white, one grey for a band, three line styles, the asked value drawn and named, labels on the curve or at its right
end. Every figure of a chart also stands in a table or in the JSON. Millimetres; the font is one the PDF writer carries.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import cos, inf, isfinite, log10, pi, sin
from xml.sax.saxutils import escape

from athwart.papers.figures import SPACE, number

FONT = "DejaVu Sans Mono"
ADVANCE = 0.602
GREY = "#e3e3e3"
SMALL, TINY = 2.35, 2.1
DASHES = {"full": "", "dashed": "2.2 1.2", "dash-dot": "3 0.9 0.5 0.9", "dotted": "0.15 0.9"}

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Label:
    """A text with the box it covers, for the test that no two lie over each other."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Label) -> bool:
        """Whether two labels share more than an edge."""
        return self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom


@dataclass(slots=True)
class Chart:
    """A drawing in the making: parts of an SVG and what they cover."""

    width: float
    height: float
    parts: list[str] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)

    def line(
        self, points: Sequence[Point], style: str = "full", weight: float = 0.3, *, clip: bool = False, cap: str = "butt"
    ) -> None:
        """A line through points."""
        dashes = f' stroke-dasharray="{DASHES[style]}"' if DASHES[style] else ""
        round_cap = ' stroke-linecap="round"' if style == "dotted" else ""
        window = ' clip-path="url(#window)"' if clip else ""
        self.parts.append(
            f'<polyline points="{_points(points)}" fill="none" stroke="#000" stroke-width="{weight:g}"{dashes}{round_cap}{window}/>'
        )

    def area(self, points: Sequence[Point], *, clip: bool = False) -> None:
        """A grey area with its outline."""
        window = ' clip-path="url(#window)"' if clip else ""
        self.parts.append(f'<polygon points="{_points(points)}" fill="{GREY}" stroke="#000" stroke-width="0.13"{window}/>')

    def dot(self, at: Point, radius: float = 0.8) -> None:
        """A filled dot."""
        self.parts.append(f'<circle cx="{_n(at[0])}" cy="{_n(at[1])}" r="{radius:g}" fill="#000"/>')

    def circle(self, at: Point, radius: float, style: str = "full", weight: float = 0.2) -> None:
        """A circle."""
        dashes = f' stroke-dasharray="{DASHES[style]}"' if DASHES[style] else ""
        cap = ' stroke-linecap="round"' if style == "dotted" else ""
        self.parts.append(
            f'<circle cx="{_n(at[0])}" cy="{_n(at[1])}" r="{_n(radius)}" fill="none" stroke="#000" stroke-width="{weight:g}"{dashes}{cap}/>'
        )

    def text(
        self, at: Point, text: str, size: float = SMALL, anchor: str = "start", *, ground: bool = False, bold: bool = False
    ) -> None:
        """A text on its base line; ``ground`` puts white behind it."""
        wide = ADVANCE * size * len(text)
        left = at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        label = Label(text, left, at[1] - 0.76 * size, left + wide, at[1] + 0.2 * size)
        self.labels.append(label)
        if ground:
            self.parts.append(
                f'<rect x="{_n(label.left - 0.4)}" y="{_n(label.top - 0.2)}" width="{_n(wide + 0.8)}" height="{_n(label.bottom - label.top + 0.4)}" fill="#fff"/>'
            )
        weight = ' font-weight="700"' if bold else ""
        self.parts.append(
            f'<text x="{_n(at[0])}" y="{_n(at[1])}" font-family="{FONT}" font-size="{size:g}" text-anchor="{anchor}"{weight} xml:space="preserve">{escape(text)}</text>'
        )

    def window(self, left: float, top: float, right: float, bottom: float) -> None:
        """Where clipped lines may be seen."""
        self.parts.insert(
            0,
            f'<clipPath id="window"><rect x="{_n(left)}" y="{_n(top)}" width="{_n(right - left)}" height="{_n(bottom - top)}"/></clipPath>',
        )

    def svg(self) -> str:
        """The whole drawing."""
        head = f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(self.width)}mm" height="{_n(self.height)}mm" viewBox="0 0 {_n(self.width)} {_n(self.height)}">'
        return "\n".join([head, *self.parts, "</svg>"])


def _n(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _points(points: Sequence[Point]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Places near the wanted ones (ascending) at least ``gap`` apart and inside low to high, where there is room."""
    placed: list[float] = []
    for at in wanted:
        placed.append(max(at, placed[-1] + gap) if placed else max(at, low))
    limit = high
    for index in range(len(placed) - 1, -1, -1):
        placed[index] = min(placed[index], limit)
        limit = placed[index] - gap
    return placed


# ---- wind held against its direction


def polar(held: Sequence[tuple[float, float]], sigma: float, asked: float, most: float, side: float = 74.0) -> Chart:
    """Wind held (knots) against its angle off the bow (rad), bow up, both sides drawn; ``sigma`` relative, ``most`` the outer ring."""
    chart = Chart(side + 10, side + 8)
    centre, radius = (side / 2 + 5, side / 2 + 5), side / 2 - 5.5

    def at(angle: float, speed: float) -> Point:
        r = radius * min(max(speed, 0.0), most) / most
        return centre[0] + r * sin(angle), centre[1] - r * cos(angle)

    ring = [(angle, speed) for angle, speed in sorted(held)]
    full = ring if ring and ring[0][0] < -0.1 else [(-angle, speed) for angle, speed in reversed(ring) if 0 < angle < pi] + ring
    outer = [at(angle, speed * (1 + sigma)) for angle, speed in full]
    inner = [at(angle, speed * (1 - sigma)) for angle, speed in full]
    chart.area(outer)
    chart.parts.append(f'<polygon points="{_points(inner)}" fill="#fff" stroke="#000" stroke-width="0.13"/>')
    step = 10.0 if most >= 30 else 5.0
    for ring_speed in [step * k for k in range(1, int(most / step) + 1)]:
        chart.circle(centre, radius * ring_speed / most, "full" if ring_speed + step > most else "dotted", 0.2)
    for degrees in range(0, 180, 30):
        angle = degrees * pi / 180
        chart.line([at(angle, most), at(angle + pi, most)], "dotted", 0.2)
    chart.line([at(angle, speed) for angle, speed in [*full, full[0]]], "full", 0.45)
    chart.circle(centre, radius * min(asked, most) / most, "dashed", 0.35)
    for degrees in range(0, 360, 30):
        angle = degrees * pi / 180
        x, y = centre[0] + (radius + 3.2) * sin(angle), centre[1] - (radius + 3.2) * cos(angle)
        shown = degrees if degrees <= 180 else 360 - degrees
        chart.text((x, y + 0.8), "0° bow" if degrees == 0 else f"{shown}°", TINY, "middle")
    for ring_speed in [step * k for k in range(1, int(most / step) + 1)]:
        angle = 195 * pi / 180
        x, y = at(angle, ring_speed)
        chart.text((x, y + 0.8), number(ring_speed), TINY, "middle", ground=True)
    _hull(chart, centre, radius * 0.17)
    return chart


def _hull(chart: Chart, centre: Point, half: float) -> None:
    """A small plan of a boat, bow up."""
    x, y = centre
    points = [
        (x, y - half),
        (x + 0.3 * half, y - 0.3 * half),
        (x + 0.32 * half, y + half),
        (x - 0.32 * half, y + half),
        (x - 0.3 * half, y - 0.3 * half),
    ]
    chart.parts.append(f'<polygon points="{_points(points)}" fill="#fff" stroke="#000" stroke-width="0.3"/>')


# ---- volts along a lane


@dataclass(frozen=True, slots=True)
class Step:
    """A step of the stair: what it is, volts after it, volts lost in it, band; and the volts after it in the other state."""

    name: str
    volts: float
    lost: float
    sigma: float
    other: float | None = None


def stair(
    steps: Sequence[Step],
    words: str,
    other_words: str,
    limit: float | None,
    limit_words: str,
    width: float = 162.0,
    height: float = 74.0,
) -> Chart:
    """Volts after each piece of a lane, one step a piece, with its band, and the same in the design state as a dashed line."""
    chart = Chart(width, height)
    left, right, top, bottom = 12.0, width - 1.0, 7.0, height - 16.0
    values = [s.volts for s in steps] + [s.other for s in steps if s.other is not None] + ([limit] if limit is not None else [])
    spacing = 0.5 if max(values) - min(values) < 2.6 else 1.0 if max(values) - min(values) < 7 else 2.0
    low = spacing * int((min(values) - 0.4 * spacing) / spacing)
    high = spacing * (int((max(values) + max(s.sigma for s in steps)) / spacing) + 1)

    def y(volts: float) -> float:
        return bottom - (volts - low) / (high - low) * (bottom - top)

    each = (right - left) / len(steps)
    chart.text((0.0, 3.0), f"volts: {words}; dashed: {other_words}{'; dash-dot: ' + limit_words if limit is not None else ''}")
    count = round((high - low) / spacing)
    for k in range(count + 1):
        volts = low + k * spacing
        chart.line([(left, y(volts)), (right, y(volts))], "dotted" if k else "full", 0.2)
        chart.text((left - 1.2, y(volts) + 0.8), number(volts, 1 if spacing < 1 else 0), TINY, "end")
    for k, step in enumerate(steps):
        x = left + k * each
        if step.sigma > 0:
            chart.area(
                [
                    (x, y(step.volts + step.sigma)),
                    (x + each, y(step.volts + step.sigma)),
                    (x + each, y(step.volts - step.sigma)),
                    (x, y(step.volts - step.sigma)),
                ]
            )
    for attribute, style, weight in (("volts", "full", 0.5), ("other", "dashed", 0.3)):
        line: list[Point] = []
        for k, step in enumerate(steps):
            value = getattr(step, attribute)
            if value is not None:
                line += [(left + k * each, y(value)), (left + (k + 1) * each, y(value))]
        if line:
            chart.line(line, style, weight)
    if limit is not None:
        chart.line([(left, y(limit)), (right, y(limit))], "dash-dot", 0.25)
    size = min(TINY, (each - 0.6) / (ADVANCE * 7))
    for k, step in enumerate(steps):
        x = left + (k + 0.5) * each
        chart.text((x, y(step.volts + step.sigma) - 0.9), number(step.volts, 2), size, "middle", ground=True)
        chart.text((x, bottom + 4.0), step.name, size, "middle", bold=True)
        if step.lost:
            chart.text((x, bottom + 7.4), f"−{number(step.lost * 1e3)}", size, "middle")
    chart.text((0.0, bottom + 7.4), "mV lost", min(TINY, size + 0.2))
    first = "at rest: after an hour without load; posts: under load; then the volts left after each piece"
    chart.text((0.0, bottom + 13.0), first, TINY)
    return chart


# ---- coordination


@dataclass(frozen=True, slots=True)
class Mark:
    """An upright of the coordination plot: a current with its words."""

    current: float
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Coordination:
    """What the plot shows."""

    fuse_words: tuple[str, ...]
    opening: Callable[[float], tuple[float, float]]
    cable_words: tuple[str, ...]
    withstand: Callable[[float], float]
    duty: Point  # (A, s)
    duty_words: str
    marks: tuple[Mark, ...]


def coordination(data: Coordination, width: float = 162.0, height: float = 104.0) -> Chart:
    """Fuse band, cable limit, motor duty and fault currents, both axes logarithmic."""
    chart = Chart(width, height)
    left, right, top, bottom = 13.0, width - 44.0, 7.0, height - 8.0
    currents = [mark.current for mark in data.marks] + [data.duty[0]]
    first = min(currents) * 0.32
    last = max(currents) * 1.8
    low, high = 0.01, 10_000.0

    def x(current: float) -> float:
        return left + log10(current / first) / log10(last / first) * (right - left)

    def y(time: float) -> float:
        return bottom - log10(min(max(time, low * 0.5), high * 2) / low) / log10(high / low) * (bottom - top)

    chart.window(left, top, right, bottom)
    chart.text((0.0, 3.0), "seconds, against amperes")
    _log_grid(chart, x, y, first, last, low, high, (left, top, right, bottom))
    grid = [first * (last / first) ** (k / 240) for k in range(241)]
    band = [(current, *data.opening(current)) for current in grid]
    upper = [(x(c), y(most if isfinite(most) else high * 2)) for c, least, most in band if isfinite(least)]
    lower = [(x(c), y(least)) for c, least, _ in band if isfinite(least)]
    if upper:
        chart.area([*upper, *reversed(lower)], clip=True)
        chart.line(upper, "full", 0.4, clip=True)
        chart.line(lower, "full", 0.4, clip=True)
    cable = [(x(c), y(data.withstand(c))) for c in grid if isfinite(data.withstand(c))]
    if cable:
        chart.line(cable, "dashed", 0.4, clip=True)
    amps, seconds = data.duty
    chart.line([(x(amps), bottom), (x(amps), y(seconds))], "full", 0.8)
    chart.dot((x(amps), y(seconds)), 0.9)
    near = x(amps) - left < ADVANCE * TINY * len(data.duty_words) + 3
    chart.text(
        (x(amps) + (1.6 if near else -1.6), y(seconds) + 0.7), data.duty_words, TINY, "start" if near else "end", ground=True
    )
    for mark in data.marks:
        chart.line([(x(mark.current), top), (x(mark.current), bottom)], "dash-dot", 0.25)
    _fuse_label(chart, data, x, y, grid)
    _right_labels(chart, data, x, y, right, top, bottom, last)
    return chart


def _log_grid(
    chart: Chart,
    x: Callable[[float], float],
    y: Callable[[float], float],
    first: float,
    last: float,
    low: float,
    high: float,
    frame: tuple[float, float, float, float],
) -> None:
    left, top, right, bottom = frame
    chart.line([(left, top), (left, bottom), (right, bottom), (right, top), (left, top)], "full", 0.2)
    time = low
    while time <= high * 1.001:
        if low < time < high * 0.999:
            chart.line([(left, y(time)), (right, y(time))], "dotted", 0.2)
        chart.text((left - 1.2, y(time) + 0.8), number(time, 0 if time >= 0.99 else 2 if time < 0.05 else 1), TINY, "end")
        time *= 10.0
    decade = 10.0 ** int(log10(first) - 1)
    printed = -inf
    while decade <= last:
        for factor in range(1, 10):
            current = factor * decade
            if first < current < last:
                chart.line([(x(current), top), (x(current), bottom)], "dotted", 0.2)
                text = number(current)
                if factor in (1, 2, 5) and x(current) - ADVANCE * TINY * len(text) / 2 > printed:
                    chart.text((x(current), bottom + 3.4), text, TINY, "middle")
                    printed = x(current) + ADVANCE * TINY * len(text) / 2 + 0.8
        decade *= 10.0


def _right_labels(
    chart: Chart,
    data: Coordination,
    x: Callable[[float], float],
    y: Callable[[float], float],
    right: float,
    top: float,
    bottom: float,
    last: float,
) -> None:
    """Words of the cable's curve and of the uprights in the right margin, each with a level hairline to what it names."""
    bears = data.withstand(last * 0.999)
    end = min(max(y(bears), top + 1.5), bottom - 4.0 - 8.0 * len(data.marks)) if isfinite(bears) else top + 1.5
    chart.line([(right, end), (right + 2.2, end)], "full", 0.13)
    for row, text in enumerate(data.cable_words):
        chart.text((right + 2.8, end + 0.7 + 2.9 * row), text, TINY)
    marks = sorted(data.marks, key=lambda entry: entry.current)
    places = spread(
        [bottom - 2.0 - 8.0 * (len(marks) - k) for k in range(len(marks))], 8.0, max(top + 2, end + 8.0), bottom - 4.0
    )
    for mark, at in zip(marks, places, strict=True):
        chart.line([(x(mark.current), at), (right + 2.2, at)], "full", 0.13)
        chart.dot((x(mark.current), at), 0.5)
        for row, text in enumerate(mark.words):
            chart.text((right + 2.8, at + 0.7 + 2.9 * row), text, TINY)


def _fuse_label(
    chart: Chart, data: Coordination, x: Callable[[float], float], y: Callable[[float], float], grid: Sequence[float]
) -> None:
    """Words of the fuse to the left of its band, above the motor's duty."""
    want = max(300.0, 4.0 * data.duty[1])
    at = next((current for current in grid if data.opening(current)[0] <= want), grid[-1])
    for row, text in enumerate(data.fuse_words):
        chart.text((x(at) - 1.4, y(want) - 2.0 + 2.9 * row), text, TINY, "end", ground=True)


def bar(found: float | None, asked: float | None, band: float | None, most: float = 1.5) -> dict[str, float] | None:
    """Shares of a margin bar from nought to ``most`` times the asked value; None where there is nothing to hold it against."""
    if found is None or not asked or not isfinite(found):
        return None
    share = found / asked
    spread_of = (band or 0.0) / asked
    return {
        "found": min(share, most) / most, "low": max(0.0, min(share - spread_of, most)) / most, "high": min(share + spread_of, most) / most,
        "asked": 1.0 / most, "over": 1.0 if share > most else 0.0,
    }  # fmt: skip


def clean(text: str) -> str:
    """Ordinary spaces for the fixed-width font."""
    return text.replace(SPACE, " ")
