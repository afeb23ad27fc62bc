"""The control line in the netlist: lane 9. Trunk, drops, feed, terminators."""

from __future__ import annotations

import re
from typing import Any

from athwart.catalogue.records import NetworkCable
from athwart.design.netlist import ComponentKind
from athwart.design.places import run_between
from athwart.design.proposal import Bank, Lane, NetworkChoice, NetworkStop
from athwart.design.wiring_bank import Poles
from athwart.design.wiring_build import Builder, Stretch, printed_size
from athwart.design.wiring_ship import Ship, Stud, ship_tap
from athwart.units import Ampere, Metre

CONTROL_LANE = 9
CONVERTER_LEADS: Metre = 0.5
"""Converter beside its source; common practice, no source."""
TERMINATOR: float = 120.0


def control_line(
    build: Builder, ship: Ship, lanes: tuple[Lane, ...], banks: dict[str, tuple[Bank, Poles]], network: NetworkChoice
) -> None:
    """Trunk in the order it runs in the boat with a tee at each stop, drops, feed and terminators."""
    cable = _cable(build, network)
    tees = [_tee(build, network, stop, index + 1) for index, stop in enumerate(network.stops)]
    if not any(build.components[tee].kind == "feed" for tee in tees):
        raise ValueError(f"the feed of the control line is at {network.feed_at!r}, which is no stop of the trunk")
    _trunk(build, network, tees, cable)
    tags = _node_tags(network, lanes)
    reached = set[str]()
    for tee, stop, tag in zip(tees, network.stops, tags, strict=True):
        if tag is None:
            continue
        if tag not in build.components:
            _node(build, stop, tag)
        elif tag in reached:
            continue
        reached.add(tag)
        build.run(
            CONTROL_LANE, "D", (tee, "drop"), (tag, "net"), cable, _drop_length(build, stop.name), purpose=f"drop to {stop.name}"
        )
    for name in _inside(network):
        tee = next((tee for tee, stop in zip(tees, network.stops, strict=True) if name in (stop.name, stop.tag)), tees[0])
        if _taken(build, tee):
            continue
        resistor = _terminator(build, name)
        build.run(
            CONTROL_LANE, "D", (tee, "third"), (resistor, "1"), cable, 0.0, purpose="terminator inside the trunk", aboard=True
        )
    _feed(build, ship, banks, network, next(tee for tee in tees if build.components[tee].kind == "feed"))


def _cable(build: Builder, network: NetworkChoice) -> Stretch:
    row = next((entry for entry in build.catalogue.network_cables if entry.id == network.cable_row), None)
    if row is None:
        return Stretch(0.0, "aboard", 0.0)
    return _stretch(row)


def _stretch(row: NetworkCable) -> Stretch:
    return Stretch(row.supply_area, printed_size(row.supply_size), row.supply_ohm_per_metre, row.id)


def _tee(build: Builder, network: NetworkChoice, stop: NetworkStop, number: int) -> str:
    tag = f"X{CONTROL_LANE}.{number}"
    is_feed = network.feed_at in (stop.name, stop.tag, tag)
    terminals = ("1", "2", "drop", "third", "+", "-") if is_feed else ("1", "2", "drop", "third")
    return build.add(tag, "feed" if is_feed else "tee", CONTROL_LANE, stop.name, (), terminals, facts={"at": stop.at})


def _inside(network: NetworkChoice) -> list[str]:
    """Terminators that stand elsewhere than at the two ends of the trunk."""
    names = list(network.terminators)
    for end in _ends(network):
        if end is not None:
            names.remove(end)
    return names


def _ends(network: NetworkChoice) -> tuple[str | None, str | None]:
    """The terminators at the first and the last stop, where they are."""
    names = list(network.terminators)
    found: list[str | None] = []
    for stop in (network.stops[0], network.stops[-1]):
        name = next((entry for entry in names if entry in (stop.name, stop.tag)), None)
        if name is not None:
            names.remove(name)
        found.append(name)
    return found[0], found[1]


def _taken(build: Builder, tee: str) -> bool:
    return any(end.component == tee and end.terminal == "third" for entry in build.conductors for end in (entry.start, entry.end))


def _trunk(build: Builder, network: NetworkChoice, tees: list[str], cable: Stretch) -> None:
    at_first, at_last = _ends(network)
    first = _terminator(build, at_first) if at_first is not None else None
    last = _terminator(build, at_last) if at_last is not None else None
    studs: list[tuple[str, str, str]] = [(tee, "1", "2") for tee in tees]
    places = [stop.at for stop in network.stops]
    if first is not None:
        studs.insert(0, (first, "1", "1"))
        places.insert(0, 0.0)
    if last is not None:
        studs.append((last, "1", "1"))
        places.append(max(network.trunk_length, places[-1]))
    for here, there, start, end in zip(studs, studs[1:], places, places[1:], strict=False):
        length = max(0.0, end - start)
        build.run(CONTROL_LANE, "T", (here[0], here[2]), (there[0], there[1]), cable, length, purpose="trunk")


def _terminator(build: Builder, where: str) -> str:
    number = build.used.get(("R", CONTROL_LANE), 0) + 1
    rating = (f"{TERMINATOR:.0f} Ω",)
    return build.add(
        build.tag("R", CONTROL_LANE),
        "terminator",
        CONTROL_LANE,
        "terminator",
        rating,
        ("1",),
        facts={"at": where, "number": number},
    )


def _node_tags(network: NetworkChoice, lanes: tuple[Lane, ...]) -> list[str | None]:
    """Units by their lane, everything else ``A9.x`` in trunk order; None for a stop that is only the feed."""
    units = {lane.thruster.identity: f"M{lane.lane}.1" for lane in lanes}
    own = [stop.tag for stop in network.stops if re.fullmatch(r"A9\.\d+", stop.tag)]
    keep = len(own) == len(set(own))
    taken = set(own) if keep else set()
    made: list[str | None] = []
    number = 0
    for stop in network.stops:
        if stop.name in units or stop.tag in units.values():
            made.append(units.get(stop.name, stop.tag))
        elif keep and stop.tag in own:
            made.append(stop.tag)
        elif _is_feed_only(stop):
            made.append(None)
        else:
            number = next(value for value in range(number + 1, 1000) if f"A9.{value}" not in taken)
            made.append(f"A9.{number}")
    return made


def _is_feed_only(stop: NetworkStop) -> bool:
    return stop.tag.startswith("X9") or stop.name == "feed"


def _node(build: Builder, stop: NetworkStop, tag: str) -> None:
    helm = next((entry for entry in build.brief.helms if entry.name == stop.name), None)
    node = next((entry for entry in build.brief.network.nodes if entry.name == stop.name), None)
    place = helm.place if helm else node.place if node else None
    facts: dict[str, float | str | bool] = {} if stop.instance is None else {"instance": float(stop.instance)}
    kind: ComponentKind = "panel" if helm else "node"
    name = f"panel, {stop.name}" if helm else stop.name
    build.add(tag, kind, CONTROL_LANE, name, (), ("net",), place=place, facts=facts)


def _drop_length(build: Builder, name: str) -> Metre:
    network = build.brief.network
    stretch = next((entry.drop for entry in network.trunk if entry.stop == name), None)
    if stretch is not None:
        return stretch
    return next((entry.drop for entry in network.nodes if entry.name == name), 0.5)


def _feed(build: Builder, ship: Ship, banks: dict[str, tuple[Bank, Poles]], network: NetworkChoice, tee: str) -> None:
    rating = network.feed_fuse
    cable = build.branch(rating)
    where = build.components[tee].place or _place_of_stop(build, network.feed_at)
    poles = next((found for _, found in banks.values()), None)
    lane, minus = 0, ship.minus
    source: Stud | None = None
    if network.feed in ("ship bank", "engine start") or poles is None:
        start = next((battery.name for battery in build.brief.supply.batteries if "engine start" in battery.use), None)
        house = next((battery.name for battery in build.brief.supply.batteries if battery.use == "house"), None)
        battery = start if network.feed == "engine start" else house
        tap = ship.source(battery)
        if tap is not None:
            row, _ = build.small_fuse(rating, tap)
            source = ship_tap(build, ship, battery, cable, row.rating if row else rating, "network fuse", row)
    if source is None and poles is not None:
        lane, minus = poles.lane, poles.minus
        source, minus = _feed_from_bank(build, network, poles, cable, rating)
    if source is None:
        return
    lane = build.components[source[0]].lane
    _feed_pair(build, source, minus, tee, cable, lane, rating, where)


def _feed_from_bank(build: Builder, network: NetworkChoice, poles: Poles, cable: Stretch, rating: Ampere) -> tuple[Stud, Stud]:
    tap = {"lower block": poles.lower}.get(network.feed, poles.plus)
    minus = poles.upper if network.feed == "upper block" else poles.minus
    row, _ = build.small_fuse(rating, tap)
    load = build.tapped(tap, build.tag("F", poles.lane), poles.lane, cable, row.rating if row else rating, "network fuse", row)
    if network.feed != "converter":
        return load, minus
    converter = next((entry for entry in build.catalogue.sundries if entry.id == network.converter_row), None)
    isolated = bool(converter and converter.isolated)
    volts = (
        (f"{converter.volts_in:g} / {converter.volts_out:g} V",)
        if converter and converter.volts_in and converter.volts_out
        else ()
    )
    name = f"network converter, {'isolated' if isolated else 'not isolated'}"
    tag = build.add(
        "U9.1",
        "network converter",
        CONTROL_LANE,
        name,
        volts,
        ("in+", "in-", "out+", "out-"),
        row=network.converter_row,
        facts={"isolated": isolated},
    )
    common: dict[str, Any] = {"purpose": "converter input", "route": "beside the bank"}
    build.run(poles.lane, "P", load, (tag, "in+"), cable, CONVERTER_LEADS, fuse=load[0], **common)
    build.run(poles.lane, "N", (tag, "in-"), poles.minus, cable, CONVERTER_LEADS, **common)
    return (tag, "out+"), (tag, "out-")


def _place_of_stop(build: Builder, name: str) -> str:
    places = {entry.name: entry.place for entry in build.brief.network.nodes}
    places |= {helm.name: helm.place for helm in build.brief.helms}
    if name in places:
        return places[name]
    return next((thruster.place for thruster in build.brief.thrusters if thruster.identity == name), "")


def _feed_pair(
    build: Builder, source: Stud, minus: Stud, tee: str, cable: Stretch, lane: int, rating: Ampere, where: str
) -> None:
    """Two conductors from the fuse (or converter) and the minus to the feed tee."""
    fuse = source[0] if source[0].startswith("F") else None
    lane = CONTROL_LANE if fuse is None else lane
    given = build.brief.network.feed_length
    run = run_between(build.brief, build.components[source[0]].place or "", where)
    length = given if given is not None else run.plus
    route = "as given" if given is not None else run.words
    common: dict[str, Any] = {"current": rating, "purpose": "feed of the control line", "route": route}
    build.run(lane, "P", source, (tee, "+"), cable, length, fuse=fuse, **common)
    build.run(lane, "N", (tee, "-"), minus, cable, length, fuse=fuse, **common)
