"""The six answers of the first page: one sentence and one figure each, from the finished proposal."""

from __future__ import annotations

from collections.abc import Iterable
from math import degrees, hypot, isinf

from athwart import units
from athwart.design.proposal import Answer, ChargingChoice, Lane, Proposal
from athwart.power.rules import RULE_SETS
from athwart.sources import source
from athwart.units import KNOT
from athwart.units.printing import SPACE, fixed
from athwart.vessel import uncertainty


def _show(value: float, kind: str, unit: str | None = None) -> str:
    return units.show(value, kind, unit, plain=True)


def six(p: Proposal) -> tuple[Answer, ...]:
    """The six answers."""
    return (_hold(p), _run(p), _refill(p), _keep(p), _which(p), _weight(p))


def _verdict(p: Proposal, yes: bool) -> str:
    """Never a bare yes where the fuse, cable or stop chain rests on something unverified."""
    if not yes:
        return "no"
    return "to be verified" if p.unverified else "yes"


def weakest(p: Proposal) -> Lane | None:
    """The lane that holds the least of what it is asked."""
    known = [lane for lane in p.lanes if lane.wind_held_worst is not None]
    return min(known, key=lambda lane: lane.wind_held_worst or 0.0, default=None)


def _hold(p: Proposal) -> Answer:
    question = "Will it hold?"
    asked = p.brief.wind.speed
    lane = weakest(p)
    if lane is None or lane.wind_held_worst is None or lane.wind_held_beam is None or lane.chance is None or lane.design is None:
        dry = [entry.thruster.identity for entry in p.lanes if entry.immersion_factor <= 0.0]
        why = f"The tunnel of the {' and the '.join(dry)} unit is out of the water in the state it is judged in: no thrust."
        return Answer(
            1,
            question,
            why if dry else "Not computed yet for this kind of drive, or nothing runs.",
            "not computed",
            None,
            asked / KNOT,
            None,
            "kn",
            "more",
            verdict="not computed yet",
        )
    case = p.need.ruling(lane.thruster.identity)
    words = {"B": "with the other end made fast", "C": "on station with bow and stern units"}[case.case]
    held = lane.wind_held_worst >= asked * (1 - 1e-9)
    kind = "a gust of " if p.brief.wind.is_ == "gust" else "a mean wind of "
    reads = {"on deck": "read on deck", "masthead": "read at the masthead", "forecast 10 m": "forecast at 10 m"}[
        p.brief.wind.read_at
    ]
    beam = min(entry.wind_held_beam for entry in p.lanes if entry.wind_held_beam is not None)
    state = lane.both_design or lane.design
    sigma = ((case.sigma**2 + state.thrust_sigma**2) ** 0.5) / 2
    whole = all(entry.passes for entry in p.lanes)
    word = "No" if not held else "Yes" if whole else "Not as it is, the thrust would but the system does not pass"
    swept = _swept(p)
    if p.need.heel is None:
        word, held = "No, in the wind asked she would heel more than 30 degrees; by thrust alone", False
    if swept and held:
        word = f"Not with the current of {_kn(p.brief.water.current or 0.0)} abeam, the wind alone yes" if whole else word
    sentence = (
        f"{word}: {_kn(lane.wind_held_worst)} from the worst heading asked, "
        f"{degrees(case.worst_heading):.0f} degrees off the bow, "
        f"and {_kn(beam)} on the beam, {words}, bank cold and aged; asked is {kind}{_kn(asked)} {reads}. "
        f"Chance of holding at the worst heading {lane.chance * 100:.0f} %."
    )
    gives, needed = (_show(round(thrust, -1), "force", "N") for thrust in (state.thrust, case.worst))
    unit = f"The {lane.thruster.identity} unit gives {gives} at {state.terminal_volts:.1f} V; {needed} are needed."
    if case.with_current is not None and case.with_current > case.worst:
        more = _show(round(case.with_current, -1), "force", "N")
        unit += f" With the current of {_kn(p.brief.water.current or 0.0)}, abeam with the wind, {more}."
    remark = unit + _beside(p, case.case)
    return Answer(
        1,
        question,
        sentence,
        _kn(lane.wind_held_worst),
        lane.wind_held_worst / KNOT,
        asked / KNOT,
        sigma * lane.wind_held_worst / KNOT,
        "kn",
        "more",
        remark,
        _verdict(p, held and whole and not swept),  # type: ignore[arg-type]
    )


def _swept(p: Proposal) -> bool:
    """Whether the brief's current, abeam with the wind asked, takes her from one of her units."""
    for lane in p.lanes:
        case, state = p.need.ruling(lane.thruster.identity), lane.both_design or lane.design
        if case.with_current is not None and state is not None and case.with_current > state.thrust * (1.0 + 1e-9):
            return True
    return False


def _beside(p: Proposal, ruling: str) -> str:
    """What the cases hold that do not rule, and how often the manoeuvres succeed."""
    parts = []
    for held in p.cases:
        if held.case == ruling and held.name in ("stern made fast", "bow made fast", "on station"):
            continue
        name = held.name
        if held.case == "D":
            name = f"turning at {held.words.split(' at ')[1].split(' by ')[0]}"
        parts.append(f"{name} {held.worst_words(_kn(held.wind_worst)) if held.wind_worst > 0.0 else 'not even in a calm'}")
    said = f" Other cases, worst heading: {', '.join(parts)}." if parts else ""
    if p.rehearsals:
        shares = ", ".join(f"{r.exercise.name} {r.success.count}" for r in p.rehearsals)
        said += f" Of {p.rehearsals[0].success.of} rehearsals succeed: {shares}."
    return said


def _kn(speed: float) -> str:
    return f"{speed / KNOT:.1f} kn"


def _minutes(seconds: float) -> str:
    if isinf(seconds) or seconds > 5 * 3600:
        return "hours"
    return f"{seconds / 60:.1f} min" if seconds >= 60 else f"{seconds:.0f} s"


def _run(p: Proposal) -> Answer:
    question = "How long can it run, and what stops it first?"
    known = [lane for lane in p.lanes if lane.run_time_full is not None]
    if not known:
        return Answer(
            2,
            question,
            "Not computed yet for this kind of drive, or nothing runs.",
            "not computed",
            None,
            p.need.run_time / 60,
            None,
            "min",
            "more",
            verdict="not computed yet",
        )
    lane = min(known, key=lambda entry: entry.run_time_full or 0.0)
    assert lane.run_time_full is not None
    full, half = lane.run_time_full, lane.run_time_half or lane.run_time_full
    found = min(full, 3600.0)
    enough = full >= p.need.run_time
    sentence = (
        f"{_minutes(full)} at full thrust and {_minutes(half)} at half thrust with the bank cold, aged and 70 % charged; "
        f"{lane.run_time_limit} ends it first. The longest hold asked is {_minutes(p.need.run_time)}."
    )
    remark = "On/off unit: half thrust means on for half the time." if lane.unit.control == "on/off" else ""
    return Answer(
        2,
        question,
        sentence,
        _minutes(full),
        found / 60,
        p.need.run_time / 60,
        _run_sigma(lane) * found / 60,
        "min",
        "more",
        remark,
        _verdict(p, enough),  # type: ignore[arg-type]
    )


def _run_sigma(lane: Lane) -> float:
    """Spread of a run time by what ends it: heat goes with the square of the current, charge with the current itself."""
    if lane.run_time_limit == "motor heat":
        return uncertainty.run_time_sigma(2.0, uncertainty.CURRENT, uncertainty.RATED_TIME)
    if lane.run_time_limit == "battery charge":
        return uncertainty.run_time_sigma(1.0, uncertainty.CURRENT, uncertainty.CAPACITY)
    return uncertainty.run_time_sigma(2.0, uncertainty.CURRENT, uncertainty.FUSE_TIME)


def _mass_sigma(p: Proposal) -> float:
    """Spread of the new parts' mass: each part of its own by the catalogue, cables by their runs."""
    parts = [uncertainty.CATALOGUE_MASS * lane.unit.mass for lane in p.lanes if lane.kept == "chosen"]
    parts += [
        uncertainty.CABLE_RUN * lane.cable.cable.mass * lane.cable.parallel * (lane.cable.plus + lane.cable.minus)
        for lane in p.lanes
        if lane.cable is not None and lane.cable.kept == "chosen"
    ]
    parts += [uncertainty.CATALOGUE_MASS * bank.mass for bank in p.banks if bank.kept == "chosen"]
    return hypot(*parts)


def _refill(p: Proposal) -> Answer:
    question = "How long to refill the bank, from what?"
    if not p.charging:
        return Answer(3, question, "No bank to refill.", "none", None, None, None, "h", "less", verdict="not computed yet")
    slowest = max(p.charging, key=lambda choice: choice.refill_time)
    if isinf(slowest.refill_time):
        return Answer(
            3, question, f"Never: nothing charges the {slowest.bank}.", "never", None, 4.0, None, "h", "less", verdict="no"
        )
    dry = next((c for c in p.charging if c.energy_in_per_day <= 0.0 < c.energy_out_per_day), None)
    if dry is not None:
        words = f"Never: nothing charges the {dry.from_battery or 'source'} that the charger of the {dry.bank} takes from."
        return Answer(3, question, words, "never", None, 4.0, None, "h", "less", verdict="no")
    hours = slowest.refill_time / 3600
    return Answer(
        3,
        question,
        f"{_hours(slowest.refill_time)} after one docking, {_hours(slowest.refill_full_time)} from the floor of the bank, "
        f"{_from(slowest)}.",
        _hours(slowest.refill_time),
        hours,
        4.0,
        uncertainty.refill_sigma() * hours,
        "h",
        "less",
        _refill_remark(slowest),
        _verdict(p, hours <= 4.0 or slowest.energy_in_per_day >= slowest.energy_out_per_day),  # type: ignore[arg-type]
    )


def _hours(seconds: float) -> str:
    return f"{seconds / 3600:.1f} h" if seconds >= 3600 else f"{seconds / 60:.0f} min"


def _from(choice: ChargingChoice) -> str:
    if choice.kind == "alternator":
        return f"from the alternator that charges it, {choice.output_current:.0f} A hot"
    if choice.kind == "shore":
        return f"from {'the' if choice.kept == 'aboard' else 'a'} {choice.output_current:g} A shore charger"
    source = choice.from_battery or "ship"
    draws = f"which draws {choice.input_current:.0f} A there"
    return f"from the {source} by a {choice.kind} charger of {choice.output_current:g} A, {draws}"


def _refill_remark(choice: ChargingChoice) -> str:
    balance = (
        f"The thruster takes {choice.energy_out_per_day / 3600:.0f} Ah a day; "
        f"{choice.energy_in_per_day / 3600:.0f} Ah can be put back."
    )
    if choice.alternator_idle_margin is None:
        return balance
    left = choice.alternator_idle_margin
    words = f"has {left:.0f} A left" if left >= 0 else f"falls short by {-left:.0f} A"
    return f"{balance} At idle the alternator {words}."


def _keep(p: Proposal) -> Answer:
    question = "May the bank, the cable and the alternator stay?"
    parts: list[str] = []
    for lane in p.lanes:
        name = lane.thruster.identity
        given = p.brief.fixed.lanes.get(name) or p.brief.aboard.lanes.get(name)
        if given is None:
            continue
        bank, reasons = p.bank(lane.bank), {reason.split(" aboard")[0].split()[0]: reason for reason in lane.replaced}
        for part, there, kept in (
            ("unit", given.unit, lane.kept),
            ("bank", given.bank, bank.kept if bank else "chosen"),
            ("cable", given.cable, lane.cable.kept if lane.cable else "chosen"),
            ("fuse", given.fuse, lane.fuse.kept if lane.fuse else "chosen"),
        ):
            if there is None:
                continue
            if p.mode == "check":
                parts.append(f"{name} {part}: judged as it is")
            elif kept == "chosen":
                parts.append(f"{name} {part}: no ({reasons.get(part, 'replaced')})")
            else:
                parts.append(f"{name} {part}: yes")
    for choice in p.charging:
        if choice.alternator_idle_margin is not None:
            left = choice.alternator_idle_margin
            words = f"yes, {left:.0f} A in hand at idle" if left >= 0 else f"not at idle, {-left:.0f} A short"
            parts.append(f"alternator with the {choice.bank}: {words}")
    if not parts:
        return Answer(
            4,
            question,
            "Nothing is aboard yet that could stay, and no alternator is named.",
            "nothing aboard",
            None,
            None,
            None,
            "",
            "more",
        )
    no = sum(": no" in part or ": not" in part for part in parts)
    figure = f"{len(parts) - no} of {len(parts)} yes" if p.mode == "propose" else f"{len(parts)} judged"
    return Answer(4, question, "; ".join(parts) + ".", figure, float(len(parts) - no), float(len(parts)), None, "parts", "more")


def _which(p: Proposal) -> Answer:
    question = "Which volts, drive and housing, and why not the others?"
    sentences = []
    for lane in p.lanes:
        unit = lane.unit
        kind = f"{unit.volts:g} V {unit.drive} {unit.housing}, {unit.control}" if unit.volts else f"{unit.drive} {unit.housing}"
        passing = [r for r in p.rejections if r.identity == lane.thruster.identity and r.rule.startswith("passes")]
        refused: dict[str, int] = {}
        for r in p.rejections:
            if r.identity == lane.thruster.identity and not r.rule.startswith("passes"):
                refused[r.rule] = refused.get(r.rule, 0) + 1
        common = sorted(refused.items(), key=lambda entry: (-entry[1], entry[0]))[:3]
        why = ", ".join(f"{count} by {rule}" for rule, count in common)
        if p.mode == "check":
            sentences.append(f"{lane.thruster.identity}: {kind}, as found")
        elif lane.passes:
            sentences.append(
                f"{lane.thruster.identity}: {kind}; {len(passing)} others pass and are not preferred "
                f"({p.brief.choices.prefer}); refused: {why or 'none'}"
            )
        else:
            sentences.append(
                f"{lane.thruster.identity}: nothing in the catalogue passes; nearest is {unit.id}; refused: {why or 'none'}"
            )
    first = p.lanes[0].unit
    return Answer(
        5,
        question,
        ". ".join(sentences) + ".",
        f"{first.volts:g} V" if first.volts else first.drive,
        None,
        None,
        None,
        "",
        "more",
    )


def _weight(p: Proposal) -> Answer:
    question = "What does it weigh, cost and do to the trim; where is the stop?"
    t = p.trim
    trim = (
        f"{'bow' if t.trim >= 0 else 'stern'} down {_show(round(abs(t.trim), 3), 'length', 'mm')} over the waterline, "
        f"{_show(round(t.sinkage, 3), 'length', 'mm')} deeper"
    )
    money = f"{fixed(p.price, 0).replace(SPACE, ' ')} {p.brief.choices.currency}".strip()
    note = " (invented prices)" if p.catalogue.invented else ""
    stops = "; ".join(_stop(lane) for lane in p.lanes)
    return Answer(
        6,
        question,
        f"{_show(round(t.mass), 'mass', 'kg')} of new parts, {money}{note}, {trim}. {stops}.",
        _show(round(t.mass), "mass", "kg"),
        t.mass,
        None,
        _mass_sigma(p),
        "kg",
        "less",
    )


def _stop(lane: Lane) -> str:
    name = lane.thruster.identity
    if lane.not_computed:
        return f"{name}: stop not computed yet"
    if lane.stop is None:
        return f"{name}: NO stop breaks the power circuit"
    switch = f", main switch Q{lane.lane}.1 behind it" if lane.switch is not None else ", no main switch"
    return f"{name}: stop Q{lane.lane}.2 ({lane.stop_kind}) breaks the power circuit{switch}"


def unverified(p: Proposal) -> tuple[str, ...]:
    """What the verdict rests on without proof, each once."""
    found: list[str] = []
    if p.catalogue.invented:
        found.append("equipment rows are invented")
    for bank in p.banks:
        if bank.assumed_resistance:
            found.append(f"resistance of the {bank.name} is a chemistry's usual value")
    for lane in p.lanes:
        if lane.fuse is not None and not lane.fuse.family.verified:
            found.append(f"time-current points of fuse F{lane.lane}.1 ({lane.fuse.family.family}) are from memory")
        if lane.cable is not None and not lane.cable.ampacity_verified:
            found.append(f"the rule's continuous current of cable {lane.cable.cable.gauge} in lane {lane.lane} is from memory")
        if lane.fuse is not None or lane.cable is not None:
            found += [f"{name} of the rule set is from memory" for name in _rules_from_memory(p)]
    found += [
        f"route {_route(p, lane)} is estimated"
        for lane in p.lanes
        if lane.cable is not None and ("assumed" in lane.cable.route or "estimated" in lane.cable.route)
    ]
    return tuple(dict.fromkeys(found))


def _route(p: Proposal, lane: Lane) -> str:
    assert lane.cable is not None
    return lane.cable.route.split(", not given")[0].split(", assumed")[0]


def _rules_from_memory(p: Proposal) -> Iterable[str]:
    rules = RULE_SETS[p.brief.choices.rule_set]
    for name, limit in (("fuse distance", rules.fuse_distance_plain), ("fuse ceiling", rules.fuse_ceiling)):
        if not source(limit.source).verified:
            yield name
