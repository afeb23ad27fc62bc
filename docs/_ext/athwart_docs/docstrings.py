"""Reading the docstrings of formulas: the sections of style, and the parameters with the unit at their end."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable
from dataclasses import dataclass, field

_UNDERLINE = re.compile(r"^-{3,}\s*$")
_PARAMETER = re.compile(r"^(?P<names>\*{0,2}\w+(?:, *\w+)*) *:(?: (?P<text>.*))?$")
_UNIT = re.compile(r"\[(?P<unit>[^\[\]]+)\]\s*\.?\s*$")


@dataclass(frozen=True, slots=True)
class Parameter:
    """One parameter as documented; ``unit`` is empty when no bracket ends its text."""

    name: str
    text: str
    unit: str


@dataclass(frozen=True, slots=True)
class Docstring:
    """A docstring taken apart."""

    summary: str
    body: str
    parameters: dict[str, Parameter]
    sections: dict[str, str] = field(default_factory=dict)


def read(function: Callable[..., object]) -> Docstring:
    """The docstring of a function; all parts empty when it has none."""
    lines = (inspect.getdoc(function) or "").splitlines()
    heads = [n for n in range(len(lines) - 1) if _UNDERLINE.match(lines[n + 1]) and lines[n].strip()]
    ends = [*heads[1:], len(lines)]
    sections = {lines[n].strip(): "\n".join(lines[n + 2 : end]).strip("\n") for n, end in zip(heads, ends, strict=False)}
    head = lines[: heads[0]] if heads else lines
    summary = head[0].strip() if head else ""
    return Docstring(summary, "\n".join(head[1:]).strip(), _parameters(sections.get("Parameters", "")), sections)


def _parameters(section: str) -> dict[str, Parameter]:
    entries: list[tuple[str, list[str]]] = []
    for line in section.splitlines():
        if (match := _PARAMETER.match(line)) is not None:
            entries.append((match["names"], [match["text"] or ""]))
        elif entries and line.strip():
            entries[-1][1].append(line.strip())
    found = {}
    for names, texts in entries:
        text = " ".join(texts).strip()
        match = _UNIT.search(text)
        for name in names.replace("*", "").split(","):
            found[name.strip()] = Parameter(name.strip(), _UNIT.sub("", text).strip(), match["unit"] if match else "")
    return found
