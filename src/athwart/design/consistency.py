"""What the sections of a brief say about each other: names that must exist, must be alone of their kind, must be joined.

The rules read the brief as plain data (mappings, sequences, texts), not as a model, so that they still speak when another part
of the brief could not be read: a reader gets all mistakes at once. What is not there or not of the expected form is skipped here;
the model says that.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

Loc: TypeAlias = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Clash:
    """One place where two sections disagree; ``loc`` is the path to point to, keys and positions."""

    loc: Loc
    message: str
    read: str = ""
    allowed: str = ""


def clashes(data: Mapping[str, Any]) -> tuple[Clash, ...]:
    """Everything in a brief that contradicts another part of it."""
    names = _Names(data)
    return tuple(clash for rule in RULES for clash in rule(data, names))


class _Names:
    """The names a brief gives to its things, each with the paths where it gives them."""

    def __init__(self, data: Mapping[str, Any]) -> None:
        self.places = _named(data, ("layout", "places"))
        self.helms = _named(data, ("helms",))
        self.nodes = _named(data, ("network", "nodes"))
        self.units = _named(data, ("thrusters",), "identity")
        self.banks = _named(data, ("bank",))
        self.batteries = _named(data, ("supply", "batteries"))
        self.alternators = _named(data, ("supply", "alternators"))
        self.path_devices = _named(data, ("supply", "path_devices"))
        self.engines = _named(data, ("propulsion", "engines"))
        self.stops = [*self.helms, *self.units, *self.nodes]
        self.sources = [*self.batteries, *self.banks]
        self.supply = [*self.sources, *self.alternators, *self.path_devices, "shore charger"]


def _at(data: Any, loc: Iterable[str | int]) -> Any:
    for part in loc:
        try:
            data = data[part]
        except (KeyError, IndexError, TypeError):
            return None
    return data


def _items(data: Any, loc: Loc) -> Iterator[tuple[Loc, Mapping[str, Any]]]:
    """The mappings of a sequence, each with its path."""
    sequence = _at(data, loc)
    if isinstance(sequence, Sequence) and not isinstance(sequence, str):
        for number, item in enumerate(sequence):
            if isinstance(item, Mapping):
                yield (*loc, number), item


def _texts(data: Any, loc: Loc) -> Iterator[tuple[Loc, str]]:
    """The texts at a path: one, or those of a sequence."""
    value = _at(data, loc)
    if isinstance(value, str):
        yield loc, value.strip()
    elif isinstance(value, Sequence):
        yield from (((*loc, number), item.strip()) for number, item in enumerate(value) if isinstance(item, str))


def _text(item: Mapping[str, Any], key: str) -> str:
    value = item.get(key)
    return value.strip() if isinstance(value, str) else ""


def _named(data: Any, loc: Loc, key: str = "name") -> dict[str, list[Loc]]:
    found: dict[str, list[Loc]] = {}
    for path, item in _items(data, loc):
        if name := _text(item, key):
            found.setdefault(name, []).append((*path, key))
    return found


def _list(names: Iterable[str]) -> str:
    return ", ".join(names) or "none is given yet"


def _twice(data: Mapping[str, Any], names: _Names) -> Iterator[Clash]:
    """A name belongs to one thing."""
    kinds = (
        ("place", names.places),
        ("helm", names.helms),
        ("node", names.nodes),
        ("thruster", names.units),
        ("bank", names.banks),
        ("battery", names.batteries),
        ("alternator", names.alternators),
        ("device", names.path_devices),
        ("engine", names.engines),
    )
    for kind, table in kinds:
        for name, locs in table.items():
            for loc in locs[1:]:
                yield Clash(loc, f"a second {kind} of this name", name, "another name")
    stops: dict[str, Loc] = {}
    for table in (names.helms, names.units, names.nodes):
        for name, locs in table.items():
            if name in stops:
                yield Clash(
                    locs[0], "a helm, a thruster or a node of this name is on the control line already", name, "another name"
                )
            stops.setdefault(name, locs[0])
    for name, locs in names.banks.items():
        if name in names.batteries:
            yield Clash(locs[0], "a battery of the ship has this name already", name, "another name")


REFERENCES: tuple[tuple[tuple[str, ...], str, str], ...] = (
    (("helms", "*", "place"), "place", "places"),
    (("thrusters", "*", "place"), "place", "places"),
    (("bank", "*", "place"), "place", "places"),
    (("network", "nodes", "*", "place"), "place", "places"),
    (("supply", "batteries", "*", "place"), "place", "places"),
    (("layout", "routes", "*", "between"), "place", "places"),
    (("aboard", "lanes", "*", "switch", "place"), "place", "places"),
    (("fixed", "lanes", "*", "switch", "place"), "place", "places"),
    (("bank", "*", "feeds"), "thruster", "units"),
    (("supply", "alternators", "*", "charges"), "battery or bank", "sources"),
    (("supply", "shore_charger", "charges"), "battery or bank", "sources"),
    (("supply", "path_devices", "*", "between"), "battery, bank, alternator or device", "supply"),
    (("aboard", "lanes", "*", "charger", "fed_from"), "battery, bank, alternator or device", "supply"),
    (("fixed", "lanes", "*", "charger", "fed_from"), "battery, bank, alternator or device", "supply"),
    (("propulsion", "engines", "*", "alternator"), "alternator", "alternators"),
    (("network", "trunk", "*", "stop"), "helm, thruster or node", "stops"),
    (("aboard", "network", "terminators_at"), "helm, thruster or node", "stops"),
    (("aboard", "network", "feed_at"), "helm, thruster or node", "stops"),
    (("aboard", "network", "screen_grounded_at"), "helm, thruster or node", "stops"),
    (("fixed", "network", "terminators_at"), "helm, thruster or node", "stops"),
    (("fixed", "network", "feed_at"), "helm, thruster or node", "stops"),
    (("fixed", "network", "screen_grounded_at"), "helm, thruster or node", "stops"),
)
"""Where a brief names a thing it describes elsewhere: path (``*`` any item), kind in words, table of names."""


def _spread(data: Any, pattern: tuple[str, ...], loc: Loc = ()) -> Iterator[Loc]:
    """Paths that fit a pattern with ``*``."""
    if not pattern:
        yield loc
        return
    head, rest = pattern[0], pattern[1:]
    if head != "*":
        yield from _spread(data, rest, (*loc, head))
        return
    inner = _at(data, loc)
    keys: Iterable[str | int] = ()
    if isinstance(inner, Mapping):
        keys = list(inner)
    elif isinstance(inner, Sequence) and not isinstance(inner, str):
        keys = range(len(inner))
    for key in keys:
        yield from _spread(data, rest, (*loc, key))


def _unknown(data: Mapping[str, Any], names: _Names) -> Iterator[Clash]:
    """A thing that is named must be described."""
    for pattern, kind, table in REFERENCES:
        known = getattr(names, table)
        for loc in _spread(data, pattern):
            for path, text in _texts(data, loc):
                if text not in known:
                    yield Clash(path, f"no {kind} of this name in the brief", text, _list(known))


def _lanes(data: Mapping[str, Any], names: _Names) -> Iterator[Clash]:
    """Parts belong to a thruster of the brief, and are either aboard or fixed."""
    for section in ("aboard", "fixed"):
        lanes = _at(data, (section, "lanes"))
        for name in lanes if isinstance(lanes, Mapping) else ():
            if name not in names.units:
                yield Clash((section, "lanes", name), "no thruster of this identity in the brief", str(name), _list(names.units))
    for loc in _spread(data, ("fixed", "lanes", "*")):
        lane = _at(data, loc)
        other = _at(data, ("aboard", *loc[1:]))
        if isinstance(lane, Mapping) and isinstance(other, Mapping):
            for part in (part for part in lane if part in other):
                yield Clash((*loc, part), "this part is given under aboard as well; it can be one of the two only")


def _feeds(data: Mapping[str, Any], names: _Names) -> Iterator[Clash]:
    """A thruster is fed by one bank at most."""
    fed: set[str] = set()
    for loc, _ in _items(data, ("bank",)):
        for path, unit in _texts(data, (*loc, "feeds")):
            if unit in fed:
                yield Clash(path, "this thruster is fed by another bank already", unit, "a thruster is fed by one bank")
            fed.add(unit)


def _ends(data: Any, loc: Loc) -> frozenset[str] | None:
    ends = [text for _, text in _texts(data, (*loc, "between"))]
    return frozenset(ends) if len(ends) == 2 else None


def _routes(data: Mapping[str, Any], names: _Names) -> Iterator[Clash]:
    """Routes join two places, once; a bank has one to every thruster it feeds."""
    seen: set[frozenset[str]] = set()
    for loc, _ in _items(data, ("layout", "routes")):
        ends = _ends(data, loc)
        if ends is None:
            continue
        if len(ends) == 1:
            yield Clash((*loc, "between"), "a route joins two different places", next(iter(ends)))
        elif ends in seen:
            yield Clash((*loc, "between"), "a second route between these places", " and ".join(sorted(ends)))
        seen.add(ends)
    where = {_text(item, "identity"): _text(item, "place") for _, item in _items(data, ("thrusters",))}
    for loc, bank in _items(data, ("bank",)):
        for path, unit in _texts(data, (*loc, "feeds")):
            start, end = _text(bank, "place"), where.get(unit, "")
            if start and end and start != end and frozenset((start, end)) not in seen:
                message = f"no route from this bank in the {start} to the {unit} thruster in the {end}"
                yield Clash(
                    path, message, allowed=f"a route under layout.routes between [{start}, {end}] with its one-way length"
                )


def _trunk(data: Mapping[str, Any], names: _Names) -> Iterator[Clash]:
    """The trunk passes each stop once."""
    seen: set[str] = set()
    for loc, item in _items(data, ("network", "trunk")):
        stop = _text(item, "stop")
        if stop and stop in seen:
            yield Clash((*loc, "stop"), "the trunk passes this stop already; a line has two ends and no ring", stop)
        seen.add(stop)


RULES = (_twice, _unknown, _lanes, _feeds, _routes, _trunk)
