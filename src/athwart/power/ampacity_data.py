"""Continuous-current tables of the two rule sets, with the source of every cell. Ratings in °C, as the tables have them."""

from __future__ import annotations

#: AWG -> amperes in 30 °C, one column a rated insulation temperature; 33 CFR 183.425 table 5, the whole body read
US_COLUMNS: tuple[int, ...] = (60, 75, 80, 90, 105, 125, 200)
US_TABLE: dict[str, tuple[float, ...]] = {
    "18": (10, 10, 15, 20, 20, 25, 25),
    "16": (15, 15, 20, 25, 25, 30, 35),
    "14": (20, 20, 25, 30, 35, 40, 45),
    "12": (25, 25, 35, 40, 45, 50, 55),
    "10": (40, 40, 50, 55, 60, 70, 70),
    "8": (55, 65, 70, 70, 80, 90, 100),
    "6": (80, 95, 100, 100, 120, 125, 135),
    "4": (105, 125, 130, 135, 160, 170, 180),
    "3": (120, 145, 150, 155, 180, 195, 210),
    "2": (140, 170, 175, 180, 210, 225, 240),
    "1": (165, 195, 210, 210, 245, 265, 280),
    "1/0": (195, 230, 245, 245, 285, 305, 325),
    "2/0": (225, 265, 285, 285, 330, 355, 370),
    "3/0": (260, 310, 330, 330, 385, 410, 430),
    "4/0": (300, 360, 385, 385, 445, 475, 510),
}
US_TABLE_SOURCE = "33-cfr-183-425"

#: factor inside an engine space (air at 50 °C) by rated insulation temperature, and where it was seen
US_ENGINE_SPACE: dict[int, tuple[float, str]] = {
    60: (0.58, "33-cfr-183-425-notes"),
    75: (0.75, "33-cfr-183-425-notes"),
    80: (0.78, "33-cfr-183-425-notes"),
    90: (0.82, "33-cfr-183-425-notes"),
    105: (0.85, "33-cfr-183-425-105"),
    125: (0.89, "33-cfr-183-425-notes"),
    200: (1.00, "33-cfr-183-425-notes"),
}

#: (least number of loaded conductors in one sheath or conduit, factor), from few to many
US_BUNDLES: tuple[tuple[int, float], ...] = ((1, 1.0), (3, 0.70), (4, 0.60), (7, 0.50), (25, 0.40))
US_BUNDLES_SOURCE = "uscg-bundles"

#: mm² -> amperes in 30 °C of air, ISO 10133:2012 / ISO 13297:2020 table A.1; the column 85 serves 85 to 90 °C
ISO_COLUMNS: tuple[int, ...] = (60, 70, 85, 105, 125, 200)
ISO_TABLE: dict[float, tuple[float, ...]] = {
    1.0: (8, 14, 18, 20, 25, 35),
    1.5: (12, 18, 21, 25, 30, 40),
    2.5: (17, 25, 30, 35, 40, 45),
    4.0: (22, 35, 40, 45, 50, 55),
    6.0: (29, 45, 50, 60, 70, 75),
    10.0: (40, 65, 70, 90, 100, 120),
    16.0: (54, 90, 100, 130, 150, 170),
    25.0: (71, 120, 140, 170, 185, 200),
    35.0: (87, 160, 185, 210, 225, 240),
    50.0: (105, 210, 230, 270, 300, 325),
    70.0: (135, 265, 285, 330, 360, 375),
    95.0: (165, 310, 330, 390, 410, 430),
    120.0: (190, 360, 400, 450, 480, 520),
    150.0: (220, 380, 430, 475, 520, 560),
}
ISO_SEEN_COLUMNS: tuple[int, ...] = (60, 70)
ISO_SEEN_TO: float = 70.0
ISO_SEEN_SOURCE = "iso-table-a1-60-70"
ISO_MEMORY_SOURCE = "iso-table-a1"

#: engine space (60 °C); None: not allowed there. All from memory
ISO_ENGINE_SPACE: dict[int, float | None] = {60: None, 70: 0.75, 85: 0.82, 105: 0.86, 125: 0.89, 200: 1.0}
ISO_BUNDLES: tuple[tuple[int, float], ...] = ((1, 1.0), (4, 0.70), (7, 0.60), (25, 0.50))
ISO_FACTORS_SOURCE = "iso-table-a1-factors"
