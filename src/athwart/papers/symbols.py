"""Symbols of the diagrams, drawn by us after IEC 60617 in general terms (from memory; not checked against the standard).

Each function draws one symbol about its centre, says what area it covers and where its studs are. Switches are drawn off,
contactors at rest, stop buttons released.
"""

from __future__ import annotations

from athwart.papers.scene import Box, Pen, Point, width_of

SMALL = 1.7
LETTERING = 2.0
STEP = 2.6
"""Distance of lines of lettering of 2 mm."""
STUD_RADIUS = 0.55
HALF = 6.0
"""From the middle of a switch to its stud."""


def fuse(pen: Pen, tag: str, at: Point, *, upright: bool = False, flipped: bool = False) -> tuple[Point, Point]:
    """A rectangle with the line through it; gives back studs 1 and 2. Upright: 1 above; ``flipped``: the other way round."""
    x, y = at
    long, wide = 4.5, 1.6
    box = Box(x - wide, y - long, x + wide, y + long) if upright else Box(x - long, y - wide, x + long, y + wide)
    ends = ((x, y - long), (x, y + long)) if upright else ((x - long, y), (x + long, y))
    first, second = (ends[1], ends[0]) if flipped else ends
    pen.rectangle(box, owner=tag, fill="white")
    pen.line(*ends, owner=tag)
    pen.symbol(tag, box)
    return pen.port(tag, "1", first), pen.port(tag, "2", second)


def _studs(pen: Pen, tag: str, at: Point) -> tuple[Point, Point]:
    x, y = at
    left, right = (x - HALF, y), (x + HALF, y)
    for stud, side in ((left, 1), (right, -1)):
        pen.circle((stud[0] + side * STUD_RADIUS, y), STUD_RADIUS, owner=tag, fill="white")
    return pen.port(tag, "1", left), pen.port(tag, "2", right)


def main_switch(pen: Pen, tag: str, at: Point) -> tuple[Point, Point]:
    """Two studs and an open blade, a bar across the fixed stud: isolating."""
    x, y = at
    ends = _studs(pen, tag, at)
    pen.line((x - HALF + 2 * STUD_RADIUS, y), (x + HALF - 2.2, y - 4.6), style="power", owner=tag)
    pen.line((x + HALF - 0.55, y - 2.4), (x + HALF - 0.55, y - STUD_RADIUS), owner=tag)
    pen.line((x + HALF - 1.7, y - 2.4), (x + HALF, y - 2.4), owner=tag)
    pen.symbol(tag, Box(x - HALF, y - 5.0, x + HALF, y + 0.8))
    return ends


def contactor(pen: Pen, tag: str, at: Point) -> tuple[Point, Point]:
    """An open blade with a half circle at the fixed stud."""
    x, y = at
    ends = _studs(pen, tag, at)
    pen.line((x - HALF + 2 * STUD_RADIUS, y), (x + HALF - 3.0, y - 4.6), style="power", owner=tag)
    pen.arc((x + HALF - 2 * STUD_RADIUS - 0.9, y), 0.9, 180.0, 360.0, owner=tag)
    pen.symbol(tag, Box(x - HALF, y - 5.0, x + HALF, y + 0.8))
    return ends


def upright_switch(pen: Pen, tag: str, at: Point) -> tuple[Point, Point]:
    """A main switch in an upright wire: stud 1 below, at the source, stud 2 above."""
    x, y = at
    below, above = (x, y + 4.5), (x, y - 4.5)
    for stud, side in ((below, -1), (above, 1)):
        pen.circle((x, stud[1] + side * STUD_RADIUS), STUD_RADIUS, owner=tag, fill="white")
    pen.line((x, y + 4.5 - 2 * STUD_RADIUS), (x - 3.4, y - 2.4), style="power", owner=tag)
    pen.line((x - 1.8, y - 4.5), (x - 1.8, y - 2.8), owner=tag)
    pen.line((x - 1.8, y - 3.95), (x - STUD_RADIUS, y - 3.95), owner=tag)
    pen.symbol(tag, Box(x - 3.8, y - 4.5, x + 0.8, y + 4.5))
    return pen.port(tag, "1", below), pen.port(tag, "2", above)


def coil(pen: Pen, tag: str, at: Point, *, flipped: bool = False) -> tuple[Point, Point]:
    """The coil of a contactor in a level wire; gives back studs 1 and 2."""
    x, y = at
    box = Box(x - 3.0, y - 2.0, x + 3.0, y + 2.0)
    pen.rectangle(box, owner=tag, fill="white")
    pen.symbol(tag, box)
    side = -1 if flipped else 1
    return pen.port(tag, "1", (x - side * 3.0, y)), pen.port(tag, "2", (x + side * 3.0, y))


def stop_button(pen: Pen, tag: str, at: Point, *, breaks: bool, flipped: bool = False) -> tuple[Point, Point]:
    """A contact with a plunger: closed and pushed open where it breaks, open where it makes; gives back studs 1 and 2."""
    x, y = at
    left, right = (x - 4.5, y), (x + 4.5, y)
    for stud, side in ((left, 1), (right, -1)):
        pen.circle((stud[0] + side * STUD_RADIUS, y), STUD_RADIUS, owner=tag, fill="white")
    if breaks:
        pen.line((x + 3.4, y - STUD_RADIUS), (x + 3.4, y - 1.5), owner=tag)
        pen.line((x - 4.5 + 2 * STUD_RADIUS, y), (x + 4.4, y - 1.5), owner=tag)
        foot = y - 0.7
    else:
        pen.line((x - 4.5 + 2 * STUD_RADIUS, y), (x + 2.6, y - 2.2), owner=tag)
        foot = y - 1.1
    pen.line((x, foot), (x, y - 4.6), style="dashed", owner=tag)
    pen.line((x - 2.0, y - 3.8), (x - 2.0, y - 4.6), (x + 2.0, y - 4.6), (x + 2.0, y - 3.8), owner=tag)
    pen.symbol(tag, Box(x - 4.5, y - 4.9, x + 4.5, y + 0.8))
    first, second = (right, left) if flipped else (left, right)
    return pen.port(tag, "1", first), pen.port(tag, "2", second)


def pulse_button(pen: Pen, tag: str, at: Point, *, flipped: bool = False) -> tuple[Point, Point]:
    """A contact that makes, in an upright wire; stud 1 above, below where ``flipped``."""
    x, y = at
    above, below = (x, y - 5.5), (x, y + 5.5)
    pen.line(above, (x, y - 3.4), owner=tag)
    pen.line((x, y + 3.0), below, owner=tag)
    pen.circle((x, y - 3.4 + STUD_RADIUS), STUD_RADIUS, owner=tag, fill="white")
    pen.circle((x, y + 3.0 - STUD_RADIUS), STUD_RADIUS, owner=tag, fill="white")
    pen.line((x, y + 3.0 - 2 * STUD_RADIUS), (x - 2.0, y - 1.8), owner=tag)
    pen.line((x - 1.0, y), (x - 4.0, y), style="dashed", owner=tag)
    pen.line((x - 3.3, y - 1.8), (x - 4.0, y - 1.8), (x - 4.0, y + 1.8), (x - 3.3, y + 1.8), owner=tag)
    pen.symbol(tag, Box(x - 4.4, y - 5.5, x + 1.0, y + 5.5))
    first, second = (below, above) if flipped else (above, below)
    return pen.port(tag, "1", first), pen.port(tag, "2", second)


BLOCK_HALF = 4.4


def block(pen: Pen, tag: str, at: Point, *, protected: bool = False) -> tuple[Point, Point]:
    """Long thin and short thick strokes, plus above; a pack with its own protection switch stands in a dashed box."""
    x, y = at
    for offset, half, style in ((-2.1, 4.5, "symbol"), (-0.7, 2.4, "thick"), (0.7, 4.5, "symbol"), (2.1, 2.4, "thick")):
        pen.line((x - half, y + offset), (x + half, y + offset), style=style, owner=tag)
    top, bottom = (x, y - BLOCK_HALF), (x, y + BLOCK_HALF)
    if protected:
        pen.rectangle(Box(x - 5.1, y - BLOCK_HALF, x + 5.1, y + BLOCK_HALF), style="dashed", owner=tag)
        pen.line((x, y - 2.1), (x + 1.6, y - 3.9), style="power", owner=tag)
    else:
        pen.line(top, (x, y - 2.1), style="power", owner=tag)
    pen.line((x, y + 2.1), bottom, style="power", owner=tag)
    pen.text((x - 6.3, y - 2.3), "+", LETTERING, "middle", owner=tag)
    pen.text((x - 6.3, y + 3.7), "−", LETTERING, "middle", owner=tag)
    pen.symbol(tag, Box(x - 7.1, y - BLOCK_HALF, x + 5.1, y + BLOCK_HALF))
    return pen.port(tag, "+", top), pen.port(tag, "-", bottom)


def converter(pen: Pen, tag: str, box: Box, entering: str, leaving: str) -> None:
    """A box with a diagonal, what enters written above it on the left, what leaves below it on the right."""
    pen.rectangle(box, owner=tag, fill="white")
    pen.line((box.left, box.bottom), (box.right, box.top), owner=tag)
    pen.text((box.left + 1.2, box.top + 0.30 * (box.bottom - box.top)), entering, LETTERING, owner=tag)
    pen.text((box.right - 1.2, box.bottom - 0.22 * (box.bottom - box.top)), leaving, LETTERING, "end", owner=tag)
    pen.symbol(tag, box)


def words_box(pen: Pen, tag: str, box: Box, lines: tuple[str, ...], *, size: float = LETTERING, bold_first: bool = False) -> None:
    """A box with words in the middle; the first line is the tag where ``bold_first``."""
    pen.rectangle(box, owner=tag, fill="white")
    middle, step = (box.left + box.right) / 2, size * 1.3
    top = (box.top + box.bottom) / 2 - step * (len(lines) - 1) / 2 + 0.36 * size
    for index, line in enumerate(lines):
        named = bold_first and index == 0
        pen.text((middle, top + step * index), line, size, "middle", bold=named, tag=tag if named else "", owner=tag)
    pen.symbol(tag, box)


def generator(pen: Pen, tag: str, at: Point, letter: str = "G") -> tuple[Point, Point]:
    """A circle with its letter over a d.c. stroke; plus above, minus below."""
    x, y = at
    pen.circle(at, 4.4, owner=tag, fill="white")
    pen.text((x, y + 0.5), letter, 2.6, "middle", bold=True, owner=tag)
    pen.line((x - 1.4, y + 1.5), (x + 1.4, y + 1.5), owner=tag)
    for left in (-1.4, -0.35, 0.7):
        pen.line((x + left, y + 2.3), (x + left + 0.7, y + 2.3), owner=tag)
    pen.symbol(tag, Box(x - 4.4, y - 4.4, x + 4.4, y + 4.4))
    return pen.port(tag, "+", (x, y - 4.4)), pen.port(tag, "-", (x, y + 4.4))


def isolator(pen: Pen, tag: str, at: Point, kind: str) -> tuple[Point, Point]:
    """A box with a diode, a relay's blade or the words of the device; studs left and right."""
    x, y = at
    box = Box(x - 5.0, y - 3.0, x + 5.0, y + 3.0)
    pen.rectangle(box, owner=tag, fill="white")
    pen.symbol(tag, box)
    if kind == "diode isolator":
        pen.line((x - 5.0, y), (x + 5.0, y), owner=tag)
        pen.line((x - 1.6, y - 1.8), (x - 1.6, y + 1.8), (x + 1.6, y), closed=True, owner=tag, fill="white")
        pen.line((x + 1.6, y - 1.8), (x + 1.6, y + 1.8), owner=tag)
    elif kind == "shared bus bar":
        pen.line((x - 5.0, y), (x + 5.0, y), style="bar", owner=tag)
    else:
        pen.line((x - 5.0, y), (x - 2.4, y), (x + 1.8, y - 2.0), owner=tag)
        pen.line((x + 2.4, y), (x + 5.0, y), owner=tag)
        if kind == "combining relay":
            pen.rectangle(Box(x - 1.5, y + 1.0, x + 1.5, y + 2.4), owner=tag)
            pen.line((x, y + 1.0), (x, y - 1.1), style="dashed", owner=tag)
    return pen.port(tag, "1", (x - 5.0, y)), pen.port(tag, "2", (x + 5.0, y))


def terminator(pen: Pen, tag: str, at: Point, *, leaves_left: bool) -> Point:
    """A rectangle at the end of the line; gives back its stud."""
    x, y = at
    box = Box(x - 5.0, y - 1.7, x + 5.0, y + 1.7)
    pen.rectangle(box, owner=tag, fill="white")
    pen.symbol(tag, box)
    return pen.port(tag, "1", (x - 5.0 if leaves_left else x + 5.0, y))


def bar(pen: Pen, tag: str, left: float, right: float, y: float) -> None:
    """A thick stroke; anything that ends on it is joined."""
    pen.line((left, y), (right, y), style="bar", owner=tag)
    pen.symbol(tag, Box(left - 0.1, y - 0.8, right + 0.1, y + 0.8))
    pen.port(tag, "1", (left, y), (right, y))


def pump(pen: Pen, tag: str, at: Point) -> tuple[Point, Point]:
    """A circle with a filled triangle pointing out: it gives pressure. Out above, in below."""
    x, y = at
    pen.circle(at, 5.0, owner=tag, fill="white")
    pen.line((x - 1.7, y - 2.2), (x + 1.7, y - 2.2), (x, y - 5.0), closed=True, owner=tag, fill="black")
    pen.symbol(tag, Box(x - 5.0, y - 5.0, x + 5.0, y + 5.0))
    return pen.port(tag, "out", (x, y - 5.0)), pen.port(tag, "in", (x, y + 5.0))


UNIT_HALF, UNIT_TALL = 13.0, 34.0


def unit(pen: Pen, tag: str, top: Point, reversing: str, drive: str) -> tuple[Point, Point, Point]:
    """The dashed box of a unit with its motor and what turns it round; gives back plus (or in), minus (or out), network stud."""
    x, y = top
    box = Box(x - UNIT_HALF, y, x + UNIT_HALF, y + UNIT_TALL)
    pen.rectangle(box, style="dashed", owner=tag)
    pen.symbol(tag, box)
    inside = {"contactors": _reversing_contactors, "valve": _valve}.get(reversing, _drive)
    inside(pen, tag, x, y, drive)
    names = ("in", "out") if reversing == "valve" else ("+", "-")
    plus, minus = pen.port(tag, names[0], (x, y)), pen.port(tag, names[1], (x, y + UNIT_TALL))
    return plus, minus, pen.port(tag, "net", (x + UNIT_HALF, y + UNIT_TALL / 2))


def _motor(pen: Pen, tag: str, x: float, y: float, below: str) -> None:
    pen.circle((x, y), 4.6, owner=tag)
    pen.text((x, y + 0.5), "M", 2.8, "middle", bold=True, owner=tag)
    if below == "dc":
        pen.line((x - 1.4, y + 1.5), (x + 1.4, y + 1.5), owner=tag)
        for left in (-1.4, -0.35, 0.7):
            pen.line((x + left, y + 2.3), (x + left + 0.7, y + 2.3), owner=tag)
    else:
        pen.text((x, y + 3.2), below, SMALL, "middle", owner=tag)


def _reversing_contactors(pen: Pen, tag: str, x: float, y: float, drive: str) -> None:
    """Two change-over contacts at rest on minus; pulling one in puts its side of the motor on plus."""
    head, foot, motor = y + 3.4, y + 30.6, y + 22.5
    pen.line((x, y), (x, head), owner=tag, style="power")
    pen.line((x - 10.0, head), (x + 10.0, head), owner=tag)
    pen.line((x - 10.0, foot), (x + 10.0, foot), owner=tag)
    pen.line((x, foot), (x, y + UNIT_TALL), owner=tag, style="power")
    for side in (-1, 1):
        far, near = x + side * 10.0, x + side * 6.6
        pen.line((far, head), (far, head + 2.2), owner=tag)
        pen.circle((far, head + 2.2 + STUD_RADIUS), STUD_RADIUS, owner=tag)
        pen.circle((far, head + 9.4), STUD_RADIUS, owner=tag)
        pen.line((far, head + 9.4 + STUD_RADIUS), (far, foot), owner=tag)
        pen.line((near, motor), (near, head + 6.0), (far - side * 0.4, head + 9.0), owner=tag)
        pen.line((near, motor), (x + side * 4.6, motor), owner=tag)
    pen.text((x, head + 5.0), "port", SMALL, "middle", owner=tag)
    pen.text((x, head + 8.0), "stbd", SMALL, "middle", owner=tag)
    _motor(pen, tag, x, motor, "dc")


def _drive(pen: Pen, tag: str, x: float, y: float, drive: str) -> None:
    """A drive: a box with a diagonal, direct current in, what the motor takes out."""
    box = Box(x - 8.5, y + 4.0, x + 8.5, y + 14.0)
    brushless = drive == "brushless"
    pen.line((x, y), (x, box.top), owner=tag, style="power")
    pen.rectangle(box, owner=tag)
    pen.line((box.left, box.bottom), (box.right, box.top), owner=tag)
    pen.text((box.left + 1.0, box.top + 3.0), "d.c.", SMALL, owner=tag)
    pen.text((box.right - 1.0, box.bottom - 1.3), "a.c." if brushless else "d.c.", SMALL, "end", owner=tag)
    motor = y + 22.5
    for left in (-2.2, 0.0, 2.2) if brushless else (-2.2, 2.2):
        pen.line((x + left, box.bottom), (x + left, motor - (4.6 if left == 0 else 4.04)), owner=tag)
    pen.line(
        (box.right, y + 9.0),
        (x + 11.0, y + 9.0),
        (x + 11.0, y + 30.6),
        (x, y + 30.6),
        (x, y + UNIT_TALL),
        owner=tag,
        style="power",
    )
    _motor(pen, tag, x, motor, "3~" if brushless else "dc")


def _valve(pen: Pen, tag: str, x: float, y: float, drive: str) -> None:
    """A three-position valve over a hydraulic motor that turns both ways."""
    top, bottom = y + 5.0, y + 10.0
    for left in (-7.5, -2.5, 2.5):
        pen.rectangle(Box(x + left, top, x + left + 5.0, bottom), owner=tag)
    pen.line((x - 6.2, bottom), (x - 6.2, top), owner=tag)
    pen.line((x - 3.8, top), (x - 3.8, bottom), owner=tag)
    pen.line((x + 3.8, bottom), (x + 6.2, top), owner=tag)
    pen.line((x + 6.2, bottom), (x + 3.8, top), owner=tag)
    pen.line((x, y), (x, top), owner=tag)
    pen.line((x - 1.2, bottom), (x - 1.2, y + 15.0), (x - 6.6, y + 15.0), (x - 6.6, y + 22.5), (x - 4.6, y + 22.5), owner=tag)
    pen.line((x + 1.2, bottom), (x + 1.2, y + 15.0), (x + 6.6, y + 15.0), (x + 6.6, y + 22.5), (x + 4.6, y + 22.5), owner=tag)
    pen.circle((x, y + 22.5), 4.6, owner=tag)
    for side in (-1, 1):
        pen.line((x + side * 1.6, y + 21.1), (x + side * 1.6, y + 23.9), (x + side * 4.5, y + 22.5), closed=True, owner=tag)
    pen.line((x + 7.5, y + 7.5), (x + 10.6, y + 7.5), (x + 10.6, y + 30.6), (x, y + 30.6), (x, y + UNIT_TALL), owner=tag)


def label(pen: Pen, at: Point, lines: tuple[str, ...], tag: str, *, anchor: str = "start", size: float = LETTERING) -> Box:
    """Lines of lettering from the base line of the first down; the first is the tag, in bold."""
    x, y = at
    for index, line in enumerate(lines):
        side = "middle" if anchor == "middle" else "end" if anchor == "end" else "start"
        pen.text((x, y + index * size * 1.3), line, size, side, bold=index == 0, tag=tag if index == 0 else "")  # type: ignore[arg-type]
    wide = max(width_of(line, size) for line in lines)
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    return Box(left, y - 0.76 * size, left + wide, y + size * 1.3 * (len(lines) - 1) + 0.24 * size)
