"""Imports go one way down, and the physics opens nothing; shown to fail on planted violations."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from tests.contracts._registers import BROKEN, ROOT, SRC, modules


def lint(folder: Path) -> subprocess.CompletedProcess[str]:
    """Run the import contracts of ``folder/pyproject.toml`` on ``folder/src``."""
    return subprocess.run(
        [sys.executable, "-c", "from importlinter.cli import lint_imports_command as lint; lint()", "--no-cache"],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder / "src"), "NO_COLOR": "1", "COLUMNS": "200"},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


def copy(folder: Path) -> Path:
    """The package and its contracts in another folder; the package folder is returned."""
    shutil.copy(ROOT / "pyproject.toml", folder)
    shutil.copytree(SRC, folder / "src" / "athwart", ignore=shutil.ignore_patterns("__pycache__"))
    return folder / "src" / "athwart"


def test_every_module_can_be_imported() -> None:
    assert len(modules()) > 20
    assert BROKEN == {}


def test_imports_keep_the_contracts() -> None:
    result = lint(ROOT)
    assert result.returncode == 0, result.stdout + result.stderr
    assert "2 kept, 0 broken" in result.stdout


def test_an_import_upwards_and_a_file_opened_by_physics_are_caught(tmp_path: Path) -> None:
    package = copy(tmp_path)
    with (package / "errors.py").open("a", encoding="utf-8") as module:
        module.write("\nimport athwart.design\n")
    (package / "power" / "planted.py").write_text("import pathlib\n", encoding="utf-8")
    result = lint(tmp_path)
    assert result.returncode != 0
    assert "0 kept, 2 broken" in result.stdout
    assert "athwart.errors -> athwart.design" in result.stdout
    assert "athwart.power.planted -> pathlib" in result.stdout


def test_a_package_in_no_layer_is_caught(tmp_path: Path) -> None:
    package = copy(tmp_path)
    (package / "planted.py").write_text("", encoding="utf-8")
    result = lint(tmp_path)
    assert result.returncode != 0
    assert "planted" in result.stdout + result.stderr


def test_siblings_may_not_import_each_other(tmp_path: Path) -> None:
    package = copy(tmp_path)
    (package / "power" / "planted.py").write_text("import athwart.vessel\n", encoding="utf-8")
    result = lint(tmp_path)
    assert result.returncode != 0
    assert "athwart.power.planted -> athwart.vessel" in result.stdout
