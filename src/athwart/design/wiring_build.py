"""What the parts of :mod:`athwart.design.wiring` share: the builder that numbers tags, and the choice of small conductors."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from athwart.catalogue.records import Cable, Catalogue, Fuse
from athwart.design.brief import Brief
from athwart.design.netlist import Component, ComponentKind, Conductor, ConductorKind, End, Netlist, is_described
from athwart.power.ampacity import ampacity
from athwart.power.conductor import resistance_per_metre
from athwart.power.contact import JOINTS
from athwart.power.fuse import breaking_capacity_at
from athwart.units import Ampere, Metre, Ohm, SquareMetre, Volt

STUD_PIECE: Metre = 0.10
"""From a bar or battery stud to the fuse screwed beside it; common practice, no source."""
FUSE_FROM_SOURCE: Metre = 0.15
"""Bank to main fuse where nothing is said; common practice, no source."""
SWITCH_PIECE: Metre = 0.40
"""Fuse to switch and switch to contactor when they share a board; common practice, no source."""
LEAST_BRANCH: SquareMetre = 1.5e-6
"""Least conductor for control, fuse taps and network feed: mechanical strength; common practice, no source."""
PVC_RATING = 343.15
METRIC_AREAS = tuple(area * 1e-6 for area in (1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0, 120.0))
ROUND_RATINGS = (1.0, 2.0, 3.0, 5.0, 7.5, 10.0, 15.0, 20.0, 30.0, 40.0, 60.0, 80.0, 100.0)
SMALL_FUSE_MOST: Ampere = 10.0
SMALL_FUSE_OVER = 3.0
"""A small fuse is rated up to this multiple of its current, or 10 A (own judgement): beyond that it protects nothing."""
KIND_ORDER = "PNLCTDEH"
COLOURS: dict[str, dict[str, str]] = {
    "iso small craft": {"P": "red", "N": "black", "L": "red", "C": "brown", "E": "green, yellow stripe"},
    "us": {"P": "red", "N": "yellow", "L": "red", "C": "brown", "E": "green, yellow stripe"},
}
"""Words only; a drawing never depends on them. Plus and minus after the rule set, control brown by common practice, no source."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """What a conductor is made of: size and its resistance a metre at 20 °C, none for a line whose size nobody gave."""

    area: SquareMetre
    size: str
    ohm_per_metre: float
    row: str | None = None
    insulation: float | None = None
    parallel: int = 1

    @classmethod
    def of(cls, cable: Cable, parallel: int = 1) -> Stretch:
        """From a catalogue row."""
        return cls(
            cable.area, printed_size(cable.gauge), cable.resistance_per_metre, cable.id, cable.insulation_temperature, parallel
        )


def printed_size(gauge: str) -> str:
    """A conductor's size as papers print it."""
    return gauge.replace("mm2", "mm²")


UNKNOWN = Stretch(0.0, "aboard", 0.0)
"""A conductor that exists and whose size nobody gave."""


def natural(tag: str) -> tuple[Any, ...]:
    """Sort key that counts numbers as numbers."""
    return tuple(int(part) if part.isdigit() else part for part in re.split(r"(\d+)", tag))


@dataclass(slots=True)
class Builder:
    """Collects components and conductors and gives every one its tag once.

    Invariant: a tag handed out is never handed out again.
    """

    brief: Brief
    catalogue: Catalogue
    components: dict[str, Component] = field(default_factory=dict)
    conductors: list[Conductor] = field(default_factory=list)
    used: dict[tuple[str, int], int] = field(default_factory=dict)
    behind: dict[str, tuple[Volt, Ampere]] = field(default_factory=dict)
    """Highest charging volts and bolted fault current at a component that can be tapped: what a fuse there has to break."""

    def tag(self, letter: str, lane: int) -> str:
        """The next free equipment tag."""
        number = self.used[letter, lane] = self.used.get((letter, lane), 0) + 1
        return f"{letter}{lane}.{number}"

    def reserve(self, letter: str, lane: int, numbers: int) -> None:
        """Keep the first numbers of a letter (or ``Pwire``): ``F1.1`` main, ``F1.2`` charger, ``F1.3`` control."""
        self.used[letter, lane] = max(self.used.get((letter, lane), 0), numbers)

    def add(
        self,
        tag: str,
        kind: ComponentKind,
        lane: int,
        name: str,
        rating: tuple[str, ...],
        terminals: tuple[str, ...],
        *,
        facts: Mapping[str, float | str | bool] | None = None,
        **others: Any,
    ) -> str:
        """Add a component and give back its tag."""
        if tag in self.components:
            raise ValueError(f"tag {tag} is taken")
        self.components[tag] = Component(tag, kind, lane, name, rating, terminals, facts=facts or {}, **others)
        return tag

    def fuse(
        self, tag: str, lane: int, rating: Ampere, name: str, fuse: Fuse | None = None, place: str | None = None,
        *, behind: tuple[Volt, Ampere] | None = None, **others: Any,
    ) -> str:  # fmt: skip
        """Add a fuse with its two studs; facts: its rating ``amps``, and ``volts`` and ``fault`` that it has to break."""
        resistance = fuse.resistance if fuse else 0.0
        row = fuse.id if fuse else None
        facts: dict[str, float | str | bool] = {"amps": rating}
        if behind is not None:
            facts |= {"volts": behind[0], "fault": behind[1]}
        studs = ("1", "2")
        return self.add(
            tag, "fuse", lane, name, (amps(rating),), studs, row=row, place=place, resistance=resistance, facts=facts, **others
        )

    def run(
        self,
        lane: int,
        kind: ConductorKind,
        start: tuple[str, str],
        end: tuple[str, str],
        stretch: Stretch,
        length: Metre,
        *,
        number: int | None = None,
        **others: Any,
    ) -> str:
        """Add a conductor from stud to stud, numbered on from the last of its lane and kind unless its number was reserved."""
        if number is None:
            number = self.used[kind + "wire", lane] = self.used.get((kind + "wire", lane), 0) + 1
        tag = f"{lane}{kind}{number}"
        colour = COLOURS[self.brief.choices.rule_set].get(kind, "")
        others["aboard"] = others.get("aboard", False) or is_described(stretch.row)
        resistance: Ohm = stretch.ohm_per_metre * length / stretch.parallel
        self.conductors.append(
            Conductor(
                tag,
                kind,
                lane,
                End(*start),
                End(*end),
                stretch.area,
                stretch.size,
                length,
                resistance,
                parallel=stretch.parallel,
                row=stretch.row,
                colour=colour,
                insulation_temperature=stretch.insulation,
                **others,
            )
        )
        return tag

    def netlist(self) -> Netlist:
        """All of it, in tag order."""
        components = sorted(self.components.values(), key=lambda entry: (entry.lane, natural(entry.tag)))
        conductors = sorted(self.conductors, key=lambda entry: (entry.lane, KIND_ORDER.index(entry.kind), natural(entry.tag)))
        return Netlist(tuple(components), tuple(conductors))

    def cables(self) -> list[Cable]:
        """Marine cables in the scale of the rule set (AWG under the US rules), thinnest first; all where there is no such row."""
        awg = self.brief.choices.rule_set == "us"
        rows = [row for row in self.catalogue.cables if row.marine and ("AWG" in row.gauge.upper()) == awg]
        return sorted(rows or self.catalogue.cables, key=lambda row: (row.area, row.id))

    def branch(self, current: Ampere, least: SquareMetre = LEAST_BRANCH, engine_space: bool = False) -> Stretch:
        """The smallest cable of the catalogue that carries ``current`` by the rule set's table.

        ``current`` is the rating of the fuse before it where there is one. Without such a row: a plain copper conductor of
        that cross-section, without a row.
        """
        for cable in self.cables():
            if cable.area >= least * 0.999 and self._carries(cable.area, cable.insulation_temperature, current, engine_space):
                return Stretch.of(cable)
        area = next((a for a in METRIC_AREAS if self._fits(a, least, current, engine_space)), 150e-6)
        return Stretch(area, f"{area * 1e6:g} mm²", resistance_per_metre(area), insulation=PVC_RATING)

    def _fits(self, area: SquareMetre, least: SquareMetre, current: Ampere, engine_space: bool) -> bool:
        return area >= least * 0.999 and self._carries(area, PVC_RATING, current, engine_space)

    def _carries(self, area: SquareMetre, insulation: float, current: Ampere, engine_space: bool) -> bool:
        try:
            return ampacity(self.brief.choices.rule_set, area, insulation, engine_space).value >= current
        except ValueError:  # outside the rule set's table: nothing is known of it
            return False

    def at_least(self, area: SquareMetre) -> Stretch:
        """The smallest cable of the catalogue of at least this cross-section."""
        for cable in self.cables():
            if cable.area >= area * 0.98:
                return Stretch.of(cable)
        return Stretch(area, f"{area * 1e6:.3g} mm²", resistance_per_metre(area), insulation=PVC_RATING)

    def small_fuse(self, current: Ampere, source: tuple[str, str], most: Ampere = SMALL_FUSE_MOST) -> tuple[Fuse | None, Ampere]:
        """The smallest fuse of the catalogue that carries ``current`` and breaks the fault at ``source`` at its charging volts.

        Where none does without being far too large for what it protects: none, and the next round rating.
        """
        most = max(most, SMALL_FUSE_OVER * current)
        for fuse in sorted(self.catalogue.fuses, key=lambda row: (row.rating, row.price, row.id)):
            family = self.catalogue.fuse_families[fuse.family]
            volts, fault = self.at_tap(source[0], self.branch(fuse.rating)) or (0.0, 0.0)
            if (
                current * 0.999 <= fuse.rating <= most
                and volts <= family.volts_most
                and fault <= breaking_capacity_at(family, volts)
            ):
                return fuse, fuse.rating
        return None, next((rating for rating in ROUND_RATINGS if rating >= current), current)

    def at_tap(self, tag: str, tail: Stretch) -> tuple[Volt, Ampere] | None:
        """Volts and fault current at a fuse that hangs on a component by a short tail with a lug at each end."""
        behind = self.behind.get(tag)
        if behind is None or behind[1] <= 0.0:
            return behind
        volts, fault = behind
        return volts, volts / (volts / fault + tail.ohm_per_metre * STUD_PIECE / tail.parallel + 2 * JOINTS["lug"].usual)

    def tapped(
        self, source: tuple[str, str], tag: str, lane: int, stretch: Stretch, rating: Ampere, name: str, fuse: Fuse | None = None
    ) -> tuple[str, str]:
        """A fuse beside a stud or bar and the short piece before it; gives back its load stud."""
        behind = self.at_tap(source[0], stretch)
        self.fuse(tag, lane, rating, name, fuse, self.components[source[0]].place, behind=behind)
        if behind is not None:
            self.behind[tag] = behind
        self.run(lane, "P", source, (tag, "1"), stretch, STUD_PIECE, purpose=f"to the {name}", route="beside its source")
        return tag, "2"


def amps(value: Ampere) -> str:
    """A rating as printed on a part."""
    return f"{value:.0f} A" if value >= 10 or value == int(value) else f"{value:.1f} A"
