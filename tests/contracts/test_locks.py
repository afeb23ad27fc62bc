"""Locks name packages, versions and hashes, and no address."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from tests.contracts._registers import ROOT

LOCKS = ("boot.lock", "run.lock", "dev.lock")


def entries(text: str) -> list[str]:
    """The requirements of a lock, each with its continuation lines, comments left out."""
    lines = [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    return [entry for entry in "\n".join(lines).replace("\\\n", " ").splitlines() if entry.strip()]


def faults(text: str) -> list[str]:
    """What a lock must not contain or leave out."""
    found = ["an address"] if "://" in text else []
    found += [f"an option: {line}" for line in text.splitlines() if re.match(r"\s*-(?!-hash=)", line)]
    for entry in entries(text):
        if not re.match(r"[A-Za-z0-9][\w.-]*==[\w.!+]+( |$)", entry):
            found.append(f"not pinned: {entry[:60]}")
        if not re.search(r"--hash=sha256:[0-9a-f]{64}(\s|$)", entry):
            found.append(f"without a hash: {entry[:60]}")
    return found


def normal(name: str) -> str:
    """A package's name as registries compare it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def pins(path: Path) -> dict[str, set[str]]:
    """Versions by package (more than one where markers split)."""
    found: dict[str, set[str]] = {}
    for entry in entries(path.read_text(encoding="utf-8")):
        name, _, rest = entry.partition("==")
        found.setdefault(normal(name.strip()), set()).add(rest.split()[0])
    return found


@pytest.mark.parametrize("name", LOCKS)
def test_a_lock_holds_hashes_and_no_address(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    assert entries(text), f"{name} is empty"
    assert faults(text) == []


def test_every_declared_dependency_is_locked() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    groups = project["dependency-groups"]
    for name, wanted in (
        ("boot.lock", groups["boot"]),
        ("run.lock", project["project"]["dependencies"]),
        ("dev.lock", project["project"]["dependencies"] + groups["dev"] + project["build-system"]["requires"]),
    ):
        names = {normal(re.split(r"[<>=~! \[;]", each)[0]) for each in wanted}
        assert names <= set(pins(ROOT / name)), f"{name} lacks {sorted(names - set(pins(ROOT / name)))}: type make lock"


def test_run_and_development_locks_agree() -> None:
    run, dev = pins(ROOT / "run.lock"), pins(ROOT / "dev.lock")
    assert {name: dev.get(name) for name in run} == run


def test_no_other_lock_lies_in_the_tree() -> None:
    assert [name for name in ("uv.lock", "pylock.toml", "poetry.lock") if (ROOT / name).exists()] == []


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("# from https" + "://example\nclick==8.1 \\\n    --hash=sha256:" + "0" * 64, "an address"),
        ("click==8.1", "without a hash"),
        ("click>=8.1 --hash=sha256:" + "0" * 64, "not pinned"),
        ("click==8.1 --hash=sha256:" + "0" * 63, "without a hash"),
        ("--index-url somewhere\nclick==8.1 --hash=sha256:" + "0" * 64, "an option"),
    ],
)
def test_a_bad_lock_is_caught(text: str, fault: str) -> None:
    assert any(each.startswith(fault) for each in faults(text))
