"""The control line: trunk in order, feed by the order of preference, volts at every node at rest and at the deepest sag.

Stated rule: the thinnest cable that leaves every node 9 V at the deepest sag and carries the load; feed from the ship's 12 V bank
on its own fuse, else a converter over the whole thruster bank. What is aboard is shown as it is in ``check``; in ``propose`` its
faults are mended and every change to it is listed.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Literal, cast

from athwart.catalogue.records import Catalogue, NetworkCable, Sundry
from athwart.design.brief import Brief, NetworkAboard
from athwart.design.proposal import Bank, Lane, NetworkChoice, NetworkStop
from athwart.network import ground, topology
from athwart.network.bus import bus_resistance, profile
from athwart.network.extension import changes as changes_to
from athwart.network.supply import LEAST_NODE_VOLTS, Ladder, checked_resistance, copper_resistance
from athwart.units import Ampere, Metre, Ohm, OhmPerMetre, Volt

Feed = Literal["ship bank", "converter", "lower block", "engine start", "upper block"]
FEED_FUSE: Ampere = 3.0
SHIP_SAG: Volt = 11.0
"""Volts of a 12 V ship's bank at the deepest sag with no thruster on it: half charged, loaded (own judgement)."""
REST: Volt = 12.6
FEED_LEAD_AREA = 1.5e-6
PANEL_CURRENT: Ampere = 0.10
UNIT_CURRENT: Ampere = 0.15
CONVERTER_LEAST_IN = 0.75
"""Share of nominal input volts down to which a network converter still regulates (own judgement)."""


def _panel_current(brief: Brief, catalogue: Catalogue, name: str) -> tuple[Ampere, bool]:
    helm = next((h for h in brief.helms if h.name == name), None)
    row = next((p for p in catalogue.panels if helm is not None and p.id == helm.panel), None)
    return (row.network_current, row.terminator_inside) if row is not None else (PANEL_CURRENT, False)


def _node(brief: Brief, catalogue: Catalogue, lanes: tuple[Lane, ...], name: str, drop: Metre) -> topology.Node:
    lane = next((entry for entry in lanes if entry.thruster.identity == name), None)
    if lane is not None:
        current = lane.unit.network_current if lane.unit.network_current is not None else UNIT_CURRENT
        galvanic = lane.unit.network_isolated is False and brief.supply.common_negative == "isolated"
        return topology.Node(name, lane.thruster.instance, current, drop, False, "thruster", galvanic)
    node = next((entry for entry in brief.network.nodes if entry.name == name), None)
    if node is not None:
        return topology.Node(
            name,
            node.instance,
            node.current,
            drop,
            node.terminator_inside,
            "node" if node.instance is not None else "",
            node.galvanic_negative,
        )
    current, inside = _panel_current(brief, catalogue, name)
    return topology.Node(name, None, current, drop, inside, "")


def _stops(brief: Brief, lanes: tuple[Lane, ...]) -> list[tuple[str, Metre, Metre]]:
    """(name, metres from the first stop, drop): as given, else by the places of units, helms and nodes."""
    if brief.network.trunk:
        at, found = 0.0, []
        for index, stretch in enumerate(brief.network.trunk):
            at += 0.0 if index == 0 else stretch.length
            found.append((stretch.stop, at, stretch.drop))
        return found
    places = (
        {t.identity: t.place for t in brief.thrusters}
        | {h.name: h.place for h in brief.helms}
        | {n.name: n.place for n in brief.network.nodes}
    )
    named = []
    for name, place in places.items():
        spot = brief.place(place)
        drop = next((n.drop for n in brief.network.nodes if n.name == name), 0.5)
        named.append((spot.x if spot is not None else 0.0, name, drop))
    named.sort(reverse=brief.boat.x_from == "transom")
    at, found, last = 0.0, [], None
    for x, name, drop in named:
        at += 0.0 if last is None else 1.4 * abs(x - last) + 0.5
        last = x
        found.append((name, at, drop))
    return found


def _trunk(brief: Brief, catalogue: Catalogue, lanes: tuple[Lane, ...], names: list[tuple[str, Metre, Metre]]) -> topology.Trunk:
    nodes = [(_node(brief, catalogue, lanes, name, drop), at) for name, at, drop in names]
    taken: list[topology.Node] = [node for node, _ in nodes]
    for index, (node, at) in enumerate(nodes):
        if node.function == "thruster" and node.identity is None:
            node = replace(node, identity=topology.free_identity(taken, "thruster"))
            nodes[index] = node, at
            taken[index] = node
    lengths = tuple(there - here for (_, here), (_, there) in pairwise(nodes))
    return topology.Trunk(tuple(node for node, _ in nodes), lengths)


def _as_found(brief: Brief, trunk: topology.Trunk, part: NetworkAboard) -> topology.Trunk | None:
    """The trunk as it lies: the stretch between the terminators that are there, where they bound a part of it."""
    names = [node.name for node in trunk.stops]
    ends = [names.index(name) for name in part.terminators_at if name in names]
    feeds = tuple(name for name in part.feed_at if name in names)
    first, last = (min(ends), max(ends)) if len(set(ends)) > 1 else (0, len(names) - 1)
    new = {t.identity for t in brief.thrusters if t.identity not in brief.aboard.lanes and t.identity not in brief.fixed.lanes}
    outside = [name for index, name in enumerate(names) if not first <= index <= last]
    if any(name not in new for name in outside):
        first, last = 0, len(names) - 1
    stops = trunk.stops[first : last + 1]
    kept = {node.name for node in stops}
    return topology.Trunk(
        stops,
        trunk.lengths[first:last],
        tuple(name for name in feeds if name in kept),
        tuple(name for name in part.terminators_at if name in kept),
        tuple(name for name in part.screen_grounded_at if name in kept),
    )


def _feed_kind(brief: Brief, banks: tuple[Bank, ...]) -> Feed:
    wanted = brief.network.feed
    if wanted != "choose":
        return cast("Feed", wanted)
    if any(abs(battery.volts - 12.0) < 1.0 and "house" in battery.use for battery in brief.supply.batteries):
        return "ship bank"
    return "converter" if banks else "engine start"


def _source_volts(brief: Brief, feed: Feed, banks: tuple[Bank, ...], lanes: tuple[Lane, ...]) -> tuple[Volt, Volt, float | None]:
    """Volts at the feed's source at rest and at the deepest sag, and the mid-tap's daily share."""
    bank = banks[0] if banks else None
    if feed == "ship bank":
        battery = next((b for b in brief.supply.batteries if "house" in b.use), None)
        shares = battery is not None and any(b.name == battery.name for b in banks)
        if shares and bank is not None:
            return REST, _deepest(bank, lanes) / (bank.volts / 12.0), None
        return REST, SHIP_SAG, None
    if feed == "converter" and bank is not None:
        regulates = _deepest(bank, lanes) >= CONVERTER_LEAST_IN * bank.volts
        return 12.0, 12.0 if regulates else 0.0, None
    if bank is None or feed == "engine start":
        return REST, 9.6, None
    blocks = bank.series
    share = None
    return bank.open_volts_new / blocks, _deepest(bank, lanes) / blocks, share


def _deepest(bank: Bank, lanes: tuple[Lane, ...]) -> Volt:
    """Bank volts with everything on, in the design state."""
    on = [lane for lane in lanes if lane.bank == bank.name]
    together = [lane.both_design or lane.design for lane in on]
    return min((state.bank_volts for state in together if state is not None), default=bank.open_volts_design)


def _converter(catalogue: Catalogue, bank: Bank | None, load: Ampere, ignition: bool) -> Sundry | None:
    rows = [
        entry
        for entry in catalogue.sundries
        if entry.use == "network converter"
        and bank is not None
        and entry.volts_in is not None
        and abs(entry.volts_in - bank.volts) <= 0.09 * bank.volts
        and (entry.current or 0.0) >= load
        and (entry.ignition_protected or not ignition)
    ]
    return min(rows, key=lambda entry: (not entry.isolated, entry.price, entry.id), default=None)


def _resistance(cable: NetworkCable) -> OhmPerMetre:
    return checked_resistance(cable.supply_ohm_per_metre, cable.supply_area)


def _solve(trunk: topology.Trunk, cable: OhmPerMetre, volts: Volt, feed: Ohm, at: str) -> Ladder:
    return topology.supply(trunk, cable, volts, feed, at)


def _tags(trunk: topology.Trunk, lanes: tuple[Lane, ...]) -> list[str]:
    units = {lane.thruster.identity: f"M{lane.lane}.1" for lane in lanes}
    number, tags = 0, []
    for node in trunk.stops:
        if node.name in units:
            tags.append(units[node.name])
        else:
            number += 1
            tags.append(f"A9.{number}")
    return tags


def choose(
    brief: Brief, catalogue: Catalogue, lanes: tuple[Lane, ...], banks: tuple[Bank, ...], choosing: bool
) -> NetworkChoice | None:
    """The control line of a proposal, or as found; None where nothing hangs on one."""
    names = _stops(brief, lanes)
    if not names:
        return None
    bare = _trunk(brief, catalogue, lanes, names)
    part = brief.fixed.network or brief.aboard.network
    found = _as_found(brief, bare, part) if part is not None else None
    if choosing or found is None:
        feeds = found.feeds[:1] if found is not None else ()
        trunk = topology.terminated(
            replace(bare, feeds=feeds, screen_grounds=found.screen_grounds[:1] if found is not None else ())
        )
        feed = _feed_kind(brief, banks)
    else:
        trunk = found
        feed = cast(
            "Feed",
            {"thruster bank": "converter", None: "ship bank"}.get(
                part.fed_from if part else None, part.fed_from if part else "ship bank"
            ),
        )
    at = trunk.feeds[0] if trunk.feeds else topology.best_feed(trunk)
    rest, sag, _ = _source_volts(brief, feed, banks, lanes)
    cable, conductor = _cable(brief, catalogue, trunk, part, choosing, sag, at)
    lead = 2 * (brief.network.feed_length if brief.network.feed_length is not None else 2.0) * copper_resistance(FEED_LEAD_AREA)
    at_rest, at_sag = _solve(trunk, conductor, rest, lead, at), _solve(trunk, conductor, sag, lead, at)
    changes: tuple[str, ...] = ()
    if choosing and found is not None:
        apart = len(banks) > 1
        changes = tuple(change.says for change in changes_to(found, trunk, None, apart))
    load = at_rest.current
    bank = banks[0] if banks else None
    share = None
    if feed == "lower block" and bank is not None:
        share = ground.tap_daily_share(load, brief.network.standby_hours_per_day, bank.capacity)
    converter = _converter(catalogue, bank, load, False) if feed == "converter" else None
    tags = _tags(trunk, lanes)
    new = {
        name for name in (node.name for node in trunk.stops) if found is not None and name not in {n.name for n in found.stops}
    }
    stops = tuple(
        NetworkStop(
            tag,
            node.name,
            trunk.positions[node.name],
            node.drop_length,
            node.load,
            r.volts,
            s.volts,
            node.identity,
            node.name in new,
        )
        for tag, node, r, s in zip(tags, trunk.stops, at_rest.nodes, at_sag.nodes, strict=True)
    )
    return NetworkChoice(
        brief.network.profile,
        profile(brief.network.profile, brief.network.bit_rate).bit_rate,
        cable,
        feed,
        at,
        _fuse(catalogue, load, part, choosing),
        stops,
        trunk.length,
        sum(node.drop_length for node in trunk.stops),
        tuple(sorted(trunk.all_terminators, key=lambda name: trunk.positions[name])),
        bus_resistance(len(trunk.all_terminators), len(trunk.stops)),
        changes,
        load,
        converter.id if converter is not None else None,
        share,
        _shift(lanes, banks),
    )


def _fuse(catalogue: Catalogue, load: Ampere, part: NetworkAboard | None, choosing: bool) -> Ampere:
    if part is not None and not choosing:
        return part.feed_fuse or 0.0
    ratings = sorted(entry.current for entry in catalogue.sundries if entry.use == "network fuse" and entry.current)
    return next((rating for rating in ratings if rating >= max(FEED_FUSE, 1.5 * load)), ratings[-1] if ratings else FEED_FUSE)


def _cable(
    brief: Brief, catalogue: Catalogue, trunk: topology.Trunk, part: NetworkAboard | None, choosing: bool, sag: Volt, at: str
) -> tuple[str, OhmPerMetre]:
    if part is not None and part.supply_conductor is not None:
        near = [c for c in catalogue.network_cables if abs(c.supply_area - part.supply_conductor) < 0.1 * part.supply_conductor]
        own = copper_resistance(part.supply_conductor)
        volts = _solve(trunk, own, sag, 0.0, at).lowest.volts if sag > 0 else 0.0
        if not choosing or volts >= LEAST_NODE_VOLTS:
            return (near[0].id if near else "aboard"), own
    rows = sorted(catalogue.network_cables, key=lambda c: (c.supply_area, c.price, c.id))
    for cable in rows:
        solved = _solve(trunk, _resistance(cable), sag, 0.0, at)
        if solved.lowest.volts >= LEAST_NODE_VOLTS + 0.5 and solved.most_in_trunk <= cable.supply_most:
            return cable.id, _resistance(cable)
    return rows[-1].id, _resistance(rows[-1])


def _shift(lanes: tuple[Lane, ...], banks: tuple[Bank, ...]) -> Volt:
    """Shift between a unit's negative and its bank's, by the current in the return it shares: the largest of the lanes."""
    shifts = [0.0]
    for lane in lanes:
        if lane.peak is None or lane.cable is None:
            continue
        c = lane.cable
        minus = c.cable.resistance_per_metre * c.minus / c.parallel + c.joint_resistance * c.minus / max(c.plus + c.minus, 1e-9)
        shifts.append(ground.negative_shift(lane.peak.current, minus))
    return max(shifts)
