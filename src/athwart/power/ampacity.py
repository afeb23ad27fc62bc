"""Continuous current a conductor may carry under a rule set, and the physics beside it.

A look-up never interpolates: a size between two rows takes the thinner row, a rating between two columns the cooler column,
both being on the safe side. Outside the table is an error. Rule sets are never mixed: each has its table, its factors, its
engine-space temperature.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import prod, sqrt

from athwart.explain import formula
from athwart.power import ampacity_data as data
from athwart.power.conductor import awg_area, awg_number
from athwart.sources import source
from athwart.units.names import Ampere, Kelvin, Ratio, SquareMetre

ICE: Kelvin = 273.15
RULE_SETS: tuple[str, ...] = ("iso small craft", "us")


@dataclass(frozen=True, slots=True)
class Factor:
    """One derating factor and where it comes from."""

    name: str
    value: float
    source: str


@dataclass(frozen=True, slots=True)
class Ampacity:
    """Allowed continuous current, how it was made and whether every figure in it was seen in its source."""

    value: float  # A
    table: float  # A, before factors
    row: str  # the row of the table that served, as printed there
    column: int  # rated insulation temperature of the column, °C
    factors: tuple[Factor, ...]
    source: str

    @property
    def sources(self) -> tuple[str, ...]:
        """Keys of all sources used."""
        return tuple(dict.fromkeys((self.source, *(factor.source for factor in self.factors))))

    @property
    def verified(self) -> bool:
        """Whether somebody saw every figure in its source."""
        return all(source(key).verified for key in self.sources)


@formula(
    "f",
    "1",
    "sqrt((insulation_temperature - ambient_temperature) / (insulation_temperature - reference_temperature))",
    source="ambient-factor",
    valid="air cooler than the insulation's rating",
)
def ambient_factor(insulation_temperature: Kelvin, ambient_temperature: Kelvin, reference_temperature: Kelvin = 303.15) -> Ratio:
    """Share of the tabled current left in warmer air, by heat balance.

    Parameters
    ----------
    insulation_temperature : Rated temperature of the insulation. [K]
    ambient_temperature : Temperature of the air there. [K]
    reference_temperature : Air temperature of the table. [K]

    Examples
    --------
    >>> round(ambient_factor(378.15, 323.15), 4)
    0.8563
    """
    if max(ambient_temperature, reference_temperature) >= insulation_temperature:
        raise ValueError(
            f"air at {ambient_temperature - ICE:.0f} °C round insulation rated {insulation_temperature - ICE:.0f} °C"
        )
    return sqrt((insulation_temperature - ambient_temperature) / (insulation_temperature - reference_temperature))


@formula("I", "A", "table_current * engine_space_factor * bundle_factor", source="own-arithmetic")
def derated_ampacity(table_current: Ampere, engine_space_factor: Ratio = 1.0, bundle_factor: Ratio = 1.0) -> Ampere:
    """Allowed continuous current after both factors of the rule.

    Parameters
    ----------
    table_current : Current of the table. [A]
    engine_space_factor : Factor for an engine space, 1 elsewhere. [1]
    bundle_factor : Factor for conductors lying together, 1 for one alone. [1]
    """
    return table_current * engine_space_factor * bundle_factor


@formula(
    "I", "A", "row of the thinner or equal size, column of the cooler or equal rating", source="33-cfr-183-425", kind="table"
)
def table_ampacity(rule_set: str, area: SquareMetre, insulation_temperature: Kelvin) -> Ampere:
    """Continuous current in 30 °C of air by the rule set's table, one conductor alone.

    Parameters
    ----------
    rule_set : ``iso small craft`` or ``us``.
    area : Cross-section of the conductor. [m²]
    insulation_temperature : Rated temperature of the insulation. [K]

    Examples
    --------
    >>> table_ampacity("iso small craft", 70e-6, 343.15), table_ampacity("us", awg_area(-1), 378.15)
    (265.0, 330.0)
    """
    _, _, current = _cell(rule_set, area, insulation_temperature)
    return current


def ampacity(
    rule_set: str,
    area: SquareMetre,
    insulation_temperature: Kelvin,
    engine_space: bool = False,
    bundle: int = 1,
) -> Ampacity:
    """Allowed continuous current of a conductor with its factors.

    Parameters
    ----------
    rule_set : ``iso small craft`` or ``us``.
    area : Cross-section of one conductor. [m²]
    insulation_temperature : Rated temperature of the insulation. [K]
    engine_space : Whether any of the route lies in an engine space.
    bundle : Loaded conductors lying together in one sheath, conduit or bunch, this one included.

    Notes
    -----
    The US law asks for its bundle factor only at 50 V and more; here it counts at any voltage, as in the voluntary standard.
    """
    row, column, current = _cell(rule_set, area, insulation_temperature)
    factors = []
    if engine_space:
        factors.append(engine_space_factor(rule_set, insulation_temperature))
    if bundle > 1:
        factors.append(bundle_factor(rule_set, bundle))
    if rule_set == "us":
        seen, printed = data.US_TABLE_SOURCE, f"{row} AWG"
    else:
        inside = column in data.ISO_SEEN_COLUMNS and float(row) <= data.ISO_SEEN_TO
        seen, printed = (data.ISO_SEEN_SOURCE if inside else data.ISO_MEMORY_SOURCE), f"{row} mm²"
    value = derated_ampacity(
        current, prod(f.value for f in factors if f.name == "engine space"), prod(f.value for f in factors if f.name == "bundle")
    )
    return Ampacity(value, current, printed, column, tuple(factors), seen)


def awg_ampacity(size: str, insulation_temperature: Kelvin, engine_space: bool = False, bundle: int = 1) -> Ampacity:
    """:func:`ampacity` of a true AWG size under the US rules."""
    return ampacity("us", awg_area(awg_number(size)), insulation_temperature, engine_space, bundle)


def engine_space_factor(rule_set: str, insulation_temperature: Kelvin) -> Factor:
    """Factor inside an engine space: air at 50 °C in the US rules, 60 °C in the ISO ones."""
    column = _column(rule_set, insulation_temperature)
    if rule_set == "us":
        return Factor("engine space", *data.US_ENGINE_SPACE[column])
    value = data.ISO_ENGINE_SPACE[column]
    if value is None:
        raise ValueError(
            f"insulation rated {insulation_temperature - ICE:.0f} °C is not allowed in an engine space; at least 70 °C is"
        )
    return Factor("engine space", value, data.ISO_FACTORS_SOURCE)


def bundle_factor(rule_set: str, conductors: int) -> Factor:
    """Factor for loaded conductors lying together."""
    if conductors < 1:
        raise ValueError(f"a bundle of {conductors} conductors")
    _known(rule_set)
    rows, key = (data.US_BUNDLES, data.US_BUNDLES_SOURCE) if rule_set == "us" else (data.ISO_BUNDLES, data.ISO_FACTORS_SOURCE)
    return Factor("bundle", next(value for least, value in reversed(rows) if conductors >= least), key)


def may_enter_engine_space(rule_set: str, insulation_temperature: Kelvin) -> bool:
    """Whether the rule set lets this insulation into an engine space at all."""
    return rule_set == "us" or data.ISO_ENGINE_SPACE[_column(rule_set, insulation_temperature)] is not None


def _cell(rule_set: str, area: float, insulation_temperature: float) -> tuple[str, int, float]:
    column = _column(rule_set, insulation_temperature)
    if rule_set == "us":
        fitting = [size for size in data.US_TABLE if awg_area(awg_number(size)) <= area * 1.002]
        if not fitting:
            raise ValueError(f"{area * 1e6:.2f} mm² is thinner than 18 AWG (0.82 mm²), the first row of 33 CFR 183.425")
        if area > awg_area(-3) * 1.5:
            raise ValueError(f"{area * 1e6:.0f} mm² is far beyond 4/0 AWG (107 mm²), the last row of 33 CFR 183.425")
        return fitting[-1], column, float(data.US_TABLE[fitting[-1]][data.US_COLUMNS.index(column)])
    sizes = [size for size in data.ISO_TABLE if size <= area * 1e6 * 1.002]
    if not sizes:
        raise ValueError(f"{area * 1e6:.2f} mm² is thinner than 1 mm², the first row of ISO table A.1")
    if area * 1e6 > 160.0:
        raise ValueError(f"{area * 1e6:.0f} mm² is beyond 150 mm², the last row of ISO table A.1")
    return f"{sizes[-1]:g}", column, float(data.ISO_TABLE[sizes[-1]][data.ISO_COLUMNS.index(column)])


def _column(rule_set: str, insulation_temperature: float) -> int:
    _known(rule_set)
    columns = data.US_COLUMNS if rule_set == "us" else data.ISO_COLUMNS
    fitting = [column for column in columns if column <= round(insulation_temperature - ICE, 3)]
    if not fitting:
        raise ValueError(f"insulation rated {insulation_temperature - ICE:.0f} °C; the table starts at {columns[0]} °C")
    return fitting[-1]


def _known(rule_set: str) -> None:
    if rule_set not in RULE_SETS:
        raise ValueError(f"no rule set {rule_set!r}; there are {' and '.join(RULE_SETS)}")
