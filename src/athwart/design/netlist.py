"""The one netlist: diagram, schedules, bill of materials and circuit solver all read it; each conductor is tagged once.

Tags. Lane digit: 0 ship, 1.. units in the order of the brief, 9 control line. Equipment is a letter, lane, point, number from
the source outwards (``F1.1``); a conductor is lane, kind, number along its path (``1P2``), so neither can be taken for
the other. A piece ends at every stud, fuse, switch or bar.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

ComponentKind = Literal[
    "block",  # G: a battery block of a thruster bank
    "ship battery",  # G0.x
    "alternator",  # G0.x
    "shore charger",  # U0.x
    "isolator",  # V0.x: diode, electronic isolator or combining relay in a charge path
    "fuse",  # F
    "main switch",  # Q
    "stop contactor",  # Q
    "stop coil",  # the coil of a stop contactor; same tag as the contactor plus " coil"
    "stop button",  # S
    "unit",  # M: motor with its reversing contactors or drive in one dashed box
    "charger",  # U
    "network converter",  # U9.x
    "equaliser",  # U
    "bar",  # X: bus bar, fuse block, negative bar
    "terminator",  # R9.x
    "panel",  # A9.x
    "node",  # A9.x
    "tee",  # X9.x
    "feed",  # X9.x
    "pump",  # P
    "consumer",  # another load on the bank
]
ConductorKind = Literal["P", "N", "L", "C", "T", "D", "E", "H"]
DESCRIBED = "aboard "
"""Begins the id of a part that the brief describes instead of naming its catalogue row."""


def is_described(row: str | None) -> bool:
    """Whether a part was described in the brief: it exists, and other figures are lent by the nearest row."""
    return row is not None and row.startswith(DESCRIBED)


@dataclass(frozen=True, slots=True)
class Component:
    """A piece of equipment. ``terminals`` are stud names (``+``, ``-``, ``1``, ``2``, ``in+`` ...).

    ``resistance`` is between terminals ``1`` and ``2`` of a fuse, switch or contactor, or inside a battery. ``rating`` is at
    most two printed lines. ``aboard`` marks what exists already. ``name`` is in words.
    """

    tag: str
    kind: ComponentKind
    lane: int
    name: str
    rating: tuple[str, ...]
    terminals: tuple[str, ...]
    row: str | None = None
    place: str | None = None
    resistance: float = 0.0
    aboard: bool = False
    stop: Literal["energise to run", "latching"] | None = None
    facts: Mapping[str, float | str | bool] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class End:
    """A conductor's end: on which stud of which component."""

    component: str
    terminal: str

    def __str__(self) -> str:
        return f"{self.component}:{self.terminal}" if self.terminal not in "+-" else f"{self.component} {self.terminal}"


@dataclass(frozen=True, slots=True)
class Conductor:
    """One piece of conductor between two studs. ``length`` is its own, one way, in metres; ``resistance`` at 20 °C.

    ``parallel`` conductors of ``area`` each lie side by side. ``fuse`` is the tag of the fuse that protects it, None before the
    first fuse. ``current`` is the largest steady current it carries in the peak state.
    """

    tag: str
    kind: ConductorKind
    lane: int
    start: End
    end: End
    area: float
    size: str
    length: float
    resistance: float
    parallel: int = 1
    row: str | None = None
    colour: str = ""
    insulation_temperature: float | None = None
    fuse: str | None = None
    current: float | None = None
    ampacity: float | None = None
    ampacity_verified: bool = True
    route: str = ""
    engine_space: bool = False
    aboard: bool = False
    purpose: str = ""


@dataclass(frozen=True, slots=True)
class Netlist:
    """All components and conductors, in tag order."""

    components: tuple[Component, ...]
    conductors: tuple[Conductor, ...]

    def component(self, tag: str) -> Component:
        """The component with this tag."""
        return next(component for component in self.components if component.tag == tag)

    def conductor(self, tag: str) -> Conductor:
        """The conductor with this tag."""
        return next(conductor for conductor in self.conductors if conductor.tag == tag)

    def of_lane(self, lane: int) -> tuple[tuple[Component, ...], tuple[Conductor, ...]]:
        """What belongs to one lane."""
        return (
            tuple(component for component in self.components if component.lane == lane),
            tuple(conductor for conductor in self.conductors if conductor.lane == lane),
        )

    def nets(self) -> tuple[frozenset[str], ...]:
        """Studs joined by conductors, as sets of ``component:terminal``."""
        parent: dict[str, str] = {}

        def root(stud: str) -> str:
            parent.setdefault(stud, stud)
            while parent[stud] != stud:
                parent[stud] = parent[parent[stud]]
                stud = parent[stud]
            return stud

        for conductor in self.conductors:
            a, b = (f"{end.component}:{end.terminal}" for end in (conductor.start, conductor.end))
            parent[root(a)] = root(b)
        for component in self.components:
            if component.kind in ("bar", "tee", "feed"):
                studs = [stud for stud in parent if stud.startswith(f"{component.tag}:")]
                if component.kind == "bar":
                    for stud in studs[1:]:
                        parent[root(stud)] = root(studs[0])
        groups: dict[str, set[str]] = {}
        for stud in parent:
            groups.setdefault(root(stud), set()).add(stud)
        return tuple(frozenset(group) for _, group in sorted(groups.items()))
