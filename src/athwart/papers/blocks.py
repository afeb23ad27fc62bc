"""What a page is made of, as plain data: the template knows these blocks and nothing of boats.

User text travels only as JSON strings and is never read as markup.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, Literal

Align = Literal["l", "r", "c"]
Cell = str | dict[str, Any]
Block = dict[str, Any]
Column = tuple[str, Align, str]
"""Head, alignment, width: ``auto``, ``2fr`` or ``18mm``."""


def section(title: str) -> Block:
    """A heading inside a page; the template numbers it."""
    return {"kind": "section", "title": title}


def text(words: str, *, small: bool = False) -> Block:
    """A paragraph."""
    return {"kind": "text", "text": words, "small": small}


def table(
    columns: Sequence[Column],
    rows: Iterable[Sequence[Cell]],
    *,
    size: float = 8.0,
    inset: float = 2.6,
    caption: str = "",
    whole: bool = False,
) -> Block:
    """A table; a row of one cell heads a group; ``whole`` keeps it on one page, which it must fit."""
    return {
        "kind": "table",
        "columns": [{"head": head, "align": align, "width": width} for head, align, width in columns],
        "rows": [list(row) for row in rows],
        "size": size,
        "inset": inset,
        "caption": caption,
        "whole": whole,
    }


def pair(left: Sequence[Block], right: Sequence[Block], *, share: tuple[float, float] = (1.0, 1.0), whole: bool = False) -> Block:
    """Two columns of short blocks; ``whole`` keeps them on one page."""
    return {"kind": "pair", "left": list(left), "right": list(right), "share": list(share), "whole": whole}


def figure(svg: str, caption: str, alt: str, *, width: float = 162.0) -> Block:
    """A chart with its caption and its sentence for those who cannot see it."""
    return {"kind": "figure", "svg": svg, "caption": caption, "alt": alt, "width": width}


def caution(word: str, act: str, reason: str = "") -> Block:
    """A caution box: one imperative sentence, then the reason."""
    return {"kind": "caution", "word": word, "act": act, "reason": reason}


def key(pairs: Iterable[tuple[str, str]], *, columns: int = 1) -> Block:
    """Names and values side by side."""
    return {"kind": "key", "pairs": [list(entry) for entry in pairs], "columns": columns}


def balance(name: str, over: str, under: str, right: str) -> Block:
    """The balance of moments with its numbers as a fraction."""
    return {"kind": "balance", "name": name, "over": over, "under": under, "right": right}


def blanks(names: Sequence[str]) -> Block:
    """Lines to be written on."""
    return {"kind": "blanks", "names": list(names)}


def space(millimetres: float) -> Block:
    """Air."""
    return {"kind": "space", "height": millimetres}


def bold(words: str) -> Cell:
    """A cell in bold."""
    return {"style": "bold", "text": words}


def tag(words: str) -> Cell:
    """A cell in the fixed-width face."""
    return {"style": "tag", "text": words}


def italic(words: str) -> Cell:
    """A cell in italics: an origin word."""
    return {"style": "italic", "text": words}


TICK: Cell = {"style": "tick"}
WRITE: Cell = {"style": "write"}


def mark(severity: str) -> Cell:
    """The sign of a severity, then its word."""
    return {"style": "mark", "text": severity}


def care(word: str, words: str) -> Cell:
    """A caution inside a table."""
    return {"style": "care", "word": word, "text": words}


def page(title: str, blocks: Iterable[Block], *, paper: str = "", joined: bool = False) -> Block:
    """A numbered section; ``paper`` is its own number (``V-001-W1``), ``joined`` keeps it on the page before if there is room."""
    return {"kind": "page", "title": title, "blocks": list(blocks), "paper": paper, "joined": joined}


def drawing(svg: str, title: str, number: str, alt: str) -> Block:
    """An A3 sheet with its own frame."""
    return {"kind": "drawing", "svg": svg, "title": title, "number": number, "alt": alt}
