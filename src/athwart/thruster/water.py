"""Constants of the water a thruster works in."""

from __future__ import annotations

from athwart.units.names import KilogramPerCubicMetre, MetrePerSecondSquared, Pascal

RHO_SALT: KilogramPerCubicMetre = 1025.0
G: MetrePerSecondSquared = 9.80665
ATMOSPHERE: Pascal = 101_325.0
VAPOUR: Pascal = 2300.0
"""Vapour pressure of water at about 20 °C."""
