"""Short-circuit currents of batteries and the breaking capacity they ask for.

Two cases are carried: the largest (full, warm, new, cables cold, bolted behind the fuse) decides what a fuse must be able to
break; the smallest (cold, aged, cables hot, at the motor) decides whether it opens in time.
"""

from __future__ import annotations

from math import exp

from athwart.explain import formula
from athwart.power.battery_data import BREAKING_ROWS, chemistry
from athwart.units.names import Ampere, Coulomb, Henry, Ohm, Ratio, Second, Volt

E_FACTOR: Ratio = 1.05
PEAK_SHARE: Ratio = 0.9
QUASI_STEADY: Ratio = 0.95
QUASI_SHARE: Ratio = 0.1
HOUR: Second = 3600.0


@formula("I_sc", "A", "emf / resistance", source="ieee-946", valid="ohmic, steady")
def prospective_current(emf: Volt, resistance: Ohm) -> Ampere:
    """Short-circuit current of a source through all the resistance of its loop.

    Parameters
    ----------
    emf : Open-circuit volts. [V]
    resistance : Of battery, links, cable, everything in the loop. [Ω]

    Examples
    --------
    >>> round(prospective_current(12.84, 0.005), 6)
    2568.0
    """
    return emf / resistance


@formula(
    "i", "A", "emf / resistance * (1 - exp(-time * resistance / inductance))", source="ieee-946", valid="constant inductance"
)
def rising_current(emf: Volt, resistance: Ohm, inductance: Henry, time: Second) -> Ampere:
    """Short-circuit current while it rises.

    Parameters
    ----------
    emf : Open-circuit volts. [V]
    resistance : Of the loop. [Ω]
    inductance : Of the loop. [H]
    time : Since the fault. [s]
    """
    return emf / resistance * (1.0 - exp(-time * resistance / inductance))


@formula(
    "i_p",
    "A",
    "emf / (PEAK_SHARE * battery_resistance + line_resistance)",
    source="iec-61660-1",
    valid="lead; factors from memory",
)
def peak_current(emf: Volt, battery_resistance: Ohm, line_resistance: Ohm) -> Ampere:
    """Peak short-circuit current of a battery, IEC 61660-1.

    Parameters
    ----------
    emf : Open-circuit volts, 1.05 of nominal where unknown. [V]
    battery_resistance : Inside the battery. [Ω]
    line_resistance : Links and cable, cold. [Ω]

    Examples
    --------
    >>> round(peak_current(25.2, 8e-3, 4.4e-3), 1)
    2172.4
    """
    return emf / (PEAK_SHARE * battery_resistance + line_resistance)


@formula(
    "I_k",
    "A",
    "QUASI_STEADY * emf / (PEAK_SHARE * battery_resistance + line_resistance + QUASI_SHARE * battery_resistance)",
    source="iec-61660-1",
    valid="lead, one second into the fault; factors from memory",
)
def quasi_steady_current(emf: Volt, battery_resistance: Ohm, line_resistance: Ohm) -> Ampere:
    """Short-circuit current of a battery after a second, IEC 61660-1.

    Parameters
    ----------
    emf : Open-circuit volts, 1.05 of nominal where unknown. [V]
    battery_resistance : Inside the battery. [Ω]
    line_resistance : Links and cable. [Ω]

    Examples
    --------
    >>> round(quasi_steady_current(25.2, 8e-3, 4.4e-3), 1)
    1930.6
    """
    return QUASI_STEADY * emf / (PEAK_SHARE * battery_resistance + line_resistance + QUASI_SHARE * battery_resistance)


@formula("E_B", "V", "E_FACTOR * nominal", source="iec-61660-1", valid="where the open-circuit volts are unknown")
def assumed_emf(nominal: Volt) -> Volt:
    """Electromotive force taken for a battery of which only the nominal volts are known.

    Parameters
    ----------
    nominal : Nominal volts. [V]
    """
    return E_FACTOR * nominal


@formula("I_sc", "A", "multiple * capacity / HOUR", source="fault-multiple", valid="only where nothing better is known")
def guessed_fault_current(capacity: Coulomb, multiple: Ratio) -> Ampere:
    """Short-circuit current guessed from the capacity.

    Parameters
    ----------
    capacity : Rated capacity. [C]
    multiple : Per ampere hour: 20 for deep-cycle lead, 40 for thin plates and lithium. [1]
    """
    return multiple * capacity / HOUR


@formula("T", "s", "time_to_peak / 5", source="ieee-946", valid="L/R of the battery, not the 30 ms of IEC 61660-1")
def battery_time_constant(time_to_peak: Second) -> Second:
    """Time constant of a battery's fault current from the time it takes to peak.

    Parameters
    ----------
    time_to_peak : From the fault. [s]
    """
    return time_to_peak / 5.0


def motor_feed(rated_current: Ampere) -> tuple[Ampere, Ampere]:
    """What a running d.c. motor adds to a fault at its terminals: 7 to 10 times its rated current (IEEE 946)."""
    return 7.0 * rated_current, 10.0 * rated_current


def required_breaking_capacity(cranking_total: Ampere, branch: bool = False) -> Ampere:
    """Breaking capacity the voluntary US standard asks of a device, by connected cold cranking current, 12 and 24 V."""
    if cranking_total < 0.0:
        raise ValueError(f"a cranking total of {cranking_total:g} A")
    row = [row for row in BREAKING_ROWS if cranking_total >= row[0]][-1]
    return row[2] if branch else row[1]


def bank_fault_current(
    emf: Volt, resistance: Ohm, kind: str, capacity: Coulomb, declared: Ampere | None = None, assumed: bool = False
) -> Ampere:
    """Largest current a bank can feed into a bolted fault at its terminals, for the breaking capacity.

    The maker's figure where there is one and it is larger; where the resistance is only a default (``assumed``), never less
    than the guess from the capacity.
    """
    current = max(prospective_current(emf, resistance), declared or 0.0)
    return (
        max(current, guessed_fault_current(capacity, chemistry(kind).fault_multiple)) if assumed and declared is None else current
    )
