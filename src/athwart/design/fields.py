"""Field types of a brief: text with a unit in, SI float inside, text again in the JSON Schema.

Each type is a float marked with a :class:`Quantity`, which knows the kind of quantity, the widest range that can belong to a
boat of 6 to 40 m, and an example to show to somebody who typed something else. The ranges only catch slips of the hand
(a beam of 4.2 km); whether a value is wise is a finding, not a mistake.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import inf, tau
from typing import Annotated, Any, TypeAlias

from pydantic import AfterValidator, Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import PydanticCustomError, core_schema

from athwart import units
from athwart.units.quantities import HOUR, quantity_of


@dataclass(frozen=True, slots=True)
class Quantity:
    """Marks a float of a brief as a quantity typed with its unit; ``least`` and ``most`` are SI, ``above`` excludes ``least``."""

    kind: str
    least: float = -inf
    most: float = inf
    above: bool = False

    @property
    def words(self) -> str:
        """What to type, for a person: ``a length with its unit, for example 14.2 m``."""
        entry = quantity_of(self.kind)
        return f"{entry.noun}{'' if entry.bare else ' with its unit'}, for example {entry.example}"

    @property
    def span(self) -> str:
        """The accepted range in words."""
        head = "more than" if self.above else "from"
        return f"{head} {units.show(self.least, self.kind, plain=True)} to {units.show(self.most, self.kind, plain=True)}"

    def read(self, value: Any) -> float:
        """The SI value of what was typed."""
        if not isinstance(value, str):
            raise PydanticCustomError("quantity_type", "a quantity is needed")
        found = _parsed(value, self.kind)
        if not (self.least < found if self.above else self.least <= found) or not found <= self.most:
            raise PydanticCustomError("quantity_range", "outside the range", {"span": self.span})
        return found

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": "string", "description": self.words, "examples": quantity_of(self.kind).example.split(" or ")}


@lru_cache(maxsize=4096)
def _parsed(text: str, kind: str) -> float:
    return units.parse(text, kind)


Length: TypeAlias = Annotated[float, Quantity("length", -100.0, 1000.0)]
PositiveLength: TypeAlias = Annotated[float, Quantity("length", 0.0, 1000.0, above=True)]
Distance: TypeAlias = Annotated[float, Quantity("length", 0.0, 1000.0)]
Depth: TypeAlias = Annotated[float, Quantity("length", 0.0, 12_000.0, above=True)]
Area: TypeAlias = Annotated[float, Quantity("area", 0.0, 5000.0, above=True)]
Conductor: TypeAlias = Annotated[float, Quantity("conductor", 0.0, 1e-3, above=True)]
Voltage: TypeAlias = Annotated[float, Quantity("voltage", 0.0, 1000.0, above=True)]
Current: TypeAlias = Annotated[float, Quantity("current", 0.0, 10_000.0)]
Resistance: TypeAlias = Annotated[float, Quantity("resistance", 0.0, 100.0)]
Charge: TypeAlias = Annotated[float, Quantity("charge", 0.0, 10_000.0 * HOUR, above=True)]
Power: TypeAlias = Annotated[float, Quantity("power", 0.0, 1e7, above=True)]
Mass: TypeAlias = Annotated[float, Quantity("mass", 0.0, 1e6, above=True)]
Speed: TypeAlias = Annotated[float, Quantity("speed", 0.0, 60.0)]
WindSpeed: TypeAlias = Annotated[float, Quantity("wind_speed", 0.0, 80.0)]
Angle: TypeAlias = Annotated[float, Quantity("angle", -tau, tau)]
Rotation: TypeAlias = Annotated[float, Quantity("rotation", 0.0, 2000.0, above=True)]
BitRate: TypeAlias = Annotated[float, Quantity("bit_rate", 1e4, 1e6)]
Temperature: TypeAlias = Annotated[float, Quantity("temperature", 213.15, 523.15)]
Ratio: TypeAlias = Annotated[float, Quantity("ratio", 0.0, 1.0)]
Margin: TypeAlias = Annotated[float, Quantity("ratio", 0.0, 5.0)]
Sound: TypeAlias = Annotated[float, Quantity("sound", 0.0, 150.0)]
Time: TypeAlias = Annotated[float, Quantity("time", 0.0, 1e6)]
TimePerDay: TypeAlias = Annotated[float, Quantity("time", 0.0, 24.0 * HOUR)]


def _printable(text: str) -> str:
    if not text.isprintable():
        raise PydanticCustomError("not_printable", "control characters")
    return text


def _prose(text: str) -> str:
    if not all(char.isprintable() or char in "\n\t" for char in text):
        raise PydanticCustomError("not_printable", "control characters")
    return text


def _cranking(text: str) -> str:
    units.parse_cranking(text)
    return text


Name: TypeAlias = Annotated[str, Field(min_length=1, max_length=80), AfterValidator(_printable)]
Text: TypeAlias = Annotated[str, Field(max_length=4000), AfterValidator(_prose)]
Cranking: TypeAlias = Annotated[str, AfterValidator(_cranking)]
Count: TypeAlias = Annotated[int, Field(ge=0, le=10_000)]
