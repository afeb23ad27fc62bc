"""Laws of wind, balance and water that hold for every boat."""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from hypothesis.strategies import SearchStrategy

from athwart.numerics import polygons
from athwart.numerics.curves import monotone_cubic
from athwart.numerics.normal import normal_deviate, normal_share
from athwart.numerics.roots import bisect, brent
from athwart.numerics.tables import interpolate, log_interpolate
from athwart.thruster import disc, immersion
from athwart.vessel import balance, blendermann, element_sum, hydrostatics, loads, uncertainty
from athwart.vessel.wind import WindAsked, design_wind
from athwart.vessel.windage import Windage, area_with_centroid

KINDS = st.sampled_from(("hull", "house", "mast", "rigging", "furled sail", "canvas", "dinghy", "people", "deck gear"))
ANGLES = st.floats(-pi, pi)
ROWS = st.sampled_from(tuple(blendermann.ROWS.values()))
READ_AT = st.sampled_from(("forecast 10 m", "masthead", "on deck"))
SURROUNDINGS = st.sampled_from(("at sea", "off-sea", "off-land", "in-land"))


@st.composite
def boats(draw: st.DrawFn) -> Windage:
    """Silhouettes of boats of 6 to 40 m."""
    length = draw(st.floats(6.0, 40.0))
    elements = draw(
        st.lists(
            st.builds(
                lambda kind, area, place, height: area_with_centroid("x", kind, area * length, place * length, height),
                KINDS, st.floats(0.05, 3.0), st.floats(-0.4, 0.4), st.floats(0.3, 8.0),
            ),
            min_size=1, max_size=5,
        )
    )  # fmt: skip
    return Windage(tuple(elements), length)


def winds(low: float = 1.0, high: float = 30.0) -> SearchStrategy[WindAsked]:
    """Winds as people state them."""
    return st.builds(
        lambda speed, read_at, is_, surroundings, height: WindAsked(speed, read_at, is_, surroundings, height),
        st.floats(low, high), READ_AT, st.sampled_from(("mean", "gust")), SURROUNDINGS, st.floats(5.0, 40.0),
    )  # fmt: skip


@given(boats(), ROWS, ANGLES)
def test_a_mirrored_wind_makes_a_mirrored_force(boat: Windage, row: blendermann.Row, angle: float) -> None:
    one, other = (blendermann.load(sign * angle, row, boat, 60.0) for sign in (1.0, -1.0))
    assert other.longitudinal == one.longitudinal
    assert (other.side, other.yaw, other.heel) == (-one.side, -one.yaw, -one.heel)


@given(boats(), winds(), ANGLES)
def test_the_sum_of_elements_mirrors_too(boat: Windage, asked: WindAsked, angle: float) -> None:
    model = element_sum.model(boat, design_wind(asked, boat, by_drag=True))
    one, other = model(angle), model(-angle)
    assert other.longitudinal == pytest.approx(one.longitudinal)
    assert (other.side, other.yaw, other.heel) == pytest.approx((-one.side, -one.yaw, -one.heel))


@given(boats(), ROWS, winds(), ANGLES, st.floats(0.1, 3.0))
def test_force_goes_with_the_square_of_the_wind(
    boat: Windage, row: blendermann.Row, asked: WindAsked, angle: float, factor: float
) -> None:
    faster = WindAsked(asked.speed * factor, asked.read_at, asked.is_, asked.surroundings, asked.read_height)
    one, other = (blendermann.load(angle, row, boat, design_wind(wind, boat).pressure) for wind in (asked, faster))
    assert other.side == pytest.approx(one.side * factor**2, rel=1e-9)
    sums = [element_sum.model(boat, design_wind(wind, boat, by_drag=True))(angle).side for wind in (asked, faster)]
    assert sums[1] == pytest.approx(sums[0] * factor**2, rel=1e-9)


@given(boats(), ROWS, winds(), st.floats(0.3, 0.48), st.floats(50.0, 20_000.0))
def test_the_wind_held_needs_just_the_thrust_there_is(
    boat: Windage, row: blendermann.Row, asked: WindAsked, place: float, thrust: float
) -> None:
    def need(wind: WindAsked) -> float:
        model = blendermann.model(row, boat, design_wind(wind, boat).pressure)
        length = boat.length_overall
        return balance.one_end_held(model, loads.all_round(pi / 18), place * length, -length / 2).worst_thrust

    held = balance.wind_held(asked.speed, need(asked), thrust)
    assert need(WindAsked(held, asked.read_at, asked.is_, asked.surroundings, asked.read_height)) == pytest.approx(
        thrust, rel=1e-9
    )


@given(boats(), ROWS)
def test_the_beam_is_never_above_the_worst_all_round(boat: Windage, row: blendermann.Row) -> None:
    model = blendermann.model(row, boat, 60.0)
    length = boat.length_overall
    demand = balance.one_end_held(model, loads.all_round(), 0.42 * length, -length / 2)
    assert demand.worst_thrust >= demand.beam_thrust - 1e-6
    assert demand.worst_angle <= pi / 2 + 1e-9 or boat.centroid_x < -0.3 * length, "aft of the beam the lever shrinks"


@given(boats(), ROWS, st.floats(0.2, 0.48), st.floats(0.2, 0.48))
def test_on_station_force_and_moment_are_balanced(boat: Windage, row: blendermann.Row, bow: float, stern: float) -> None:
    length = boat.length_overall
    station = balance.on_station(blendermann.model(row, boat, 60.0), loads.all_round(pi / 12), bow * length, -stern * length)
    for at_bow, at_stern in zip(station.bow.headings, station.stern.headings, strict=True):
        size = abs(at_bow.load.side) + 1.0
        assert at_bow.thrust + at_stern.thrust + at_bow.load.side == pytest.approx(0.0, abs=1e-9 * size)
        moment = length * (bow * at_bow.thrust - stern * at_stern.thrust)
        assert moment + at_bow.load.yaw == pytest.approx(0.0, abs=1e-9 * size * length)


@given(boats(), winds())
def test_a_profile_only_takes_away_below_where_the_wind_was_read(boat: Windage, asked: WindAsked) -> None:
    wind = design_wind(asked, boat)
    if wind.height_read is None:
        assert wind.pressure_share == 1.0
    elif all(element.centroid_height <= wind.height_read for element in boat.elements):
        assert wind.pressure_share <= 1.0


@st.composite
def stars(draw: st.DrawFn) -> list[tuple[float, float]]:
    """Polygons that do not cross themselves: corners by rising angle round a middle."""
    radii = draw(st.lists(st.floats(0.5, 10.0), min_size=3, max_size=24))
    x, y = draw(st.floats(-50.0, 50.0)), draw(st.floats(-50.0, 50.0))
    return [(x + r * cos(2 * pi * k / len(radii)), y + r * sin(2 * pi * k / len(radii))) for k, r in enumerate(radii)]


@given(stars(), st.integers(0, 23))
def test_area_and_centroid_are_those_of_the_triangles(corners: list[tuple[float, float]], first: int) -> None:
    middle = (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))
    total = moment_x = moment_y = 0.0
    for k in range(len(corners)):
        (x0, y0), (x1, y1) = corners[k - 1], corners[k]
        signed = 0.5 * ((x0 - middle[0]) * (y1 - middle[1]) - (x1 - middle[0]) * (y0 - middle[1]))
        total += signed
        moment_x += signed * (middle[0] + x0 + x1) / 3.0
        moment_y += signed * (middle[1] + y0 + y1) / 3.0
    assert polygons.area(corners) == pytest.approx(abs(total), rel=1e-9)
    assert polygons.centroid(corners) == pytest.approx((moment_x / total, moment_y / total), rel=1e-7, abs=1e-7)
    turned = corners[first % len(corners) :] + corners[: first % len(corners)]
    assert polygons.area(turned[::-1]) == pytest.approx(polygons.area(corners), rel=1e-9)
    assert not polygons.crosses_itself(corners)


@st.composite
def tables(draw: st.DrawFn) -> list[tuple[float, float]]:
    """Points with rising abscissae."""
    steps = draw(st.lists(st.floats(0.01, 5.0), min_size=2, max_size=12))
    heights = draw(st.lists(st.floats(0.1, 100.0), min_size=len(steps), max_size=len(steps)))
    return [(0.5 + sum(steps[: k + 1]), heights[k]) for k in range(len(steps))]


@given(tables(), st.floats(0.0, 1.0))
def test_a_curve_stays_between_its_neighbours(points: list[tuple[float, float]], share: float) -> None:
    for (x0, y0), (x1, y1) in pairwise(points):
        x = min(x0 + share * (x1 - x0), x1)
        slack = 1e-9 * (abs(y0) + abs(y1))
        for curve in (interpolate, log_interpolate, monotone_cubic):
            assert min(y0, y1) - slack <= curve(points, x) <= max(y0, y1) + slack


@given(st.floats(-30.0, 30.0), st.floats(0.1, 5.0))
def test_both_searches_find_the_same_root(root: float, slope: float) -> None:
    def function(x: float) -> float:
        return slope * (x - root) + (x - root) ** 3

    assert bisect(function, -40.0, 41.0) == pytest.approx(root, abs=1e-9)
    assert brent(function, -40.0, 41.0) == pytest.approx(root, abs=1e-9)


@given(st.floats(1e-6, 1.0 - 1e-6))
def test_share_and_deviate_are_inverse(share: float) -> None:
    assert normal_share(normal_deviate(share)) == pytest.approx(share, rel=1e-9)


@given(st.floats(100.0, 10_000.0), st.floats(100.0, 10_000.0), st.floats(0.01, 0.5), st.floats(0.01, 0.5), st.floats(1.001, 3.0))
def test_more_thrust_never_holds_less(thrust: float, need: float, thrust_spread: float, need_spread: float, more: float) -> None:
    chance = uncertainty.hold_probability(thrust, need, thrust_spread, need_spread)
    assert uncertainty.hold_probability(more * thrust, need, thrust_spread, need_spread) >= chance
    assert chance + uncertainty.hold_probability(need, thrust, need_spread, thrust_spread) == pytest.approx(1.0)


@given(
    st.floats(0.5, 1.0),
    st.floats(2.0, 8.0),
    st.floats(5.5, 38.0),
    st.floats(-0.08, 0.02),
    st.floats(10.0, 800.0),
    st.floats(-0.5, 0.5),
)
def test_a_weight_sinks_the_boat_by_its_mass(
    coefficient: float, beam: float, length: float, flotation: float, mass: float, place: float
) -> None:
    plane = hydrostatics.Waterplane(length, beam, coefficient, flotation * length)
    floating = hydrostatics.with_weights(plane, [hydrostatics.Weight("bank", mass, place * length)])
    assert floating.deeper_at(plane.flotation) * plane.to_sink == pytest.approx(mass)
    assert floating.bow - floating.stern == pytest.approx(floating.trim, abs=1e-12)
    halves = [hydrostatics.Weight("half", mass / 2, place * length)] * 2
    assert hydrostatics.with_weights(plane, halves).bow == pytest.approx(floating.bow)


@given(st.floats(100.0, 50_000.0), st.floats(0.1, 1.0), st.floats(1.0, 8.0))
def test_thrust_goes_with_power_to_two_thirds(power: float, diameter: float, factor: float) -> None:
    one, more = disc.ideal_thrust(power, diameter), disc.ideal_thrust(factor * power, diameter)
    assert more / one == pytest.approx(factor ** (2.0 / 3.0))


@given(st.floats(0.0, 3.0), st.floats(0.0, 3.0), st.floats(0.1, 1.0))
def test_a_deeper_rotor_never_has_less(shallow: float, more: float, diameter: float) -> None:
    assume(more > 0.0)
    one, other = (immersion.immersion_factor(depth * diameter, diameter) for depth in (shallow, shallow + more))
    assert 0.32 < one <= other <= 1.0
