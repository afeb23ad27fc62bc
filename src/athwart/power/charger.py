"""Charging: what a step-up draws, whether its sensing chatters, how long a bank takes, what an alternator has left at idle.

The thruster bank is charged from a battery that is itself charged only while an engine runs or a cable lies ashore. Thruster
work is done at idle, where an alternator gives a third of its plate.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf, log

from athwart.explain import formula
from athwart.numerics.tables import interpolate
from athwart.units.names import Ampere, Coulomb, Ohm, Ratio, Second, Volt, Watt

BULK_FACTOR: Ratio = 1.05
USUAL_EFFICIENCY = (0.85, 0.88, 0.93)
QUIESCENT = (0.005, 0.015, 0.030)  # A

#: Volts at which a sensing relay or charger switches on and off, by nominal volts of the source it watches
SENSE_ON: Mapping[float, Volt] = {12.0: 13.7, 24.0: 27.4}
SENSE_ON_EARLY: Mapping[float, Volt] = {12.0: 13.2, 24.0: 26.4}
SENSE_OFF: Mapping[float, Volt] = {12.0: 12.8, 24.0: 25.6}
SENSE_ON_LITHIUM: Mapping[float, Volt] = {12.0: 13.4, 24.0: 26.8}
SENSE_OFF_LITHIUM: Mapping[float, Volt] = {12.0: 13.1, 24.0: 26.2}
#: A timed 24 V combining relay: volts and seconds to close and to open, volts of lock-out
TIMED_24_V_CLOSE: tuple[tuple[Volt, Second], ...] = ((27.0, 30.0), (26.0, 90.0))
TIMED_24_V_OPEN: tuple[tuple[Volt, Second], ...] = ((25.5, 30.0), (24.7, 10.0))
TIMED_24_V_LOCK_OUT: Volt = 32.4

#: volts lost in an isolator in the charge path: at small current, at rated current (least, most)
ISOLATORS: Mapping[str, tuple[tuple[Volt, Volt], tuple[Volt, Volt]]] = {
    "diode": ((0.6, 0.7), (0.8, 1.1)),
    "electronic": ((0.05, 0.05), (0.05, 0.20)),
    "relay": ((0.0, 0.0), (0.0, 0.05)),
}

#: output of an outboard's 52 A alternator: rpm, share of its largest
ALTERNATOR_CURVE: tuple[tuple[float, float], ...] = (
    (600.0, 21.0 / 52.0),
    (1000.0, 37.0 / 52.0),
    (1500.0, 44.0 / 52.0),
    (2000.0, 48.0 / 52.0),
    (2500.0, 50.0 / 52.0),
    (3000.0, 51.0 / 52.0),
    (4000.0, 1.0),
)
IDLE_SHARE = (0.35, 0.375, 0.40)
HOT_SHARE = (0.75, 0.78, 0.80)


@formula(
    "I_in", "A", "volts_out * current_out / (efficiency * volts_in) + quiescent", source="step-up-charging", valid="steady output"
)
def step_up_input(
    volts_out: Volt, current_out: Ampere, volts_in: Volt, efficiency: Ratio = 0.88, quiescent: Ampere = 0.0
) -> Ampere:
    """Current a step-up charger draws from its source.

    Parameters
    ----------
    volts_out : Charging volts. [V]
    current_out : Charging current. [A]
    volts_in : At the charger's input, under load. [V]
    efficiency : 0.85 to 0.93. [1]
    quiescent : Its own need. [A]

    Examples
    --------
    >>> round(step_up_input(28.4, 8.0, 13.2), 3)
    19.559
    """
    return volts_out * current_out / (efficiency * volts_in) + quiescent


@formula(
    "U_in",
    "V",
    "result * source_volts - result ** 2 - loop_resistance * power / efficiency",
    source="constant-power-load",
    kind="equation",
    valid="the higher of two answers",
)
def step_up_input_volts(source_volts: Volt, loop_resistance: Ohm, power: Watt, efficiency: Ratio = 0.88) -> Volt:
    """Volts left at a step-up's input: less volts, more amperes, less volts again.

    Parameters
    ----------
    source_volts : At the source battery. [V]
    loop_resistance : Of the input cable, there and back, with its fuse. [Ω]
    power : Given out at the charger's output. [W]
    efficiency : 0.85 to 0.93. [1]
    """
    room = source_volts**2 - 4.0 * loop_resistance * power / efficiency
    if room < 0.0:
        raise ValueError(f"{power:.0f} W cannot be fed through {loop_resistance * 1e3:.1f} mΩ from {source_volts:g} V")
    return float(0.5 * (source_volts + room**0.5))


@formula(
    "m",
    "V",
    "on_volts - off_volts - input_current * source_resistance - margin",
    source="step-up-charging",
    valid="sensing at the charger",
)
def chatter_margin(on_volts: Volt, off_volts: Volt, input_current: Ampere, source_resistance: Ohm, margin: Volt = 0.1) -> Volt:
    """Room between a sensing charger's hysteresis and the volts its own current costs; below nought it switches on and off.

    Parameters
    ----------
    on_volts : It starts at. [V]
    off_volts : It stops at. [V]
    input_current : It draws. [A]
    source_resistance : Input cable there and back, with the source battery's if it stands alone. [Ω]
    margin : Kept for temperature and tolerance. [V]
    """
    return on_volts - off_volts - input_current * source_resistance - margin


@formula("t", "s", "charge * charge_factor * BULK_FACTOR / current_out", source="step-up-charging", valid="bulk stage")
def bulk_time(charge: Coulomb, current_out: Ampere, charge_factor: Ratio = 1.0) -> Second:
    """Time to put a charge back at constant current.

    Parameters
    ----------
    charge : Taken out before. [C]
    current_out : Charging current. [A]
    charge_factor : Charge in over charge out, 1.2 lead, 1.02 lithium. [1]

    Examples
    --------
    25 Ah at 8 A, in hours:

    >>> round(bulk_time(90_000.0, 8.0) / 3600.0, 2)
    3.28
    """
    return charge * charge_factor * BULK_FACTOR / current_out


@formula("t", "s", "bulk to the knee, then a falling current", source="step-up-charging", kind="table")
def refill_time(
    charge: Coulomb,
    capacity: Coulomb,
    current_out: Ampere,
    charge_factor: Ratio = 1.2,
    knee: Ratio = 0.85,
    tail_current: Ratio = 0.02,
) -> Second:
    """Time from a discharge back to full: bulk up to the knee, then a current that falls exponentially to the tail.

    Parameters
    ----------
    charge : Taken out before, from full. [C]
    capacity : Of the bank. [C]
    current_out : Charging current. [A]
    charge_factor : Charge in over charge out. [1]
    knee : State of charge at which the current begins to fall. [1]
    tail_current : Current per hour of capacity at which the bank counts as full. [1]

    Notes
    -----
    From the knee on the current falls with the charge still missing, so the last of it goes in at the tail current. Where the
    charger is weaker than the tail, it runs at its full current to the end.

    Examples
    --------
    >>> round(refill_time(90_000.0, 360_000.0, 8.0) / 3600.0, 1)
    5.7
    """
    if not 0.0 <= charge <= capacity:
        raise ValueError(f"{charge / 3600:.0f} Ah taken out of a bank of {capacity / 3600:.0f} Ah")
    needed = charge * charge_factor
    tail = tail_current * capacity / 3600.0
    late = min(needed, (1.0 - knee) * capacity * charge_factor)
    if current_out <= tail:
        return needed * BULK_FACTOR / current_out
    # i falls linearly with the charge put in, from current_out to tail: the mean is the logarithmic one
    mean = (current_out - tail) / log(current_out / tail)
    return (needed - late) * BULK_FACTOR / current_out + late / mean


@formula("I", "A", "hot_share * rated_current * speed_share", source="alternator-hot", valid="warm machine")
def alternator_output(rated_current: Ampere, speed_share: Ratio, hot_share: Ratio = 0.78) -> Ampere:
    """What an alternator gives when warm at an engine speed.

    Parameters
    ----------
    rated_current : On its plate, cold. [A]
    speed_share : Share at this speed; 0.35 to 0.40 at idle already counts warm. [1]
    hot_share : Share left when hot; 1 with the idle share. [1]
    """
    return hot_share * rated_current * speed_share


def alternator_speed_share(speed_rpm: float) -> Ratio:
    """Share of its largest output an alternator gives at an engine speed, after an outboard's curve."""
    return interpolate(ALTERNATOR_CURVE, speed_rpm)


@formula("I", "A", "output - house_loads - charger_input", source="alternator-hot")
def alternator_left(output: Ampere, house_loads: Ampere, charger_input: Ampere) -> Ampere:
    """What an alternator has left over after the house and the thruster charger; below nought the battery pays.

    Parameters
    ----------
    output : Of the alternator, warm, at this speed. [A]
    house_loads : All other loads then. [A]
    charger_input : What the thruster charger draws. [A]
    """
    return output - house_loads - charger_input


def isolator_drop(kind: str, current_share: Ratio = 1.0) -> tuple[Volt, Volt]:
    """Volts lost in an isolator (least, most) at a share of its rated current."""
    if kind not in ISOLATORS:
        raise ValueError(f"no isolator {kind!r}; there are {', '.join(ISOLATORS)}")
    if not 0.0 <= current_share <= 1.0:
        raise ValueError(f"{current_share:g} of an isolator's rated current; allowed: 0 to 1")
    small, rated = ISOLATORS[kind]
    least, most = (s + (r - s) * current_share for s, r in zip(small, rated, strict=True))
    return least, most


@formula(
    "I",
    "A",
    "(charging_volts - bank_volts) / (loop_resistance + bank_resistance)",
    source="charge-by-cable",
    valid="no charger between",
)
def charge_current_by_cable(charging_volts: Volt, bank_volts: Volt, loop_resistance: Ohm, bank_resistance: Ohm) -> Ampere:
    """Charge a far bank takes straight from the charging bus, through its cable: it falls as the bank fills.

    Parameters
    ----------
    charging_volts : At the near end. [V]
    bank_volts : Rest volts of the far bank with its polarisation. [V]
    loop_resistance : Cable there and back. [Ω]
    bank_resistance : Of the far bank. [Ω]
    """
    return (charging_volts - bank_volts) / (loop_resistance + bank_resistance)


# ---- a day's balance


@dataclass(frozen=True, slots=True)
class Use:
    """Something taken from or given to a bank in a day: current (positive out) and for how long."""

    name: str
    current: Ampere
    time: Second


def day_balance(uses: Sequence[Use], charging_current: Ampere, charging_time: Second, charge_factor: Ratio = 1.2) -> Coulomb:
    """Charge gained (or, negative, lost) in a day by a bank."""
    out = sum(use.current * use.time for use in uses)
    return charging_current * charging_time / charge_factor - out


def days_to_empty(capacity: Coulomb, standby: Ampere, floor: Ratio = 0.5) -> float:
    """Days until standby current alone takes a bank to its floor."""
    if standby <= 0.0:
        return inf
    return capacity * (1.0 - floor) / standby / 86_400.0


# ---- series/parallel switch


@dataclass(frozen=True, slots=True)
class SeriesParallel:
    """Two like banks: side by side for charging at the ship's volts, in series while the thruster runs."""

    charge_volts: Volt
    run_volts: Volt
    charge_current_each: Ampere
    string_resistance: Ohm


def series_parallel(
    bank_volts: Volt, bank_resistance: Ohm, charging_volts: Volt, switch_resistance: Ohm, loop_resistance: Ohm
) -> SeriesParallel:
    """Arithmetic of a series/parallel switch with two like banks; while in series, nothing else may hang on either."""
    current = (charging_volts - bank_volts) / (loop_resistance + bank_resistance / 2.0)
    return SeriesParallel(charging_volts, 2.0 * bank_volts, current / 2.0, 2.0 * bank_resistance + switch_resistance)
