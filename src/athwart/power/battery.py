"""Batteries: rest volts, resistance and capacity of a block in a state; strings and parallels; what limits a discharge.

A bank is seen as a source: electromotive force behind a resistance. The force comes from chemistry, state of charge and
temperature; the resistance from data or from the cranking current, then temperature, state of charge and age. Both are
straight-line models for a run of minutes, not for a short circuit's first milliseconds (:mod:`athwart.power.fault`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, expm1, inf, log
from typing import Protocol

from athwart.explain import formula
from athwart.numerics.tables import interpolate
from athwart.power.battery_data import CRANKING_TESTS, LEAD_CAPACITY, LOAD_TEST, SAE_SHARE, chemistry
from athwart.units.names import Ampere, Coulomb, Joule, Kelvin, Ohm, PerKelvin, Ratio, Second, Volt

T_25: Kelvin = 298.15
ICE: Kelvin = 273.15
HUNDRED_AH: Coulomb = 360_000.0
WARM_CRANKING: Volt = 3.0  # R(25 °C) times SAE cold cranking current
REST_CRANKING: Volt = 12.7
REST_LOAD_TEST: Volt = 12.65
LEAD_EMPTY: Volt = 11.89
LEAD_SPAN: Volt = 0.76
IEEE_485_A: Ratio = -2.8117
IEEE_485_B: Ratio = 4.1916
IEEE_485_C: Ratio = -2.4941
IEEE_485_D: Ratio = 1.405
HUNDRED_KELVIN: Kelvin = 100.0


class Block(Protocol):
    """What a battery block must tell; a catalogue row of battery blocks does."""

    @property
    def chemistry(self) -> str: ...
    @property
    def volts(self) -> float: ...
    @property
    def cells(self) -> int: ...
    @property
    def capacity(self) -> float: ...
    @property
    def resistance(self) -> float | None: ...
    @property
    def cranking(self) -> float | None: ...
    @property
    def cranking_standard(self) -> str | None: ...


@dataclass(frozen=True, slots=True)
class State:
    """Condition a bank is judged in. ``ageing`` multiplies resistance, ``fade`` capacity, both against new."""

    temperature: Kelvin
    state_of_charge: Ratio
    ageing: Ratio = 1.0
    fade: Ratio = 1.0


NEW_AND_FULL = State(T_25, 1.0)


def cold_aged_state(key: str, coldest: Kelvin | None = None, state_of_charge: Ratio = 0.7) -> State:
    """The design state: coldest bank of the brief (else 0 °C lead, 5 °C lithium), 70 % charged, R x1.5, capacity x0.8."""
    default = 278.15 if chemistry(key).is_lithium else ICE
    return State(default if coldest is None else coldest, state_of_charge, 1.5, 0.8)


@dataclass(frozen=True, slots=True)
class Source:
    """Electromotive force behind a resistance; ``assumed`` where the resistance is a chemistry's default."""

    emf: Volt
    resistance: Ohm
    assumed: bool = False


# ---- rest volts


@formula(
    "U₀",
    "V",
    "LEAD_EMPTY + LEAD_SPAN * state_of_charge",
    source="bci-rest-volts",
    valid="12 V flooded block at rest, 26.7 °C, ±0.03 V",
)
def lead_rest_volts(state_of_charge: Ratio) -> Volt:
    """Rest volts of a flooded 12 V block as a straight line through the table.

    Parameters
    ----------
    state_of_charge : 0 to 1. [1]

    Examples
    --------
    >>> round(lead_rest_volts(1.0), 2), round(lead_rest_volts(0.5), 2)
    (12.65, 12.27)
    """
    if not 0.0 <= state_of_charge <= 1.0:
        raise ValueError(f"state of charge {state_of_charge:g}; allowed: 0 to 1")
    return LEAD_EMPTY + LEAD_SPAN * state_of_charge


@formula(
    "U₀",
    "V",
    "table of the chemistry, straight lines between points, shifted with temperature",
    source="bci-rest-volts",
    kind="table",
)
def rest_volts(kind: str, cells: int, state_of_charge: Ratio, temperature: Kelvin = 298.15) -> Volt:
    """Rest volts of cells in series.

    Parameters
    ----------
    kind : Chemistry, as named in a catalogue.
    cells : Number in series.
    state_of_charge : 0 to 1. [1]
    temperature : Of the cells. [K]

    Examples
    --------
    >>> round(rest_volts("flooded", 6, 0.5, 299.85), 2), round(rest_volts("lfp", 4, 0.5), 2)
    (12.24, 13.08)
    """
    data = chemistry(kind)
    return cells * (interpolate(data.rest_volts, state_of_charge) + data.rest_slope * (temperature - data.rest_temperature))


# ---- resistance


@formula(
    "R", "Ω", "resistance_25 * exp(exponent * (T_25 - temperature))", source="lead-resistance-temperature", valid="-20 to 40 °C"
)
def resistance_at_temperature(resistance_25: Ohm, temperature: Kelvin, exponent: PerKelvin = 0.0085) -> Ohm:
    """Resistance of a battery at a temperature.

    Parameters
    ----------
    resistance_25 : At 25 °C. [Ω]
    temperature : Of the cells. [K]
    exponent : 0.0085 lead, 0.022 lithium iron phosphate. [1/K]

    Examples
    --------
    >>> round(resistance_at_temperature(1.0, 255.15), 4)
    1.4412
    """
    return resistance_25 * exp(exponent * (T_25 - temperature))


@formula(
    "R",
    "Ω",
    "resistance_full * (1 + rise * (1 - state_of_charge))",
    source="lead-resistance-charge",
    valid="state of charge 0 to 1",
)
def resistance_at_charge(resistance_full: Ohm, state_of_charge: Ratio, rise: Ratio = 0.4) -> Ohm:
    """Resistance of a battery partly discharged.

    Parameters
    ----------
    resistance_full : When full. [Ω]
    state_of_charge : 0 to 1. [1]
    rise : Added share from full to empty. [1]
    """
    return resistance_full * (1.0 + rise * (1.0 - state_of_charge))


@formula("R", "Ω", "resistance * ageing", source="own-judgement", valid="ageing 1 for new, 1.5 in the design state")
def aged_resistance(resistance: Ohm, ageing: Ratio) -> Ohm:
    """Resistance of a worn block.

    Parameters
    ----------
    resistance : Of the block when new, at its charge and temperature. [Ω]
    ageing : Worn over new. [1]

    Examples
    --------
    >>> round(aged_resistance(4e-3, 1.5) * 1e3, 3)
    6.0
    """
    return resistance * ageing


@formula("U_B", "V", "series * block_volts", source="own-arithmetic")
def bank_volts(block_volts: Volt, series: Ratio) -> Volt:
    """Volts of blocks in series.

    Parameters
    ----------
    block_volts : Of one block in its state. [V]
    series : Blocks in a string. [1]

    Examples
    --------
    >>> bank_volts(12.5, 2)
    25.0
    """
    return series * block_volts


@formula(
    "R", "Ω", "(REST_CRANKING - end_volts) / cranking_current", source="cranking-tests", valid="the test's own seconds at -18 °C"
)
def cold_resistance(cranking_current: Ampere, end_volts: Volt = 7.2) -> Ohm:
    """Resistance at the end of a cranking test, polarisation included: the upper estimate.

    Parameters
    ----------
    cranking_current : Rated cold cranking current. [A]
    end_volts : Least volts of the test, 7.2 SAE, 7.5 EN, 8.4 IEC, 9.0 DIN. [V]

    Examples
    --------
    >>> round(cold_resistance(700.0) * 1e3, 3)
    7.857
    """
    if end_volts >= REST_CRANKING:
        raise ValueError(f"a cranking test ends below {REST_CRANKING} V; read: {end_volts} V")
    return (REST_CRANKING - end_volts) / cranking_current


@formula(
    "R",
    "Ω",
    "WARM_CRANKING / cranking_current",
    source="warm-cranking-resistance",
    valid="12 V lead block, new, full, 25 °C; SAE figure",
)
def warm_resistance(cranking_current: Ampere) -> Ohm:
    """Resistance at 25 °C from the SAE cold cranking current.

    Parameters
    ----------
    cranking_current : SAE figure; convert others with :func:`sae_cranking`. [A]

    Examples
    --------
    >>> round(warm_resistance(700.0) * 1e3, 3)
    4.286
    """
    return WARM_CRANKING / cranking_current


@formula(
    "R", "Ω", "(REST_LOAD_TEST - volts) / (cranking_current / 2)", source="load-test", valid="half the cranking current for 15 s"
)
def load_test_resistance(cranking_current: Ampere, volts: Volt) -> Ohm:
    """Resistance in a load test with half the cranking current.

    Parameters
    ----------
    cranking_current : Rated cold cranking current. [A]
    volts : Read after 15 s. [V]
    """
    if volts >= REST_LOAD_TEST:
        raise ValueError(f"volts under load lie below {REST_LOAD_TEST} V; read: {volts} V")
    return (REST_LOAD_TEST - volts) / (cranking_current / 2.0)


@formula("U", "V", "least volts of a sound block against temperature", source="load-test", kind="table")
def load_test_least_volts(temperature: Kelvin) -> Volt:
    """Least volts of a sound 12 V block loaded with half its cranking current for 15 s.

    Parameters
    ----------
    temperature : Of the cells; from 20 °C up the figure stays. [K]

    Examples
    --------
    >>> load_test_least_volts(283.15)
    9.4
    """
    return interpolate(LOAD_TEST, min(temperature - ICE, 20.0))  # the table itself says "20 °C and above"


def sae_cranking(cranking_current: Ampere, standard: str) -> tuple[Ampere, Ampere, Ampere]:
    """The SAE figure a rating by another standard stands for: least, usual, most. No exact conversion exists."""
    if standard not in SAE_SHARE:
        raise ValueError(f"no cranking standard {standard!r}; there are {', '.join(SAE_SHARE)}")
    low, usual, high = SAE_SHARE[standard]
    return cranking_current / high, cranking_current / usual, cranking_current / low


def cranking_test(standard: str) -> tuple[tuple[float, float, float], ...]:
    """Test points of a cranking standard: °C, seconds, volts of a 12 V block."""
    if standard not in CRANKING_TESTS:
        raise ValueError(f"no cranking standard {standard!r}; there are {', '.join(CRANKING_TESTS)}")
    return CRANKING_TESTS[standard]


def new_resistance(block: Block) -> Source:
    """R0 + R1 of a block, new, full, 25 °C: from data, the cranking current or the chemistry (``assumed``)."""
    emf = rest_volts(block.chemistry, block.cells, 1.0)
    if block.resistance is not None:
        return Source(emf, block.resistance)
    if block.cranking is not None and block.cranking_standard is not None:
        return Source(emf, warm_resistance(sae_cranking(block.cranking, block.cranking_standard)[1]) * block.volts / 12.0)
    usual = chemistry(block.chemistry).resistance_100ah[1] * HUNDRED_AH / block.capacity * block.volts / 12.0
    return Source(emf, usual, assumed=True)


def block_source(block: Block, state: State) -> Source:
    """A block in a state."""
    data = chemistry(block.chemistry)
    new = new_resistance(block)
    warm = resistance_at_charge(new.resistance, state.state_of_charge, data.resistance_rise_empty)
    resistance = aged_resistance(resistance_at_temperature(warm, state.temperature, data.resistance_exponent[1]), state.ageing)
    return Source(rest_volts(block.chemistry, block.cells, state.state_of_charge, state.temperature), resistance, new.assumed)


# ---- strings and parallels


def string_source(blocks: Sequence[Source], link_resistance: Ohm = 0.0, other_resistance: Ohm = 0.0) -> Source:
    """Blocks in series with a link between each two and other pieces (string fuse, lugs) once."""
    if not blocks:
        raise ValueError("a string without blocks")
    resistance = sum(block.resistance for block in blocks) + (len(blocks) - 1) * link_resistance + other_resistance
    return Source(sum(block.emf for block in blocks), resistance, any(block.assumed for block in blocks))


def parallel_source(strings: Sequence[Source]) -> Source:
    """Strings side by side, unequal ones too (Millman)."""
    if not strings or any(string.resistance <= 0.0 for string in strings):
        raise ValueError("strings in parallel need a resistance each")
    conductance = sum(1.0 / string.resistance for string in strings)
    emf = sum(string.emf / string.resistance for string in strings) / conductance
    return Source(emf, 1.0 / conductance, any(string.assumed for string in strings))


@formula(
    "R_B",
    "Ω",
    "(series * block_resistance + (series - 1) * link_resistance + string_resistance) / parallel",
    source="own-arithmetic",
    valid="like blocks, like strings",
)
def bank_resistance(
    block_resistance: Ohm, series: Ratio, parallel: Ratio = 1.0, link_resistance: Ohm = 0.0, string_resistance: Ohm = 0.0
) -> Ohm:
    """Resistance of a bank of like strings.

    Parameters
    ----------
    block_resistance : Of one block in its state. [Ω]
    series : Blocks in a string. [1]
    parallel : Strings side by side. [1]
    link_resistance : Of a link between two blocks with its lugs. [Ω]
    string_resistance : Of what else each string goes through: its fuse, the pieces to the bars. [Ω]

    Examples
    --------
    Two 4 mΩ blocks in series with one 0.2 mΩ link:

    >>> round(bank_resistance(4e-3, 2, 1, 0.2e-3) * 1e3, 3)
    8.2
    """
    return (series * block_resistance + (series - 1.0) * link_resistance + string_resistance) / parallel


@formula("U_t", "V", "emf - current * (bank_resistance + path_resistance)", source="own-arithmetic", valid="steady, one source")
def terminal_volts(emf: Volt, current: Ampere, bank_resistance: Ohm, path_resistance: Ohm) -> Volt:
    """Volts left at the unit's terminals.

    Parameters
    ----------
    emf : Of the bank at rest in its state. [V]
    current : Of the unit. [A]
    bank_resistance : Of the bank in its state. [Ω]
    path_resistance : Everything between the bank's poles and the unit, there and back. [Ω]

    Examples
    --------
    >>> round(terminal_volts(25.2, 300.0, 8.2e-3, 3.5e-3), 2)
    21.69
    """
    return emf - current * (bank_resistance + path_resistance)


def bank_source(
    block: Block, state: State, series: int, parallel: int = 1, link_resistance: Ohm = 0.0, string_resistance: Ohm = 0.0
) -> Source:
    """A bank of like blocks in one state: ``parallel`` strings of ``series`` blocks."""
    one = string_source([block_source(block, state)] * series, link_resistance, string_resistance)
    return parallel_source([one] * parallel)


def string_currents(strings: Sequence[Source], current: Ampere) -> tuple[Ampere, ...]:
    """How unequal strings share a load; a negative share is a string being charged by the others."""
    whole = parallel_source(strings)
    volts = whole.emf - whole.resistance * current
    return tuple((string.emf - volts) / string.resistance for string in strings)


@formula("ΔU", "V", "current * (resistance_weak - resistance_sound)", source="own-arithmetic")
def weak_block_sag(current: Ampere, resistance_weak: Ohm, resistance_sound: Ohm) -> Volt:
    """Volts a tired block costs its string beyond a sound one: equal at rest, unequal under load.

    Parameters
    ----------
    current : Load. [A]
    resistance_weak : Of the tired block. [Ω]
    resistance_sound : Of a sound one. [Ω]
    """
    return current * (resistance_weak - resistance_sound)


@formula("ΔSoC", "1", "current * time / capacity", source="own-arithmetic", valid="no equaliser")
def mid_tap_gap(current: Ampere, time: Second, capacity: Coulomb) -> Ratio:
    """State-of-charge gap that a load on one block of a string opens.

    Parameters
    ----------
    current : Load on the one block. [A]
    time : How long. [s]
    capacity : Of a block. [C]

    Examples
    --------
    >>> mid_tap_gap(5.0, 36_000.0, 360_000.0)
    0.5
    """
    return current * time / capacity


@formula(
    "U",
    "V",
    "emf - current * (resistance + polarisation * (1 - exp(-time / time_constant)))",
    source="battery-pulse",
    valid="constant current from rest; the rest volts fall besides with the charge taken",
)
def pulse_volts(emf: Volt, current: Ampere, resistance: Ohm, polarisation: Ohm, time_constant: Second, time: Second) -> Volt:
    """Terminal volts of a battery some time into a burst, one polarisation term.

    Parameters
    ----------
    emf : Rest volts. [V]
    current : Load. [A]
    resistance : R0, felt at once. [Ω]
    polarisation : R1, felt later. [Ω]
    time_constant : Of the polarisation. [s]
    time : Since the load came on. [s]
    """
    return emf - current * (resistance - polarisation * expm1(-time / time_constant))


# ---- capacity


@formula(
    "t",
    "s",
    "rated_time * (capacity / (current * rated_time)) ** exponent",
    source="peukert",
    valid="constant current to about 3 C",
)
def peukert_time(capacity: Coulomb, rated_time: Second, current: Ampere, exponent: Ratio) -> Second:
    """Run time at constant current from the rated capacity and the hours it is rated at (Peukert).

    Parameters
    ----------
    capacity : Rated capacity. [C]
    rated_time : Time it is rated at. [s]
    current : Load. [A]
    exponent : Peukert's. [1]

    Examples
    --------
    100 Ah at 20 h, 25 A, exponent 1.3, in hours:

    >>> round(peukert_time(360_000.0, 72_000.0, 25.0, 1.3) / 3600.0, 4)
    2.4681
    """
    return float(rated_time * (capacity / (current * rated_time)) ** exponent)


@formula("n", "1", "log(time_2 / time_1) / log(current_1 / current_2)", source="peukert", valid="two different currents")
def peukert_exponent(time_1: Second, current_1: Ampere, time_2: Second, current_2: Ampere) -> Ratio:
    """Peukert's exponent through two points of a discharge table.

    Parameters
    ----------
    time_1 : First run time. [s]
    current_1 : First current. [A]
    time_2 : Second run time. [s]
    current_2 : Second current. [A]
    """
    if current_1 == current_2:
        raise ValueError("two points at one current fix no exponent")
    return log(time_2 / time_1) / log(current_1 / current_2)


@formula("C/C₂₅", "1", "1 + slope * (temperature - T_25)", source="lead-capacity-slope", valid="lead, about -20 to 40 °C")
def lead_capacity_factor(temperature: Kelvin, slope: PerKelvin = 0.006) -> Ratio:
    """Capacity of lead against 25 °C for long discharges.

    Parameters
    ----------
    temperature : Of the cells. [K]
    slope : 0.006 at 10 to 20 h, 0.01 at 1 to 3 h. [1/K]
    """
    return 1.0 + slope * (temperature - T_25)


@formula("C/C₂₅", "1", "column of the run time, straight lines between points", source="lead-capacity-temperature", kind="table")
def lead_capacity_at(temperature: Kelvin, run_time: Second = 600.0) -> Ratio:
    """Capacity of lead against 25 °C, by length of discharge.

    Parameters
    ----------
    temperature : Of the cells, 0 to 40 °C. [K]
    run_time : Length of the discharge. [s]

    Examples
    --------
    >>> round(lead_capacity_at(273.15), 2), round(lead_capacity_at(273.15, 7200.0), 2)
    (0.8, 0.84)
    """
    column = 1 if run_time < 1800.0 else 2 if run_time <= 3600.0 else 3
    return 1.0 + interpolate([(float(row[0]), float(row[column])) for row in LEAD_CAPACITY], round(temperature - ICE, 6)) / 100.0


@formula(
    "f",
    "1",
    "IEEE_485_A * ((temperature - ICE) / HUNDRED_KELVIN) ** 3 + IEEE_485_B * ((temperature - ICE) / HUNDRED_KELVIN) ** 2"
    " + IEEE_485_C * (temperature - ICE) / HUNDRED_KELVIN + IEEE_485_D",
    source="ieee-485-cubic",
    valid="lead, -3.9 to 51.7 °C",
)
def cell_size_factor(temperature: Kelvin) -> Ratio:
    """How much larger a lead battery must be at a temperature than at 25 °C.

    Parameters
    ----------
    temperature : Of the cells. [K]

    Examples
    --------
    >>> round(cell_size_factor(277.55), 4)
    1.3031
    """
    x = (temperature - ICE) / HUNDRED_KELVIN
    return IEEE_485_A * x**3 + IEEE_485_B * x**2 + IEEE_485_C * x + IEEE_485_D


def usable_capacity(block: Block, state: State, floor: Ratio | None = None) -> Coulomb:
    """Charge between the state and the floor, colder and older counted; the chemistry's floor unless given."""
    data = chemistry(block.chemistry)
    least = data.floor if floor is None else floor
    share = interpolate(data.capacity_curve, state.temperature)
    return block.capacity * state.fade * share * max(0.0, state.state_of_charge - least)


@formula("E", "J", "charge * (emf - resistance * current)", source="own-arithmetic", valid="at constant current")
def usable_energy(charge: Coulomb, emf: Volt, resistance: Ohm, current: Ampere) -> Joule:
    """Energy at the terminals from a charge taken at constant current.

    Parameters
    ----------
    charge : Taken out. [C]
    emf : Mean rest volts. [V]
    resistance : Of the bank. [Ω]
    current : Load. [A]
    """
    return charge * (emf - resistance * current)


# ---- charging volts and protection


def charging_volts(kind: str, cells: int, stage: str = "bulk", temperature: Kelvin = T_25) -> Volt:
    """Charging volts of cells in series: ``bulk`` (and absorption) or ``float``, temperature corrected."""
    data = chemistry(kind)
    if stage not in ("bulk", "float"):
        raise ValueError(f"no charging stage {stage!r}; there are bulk and float")
    cell = data.bulk_volts if stage == "bulk" else data.float_volts
    return cells * (cell + data.charge_slope * (temperature - T_25))


def running_volts(nominal: Volt) -> Volt:
    """Volts of a system with its charging source running: 14.4, 28.8, 57.6 V."""
    return 1.2 * nominal


@dataclass(frozen=True, slots=True)
class Protection:
    """Protection circuit of a lithium block; None where the maker says nothing."""

    continuous: Ampere | None = None
    peak: Ampere | None = None
    peak_time: Second | None = None
    low_volts: Volt | None = None
    charge_coldest: Kelvin | None = None
    discharge_coldest: Kelvin | None = None

    def holds_for(self, current: Ampere) -> Second | None:
        """How long it lets a current through: infinite, the peak time, nought; None where unknown."""
        if self.continuous is None and self.peak is None:
            return None
        if self.continuous is not None and current <= self.continuous:
            return inf
        if self.peak is None:
            return 0.0
        if current > self.peak:
            return 0.0
        return self.peak_time

    def trips(self, current: Ampere, time: Second, terminal_volts: Volt, temperature: Kelvin) -> tuple[str, ...]:
        """Reasons why it would open in a run; empty where it holds."""
        reasons = []
        held = self.holds_for(current)
        if held is not None and held < time:
            reasons.append("current")
        if self.low_volts is not None and terminal_volts < self.low_volts:
            reasons.append("low volts")
        if self.discharge_coldest is not None and temperature < self.discharge_coldest:
            reasons.append("cold")
        return tuple(reasons)
