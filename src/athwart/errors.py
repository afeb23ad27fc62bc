"""Exceptions of athwart.

::

    AthwartError
    ├── InputError(ValueError)          what a person typed could not be understood; carries every mistake
    │   ├── QuantityError               one quantity: text, kind, what is allowed
    │   ├── BriefError                  a brief file: a list of Mistake with line and column
    │   └── CatalogueError              an equipment table: a list of Mistake with sheet and cell
    ├── NotComputed(RuntimeError)       the model has no answer for this case (exit code 3)
    │   └── NoConvergence               an iteration stopped without an answer; carries its last state
    └── UnknownName(KeyError)           a formula, source, finding code or catalogue row that does not exist

Mistakes of the user are values (:class:`Mistake`), collected and raised once; mistakes of the programmer are exceptions.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Mistake:
    """One thing in the input that was not understood, and where."""

    message: str
    file: str = ""
    line: int | None = None
    column: int | None = None
    path: str = ""
    read: str = ""
    allowed: str = ""

    def __str__(self) -> str:
        place = ":".join(str(part) for part in (self.file or None, self.line, self.column) if part is not None)
        head = ": ".join(part for part in (place, self.path) if part)
        text = f"{head}: {self.message}" if head else self.message
        if self.read:
            text += f" (read: {self.read!r})"
        if self.allowed:
            text += f"; allowed: {self.allowed}"
        return text


class AthwartError(Exception):
    """Root of all errors raised on purpose."""


class InputError(AthwartError, ValueError):
    """Input that was not understood; ``mistakes`` holds all of them."""

    def __init__(self, message: str, mistakes: tuple[Mistake, ...] = ()) -> None:
        super().__init__(message)
        self.mistakes = mistakes


class QuantityError(InputError):
    """A quantity that could not be read."""


class BriefError(InputError):
    """A brief with mistakes."""


class CatalogueError(InputError):
    """An equipment table with mistakes."""


class NotComputed(AthwartError, RuntimeError):
    """The model has no answer for this case."""


class NoConvergence(NotComputed):
    """An iteration that ended without an answer; ``state`` is the last one reached."""

    def __init__(self, message: str, state: object = None) -> None:
        super().__init__(message)
        self.state = state


class UnknownName(AthwartError, KeyError):
    """A name that is not in a register; ``nearest`` is the best guess."""

    def __init__(self, kind: str, name: str, nearest: str = "") -> None:
        hint = f"; did you mean {nearest!r}?" if nearest else ""
        super().__init__(f"no {kind} named {name!r}{hint}")
        self.kind, self.name, self.nearest = kind, name, nearest

    def __str__(self) -> str:
        return str(self.args[0])
