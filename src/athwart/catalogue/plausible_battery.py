"""What a battery block's figures must be to each other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

from athwart.catalogue.records import BatteryBlock
from athwart.catalogue.verdicts import Doubt, band
from athwart.power.battery import rest_volts, sae_cranking, warm_resistance
from athwart.power.battery_data import chemistry
from athwart.power.fault import prospective_current
from athwart.units import Coulomb, Ohm

HUNDRED_AH: Coulomb = 360_000.0
HOUR = 3600.0


@dataclass(frozen=True, slots=True)
class Family:
    """Bands of a family of batteries: volts per cell, charging current per ampere hour, Wh/kg, kg/l."""

    charge: tuple[float, float]
    standby: tuple[float, float]
    charging_rate: tuple[float, float]
    energy: tuple[float, float]
    density: tuple[float, float]
    cut_off: tuple[float, float]


LEAD = Family((2.25, 2.50), (2.20, 2.35), (0.02, 0.8), (20.0, 60.0), (0.9, 3.2), (1.5, 2.0))
LITHIUM = Family((3.40, 3.65), (3.30, 3.50), (0.02, 1.0), (60.0, 170.0), (0.6, 2.6), (2.0, 3.1))
CELL_VOLTS = 0.04
"""Nominal volts may differ from cells times the chemistry's volts by this share."""
RESISTANCE_SPREAD = (0.35, 2.5)
"""Resistance against the chemistry's least and most, scaled by capacity."""
CRANKING_PER_AH = (2.0, 20.0)
CRANKING_RESISTANCE = (0.5, 2.0)
"""Resistance in the data over that reckoned from the cold cranking current."""
SHORT_CIRCUIT = (0.4, 1.7)
CONTINUOUS_MOST, PEAK_MOST = 3.0, 6.0
"""Protection limits as multiples of the capacity in an hour."""


def _cells(block: BatteryBlock) -> Iterator[Doubt]:
    nominal = block.cells * chemistry(block.chemistry).cell_volts
    yield from band(
        f"nominal volts of {block.cells} cells",
        block.volts,
        nominal * (1 - CELL_VOLTS),
        nominal * (1 + CELL_VOLTS),
        kind="voltage",
    )


def _resistance(block: BatteryBlock) -> Iterator[Doubt]:
    if block.resistance is None:
        return
    data = chemistry(block.chemistry)
    # the chemistry's figures are of 12 V and 100 Ah
    scale: Ohm = HUNDRED_AH / block.capacity * block.cells * data.cell_volts / (4 * data.cell_volts if data.is_lithium else 12.0)
    least, _, most = data.resistance_100ah
    low, high = RESISTANCE_SPREAD
    yield from band(
        "resistance for its capacity",
        block.resistance,
        low * least * scale,
        high * most * scale,
        kind="resistance",
        source="battery-resistance",
    )


def _cranking(block: BatteryBlock) -> Iterator[Doubt]:
    """Cranking current is rated at 12 V; a block of fewer cells has as much with less resistance."""
    if block.cranking is None or block.cranking == 0.0:
        return
    sae = sae_cranking(block.cranking, block.cranking_standard)[1] if block.cranking_standard else block.cranking
    low, high = CRANKING_PER_AH
    yield from band(
        "cranking current per ampere hour", sae / (block.capacity / HOUR), low, high, formula="power.battery.warm_resistance"
    )
    if block.resistance is None:
        return
    expected = warm_resistance(sae) * block.volts / 12.0
    low, high = CRANKING_RESISTANCE
    yield from band(
        "resistance against cranking current",
        block.resistance,
        low * expected,
        high * expected,
        kind="resistance",
        formula="power.battery.warm_resistance",
        source="warm-cranking-resistance",
    )


def _short_circuit(block: BatteryBlock) -> Iterator[Doubt]:
    if block.short_circuit is None or not block.resistance:
        return
    volts = rest_volts(block.chemistry, block.cells, 1.0)
    expected = prospective_current(volts, block.resistance)
    low, high = SHORT_CIRCUIT
    yield from band(
        "short-circuit current for its resistance",
        block.short_circuit,
        low * expected,
        high * expected,
        kind="current",
        formula="power.fault.prospective_current",
    )


def _family(block: BatteryBlock) -> Family:
    return LITHIUM if chemistry(block.chemistry).is_lithium else LEAD


def _charging(block: BatteryBlock) -> Iterator[Doubt]:
    family, cells = _family(block), max(1, block.cells)
    for what, volts, (low, high) in (
        ("charging volts", block.charge_volts, family.charge),
        ("float volts", block.float_volts, family.standby),
    ):
        yield from band(f"{what} per cell", volts / cells, low, high, kind="voltage", source="charging-volts")
    yield from band("float volts against charging volts", block.float_volts, -inf, block.charge_volts, kind="voltage")
    low, high = family.charging_rate
    yield from band("largest charging current per ampere hour", block.charge_most / (block.capacity / HOUR), low, high)


def _protection(block: BatteryBlock) -> Iterator[Doubt]:
    hourly = block.capacity / HOUR
    continuous, peak = block.discharge_continuous, block.discharge_peak
    if continuous is not None:
        yield from band("protection's continuous limit per ampere hour", continuous / hourly, 0.2, CONTINUOUS_MOST)
    if peak is not None:
        yield from band("protection's peak limit per ampere hour", peak / hourly, 0.2, PEAK_MOST)
        if continuous is not None:
            yield from band("protection's peak limit against its continuous one", peak, continuous, inf, kind="current")
    if block.cut_off_volts is not None:
        low, high = _family(block).cut_off
        yield from band("protection's low volts per cell", block.cut_off_volts / max(1, block.cells), low, high, kind="voltage")


def _size_and_mass(block: BatteryBlock) -> Iterator[Doubt]:
    family = _family(block)
    volume = block.length * block.width * block.height * 1e3
    low, high = family.density
    yield from band("kilograms per litre", block.mass / volume, low, high)
    if block.mass > 0.0:
        low, high = family.energy
        yield from band("watt hours per kilogram", block.volts * block.capacity / HOUR / block.mass, low, high)


BLOCK_RULES = (_cells, _resistance, _cranking, _short_circuit, _charging, _protection, _size_and_mass)
