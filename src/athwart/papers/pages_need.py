"""Need, unit and place: what the wind asks, which unit answers and why not the others, where it sits and how deep."""

from __future__ import annotations

from collections import defaultdict
from math import degrees, sqrt

from athwart.design.places import body_x, from_transom
from athwart.design.proposal import Case, Lane, Rejection
from athwart.design.requirements import need as requirements
from athwart.papers import blocks as b
from athwart.papers import figures as f
from athwart.papers.charts import Chart, polar
from athwart.papers.context import Context
from athwart.papers.steps import CUTTING
from athwart.thruster import immersion as law
from athwart.units import KNOT

NEAREST, LISTED = 8, 16
"""Units not taken that get a line each, of each kind; and row names listed for each rule."""
TOGETHER = 12
"""Rows of a table that is not parted over two pages."""
READ = {"on deck": "on deck", "masthead": "at the masthead", "forecast 10 m": "forecast at 10 m"}
END_RADIUS = 0.1
"""Rounding of a tunnel's ends over its diameter."""
TUNNEL_LENGTH = (2.0, 4.0)


def need_page(c: Context) -> b.Block:
    """Inputs with their origin, the cases, the formula with its numbers, the polar picture."""
    n, w, boat = c.proposal.need, c.brief.wind, c.brief.boat
    gust = f"{w.is_}, factor {w.gust_factor:g}" if w.gust_factor is not None and w.is_ == "mean" else w.is_
    inputs: list[list[b.Cell]] = [
        ["length over all", f.metres(boat.length_overall, 2), _origin(c, "boat.length_overall")],
        ["windage, side view", f"{f.number(n.lateral_area, 1)} m²", _origin(c, "boat.windage")],
        ["windage, from ahead", f"{f.number(n.frontal_area, 1)} m²", _origin(c, "boat.windage")],
        ["centroid forward of midships", f.metres(n.centroid_x, 2), b.italic("derived")],
        ["centroid above the waterline", f.metres(n.centroid_height, 2), b.italic("derived")],
        ["wind asked, read " + READ[w.read_at], f.knots(w.speed), _origin(c, "wind.speed")],
        ["mean or gust", gust, _origin(c, "wind.is")],
        ["wind on the silhouette, gust in it", f.knots(n.design_speed), b.italic("derived")],
        ["effective pressure", f"{f.number(n.pressure, 1)} Pa", b.italic("derived")],
        ["longest run at full thrust", f.duration(n.run_time), _origin(c, "duty.longest_hold")],
        ["full thrust in one docking", f.duration(n.energy_share), b.italic("derived")],
    ]
    for thruster in c.brief.thrusters:
        index = c.brief.thrusters.index(thruster)
        inputs.append(
            [
                f"{thruster.identity}, forward of the transom",
                f.metres(from_transom(c.brief, thruster.tunnel.x), 2),
                _origin(c, f"thrusters[{index}].tunnel.x"),
            ]
        )
    columns: list[b.Column] = [("input", "l", "1fr"), ("value", "r", "auto"), ("from", "l", "auto")]
    lanes = [lane for lane in c.proposal.lanes if lane.design is not None]
    pictures = [_polar(c, lane, 76.0 if len(lanes) == 1 else 64.0) for lane in lanes]
    first = b.table(columns, inputs, size=8.0, inset=2.4)
    blocks: list[b.Block] = [b.pair([first], pictures) if len(pictures) == 1 else first, b.section("Cases"), _cases(c)]
    blocks += _formulas(c)
    blocks.append(
        b.text(
            f"Wind model: {n.model}. The beam figure is what the trade quotes; the worst heading rules here, because a bow blown off the wind is seldom met square.",
            small=True,
        )
    )
    if lanes:
        blocks += [b.section("Wind held against its direction"), _polar_words(c, lanes)]
    others = pictures if len(pictures) > 1 else []
    for index in range(0, len(others), 2):
        blocks.append(b.pair(others[index : index + 1], others[index + 1 : index + 2]))
    return b.page("Need", blocks)


def _origin(c: Context, path: str) -> b.Cell:
    return b.italic(c.origin(path))


def _cases(c: Context) -> b.Block:
    rows: list[list[b.Cell]] = []
    for case in c.proposal.need.cases:
        lane = next((entry for entry in c.proposal.lanes if entry.thruster.identity == case.identity), None)
        rules = case == c.proposal.need.ruling(case.identity)
        state = (lane.both_design or lane.design) if lane is not None else None
        held = f.knots(c.brief.wind.speed * sqrt(state.thrust / case.worst)) if state is not None and case.worst > 0 else f.DASH
        rows.append(
            [
                case.identity, _case_words(case, c), f.newtons(case.side_force_beam), f.metres(case.lever, 2), f.newtons(case.beam),
                f"{f.newtons(case.worst)} ± {f.number(case.worst * case.sigma, -1)}", f"{degrees(case.worst_heading):.0f}°", held, "rules" if rules else "",
            ]
        )  # fmt: skip
    columns: list[b.Column] = [
        ("unit", "l", "auto"), ("case", "l", "1fr"), ("side force, beam", "r", "auto"), ("lever", "r", "auto"), ("thrust, beam", "r", "auto"),
        ("thrust, worst", "r", "auto"), ("heading", "r", "auto"), ("wind held", "r", "auto"), ("", "l", "auto"),
    ]  # fmt: skip
    return b.table(columns, rows, size=8.0)


def _case_words(case: Case, c: Context) -> str:
    role = c.brief.thruster(case.identity).role
    return "on station, bow and stern units" if case.case == "C" else f"{'stern' if role == 'bow' else 'bow'} made fast"


def _formulas(c: Context) -> list[b.Block]:
    """The balance of moments with its numbers, for the ruling case of each unit."""
    found = requirements.loads(c.brief, c.proposal.need.rise)
    half = c.brief.boat.length_overall / 2
    blocks: list[b.Block] = [
        b.section("Balance at the worst heading"),
        b.text(
            "Moments about the end made fast, or about the other unit: thrust times its lever is side force times its lever. Places are "
            "counted forward of midships: F the side force with its place, T the unit with its place, 0 the end made fast or the other unit."
        ),
    ]
    for thruster in c.brief.thrusters:
        case = c.proposal.need.ruling(thruster.identity)
        load = found.model(case.worst_heading)
        place = body_x(c.brief, thruster.tunnel.x)
        others = [body_x(c.brief, t.tunnel.x) for t in c.brief.thrusters if t.role != thruster.role]
        other = sum(others) / len(others) if case.case == "C" and others else -half if thruster.role == "bow" else half
        count = sum(t.role == thruster.role for t in c.brief.thrusters)
        side = abs(load.side)
        right = f"= {f.newtons(case.worst)}"
        over = f"{f.newtons(side)} × ({f.number(load.place, 2)} − ({f.number(other, 2)}))"
        under = f"{f.number(place, 2)} − ({f.number(other, 2)})" + (f", shared by {count}" if count > 1 else "")
        blocks.append(b.balance(thruster.identity, over, under, right))
    return blocks


def _held(c: Context, lane: Lane) -> tuple[list[tuple[float, float]], float]:
    case = c.proposal.need.ruling(lane.thruster.identity)
    state = lane.both_design or lane.design
    assert state is not None
    asked = c.brief.wind.speed / KNOT
    held = [(angle, asked * sqrt(state.thrust / need) if need > 1e-6 else 1e3) for angle, need in case.headings]
    return held, 0.5 * sqrt(case.sigma**2 + state.thrust_sigma**2)


def _polar(c: Context, lane: Lane, width: float) -> b.Block:
    asked = c.brief.wind.speed / KNOT
    held, sigma = _held(c, lane)
    most = 40.0 if asked <= 25 else 10.0 * (int(asked / 10) + 2)
    chart = polar(held, sigma, asked, most)
    case = c.proposal.need.ruling(lane.thruster.identity)
    caption = f"{lane.thruster.identity}: wind held, knots {READ[c.brief.wind.read_at]}, design state. Grey: band. Dashed: {asked:.0f} kn asked. Beyond the outer ring more than {most:.0f} kn is held."
    alt = f"Polar picture of the wind the {lane.thruster.identity} unit holds against its direction: least {f.knots(lane.wind_held_worst)} at {degrees(case.worst_heading):.0f} degrees off the bow."
    return b.figure(chart.svg(), caption, alt, width=width)


def _polar_words(c: Context, lanes: list[Lane]) -> b.Block:
    """The picture's figures: a row a unit, a column an angle."""
    angles = range(0, 181, 15)
    rows: list[list[b.Cell]] = []
    for lane in lanes:
        held, _ = _held(c, lane)
        by_angle = {round(degrees(angle)): speed for angle, speed in held}
        cells = [by_angle.get(angle) for angle in angles]
        rows.append(
            [
                f"{lane.thruster.identity}, kn",
                *[f.DASH if speed is None else f.number(speed, 1) if speed < 80 else "> 80" for speed in cells],
            ]
        )
    columns: list[b.Column] = [("off the bow", "l", "1fr"), *[(f"{angle}°", "r", "auto") for angle in angles]]
    return b.table(columns, rows, size=8.0, inset=2.6)


# ---- unit


def unit_page(c: Context) -> b.Block:
    """The unit taken, its figures, and every unit refused with the rule that refused it."""
    blocks: list[b.Block] = [_taken(c)]
    for lane in c.proposal.lanes:
        for reason in lane.replaced:
            blocks.append(b.text(f"{lane.thruster.identity}: {reason}."))
        if lane.not_computed:
            blocks.append(b.text(f"{lane.thruster.identity}: {lane.not_computed}"))
    if c.proposal.mode == "check" or not c.proposal.rejections:
        blocks.append(
            b.text(
                "Nothing was chosen: what is aboard was examined as it is."
                if c.proposal.mode == "check"
                else "No other unit was looked at."
            )
        )
        return b.page("Unit taken", blocks)
    for lane in c.proposal.lanes:
        mine = [r for r in c.proposal.rejections if r.identity == lane.thruster.identity]
        if mine:
            blocks += _rejections(c, lane, mine)
    return b.page("Unit taken, and why not the others", blocks)


def _taken(c: Context) -> b.Block:
    lanes = c.proposal.lanes
    rows: list[list[b.Cell]] = []

    def row(name: str, values: list[str]) -> None:
        rows.append([name, *values])

    units = [lane.unit for lane in lanes]
    row("catalogue row", [u.id for u in units])
    row("name", [u.name for u in units])
    row("drive, housing, control", [f"{u.drive}, {u.housing}, {u.control}" for u in units])
    row(
        "catalogue thrust",
        [
            f"{f.newtons(u.thrust)} {u.thrust_basis}"
            + (f" at {f.volts(u.rated_volts, 1)}, {f.amps(u.rated_current)}" if u.rated_volts else "")
            for u in units
        ],
    )
    row("rated run", [f"{f.duration(u.rated_time)}, then {u.at_limit}" if u.rated_time else u.at_limit for u in units])
    row(
        "thrust in the design state",
        [
            f"{f.newtons(n.design.thrust)} ± {f.number(n.design.thrust * n.design.thrust_sigma, -1)}"
            if n.design
            else "not computed yet"
            for n in lanes
        ],
    )
    row(
        "over the need at the worst heading",
        [
            f.number(n.design.thrust / need.worst, 2)
            if n.design and (need := c.proposal.need.ruling(n.thruster.identity)).worst
            else f.DASH
            for n in lanes
        ],
    )
    row("chance of holding", [f.percent(n.chance) for n in lanes])
    row(
        "run at full, at half thrust",
        [
            f"{f.duration(n.run_time_full)}, {f.duration(n.run_time_half)}; {n.run_time_limit} first"
            if n.run_time_full is not None
            else "not computed yet"
            for n in lanes
        ],
    )
    row("tunnel, mass", [f"{f.millimetres(u.tunnel_diameter)}, {f.kilograms(u.mass)}" for u in units])
    row(
        "noise",
        [
            f"{f.with_unit(u.noise, 'dBA')}, {u.noise_place or 'place not stated'}" if u.noise is not None else "unknown"
            for u in units
        ],
    )
    row("ignition protected", ["yes" if u.ignition_protected else "no" for u in units])
    row("in this proposal", [{"chosen": "new", "aboard": "aboard, kept", "fixed": "fixed by the brief"}[n.kept] for n in lanes])
    columns: list[b.Column] = [("", "l", "auto"), *[(lane.thruster.identity, "l", "1fr") for lane in lanes]]
    return b.table(columns, rows, size=8.5 if len(lanes) < 3 else 7.2)


def _rejections(c: Context, lane: Lane, found: list[Rejection]) -> list[b.Block]:
    """The nearest ones each, the others by rule."""
    passing = [r for r in found if r.rule.startswith("passes")]
    refused = sorted(
        (r for r in found if not r.rule.startswith("passes")),
        key=lambda r: (-(r.margin if r.margin is not None else -9.0), r.row),
    )
    near = [*passing[:NEAREST], *[r for r in refused if r.margin is not None][:NEAREST]]
    rest = [r for r in refused if r not in near] + [r for r in passing if r not in near]
    columns: list[b.Column] = [
        ("unit not taken", "l", "1fr"),
        ("row", "l", "auto"),
        ("rule", "l", "auto"),
        ("figure", "r", "auto"),
        ("limit", "r", "auto"),
    ]
    blocks: list[b.Block] = (
        []
        if not near
        else [
            b.section(f"Nearest to being taken, {lane.thruster.identity}"),
            b.table(columns, [[r.name, b.tag(r.row), _rule(r), r.figure, r.limit] for r in near], size=7.5, inset=2.0),
        ]
    )
    groups: dict[str, list[Rejection]] = defaultdict(list)
    for r in rest:
        groups[r.rule].append(r)
    if groups:
        rows: list[list[b.Cell]] = []
        for rule, members in sorted(groups.items(), key=lambda entry: (-len(entry[1]), entry[0])):
            more = f", and {len(members) - LISTED} more, in the JSON" if len(members) > LISTED else ""
            rows.append([rule, str(len(members)), b.tag(", ".join(r.row for r in members[:LISTED]) + more)])
        if passing:
            blocks.append(b.text(f"Preferred: {c.brief.choices.prefer}.", small=True))
        blocks += [
            b.section(f"All others, {lane.thruster.identity}"),
            b.table(
                [("rule that refused them", "l", "38mm"), ("count", "r", "auto"), ("rows", "l", "1fr")],
                rows,
                size=7.0,
                inset=2.0,
                whole=len(rows) <= TOGETHER,
            ),
        ]
    return blocks


def _rule(r: Rejection) -> str:
    return "passes, not preferred" if r.rule.startswith("passes") else r.rule


# ---- place


def place_pages(c: Context) -> list[b.Block]:
    """A page a tunnel: cover, the rule, the tunnel sheet, a section to scale; weight and trim on the last."""
    title = "Place, immersion and tunnel"
    lanes = [lane for lane in c.proposal.lanes if lane.unit.tunnel_diameter and lane.unit.housing != "external"]
    others = [
        b.text(
            f"{n.thruster.identity}: {n.unit.housing} housing, fixed by its maker's instruction; bolts and holes below the waterline sealed, surveyed."
        )
        for n in c.proposal.lanes
        if n not in lanes
    ]
    if not lanes:
        return [b.page(title, [*others, *_trim(c)])]
    pages = []
    for lane in lanes:
        last = [*others, *_trim(c)] if lane is lanes[-1] else []
        pages.append(b.page(title if len(lanes) == 1 else f"{title}, {lane.thruster.identity}", [*_tunnel(c, lane), *last]))
    return pages


def _tunnel(c: Context, lane: Lane) -> list[b.Block]:
    t, diameter = lane.thruster.tunnel, lane.unit.tunnel_diameter or 0.0
    ratio, grade = lane.cover_ratio, law.cover_grade(lane.cover_ratio)
    rules: list[list[b.Cell]] = []
    for least, word in ((law.COVER_STOP, "stop"), (law.COVER_CAUTION, "caution"), (law.COVER_NOTE, "note")):
        rules.append([f"below {least:g} D = {f.millimetres(least * diameter)}", b.mark(word), "here" if grade == word else ""])
    rules.append(
        [f"from {law.COVER_NOTE:g} D = {f.millimetres(law.COVER_NOTE * diameter)}", "good", "here" if grade == "good" else ""]
    )
    below = t.hull_below_axis
    there: list[list[b.Cell]] = [
        ["cover over the roof, lightest trim", f"{f.millimetres(lane.cover)} = {f.number(ratio, 2)} D", "see the rule"],
        ["axis below the loaded waterline", f.millimetres(t.axis_depth), f.DASH],
        [
            "hull below the tunnel",
            f.millimetres(below - diameter / 2) if below is not None else "not given",
            f"≥ {f.millimetres(law.HULL_BELOW * diameter)} (0.1 D)",
        ],
        [
            "tunnel length",
            f"{f.millimetres(t.tunnel_length)} = {f.number(t.tunnel_length / diameter, 1)} D" if t.tunnel_length else "not given",
            f"{TUNNEL_LENGTH[0]:g} to {TUNNEL_LENGTH[1]:g} D",
        ],
        [
            "rounding of the ends",
            "cone" if t.entry_cone else f.millimetres(t.entry_radius) if t.entry_radius is not None else "not given",
            f"≥ {f.millimetres(END_RADIUS * diameter)} (0.1 D)",
        ],
        ["thrust left at this depth", f.percent(lane.immersion_factor), f.DASH],
        ["thrust left by ends, length and grids", f.percent(lane.tunnel_share), f.DASH],
        ["grid", "fitted" if t.grid else "none", "none: grids clog and cost thrust"],
    ]
    scale = 20 if t.axis_depth + (below or diameter) < 1.5 else 50
    chart = section_at_tunnel(c, lane, scale)
    caption = f"Section along the boat at {lane.thruster.identity}, 1 : {scale}. D = {f.millimetres(diameter)}. Lightest waterline with the trim of the new parts."
    alt = f"Section at the tunnel: axis {f.millimetres(t.axis_depth)} below the loaded waterline, {f.millimetres(lane.cover)} of water over the roof at the lightest trim."
    left = [
        b.table([("immersion", "l", "1fr"), ("here", "r", "auto"), ("wanted", "r", "auto")], there, size=8.0, inset=2.3),
        b.space(1),
        b.table([("cover rule, lightest trim", "l", "1fr"), ("", "l", "auto"), ("", "r", "14mm")], rules, size=8.0, inset=2.1),
    ]
    right = [b.figure(chart.svg(), caption, alt, width=min(chart.width, 66.0))]
    sheet = b.table(
        [("item", "l", "34mm"), ("wanted", "l", "1fr"), ("done, by", "l", "24mm")], _sheet_rows(c, lane), size=8.0, inset=2.6
    )
    return [
        b.section(f"Immersion, M{lane.lane}.1"),
        b.pair(left, right, share=(1.0, 0.72)),
        b.section("Tunnel sheet"),
        b.caution("STOP", CUTTING),
        sheet,
    ]


def _sheet_rows(c: Context, lane: Lane) -> list[list[b.Cell]]:
    boat, t, diameter = c.brief.boat, lane.thruster.tunnel, lane.unit.tunnel_diameter or 0.0
    shell = boat.shell_thickness
    wall: float | None = None
    if shell is None:
        words = "shell thickness not in the brief: wall by the yard"
    elif boat.hull_material == "wood":
        words = "plastic tube laid up to the yard's own judgement; no rule is known here"
    else:
        wall = law.tunnel_wall(shell, boat.hull_material)
        words = f"≥ {f.with_unit(wall * 1e3, 'mm', 1)}, {boat.hull_material} beside a shell of {f.with_unit(shell * 1e3, 'mm', 1)} (class rule; guidance for a yacht)"
    outside = diameter + 2 * wall if wall is not None else None
    joints = {
        "grp": "shell ground back 100 to 150 mm, taped inside and out to the full laminate, core cut back and sealed, gap filled, not forced",
        "steel": "full penetration weld both sides, plating beside the tunnel half as thick again or doubled, coated after testing",
        "aluminium": "full penetration weld both sides by a certified welder, insert plate beside the tunnel, no bare steel against it",
        "wood": "plastic tube, bonded and taped inside and out on dry, sealed grain",
    }
    if lane.unit.housing == "retractable":
        return _well_rows(c, lane, joints[boat.hull_material])
    frames = (
        "own watertight compartment, as the brief says"
        if t.compartment_watertight
        else "between two deep floors carried above the waterline, or in a watertight compartment: to be shown by the yard; bilge alarm there"
    )
    return [
        ["tunnel, inside", f"{f.millimetres(diameter)}, axis square to the centreline, level when afloat", b.WRITE],
        ["wall", words, b.WRITE],
        ["frame or compartment", frames, b.WRITE],
        [
            "cut-out",
            f"ellipse round a tube of {f.millimetres(outside) if outside else 'its outer diameter'}, scribed from both sides off the axis; 3 to 5 mm of gap",
            b.WRITE,
        ],
        ["ends", f"rounded, radius {f.millimetres(END_RADIUS * diameter)} or more; back edge not seen from ahead", b.WRITE],
        ["joint to the hull", joints[boat.hull_material], b.WRITE],
        [
            "leak test",
            "tube and joint wetted from outside or held under slight vacuum, dry inside for an hour; again after launching",
            b.WRITE,
        ],
        ["antifoul, anode", "antifoul inside the tunnel, anode left bare", b.WRITE],
    ]


def _well_rows(c: Context, lane: Lane, joint: str) -> list[list[b.Cell]]:
    """The sheet of a retractable unit: its box instead of a tunnel."""
    t, unit = lane.thruster.tunnel, lane.unit
    above = (
        f.millimetres(t.height_above_waterline_for_box) if t.height_above_waterline_for_box is not None else "not in the brief"
    )
    return [
        [
            "box",
            f"{f.millimetres(unit.box_length)} long, {f.millimetres(unit.box_height)} high; top above the loaded waterline: {above}",
            b.WRITE,
        ],
        ["cut-out", "after the maker's template, scribed from inside and outside; a second person checks", b.WRITE],
        ["joint to the hull", joint, b.WRITE],
        ["frame", "stringers cut are replaced round the box; floors led past it, shown by the yard", b.WRITE],
        ["watertight", "box closed to the boat up to above the loaded waterline; drain and vent led outside", b.WRITE],
        [
            "leak test",
            "box filled from outside to the waterline or held under slight vacuum, dry for an hour; again after launching",
            b.WRITE,
        ],
        ["gate", "flush when raised, free of the hull by the maker's gap, cycled twenty times", b.WRITE],
        [
            "interlocks",
            f"raises only when stopped; lowered to {f.with_unit((unit.speed_lowered_most or 0.0) / KNOT, 'kn', 1) if unit.speed_lowered_most else 'the maker’s speed'} at most; pin at sea",
            b.WRITE,
        ],
        [
            "raised by hand",
            "tools and way shown to the owner"
            if unit.manual_raise
            else "not provided by the maker: docking plan said to the owner",
            b.WRITE,
        ],
    ]


def section_at_tunnel(c: Context, lane: Lane, scale: int) -> Chart:
    """Water, tunnel and keel line, seen across the tunnel, to scale."""
    t, diameter = lane.thruster.tunnel, lane.unit.tunnel_diameter or 0.1
    mm = 1000.0 / scale
    below = t.hull_below_axis if t.hull_below_axis is not None else diameter
    drop = max(0.0, t.axis_depth - diameter / 2 - lane.cover)
    chart = Chart(66.0, 8.0 + (t.axis_depth + below) * mm + 6.0)
    surface, x = 7.0, 24.0
    axis = surface + t.axis_depth * mm
    keel = axis + below * mm
    chart.line([(2, surface), (62, surface)], "dash-dot", 0.25)
    chart.text((62, surface - 0.8), "loaded waterline", 2.0, "end")
    light = surface + drop * mm
    if drop * mm > 0.3:
        chart.line([(2, light), (62, light)], "dashed", 0.25)
        chart.text((62, light + 2.6), "lightest, trimmed", 2.0, "end")
    chart.line([(2, keel), (44, keel)], "full", 0.5)
    chart.text((62, keel + 0.6), "keel line", 2.0, "end")
    chart.circle((x, axis), diameter / 2 * mm, "full", 0.5)
    chart.line([(x - diameter * mm * 0.75, axis), (x + diameter * mm * 0.75, axis)], "dash-dot", 0.13)
    chart.line([(x, axis - diameter * mm * 0.75), (x, axis + diameter * mm * 0.75)], "dash-dot", 0.13)
    roof = axis - diameter / 2 * mm
    if lane.cover >= 0.0:  # a roof out of the water has no cover to draw
        _dimension(chart, 40.0, light, roof, f"{lane.cover * 1e3:.0f} cover", below=roof - light < 7.0)
    _dimension(chart, 9.0, surface, axis, f"{t.axis_depth * 1e3:.0f}", left=True)
    _dimension(chart, 9.0, axis, keel, f"{below * 1e3:.0f}", left=True)
    chart.line([(x, roof), (41.0, roof)], "full", 0.13)
    chart.line([(8.0, axis), (x - diameter * mm * 0.75, axis)], "full", 0.13)
    return chart


def _dimension(chart: Chart, x: float, top: float, bottom: float, words: str, *, left: bool = False, below: bool = False) -> None:
    """An upright dimension line with filled arrow heads; outside where it is short."""
    chart.line([(x, top), (x, bottom)], "full", 0.18)
    size = min(1.4, (bottom - top) / 2.2)
    if size > 0.3:
        for at, way in ((top, 1), (bottom, -1)):
            chart.parts.append(
                f'<polygon points="{x},{at:.2f} {x - size / 4:.2f},{at + way * size:.2f} {x + size / 4:.2f},{at + way * size:.2f}" fill="#000"/>'
            )
    middle = max(bottom, top) + 2.6 if below else (top + bottom) / 2 + 0.7
    chart.text((x - 0.8, middle), words, 2.0, "end") if left else chart.text((x + 0.8, middle), words, 2.0)


def _trim(c: Context) -> list[b.Block]:
    t = c.proposal.trim
    rows: list[list[b.Cell]] = [
        ["mass of new parts", f.kilograms(t.mass)],
        ["moment about the centre of flotation", f.with_unit(t.moment, "kg m")],
        ["buoyancy lost in the tunnels", f.kilograms(t.lost_buoyancy)],
        ["sinkage", f.millimetres(t.sinkage)],
        ["trim over the waterline, bow down positive", f.millimetres(t.trim)],
        ["waterline at the bow, at the stern: up the hull by", f"{f.millimetres(t.bow_change)}, {f.millimetres(t.stern_change)}"],
    ]
    return [b.section("Weight and trim"), b.table([("quantity", "l", "1fr"), ("value", "r", "auto")], rows, size=8.0, inset=2.2)]
