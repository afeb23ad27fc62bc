"""Import everything once, so that the registers of formulas, codes and checks are full."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache
from pathlib import Path

import athwart
from tests import published
from tests.published._check import Check

ROOT = Path(__file__).parents[2]
SRC = ROOT / "src" / "athwart"


BROKEN: dict[str, str] = {}
"""Modules that cannot be imported, and why; a test fails for each, the other contracts go on without them."""


@cache
def modules() -> tuple[str, ...]:
    """Every module of athwart, imported where that is possible."""
    found = pkgutil.walk_packages(athwart.__path__, "athwart.", onerror=lambda name: None)
    names = [module.name for module in found if not module.name.endswith("__main__")]
    for name in names:
        try:
            importlib.import_module(name)
        except (ImportError, SyntaxError, NameError, AttributeError, TypeError, ValueError) as error:
            BROKEN[name] = f"{type(error).__name__}: {error}"
    return tuple(names)


@cache
def checks() -> tuple[Check, ...]:
    """Every published check."""
    found: list[Check] = []
    for module in pkgutil.iter_modules(published.__path__):
        if module.name.startswith("test_"):
            found += importlib.import_module(f"tests.published.{module.name}").CHECKS
    return tuple(found)
