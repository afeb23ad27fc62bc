"""Interlocks of a retractable unit: which motion its state and the boat's permit.

Two limit sensors tell the state. Both at once is a fault of the sensors, never "up": a unit that says fully up and hangs below
takes the ground, or a chain. The table is data; :func:`permission` reads it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

State = Literal["raised", "between", "lowered", "sensor fault"]
Motion = Literal["lower", "raise", "run", "make way"]
Guard = Literal["drive stopped", "speed below limit", "engine not astern", "pin out", "pin in"]

STATES: tuple[State, ...] = ("raised", "between", "lowered", "sensor fault")
MOTIONS: tuple[Motion, ...] = ("lower", "raise", "run", "make way")

#: (state, motion) -> guards that must hold; a pair that is missing is never permitted
INTERLOCK: Mapping[tuple[State, Motion], tuple[Guard, ...]] = MappingProxyType(
    {
        ("raised", "lower"): ("drive stopped", "speed below limit", "engine not astern", "pin out"),
        ("raised", "raise"): ("drive stopped",),
        ("raised", "make way"): (),
        ("between", "lower"): ("drive stopped", "speed below limit", "engine not astern", "pin out"),
        ("between", "raise"): ("drive stopped", "pin out"),
        ("between", "make way"): ("speed below limit", "engine not astern"),
        ("lowered", "lower"): ("drive stopped", "speed below limit", "engine not astern"),
        ("lowered", "raise"): ("drive stopped", "pin out"),
        ("lowered", "run"): ("speed below limit",),
        ("lowered", "make way"): ("speed below limit", "engine not astern"),
        ("sensor fault", "make way"): ("speed below limit", "engine not astern"),
    }
)

WHY: Mapping[Guard, str] = MappingProxyType(
    {
        "drive stopped": "the propeller turns against the hull or its door",
        "speed below limit": "the leg and its gear do not bear the water's force above the maker's speed",
        "engine not astern": "the boat backs over its own chain, or over the ground",
        "pin out": "the locking pin holds the leg",
        "pin in": "at sea the leg hangs on its gear alone",
    }
)
NEVER = "the propeller is not in free water in this state"
FAULT = "the sensors contradict each other: nothing moves by itself; raise it by hand and look"

#: name in a brief -> the guard it provides; a hand gear is a fitting, not a guard
PROVIDES: Mapping[str, Guard | None] = MappingProxyType(
    {
        "raise only when stopped": "drive stopped",
        "speed limit": "speed below limit",
        "engine astern": "engine not astern",
        "locking pin": "pin in",
        "manual raise": None,
    }
)


def state_of(up: bool, down: bool) -> State:
    """The state two limit sensors tell.

    >>> state_of(True, False), state_of(False, False), state_of(True, True)
    ('raised', 'between', 'sensor fault')
    """
    if up and down:
        return "sensor fault"
    if up:
        return "raised"
    return "lowered" if down else "between"


@dataclass(frozen=True, slots=True)
class Permission:
    """Whether a motion may start, and what is in its way."""

    allowed: bool
    lacking: tuple[Guard, ...]
    because: str


def permission(state: State, motion: Motion, holding: Iterable[Guard]) -> Permission:
    """Whether a motion may start in a state, with the guards that hold just now.

    >>> permission("lowered", "raise", {"pin out"}).because
    'the propeller turns against the hull or its door'
    >>> permission("lowered", "raise", {"drive stopped", "pin out"}).allowed
    True
    """
    guards = INTERLOCK.get((state, motion))
    if guards is None:
        return Permission(False, (), FAULT if state == "sensor fault" else NEVER)
    held = set(holding)
    lacking = tuple(guard for guard in guards if guard not in held)
    return Permission(not lacking, lacking, "; ".join(WHY[guard] for guard in lacking))


def missing_interlocks(fitted: Iterable[str]) -> tuple[str, ...]:
    """Interlocks and fittings a retractable should have, by their name in a brief, that are not fitted.

    >>> missing_interlocks(["raise only when stopped", "speed limit", "engine astern", "locking pin"])
    ('manual raise',)
    """
    there = set(fitted)
    if strange := sorted(there - set(PROVIDES)):
        raise ValueError(f"no interlock named {', '.join(strange)}; there are {', '.join(PROVIDES)}")
    return tuple(name for name in PROVIDES if name not in there)
