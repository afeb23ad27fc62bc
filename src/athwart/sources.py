"""The register of sources, read from ``sources.toml`` once and lazily.

Every formula, table row, limit and finding names a key of this register. How a source was seen is part of it:

* ``read``  the place named was read;
* ``excerpt``  only an excerpt was read;
* ``memory``  from memory, not verified: a verdict that rests on it says so;
* ``practice``  a fact of the trade: common practice, no source;
* ``own``  our own arithmetic, derived in the docs or in a docstring;
* ``judgement``  a default chosen here, visible and editable.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from typing import Literal

from athwart import resources
from athwart.errors import UnknownName

Seen = Literal["read", "excerpt", "memory", "practice", "own", "judgement"]
SEEN: tuple[Seen, ...] = ("read", "excerpt", "memory", "practice", "own", "judgement")


@dataclass(frozen=True, slots=True)
class Source:
    """One entry of the register."""

    key: str
    title: str
    seen: Seen
    taken: str
    author: str = ""
    edition: str = ""
    place: str = ""
    licence: str = ""
    note: str = ""

    @property
    def verified(self) -> bool:
        """Whether a reader saw the figures in the source itself (or derived them here)."""
        return self.seen in ("read", "excerpt", "own", "practice")


@cache
def register() -> dict[str, Source]:
    """All sources by key."""
    table = tomllib.loads(resources.text("sources.toml"))
    return {key: Source(key=key, **entry) for key, entry in table.items()}


def source(key: str) -> Source:
    """One source; an unknown key is a mistake of the programmer or of a user's own table."""
    try:
        return register()[key]
    except KeyError:
        raise UnknownName("source", key) from None
