"""The formula book: every registered formula by name, evaluated from text with units."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib import import_module
from inspect import Parameter, getdoc
from pkgutil import walk_packages
from typing import Any, Literal, get_args, get_origin, get_type_hints

import athwart
from athwart import units
from athwart.errors import InputError, Mistake, NotComputed, UnknownName
from athwart.explain import FORMULAS, Formula
from athwart.sources import source

PACKAGES = ("numerics", "vessel", "thruster", "power", "hydraulics", "network", "plant", "design")

KINDS: dict[str, str] = {
    "m": "length",
    "m²": "conductor",
    "m/s": "wind_speed",
    "kg": "mass",
    "N": "force",
    "W": "power",
    "V": "voltage",
    "A": "current",
    "Ω": "resistance",
    "C": "charge",
    "J": "energy",
    "s": "time",
    "Hz": "frequency",
    "K": "temperature",
    "rad": "angle",
    "rad/s": "angular_rate",
    "Pa": "pressure",
    "m³": "volume",
    "m³/s": "flow",
    "m³/rad": "displacement_per_rev",
    "bit/s": "bit_rate",
    "1": "ratio",
}
"""Unit of a formula's input -> kind of quantity its text is read as."""

ALSO: dict[str, tuple[str, ...]] = {"m²": ("area",), "rad/s": ("rotation",), "m/s": ("speed",), "K": ("temperature_difference",)}

COMPOUND: dict[str, float] = {
    "ohm/km": 1e-3,
    "Ω/km": 1e-3,
    "mohm/m": 1e-3,
    "mΩ/m": 1e-3,
    "ohm/m": 1.0,
    "Ω/m": 1.0,
    "kg/m3": 1.0,
    "kg/m³": 1.0,
    "mm2/s": 1e-6,
    "mm²/s": 1e-6,
    "cSt": 1e-6,
    "N.m": 1.0,
    "N·m": 1.0,
    "Nm": 1.0,
    "1/K": 1.0,
    "K/W": 1.0,
    "W/K": 1.0,
    "J/K": 1.0,
    "mH": 1e-3,
    "µH": 1e-6,
    "H": 1.0,
    "F": 1.0,
    "A²·s": 1.0,
    "A2s": 1.0,
    "K·m/W": 1.0,
    "Km/W": 1.0,
    "A/mm2": 1e6,
    "A/mm²": 1e6,
    "dB": 1.0,
}
"""Units of inputs that no brief holds, read here only."""

_NUMBER_UNIT = re.compile(r"^\s*([+\-−]?\d+(?:\.\d+)?(?:[eE][+\-]?\d+)?)\s*(.*?)\s*$")


@dataclass(frozen=True, slots=True)
class Result:
    """A formula evaluated by hand."""

    formula: Formula
    inputs: tuple[tuple[str, str, str], ...]  # name, text, origin
    value: object
    text: str

    def as_json(self) -> dict[str, object]:
        """For the command line and the web, same keys."""
        return {
            "formula": self.formula.name,
            "symbol": self.formula.symbol,
            "unit": self.formula.unit,
            "value": self.value,
            "text": self.text,
            "expression": self.formula.expr,
            "source": self.formula.source,
            "source_verified": source(self.formula.source).verified,
            "valid": self.formula.valid,
            "inputs": [{"name": name, "value": text, "origin": origin} for name, text, origin in self.inputs],
        }


@cache
def load() -> None:
    """Import every module that may register formulas."""
    for package in PACKAGES:
        root = import_module(f"{athwart.__name__}.{package}")
        for info in walk_packages(root.__path__, f"{root.__name__}."):
            import_module(info.name)


def find(name: str) -> Formula:
    """A formula by its full dotted name or by any unambiguous tail of it."""
    load()
    if name in FORMULAS:
        return FORMULAS[name]
    tails = [key for key in FORMULAS if key.endswith(f".{name}")]
    if len(tails) == 1:
        return FORMULAS[tails[0]]
    if tails:
        raise UnknownName("single formula", name, " or ".join(tails))
    short = {key.rsplit(".", 1)[-1]: key for key in FORMULAS}
    raise UnknownName("formula", name, next(iter(get_close_matches(name, [*short, *FORMULAS], n=1, cutoff=0.5)), ""))


def hints(entry: Formula) -> dict[str, Any]:
    """Annotated types of a formula's inputs."""
    return get_type_hints(entry.func, include_extras=True)


def summary(entry: Formula) -> str:
    """First line of the docstring."""
    return (getdoc(entry.func) or "").splitlines()[0] if getdoc(entry.func) else ""


def parameter_words(entry: Formula, name: str) -> str:
    """What the docstring says of a parameter."""
    match = re.search(rf"^{re.escape(name)} : (.*?)(?:\[[^\]]*\])?\s*$", getdoc(entry.func) or "", re.MULTILINE)
    return match.group(1).strip() if match else ""


def reckon(entry: Formula, words: tuple[str, ...] | list[str]) -> Result:
    """Evaluate a formula from ``name=value`` texts; every mistake is reported at once."""
    types = hints(entry)
    parameters = entry.signature.parameters
    values: dict[str, Any] = {}
    told: dict[str, tuple[str, str]] = {}
    wrong: list[Mistake] = []
    for word in words:
        name, equals, text = word.partition("=")
        if not equals or name not in parameters:
            near = next(iter(get_close_matches(name, parameters, n=1)), "")
            wrong.append(
                Mistake(
                    "not an input of this formula" + (f"; did you mean {near}=?" if near else ""),
                    path=entry.name,
                    read=word,
                    allowed=", ".join(f"{key}=" for key in parameters),
                )
            )
            continue
        try:
            values[name], told[name] = _value(text, types.get(name))
        except (InputError, ValueError) as error:
            wrong.append(Mistake(str(error), path=name, read=text))
    for name, parameter in parameters.items():
        if name in values or any(word.startswith(f"{name}=") for word in words):
            continue
        if parameter.default is Parameter.empty:
            wrong.append(Mistake("this input is missing", path=name, allowed=f"{name}=… [{unit_of(types.get(name))}]"))
        else:
            values[name], told[name] = parameter.default, (shown(parameter.default, unit_of(types.get(name))), "default")
    if wrong:
        raise InputError("inputs not understood", tuple(wrong))
    try:
        value = entry.func(**values)
    except (NotComputed, InputError):
        raise
    except ZeroDivisionError:
        nought = [name for name, entered in values.items() if isinstance(entered, (int, float)) and entered == 0]
        mistakes = tuple(Mistake("nought, and the formula divides by it", path=name, read=told[name][0]) for name in nought)
        raise InputError("the formula divides by nought with these inputs", mistakes) from None
    except OverflowError:
        raise NotComputed(f"{entry.name}: the inputs give a number too large to hold") from None
    except (ValueError, TypeError, KeyError) as error:
        raise NotComputed(f"{entry.name}: {error}; valid: {entry.valid or 'see the docs page of the formula'}") from None
    inputs = tuple((name, *told[name]) for name in parameters)
    return Result(entry, inputs, value if isinstance(value, (int, float, str)) else str(value), shown(value, entry.unit))


def unit_of(hint: Any) -> str:
    """The unit carried by an annotated type name, or "" for words and counts."""
    metadata = getattr(hint, "__metadata__", None)
    if metadata:
        return str(metadata[0])
    for part in get_args(hint):
        if inner := unit_of(part):
            return inner
    return ""


def _value(text: str, hint: Any) -> tuple[Any, tuple[str, str]]:
    unit = unit_of(hint)
    if unit and get_origin(hint) in (tuple, list, Sequence):
        parts = [_value(part, get_args(hint)[0]) for part in text.split(";")]
        return tuple(value for value, _ in parts), ("; ".join(told for _, (told, _) in parts), "entered")
    if not unit:
        return _word(text, hint)
    refused: units.QuantityError | None = None
    for kind in (KINDS.get(unit, ""), *ALSO.get(unit, ())):
        if not kind:
            continue
        try:
            value = units.parse(text, kind)
        except units.QuantityError as error:
            refused = refused or error
            continue
        return value, (f"{text.strip()} = {shown(value, unit)}", "entered")
    match = _NUMBER_UNIT.match(text)
    if match:
        number = float(match.group(1).replace("−", "-"))
        if not match.group(2):
            return number, (f"{shown(number, unit)}", f"entered without a unit, taken as {unit}")
        if match.group(2) in COMPOUND or match.group(2) == unit:
            value = number * COMPOUND.get(match.group(2), 1.0)
            return value, (f"{text.strip()} = {shown(value, unit)}", "entered")
    if refused is not None:
        raise refused
    raise ValueError(f"not a number with the unit {unit}")


def _word(text: str, hint: Any) -> tuple[Any, tuple[str, str]]:
    if get_origin(hint) is Literal and text not in get_args(hint):
        raise ValueError(f"one of {', '.join(map(str, get_args(hint)))} is needed")
    if hint is bool:
        if text.lower() not in ("yes", "no", "true", "false"):
            raise ValueError("yes or no is needed")
        return text.lower() in ("yes", "true"), (text, "entered")
    if hint is int:
        return int(text), (text, "entered")
    if hint is float:
        return float(text), (text, "entered")
    if get_origin(hint) is tuple:
        inner = get_args(hint)[0]
        return tuple(_value(part, inner)[0] for part in text.split(";")), (text, "entered")
    return text, (text, "entered")


def shown(value: object, unit: str) -> str:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return str(value)
    kind = KINDS.get(unit)
    number = f"{value:.5g}"
    if kind in (None, "ratio"):
        return f"{number} {unit}" if unit not in ("", "1") else number
    if kind == "conductor":
        return f"{value * 1e6:.5g} mm²" if abs(value) < 0.01 else f"{number} m²"
    if kind == "temperature" and value < 150.0:
        return f"{number} K"  # a difference: nothing aboard is that cold
    if kind == "temperature":
        return f"{number} K ({value - 273.15:.4g} °C)"
    if kind == "angle":
        return f"{number} rad ({value * 57.29577951308232:.4g}°)"
    if kind == "wind_speed":
        return f"{number} m/s ({value / units.KNOT:.4g} kn)"
    if kind == "resistance" and 0 < abs(value) < 0.1:
        return f"{value * 1e3:.5g} mΩ"
    if kind == "charge":
        return f"{number} C ({value / 3600:.4g} Ah)"
    return f"{number} {unit}"
