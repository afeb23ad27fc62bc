"""Petrol vapour: what parts a space from it, and which parts of a thruster's chain can light it.

The whole chain is judged, not the motor alone: a protected motor behind an open contactor in the same locker is no protection.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from athwart.explain import formula
from athwart.units.names import Metre

OPEN_DISTANCE: Metre = 0.6096  # two feet of space open to the atmosphere
BULKHEAD_WATER: Metre = 0.3048


@dataclass(frozen=True, slots=True)
class PartKind:
    """A kind of part and why it can light vapour, as long as it is not ignition-protected."""

    kind: str
    source: bool
    why: str


PARTS: Mapping[str, PartKind] = MappingProxyType(
    {
        part.kind: part
        for part in (
            PartKind("brushed motor", True, "brushes spark at every commutation"),
            PartKind("brushless motor", True, "no brushes, but hot windings and terminals; only a tested case counts as safe"),
            PartKind("hydraulic motor", False, "no electricity at the unit; its valve coils are parts of their own"),
            PartKind("drive", True, "power electronics and plugs under load"),
            PartKind("contactor", True, "contacts draw an arc"),
            PartKind("main switch", True, "contacts draw an arc when opened under load"),
            PartKind("fuse", True, "a fuse that opens in the open throws an arc"),
            PartKind("battery joint", True, "a loose lug sparks, and a charging battery gives hydrogen besides"),
            PartKind("charger", True, "relays, fan and plugs"),
            PartKind("panel", True, "switch contacts"),
            PartKind("retract gear", True, "a motor and limit switches of its own"),
            PartKind("cable", False, "none along its run; its ends are joints"),
        )
    }
)


def part_kind(kind: str) -> PartKind:
    """A kind of part of the chain."""
    if kind not in PARTS:
        raise ValueError(f"no kind of part {kind!r}; there are {', '.join(PARTS)}")
    return PARTS[kind]


@dataclass(frozen=True, slots=True)
class ChainPart:
    """A part as fitted: where it is and whether it is ignition-protected (None: not stated, which does not count)."""

    tag: str
    kind: str
    place: str
    protected: bool | None


def ignition_sources(chain: Iterable[ChainPart], vapour_places: frozenset[str]) -> tuple[ChainPart, ...]:
    """The parts of a chain that may light vapour where vapour may be.

    >>> chain = [ChainPart("M1.1", "brushed motor", "locker", True), ChainPart("K1.1", "contactor", "locker", None)]
    >>> [part.tag for part in ignition_sources(chain, frozenset({"locker"}))]
    ['K1.1']
    """
    return tuple(
        part for part in chain if part.place in vapour_places and part_kind(part.kind).source and part.protected is not True
    )


@dataclass(frozen=True, slots=True)
class Separation:
    """What lies between an electrical part and the petrol: bulkhead, deck or enclosure, open air."""

    tight_bulkhead: bool = False
    deck_between: bool = False
    part_above: bool = True
    liquid_and_vapour_kept_out: bool = False
    open_distance: Metre | None = None


def is_isolated(separation: Separation) -> bool:
    """Whether a part counts as isolated from petrol and need not be protected (33 CFR 183.410).

    >>> is_isolated(Separation(open_distance=0.7)), is_isolated(Separation(deck_between=True, part_above=False))
    (True, False)
    """
    if separation.tight_bulkhead:
        return True
    if separation.deck_between and (separation.part_above or separation.liquid_and_vapour_kept_out):
        return True
    return separation.open_distance is not None and separation.open_distance >= OPEN_DISTANCE


@formula("h", "m", "min(BULKHEAD_WATER, height / 3)", source="33-cfr-183-410", valid="water test of an isolating bulkhead")
def bulkhead_water(height: Metre) -> Metre:
    """Height of water an isolating bulkhead must hold, seeping at most a quarter of a fluid ounce an hour.

    The smaller of twelve inches and a third of its height; that it is the smaller is from memory.

    Parameters
    ----------
    height : Of the bulkhead at its highest. [m]

    Examples
    --------
    >>> round(bulkhead_water(0.6), 3), round(bulkhead_water(1.5), 4)
    (0.2, 0.3048)
    """
    return min(BULKHEAD_WATER, height / 3.0)
