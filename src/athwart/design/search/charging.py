"""How each bank is charged: source, charger, input cable and its fuses, refill, the day's balance.

Stated rule: a shore charger or alternator that the brief says charges the bank is its charger, if it gives back in a day what
the dockings take. Else a charger is chosen: an isolated one before one that would be a second tie of the negatives; then the
smallest of the right volts that refills after a docking within :data:`REFILL` and gives back in a day what the dockings take,
without pushing more into the blocks than they bear. It is fed directly from a battery of the ship, the house battery before the
engine's, through a fuse at the source; its output is fused at the bank.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil, inf
from typing import Literal

from athwart import units
from athwart.catalogue.records import Cable, Catalogue, Charger, Fuse
from athwart.design.brief import Alternator, Brief, CableAboard, ShipBattery, ShoreCharger
from athwart.design.limits import Limit
from athwart.design.netlist import DESCRIBED
from athwart.design.places import RunOf, run_between
from athwart.design.proposal import Bank, ChargingChoice, Keep
from athwart.design.search import aboard, cabling
from athwart.design.search.chain import Chain
from athwart.power import charger as law
from athwart.power.ampacity import Ampacity
from athwart.power.battery import running_volts, sae_cranking, warm_resistance
from athwart.power.battery_data import chemistry
from athwart.power.contact import JOINTS
from athwart.power.rules import RULE_SETS
from athwart.units import Ampere, Coulomb, Ohm, Second, Volt

REFILL: Second = 4 * 3600.0
"""Refill wanted after one docking (own judgement)."""
DROP_SHARE = 0.03
FUSE_OVER_INPUT = 1.25
LINK_RATE = 0.2
"""Share of capacity an hour that a direct link is taken to charge at on average (own judgement)."""


@dataclass(frozen=True, slots=True)
class Burden:
    """What the thrusters take from a bank."""

    docking: Coulomb
    day: Coulomb


def burden(brief: Brief, chains: tuple[Chain, ...]) -> Burden:
    """Charge of one docking and of a day."""
    time = brief.duty.burst * brief.duty.bursts_per_docking
    docking = sum(chain.design.current * time for chain in chains if chain.design is not None)
    return Burden(docking, docking * brief.duty.dockings_per_day)


def feeder(brief: Brief) -> ShipBattery | None:
    """The ship's battery a charger is fed from: a house battery that a source charges, else the engine's."""
    charged = {a.charges for a in brief.supply.alternators} | (
        {brief.supply.shore_charger.charges} if brief.supply.shore_charger else set()
    )
    order = {"house": 0, "house and engine start": 1, "engine start": 2}
    return min(brief.supply.batteries, key=lambda b: (b.name not in charged, order[b.use], -b.capacity), default=None)


def alternator_for(brief: Brief, battery: str | None) -> Alternator | None:
    """The alternator that charges a battery."""
    return max((a for a in brief.supply.alternators if a.charges == battery), key=lambda a: a.current, default=None)


def fault_at_block(battery: ShipBattery) -> Ampere:
    """Largest current into a short circuit at the fuse block behind a ship's battery.

    The lugs of two leads and the isolator's contact stand in its way besides the battery itself.
    """
    between = 4 * JOINTS["lug"].usual + JOINTS["switch"].usual
    return 1.05 * running_volts(battery.volts) / (_source_resistance(battery) + between)


def _source_resistance(battery: ShipBattery) -> Ohm:
    if battery.resistance is not None:
        return battery.resistance
    if battery.cranking is not None:
        measured = units.parse_cranking(battery.cranking)
        return warm_resistance(sae_cranking(measured.amperes, measured.standard)[1]) * battery.volts / 12.0
    data = chemistry(battery.chemistry)
    return data.resistance_100ah[1] * 360_000.0 / battery.capacity * battery.volts / 12.0


def path_drop(brief: Brief, battery: str | None) -> Volt:
    """Volts an isolator takes in the charge path of a battery, at half its rated current, the larger of the band."""
    kinds = {"diode isolator": "diode", "electronic isolator": "electronic", "combining relay": "relay"}
    drops = [
        law.isolator_drop(kinds[device.kind], 0.5)[1]
        for device in brief.supply.path_devices
        if device.kind in kinds and battery in device.between and kinds[device.kind] in law.ISOLATORS
    ]
    return sum(drops)


def charging_volts_of(brief: Brief, battery: ShipBattery) -> Volt:
    """Volts at a ship's battery while its source runs, isolators counted."""
    alternator = alternator_for(brief, battery.name)
    base = (
        alternator.regulated_volts
        if alternator is not None and alternator.regulated_volts is not None
        else running_volts(battery.volts)
    )
    return base - path_drop(brief, battery.name)


def _input(charger: Charger, source_volts: Volt, loop: Ohm) -> Ampere:
    """Current into a charger over its input cable; infinite where the power cannot be fed through it."""
    try:
        volts = law.step_up_input_volts(source_volts, loop, charger.charge_volts * charger.current_out, charger.efficiency)
    except ValueError:
        return inf
    return law.step_up_input(charger.charge_volts, charger.current_out, volts, charger.efficiency, charger.quiescent)


def _input_cable(
    brief: Brief, catalogue: Catalogue, charger: Charger, source_volts: Volt, volts: Volt, run: RunOf, fuse_rating: Ampere
) -> tuple[Cable | None, Ampacity | None]:
    """The smallest cable that keeps the drop by the rule's formula and by its own copper, and its current and fuse."""
    rules = RULE_SETS[brief.choices.rule_set]
    awg = rules.id == "us"
    rows = [c for c in catalogue.cables if c.marine and ("AWG" in c.gauge.upper()) == awg] or list(catalogue.cables)
    for cable in sorted(rows, key=lambda c: (c.area, c.price, c.id)):
        loop = cabling.path_copper(cable, 1, run, 293.15)
        current = _input(charger, source_volts, loop)
        drop = max(cabling.rule_drop(rules, current, run.loop, cable.area), current * loop) if current < inf else inf
        allowed = cabling.allowed_current(rules.id, cable, run.engine_space, run.bundled)
        if allowed is None or drop > DROP_SHARE * volts:
            continue
        if fuse_rating <= allowed.value * rules.fuse_ceiling.value and current <= allowed.value:
            return cable, allowed
    return None, None


def _fuse(catalogue: Catalogue, current: Ampere, volts: Volt, fault: Ampere) -> Fuse | None:
    rows = [
        fuse
        for fuse in catalogue.fuses
        if fuse.rating >= current
        and catalogue.fuse_families[fuse.family].volts_most >= volts
        and max((a for v, a in catalogue.fuse_families[fuse.family].breaking_capacity if v >= volts), default=0.0) >= fault
    ]
    return min(rows, key=lambda f: (f.rating, f.price, f.id), default=None)


def _hours_in_a_day(brief: Brief, battery: str | None, kind: str) -> Second:
    supply = brief.supply
    shore = supply.shore_hours_per_day if supply.shore_charger is not None or kind == "shore" else 0.0
    engine = supply.engine_hours_per_day if alternator_for(brief, battery) is not None else 0.0
    return min(shore + (engine if kind != "shore" else 0.0), 86_400.0)


def choose(
    brief: Brief, catalogue: Catalogue, bank: Bank, chains: tuple[Chain, ...], given: aboard.Given, choosing: bool
) -> ChargingChoice:
    """How a bank is charged. ``choosing`` False keeps what the brief describes, nothing included."""
    load = burden(brief, chains)
    source = feeder(brief)
    part = given.parts.charger
    if part is not None and part.fed_from is not None:
        source = next((b for b in brief.supply.batteries if b.name == part.fed_from), source)
    volts_in = source.volts if source is not None else brief.supply.volts
    keep: Keep = "chosen"
    charger: Charger | None = None
    if part is None:
        direct = _direct(brief, catalogue, bank, load)
        if direct is not None and (not choosing or direct.energy_in_per_day >= direct.energy_out_per_day):
            return direct
    if part is not None:
        charger = aboard.charger_of(catalogue, part, volts_in, bank.volts, bank.feeds[0])
        keep = given.keep("charger")
        none_there = part.kind in ("none", "converter")
        if none_there and (keep == "fixed" or not choosing):
            return _nothing(brief, bank, load, keep, source)
        if charger is None and choosing and keep != "fixed":
            keep = "chosen"
    elif not choosing:
        return _nothing(brief, bank, load, "aboard", source)
    if charger is None and choosing and source is not None:
        charger = _smallest(brief, catalogue, bank, load, source)
    if charger is None:
        return _nothing(brief, bank, load, keep, source)
    return _figures(brief, catalogue, bank, load, charger, keep, source, part.input_cable if part else None, part, choosing)


PROFILE_OF = {"thin plate agm": "agm", "starting": "flooded"}
"""Chemistry -> the charging profile it takes."""


def suits(charger: Charger, chemistry_of_bank: str, chemistry_of_source: str) -> bool:
    """Whether a charger has the bank's profile; one that passes its source's volts on suits a bank of the source's kind."""
    profile = PROFILE_OF.get(chemistry_of_bank, chemistry_of_bank)
    if charger.profiles == "as the source":
        return profile == PROFILE_OF.get(chemistry_of_source, chemistry_of_source)
    return profile in [word.strip() for word in charger.profiles.split(",")]


def _nothing(brief: Brief, bank: Bank, load: Burden, keep: Keep, source: ShipBattery | None) -> ChargingChoice:
    return ChargingChoice(
        bank.name, "none", None, keep, None, 0.0, 0.0, None, 0.0, 0.0, 0.0, None, None, inf, inf, load.day, 0.0, None, None
    )


def _direct(brief: Brief, catalogue: Catalogue, bank: Bank, load: Burden) -> ChargingChoice | None:
    """What charges the bank already: the ship's shore charger or an alternator that the brief says charges it, the one that gives
    more in a day. An alternator is counted hot, and at no more than the blocks take."""
    supply, data = brief.supply, chemistry(bank.block.chemistry)
    most = bank.block.charge_most * bank.parallel
    found: list[tuple[Literal["shore", "alternator"], Ampere, Second, Charger | None]] = []
    shore = supply.shore_charger
    if shore is not None and shore.charges == bank.name:
        found.append(("shore", shore.current, supply.shore_hours_per_day, _shore(catalogue, shore, bank)))
    output = sum(law.alternator_output(a.current, 1.0, a.hot_share) for a in supply.alternators if a.charges == bank.name)
    if output > 0:
        found.append(("alternator", min(output, most), supply.engine_hours_per_day, None))
    if not found:
        return None
    kind, current, _, charger = max(found, key=lambda entry: entry[1] * entry[2])
    in_day = sum(entry[1] * entry[2] for entry in found) / data.charge_factor
    limits: tuple[Limit, ...] = (
        ("charge back in a day, Ah", in_day / 3600, load.day / 3600, in_day >= load.day),
        ("charging current the blocks bear, A", current, most, current <= most),
    )
    fuse = _fuse(catalogue, FUSE_OVER_INPUT * current, bank.charging_volts, bank.fault_current_most)
    return ChargingChoice(
        bank.name,
        kind,
        charger,
        "aboard",
        None,
        0.0,
        current,
        None,
        0.0,
        0.0,
        0.0,
        None,
        fuse,
        law.refill_time(min(load.docking, bank.capacity), bank.capacity, current, data.charge_factor),
        law.refill_time(bank.capacity_design, bank.capacity, current, data.charge_factor),
        load.day,
        in_day,
        None,
        None,
        limits,
    )


def _shore(catalogue: Catalogue, shore: ShoreCharger, bank: Bank) -> Charger:
    """The ship's shore charger as a record; its profile is taken to be the bank's, as set by whoever fitted it."""
    near = min(
        (row for row in catalogue.chargers if row.kind == "shore"),
        key=lambda row: (abs(row.volts_out - shore.volts), abs(row.current_out - shore.current)),
    )
    return replace(
        near,
        id=f"{DESCRIBED}shore {shore.current:g} A",
        maker="",
        name=f"shore charger aboard, {shore.current:g} A",
        volts_out=shore.volts,
        current_out=shore.current,
        charge_volts=near.charge_volts * shore.volts / near.volts_out,
        profiles=PROFILE_OF.get(bank.block.chemistry, bank.block.chemistry),
        temperature_sensor=shore.temperature_sensing,
        price=0.0,
        invented=False,
        note=f"described in the brief; after {near.id}",
    )


def _smallest(brief: Brief, catalogue: Catalogue, bank: Bank, load: Burden, source: ShipBattery) -> Charger | None:
    data = chemistry(bank.block.chemistry)
    rows = [
        c
        for c in catalogue.chargers
        if c.kind in ("step-up", "battery to battery")
        and abs(c.volts_in - source.volts) < 1.0
        and abs(c.volts_out - bank.volts) <= 0.09 * bank.volts
        and suits(c, bank.block.chemistry, source.chemistry)
        and c.current_out <= bank.block.charge_most * bank.parallel
    ]
    if not rows:
        return None
    needed_day = load.day * data.charge_factor
    for charger in sorted(rows, key=lambda c: (not c.isolated, c.current_out, c.price, c.id)):
        hours = _hours_in_a_day(brief, source.name, charger.kind)
        back = law.bulk_time(min(load.docking, bank.capacity), charger.current_out, data.charge_factor)
        if back <= REFILL and charger.current_out * hours >= needed_day:
            return charger
    if all(_hours_in_a_day(brief, source.name, c.kind) <= 0.0 for c in rows):
        return min(rows, key=lambda c: (not c.isolated, c.current_out, c.price, c.id))  # a larger one puts back nothing more
    return max(rows, key=lambda c: c.current_out)


def _figures(
    brief: Brief,
    catalogue: Catalogue,
    bank: Bank,
    load: Burden,
    charger: Charger,
    keep: Keep,
    source: ShipBattery | None,
    given_cable: float | None,
    part: object,
    choosing: bool,
) -> ChargingChoice:
    data = chemistry(bank.block.chemistry)
    fed_place = source.place if source is not None and source.place is not None else bank.place
    run = run_between(brief, fed_place, bank.place)
    rules = RULE_SETS[brief.choices.rule_set]
    shore = charger.kind == "shore"
    volts_at_source = charging_volts_of(brief, source) if source is not None else charger.volts_in
    loop: Ohm = 0.0
    cable: Cable | None = None
    allowed: Ampacity | None = None
    current = (
        0.0
        if shore
        else law.step_up_input(charger.charge_volts, charger.current_out, volts_at_source, charger.efficiency, charger.quiescent)
    )
    rating = float(ceil(FUSE_OVER_INPUT * current))
    fuse_source = fuse_bank = None
    if not shore and source is not None:
        source_fault = fault_at_block(source)
        fuse_source = _fuse(catalogue, rating, running_volts(source.volts), source_fault)
        fuse_bank = _fuse(catalogue, FUSE_OVER_INPUT * charger.current_out, bank.charging_volts, bank.fault_current_most)
        if given_cable is not None:
            cable = aboard.cable_of(catalogue, _as_cable(given_cable), bank.feeds[0])
            allowed = cabling.allowed_current(rules.id, cable, run.engine_space, run.bundled)
        else:
            rated = fuse_source.rating if fuse_source else rating
            cable, allowed = _input_cable(brief, catalogue, charger, volts_at_source, source.volts, run, rated)
        if part is not None:
            fuse_source = _given_fuse(catalogue, getattr(part, "fuse_at_source", None), fuse_source, choosing)
            fuse_bank = _given_fuse(catalogue, getattr(part, "fuse_at_bank", None), fuse_bank, choosing)
    if cable is not None:
        loop = cabling.path_copper(cable, 1, run, 293.15)
        current = _input(charger, volts_at_source, loop)
    drop = current * loop if current < inf else volts_at_source
    hours = _hours_in_a_day(brief, source.name if source else None, charger.kind)
    alternator = alternator_for(brief, source.name if source else None)
    left = (
        law.alternator_left(
            law.alternator_output(alternator.current, alternator.idle_share, 1.0), brief.supply.house_load, current
        )
        if alternator is not None
        else None
    )
    chatter = (
        law.chatter_margin(charger.on_volts, charger.off_volts, current, loop)
        if charger.on_volts is not None and charger.off_volts is not None and current < inf
        else None
    )
    refill = law.refill_time(min(load.docking, bank.capacity), bank.capacity, charger.current_out, data.charge_factor)
    floor_charge = bank.capacity_design
    full = law.refill_time(min(floor_charge, bank.capacity), bank.capacity, charger.current_out, data.charge_factor)
    in_day = charger.current_out * hours * _kept_up(brief, alternator, current, shore) / data.charge_factor
    limits: list[Limit] = [
        ("charge back in a day, Ah", in_day / 3600, load.day / 3600, in_day >= load.day),
        (
            "charging current the blocks bear, A",
            charger.current_out,
            bank.block.charge_most * bank.parallel,
            charger.current_out <= bank.block.charge_most * bank.parallel,
        ),
    ]
    if cable is not None and source is not None:
        limits.append(("volts lost in the input cable, V", drop, DROP_SHARE * source.volts, drop <= DROP_SHARE * source.volts))
        if allowed is not None:
            limits.append(("input cable's continuous current, A", current, allowed.value, current <= allowed.value))
    kind = charger.kind
    return ChargingChoice(
        bank.name,
        kind,
        charger,
        keep,
        source.name if source is not None and not shore else None,
        current,
        charger.current_out,
        cable,
        run.plus,
        run.minus,
        drop,
        fuse_source,
        fuse_bank,
        refill,
        full,
        load.day,
        in_day,
        left,
        chatter,
        tuple(limits),
        path_drop(brief, source.name if source else None),
    )


def _as_cable(size: float) -> CableAboard:
    return CableAboard.model_construct(row=None, size=size, in_parallel=1, insulation=None)


def _kept_up(brief: Brief, alternator: Alternator | None, input_current: Ampere, shore: bool) -> float:
    """Share of its current a charger can hold while the engine runs: what the hot alternator leaves beside the house."""
    if shore or alternator is None or input_current <= 0:
        return 1.0
    left = law.alternator_output(alternator.current, 1.0, alternator.hot_share) - brief.supply.house_load
    return max(0.0, min(1.0, left / input_current))


def _given_fuse(catalogue: Catalogue, rating: Ampere | None, chosen: Fuse | None, choosing: bool) -> Fuse | None:
    if rating is None:
        return chosen if choosing else None
    breaks = catalogue.fuse_families
    return min(
        catalogue.fuses,
        key=lambda fuse: (abs(fuse.rating - rating), -max(a for _, a in breaks[fuse.family].breaking_capacity), fuse.id),
    )
