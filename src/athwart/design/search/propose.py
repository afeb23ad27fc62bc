"""From a brief and a catalogue to a proposal: the one path for a new boat, a refit and an old installation.

For each bank the units it feeds are chosen together: each with its own complete chain, the others' current on the bank, to a
fixed point. Trim moves the waterline, the waterline moves immersion, immersion moves thrust: the whole is repeated until the same
rows come out, four times at most.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from athwart import units
from athwart.catalogue.records import Catalogue, Panel, ThrusterUnit
from athwart.design.brief import Brief, Thruster
from athwart.design.checks.registry import examine
from athwart.design.limits import limit_words
from athwart.design.proposal import (
    TOO_WEAK,
    Bank,
    Case,
    ChargingChoice,
    Keep,
    Lane,
    LaneState,
    Need,
    NetworkChoice,
    Proposal,
    Rejection,
)
from athwart.design.requirements.need import need as needed
from athwart.design.robustness.cases import cases_of, most_looked
from athwart.design.search import (
    aboard,
    answers,
    banking,
    chain,
    charging,
    control,
    floating,
    hydraulic,
    linking,
    refusals,
    running,
)
from athwart.design.search.settle import other_loads, settle
from athwart.design.wiring import wire
from athwart.errors import AthwartError, BriefError, Mistake, NotComputed
from athwart.power.fuse import opening_band
from athwart.units import Newton, Ratio
from athwart.vessel import balance, uncertainty
from athwart.vessel.hydrostatics import Weight

if TYPE_CHECKING:
    from athwart.design.robustness.rehearsal import Rehearsal

TURNS = 4
SHARED_TURNS = 6
THRUST_STEP = 100.0
"""Chains whose thrust falls into the same step of so many newtons count as equally small; the lighter is taken."""


Rehearse = Callable[[Proposal], tuple[tuple["Rehearsal", ...], tuple[tuple[str, str], ...]]]
"""Rehearses a proposal before its findings and answers are made; see ``design.robustness.rehearsal.rehearse_all``."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What one lane came to."""

    thruster: Thruster
    case: Case
    chain: chain.Chain
    required: Newton
    wish: banking.Wish
    given: aboard.Given
    kept: Keep
    passes: bool
    rejections: tuple[Rejection, ...]
    drop: float


def propose(
    brief: Brief, catalogue: Catalogue, *, defaults: tuple[tuple[str, str], ...] = (), rehearse: Rehearse | None = None
) -> Proposal:
    """A complete system for a brief.

    Raises
    ------
    NotComputed
        The boat lies outside the models, or no unit of the catalogue is of a kind that could be judged.
    BriefError
        A part aboard names a row that the catalogue does not have.
    """
    return _whole(brief, catalogue, defaults, rehearse, choosing=True)


def check(
    brief: Brief, catalogue: Catalogue, *, defaults: tuple[tuple[str, str], ...] = (), rehearse: Rehearse | None = None
) -> Proposal:
    """What is aboard or fixed, judged; parts that are missing stay missing."""
    missing = [
        t.identity for t in brief.thrusters if (unit := aboard.given(brief, t.identity).parts.unit) is None or unit.row is None
    ]
    if missing:
        raise BriefError(
            "nothing to examine",
            tuple(
                Mistake(
                    "check needs the unit that is aboard",
                    path=f"aboard.lanes.{name}.unit.row",
                    allowed="an id of `athwart catalogue list`",
                )
                for name in missing
            ),
        )
    return _whole(brief, catalogue, defaults, rehearse, choosing=False)


def _whole(
    brief: Brief, catalogue: Catalogue, defaults: tuple[tuple[str, str], ...], rehearse: Rehearse | None, *, choosing: bool
) -> Proposal:
    """The answer; what a physical function refuses because it lies outside its validity is said, not guessed."""
    try:
        return _answered(brief, catalogue, defaults, rehearse, choosing=choosing)
    except ValueError as error:
        if isinstance(error, AthwartError):
            raise
        raise NotComputed(f"outside a model's validity: {error}") from error


def _answered(
    brief: Brief, catalogue: Catalogue, defaults: tuple[tuple[str, str], ...], rehearse: Rehearse | None, *, choosing: bool
) -> Proposal:
    aboard.refuse_unknown(brief, catalogue)
    weights: tuple[Weight, ...] = ()
    chosen: list[Chosen] = []
    rows: tuple[object, ...] = ()
    need = needed(brief, floating.rise(brief, weights))
    for _ in range(TURNS):
        chosen = _choose(brief, catalogue, need, weights, choosing)
        banks = _banks(chosen)
        charge = _charging(brief, catalogue, banks, chosen, choosing)
        weights = floating.weights(brief, tuple(floating.Load(c.thruster, c.chain) for c in chosen), banks, charge)
        now = tuple(
            (c.chain.unit.id, c.chain.bank.block.id if c.chain.bank else "", c.chain.bank.parallel if c.chain.bank else 0)
            for c in chosen
        )
        if now == rows:
            break
        rows = now
        need = needed(brief, floating.rise(brief, weights))
    return _assemble(brief, catalogue, need, chosen, weights, defaults, choosing, rehearse)


def _choose(brief: Brief, catalogue: Catalogue, need: Need, weights: tuple[Weight, ...], choosing: bool) -> list[Chosen]:
    found: dict[str, Chosen] = {}
    for wish in banking.wishes(brief):
        found |= _choose_bank(brief, catalogue, need, weights, wish, choosing)
    return [found[thruster.identity] for thruster in brief.thrusters]


def _choose_bank(
    brief: Brief, catalogue: Catalogue, need: Need, weights: tuple[Weight, ...], wish: banking.Wish, choosing: bool
) -> dict[str, Chosen]:
    """All units of one bank, to a fixed point: each with the others' current on the bank, on one and the same bank."""
    found: dict[str, Chosen] = {}
    bank: Bank | None = None
    shared = len(wish.feeds) > 1
    for turn in range(SHARED_TURNS if shared else 1):
        before = {name: (c.chain.unit.id, _bank_key(c.chain.bank)) for name, c in found.items()}
        for identity in wish.feeds:
            others = [c.chain for name, c in found.items() if name != identity]
            found[identity] = _choose_lane(brief, catalogue, need, weights, wish, identity, others, bank, choosing)
        if shared:
            sizes = [c.chain.bank for c in found.values() if c.chain.bank is not None]
            bank = max(sizes, key=lambda b: (b.capacity, b.mass), default=None)
        if turn and {name: (c.chain.unit.id, _bank_key(c.chain.bank)) for name, c in found.items()} == before:
            break
    return found


def _bank_key(bank: Bank | None) -> tuple[object, ...]:
    return () if bank is None else (bank.block.id, bank.series, bank.parallel)


def _choose_lane(
    brief: Brief,
    catalogue: Catalogue,
    need: Need,
    weights: tuple[Weight, ...],
    wish: banking.Wish,
    identity: str,
    others: list[chain.Chain],
    bank: Bank | None,
    choosing: bool,
) -> Chosen:
    thruster = brief.thruster(identity)
    case = need.ruling(identity)
    given = aboard.given(brief, identity)
    drop = floating.waterline_drop(brief, thruster, weights)
    setting = refusals.Setting(brief, thruster, drop)
    loads = wish.given.shared_with if wish.given is not None else ()
    task = chain.Task(
        brief,
        catalogue,
        thruster,
        wish,
        given,
        chain.required_thrust(case.asked, _sigma(case), brief),
        _immersion(catalogue, thruster, drop, need.heel or 0.0),
        need.run_time * (1 + brief.choices.margins.run_time),
        need.energy_share,
        sum(c.design.current for c in others if c.design) + sum(load.current for load in loads if load.at_the_same_time),
        sum(c.peak.current for c in others if c.peak) + sum(load.current for load in loads),
        _in_petrol_space(brief, thruster, wish),
        bank,
        choosing,
        {d: floating.tunnel_share(thruster.tunnel, d) for d in {u.tunnel_diameter for u in catalogue.units if u.tunnel_diameter}},
    )
    own = aboard.unit_of(catalogue, given, identity)
    if own is not None and (not choosing or given.keep("unit") == "fixed"):
        judged, _ = _judge(task, own)
        shown = chain.completed(task, judged) if judged is not None and choosing else judged
        return _chosen(task, case, shown, given.keep("unit"), (), drop)
    rejections: list[Rejection] = []
    passing: list[chain.Chain] = []
    nearest: tuple[float, chain.Chain] | None = None
    pool = sorted(catalogue.units, key=lambda u: (u is not own, u.thrust, u.id))
    for unit in pool:
        reason = refusals.refusal(unit, setting)
        if reason is not None:
            rejections.append(Rejection(unit.id, unit.name, *reason[:3], identity, reason[3]))
            continue
        judged, most = _judge(task, unit)
        if judged is not None and judged.adequate and judged.thrust >= task.required * (1 - 1e-9):
            passing.append(judged)
            if unit is own:
                break
            continue
        rejections.append(_too_weak(task, unit, judged, most))
        margin = rejections[-1].margin if rejections[-1].margin is not None else -1.0
        if judged is not None and (nearest is None or margin > nearest[0]):
            nearest = margin, judged
    if passing:
        kept_own = next((c for c in passing if c.unit is own), None)
        best = kept_own or min(passing, key=lambda c: _preference(brief, c))
        rejections += [_outdone(task, best, c) for c in passing if c is not best]
        note = () if own is None or kept_own is not None else _why_unit_replaced(own, rejections)
        best = replace(best, replaced=(*note, *best.replaced))
        return _chosen(task, case, best, "aboard" if kept_own is not None else "chosen", tuple(rejections), drop)
    unit, short = _least_refused(pool, rejections, task.required)
    if nearest is not None and (nearest[1].unit.drive == "hydraulic" or -nearest[0] <= short):
        shown = _with_reason(chain.completed(task, nearest[1]), own, rejections)
        return _chosen(task, case, shown, "aboard" if shown.unit is own else "chosen", tuple(rejections), drop)
    judged, _ = _judge(task, unit)
    least = _with_reason(chain.completed(task, judged), own, rejections) if judged is not None else None
    refused = _chosen(task, case, least, "aboard" if unit is own else "chosen", tuple(rejections), drop)
    return replace(refused, passes=False)  # whatever its chain gives


def _with_reason(shown: chain.Chain, own: ThrusterUnit | None, rejections: list[Rejection]) -> chain.Chain:
    """The chain with the reason why the unit aboard is not it."""
    if own is None or shown.unit is own:
        return shown
    return replace(shown, replaced=(*_why_unit_replaced(own, rejections), *shown.replaced))


def _why_unit_replaced(own: ThrusterUnit, rejections: list[Rejection]) -> tuple[str, ...]:
    reason = next((r for r in rejections if r.row == own.id), None)
    return (f"unit {own.id} aboard: {reason.rule}: {reason.figure} against {reason.limit}",) if reason is not None else ()


REFUSED_OUTRIGHT = 0.5
"""How far off a unit counts that a rule refuses without a figure: kind, housing, petrol vapour (own judgement)."""


def _least_refused(pool: list[ThrusterUnit], rejections: list[Rejection], required: Newton) -> tuple[ThrusterUnit, float]:
    """Where no unit passes: the electric one that is least far off, by thrust and by the rule that refuses it; how far."""
    margins = {r.row: (REFUSED_OUTRIGHT if r.margin is None else max(0.0, -r.margin)) for r in rejections}

    def off(unit: ThrusterUnit) -> float:
        return max(margins.get(unit.id, REFUSED_OUTRIGHT), 1.0 - unit.thrust / required if required > 0.0 else 0.0)

    found = min(pool, key=lambda u: (u.drive == "hydraulic", round(off(u), 6), u.thrust, u.id))
    return found, off(found)


def _judge(task: chain.Task, unit: ThrusterUnit) -> tuple[chain.Chain | None, Newton]:
    if unit.drive == "hydraulic":
        return hydraulic.judge(task, unit), unit.thrust
    return chain.best_chain(task, unit)


def _sigma(case: Case) -> Ratio:
    own = uncertainty.thrust_sigma(uncertainty.CATALOGUE_THRUST, running.VOLTS_SIGMA, uncertainty.IMMERSION)
    return float((case.sigma**2 + own**2) ** 0.5)


def _immersion(catalogue: Catalogue, thruster: Thruster, drop: float, heel: float) -> dict[float, float]:
    diameters = {unit.tunnel_diameter for unit in catalogue.units if unit.tunnel_diameter}
    return {diameter: floating.depth_left(thruster.tunnel, drop, diameter, heel) for diameter in diameters}


def _in_petrol_space(brief: Brief, thruster: Thruster, wish: banking.Wish) -> bool:
    if brief.boat.petrol_aboard == "no":
        return False
    return any(place is not None and place.petrol_space for place in (brief.place(thruster.place), brief.place(wish.place)))


def _preference(brief: Brief, c: chain.Chain) -> tuple[object, ...]:
    noise = c.unit.noise if c.unit.noise is not None else 200.0
    first: dict[str, tuple[float, ...]] = {
        "smallest adequate": (float(int(c.thrust / THRUST_STEP)), c.mass),
        "lightest": (c.mass, c.price),
        "cheapest": (c.price, c.mass),
        "quietest": (noise, c.mass),
    }
    return (*first[brief.choices.prefer], c.price, c.unit.id)


def _outdone(task: chain.Task, best: chain.Chain, other: chain.Chain) -> Rejection:
    prefer = task.brief.choices.prefer
    figures = {
        "smallest adequate": lambda c: f"{_newtons(c.thrust)}, {units.show(round(c.mass), 'mass', 'kg', plain=True)}",
        "lightest": lambda c: units.show(round(c.mass), "mass", "kg", plain=True),
        "cheapest": lambda c: f"{c.price:.0f}",
        "quietest": lambda c: f"{c.unit.noise or 0:.0f} dBA",
    }
    return Rejection(
        other.unit.id,
        other.unit.name,
        f"passes, another is preferred: {prefer}",
        figures[prefer](other),
        figures[prefer](best),
        task.thruster.identity,
        0.0,
    )


def _newtons(thrust: Newton) -> str:
    return units.show(float(round(thrust)), "force", "N", digits=4, plain=True)


def _too_weak(task: chain.Task, unit: ThrusterUnit, judged: chain.Chain | None, most: Newton) -> Rejection:
    identity = task.thruster.identity
    if judged is None:
        return Rejection(
            unit.id, unit.name, "no bank of the catalogue makes its volts", f"{unit.volts:g} V", "a bank", identity, None
        )
    if unit.drive == "hydraulic":
        first = judged.broken[0]
        if first[0] != hydraulic.NOT_COMPUTED:
            return Rejection(unit.id, unit.name, *limit_words(first), identity, None)
        return Rejection(
            unit.id,
            unit.name,
            "thrust of a hydraulic unit is not computed yet",
            "not computed",
            _newtons(task.required),
            identity,
            None,
        )
    reaches = judged.thrust if judged.adequate else most
    if max(reaches, most) < task.required:
        return Rejection(
            unit.id,
            unit.name,
            TOO_WEAK,
            _newtons(max(reaches, most)),
            _newtons(task.required),
            identity,
            (max(reaches, most) - task.required) / task.required,
        )
    if judged.broken:
        _, value, limit, _ = judged.broken[0]
        margin = -abs(value - limit) / abs(limit) if limit else -1.0
        return Rejection(unit.id, unit.name, *limit_words(judged.broken[0]), identity, margin)
    return Rejection(
        unit.id,
        unit.name,
        TOO_WEAK,
        _newtons(judged.thrust),
        _newtons(task.required),
        identity,
        (judged.thrust - task.required) / task.required,
    )


def _chosen(
    task: chain.Task, case: Case, judged: chain.Chain | None, kept: Keep, rejections: tuple[Rejection, ...], drop: float
) -> Chosen:
    if judged is None:
        raise NotComputed(
            f"no bank of the catalogue makes the volts of a unit for {task.thruster.identity}, so there is no chain to judge"
        )
    passes = judged.adequate and judged.thrust >= task.required * (1 - 1e-9)
    return Chosen(task.thruster, case, judged, task.required, task.wish, task.given, kept, passes, rejections, drop)


def _banks(chosen: list[Chosen]) -> tuple[Bank, ...]:
    found: dict[str, Bank] = {}
    for c in chosen:
        if c.chain.bank is not None:
            known = found.get(c.chain.bank.name)
            if known is None or c.chain.bank.capacity > known.capacity:
                found[c.chain.bank.name] = c.chain.bank
    return tuple(found.values())


def _charging(
    brief: Brief, catalogue: Catalogue, banks: tuple[Bank, ...], chosen: list[Chosen], choosing: bool
) -> tuple[ChargingChoice, ...]:
    found = []
    for bank in banks:
        on = [c for c in chosen if c.chain.bank is not None and c.chain.bank.name == bank.name]
        given = next((c.given for c in on if c.given.parts.charger is not None), on[0].given)
        found.append(charging.choose(brief, catalogue, bank, tuple(c.chain for c in on), given, choosing))
    return tuple(_together(choice, found) for choice in found)


def _together(choice: ChargingChoice, everything: list[ChargingChoice]) -> ChargingChoice:
    """What the alternator has left when every charger on its battery draws at once."""
    if choice.alternator_idle_margin is None:
        return choice
    others = sum(other.input_current for other in everything if other is not choice and other.from_battery == choice.from_battery)
    return replace(choice, alternator_idle_margin=choice.alternator_idle_margin - others)


def _assemble(
    brief: Brief,
    catalogue: Catalogue,
    need: Need,
    chosen: list[Chosen],
    weights: tuple[Weight, ...],
    defaults: tuple[tuple[str, str], ...],
    choosing: bool,
    rehearse: Rehearse | None,
) -> Proposal:
    banks = _banks(chosen)
    charge = _charging(brief, catalogue, banks, chosen, choosing)
    lanes = tuple(_lane(brief, c, index + 1, chosen, catalogue, need.heel or 0.0) for index, c in enumerate(chosen))
    lanes = tuple(linking.with_link(brief, catalogue, lane, banks, charge, choosing) for lane in lanes)
    network: NetworkChoice | None = control.choose(brief, catalogue, lanes, banks, choosing)
    netlist = wire(brief, catalogue, lanes, banks, charge, network)
    lanes = tuple(
        _settled(brief, need, lane, c.required) for lane, c in zip(settle(brief, lanes, banks, netlist), chosen, strict=True)
    )
    trim = floating.trim_of(brief, weights)
    proposal = Proposal(
        brief,
        catalogue,
        need,
        lanes,
        banks,
        charge,
        network,
        netlist,
        trim,
        tuple(r for c in chosen for r in c.rejections),
        (),
        (),
        (),
        defaults,
        trim.mass,
        _price(lanes, banks, charge),
        "propose" if choosing else "check",
    )
    found, why = cases_of(proposal)
    proposal = replace(proposal, unverified=answers.unverified(proposal), cases=found, no_cases=why)
    if rehearse is not None:
        proposal = _rehearsed(proposal, rehearse)
    proposal = replace(proposal, findings=examine(proposal))
    return replace(proposal, answers=answers.six(proposal))


def _rehearsed(p: Proposal, rehearse: Rehearse) -> Proposal:
    try:
        done, left_out = rehearse(p)
    except NotComputed as error:
        done, left_out = (), (("all manoeuvres", str(error)),)
    return replace(p, rehearsals=done, not_rehearsed=left_out)


def _price(lanes: tuple[Lane, ...], banks: tuple[Bank, ...], charge: tuple[ChargingChoice, ...]) -> float:
    total = 0.0
    for lane in lanes:
        total += lane.unit.price if lane.kept == "chosen" else 0.0
        if lane.cable is not None and lane.cable.kept == "chosen":
            total += lane.cable.cable.price * lane.cable.parallel * (lane.cable.plus + lane.cable.minus)
        total += lane.fuse.fuse.price if lane.fuse is not None and lane.fuse.kept == "chosen" else 0.0
        total += sum(part.price for part in (lane.switch, lane.stop, lane.panel) if part is not None)
    total += sum(bank.block.price * bank.blocks for bank in banks if bank.kept == "chosen")
    return total + sum(c.charger.price for c in charge if c.charger is not None and c.kept == "chosen")


def _lane(brief: Brief, c: Chosen, number: int, everything: list[Chosen], catalogue: Catalogue, heel: float) -> Lane:
    unit, found = c.chain.unit, c.chain
    spread = uncertainty.thrust_sigma(uncertainty.CATALOGUE_THRUST, running.VOLTS_SIGMA, uncertainty.IMMERSION)
    diameter = unit.tunnel_diameter or 0.0
    cover = c.thruster.tunnel.axis_depth - c.drop - diameter / 2
    loads = [other_loads(brief, found.bank, state) if found.bank is not None else 0.0 for state in ("design", "peak")]
    full, half, limit = running_times(found, *loads)
    design = replace(found.design, thrust_sigma=spread) if found.design is not None else None
    panel = next((row for helm in brief.helms for row in catalogue.panels if row.id == helm.panel), None) or _panel(
        catalogue, unit
    )
    return Lane(
        number,
        c.thruster,
        unit,
        c.kept,
        found.bank.name if found.bank is not None else None,
        found.cable,
        found.fuse,
        found.switch,
        found.stop,
        panel,
        design,
        found.peak,
        _both(c, everything),
        None,
        None,
        None,
        full,
        half,
        limit,
        found.faults,
        found.start,
        cover,
        cover / diameter if diameter else 0.0,
        floating.depth_left(c.thruster.tunnel, c.drop, diameter, heel),
        found.mass,
        c.passes,
        found.replaced,
        None,
        hydraulic.NOT_COMPUTED if unit.drive == "hydraulic" else "",
        found.stop.stop_kind if found.stop is not None else "",
        hydraulic.limits(brief, unit, catalogue) if unit.drive == "hydraulic" else (),
        floating.tunnel_share(c.thruster.tunnel, diameter) if diameter and unit.in_tunnel else 1.0,
    )


LEAST_NEED: Newton = 1.0
"""Below this a need is none: the headings asked let the wind by."""
SETTLED_WITHIN = 1e-3
"""Share by which the solved circuit may fall short of what the search found before a lane no longer passes."""


def _settled(brief: Brief, need: Need, lane: Lane, required: Newton) -> Lane:
    """Wind held and chance of holding from the solved thrust; what the circuit itself does not give does not pass."""
    state = lane.both_design or lane.design
    case = need.ruling(lane.thruster.identity)
    if state is None or state.thrust <= 0:
        return lane
    most = most_looked(brief)
    return replace(
        lane,
        passes=lane.passes and state.thrust >= required * (1 - SETTLED_WITHIN),
        wind_held_worst=balance.wind_held(brief.wind.speed, case.worst, state.thrust) if case.worst > LEAST_NEED else most,
        wind_held_beam=balance.wind_held(brief.wind.speed, case.beam, state.thrust) if case.beam > LEAST_NEED else most,
        chance=uncertainty.hold_probability(state.thrust, case.worst, state.thrust_sigma, case.sigma)
        if case.worst > LEAST_NEED
        else 1.0,
    )


def _panel(catalogue: Catalogue, unit: ThrusterUnit) -> Panel | None:
    rows = [row for row in catalogue.panels if row.control == unit.control and not row.wireless]
    return min(rows, key=lambda row: (row.price, row.id), default=None)


def _both(c: Chosen, everything: list[Chosen]) -> LaneState | None:
    """The lane with every other unit of its bank running, None where it is alone."""
    if c.chain.bank is None or c.chain.design is None:
        return None
    others = [o for o in everything if o is not c and o.chain.bank is not None and o.chain.bank.name == c.chain.bank.name]
    if not others:
        return None
    return c.chain.design


def running_times(found: chain.Chain, others: float = 0.0, others_peak: float = 0.0) -> tuple[float | None, float | None, str]:
    """Run time at full and at half thrust, and what ends it first; ``others`` are other loads on the bank, design and peak."""
    unit, bank, design, peak = found.unit, found.bank, found.design, found.peak
    if bank is None or design is None or peak is None:
        return None, None, "not computed yet"
    by_bank = running.time_on_charge(bank.capacity_design, design.current, others)
    options = [(by_bank, "battery charge")]
    if unit.at_limit == "trips" and unit.rated_time is not None and unit.rated_current is not None:
        options.append((running.time_to_trip(unit.rated_time, unit.rated_current, peak.current), "motor heat"))
    held = bank.block.discharge_continuous
    each = (peak.current + others_peak) / bank.parallel
    if bank.block.discharge_peak is not None and each > bank.block.discharge_peak:
        options.append((0.0, "battery protection circuit"))
    if bank.string_fuse is not None:
        fuse, family = bank.string_fuse
        options.append((opening_band(family, fuse.rating, each).least, "string fuse"))
    if held is not None and each > held and bank.block.discharge_peak_time is not None:
        options.append((bank.block.discharge_peak_time, "battery protection circuit"))
    if found.fuse is not None:
        options.append(
            (opening_band(found.fuse.family, found.fuse.fuse.rating, max(peak.current, design.current)).least, "main fuse")
        )
    full, limit = min(options)
    if unit.control == "on/off":
        return full, 2 * full, limit
    half_current = (
        running.run(unit, "design", bank.open_volts_design, bank.resistance_design + design.path_resistance, 0.5).current
        if (running.is_constant_power(unit))
        else design.current * 0.5**1.5 / 0.5**0.5
    )
    half = min(
        bank.capacity_design / (half_current + others),
        *(t * (design.current / half_current) ** 2 for t, name in options if name == "motor heat"),
        float("inf"),
    )
    return full, half, limit
