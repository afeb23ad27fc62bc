"""Battery chemistries as data: open-circuit volts, resistance, capacity against temperature, charging volts.

Every group of figures has its source key in ``sources``; what is from memory stays an editable default. Resistances are of a
12 V block of 100 Ah, new, full, at 25 °C, electronics included, and scale inversely with capacity within a family.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from athwart.units.names import Kelvin, PerKelvin, Ratio, Volt, VoltPerKelvin


@dataclass(frozen=True, slots=True)
class Chemistry:
    """One chemistry; volts are per cell."""

    key: str
    name: str
    cell_volts: Volt
    rest_volts: tuple[tuple[Ratio, Volt], ...]  # state of charge, open-circuit volts per cell, rising
    rest_temperature: Kelvin
    rest_slope: VoltPerKelvin  # per cell
    resistance_100ah: tuple[float, float, float]  # least, usual, most; ohm
    resistance_exponent: tuple[PerKelvin, PerKelvin, PerKelvin]  # least, usual, most
    resistance_rise_empty: Ratio  # added share from full to empty
    polarisation_share: Ratio  # R1 as a share of R0 + R1
    polarisation_time: float  # s
    peukert: tuple[float, float, float]
    capacity_curve: tuple[tuple[Kelvin, Ratio], ...]  # runs under half an hour
    bulk_volts: Volt
    float_volts: Volt
    charge_slope: VoltPerKelvin  # per cell, from 25 °C
    charge_factor: Ratio
    floor: Ratio  # least state of charge planned for
    fault_multiple: Ratio  # prospective current per ampere hour where nothing better is known
    sources: Mapping[str, str]

    @property
    def is_lithium(self) -> bool:
        """Whether the block has a protection circuit that may open."""
        return self.key == "lfp"


def _points(*pairs: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    return tuple((celsius + 273.15, share) for celsius, share in pairs)


#: BCI table of a flooded 12 V block at 26.7 °C: state of charge, volts, specific gravity
BCI_REST: tuple[tuple[float, float, float], ...] = (
    (0.0, 11.89, 1.120),
    (0.25, 12.06, 1.155),
    (0.50, 12.24, 1.190),
    (0.75, 12.45, 1.225),
    (1.00, 12.65, 1.265),
)
#: change of lead's capacity in per cent against 25 °C: °C, runs under 30 min, 30 to 60 min, over 60 min
LEAD_CAPACITY: tuple[tuple[int, int, int, int], ...] = (
    (0, -20, -18, -16),
    (5, -15, -13, -12),
    (10, -12, -11, -10),
    (15, -8, -7, -6),
    (20, -3, -2, -1),
    (25, 0, 0, 0),
    (30, 5, 4, 3),
    (35, 8, 6, 4),
    (40, 10, 8, 5),
)
#: cell table of lithium iron phosphate: state of charge, volts at rest; the last point is the rested one, from memory
LFP_REST: tuple[tuple[float, float], ...] = (
    (0.0, 2.80),
    (0.0535, 3.12),
    (0.0963, 3.17),
    (0.1824, 3.20),
    (0.3124, 3.24),
    (0.3983, 3.263),
    (0.5274, 3.272),
    (0.6992, 3.28),
    (0.7854, 3.304),
    (0.9147, 3.316),
    (1.0, 3.37),
)
#: least volts of a sound 12 V block loaded with half its cold cranking current for 15 s: °C, V
LOAD_TEST: tuple[tuple[float, float], ...] = (
    (-18.0, 8.5),
    (-12.0, 8.7),
    (-7.0, 8.9),
    (-1.0, 9.1),
    (4.0, 9.3),
    (10.0, 9.4),
    (16.0, 9.5),
    (20.0, 9.6),
)

#: standard -> (temperature °C, seconds, volts of a 12 V block)
CRANKING_TESTS: Mapping[str, tuple[tuple[float, float, float], ...]] = {
    "SAE": ((-18.0, 30.0, 7.2),),
    "EN": ((-18.0, 10.0, 7.5),),
    "IEC": ((-18.0, 60.0, 8.4),),
    "DIN": ((-18.0, 30.0, 9.0), (-18.0, 150.0, 6.0)),
    "MCA": ((0.0, 30.0, 7.2),),
}
RESERVE_CAPACITY_TEST = (27.0, 25.0, 10.5)  # °C, A, V
#: share of the SAE figure that the same block reaches by another standard: least, usual, most; memory, no exact conversion
SAE_SHARE: Mapping[str, tuple[float, float, float]] = {
    "SAE": (1.0, 1.0, 1.0),
    "EN": (0.95, 0.97, 1.0),
    "IEC": (0.62, 0.66, 0.70),
    "DIN": (0.57, 0.59, 0.60),
}
#: (least total of cold cranking amperes, main, branch): required breaking capacity in A, 12 and 24 V systems
BREAKING_ROWS: tuple[tuple[float, float, float], ...] = ((0.0, 1500.0, 750.0), (651.0, 3000.0, 1500.0), (1101.0, 5000.0, 2500.0))

_LEAD_REST = tuple((soc, volts / 6.0) for soc, volts, _ in BCI_REST)
_LEAD_SHORT = ((-20.0, 0.60), *((float(c), 1.0 + short / 100.0) for c, short, _, _ in LEAD_CAPACITY))
_LEAD_SOURCES = {
    "rest volts": "bci-rest-volts",
    "resistance": "battery-resistance",
    "resistance against temperature": "lead-resistance-temperature",
    "capacity against temperature": "lead-capacity-temperature",
    "peukert": "peukert-exponents",
    "charging": "charging-volts",
}


def _raised(volts: float) -> tuple[tuple[float, float], ...]:
    """The flooded curve lifted by so many volts a block when full, falling to the same at empty."""
    return tuple((soc, cell + volts / 6.0 * soc) for soc, cell in _LEAD_REST)


def _lead(
    key: str,
    name: str,
    resistance: tuple[float, float, float],
    peukert: tuple[float, float, float],
    bulk: float,
    standby: float,
    multiple: float,
    raised: float,
) -> Chemistry:
    sources = _LEAD_SOURCES | ({"rest volts": "agm-gel-rest-volts"} if raised else {})
    return Chemistry(
        key=key,
        name=name,
        cell_volts=2.0,
        rest_volts=_raised(raised),
        rest_temperature=299.85,
        rest_slope=0.0043 / 6.0,
        resistance_100ah=resistance,
        resistance_exponent=(0.0081, 0.0085, 0.015),
        resistance_rise_empty=0.40,
        polarisation_share=0.35,
        polarisation_time=40.0,
        peukert=peukert,
        capacity_curve=_points(*_LEAD_SHORT),
        bulk_volts=bulk,
        float_volts=standby,
        charge_slope=-0.004,
        charge_factor=1.2,
        floor=0.5,
        fault_multiple=multiple,
        sources=sources,
    )


CHEMISTRIES: Mapping[str, Chemistry] = {
    "flooded": _lead("flooded", "flooded deep-cycle lead", (5e-3, 6.5e-3, 8e-3), (1.2, 1.25, 1.3), 2.40, 2.25, 20.0, 0.0),
    "starting": _lead("starting", "flooded starting lead", (3.5e-3, 4.2e-3, 5e-3), (1.2, 1.25, 1.3), 2.40, 2.25, 40.0, 0.0),
    "agm": _lead("agm", "AGM deep-cycle lead", (3e-3, 4e-3, 5e-3), (1.05, 1.10, 1.15), 2.40, 2.27, 30.0, 0.15),
    "thin plate agm": _lead(
        "thin plate agm", "thin-plate AGM lead", (2e-3, 2.5e-3, 3e-3), (1.05, 1.08, 1.15), 2.42, 2.27, 40.0, 0.18
    ),
    "gel": _lead("gel", "gel lead", (5e-3, 6.5e-3, 8e-3), (1.1, 1.17, 1.25), 2.35, 2.27, 20.0, 0.15),
    "lfp": Chemistry(
        key="lfp",
        name="lithium iron phosphate",
        cell_volts=3.2,
        rest_volts=LFP_REST,
        rest_temperature=298.15,
        rest_slope=0.0,
        resistance_100ah=(3e-3, 5e-3, 8e-3),
        resistance_exponent=(0.020, 0.022, 0.031),
        resistance_rise_empty=0.0,
        polarisation_share=0.33,
        polarisation_time=30.0,
        peukert=(1.01, 1.03, 1.05),
        capacity_curve=_points((-20.0, 0.50), (-10.0, 0.664), (0.0, 0.802), (25.0, 1.0), (60.0, 1.10)),
        bulk_volts=3.55,
        float_volts=3.375,
        charge_slope=0.0,
        charge_factor=1.02,
        floor=0.2,
        fault_multiple=40.0,
        sources={
            "rest volts": "lfp-rest-volts",
            "resistance": "battery-resistance",
            "resistance against temperature": "lfp-resistance-temperature",
            "capacity against temperature": "lfp-capacity-temperature",
            "peukert": "peukert-exponents",
            "charging": "charging-volts",
        },
    ),
}
"""By the names a catalogue and a brief use."""


def chemistry(key: str) -> Chemistry:
    """The chemistry of this name."""
    if key not in CHEMISTRIES:
        raise ValueError(f"no chemistry {key!r}; there are {', '.join(CHEMISTRIES)}")
    return CHEMISTRIES[key]
