"""One cell of an equipment table: from what stands in it to the value of a field, or a refusal with the reason."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, fields, replace
from functools import cache
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from athwart.catalogue.records import SHEETS, Row
from athwart.errors import QuantityError
from athwart.units import QUANTITIES, parse

Cell = object
"""What a table hands over: text from CSV; text, number, yes/no, date or nothing from a workbook."""

UNKNOWN = frozenset({"", "?", "-", "–", "unknown"})
ERRORS = frozenset({"#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!"})
LONGEST_WORDS = 400
YES_NO: Mapping[str, bool] = {"yes": True, "no": False, "true": True, "false": False}
BARE_KINDS: Mapping[str, str] = {"number": "a bare number, such as 1250 or 12.5", "count": "a whole number from 0 up"}
PER_KM = "per_km"

_FLOAT = re.compile(r"[+-]?[0-9]{1,15}(?:\.[0-9]{1,15})?", re.ASCII).fullmatch
_NUMBER = re.compile(
    r"[+-]?(?:[0-9]{1,3}(?: [0-9]{3})+|[0-9]{1,15})(?:[.,][0-9]{1,15})?(?:[eE][+-]?[0-9]{1,2})?", re.ASCII
).fullmatch
_THOUSAND = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}", re.ASCII).fullmatch
_BLANKS = str.maketrans(
    {"\N{NO-BREAK SPACE}": " ", "\N{NARROW NO-BREAK SPACE}": " ", "\N{THIN SPACE}": " ", "\N{MINUS SIGN}": "-"}
)


class Refused(Exception):
    """A cell that was not understood; ``allowed`` says what would have been."""

    def __init__(self, message: str, allowed: str) -> None:
        super().__init__(message)
        self.message, self.allowed = message, allowed


def stands(cell: Cell) -> str:
    """What stands in a cell, as text."""
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float) and cell.is_integer() and abs(cell) < 1e15:
        return str(int(cell))
    return str(cell).strip()


def is_unknown(cell: Cell) -> bool:
    """Whether a cell says that its value is not known."""
    return cell is None or (isinstance(cell, str) and cell.strip().casefold() in UNKNOWN)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: the field ``name`` read under ``header``; bare numbers are in ``unit``."""

    name: str
    header: str
    kind: str
    unit: str
    needed: bool
    choices: tuple[str, ...] = ()

    def read(self, cell: Cell) -> object:
        """The field's value, None for unknown; :class:`Refused` otherwise."""
        if is_unknown(cell):
            if self.needed:
                raise Refused(f"{self.header} must be known", self.allowed)
            return None
        if isinstance(cell, str) and cell in ERRORS:
            raise Refused("the workbook shows an error here", self.allowed)
        return _READERS.get(self.kind, _quantity)(self, cell)

    @property
    def allowed(self) -> str:
        """What may stand in the column, in words for a message."""
        if self.choices:
            return ", ".join(self.choices)
        if self.kind == "":
            return "words"
        if self.kind == "flag":
            return "yes or no"
        if self.kind in BARE_KINDS:
            return BARE_KINDS[self.kind]
        if self.kind == PER_KM:
            return "a number in ohm/km, or with its unit, as 0.27 ohm/km"
        quantity = QUANTITIES[self.kind]
        if quantity.bare:
            return f"{quantity.allowed}, as {quantity.example}"
        return f"a number in {self.unit}, or with one of {quantity.allowed}, as {quantity.example}"

    @property
    def stem(self) -> str:
        """The head without its unit."""
        return self.header.removesuffix(f"_{_in_head(self.unit)}") if self.unit else self.header

    def in_other_units(self) -> Iterable[Column]:
        """The same column under heads with another unit of its kind."""
        if not self.unit or self.stem == self.header or self.kind not in QUANTITIES:
            return
        for spelling in QUANTITIES[self.kind].table:
            if spelling and spelling.isascii() and spelling != self.unit and " " not in spelling:
                yield replace(self, header=f"{self.stem}_{_in_head(spelling)}", unit=spelling)


def _in_head(unit: str) -> str:
    return unit.removeprefix("°").replace("/", "_")


def columns_of(record: type[Row]) -> tuple[Column, ...]:
    """The columns of a record, in its order."""
    return _columns_by_name(record.__name__)


@cache
def _columns_by_name(name: str) -> tuple[Column, ...]:
    record = next(entry for _, entry in SHEETS.values() if entry.__name__ == name)
    hints = get_type_hints(record)
    found = []
    for entry in fields(record):
        data = entry.metadata
        choices = _choices(hints[entry.name])
        found.append(Column(entry.name, data["header"], data["kind"], data["unit"], data["needed"], choices))
    return tuple(found)


def _choices(hint: Any) -> tuple[str, ...]:
    """Words allowed by a Literal, also inside an optional one."""
    if get_origin(hint) is Literal:
        return tuple(str(word) for word in get_args(hint))
    if get_origin(hint) in (UnionType, Union):
        return tuple(word for part in get_args(hint) for word in _choices(part))
    return ()


# ---- readers by kind


def _words(column: Column, cell: Cell) -> str:
    if isinstance(cell, bool) or not isinstance(cell, (str, int, float)):
        raise Refused(f"{_sort(cell)} stands where words are needed", column.allowed)
    text = stands(cell)
    if len(text) > LONGEST_WORDS or not text.isprintable():
        raise Refused(f"longer than {LONGEST_WORDS} characters, or with signs that cannot be printed", column.allowed)
    if column.choices:
        folded = {word.casefold(): word for word in column.choices}
        if text.casefold() not in folded:
            raise Refused(f"not one of the words for {column.header}", column.allowed)
        return folded[text.casefold()]
    return text


def _flag(column: Column, cell: Cell) -> bool:
    if isinstance(cell, bool):
        return cell
    found = YES_NO.get(stands(cell).casefold())
    if found is None or not isinstance(cell, str):
        raise Refused("neither yes nor no", column.allowed)
    return found


def _number(column: Column, cell: Cell) -> float:
    value = bare_number(column, cell)
    if value is None:
        raise Refused("not a bare number", column.allowed)
    return value


def _count(column: Column, cell: Cell) -> int:
    value = _number(column, cell)
    if not value.is_integer() or not 0 <= value <= 1e6:
        raise Refused("a count is a whole number from 0 up", column.allowed)
    return int(value)


def _per_km(column: Column, cell: Cell) -> float:
    value = bare_number(column, cell)
    if value is not None:
        if value < 0.0:
            raise Refused("a resistance cannot be negative", column.allowed)
        return value / 1e3
    return _parsed(column, cell, "resistance_per_length")


def _quantity(column: Column, cell: Cell) -> float:
    value = bare_number(column, cell)
    if value is None:
        return _parsed(column, cell, column.kind)
    quantity = QUANTITIES[column.kind]
    si = quantity.table[column.unit].to_si(value)
    if not quantity.low <= si <= quantity.high:
        raise Refused(f"beyond what {quantity.noun} can be", column.allowed)
    return si


def _parsed(column: Column, cell: Cell, kind: str) -> float:
    if not isinstance(cell, str):
        raise Refused(f"{_sort(cell)} stands where a number is needed", column.allowed)
    try:
        return parse(cell, kind)
    except QuantityError as error:
        reason = error.mistakes[0].message if error.mistakes else str(error)
        raise Refused(reason, column.allowed) from None


_READERS: Mapping[str, Callable[[Column, Cell], object]] = {
    "": _words,
    "flag": _flag,
    "number": _number,
    "count": _count,
    PER_KM: _per_km,
}


def bare_number(column: Column, cell: Cell) -> float | None:
    """The number in a cell without a unit, None where something else stands there. ``1,250`` is refused, ``12,5`` is 12.5."""
    if isinstance(cell, bool):
        raise Refused("yes or no stands where a number is needed", column.allowed)
    if isinstance(cell, (int, float)):
        if not abs(cell) < 1e300:
            raise Refused("not a finite number", column.allowed)
        return float(cell)
    if not isinstance(cell, str):
        return None
    text = cell.strip()
    if _FLOAT(text):
        return float(text)
    text = text.translate(_BLANKS)
    if _THOUSAND(text):
        raise Refused("may be a thousand or a decimal comma", f"{text.replace(',', '')} or {text.replace(',', '.')}")
    if not _NUMBER(text):
        return None
    return float(text.replace(" ", "").replace(",", "."))


def _sort(cell: Cell) -> str:
    if isinstance(cell, bool):
        return "yes or no"
    if isinstance(cell, (int, float)):
        return "a number"
    return f"a {type(cell).__name__}"
