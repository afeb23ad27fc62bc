"""From the chosen parts to the one netlist every paper and the circuit solver read.

A lane: bank, main fuse ``F1.1``, main switch ``Q1.1``, stop contactor ``Q1.2``, unit ``M1.1``; back by ``1N``. A bank bears the
digit of the first unit it feeds; several strings, several units or other loads meet at a plus bar ``X1.1`` and a minus bar
``X1.2``. The ship is lane 0, the control line lane 9.

Lengths not in the brief are estimated and say so in the conductor's ``route``; sizes of what is aboard and was not given read
``aboard`` with no area, length or resistance, and nothing is reckoned from them.
"""

from __future__ import annotations

from collections import defaultdict

from athwart.catalogue.records import Catalogue
from athwart.design.brief import Brief
from athwart.design.netlist import Conductor, Netlist
from athwart.design.places import run_between
from athwart.design.proposal import Bank, ChargingChoice, Lane, NetworkChoice
from athwart.design.wiring_bank import Poles, bank_of_blocks, charging_of_bank, consumers_of_bank, is_switched
from athwart.design.wiring_build import Builder
from athwart.design.wiring_lane import hydraulic_lane, negative_link, power_path, stop_loop
from athwart.design.wiring_network import control_line
from athwart.design.wiring_ship import Ship, battery_leads, ship_batteries, ship_sources
from athwart.units import Metre, SquareMetre


def wire(
    brief: Brief,
    catalogue: Catalogue,
    lanes: tuple[Lane, ...],
    banks: tuple[Bank, ...],
    charging: tuple[ChargingChoice, ...],
    network: NetworkChoice | None,
) -> Netlist:
    """All components and conductors of a system, each tagged once.

    Raises
    ------
    ValueError
        If the parts do not belong together: a lane on a bank that is not there or without a cable, a feed at no stop.
    """
    build = Builder(brief, catalogue)
    ship = ship_batteries(build, banks)
    choices = {choice.bank: choice for choice in charging}
    found: dict[str, tuple[Bank, Poles]] = {}
    for bank in banks:
        found[bank.name] = bank, bank_of_blocks(build, bank, lanes, is_switched(bank, choices.get(bank.name)))
    poles = {name: entry[1] for name, entry in found.items()}
    batteries = {battery.name for battery in brief.supply.batteries}
    ship.plus.update({name: entry.plus for name, entry in poles.items() if name in batteries})
    ship_sources(build, ship, {name: entry.plus for name, entry in poles.items()})
    for lane in lanes:
        _lane(build, ship, lane, found)
    for name, (bank, _) in found.items():
        _rest_of_bank(build, ship, bank, poles[name], lanes, choices.get(name))
    if network is not None and network.stops:
        control_line(build, ship, lanes, found, network)
    battery_leads(build, ship, _largest_on_negative(build))
    _drop_lonely(build)
    return build.netlist()


def _lane(build: Builder, ship: Ship, lane: Lane, found: dict[str, tuple[Bank, Poles]]) -> None:
    if lane.unit.drive == "hydraulic":
        hydraulic_lane(build, lane)
        return
    if lane.bank not in found:
        raise ValueError(f"lane {lane.lane} is on the bank {lane.bank!r}, which is not among {', '.join(found) or 'no banks'}")
    bank, poles = found[lane.bank]
    control = power_path(build, lane, bank, poles)
    stop_loop(build, ship, lane, poles, control)


def _rest_of_bank(
    build: Builder, ship: Ship, bank: Bank, poles: Poles, lanes: tuple[Lane, ...], choice: ChargingChoice | None
) -> None:
    """Charger, other loads and the link to the ship's negative, one a bank whatever the number of units on it."""
    areas = [lane.negative_link_area for lane in lanes if lane.bank == bank.name and lane.negative_link_area]
    area = max(areas) if areas else None
    if choice is not None:
        charging_of_bank(build, ship, bank, poles, choice, area)
    consumers_of_bank(build, bank, poles)
    battery = next(iter(build.brief.supply.batteries), None)
    run = run_between(build.brief, (battery.place if battery else None) or "", bank.place)
    length = choice.input_minus if choice is not None and choice.input_minus > 0 else run.minus
    negative_link(build, ship, poles, area, length, run.words)


def _largest_on_negative(build: Builder) -> SquareMetre:
    return max((entry.area for entry in build.conductors if "X0.2" in (entry.start.component, entry.end.component)), default=0.0)


def _drop_lonely(build: Builder) -> None:
    """A negative bar with nothing on it is not there."""
    if not any("X0.2" in (entry.start.component, entry.end.component) for entry in build.conductors):
        del build.components["X0.2"]


def lengths_by_row(netlist: Netlist, *, aboard: bool = False) -> dict[tuple[str | None, str], Metre]:
    """Metres of conductor by (catalogue row, size), parallel conductors counted each; what is aboard only if asked."""
    totals: dict[tuple[str | None, str], Metre] = defaultdict(float)
    for conductor in netlist.conductors:
        if conductor.aboard and not aboard:
            continue
        totals[conductor.row, conductor.size] += conductor.length * conductor.parallel
    return dict(sorted(totals.items(), key=lambda entry: (entry[0][0] or "", entry[0][1])))


def pieces(conductor: Conductor) -> tuple[str, ...]:
    """The markers of the wires of a conductor: its tag, or ``1P4a`` and ``1P4b`` where two lie side by side."""
    if conductor.parallel == 1:
        return (conductor.tag,)
    return tuple(f"{conductor.tag}{'abcdefgh'[index]}" for index in range(conductor.parallel))
