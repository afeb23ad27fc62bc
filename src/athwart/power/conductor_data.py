"""Conductor tables: resistance of IEC 60228 classes 2 and 5, SAE gauge areas, resistances of aircraft tinned wire.

Rows are data with their source key; areas in mm², the table's own heads.
"""

from __future__ import annotations

IEC_60228_SOURCE = "iec-60228"

#: mm² -> largest ohm/km at 20 °C: class 2 plain, class 2 tinned, class 5 plain, class 5 tinned
IEC_60228: dict[float, tuple[float, float, float, float]] = {
    0.5: (36.0, 36.7, 39.0, 40.1),
    0.75: (24.5, 24.8, 26.0, 26.7),
    1.0: (18.1, 18.2, 19.5, 20.0),
    1.5: (12.1, 12.2, 13.3, 13.7),
    2.5: (7.41, 7.56, 7.98, 8.21),
    4.0: (4.61, 4.70, 4.95, 5.09),
    6.0: (3.08, 3.11, 3.30, 3.39),
    10.0: (1.83, 1.84, 1.91, 1.95),
    16.0: (1.15, 1.16, 1.21, 1.24),
    25.0: (0.727, 0.734, 0.780, 0.795),
    35.0: (0.524, 0.529, 0.554, 0.565),
    50.0: (0.387, 0.391, 0.386, 0.393),
    70.0: (0.268, 0.270, 0.272, 0.277),
    95.0: (0.193, 0.195, 0.206, 0.210),
    120.0: (0.153, 0.154, 0.161, 0.164),
    150.0: (0.124, 0.126, 0.129, 0.132),
    185.0: (0.0991, 0.100, 0.106, 0.108),
    240.0: (0.0754, 0.0762, 0.0801, 0.0817),
    300.0: (0.0601, 0.0607, 0.0641, 0.0654),
    400.0: (0.0470, 0.0475, 0.0486, 0.0495),
}
IEC_60228_COLUMNS: tuple[tuple[str, bool], ...] = (("class 2", False), ("class 2", True), ("class 5", False), ("class 5", True))

SAE_GAUGE_SOURCE = "sae-gauge-table"

#: SAE gauge -> circular mils; 3 to 11 % less than the true AWG of the same number
SAE_GAUGE: dict[str, float] = {"2": 62_450.0, "1/0": 98_980.0, "2/0": 125_100.0, "3/0": 158_600.0, "4/0": 205_500.0}

#: Even AWG sizes, and the odd ones the tables also carry, from thin to thick
AWG_SIZES: tuple[str, ...] = ("18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")

AIRCRAFT_WIRE_SOURCE = "faa-ac-43-13-1b"

#: AWG -> ohm per 1000 ft at 20 °C, tinned copper
AIRCRAFT_WIRE: dict[str, float] = {
    "10": 1.26,
    "8": 0.70,
    "6": 0.44,
    "4": 0.28,
    "2": 0.18,
    "1": 0.15,
    "1/0": 0.12,
    "2/0": 0.09,
    "3/0": 0.07,
    "4/0": 0.06,
}
