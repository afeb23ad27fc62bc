"""Every column and every table of an equipment catalogue is documented, and no column that is not there."""

from __future__ import annotations

import re

from athwart.catalogue.cells import Column, columns_of
from athwart.catalogue.curves import CURVE_COLUMNS, CURVES
from athwart.catalogue.records import SHEETS, Row
from tests.contracts._registers import ROOT

PAGE = (ROOT / "docs" / "reference" / "catalogue.md").read_text(encoding="utf-8")
COMMON = frozenset(Row.__dataclass_fields__)


def sections(page: str) -> dict[str, dict[str, tuple[str, bool]]]:
    """Section -> column -> (what it reads, whether it is needed)."""
    found: dict[str, dict[str, tuple[str, bool]]] = {}
    for title, body in re.findall(r"^## (.+?)\n(.*?)(?=^## |\Z)", page, re.MULTILINE | re.DOTALL):
        rows = re.findall(r"^\| `(\w+)` \| (.*?) \| (.*?) \| (.+?) \|$", body, re.MULTILINE)
        found[title] = {header: (reads, needed.strip() == "needed") for header, reads, needed, _ in rows}
    return found


def faults(title: str, columns: list[Column], page: str = PAGE) -> list[str]:
    """What page and program say differently about the columns of a section."""
    written = sections(page).get(title, {})
    wrong = [f"{title}: {header} is no column" for header in written if header not in {column.header for column in columns}]
    for column in columns:
        if column.header not in written:
            wrong.append(f"{title}: {column.header} is not documented")
            continue
        reads, needed = written[column.header]
        if needed != column.needed:
            wrong.append(f"{title}: {column.header} is needed or not")
        if column.choices and reads != ", ".join(f"`{word}`" for word in column.choices):
            wrong.append(f"{title}: words of {column.header}")
        if column.unit and reads != column.unit:
            wrong.append(f"{title}: unit of {column.header}")
    return wrong


def test_every_column_is_documented_as_it_is_read() -> None:
    common = [column for column in columns_of(SHEETS["cables"][1]) if column.name in COMMON]
    wrong = faults("Columns of every table but the curves", common)
    for sheet, (_, record) in SHEETS.items():
        wrong += faults(sheet, [column for column in columns_of(record) if column.name not in COMMON])
    wrong += faults(CURVES, list(CURVE_COLUMNS))
    assert wrong == []


def test_a_page_that_differs_is_caught() -> None:
    columns = [column for column in columns_of(SHEETS["switches"][1]) if column.name not in COMMON]
    for old, new in (("`lockable_off`", "`locks`"), ("| `most_V` | V | needed |", "| `most_V` | mV | needed |")):
        assert faults("switches", columns, PAGE.replace(old, new))
    assert faults("switches", columns, PAGE.replace("## switches", "## swiches"))


def test_every_rule_of_the_check_has_a_table_on_the_page() -> None:
    body = PAGE.partition("## What the check holds against physics")[2]
    named = {name.strip() for cells in re.findall(r"^\| ([a-z ,]+) \|", body, re.MULTILINE) for name in cells.split(",")}
    assert {*SHEETS, CURVES} <= named
