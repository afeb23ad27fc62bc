"""A unit with its own complete chain: the smallest adequate bank, cable, fuse, switch and stop, then its thrust.

The stated rule. Banks are tried from the lightest, and for each bank cables from the smallest; for each cable the smallest fuse.
A chain is adequate when: terminal volts in the design state stay above the unit's least; the charge of one docking and the
longest hold is there; a protection circuit lets the currents through; the cable keeps its limits; a fuse passes; a main switch
and a stop exist. The first adequate chain whose thrust reaches what is required is taken; where thrust falls short the search
goes on to the next cable and then the next bank, since volts are what a larger one buys. Label thrust is never compared.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from math import exp
from statistics import NormalDist

from athwart.catalogue.records import BatteryBlock, Cable, Catalogue, Contactor, Fuse, FuseFamily, Switch, ThrusterUnit
from athwart.design import states
from athwart.design.brief import Brief, Thruster
from athwart.design.limits import Limit, against
from athwart.design.places import RunOf, run_between
from athwart.design.proposal import Bank, CableChoice, Fault, FuseChoice, Keep, LaneState
from athwart.design.search import aboard, banking, cabling, fusing, running, switching
from athwart.errors import NotComputed
from athwart.power.ampacity import Ampacity
from athwart.power.contact import FUSE_HOT_OVER_COLD, JOINTS
from athwart.power.fault import prospective_current
from athwart.power.fuse import opening_band
from athwart.power.rules import RULE_SETS
from athwart.units import Ampere, Newton, Ohm, Ratio, Second, Volt

FUSE_HOT: Ratio = FUSE_HOT_OVER_COLD
"""Resistance of a loaded fuse over its cold one."""
PIECES_PLUS = 4
PIECES_MINUS = 1


@dataclass(frozen=True, slots=True)
class Task:
    """What a chain must do, and with what."""

    brief: Brief
    catalogue: Catalogue
    thruster: Thruster
    wish: banking.Wish
    given: aboard.Given
    required: Newton
    immersion: dict[float, float]  # tunnel diameter -> thrust factor
    run_time: Second
    docking_time: Second
    other_design: Ampere = 0.0
    other_peak: Ampere = 0.0
    ignition: bool = False
    bank_fixed: Bank | None = None
    choose: bool = True
    tunnel: Mapping[float, float] = field(default_factory=dict)  # tunnel diameter -> share its losses leave

    def left(self, unit: ThrusterUnit) -> Ratio:
        """Share of a unit's thrust that depth and tunnel leave."""
        diameter = unit.tunnel_diameter or 0.0
        own = self.tunnel.get(diameter, 1.0) if unit.in_tunnel else 1.0
        return self.immersion.get(diameter, 1.0) * own

    @property
    def run(self) -> RunOf:
        """Route from bank to unit."""
        return run_between(self.brief, self.wish.place, self.thruster.place)


@dataclass(frozen=True, slots=True)
class Chain:
    """A unit with everything behind it."""

    unit: ThrusterUnit
    bank: Bank | None
    cable: CableChoice | None
    fuse: FuseChoice | None
    switch: Switch | None
    stop: Contactor | None
    design: LaneState | None
    peak: LaneState | None
    thrust: Newton
    start: Ampere | None
    faults: tuple[Fault, ...]
    broken: tuple[Limit, ...]
    replaced: tuple[str, ...] = ()

    @property
    def adequate(self) -> bool:
        """Whether the chain is whole and no limit is broken: a chain that was only looked at has no fuse yet."""
        return not self.broken and self.fuse is not None

    @property
    def mass(self) -> float:
        """Unit, blocks and cable."""
        cable = self.cable.cable.mass * self.cable.parallel * (self.cable.plus + self.cable.minus) if self.cable else 0.0
        return self.unit.mass + (self.bank.mass if self.bank else 0.0) + cable

    @property
    def price(self) -> float:
        """Unit, blocks, cable, fuse, switch, stop."""
        cable = self.cable.cable.price * self.cable.parallel * (self.cable.plus + self.cable.minus) if self.cable else 0.0
        parts = (self.fuse.fuse if self.fuse else None, self.switch, self.stop)
        return (
            self.unit.price
            + (self.bank.block.price * self.bank.blocks if self.bank else 0.0)
            + cable
            + sum(part.price for part in parts if part)
        )


def run_of(task: Task, kept: Mapping[str, Keep]) -> RunOf:
    """The route, with the length of the cable aboard where that is kept and gives one; unsaid, the longer reading is taken."""
    cable = task.given.parts.cable if kept.get("cable") in ("aboard", "fixed") else None
    if cable is None or cable.length is None:
        return task.run
    one_way = 0.5 * cable.length if cable.length_is == "there and back" else cable.length
    words = "as aboard" if cable.length_is is not None else "as aboard, taken as one way"
    return replace(task.run, plus=one_way, minus=one_way, given=True, words=f"{task.run.words}, length {words}")


def required_thrust(worst: Newton, sigma: Ratio, brief: Brief) -> Newton:
    """Nominal need with the brief's margin, or more where a chance of holding is asked for."""
    margin = 1.0 + brief.choices.margins.thrust
    asked = brief.choices.hold_probability
    if asked is not None and 0.5 < asked < 1.0:
        margin = max(margin, exp(NormalDist().inv_cdf(asked) * sigma))
    return worst * margin


def joints(plus: int = PIECES_PLUS, minus: int = PIECES_MINUS, parallel: int = 1) -> Ohm:
    """Lugs at both ends of every piece of the lane."""
    return JOINTS["lug"].usual * 2 * (plus + minus) / parallel


STRING_FUSE_OVER = 1.25
"""A string's fuse over its share of the current (own judgement)."""


@lru_cache(maxsize=512)
def _carrying(catalogue: _Hold, current: Ampere, volts: Volt, time: Second) -> tuple[tuple[Ampere, Fuse, FuseFamily], ...]:
    """Fuses that carry a string's share for the run, each with what it breaks, smallest first."""
    families = catalogue.value.fuse_families
    found = []
    for fuse in sorted(catalogue.value.fuses, key=lambda f: (f.rating, f.price, f.id)):
        family = families[fuse.family]
        breaks = next((amperes for upto, amperes in family.breaking_capacity if volts <= upto), 0.0)
        if family.volts_most >= volts and opening_band(family, fuse.rating, current).least >= 1.25 * time:
            found.append((breaks, fuse, family))
    return tuple(found)


class _Hold:
    """Identity wrapper, so that a catalogue can be part of a cache key."""

    __slots__ = ("value",)

    def __init__(self, value: Catalogue) -> None:
        self.value = value

    def __hash__(self) -> int:
        return id(self.value)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Hold) and other.value is self.value


def string_fuse(
    task: Task, block: BatteryBlock, series: int, parallel: int, current: Ampere, fault: Ampere
) -> tuple[Fuse, FuseFamily] | None:
    """The fuse at each string's positive: carries a quarter more than its share for the longest run, and the share of other loads
    for ever; breaks what the other strings feed into it."""
    if parallel < 2:
        return None
    volts = block.charge_volts * series
    share = round(STRING_FUSE_OVER * current / parallel, 0)
    others = fault * (parallel - 1) / parallel
    carrying = _carrying(_Hold(task.catalogue), share, volts, task.run_time)
    lasting = STRING_FUSE_OVER * task.other_peak / parallel
    return next(
        ((fuse, family) for breaks, fuse, family in carrying if breaks >= others and fuse.rating >= lasting * (1 - 1e-9)), None
    )


def _state(
    name: str, unit: ThrusterUnit, bank: Bank, path: Ohm, other: Ampere, temperature: float, immersion: Ratio
) -> tuple[LaneState, Newton]:
    design = name == "design"
    emf = bank.open_volts_design if design else bank.running_volts
    source = bank.resistance_design if design else bank.resistance_new
    point = running.run(unit, "design" if design else "peak", emf - source * other, source + path)
    basis = running.GROSS_TO_NET if unit.thrust_basis == "gross" else 1.0
    ratio = point.thrust_ratio if design else running.thrust_ratio_at(unit, "peak", point.terminal_volts)
    thrust = running.thrust_delivered(unit.thrust, ratio, immersion, basis)
    state = LaneState(
        "design" if design else "peak",
        emf,
        source,
        path,
        point.current,
        emf - source * (point.current + other),
        point.terminal_volts,
        thrust,
        temperature,
        (),
    )
    return state, thrust


def evaluate(
    task: Task, unit: ThrusterUnit, bank: Bank, cable: Cable, parallel: int, kept: dict[str, Keep], *, finish: bool = True
) -> Chain:
    """One chain judged: a fuse, switch and stop are chosen for it where ``finish`` and nothing cheaper to find out is broken."""
    brief, run = task.brief, run_of(task, kept)
    part = task.given.parts
    immersion = task.left(unit)
    aboard_cable = part.cable if kept.get("cable") in ("aboard", "fixed") else None
    lugs = joints(parallel=parallel)
    if aboard_cable is not None and aboard_cable.joints is not None:
        lugs = (
            JOINTS["lug"].usual if aboard_cable.joint_resistance is None else aboard_cable.joint_resistance
        ) * aboard_cable.joints
    elif aboard_cable is not None and aboard_cable.joint_resistance is not None:
        lugs = aboard_cable.joint_resistance * 2 * (PIECES_PLUS + PIECES_MINUS)
    gear_cold = GEAR
    copper_hot = cabling.path_copper(cable, parallel, run, states.CONDUCTOR_HOT)
    copper_cold = cabling.path_copper(cable, parallel, run, states.CONDUCTOR_COLD)
    try:
        design, thrust = _state(
            "design", unit, bank, copper_hot + lugs + gear_cold * FUSE_HOT, task.other_design, states.CONDUCTOR_HOT, immersion
        )
        peak, _ = _state("peak", unit, bank, copper_cold + lugs + gear_cold, task.other_peak, states.CONDUCTOR_COLD, immersion)
    except NotComputed as error:
        broken: tuple[Limit, ...] = ((f"the unit does not run: {error}", 0.0, 0.0, False),)
        allowed = cabling.allowed_current(brief.choices.rule_set, cable, run.engine_space, run.bundled)
        still = _choice(cable, parallel, run, kept, (), allowed, lugs)
        return Chain(unit, bank, still, None, None, None, None, None, 0.0, None, (), broken)
    current = max(design.current, peak.current)
    start = running.start_current(unit, bank.charging_volts, bank.resistance_new + peak.path_resistance)
    limits = [*_bank_limits(task, unit, bank, design, peak, start)]
    limits += _motor_limits(unit, current, task.run_time)
    judged = cabling.judge(brief, unit, cable, parallel, run, current, task.run_time)
    limits += judged.limits
    broken = tuple(limit for limit in limits if not limit[3])
    choice = _choice(cable, parallel, run, kept, tuple(judged.limits), judged.ampacity, lugs)
    chain = Chain(unit, bank, choice, None, None, None, design, peak, thrust, start, (), broken)
    if not finish or (broken and task.choose):
        return chain
    return _finish(task, chain, choice, design, peak, current, start)


def _choice(
    cable: Cable, parallel: int, run: RunOf, kept: dict[str, Keep], limits: tuple[Limit, ...], allowed: Ampacity | None, lugs: Ohm
) -> CableChoice:
    return CableChoice(
        cable,
        parallel,
        run.plus,
        run.minus,
        kept.get("cable", "chosen"),
        limits,
        allowed.value if allowed else 0.0,
        bool(allowed and allowed.verified),
        run.words,
        run.engine_space,
        run.bundled,
        2 * (PIECES_PLUS + PIECES_MINUS),
        lugs,
    )


GEAR: Ohm = JOINTS["fuse"].usual / FUSE_HOT + JOINTS["switch"].usual + JOINTS["contactor"].usual
"""Fuse, main switch and stop before they are known: usual values of the 300 A class."""


def _motor_limits(unit: ThrusterUnit, current: Ampere, time: Second) -> list[Limit]:
    """Time to the trip at the largest current, from the rated point by the square of current, against the longest hold."""
    if unit.at_limit != "trips" or unit.rated_time is None or unit.rated_current is None:
        return []
    left = running.time_to_trip(unit.rated_time, unit.rated_current, current)
    return [("motor's time to its trip at the largest current, s", left, time, left >= time)]


def _bank_limits(task: Task, unit: ThrusterUnit, bank: Bank, design: LaneState, peak: LaneState, start: Ampere) -> list[Limit]:
    block = bank.block
    least = running.least_volts(unit)
    charge = design.current * (task.docking_time + task.run_time) + task.other_design * task.run_time
    limits: list[Limit] = [
        ("terminal volts in the design state, V", design.terminal_volts, least, design.terminal_volts >= least),
        (
            "charge of a docking and the longest hold, Ah",
            charge / 3600,
            bank.capacity_design / 3600,
            charge <= bank.capacity_design,
        ),
    ]
    if bank.kept == "chosen" and task.wish.given is not None:
        limits += [
            (f"{LEFT_FOR} {load.name}, V", design.bank_volts, load.least_volts, design.bank_volts >= load.least_volts)
            for load in task.wish.given.shared_with
            if load.least_volts is not None
        ]
    if bank.parallel > 1 and bank.kept == "chosen":
        limits.append(
            ("a fuse at the positive of each string", float(bank.string_fuse is not None), 1.0, bank.string_fuse is not None)
        )
    each = max(design.current + task.other_design, peak.current + task.other_peak) / bank.parallel
    if block.discharge_continuous is not None:
        lasting = each <= block.discharge_continuous or (
            block.discharge_peak is not None
            and each <= block.discharge_peak
            and (block.discharge_peak_time or 0.0) >= task.run_time
        )
        bound = (
            block.discharge_continuous
            if (block.discharge_peak_time or 0.0) < task.run_time
            else (block.discharge_peak or block.discharge_continuous)
        )
        limits.append(("protection circuit for the longest run, A a string", each, bound, lasting))
        if block.discharge_peak is not None:
            limits.append(
                (
                    "protection circuit at the start, A a string",
                    start / bank.parallel,
                    block.discharge_peak,
                    start / bank.parallel <= block.discharge_peak,
                )
            )
    if block.cut_off_volts is not None:
        block_volts = design.bank_volts / bank.series
        limits.append(
            ("block volts above the protection's cut-off, V", block_volts, block.cut_off_volts, block_volts > block.cut_off_volts)
        )
    if block.discharge_coldest is not None and task.brief.duty.coldest_bank is not None:
        cold = task.brief.duty.coldest_bank
        limits.append(
            (
                "coldest the block may be discharged, °C",
                cold - states.ZERO,
                block.discharge_coldest - states.ZERO,
                cold >= block.discharge_coldest,
            )
        )
    return limits


def _finish(
    task: Task,
    chain: Chain,
    choice: CableChoice,
    design: LaneState,
    peak: LaneState,
    current: Ampere,
    start: Ampere,
    *,
    whatever: bool = False,
) -> Chain:
    """Fuse, switch and stop, then the states again with their own resistances, until the same rows come out.

    ``whatever`` is broken, the parts are chosen all the same: the chain is going to be shown.
    """
    done = chain
    rows: tuple[object, ...] = ()
    for _ in range(GEAR_TURNS):
        done = _with_gear(task, replace(chain, design=design, peak=peak), choice, design, peak, current, start, whatever)
        now = tuple(
            part.id if part is not None else None for part in (done.fuse.fuse if done.fuse else None, done.switch, done.stop)
        )
        if now == rows:
            break
        rows = now
        design, peak = _again(task, done, choice)
        current = max(design.current, peak.current)
    assert done.bank is not None
    late = tuple(limit for limit in _bank_limits(task, done.unit, done.bank, design, peak, start) if not limit[3])
    return replace(
        done,
        design=design,
        peak=peak,
        thrust=design.thrust,
        broken=(*late, *(b for b in done.broken if b[0] not in {x[0] for x in late})),
    )


GEAR_TURNS = 3
LEFT_FOR = "volts left on the bank for"
"""Begins the limit of another consumer's least volts."""


def _again(task: Task, done: Chain, choice: CableChoice) -> tuple[LaneState, LaneState]:
    assert done.bank is not None
    gear = [part for part in (done.fuse.fuse if done.fuse else None, done.switch, done.stop) if part is not None]
    pieces = 1 + len(gear)
    cold = sum(part.resistance for part in gear)
    hot = cold + (FUSE_HOT - 1) * (done.fuse.fuse.resistance if done.fuse else 0.0)
    lugs = choice.joint_resistance if choice.kept != "chosen" else joints(pieces, PIECES_MINUS, choice.parallel)
    immersion = task.left(done.unit)
    run = run_of(task, {"cable": choice.kept})
    copper = [cabling.path_copper(choice.cable, choice.parallel, run, t) for t in (states.CONDUCTOR_HOT, states.CONDUCTOR_COLD)]
    design, _ = _state("design", done.unit, done.bank, copper[0] + lugs + hot, task.other_design, states.CONDUCTOR_HOT, immersion)
    peak, _ = _state("peak", done.unit, done.bank, copper[1] + lugs + cold, task.other_peak, states.CONDUCTOR_COLD, immersion)
    return design, peak


def _with_gear(
    task: Task,
    chain: Chain,
    choice: CableChoice,
    design: LaneState,
    peak: LaneState,
    current: Ampere,
    start: Ampere,
    whatever: bool,
) -> Chain:
    brief, bank, part = task.brief, chain.bank, task.given.parts
    assert bank is not None
    rules = RULE_SETS[brief.choices.rule_set]
    air = cabling.air_temperature(rules, choice.engine_space)
    least_fault = prospective_current(bank.open_volts_design, bank.resistance_design + design.path_resistance)
    locked = running.start_current(chain.unit, bank.open_volts_design, bank.resistance_design + design.path_resistance)
    duty = fusing.FuseDuty(
        current,
        task.run_time,
        bank.fault_current_most,
        least_fault,
        bank.charging_volts,
        choice.ampacity * choice.parallel,
        air,
        locked,
    )
    broken = list(chain.broken)
    replaced: list[str] = []
    switch, stop = _switching(task, current, start, bank, replaced, broken)
    if task.choose and broken and not whatever:  # no fuse makes up for a missing switch
        return replace(chain, switch=switch, stop=stop, broken=tuple(broken), replaced=tuple(replaced))
    fuse = None
    has_fuse = aboard.fuse_of(task.catalogue, part.fuse, task.thruster.identity) if part.fuse is not None else None
    distance = part.fuse.from_source if part.fuse is not None and part.fuse.from_source is not None else fusing.FROM_SOURCE
    if not task.choose:
        if has_fuse is not None:
            fuse = fusing.judged_alone(
                brief, task.catalogue, duty, choice.cable, choice.parallel, locked, has_fuse, task.given.keep("fuse"), distance
            )
            broken += [limit for limit in fuse.limits if not limit[3]]
    else:
        kept_fuse = (has_fuse, task.given.keep("fuse"), distance) if has_fuse is not None else None
        fuse, limits = fusing.choose(
            brief, task.catalogue, duty, choice.cable, choice.parallel, locked, kept=kept_fuse, ignition=task.ignition
        )
        if fuse is None:
            broken += [limit for limit in limits if not limit[3]] or [("no fuse of the catalogue passes", 0.0, 0.0, False)]
        elif fuse.kept == "fixed":
            broken += [limit for limit in fuse.limits if not limit[3]]
        elif kept_fuse is not None and fuse.kept == "chosen":
            first = fusing.judged_alone(brief, task.catalogue, duty, choice.cable, choice.parallel, locked, *kept_fuse)
            reasons = [against(limit) for limit in first.limits if not limit[3]]
            replaced.append(f"fuse {first.fuse.rating:g} A aboard: {reasons[0] if reasons else 'another rating protects better'}")
    faults = _faults(task, chain, bank, design, peak, fuse, locked, least_fault)
    return replace(chain, fuse=fuse, switch=switch, stop=stop, faults=faults, broken=tuple(broken), replaced=tuple(replaced))


def _switching(
    task: Task, current: Ampere, start: Ampere, bank: Bank, replaced: list[str], broken: list[Limit]
) -> tuple[Switch | None, Contactor | None]:
    part, name = task.given.parts, task.thruster.identity
    switch = aboard.switch_of(task.catalogue, part.switch, name) if part.switch is not None else None
    stop = aboard.stop_of(task.catalogue, part.stop, name) if part.stop is not None else None
    if not task.choose:
        return switch, stop
    right = switching.main_switch(task.catalogue, current, task.run_time, start, bank.charging_volts, task.ignition)
    if switch is None or (
        task.given.keep("switch") != "fixed" and not _bears(switch, current, start, bank.charging_volts, task.run_time)
    ):
        if switch is not None:
            replaced.append(
                f"main switch aboard: bears {switch.five_minutes:.0f} A for 5 min and breaks {switch.breaking:.0f} A; "
                f"{current:.0f} A and {start:.0f} A are needed"
            )
        switch = right
        if switch is None:
            broken.append(
                (
                    "main switch that breaks the stalled current, A",
                    start,
                    max((s.breaking for s in task.catalogue.switches), default=0.0),
                    False,
                )
            )
    chosen = switching.stop_device(
        task.brief, task.catalogue, current, task.run_time, start, bank.charging_volts, bank.volts, task.ignition
    )
    if stop is None or (
        task.given.keep("stop") != "fixed" and not _bears(stop, current, start, bank.charging_volts, task.run_time)
    ):
        if part.stop is not None and part.stop.present:
            replaced.append("stop aboard: does not break the power circuit at the stalled current")
        stop = chosen
        if stop is None:
            broken.append(
                (
                    "stop device that breaks the stalled current, A",
                    start,
                    max((s.breaking for s in task.catalogue.contactors), default=0.0),
                    False,
                )
            )
    return switch, stop


def _bears(device: Switch | Contactor, current: Ampere, start: Ampere, volts: Volt, time: Second) -> bool:
    rated = device.five_minutes if time <= switching.FIVE_MINUTES else device.continuous
    return current <= rated and start <= device.breaking and volts <= device.volts_most


def _faults(
    task: Task,
    chain: Chain,
    bank: Bank,
    design: LaneState,
    peak: LaneState,
    fuse: FuseChoice | None,
    locked: Ampere,
    least: Ampere,
) -> tuple[Fault, ...]:
    def first(current: Ampere) -> tuple[str, Second]:
        held = bank.block.discharge_peak
        options: list[tuple[float, str]] = []
        if fuse is not None:
            options.append((opening_band(fuse.family, fuse.fuse.rating, current).most, "main fuse"))
        if held is not None and current / bank.parallel > held:
            options.append((0.001, "battery protection circuit"))
        if running.is_constant_power(chain.unit) and current <= 1.15 * (chain.unit.current_limit or 0.0):
            options.append((1.0, "drive"))
        time, name = min(options, default=(float("inf"), "nothing"))
        return name, time

    loop_new, loop_old = bank.resistance_new, bank.resistance_design + design.path_resistance
    found = []
    for name, current, loop in (
        ("bolted at the bank: full, warm, new", bank.fault_current_most, loop_new),
        (
            "at the unit: full, warm, new",
            prospective_current(bank.charging_volts, bank.resistance_new + peak.path_resistance),
            bank.resistance_new + peak.path_resistance,
        ),
        ("at the unit: cold, aged", least, loop_old),
        ("propeller locked: cold, aged", locked, loop_old),
    ):
        opens, after = first(current)
        found.append(Fault(name, current, loop, opens, after))
    return tuple(found)


# ---- the search


def _bank_pool(task: Task, unit: ThrusterUnit) -> list[tuple[BatteryBlock, int, int, Keep]]:
    assert unit.volts is not None
    part = task.given.parts.bank
    pool: list[tuple[BatteryBlock, int, int, Keep]] = []
    if part is not None:
        keep = task.given.keep("bank")
        pool.append((aboard.block_of(task.catalogue, part, task.thruster.identity), part.series, part.parallel, keep))
        if keep == "fixed" or not task.choose:
            return pool
    pool += [
        (b, s, p, "chosen")
        for b, s, p in banking.candidates(task.catalogue, task.wish, unit.volts, task.brief.choices.strings_most)
    ]
    return pool


def _cable_pool(task: Task) -> list[tuple[Cable, int, Keep]]:
    part = task.given.parts.cable
    if part is not None:
        own = (aboard.cable_of(task.catalogue, part, task.thruster.identity), part.in_parallel)
        keep = task.given.keep("cable")
        if keep == "fixed" or not task.choose:
            return [(*own, keep)]
        return [(*own, keep), *((c, n, "chosen") for c, n in _chosen_cables(task))]
    return [(c, n, "chosen") for c, n in _chosen_cables(task)]


def _chosen_cables(task: Task) -> list[tuple[Cable, int]]:
    return list(cabling.candidates(task.catalogue, task.brief))


def _make_bank(task: Task, unit: ThrusterUnit, block: BatteryBlock, series: int, parallel: int, keep: Keep, link: Cable) -> Bank:
    part = task.given.parts.bank if keep != "chosen" else None
    fuse = None
    current = (unit.rated_current or 0.0) + task.other_peak
    plain = banking.bank(
        task.brief,
        task.wish,
        block,
        series,
        parallel,
        link,
        keep,
        age=part.age_years if part else None,
        mixed=bool(part and part.mixed_age),
    )
    if parallel > 1 and (keep == "chosen" or (part is not None and part.string_fuses)):
        fuse = string_fuse(task, block, series, parallel, current, plain.fault_current_most)
        return banking.bank(
            task.brief,
            task.wish,
            block,
            series,
            parallel,
            link,
            keep,
            string_fuse=fuse,
            age=part.age_years if part else None,
            mixed=bool(part and part.mixed_age),
        )
    return plain


def _fits_volts(unit: ThrusterUnit, bank: Bank) -> bool:
    return unit.volts is not None and abs(bank.volts - unit.volts) <= 0.09 * unit.volts


def best_chain(task: Task, unit: ThrusterUnit) -> tuple[Chain | None, Newton]:
    """The first adequate chain that reaches the required thrust, else the one that came nearest; and the most thrust seen."""
    cables = _cable_pool(task)
    widest = max(cables, key=lambda entry: entry[0].area * entry[1])
    banks = _bank_pool(task, unit) if task.bank_fixed is None else []
    nearest: Chain | None = None
    most = 0.0
    for index in range(max(len(banks), 1)):
        if task.bank_fixed is not None:
            bank: Bank = task.bank_fixed
        else:
            if index >= len(banks):
                break
            block, series, parallel, keep = banks[index]
            bank = _make_bank(task, unit, block, series, parallel, keep, link_cable(task.catalogue, widest[0], widest[1]))
        if task.choose and not _fits_volts(unit, bank):
            continue
        bound = evaluate(task, unit, bank, widest[0], widest[1], {"cable": widest[2]}, finish=False)
        most = max(most, bound.thrust)
        nearest = _nearer(nearest, bound, task.required)
        last = index == len(banks) - 1 or task.bank_fixed is not None
        if task.choose and not last and (bound.thrust < task.required or any(_bank_says(limit) for limit in bound.broken)):
            continue
        found = _through_cables(task, unit, bank, cables)
        if found is not None:
            nearest = _nearer(nearest, found, task.required)
            if (found.adequate and found.thrust >= task.required) or not task.choose:
                return _note_replacements(task, found), max(most, found.thrust)
    return (None if nearest is None else _note_replacements(task, nearest)), most


def _through_cables(task: Task, unit: ThrusterUnit, bank: Bank, cables: list[tuple[Cable, int, Keep]]) -> Chain | None:
    nearest: Chain | None = None
    for cable, parallel, keep in cables:
        own = _linked(task, unit, bank, cable, parallel)
        rough = evaluate(task, unit, own, cable, parallel, {"cable": keep}, finish=False)
        if task.choose and (rough.broken or rough.thrust < task.required) and keep != "fixed":
            nearest = _nearer(nearest, rough, task.required)
            continue
        full = evaluate(task, unit, own, cable, parallel, {"cable": keep})
        nearest = _nearer(nearest, full, task.required)
        if full.adequate and full.thrust >= task.required:
            return full
    return nearest


def link_cable(catalogue: Catalogue, cable: Cable, parallel: int) -> Cable:
    """The link between blocks: one conductor of at least the lane's whole area, else the thickest of its kind."""
    if parallel == 1:
        return cable
    alike = [
        c
        for c in catalogue.cables
        if c.marine and c.insulation_temperature == cable.insulation_temperature and ("AWG" in c.gauge) == ("AWG" in cable.gauge)
    ]
    enough = [c for c in alike if c.area >= cable.area * parallel * 0.999]
    return min(enough, key=lambda c: (c.area, c.price, c.id)) if enough else max([*alike, cable], key=lambda c: (c.area, c.id))


def _linked(task: Task, unit: ThrusterUnit, bank: Bank, cable: Cable, parallel: int) -> Bank:
    """The bank with links that suit the lane's cable; a bank given for several units keeps its own."""
    link = link_cable(task.catalogue, cable, parallel)
    if task.bank_fixed is not None or link.id == bank.link.id:
        return bank
    return _make_bank(task, unit, bank.block, bank.series, bank.parallel, bank.kept, link)


def completed(task: Task, chain: Chain) -> Chain:
    """A chain that does not pass and is shown all the same, with the fuse, switch and stop it would be given."""
    if chain.cable is None or chain.design is None or chain.peak is None or chain.start is None or chain.fuse is not None:
        return chain
    current = max(chain.design.current, chain.peak.current)
    done = _finish(task, chain, chain.cable, chain.design, chain.peak, current, chain.start, whatever=True)
    return replace(done, replaced=(*chain.replaced, *(words for words in done.replaced if words not in chain.replaced)))


def _bank_says(limit: Limit) -> bool:
    return limit[0].startswith(
        (
            "a fuse at the positive of each string",
            LEFT_FOR,
            "terminal volts",
            "charge of",
            "protection",
            "block volts",
            "coldest",
            "the unit does not run",
        )
    )


def _nearer(old: Chain | None, new: Chain, required: Newton) -> Chain:
    """The better of two chains that may both fall short: fewer broken limits, then thrust up to what is required, then mass."""
    if old is None:
        return new

    def rank(chain: Chain) -> tuple[float, ...]:
        return (-len(chain.broken), min(chain.thrust, required), 0.0 if chain.fuse is None else 1.0, -chain.mass)

    return new if rank(new) > rank(old) else old


def _note_replacements(task: Task, chain: Chain) -> Chain:
    """Add why a bank or a cable aboard was not kept."""
    notes = list(chain.replaced)
    part = task.given.parts
    if task.choose and part.bank is not None and chain.bank is not None and chain.bank.kept == "chosen":
        block = aboard.block_of(task.catalogue, part.bank, task.thruster.identity)
        own = _make_bank(task, chain.unit, block, part.bank.series, part.bank.parallel, "aboard", chain.bank.link)
        notes.append(f"bank aboard: {_why_not(task, chain, bank=own)}")
    if (
        task.choose
        and part.cable is not None
        and chain.cable is not None
        and chain.cable.kept == "chosen"
        and chain.bank is not None
    ):
        own_cable = aboard.cable_of(task.catalogue, part.cable, task.thruster.identity)
        bank = _linked(task, chain.unit, chain.bank, own_cable, part.cable.in_parallel)
        tried = evaluate(task, chain.unit, bank, own_cable, part.cable.in_parallel, {"cable": "aboard"})
        notes.append(f"cable aboard: {_first_broken(task, tried)}")
    return replace(chain, replaced=tuple(notes))


def _why_not(task: Task, chain: Chain, bank: Bank) -> str:
    if not _fits_volts(chain.unit, bank):
        return f"{bank.volts:g} V does not suit a unit of {chain.unit.volts:g} V"
    assert chain.cable is not None
    tried = evaluate(task, chain.unit, bank, chain.cable.cable, chain.cable.parallel, {"cable": chain.cable.kept})
    return _first_broken(task, tried)


def _first_broken(task: Task, chain: Chain) -> str:
    if chain.broken:
        return against(chain.broken[0])
    if chain.thrust < task.required:
        return against(("thrust it must give, N", chain.thrust, task.required, False))
    return "a lighter complete chain exists without it"
