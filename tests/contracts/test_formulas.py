"""Every formula of the book holds its word: source, documentation, units, drift and dimensions."""

from __future__ import annotations

import random
import re
from functools import cache
from typing import Any

import pytest

from athwart.explain import FORMULAS, Formula, formula
from athwart.sources import register
from athwart.units.names import Ampere, Metre, Ohm, OhmMetre, SquareMetre, Volt
from tests.contracts import _formulas as held
from tests.contracts._registers import ROOT, modules

modules()
BOOK = [pytest.param(entry, id=name) for name, entry in sorted(FORMULAS.items())]
EXACT = [pytest.param(entry, id=name) for name, entry in sorted(FORMULAS.items()) if entry.kind != "table"]
TABLES = [pytest.param(entry, id=name) for name, entry in sorted(FORMULAS.items()) if entry.kind == "table"]


def test_the_book_is_not_empty() -> None:
    assert len(FORMULAS) >= 20, "the contract below would hold for lack of formulas"


@pytest.mark.parametrize("entry", BOOK)
def test_the_source_is_in_the_register(entry: Formula) -> None:
    assert entry.source in register(), f"{entry.name}: no source named {entry.source!r} in sources.toml"


@pytest.mark.parametrize("entry", BOOK)
def test_the_docstring_documents_every_parameter_with_its_unit(entry: Formula) -> None:
    faults = held.documentation_faults(entry)
    assert not faults, f"{entry.name}: " + "; ".join(faults)


@pytest.mark.parametrize("entry", BOOK)
def test_all_units_are_coherent_and_read_by_pint(entry: Formula) -> None:
    units = {entry.unit} | {parameter.unit for parameter in held.parameters(entry) if parameter.unit is not None}
    faults = [fault for unit in sorted(units) if (fault := held.coherent_fault(unit))]
    assert not faults, f"{entry.name}: " + "; ".join(faults)


@pytest.mark.parametrize("entry", EXACT)
def test_the_expression_does_not_drift_from_the_code(entry: Formula, rng: random.Random) -> None:
    faults = held.drift_faults(entry, rng)
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize("entry", EXACT)
def test_the_expression_has_the_declared_dimension(entry: Formula, rng: random.Random) -> None:
    faults = held.dimension_faults(entry, rng)
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize("entry", TABLES)
def test_a_table_formula_is_tested_by_name(entry: Formula) -> None:
    name = entry.name.rpartition(".")[2]
    assert re.search(rf"\b{name}\b", text_of_tests()), f"no test in published, worked or unit mentions {name}"


@cache
def text_of_tests() -> str:
    """All tests of single formulas as one text."""
    files = [path for folder in ("published", "worked", "unit") for path in sorted((ROOT / "tests" / folder).rglob("test_*.py"))]
    return "\n".join(path.read_text(encoding="utf-8") for path in files)


def test_overrides_name_formulas_and_parameters_that_exist() -> None:
    for name, table in held.OVERRIDES.items():
        assert name in FORMULAS, f"OVERRIDES names {name}, which is no formula"
        assert set(table) <= set(FORMULAS[name].signature.parameters), f"OVERRIDES of {name} names a parameter it does not have"


# ---- the checks can fail

RHO: OhmMetre = 1.7e-8


def registered(function: Any) -> Formula:
    """Take the formula just registered out of the book again."""
    name = f"{function.__module__.removeprefix('athwart.')}.{function.__name__}"
    return FORMULAS.pop(name)


def planted(expr: str, unit: str = "V", kind: Any = "closed") -> Formula:
    """The drop along a conductor, with an expression that may be wrong."""

    @formula("U", unit, expr, source="own-arithmetic", kind=kind)
    def planted_drop(current: Ampere, run: Metre, area: SquareMetre) -> Volt:
        """Drop along one conductor.

        Parameters
        ----------
        current : Current. [A]
        run : One-way length. [m]
        area : Cross-section. [m²]
        """
        return current * RHO * run / area

    return registered(planted_drop)


RIGHT = "current * RHO * run / area"


def test_a_right_expression_passes(rng: random.Random) -> None:
    entry = planted(RIGHT)
    assert held.documentation_faults(entry) == []
    assert held.drift_faults(entry, rng) == []
    assert held.dimension_faults(entry, rng) == []


@pytest.mark.parametrize(
    "expr",
    ["current * RHO * 2 * run / area", "current * RHO * run / area * 1.00000001", "current * RHO * run / breadth"],
)
def test_drift_is_caught(expr: str, rng: random.Random) -> None:
    assert held.drift_faults(planted(expr), rng)


def test_an_expression_that_is_not_one_is_caught(rng: random.Random) -> None:
    with pytest.raises(ValueError, match="not an expression"):
        held.drift_faults(planted("current * run /"), rng)


@pytest.mark.parametrize(
    ("expr", "unit"),
    [
        (RIGHT, "A"),
        (RIGHT, "mV"),
        ("current * RHO * run / area + current * 0.0 + 0.0 * run", "V"),
        ("exp(current) * 0 + current * RHO * run / area", "V"),
        ("min(current, run) * RHO", "V"),
        ("current * 1.7e-8 * run / area", "V"),
    ],
)
def test_a_wrong_dimension_is_caught(expr: str, unit: str, rng: random.Random) -> None:
    entry = planted(expr, unit)
    assert held.dimension_faults(entry, rng) or held.coherent_fault(unit)


def test_an_equation_that_the_value_does_not_satisfy_is_caught(rng: random.Random) -> None:
    assert held.drift_faults(planted("result - current * RHO * run / area", kind="equation"), rng) == []
    assert held.drift_faults(planted("result - current * RHO * 2 * run / area", kind="equation"), rng)
    assert held.drift_faults(planted("result * area * 0", kind="equation"), rng)
    assert held.dimension_faults(planted("result - current * RHO", kind="equation"), rng)


def test_faults_of_documentation_are_caught() -> None:
    @formula("R", "V", "RHO * run / area", source="own-arithmetic")
    def undocumented(run: Metre, area: SquareMetre, joints: float) -> Ohm:
        """Resistance of a conductor.

        Parameters
        ----------
        run : One-way length. [mm]
        joints : How many. [1]
        breadth : Not there. [m]
        """
        return RHO * run / area + joints

    entry = registered(undocumented)
    faults = "; ".join(held.documentation_faults(entry))
    for words in (
        "run is documented in [mm]",
        "area is not documented",
        "joints is a float without",
        "breadth is documented and",
        "returns Ω",
    ):
        assert words in faults


def test_a_domain_never_hit_is_caught(rng: random.Random) -> None:
    @formula("x", "m", "run", source="own-arithmetic")
    def refusing(run: Metre) -> Metre:
        """Refuses.

        Parameters
        ----------
        run : Length. [m]
        """
        raise ValueError(f"{run} m is outside 100 to 200 m")

    with pytest.raises(AssertionError, match="OVERRIDES"):
        held.drift_faults(registered(refusing), rng)
