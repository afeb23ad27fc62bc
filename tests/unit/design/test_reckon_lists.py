"""Formulas that take several values read them apart at semicolons, each with its unit."""

from __future__ import annotations

import pytest

from athwart.design import book
from athwart.errors import InputError


def test_a_list_of_areas_and_places_is_read() -> None:
    result = book.reckon(book.find("windage.centroid"), ["areas=30 m2; 10 m2", "places=0 m; -2 m"])
    assert result.value == pytest.approx(-0.5)


def test_a_bad_part_of_a_list_is_named() -> None:
    with pytest.raises(InputError) as caught:
        book.reckon(book.find("windage.centroid"), ["areas=30 m2; 10 kg", "places=0 m; -2 m"])
    assert "kg" in str(caught.value.mistakes[0])
