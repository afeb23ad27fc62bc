"""The drawing sheet: A3 across, frame, grid references, centring marks, title block."""

from __future__ import annotations

from dataclasses import dataclass

from athwart.design.proposal import Proposal
from athwart.papers.scene import ADVANCE, Box, Pen, Point, Scene, wrapped

WIDTH, HEIGHT = 420.0, 297.0
FRAME = Box(20.0, 10.0, 410.0, 287.0)
BLOCK_WIDE, BLOCK_TALL = 180.0, 30.0
COLUMNS, ROWS = 8, 6
CAUTION = "Defer to local codes and licensed practice."
INVENTED = "Equipment from the invented catalogue: not for purchase."
RULE_SETS = {"iso small craft": "small craft, ISO", "us": "small craft, US"}


@dataclass(frozen=True, slots=True)
class Title:
    """What the title block says."""

    title: str
    number: str
    sheet: str
    boat: str
    scale: str
    date: str
    issue: str
    catalogue: str
    rule_set: str


def title_of(proposal: Proposal, title: str, paper: str, sheet: int, sheets: int, scale: str = "none") -> Title:
    """The title block of a drawing; ``paper`` is ``E`` for electrical, ``G`` for arrangement, ``N`` for the control line."""
    brief = proposal.brief
    return Title(
        title=title,
        number=f"{brief.number}-{paper}{sheet}",
        sheet=f"{sheet} of {sheets}",
        boat=brief.name,
        scale=scale,
        date=brief.date,
        issue=brief.issue,
        catalogue=proposal.catalogue.name,
        rule_set=RULE_SETS[brief.choices.rule_set],
    )


def notices(proposal: Proposal) -> tuple[str, ...]:
    """What stands on every sheet."""
    return (CAUTION, INVENTED) if proposal.catalogue.invented else (CAUTION,)


def grid_reference(at: Point) -> str:
    """The field of the frame a point lies in: ``B3``."""
    column = int((at[0] - FRAME.left) / (FRAME.right - FRAME.left) * COLUMNS)
    row = int((at[1] - FRAME.top) / (FRAME.bottom - FRAME.top) * ROWS)
    return f"{'ABCDEF'[min(max(row, 0), ROWS - 1)]}{min(max(column, 0), COLUMNS - 1) + 1}"


def sheet(pen: Pen, name: str, title: Title, description: str) -> Scene:
    """Frame and title block round what was drawn: the finished scene."""
    framed = Pen()
    _frame(framed)
    _title_block(framed, title)
    pen.elements[:0] = framed.elements
    pen.symbols.append(framed.symbols[0])
    heading = f"{title.number} {title.title}"
    return pen.scene(name, title.number, heading, description, WIDTH, HEIGHT, FRAME)


def _frame(pen: Pen) -> None:
    outer = FRAME.grown(5.0)
    pen.rectangle(FRAME, style="frame", layer="FRAME", role="frame", owner="frame")
    pen.rectangle(outer, style="help", layer="FRAME", role="frame", owner="frame")
    for column in range(COLUMNS):
        x = FRAME.left + (column + 0.5) * (FRAME.right - FRAME.left) / COLUMNS
        for y in (FRAME.top - 1.6, FRAME.bottom + 3.4):
            pen.text((x, y), str(column + 1), 2.2, "middle", owner="frame")
        if column:
            _ticks(pen, x - (FRAME.right - FRAME.left) / COLUMNS / 2, None)
    for row in range(ROWS):
        y = FRAME.top + (row + 0.5) * (FRAME.bottom - FRAME.top) / ROWS
        for x in (FRAME.left - 2.5, FRAME.right + 2.5):
            pen.text((x, y + 0.8), "ABCDEF"[row], 2.2, "middle", owner="frame")
        if row:
            _ticks(pen, None, y - (FRAME.bottom - FRAME.top) / ROWS / 2)
    for start, end in (
        ((WIDTH / 2, 0.0), (WIDTH / 2, 5.0)),
        ((WIDTH / 2, HEIGHT), (WIDTH / 2, HEIGHT - 5.0)),
        ((0.0, HEIGHT / 2), (15.0, HEIGHT / 2)),
        ((WIDTH, HEIGHT / 2), (WIDTH - 5.0, HEIGHT / 2)),
    ):
        pen.line(start, end, layer="FRAME", role="frame", owner="frame")


def _ticks(pen: Pen, x: float | None, y: float | None) -> None:
    pieces: tuple[tuple[Point, Point], ...]
    if x is not None:
        pieces = (((x, FRAME.top - 5.0), (x, FRAME.top)), ((x, FRAME.bottom), (x, FRAME.bottom + 5.0)))
    else:
        level = y or 0.0
        pieces = (((FRAME.left - 5.0, level), (FRAME.left, level)), ((FRAME.right, level), (FRAME.right + 5.0, level)))
    for start, end in pieces:
        pen.line(start, end, style="help", layer="FRAME", role="frame", owner="frame")


def _title_block(pen: Pen, title: Title) -> None:
    left, top = FRAME.right - BLOCK_WIDE, FRAME.bottom - BLOCK_TALL
    pen.symbol("title block", Box(left, top, FRAME.right, FRAME.bottom))
    pen.rectangle(Box(left, top, FRAME.right, FRAME.bottom), layer="FRAME", role="frame", owner="frame", fill="white")
    rows: tuple[tuple[float, float, tuple[tuple[str, float, str], ...]], ...] = (
        (0.0, 12.0, (("title", 106.0, title.title), ("drawing number", 50.0, title.number), ("sheet", 24.0, title.sheet))),
        (
            12.0,
            9.0,
            (("boat", 106.0, title.boat), ("scale", 25.0, title.scale), ("date", 25.0, title.date), ("issue", 24.0, title.issue)),
        ),
        (
            21.0,
            9.0,
            (
                ("catalogue", 53.0, title.catalogue),
                ("rule set", 53.0, title.rule_set),
                ("drawn by", 37.0, ""),
                ("checked by", 37.0, ""),
            ),
        ),
    )
    for down, tall, fields in rows:
        x = left
        for name, wide, value in fields:
            box = Box(x, top + down, x + wide, top + down + tall)
            pen.rectangle(box, style="help", layer="FRAME", role="frame", owner="frame")
            pen.text((x + 1.2, box.top + 2.4), name, 1.7, owner="title block")
            size = max(1.8, min(3.2 if tall > 10 else 2.5, (wide - 2.4) / (ADVANCE * max(len(value), 1))))
            lines = wrapped(value, int((wide - 2.4) / (ADVANCE * size) + 1e-6), 2) if value else ()
            for up, line in enumerate(reversed(lines)):
                foot = box.bottom - (2.0 if len(lines) == 1 else 1.3) - 2.3 * up
                pen.text((x + 1.2, foot), line, size, bold=tall > 10 and name != "sheet", owner="title block")
            x += wide


def place_columns(pen: Pen, at: Point, lines: tuple[str, ...], heading: str, width: float) -> Box:
    """The same in two columns."""
    half = -(-len(lines) // 2)
    first = place_notes(pen, at, lines[:half], heading=heading)
    place_notes(pen, (at[0] + width, at[1] + 2.9), lines[half:])
    return first


def place_notes(pen: Pen, at: Point, lines: tuple[str, ...], *, size: float = 2.0, heading: str = "") -> Box:
    """A block of plain lines under an optional heading in capitals."""
    x, y = at
    box = Box(x, y, x, y)
    for index, line in enumerate((heading, *lines) if heading else lines):
        made = pen.text((x, y + index * size * 1.45), line, size, bold=bool(heading) and index == 0)
        box = Box(x, min(box.top, made.top), max(box.right, made.right), max(box.bottom, made.bottom))
    return box
