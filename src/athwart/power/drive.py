"""Brushless drives: constant power behind a source, limits of current and of low volts, proportional command.

A drive holds its speed, so its power, whatever the volts: the lower the volts the more current. Behind a resistance that has
two answers or none: the high-voltage one is meant, and beyond a quarter of the source's short-circuit power there is no answer
unless the drive folds back.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, sqrt
from typing import Literal

from athwart.errors import NotComputed
from athwart.explain import formula
from athwart.power.motor import Running
from athwart.units.names import Ampere, Ohm, Ratio, Volt, Watt

MOTOR_EFFICIENCY: Ratio = 0.885
DRIVE_EFFICIENCY: Ratio = 0.965
WARN_SHARE: Ratio = 10.5 / 12.0
CUT_SHARE: Ratio = 9.0 / 12.0

Command = Literal["speed", "thrust"]


@dataclass(frozen=True, slots=True)
class Drive:
    """A brushless drive at its direct-current terminals. ``warn_volts`` and ``cut_volts`` bound the linear fold-back."""

    rated_power: Watt
    current_limit: Ampere | None = None
    warn_volts: Volt | None = None
    cut_volts: Volt | None = None
    efficiency: Ratio = MOTOR_EFFICIENCY * DRIVE_EFFICIENCY
    assumed: tuple[str, ...] = ()


def drive(
    rated_volts: Volt,
    rated_current: Ampere,
    current_limit: Ampere | None = None,
    fold_back_volts: Volt | None = None,
    cut_out_volts: Volt | None = None,
    nominal_volts: Volt | None = None,
) -> Drive:
    """A drive from its rated point; unknown fold-back volts take the usual share of the nominal ones (``assumed``)."""
    nominal = rated_volts if nominal_volts is None else nominal_volts
    given = {"fold-back volts": fold_back_volts, "cut-out volts": cut_out_volts}
    warn = WARN_SHARE * nominal if fold_back_volts is None else fold_back_volts
    cut = min(CUT_SHARE * nominal, 0.9 * warn) if cut_out_volts is None else cut_out_volts
    if cut >= warn:
        raise ValueError(f"cut-out at {cut:g} V does not lie below fold-back from {warn:g} V")
    assumed = tuple(name for name, value in given.items() if value is None)
    return Drive(rated_volts * rated_current, current_limit, warn, cut, assumed=assumed)


@formula(
    "I",
    "A",
    "(emf - sqrt(emf ** 2 - 4 * source_resistance * power)) / (2 * source_resistance)",
    source="constant-power-load",
    valid="power up to emf²/(4 R), the high-voltage answer",
)
def constant_power_current(emf: Volt, source_resistance: Ohm, power: Watt) -> Ampere:
    """Current of a load that takes constant power behind a resistance.

    Parameters
    ----------
    emf : Of the source. [V]
    source_resistance : Bank, cable and all in between. [Ω]
    power : Of the load. [W]

    Examples
    --------
    >>> round(constant_power_current(25.2, 12.4e-3, 6000.0), 2)
    275.42
    """
    room = emf**2 - 4.0 * source_resistance * power
    if room < 0.0:
        most = greatest_power(emf, source_resistance)
        raise ValueError(
            f"{power:.0f} W cannot be drawn: {emf:g} V behind {source_resistance * 1e3:g} mΩ gives at most {most:.0f} W"
        )
    return 2.0 * power / (emf + sqrt(room))  # the same root without its cancellation


@formula("P", "W", "emf ** 2 / (4 * source_resistance)", source="constant-power-load")
def greatest_power(emf: Volt, source_resistance: Ohm) -> Watt:
    """The most any load can draw from a source, at half its volts.

    Parameters
    ----------
    emf : Of the source. [V]
    source_resistance : Bank, cable and all in between. [Ω]
    """
    return emf**2 / (4.0 * source_resistance)


@formula("P_dc", "W", "shaft_power / (motor_efficiency * drive_efficiency)", source="drive-efficiency")
def input_power(shaft_power: Watt, motor_efficiency: Ratio = 0.885, drive_efficiency: Ratio = 0.965) -> Watt:
    """Direct-current power of a brushless drive.

    Parameters
    ----------
    shaft_power : At the motor's shaft. [W]
    motor_efficiency : 0.85 to 0.92. [1]
    drive_efficiency : 0.95 to 0.98. [1]
    """
    return shaft_power / (motor_efficiency * drive_efficiency)


@formula(
    "P",
    "W",
    "power * min(1, max(0, (volts - cut_volts) / (warn_volts - cut_volts)))",
    source="drive-fold-back",
    valid="linear between the two volts",
)
def folded_power(power: Watt, volts: Volt, warn_volts: Volt, cut_volts: Volt) -> Watt:
    """Power a drive allows itself at low volts.

    Parameters
    ----------
    power : Asked for. [W]
    volts : At its terminals. [V]
    warn_volts : Below these it folds back. [V]
    cut_volts : At these it stops. [V]
    """
    if cut_volts >= warn_volts:
        raise ValueError(f"cut-out at {cut_volts:g} V does not lie below fold-back from {warn_volts:g} V")
    return power * min(1.0, max(0.0, (volts - cut_volts) / (warn_volts - cut_volts)))


@formula("P/P₀", "1", "command ** 3", source="propeller-laws", valid="speed follows the lever")
def speed_command_power(command: Ratio) -> Ratio:
    """Share of full power at a lever position that sets speed.

    Parameters
    ----------
    command : Lever, 0 to 1. [1]
    """
    return command**3


@formula("P/P₀", "1", "command ** 1.5", source="propeller-laws", valid="thrust follows the lever")
def thrust_command_power(command: Ratio) -> Ratio:
    """Share of full power at a lever position that sets thrust.

    Parameters
    ----------
    command : Lever, 0 to 1. [1]
    """
    return float(command**1.5)


def run_drive(part: Drive, emf: Volt, source_resistance: Ohm, command: Ratio = 1.0, follows: Command = "thrust") -> Running:
    """A brushless drive behind a source, steady, from the high-voltage side.

    Raises
    ------
    NotComputed
        The power cannot be drawn and the drive does not fold back, or the source lies below the cut-out volts.
    """
    if not 0.0 < command <= 1.0:
        raise ValueError(f"lever at {command:g}; allowed: above 0 to 1")
    asked = part.rated_power * (speed_command_power(command) if follows == "speed" else thrust_command_power(command))
    limit = inf if part.current_limit is None else part.current_limit
    current = max(
        _answers(part, emf, source_resistance, asked, limit), key=lambda answer: emf - source_resistance * answer, default=None
    )
    if current is None:
        most = greatest_power(emf, source_resistance) if source_resistance > 0.0 else inf
        raise NotComputed(
            f"{asked:.0f} W cannot be drawn: {emf:g} V behind {source_resistance * 1e3:g} mΩ gives at most {most:.0f} W"
        )
    volts = emf - source_resistance * current
    power = volts * current
    ratio = (power / part.rated_power) ** (2.0 / 3.0)
    return Running(float("nan"), current, volts, ratio, power * part.efficiency)


def drive_load(part: Drive, volts: Volt, command: Ratio = 1.0, follows: Command = "thrust") -> Ampere:
    """Current the drive takes at its terminals, for a circuit; nought below the cut-out volts."""
    if volts <= 0.0:
        return 0.0
    asked = part.rated_power * (speed_command_power(command) if follows == "speed" else thrust_command_power(command))
    if part.warn_volts is not None and part.cut_volts is not None:
        asked = folded_power(asked, volts, part.warn_volts, part.cut_volts)
    return min(asked / volts, inf if part.current_limit is None else part.current_limit)


def _answers(part: Drive, emf: float, resistance: float, asked: float, limit: float) -> list[float]:
    """Currents that satisfy source and drive together, one a branch of the drive's line: power, limit, fold-back."""
    warn, cut = (part.warn_volts or 0.0, part.cut_volts or 0.0) if part.warn_volts and part.cut_volts else (0.0, 0.0)
    found = []
    if emf**2 >= 4.0 * resistance * asked:
        current = constant_power_current(emf, resistance, asked)
        if current <= limit and emf - resistance * current >= warn:
            found.append(current)
    if limit < inf and (volts := emf - resistance * limit) > 0.0:
        allowed = asked if volts >= warn or warn == 0.0 else folded_power(asked, volts, warn, cut)
        if volts > cut and allowed >= limit * volts:
            found.append(limit)
    if warn > 0.0 and emf > cut:
        slope = resistance * asked / (warn - cut)  # V² - (E - slope) V - slope cut = 0 has one positive answer
        b = emf - slope
        volts = 0.5 * (b + sqrt(b * b + 4.0 * slope * cut))
        if cut < volts <= warn and (current := folded_power(asked, volts, warn, cut) / volts) <= limit:
            found.append(current)
    return found
