"""Charging: is there a source, does it reach the bank, does it keep up, does it start and stop as it should."""

from __future__ import annotations

from collections.abc import Iterator
from math import isinf

from athwart.design.checks.looks import lanes_of, over, part_path, parts_of, share, told, under
from athwart.design.checks.registry import check
from athwart.design.proposal import Bank, ChargingChoice, Proposal
from athwart.design.search.charging import DROP_SHARE, REFILL, charging_volts_of, suits
from athwart.findings import Finding, code
from athwart.units import Kelvin

CHARGE_COLD: Kelvin = 273.15

CHARGE_01 = code(
    "CHARGE-01",
    "Nothing charges the bank",
    "stop",
    says="The brief names no source that charges this bank.",
    why="A bank that is only ever emptied works for a few dockings, then fails in wind, and lead that stands empty dies.",
    remedy="Fit a charger at the bank: a step-up from the ship's battery, a battery-to-battery charger or one from shore.",
    source="common-practice",
)
CHARGE_02 = code(
    "CHARGE-02",
    "A converter is not a charger",
    "stop",
    says="The bank hangs on a voltage converter.",
    why="A converter holds one voltage: it neither follows a battery's charging curve nor stops before the ship's battery is empty. Both "
    "banks end up flat.",
    remedy="Replace it by a charger with stages, an input cut-off and the curve of the bank's chemistry.",
    source="common-practice",
)
CHARGE_03 = code(
    "CHARGE-03",
    "The charger's input cable loses too much",
    "caution",
    says="On the way there and back to the charger more than 3 % of the ship's volts are lost at its own current.",
    why="A charger that is fed less draws more; the drop grows with the current, and the bank falls further behind the emptier it is.",
    remedy="Take a thicker cable, a smaller charger or a shorter route.",
    source="step-up-charging",
)
CHARGE_04 = code(
    "CHARGE-04",
    "No fuse at the source end of the charging cable",
    "stop",
    says="The charger's input has no fuse at the battery it is fed from.",
    why="The battery would feed a chafed cable until something burns.",
    remedy="Fit a fuse at that battery, within the rule's distance, for the cable's current.",
    source="iso-13297",
)
CHARGE_05 = code(
    "CHARGE-05",
    "No fuse at the bank end of the charging cable",
    "stop",
    says="The charger's output has no fuse at the thruster bank.",
    why="Both ends of a charging cable are sources. The bank at its far end is the larger one.",
    remedy="Fit a fuse at the bank's plus, within the rule's distance.",
    source="iso-13297",
)
CHARGE_06 = code(
    "CHARGE-06",
    "The charger would switch on and off by its own drop",
    "caution",
    says="The volts it loses in its own input cable exceed the gap between the volts it starts and stops at.",
    why="It starts, pulls the volts it senses below its stop limit, stops, recovers and starts again, all day long.",
    remedy="Thicken the input cable, sense at the battery, or widen the gap.",
    source="step-up-charging",
)
CHARGE_07 = code(
    "CHARGE-07",
    "An isolator keeps the source below the charger's start",
    "caution",
    says="With the drop of the diode or isolator in the charge path the battery never reaches the volts at which the charger starts, or "
    "stays undercharged.",
    why="A diode costs most of a volt. Fourteen volts at the alternator are barely thirteen at the battery, and a sensing charger waits for "
    "ever.",
    remedy="Sense the alternator before the isolator, replace the diode by an electronic isolator or a relay, or start by the engine.",
    source="isolator-drops",
)
CHARGE_08 = code(
    "CHARGE-08",
    "A shared bus bar falsifies the sensing",
    "note",
    says="Between charger and battery lies a bus bar that other loads and sources share.",
    why="Pulsing loads and other chargers on the bar move the volts by which the charger decides.",
    remedy="Take the charger's input and its sense lead directly to the battery's studs, with their own fuse.",
    source="step-up-charging",
)
CHARGE_09 = code(
    "CHARGE-09",
    "The alternator cannot carry the charger at idle",
    "caution",
    says="At idle, warm, the alternator gives less than the house and the thruster chargers draw together.",
    why="Manoeuvring is done at idle: the ship's battery pays, and after a morning of locks it is the ship that is flat.",
    remedy="Take a smaller charger, let it start only above a higher voltage, or fit a larger alternator.",
    source="alternator-hot",
)
CHARGE_10 = code(
    "CHARGE-10",
    "The day takes more than the day gives back",
    "stop",
    says="The dockings of a day take more charge from the bank than its charger can put back while a source runs.",
    why="Every day ends a little lower, and the day it fails is a windy one.",
    remedy="Take a stronger charger, run the source longer, or charge from shore at night.",
    source="own-arithmetic",
)
CHARGE_11 = code(
    "CHARGE-11",
    "Refilling takes longer than the pause between dockings",
    "note",
    says="After one docking the bank is not full again before the next one of the day.",
    why="The second docking starts lower; volts and thrust start lower with it.",
    remedy="A stronger charger, or count on it when you plan the day.",
    source="own-judgement",
)
CHARGE_12 = code(
    "CHARGE-12",
    "The charger gives more than the blocks bear",
    "caution",
    says="The charging current exceeds what the makers of the blocks allow.",
    why="Lead gasses and dries out, lithium opens its protection.",
    remedy="Take a smaller charger or set its limit.",
    source="own-judgement",
)
CHARGE_13 = code(
    "CHARGE-13",
    "Hidden sealed bank charged without its temperature",
    "caution",
    says="Nothing measures the temperature of a lead bank that is charged in a closed place.",
    why="A failed block warms, takes more current and warms further: sulphur smell, boiling, in the end a burst case.",
    remedy="Fit the charger's temperature sensor to a block, ventilate the place, do not charge unattended without it.",
    source="common-practice",
)
CHARGE_14 = code(
    "CHARGE-14",
    "Lithium may be charged below freezing",
    "caution",
    says="The coldest the bank may be lies below the temperature at which these cells may be charged.",
    why="Charging a frozen cell plates metal inside it and spoils it for good.",
    remedy="Choose blocks that refuse charge when cold, or a charger that asks for their temperature.",
    source="lithium-limits",
)
CHARGE_15 = code(
    "CHARGE-15",
    "Series/parallel switch",
    "caution",
    says="The bank is charged side by side at the ship's volts and put in series while the thruster runs.",
    why="A contact that welds joins 12 V and 24 V. While in series nothing else may hang on either half, and both halves must be alike.",
    remedy="Let the switch be interlocked both ways and fused on both sides, and hang nothing else on the halves; a step-up charger is simpler.",
    source="own-arithmetic",
)
CHARGE_16 = code(
    "CHARGE-16",
    "Charged from the engine's starting battery",
    "caution",
    says="The thruster charger is fed from the battery that starts the engine.",
    why="A charger without a cut-off takes from it what the starter needs.",
    remedy="Feed it from the house battery, or make sure that it stops well above starting volts.",
    source="common-practice",
)
CHARGE_22 = code(
    "CHARGE-22",
    "The engine's only battery charges the thruster",
    "stop",
    says="The ship has one battery, it starts the engine, and the thruster's charger takes from it.",
    why="After a few dockings with the engine off nothing starts the engine any more.",
    remedy="A house battery for the charger, or a charger fed by the alternator alone: one that runs only above charging volts.",
    source="common-practice",
)
CHARGE_17 = code(
    "CHARGE-17",
    "The charger ties the negatives a second time",
    "note",
    says="The charger is not isolated: its input minus and output minus are one, beside the common-negative link.",
    why="Fault current takes both ways. The thinner one is a charging cable.",
    remedy="Take an isolated charger, or give its input minus the size of the link, as drawn.",
    source="own-judgement",
)
CHARGE_18 = code(
    "CHARGE-18",
    "The charger's profile does not suit the bank",
    "stop",
    says="The charger has no charging curve for this chemistry, or charges to other volts than the bank's.",
    why="Gel and lithium are ruined by a curve for flooded lead; lead is never full on one for lithium.",
    remedy="Take a charger with the profile of the blocks.",
    source="charging-volts",
)
CHARGE_19 = code(
    "CHARGE-19",
    "The shore charger does not see its battery's temperature",
    "note",
    says="The ship's shore charger has no temperature sensor.",
    why="It keeps pushing current into a failed hot battery; more than about 2 % of the capacity after a day means trouble.",
    remedy="Fit the sensor, and look at the charging current after a day.",
    source="common-practice",
)


CHARGE_20 = code(
    "CHARGE-20",
    "The shore charger has other volts than its battery",
    "stop",
    says="The shore charger's volts are not those of the battery it charges.",
    why="Half the volts charge nothing, twice the volts burst it.",
    remedy="Check the charger's plate and which battery it really hangs on.",
    source="own-arithmetic",
)


CHARGE_21 = code(
    "CHARGE-21",
    "The ship's volts are those of none of her batteries",
    "caution",
    says="The ship's volts in the brief differ from those of every battery listed.",
    why="Chargers, fuses and the control line are chosen by them.",
    remedy="Correct supply.volts or the batteries.",
    source="own-arithmetic",
)


def _place(p: Proposal, choice: ChargingChoice) -> str:
    return f"charging of the {choice.bank}"


def _bank(p: Proposal, choice: ChargingChoice) -> Bank | None:
    return p.bank(choice.bank)


def _path(p: Proposal, bank: Bank, field: str = "") -> str:
    lanes = lanes_of(p, bank)
    return part_path(p, lanes[0], "charger", field) if lanes else ""


@check
def source_there(p: Proposal) -> Iterator[Finding]:
    """No source, or what is no charger."""
    for choice in p.charging:
        bank = _bank(p, choice)
        if bank is not None and choice.kind != "none" and choice.energy_in_per_day <= 0.0 < choice.energy_out_per_day:
            what = choice.from_battery or "its source"
            yield CHARGE_01.found(
                _place(p, choice), f"Its charger takes from {what}, which nothing charges.", path=_path(p, bank)
            )
        if bank is None or choice.kind != "none":
            continue
        described = next((parts_of(p, lane).charger for lane in lanes_of(p, bank) if parts_of(p, lane).charger is not None), None)
        if described is not None and described.kind == "converter":
            yield CHARGE_02.found(
                _place(p, choice),
                f"It hangs on a converter from the {described.fed_from or 'ship'}.",
                path=_path(p, bank, "kind"),
            )
        else:
            yield CHARGE_01.found(_place(p, choice), "Nothing charges it.", path=_path(p, bank))


@check
def cable_and_fuses(p: Proposal) -> Iterator[Finding]:
    """Input cable, fuses at both ends, sensing."""
    for choice in p.charging:
        bank = _bank(p, choice)
        if bank is None or choice.charger is None or choice.from_battery is None:
            continue
        where = _place(p, choice)
        source = next((b for b in p.brief.supply.batteries if b.name == choice.from_battery), None)
        if source is not None and choice.input_drop > DROP_SHARE * source.volts * (1 + 1e-9):
            limit = DROP_SHARE * source.volts
            loop = choice.input_plus + choice.input_minus
            yield CHARGE_03.found(
                where,
                f"{told(choice.input_current, 'current') if not isinf(choice.input_current) else 'More than can be fed'} over a loop of "
                f"{told(loop, 'length', 'm')}.",
                value=told(choice.input_drop, "voltage"),
                limit=told(limit, "voltage"),
                margin=over(choice.input_drop, limit),
                path=_path(p, bank, "input_cable"),
            )
        if choice.fuse_source is None:
            yield CHARGE_04.found(where, f"No fuse at the {choice.from_battery}.", path=_path(p, bank, "fuse_at_source"))
        if choice.fuse_bank is None:
            yield CHARGE_05.found(where, "No fuse at the bank.", path=_path(p, bank, "fuse_at_bank"))
        described = next((parts_of(p, lane).charger for lane in lanes_of(p, bank)), None)
        at_source = described is not None and described.senses_source is True and choice.kept != "chosen"
        if choice.chatter_margin is not None and choice.chatter_margin < 0 and not at_source:
            gap = (choice.charger.on_volts or 0.0) - (choice.charger.off_volts or 0.0)
            yield CHARGE_06.found(
                where,
                "It would switch itself off by its own drop.",
                value=told(gap - choice.chatter_margin, "voltage"),
                limit=told(gap, "voltage"),
                margin=choice.chatter_margin / gap if gap else -1.0,
                path=_path(p, bank, "input_cable"),
            )
        if (
            not choice.charger.isolated
            and p.brief.supply.common_negative == "common"
            and choice.kind in ("step-up", "battery to battery")
        ):
            yield CHARGE_17.found(where, f"{choice.charger.name} is not isolated.", path=_path(p, bank))


@check
def path_devices(p: Proposal) -> Iterator[Finding]:
    """Isolators, diodes and shared bars between source and battery."""
    for choice in p.charging:
        bank = _bank(p, choice)
        source = next((b for b in p.brief.supply.batteries if b.name == choice.from_battery), None)
        if bank is None or source is None or choice.charger is None:
            continue
        volts = charging_volts_of(p.brief, source)
        on = choice.charger.on_volts
        if choice.path_drop > 0.3 and on is not None and volts < on + 0.2:
            index = next(i for i, d in enumerate(p.brief.supply.path_devices) if source.name in d.between)
            yield CHARGE_07.found(
                _place(p, choice),
                f"{told(choice.path_drop, 'voltage')} are lost in the charge path of the {source.name}.",
                value=told(volts, "voltage"),
                limit=told(on + 0.2, "voltage"),
                margin=under(volts, on + 0.2),
                path=f"supply.path_devices[{index}]",
            )
        for index, device in enumerate(p.brief.supply.path_devices):
            if device.kind == "shared bus bar" and source.name in device.between:
                yield CHARGE_08.found(_place(p, choice), f"{device.name} lies in its path.", path=f"supply.path_devices[{index}]")


@check
def keeps_up(p: Proposal) -> Iterator[Finding]:
    """Alternator at idle, the day's balance, refill."""
    told_of: set[str] = set()
    for choice in p.charging:
        bank = _bank(p, choice)
        if bank is None or choice.charger is None:
            continue
        where = _place(p, choice)
        left = choice.alternator_idle_margin
        if left is not None and left < 0 and choice.from_battery not in told_of:
            told_of.add(choice.from_battery or "")
            yield CHARGE_09.found(
                where,
                "At idle the alternator falls short.",
                value=told(-left, "current") + " short",
                limit="0 A",
                margin=-1.0,
                path="supply.alternators",
            )
        if choice.energy_in_per_day < choice.energy_out_per_day:
            yield CHARGE_10.found(
                where,
                "A day takes more than it gives back.",
                value=told(choice.energy_in_per_day, "charge", "Ah"),
                limit=told(choice.energy_out_per_day, "charge", "Ah"),
                margin=under(choice.energy_in_per_day, choice.energy_out_per_day),
                path="duty.dockings_per_day",
            )
        pause = 12 * 3600.0 / max(p.brief.duty.dockings_per_day, 1e-9)
        if choice.refill_time > min(pause, 6 * REFILL):
            yield CHARGE_11.found(
                where,
                "The bank is not full before the next docking.",
                value=told(choice.refill_time, "time"),
                limit=told(pause, "time"),
                margin=over(choice.refill_time, pause),
            )


@check
def suits_blocks(p: Proposal) -> Iterator[Finding]:
    """Current, profile, cold, temperature sensing."""
    for choice in p.charging:
        bank = _bank(p, choice)
        if bank is None:
            continue
        where, block = _place(p, choice), bank.block
        if choice.charger is not None:
            most = block.charge_most * bank.parallel
            if choice.output_current > most * (1 + 1e-9):
                yield CHARGE_12.found(
                    where,
                    f"{block.name} bears less.",
                    value=told(choice.output_current, "current"),
                    limit=told(most, "current"),
                    margin=over(choice.output_current, most),
                    path=_path(p, bank),
                )
            source = next((b for b in p.brief.supply.batteries if b.name == choice.from_battery), None)
            profile = suits(choice.charger, block.chemistry, source.chemistry if source else block.chemistry)
            same_volts = abs(choice.charger.volts_out - bank.volts) <= 0.1 * bank.volts
            if choice.charger.kind != "series/parallel switch" and not (profile and same_volts):
                yield CHARGE_18.found(
                    where,
                    f"{choice.charger.name} for a {block.chemistry} bank of {told(bank.volts, 'voltage')}.",
                    path=_path(p, bank),
                )
            if choice.kind == "series/parallel switch":
                yield CHARGE_15.found(where, f"{choice.charger.name}.", path=_path(p, bank, "kind"))
            if source is not None and source.use == "engine start":
                burns = any(engine.fuel != "electric" for engine in p.brief.propulsion.engines)
                sole = burns and all(battery.name == source.name for battery in p.brief.supply.batteries)
                entry = CHARGE_22 if sole else CHARGE_16
                yield entry.found(where, f"It is fed from the {source.name}.", path=_path(p, bank, "fed_from"))
        coldest = p.brief.duty.coldest_bank
        if (
            block.chemistry == "lfp"
            and coldest is not None
            and coldest < (block.charge_coldest if block.charge_coldest is not None else CHARGE_COLD)
        ):
            bears = block.charge_coldest if block.charge_coldest is not None else CHARGE_COLD
            yield CHARGE_14.found(
                where,
                "The bank may be colder than it may be charged.",
                value=told(coldest, "temperature", "°C"),
                limit=told(bears, "temperature", "°C"),
                path="duty.coldest_bank",
            )
        place = p.brief.place(bank.place)
        senses = block.temperature_sensor or (
            choice.charger is not None and choice.charger.temperature_sensor and choice.kept == "chosen"
        )
        if (
            choice.kind != "none"
            and block.chemistry != "lfp"
            and place is not None
            and not place.ventilated
            and place.access != "open"
            and not senses
        ):
            yield CHARGE_13.found(
                where, f"{bank.place} is closed and nothing measures the blocks' temperature.", path=_path(p, bank)
            )


@check
def ship_side(p: Proposal) -> Iterator[Finding]:
    """The ship's own charging, as far as the thruster hangs on it."""
    shore = p.brief.supply.shore_charger
    batteries_volts = [b.volts for b in p.brief.supply.batteries]
    if batteries_volts and not any(abs(p.brief.supply.volts - v) < 0.1 * v for v in batteries_volts):
        listed = ", ".join(sorted({told(v, "voltage") for v in batteries_volts}))
        yield CHARGE_21.found(
            "ship's supply", "Volts of the ship.", value=told(p.brief.supply.volts, "voltage"), limit=listed, path="supply.volts"
        )
    if shore is not None and not shore.temperature_sensing:
        batteries = [b for b in p.brief.supply.batteries if b.name == shore.charges and b.chemistry != "lfp"]
        if batteries:
            yield CHARGE_19.found(
                "shore charger",
                f"It charges the {shore.charges} without its temperature.",
                value=told(shore.current, "current"),
                limit=f"{share(0.02)} of the capacity after a day",
                path="supply.shore_charger.temperature_sensing",
            )
    battery = next((b for b in p.brief.supply.batteries if shore is not None and b.name == shore.charges), None)
    if shore is not None and battery is not None and abs(shore.volts - battery.volts) > 0.25 * battery.volts:
        yield CHARGE_20.found(
            "shore charger",
            f"It charges the {battery.name}.",
            value=told(shore.volts, "voltage"),
            limit=told(battery.volts, "voltage"),
            path="supply.shore_charger.volts",
        )
    if p.brief.supply.series_parallel_switch and not any(choice.kind == "series/parallel switch" for choice in p.charging):
        yield CHARGE_15.found(
            "ship's supply", "The brief names a series/parallel switch aboard.", path="supply.series_parallel_switch"
        )
