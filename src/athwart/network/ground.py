"""Common negative: what shifts one node's negative against another's, how much a node bears, the size of the link.

A node without isolation reads the lines against its own negative. Joined negatives that carry nothing but the network's own
current keep all nodes level; a thruster's current through a shared conductor or joint lifts one of them, and the bus fails
exactly when the thruster starts. The cure is the joint, not the terminator.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from athwart.explain import formula
from athwart.units.names import (
    Ampere,
    AmpereRootSecondPerSquareMetre,
    AmpereSquaredSecond,
    Coulomb,
    Metre,
    Ohm,
    OhmMetre,
    OhmPerMetre,
    Ratio,
    Second,
    SquareMetre,
    Volt,
)

COMMON_MODE_LOW: Volt = -2.0
COMMON_MODE_HIGH: Volt = 7.0
DOMINANT_LOW: Volt = 1.5
DOMINANT_HIGH: Volt = 3.5
WARN_SHIFT: Volt = 1.0
RHO_CU: OhmMetre = 1.7241e-8
MID_TAP_CAUTION: Ratio = 0.02  # of a block's capacity a day
MID_TAP_STOP: Ratio = 0.10

METRIC_SIZES: tuple[SquareMetre, ...] = tuple(
    size * 1e-6 for size in (1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0, 120.0, 150.0, 185.0, 240.0)
)


@formula("R", "Ω", "RHO_CU * length / area + joints", source="iec-60287-1-1", valid="20 °C")
def shared_resistance(length: Metre, area: SquareMetre, joints: Ohm = 0.0) -> Ohm:
    """Resistance of a negative that thruster and node share.

    Parameters
    ----------
    length : Of the shared conductor, one way. [m]
    area : Of its copper. [m²]
    joints : In it, all together. [Ω]
    """
    return RHO_CU * length / area + joints


@formula("ΔU", "V", "current * resistance", source="own-arithmetic")
def negative_shift(current: Ampere, resistance: Ohm) -> Volt:
    """Shift of one node's negative against another's by a current through what they share.

    Parameters
    ----------
    current : Of the thruster. [A]
    resistance : Shared. [Ω]

    Examples
    --------
    400 A over 12 m of 70 mm², and over a joint of 10 mΩ:

    >>> round(negative_shift(400.0, shared_resistance(12.0, 70e-6)), 3), negative_shift(400.0, 0.010)
    (1.182, 4.0)
    """
    return current * resistance


@formula(
    "ΔU_max",
    "V",
    "min(COMMON_MODE_HIGH - high, low - COMMON_MODE_LOW)",
    source="common-mode-shift",
    valid="nominal levels of the lines",
)
def allowed_shift(low: Volt = DOMINANT_LOW, high: Volt = DOMINANT_HIGH) -> Volt:
    """Largest shift, either way, with which both lines stay in the range a node must bear.

    Parameters
    ----------
    low : Lowest level of a line at the talker. [V]
    high : Highest level of a line at the talker. [V]

    Examples
    --------
    >>> allowed_shift()
    3.5
    """
    return min(COMMON_MODE_HIGH - high, low - COMMON_MODE_LOW)


ShiftClass = Literal["level", "suspect", "out of range"]


def shift_class(shift: Volt) -> ShiftClass:
    """How grave a shift is: from 1 V a fault or a poor joint, beyond the allowed shift the bus fails.

    >>> shift_class(0.4), shift_class(-1.2), shift_class(12.0)
    ('level', 'suspect', 'out of range')
    """
    if abs(shift) > allowed_shift():
        return "out of range"
    return "suspect" if abs(shift) >= WARN_SHIFT else "level"


# ---- feeding from a block of a string


@formula("ΔU", "V", "block_volts * blocks_below", source="common-mode-shift")
def tap_shift(block_volts: Volt, blocks_below: int) -> Volt:
    """Shift of a network fed from a block that has others of the string below it.

    Parameters
    ----------
    block_volts : Of one block. [V]
    blocks_below : Blocks between its negative and the bank's.

    Examples
    --------
    >>> tap_shift(12.0, 1)
    12.0
    """
    return block_volts * blocks_below


@formula(
    "I_k",
    "A",
    "block_volts / (block_resistance + resistance_per_metre * length)",
    source="own-arithmetic",
    valid="until a fuse opens",
)
def tap_fault_current(block_volts: Volt, block_resistance: Ohm, resistance_per_metre: OhmPerMetre, length: Metre) -> Ampere:
    """Current through the network's negative when a network fed from an upper block touches the ship's negative.

    Parameters
    ----------
    block_volts : Of the blocks shorted, all together. [V]
    block_resistance : Of these blocks. [Ω]
    resistance_per_metre : Of the network's negative conductor. [Ω/m]
    length : Of it. [m]

    Examples
    --------
    >>> round(tap_fault_current(12.0, 0.005, 0.053, 3.0), 1)
    73.2
    """
    return block_volts / (block_resistance + resistance_per_metre * length)


@formula(
    "ΔQ", "C", "max(current * time - equaliser_current * equaliser_time, 0)", source="mid-tap-arithmetic", valid="equal blocks"
)
def tap_shortfall(current: Ampere, time: Second, equaliser_current: Ampere = 0.0, equaliser_time: Second = 0.0) -> Coulomb:
    """Charge the tapped block lies behind its mates after a time.

    Parameters
    ----------
    current : Of the load on the one block. [A]
    time : It was on. [s]
    equaliser_current : Of the equaliser. [A]
    equaliser_time : It ran. [s]

    Examples
    --------
    A week at 0.25 A, in ampere hours:

    >>> tap_shortfall(0.25, 7 * 86_400.0) / 3600.0
    42.0
    """
    return max(current * time - equaliser_current * equaliser_time, 0.0)


@formula("q", "1", "current * daily_time / capacity", source="mid-tap-arithmetic")
def tap_daily_share(current: Ampere, daily_time: Second, capacity: Coulomb) -> Ratio:
    """Share of a block's capacity that a load on it alone takes in a day.

    Parameters
    ----------
    current : Of the load on the one block. [A]
    daily_time : It is on a day. [s]
    capacity : Of the block. [C]
    """
    return current * daily_time / capacity


def tap_verdict(daily_share: Ratio, equaliser: bool) -> Literal["", "caution", "stop"]:
    """How grave a tap of the lower block is.

    >>> tap_verdict(0.01, True), tap_verdict(0.01, False), tap_verdict(0.05, True), tap_verdict(0.14, True)
    ('', 'caution', 'caution', 'stop')
    """
    if daily_share > MID_TAP_STOP:
        return "stop"
    return "caution" if daily_share > MID_TAP_CAUTION or not equaliser else ""


@formula("U", "V", "string_volts - lower_volts", source="mid-tap-arithmetic", valid="two equal blocks, one charger over both")
def upper_block_volts(string_volts: Volt, lower_volts: Volt) -> Volt:
    """Volts the untapped block gets when the charger holds the sum and the tapped one lies behind.

    Parameters
    ----------
    string_volts : The charger holds. [V]
    lower_volts : Of the tapped block. [V]

    Examples
    --------
    >>> round(upper_block_volts(28.8, 13.4), 2)
    15.4
    """
    return string_volts - lower_volts


# ---- the link between two banks' negatives


@formula("S", "m²", "sqrt(let_through) / constant", source="iec-60364-5-54", valid="to about 5 s")
def link_area_by_heat(let_through: AmpereSquaredSecond, constant: AmpereRootSecondPerSquareMetre) -> SquareMetre:
    """Least area of the negative link for the fault energy the fuses let through until they open.

    Parameters
    ----------
    let_through : Greatest I²t of bank's and chargers' fuses. [A²·s]
    constant : Adiabatic constant of the link's insulation. [A·s^0.5/m²]

    Examples
    --------
    2.5 kA for 0.8 s, 143 A·s^0.5/mm²:

    >>> round(link_area_by_heat(2500.0**2 * 0.8, 143e6) * 1e6, 1)
    15.6
    """
    return float(let_through**0.5 / constant)


def one_size_below(area: SquareMetre, sizes: Sequence[SquareMetre] = METRIC_SIZES) -> SquareMetre:
    """The next smaller size of a series; the smallest stays itself.

    >>> round(one_size_below(95e-6) * 1e6), round(one_size_below(2 * 70e-6) * 1e6)
    (70, 120)
    """
    known = sorted(sizes)
    held = [size for size in known if size <= area * (1.0 + 1e-6)]
    if not held:
        raise ValueError(f"{area * 1e6:g} mm² lies below the smallest size of the series, {known[0] * 1e6:g} mm²")
    in_series = held[-1] >= area * (1.0 - 1e-6)
    return held[-2] if in_series and len(held) > 1 else held[-1]


@dataclass(frozen=True, slots=True)
class LinkSize:
    """Size of a negative link and the rule that set it."""

    area: SquareMetre
    by_size: SquareMetre  # one size below the largest positive
    by_heat: SquareMetre  # least area for the let-through
    rules: Literal["one size below the largest positive", "let-through until the fuses open"]


def link_size(
    largest_positive: SquareMetre,
    let_through: AmpereSquaredSecond,
    constant: AmpereRootSecondPerSquareMetre,
    sizes: Sequence[SquareMetre] = METRIC_SIZES,
) -> LinkSize:
    """Smallest size of the series that is neither too thin for the rule nor for the fault.

    The link has no fuse and is never the screen or the network's own cable.

    >>> link_size(95e-6, 2500.0**2 * 0.8, 143e6).rules
    'one size below the largest positive'
    """
    by_size = one_size_below(largest_positive, sizes)
    by_heat = link_area_by_heat(let_through, constant)
    wanted = max(by_size, by_heat)
    fitting = [size for size in sorted(sizes) if size >= wanted * (1.0 - 1e-6)]
    if not fitting:
        raise ValueError(
            f"no size of the series carries the fault: {wanted * 1e6:.0f} mm² needed, largest {max(sizes) * 1e6:g} mm²"
        )
    rules: Literal["one size below the largest positive", "let-through until the fuses open"] = (
        "one size below the largest positive" if by_size >= by_heat else "let-through until the fuses open"
    )
    return LinkSize(fitting[0], by_size, by_heat, rules)
