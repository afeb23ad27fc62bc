"""The ship's own supply in the netlist: batteries, isolators, alternators, shore charger and the bars all else starts from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from athwart.catalogue.records import Fuse
from athwart.design.brief import ShoreCharger
from athwart.design.proposal import Bank
from athwart.design.search.charging import fault_at_block
from athwart.design.wiring_build import UNKNOWN, Builder, Stretch, amps
from athwart.power.battery import running_volts
from athwart.units import Ampere, SquareMetre

NEGATIVE_BAR = "X0.2"

Stud = tuple[str, str]


@dataclass(slots=True)
class Ship:
    """Where the ship's supply can be tapped: the plus stud of each battery or other source, by its name in the brief."""

    plus: dict[str, Stud] = field(default_factory=dict)
    batteries: dict[str, str] = field(default_factory=dict)  # name -> tag, of those drawn in the ship's column
    alternators: dict[str, str] = field(default_factory=dict)
    minus: Stud = (NEGATIVE_BAR, "1")

    def source(self, name: str | None) -> Stud | None:
        """The plus stud of a battery; of the first one where the name says nothing; None without a battery."""
        return self.plus.get(name or "") or next(iter(self.plus.values()), None)


def ship_batteries(build: Builder, banks: tuple[Bank, ...]) -> Ship:
    """Negative bar, and a fuse block behind an isolator at each ship's battery that is not itself the bank of a thruster."""
    ship = Ship()
    build.reserve("X", 0, 2)
    build.add(NEGATIVE_BAR, "bar", 0, "ship negative bar", (), ("1",), aboard=True)
    own = {bank.name for bank in banks}
    for index, battery in enumerate(entry for entry in build.brief.supply.batteries if entry.name not in own):
        block = "X0.1" if index == 0 else build.tag("X", 0)
        tag = build.tag("G", 0)
        rating = (f"{battery.volts:.0f} V {battery.capacity / 3600:.0f} Ah",)
        facts = {"use": battery.use, "volts": battery.volts}
        build.add(tag, "ship battery", 0, battery.name, rating, ("+", "-"), place=battery.place, aboard=True, facts=facts)
        build.add(
            build.tag("Q", 0), "main switch", 0, f"isolator, {battery.name}", (), ("1", "2"), place=battery.place, aboard=True
        )
        build.add(block, "bar", 0, f"fuse block, {battery.name}", (), ("1",), place=battery.place)
        ship.plus[battery.name], ship.batteries[battery.name] = (block, "1"), tag
        build.behind[block] = running_volts(battery.volts), fault_at_block(battery)
    build.reserve("Pwire", 0, 2 * len(ship.batteries))
    build.reserve("Nwire", 0, len(ship.batteries))
    return ship


def battery_leads(build: Builder, ship: Ship, negative_least: SquareMetre) -> None:
    """Each battery over its isolator to its block, and to the negative bar: leads that are aboard, drawn and not sized.

    What the negative lead of the first battery has to be at least stands in its words, for the largest thing on the negative bar
    ends there.
    """
    for index, (name, tag) in enumerate(ship.batteries.items()):
        block, isolator = ship.plus[name][0], f"Q0.{index + 1}"
        common: dict[str, Any] = {"aboard": True, "route": "at the battery"}
        number = 2 * index + 1
        build.run(0, "P", (tag, "+"), (isolator, "1"), UNKNOWN, 0.0, number=number, purpose="battery to its isolator", **common)
        build.run(
            0, "P", (isolator, "2"), (block, "1"), UNKNOWN, 0.0, number=number + 1, purpose="isolator to fuse block", **common
        )
        least = f", at least {negative_least * 1e6:.0f} mm²" if index == 0 and negative_least > 0.0 else ""
        purpose = f"battery to negative bar{least}"
        build.run(0, "N", (tag, "-"), ship.minus, UNKNOWN, 0.0, number=index + 1, purpose=purpose, **common)


def ship_sources(build: Builder, ship: Ship, banks: dict[str, Stud]) -> None:
    """Alternators, the shore charger and what lies in their paths: all aboard, sizes not given."""
    supply = build.brief.supply
    in_path = {name for device in supply.path_devices for name in device.between}
    for alternator in supply.alternators:
        if alternator.name not in in_path and alternator.charges not in ship.plus and alternator.charges not in banks:
            continue
        tag = build.tag("G", 0)
        rating = (f"{alternator.volts:.0f} V {amps(alternator.current)}",)
        build.add(tag, "alternator", 0, alternator.name, rating, ("+", "-"), aboard=True)
        ship.alternators[alternator.name] = tag
        if alternator.name not in in_path and alternator.charges in ship.plus:
            build.run(
                0, "P", (tag, "+"), ship.plus[alternator.charges], UNKNOWN, 0.0, aboard=True, purpose="alternator to battery"
            )
        build.run(0, "N", (tag, "-"), ship.minus, UNKNOWN, 0.0, aboard=True, purpose="alternator to negative bar")
    if supply.shore_charger is not None:
        _shore_charger(build, ship, supply.shore_charger)
    _path_devices(build, ship, banks)


def _shore_charger(build: Builder, ship: Ship, shore: ShoreCharger) -> None:
    if shore.charges not in ship.plus:
        return
    tag = build.tag("U", 0)
    rating = (f"{shore.volts:.0f} V {amps(shore.current)}",)
    build.add(tag, "shore charger", 0, "shore charger", rating, ("+", "-"), aboard=True)
    build.run(0, "P", (tag, "+"), ship.plus[shore.charges], UNKNOWN, 0.0, aboard=True, purpose="shore charger to battery")
    build.run(0, "N", (tag, "-"), ship.minus, UNKNOWN, 0.0, aboard=True, purpose="shore charger to negative bar")


def _path_devices(build: Builder, ship: Ship, banks: dict[str, Stud]) -> None:
    """Isolators and relays between two named sources."""
    studs = {**banks, **ship.plus, **{name: (tag, "+") for name, tag in ship.alternators.items()}}
    for device in build.brief.supply.path_devices:
        start, end = (studs.get(name) for name in device.between)
        if start is None or end is None or start == end:
            continue
        tag = build.tag("V", 0)
        build.add(tag, "isolator", 0, device.name, (device.kind,), ("1", "2"), aboard=True, facts={"kind": device.kind})
        build.run(0, "P", start, (tag, "1"), UNKNOWN, 0.0, aboard=True, purpose=f"to the {device.kind}")
        build.run(0, "P", (tag, "2"), end, UNKNOWN, 0.0, aboard=True, purpose=f"from the {device.kind}")


def ship_tap(
    build: Builder, ship: Ship, battery: str | None, stretch: Stretch, rating: Ampere, name: str, fuse: Fuse | None
) -> Stud | None:
    """A fuse on the block of a ship's battery; gives back its load stud, None where the ship has no battery."""
    source = ship.source(battery)
    if source is None:
        return None
    lane = build.components[source[0]].lane
    return build.tapped(source, build.tag("F", lane), lane, stretch, rating, name, fuse)
