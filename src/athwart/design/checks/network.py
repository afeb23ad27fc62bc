"""The control line: topology, supply, identities, negatives."""

from __future__ import annotations

from collections.abc import Iterator

from athwart.design.checks.looks import over, part_path, parts_of, share, told, under, where_of
from athwart.design.checks.registry import check
from athwart.design.proposal import NetworkChoice, Proposal
from athwart.design.search.linking import link_sizes
from athwart.findings import Code, Finding, code
from athwart.network import ground, topology
from athwart.network.bus import profile
from athwart.network.supply import LEAST_NODE_VOLTS
from athwart.power.fuse import opening_band
from athwart.power.heating import adiabatic_constant, insulation_for

SHIFT_WARN = 1.0

NET_01 = code(
    "NET-01",
    "Fed from the upper block of a string",
    "stop",
    says="The control line takes its supply from the upper block of a series string.",
    why="Its negative then lies a whole block above the ship's. The signal lines leave the range every node must bear, and the first "
    "screen or plug that ties the negatives short-circuits a block through the thin cable.",
    remedy="Feed it from the ship's 12 V bank on its own fuse, or by a converter over the whole bank.",
    source="common-mode-shift",
)
NET_02 = code(
    "NET-02",
    "Fed from an engine-start battery",
    "caution",
    says="The control line is fed from the battery that starts an engine.",
    why="It sags at every start, and standby current drains what the starter needs.",
    remedy="Feed it from the house battery.",
    source="own-judgement",
)
NET_03 = code(
    "NET-03",
    "Fed from the lower block of a string",
    "caution",
    says="The control line takes its supply from the lower block of a series string.",
    why="What it takes is missing in one block only: the string's charger overcharges the other and starves this one.",
    remedy="Keep it below 2 % of a block's capacity a day with an equaliser fitted, or use a converter over the whole bank.",
    source="mid-tap-arithmetic",
)
NET_04 = code(
    "NET-04",
    "Several feeds",
    "caution",
    says="The line is fed at more than one place.",
    why="Two feeds meet through the thin cable and equalise their batteries through it; each has its own fuse and its own negative.",
    remedy="Keep one feed, or put an isolating tee between two.",
    source="common-practice",
)
NET_05 = code(
    "NET-05",
    "Terminators: not two",
    "stop",
    says="The line does not have exactly two terminators.",
    why="Two of 120 Ω make the 60 Ω the transceivers are built for. One works on the bench and fails aboard; three load the lines down.",
    remedy="One at each end of the trunk, none anywhere else.",
    source="bus-resistance",
)
NET_06 = code(
    "NET-06",
    "A terminator is not at an end",
    "stop",
    says="A terminator sits at a stop inside the trunk, or both sit at one end.",
    why="Beyond it the line is open and echoes; this is what is left behind when a trunk is lengthened.",
    remedy="Move it to the end of the trunk.",
    source="common-practice",
)
NET_07 = code(
    "NET-07",
    "A node has a terminator built in",
    "caution",
    says="A node inside the trunk brings its own terminator.",
    why="It is a hidden third one: the meter reads 40 Ω and nobody finds it on the cable.",
    remedy="Switch it off, or make that node an end.",
    source="bus-resistance",
)
NET_08 = code(
    "NET-08",
    "A drop is too long",
    "caution",
    says="A drop cable exceeds the profile's longest.",
    why="A drop is an unterminated stub and throws its echo into every bit.",
    remedy="Take the trunk there and keep the drop short.",
    source="marine-network-tool",
)
NET_09 = code(
    "NET-09",
    "Line longer than its profile",
    "caution",
    says="Trunk, sum of drops or number of nodes exceeds the profile.",
    why="Bits arrive too late or too weak; it shows at load, not on the bench.",
    remedy="Lower the bit rate where the profile lets you, shorten the trunk, or divide the line.",
    source="marine-network-tool",
)
NET_10 = code(
    "NET-10",
    "A node gets too few volts",
    "stop",
    says="At the deepest sag of its source a node is left with less than 9 V.",
    why="It resets in the middle of a manoeuvre, and a thruster without a command stops, or does not.",
    remedy="A heavier cable, a feed nearer the middle, or a source that does not sag with the thruster.",
    source="marine-network-tool",
)
NET_11 = code(
    "NET-11",
    "No fuse in the feed",
    "stop",
    says="The feed of the control line has no fuse.",
    why="A pinched cable of 22 AWG on a large battery is a fire.",
    remedy="A fuse at the source, of the cable's current; 3 A for the thin one.",
    source="own-judgement",
)
NET_12 = code(
    "NET-12",
    "The feed's fuse is too large for the cable",
    "caution",
    says="The feed's fuse is rated for more than the line's supply conductor bears.",
    why="The cable would be the fuse.",
    remedy="Take the fuse for the cable, or the cable for the load.",
    source="own-judgement",
)
NET_13 = code(
    "NET-13",
    "An identity is used twice",
    "stop",
    says="Two thrusters on the line have the same instance.",
    why="Both obey one lever, or neither; a display shows one of them as the other.",
    remedy="Set each unit's instance once, before it is joined, by the plan in the papers.",
    source="own-judgement",
)
NET_14 = code(
    "NET-14",
    "A unit has no instance set",
    "note",
    says="The brief names no instance for a unit; the plan gives it a free one.",
    why="A unit set up later by guess collides with one that is there.",
    remedy="Set the instance of the plan before the unit is joined.",
    source="own-judgement",
)
NET_15 = code(
    "NET-15",
    "A node has a second way to a negative",
    "caution",
    says="A node fed from the line has another galvanic path to a negative.",
    why="Thruster current looks for every way home. Through a computer's plug it finds one that was not made for it.",
    remedy="Isolate the node's other connection, or feed it apart from the line.",
    source="common-mode-shift",
)
NET_16 = code(
    "NET-16",
    "The screen is grounded at several places",
    "caution",
    says="The screen of the control line is joined to the boat's ground at more than one place, or at none.",
    why="At two it carries current, at none it carries nothing away.",
    remedy="One place, near the feed.",
    source="common-practice",
)
NET_17 = code(
    "NET-17",
    "No common negative",
    "stop",
    says="The thruster bank's negative is not joined to the ship's, and the line's nodes stand on both.",
    why="The lines are compared with each node's own negative. Left to float, the bus works by leakage, then fails or burns its transceivers.",
    remedy="Join the negatives at one point with a link of the size in the schedule, or isolate one side of the line.",
    source="common-mode-shift",
)
NET_18 = code(
    "NET-18",
    "The common-negative link is too thin",
    "stop",
    says="The link between the negatives is smaller than one size below the largest positive, or does not bear the fault until the fuses open.",
    why="When a plus touches the ship's ground the whole fault goes home through this link.",
    remedy="Take the size of the schedule.",
    source="iec-60364-5-54",
)
NET_19 = code(
    "NET-19",
    "The common-negative link is fused",
    "stop",
    says="There is a fuse in the link between the negatives.",
    why="When it opens, fault current goes on through the screens and the control line.",
    remedy="Take the fuse out; protect the positives.",
    source="common-practice",
)
NET_20 = code(
    "NET-20",
    "Thruster current shifts the negatives",
    "caution",
    says="Current in a negative that a node shares lifts that node against the others.",
    why="Above a volt something is wrong; above 3.5 V the lines leave their range and the network drops out exactly when the thruster starts.",
    remedy="Take each unit's return straight to its bank, and mend the joint that costs the volts.",
    source="common-mode-shift",
)
NET_21 = code(
    "NET-21",
    "A metal hull wants the bank isolated and watched",
    "note",
    says="The hull is metal and the thruster bank's negative is joined to the ship's.",
    why="Stray current through a metal hull eats it. Isolated banks with insulation monitoring are the usual alternative.",
    remedy="Consider an isolated bank, isolated chargers and units, and an insulation monitor; then isolate the control line too.",
    source="common-practice",
)
NET_22 = code(
    "NET-22",
    "Isolated negatives without a monitor",
    "caution",
    says="The brief says isolated negatives and no insulation monitoring.",
    why="The first fault to the hull stays unseen, the second one is a short circuit.",
    remedy="Fit an insulation monitor.",
    source="common-practice",
)
NET_23 = code(
    "NET-23",
    "The line changes when the unit joins",
    "note",
    says="A unit joins a line that exists: the trunk is laid on, a terminator moves, an identity is set, a negative link is added.",
    why="A trunk lengthened past its terminator is the commonest network fault after a refit.",
    remedy="Work through the list of changes in the papers, then measure the line again with power off.",
    source="common-practice",
)


def _trunk(p: Proposal, n: NetworkChoice) -> topology.Trunk:
    """The line as drawn, for the facts of its topology."""
    nodes = []
    given = {node.name: node for node in p.brief.network.nodes}
    part = p.brief.fixed.network or p.brief.aboard.network
    for stop in n.stops:
        node = given.get(stop.name)
        function = "thruster" if stop.tag.startswith("M") else ""
        nodes.append(
            topology.Node(
                stop.name,
                stop.instance,
                stop.current,
                stop.drop,
                bool(node and node.terminator_inside and p.mode == "check"),
                function,
                bool(node and node.galvanic_negative),
            )
        )
    lengths = tuple(b.at - a.at for a, b in zip(n.stops, n.stops[1:], strict=False))
    names = {stop.name for stop in n.stops}
    feeds = tuple(f for f in part.feed_at if f in names) if part is not None and p.mode == "check" else (n.feed_at,)
    grounds = tuple(g for g in part.screen_grounded_at if g in names) if part is not None and p.mode == "check" else (n.feed_at,)
    plugs = tuple(t for t in part.terminators_at if t in names) if part is not None and p.mode == "check" else n.terminators
    return topology.Trunk(tuple(nodes), lengths, feeds, plugs, grounds)


OF_FACT: dict[str, tuple[Code, str]] = {
    "no terminator": (NET_05, "aboard.network.terminators_at"),
    "one terminator": (NET_05, "aboard.network.terminators_at"),
    "too many terminators": (NET_05, "aboard.network.terminators_at"),
    "terminator not at an end": (NET_06, "aboard.network.terminators_at"),
    "both terminators at one end": (NET_06, "aboard.network.terminators_at"),
    "drop too long": (NET_08, "network.trunk"),
    "drops too long in all": (NET_09, "network.trunk"),
    "trunk too long": (NET_09, "network.trunk"),
    "too many nodes": (NET_09, "network.nodes"),
    "several feeds": (NET_04, "aboard.network.feed_at"),
    "identity used twice": (NET_13, "thrusters"),
    "second path to a negative": (NET_15, "network.nodes"),
    "screen grounded at several places": (NET_16, "aboard.network.screen_grounded_at"),
    "screen not grounded": (NET_16, "aboard.network.screen_grounded_at"),
}
"""Fact of the topology -> finding and the field of the brief to change."""


@check
def line(p: Proposal) -> Iterator[Finding]:
    """Topology of the line."""
    n = p.network
    if n is None or not n.stops:
        return
    limits = profile(p.brief.network.profile, p.brief.network.bit_rate)
    for fact in topology.facts(_trunk(p, n), limits):
        entry, path = OF_FACT.get(fact.kind, (None, ""))
        if entry is None:
            continue
        where = ", ".join(fact.where) if fact.where else "control line"
        unit = "" if entry in (NET_05, NET_04, NET_13, NET_16) else " m" if "nodes" not in fact.kind else ""
        value = f"{fact.value:g}{unit}" if fact.value is not None else ""
        limit = f"{fact.limit:g}{unit}" if fact.limit is not None else ""
        margin = over(fact.value, fact.limit) if fact.value is not None and fact.limit and entry in (NET_08, NET_09) else None
        yield entry.found(where, f"{fact.kind[0].upper()}{fact.kind[1:]}.", value=value, limit=limit, margin=margin, path=path)
    for index, node in enumerate(p.brief.network.nodes):
        ends = {n.stops[0].name, n.stops[-1].name}
        if node.terminator_inside and node.name not in ends:
            yield NET_07.found(node.name, "It brings a terminator of its own.", path=f"network.nodes[{index}].terminator_inside")


@check
def supply(p: Proposal) -> Iterator[Finding]:
    """Where the line's volts come from and what reaches the nodes."""
    n = p.network
    if n is None or not n.stops:
        return
    if n.feed == "upper block":
        yield NET_01.found("control line", "It hangs on the upper block.", path="aboard.network.fed_from")
    elif n.feed == "engine start":
        yield NET_02.found("control line", "It hangs on an engine-start battery.", path="aboard.network.fed_from")
    elif n.feed == "lower block" and n.mid_tap_share is not None:
        wish = p.brief.bank[0] if p.brief.bank else None
        verdict = ground.tap_verdict(n.mid_tap_share, bool(wish and wish.equaliser))
        if verdict:
            yield NET_03.found(
                "control line",
                "It hangs on the lower block" + ("" if wish and wish.equaliser else ", and there is no equaliser") + ".",
                value=share(n.mid_tap_share),
                limit=share(ground.MID_TAP_CAUTION),
                margin=over(n.mid_tap_share, ground.MID_TAP_CAUTION),
                severity="stop" if verdict == "stop" else "caution",
                path="network.feed",
            )
    least = min(n.stops, key=lambda stop: stop.volts_sag)
    if least.volts_sag < LEAST_NODE_VOLTS:
        yield NET_10.found(
            least.name,
            "At the deepest sag too few volts reach it.",
            value=told(least.volts_sag, "voltage"),
            limit=told(LEAST_NODE_VOLTS, "voltage"),
            margin=under(least.volts_sag, LEAST_NODE_VOLTS),
            tags=(least.tag,),
            path="network.feed",
        )
    row = next((cable for cable in p.catalogue.network_cables if cable.id == n.cable_row), None)
    if n.feed_fuse <= 0:
        yield NET_11.found("control line", "Its feed has no fuse.", path="aboard.network.feed_fuse")
    elif row is not None and n.feed_fuse > row.supply_most * 1.01:
        yield NET_12.found(
            "control line",
            f"{row.name} bears less.",
            value=told(n.feed_fuse, "current"),
            limit=told(row.supply_most, "current"),
            margin=over(n.feed_fuse, row.supply_most),
            path="aboard.network.feed_fuse",
        )


@check
def identities(p: Proposal) -> Iterator[Finding]:
    """Instances and changes when a unit joins."""
    n = p.network
    if n is None:
        return
    for index, thruster in enumerate(p.brief.thrusters):
        if thruster.instance is None and len(p.brief.thrusters) > 1:
            yield NET_14.found(
                f"{thruster.identity} unit", "No instance is set in the brief.", path=f"thrusters[{index}].instance"
            )
    if n.changes:
        yield NET_23.found(
            "control line",
            f"{len(n.changes)} changes to the line that is there.",
            value=f"{len(n.changes)} steps",
            path="network.trunk",
        )


@check
def negatives(p: Proposal) -> Iterator[Finding]:
    """The common-negative link and what current does to it."""
    n = p.network
    isolated = p.brief.supply.common_negative == "isolated"
    sizes = link_sizes(p.brief, p.catalogue)
    told_banks: set[str | None] = set()
    for lane in p.lanes:
        part = parts_of(p, lane)
        if lane.cable is None or lane.bank in told_banks:
            continue
        told_banks.add(lane.bank)
        where = where_of(lane)
        own = any(battery.name == lane.bank for battery in p.brief.supply.batteries)
        if part.negative_link_fused and p.mode == "check":
            yield NET_19.found(where, "There is a fuse in its negative link.", path=part_path(p, lane, "negative_link_fused"))
        if (
            lane.negative_link_area is None
            and not isolated
            and not own
            and n is not None
            and lane.unit.network_isolated is not True
        ):
            yield NET_17.found(
                where, "Its bank's negative is not joined to the ship's.", path=part_path(p, lane, "negative_link")
            )
        elif lane.negative_link_area is not None:
            wanted = _least_link(p, lane.lane, sizes)
            if wanted is not None and lane.negative_link_area < wanted * 0.99:
                yield NET_18.found(
                    where,
                    "Its negative link is too thin.",
                    value=told(lane.negative_link_area, "conductor", "mm2"),
                    limit=told(wanted, "conductor", "mm2"),
                    margin=under(lane.negative_link_area, wanted),
                    path=part_path(p, lane, "negative_link"),
                )
    if n is not None and not isolated and n.common_mode_shift > SHIFT_WARN:
        most = ground.allowed_shift()
        grave = n.common_mode_shift > most
        yield NET_20.found(
            "control line",
            "The unit's return lifts its negative against the helm's.",
            value=told(n.common_mode_shift, "voltage"),
            limit=told(most if grave else SHIFT_WARN, "voltage"),
            margin=over(n.common_mode_shift, most if grave else SHIFT_WARN),
            severity="stop" if grave else "caution",
            path="layout.routes",
        )
    if isolated and not p.brief.supply.insulation_monitor:
        yield NET_22.found("ship's supply", "No insulation monitor.", path="supply.insulation_monitor")
    elif not isolated and p.brief.boat.hull_material in ("steel", "aluminium"):
        yield NET_21.found("hull", f"The hull is {p.brief.boat.hull_material}.", path="supply.common_negative")


def _least_link(p: Proposal, number: int, sizes: tuple[float, ...]) -> float | None:
    """The size the rule asks of a lane's link, None where it cannot be worked out."""
    lane = next(entry for entry in p.lanes if entry.lane == number)
    bank = p.bank(lane.bank)
    if lane.cable is None or bank is None:
        return None
    let_through = 0.0
    if lane.fuse is not None:
        time = opening_band(lane.fuse.family, lane.fuse.fuse.rating, bank.fault_current_most).most
        let_through = bank.fault_current_most**2 * min(time, 5.0)
    try:
        return ground.link_size(
            lane.cable.area, let_through, adiabatic_constant(298.15, insulation_for(378.15).final), sizes
        ).area
    except ValueError:
        return max(sizes)
