"""The brief in numbers: thrust needed by each unit in each static case, time and charge.

Cases. B: the bow unit holds the bow while the stern is made fast (a stern unit alone: the other way round). C: bow and stern
units hold the boat on station. Both over every heading asked; the beam figure is what the trade quotes, the worst one rules.
Units of one role share their need equally.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pi, sin

from athwart.design.brief import Brief, Thruster, WindageElement
from athwart.design.places import body_x, waterline_middle
from athwart.design.proposal import Case, Need
from athwart.design.requirements.hull import loaded
from athwart.errors import AthwartError, NotComputed
from athwart.vessel import balance, blendermann, element_sum, uncertainty, windage
from athwart.vessel.hydrostatics import heel
from athwart.vessel.loads import WindModel, all_round
from athwart.vessel.shallow import LEAST_DEPTH
from athwart.vessel.steady import water_loads
from athwart.vessel.wind import ROUGHNESS, SHELTER, DesignWind, WindAsked, design_wind

METACENTRIC_SHARE = 0.22
"""Metacentric height over beam where the brief has none (own judgement); a boat of two hulls does not heel to speak of."""
BY_ELEMENTS = ("sailing yacht", "catamaran")
"""Kinds that no table of ships knows."""
STEP = pi / 72.0
"""Headings all round: every 2.5 degrees."""


@dataclass(frozen=True, slots=True)
class Loads:
    """The silhouette, the wind it meets and the model that joins them."""

    windage: windage.Windage
    wind: DesignWind
    model: WindModel
    model_name: str
    by_elements: bool
    coefficient_sigma: float


def element(brief: Brief, given: WindageElement) -> windage.WindageElement:
    """One element in body axes."""
    if given.box is not None:
        ends = sorted((body_x(brief, given.box.start), body_x(brief, given.box.end)))
        return windage.box(
            given.name,
            given.kind,
            ends[0],
            ends[1],
            given.box.bottom,
            given.box.top,
            width=given.width,
            frontal_area=given.frontal_area,
        )
    if given.outline is not None:
        points = [(body_x(brief, x), height) for x, height in given.outline]
        return windage.outline(given.name, given.kind, points, width=given.width, frontal_area=given.frontal_area)
    assert given.area is not None
    assert given.centroid_x is not None
    assert given.centroid_height is not None
    frontal = given.frontal_area
    return windage.area_with_centroid(
        given.name, given.kind, given.area, body_x(brief, given.centroid_x), given.centroid_height, frontal_area=frontal
    )


def impossible_windage(brief: Brief) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Place in the brief and fault of every element of windage that cannot be: below the water, crossing itself, no area."""
    for index, given in enumerate(brief.boat.windage):
        try:
            element(brief, given)
        except ValueError as error:
            yield ("boat", "windage", index), str(error)


def impossible(brief: Brief) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Place in the brief and fault of what cannot be: windage, and a boat that sits on the ground."""
    faults = list(impossible_windage(brief))
    yield from faults
    if faults:
        return
    if brief.wind.roughness is not None:
        ground = ROUGHNESS[brief.wind.roughness]
        low = [given.name for given in brief.boat.windage if element(brief, given).centroid_height <= 2.0 * ground]
        if low:
            said = f"over {brief.wind.roughness} the logarithmic law begins at {2.0 * ground:g} m; lower lies {', '.join(low)}"
            yield ("wind", "roughness"), said
    depth, draught = brief.water.depth, brief.boat.draught
    if depth is not None and depth < LEAST_DEPTH * draught:
        yield (
            ("water", "depth"),
            f"no water under the keel: she draws {draught:g} m; {LEAST_DEPTH * draught:.2f} m or more are allowed",
        )


def loads(brief: Brief, rise: windage.Rise | None = None) -> Loads:
    """Silhouette, wind and model of a brief; ``rise`` is how far she stands out of the water beyond the silhouette as drawn."""
    shape = windage.Windage(tuple(element(brief, given) for given in brief.boat.windage), brief.boat.length_overall)
    if rise is not None:
        shape = windage.risen(shape, rise)
    w = brief.wind
    by_elements = brief.boat.kind in BY_ELEMENTS
    asked = WindAsked(
        w.speed,
        w.read_at,
        w.is_,
        w.surroundings,
        w.read_height,
        w.gust_factor,
        roughness=None if w.roughness is None else ROUGHNESS[w.roughness],
        shelter=SHELTER[w.shelter],
    )
    wind = design_wind(asked, shape, by_drag=by_elements)
    if by_elements:
        two = brief.boat.kind == "catamaran"
        spread = uncertainty.TWO_HULLS_COEFFICIENT if two else uncertainty.ELEMENT_COEFFICIENT
        name = "sum of elements, the hull to leeward not counted" if two else "sum of elements"
        return Loads(shape, wind, element_sum.model(shape, wind), name, True, spread)
    row = blendermann.row_for(brief.boat.kind)
    return Loads(
        shape,
        wind,
        blendermann.model(row, shape, wind.pressure),
        f"Blendermann, {row.name} row",
        False,
        uncertainty.SIDE_COEFFICIENT,
    )


def headings(brief: Brief) -> tuple[float, ...]:
    """Wind angles off the bow asked for, both sides."""
    if brief.wind.headings == "all round":
        return all_round(STEP)
    return brief.wind.headings


def need(brief: Brief, rise: windage.Rise | None = None) -> Need:
    """Everything the brief demands; ``rise`` as in :func:`loads`.

    Raises
    ------
    NotComputed
        The boat or the places of her units lie outside the static balance: units on one spot, or a unit on its own pivot.
    """
    try:
        return _need(brief, rise)
    except ValueError as error:
        if isinstance(error, AthwartError):
            raise
        raise NotComputed(f"no static balance: {error}") from None


def _need(brief: Brief, rise: windage.Rise | None) -> Need:
    found = loads(brief, rise)
    cases: list[Case] = []
    bows = [t for t in brief.thrusters if t.role == "bow"]
    sterns = [t for t in brief.thrusters if t.role == "stern"]
    angles = headings(brief)
    half = brief.boat.length_overall / 2
    for thruster in bows:
        demand = balance.one_end_held(found.model, angles, body_x(brief, thruster.tunnel.x), -half)
        cases.append(_case("B", thruster, demand, brief, found, -half, len(bows)))
    if not bows:
        for thruster in sterns:
            demand = balance.one_end_held(found.model, angles, body_x(brief, thruster.tunnel.x), half)
            cases.append(_case("B", thruster, demand, brief, found, half, len(sterns)))
    if bows and sterns:
        bow_x, stern_x = _mean_place(brief, bows), _mean_place(brief, sterns)
        station = balance.on_station(found.model, angles, bow_x, stern_x)
        cases += [_case("C", t, station.bow, brief, found, stern_x, len(bows)) for t in bows]
        cases += [_case("C", t, station.stern, brief, found, bow_x, len(sterns)) for t in sterns]
    duty = brief.duty
    return Need(
        brief.wind.speed,
        found.wind.speed,
        found.wind.pressure,
        found.windage.lateral_area,
        found.windage.frontal_area,
        found.windage.centroid_x,
        found.windage.centroid_height,
        found.model_name,
        tuple(cases),
        max(duty.longest_hold, duty.burst),
        duty.burst * duty.bursts_per_docking,
        (
            *found.wind.notes,
            *(f"area of {name} from ahead assumed from its kind" for name in found.windage.frontal_assumed),
            *_risen(brief, rise, found),
            "uniform direction, calm water, boat stopped; gusts, current and motion are not in a static balance",
        ),
        rise,
        heel_abeam(brief, found),
    )


def heel_abeam(brief: Brief, found: Loads) -> float | None:
    """Heel in the wind asked, abeam, in the state of the loads; nought for two hulls, None beyond the formula."""
    boat = brief.boat
    if boat.hull_beam is not None:
        return 0.0
    load = found.model(pi / 2)
    mass = boat.lightest.displacement if boat.lightest is not None else boat.displacement
    height = boat.metacentric_height or METACENTRIC_SHARE * boat.beam
    try:
        return heel(abs(load.heel) + abs(load.side) * 0.5 * boat.draught, mass, height)
    except ValueError:
        return None


def _risen(brief: Brief, rise: windage.Rise | None, found: Loads) -> Iterator[str]:
    if rise is None:
        return
    drawn = sum(element(brief, given).lateral_area for given in brief.boat.windage)
    if abs(found.windage.lateral_area - drawn) < 0.005:
        return
    state = "lightest waterline" if brief.boat.lightest is not None else "loaded waterline"
    yield (
        f"windage at the {state} with the new parts' sinkage and trim: {found.windage.lateral_area - drawn:+.2f} m² against the "
        f"{drawn:.2f} m² given"
    )


def _mean_place(brief: Brief, thrusters: Sequence[Thruster]) -> float:
    return sum(body_x(brief, t.tunnel.x) for t in thrusters) / len(thrusters)


def _case(kind: str, thruster: Thruster, demand: balance.Demand, brief: Brief, found: Loads, pivot: float, share: int) -> Case:
    place = body_x(brief, thruster.tunnel.x)
    spread = sigma(brief, found, demand.worst.load.place, pivot)
    by_heading = sorted((heading.wind_angle, abs(heading.thrust) / share) for heading in demand.headings)
    return Case(
        "B" if kind == "B" else "C",
        thruster.identity,
        demand.beam_thrust / share,
        demand.worst_thrust / share,
        demand.worst_angle,
        tuple(by_heading),
        abs(demand.beam.load.side),
        abs(place - pivot),
        spread,
        with_current=with_current(brief, found, place, pivot, share),
    )


def with_current(brief: Brief, found: Loads, place: float, pivot: float, share: int) -> float | None:
    """Need with the wind asked and the brief's current, both abeam and setting the same way; None where that is not asked.

    The hull as loaded, which meets more of the water, and the windage of the need. None as well where the hull in the water is
    outside the models, which the cases then say.
    """
    speed = brief.water.current
    if not speed or not asks_abeam(brief):
        return None
    try:
        hull = loaded(brief)
    except NotComputed:
        return None
    shift = waterline_middle(brief)
    needs = []
    for side in (1.0, -1.0):
        load = found.model(side * pi / 2)
        _, push, yaw = water_loads(hull, 0.0, side * speed, 0.0)
        moment = load.yaw + yaw + shift * push - pivot * (load.side + push)
        needs.append(abs(moment / (place - pivot)) / share)
    return max(needs)


def asks_abeam(brief: Brief) -> bool:
    """Whether a heading with the wind roughly abeam is asked."""
    return any(abs(sin(angle)) > 0.7 for angle in headings(brief))


def sigma(brief: Brief, found: Loads, wind_place: float, pivot: float) -> float:
    """Relative standard deviation of a need, from inputs and models."""
    return uncertainty.need_sigma(
        found.coefficient_sigma,
        brief.boat.windage_uncertainty,
        brief.wind.uncertainty,
        uncertainty.PROFILE if found.wind.height_read is not None else 0.0,
        uncertainty.GUST_FACTOR if found.wind.asked.is_ == "mean" else 0.0,
        uncertainty.lever_sigma(brief.boat.length_overall, wind_place, pivot),
    )


def pivot(brief: Brief, case: Case) -> float:
    """What a case turns about: the end made fast, or the other unit."""
    thruster = brief.thruster(case.identity)
    half = brief.boat.length_overall / 2
    if case.case == "B":
        return -half if thruster.role == "bow" else half
    others = [t for t in brief.thrusters if t.role != thruster.role]
    return _mean_place(brief, others)


def derive(brief: Brief, case: Case, rise: windage.Rise | None) -> None:
    """Run one case again at its two figures, for the tracer: the beam, then the worst heading."""
    found = loads(brief, rise)
    half = brief.boat.length_overall / 2
    thruster = brief.thruster(case.identity)
    place = body_x(brief, thruster.tunnel.x)
    share = float(sum(t.role == thruster.role for t in brief.thrusters))
    for angle in (pi / 2, case.worst_heading):
        load = found.model(angle)
        if case.case == "B":
            thrust = balance.thrust_about_pivot(load.side, load.place, place, -half if thruster.role == "bow" else half)
        else:
            bow = _mean_place(brief, [t for t in brief.thrusters if t.role == "bow"])
            stern = _mean_place(brief, [t for t in brief.thrusters if t.role == "stern"])
            side = balance.bow_thrust_on_station if thruster.role == "bow" else balance.stern_thrust_on_station
            thrust = side(load.side, load.place, bow, stern)
        balance.need_of_one(thrust, share)
