"""Sections along the boat at each tunnel: cover under the lightest trimmed waterline, axis depth, hull below, with the rule."""

from __future__ import annotations

from dataclasses import dataclass, field

from athwart.design.proposal import Lane, Proposal
from athwart.papers.scene import Pen
from athwart.papers.sheet import FRAME, notices, place_notes
from athwart.papers.symbols import LETTERING
from athwart.thruster import immersion as law

LEFT, TOP = FRAME.left + 6.0, FRAME.top + 6.0
SCALES = (10, 20, 50, 100)
CELL_WIDE, CELL_TALL = 189.0, 116.0
TALL, TALL_ALONE, WIDE = 92.0, 190.0, 30.0
A_SHEET = 4
OVERHANG = 7.0
ROW = 4.4
TUNNEL_LENGTH = (2.0, 4.0)
END_RADIUS = 0.1


Reach = tuple[float, float]


@dataclass(slots=True)
class Cut:
    """A sheet of sections."""

    pen: Pen = field(default_factory=Pen)
    names: list[str] = field(default_factory=list)
    scales: list[int] = field(default_factory=list)

    @property
    def scale_words(self) -> str:
        """For the title block."""
        return f"1 : {self.scales[0]}" if len(set(self.scales)) == 1 else "as said"


def sections(proposal: Proposal) -> list[Cut]:
    """Sheets of up to four sections; none where no unit turns in a tunnel of known diameter."""
    lanes = [lane for lane in proposal.lanes if lane.unit.tunnel_diameter]
    cuts: list[Cut] = []
    for index, lane in enumerate(lanes):
        if index % A_SHEET == 0:
            cuts.append(Cut())
        cut, place = cuts[-1], index % A_SHEET
        left = LEFT + CELL_WIDE * (place % 2)
        top = TOP + 4.0 + CELL_TALL * (place // 2)
        cut.names.append(lane.thruster.identity)
        alone = len(lanes) - index // A_SHEET * A_SHEET <= 2
        cut.scales.append(_section(cut.pen, lane, left, top, TALL_ALONE if alone else TALL))
    for cut in cuts:
        words = (
            "Dash-dot: loaded waterline. Dashed: lightest waterline with the trim of the new parts; cover is judged there.",
            "Millimetres. Cutting a hull below the waterline: shored, surveyed, with the yard's structural approval.",
            *notices(proposal),
        )
        place_notes(cut.pen, (LEFT, FRAME.bottom - 16.0), tuple(words))
    return cuts


def _section(pen: Pen, lane: Lane, left: float, top: float, tall: float) -> int:
    """One section with its dimensions and table; gives back its scale."""
    tunnel, diameter = lane.thruster.tunnel, lane.unit.tunnel_diameter or 0.0
    below = tunnel.hull_below_axis if tunnel.hull_below_axis is not None else diameter
    drop = tunnel.axis_depth - diameter / 2 - lane.cover
    high, deep = (
        max(0.0, -drop, diameter / 2 - tunnel.axis_depth),
        max(tunnel.axis_depth + below, tunnel.axis_depth + diameter / 2, drop),
    )
    scale = next(
        (scale for scale in SCALES if (high + deep) * 1000.0 / scale <= tall and diameter * 1000.0 / scale <= WIDE), SCALES[-1]
    )
    mm = 1000.0 / scale
    pen.text((left, top), f"M{lane.lane}.1 {lane.thruster.identity.upper()}  1 : {scale}", 2.8, bold=True)
    water = top + 10.0 + high * mm
    axis = water + tunnel.axis_depth * mm
    radius, light, keel = diameter / 2 * mm, water + drop * mm, axis + below * mm
    x = left + radius + 20.0
    _picture(pen, x, water, light, axis, radius, keel, tunnel.hull_below_axis is not None)
    _uprights(pen, lane, x, water, light, axis, radius, keel)
    _table(pen, lane, left + 92.0, top + 10.0)
    return scale


def _picture(pen: Pen, x: float, water: float, light: float, axis: float, radius: float, keel: float, known: bool) -> None:
    start, end = x - radius - OVERHANG, x + radius + OVERHANG
    pen.line((start, water), (end, water), style="waterline", layer="DIM", role="picture")
    if abs(light - water) > 0.2:
        pen.line((start, light), (end, light), style="dashed", layer="DIM", role="picture")
    pen.circle((x, axis), radius, style="hull", role="picture")
    pen.line((x - radius - 3.0, axis), (x + radius + 3.0, axis), style="help", role="picture")
    pen.line((x, axis - radius - 3.0), (x, axis + radius + 3.0), style="help", role="picture")
    pen.line((start, keel), (end, keel), style="hull" if known else "dashed", role="picture")


def _uprights(pen: Pen, lane: Lane, x: float, water: float, light: float, axis: float, radius: float, keel: float) -> None:
    """Upright dimensions: at the left diameter, at the right cover, then axis depth and hull below."""
    tunnel, diameter = lane.thruster.tunnel, lane.unit.tunnel_diameter or 0.0
    roof, sole = axis - radius, axis + radius
    left = x - radius - 10.0
    _upright(pen, left, (roof, x), (sole, x), f"D {diameter * 1e3:.0f}", to_left=True)
    near = x + radius + 8.0
    edge = x + radius + OVERHANG
    _upright(pen, near, (light, edge), (roof, x), f"cover {lane.cover * 1e3:.0f}")
    if tunnel.hull_below_axis is not None:
        _upright(pen, near, (sole, x), (keel, edge), f"below {(tunnel.hull_below_axis - diameter / 2) * 1e3:.0f}")
    far = near + 22.0
    _upright(pen, far, (water, edge), (axis, x + radius + 3.0), f"axis {tunnel.axis_depth * 1e3:.0f}")


def _upright(pen: Pen, x: float, start: Reach, end: Reach, words: str, *, to_left: bool = False) -> None:
    """An upright dimension between two levels, each with where its help line comes from; arrows from outside where it is short."""
    (top, from_top), (bottom, from_bottom) = sorted((start, end))
    side = -1.0 if to_left else 1.0
    for y, origin in ((top, from_top), (bottom, from_bottom)):
        pen.line((origin, y), (x + side * 1.2, y), style="help", layer="DIM", role="picture")
    long = bottom - top > 6.0
    pen.line(
        (x, top - (0.0 if long else 4.0)), (x, bottom + (0.0 if long else 4.0)), style="dimension", layer="DIM", role="dimension"
    )
    for tip, way in ((top, 1.0), (bottom, -1.0)):
        away = way if long else -way
        pen.line(
            (x, tip),
            (x - 0.4, tip + away * 2.2),
            (x + 0.4, tip + away * 2.2),
            closed=True,
            fill="black",
            style="help",
            layer="DIM",
            role="dimension",
        )
    pen.text((x + side * 1.6, (top + bottom) / 2 + 0.8), words, LETTERING, "end" if to_left else "start")


def _table(pen: Pen, lane: Lane, left: float, top: float) -> None:
    """There, wanted, rule."""
    columns = ((0.0, "start"), (46.0, "end"), (64.0, "end"), (67.0, "start"))
    rows = _rows(lane)
    for number, row in enumerate((("IMMERSION", "there", "wanted", "rule"), *rows)):
        y = top + 3.0 + ROW * number
        for (offset, anchor), word in zip(columns, row, strict=True):
            pen.text((left + offset, y), word, LETTERING, "end" if anchor == "end" else "start", bold=number == 0)
        if number in (0, len(rows)):
            pen.line((left, y + 1.5), (left + 93.0, y + 1.5), style="help", role="picture")


def _rows(lane: Lane) -> list[tuple[str, str, str, str]]:
    tunnel, diameter = lane.thruster.tunnel, lane.unit.tunnel_diameter or 0.0

    def of_diameter(share: float) -> str:
        return f"{share * diameter * 1e3:.0f} mm"

    def given(value: float | None) -> str:
        return "not given" if value is None else f"{value * 1e3:.0f} mm"

    grade = law.cover_grade(lane.cover_ratio)
    below = None if tunnel.hull_below_axis is None else tunnel.hull_below_axis - diameter / 2
    least, more = TUNNEL_LENGTH
    return [
        ("cover, lightest", f"{lane.cover * 1e3:.0f} mm", of_diameter(law.COVER_NOTE), "below 1 D: note"),
        ("", f"{lane.cover_ratio:.2f} D", of_diameter(law.COVER_CAUTION), "below 0.75 D: caution"),
        ("", f"{grade}", of_diameter(law.COVER_STOP), "below 0.5 D: stop"),
        ("axis below loaded WL", given(tunnel.axis_depth), "–", "–"),
        ("hull below tunnel", given(below), of_diameter(law.HULL_BELOW), "0.1 D"),
        ("tunnel length", given(tunnel.tunnel_length), f"{least:g} to {more:g} D", "–"),
        ("rounding of ends", "cone" if tunnel.entry_cone else given(tunnel.entry_radius), of_diameter(END_RADIUS), "0.1 D"),
        ("thrust left at this depth", f"{lane.immersion_factor * 100:.0f} %", "–", "–"),
    ]
