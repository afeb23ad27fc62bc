"""Field types of a brief: text with a unit in, SI float inside, JSON Schema out."""

from __future__ import annotations

from typing import Annotated, Any, TypeAlias

from pydantic import BeforeValidator, Field, WithJsonSchema

from athwart import units


def _reader(kind: str) -> BeforeValidator:
    def read(value: Any) -> float:
        if isinstance(value, bool) or value is None:
            raise units.QuantityError(f"a {kind.replace('_', ' ')} with its unit is needed, for example {EXAMPLES[kind]}")
        return units.parse(value if isinstance(value, str) else str(value), kind)

    return BeforeValidator(read)


def _schema(kind: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": f"{kind.replace('_', ' ')} with its unit", "examples": [EXAMPLES[kind]]})


EXAMPLES = {
    "length": "14.2 m or 46 ft 7 in",
    "area": "27.6 m2",
    "conductor": "70 mm2 or 2/0 AWG",
    "voltage": "24 V",
    "current": "340 A",
    "resistance": "3.6 mohm",
    "charge": "110 Ah",
    "energy": "2.4 kWh",
    "power": "4 kW",
    "force": "1.2 kN or 150 kgf",
    "mass": "16.5 t",
    "speed": "5 kn",
    "wind_speed": "20 kn or 5 Bft",
    "angle": "55 deg",
    "rotation": "750 rpm",
    "bit_rate": "250 kbit/s",
    "temperature": "-5 °C",
    "pressure": "200 bar",
    "flow": "60 l/min",
    "displacement_per_rev": "92 cc/rev",
    "ratio": "80 %",
    "sound": "68 dBA",
    "time": "30 s or 5 min",
}

Length: TypeAlias = Annotated[float, _reader("length"), _schema("length")]
Area: TypeAlias = Annotated[float, _reader("area"), _schema("area")]
Conductor: TypeAlias = Annotated[float, _reader("conductor"), _schema("conductor")]
Voltage: TypeAlias = Annotated[float, _reader("voltage"), _schema("voltage")]
Current: TypeAlias = Annotated[float, _reader("current"), _schema("current")]
Resistance: TypeAlias = Annotated[float, _reader("resistance"), _schema("resistance")]
Charge: TypeAlias = Annotated[float, _reader("charge"), _schema("charge")]
Power: TypeAlias = Annotated[float, _reader("power"), _schema("power")]
Force: TypeAlias = Annotated[float, _reader("force"), _schema("force")]
Mass: TypeAlias = Annotated[float, _reader("mass"), _schema("mass")]
Speed: TypeAlias = Annotated[float, _reader("speed"), _schema("speed")]
WindSpeed: TypeAlias = Annotated[float, _reader("wind_speed"), _schema("wind_speed")]
Angle: TypeAlias = Annotated[float, _reader("angle"), _schema("angle")]
Rotation: TypeAlias = Annotated[float, _reader("rotation"), _schema("rotation")]
BitRate: TypeAlias = Annotated[float, _reader("bit_rate"), _schema("bit_rate")]
Temperature: TypeAlias = Annotated[float, _reader("temperature"), _schema("temperature")]
Pressure: TypeAlias = Annotated[float, _reader("pressure"), _schema("pressure")]
Flow: TypeAlias = Annotated[float, _reader("flow"), _schema("flow")]
Ratio: TypeAlias = Annotated[float, _reader("ratio"), _schema("ratio")]
Sound: TypeAlias = Annotated[float, _reader("sound"), _schema("sound")]
Time: TypeAlias = Annotated[float, _reader("time"), _schema("time")]
Name: TypeAlias = Annotated[str, Field(min_length=1, max_length=80)]
Count: TypeAlias = Annotated[int, Field(ge=0, le=10_000)]
