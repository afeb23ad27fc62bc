"""How a formula is held to its own words: documentation, units, drift and dimensions.

Used on the register by ``test_formulas.py``, and on planted mistakes by the same file, to show that each can fail.
"""

from __future__ import annotations

import inspect
import math
import random
import re
import sys
import types
import typing
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, is_dataclass
from enum import Enum
from functools import cache

import pint

from athwart.explain import FORMULAS, Formula
from athwart.expressions import FUNCTIONS, ExpressionError, evaluate, names_in, sign, terms
from athwart_docs import docstrings

Draw = tuple[float, float] | list[object]
"""Where a parameter's values come from: a range, or a list to choose from."""

RANGES: Mapping[str, tuple[float, float]] = {
    "1": (0.05, 0.95),
    "m": (0.2, 8.0),
    "m²": (0.1, 60.0),
    "m³": (0.1, 40.0),
    "s": (1.0, 600.0),
    "Hz": (1.0, 400.0),
    "m/s": (0.5, 18.0),
    "m/s²": (0.1, 10.0),
    "m³/s": (1e-5, 1e-3),
    "rad": (0.05, 1.5),
    "rad/s": (5.0, 400.0),
    "kg": (5.0, 20_000.0),
    "kg/m³": (1.1, 1_030.0),
    "N": (50.0, 12_000.0),
    "N·m": (0.5, 20_000.0),
    "Pa": (1e4, 2.5e7),
    "J": (1e2, 1e7),
    "W": (100.0, 20_000.0),
    "V": (9.0, 58.0),
    "A": (5.0, 900.0),
    "C": (1e4, 2e6),
    "Ω": (1e-4, 5e-2),
    "Ω·m": (1.5e-8, 3e-8),
    "Ω/m": (1e-4, 2e-2),
    "K": (263.15, 378.15),
    "1/K": (3e-3, 5e-3),
    "bit/s": (1e4, 1e6),
    "dB": (20.0, 110.0),
}
"""Sensible values by unit. Draws that the code refuses (``ValueError``) are drawn again; see :data:`OVERRIDES`."""

OVERRIDES: dict[str, dict[str, Draw]] = {
    "hydraulics.lines.turbulent_friction": {"reynolds_number": (2_000.0, 1e6), "relative_roughness": (1e-6, 0.05)},
    "vessel.spectra.intensity_of_gust_factor": {"gust_factor": (1.0, 2.0)},
}
"""Values for single parameters, by formula name, where the range by unit misses the formula's domain."""

ANY_OTHER_UNIT = (0.1, 10.0)
DRAWS = 25
TRIES = 2_000


# ---- what a signature says


@dataclass(frozen=True, slots=True)
class Parameter:
    """A parameter of a formula: its unit if it is a quantity, else the values it may take."""

    name: str
    unit: str | None
    hint: object
    default: object


@cache
def parameters(entry: Formula) -> tuple[Parameter, ...]:
    """The parameters of a formula with the units of their types."""
    hints = typing.get_type_hints(inspect.unwrap(entry.func), include_extras=True)
    return tuple(
        Parameter(p.name, unit_of(hints.get(p.name)), hints.get(p.name), p.default) for p in entry.signature.parameters.values()
    )


def unit_of(hint: object) -> str | None:
    """The unit of ``Annotated[float, unit]``, also inside ``| None`` and in sequences of it."""
    if typing.get_origin(hint) is typing.Annotated:
        base, *notes = typing.get_args(hint)
        return str(notes[0]) if base is float else None
    for inner in typing.get_args(hint):
        if (unit := unit_of(inner)) is not None:
            return unit
    return None


def is_plain_quantity(hint: object) -> bool:
    """Whether values of the type are single floats with a unit (or None)."""
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        return any(is_plain_quantity(inner) for inner in typing.get_args(hint))
    return typing.get_origin(hint) is typing.Annotated and unit_of(hint) is not None


def return_unit(entry: Formula) -> str | None:
    """The unit of the return type."""
    return unit_of(typing.get_type_hints(inspect.unwrap(entry.func), include_extras=True).get("return"))


def constants(entry: Formula) -> dict[str, tuple[object, str | None]]:
    """Module constants the expression names, with the unit they are annotated with where they are defined."""
    module = sys.modules[inspect.unwrap(entry.func).__module__]
    wanted = names_in(entry.expr) - set(entry.signature.parameters) - {"result", "pi"} - set(FUNCTIONS)
    return {
        name: (value, _unit_of_constant(module, name, value))
        for name in wanted
        if (value := getattr(module, name, None)) is not None
    }


def _unit_of_constant(module: types.ModuleType, name: str, value: object) -> str | None:
    """The unit from the module itself, or from the one an imported constant comes from."""
    others = [
        other for key, other in sorted(sys.modules.items()) if key.startswith("athwart.") and getattr(other, name, None) is value
    ]
    for home in (module, *others):
        if name in getattr(home, "__annotations__", {}):
            return unit_of(typing.get_type_hints(home, include_extras=True)[name])
    return None


# ---- documentation


def documentation_faults(entry: Formula) -> list[str]:
    """What is missing or wrong in the docstring."""
    doc = docstrings.read(entry.func)
    faults = [] if doc.summary else ["no docstring"]
    for parameter in parameters(entry):
        written = doc.parameters.get(parameter.name)
        if written is None:
            faults.append(f"parameter {parameter.name} is not documented")
        elif not written.text:
            faults.append(f"parameter {parameter.name} is documented without words")
        elif parameter.unit is not None and written.unit != parameter.unit:
            faults.append(f"parameter {parameter.name} is documented in [{written.unit}], its type says [{parameter.unit}]")
        elif parameter.unit is None and is_bare_float(parameter.hint):
            faults.append(f"parameter {parameter.name} is a float without a unit type")
    faults += [f"{name} is documented and is no parameter" for name in doc.parameters if name not in entry.signature.parameters]
    if entry.kind == "table" and not {"Examples", "Notes"} & set(doc.sections):
        faults.append("a table formula needs an Examples or a Notes section")
    if return_unit(entry) != entry.unit and return_unit(entry) is not None:
        faults.append(f"declared in {entry.unit}, returns {return_unit(entry)}")
    return faults


def is_bare_float(hint: object) -> bool:
    """Whether a type is a float (or None) that says no unit."""
    return hint is float or any(
        inner is float for inner in typing.get_args(hint) if typing.get_origin(hint) is not typing.Annotated
    )


# ---- values


def values(entry: Formula, rng: random.Random, overrides: Mapping[str, Draw] | None = None) -> dict[str, object]:
    """One random set of arguments."""
    table = OVERRIDES.get(entry.name, {}) if overrides is None else overrides
    return {parameter.name: _value(entry, parameter, rng, table.get(parameter.name)) for parameter in parameters(entry)}


def _value(entry: Formula, parameter: Parameter, rng: random.Random, override: Draw | None) -> object:
    if isinstance(override, list):
        return rng.choice(override)
    if is_plain_quantity(parameter.hint):
        if parameter.default is None:
            return None
        low, high = override or RANGES.get(parameter.unit or "", ANY_OTHER_UNIT)
        return math.exp(rng.uniform(math.log(low), math.log(high))) if low > 0.0 else rng.uniform(low, high)
    if parameter.hint is bool:
        return rng.random() < 0.5
    if typing.get_origin(parameter.hint) is typing.Literal:
        return rng.choice(typing.get_args(parameter.hint))
    if isinstance(parameter.hint, type) and issubclass(parameter.hint, Enum):
        return rng.choice(list(parameter.hint))
    if parameter.hint is int:
        low, high = override or (1, 6)
        return rng.randint(int(low), int(high))
    if parameter.default is not inspect.Parameter.empty:
        return parameter.default
    raise AssertionError(f"{entry.name}: no values for {parameter.name}: {parameter.hint}; add them to OVERRIDES in {__file__}")


def accepted(entry: Formula, rng: random.Random, count: int = DRAWS, overrides: Mapping[str, Draw] | None = None) -> list[Case]:
    """Random cases within the domain of the code: a ``ValueError`` is a refusal, drawn again."""
    cases: list[Case] = []
    refusal: ValueError | None = None
    for _ in range(TRIES):
        names = values(entry, rng, overrides)
        try:
            cases.append(Case(names, entry.func(**names)))
        except ValueError as error:
            refusal = error
        if len(cases) == count:
            return cases
    raise AssertionError(
        f"{entry.name}: only {len(cases)} of {TRIES} random inputs lie in the domain (last refusal: {refusal}); "
        "add ranges to OVERRIDES"
    )


@dataclass(frozen=True, slots=True)
class Case:
    """Arguments, and what the code makes of them."""

    names: dict[str, object]
    value: object


# ---- drift


def drift_faults(entry: Formula, rng: random.Random, overrides: Mapping[str, Draw] | None = None) -> list[str]:
    """Where ``expr`` and code part: at most the first three places."""
    fixed = {name: value for name, (value, _) in constants(entry).items()}
    faults = []
    for case in accepted(entry, rng, overrides=overrides):
        try:
            fault = _drift(entry, case, fixed | case.names)
        except (ExpressionError, ArithmeticError, ValueError, TypeError) as error:
            fault = f"{type(error).__name__}: {error}"
        if fault:
            faults.append(f"{entry.name}({case.names}): {fault}")
    return faults[:3]


def _drift(entry: Formula, case: Case, names: dict[str, object]) -> str:
    if entry.kind == "closed":
        said = number(evaluate(entry.expr, names))
        value = number(case.value)
        return "" if math.isclose(said, value, rel_tol=1e-9, abs_tol=0.0) else f"expr gives {said!r}, the code {value!r}"
    names["result"] = case.value
    residual = abs(number(evaluate(entry.expr, names)))
    scale = sum(abs(number(evaluate(term, names))) for term in terms(entry.expr))
    if not math.isfinite(scale) or len(terms(entry.expr)) < 2:
        return "an equation is a sum of at least two finite terms that cancel"
    return "" if residual <= 1e-6 * scale else f"residual {residual:.3g} beside terms of {scale:.3g}"


def number(value: object) -> float:
    """A value as a float; a flag counts as 0 or 1."""
    assert isinstance(value, float | int), f"{value!r} is not a number"
    return float(value)


# ---- dimensions

_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")


@cache
def registry() -> pint.UnitRegistry[float]:
    """Pint's units, an independent opinion; decibels and bits count as pure numbers."""
    return pint.UnitRegistry()


def pint_unit(unit: str) -> pint.Unit:
    """A unit as printed here, read by pint."""
    if unit in ("1", "dB"):
        return registry().Unit("")
    text = re.sub(r"[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+", lambda match: "**" + match[0].translate(_SUPERSCRIPTS), unit)
    return registry().Unit(text.replace("·", "*").replace("^", "**"))


def coherent_fault(unit: str) -> str:
    """Why a unit cannot stand inside: unknown to pint, or not the coherent SI one."""
    try:
        factor = registry().Quantity(1.0, pint_unit(unit)).to_base_units().magnitude
    except (pint.errors.PintError, ValueError, TypeError, AttributeError) as error:
        return f"pint does not read [{unit}]: {error}"
    return "" if math.isclose(factor, 1.0, rel_tol=1e-12) or unit == "bit/s" else f"[{unit}] is {factor:g} of the SI unit"


def quantity(value: object, unit: str | None) -> object:
    """A float with its unit; sequences of them too; anything else as it is, records wrapped."""
    if isinstance(value, list | tuple) and unit is not None:
        return tuple(quantity(inner, unit) for inner in value)
    if isinstance(value, float | int) and not isinstance(value, bool) and unit is not None:
        return registry().Quantity(float(value), pint_unit(unit))
    if is_dataclass(value) and not isinstance(value, type):
        hints = typing.get_type_hints(type(value), include_extras=True)
        return types.SimpleNamespace(
            **{each.name: quantity(getattr(value, each.name), unit_of(hints.get(each.name))) for each in fields(value)}
        )
    return value


def _pure(function: Callable[..., float]) -> Callable[..., object]:
    """A function of pure numbers: its arguments must have no dimension, nor has its value."""

    def call(*args: object) -> object:
        return registry().Quantity(function(*(plain(arg, "1") for arg in args)), pint_unit("1"))

    return call


def magnitude(value: pint.Quantity[float], unit: pint.Unit) -> float:
    """The magnitude in a unit; exponents of thirds, which floats do not add up to nought, are rounded first."""
    ratio = (value / registry().Quantity(1.0, unit)).to_base_units()
    if any(abs(exponent) > 1e-9 for exponent in ratio.dimensionality.values()):
        raise pint.DimensionalityError(value.units, unit)
    return float(ratio.magnitude)


def plain(value: object, unit: str) -> object:
    """The magnitude of a quantity in a unit; a bare number passes for a pure one only."""
    if isinstance(value, pint.Quantity):
        return magnitude(value, pint_unit(unit))
    if isinstance(value, float | int) and not isinstance(value, bool) and not pint_unit(unit).dimensionless and value != 0:
        raise pint.DimensionalityError("a pure number", unit)
    return value


def _alike(choose: Callable[..., object]) -> Callable[..., object]:
    """Least and greatest: all arguments of one dimension; a bare nought goes with any."""

    def call(*args: object) -> object:
        units = [arg.units for arg in args if isinstance(arg, pint.Quantity)]
        if not units:
            return choose(*args)
        return choose(
            *(arg if isinstance(arg, pint.Quantity) else registry().Quantity(arg, units[0] if arg == 0 else "") for arg in args)
        )

    return call


def _atan2(y: object, x: object) -> object:
    sides = [arg if isinstance(arg, pint.Quantity) else registry().Quantity(number(arg), "") for arg in (y, x)]
    magnitudes = [float(side.to(sides[0].units).magnitude) for side in sides]  # raises unless both have one dimension
    return registry().Quantity(math.atan2(*magnitudes), pint_unit("1"))


def _sign(value: object) -> float:
    return sign(number(value.magnitude if isinstance(value, pint.Quantity) else value))


DIMENSIONED: dict[str, Callable[..., object]] = {
    name: _pure(getattr(math, name)) for name in ("exp", "log", "log10", "sin", "cos", "tan", "asin", "acos", "ceil", "floor")
} | {
    "sqrt": lambda value: value**0.5,
    "abs": abs,
    "min": _alike(min),
    "max": _alike(max),
    "atan2": _atan2,
    "sign": _sign,
}


def with_units(inner: Formula) -> Callable[..., object]:
    """A registered formula as a function of quantities: argument and value have the units its types declare."""

    def call(*args: object, **kwargs: object) -> object:
        bound = inner.signature.bind(*args, **kwargs)
        bound.apply_defaults()
        for parameter in parameters(inner):
            value = bound.arguments[parameter.name]
            if parameter.unit is not None and is_plain_quantity(parameter.hint) and not _is_default(parameter, value):
                bound.arguments[parameter.name] = plain(value, parameter.unit)
        return quantity(inner.func(*bound.args, **bound.kwargs), inner.unit)

    return call


def _is_default(parameter: Parameter, value: object) -> bool:
    return value is parameter.default


def dimension_faults(entry: Formula, rng: random.Random, overrides: Mapping[str, Draw] | None = None) -> list[str]:
    """Where ``expr`` does not have the declared unit, or not the code's value in it."""
    if entry.kind == "table":
        return []
    callables = {inner.func: with_units(inner) for inner in FORMULAS.values()}
    fixed = {
        name: callables.get(value, value) if callable(value) else quantity(value, unit)
        for name, (value, unit) in constants(entry).items()
    }
    units = {parameter.name: parameter.unit for parameter in parameters(entry)}
    faults = []
    for case in accepted(entry, rng, count=5, overrides=overrides):
        names = fixed | {name: quantity(value, units[name]) for name, value in case.names.items()}
        try:
            fault = _dimension(entry, case, names)
        except (pint.errors.PintError, ExpressionError, ArithmeticError, ValueError, TypeError, AttributeError) as error:
            fault = f"{type(error).__name__}: {error}"
        if fault:
            faults.append(f"{entry.name}({case.names}): {fault}")
    return faults[:1]


def _dimension(entry: Formula, case: Case, names: dict[str, object]) -> str:
    if entry.kind == "equation":
        names["result"] = quantity(case.value, entry.unit)
        evaluate(entry.expr, names, DIMENSIONED)  # pint raises where terms of unlike dimension meet
        return ""
    said = plain(evaluate(entry.expr, names, DIMENSIONED), entry.unit)
    value = number(case.value)
    return (
        "" if math.isclose(number(said), value, rel_tol=1e-6) else f"with units expr gives {said} {entry.unit}, the code {value}"
    )
