"""Banks: is there enough, is it fit, may it do this, can anybody reach it."""

from __future__ import annotations

from collections.abc import Iterator

from athwart.design.brief import ConsumerLoad
from athwart.design.checks.looks import bank_path, bank_tags, lanes_of, over, part_path, parts_of, share, told, under, wish_of
from athwart.design.checks.registry import check
from athwart.design.proposal import Bank, Proposal
from athwart.design.search.settle import other_loads
from athwart.findings import Finding, code
from athwart.network import ground
from athwart.power.battery import Protection
from athwart.units import Metre

OLD: float = 5.0
FAR: Metre = 5.0


BANK_01 = code(
    "BANK-01",
    "Not enough charge for a docking and the longest hold",
    "stop",
    says="The charge that is left in the bank, cold, aged and 70 % full, does not last for one docking and the longest hold.",
    why="It fails in the middle of the manoeuvre it was bought for.",
    remedy="A larger bank, a shorter hold, or less current at a higher voltage.",
    source="own-arithmetic",
)
BANK_02 = code(
    "BANK-02",
    "A bank beyond its years",
    "caution",
    says="The blocks are older than five years; their resistance and capacity were taken as worse than the design state's.",
    why="Worn sealed blocks still read full at rest and sag under load; in a string the weakest is driven hard by the others and may burst.",
    remedy="Load-test each block; renew the string complete.",
    source="lead-resistance-temperature",
)
BANK_03 = code(
    "BANK-03",
    "Blocks of unlike age in one string",
    "stop",
    says="The string holds blocks of different age.",
    why="The pair is as good as its worse half, and its volts hide it: 12.7 and 12.2 V read as a good 24.9 V. The old block spoils the new one.",
    remedy="Renew strings complete; judge each block by its own volts.",
    source="common-practice",
)
BANK_04 = code(
    "BANK-04",
    "Blocks not held",
    "stop",
    says="The blocks are not secured.",
    why="A block of thirty kilograms that breaks loose tears its cables off and short-circuits on the way.",
    remedy="Hold each block so that it moves 10 mm at most under twice its weight.",
    source="iso-10133",
)
BANK_05 = code(
    "BANK-05",
    "Terminals not covered",
    "stop",
    says="The terminals are bare.",
    why="A spanner across them carries thousands of amperes. A bent lug on a case makes a small leak that blows no fuse and eats a drive leg.",
    remedy="Boots on every terminal, a cover over the bank, and a sign that this is no stowage.",
    source="common-practice",
)
BANK_06 = code(
    "BANK-06",
    "The bank can only be reached by taking something out",
    "caution",
    says="Changing a block means removing structure.",
    why="What cannot be reached is not looked at; a worn block is found in wind.",
    remedy="Another place, or a hatch.",
    source="common-practice",
)
BANK_07 = code(
    "BANK-07",
    "Fed from the sole engine-start battery",
    "stop",
    says="The only battery that starts an engine also feeds the thruster.",
    why="After a hard docking the engine does not start any more.",
    remedy="Give the thruster a bank of its own.",
    source="common-practice",
)
BANK_08 = code(
    "BANK-08",
    "Starting blocks used as a thruster bank",
    "note",
    says="The bank is made of starting blocks.",
    why="They give large currents and do not bear to be emptied; a few deep discharges finish them.",
    remedy="Thin-plate AGM or deep-cycle blocks, or keep dockings short and charging prompt.",
    source="common-practice",
)
BANK_09 = code(
    "BANK-09",
    "The protection circuit opens",
    "stop",
    says="A lithium block's protection circuit does not let the current through for the longest run, or opens at the start.",
    why="It takes away all thrust at once, in the middle of a manoeuvre.",
    remedy="More strings, blocks for higher current, or a unit that starts softly.",
    source="own-judgement",
)
BANK_10 = code(
    "BANK-10",
    "Limits of the protection circuit are not known",
    "caution",
    says="The bank is lithium and nothing is said of the currents its protection circuit bears.",
    why="Ordinary house packs carry 200 to 300 A. A thruster starts with several times that.",
    remedy="Get continuous and peak current with its seconds from the maker, and enter them.",
    source="own-judgement",
)
BANK_11 = code(
    "BANK-11",
    "Protection opens before the fuse",
    "note",
    says="A short circuit is opened by the blocks' protection circuit, not by the main fuse.",
    why="Semiconductors open fast and may fail closed. The fuse is still what protects the cable.",
    remedy="Keep the fuse; ask the maker what a short circuit leaves of the protection.",
    source="own-judgement",
)
BANK_12 = code(
    "BANK-12",
    "Colder than the block may be discharged",
    "caution",
    says="The coldest bank temperature of the brief lies below what the block may be discharged at.",
    why="Its protection refuses, or the cells suffer.",
    remedy="Another chemistry, or a warmer place.",
    source="lithium-limits",
)
BANK_13 = code(
    "BANK-13",
    "Another consumer gets too few volts",
    "caution",
    says="With every unit of the bank running the volts fall below what another consumer on it needs.",
    why="Plotters reboot and windlasses stall while the thruster runs.",
    remedy="Feed that consumer from another bank, or by a converter that bears the sag.",
    source="own-arithmetic",
)
BANK_14 = code(
    "BANK-14",
    "A load on one block of the string",
    "caution",
    says="A load hangs on part of a series string.",
    why="What it takes is missing in that block alone. The charger stops at the sum of volts: the tapped block stays low, the others are overcharged.",
    remedy="Keep it below 2 % of the block's charge a day with an equaliser, or use a converter over the whole string.",
    source="mid-tap-arithmetic",
)
BANK_15 = code(
    "BANK-15",
    "Parallel strings without fuses of their own",
    "stop",
    says="Strings lie side by side and have no fuse each at their positive.",
    why="When a block fails in one string all the others feed into it.",
    remedy="A fuse at the positive of each string.",
    source="own-judgement",
)
BANK_16 = code(
    "BANK-16",
    "More blocks in series than the block allows",
    "stop",
    says="The maker of the block allows fewer in series.",
    why="Protection circuits are rated for a voltage; beyond it they do not open.",
    remedy="A block made for these volts.",
    source="own-judgement",
)
BANK_17 = code(
    "BANK-17",
    "Resistance of the blocks is assumed",
    "note",
    says="Neither a resistance nor a cranking current of the blocks is known; a usual value of the chemistry was taken.",
    why="Thrust and fault currents follow it, and it spreads by a factor of two.",
    remedy="Enter the maker's figure, or measure volts at rest and under a known load.",
    source="battery-resistance",
)
BANK_18 = code(
    "BANK-18",
    "The bank is far from the unit",
    "caution",
    says="The run between bank and unit is more than five metres one way, and it is paid there and back.",
    why="Copper, weight and volts go with the loop; moving the bank is usually cheaper than doubling the cable.",
    remedy="Move the bank towards the unit.",
    source="common-practice",
)
BANK_19 = code(
    "BANK-19",
    "Blocks that gas in an unventilated place",
    "caution",
    says="Lead blocks are charged in a place without ventilation.",
    why="They give off hydrogen; sealed ones too when they are overcharged or fail.",
    remedy="Openings low and high of the size in the papers, to the open air.",
    source="iec-62485-2",
)
BANK_20 = code(
    "BANK-20",
    "A bank in a living space",
    "note",
    says="The bank stands where people live or sleep.",
    why="Gas, heat and acid belong in a place of their own.",
    remedy="A tight box vented outside, or another place.",
    source="common-practice",
)
BANK_21 = code(
    "BANK-21",
    "Old sealed blocks in a long string",
    "caution",
    says="Sealed blocks older than five years work in series under hundreds of amperes.",
    why="One block that fails is reversed by its mates; cases have burst that way.",
    remedy="Before the next loaded try measure every block at rest and under load; if one sags far more than its mates, stop.",
    source="common-practice",
)


def _part_path(p: Proposal, bank: Bank, field: str) -> str:
    lanes = lanes_of(p, bank)
    return part_path(p, lanes[0], "bank", field) if lanes else ""


@check
def enough(p: Proposal) -> Iterator[Finding]:
    """Charge, protection, cold, series count."""
    for bank in p.banks:
        lanes, block, where = lanes_of(p, bank), bank.block, bank.name
        current = sum(lane.design.current for lane in lanes if lane.design is not None)
        charge = current * (p.need.energy_share + p.need.run_time)
        if charge > bank.capacity_design * (1 + 1e-6) and current > 0:
            yield BANK_01.found(
                where,
                "A docking and the longest hold.",
                value=told(charge, "charge", "Ah"),
                limit=told(bank.capacity_design, "charge", "Ah"),
                margin=over(charge, bank.capacity_design),
                tags=bank_tags(p, bank),
                path=bank_path(p, bank.name),
            )
        if bank.series > block.series_most:
            yield BANK_16.found(
                where,
                f"{block.name}.",
                value=f"{bank.series}",
                limit=f"{block.series_most}",
                margin=over(bank.series, block.series_most),
                path=_part_path(p, bank, "series"),
            )
        if bank.assumed_resistance:
            yield BANK_17.found(
                where,
                f"{block.name}.",
                value=told(bank.resistance_new, "resistance", "mohm"),
                path=_part_path(p, bank, "resistance"),
            )
        coldest = p.brief.duty.coldest_bank
        if coldest is not None and block.discharge_coldest is not None and coldest < block.discharge_coldest:
            yield BANK_12.found(
                where,
                f"{block.name}.",
                value=told(coldest, "temperature", "°C"),
                limit=told(block.discharge_coldest, "temperature", "°C"),
                path="duty.coldest_bank",
            )
        if block.chemistry == "lfp":
            yield from _protection(p, bank)


def _protection(p: Proposal, bank: Bank) -> Iterator[Finding]:
    block, lanes = bank.block, lanes_of(p, bank)
    guard = Protection(block.discharge_continuous, block.discharge_peak, block.discharge_peak_time)
    aboard = [parts_of(p, lane).bank for lane in lanes if bank.kept != "chosen"]
    described = any(part is not None and part.row is None for part in aboard)
    if described or (guard.continuous is None and guard.peak is None):
        yield BANK_10.found(bank.name, f"{block.name}.", tags=bank_tags(p, bank), path=_part_path(p, bank, "row"))
    running_now = sum(
        max(lane.peak.current, lane.design.current) for lane in lanes if lane.peak is not None and lane.design is not None
    )
    each = (running_now + other_loads(p.brief, bank, "peak")) / bank.parallel
    held = guard.holds_for(each)
    if held is not None and held < p.need.run_time and each > 0:
        yield BANK_09.found(
            bank.name,
            f"It does not let {told(each, 'current')} a string through."
            if held == 0.0
            else f"It lets {told(each, 'current')} a string through for {told(held, 'time')}.",
            value=told(held, "time"),
            limit=told(p.need.run_time, "time"),
            margin=under(held, p.need.run_time),
            tags=bank_tags(p, bank),
            path=bank_path(p, bank.name),
        )
    start = max((lane.start_current or 0.0 for lane in lanes), default=0.0) / bank.parallel
    if guard.peak is not None and start > guard.peak:
        yield BANK_09.found(
            bank.name,
            "It opens at the start.",
            value=told(start, "current"),
            limit=told(guard.peak, "current"),
            margin=over(start, guard.peak),
            tags=bank_tags(p, bank),
            path=bank_path(p, bank.name),
        )
    if any(fault.opens_first == "battery protection circuit" for lane in lanes for fault in lane.faults):
        yield BANK_11.found(bank.name, f"{block.name}.", tags=bank_tags(p, bank))


@check
def fit(p: Proposal) -> Iterator[Finding]:
    """Age, mixture, hold-down, covers, string fuses of a bank aboard."""
    for bank in p.banks:
        lane = next(iter(lanes_of(p, bank)), None)
        part = parts_of(p, lane).bank if lane is not None else None
        if bank.kept == "chosen" or part is None:
            continue
        where = bank.name
        if bank.age_years is not None and bank.age_years > OLD:
            yield BANK_02.found(
                where,
                f"{bank.block.name}.",
                value=f"{bank.age_years:g} years",
                limit=f"{OLD:g} years",
                margin=over(bank.age_years, OLD),
                tags=bank_tags(p, bank),
                path=_part_path(p, bank, "age_years"),
            )
            if bank.block.sealed and bank.series > 1:
                yield BANK_21.found(
                    where,
                    f"{bank.series} in series.",
                    value=f"{bank.age_years:g} years",
                    limit=f"{OLD:g} years",
                    tags=bank_tags(p, bank),
                    path=_part_path(p, bank, "age_years"),
                )
        if bank.mixed_age:
            yield BANK_03.found(where, "Blocks of unlike age.", tags=bank_tags(p, bank), path=_part_path(p, bank, "mixed_age"))
        if not part.held:
            yield BANK_04.found(where, "Blocks are loose.", path=_part_path(p, bank, "held"))
        if not part.terminals_covered:
            yield BANK_05.found(where, "Bare terminals.", path=_part_path(p, bank, "terminals_covered"))
        if bank.parallel > 1 and bank.string_fuse is None:
            yield BANK_15.found(
                where, f"{bank.parallel} strings.", tags=bank_tags(p, bank), path=_part_path(p, bank, "string_fuses")
            )


@check
def place(p: Proposal) -> Iterator[Finding]:
    """Access, air, distance, living space."""
    for index, wish in enumerate(p.brief.bank):
        spot = p.brief.place(wish.place)
        bank = p.bank(wish.name)
        if spot is None or bank is None:
            continue
        at = f"layout.places[{p.brief.layout.places.index(spot)}]"
        if spot.access == "structure removed":
            yield BANK_06.found(wish.name, f"{spot.name}.", value=spot.access, limit="tools", path=f"{at}.access")
        if (
            bank.block.chemistry != "lfp"
            and not spot.ventilated
            and spot.access != "open"
            and not (bank.block.sealed and bank.kept == "chosen")
        ):
            yield BANK_19.found(wish.name, f"{spot.name} is closed.", path=f"{at}.ventilated")
        if spot.living_space:
            yield BANK_20.found(wish.name, f"{spot.name}.", path=f"{at}.living_space")
        for lane in lanes_of(p, bank):
            if lane.cable is not None and lane.cable.plus > FAR:
                yield BANK_18.found(
                    wish.name,
                    f"To the {lane.thruster.identity} unit.",
                    value=told(lane.cable.plus, "length", "m"),
                    limit=told(FAR, "length", "m"),
                    margin=over(lane.cable.plus, FAR),
                    path=f"bank[{index}].place",
                )
        if bank.block.chemistry == "starting":
            yield BANK_08.found(wish.name, f"{bank.block.name}.", path=bank_path(p, wish.name, "chemistries"))


def cranks(load: ConsumerLoad) -> bool:
    """Whether a load starts an engine: as the brief says, else by its name."""
    if load.cranks_engine is not None:
        return load.cranks_engine
    return any(word in load.name.casefold() for word in ("start", "crank"))


@check
def shared(p: Proposal) -> Iterator[Finding]:
    """Who else hangs on it."""
    burns = any(engine.fuel != "electric" for engine in p.brief.propulsion.engines)
    starters = [battery for battery in p.brief.supply.batteries if "engine start" in battery.use]
    for bank in p.banks:
        found = wish_of(p, bank.name)
        shares = found is not None and any(cranks(load) for load in found[1].shared_with)
        if burns and shares and not starters:
            yield BANK_07.found(
                bank.name, "The thruster empties the engine's only starter.", path=bank_path(p, bank.name, "shared_with")
            )
        if found is None:
            continue
        index, wish = found
        lanes = lanes_of(p, bank)
        together = [lane.both_design or lane.design for lane in lanes]
        least = min((state.bank_volts for state in together if state is not None), default=None)
        for number, load in enumerate(wish.shared_with):
            if load.least_volts is not None and least is not None and least < load.least_volts:
                yield BANK_13.found(
                    load.name,
                    f"On the {bank.name}.",
                    value=told(least, "voltage"),
                    limit=told(load.least_volts, "voltage"),
                    margin=under(least, load.least_volts),
                    path=f"bank[{index}].shared_with[{number}].least_volts",
                )
        if wish.mid_tap_load is not None and wish.mid_tap_load > 0:
            part = ground.tap_daily_share(wish.mid_tap_load, p.brief.network.standby_hours_per_day, bank.capacity)
            verdict = ground.tap_verdict(part, bool(wish.equaliser))
            if verdict:
                yield BANK_14.found(
                    bank.name,
                    f"{told(wish.mid_tap_load, 'current')}" + ("" if wish.equaliser else ", no equaliser") + ".",
                    value=share(part),
                    limit=share(ground.MID_TAP_CAUTION),
                    margin=over(part, ground.MID_TAP_CAUTION),
                    severity="stop" if verdict == "stop" else "caution",
                    path=f"bank[{index}].mid_tap_load",
                )
