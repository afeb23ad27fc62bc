"""Trunk, drops, terminators, feeds, identities: how a control line is laid, and what changes when a unit joins it.

A trunk is a chain of stops with a tee at each; a node hangs on its tee by a drop. Exactly two terminators belong there, one
at each end. What is wrong with a line comes back as :class:`Fact` values, never as an exception: a line full of faults must
still be described.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from typing import Literal

from athwart.network.bus import Profile, bus_resistance
from athwart.network.supply import Ladder, Tap, ladder
from athwart.units.names import Ampere, Metre, Ohm, OhmPerMetre, Volt

IDENTITY_MOST = 252  # the higher numbers of a byte are reserved


@dataclass(frozen=True, slots=True)
class Node:
    """Something on the line. ``identity`` is its instance number; nodes of one ``function`` must differ in it."""

    name: str
    identity: int | None = None
    load: Ampere = 0.0
    drop_length: Metre = 0.0
    builtin_terminator: bool = False
    function: str = ""
    galvanic_negative: bool = False  # a second path to a negative: computer plug, serial line without isolation


@dataclass(frozen=True, slots=True)
class Trunk:
    """A line as laid: stops in order, ``lengths`` between neighbours, names of the stops with a feed or a terminator.

    ``terminators`` are the plugs on the trunk; a node's own, built in, comes on top.
    """

    stops: tuple[Node, ...]
    lengths: tuple[Metre, ...]
    feeds: tuple[str, ...] = ()
    terminators: tuple[str, ...] = ()
    screen_grounds: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """A trunk hangs together, and its stops have names of their own."""
        names = [node.name for node in self.stops]
        if not names:
            raise ValueError("a trunk has at least one stop")
        if len(self.lengths) != len(names) - 1:
            raise ValueError(f"{len(names)} stops need {len(names) - 1} lengths between them, not {len(self.lengths)}")
        if twice := sorted(name for name, count in Counter(names).items() if count > 1):
            raise ValueError(f"stops named twice: {', '.join(twice)}")
        if any(length < 0.0 for length in self.lengths):
            raise ValueError("lengths of the trunk are nought or more")
        known = set(names)
        if strange := sorted({*self.feeds, *self.terminators, *self.screen_grounds} - known):
            raise ValueError(f"no stop of the trunk: {', '.join(strange)}; there are {', '.join(names)}")

    @property
    def length(self) -> Metre:
        """From end to end."""
        return sum(self.lengths)

    @property
    def positions(self) -> dict[str, Metre]:
        """Distance of each stop from the first."""
        places = accumulate(self.lengths, initial=0.0)
        return {node.name: place for node, place in zip(self.stops, places, strict=True)}

    @property
    def ends(self) -> tuple[str, str]:
        """First and last stop; the same one twice where there is only one."""
        return self.stops[0].name, self.stops[-1].name

    @property
    def all_terminators(self) -> tuple[str, ...]:
        """Stops with a terminator, plugs and built-in ones, a stop with two named twice."""
        return tuple(sorted([*self.terminators, *(node.name for node in self.stops if node.builtin_terminator)]))

    def node(self, name: str) -> Node:
        """The stop with this name."""
        found = next((node for node in self.stops if node.name == name), None)
        if found is None:
            raise ValueError(f"no stop {name!r} on the trunk; there are {', '.join(node.name for node in self.stops)}")
        return found


def power_off_resistance(trunk: Trunk) -> Ohm:
    """Ohms between the signal lines, all switched off, with the nodes' own resistance."""
    return bus_resistance(len(trunk.all_terminators), len(trunk.stops))


def taps(trunk: Trunk) -> tuple[Tap, ...]:
    """The nodes as the supply sees them."""
    return tuple(Tap(node.name, trunk.positions[node.name], node.load, node.drop_length) for node in trunk.stops)


def supply(
    trunk: Trunk,
    resistance_per_metre: OhmPerMetre,
    source_volts: Volt,
    feed_resistance: Ohm = 0.0,
    feed: str | None = None,
) -> Ladder:
    """Volts at the nodes with the trunk's (first) feed, or with one at the stop named."""
    at = feed if feed is not None else (trunk.feeds[0] if trunk.feeds else None)
    if at is None:
        raise ValueError("the trunk has no feed")
    return ladder(taps(trunk), trunk.positions[trunk.node(at).name], resistance_per_metre, source_volts, feed_resistance)


def best_feed(trunk: Trunk, resistance_per_metre: OhmPerMetre = 0.053) -> str:
    """The stop at which a feed leaves the worst node the most volts: near the middle of the load."""
    return max(
        (node.name for node in trunk.stops),
        key=lambda name: (round(supply(trunk, resistance_per_metre, 12.0, feed=name).lowest.volts, 9), -trunk.positions[name]),
    )


# ---- what is wrong with a line

FactKind = Literal[
    "no terminator",
    "one terminator",
    "too many terminators",
    "terminator not at an end",
    "both terminators at one end",
    "trunk too long",
    "drop too long",
    "drops too long in all",
    "too many nodes",
    "node takes too much",
    "no feed",
    "several feeds",
    "identity used twice",
    "identity missing",
    "identity out of range",
    "screen not grounded",
    "screen grounded at several places",
    "second path to a negative",
]


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing a line does not keep: where, and by how much where a figure applies (SI)."""

    kind: FactKind
    where: tuple[str, ...]
    value: float | None = None
    limit: float | None = None


def terminator_facts(trunk: Trunk) -> tuple[Fact, ...]:
    """Exactly two, one at each end."""
    there = trunk.all_terminators
    facts: list[Fact] = []
    if len(there) < 2:
        facts.append(Fact("one terminator" if there else "no terminator", there, float(len(there)), 2.0))
    elif len(there) > 2:
        facts.append(Fact("too many terminators", there, float(len(there)), 2.0))
    inside = tuple(name for name in there if name not in trunk.ends)
    if inside:
        facts.append(Fact("terminator not at an end", inside))
    if len(trunk.stops) > 1 and len(there) == 2 and there[0] == there[1]:
        facts.append(Fact("both terminators at one end", there[:1]))
    return tuple(facts)


def length_facts(trunk: Trunk, profile: Profile) -> tuple[Fact, ...]:
    """Trunk, each drop, all drops, number of nodes and each node's current against the profile."""
    facts: list[Fact] = []
    drops = sum(node.drop_length for node in trunk.stops)
    if not profile.trunk.allows(trunk.length):
        facts.append(Fact("trunk too long", trunk.ends, trunk.length, profile.trunk.value))
    for node in trunk.stops:
        if not profile.drop.allows(node.drop_length):
            facts.append(Fact("drop too long", (node.name,), node.drop_length, profile.drop.value))
    if not profile.drops.allows(drops):
        facts.append(Fact("drops too long in all", (), drops, profile.drops.value))
    if not profile.nodes.allows(len(trunk.stops)):
        facts.append(Fact("too many nodes", (), float(len(trunk.stops)), profile.nodes.value))
    for node in trunk.stops:
        if not profile.node_current.allows(node.load):
            facts.append(Fact("node takes too much", (node.name,), node.load, profile.node_current.value))
    return tuple(facts)


def feed_facts(trunk: Trunk) -> tuple[Fact, ...]:
    """One feed, or an isolating tee between two."""
    if not trunk.feeds:
        return (Fact("no feed", ()),)
    if len(trunk.feeds) > 1:
        return (Fact("several feeds", trunk.feeds, float(len(trunk.feeds)), 1.0),)
    return ()


def identity_facts(trunk: Trunk) -> tuple[Fact, ...]:
    """Nodes of one function need an identity each, and different ones."""
    facts: list[Fact] = []
    users: dict[tuple[str, int], list[str]] = {}
    for node in trunk.stops:
        if node.identity is None:
            if node.function:
                facts.append(Fact("identity missing", (node.name,)))
            continue
        if not 0 <= node.identity <= IDENTITY_MOST:
            facts.append(Fact("identity out of range", (node.name,), float(node.identity), float(IDENTITY_MOST)))
        users.setdefault((node.function, node.identity), []).append(node.name)
    for (_, identity), names in users.items():
        if len(names) > 1:
            facts.append(Fact("identity used twice", tuple(names), float(identity)))
    return tuple(facts)


def screen_facts(trunk: Trunk, screened: bool = True) -> tuple[Fact, ...]:
    """The screen is joined to the boat's ground at one point; an unscreened cable has none to join."""
    if not screened:
        return ()
    if not trunk.screen_grounds:
        return (Fact("screen not grounded", (), 0.0, 1.0),)
    if len(trunk.screen_grounds) > 1:
        return (Fact("screen grounded at several places", trunk.screen_grounds, float(len(trunk.screen_grounds)), 1.0),)
    return ()


def negative_facts(trunk: Trunk) -> tuple[Fact, ...]:
    """A node fed from the bus must not touch another negative too."""
    return tuple(
        Fact("second path to a negative", (node.name,)) for node in trunk.stops if node.galvanic_negative and node.load > 0
    )


def facts(trunk: Trunk, profile: Profile, screened: bool = True) -> tuple[Fact, ...]:
    """All facts about a line, terminators first."""
    return (
        *terminator_facts(trunk),
        *length_facts(trunk, profile),
        *feed_facts(trunk),
        *identity_facts(trunk),
        *screen_facts(trunk, screened),
        *negative_facts(trunk),
    )


# ---- laying a line


def free_identity(stops: Sequence[Node], function: str = "") -> int:
    """The lowest instance number no node of this function has.

    >>> free_identity([Node("bow", 0), Node("stern", 1)])
    2
    """
    taken = {node.identity for node in stops if node.function == function}
    return next(number for number in range(len(stops) + 1) if number not in taken)


def terminated(trunk: Trunk) -> Trunk:
    """The same line with exactly one terminator at each end, one feed and one ground of the screen.

    A built-in terminator serves at an end and is switched off elsewhere. A line of one stop has both at that stop. Of
    several feeds or grounds the first stays; a line without one is fed where the worst node keeps the most volts, and its
    screen grounded there.
    """
    ends = Counter(trunk.ends)
    inner = tuple(node if node.name in ends else replace(node, builtin_terminator=False) for node in trunk.stops)
    plugs = [name for name, wanted in ends.items() for _ in range(wanted - trunk.node(name).builtin_terminator)]
    feed = trunk.feeds[0] if trunk.feeds else best_feed(trunk)
    ground = trunk.screen_grounds[0] if trunk.screen_grounds else feed
    return Trunk(inner, trunk.lengths, (feed,), tuple(plugs), (ground,))


def lay(stops: Sequence[tuple[Node, Metre]], feed: str | None = None, screen_ground: str | None = None) -> Trunk:
    """Lay a new trunk through nodes in the order of their positions along the route, right from the start.

    >>> line = lay([(Node("stern", 1, 0.15), 17.0), (Node("bow", 0, 0.15), 0.0), (Node("helm", None, 0.1), 8.0)])
    >>> line.terminators, line.lengths, line.feeds
    (('bow', 'stern'), (8.0, 9.0), ('helm',))
    """
    order = sorted(stops, key=lambda stop: (stop[1], stop[0].name))
    lengths = tuple(there - here for (_, here), (_, there) in pairwise(order))
    feeds = () if feed is None else (feed,)
    grounds = () if screen_ground is None else (screen_ground,)
    return terminated(Trunk(tuple(node for node, _ in order), lengths, feeds, (), grounds))
