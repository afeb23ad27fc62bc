"""Side elevation to scale with windage, waterlines, units, banks, routes and helms, and a section at each tunnel.

Bow to the right. Everything aboard is named outside the hull: a row of labels above, each with a line to its place, in the
order of the places, so that no two lines cross. The sections are on a second sheet, where the scale lets cover be measured.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees

from athwart.design.brief import Brief, Place
from athwart.design.places import from_transom
from athwart.design.proposal import Lane, Proposal
from athwart.design.requirements.need import loads
from athwart.errors import NotComputed
from athwart.papers.elevation_sections import sections
from athwart.papers.scene import Box, Pen, Point, Scene, width_of, wrapped
from athwart.papers.sheet import FRAME, notices, place_notes, sheet, title_of
from athwart.papers.symbols import LETTERING, STEP

LEFT, RIGHT, TOP = FRAME.left + 6.0, FRAME.right - 6.0, FRAME.top + 6.0
SCALES = (25, 50, 100, 200)
MOST_LONG, MOST_HIGH = 322.0, 96.0
LABEL_TOP, LEADER = 25.0, 14.0
"""First base line of the labels, and how far below the last one the hull may begin."""
LABEL_CHARACTERS, LABEL_GAP, TAG_LINES = 17, 2.0, 5
DIMENSION_STEP = 5.6
ARROW, OUTSIDE = 2.2, 5.0
SHOWN_DROP = 0.010
"""The trimmed waterline is drawn where it lies more than this from the loaded one anywhere, m."""


@dataclass(frozen=True, slots=True)
class View:
    """From metres forward of the transom and above the waterline to the sheet."""

    scale: int
    origin: float  # where the transom's zero is on the sheet
    water: float  # where the waterline is
    high: float  # taller things are cut off here, metres above the water
    top: float  # nothing of the boat stands higher on the sheet

    @property
    def mm(self) -> float:
        """Millimetres on paper for a metre."""
        return 1000.0 / self.scale

    def at(self, x: float, height: float) -> Point:
        """A place on the sheet."""
        return round(self.origin + x * self.mm, 3), round(self.water - height * self.mm, 3)


@dataclass(frozen=True, slots=True)
class Note:
    """A label with the point it speaks of."""

    lines: tuple[str, ...]
    point: Point

    @property
    def width(self) -> float:
        """On paper."""
        return max(width_of(line, LETTERING) for line in self.lines)


def elevation(proposal: Proposal) -> tuple[Scene, ...]:
    """The elevation and the sections at the tunnels."""
    cuts = sections(proposal)
    sheets = 1 + len(cuts)
    pen, scale = _draw(proposal)
    block = title_of(proposal, "Side elevation, windage and routes", "G", 1, sheets, f"1 : {scale}")
    words = f"Side elevation of {proposal.brief.name} at 1 to {scale}: {_sentence(proposal)}"
    made = [sheet(pen, "elevation-1", block, words)]
    for number, cut in enumerate(cuts, start=2):
        block = title_of(proposal, "Sections at the tunnels, immersion", "G", number, sheets, cut.scale_words)
        words = f"Sections along the boat at {', '.join(cut.names)} with cover, axis depth and hull below."
        made.append(sheet(cut.pen, f"sections-{number}", block, words))
    return tuple(made)


def _sentence(proposal: Proposal) -> str:
    boat, need = proposal.brief.boat, proposal.need
    units = ", ".join(lane.thruster.identity for lane in proposal.lanes)
    return (
        f"{boat.length_overall:.2f} m long, windage {need.lateral_area:.1f} m² with its centre {need.centroid_height:.2f} m above "
        f"the water; units {units}, banks, helms and cable routes."
    )


# ---- shapes


def _silhouette(brief: Brief) -> list[tuple[str, list[Point]]]:
    """Drawn elements as corners (forward of the transom, above the waterline)."""
    made = []
    for element in brief.boat.windage:
        if element.box is not None:
            box = element.box
            corners = [(box.start, box.bottom), (box.end, box.bottom), (box.end, box.top), (box.start, box.top)]
        elif element.outline is not None:
            corners = list(element.outline)
        else:
            continue
        made.append((element.name, [(from_transom(brief, x), height) for x, height in corners]))
    return made


def _cut(corners: list[Point], top: float) -> list[Point]:
    """What of a shape lies below a height."""
    kept: list[Point] = []
    for (x, y), (u, v) in zip(corners, corners[1:] + corners[:1], strict=True):
        if y <= top:
            kept.append((x, y))
        if (y - top) * (v - top) < 0:
            kept.append((x + (u - x) * (top - y) / (v - y), top))
    return kept


def _view(brief: Brief, shapes: list[tuple[str, list[Point]]], label_lines: int) -> View:
    """The largest scale that lets the boat fit; what is too tall for the sheet is cut off."""
    ends = [x for _, corners in shapes for x, _ in corners]
    ends += [0.0, brief.boat.length_overall, *(from_transom(brief, thruster.tunnel.x) for thruster in brief.thrusters)]
    first, last = min(ends), max(ends)
    scale = next((scale for scale in SCALES if (last - first) * 1000.0 / scale <= MOST_LONG), SCALES[-1])
    mm = 1000.0 / scale
    tops = [y for _, corners in shapes for _, y in corners]
    top = LABEL_TOP + STEP * (label_lines - 1) + LEADER
    below = _depth(brief) * mm + 8.0 + (len(brief.thrusters) + 1) * DIMENSION_STEP + 26.0
    room = min(MOST_HIGH, max(24.0, FRAME.bottom - 30.0 - top - below))
    high = min(max([*tops, 0.5]), room / mm)
    origin = (LEFT + RIGHT) / 2 - (first + last) / 2 * mm
    return View(scale, origin, top + high * mm, high, top)


def _depth(brief: Brief) -> float:
    """How far anything drawn reaches below the water, metres."""
    tunnels = (thruster.tunnel.axis_depth + 0.3 for thruster in brief.thrusters)
    return max([brief.boat.draught, *(deep for _, deep in brief.boat.underwater), *tunnels])


# ---- the sheet


def _draw(proposal: Proposal) -> tuple[Pen, int]:
    brief, pen = proposal.brief, Pen()
    shapes = _silhouette(brief)
    words = {place.name: _words_of_place(proposal, place) for place in brief.layout.places}
    lines = max([5, *(len(found) for found in words.values())])
    view = _view(brief, shapes, lines)
    pen.text((LEFT, TOP + 2.0), f"SIDE ELEVATION  1 : {view.scale}", 3.0, bold=True)
    _draw_silhouette(pen, view, shapes)
    _draw_underwater(pen, view, brief)
    _draw_waterlines(pen, view, proposal)
    notes = [*_draw_units(pen, view, proposal), *_draw_places(pen, view, proposal, words), *_draw_centres(pen, view, proposal)]
    _draw_routes(pen, view, proposal)
    left_over = _draw_labels(pen, view, notes, lines)
    foot = _draw_dimensions(pen, view, brief)
    _draw_scale_bar(pen, view, foot + 7.0)
    cut = [name for name, corners in shapes if max(y for _, y in corners) > view.high + 1e-6]
    _draw_words(pen, proposal, left_over, cut, foot + 16.0)
    return pen, view.scale


def _draw_silhouette(pen: Pen, view: View, shapes: list[tuple[str, list[Point]]]) -> None:
    for _, corners in shapes:
        points = [view.at(x, y) for x, y in _cut(corners, view.high)]
        if len(points) > 2:
            pen.line(*points, style="hull", layer="SYMBOL", role="picture", closed=True, fill="grey")
        if max(y for _, y in corners) > view.high + 1e-6:
            _break_mark(pen, [view.at(x, y) for x, y in _cut(corners, view.high) if abs(y - view.high) < 1e-6])


def _break_mark(pen: Pen, ends: list[Point]) -> None:
    """A short zigzag where something taller is cut off."""
    if len(ends) < 2:
        return
    left, right = min(x for x, _ in ends), max(x for x, _ in ends)
    y, middle = ends[0][1], (left + right) / 2
    pen.line(
        (left - 1.5, y - 1.0),
        (middle - 0.5, y - 1.0),
        (middle, y - 2.0),
        (middle + 0.5, y),
        (right + 1.5, y - 1.0),
        style="help",
        role="picture",
    )


def _draw_underwater(pen: Pen, view: View, brief: Brief) -> None:
    """The underwater profile; dashed at the draught where the brief has none."""
    profile = [(from_transom(brief, x), depth) for x, depth in brief.boat.underwater]
    if profile:
        points = [view.at(profile[0][0], 0.0)] if profile[0][1] > 0 else []
        points += [view.at(x, -depth) for x, depth in profile]
        points += [view.at(profile[-1][0], 0.0)] if profile[-1][1] > 0 else []
        pen.line(*points, style="hull", role="picture")
        return
    long = brief.boat.length_waterline
    foot = brief.boat.draught
    points = [view.at(x, -depth) for x, depth in ((0.0, 0.0), (0.05 * long, foot), (0.8 * long, foot), (long, 0.0))]
    pen.line(*points, style="dashed", role="picture")


def _draw_waterlines(pen: Pen, view: View, proposal: Proposal) -> None:
    """Loaded, and the lightest with the trim of the new parts where it can be told apart."""
    boat = proposal.brief.boat
    start = view.at(0.0, 0.0)
    pen.line((LEFT, start[1]), (RIGHT, start[1]), style="waterline", layer="DIM", role="help")
    pen.text((LEFT, start[1] - 1.2), "loaded WL", LETTERING)
    aft, forward = lightest(proposal)
    if max(abs(aft), abs(forward)) <= SHOWN_DROP:
        return
    low = view.at(0.0, -aft), view.at(boat.length_overall, -forward)
    pen.line((low[0][0] - 3.0, low[0][1]), (low[1][0] + 3.0, low[1][1]), style="dashed", layer="DIM", role="picture")
    pen.text((LEFT, start[1] + 3.4), "lightest, trimmed", LETTERING)
    pen.text((LEFT, start[1] + 3.4 + STEP), f"{_drop(aft)} aft", LETTERING)
    pen.text((LEFT, start[1] + 3.4 + 2 * STEP), f"{_drop(forward)} fwd", LETTERING)


def _drop(metres: float) -> str:
    return f"{abs(metres) * 1e3:.0f} mm {'lower' if metres >= 0 else 'higher'}"


def lightest(proposal: Proposal) -> tuple[float, float]:
    """How far the lightest trimmed waterline lies below the loaded one, aft and forward, in metres."""
    boat = proposal.brief.boat
    lower = boat.lightest.waterline_lower if boat.lightest is not None else 0.0
    return lower - proposal.trim.stern_change, lower - proposal.trim.bow_change


def _draw_units(pen: Pen, view: View, proposal: Proposal) -> list[Note]:
    """A quartered circle at each tunnel's axis."""
    notes = []
    for lane in proposal.lanes:
        tunnel = lane.thruster.tunnel
        x, y = view.at(from_transom(proposal.brief, tunnel.x), -tunnel.axis_depth)
        radius = max((lane.unit.tunnel_diameter or 0.2) / 2 * view.mm, 0.8)
        pen.circle((x, y), radius, role="picture", fill="white")
        pen.line((x - radius - 1.0, y), (x + radius + 1.0, y), style="help", role="picture")
        pen.line((x, y - radius - 1.0), (x, y + radius + 1.0), style="help", role="picture")
        notes.append(Note(_unit_words(lane), (x, y)))
    return notes


def _unit_words(lane: Lane) -> tuple[str, ...]:
    tag = f"M{lane.lane}.1 {lane.thruster.identity}"
    lines = [*wrapped(tag, LABEL_CHARACTERS, 2), f"{lane.unit.thrust:.0f} N"]
    if lane.unit.tunnel_diameter:
        lines.append(f"D {lane.unit.tunnel_diameter * 1e3:.0f} {lane.unit.housing}"[:LABEL_CHARACTERS])
    if lane.cable is not None:
        lines.append(f"run {lane.cable.plus:.1f} m")
    return tuple(lines)


def _draw_places(pen: Pen, view: View, proposal: Proposal, words: dict[str, tuple[str, ...]]) -> list[Note]:
    """Banks as boxes to size, helms and other places as points; what stands at each is in its label."""
    notes = []
    for place in proposal.brief.layout.places:
        if not words[place.name]:
            continue
        x, y = view.at(from_transom(proposal.brief, place.x), min(place.height, view.high))
        for bank in proposal.banks:
            if bank.place == place.name:
                long, tall = bank.block.length * bank.series * view.mm, bank.block.height * bank.parallel * view.mm
                box = Box(x - long / 2, max(y - tall, view.top), x + long / 2, y)
                pen.rectangle(box, role="picture", fill="white")
                for index in range(1, bank.series):
                    pen.line(
                        (box.left + long * index / bank.series, box.top),
                        (box.left + long * index / bank.series, box.bottom),
                        role="picture",
                    )
        notes.append(Note(words[place.name], (x, y)))
    return notes


def _words_of_place(proposal: Proposal, place: Place) -> tuple[str, ...]:
    """The place and the tags of what stands there, a bank's blocks as one; nothing for a place with no parts."""
    tags: list[str] = []
    for component in proposal.netlist.components:
        if component.place != place.name or component.kind in ("unit", "stop coil", "bar"):
            continue
        if component.kind == "block":
            bank = f"G{component.lane}"
            count = sum(entry.kind == "block" and entry.lane == component.lane for entry in proposal.netlist.components)
            word = f"{bank}.1…{count}" if count > 1 else f"{bank}.1"
            if word not in tags:
                tags.append(word)
        else:
            tags.append(component.tag)
    if not tags:
        return ()
    return (*wrapped(place.name, LABEL_CHARACTERS, 2), *wrapped(" ".join(tags), LABEL_CHARACTERS, TAG_LINES))


def _draw_centres(pen: Pen, view: View, proposal: Proposal) -> list[Note]:
    """Centroid of the windage, and where the side force acts at the worst heading."""
    need, brief = proposal.need, proposal.brief
    half = brief.boat.length_overall / 2
    x, y = view.at(need.centroid_x + half, min(need.centroid_height, view.high))
    pen.circle((x, y), 1.8, role="picture", fill="white")
    pen.line((x - 2.6, y), (x + 2.6, y), role="picture")
    pen.line((x, y - 2.6), (x, y + 2.6), role="picture")
    notes = [Note(("windage centroid", f"{need.lateral_area:.1f} m²", f"{need.centroid_height:.2f} m up"), (x, y))]
    ruling = max(need.cases, key=lambda case: case.worst, default=None)
    if ruling is None:
        return notes
    try:
        place = loads(brief, need.rise).model(ruling.worst_heading).place
    except NotComputed:
        return notes
    u, v = view.at(place + half, min(need.centroid_height, view.high))
    pen.line((u - 1.8, v - 1.8), (u + 1.8, v + 1.8), role="picture")
    pen.line((u - 1.8, v + 1.8), (u + 1.8, v - 1.8), role="picture")
    heading = abs(degrees(ruling.worst_heading))
    return [*notes, Note(("wind pressure", f"at {heading:.0f}° off bow", f"for {ruling.identity}"[:LABEL_CHARACTERS]), (u, v))]


def _draw_routes(pen: Pen, view: View, proposal: Proposal) -> None:
    """Power routes from bank to unit and from the ship's battery to each bank, level and upright."""
    brief = proposal.brief
    for lane in proposal.lanes:
        bank = proposal.bank(lane.bank)
        start = brief.place(bank.place) if bank is not None else None
        if start is None:
            continue
        x, y = view.at(from_transom(brief, start.x), min(start.height, view.high))
        end = view.at(from_transom(brief, lane.thruster.tunnel.x), -lane.thruster.tunnel.axis_depth)
        pen.line((x, y), (end[0], y), end, style="power", layer="POS", role="picture")
    battery = next((entry for entry in brief.supply.batteries if entry.place and brief.place(entry.place)), None)
    source = brief.place(battery.place) if battery is not None and battery.place else None
    for choice in proposal.charging:
        bank = proposal.bank(choice.bank)
        end_place = brief.place(bank.place) if bank is not None else None
        if source is None or end_place is None or choice.charger is None or source == end_place or choice.kind == "shore":
            continue
        x, y = view.at(from_transom(brief, source.x), min(source.height, view.high))
        u, v = view.at(from_transom(brief, end_place.x), min(end_place.height, view.high))
        pen.line((x, y), (x, y + 1.2), (u, y + 1.2), (u, v), style="control", layer="CONTROL", role="picture")


# ---- labels, dimensions, words


def _draw_labels(pen: Pen, view: View, notes: list[Note], lines: int) -> list[Note]:
    """Labels in a row above the hull, in the order of their points; gives back those that find no room there."""
    ordered = sorted(notes, key=lambda note: (note.point[0], -note.point[1], note.lines))
    left_over: list[Note] = []
    while ordered and sum(note.width + LABEL_GAP for note in ordered) > RIGHT - LEFT:
        victim = next((note for note in reversed(ordered) if not note.lines[0].startswith("M")), ordered[-1])
        ordered.remove(victim)
        left_over.append(victim)
    lefts = _spread([(note.point[0] - note.width / 2, note.width + LABEL_GAP) for note in ordered])
    foot = LABEL_TOP + STEP * (lines - 1) + 1.4
    turns = _turns([note.point[0] for note in ordered])
    for note, left, turn in zip(ordered, lefts, turns, strict=True):
        first = LABEL_TOP + STEP * (lines - len(note.lines))
        for index, line in enumerate(note.lines):
            pen.text((left, first + STEP * index), line, LETTERING, bold=index == 0)
        x, y = note.point
        pen.line(
            (left + min(note.width / 2, 8.0), foot),
            (turn, view.top - 3.0),
            (turn, y),
            (x, y),
            style="help",
            layer="DIM",
            role="help",
        )
        pen.circle((x, y), 0.5, role="picture", fill="black")
    return left_over


def _spread(wanted: list[tuple[float, float]]) -> list[float]:
    """Left edges as near to those wanted as their widths allow, kept in order between the margins."""
    lefts: list[float] = []
    at = LEFT
    for left, width in wanted:
        lefts.append(max(left, at))
        at = lefts[-1] + width
    at = RIGHT
    for index in range(len(lefts) - 1, -1, -1):
        lefts[index] = min(lefts[index], at - wanted[index][1])
        at = lefts[index]
    return lefts


def _turns(places: list[float]) -> list[float]:
    """Where each line comes down: over its point, a little aside where two points lie over one another."""
    made: list[float] = []
    for x in places:
        made.append(max(x, made[-1] + 0.8) if made else x)
    return made


def _draw_dimensions(pen: Pen, view: View, brief: Brief) -> float:
    """From the zero of x to each unit and the length over all, one below the other; gives back where they end."""
    y = view.water + _depth(brief) * view.mm + 8.0
    zero = view.at(from_transom(brief, 0.0), 0.0)[0]
    words_so_far: list[Box] = []
    for thruster in sorted(brief.thrusters, key=lambda entry: (abs(entry.tunnel.x), entry.identity)):
        x, axis = view.at(from_transom(brief, thruster.tunnel.x), -thruster.tunnel.axis_depth)
        foot = ((x, axis + 4.0), (x, y - 1.0))
        if not any(box.grown(0.3).cut_by(*foot) for box in words_so_far):
            pen.line(*foot, style="help", layer="DIM", role="dimension")
        words_so_far.append(_dimension(pen, zero, x, y, f"{thruster.identity} x {thruster.tunnel.x:.2f}"))
        y += DIMENSION_STEP
    _dimension(
        pen,
        view.at(0.0, 0.0)[0],
        view.at(brief.boat.length_overall, 0.0)[0],
        y,
        f"length over all {brief.boat.length_overall:.2f}",
    )
    return y


def _dimension(pen: Pen, start: float, end: float, y: float, words: str) -> Box:
    """A level dimension with filled arrow heads; its words beside it where it is too short for them."""
    left, right = sorted((start, end))
    for x in (left, right):
        pen.line((x, y - 1.0), (x, y + 1.2), style="help", layer="DIM", role="dimension")
    inside = right - left > 2 * ARROW + 1.0
    if inside:
        pen.line((left, y), (right, y), style="dimension", layer="DIM", role="dimension")
        for tip, side in ((left, 1.0), (right, -1.0)):
            head = ((tip, y), (tip + side * ARROW, y - 0.4), (tip + side * ARROW, y + 0.4))
            pen.line(*head, closed=True, fill="black", style="help", layer="DIM", role="dimension")
    else:
        for tip, side in ((left, -1.0), (right, 1.0)):
            head = ((tip, y), (tip + side * ARROW, y - 0.4), (tip + side * ARROW, y + 0.4))
            pen.line(*head, closed=True, fill="black", style="help", layer="DIM", role="dimension")
            pen.line((tip, y), (tip + side * OUTSIDE, y), style="dimension", layer="DIM", role="dimension")
    if inside and width_of(words, LETTERING) + 2.0 < right - left:
        return pen.text(((left + right) / 2, y - 0.9), words, LETTERING, "middle")
    away = 1.5 + (0.0 if inside else OUTSIDE)
    if right + away + width_of(words, LETTERING) < RIGHT:
        return pen.text((right + away, y + 0.7), words, LETTERING)
    return pen.text((left - away, y + 0.7), words, LETTERING, "end")


def _draw_scale_bar(pen: Pen, view: View, y: float) -> None:
    """For copies: metres in alternating fields."""
    metres = 5 if view.scale >= 50 else 2
    step = view.mm if view.scale < 200 else 5 * view.mm
    metres = metres if view.scale < 200 else 4
    for index in range(metres):
        left = LEFT + 6.0 + index * step
        pen.rectangle(
            Box(left, y, left + step, y + 1.6), layer="DIM", role="picture", fill="black" if index % 2 == 0 else "white"
        )
    for index in (0, metres):
        pen.text((LEFT + 6.0 + index * step, y - 0.9), f"{index * (5 if view.scale >= 200 else 1)} m", LETTERING, "middle")


def _draw_words(pen: Pen, proposal: Proposal, left_over: list[Note], cut: list[str], top: float) -> None:
    """The wind, the frame of reference, what is not drawn, the usual notices."""
    brief, need = proposal.brief, proposal.need
    lines = [
        f"x counts forward from the {brief.boat.x_from}." if brief.boat.x_from == "transom" else "x counts aft from the bow."
    ]
    lines.append("Quartered circle: tunnel axis, windage centroid. Plain cross: where the side force acts.")
    for lane in proposal.lanes:
        cases = [case for case in need.cases if case.identity == lane.thruster.identity]
        if cases:
            case = need.ruling(lane.thruster.identity)
            band = f"{round(case.worst, -1):.0f} N ± {round(case.sigma * case.worst, -1):.0f}"
            lines.append(
                f"M{lane.lane}.1 {lane.thruster.identity}: {band} needed at {abs(degrees(case.worst_heading)):.0f}° off the bow, {round(case.beam, -1):.0f} N on the beam."
            )
    trim = proposal.trim
    lines.append(f"New parts {trim.mass:.0f} kg: bow {_sinks(trim.bow_change)}, stern {_sinks(trim.stern_change)}.")
    areas = [entry for entry in brief.boat.windage if entry.area is not None]
    if areas:
        lines.append("By area only, not drawn: " + ", ".join(f"{entry.name} {entry.area:.1f} m²" for entry in areas) + ".")
    if not brief.boat.underwater:
        lines.append("Underwater profile not in the brief: dashed at the draught.")
    if cut:
        lines.append(f"Cut off above: {', '.join(cut)}.")
    for note in left_over:
        lines.append(f"{note.lines[0]}: {' '.join(note.lines[1:])}.")
    lines += notices(proposal)
    folded = [part for line in lines for part in wrapped(line, 88, 4)]
    room = int((FRAME.bottom - 4.0 - top) / 2.9) - 1
    place_notes(pen, (LEFT, top), tuple(folded[:room]), heading="WIND AND WEIGHT")
    if len(folded) > room:
        place_notes(pen, (LEFT + 114.0, top + 2.9), tuple(folded[room : 2 * room]))


def _sinks(metres: float) -> str:
    return f"{abs(metres) * 1e3:.0f} mm {'deeper' if metres >= 0 else 'higher'}"
