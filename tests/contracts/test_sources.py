"""The register of sources: complete, legal, and every entry used."""

from __future__ import annotations

import re
from functools import cache

import pytest

from athwart.explain import FORMULAS
from athwart.findings import CODES
from athwart.sources import SEEN, Source, register
from tests.contracts._registers import ROOT, SRC, checks, modules

modules()


@cache
def quoted() -> frozenset[str]:
    """Every quoted word of kebab-case form in code, data and tests, but for the register itself."""
    files = [path for suffix in ("py", "toml", "yaml", "typ") for path in sorted(SRC.rglob(f"*.{suffix}"))]
    files = [path for path in files if path.name != "sources.toml"] + sorted((ROOT / "tests").rglob("*.py"))
    words: set[str] = set()
    for path in files:
        words.update(re.findall(r"""["']([a-z0-9]+(?:-[a-z0-9]+)*)["']""", path.read_text(encoding="utf-8")))
    for path in sorted(SRC.rglob("*.csv")):
        words.update(cell.strip('" \n') for line in path.read_text(encoding="utf-8").splitlines() for cell in line.split(","))
    return frozenset(words)


def entry_faults(entry: Source) -> list[str]:
    """What is wrong with an entry on its own."""
    faults = [f"{field} is empty" for field in ("title", "taken") if not getattr(entry, field).strip()]
    faults += [] if entry.seen in SEEN else [f"seen = {entry.seen!r} is not one of {SEEN}"]
    faults += [] if re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", entry.key) else ["the key is not kebab-case"]
    if entry.seen in ("read", "excerpt") and not (entry.place or entry.author or entry.edition):
        faults.append("was seen, but neither place, author nor edition says where")
    return faults


def missing(keys: dict[str, str]) -> list[str]:
    """Users of keys that the register does not hold."""
    return [f"{user} names {key!r}" for user, key in keys.items() if key not in register()]


@pytest.mark.parametrize("entry", [pytest.param(entry, id=key) for key, entry in sorted(register().items())])
def test_an_entry_is_complete(entry: Source) -> None:
    assert entry_faults(entry) == []


def test_every_key_of_a_formula_exists() -> None:
    assert missing({name: entry.source for name, entry in FORMULAS.items()}) == []


def test_every_key_of_a_finding_exists() -> None:
    assert missing({name: entry.source for name, entry in CODES.items()}) == []


def test_every_key_of_a_published_check_exists_and_was_seen() -> None:
    assert missing({f"{check.source}: {check.quantity}": check.source for check in checks()}) == []
    unseen = sorted({check.source for check in checks() if register()[check.source].seen not in ("read", "excerpt")})
    assert unseen == [], "figures nobody has seen in their source belong in tests/worked"


def test_every_entry_is_used() -> None:
    unused = sorted(key for key in register() if key not in quoted())
    assert unused == [], f"{len(unused)} sources stand in the register and nothing names them"


def test_a_bad_entry_is_caught() -> None:
    bad = Source(key="Bad_Key", title=" ", seen="rumour", taken="")  # type: ignore[arg-type]
    assert len(entry_faults(bad)) == 4
    assert entry_faults(Source(key="nowhere", title="Handbook", seen="read", taken="all"))
    assert missing({"planted": "no-such-source"})
    assert "no-such-" + "source-anywhere" not in quoted()
