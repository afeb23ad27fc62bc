"""Banks in the netlist: strings of blocks, their links and fuses, bars, chargers, and other loads on the bank."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import Any

from athwart.catalogue.records import Charger
from athwart.design.brief import BankWish
from athwart.design.places import run_between
from athwart.design.proposal import Bank, ChargingChoice, Lane
from athwart.design.wiring_build import STUD_PIECE, UNKNOWN, Builder, Stretch, amps
from athwart.design.wiring_ship import Ship, Stud, ship_tap
from athwart.units import Ohm

MAIN_FUSE, CHARGER_FUSE, CONTROL_FUSE = 1, 2, 3


@dataclass(frozen=True, slots=True)
class Poles:
    """Where a bank can be tapped: plus and minus stud, the plus of the lowest block, the minus of the uppermost."""

    lane: int
    plus: Stud
    minus: Stud
    lower: Stud
    upper: Stud


def bank_lane(bank: Bank, lanes: tuple[Lane, ...]) -> int:
    """A bank bears the digit of the first unit it feeds."""
    fed = [lane.lane for lane in lanes if lane.bank == bank.name]
    return min(fed) if fed else min((lane.lane for lane in lanes if lane.thruster.identity in bank.feeds), default=1)


def wants_bars(bank: Bank, lanes: tuple[Lane, ...], wish: BankWish | None) -> bool:
    """Bars where several strings, several units or other loads meet; else lugs on the battery's own studs."""
    shared = bool(wish and (wish.shared_with or wish.mid_tap_load))
    return bank.parallel > 1 or sum(lane.bank == bank.name for lane in lanes) > 1 or shared


def bank_of_blocks(build: Builder, bank: Bank, lanes: tuple[Lane, ...], switched: bool = False) -> Poles:
    """Blocks, links, string fuses and bars of one bank; blocks count from the negative end of the first string upwards.

    ``switched``: a series/parallel switch sits in the link between two blocks.
    """
    lane = bank_lane(bank, lanes)
    build.reserve("F", lane, CONTROL_FUSE)
    strings = [_string(build, bank, lane, switched) for _ in range(bank.parallel)]
    at_poles = bank.charging_volts, bank.fault_current_most
    build.behind.update({tag: at_poles for tag, part in build.components.items() if part.kind == "block" and part.lane == lane})
    bottom, top = strings[0]
    wish = wish_of(build, bank)
    if not wants_bars(bank, lanes, wish):
        return Poles(lane, (top, "+"), (bottom, "-"), (bottom, "+"), (top, "-"))
    plus = build.add(build.tag("X", lane), "bar", lane, "plus bar", (), ("1",), place=bank.place)
    minus = build.add(build.tag("X", lane), "bar", lane, "minus bar", (), ("1",), place=bank.place)
    build.behind[plus] = at_poles
    stretch = Stretch.of(bank.link)
    for lower, upper in strings:
        _string_to_bars(build, bank, lane, (upper, "+"), plus, stretch)
        build.run(
            lane, "N", (lower, "-"), (minus, "1"), stretch, bank.link_length, purpose="string to minus bar", route="in the bank"
        )
    return Poles(lane, (plus, "1"), (minus, "1"), (bottom, "+"), (top, "-"))


def wish_of(build: Builder, bank: Bank) -> BankWish | None:
    """The brief's words on this bank."""
    return next((wish for wish in build.brief.bank if wish.name == bank.name), None)


def is_switched(bank: Bank, choice: ChargingChoice | None) -> bool:
    """Whether the link of the bank goes through a series/parallel switch: one string of two blocks only."""
    return (
        choice is not None
        and choice.kind == "series/parallel switch"
        and choice.charger is not None
        and (bank.series, bank.parallel) == (2, 1)
    )


def _string(build: Builder, bank: Bank, lane: int, switched: bool) -> tuple[str, str]:
    """One string; gives back its lowest and uppermost block."""
    resistance: Ohm = bank.block.resistance or bank.resistance_new * bank.parallel / bank.series
    rating = (f"{bank.block.volts:g} V {bank.block.capacity / 3600:.0f} Ah",)
    facts = {"chemistry": bank.block.chemistry, "volts": bank.block.volts, "protection": bank.block.chemistry == "lfp"}
    tags = [build.tag("G", lane) for _ in range(bank.series)]
    for tag in tags:
        build.add(
            tag,
            "block",
            lane,
            bank.block.name,
            rating,
            ("+", "-"),
            row=bank.block.id,
            place=bank.place,
            resistance=resistance,
            aboard=bank.kept == "aboard",
            facts=facts,
        )
    link = Stretch.of(bank.link)
    common: dict[str, Any] = {"route": "in the bank"}
    for lower, upper in itertools.pairwise(tags):
        if switched:
            device, half = f"U{lane}.1", bank.link_length / 2
            build.run(
                lane, "L", (lower, "+"), (device, "mid-"), link, half, purpose="link to the series/parallel switch", **common
            )
            build.run(
                lane, "L", (device, "mid+"), (upper, "-"), link, half, purpose="link from the series/parallel switch", **common
            )
        else:
            build.run(lane, "L", (lower, "+"), (upper, "-"), link, bank.link_length, purpose="link in the string", **common)
    return tags[0], tags[-1]


def _string_to_bars(build: Builder, bank: Bank, lane: int, top: Stud, bar: str, stretch: Stretch) -> None:
    if bank.string_fuse is None or bank.parallel == 1:
        build.run(lane, "P", top, (bar, "1"), stretch, bank.link_length, purpose="string to plus bar", route="in the bank")
        return
    fuse, _ = bank.string_fuse
    tag = build.fuse(build.tag("F", lane), lane, fuse.rating, "string fuse", fuse, bank.place, behind=build.behind[top[0]])
    build.run(
        lane,
        "P",
        top,
        (tag, "1"),
        stretch,
        min(STUD_PIECE, bank.link_length),
        purpose="to the string fuse",
        route="on the battery stud",
    )
    build.run(
        lane, "P", (tag, "2"), (bar, "1"), stretch, bank.link_length, fuse=tag, purpose="string to plus bar", route="in the bank"
    )


def charging_of_bank(
    build: Builder, ship: Ship, bank: Bank, poles: Poles, choice: ChargingChoice, tie_area: float | None
) -> None:
    """The charger of a bank with its input from the ship and its output fused at the bank."""
    lane = poles.lane
    if choice.kind == "alternator":
        _alternator(build, ship, bank, poles, choice)
        return
    if choice.charger is None or choice.kind == "none":
        return
    tag = f"U{lane}.1"
    build.reserve("U", lane, 1)
    fed = choice.kind != "shore" and ship.source(choice.from_battery) not in (None, poles.plus)
    terminals = (*(("in+", "in-") if fed else ()), *(("mid-", "mid+") if is_switched(bank, choice) else ()), "out+", "out-")
    build.add(
        tag,
        "charger",
        lane,
        words_of(choice.charger),
        _rating(choice.charger),
        terminals,
        row=choice.charger.id,
        place=bank.place,
        aboard=choice.kept == "aboard",
        facts={
            "kind": choice.kind,
            "isolated": choice.charger.isolated,
            "volts in": choice.charger.volts_in,
            "volts out": choice.charger.volts_out,
            "second tie": fed and not choice.charger.isolated and build.brief.supply.common_negative == "common",
        },
    )
    if fed:
        _charger_input(build, ship, choice, tag, bank.place, tie_area)
    _charger_output(build, bank, poles, choice, tag)


def words_of(charger: Charger) -> str:
    """A charger in words, its isolation said."""
    return f"{charger.kind}, {'isolated' if charger.isolated else 'not isolated'}"


def _rating(charger: Charger) -> tuple[str, ...]:
    source = "a.c." if charger.kind == "shore" else f"{charger.volts_in:g} V"
    return (f"{source} / {charger.volts_out:g} V {amps(charger.current_out)}",)


def _charger_input(build: Builder, ship: Ship, choice: ChargingChoice, tag: str, place: str, tie_area: float | None) -> None:
    """From the ship's block through its fuse; the minus of a charger without isolation is a tie and is sized as one."""
    rating = choice.fuse_source.rating if choice.fuse_source else 0.0
    cable = Stretch.of(choice.cable) if choice.cable else build.branch(max(rating, choice.input_current))
    length = max(choice.input_plus, 2 * STUD_PIECE)
    where = run_between(build.brief, _ship_place(build, ship, choice.from_battery), place)
    common: dict[str, Any] = {"current": choice.input_current, "route": where.words, "engine_space": where.engine_space}
    source = ship.source(choice.from_battery)
    if source is None:
        raise ValueError("the ship has no battery to feed a charger from")
    lane = build.components[source[0]].lane
    if choice.fuse_source is None:
        build.run(lane, "P", source, (tag, "in+"), cable, length, purpose="charger input, no fuse", **common)
    else:
        load = ship_tap(build, ship, choice.from_battery, cable, rating, "charger fuse", choice.fuse_source)
        assert load is not None
        build.run(lane, "P", load, (tag, "in+"), cable, length - STUD_PIECE, fuse=load[0], purpose="charger input", **common)
    tie = tie_area if tie_area and not (choice.charger and choice.charger.isolated) else None
    minus = build.at_least(tie) if tie and tie > cable.area else cable
    purpose = "charger input minus, second tie: sized as one" if tie else "charger input minus"
    build.run(0, "N", (tag, "in-"), ship.minus, minus, max(choice.input_minus, STUD_PIECE), purpose=purpose, **common)


def _ship_place(build: Builder, ship: Ship, battery: str | None) -> str:
    source = ship.source(battery)
    return (build.components[source[0]].place if source else None) or ""


def _charger_output(build: Builder, bank: Bank, poles: Poles, choice: ChargingChoice, tag: str) -> None:
    lane = poles.lane
    rating = choice.fuse_bank.rating if choice.fuse_bank else choice.output_current
    cable = build.branch(max(rating, choice.output_current))
    near = run_between(build.brief, bank.place, bank.place)
    common: dict[str, Any] = {"current": choice.output_current, "route": near.words}
    if choice.fuse_bank is None:
        build.run(lane, "P", poles.plus, (tag, "out+"), cable, near.plus, purpose="charger output, no fuse", **common)
    else:
        load = build.tapped(poles.plus, f"F{lane}.{CHARGER_FUSE}", lane, cable, rating, "charger fuse", choice.fuse_bank)
        build.run(lane, "P", load, (tag, "out+"), cable, near.plus, fuse=load[0], purpose="charger output", **common)
    build.run(lane, "N", (tag, "out-"), poles.minus, cable, near.minus, purpose="charger output minus", **common)


def _alternator(build: Builder, ship: Ship, bank: Bank, poles: Poles, choice: ChargingChoice) -> None:
    """An engine's alternator charges the bank itself, over a fuse at the bank."""
    names = [
        entry.name
        for entry in build.brief.supply.alternators
        if entry.charges == bank.name and ship.plus.get(bank.name) != poles.plus
    ]
    for name in names:
        tag = ship.alternators.get(name)
        if tag is None:
            continue
        cable = Stretch.of(choice.cable) if choice.cable else build.branch(choice.output_current)
        where = run_between(build.brief, "", bank.place)
        length = choice.input_plus or where.plus
        fuse = choice.fuse_bank
        rating = fuse.rating if fuse else choice.output_current
        number = f"F{poles.lane}.{CHARGER_FUSE}"
        number = number if number not in build.components else build.tag("F", poles.lane)
        load = build.tapped(poles.plus, number, poles.lane, cable, rating, "alternator fuse", fuse)
        build.run(
            poles.lane,
            "P",
            load,
            (tag, "+"),
            cable,
            length,
            fuse=load[0],
            current=choice.output_current,
            purpose="alternator output",
        )


def consumers_of_bank(build: Builder, bank: Bank, poles: Poles) -> None:
    """Other loads on the bank, each behind its own fuse; load on the mid tap and equaliser where the brief has them."""
    wish = wish_of(build, bank)
    if wish is None:
        return
    for load in wish.shared_with:
        _consumer(build, poles, load.name, load.current, poles.plus)
    if wish.mid_tap_load and bank.series > 1:
        _consumer(build, poles, "mid tap load", wish.mid_tap_load, poles.lower)
    if wish.equaliser and bank.series > 1:
        _equaliser(build, bank, poles, wish.equaliser)


def _consumer(build: Builder, poles: Poles, name: str, current: float, source: Stud) -> None:
    """A load that exists: its feed and its fuse are its own, neither sized nor chosen here."""
    lane = poles.lane
    tag = build.add(build.tag("A", lane), "consumer", lane, name, (amps(current),), ("+", "-"), aboard=True)
    fuse = build.add(
        build.tag("F", lane),
        "fuse",
        lane,
        f"fuse, {name}",
        ("not given",),
        ("1", "2"),
        place=build.components[source[0]].place,
        aboard=True,
    )
    common: dict[str, Any] = {"route": "not given", "aboard": True}
    build.run(lane, "P", source, (fuse, "1"), UNKNOWN, 0.0, purpose=f"to the fuse of {name}", **common)
    build.run(lane, "P", (fuse, "2"), (tag, "+"), UNKNOWN, 0.0, fuse=fuse, current=current, purpose=name, **common)
    build.run(lane, "N", (tag, "-"), poles.minus, UNKNOWN, 0.0, current=current, purpose=name, **common)


def _equaliser(build: Builder, bank: Bank, poles: Poles, current: float) -> None:
    """Between plus, mid tap and minus of a string, both live leads fused at the bank."""
    lane = poles.lane
    build.reserve("U", lane, 1)
    tag = build.add(build.tag("U", lane), "equaliser", lane, "equaliser", (amps(current),), ("+", "mid", "-"), place=bank.place)
    fuse, rating = build.small_fuse(1.25 * current, poles.plus)
    cable = build.branch(rating)
    for source, stud in ((poles.plus, "+"), (poles.lower, "mid")):
        load = build.tapped(source, build.tag("F", lane), lane, cable, rating, "equaliser fuse", fuse)
        build.run(
            lane, "P", load, (tag, stud), cable, 0.5, fuse=load[0], current=current, purpose="equaliser", route="in the bank"
        )
    build.run(lane, "N", (tag, "-"), poles.minus, cable, 0.5, current=current, purpose="equaliser", route="in the bank")
