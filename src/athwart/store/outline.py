"""The outline of a YAML text: what stands where, to the character.

ruamel.yaml scans and parses; this module keeps its events as plain data plus the place of every key and value, so that a
mistake can be pointed at and a value replaced without touching anything else. Every scalar stays the text that was typed:
what it means is the business of the model. A text is cut at its top-level keys and each section is parsed alone and
remembered, which is why one broken section does not hide the mistakes of the others, and why reading again after a small
change costs little.

Refused: anchors, aliases, tags, merge keys, several documents, more than 1 MB, nesting deeper than 12.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any, Literal, TypeAlias

from athwart.errors import Mistake

SIZE_MOST = 1_000_000
DEPTH_MOST = 12
Loc: TypeAlias = tuple[str | int, ...]
Kind = Literal["scalar", "mapping", "sequence"]

_TOP_KEY = re.compile(r"""^(?:"[^"\n]*"|'[^'\n]*'|[^\s#&*!|>'"%@`\-?{}\[\],:][^:\n#]*)\s*:(?=\s|$)""", re.MULTILINE)
_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(slots=True)
class Node:
    """One value: where it starts and ends in the text (``start``, ``end`` count characters; ``line`` and ``column`` from 1).

    ``style`` is the quote of a scalar (empty when plain), ``flow`` whether a collection is written in brackets. ``items`` are
    the values of a collection by key or position; ``keys`` where the keys of a mapping stand.
    """

    kind: Kind
    start: int
    line: int
    column: int
    end: int = 0
    text: str = ""
    style: str = ""
    flow: bool = False
    indent: int = 0
    items: dict[str | int, Node] = field(default_factory=dict)
    keys: dict[str, Node] = field(default_factory=dict)

    def data(self) -> Any:
        """The value as plain data: mappings, lists and texts."""
        if self.kind == "scalar":
            return self.text
        if self.kind == "sequence":
            return [item.data() for item in self.items.values()]
        return {key: item.data() for key, item in self.items.items()}

    def leaves(self, loc: Loc = ()) -> Iterator[tuple[Loc, Node]]:
        """All scalars below, with their paths."""
        if self.kind == "scalar":
            yield loc, self
        else:
            for key, item in self.items.items():
                yield from item.leaves((*loc, key))


@dataclass(frozen=True, slots=True)
class Section:
    """A stretch of text from one top-level key to the next, read alone; places count from its own beginning."""

    root: Node | None
    data: dict[str, Any]
    mistakes: tuple[Mistake, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """A node with the shift of its section."""

    node: Node
    shift: int
    lines: int

    @property
    def start(self) -> int:
        """First character in the whole text."""
        return self.node.start + self.shift

    @property
    def end(self) -> int:
        """Behind the last character in the whole text."""
        return self.node.end + self.shift

    @property
    def line(self) -> int:
        """Line in the whole text, from 1."""
        return self.node.line + self.lines

    @property
    def column(self) -> int:
        """Column, from 1."""
        return self.node.column


@dataclass(frozen=True, slots=True)
class Outline:
    """A whole text: its sections by key, each with its shift in characters and lines; ``data`` is all of it as plain data."""

    text: str
    sections: dict[str, tuple[Node, Section, int, int]]
    data: dict[str, Any]
    mistakes: tuple[Mistake, ...]

    def at(self, loc: Loc) -> Place | None:
        """The value at a path, or None."""
        if not loc or loc[0] not in self.sections:
            return None
        _, section, shift, lines = self.sections[str(loc[0])]
        node = section.root.items.get(str(loc[0])) if section.root else None
        for part in loc[1:]:
            node = node.items.get(part) if node else None
        return Place(node, shift, lines) if node else None

    def key_at(self, loc: Loc) -> Place | None:
        """The key that a path ends with, or None where it ends with a position."""
        if len(loc) == 1:
            found = self.sections.get(str(loc[0]))
            return Place(found[0], found[2], found[3]) if found else None
        parent = self.at(loc[:-1])
        key = parent.node.keys.get(str(loc[-1])) if parent and isinstance(loc[-1], str) else None
        return Place(key, parent.shift, parent.lines) if parent and key else None

    def leaves(self) -> Iterator[tuple[Loc, Place]]:
        """All scalars with their paths, in the order of the text."""
        for name, (_, section, shift, lines) in self.sections.items():
            if section.root:
                for loc, node in section.root.items[name].leaves((name,)):
                    yield loc, Place(node, shift, lines)


def outline(text: str, file: str = "") -> Outline:
    """Read a text; what cannot be read is told in ``mistakes`` and left out of ``data``."""
    refused = _refused(text, file)
    if refused:
        return Outline(text, {}, {}, refused)
    sections: dict[str, tuple[Node, Section, int, int]] = {}
    data: dict[str, Any] = {}
    mistakes: list[Mistake] = []
    cuts = sorted({0, *(match.start() for match in _TOP_KEY.finditer(text))})
    lines = 0
    for start, end in zip(cuts, [*cuts[1:], len(text)], strict=True):
        piece = text[start:end]
        section = read_section(piece)
        mistakes += [_moved(mistake, file, lines) for mistake in section.mistakes]
        for name, key in section.root.keys.items() if section.root else ():
            if name in sections:
                mistakes.append(_moved(_twice(name, key), file, lines))
            elif key.column != 1:
                mistakes.append(Mistake("a section begins at the left edge", file, key.line + lines, key.column, name, name))
            else:
                sections[name] = (key, section, start, lines)
                data[name] = section.data[name]
        lines += piece.count("\n")
    return Outline(text, sections, data, tuple(mistakes))


def _refused(text: str, file: str) -> tuple[Mistake, ...]:
    """What is said about a text without reading it."""
    if len(text) > SIZE_MOST or len(text.encode("utf-8", "surrogatepass")) > SIZE_MOST:
        return (Mistake("the file is too large for a brief", file, 1, 1, allowed="at most 1 MB"),)
    return tuple(
        Mistake(
            "a character that cannot be printed",
            file,
            text.count("\n", 0, match.start()) + 1,
            match.start() - text.rfind("\n", 0, match.start()),
            read=f"U+{ord(match[0]):04X}",
            allowed="text in UTF-8",
        )
        for match in _UNPRINTABLE.finditer(text)
    )


def _moved(mistake: Mistake, file: str, lines: int) -> Mistake:
    return replace(mistake, file=file, line=(mistake.line or 1) + lines)


def _twice(path: str, key: Node) -> Mistake:
    return Mistake("this key is given twice", line=key.line, column=key.column, path=path, allowed="each key once")


@lru_cache(maxsize=1024)
def read_section(text: str) -> Section:
    """One section alone."""
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    reader = _Reader()
    try:
        root = reader.read(text)
    except MarkedYAMLError as error:
        return Section(None, {}, (*reader.mistakes, _syntax(error, text)))
    except YAMLError as error:
        return Section(
            None, {}, (*reader.mistakes, Mistake(f"not understood as YAML: {error}".splitlines()[0], line=1, column=1))
        )
    except _StopError:
        root = None
    if root is None or root.kind != "mapping":
        if root is not None and (root.text or root.style or root.kind == "sequence"):
            message = "a brief is made of sections, each a key with a colon"
            reader.mistakes.append(
                Mistake(message, line=root.line, column=root.column, read=root.text[:40], allowed="for example boat:")
            )
        return Section(None, {}, tuple(reader.mistakes))
    return Section(root, root.data(), tuple(reader.mistakes))


class _StopError(Exception):
    """Reading a section ended early; the mistake is already told."""


class _Reader:
    """Builds nodes from the events of one section; without recursion, so that depth is ours to limit."""

    def __init__(self) -> None:
        self.mistakes: list[Mistake] = []
        self.stack: list[Node] = []
        self.pending: list[Node | None] = []  # for every open mapping the key whose value comes next
        self.root: Node | None = None

    def read(self, text: str) -> Node | None:
        from ruamel.yaml import YAML

        documents = 0
        for event in YAML(typ="safe", pure=True).parse(text):
            name = type(event).__name__
            if name == "DocumentStartEvent":
                documents += 1
                if documents > 1 or event.tags:
                    self._stop("only one document without directives can stand in a brief", event)
            elif name == "AliasEvent":
                self._stop("aliases (*name) are not read in a brief; write the value out", event)
            elif name in ("ScalarEvent", "MappingStartEvent", "SequenceStartEvent"):
                self._value(event, name)
            elif name in ("MappingEndEvent", "SequenceEndEvent"):
                self.stack[-1].end = event.end_mark.index if self.stack[-1].flow else _last(self.stack[-1])
                self.stack.pop()
                self.pending.pop()
                self._done()
        return self.root

    def _value(self, event: Any, name: str) -> None:
        if event.anchor is not None:
            self._stop("anchors (&name) are not read in a brief; write the value out", event)
        if event.tag is not None:
            self._stop("tags (!name) are not read in a brief", event)
        mark = event.start_mark
        node = Node("scalar", mark.index, mark.line + 1, mark.column + 1, event.end_mark.index)
        if name == "ScalarEvent":
            node.text, node.style = event.value, event.style or ""
        else:
            node.kind = "mapping" if name == "MappingStartEvent" else "sequence"
            node.flow, node.indent = bool(event.flow_style), mark.column
            if len(self.stack) >= DEPTH_MOST:
                self._stop("nested too deeply", event, allowed=f"at most {DEPTH_MOST} levels")
        is_key = self._place(node, event)
        if node.kind != "scalar":
            self.stack.append(node)
            self.pending.append(None)
        elif not is_key:
            self._done()

    def _done(self) -> None:
        """The value of the open key is complete."""
        if self.pending:
            self.pending[-1] = None

    def _place(self, node: Node, event: Any) -> bool:
        """Give a node its place in the collection that is open; whether it is a key."""
        if not self.stack:
            self.root = node
            return False
        parent = self.stack[-1]
        if parent.kind == "sequence":
            parent.items[len(parent.items)] = node
            self._not_empty(node, f"[{len(parent.items) - 1}]")
            return False
        key = self.pending[-1]
        if key is None:
            if node.kind != "scalar":
                self._stop("a key is one word or a few, not a list", event)
            if node.text == "<<":
                self._stop("merge keys (<<) are not read in a brief; write the values out", event)
            self.pending[-1] = node
            return True
        if key.text in parent.items:
            self.mistakes.append(_twice(self._path(key.text), key))
        else:
            parent.items[key.text], parent.keys[key.text] = node, key
        self._not_empty(node, key.text, key)
        return False

    def _not_empty(self, node: Node, name: str, key: Node | None = None) -> None:
        if node.kind == "scalar" and not node.style and not node.text:
            at = key or node
            message = "nothing is given here"
            self.mistakes.append(
                Mistake(message, line=at.line, column=at.column, path=self._path(name), allowed="a value, or the line taken out")
            )

    def _path(self, last: str) -> str:
        parts: list[str] = []
        for node, key in zip(self.stack[:-1], self.pending[:-1], strict=True):
            parts.append(key.text if key else f"[{len(node.items) - 1}]" if node.kind == "sequence" else "")
        text = ".".join(part for part in [*parts, last] if part)
        return text.replace(".[", "[")

    def _stop(self, message: str, event: Any, allowed: str = "") -> None:
        mark = event.start_mark
        self.mistakes.append(Mistake(message, line=mark.line + 1, column=mark.column + 1, allowed=allowed))
        raise _StopError


def _last(node: Node) -> int:
    """Where a collection without brackets ends: with its last value."""
    return max((item.end for item in node.items.values()), default=node.end)


_SYNTAX: tuple[tuple[str, str, bool], ...] = (
    ("'\\t'", "a tab; YAML is indented with spaces", False),
    ("expected ',' or ']'", "the bracket [ that begins here is not closed, or a comma is missing in it", True),
    ("expected ',' or '}'", "the brace { that begins here is not closed, or a comma is missing in it", True),
    ("unexpected end of stream", "the quote that begins here is not closed", True),
    (
        "mapping values are not allowed",
        "a colon where no key can stand: two keys in one line, or a wrong indentation above",
        False,
    ),
    ("could not find expected ':'", "a key without its colon", True),
    ("expected <block end>", "the indentation does not fit the lines above", False),
    ("unknown escape character", "an unknown escape in a text in double quotes; use single quotes", False),
    ("document separator", "a line of --- or ... inside a text in quotes", True),
    ("expected alphabetic or numeric", "anchors (&name) and aliases (*name) are not read in a brief", False),
    ("block sequence entries are not allowed", "a list item (-) where none can stand", False),
    ("cannot start any token", "a character that cannot begin a value; put the value in quotes", False),
    ("expected the node content", "a value is missing or cannot begin like this", False),
)


def _syntax(error: Any, text: str) -> Mistake:
    """A mistake of the YAML itself in our words, placed where the person can mend it."""
    problem = str(error.problem or error.context or "")
    known = ((message, at_context) for sign, message, at_context in _SYNTAX if sign in problem)
    message, at_context = next(known, (f"not understood as YAML: {problem}", False))
    mark = (error.context_mark if at_context else None) or error.problem_mark or error.context_mark
    if mark is None:
        return Mistake(message, line=1, column=1)
    lines = text.splitlines() or [""]
    line = lines[min(mark.line, len(lines) - 1)]
    return Mistake(message, line=mark.line + 1, column=mark.column + 1, read=line.strip()[:60])
