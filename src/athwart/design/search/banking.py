"""Banks: candidates in the order of their mass, and a bank with all its figures.

A stated rule: blocks whose strings make the unit's volts, of a chemistry asked for (any but flooded starting blocks where none
is), one string first, then two, up to the brief's limit; lightest first.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from athwart.catalogue.records import BatteryBlock, Cable, Catalogue, Fuse, FuseFamily
from athwart.design import states
from athwart.design.brief import BankWish, Brief
from athwart.design.proposal import Bank, Keep
from athwart.errors import NotComputed
from athwart.explain import formula
from athwart.power.battery import NEW_AND_FULL, State, bank_source, cold_aged_state, running_volts, usable_capacity
from athwart.power.battery_data import chemistry
from athwart.power.conductor import resistance_factor
from athwart.power.contact import FUSE_HOT_OVER_COLD, JOINTS
from athwart.power.fault import bank_fault_current
from athwart.units import Metre, Ohm, OhmPerMetre, Ratio

LINK_LENGTH: Metre = 0.3
"""Length of a link between blocks of a string (own judgement)."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What a bank must be: the brief's wish, or the default where the brief has none."""

    name: str
    place: str
    feeds: tuple[str, ...]
    chemistries: tuple[str, ...]
    volts: float | None
    given: BankWish | None


def wishes(brief: Brief) -> tuple[Wish, ...]:
    """One wish a bank; a thruster that no bank feeds gets one at its own place."""
    found = [Wish(w.name, w.place, w.feeds, w.chemistries, w.volts, w) for w in brief.bank]
    fed = {identity for wish in found for identity in wish.feeds}
    for thruster in brief.thrusters:
        if thruster.identity not in fed:
            found.append(Wish(f"{thruster.identity} bank", thruster.place, (thruster.identity,), (), None, None))
    return tuple(found)


def candidates(catalogue: Catalogue, wish: Wish, volts: float, strings_most: int) -> Iterator[tuple[BatteryBlock, int, int]]:
    """(block, series, parallel), lightest bank first, then cheapest, then by id."""
    found = []
    for block in catalogue.blocks:
        if wish.chemistries and block.chemistry not in wish.chemistries:
            continue
        if not wish.chemistries and block.chemistry == "starting":
            continue
        series = round(volts / block.volts)
        if series < 1 or abs(series * block.volts - volts) > 0.09 * volts or series > block.series_most:
            continue
        for parallel in range(1, strings_most + 1):
            found.append((block.mass * series * parallel, block.price * series * parallel, block.id, parallel, block, series))
    for _, _, _, parallel, block, series in sorted(found, key=lambda entry: entry[:4]):
        yield block, series, parallel


STUD_PIECE: Metre = 0.1


def copper_of(cable: Cable, hot: bool) -> OhmPerMetre:
    """A cable's resistance a metre at the conductors' temperature of the design state (``hot``) or of the peak state."""
    return cable.resistance_per_metre * resistance_factor(states.CONDUCTOR_HOT if hot else states.CONDUCTOR_COLD)


def string_extra(cable: Cable, parallel: int, bars: bool, fuse: Fuse | None, *, hot: bool = False) -> Ohm:
    """Between a string and the bars, where there are bars: its fuse, the pieces to the plus bar, the one back."""
    if parallel < 2 and not bars:
        return 0.0
    pieces = (STUD_PIECE, LINK_LENGTH, LINK_LENGTH) if fuse is not None else (LINK_LENGTH, LINK_LENGTH)
    own = fuse.resistance * (FUSE_HOT_OVER_COLD if hot else 1.0) if fuse is not None else 0.0
    return copper_of(cable, hot) * sum(pieces) + 2 * len(pieces) * JOINTS["lug"].usual + own


@formula("R_link", "Ω", "resistance_per_metre * length / parallel + 2 * lug", source="own-arithmetic", valid="a lug on each stud")
def link_of(resistance_per_metre: OhmPerMetre, length: Metre, lug: Ohm, parallel: Ratio = 1.0) -> Ohm:
    """A link between two blocks with its two lugs.

    Parameters
    ----------
    resistance_per_metre : Of the cable at 20 °C. [Ω/m]
    length : Of the link. [m]
    lug : Of one lug on its stud. [Ω]
    parallel : Conductors side by side. [1]

    Examples
    --------
    >>> round(link_of(0.277e-3, 0.3, 40e-6) * 1e3, 4)
    0.1631
    """
    return resistance_per_metre * length / parallel + 2.0 * lug


def link_resistance(cable: Cable, parallel: int = 1, *, hot: bool = False) -> Ohm:
    """A link of this cable between two blocks."""
    return link_of(copper_of(cable, hot), LINK_LENGTH, JOINTS["lug"].usual, parallel)


@lru_cache(maxsize=4096)
def _sources(
    block: BatteryBlock,
    coldest: float | None,
    series: int,
    parallel: int,
    link: Cable,
    bars: bool,
    fuse: Fuse | None,
    age: float | None,
    mixed: bool,
) -> tuple[float, float, float, float, float, bool]:
    design = _worn(block.chemistry, coldest, age, mixed)
    (least, _), *_, (most, _) = chemistry(block.chemistry).capacity_curve
    if not least <= design.temperature <= most:
        raise NotComputed(
            f"duty.coldest_bank {design.temperature - states.ZERO:.0f} °C: what is known of {block.chemistry} blocks runs from "
            f"{least - states.ZERO:.0f} to {most - states.ZERO:.0f} °C"
        )
    new = bank_source(block, NEW_AND_FULL, series, parallel, link_resistance(link), string_extra(link, parallel, bars, fuse))
    cold = bank_source(
        block, design, series, parallel, link_resistance(link, hot=True), string_extra(link, parallel, bars, fuse, hot=True)
    )
    return new.emf, new.resistance, cold.emf, cold.resistance, usable_capacity(block, design), new.assumed


def _worn(chemistry: str, coldest: float | None, age: float | None, mixed: bool) -> State:
    design = cold_aged_state(chemistry, coldest)
    if age is not None and age > DESIGN_AGE:
        worn = min(1.0 + (age - DESIGN_AGE) / DESIGN_AGE, 2.0)
        design = State(design.temperature, design.state_of_charge, design.ageing * worn, design.fade / worn)
    if mixed:
        design = State(design.temperature, design.state_of_charge, design.ageing * MIXED_GROWTH, design.fade)
    return design


def worn_state(brief: Brief, block: BatteryBlock, age: float | None, mixed: bool) -> State:
    """The design state of a block of this age."""
    return _worn(block.chemistry, brief.duty.coldest_bank, age, mixed)


MIXED_GROWTH = 1.25
"""Extra resistance of a string of blocks of unlike age (own judgement)."""
DESIGN_AGE = 5.0
"""Years after which a bank is worn beyond the design state's 1.5 and 0.8 (own judgement): both grow linearly to double at ten."""


def bank(
    brief: Brief,
    wish: Wish,
    block: BatteryBlock,
    series: int,
    parallel: int,
    link: Cable,
    kept: Keep = "chosen",
    *,
    string_fuse: tuple[Fuse, FuseFamily] | None = None,
    age: float | None = None,
    mixed: bool = False,
) -> Bank:
    """A bank with its figures in both states."""
    shared = len(wish.feeds) > 1 or bool(wish.given and (wish.given.shared_with or wish.given.mid_tap_load))
    emf_new, r_new, emf_cold, r_cold, capacity, assumed = _sources(
        block,
        brief.duty.coldest_bank,
        series,
        parallel,
        link,
        shared,
        string_fuse[0] if string_fuse is not None else None,
        age,
        mixed,
    )
    charging = running_volts(block.volts * series) if block.chemistry != "lfp" else block.charge_volts * series
    declared = block.short_circuit * parallel if block.short_circuit is not None else None
    fault = bank_fault_current(charging, r_new, block.chemistry, block.capacity * parallel, declared, assumed)
    return Bank(
        wish.name,
        wish.place,
        block,
        series,
        parallel,
        kept,
        wish.feeds,
        link,
        LINK_LENGTH,
        age,
        string_fuse,
        r_new,
        r_cold,
        emf_new,
        emf_cold,
        charging,
        capacity * parallel,
        fault,
        assumed,
        mixed,
    )


def clear() -> None:
    """Forget cached sources, so that a tracer sees every formula run."""
    _sources.cache_clear()
