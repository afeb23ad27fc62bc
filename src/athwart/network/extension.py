"""A unit joins a line that is there: the trunk laid anew, and what the fitter changes.

The usual case is a stern unit added to a boat with a bow unit. The old line ends at a helm; its terminator sits there and
must move to the new end, or it stays in the middle of the line and the new end has none.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from typing import Literal

from athwart.network.topology import IDENTITY_MOST, Node, Trunk, free_identity, terminated
from athwart.units.names import Metre

ChangeKind = Literal["trunk", "tee", "drop", "terminator", "identity", "feed", "screen", "negative link", "stop removed"]


@dataclass(frozen=True, slots=True)
class Change:
    """One thing to do on the line; ``says`` is a whole sentence for the papers, ``length`` of cable to add where there is any."""

    kind: ChangeKind
    where: tuple[str, ...]
    says: str
    length: Metre | None = None


@dataclass(frozen=True, slots=True)
class Extension:
    """The line after a unit joined, and the way there."""

    trunk: Trunk
    changes: tuple[Change, ...]


def extend(
    trunk: Trunk,
    node: Node,
    neighbour: str,
    length: Metre,
    onward: Metre | None = None,
    separate_bank: bool = False,
) -> Extension:
    """Let a node join: beyond ``neighbour`` where that is an end of the trunk, else on a loop of the trunk after it.

    Parameters
    ----------
    trunk : The line as it is, faults and all.
    node : What joins; without an identity, or with one already taken, it gets the lowest free one.
    neighbour : The stop it joins beside.
    length : Trunk from the neighbour to the node. [m]
    onward : Trunk from the node to the next stop, where it joins between two; else the way back and the old length. [m]
    separate_bank : Whether the new unit stands on a bank of its own, whose negative must be joined to the common one.

    Examples
    --------
    >>> line = Trunk((Node("bow", 0, 0.15), Node("helm", None, 0.1)), (8.0,), ("helm",), ("bow", "helm"), ("helm",))
    >>> joined = extend(line, Node("stern", None, 0.15), "helm", 9.5)
    >>> joined.trunk.terminators, joined.trunk.node("stern").identity
    (('bow', 'stern'), 1)
    """
    new = replace(node, identity=_identity(trunk, node))
    stops, lengths = list(trunk.stops), list(trunk.lengths)
    at = stops.index(trunk.node(neighbour))
    if at == len(stops) - 1:
        stops.append(new)
        lengths.append(length)
    elif at == 0:
        stops.insert(0, new)
        lengths.insert(0, length)
    else:
        old = lengths[at]
        lengths[at : at + 1] = [length, onward if onward is not None else length + old]
        stops.insert(at + 1, new)
    feeds, grounds = trunk.feeds[:1], trunk.screen_grounds[:1]
    bare = Trunk(tuple(stops), tuple(lengths), feeds, (), grounds)
    target = terminated(bare)
    return Extension(target, changes(trunk, target, node.identity, separate_bank))


def changes(old: Trunk, new: Trunk, wished_identity: int | None = None, separate_bank: bool = False) -> tuple[Change, ...]:
    """What a fitter does to make the new line of the old one, in the order of the work."""
    joined = [node for node in new.stops if node.name not in old.positions]
    return (
        *_removed_stops(old, new),
        *_trunk_changes(old, new),
        *_terminator_changes(old, new),
        *(change for node in joined for change in _node_changes(old, node, wished_identity)),
        *_point_changes(old, new),
        *(change for node in joined for change in _negative_changes(node) if separate_bank),
    )


def _identity(trunk: Trunk, node: Node) -> int | None:
    taken = {other.identity for other in trunk.stops if other.function == node.function}
    if node.identity is None or node.identity in taken or not 0 <= node.identity <= IDENTITY_MOST:
        return free_identity(trunk.stops, node.function)
    return node.identity


def _removed_stops(old: Trunk, new: Trunk) -> list[Change]:
    gone = [node.name for node in old.stops if node.name not in new.positions]
    return [Change("stop removed", (name,), f"Take {name} off the trunk with its tee and drop.") for name in gone]


def _trunk_changes(old: Trunk, new: Trunk) -> list[Change]:
    before = _pieces(old)
    found: list[Change] = []
    for (here, there), length in _pieces(new).items():
        if (here, there) not in before:
            found.append(Change("trunk", (here, there), f"Lay {length:.1f} m of trunk from {here} to {there}.", length))
        elif abs(before[here, there] - length) > 0.005:
            words = f"The trunk from {here} to {there} is {length:.1f} m, not {before[here, there]:.1f} m."
            found.append(Change("trunk", (here, there), words, max(0.0, length - before[here, there])))
    after = _pieces(new)
    cut = [pair for pair in before if pair not in after and all(name in new.positions for name in pair)]
    found += [Change("trunk", (here, there), f"Open the trunk between {here} and {there}.") for here, there in cut]
    return found


def _pieces(trunk: Trunk) -> dict[tuple[str, str], Metre]:
    names = [node.name for node in trunk.stops]
    return {(here, there): length for here, there, length in zip(names, names[1:], trunk.lengths, strict=False)}


def _terminator_changes(old: Trunk, new: Trunk) -> list[Change]:
    found: list[Change] = []
    for node in new.stops:
        was = next((other for other in old.stops if other.name == node.name), node)
        if was.builtin_terminator and not node.builtin_terminator:
            words = f"Switch off the terminator built into {node.name}; if it cannot be switched off, {node.name} must be an end."
            found.append(Change("terminator", (node.name,), words))
    plugs_before, plugs_after = Counter(old.terminators), Counter(new.terminators)
    off = sorted((plugs_before - plugs_after).elements())
    on = sorted((plugs_after - plugs_before).elements())
    for here, there in zip(off, on, strict=False):
        found.append(Change("terminator", (here, there), f"Move the terminator from {here} to {there}."))
    for name in off[len(on) :]:
        found.append(Change("terminator", (name,), f"Take the terminator off {name}."))
    for name in on[len(off) :]:
        found.append(Change("terminator", (name,), f"Fit a terminator at {name}."))
    for node in new.stops:
        if node.builtin_terminator and node.name in new.ends and node.name not in old.positions:
            words = f"The terminator at the new end is the one built into {node.name}: leave it switched on."
            found.append(Change("terminator", (node.name,), words))
    return found


def _node_changes(old: Trunk, node: Node, wished: int | None) -> list[Change]:
    found = [
        Change("tee", (node.name,), f"Fit a tee for {node.name}."),
        Change("drop", (node.name,), f"Run a drop of {node.drop_length:.1f} m from the tee to {node.name}.", node.drop_length),
    ]
    if node.identity is not None:
        words = f"Set the identity of {node.name} to {node.identity}, once, before it is joined"
        holders = [other.name for other in old.stops if other.function == node.function and other.identity == wished]
        if wished is not None and wished != node.identity and holders:
            words += f"; {wished} belongs to {holders[0]}"
        found.append(Change("identity", (node.name,), words + "."))
    return found


def _point_changes(old: Trunk, new: Trunk) -> list[Change]:
    found: list[Change] = []
    for name in old.feeds:
        if name not in new.feeds:
            found.append(Change("feed", (name,), f"Take the feed at {name} away: one feed only."))
    found += [Change("feed", (name,), f"Feed the trunk at {name}.") for name in new.feeds if name not in old.feeds]
    for name in old.screen_grounds:
        if name not in new.screen_grounds:
            found.append(Change("screen", (name,), f"Part the screen from the boat's ground at {name}: one place only."))
    grounds = [name for name in new.screen_grounds if name not in old.screen_grounds]
    return found + [Change("screen", (name,), f"Join the screen to the boat's ground at {name}.") for name in grounds]


def _negative_changes(node: Node) -> list[Change]:
    words = f"Join the negative of {node.name}'s bank to the common negative with a link of its own, without a fuse."
    return [Change("negative link", (node.name,), words)]
