"""Supply of the control line: load units, volts lost in the trunk, volts at each node.

The nodes' current comes through the thin supply pair of the trunk. A load unit is 50 mA, rounded up a node. The lumped drop
is the trade's quick check; :func:`ladder` takes each node's current at its own tee, with its drop cable and the lead of the
feed, and gives the volts each node really has. Currents are constant: a node that takes constant power draws more as volts fall.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from athwart.explain import formula
from athwart.units.names import Ampere, Metre, Ohm, OhmMetre, OhmPerMetre, Ratio, SquareMetre, Volt

LOAD_UNIT: Ampere = 0.050
RHO_CU: OhmMetre = 1.7241e-8
PLAUSIBLE: Ratio = 0.8  # of solid copper's resistance: below it a stated figure is a slip
LEAST_NODE_VOLTS: Volt = 9.0
MOST_NODE_VOLTS: Volt = 16.0
FEED_FUSE_THIN: Ampere = 3.0

#: kind of source -> volts the trunk may lose; the node's 9 V decide in the end
ALLOWED_DROP: Mapping[str, Volt] = MappingProxyType({"12 V battery": 1.5, "regulated 13.8 V": 3.0, "instrument maker": 1.67})


@formula("LEN", "1", "ceil(current / LOAD_UNIT - 1e-9)", source="marine-network-tool", valid="50 mA a unit, rounded up a node")
def load_units(current: Ampere) -> Ratio:
    """Load equivalents of a node.

    Parameters
    ----------
    current : It takes from the bus. [A]

    Examples
    --------
    151 mA is four units, not three:

    >>> load_units(0.151), load_units(0.050)
    (4, 1)
    """
    units = current / LOAD_UNIT - 1e-9
    return int(units) + (units > int(units))


@formula("I", "A", "LOAD_UNIT * units", source="marine-network-tool")
def units_current(units: Ratio) -> Ampere:
    """Current of a number of load units.

    Parameters
    ----------
    units : Load units. [1]
    """
    return LOAD_UNIT * units


@formula(
    "ΔU", "V", "2 * LOAD_UNIT * units * resistance_per_metre * length", source="marine-network-help", valid="all load at one end"
)
def lumped_drop(units: Ratio, length: Metre, resistance_per_metre: OhmPerMetre) -> Volt:
    """Volts lost with all load units at the far end of the trunk.

    Parameters
    ----------
    units : Load units, all nodes. [1]
    length : From the feed to the far end. [m]
    resistance_per_metre : Of one conductor. [Ω/m]

    Examples
    --------
    >>> round(lumped_drop(20, 40.0, 0.053), 2)
    4.24
    """
    return 2.0 * LOAD_UNIT * units * resistance_per_metre * length


@formula(
    "ΔU",
    "V",
    "lumped_drop(units, length, resistance_per_metre) / 2",
    source="own-arithmetic",
    valid="load evenly along the trunk",
)
def even_drop(units: Ratio, length: Metre, resistance_per_metre: OhmPerMetre) -> Volt:
    """Volts lost to the far end with the load spread evenly along the trunk.

    Parameters
    ----------
    units : Load units, all nodes. [1]
    length : From the feed to the far end. [m]
    resistance_per_metre : Of one conductor. [Ω/m]
    """
    return lumped_drop(units, length, resistance_per_metre) / 2.0


@formula("ΔU", "V", "2 * current * resistance_per_metre * length", source="own-arithmetic", valid="plus and minus alike")
def pair_drop(current: Ampere, length: Metre, resistance_per_metre: OhmPerMetre) -> Volt:
    """Volts lost in a piece of the supply pair, there and back.

    Parameters
    ----------
    current : In the piece. [A]
    length : Of the piece. [m]
    resistance_per_metre : Of one conductor. [Ω/m]

    Examples
    --------
    A leg of 10.6 ft, 22 AWG, 350 mA:

    >>> round(pair_drop(0.35, 3.23, 0.053), 2)
    0.12
    """
    return 2.0 * current * resistance_per_metre * length


@formula("R′", "Ω/m", "RHO_CU / area", source="iec-60287-1-1", valid="solid copper at 20 °C")
def copper_resistance(area: SquareMetre) -> OhmPerMetre:
    """Resistance of one supply conductor per metre from its copper.

    Parameters
    ----------
    area : Of one conductor. [m²]

    Examples
    --------
    22 and 16 AWG:

    >>> round(copper_resistance(0.3255e-6), 3), round(copper_resistance(1.3087e-6), 5)
    (0.053, 0.01317)
    """
    return RHO_CU / area


@formula("R′", "Ω/m", "PLAUSIBLE * copper_resistance(area)", source="own-judgement")
def least_plausible_resistance(area: SquareMetre) -> OhmPerMetre:
    """Resistance per metre below which a stated figure cannot be right for copper of this size.

    Parameters
    ----------
    area : Of one conductor. [m²]
    """
    return PLAUSIBLE * copper_resistance(area)


def checked_resistance(resistance_per_metre: OhmPerMetre, area: SquareMetre) -> OhmPerMetre:
    """The stated figure, refused when it lies more than a fifth below copper of this size.

    One printed guide has 0.0057 Ω/m for 22 AWG, ten times too little: such a slip hides a dead node.

    >>> checked_resistance(0.053, 0.3255e-6)
    0.053
    """
    if resistance_per_metre < (least := least_plausible_resistance(area)):
        raise ValueError(
            f"{resistance_per_metre * 1000.0:.4g} mΩ/m cannot be copper of {area * 1e6:.3g} mm²: "
            f"solid copper has {copper_resistance(area) * 1000.0:.4g} mΩ/m, allowed from {least * 1000.0:.4g} mΩ/m"
        )
    return resistance_per_metre


# ---- the ladder


@dataclass(frozen=True, slots=True)
class Tap:
    """A node where it draws from the trunk."""

    name: str
    position: Metre  # along the trunk
    current: Ampere
    drop_length: Metre = 0.0


@dataclass(frozen=True, slots=True)
class NodeVolts:
    """A node with what reaches it."""

    name: str
    position: Metre
    current: Ampere
    tee_volts: Volt
    volts: Volt

    def works(self, least: Volt = LEAST_NODE_VOLTS, most: Volt = MOST_NODE_VOLTS) -> bool:
        """Whether the node has volts to work with."""
        return least <= self.volts <= most


@dataclass(frozen=True, slots=True)
class Ladder:
    """The supply, solved: nodes in the order given."""

    source_volts: Volt
    feed_volts: Volt  # at the feed's tee
    current: Ampere  # through the feed
    toward_start: Ampere  # in the trunk beside the feed, towards the first terminator
    toward_end: Ampere
    nodes: tuple[NodeVolts, ...]

    @property
    def lowest(self) -> NodeVolts:
        """The node with the least volts."""
        return min(self.nodes, key=lambda node: node.volts)

    @property
    def most_in_trunk(self) -> Ampere:
        """Largest current in any piece of the trunk."""
        return max(self.toward_start, self.toward_end)


def ladder(
    taps: Sequence[Tap],
    feed_position: Metre,
    resistance_per_metre: OhmPerMetre,
    source_volts: Volt,
    feed_resistance: Ohm = 0.0,
    drop_resistance_per_metre: OhmPerMetre | None = None,
) -> Ladder:
    """Volts at each node, tee by tee outwards from the feed.

    ``feed_resistance`` is the whole loop from source to feed tee (lead there and back, fuse, connectors); every node pays it
    on the current of all. Drop cables count as the trunk's unless ``drop_resistance_per_metre`` says otherwise.

    >>> taps = [Tap("bow", 0.0, 0.15, 0.5), Tap("helm", 8.0, 0.10, 1.0), Tap("stern", 14.0, 0.15, 0.5)]
    >>> [round(node.volts, 3) for node in ladder(taps, 8.0, 0.053, 12.0).nodes]
    [11.865, 11.989, 11.897]
    """
    if not taps:
        raise ValueError("a control line without nodes has no volts to state")
    for tap in taps:
        if tap.current < 0.0 or tap.drop_length < 0.0:
            raise ValueError(f"{tap.name}: current {tap.current:g} A and drop {tap.drop_length:g} m must be nought or more")
    if resistance_per_metre < 0.0 or feed_resistance < 0.0:
        raise ValueError("resistances are nought or more")
    total = sum(tap.current for tap in taps)
    at_feed = source_volts - total * feed_resistance
    before = [tap for tap in taps if tap.position <= feed_position]
    after = [tap for tap in taps if tap.position > feed_position]
    tees = _outwards(before, feed_position, resistance_per_metre, at_feed)
    tees |= _outwards(after, feed_position, resistance_per_metre, at_feed)
    drop = resistance_per_metre if drop_resistance_per_metre is None else drop_resistance_per_metre
    nodes = tuple(
        NodeVolts(
            tap.name,
            tap.position,
            tap.current,
            tees[tap.position],
            tees[tap.position] - pair_drop(tap.current, tap.drop_length, drop),
        )
        for tap in taps
    )
    toward_start = sum(tap.current for tap in before if tap.position < feed_position)
    return Ladder(source_volts, at_feed, total, toward_start, sum(tap.current for tap in after), nodes)


def _outwards(taps: Sequence[Tap], feed_position: float, resistance_per_metre: float, at_feed: float) -> dict[float, float]:
    """Volts at each tee of one side of the feed, by position."""
    volts, here = at_feed, feed_position
    beyond = sum(tap.current for tap in taps)
    found: dict[float, float] = {}
    for position in sorted({tap.position for tap in taps}, key=lambda place: abs(place - feed_position)):
        volts -= pair_drop(beyond, abs(position - here), resistance_per_metre)
        found[position] = volts
        beyond -= sum(tap.current for tap in taps if tap.position == position)
        here = position
    return found


# ---- where the feed comes from


@dataclass(frozen=True, slots=True)
class FeedKind:
    """A source for the control line, its place in the order of preference and how grave its use is."""

    kind: str
    rank: int
    severity: str  # "", "note", "caution", "stop"
    says: str


FEED_KINDS: Mapping[str, FeedKind] = MappingProxyType(
    {
        feed.kind: feed
        for feed in (
            FeedKind("ship bank", 1, "", "the ship's 12 V bank, on a fuse of its own"),
            FeedKind("converter", 2, "", "a converter over the whole thruster bank, so every block gives the same"),
            FeedKind(
                "lower block", 3, "note", "the lower block of the string: within a small daily share, and with an equaliser"
            ),
            FeedKind("engine start", 4, "caution", "an engine-start battery: it sags at every start, and standby drains it"),
            FeedKind("upper block", 5, "stop", "the upper block of a string: its negative lies a whole block above the ship's"),
        )
    }
)


def feed_kind(kind: str) -> FeedKind:
    """A feed by its name."""
    if kind not in FEED_KINDS:
        raise ValueError(f"no feed {kind!r}; there are {', '.join(FEED_KINDS)}")
    return FEED_KINDS[kind]
