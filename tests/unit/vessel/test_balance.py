"""Wind models over headings, and what they demand of the units."""

from __future__ import annotations

from math import degrees, pi, radians

import pytest

from athwart.vessel import balance, blendermann, element_sum, loads, uncertainty
from athwart.vessel.hydrostatics import inertia_coefficient
from athwart.vessel.second_opinions import fishing_vessel_wind
from athwart.vessel.wind import WindAsked, design_wind
from athwart.vessel.windage import Windage, area_with_centroid, box

BOAT = Windage((area_with_centroid("all", "hull", 24.0, 0.0, 1.1, frontal_area=9.0),), 12.0)
MODEL = blendermann.model(blendermann.ROWS["speed boat"], BOAT, 65.0)
YACHT = Windage(
    (
        box("hull", "hull", -6.0, 6.0, 0.0, 1.1, width=3.8),
        area_with_centroid("house", "house", 3.0, -0.5, 1.4, frontal_area=2.0),
        area_with_centroid("mast and boom", "mast", 4.0, 0.8, 7.5),
    ),
    12.0,
)


def test_a_wind_from_starboard_pushes_to_port_and_from_ahead_aft() -> None:
    load = MODEL(pi / 4)
    assert load.side < 0.0
    assert load.longitudinal < 0.0
    assert load.yaw < 0.0, "forward of the beam it turns the bow away from the wind"
    assert load.heel < 0.0
    assert load.is_from_starboard


def test_right_ahead_and_right_astern_nothing_pushes_sideways() -> None:
    for angle in (0.0, pi, -pi, 2 * pi):
        assert MODEL(angle).side == 0.0
        assert MODEL(angle).yaw == 0.0
    assert MODEL(0.0).longitudinal < 0.0 < MODEL(pi).longitudinal


def test_angles_are_the_same_all_round_the_clock() -> None:
    assert MODEL(radians(300.0)).side == pytest.approx(MODEL(radians(-60.0)).side)
    assert loads.signed_angle(-pi) == pi


def test_all_round_is_mirror_for_mirror() -> None:
    angles = loads.all_round()
    assert len(angles) == 72
    assert {-angle for angle in angles if abs(angle) < 3.14} == {angle for angle in angles if abs(angle) < 3.14}
    assert pi / 2 in angles


def test_the_worst_heading_of_a_symmetric_boat_lies_near_fifty_five_degrees() -> None:
    demand = balance.one_end_held(MODEL, loads.all_round(), 5.04, -6.0)
    assert degrees(demand.worst_angle) == pytest.approx(55.0)
    assert demand.worst_thrust > 1.2 * demand.beam_thrust
    assert demand.worst.wind_angle > 0.0, "of two mirrored headings the one from starboard is named"
    assert demand.worst.thrust > 0.0, "the unit pushes towards the wind"


def test_only_the_headings_asked_count() -> None:
    demand = balance.one_end_held(MODEL, [pi / 2, radians(100.0)], 5.04, -6.0)
    assert demand.worst_angle == pytest.approx(pi / 2)
    assert demand.worst_thrust == pytest.approx(demand.beam_thrust)
    assert len(demand.headings) == 2
    with pytest.raises(ValueError, match="one heading"):
        balance.one_end_held(MODEL, [], 5.04, -6.0)


def test_a_stern_unit_with_the_bow_made_fast_mirrors_the_bow_unit() -> None:
    bow = balance.one_end_held(MODEL, loads.all_round(), 5.0, -6.0)
    stern = balance.one_end_held(MODEL, loads.all_round(), -5.0, 6.0)
    assert bow.beam_thrust == pytest.approx(stern.beam_thrust)
    assert degrees(stern.worst_angle) > 90.0


def test_on_station_the_units_share_force_and_moment() -> None:
    station = balance.on_station(MODEL, loads.all_round(), 5.0, -5.4)
    for bow, stern in zip(station.bow.headings, station.stern.headings, strict=True):
        assert bow.thrust + stern.thrust == pytest.approx(-bow.load.side, abs=1e-9)
        assert 5.0 * bow.thrust - 5.4 * stern.thrust == pytest.approx(-bow.load.yaw, abs=1e-6)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: balance.thrust_about_pivot(1.0, 0.0, -6.0, -6.0), "lever"),
        (lambda: balance.bow_thrust_on_station(1.0, 0.0, -5.0, 5.0), "not forward"),
        (lambda: balance.stern_thrust_on_station(1.0, 0.0, 5.0, 5.0), "not forward"),
        (lambda: balance.wind_held(10.0, 0.0, 100.0), "a need of 0"),
        (lambda: balance.rudder_side_force(1.0, 0.01, 40.0), "0 to 30"),
        (lambda: blendermann.row_for("catamaran"), "no row"),
        (lambda: blendermann.side_coefficient(4.0, 0.2, 0.9, 0.6), "-π to π"),
        (lambda: inertia_coefficient(0.4), "0.5 to 1"),
        (lambda: fishing_vessel_wind(26.0, 0.01), "0.1 m or more"),
        (lambda: uncertainty.hold_probability(0.0, 1.0, 0.1, 0.1), "above nought"),
        (lambda: uncertainty.hold_probability(1.0, 1.0, 0.0, 0.0), "unsure"),
        (lambda: uncertainty.lever_sigma(12.0, -6.0, -6.0), "no lever"),
        (lambda: uncertainty.thrust_for_probability(1.0, 1.0, 0.1, 0.1), "less than 1"),
        (lambda: uncertainty.band(1.0, -0.1), "standard deviation"),
    ],
)
def test_what_cannot_be_is_refused(make: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        make()  # type: ignore[operator]


def test_every_kind_of_boat_with_a_row_finds_it() -> None:
    for kind in blendermann.ROW_OF_BOAT:
        assert blendermann.row_for(kind).name in blendermann.ROWS
    assert len(blendermann.ROWS) == 17


def test_the_sum_of_elements_on_the_beam_by_hand() -> None:
    wind = design_wind(WindAsked(10.0, "on deck", "gust"), YACHT, by_drag=True)
    load = element_sum.model(YACHT, wind)(pi / 2)
    assert load.side == pytest.approx(-61.25 * (0.7 * 13.2 + 1.0 * 3.0 + 1.0 * 4.0))
    assert load.place == pytest.approx((1.0 * 3.0 * -0.5 + 1.0 * 4.0 * 0.8) / (0.7 * 13.2 + 3.0 + 4.0))
    cautious = element_sum.model(YACHT, wind, cautious=True)(pi / 2)
    assert cautious.side == pytest.approx(-61.25 * (0.9 * 13.2 + 3.0 + 4.0))


def test_the_mast_stands_in_more_wind_than_the_hull() -> None:
    forecast = design_wind(WindAsked(10.0, "forecast 10 m", "gust", "at sea"), YACHT, by_drag=True)
    load = element_sum.model(YACHT, forecast)(pi / 2)
    by_hand = 61.25 * (0.7 * 13.2 * 0.055**0.22 + 3.0 * 0.14**0.22 + 4.0 * 0.75**0.22)
    assert load.side == pytest.approx(-by_hand)
    assert forecast.pressure * (0.7 * 13.2 + 3.0 + 4.0) == pytest.approx(by_hand), "the effective pressure is the mean by drag"


def test_the_hulls_part_moves_towards_the_wind() -> None:
    wind = design_wind(WindAsked(10.0, "on deck", "gust"), YACHT)
    model = element_sum.model(YACHT, wind)
    assert model(radians(50.0)).place > model(pi / 2).place > model(radians(130.0)).place


def test_a_hull_given_as_an_area_counts_as_long_as_the_boat() -> None:
    drawn = Windage((box("hull", "hull", -6.0, 6.0, 0.0, 1.1),), 12.0)
    measured = Windage((area_with_centroid("hull", "hull", 13.2, 0.0, 0.55),), 12.0)
    places = [element_sum.load(radians(55.0), boat, lambda height: 60.0).place for boat in (drawn, measured)]
    assert places[0] == pytest.approx(places[1])
    assert places[0] > 1.0


def test_no_wind_no_load() -> None:
    wind = design_wind(WindAsked(0.0, "on deck", "gust"), YACHT)
    assert element_sum.model(YACHT, wind)(1.0).side == 0.0


def test_bands_and_chances_agree() -> None:
    need = uncertainty.band(1000.0, 0.2)
    assert need.low * need.high == pytest.approx(1000.0**2)
    thrust = uncertainty.thrust_for_probability(1000.0, 0.8, 0.1, 0.2)
    assert uncertainty.hold_probability(thrust, 1000.0, 0.1, 0.2) == pytest.approx(0.8)
