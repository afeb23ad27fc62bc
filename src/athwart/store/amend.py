"""Change one value in the text of a brief and not one character beside it."""

from __future__ import annotations

import json
import re

from athwart.errors import BriefError, Mistake
from athwart.store.outline import Loc, Outline, Place, outline, read_section

_PART = re.compile(r"\[(\d+)\]|([^.\[\]]+)")


def loc_of(path: str) -> Loc:
    """A path in its parts.

    >>> loc_of("thrusters[0].tunnel.x")
    ('thrusters', 0, 'tunnel', 'x')
    """
    return tuple(int(number) if number else name for number, name in _PART.findall(path))


def amended(text: str, path: str, value: str, file: str = "") -> str:
    """The text with the value at a path replaced, or put in where it is not given yet; ``value`` is text as a person types it."""
    doc, loc = outline(text, file), loc_of(path)
    if doc.mistakes:
        raise BriefError(f"{file or 'brief'}: cannot be changed while it has mistakes", doc.mistakes)
    if not loc or isinstance(loc[0], int):
        raise _refused(path, "this is no path in a brief", file)
    place = doc.at(loc)
    if place is not None:
        if place.node.kind != "scalar":
            raise _refused(path, "this is a section or a list; change the values in it", file)
        return _replaced(text, place, value, _in_flow(doc, loc))
    known = next(number for number in range(len(loc) - 1, -1, -1) if number == 0 or doc.at(loc[:number]))
    if known == 0:
        return _appended(text, _block(loc, value), "")
    parent = doc.at(loc[:known])
    assert parent is not None
    wanted, node = loc[known], parent.node
    if node.kind == "scalar" or (node.kind == "sequence") != isinstance(wanted, int):
        raise _refused(path, "this is no path in this brief", file)
    if isinstance(wanted, int) and wanted != len(node.items):
        raise _refused(path, f"the list has {len(node.items)} items; the next one is [{len(node.items)}]", file)
    return _inserted(text, parent, loc[known:], value)


def _refused(path: str, message: str, file: str) -> BriefError:
    return BriefError(f"{path}: {message}", (Mistake(message, file, path=path),))


def _in_flow(doc: Outline, loc: Loc) -> bool:
    return any((place := doc.at(loc[:number])) is not None and place.node.flow for number in range(1, len(loc)))


def _replaced(text: str, place: Place, value: str, in_flow: bool) -> str:
    if place.node.text == value:
        return text
    end, style = place.end, place.node.style
    if style in ("|", ">"):  # a block of prose ends with its own line break, which stays
        end = place.start + len(text[place.start : end].rstrip())
        style = ""
    return text[: place.start] + scalar(value, in_flow, style) + text[end:]


def scalar(value: str, in_flow: bool = False, style: str = "") -> str:
    """A value as YAML: as it is where that reads the same, else in quotes; ``style`` is the quote it had."""
    if style == "'" and "\n" not in value and value.isprintable():
        return "'" + value.replace("'", "''") + "'"
    if style != '"' and _reads_as(value, in_flow):
        return value
    return json.dumps(value, ensure_ascii=False)


def _reads_as(value: str, in_flow: bool) -> bool:
    if not value or "\n" in value or "\r" in value:
        return False
    root = read_section(f"k: [{value}]" if in_flow else f"k: {value}").root
    node = root.items.get("k") if root else None
    if node is not None and in_flow:
        node = node.items.get(0) if len(node.items) == 1 else None
    return node is not None and node.kind == "scalar" and not node.style and node.text == value


def _inserted(text: str, parent: Place, tail: Loc, value: str) -> str:
    node = parent.node
    if node.flow:
        at = parent.end - 1
        lead = ", " if node.items else ""
        before = text[:at].rstrip()
        return before + lead + _flow(tail, value, node.kind) + text[len(before) :]
    return _appended(text, _block(tail, value), " " * node.indent, _end_of(text, parent))


def _end_of(text: str, parent: Place) -> int:
    """Behind the last line of a block, its comment included, without the line break."""
    end = len(text[: parent.end].rstrip())
    stop = text.find("\n", end)
    return len(text) if stop < 0 else stop - (text[stop - 1] == "\r")


def _appended(text: str, lines: list[str], indent: str, at: int | None = None) -> str:
    newline = "\r\n" if "\r\n" in text else "\n"
    block = newline.join(indent + line for line in lines)
    if at is None:
        return text + ("" if not text or text.endswith("\n") else newline) + block + newline
    return text[:at] + newline + block + text[at:]


def _block(tail: Loc, value: str) -> list[str]:
    """A path below a block collection as lines."""
    if not tail:
        return [scalar(value)]
    head, rest = tail[0], tail[1:]
    below = _block(rest, value)
    if isinstance(head, int):
        return [f"- {below[0]}", *(f"  {line}" for line in below[1:])]
    if not rest:
        return [f"{scalar(head)}: {below[0]}"]
    return [f"{scalar(head)}:", *(f"  {line}" for line in below)]


def _flow(tail: Loc, value: str, inside: str = "") -> str:
    """A path below a collection in brackets, in brackets too; ``inside`` is the kind of the open collection it joins."""
    if not tail:
        return scalar(value, in_flow=True)
    below = _flow(tail[1:], value)
    if isinstance(tail[0], int):
        return below if inside == "sequence" else f"[{below}]"
    pair = f"{scalar(tail[0], in_flow=True)}: {below}"
    return pair if inside == "mapping" else f"{{{pair}}}"
