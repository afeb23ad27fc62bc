"""Type names that carry a unit.

Inside athwart every number is a plain float in SI base or derived units (kelvin and radians included), so names carry no
unit; signatures do: ``current: Ampere``. The string after ``Annotated[float, ...]`` is the unit as printed; the
dimension test gives it to pint, ``"1"`` meaning a pure number.
"""

from __future__ import annotations

from typing import Annotated, TypeAlias

Ratio: TypeAlias = Annotated[float, "1"]
Metre: TypeAlias = Annotated[float, "m"]
SquareMetre: TypeAlias = Annotated[float, "m²"]
CubicMetre: TypeAlias = Annotated[float, "m³"]
Second: TypeAlias = Annotated[float, "s"]
Hertz: TypeAlias = Annotated[float, "Hz"]
MetrePerSecond: TypeAlias = Annotated[float, "m/s"]
MetrePerSecondSquared: TypeAlias = Annotated[float, "m/s²"]
CubicMetrePerSecond: TypeAlias = Annotated[float, "m³/s"]
CubicMetrePerRadian: TypeAlias = Annotated[float, "m³/rad"]
Radian: TypeAlias = Annotated[float, "rad"]
RadianPerSecond: TypeAlias = Annotated[float, "rad/s"]
Kilogram: TypeAlias = Annotated[float, "kg"]
KilogramPerCubicMetre: TypeAlias = Annotated[float, "kg/m³"]
KilogramSquareMetre: TypeAlias = Annotated[float, "kg·m²"]
Newton: TypeAlias = Annotated[float, "N"]
NewtonMetre: TypeAlias = Annotated[float, "N·m"]
Pascal: TypeAlias = Annotated[float, "Pa"]
Joule: TypeAlias = Annotated[float, "J"]
Watt: TypeAlias = Annotated[float, "W"]
Volt: TypeAlias = Annotated[float, "V"]
Ampere: TypeAlias = Annotated[float, "A"]
Coulomb: TypeAlias = Annotated[float, "C"]
Ohm: TypeAlias = Annotated[float, "Ω"]
OhmMetre: TypeAlias = Annotated[float, "Ω·m"]
OhmPerMetre: TypeAlias = Annotated[float, "Ω/m"]
Henry: TypeAlias = Annotated[float, "H"]
HenryPerMetre: TypeAlias = Annotated[float, "H/m"]
Farad: TypeAlias = Annotated[float, "F"]
Kelvin: TypeAlias = Annotated[float, "K"]
PerKelvin: TypeAlias = Annotated[float, "1/K"]
KelvinPerSecond: TypeAlias = Annotated[float, "K/s"]
KelvinPerWatt: TypeAlias = Annotated[float, "K/W"]
KelvinMetrePerWatt: TypeAlias = Annotated[float, "K·m/W"]
JoulePerKelvin: TypeAlias = Annotated[float, "J/K"]
JoulePerKelvinMetre: TypeAlias = Annotated[float, "J/(K·m)"]
JoulePerKelvinCubicMetre: TypeAlias = Annotated[float, "J/(K·m³)"]
AmpereSquaredSecond: TypeAlias = Annotated[float, "A²·s"]
AmpereRootSecondPerSquareMetre: TypeAlias = Annotated[float, "A·s^0.5/m²"]
AmperePerSquareMetre: TypeAlias = Annotated[float, "A/m²"]
VoltSecondPerRadian: TypeAlias = Annotated[float, "V·s/rad"]
NewtonMetreSquareSecond: TypeAlias = Annotated[float, "N·m·s²/rad²"]
BitPerSecond: TypeAlias = Annotated[float, "bit/s"]
SquareMetrePerSecond: TypeAlias = Annotated[float, "m²/s"]
NewtonPerWatt: TypeAlias = Annotated[float, "N/W"]
KilogramPerSecondSquared: TypeAlias = Annotated[float, "kg/s²"]
Decibel: TypeAlias = Annotated[float, "dB"]
