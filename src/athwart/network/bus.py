"""The bus itself: profiles with their limits, length by bit rate, terminators, what a meter reads, load."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from athwart.explain import formula
from athwart.sources import source
from athwart.units.names import BitPerSecond, Metre, Ohm, PerSecond, Ratio, Second, Volt

TERMINATOR: Ohm = 120.0
NODE_RESISTANCE: Ohm = 30_000.0  # between the lines of one node without terminator, 10 to 50 kΩ
RECESSIVE: Volt = 2.5
SWING: Volt = 1.0  # of each line when dominant
DOMINANT_SHARE: Ratio = 0.5  # of the busy time
FRAME_BITS: Ratio = 131.0  # 8 bytes, 29-bit identifier, no stuffing
FRAME_BITS_STUFFED: Ratio = 157.0  # with the most stuffing


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit of a profile and where it comes from; ``value`` None: the profile sets none that we know."""

    value: float | None
    source: str

    def allows(self, value: float) -> bool:
        """Whether a value stays within; with no limit known everything does."""
        return self.value is None or value <= self.value * (1.0 + 1e-9)

    @property
    def verified(self) -> bool:
        """Whether somebody saw the figure in its source."""
        return source(self.source).verified


@dataclass(frozen=True, slots=True)
class Profile:
    """Rules a control line keeps; one profile a line, named on paper."""

    name: str
    bit_rate: BitPerSecond
    trunk: Limit  # m, longest trunk
    drop: Limit  # m, longest single drop
    drops: Limit  # m, all drops together
    nodes: Limit  # count
    node_current: Limit  # A, most one node takes from the bus
    load_share: Limit  # 1, average bus load
    note: str = ""


#: bit/s -> trunk, one drop, all drops: the shorter figures where three tables differ by a tenth; a fourth has 200 m at 250 kbit/s
FIELDBUS_TABLE: Mapping[float, tuple[Metre, Metre, Metre]] = MappingProxyType(
    {
        1_000_000.0: (20.0, 1.0, 5.0),
        500_000.0: (100.0, 5.0, 25.0),
        250_000.0: (250.0, 10.0, 50.0),
        125_000.0: (500.0, 20.0, 100.0),
        50_000.0: (1000.0, 50.0, 250.0),
    }
)
_NONE = Limit(None, "own-judgement")

PROFILES: Mapping[str, Profile] = MappingProxyType(
    {
        profile.name: profile
        for profile in (
            Profile(
                "IEC 61162-3",
                250_000.0,
                Limit(100.0, "marine-network-help"),
                Limit(6.0, "marine-network-tool"),
                Limit(78.0, "marine-network-tool"),
                Limit(50.0, "marine-network-tool"),
                Limit(1.0, "marine-network-tool"),
                _NONE,
                "100 m with the thin cable; 200 to 250 m with the heavy one are from memory",
            ),
            Profile(
                "J1939-11",
                250_000.0,
                Limit(40.0, "engine-installation-manual"),
                Limit(1.0, "engine-installation-manual"),
                _NONE,
                Limit(30.0, "vehicle-bus-memory"),
                _NONE,
                Limit(0.40, "engine-installation-manual"),
                "shielded pair",
            ),
            Profile(
                "J1939-15",
                250_000.0,
                Limit(40.0, "vehicle-bus-memory"),
                Limit(3.0, "vehicle-bus-memory"),
                _NONE,
                Limit(10.0, "vehicle-bus-memory"),
                _NONE,
                _NONE,
                "unshielded pair",
            ),
            Profile(
                "ISO 11783-2",
                250_000.0,
                Limit(40.0, "vehicle-bus-memory"),
                Limit(1.0, "vehicle-bus-memory"),
                _NONE,
                Limit(30.0, "vehicle-bus-memory"),
                _NONE,
                _NONE,
                "twisted quad with powered terminating-bias circuits: two plain resistors are not enough",
            ),
        )
    }
)
"""All but plain CAN, whose lengths follow from the bit rate: ask :func:`profile`."""
PLAIN = "plain CAN"
PLAIN_NODES = 64.0


def profile(name: str, bit_rate: BitPerSecond = 250_000.0) -> Profile:
    """The profile of this name. The bit rate counts for plain CAN only: the others fix it.

    >>> profile("IEC 61162-3").drop.value, profile("plain CAN", 125_000.0).trunk.value
    (6.0, 500.0)
    """
    if name == PLAIN:
        trunk, drop, drops = (Limit(value, "fieldbus-length-tables") for value in fieldbus_lengths(bit_rate))
        nodes = Limit(PLAIN_NODES, "vehicle-bus-memory")
        return Profile(PLAIN, bit_rate, trunk, drop, drops, nodes, _NONE, _NONE, "lengths by bit rate; nodes by transceiver")
    if name not in PROFILES:
        raise ValueError(f"no bus profile {name!r}; there are {', '.join(PROFILES)} and {PLAIN}")
    return PROFILES[name]


def fieldbus_lengths(bit_rate: BitPerSecond) -> tuple[Metre, Metre, Metre]:
    """Longest trunk, single drop and all drops at a bit rate; only rates of the table, nothing is put between."""
    return FIELDBUS_TABLE[_rate(bit_rate)]


def _rate(bit_rate: float) -> float:
    for rate in FIELDBUS_TABLE:
        if abs(bit_rate - rate) <= 1e-6 * rate:
            return rate
    known = ", ".join(f"{rate / 1000.0:g}" for rate in FIELDBUS_TABLE)
    raise ValueError(f"no bus lengths known at {bit_rate / 1000.0:g} kbit/s; there are {known} kbit/s")


# ---- terminators


@formula(
    "R_HL",
    "Ω",
    "1 / (terminators / terminator + nodes / node_resistance)",
    source="bus-resistance",
    valid="power off, lines whole, all terminators alike",
)
def bus_resistance(terminators: int, nodes: int = 0, terminator: Ohm = TERMINATOR, node_resistance: Ohm = NODE_RESISTANCE) -> Ohm:
    """Resistance a meter finds between the two signal lines, power off.

    Parameters
    ----------
    terminators : How many, in parallel.
    nodes : How many, each a high resistance across the lines.
    terminator : Resistance of one. [Ω]
    node_resistance : Of one node, 10 to 50 kΩ. [Ω]

    Examples
    --------
    >>> bus_resistance(2), round(bus_resistance(2, 10), 2), bus_resistance(1)
    (60.0, 58.82, 120.0)
    """
    if terminators <= 0 and nodes <= 0:
        raise ValueError("neither terminator nor node between the lines: an open circuit has no resistance to state")
    return 1.0 / (terminators / terminator + nodes / node_resistance)


@dataclass(frozen=True, slots=True)
class Reading:
    """A band of what a meter shows, and what it means."""

    low: float
    high: float
    means: str
    then: str
    good: bool = False


RESISTANCE_READINGS: tuple[Reading, ...] = (
    Reading(
        0.0,
        5.0,
        "the two signal lines touch",
        "unplug drop after drop until it rises; look for water in a plug",
    ),
    Reading(27.0, 33.0, "four terminators", "look for nodes with one built in"),
    Reading(36.0, 44.0, "three terminators", "look for a node with one built in, or an extra plug on the trunk"),
    Reading(54.0, 66.0, "both terminators are there", "read at the other end too: the same", good=True),
    Reading(
        108.0,
        132.0,
        "one terminator is missing, or the trunk is broken between the meter and one end",
        "read at the other end too",
    ),
    Reading(
        1000.0,
        float("inf"),
        "no terminator, or the meter is not on the trunk",
        "fit one at each end of the trunk",
    ),
)
"""Ohms between the signal lines, supply and all nodes switched off."""

BETWEEN_BANDS = Reading(
    float("nan"),
    float("nan"),
    "no whole number of terminators",
    "a wrong resistor, a poor joint, or a node that loads the lines: unplug drop after drop",
)


def resistance_reading(resistance: Ohm) -> Reading:
    """What a resistance between the lines means, power off.

    >>> resistance_reading(59.0).means
    'both terminators are there'
    """
    if not resistance >= 0.0:
        raise ValueError(f"{resistance!r} ohm: a resistance is nought or more; with power on the meter reads nonsense")
    for reading in RESISTANCE_READINGS:
        if reading.low <= resistance <= reading.high:
            return reading
    return BETWEEN_BANDS


# ---- volts


@formula(
    "U_H", "V", "RECESSIVE + SWING * DOMINANT_SHARE * bus_load", source="bus-mean-volts", valid="a meter that shows the mean"
)
def mean_high(bus_load: Ratio) -> Volt:
    """Mean volts of the H line to the node's negative.

    Parameters
    ----------
    bus_load : Share of the time that frames take. [1]

    Examples
    --------
    >>> mean_high(0.30)
    2.65
    """
    return RECESSIVE + SWING * DOMINANT_SHARE * bus_load


@formula(
    "U_L", "V", "RECESSIVE - SWING * DOMINANT_SHARE * bus_load", source="bus-mean-volts", valid="a meter that shows the mean"
)
def mean_low(bus_load: Ratio) -> Volt:
    """Mean volts of the L line to the node's negative.

    Parameters
    ----------
    bus_load : Share of the time that frames take. [1]
    """
    return RECESSIVE - SWING * DOMINANT_SHARE * bus_load


@formula("ΔU", "V", "(high + low) / 2 - RECESSIVE", source="bus-mean-volts", valid="neither line shorted")
def shift_from_lines(high: Volt, low: Volt) -> Volt:
    """Shift between this node's negative and the talkers', from the mean volts of both lines.

    Parameters
    ----------
    high : H line to this node's negative. [V]
    low : L line to this node's negative. [V]
    """
    return (high + low) / 2.0 - RECESSIVE


def volts_reading(high: Volt, low: Volt, supply: Volt) -> Reading:
    """What mean volts of the two lines mean, power on, to the network negative at that node.

    >>> volts_reading(2.65, 2.35, 12.0).means
    'the bus works'
    """
    for line, volts in (("H", high), ("L", low)):
        if volts > 0.8 * supply:
            return Reading(volts, volts, f"the {line} line touches the supply", "unplug drop after drop until it falls")
    if max(high, low) < 0.5:
        return Reading(low, high, "no node is powered, or the lines touch the negative", "read the supply at this tee first")
    if low - high > 0.05:
        return Reading(low, high, "the pair is swapped", "change H and L at the last plug that was wired")
    if abs(shift := shift_from_lines(high, low)) > 0.5:
        words = f"the negatives lie {shift:+.1f} V apart"
        return Reading(low, high, words, "look for a shared or poor negative; read again with the thruster running")
    if high - low < 0.05:
        return Reading(low, high, "nobody talks", "switch the nodes on; a node alone on the bus does not talk for long")
    if 2.5 <= high <= 3.5 and 1.5 <= low <= 2.5:
        return Reading(low, high, "the bus works", "write both down for the next search", good=True)
    return Reading(low, high, "outside the usual bands", "read at the next tee; the worst place is near the fault")


# ---- load


@formula("t", "s", "bits / bit_rate", source="own-arithmetic", valid="8 bytes and a 29-bit identifier: 131 to 157 bits")
def frame_time(bit_rate: BitPerSecond, bits: Ratio = FRAME_BITS_STUFFED) -> Second:
    """Time a frame takes on the bus.

    Parameters
    ----------
    bit_rate : Of the bus. [bit/s]
    bits : Of the frame with the gap after it. [1]

    Examples
    --------
    >>> frame_time(250_000.0, 131.0), frame_time(250_000.0, 157.0)
    (0.000524, 0.000628)
    """
    return bits / bit_rate


@formula("b", "1", "frames * frame_time(bit_rate, bits)", source="own-arithmetic", valid="well below 1")
def bus_load(frames: PerSecond, bit_rate: BitPerSecond, bits: Ratio = FRAME_BITS_STUFFED) -> Ratio:
    """Share of the time that frames take.

    Parameters
    ----------
    frames : Frames a second, all nodes. [1/s]
    bit_rate : Of the bus. [bit/s]
    bits : Of one frame. [1]

    Examples
    --------
    >>> round(bus_load(100.0, 250_000.0), 4)
    0.0628
    """
    return frames * frame_time(bit_rate, bits)
