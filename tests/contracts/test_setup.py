"""Set-up names what the machine lacks, with the one line to type; the bare command lists every target."""

from __future__ import annotations

import importlib.util
import re
import subprocess
import tomllib
from types import ModuleType

import pytest

import athwart
from tests.contracts._registers import ROOT


@pytest.fixture
def preflight() -> ModuleType:
    spec = importlib.util.spec_from_file_location("preflight", ROOT / "tools" / "preflight.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def lacking(missing: str, message: str = "no such file") -> object:
    def load(name: str) -> None:
        if name == missing:
            raise ImportError(message)

    return load


def test_this_machine_has_all(preflight: ModuleType) -> None:
    assert preflight.before() == []
    assert preflight.after() == []


def test_an_old_python_is_named(preflight: ModuleType) -> None:
    [complaint] = preflight.before(version=(3, 10, 13))
    assert "3.10" in complaint
    assert "make PY=python3.11 setup" in complaint


@pytest.mark.parametrize("name", ["venv", "ensurepip"])
def test_a_missing_venv_module_is_named(preflight: ModuleType, name: str) -> None:
    [complaint] = preflight.before(load=lacking(name))
    assert name in complaint
    assert "apt-get install python3-venv" in complaint


def test_a_missing_run_time_library_is_named(preflight: ModuleType) -> None:
    [complaint] = preflight.after(load=lacking("numpy", "libstdc++.so.6: cannot open shared object file"))
    assert "apt-get install libstdc++6" in complaint
    [complaint] = preflight.after(load=lacking("typst", "wrong architecture"))
    assert "typst" in complaint
    assert "wrong architecture" in complaint


def test_a_bare_make_lists_every_target() -> None:
    listed = subprocess.run(["make", "-s"], cwd=ROOT, capture_output=True, text=True, check=True, timeout=60).stdout
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    phony = re.search(r"^\.PHONY: (.*)$", makefile, re.MULTILINE)
    assert phony is not None
    for target in phony[1].split():
        assert re.search(rf"^  make {target} +\w", listed, re.MULTILINE), f"make {target} is not listed with a line"


def test_the_version_is_said_once() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["version"] == athwart.__version__


def test_every_decision_is_numbered_and_complete() -> None:
    pages = sorted((ROOT / "docs" / "adr").glob("0*.md"))
    assert [int(page.name[:4]) for page in pages] == list(range(1, len(pages) + 1))
    for page in pages:
        text = page.read_text(encoding="utf-8")
        for part in (
            f"# {page.name[:4]}: ",
            "**Status:**",
            "## Context",
            "## Decision",
            "## What was weighed",
            "## What would change it",
        ):
            assert part in text, f"{page.name} lacks {part}"
        assert len(text.splitlines()) <= 60, f"{page.name} is longer than a page"
