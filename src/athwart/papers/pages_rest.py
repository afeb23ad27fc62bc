"""Control line, parts, steps, commissioning, drills, maintenance, file entries, sources, and the owner's sheet."""

from __future__ import annotations

import platform
from importlib.metadata import PackageNotFoundError, version
from typing import Any

from athwart import __version__
from athwart.explain import FORMULAS
from athwart.network.bus import profile
from athwart.papers import blocks as b
from athwart.papers import figures as f
from athwart.papers import steps as words
from athwart.papers.bill import Line, kept, totals
from athwart.papers.context import Context
from athwart.power.battery_data import chemistry
from athwart.power.contact import JOINTS
from athwart.power.rules import RULE_SETS
from athwart.sources import register
from athwart.trial.predicted import GROUPS, Reading, Sheet

#: formulas whose figures stand in every dossier with an electric lane; their sources are listed
PRINTED = (
    "vessel.wind.dynamic_pressure",
    "vessel.balance.thrust_about_pivot",
    "vessel.uncertainty.need_sigma",
    "vessel.uncertainty.thrust_sigma",
    "vessel.uncertainty.hold_probability",
    "vessel.hydrostatics.trim",
    "vessel.hydrostatics.sinkage",
    "vessel.hydrostatics.lost_buoyancy",
    "thruster.immersion.cover_ratio",
    "thruster.immersion.immersion_factor",
)
PRINTED_ELECTRIC = (
    "design.search.running.thrust_delivered",
    "design.search.cabling.duty_current",
    "power.conductor.route_resistance",
    "power.battery.rest_volts",
    "power.battery.resistance_at_temperature",
    "power.battery.resistance_at_charge",
    "power.fault.prospective_current",
    "power.heating.adiabatic_constant",
    "power.heating.adiabatic_time",
    "power.charger.step_up_input",
    "power.charger.refill_time",
    "power.ventilation.gas_current",
    "power.ventilation.air_flow",
    "power.ventilation.charging_power",
)
SEEN_WORDS = {
    "read": "read",
    "excerpt": "excerpt read",
    "memory": "from memory, unverified",
    "practice": "common practice, no source",
    "own": "our own arithmetic",
    "judgement": "our judgement, editable",
}
LIBRARIES = ("typst", "ezdxf", "XlsxWriter", "pydantic", "ruamel.yaml")


# ---- control line


def network_page(c: Context) -> b.Block:
    """Figures, limits of the profile, instance plan, what changes."""
    n = c.proposal.network
    if n is None:
        return b.page("Control line", [b.text("No control line in this proposal.")])
    rules = profile(n.profile, n.bit_rate)
    rows: list[list[b.Cell]] = [
        ["trunk", f.metres(n.trunk_length), f.metres(rules.trunk.value)],
        ["longest drop", f.metres(max((s.drop for s in _stops(c)), default=0.0)), f.metres(rules.drop.value)],
        ["drops together", f.metres(n.drops_total), f.metres(rules.drops.value)],
        ["nodes", f.number(len(n.stops)), f.number(rules.nodes.value)],
        ["terminators", f"{len(n.terminators)}: {' and '.join(n.terminators)}", "2, at the two ends"],
        ["ohms between the lines, power off", f.with_unit(n.resistance_power_off, "Ω", 1), "54 to 66 Ω"],
        ["supply current", f.amps(n.load), f"fuse {f.amps(n.feed_fuse)}"],
        ["shift between negatives under thrust", f.volts(n.common_mode_shift), "warn at 1 V, ≤ 3.5 V"],
        ["fed from", f"{n.feed}, at {n.feed_at}" + (f", by {n.converter_row}" if n.converter_row else ""), "one feed"],
    ]
    if n.mid_tap_share is not None:
        rows.append(["taken from the mid tap in a day", f.percent(n.mid_tap_share, 1), "≤ 2 %, with an equaliser"])
    blocks: list[b.Block] = [
        b.text(
            f"Profile {n.profile}, {f.with_unit(n.bit_rate / 1e3, 'kbit/s')}, cable {n.cable_row}. Trunk, drops and terminators: drawing {c.number}-N1."
        ),
        b.table([("figure", "l", "1fr"), ("here", "l", "auto"), ("limit of the profile", "l", "auto")], rows, size=8.0),
        b.section("Stops and instance plan"),
        _stops_table(c),
        b.section("What changes when a unit joins"),
    ]
    changes = list(n.changes)
    if changes:
        blocks.append(
            b.table(
                [("no.", "r", "auto"), ("change", "l", "1fr"), ("done", "l", "auto")],
                [[str(k), f"{change[0].upper()}{change[1:]}.", b.TICK] for k, change in enumerate(changes, 1)],
                size=8.0,
            )
        )
    else:
        blocks.append(b.text(_when_one_joins(c)))
    return b.page("Control line", blocks)


def _stops(c: Context) -> tuple[Any, ...]:
    return c.proposal.network.stops if c.proposal.network is not None else ()


def _when_one_joins(c: Context) -> str:
    """The plan for a unit that is not there yet."""
    n = c.proposal.network
    assert n is not None
    last = n.terminators[-1] if n.terminators else "the end"
    roles = {thruster.role for thruster in c.brief.thrusters}
    other = "stern" if "bow" in roles and "stern" not in roles else "further"
    used = sorted({s.instance for s in n.stops if s.instance is not None})
    free = next(k for k in range(253) if k not in used)
    return (
        f"A {other} unit later: the trunk is led on from where it ends nearest to it, the terminator there ({last} at the other end stays) moves to the new end, "
        f"so that there are two again; the unit takes instance {free}; its bank's minus gets its own link to X0.2; the sum of drops and the supply current are reckoned anew."
    )


def _stops_table(c: Context) -> b.Block:
    rows: list[list[b.Cell]] = []
    tees = {x.name: x.tag for x in c.proposal.netlist.components if x.kind in ("tee", "feed")}
    for s in _stops(c):
        end = "terminator" if c.proposal.network is not None and s.name in c.proposal.network.terminators else ""
        rows.append(
            [
                b.tag(tees.get(s.name, f.DASH)), b.tag(s.tag or f.DASH), s.name + (", new" if s.is_new else ""), f.number(s.at, 1), f.number(s.drop, 1), f.number(s.current * 1e3),
                f.number(s.volts_rest, 2), f.number(s.volts_sag, 2), f.number(s.instance) if s.instance is not None else "set aboard", end, b.TICK,
            ]
        )  # fmt: skip
    columns: list[b.Column] = [
        ("tee", "l", "auto"), ("tag", "l", "auto"), ("stop", "l", "1fr"), ("at, m", "r", "auto"), ("drop, m", "r", "auto"), ("mA", "r", "auto"),
        ("V at rest", "r", "auto"), ("V lowest", "r", "auto"), ("instance", "r", "auto"), ("end", "l", "auto"), ("set", "l", "auto"),
    ]  # fmt: skip
    return b.table(columns, rows, size=7.5)


# ---- parts and steps


def parts_page(c: Context) -> b.Block:
    """Bill of materials."""
    money = c.brief.choices.currency
    head = f"price, {money}" if money else "price"
    rows: list[list[b.Cell]] = [_part(line) for line in c.bill]
    mass, price, open_lines = totals(c.bill)
    rows.append(["", "", b.bold("together"), "", "", f.number(mass, 1), f.number(price), "", ""])
    columns: list[b.Column] = [
        ("no.", "r", "auto"), ("quantity", "r", "auto"), ("part", "l", "1.25fr"), ("row", "l", "auto"), ("tags", "l", "0.8fr"), ("mass, kg", "r", "auto"),
        (head, "r", "auto"), ("spare", "r", "auto"), ("got", "l", "auto"),
    ]  # fmt: skip
    notes = f"Cable with {f.percent(c.brief.choices.cable_waste)} waste. Lugs counted from the ends of the conductors by stud."
    if open_lines:
        notes += f" {open_lines} lines have no catalogue row: no mass, no price."
    if any("usual size" in line.note for line in c.bill):
        notes += " A stud marked * is the usual one of its kind: hold it against the part."
    blocks: list[b.Block] = [b.text(notes, small=True), b.table(columns, rows, size=7.0, inset=1.75)]
    return b.page("Bill of materials", blocks, paper=f"{c.number}-P1")


def _part(line: Line) -> list[b.Cell]:
    quantity = f"{f.number(line.quantity, 1 if line.unit == 'm' else 0)}{f.SPACE}{line.unit}"
    star = " *" if "usual size" in line.note else ""
    name, rating = line.what.replace("mm2", "mm²"), line.rating.replace("mm2", "mm²")
    known = all(word in name for word in rating.replace(",", "").split())
    return [
        f.number(line.number), quantity, (name if known else f"{name}, {rating}") + star, b.tag(line.row) if line.row else "no row", b.tag(", ".join(line.tags)) if line.tags else f.DASH,
        f.number(line.mass, 1 if (line.mass or 0) >= 1 else 2), f.number(line.price), line.spare or f.DASH, b.TICK,
    ]  # fmt: skip


def steps_page(c: Context) -> b.Block:
    """Install steps in order."""
    rows: list[list[b.Cell]] = []
    for step in words.install(c.proposal):
        rows.append(
            [f.number(step.number), step.act, step.tools or f.DASH, b.care(step.word, step.care) if step.word else f.DASH, b.TICK]
        )
    columns: list[b.Column] = [
        ("no.", "r", "auto"),
        ("act", "l", "1.5fr"),
        ("tools", "l", "0.65fr"),
        ("take care", "l", "1fr"),
        ("done", "l", "auto"),
    ]
    return b.page(
        "Installation",
        [
            b.text(f"{words.LICENSED} In this order; a caution stands beside the act it guards."),
            b.table(columns, rows, size=8.0, inset=2.3),
        ],
        paper=f"{c.number}-I1",
    )


# ---- commissioning


def commissioning_pages(c: Context) -> list[b.Block]:
    """One sheet a lane."""
    return [_sheet(c, sheet) for sheet in c.sheets]


def _sheet(c: Context, sheet: Sheet) -> b.Block:
    if not sheet.readings:
        return b.page(sheet.title, [b.text(f"Lane {sheet.lane}: {sheet.state or 'not computed yet'}")], paper=sheet.number)
    rows: list[list[b.Cell]] = []
    for letter, (name, condition) in GROUPS.items():
        readings = sheet.group(letter)
        if readings:
            rows.append([f"{letter}  {name}: {condition}"])
            rows += [_reading(reading) for reading in readings]
    columns: list[b.Column] = [
        ("no.", "l", "7.5mm"), ("reading", "l", "1fr"), ("probes at", "l", "29mm"), ("predicted", "r", "18mm"), ("± band", "r", "11mm"), ("to port", "c", "20mm"),
        ("to starboard", "c", "20mm"), ("pass limit", "l", "21mm"),
    ]  # fmt: skip
    intro = (
        f"Predicted for: {sheet.state}. Copper changes by 0.39 % per kelvin. Outside the band: look for a cause. Outside the limit: do not hand over. "
        "One box where the side makes no difference."
    )
    blanks = b.blanks(
        ["bank temperature, °C", "wind, water", "instruments, calibrated on", "fitted by, date", "accepted by, date"]
    )
    before = b.caution(
        "STOP",
        "Nobody in the water, and no full thrust before every stop of group D has been proved.",
        "A welded contactor keeps a propeller turning whatever the panel says.",
    )
    return b.page(
        sheet.title, [b.text(intro, small=True), before, b.table(columns, rows, size=7.4, inset=1.5), blanks], paper=sheet.number
    )


def _reading(r: Reading) -> list[b.Cell]:
    size = abs(r.predicted or 0.0)
    places = 2 if r.unit == "V" else 1 if r.unit == "Ω" or (r.unit == "A" and size < 20) else 0
    predicted = r.words or (f"{f.number(r.predicted, places)}{f.SPACE}{r.unit}" if r.predicted is not None else f.DASH)
    band = f.number(r.sigma, places) if r.sigma is not None else f.DASH
    box = {"style": "box", "text": r.unit}
    return [r.number, r.what, b.tag(r.where), predicted, band, box, box if r.per_direction else f.DASH, r.limit]


def drills_page(c: Context) -> b.Block:
    """Fault drills at handing over."""
    rows: list[list[b.Cell]] = [[f.number(d.number), d.fault, d.act, d.must, b.WRITE] for d in words.drills(c.proposal)]
    columns: list[b.Column] = [
        ("no.", "r", "auto"),
        ("fault", "l", "1fr"),
        ("what is done", "l", "1.2fr"),
        ("what must happen", "l", "1.2fr"),
        ("happened, name", "l", "26mm"),
    ]
    return b.page(
        "Fault drills at handing over",
        [
            b.text(
                "Played through with the owner at the lever, one second of thrust at a time, lines doubled, nobody in the water."
            ),
            b.table(columns, rows, size=8.0, inset=3.2),
        ],
    )


def maintenance_page(c: Context) -> b.Block:
    """The maintenance plan."""
    rows: list[list[b.Cell]] = [[task.when, task.what, task.measure] for task in words.maintenance(c.proposal)]
    columns: list[b.Column] = [("when", "l", "34mm"), ("what", "l", "1.4fr"), ("good when", "l", "1fr")]
    return b.page(
        "Maintenance plan",
        [
            b.text("The maker's manual rules; this is the least. Common practice, no source."),
            b.table(columns, rows, size=8.0, inset=2.6),
        ],
        joined=True,
    )


def entries_page(c: Context) -> b.Block:
    """Entries for the owner's manual and the technical file."""
    manual = b.table(
        [("owner's manual", "l", "46mm"), ("entry", "l", "1fr")],
        [list(entry) for entry in words.manual_entries(c.proposal)],
        size=8.0,
    )
    file = b.table(
        [("technical file", "l", "46mm"), ("here", "l", "1fr"), ("scope or limit", "l", "1fr")],
        [list(entry) for entry in words.file_entries(c.proposal)],
        size=8.0,
    )
    blocks = [manual, b.space(2), file]
    aboard = kept(c.proposal)
    if aboard:
        cells: list[list[b.Cell]] = [[b.tag(x.tag), x.name, ", ".join(x.rating) or f.DASH] for x in aboard]
        half = (len(cells) + 1) // 2
        named: list[b.Column] = [("tag", "l", "auto"), ("part", "l", "1fr"), ("rating", "l", "auto")]
        right = [b.table(named, cells[half:])] if cells[half:] else []
        blocks += [b.section("Equipment aboard before, and staying"), b.pair([b.table(named, cells[:half])], right)]
    return b.page("Entries for the owner's manual and the technical file", [*blocks, b.text(words.ANSWERS, small=True)])


# ---- sources


def sources_page(c: Context) -> b.Block:
    """Sources used, versions, digests."""
    known = register()
    used = sorted(keys(c), key=lambda key: (known[key].title.lower(), key))
    rows: list[list[b.Cell]] = []
    for key in used:
        entry = known[key]
        title = ", ".join(part for part in (entry.author, entry.title, entry.edition) if part)
        rows.append([title, entry.taken, SEEN_WORDS[entry.seen]])
    versions = [
        ("athwart", __version__),
        ("Python", ".".join(platform.python_version_tuple()[:2])),
        *[(name, found) for name in LIBRARIES if (found := _version(name))],
    ]
    digests = [("brief, SHA-256", c.digest), ("catalogue, SHA-256", c.proposal.catalogue.digest)]
    unseen = sum(not known[key].verified for key in used)
    columns: list[b.Column] = [("source", "l", "1.1fr"), ("taken from it", "l", "1fr"), ("seen", "l", "26mm")]
    return b.page(
        "Sources and versions",
        [b.text(f"{len(used)} sources stand behind the figures printed; {unseen} of them rest on memory or judgement."), b.table(columns, rows, size=7.2, inset=1.9), b.section("Versions and digests"), b.key([*versions, *digests])],
    )  # fmt: skip


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:  # pragma: no cover (a stripped installation)
        return ""


def keys(c: Context) -> set[str]:
    """Keys of the sources behind what is printed."""
    p = c.proposal
    found = {finding.source for finding in p.findings}
    found |= {FORMULAS[name].source for name in PRINTED}
    if c.electric:
        found |= {FORMULAS[name].source for name in PRINTED_ELECTRIC}
        found |= {piece.source for piece in JOINTS.values()}
    rules = RULE_SETS[c.brief.choices.rule_set]
    found |= {limit.source for limit in rules.limits().values()}
    for bank in p.banks:
        found |= set(chemistry(bank.block.chemistry).sources.values())
    found |= {lane.fuse.family.source for lane in p.lanes if lane.fuse is not None}
    if p.network is not None:
        found |= _profile_sources(c)
    known = register()
    return {key for key in found if key in known}


def _profile_sources(c: Context) -> set[str]:
    n = c.proposal.network
    assert n is not None
    rules = profile(n.profile, n.bit_rate)
    limits = (rules.trunk, rules.drop, rules.drops, rules.nodes, rules.node_current, rules.load_share)
    return {limit.source for limit in limits if limit.value is not None}


# ---- the owner


def owner_page(c: Context) -> b.Block:
    """The owner's sheet, large, and the lock-out card."""
    p = c.proposal
    roles = sorted({lane.thruster.role for lane in p.lanes})
    title = f"Your {' and '.join(roles)} thruster{'s' if len(p.lanes) > 1 else ''}"
    buttons = [(x.tag, x.name.removeprefix("stop, "), x.place or "") for x in p.netlist.components if x.kind == "stop button"]
    switches = [
        (x.tag, "main switch", x.place or "place not given")
        for x in p.netlist.components
        if x.kind == "main switch" and x.lane > 0
    ]
    spares = [f"{line.spare} × {line.what.replace('mm2', 'mm²')}" for line in c.bill if line.spare]
    return {
        "kind": "owner",
        "title": title,
        "boat": c.brief.name,
        "paper": f"{c.number}-O1",
        "figures": [{"figure": x.figure, "unit": x.unit, "condition": x.condition} for x in words.owner_figures(p)],
        "stops": [{"question": question, "answer": answer} for question, answer in words.owner_stops(p)],
        "rules": list(words.owner_rules(p)),
        "places": [{"tag": tag, "name": f"{name}", "place": place} for tag, name, place in [*switches, *buttons]],
        "spares": spares,
        "card": list(words.lock_out(p)),
        "foot": words.ANSWERS,
    }
