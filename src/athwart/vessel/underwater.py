"""The hull below the water from what a brief knows: pieces for cross flow, inertia, small resistance.

From few data (length, beam, draught, displacement, kind) the form is that of the kind: shares of draught and beam along the
waterline, our own judgement, with the hull proper no deeper than her volume allows; what is left of the draught is keel or skeg.
An outline of the profile gives the depths instead, and the band is narrower. The answer says which.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from athwart.errors import NotComputed
from athwart.explain import formula
from athwart.numerics.tables import interpolate
from athwart.units.names import (
    CubicMetre,
    Kilogram,
    KilogramPerCubicMetre,
    KilogramPerSecond,
    Metre,
    MetrePerSecond,
    Newton,
    Ratio,
    Second,
)
from athwart.vessel.added_mass import (
    GYRATION,
    Inertia,
    fin_added_mass,
    strip_moments,
    surge_added_mass,
    yaw_added_inertia,
    yaw_inertia,
)
from athwart.vessel.crossflow import FIN_DRAG, HARD_CHINE, CrossFlow, Piece, cross_flow, section_drag
from athwart.vessel.hydrostatics import RHO_SALT
from athwart.vessel.shallow import LEAST_DEPTH, WARN_BELOW, shallow_factor

PIECES = 20
REFERENCE_LENGTH: Metre = 76.2
SURGE_TIME: Second = 87.77
SWAY_TIME: Second = 44.53
YAW_TIME: Second = 11.56
"""Mass over linear damping of a published supply vessel; they scale with the root of length."""
LINEAR_SHARE: Ratio = 0.5
"""Linear damping beside cross flow counts half (own judgement)."""
SURGE_DRAG: Ratio = 0.07
SIGMA_FORM: Ratio = 0.35
SIGMA_OUTLINE: Ratio = 0.25
"""Relative standard deviation of the cross-flow drag: form of the kind, or an outline (own judgement)."""
SIGMA_TWO_HULLS: Ratio = 0.45
"""The same of two hulls side by side: what the one shelters the other is not counted (own judgement)."""


@dataclass(frozen=True, slots=True)
class Form:
    """A kind of hull.

    ``stations`` are (place from aft as a share of the waterline, share of draught, share of half beam); ``block`` is the block
    coefficient of the hull proper, ``fin`` where keel or skeg lie, as shares of the waterline from aft."""

    stations: tuple[tuple[float, float, float], ...]
    block: Ratio
    hard_chine: bool = False
    boxy: bool = False
    fin: tuple[float, float] = (0.05, 0.40)
    rudder: float | None = None  # chord as a share of the waterline


DISPLACEMENT = Form(
    ((0.0, 0.45, 0.75), (0.1, 0.75, 0.90), (0.3, 1.0, 1.0), (0.7, 1.0, 0.95), (0.9, 0.80, 0.50), (1.0, 0.35, 0.06)), 0.42
)
PLANING = Form(
    ((0.0, 0.80, 0.95), (0.4, 1.0, 1.0), (0.7, 0.97, 0.90), (0.9, 0.65, 0.45), (1.0, 0.15, 0.05)),
    0.40,
    hard_chine=True,
    fin=(0.03, 0.20),
)
SAILING = Form(
    ((0.0, 0.10, 0.55), (0.15, 0.55, 0.80), (0.4, 1.0, 1.0), (0.6, 1.0, 0.95), (0.85, 0.60, 0.45), (1.0, 0.05, 0.04)),
    0.38,
    fin=(0.42, 0.58),
    rudder=0.045,
)
FULL = Form(
    ((0.0, 0.60, 0.85), (0.1, 0.90, 0.95), (0.25, 1.0, 1.0), (0.8, 1.0, 1.0), (0.93, 0.90, 0.65), (1.0, 0.40, 0.10)), 0.52
)
BOX = Form(((0.0, 0.9, 1.0), (0.05, 1.0, 1.0), (0.95, 1.0, 1.0), (1.0, 0.9, 0.9)), 0.85, boxy=True, fin=(0.0, 0.0))

SLENDER = Form(
    ((0.0, 0.40, 0.70), (0.15, 0.80, 0.90), (0.4, 1.0, 1.0), (0.7, 0.95, 0.90), (0.9, 0.70, 0.45), (1.0, 0.20, 0.05)),
    0.45,
    fin=(0.30, 0.55),
)
"""One hull of a catamaran."""

FORMS: Mapping[str, Form] = {
    "motor yacht, displacement": DISPLACEMENT,
    "motor yacht, planing": PLANING,
    "sailing yacht": SAILING,
    "passenger boat": FULL,
    "workboat": FULL,
    "fishing boat": FULL,
    "trawler yacht": DISPLACEMENT,
    "pilot boat": PLANING,
    "survey boat": FULL,
    "houseboat": BOX,
    "tender": PLANING,
    "barge": BOX,
    "catamaran": SLENDER,
}


@formula("τ", "s", "reference_time * sqrt(length / REFERENCE_LENGTH)", source="marine-systems-simulator", valid="under 3 m/s")
def time_constant(reference_time: Second, length: Metre) -> Second:
    """Time in which small motions die down, by Froude's scaling from a supply vessel.

    Parameters
    ----------
    reference_time : Of the vessel of 76.2 m. [s]
    length : At the waterline. [m]

    Examples
    --------
    >>> [round(time_constant(time, 12.0), 2) for time in (SURGE_TIME, SWAY_TIME, YAW_TIME)]
    [34.83, 17.67, 4.59]
    """
    return reference_time * sqrt(length / REFERENCE_LENGTH)


@formula(
    "d",
    "kg/s",
    "LINEAR_SHARE * mass / time",
    source="marine-systems-simulator",
    valid="small motions; beside cross flow, half counts",
)
def linear_damping(mass: Kilogram, time: Second) -> KilogramPerSecond:
    """Linear damping that stops a motion in the end, from the time in which it dies down.

    Parameters
    ----------
    mass : That moves, water included. [kg]
    time : In which the motion dies down, by :func:`time_constant`. [s]

    Examples
    --------
    A boat of 12 m and 20 t with her water, sideways:

    >>> round(linear_damping(20_000.0, time_constant(SWAY_TIME, 12.0)))
    566
    """
    return LINEAR_SHARE * mass / time


@formula("X", "N", "-SURGE_DRAG * 0.5 * water_density * beam * draught * surge_speed * abs(surge_speed)", source="dnv-st-0111",
         valid="low speed, ahead or astern")  # fmt: skip
def surge_drag(
    surge_speed: MetrePerSecond, beam: Metre, draught: Metre, water_density: KilogramPerCubicMetre = RHO_SALT
) -> Newton:
    """Resistance ahead or astern at manoeuvring speed.

    Parameters
    ----------
    surge_speed : Through the water, ahead. [m/s]
    beam : At the waterline. [m]
    draught : Of the hull. [m]
    water_density : Of the water. [kg/m³]

    Examples
    --------
    >>> round(surge_drag(1.0, 18.0, 6.0, 1026.0), 2)
    -3878.28
    """
    return -SURGE_DRAG * 0.5 * water_density * beam * draught * surge_speed * abs(surge_speed)


@formula("T_c", "m", "volume / (block_coefficient * length * beam)", source="own-arithmetic")
def hull_draught(volume: CubicMetre, block_coefficient: Ratio, length: Metre, beam: Metre) -> Metre:
    """Draught of the hull proper, without keel or skeg, from her volume.

    Parameters
    ----------
    volume : Of displacement. [m³]
    block_coefficient : Of the hull proper. [1]
    length : At the waterline. [m]
    beam : At the waterline. [m]
    """
    return volume / (block_coefficient * length * beam)


@dataclass(frozen=True, slots=True)
class HullInWater:
    """All that the water does to a hull at low speed; ``notes`` say what it rests on, ``sigma`` how sure its drag is."""

    length: Metre
    beam: Metre
    draught: Metre
    flow: CrossFlow
    inertia: Inertia
    surge_area: float  # beam x draught, m²
    surge_damping: float  # N per m/s
    sway_damping: float
    yaw_damping: float  # N·m per rad/s
    water_density: KilogramPerCubicMetre
    shallow: Ratio
    sigma: Ratio
    by_outline: bool
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Dimensions:
    """What a brief always knows of the hull below the water."""

    kind: str
    length: Metre
    beam: Metre
    draught: Metre
    displacement: Kilogram
    water_density: KilogramPerCubicMetre = RHO_SALT
    depth: Metre | None = None
    outline: tuple[tuple[Metre, Metre], ...] = ()  # place from amidships, depth of the hull
    hulls: int = 1
    """Hulls side by side; ``beam`` is of one of them, ``displacement`` of all together."""
    spacing: Metre = 0.0
    """Between the middles of two hulls."""


def hull_in_water(d: Dimensions) -> HullInWater:
    """The hull below the water.

    Raises
    ------
    NotComputed
        A kind outside the models, no water under the keel, or an inertia that no body has.
    """
    form = FORMS.get(d.kind)
    if form is None:
        raise NotComputed(f"outside validity: a {d.kind} in the water is not modelled")
    volume = d.displacement / d.water_density / d.hulls
    proper = min(d.draught, hull_draught(volume, form.block, d.length, d.beam))
    notes = []
    if d.outline:
        stations = _from_outline(d, form)
        proper = max(draught for _, _, draught, _ in stations)
        notes.append("depth of the hull along the boat from the brief's profile, beams from her kind")
    else:
        stations = _from_form(d, form, proper)
        notes.append(f"form below the water assumed from her kind: hull proper {proper:.2f} m deep")
    factor, fin_factor = _shallow(d, proper, notes)
    drag = (HARD_CHINE if form.hard_chine else 1.0) * factor
    pieces = [
        Piece(start, end, d.hulls * drag * section_drag(half / depth) * depth)
        for start, end, depth, half in stations
        if depth > 0.0 and half > 0.0
    ]
    fins = _fins(d, form, proper)
    pieces += [Piece(start, end, d.hulls * FIN_DRAG * fin_factor * span) for start, end, span in fins]
    if fins:
        notes.append(f"keel or skeg of {d.draught - proper:.2f} m below the hull assumed from her kind")
    if d.hulls > 1:
        notes.append(f"{d.hulls} hulls, each with her whole drag and added mass, none in the lee of another; the band is wider")
    inertia = _inertia(d, form, stations, fins, volume, factor)
    return HullInWater(
        d.length,
        d.beam,
        proper,
        cross_flow(pieces, d.water_density),
        inertia,
        d.hulls * d.beam * proper,
        linear_damping(inertia.surge, time_constant(SURGE_TIME, d.length)),
        linear_damping(inertia.sway, time_constant(SWAY_TIME, d.length)),
        LINEAR_SHARE * inertia.turning / time_constant(YAW_TIME, d.length),
        d.water_density,
        factor,
        SIGMA_TWO_HULLS if d.hulls > 1 else SIGMA_OUTLINE if d.outline else SIGMA_FORM,
        bool(d.outline),
        tuple(notes),
    )


Station = tuple[Metre, Metre, Metre, Metre]
"""Start, end, draught, half beam."""


def _edges(length: Metre) -> list[tuple[Metre, Metre]]:
    step = length / PIECES
    return [(-length / 2 + k * step, -length / 2 + (k + 1) * step) for k in range(PIECES)]


def _from_form(d: Dimensions, form: Form, proper: Metre) -> list[Station]:
    depths = [(share, depth) for share, depth, _ in form.stations]
    halves = [(share, half) for share, _, half in form.stations]
    found = []
    for start, end in _edges(d.length):
        share = 0.5 * (start + end) / d.length + 0.5
        found.append((start, end, proper * interpolate(depths, share), 0.5 * d.beam * interpolate(halves, share)))
    return found


def _from_outline(d: Dimensions, form: Form) -> list[Station]:
    points = sorted(d.outline)
    halves = [(share, half) for share, _, half in form.stations]
    found = []
    for start, end in _edges(d.length):
        middle = 0.5 * (start + end)
        depth = interpolate(points, middle) if points[0][0] <= middle <= points[-1][0] else 0.0
        half = 0.5 * d.beam * interpolate(halves, middle / d.length + 0.5)
        found.append((start, end, max(depth, 0.0), half))
    if not any(depth > 0.0 for _, _, depth, _ in found):
        raise NotComputed("the profile below the water has no depth within the waterline")
    return found


def _fins(d: Dimensions, form: Form, proper: Metre) -> list[tuple[Metre, Metre, Metre]]:
    span = d.draught - proper
    found = []
    if span > 0.02 * d.draught and form.fin[1] > form.fin[0]:
        found.append((-d.length / 2 + form.fin[0] * d.length, -d.length / 2 + form.fin[1] * d.length, span))
    if form.rudder is not None:
        aft = -d.length / 2 + 0.03 * d.length
        found.append((aft, aft + form.rudder * d.length, 0.75 * max(d.draught - 0.3 * proper, 0.1)))
    return found


def _inertia(
    d: Dimensions,
    form: Form,
    stations: Sequence[Station],
    fins: Sequence[tuple[Metre, Metre, Metre]],
    volume: float,
    factor: Ratio,
) -> Inertia:
    shape = 1.3 if form.boxy else 0.8 if form.hard_chine else 1.0
    m0, m1, _ = strip_moments(tuple((a, b, depth) for a, b, depth, _ in stations), shape, d.water_density)
    turning = yaw_added_inertia(m0, d.length, 0.29) if form.boxy else yaw_added_inertia(m0, d.length)
    for start, end, span in fins:
        extra, place = fin_added_mass(end - start, span, d.water_density), 0.5 * (start + end)
        m0, m1, turning = m0 + extra, m1 + extra * place, turning + extra * place**2
    along = d.hulls * surge_added_mass(volume, d.length, d.water_density)
    apart = 0.25 * d.spacing**2  # hulls that move ahead and astern when she turns
    return Inertia(
        d.displacement,
        along,
        factor * d.hulls * m0,
        yaw_inertia(d.displacement, d.length, GYRATION) + d.displacement * apart,
        factor * d.hulls * turning + along * apart,
        factor * d.hulls * m1,
    )


def _shallow(d: Dimensions, proper: Metre, notes: list[str]) -> tuple[Ratio, Ratio]:
    """How much more drag and added mass the hull proper has by the depth, and how much more drag keel, skeg and rudder."""
    if d.depth is None:
        notes.append("deep water: no depth is given")
        return 1.0, 1.0
    ratio = d.depth / d.draught
    if ratio < LEAST_DEPTH:
        raise NotComputed(f"no water under the keel: depth {d.depth:g} m, draught {d.draught:g} m")
    hull, fins = shallow_factor(proper / d.depth), shallow_factor(1.0 / ratio)
    words = f"depth {d.depth / proper:.1f} of the hull's: drag and added mass times {hull:.2f}"
    notes.append(words + ("; outside what the formula was fitted on" if ratio < WARN_BELOW else ""))
    return hull, fins
