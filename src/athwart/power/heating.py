"""Heat in conductors: the adiabatic limit of a short circuit, the heat balance of a cable for minutes and for ever.

Seconds: all heat stays in the copper (k values). Minutes: one node per metre of cable, its resistance rising with temperature,
its heat leaving through a constant thermal resistance; that has a closed form, and a current above which it never settles.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, expm1, inf, log, log1p, log10, pi, sqrt

from athwart.errors import NotComputed
from athwart.explain import formula
from athwart.power.conductor import ALPHA_CU, COPPER_SPAN, COPPER_ZERO, RHO_CU, T_REF, resistance_factor
from athwart.units.names import (
    Ampere,
    AmperePerSquareMetre,
    AmpereRootSecondPerSquareMetre,
    AmpereSquaredSecond,
    JoulePerKelvinCubicMetre,
    JoulePerKelvinMetre,
    Kelvin,
    KelvinMetrePerWatt,
    KelvinPerSecond,
    Metre,
    MetreFourthPerAmpereSquaredSecond,
    MetrePerRootSecond,
    OhmPerMetre,
    Ratio,
    Second,
    SquareMetre,
    SquareMetrePerSecond,
    WattPerMetre,
    WattPerSquareMetreAir,
)

COPPER_HEAT: JoulePerKelvinCubicMetre = 3.45e6
INSULATION_HEAT: JoulePerKelvinCubicMetre = 1.85e6
INSULATION_SHARE: Ratio = 0.5  # share of the insulation's heat that counts with the copper (Van Wormer)
STRAND_FILL: Ratio = 0.75  # share of its circle that stranded copper fills
COPPER_MELTS: Kelvin = 273.15 + 1083.0
ONDERDONK_ZERO: Kelvin = 273.15 - 234.0
ONDERDONK: MetreFourthPerAmpereSquaredSecond = 33.0 * 5.067075e-10**2
AIR_Z: WattPerSquareMetreAir = 0.21
AIR_E: WattPerSquareMetreAir = 3.94
ONE_METRE: Metre = 1.0
ONE_KELVIN: Kelvin = 1.0
ADIABATIC_ENDS: Second = 5.0
OVERLOAD_ALLOWANCE: Kelvin = 25.0  # above the insulation's rating, in a rare overload of seconds to minutes


class ThermalRunaway(NotComputed, ValueError):
    """A current at which a cable's heat grows faster with its temperature than it leaves: there is no steady state."""

    def __init__(self, current: Ampere) -> None:
        super().__init__(f"at {current:.0f} A the cable never settles: its heat grows faster with temperature than it leaves")
        self.current = current


@dataclass(frozen=True, slots=True)
class Insulation:
    """Temperatures an insulation bears; ``final_thick`` is for conductors above 300 mm²."""

    name: str
    rated: Kelvin
    final: Kelvin
    source: str
    thermal_resistivity: float = 5.0  # K·m/W
    final_thick: Kelvin | None = None
    printed_constant: float | None = None  # A·√s/mm², core in a cable, start at the rating


def _celsius(value: float) -> float:
    return value + 273.15


#: Insulations by name. ``pvc 105`` is ours: the 160 °C of the standard's PVC with a boat cable's rating.
INSULATIONS: dict[str, Insulation] = {
    "pvc 70": Insulation("PVC rated 70 °C", _celsius(70), _celsius(160), "gost-r-50571-5-54", 5.0, _celsius(140), 115.0),
    "pvc 90": Insulation("PVC rated 90 °C", _celsius(90), _celsius(160), "gost-r-50571-5-54", 5.0, _celsius(140), 100.0),
    "xlpe 90": Insulation(
        "cross-linked polyethylene or EPR rated 90 °C", _celsius(90), _celsius(250), "gost-r-50571-5-54", 3.5, None, 143.0
    ),
    "rubber 60": Insulation("rubber rated 60 °C", _celsius(60), _celsius(200), "gost-r-50571-5-54", 5.0, None, 141.0),
    "rubber 85": Insulation("rubber rated 85 °C", _celsius(85), _celsius(220), "gost-r-50571-5-54", 5.0, None, 134.0),
    "silicone 180": Insulation("silicone rated 180 °C", _celsius(180), _celsius(350), "gost-r-50571-5-54", 5.0, None, 132.0),
    "pvc 105": Insulation("PVC boat cable rated 105 °C", _celsius(105), _celsius(160), "own-judgement", 5.0, _celsius(140), None),
}

#: IEC 949: (K in A·√s/mm², temperature in °C below which the resistance line is zero) of a metal
IEC_949: dict[str, tuple[float, float]] = {"copper": (226.0, 234.5), "aluminium": (148.0, 228.0), "steel": (78.0, 202.0)}
#: IEC 60949 non-adiabatic factors X in √(mm²/s) and Y in mm²/s, copper; from memory
NON_ADIABATIC: dict[str, tuple[float, float]] = {"pvc": (0.29, 0.06), "xlpe": (0.41, 0.12)}


def insulation_for(rated_temperature: Kelvin) -> Insulation:
    """The PVC whose rating is at or below this one, else 60 °C rubber: the careful guess where only a rating is known."""
    fitting = [INSULATIONS[key] for key in ("pvc 70", "pvc 90", "pvc 105") if INSULATIONS[key].rated <= rated_temperature + 1e-6]
    if not fitting:
        return Insulation("unknown, rated 60 °C", _celsius(60), _celsius(150), "own-judgement")
    return fitting[-1]


@formula(
    "k",
    "A·s^0.5/m²",
    "sqrt(COPPER_HEAT * COPPER_SPAN / RHO_CU * log((final_temperature - COPPER_ZERO) / (initial_temperature - COPPER_ZERO)))",
    source="iec-60364-5-54",
    valid="copper, to about 5 s",
)
def adiabatic_constant(initial_temperature: Kelvin, final_temperature: Kelvin) -> AmpereRootSecondPerSquareMetre:
    """The k of the adiabatic equation: no heat leaves the copper.

    Parameters
    ----------
    initial_temperature : Conductor temperature when the fault begins. [K]
    final_temperature : What its insulation bears for a moment. [K]

    Examples
    --------
    PVC in a cable, 70 to 160 °C, printed as 115 A·√s/mm²:

    >>> round(adiabatic_constant(343.15, 433.15) * 1e-6, 2)
    114.84
    """
    if final_temperature <= initial_temperature or initial_temperature <= COPPER_ZERO:
        raise ValueError(f"from {initial_temperature - 273.15:.0f} to {final_temperature - 273.15:.0f} °C is no rise")
    ratio = (final_temperature - COPPER_ZERO) / (initial_temperature - COPPER_ZERO)
    return sqrt(COPPER_HEAT * COPPER_SPAN / RHO_CU * log(ratio))


@formula("t", "s", "(constant * area / current) ** 2", source="iec-60364-5-54", valid="to about 5 s, careful beyond")
def adiabatic_time(current: Ampere, area: SquareMetre, constant: AmpereRootSecondPerSquareMetre) -> Second:
    """Longest time a conductor bears a fault current.

    Parameters
    ----------
    current : Fault current. [A]
    area : Cross-section. [m²]
    constant : k. [A·s^0.5/m²]

    Examples
    --------
    >>> round(adiabatic_time(2400.0, 70e-6, 115e6), 2)
    11.25
    """
    return (constant * area / current) ** 2


@formula("S", "m²", "current * sqrt(time) / constant", source="iec-60364-5-54", valid="to about 5 s")
def adiabatic_area(current: Ampere, time: Second, constant: AmpereRootSecondPerSquareMetre) -> SquareMetre:
    """Least cross-section that bears a fault current for a time.

    Parameters
    ----------
    current : Fault current. [A]
    time : Until the fuse has opened. [s]
    constant : k. [A·s^0.5/m²]
    """
    return current * sqrt(time) / constant


@formula("k²S²", "A²·s", "constant ** 2 * area ** 2", source="iec-60364-5-54")
def cable_withstand(area: SquareMetre, constant: AmpereRootSecondPerSquareMetre) -> AmpereSquaredSecond:
    """I²t a conductor bears.

    Parameters
    ----------
    area : Cross-section. [m²]
    constant : k. [A·s^0.5/m²]
    """
    return constant**2 * area**2


@formula("I²t", "A²·s", "current ** 2 * time", source="own-arithmetic")
def let_through(current: Ampere, time: Second) -> AmpereSquaredSecond:
    """I²t of a constant current.

    Parameters
    ----------
    current : Current. [A]
    time : Its duration. [s]
    """
    return current**2 * time


@formula(
    "θ",
    "K",
    "COPPER_ZERO + (initial_temperature - COPPER_ZERO)"
    " * exp((current / area) ** 2 * time * RHO_CU / (COPPER_HEAT * COPPER_SPAN))",
    source="iec-60364-5-54",
    valid="copper, to about 5 s",
)
def adiabatic_temperature(current: Ampere, area: SquareMetre, time: Second, initial_temperature: Kelvin) -> Kelvin:
    """Conductor temperature after a fault current of some seconds, all heat kept.

    Parameters
    ----------
    current : Fault current. [A]
    area : Cross-section. [m²]
    time : Its duration. [s]
    initial_temperature : Conductor temperature at the start. [K]

    Examples
    --------
    >>> round(adiabatic_temperature(2400.0, 70e-6, 5.0, 343.15) - 273.15, 2)
    107.25
    """
    return COPPER_ZERO + (initial_temperature - COPPER_ZERO) * exp(
        (current / area) ** 2 * time * RHO_CU / (COPPER_HEAT * COPPER_SPAN)
    )


@formula(
    "dθ/dt",
    "K/s",
    "current_density ** 2 * RHO_CU * (1 + ALPHA_CU * (temperature - T_REF)) / COPPER_HEAT",
    source="own-arithmetic",
    valid="copper, no heat leaving",
)
def adiabatic_rate(current_density: AmperePerSquareMetre, temperature: Kelvin) -> KelvinPerSecond:
    """How fast copper heats when none of it leaves: windings in the first seconds of a stall.

    Parameters
    ----------
    current_density : Current over cross-section. [A/m²]
    temperature : Temperature of the copper now. [K]

    Examples
    --------
    >>> round(adiabatic_rate(10e6, 348.15), 3)
    0.608
    """
    return current_density**2 * RHO_CU * resistance_factor(temperature) / COPPER_HEAT


@formula(
    "I",
    "A",
    "area / sqrt(ONDERDONK)"
    " * sqrt(log10(1 + (COPPER_MELTS - ambient_temperature) / (ambient_temperature - ONDERDONK_ZERO)) / time)",
    source="onderdonk",
    valid="to about 10 s; melting, never a design limit",
)
def melting_current(area: SquareMetre, time: Second, ambient_temperature: Kelvin) -> Ampere:
    """Current that melts a copper conductor in a time (Onderdonk).

    Parameters
    ----------
    area : Cross-section. [m²]
    time : Time to melting. [s]
    ambient_temperature : Starting temperature. [K]

    Examples
    --------
    >>> round(melting_current(2581 * 5.067075e-10, 5.0, 298.15), 2)
    168.86
    """
    lift = (COPPER_MELTS - ambient_temperature) / (ambient_temperature - ONDERDONK_ZERO)
    return area / sqrt(ONDERDONK) * sqrt(log10(1.0 + lift) / time)


@formula(
    "ε",
    "1",
    "sqrt(1 + x * sqrt(time / area) + y * time / area)",
    source="iec-60949-non-adiabatic",
    valid="seconds; for minutes use the heat balance",
)
def non_adiabatic_factor(time: Second, area: SquareMetre, x: MetrePerRootSecond, y: SquareMetrePerSecond) -> Ratio:
    """How much more current than the adiabatic one, heat into the insulation counted.

    Parameters
    ----------
    time : Duration of the fault. [s]
    area : Cross-section. [m²]
    x : First factor of the insulation. [m/s^0.5]
    y : Second factor of the insulation. [m²/s]
    """
    return sqrt(1.0 + x * sqrt(time / area) + y * time / area)


# ---- the heat balance of a cable, per metre


@formula(
    "T₁",
    "K·m/W",
    "resistivity / (2 * pi) * log(outer_diameter / conductor_diameter)",
    source="iec-60287-2-1",
    valid="one core, outer > conductor",
)
def insulation_thermal_resistance(
    conductor_diameter: Metre, outer_diameter: Metre, resistivity: KelvinMetrePerWatt
) -> KelvinMetrePerWatt:
    """Thermal resistance of the insulation of a single core.

    Parameters
    ----------
    conductor_diameter : Over the copper. [m]
    outer_diameter : Over the insulation. [m]
    resistivity : Thermal resistivity of the insulation, 5.0 for PVC, 3.5 for XLPE. [K·m/W]
    """
    if outer_diameter <= conductor_diameter:
        raise ValueError(
            f"outer diameter {outer_diameter * 1e3:g} mm is not more than the copper's {conductor_diameter * 1e3:g} mm"
        )
    return resistivity / (2.0 * pi) * log(outer_diameter / conductor_diameter)


@formula(
    "q′",
    "W/m",
    "pi * outer_diameter * (AIR_Z / (outer_diameter / ONE_METRE) ** 0.6 + AIR_E) * rise ** 1.25",
    source="iec-60287-2-1-air",
    valid="single cable in free still air",
)
def surface_heat(outer_diameter: Metre, rise: Kelvin) -> WattPerMetre:
    """Heat a single cable gives to free air per metre.

    Parameters
    ----------
    outer_diameter : Over the insulation. [m]
    rise : Surface above the air. [K]
    """
    return float(pi * outer_diameter * (AIR_Z / outer_diameter**0.6 + AIR_E) * rise**1.25)


@formula(
    "C′",
    "J/(K·m)",
    "COPPER_HEAT * area + INSULATION_SHARE * INSULATION_HEAT * (pi / 4 * outer_diameter ** 2 - area / STRAND_FILL)",
    source="cable-heat-capacity",
    valid="single core",
)
def heat_capacity(area: SquareMetre, outer_diameter: Metre) -> JoulePerKelvinMetre:
    """Heat capacity of a cable per metre: the copper and half of its insulation.

    Parameters
    ----------
    area : Copper cross-section. [m²]
    outer_diameter : Over the insulation. [m]
    """
    return COPPER_HEAT * area + INSULATION_SHARE * INSULATION_HEAT * (pi / 4.0 * outer_diameter**2 - area / STRAND_FILL)


@dataclass(frozen=True, slots=True)
class Cable:
    """One metre of cable as a thermal node; ``area`` and ``insulation`` serve the short-circuit limit."""

    area: SquareMetre
    resistance_20: OhmPerMetre
    thermal_resistance: KelvinMetrePerWatt
    heat_capacity: JoulePerKelvinMetre
    insulation: Insulation


def cable(
    area: SquareMetre,
    resistance_20: OhmPerMetre,
    outer_diameter: Metre,
    insulation: Insulation,
    surface_rise: Kelvin = 40.0,
    together: Ratio = 1.0,
) -> Cable:
    """A cable in still air as a thermal node.

    Parameters
    ----------
    area : Copper cross-section. [m²]
    resistance_20 : Resistance per metre at 20 °C. [Ω/m]
    outer_diameter : Over the insulation. [m]
    insulation : Its temperatures and thermal resistivity.
    surface_rise : Surface above the air at which the outer film is taken; a low value is the careful side. [K]
    together : Share of the free-air heat that still leaves when cables touch or lie in a bundle, about 0.8 for a pair. [1]
    """
    conductor_diameter = min(sqrt(4.0 * area / (pi * STRAND_FILL)), 0.95 * outer_diameter)
    inner = insulation_thermal_resistance(conductor_diameter, outer_diameter, insulation.thermal_resistivity)
    outer = surface_rise / surface_heat(outer_diameter, surface_rise) / together
    return Cable(area, resistance_20, inner + outer, heat_capacity(area, outer_diameter), insulation)


@formula(
    "τ",
    "s",
    "heat_capacity / (1 / thermal_resistance - current ** 2 * resistance_20 * ALPHA_CU)",
    source="own-arithmetic",
    valid="positive only below the current of thermal runaway",
)
def cable_time_constant(
    current: Ampere, resistance_20: OhmPerMetre, thermal_resistance: KelvinMetrePerWatt, heat_capacity: JoulePerKelvinMetre
) -> Second:
    """Time constant of a cable that carries a current; the hotter copper's extra ohms make it longer.

    Parameters
    ----------
    current : Current. [A]
    resistance_20 : Resistance per metre at 20 °C. [Ω/m]
    thermal_resistance : From copper to air, per metre. [K·m/W]
    heat_capacity : Per metre. [J/(K·m)]

    Examples
    --------
    >>> round(cable_time_constant(300.0, 0.272e-3, 1.2, 320.0), 2)
    434.12
    """
    slope = 1.0 / thermal_resistance - current**2 * resistance_20 * ALPHA_CU
    if slope <= 0.0:
        raise ThermalRunaway(current)
    return heat_capacity / slope


@formula(
    "θ∞",
    "K",
    "(current ** 2 * resistance_20 * (1 - ALPHA_CU * T_REF) + ambient_temperature / thermal_resistance)"
    " / (1 / thermal_resistance - current ** 2 * resistance_20 * ALPHA_CU)",
    source="own-arithmetic",
    valid="below the current of thermal runaway",
)
def steady_temperature(
    current: Ampere, resistance_20: OhmPerMetre, thermal_resistance: KelvinMetrePerWatt, ambient_temperature: Kelvin
) -> Kelvin:
    """Temperature a cable settles at.

    Parameters
    ----------
    current : Current. [A]
    resistance_20 : Resistance per metre at 20 °C. [Ω/m]
    thermal_resistance : From copper to air, per metre. [K·m/W]
    ambient_temperature : Air. [K]

    Examples
    --------
    >>> round(steady_temperature(300.0, 0.272e-3, 1.2, 313.15) - 273.15, 2)
    75.82
    """
    slope = 1.0 / thermal_resistance - current**2 * resistance_20 * ALPHA_CU
    if slope <= 0.0:
        raise ThermalRunaway(current)
    return (current**2 * resistance_20 * (1.0 - ALPHA_CU * T_REF) + ambient_temperature / thermal_resistance) / slope


@formula("θ", "K", "the cable's heat balance integrated in closed form, runaway included", source="own-arithmetic", kind="table")
def temperature_after(
    time: Second,
    current: Ampere,
    resistance_20: OhmPerMetre,
    thermal_resistance: KelvinMetrePerWatt,
    heat_capacity: JoulePerKelvinMetre,
    ambient_temperature: Kelvin,
    initial_temperature: Kelvin,
) -> Kelvin:
    """Cable temperature after a time at constant current.

    Parameters
    ----------
    time : Since the current began. [s]
    current : Current. [A]
    resistance_20 : Resistance per metre at 20 °C. [Ω/m]
    thermal_resistance : From copper to air, per metre. [K·m/W]
    heat_capacity : Per metre. [J/(K·m)]
    ambient_temperature : Air. [K]
    initial_temperature : Cable at the start. [K]

    Examples
    --------
    >>> round(temperature_after(180.0, 300.0, 0.272e-3, 1.2, 320.0, 313.15, 313.15) - 273.15, 3)
    52.158
    """
    slope = 1.0 / thermal_resistance - current**2 * resistance_20 * ALPHA_CU
    rate = _rate(current, resistance_20, thermal_resistance, heat_capacity, ambient_temperature, initial_temperature)
    return initial_temperature + rate * _effective(time, slope / heat_capacity)


@formula("t", "s", "time at which the cable's heat balance reaches a temperature", source="own-arithmetic", kind="table")
def time_to_temperature(
    limit_temperature: Kelvin,
    current: Ampere,
    resistance_20: OhmPerMetre,
    thermal_resistance: KelvinMetrePerWatt,
    heat_capacity: JoulePerKelvinMetre,
    ambient_temperature: Kelvin,
    initial_temperature: Kelvin,
) -> Second:
    """How long a cable may carry a current before it reaches a temperature; infinite where it never does.

    Parameters
    ----------
    limit_temperature : Temperature not to be passed. [K]
    current : Current. [A]
    resistance_20 : Resistance per metre at 20 °C. [Ω/m]
    thermal_resistance : From copper to air, per metre. [K·m/W]
    heat_capacity : Per metre. [J/(K·m)]
    ambient_temperature : Air. [K]
    initial_temperature : Cable at the start. [K]

    Examples
    --------
    From 40 to 90 °C at 450 A, in seconds:

    >>> round(time_to_temperature(363.15, 450.0, 0.272e-3, 1.2, 320.0, 313.15, 313.15), 1)
    379.8
    """
    if initial_temperature >= limit_temperature:
        return 0.0
    slope = (1.0 / thermal_resistance - current**2 * resistance_20 * ALPHA_CU) / heat_capacity
    rate = _rate(current, resistance_20, thermal_resistance, heat_capacity, ambient_temperature, initial_temperature)
    if rate <= 0.0:
        return inf
    reach = (limit_temperature - initial_temperature) / rate
    if abs(slope) * reach < 1e-12:
        return reach
    share = slope * reach
    return inf if share >= 1.0 else -log1p(-share) / slope


@formula(
    "I",
    "A",
    "sqrt((limit_temperature - ambient_temperature)"
    " / (thermal_resistance * resistance_20 * (1 + ALPHA_CU * (limit_temperature - T_REF))))",
    source="own-arithmetic",
    valid="heat balance; a rule's table may allow less",
)
def settled_current(
    limit_temperature: Kelvin, resistance_20: OhmPerMetre, thermal_resistance: KelvinMetrePerWatt, ambient_temperature: Kelvin
) -> Ampere:
    """Current at which a cable settles at a temperature.

    Parameters
    ----------
    limit_temperature : Temperature it settles at. [K]
    resistance_20 : Resistance per metre at 20 °C. [Ω/m]
    thermal_resistance : From copper to air, per metre. [K·m/W]
    ambient_temperature : Air, cooler than the limit. [K]
    """
    if ambient_temperature >= limit_temperature:
        raise ValueError(f"air at {ambient_temperature - 273.15:.0f} °C leaves nothing up to {limit_temperature - 273.15:.0f} °C")
    hot = resistance_20 * resistance_factor(limit_temperature)
    return sqrt((limit_temperature - ambient_temperature) / (thermal_resistance * hot))


@formula("I/I₀", "1", "1 / sqrt(1 - exp(-time / time_constant))", source="own-arithmetic", valid="from cold, one node")
def short_time_gain(time: Second, time_constant: Second) -> Ratio:
    """How much more than its continuous current a part bears for a short time from cold.

    Parameters
    ----------
    time : Duration of the load. [s]
    time_constant : Of the part. [s]

    Examples
    --------
    >>> round(short_time_gain(180.0, 600.0), 4)
    1.9643
    """
    return 1.0 / sqrt(-expm1(-time / time_constant))


def withstand_time(part: Cable, current: Ampere, ambient_temperature: Kelvin, initial_temperature: Kelvin) -> Second:
    """How long a cable bears an overload or a fault: its damage curve.

    Within 5 s the insulation's short-circuit temperature counts, with all heat kept; beyond, the heat balance up to
    :data:`OVERLOAD_ALLOWANCE` above the rating. Between them the curve stays at 5 s.
    """
    constant = adiabatic_constant(initial_temperature, part.insulation.final)
    fault = adiabatic_time(current, part.area, constant)
    if fault <= ADIABATIC_ENDS:
        return fault
    limit = min(part.insulation.rated + OVERLOAD_ALLOWANCE, part.insulation.final)
    overload = time_to_temperature(
        limit, current, part.resistance_20, part.thermal_resistance, part.heat_capacity, ambient_temperature, initial_temperature
    )
    return max(ADIABATIC_ENDS, overload)


def short_time_current(
    part: Cable, time: Second, limit_temperature: Kelvin, ambient_temperature: Kelvin, initial_temperature: Kelvin
) -> Ampere:
    """Current that brings a cable from its starting temperature to the limit in exactly this time (bisection to 1 mA)."""
    low, high = 0.0, 10.0
    node = (part.resistance_20, part.thermal_resistance, part.heat_capacity, ambient_temperature, initial_temperature)
    while time_to_temperature(limit_temperature, high, *node) > time:
        low, high = high, 2.0 * high
    while high - low > 1e-3:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if time_to_temperature(limit_temperature, middle, *node) > time else (low, middle)
    return low


def _rate(current: float, resistance_20: float, thermal: float, capacity: float, ambient: float, start: float) -> float:
    """Heating rate at the start, K/s; the straight line is used outside its range too, as the closed form does."""
    return (current**2 * resistance_20 * (1.0 + ALPHA_CU * (start - T_REF)) - (start - ambient) / thermal) / capacity


def _effective(time: float, slope: float) -> float:
    """Integral of exp(-slope t): time itself where the slope vanishes."""
    return time if abs(slope) * time < 1e-12 else -expm1(-slope * time) / slope
