"""Why a number is what it is: the winner run once more under the tracer, each input followed to where it came from.

A quantity is a root formula; its inputs are either values of formulas run before it (followed further) or leaves. A leaf's origin
is found by its value among what was entered (with its line), the catalogue rows used, the stated defaults and what the solved
circuit gave; where several hold the same number, the one whose name is nearest is named.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, fields, is_dataclass
from difflib import SequenceMatcher, get_close_matches
from importlib import import_module
from math import degrees, pi

from pydantic import BaseModel

from athwart.design import book, states
from athwart.design.places import RunOf, body_x, run_between
from athwart.design.proposal import Bank, ChargingChoice, Lane, Proposal
from athwart.design.requirements import need as needing
from athwart.design.search import banking, cabling, chain, charging, floating, running
from athwart.design.search.settle import other_loads
from athwart.errors import NotComputed, UnknownName
from athwart.explain import Formula, Step, explained
from athwart.power import battery, charger, fault, heating
from athwart.power.battery_data import chemistry
from athwart.power.conductor import route_resistance
from athwart.power.contact import JOINTS
from athwart.power.motor import run_brushed
from athwart.power.rules import RULE_SETS
from athwart.thruster.immersion import cover_ratio
from athwart.vessel import balance, hydrostatics, uncertainty


@dataclass(frozen=True, slots=True)
class Leaf:
    """An input no formula made."""

    name: str
    value: object
    text: str
    origin: str


@dataclass(slots=True)
class Derived:
    """One formula evaluated, with its inputs followed down."""

    formula: Formula
    value: object
    text: str
    inputs: list[tuple[str, Derived | Leaf]] = field(default_factory=list)
    inside: list[Derived] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number of the answer that can be asked for."""

    name: str
    words: str
    per: str  # "lane", "bank", "boat"
    run: Callable[[Proposal, Lane], object]


def _case(p: Proposal, lane: Lane) -> None:
    needing.derive(p.brief, p.need.ruling(lane.thruster.identity), p.need.rise)


def _bank(p: Proposal, lane: Lane) -> Bank:
    found = p.bank(lane.bank)
    if found is None:
        raise NotComputed(f"lane {lane.lane} has no bank to derive from")
    return found


def _side_force(p: Proposal, lane: Lane) -> object:
    _case(p, lane)
    return p.need.ruling(lane.thruster.identity).side_force_beam


def _beam(p: Proposal, lane: Lane) -> object:
    _case(p, lane)
    return p.need.ruling(lane.thruster.identity).beam


def _worst(p: Proposal, lane: Lane) -> object:
    _case(p, lane)
    return p.need.ruling(lane.thruster.identity).worst


def _open(p: Proposal, lane: Lane) -> object:
    return _bank_source(p, _bank(p, lane))[0]


def _bank_source(p: Proposal, bank: Bank) -> tuple[float, float]:
    """EMF and resistance of the bank in the design state, by formulas."""
    source = battery.block_source(bank.block, banking.worn_state(p.brief, bank.block, bank.age_years, bank.mixed_age))
    emf = battery.bank_volts(source.emf, float(bank.series))
    wish = next((w for w in p.brief.bank if w.name == bank.name), None)
    bars = bank.parallel > 1 or len(bank.feeds) > 1 or bool(wish and (wish.shared_with or wish.mid_tap_load))
    string = banking.string_extra(
        bank.link, bank.parallel, bars, bank.string_fuse[0] if bank.string_fuse is not None else None, hot=True
    )
    resistance = battery.bank_resistance(
        source.resistance, float(bank.series), float(bank.parallel), banking.link_resistance(bank.link, hot=True), string
    )
    return emf, resistance


def _loaded(p: Proposal, bank: Bank) -> tuple[float, float]:
    """The bank as the unit sees it: its volts lowered by the other loads that run at the same time."""
    emf, inside = _bank_source(p, bank)
    others = other_loads(p.brief, bank, "design")
    return (battery.terminal_volts(emf, others, inside, 0.0) if others > 0 else emf), inside


def _bank_ohms(p: Proposal, lane: Lane) -> object:
    return _bank_source(p, _bank(p, lane))[1]


def _copper(p: Proposal, lane: Lane) -> float:
    c = lane.cable
    if c is None or lane.design is None:
        raise NotComputed(f"lane {lane.lane} has no cable to derive from")
    return route_resistance(c.cable.resistance_per_metre / c.parallel, c.plus, c.minus, lane.design.conductor_temperature)


def _path(p: Proposal, lane: Lane) -> float:
    assert lane.design is not None
    copper = _copper(p, lane)
    gear = sum(d.resistance for d in lane.design.drops if d.tag[0] in "FQ")
    lugs = lane.design.path_resistance - copper - gear
    return running.path_resistance(copper, gear, lugs)


def _current(p: Proposal, lane: Lane) -> float:
    if lane.design is None:
        raise NotComputed(f"lane {lane.lane} does not run")
    bank = _bank(p, lane)
    emf, inside = _loaded(p, bank)
    path = _path(p, lane)
    if running.is_constant_power(lane.unit):
        return running.run(lane.unit, "design", emf, inside + path).current
    return run_brushed(running.variant(lane.unit, "weak thrust"), emf, inside + path).current


def _terminal(p: Proposal, lane: Lane) -> float:
    current = _current(p, lane)
    emf, inside = _loaded(p, _bank(p, lane))
    return battery.terminal_volts(emf, current, inside, _path(p, lane))


def _thrust(p: Proposal, lane: Lane) -> float:
    volts = _terminal(p, lane)
    ratio = running.thrust_ratio_at(lane.unit, "design", volts)
    basis = running.GROSS_TO_NET if lane.unit.thrust_basis == "gross" else 1.0
    place, diameter = lane.thruster.tunnel, lane.unit.tunnel_diameter or 0.0
    factor = floating.depth_left(place, _drop(p, lane), diameter, p.need.heel or 0.0)
    share = floating.tunnel_share(place, diameter) if diameter and lane.unit.in_tunnel else 1.0
    return running.thrust_delivered(lane.unit.thrust, ratio, factor, basis, share)


def _drop(p: Proposal, lane: Lane) -> float:
    return lane.thruster.tunnel.axis_depth - lane.cover - (lane.unit.tunnel_diameter or 0.0) / 2


def _held(which: str) -> Callable[[Proposal, Lane], object]:
    def run(p: Proposal, lane: Lane) -> object:
        _case(p, lane)
        case = p.need.ruling(lane.thruster.identity)
        if (case.worst if which == "worst" else case.beam) <= 1.0:
            raise NotComputed("no thrust to speak of is asked at these headings")
        return balance.wind_held(p.brief.wind.speed, case.worst if which == "worst" else case.beam, _thrust(p, lane))

    return run


def _chance(p: Proposal, lane: Lane) -> object:
    _case(p, lane)
    case = p.need.ruling(lane.thruster.identity)
    if case.worst <= 1.0:
        raise NotComputed("no thrust to speak of is asked at these headings")
    found = needing.loads(p.brief, p.need.rise)
    load = found.model(case.worst_heading)
    spread = uncertainty.thrust_sigma(uncertainty.CATALOGUE_THRUST, running.VOLTS_SIGMA, uncertainty.IMMERSION)
    need_spread = needing.sigma(p.brief, found, load.place, needing.pivot(p.brief, case))
    return uncertainty.hold_probability(_thrust(p, lane), case.worst, spread, need_spread)


def _rule_drop(p: Proposal, lane: Lane) -> object:
    c = lane.cable
    if c is None:
        raise NotComputed(f"lane {lane.lane} has no cable")
    current = lane.unit.rated_current or (lane.peak.current if lane.peak else 0.0)
    return cabling.rule_drop(RULE_SETS[p.brief.choices.rule_set], current, c.plus + c.minus, c.area)


def _steady(p: Proposal, lane: Lane) -> object:
    if lane.peak is None:
        raise NotComputed(f"lane {lane.lane} does not run")
    duty = p.brief.duty
    return cabling.duty_current(lane.peak.current, duty.burst, duty.burst + duty.pause)


def _conductor(p: Proposal, lane: Lane) -> object:
    c = lane.cable
    if c is None or lane.peak is None or lane.design is None:
        raise NotComputed(f"lane {lane.lane} has no cable")
    node = cabling.thermal.__wrapped__(c.cable)
    air = cabling.air_temperature(RULE_SETS[p.brief.choices.rule_set], c.engine_space)
    current = max(lane.peak.current, lane.design.current) / c.parallel
    return heating.temperature_after(
        p.need.run_time, current, node.resistance_20, node.thermal_resistance, node.heat_capacity, air, air
    )


def _least_fault(p: Proposal, lane: Lane) -> object:
    emf, inside = _bank_source(p, _bank(p, lane))
    return fault.prospective_current(emf, inside + _path(p, lane))


def _most_fault(p: Proposal, lane: Lane) -> object:
    bank = _bank(p, lane)
    return fault.prospective_current(bank.charging_volts, bank.resistance_new)


def _charge(p: Proposal, lane: Lane) -> ChargingChoice:
    found = next((c for c in p.charging if c.bank == lane.bank), None)
    if found is None or found.charger is None:
        raise NotComputed(f"nothing charges the bank of lane {lane.lane}")
    return found


def _input(p: Proposal, lane: Lane) -> object:
    c = _charge(p, lane)
    assert c.charger is not None
    battery_row = next((b for b in p.brief.supply.batteries if b.name == c.from_battery), None)
    if battery_row is None or c.cable is None:
        raise NotComputed(f"the charger of lane {lane.lane} is not fed from a battery")
    at_source = _source_volts(p, battery_row.name)
    run = run_between(p.brief, battery_row.place or _bank(p, lane).place, _bank(p, lane).place)
    loop = cabling.path_copper(c.cable, 1, run, states.CONDUCTOR_COLD)
    volts = charger.step_up_input_volts(at_source, loop, c.charger.charge_volts * c.charger.current_out, c.charger.efficiency)
    return charger.step_up_input(c.charger.charge_volts, c.charger.current_out, volts, c.charger.efficiency, c.charger.quiescent)


def _source_volts(p: Proposal, name: str) -> float:
    source = next(b for b in p.brief.supply.batteries if b.name == name)
    return charging.charging_volts_of(p.brief, source)


def _refill(p: Proposal, lane: Lane) -> object:
    c, bank = _charge(p, lane), _bank(p, lane)
    assert c.charger is not None
    docking = sum(entry.design.current for entry in p.lanes if entry.bank == bank.name and entry.design) * p.need.energy_share
    factor = chemistry(bank.block.chemistry).charge_factor
    return charger.refill_time(min(docking, bank.capacity), bank.capacity, c.charger.current_out, factor)


def _run_time(p: Proposal, lane: Lane) -> object:
    unit, bank = lane.unit, _bank(p, lane)
    if lane.design is None or lane.peak is None:
        raise NotComputed(f"lane {lane.lane} does not run")
    if lane.run_time_limit == "motor heat" and unit.rated_time is not None and unit.rated_current is not None:
        return running.time_to_trip(unit.rated_time, unit.rated_current, lane.peak.current)
    if lane.run_time_limit == "battery charge":
        return running.time_on_charge(bank.capacity_design, lane.design.current, other_loads(p.brief, bank, "design"))
    raise NotComputed(f"{lane.run_time_limit} ends the run of lane {lane.lane} first: a curve or a limit of a row, no formula")


def _cover(p: Proposal, lane: Lane) -> object:
    if not lane.unit.tunnel_diameter:
        raise NotComputed("this unit has no tunnel")
    return cover_ratio(lane.thruster.tunnel.axis_depth, lane.unit.tunnel_diameter, _drop(p, lane))


def _trim(p: Proposal, lane: Lane) -> object:
    weights = _weights(p)
    plane = floating.waterplane(p.brief)
    mass = sum(weight.mass for weight in weights)
    place = sum(weight.mass * weight.place for weight in weights) / mass if mass else 0.0
    return hydrostatics.trim(mass, place, plane.flotation, plane.to_trim)


def _heel(p: Proposal, lane: Lane) -> object:
    found = needing.heel_abeam(p.brief, needing.loads(p.brief, p.need.rise))
    if not found:
        raise NotComputed("she does not heel to speak of" if found == 0.0 else "she would heel more than 30 degrees")
    return found


def _tunnel_share(p: Proposal, lane: Lane) -> object:
    if not lane.unit.tunnel_diameter or not lane.unit.in_tunnel:
        raise NotComputed("this unit has no tunnel")
    return floating.tunnel_share(lane.thruster.tunnel, lane.unit.tunnel_diameter)


def _weights(p: Proposal) -> tuple[hydrostatics.Weight, ...]:
    loads = tuple(floating.Load(entry.thruster, _as_chain(p, entry)) for entry in p.lanes)
    return floating.weights(p.brief, loads, p.banks, p.charging)


def _as_chain(p: Proposal, lane: Lane) -> chain.Chain:
    return chain.Chain(
        lane.unit, p.bank(lane.bank), lane.cable, lane.fuse, lane.switch, lane.stop, lane.design, lane.peak, 0.0, None, (), ()
    )


QUANTITIES: Mapping[str, Quantity] = {
    q.name: q
    for q in (
        Quantity("side_force", "side force of the wind on the beam", "lane", _side_force),
        Quantity("thrust_need_beam", "thrust needed with the wind on the beam", "lane", _beam),
        Quantity("thrust_need_worst", "thrust needed at the worst heading asked", "lane", _worst),
        Quantity("bank_open_voltage", "volts of one block at rest, cold and 70 % charged, times the blocks", "lane", _open),
        Quantity("bank_resistance", "resistance of the bank, cold and aged", "lane", _bank_ohms),
        Quantity("path_resistance", "everything between bank and unit, there and back, hot", "lane", _path),
        Quantity("current", "current in the design state", "lane", _current),
        Quantity("terminal_voltage", "volts at the unit in the design state", "lane", _terminal),
        Quantity("thrust", "thrust delivered in the design state", "lane", _thrust),
        Quantity("wind_held_worst", "wind held at the worst heading", "lane", _held("worst")),
        Quantity("wind_held_beam", "wind held on the beam", "lane", _held("beam")),
        Quantity("chance_of_holding", "chance of holding the asked wind at the worst heading", "lane", _chance),
        Quantity("rule_drop", "volts lost by the rule set's formula at rated current", "lane", _rule_drop),
        Quantity("steady_current", "steady current that heats like a docking", "lane", _steady),
        Quantity("conductor_temperature", "conductor after the longest run", "lane", _conductor),
        Quantity("least_fault", "short circuit at the unit, bank cold and aged", "lane", _least_fault),
        Quantity("largest_fault", "short circuit at the bank, full and warm", "lane", _most_fault),
        Quantity("charger_input", "current a charger draws from the ship", "lane", _input),
        Quantity("refill_time", "time to refill after a docking", "lane", _refill),
        Quantity("run_time", "run time at full thrust, by motor heat or the bank's charge", "lane", _run_time),
        Quantity("cover", "water over the tunnel roof in diameters", "lane", _cover),
        Quantity("trim", "trim by the new parts", "boat", _trim),
        Quantity("heel", "heel in the wind asked, abeam", "boat", _heel),
        Quantity("tunnel_share", "thrust that ends, length and grids of the tunnel leave", "lane", _tunnel_share),
    )
}


def quantity(name: str) -> Quantity:
    """A quantity by name, dashes and spaces allowed."""
    wanted = name.strip().lower().replace("-", "_").replace(" ", "_").removesuffix("_v").removesuffix("_n").removesuffix("_a")
    if wanted in QUANTITIES:
        return QUANTITIES[wanted]
    near = get_close_matches(wanted, QUANTITIES, n=1, cutoff=0.4)
    raise UnknownName("quantity of the answer", name, near[0] if near else "")


def derive(p: Proposal, wanted: Quantity, lane: Lane, origins: Mapping[str, tuple[int, str]]) -> Derived:
    """The derivation of one quantity of one lane.

    Raises
    ------
    NotComputed
        The quantity does not exist for this lane.
    """
    banking.clear()
    running.clear()
    with explained() as steps:
        value = wanted.run(p, lane)
    made = list(_flat(steps))
    roots = [step for step in steps if step.value is value] or [step for step in steps if _same(step.value, value)]
    if not roots:
        raise NotComputed(f"{wanted.words}: no formula of the book gave it")
    return _follow(roots[-1], made, _known(p, lane, origins), set())


def _flat(steps: list[Step]) -> Iterator[Step]:
    for step in steps:
        yield from _flat(step.steps)
        yield step


def _same(a: object, b: object) -> bool:
    return isinstance(a, float) and isinstance(b, float) and (a == b or abs(a - b) <= 1e-9 * max(abs(a), abs(b)))


def _follow(step: Step, made: list[Step], known: list[tuple[str, float, str]], seen: set[int]) -> Derived:
    out = Derived(step.formula, step.value, book.shown(step.value, step.formula.unit))
    hints = book.hints(step.formula)
    seen = seen | {id(step)}
    before = made[: next(i for i, entry in enumerate(made) if entry is step)]
    for name, value in step.inputs.items():
        unit = book.unit_of(hints.get(name))
        source = _made_by(value, before, seen)
        if source is not None:
            out.inputs.append((name, _follow(source, made, known, seen)))
        else:
            out.inputs.append((name, Leaf(name, value, book.shown(value, unit), _origin(step, name, value, known))))
    for inner in step.steps:
        if id(inner) not in seen and not any(_same(inner.value, value) for value in step.inputs.values()):
            out.inside.append(_follow(inner, made, known, seen))
    return out


NOUGHT_OR_ONE, ROUND_NUMBER, ANY_NUMBER = 0.8, 0.6, 0.45
"""How alike two names must be before equal numbers count as the same: small whole numbers are equal by accident."""


def _likeness(a: str, b: str) -> float:
    return SequenceMatcher(None, a.replace("_", " "), b.replace("_", " ")).ratio()


def _made_by(value: object, before: list[Step], seen: set[int]) -> Step | None:
    if not isinstance(value, float) or value in (0.0, 1.0):
        return None
    mine = [step for step in before if id(step) not in seen]
    return next((step for step in mine if step.value == value), None) or next((s for s in mine if s.value == -value), None)


def _origin(step: Step, name: str, value: object, known: list[tuple[str, float, str]]) -> str:
    parameter = step.formula.signature.parameters.get(name)
    is_default = parameter is not None and parameter.default is not parameter.empty and parameter.default == value
    if isinstance(value, float):
        scope = vars(import_module(f"athwart.{step.formula.name.rsplit('.', 1)[0]}"))
        constants = [
            (key.lower(), number, f"constant {key} of {step.formula.name.rsplit('.', 1)[0]}")
            for key, number in scope.items()
            if key.isupper() and isinstance(number, float)
        ]
        matches = [(label, text) for label, number, text in (*known, *constants) if number == value or _same(number, value)]
        if matches:
            likeness, text = max((_likeness(name, label), text) for label, text in matches)
            surely = ROUND_NUMBER if is_default or (value == int(value) and abs(value) <= 10) else ANY_NUMBER
            surely = NOUGHT_OR_ONE if value in (0.0, 1.0) else surely
            if likeness >= surely:
                return text
    if is_default:
        return "default of the formula"
    return "data of the model" if not isinstance(value, float) else "worked out on the way (sum or product of the above)"


def _known(p: Proposal, lane: Lane, origins: Mapping[str, tuple[int, str]]) -> list[tuple[str, float, str]]:
    """(name, value, where from) of everything that was entered, tabled or assumed."""
    found = list(_entered(p.brief, "", origins))
    bank = p.bank(lane.bank)
    charge = next((c for c in p.charging if c.bank == lane.bank), None)
    rows: list[tuple[str, object]] = [("unit", lane.unit)]
    rows += [("block", bank.block), ("link", bank.link)] if bank is not None else []
    rows += [("cable", lane.cable.cable)] if lane.cable is not None else []
    rows += [("fuse", lane.fuse.fuse)] if lane.fuse is not None else []
    rows += [("charger", charge.charger), ("input cable", charge.cable)] if charge is not None else []
    for what, row in rows:
        if is_dataclass(row):
            for entry in fields(row):
                value = getattr(row, entry.name)
                if isinstance(value, float):
                    header = entry.metadata.get("header", entry.name)
                    found.append((entry.name, value, f"catalogue row {getattr(row, 'id', '?')}, {header} ({what})"))
    found += _of_lane(p, lane, bank)
    for name, value in vars(states).items():
        if name.isupper() and isinstance(value, float) and value not in (0.0, 1.0, 273.15):
            found.append((name.lower(), value, f"state default: {name.lower().replace('_', ' ')}"))
    return found


def _of_lane(p: Proposal, lane: Lane, bank: Bank | None) -> list[tuple[str, float, str]]:
    """Sums and counts of the proposal that formulas take as they are."""
    found: list[tuple[str, float, str]] = []
    if bank is not None:
        worn = banking.worn_state(p.brief, bank.block, bank.age_years, bank.mixed_age)
        data = chemistry(bank.block.chemistry)
        found += [
            ("series", float(bank.series), f"bank {bank.name}: {bank.series} blocks a string"),
            ("parallel", float(bank.parallel), f"bank {bank.name}: {bank.parallel} string(s)"),
            ("length", banking.LINK_LENGTH, "default: a link of 0.3 m"),
            ("lug", JOINTS["lug"].usual, "default: a lug on its stud, from memory"),
            ("state_of_charge", worn.state_of_charge, "design state: 70 % charged"),
            ("ageing", worn.ageing, "design state: 1.5 of new, more for a bank beyond its years"),
            ("temperature", worn.temperature, "design state: coldest bank of the brief, else 0 °C lead, 5 °C lithium"),
            ("exponent", data.resistance_exponent[1], f"chemistry {data.name}: resistance against temperature"),
            ("rise", data.resistance_rise_empty, f"chemistry {data.name}: resistance against charge"),
            ("charge_factor", data.charge_factor, f"chemistry {data.name}: charge in over charge out"),
            ("emf", bank.charging_volts, f"bank {bank.name}: charging volts"),
            ("resistance", bank.resistance_new, f"bank {bank.name}: new, full, warm"),
            ("string_resistance", 0.0, f"bank {bank.name}: one string, no bars"),
            ("capacity", bank.capacity, f"bank {bank.name}: rated charge"),
        ]
    if lane.cable is not None:
        c = lane.cable
        found.append(
            (
                "resistance_20",
                c.cable.resistance_per_metre / c.parallel,
                f"catalogue row {c.cable.id}, ohm_per_km, {c.parallel} in parallel",
            )
        )
        found.append(("current", c.ampacity, f"rule set's continuous current of {c.cable.gauge}"))
    if lane.design is not None and lane.cable is not None:
        gear = [d for d in lane.design.drops if d.tag[0] in "FQ"]
        found.append(
            (
                "gear",
                sum(d.resistance for d in gear),
                "catalogue rows of " + ", ".join(f"{d.tag} {d.name}" for d in gear) + ", fuse warm",
            )
        )
        copper = cabling.path_copper(lane.cable.cable, lane.cable.parallel, _run_of(p, lane), lane.design.conductor_temperature)
        found.append(
            (
                "lugs",
                lane.design.path_resistance - copper - sum(d.resistance for d in gear),
                "default: two lugs a piece, from memory",
            )
        )
    if lane.peak is not None and lane.design is not None:
        largest = max(lane.peak.current, lane.design.current)
        found.append(("current", lane.peak.current, "peak state, from the solved circuit"))
        found.append(("current", largest / (lane.cable.parallel if lane.cable else 1), "largest current, one conductor's share"))
    case = p.need.ruling(lane.thruster.identity)
    plane = floating.waterplane(p.brief)
    x = body_x(p.brief, lane.thruster.tunnel.x)
    found += [
        ("wind_angle", case.worst_heading, "worst of the headings asked (wind.headings)"),
        ("wind_angle", pi / 2, "wind on the beam"),
        ("thruster_place", x, "tunnel.x of the brief, counted from midships"),
        ("bow_place", x, "tunnel.x of the brief, counted from midships"),
        ("stern_place", x, "tunnel.x of the brief, counted from midships"),
        ("pivot_place", needing.pivot(p.brief, case), "the end made fast, or the other unit, counted from midships"),
        ("stern_place", needing.pivot(p.brief, case), "the other unit, counted from midships"),
        ("bow_place", needing.pivot(p.brief, case), "the other unit, counted from midships"),
        ("water_density", plane.water_density, "water.kind of the brief"),
        ("waterplane_coefficient", plane.coefficient, "boat.waterplane_coefficient, or usual for the kind of boat"),
        ("flotation", plane.flotation, "usual for the kind of boat"),
        ("mass", sum(w.mass for w in _weights(p)), "new parts and the water in the tunnel"),
    ]
    found.append(("time", p.need.run_time, "the longer of duty.longest_hold and duty.burst"))
    found.append(("on_time", p.brief.duty.burst, "duty.burst"))
    found.append(("cycle_time", p.brief.duty.burst + p.brief.duty.pause, "duty.burst and duty.pause"))
    found.append(("ambient_temperature", cabling.AIR, "default: air of 30 °C round the cable"))
    found.append(("initial_temperature", cabling.AIR, "default: cable as warm as the air"))
    found.append(
        ("waterline_drop", _drop(p, lane), "lower waterline of the lightest state, less what the new parts' trim sinks it")
    )
    found.append(
        ("units", float(sum(t.role == lane.thruster.role for t in p.brief.thrusters)), f"units at the {lane.thruster.role}")
    )
    return found


def _run_of(p: Proposal, lane: Lane) -> RunOf:
    return run_between(p.brief, _bank(p, lane).place, lane.thruster.place)


def _entered(section: object, path: str, origins: Mapping[str, tuple[int, str]]) -> Iterator[tuple[str, float, str]]:
    if isinstance(section, BaseModel):
        for name, info in type(section).model_fields.items():
            key = info.alias or name
            yield from _entered(getattr(section, name), f"{path}.{key}" if path else key, origins)
    elif isinstance(section, tuple):
        for index, entry in enumerate(section):
            yield from _entered(entry, f"{path}[{index}]", origins)
    elif isinstance(section, dict):
        for key, entry in section.items():
            yield from _entered(entry, f"{path}.{key}", origins)
    elif isinstance(section, float):
        line = origins.get(path)
        where = f"entered at line {line[0]}: {path} = {line[1]}" if line is not None else f"default of {path}"
        yield path.rsplit(".", 1)[-1], section, where


def headline(p: Proposal, lane: Lane) -> str:
    """What lane and case a derivation is of."""
    case = p.need.ruling(lane.thruster.identity)
    return f"{lane.thruster.identity} unit, case {case.case}, worst heading {degrees(case.worst_heading):.0f} degrees off the bow"
