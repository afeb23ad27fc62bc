"""What each kind of drive and of housing can bear: facts of the trade, as data. Rated minutes of one unit stand in its own row.

Nothing here is a limit of a particular unit. The rules that refuse a unit read its row; these words say why.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from athwart.units.names import Kelvin, Ratio, Second

Drive = Literal["brushed", "brushless", "hydraulic"]
Housing = Literal["tunnel", "retractable", "external", "rim"]
AtLimit = Literal["trips", "tapers", "continuous"]
SOURCE = "drive-duty-practice"


@dataclass(frozen=True, slots=True)
class DriveFacts:
    """A kind of drive: usual time at full thrust, what happens then, and what it asks of the boat."""

    usual_time: tuple[Second, Second] | None
    at_limit: AtLimit
    needs_pauses: bool
    sparks: bool
    proportional: bool
    efficiency: tuple[Ratio, Ratio]
    asks: str
    source: str = SOURCE


DRIVES: Mapping[Drive, DriveFacts] = {
    "brushed": DriveFacts(
        (120.0, 180.0), "trips", True, True, False, (0.70, 0.85),
        "short bursts with pauses; brushes within reach; no petrol vapour unless ignition-protected",
    ),
    "brushless": DriveFacts(
        (300.0, 600.0), "tapers", False, False, True, (0.85, 0.92),
        "its controller cooled; volts that stay above its fold-back",
    ),
    "hydraulic": DriveFacts(
        None, "continuous", False, False, True, (0.70, 0.80),
        "the engine running with a take-off, hoses the length of the boat, oil that can shed its heat",
    ),
}  # fmt: skip
"""Efficiencies from memory: motor for the electric drives, pump shaft to rotor shaft for the hydraulic one."""


@dataclass(frozen=True, slots=True)
class HousingFacts:
    """A kind of housing: what it wants and what it forbids."""

    wants_tunnel: bool
    loses_under_way: bool
    takes_the_ground: bool
    limits_speed: bool
    asks: str
    source: str = SOURCE


HOUSINGS: Mapping[Housing, HousingFacts] = {
    "tunnel": HousingFacts(True, True, True, False, "hull deep enough for the cover, entries rounded"),
    "rim": HousingFacts(True, True, True, False, "a short tunnel its ring fits into"),
    "retractable": HousingFacts(
        False, False, True, True, "a box above the waterline, interlocks, raising by hand if power fails"
    ),
    "external": HousingFacts(False, False, False, True, "a hull that never takes the ground; moderate speed"),
}
"""``takes_the_ground``: whether a boat that dries out may have it (a retractable one raised)."""

BRUSHED_TRIP: tuple[Kelvin, Kelvin] = (373.15, 423.15)
"""Where thermal trips at brushes or field usually open (common practice, from memory)."""
BRUSHED_RESET: tuple[Second, Second] = (600.0, 1800.0)


def bears(drive: Drive, hold: Second) -> bool:
    """Whether a kind of drive usually bears full thrust for so long without a stop.

    >>> bears("brushed", 240.0), bears("hydraulic", 1800.0)
    (False, True)
    """
    usual = DRIVES[drive].usual_time
    return usual is None or hold <= usual[1]


def suited(hold: Second, *, petrol_vapour: bool = False, proportional: bool = False) -> tuple[Drive, ...]:
    """Kinds of drive whose nature suits a duty; a row may still say otherwise (an ignition-protected brushed motor).

    >>> suited(240.0)
    ('brushless', 'hydraulic')
    """
    return tuple(
        drive
        for drive, facts in DRIVES.items()
        if bears(drive, hold) and not (petrol_vapour and facts.sparks) and (facts.proportional or not proportional)
    )
