"""Power pages: volts along each lane, cable and fuse schedule, short circuit and coordination, bank, charging, ventilation."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from athwart.design.limits import limit_words
from athwart.design.netlist import Component
from athwart.design.proposal import Bank, ChargingChoice, Fault, Lane, LaneState
from athwart.design.search import cabling, fusing
from athwart.papers import blocks as b
from athwart.papers import figures as f
from athwart.papers.bill import family_of
from athwart.papers.charts import Coordination, Mark, Step, coordination, stair
from athwart.papers.context import Context
from athwart.papers.steps import UNVERIFIED, bank_words
from athwart.power import ventilation
from athwart.power.battery_data import chemistry
from athwart.power.fuse import opening_band
from athwart.power.rules import RULE_SETS
from athwart.sources import source
from athwart.trial.predicted import LEAST_SHARE, power_path, sheets

KIND_WORDS = {
    "P": "plus",
    "N": "minus",
    "L": "link in a string",
    "C": "control",
    "T": "trunk",
    "D": "drop",
    "E": "bonding",
    "H": "hydraulic line",
}


def power_page(c: Context) -> b.Block:
    """States, volts, what each piece costs."""
    blocks: list[b.Block] = []
    for lane in c.proposal.lanes:
        if lane.not_computed:
            blocks.append(b.text(f"Lane {lane.lane}, {lane.thruster.identity}: {lane.not_computed}"))
    if c.electric:
        blocks += [b.section("States"), _states(c)]
    for lane in c.electric:
        chart = _stair(c, lane)
        if chart is not None:
            blocks += [b.section(f"Volts along lane {lane.lane}, {lane.thruster.identity}"), chart]
    if c.electric:
        blocks += [b.section("Cable and fuse: limits"), *_limits(c)]
        blocks.append(
            b.text(
                "Drops of every piece at the figures of commissioning are on its sheet; diagram on the next sheets.", small=True
            )
        )
    if not blocks:
        blocks.append(b.text("not computed yet"))
    return b.page("Power", blocks)


def _states(c: Context) -> b.Block:
    rows: list[list[b.Cell]] = []
    for lane in c.electric:
        rows.append([f"lane {lane.lane}, {lane.thruster.identity}"])
        found: list[tuple[str, LaneState | None]] = [
            ("design: cold, aged", lane.design),
            ("peak: warm, new, charging", lane.peak),
        ]
        if lane.both_design is not None:
            found.append(("design, all units of the bank on", lane.both_design))
        for name, s in found:
            if s is not None:
                rows.append(
                    [
                        name, f.number(s.open_volts, 2), f.number(s.bank_resistance * 1e3, 2), f.number(s.path_resistance * 1e3, 2), f.number(s.current),
                        f.number(s.bank_volts, 2), f.number(s.terminal_volts, 2), f.number(s.thrust, -1), f.celsius(s.conductor_temperature),
                    ]
                )  # fmt: skip
    columns: list[b.Column] = [
        ("state", "l", "1fr"), ("open, V", "r", "auto"), ("bank, mΩ", "r", "auto"), ("path, mΩ", "r", "auto"), ("current, A", "r", "auto"),
        ("bank, V", "r", "auto"), ("unit, V", "r", "auto"), ("thrust, N", "r", "auto"), ("cable at", "r", "auto"),
    ]  # fmt: skip
    return b.table(columns, rows, size=8.0)


def _stair(c: Context, lane: Lane) -> b.Block | None:
    """The stair of volts from the predicted readings, beside the design state."""
    sheet = next((entry for entry in sheets(c.proposal) if entry.lane == lane.lane), None)
    design = lane.design
    full = {reading.where: reading for reading in sheet.group("E")} if sheet is not None else {}
    whole = next((r for r in full.values() if r.what == "bank"), None)
    unit = next((r for r in full.values() if r.what == "at the unit"), None)
    rest = (
        next((r for r in sheet.group("B") if r.what.startswith("at the unit, main switch on")), None)
        if sheet is not None
        else None
    )
    if design is None or whole is None or unit is None or rest is None or whole.predicted is None or rest.predicted is None:
        return None
    lost = {drop.tag: drop.volts for drop in design.drops}
    steps = [
        Step("at rest", rest.predicted, 0.0, rest.sigma or 0.0, design.open_volts),
        Step("posts", whole.predicted, rest.predicted - whole.predicted, whole.sigma or 0.0, design.bank_volts),
    ]
    path, back = power_path(c.proposal, lane)
    volts, other = whole.predicted, design.bank_volts
    drops = {r.what.split(",")[0].split()[1]: r for r in sheet.group("E") if r.unit == "mV"} if sheet is not None else {}
    for piece in (*path, *back):
        reading = drops.get(piece.tag)
        if reading is None or reading.predicted is None:
            continue
        volts -= reading.predicted / 1e3
        other -= lost.get(piece.tag, 0.0)
        steps.append(Step(piece.tag, volts, reading.predicted / 1e3, unit.sigma or 0.0, other))
    bank = c.proposal.bank(lane.bank)
    nominal = bank.volts if bank is not None else 0.0
    chart = stair(
        steps,
        f"full, 18 °C, {f.amps(_current(sheet)).replace(f.SPACE, ' ')}",
        f"cold, aged, {f.amps(design.current).replace(f.SPACE, ' ')}",
        LEAST_SHARE * nominal,
        f"{LEAST_SHARE * nominal:.1f} V, least at the unit",
        height=74.0 if len(c.electric) == 1 else 62.0,
    )
    caption = f"Volts from the bank to M{lane.lane}.1 and back. Grey: band of the prediction. Below each tag the millivolts lost in it at commissioning."
    alt = f"Stair of volts along lane {lane.lane}: {f.volts(steps[0].volts)} at rest, {f.volts(steps[1].volts)} at the posts, {f.volts(steps[-1].volts)} left at the unit."
    return b.figure(chart.svg(), caption, alt)


def _current(sheet: object) -> float | None:
    readings = getattr(sheet, "readings", ())
    return next((r.predicted for r in readings if r.group == "E" and r.unit == "A"), None)


def _limits(c: Context) -> list[b.Block]:
    """Limits of cable and main fuse: beside each other where there are two lanes."""
    tables: list[b.Block] = []
    for lane in c.electric:
        rows: list[list[b.Cell]] = []
        parts = ([("cable", lane.cable.limits)] if lane.cable else []) + (
            [(f"fuse F{lane.lane}.1", lane.fuse.limits)] if lane.fuse else []
        )
        for name, limits in parts:
            rows.append([f"{lane.thruster.identity}, {name}"])
            rows += limit_rows(limits)
        tables.append(
            b.table(
                [("limit", "l", "1fr"), ("figure", "r", "auto"), ("allowed", "r", "auto"), ("", "l", "auto")],
                rows,
                size=8.0 if len(c.electric) == 1 else 7.2,
                inset=1.9,
            )
        )
    if len(tables) == 1:
        return tables
    return [b.pair(tables[k : k + 1], tables[k + 1 : k + 2]) for k in range(0, len(tables), 2)]


def limit_rows(limits: Sequence[tuple[str, float, float, bool]]) -> list[list[b.Cell]]:
    """Rows of a table of limits; a limit that is only words has no figure."""
    rows: list[list[b.Cell]] = []
    for entry in limits:
        words, value, limit = limit_words(entry)
        rows.append([words, value or f.DASH, limit or f.DASH, "held" if entry[3] else b.bold("broken")])
    return rows


# ---- schedules

FUSES_TOGETHER = 24
"""Fuses that fit one page whatever their words."""


def schedule_page(c: Context) -> b.Block:
    """Every conductor once, every fuse once."""
    longest = max(
        (w.length for w in c.proposal.netlist.conductors if w.kind == "P" and w.fuse is None and not w.aboard), default=0.0
    )
    words = (
        f"Each conductor once. Length is that of the conductor itself, one way, along the route; mΩ at 20 °C without lugs. "
        f"Amperes: largest steady current of the peak state. Fuse –: piece before the first fuse, {f.metres(longest, 2)} at most. Size “aboard”: there already, not given in the brief."
    )
    unsure = any(not w.ampacity_verified for w in c.proposal.netlist.conductors if w.ampacity is not None)
    blocks: list[b.Block] = [b.text(words, small=True), _conductors(c)]
    if unsure:
        blocks.append(b.text(f"u: ampacity table unverified. {UNVERIFIED}", small=True))
    blocks += [b.section("Fuses"), _fuses(c)]
    return b.page("Cable and fuse schedule", blocks, paper=f"{c.number}-W1")


def _conductors(c: Context) -> b.Block:
    rows: list[list[b.Cell]] = []
    group = ""
    for w in c.proposal.netlist.conductors:
        head = (
            f"{'ship' if w.lane == 0 else 'control line' if w.lane == 9 else 'lane ' + str(w.lane)}, {KIND_WORDS[w.kind]}, {w.lane}{w.kind}"
            + (f": {w.colour}" if w.colour else "")
        )
        if head != group:
            rows.append([head])
            group = head
        size = w.size.replace("mm2", "mm²")
        allowed = (f.number(w.ampacity) + ("" if w.ampacity_verified else " u")) if w.ampacity is not None else f.DASH
        current = f.number(w.current, 0 if w.current >= 9.95 else 1) if w.current is not None else f.DASH
        known = w.area > 0 and w.length > 0
        rows.append(
            [
                b.tag(w.tag), b.tag(str(w.start)), b.tag(str(w.end)), f"{w.parallel} × {size}" if w.parallel > 1 else size, f.number(w.length, 2) if known else f.DASH,
                f.milliohms(w.resistance) if known else f.DASH, current, allowed, b.tag(w.fuse) if w.fuse else f.DASH, w.route or f.DASH, b.TICK if not w.aboard else "aboard",
            ]
        )  # fmt: skip
    columns: list[b.Column] = [
        ("tag", "l", "auto"), ("from", "l", "auto"), ("to", "l", "auto"), ("size", "l", "auto"), ("length, m", "r", "auto"), ("mΩ", "r", "auto"),
        ("A", "r", "auto"), ("carries, A", "r", "auto"), ("fuse", "l", "auto"), ("route", "l", "1fr"), ("fitted", "l", "auto"),
    ]  # fmt: skip
    return b.table(columns, rows, size=7.0, inset=1.75)


def _fuses(c: Context) -> b.Block:
    rows: list[list[b.Cell]] = []
    for part in c.proposal.netlist.components:
        if part.kind == "fuse":
            rows.append(_fuse_row(c, part))
    columns: list[b.Column] = [
        ("tag", "l", "auto"), ("rating", "r", "auto"), ("family", "l", "auto"), ("row", "l", "auto"), ("protects", "l", "1fr"), ("breaks", "l", "auto"),
        ("from source", "r", "auto"), ("curve", "l", "auto"), ("fitted", "l", "auto"),
    ]  # fmt: skip
    return b.table(columns, rows, size=7.2, inset=1.9, whole=len(rows) <= FUSES_TOGETHER)


def _fuse_row(c: Context, part: Component) -> list[b.Cell]:
    found = family_of(c.proposal, part)
    wires = c.proposal.netlist.conductors
    protects = [w.tag for w in wires if w.fuse == part.tag]
    before = sum(w.length for w in wires if (w.end.component, w.end.terminal) == (part.tag, "1"))
    breaks = (
        ", ".join(f"{f.number(a / 1e3, 1)} kA to {f.number(v)} V" for v, a in found[1].breaking_capacity) if found else f.DASH
    )
    curve = ("verified" if found[1].verified else "unverified") if found else f.DASH
    return [
        b.tag(part.tag), part.rating[0] if part.rating else f.DASH, found[1].family if found else f.DASH, b.tag(found[0].id) if found else f.DASH,
        b.tag(", ".join(protects)) if protects else f.DASH, breaks, f.metres(before, 2), curve, b.TICK if not part.aboard else "aboard",
    ]  # fmt: skip


# ---- short circuit


def fault_page(c: Context) -> b.Block:
    """Fault table and the coordination plot of each lane."""
    rows: list[list[b.Cell]] = []
    for lane in c.electric:
        rows.append([f"lane {lane.lane}, {lane.thruster.identity}"])
        rows += [_fault(fault) for fault in lane.faults]
    columns: list[b.Column] = [
        ("fault", "l", "1fr"),
        ("current", "r", "auto"),
        ("loop, mΩ", "r", "auto"),
        ("opens first", "l", "auto"),
        ("after at most", "r", "auto"),
    ]
    blocks: list[b.Block] = []
    if rows:
        blocks += [b.section("Fault currents"), b.table(columns, rows, size=8.0)]
    for lane in c.electric:
        chart = _coordination(c, lane)
        if chart is not None:
            blocks += [b.section(f"Coordination, lane {lane.lane}, {lane.thruster.identity}"), chart]
    unsure = [lane for lane in c.electric if lane.fuse is not None and not lane.fuse.family.verified]
    if unsure:
        blocks.append(b.text(f"Time-current points of {', '.join(f'F{n.lane}.1' for n in unsure)}: {UNVERIFIED}", small=True))
    for lane in c.electric:
        if lane.fuse is None:
            blocks.append(b.text(f"Lane {lane.lane} has no main fuse: nothing opens."))
    if not blocks:
        blocks.append(b.text("not computed yet"))
    return b.page("Short circuit and coordination", blocks)


def _fault(fault: Fault) -> list[b.Cell]:
    return [
        fault.name,
        f.kiloamps(fault.current),
        f.milliohms(fault.loop_resistance),
        fault.opens_first,
        f.duration(fault.after) if fault.after < inf else "never",
    ]


def _coordination(c: Context, lane: Lane) -> b.Block | None:
    if lane.fuse is None or lane.cable is None or lane.peak is None or lane.design is None:
        return None
    fuse, cable = lane.fuse, lane.cable
    air = cabling.air_temperature(RULE_SETS[c.brief.choices.rule_set], cable.engine_space)
    withstand = fusing.withstand(cable.cable, cable.parallel, air)
    current = max(lane.peak.current, lane.design.current)

    def opening(amperes: float) -> tuple[float, float]:
        band = opening_band(fuse.family, fuse.fuse.rating, amperes)
        return band.least, band.most

    words = {
        "bolted at the bank: full, warm, new": ("greatest fault", "bank, full, new"),
        "at the unit: cold, aged": ("least fault", "unit, cold, aged"),
        "propeller locked: cold, aged": ("propeller locked", "cold, aged"),
    }
    marks = tuple(
        Mark(x.current, (f"{words[x.name][0]} {x.current / 1e3:.2f} kA", words[x.name][1]))
        for x in lane.faults
        if x.name in words
    )
    many = f"{cable.parallel} × " if cable.parallel > 1 else ""
    size = cable.cable.gauge.replace("mm2", "mm²")
    data = Coordination(
        (f"F{lane.lane}.1 {fuse.fuse.rating:.0f} A", "least to most"), opening, (f"cable {many}{size}", f"bears, from {air - 273.15:.0f} °C"), withstand,
        (current, c.proposal.need.run_time), f"longest run {c.proposal.need.run_time:.0f} s", marks,
    )  # fmt: skip
    caption = f"Main fuse F{lane.lane}.1, {fuse.family.family}{'' if fuse.family.verified else ', points unverified'}: grey band between least and most opening time; dashed: time the cable bears; thick upright: duty of the motor at {f.amps(current)}."
    alt = f"Coordination plot of F{lane.lane}.1: opens at the least fault in {f.duration(fuse.opens_at_least_fault)} at most, with the propeller locked in {f.duration(fuse.opens_when_locked)} at most."
    return b.figure(coordination(data).svg(), caption, alt)


# ---- bank and charging


def bank_page(c: Context) -> b.Block:
    """Banks, their charging, the air they need."""
    p = c.proposal
    if not p.banks:
        return b.page("Bank, charging, ventilation", [b.text("No bank: hydraulic, not computed yet.")])
    columns: list[b.Column] = [("bank", "l", "auto"), *[(bank.name, "l", "1fr") for bank in p.banks]]
    small = 8.0 if len(p.banks) < 3 else 7.0
    blocks: list[b.Block] = [b.table(columns, _bank_rows(p.banks), size=small)]
    choices = [next((choice for choice in p.charging if choice.bank == bank.name), None) for bank in p.banks]
    blocks += [b.section("Charging"), b.table([("charging", "l", "auto"), *columns[1:]], _charging_rows(choices), size=small)]
    limits: list[list[b.Cell]] = []
    for choice in p.charging:
        if choice.limits:
            limits.append([choice.bank])
            limits += limit_rows(choice.limits)
    if limits:
        blocks.append(
            b.table(
                [("limit", "l", "1fr"), ("figure", "r", "auto"), ("allowed", "r", "auto"), ("", "l", "auto")],
                limits,
                size=8.0,
                inset=1.9,
            )
        )
    blocks += [
        b.section("Ventilation of the battery spaces"),
        b.table([("air", "l", "auto"), *columns[1:]], _air_rows(p.banks, choices), size=small),
    ]
    blocks.append(
        b.caution(
            "CAUTION",
            "Charge lead only in a space with its openings clear.",
            "Gas from charging burns; openings low and high, led to the open air, no spark in the space.",
        )
    )
    return b.page("Bank, charging, ventilation", blocks)


def _bank_rows(banks: tuple[Bank, ...]) -> list[list[b.Cell]]:
    def row(name: str, values: list[str]) -> list[b.Cell]:
        return [name, *values]

    blocks = [bank.block for bank in banks]
    rows = [
        row("blocks", [bank_words(bank) for bank in banks]),
        row("row; place", [f"{bank.block.id}; {bank.place}" for bank in banks]),
        row(
            "in this proposal",
            [
                {"chosen": "new", "aboard": "aboard, kept", "fixed": "fixed by the brief"}[bank.kept]
                + (f", {bank.age_years:g} years old" if bank.age_years else "")
                for bank in banks
            ],
        ),
        row("nominal, charging volts", [f"{f.volts(bank.volts, 1)}, {f.volts(bank.charging_volts, 1)}" for bank in banks]),
        row(
            "open volts: full; design state",
            [f"{f.volts(bank.open_volts_new)}; {f.volts(bank.open_volts_design)}" for bank in banks],
        ),
        row(
            "resistance: new; design state",
            [
                f"{f.milliohms(bank.resistance_new)} mΩ; {f.milliohms(bank.resistance_design)} mΩ"
                + (", assumed for the chemistry" if bank.assumed_resistance else "")
                for bank in banks
            ],
        ),
        row(
            "charge: rated; usable in the design state",
            [f"{f.amp_hours(bank.capacity)}; {f.amp_hours(bank.capacity_design)}" for bank in banks],
        ),
        row("greatest fault at the posts", [f.kiloamps(bank.fault_current_most) for bank in banks]),
        row("link in the string", [f"{bank.link.gauge.replace('mm2', 'mm²')}, {f.metres(bank.link_length)}" for bank in banks]),
        row(
            "string fuse",
            [
                f"{f.amps(bank.string_fuse[0].rating)} {bank.string_fuse[1].family}"
                if bank.string_fuse
                else "one string: none needed"
                if bank.parallel == 1
                else "none"
                for bank in banks
            ],
        ),
        row("mass; each block", [f"{f.kilograms(bank.mass)}; {f.kilograms(bank.block.mass)}" for bank in banks]),
    ]
    if any(block.discharge_continuous is not None for block in blocks):
        rows.append(
            row(
                "protection: lasting; peak",
                [
                    f"{f.amps(x.discharge_continuous)}; {f.amps(x.discharge_peak)} for {f.duration(x.discharge_peak_time)}"
                    if x.discharge_continuous is not None
                    else f.DASH
                    for x in blocks
                ],
            )
        )
    return rows


def _charging_rows(choices: list[ChargingChoice | None]) -> list[list[b.Cell]]:
    def row(name: str, of: list[str]) -> list[b.Cell]:
        return [name, *of]

    some = [choice if choice is not None and choice.kind != "none" else None for choice in choices]
    return [
        row("by", [f"{x.kind}" + (f", {x.charger.id}" if x.charger else "") if x else "nothing: see findings" for x in some]),
        row("from", [(x.from_battery or "a source of its own") if x else f.DASH for x in some]),
        row("gives; takes", [f"{f.amps(x.output_current)}; {f.amps(x.input_current)}" if x else f.DASH for x in some]),
        row(
            "set point; isolated",
            [
                f"{f.volts(x.charger.charge_volts, 1)}; {'yes' if x.charger.isolated else 'no'}" if x and x.charger else f.DASH
                for x in some
            ],
        ),
        row(
            "on; off, at the source",
            [f"{f.volts(x.charger.on_volts, 1)}; {f.volts(x.charger.off_volts, 1)}" if x and x.charger else f.DASH for x in some],
        ),
        row(
            "input cable, loop",
            [
                f"{x.cable.gauge.replace('mm2', 'mm²')}, {f.metres(x.input_plus + x.input_minus)}" if x and x.cable else f.DASH
                for x in some
            ],
        ),
        row(
            "lost in it; in isolators before it",
            [f"{f.volts(x.input_drop)}; {f.volts(x.path_drop)}" if x else f.DASH for x in some],
        ),
        row("hysteresis left over the drop", [f.volts(x.chatter_margin) if x else f.DASH for x in some]),
        row(
            "fuse at source; at bank",
            [
                f"{f.amps(x.fuse_source.rating) if x.fuse_source else 'none'}; {f.amps(x.fuse_bank.rating) if x.fuse_bank else 'none'}"
                if x
                else f.DASH
                for x in some
            ],
        ),
        row(
            "refill: one docking; from the floor",
            [f"{f.duration(x.refill_time)}; {f.duration(x.refill_full_time)}" if x else "never" for x in some],
        ),
        row(
            "a day: out; back",
            [f"{f.amp_hours(x.energy_out_per_day)}; {f.amp_hours(x.energy_in_per_day)}" if x else f.DASH for x in choices],
        ),
        row("alternator left at idle", [f.amps(x.alternator_idle_margin) if x else f.DASH for x in some]),
    ]


def _air_rows(banks: tuple[Bank, ...], choices: list[ChargingChoice | None]) -> list[list[b.Cell]]:
    flows, openings, rooms, powers = [], [], [], []
    for bank, choice in zip(banks, choices, strict=True):
        power = ventilation.charging_power(choice.output_current if choice else 0.0, bank.volts)
        powers.append(f"{f.with_unit(power, 'W')}: {ventilation.space_class(power)}; {ventilation.space_demand(power)}")
        if bank.block.chemistry == "lfp":
            flows.append("no gas in service; heat only")
            openings.append(f.DASH)
            rooms.append(f.DASH)
            continue
        gas = ventilation.gas_current("sealed" if bank.block.sealed else "vented", "boost")
        flow = ventilation.air_flow(bank.block.cells * bank.series, gas, bank.capacity)
        flows.append(f"{f.number(flow * 3600, 2)} m³/h, {'sealed' if bank.block.sealed else 'vented'} cells at boost")
        openings.append(f"{f.number(ventilation.opening_area(flow) * 1e4)} cm² each, in low and out high")
        rooms.append(f"{f.number(ventilation.least_room(flow), 2)} m³")
    return [
        ["air needed", *flows],
        ["openings, natural ventilation", *openings],
        ["least room that counts as ventilated", *rooms],
        ["charging power: class", *powers],
        ["charge factor", *[f.number(chemistry(bank.block.chemistry).charge_factor, 2) for bank in banks]],
        ["source", *[source("iec-62485-2").title for _ in banks]],
    ]
