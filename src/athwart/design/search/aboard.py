"""Parts aboard or fixed, as the brief describes them, turned into records.

A part may be named by its catalogue row or described. Where a description leaves something open the catalogue's nearest row
lends it, and the record's ``note`` says so; a resistance left open stays unknown, so that the chemistry's usual one is taken
and counted as unverified.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Literal, TypeVar, cast

from athwart import units
from athwart.catalogue.records import BatteryBlock, Cable, Catalogue, Charger, Contactor, Fuse, Row, Switch, ThrusterUnit
from athwart.design.brief import BlockAboard, Brief, CableAboard, ChargerAboard, FuseAboard, LaneParts, StopAboard, SwitchAboard
from athwart.design.netlist import DESCRIBED
from athwart.design.proposal import Keep
from athwart.errors import BriefError, Mistake

RowT = TypeVar("RowT", bound=Row)
PartT = TypeVar("PartT")


@dataclass(frozen=True, slots=True)
class Given:
    """What a lane has: parts by kind, each aboard or fixed."""

    parts: LaneParts
    fixed: frozenset[str]

    def keep(self, part: str) -> Keep:
        """Whether a part is fixed or only aboard."""
        return "fixed" if part in self.fixed else "aboard"

    def has(self, part: str) -> bool:
        """Whether the brief names this part."""
        return getattr(self.parts, part) is not None


def given(brief: Brief, identity: str) -> Given:
    """Parts of a lane: ``fixed`` wins over ``aboard``."""
    aboard = brief.aboard.lanes.get(identity, LaneParts())
    fixed = brief.fixed.lanes.get(identity, LaneParts())
    held = frozenset(name for name in LaneParts.model_fields if getattr(fixed, name) not in (None, False))
    values = {name: getattr(fixed if name in held else aboard, name) for name in LaneParts.model_fields}
    return Given(LaneParts.model_construct(**values), held)


def _row(table: Iterable[RowT], row: str, path: str) -> RowT:
    by_id = {entry.id: entry for entry in table}
    if row in by_id:
        return by_id[row]
    near = get_close_matches(row, by_id, n=1)
    hint = f"; did you mean {near[0]!r}?" if near else ""
    raise BriefError(
        "catalogue row not found",
        (Mistake(f"no such row in the catalogue{hint}", path=path, read=row, allowed="an id of `athwart catalogue list`"),),
    )


def refuse_unknown(brief: Brief, catalogue: Catalogue) -> None:
    """Refuse a brief whose parts aboard or fixed name rows that are not there, or are not described: all of them at once."""
    mistakes = [mistake for thruster in brief.thrusters for mistake in _unknown(brief, catalogue, thruster.identity)]
    if mistakes:
        raise BriefError("parts aboard that cannot be read", tuple(dict.fromkeys(mistakes)))


def _unknown(brief: Brief, catalogue: Catalogue, identity: str) -> Iterator[Mistake]:
    has = given(brief, identity)
    parts = has.parts
    yield from _tried(has, lambda part: unit_of(catalogue, part, identity))
    yield from _tried(parts.bank, lambda part: block_of(catalogue, part, identity))
    yield from _tried(parts.cable, lambda part: cable_of(catalogue, part, identity))
    yield from _tried(parts.fuse, lambda part: fuse_of(catalogue, part, identity))
    yield from _tried(parts.switch, lambda part: switch_of(catalogue, part, identity))
    yield from _tried(parts.stop, lambda part: stop_of(catalogue, part, identity))
    yield from _tried(parts.charger, lambda part: charger_of(catalogue, part, 12.0, 24.0, identity))


def _tried(part: PartT | None, read: Callable[[PartT], object]) -> tuple[Mistake, ...]:
    """The mistakes of reading a part, none where it is not there."""
    try:
        if part is not None:
            read(part)
    except BriefError as error:
        return error.mistakes
    return ()


def unit_of(catalogue: Catalogue, has: Given, identity: str) -> ThrusterUnit | None:
    """The unit that is there."""
    part = has.parts.unit
    return None if part is None or part.row is None else _row(catalogue.units, part.row, f"lanes.{identity}.unit.row")


def block_of(catalogue: Catalogue, part: BlockAboard, identity: str) -> BatteryBlock:
    """The battery block of a described bank."""
    if part.row is not None:
        block = _row(catalogue.blocks, part.row, f"lanes.{identity}.bank.row")
    else:
        missing = [name for name in ("chemistry", "volts", "capacity") if getattr(part, name) is None]
        if missing:
            raise BriefError(
                "bank not described",
                (
                    Mistake(
                        f"a bank needs row, or chemistry, volts and capacity; missing: {', '.join(missing)}",
                        path=f"lanes.{identity}.bank",
                    ),
                ),
            )
        assert part.chemistry is not None
        assert part.volts is not None
        assert part.capacity is not None
        alike = [entry for entry in catalogue.blocks if entry.chemistry == part.chemistry] or list(catalogue.blocks)
        near = min(alike, key=lambda entry: abs(entry.capacity * entry.volts - part.capacity * part.volts))  # type: ignore[operator]
        scale = part.capacity * part.volts / (near.capacity * near.volts)
        block = replace(
            near,
            id=f"{DESCRIBED}{part.chemistry} {part.volts:g} V {part.capacity / 3600:g} Ah",
            maker="",
            name=f"{part.chemistry} block aboard, {part.volts:g} V {part.capacity / 3600:g} Ah",
            chemistry=part.chemistry,
            volts=part.volts,
            cells=max(1, round(near.cells * part.volts / near.volts)),
            capacity=part.capacity,
            mass=near.mass * scale,
            price=0.0,
            resistance=None,
            cranking=None,
            cranking_standard=None,
            short_circuit=None,
            charge_volts=near.charge_volts * part.volts / near.volts,
            float_volts=near.float_volts * part.volts / near.volts,
            charge_most=near.charge_most * scale,
            temperature_sensor=False,
            invented=False,
            note=f"described in the brief; size, mass and charge limits after {near.id}",
        )
    if part.resistance is not None:
        block = replace(block, resistance=part.resistance, note="resistance from the brief")
    if part.cranking is not None:
        measured = units.parse_cranking(part.cranking)
        standard = cast('Literal["SAE", "EN", "IEC", "DIN"]', measured.standard)
        block = replace(block, cranking=measured.amperes, cranking_standard=standard, resistance=part.resistance)
    if part.temperature_sensor is not None:
        block = replace(block, temperature_sensor=part.temperature_sensor)
    return block


def cable_of(catalogue: Catalogue, part: CableAboard, identity: str) -> Cable:
    """The cable that is there; a size not in the catalogue takes its area's copper, class 5 tinned."""
    if part.row is not None:
        return _row(catalogue.cables, part.row, f"lanes.{identity}.cable.row")
    if part.size is None:
        raise BriefError("cable not described", (Mistake("a cable needs row or size", path=f"lanes.{identity}.cable"),))
    same = [c for c in catalogue.cables if abs(c.area - part.size) < 0.03 * part.size]
    if part.insulation is not None:
        same = [c for c in same if abs(c.insulation_temperature - part.insulation) < 1.0] or same
    near = min(same or list(catalogue.cables), key=lambda c: (abs(c.area - part.size), c.insulation_temperature))  # type: ignore[operator]
    insulation = part.insulation if part.insulation is not None else min(c.insulation_temperature for c in (same or [near]))
    scale = near.area / part.size
    return replace(
        near,
        id=f"{DESCRIBED}{units.show(part.size, 'conductor', 'mm2', plain=True)}",
        maker="",
        name=f"cable aboard, {units.show(part.size, 'conductor', 'mm2', plain=True)}",
        area=part.size,
        gauge=units.show(part.size, "conductor", "mm2", plain=True),
        insulation_temperature=insulation,
        resistance_per_metre=near.resistance_per_metre * scale,
        mass=near.mass / scale,
        price=0.0,
        invented=False,
        note=f"described in the brief; after {near.id}",
    )


def fuse_of(catalogue: Catalogue, part: FuseAboard, identity: str) -> Fuse | None:
    """The main fuse that is there, None where there is none."""
    if not part.present:
        return None
    if part.row is not None:
        return _row(catalogue.fuses, part.row, f"lanes.{identity}.fuse.row")
    if part.rating is None:
        raise BriefError(
            "fuse not described", (Mistake("a fuse needs row, or rating (and family)", path=f"lanes.{identity}.fuse"),)
        )
    family = part.family
    if family is not None and family not in catalogue.fuse_families:
        near_family = get_close_matches(family, catalogue.fuse_families, n=1)
        hint = f"; did you mean {near_family[0]!r}?" if near_family else ""
        raise BriefError(
            "fuse family not found",
            (
                Mistake(
                    f"no such fuse family{hint}",
                    path=f"lanes.{identity}.fuse.family",
                    read=family,
                    allowed=", ".join(catalogue.fuse_families),
                ),
            ),
        )
    rows = [fuse for fuse in catalogue.fuses if family is None or fuse.family == family]
    near = min(rows, key=lambda fuse: abs(fuse.rating - part.rating))  # type: ignore[operator]
    if abs(near.rating - part.rating) < 0.5:
        return near
    return replace(
        near,
        id=f"{DESCRIBED}{part.rating:g} A",
        maker="",
        name=f"fuse aboard, {part.rating:g} A",
        rating=part.rating,
        resistance=near.resistance * near.rating / part.rating,
        price=0.0,
        invented=False,
        note=f"described in the brief; after {near.id}",
    )


def switch_of(catalogue: Catalogue, part: SwitchAboard, identity: str) -> Switch | None:
    """The main switch that is there; present without a row it is a typical one of 300 A class, said in its note."""
    if not part.present:
        return None
    if part.row is not None:
        return _row(catalogue.switches, part.row, f"lanes.{identity}.switch.row")
    near = min(catalogue.switches, key=lambda entry: abs(entry.continuous - 300.0))
    return replace(
        near,
        id=f"{DESCRIBED}switch",
        maker="",
        name="main switch aboard, size not given",
        price=0.0,
        invented=False,
        note=f"taken as {near.id}",
    )


def stop_of(catalogue: Catalogue, part: StopAboard, identity: str) -> Contactor | None:
    """The stop device in the power circuit, None where nothing breaks the power circuit."""
    if not part.present or part.breaks == "control circuit" or part.is_the_reversing_contactor:
        return None
    if part.row is not None:
        return _row(catalogue.contactors, part.row, f"lanes.{identity}.stop.row")
    near = min(catalogue.contactors, key=lambda entry: abs(entry.continuous - 300.0))
    return replace(
        near,
        id=f"{DESCRIBED}stop",
        maker="",
        name="stop contactor aboard, size not given",
        price=0.0,
        invented=False,
        note=f"taken as {near.id}",
    )


def charger_of(catalogue: Catalogue, part: ChargerAboard, volts_in: float, volts_out: float, identity: str) -> Charger | None:
    """The charger that is there, None for none and for a mere converter (which is no charger)."""
    if part.kind in ("none", "converter"):
        return None
    if part.row is not None:
        return _row(catalogue.chargers, part.row, f"lanes.{identity}.charger.row")
    kind = part.kind or ("step-up" if volts_out > volts_in + 1 else "battery to battery")
    rows = [entry for entry in catalogue.chargers if entry.kind == kind and abs(entry.volts_out - volts_out) < 1.0] or [
        entry for entry in catalogue.chargers if entry.kind == kind
    ]
    if not rows:
        return None
    current = part.current if part.current is not None else min(entry.current_out for entry in rows)
    near = min(rows, key=lambda entry: abs(entry.current_out - current))
    if part.current is None or abs(near.current_out - part.current) < 0.5:
        return near
    return replace(
        near,
        id=f"{DESCRIBED}{kind} {part.current:g} A",
        maker="",
        name=f"{kind} aboard, {part.current:g} A",
        current_out=part.current,
        price=0.0,
        invented=False,
        note=f"described in the brief; after {near.id}",
    )
