"""The workbook: its sheets, units in the heads, text that stays text, same bytes."""

from __future__ import annotations

import io
from dataclasses import replace
from typing import Any

import pytest
from openpyxl.reader.excel import load_workbook

from athwart.papers.bill import bill
from athwart.papers.workbook import SHEETS, workbook
from athwart.trial.predicted import sheets
from tests.unit.papers.made import EXAMPLES, digest, proposal_of


def opened(data: bytes) -> Any:
    """The workbook as another program reads it."""
    return load_workbook(io.BytesIO(data))  # type: ignore[no-untyped-call]


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_row_for_everything(name: str) -> None:
    proposal = proposal_of(name)
    book = opened(workbook(proposal, "0" * 64))
    assert tuple(book.sheetnames) == SHEETS
    counts = {sheet: book[sheet].max_row - 4 for sheet in SHEETS}
    assert counts["cable schedule"] == len(proposal.netlist.conductors)
    assert counts["fuse schedule"] == sum(part.kind == "fuse" for part in proposal.netlist.components)
    assert counts["bill of materials"] == len(bill(proposal))
    assert counts["commissioning"] == sum(len(sheet.readings) for sheet in sheets(proposal))
    assert counts["findings"] == max(1, len(proposal.findings))
    assert counts["wind held"] == (36 if proposal.cases else 1)
    tags = {book["cable schedule"].cell(row, 1).value for row in range(5, 5 + counts["cable schedule"])}
    assert tags == {wire.tag for wire in proposal.netlist.conductors}


def test_columns_of_numbers_hold_numbers_and_their_heads_a_unit() -> None:
    book = opened(workbook(proposal_of("1-motor-yacht"), "0" * 64))
    for name in SHEETS:
        sheet = book[name]
        for column in range(1, sheet.max_column + 1):
            head = str(sheet.cell(4, column).value)
            values = [sheet.cell(row, column).value for row in range(5, sheet.max_row + 1)]
            if any(isinstance(value, float) for value in values) and head not in (
                "predicted",
                "± band",
                "least",
                "most",
                "quantity",
                "price",
            ):
                assert ", " in head, f"{name}: {head}"


def test_what_a_user_typed_never_becomes_a_formula_or_an_address() -> None:
    proposal = proposal_of("1-motor-yacht")
    evil = '=HYPERLINK("http://invalid.invalid";1)'
    named = replace(proposal, brief=proposal.brief.model_copy(update={"name": evil}))
    wires = tuple(replace(wire, route="=1+1") for wire in proposal.netlist.conductors)
    named = replace(named, netlist=replace(proposal.netlist, conductors=wires))
    book = opened(workbook(named, "0" * 64))
    cells = [cell for sheet in book.worksheets for row in sheet.iter_rows() for cell in row]
    assert not any(cell.data_type == "f" or cell.hyperlink for cell in cells)
    assert any(cell.value == "=1+1" for cell in cells)


def test_the_same_proposal_gives_the_same_bytes() -> None:
    proposal = proposal_of("7-stern-unit-added")
    assert digest(workbook(proposal, "1" * 64)) == digest(workbook(proposal, "1" * 64))
    assert digest(workbook(proposal, "1" * 64)) != digest(workbook(proposal, "2" * 64))


def test_notice_and_banner_stand_on_every_sheet() -> None:
    book = opened(workbook(proposal_of("6-old-installation"), "0" * 64))
    for sheet in book.worksheets:
        words = str(sheet.cell(2, 1).value)
        assert "invented catalogue" in words
        assert "local codes" in words
        assert "NOT TO BE BUILT" in words
