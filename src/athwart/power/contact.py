"""Small resistances in the path: joints, lugs, links, switches, contactors; and the volts a contactor's coil needs.

Each default is a triple (least, usual, most) with its status. For anything unknown ask for millivolts at rated current and
divide.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from athwart.explain import formula
from athwart.power.conductor import resistance_factor
from athwart.units.names import Ampere, Kelvin, Ohm, Ratio, Second, Volt


@dataclass(frozen=True, slots=True)
class Piece:
    """Default resistance of a piece of the path, in ohms."""

    name: str
    least: Ohm
    usual: Ohm
    most: Ohm
    source: str


JOINTS: Mapping[str, Piece] = {
    "bolted": Piece("bolted copper joint", 5e-6, 10e-6, 15e-6, "joint-resistance"),
    "lug": Piece("crimped lug on a stud", 20e-6, 40e-6, 60e-6, "contact-defaults"),
    "post": Piece("battery post with its clamp", 50e-6, 100e-6, 200e-6, "contact-defaults"),
    "link": Piece("link between blocks, 0.3 m of 70 mm² with two lugs", 140e-6, 170e-6, 200e-6, "contact-defaults"),
    "switch": Piece("battery switch of the 300 A class", 50e-6, 120e-6, 200e-6, "contact-defaults"),
    "contactor": Piece("contactor of 300 to 400 A", 100e-6, 200e-6, 300e-6, "contact-defaults"),
    "fuse": Piece("bolt-down or strip fuse of 250 to 500 A, warm", 150e-6, 270e-6, 520e-6, "contact-defaults"),
    "cartridge fuse": Piece("class T fuse of 300 to 400 A", 150e-6, 175e-6, 200e-6, "contact-defaults"),
}

BAD_POST: Ohm = 500e-6
FUSE_HOT_OVER_COLD: Ratio = 1.5
STRAPS: tuple[Ohm, ...] = (19e-6, 31e-6, 48e-6)  # battery intercell straps of 0.3 m, by section

SWITCH_CONTINUOUS: Second = 3600.0  # a battery switch's continuous rating is one hour
SWITCH_INTERMITTENT: Second = 300.0  # its intermittent one five minutes
SWITCH_TERMINAL_RISE: Kelvin = 100.0
SWITCH_HOUSING_RISE: Kelvin = 65.0

JOINT_SPREAD: Ratio = 0.10
JOINT_SPREAD_LEAST: Ohm = 5e-6
JOINT_GROWTH: Ratio = 0.20
JOINT_OUTLIER: Ratio = 0.50

CoilKind = Literal["plain", "electronic"]
#: kind -> (pull-in, drop-out least, drop-out most), shares of nominal volts with a coil at 20 °C
COILS: Mapping[CoilKind, tuple[Ratio, Ratio, Ratio]] = {"plain": (0.75, 0.05, 0.30), "electronic": (0.75, 0.50, 0.60)}
COIL_SOURCES: Mapping[CoilKind, str] = {"plain": "coil-volts", "electronic": "coil-volts-electronic"}


@formula("R", "Ω", "drop / current", source="own-arithmetic")
def resistance_from_drop(drop: Volt, current: Ampere) -> Ohm:
    """Resistance of a piece from the volts lost over it at a current.

    Parameters
    ----------
    drop : Volts over the piece. [V]
    current : Through it. [A]
    """
    return drop / current


@formula(
    "R",
    "Ω",
    "average + max(JOINT_SPREAD * average, JOINT_SPREAD_LEAST)",
    source="battery-joint-rule",
    valid="joints of one kind, new",
)
def new_joint_limit(average: Ohm) -> Ohm:
    """Above this a new battery joint is made again.

    Parameters
    ----------
    average : Of the similar joints of the battery. [Ω]

    Examples
    --------
    >>> round(new_joint_limit(30e-6) * 1e6, 3), round(new_joint_limit(80e-6) * 1e6, 3)
    (35.0, 88.0)
    """
    return average + max(JOINT_SPREAD * average, JOINT_SPREAD_LEAST)


@formula("R", "Ω", "first_reading * (1 + JOINT_GROWTH)", source="battery-joint-rule", valid="the same joint, later")
def aged_joint_limit(first_reading: Ohm) -> Ohm:
    """Above this a joint has grown too much since its first reading.

    Parameters
    ----------
    first_reading : Of this joint when new. [Ω]
    """
    return first_reading * (1.0 + JOINT_GROWTH)


@formula("R", "Ω", "lowest * (1 + JOINT_OUTLIER)", source="joint-resistance", valid="similar joints measured together")
def suspect_joint_limit(lowest: Ohm) -> Ohm:
    """Above this a joint is looked into: half as much again as the best similar one.

    Parameters
    ----------
    lowest : The best of the similar joints. [Ω]
    """
    return lowest * (1.0 + JOINT_OUTLIER)


@dataclass(frozen=True, slots=True)
class CoilVolts:
    """Volts at which a contactor closes for certain, and between which it lets go."""

    pull_in: Volt
    drop_out_least: Volt
    drop_out_most: Volt
    source: str

    def holds(self, volts: Volt) -> bool:
        """Whether a closed contactor surely stays closed at these volts."""
        return volts > self.drop_out_most

    def closes(self, volts: Volt) -> bool:
        """Whether an open contactor surely closes at these volts."""
        return volts >= self.pull_in


def coil_volts(nominal: Volt, kind: CoilKind = "plain", coil_temperature: Kelvin = 293.15) -> CoilVolts:
    """Coil volts of a contactor; a plain coil's rise with its copper's temperature, an electronic one's do not.

    The wide band of a plain coil's drop-out is the makers' specification, 5 to 30 % of nominal, most often near 10 %.
    """
    if kind not in COILS:
        raise ValueError(f"no coil {kind!r}; there are {' and '.join(COILS)}")
    warm = resistance_factor(coil_temperature) if kind == "plain" else 1.0
    pull, low, high = COILS[kind]
    return CoilVolts(pull * nominal * warm, low * nominal * warm, high * nominal * warm, COIL_SOURCES[kind])


def switch_rating(continuous: Ampere, five_minutes: Ampere, run_time: Second) -> Ampere | None:
    """Which rating of a battery switch a run may use: the five-minute one up to five minutes, else the continuous one.

    None beyond the hour that the continuous rating itself covers.
    """
    if run_time <= SWITCH_INTERMITTENT:
        return five_minutes
    return continuous if run_time <= SWITCH_CONTINUOUS else None
