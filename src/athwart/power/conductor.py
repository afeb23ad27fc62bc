"""Copper conductors: resistance from the standard's table or from the area, gauge sizes, volts lost on a route.

Two lengths never to be mixed: ``run`` is one way, ``loop_length`` is there and back (plus route and minus route added). Two
kinds of voltage drop, both always shown: the physical one, at the conductor's own temperature, and a rule's, which has a
fixed resistivity inside and flatters thick flexible cable.
"""

from __future__ import annotations

from math import log, pi

from athwart.errors import UnknownName
from athwart.explain import formula
from athwart.power.conductor_data import AWG_SIZES, IEC_60228, IEC_60228_COLUMNS, SAE_GAUGE
from athwart.units.names import (
    Ampere,
    HenryPerMetre,
    Kelvin,
    Metre,
    Ohm,
    OhmMetre,
    OhmPerMetre,
    PerKelvin,
    Ratio,
    SquareMetre,
    Volt,
)

RHO_CU: OhmMetre = 1.7241e-8
ALPHA_CU: PerKelvin = 0.00393
T_REF: Kelvin = 293.15
COPPER_ZERO: Kelvin = 273.15 - 234.5  # where the straight line of copper's resistance crosses zero
COPPER_SPAN: Kelvin = 254.5
CORRECTION_ZERO: Kelvin = 273.15 - 230.0
CORRECTION_SPAN: Kelvin = 250.0
CIRCULAR_MIL: SquareMetre = 5.067075e-10
RHO_METRIC_RULE: OhmMetre = 1.64e-8  # 0.0164 ohm·mm²/m
RHO_US_RULE: OhmMetre = 10.75 * 5.067075e-10 / 0.3048  # 10.75 ohm·cmil/ft
AWG_36: Metre = 0.005 * 0.0254
MU_0: HenryPerMetre = 4e-7 * pi
COLDEST: Kelvin = 223.15
HOTTEST: Kelvin = 473.15
PREDICTED_SHARE: Ratio = 0.97  # a real cable lies this far below the table's upper limit, give or take 3 %


@formula("R/R₂₀", "1", "1 + ALPHA_CU * (temperature - T_REF)", source="iec-60287-1-1", valid="-50 to 200 °C")
def resistance_factor(temperature: Kelvin) -> Ratio:
    """Resistance of copper against its value at 20 °C.

    Parameters
    ----------
    temperature : Conductor temperature. [K]

    Examples
    --------
    >>> round(resistance_factor(333.15), 4)
    1.1572
    """
    if not COLDEST <= temperature <= HOTTEST:
        raise ValueError(f"a conductor at {temperature - 273.15:.0f} °C; the straight line of copper holds from -50 to 200 °C")
    return 1.0 + ALPHA_CU * (temperature - T_REF)


@formula(
    "f",
    "1",
    "CORRECTION_SPAN / (temperature - CORRECTION_ZERO)",
    source="iec-60228-correction",
    valid="measurements near room temperature",
)
def measurement_correction(temperature: Kelvin) -> Ratio:
    """Factor that brings a measured conductor resistance back to 20 °C, to be judged against the standard's table.

    Not for predictions: it differs from :func:`resistance_factor` by 0.24 % at 60 °C.

    Parameters
    ----------
    temperature : Conductor temperature during the measurement. [K]

    Examples
    --------
    >>> round(measurement_correction(333.15), 3), round(measurement_correction(373.15), 3)
    (0.862, 0.758)
    """
    return CORRECTION_SPAN / (temperature - CORRECTION_ZERO)


@formula("R′", "Ω/m", "largest resistance at 20 °C of the row and column of IEC 60228", source="iec-60228", kind="table")
def iec60228_resistance(area: SquareMetre, construction: str = "class 5", tinned: bool = False) -> OhmPerMetre:
    """Largest resistance per metre at 20 °C that the standard allows for a nominal size.

    An upper limit: pass or fail is judged on it; a real cable lies about 3 % below (:data:`PREDICTED_SHARE`).

    Parameters
    ----------
    area : Nominal cross-section. [m²]
    construction : ``class 2`` (stranded) or ``class 5`` (flexible).
    tinned : Whether the strands are tinned.

    Examples
    --------
    >>> round(iec60228_resistance(70e-6) * 1e3, 4)
    0.272
    """
    if (construction, tinned) not in IEC_60228_COLUMNS:
        raise ValueError(f"conductor class {construction!r}; the table has class 2 and class 5")
    row = IEC_60228.get(round(area * 1e6, 3))
    if row is None:
        sizes = ", ".join(f"{size:g}" for size in IEC_60228)
        raise ValueError(f"{area * 1e6:g} mm² is no nominal size of IEC 60228; allowed: {sizes} mm²")
    return row[IEC_60228_COLUMNS.index((construction, tinned))] * 1e-3


@formula("R′", "Ω/m", "RHO_CU * resistance_factor(temperature) / area", source="iec-60287-1-1", valid="-50 to 200 °C")
def resistance_per_metre(area: SquareMetre, temperature: Kelvin = T_REF) -> OhmPerMetre:
    """Resistance per metre of a conductor of solid copper of this area.

    Strands lie askew: 2 % (concentric) to 8 % (fine rope) more. Prefer the standard's table for a metric cable.

    Parameters
    ----------
    area : Cross-section of one conductor. [m²]
    temperature : Mean conductor temperature. [K]

    Examples
    --------
    >>> round(resistance_per_metre(awg_area(-1)) * 1e3, 4)
    0.2557
    """
    return RHO_CU * resistance_factor(temperature) / area


@formula("R", "Ω", "resistance_20 * resistance_factor(temperature) * length", source="iec-60287-1-1", valid="-50 to 200 °C")
def conductor_resistance(resistance_20: OhmPerMetre, length: Metre, temperature: Kelvin = T_REF) -> Ohm:
    """Resistance of a length of conductor at its temperature.

    Parameters
    ----------
    resistance_20 : Resistance per metre at 20 °C. [Ω/m]
    length : Length of this conductor, one way. [m]
    temperature : Mean conductor temperature. [K]
    """
    return resistance_20 * resistance_factor(temperature) * length


@formula(
    "R",
    "Ω",
    "resistance_20 * resistance_factor(temperature) * (plus_run + minus_run)",
    source="iec-60287-1-1",
    valid="-50 to 200 °C",
)
def route_resistance(resistance_20: OhmPerMetre, plus_run: Metre, minus_run: Metre, temperature: Kelvin = T_REF) -> Ohm:
    """Resistance of a pair whose plus and minus take routes of their own.

    Parameters
    ----------
    resistance_20 : Resistance per metre of one conductor at 20 °C. [Ω/m]
    plus_run : One-way length of the plus route. [m]
    minus_run : One-way length of the minus route. [m]
    temperature : Mean conductor temperature. [K]
    """
    return resistance_20 * resistance_factor(temperature) * (plus_run + minus_run)


@formula(
    "ΔU",
    "V",
    "current * RHO_CU * (1 + ALPHA_CU * (temperature - T_REF)) * 2 * run / area",
    source="iec-60287-1-1",
    valid="-50 to 200 °C, copper",
)
def loop_voltage_drop(current: Ampere, run: Metre, area: SquareMetre, temperature: Kelvin = T_REF) -> Volt:
    """Volts lost in a copper pair, out and back.

    Direct current: no skin effect, no inductance; joints, fuse and switch not included. The route is paid twice.

    Parameters
    ----------
    current : Current at the motor's terminals. [A]
    run : One-way length of the route; the conductor is twice as long. [m]
    area : Cross-section of one conductor. [m²]
    temperature : Mean conductor temperature. [K]

    Notes
    -----
    Solid copper of that area. A flexible (class 5) cable has up to 12 % more ohms than its nominal area says: where the cable
    is known, :func:`route_voltage_drop` with the standard's ohms per metre is the better figure.

    Examples
    --------
    300 A over an 8 m route in 70 mm², cold, then at 60 °C:

    >>> round(loop_voltage_drop(300.0, 8.0, 70e-6), 3), round(loop_voltage_drop(300.0, 8.0, 70e-6, 333.15), 3)
    (1.182, 1.368)
    """
    return current * RHO_CU * resistance_factor(temperature) * 2.0 * run / area


@formula(
    "ΔU",
    "V",
    "current * resistance_20 * (1 + ALPHA_CU * (temperature - T_REF)) * (plus_run + minus_run)",
    source="iec-60228",
    valid="-50 to 200 °C, copper",
)
def route_voltage_drop(
    current: Ampere, resistance_20: OhmPerMetre, plus_run: Metre, minus_run: Metre, temperature: Kelvin = T_REF
) -> Volt:
    """Volts lost in a pair with plus and minus routes of their own, from the cable's ohms per metre.

    Parameters
    ----------
    current : Current in the pair. [A]
    resistance_20 : Resistance per metre of one conductor at 20 °C, from the table or the maker. [Ω/m]
    plus_run : One-way length of the plus route. [m]
    minus_run : One-way length of the minus route. [m]
    temperature : Mean conductor temperature. [K]

    Examples
    --------
    >>> round(route_voltage_drop(300.0, 0.272e-3, 8.0, 8.0, 333.15), 4)
    1.5108
    """
    return current * resistance_20 * resistance_factor(temperature) * (plus_run + minus_run)


@formula("ΔU", "V", "current * resistance", source="own-arithmetic")
def resistance_voltage_drop(current: Ampere, resistance: Ohm) -> Volt:
    """Volts lost in any piece of the path: joint, fuse, switch, link.

    Parameters
    ----------
    current : Current through the piece. [A]
    resistance : Its resistance. [Ω]
    """
    return current * resistance


@formula("ΔU", "V", "RHO_METRIC_RULE * current * loop_length / area", source="iso-10133-drop", valid="a rule, not a prediction")
def metric_rule_voltage_drop(current: Ampere, loop_length: Metre, area: SquareMetre) -> Volt:
    """Voltage drop by the metric small-craft rule with its 0.0164 Ω·mm²/m: copper at 7.6 °C, so optimistic.

    Parameters
    ----------
    current : Current. [A]
    loop_length : Conductor there and back. [m]
    area : Cross-section of one conductor. [m²]

    Examples
    --------
    >>> round(metric_rule_voltage_drop(300.0, 16.0, 70e-6), 4)
    1.1246
    """
    return RHO_METRIC_RULE * current * loop_length / area


@formula("ΔU", "V", "RHO_US_RULE * current * loop_length / area", source="us-drop-rule", valid="a rule, not a prediction")
def us_rule_voltage_drop(current: Ampere, loop_length: Metre, area: SquareMetre) -> Volt:
    """Voltage drop by the US rule with its 10.75 Ω·cmil/ft: copper at 29 °C.

    Parameters
    ----------
    current : Current. [A]
    loop_length : Conductor there and back. [m]
    area : Cross-section of one conductor. [m²]

    Examples
    --------
    >>> round(us_rule_voltage_drop(300.0, 16.0, 70e-6), 4)
    1.2254
    """
    return RHO_US_RULE * current * loop_length / area


@formula("S", "m²", "RHO_US_RULE * current * loop_length / allowed_drop", source="us-drop-rule", valid="a rule, not a prediction")
def us_rule_area(current: Ampere, loop_length: Metre, allowed_drop: Volt) -> SquareMetre:
    """Least cross-section by the US rule, CM = 10.75 I L / E; the next larger size is taken.

    Parameters
    ----------
    current : Current. [A]
    loop_length : Conductor there and back. [m]
    allowed_drop : Volts that may be lost. [V]
    """
    return RHO_US_RULE * current * loop_length / allowed_drop


@formula(
    "S", "m²", "RHO_METRIC_RULE * current * loop_length / allowed_drop", source="iso-10133-drop", valid="a rule, not a prediction"
)
def metric_rule_area(current: Ampere, loop_length: Metre, allowed_drop: Volt) -> SquareMetre:
    """Least cross-section by the metric rule; the next larger size is taken.

    Parameters
    ----------
    current : Current. [A]
    loop_length : Conductor there and back. [m]
    allowed_drop : Volts that may be lost. [V]
    """
    return RHO_METRIC_RULE * current * loop_length / allowed_drop


@formula("L₂", "m", "COPPER_SPAN * run / (temperature - COPPER_ZERO)", source="faa-ac-43-13-1b", valid="-50 to 200 °C")
def run_when_hot(run: Metre, temperature: Kelvin) -> Metre:
    """Longest run for the same drop when the conductor is hot, from the run allowed at 20 °C.

    Parameters
    ----------
    run : Run allowed at 20 °C. [m]
    temperature : Conductor temperature. [K]
    """
    return COPPER_SPAN * run / (temperature - COPPER_ZERO)


@formula("d", "m", "AWG_36 * 92 ** ((36 - gauge) / 39)", source="astm-b258", valid="AWG 40 to 4/0")
def awg_diameter(gauge: Ratio) -> Metre:
    """Diameter of a solid conductor of an AWG number; 1/0 to 4/0 are 0, -1, -2 and -3.

    Parameters
    ----------
    gauge : AWG number. [1]

    Examples
    --------
    >>> round(awg_diameter(-3) / 0.0254, 4)
    0.46
    """
    return float(AWG_36 * 92.0 ** ((36.0 - gauge) / 39.0))


@formula("S", "m²", "pi / 4 * AWG_36 ** 2 * 92 ** ((36 - gauge) / 19.5)", source="astm-b258", valid="AWG 40 to 4/0")
def awg_area(gauge: Ratio) -> SquareMetre:
    """Copper area of a true AWG number. "SAE gauge" battery cable of the same number has 3 to 11 % less.

    Parameters
    ----------
    gauge : AWG number, 1/0 to 4/0 being 0 to -3. [1]

    Examples
    --------
    >>> round(awg_area(awg_number("2/0")) * 1e6, 2)
    67.43
    """
    return float(pi / 4.0 * AWG_36**2 * 92.0 ** ((36.0 - gauge) / 19.5))


@formula("L′", "H/m", "MU_0 / pi * (log(spacing / radius) + 0.25)", source="electromagnetics-textbook", valid="spacing > radius")
def loop_inductance(spacing: Metre, radius: Metre) -> HenryPerMetre:
    """Inductance of a pair of round conductors per metre of run.

    Parameters
    ----------
    spacing : Between the conductors' axes. [m]
    radius : Radius of the copper. [m]

    Examples
    --------
    A touching pair of 70 mm², then 0.3 m apart, in µH/m:

    >>> round(loop_inductance(0.016, 0.0062) * 1e6, 2), round(loop_inductance(0.3, 0.0062) * 1e6, 2)
    (0.48, 1.65)
    """
    if spacing <= radius:
        raise ValueError(f"axes {spacing:g} m apart lie inside a conductor of radius {radius:g} m")
    return MU_0 / pi * (log(spacing / radius) + 0.25)


def awg_number(name: str) -> int:
    """AWG number of a written size: ``"10"`` is 10, ``"1/0"`` is 0, ``"4/0"`` is -3."""
    text = name.strip().upper().removesuffix("AWG").strip()
    noughts, slash, zero = text.partition("/")
    if slash and zero.strip() == "0" and noughts.strip() in {"1", "2", "3", "4"}:
        return 1 - int(noughts)
    if text.isdigit() and int(text) <= 40:
        return int(text)
    raise ValueError(f"{name!r} is no AWG size; allowed: 40 to 1, 1/0, 2/0, 3/0, 4/0")


def awg_name(gauge: int) -> str:
    """Written size of an AWG number."""
    if not -3 <= gauge <= 40:
        raise ValueError(f"AWG number {gauge}; allowed: -3 (4/0) to 40")
    return str(gauge) if gauge > 0 else f"{1 - gauge}/0"


def awg_at_least(area: SquareMetre, sizes: tuple[str, ...] = AWG_SIZES) -> str:
    """Thinnest of ``sizes`` whose true area is not less than ``area``."""
    for size in sizes:
        if awg_area(awg_number(size)) >= area * (1.0 - 1e-9):
            return size
    raise ValueError(f"{area * 1e6:.1f} mm² is more than one conductor of {sizes[-1]} AWG holds")


def sae_area(size: str) -> SquareMetre:
    """Copper area of an SAE gauge."""
    if size not in SAE_GAUGE:
        raise UnknownName("SAE gauge", size, nearest="2/0")
    return SAE_GAUGE[size] * CIRCULAR_MIL
