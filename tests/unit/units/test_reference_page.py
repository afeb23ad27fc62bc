"""The reference page says what the table of units says."""

from __future__ import annotations

from pathlib import Path

import pytest

from athwart.units import QUANTITIES, TRADE_KINDS

PAGE = Path(__file__).parents[3] / "docs" / "reference" / "units.md"


def row(kind: str) -> str:
    """The line of the table for a kind."""
    entry = QUANTITIES[kind]
    examples = entry.example.replace(" or ", "`, `")
    inside = "number" if entry.si == "1" else entry.si
    cells = (kind.replace("_", " "), entry.allowed, inside, entry.metric or "number", entry.imperial or "number", f"`{examples}`")
    return f"| {' | '.join(cells)} |"


@pytest.mark.parametrize("kind", TRADE_KINDS)
def test_a_kind_stands_on_the_page_as_it_is(kind: str) -> None:
    assert row(kind) in PAGE.read_text(encoding="utf-8").splitlines()


def test_the_page_has_no_kind_too_many() -> None:
    rows = [line for line in PAGE.read_text(encoding="utf-8").splitlines() if line.startswith("| ")]
    assert len(rows) == 2 + len(TRADE_KINDS)
