"""From the wind somebody read to the pressure on the silhouette."""

from __future__ import annotations

import pytest

from athwart.vessel.beaufort import bounds, middle_speed
from athwart.vessel.gusts import gust_factor
from athwart.vessel.wind import (
    WindAsked,
    design_wind,
    dynamic_pressure,
    pressure_share,
    pressure_share_by_log_law,
    wind_by_log_law,
    wind_by_power_law,
)
from athwart.vessel.windage import Windage, area_with_centroid

BOAT = Windage((area_with_centroid("hull", "hull", 30.0, 0.0, 0.7), area_with_centroid("house", "house", 10.0, -1.0, 2.0)), 14.0)


def test_a_wind_read_on_deck_is_taken_as_it_is() -> None:
    wind = design_wind(WindAsked(10.0, "on deck", "gust"), BOAT)
    assert wind.pressure == dynamic_pressure(10.0)
    assert wind.speed == pytest.approx(10.0)
    assert wind.pressure_share == 1.0
    assert wind.speed_at(0.7) == 10.0


def test_a_mean_becomes_a_gust_by_the_surroundings() -> None:
    wind = design_wind(WindAsked(10.0, "on deck", "mean", "off-land"), BOAT)
    assert wind.gust_factor == pytest.approx(1.52)
    assert wind.pressure == pytest.approx(dynamic_pressure(15.2))


def test_a_factor_given_goes_before_the_table() -> None:
    assert design_wind(WindAsked(10.0, "on deck", "mean", gust_factor=1.0), BOAT).gust_factor == 1.0
    assert design_wind(WindAsked(10.0, "on deck", "gust", gust_factor=1.4), BOAT).gust_factor == 1.0


def test_a_forecast_is_brought_down_to_each_element() -> None:
    wind = design_wind(WindAsked(10.0, "forecast 10 m", "gust", "at sea"), BOAT)
    by_hand = 0.75 * 0.07 ** (2 * 0.11) + 0.25 * 0.2 ** (2 * 0.11)
    assert wind.pressure_share == pytest.approx(by_hand)
    assert wind.pressure == pytest.approx(dynamic_pressure(10.0) * by_hand)
    assert wind.speed_at(2.0) == pytest.approx(10.0 * 0.2**0.11)


def test_weighing_by_drag_gives_the_house_more_say() -> None:
    asked = WindAsked(10.0, "forecast 10 m", "gust", "at sea")
    assert design_wind(asked, BOAT, by_drag=True).pressure > design_wind(asked, BOAT).pressure


def test_a_masthead_wind_is_brought_down_from_its_own_height() -> None:
    high = design_wind(WindAsked(10.0, "masthead", "gust", read_height=18.0), BOAT)
    low = design_wind(WindAsked(10.0, "masthead", "gust", read_height=10.0), BOAT)
    assert low.pressure == pytest.approx(design_wind(WindAsked(10.0, "forecast 10 m", "gust"), BOAT).pressure)
    assert high.pressure < low.pressure


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: WindAsked(10.0, "masthead", "mean"), "height of the masthead"),
        (lambda: WindAsked(-1.0, "on deck", "mean"), "a wind of -1"),
        (lambda: WindAsked(10.0, "on deck", "mean", gust_factor=0.9), "not below the mean"),
        (lambda: wind_by_power_law(10.0, 0.0, 0.15), "above the water"),
        (lambda: wind_by_log_law(10.0, 0.02, 0.03), "must exceed"),
        (lambda: pressure_share((1.0,), (), 0.1), "heights"),
        (lambda: pressure_share((1.0,), (0.0,), 0.1), "above the water"),
        (lambda: gust_factor("at sea", 3600.0), "60 to 600"),
        (lambda: gust_factor("in-land", 30.0), "60 to 3600"),
        (lambda: middle_speed(13.0), "0 to 12"),
    ],
)
def test_winds_that_cannot_be_are_refused(make: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        make()  # type: ignore[operator]


def test_between_the_times_of_the_table_the_gust_lies_between() -> None:
    assert gust_factor("off-sea", 180.0) < gust_factor("off-sea", 300.0) < gust_factor("off-sea", 600.0)


def test_bounds_of_a_force() -> None:
    assert bounds(0) == (0.0, 0.2)
    assert bounds(6) == (10.8, 13.8)


def test_the_notes_tell_what_was_done() -> None:
    notes = " ".join(design_wind(WindAsked(10.0, "forecast 10 m", "mean", "off-sea"), BOAT).notes)
    assert "gust factor 1.38" in notes
    assert "exponent 0.14" in notes
    assert "no height profile" in " ".join(design_wind(WindAsked(10.0, "on deck", "gust"), BOAT).notes)


def test_a_log_profile_brings_the_wind_down_by_the_ground_upwind() -> None:
    wind = design_wind(WindAsked(10.0, "forecast 10 m", "gust", roughness=0.03), BOAT)
    by_hand = 0.75 * wind_by_log_law(1.0, 0.7, 0.03) ** 2 + 0.25 * wind_by_log_law(1.0, 2.0, 0.03) ** 2
    assert wind.pressure_share == pytest.approx(by_hand)
    assert pressure_share_by_log_law((25.0,), (2.0,), 0.03) == pytest.approx(wind_by_log_law(1.0, 2.0, 0.03) ** 2)
    assert wind.speed_at(2.0) == pytest.approx(wind_by_log_law(10.0, 2.0, 0.03))
    assert any("logarithmic profile" in note for note in wind.notes)


def test_rougher_ground_upwind_leaves_less_wind() -> None:
    shares = [
        design_wind(WindAsked(10.0, "forecast 10 m", "gust", roughness=z), BOAT).pressure_share
        for z in (0.0002, 0.005, 0.03, 0.1)
    ]
    assert shares == sorted(shares, reverse=True)


def test_shelter_takes_its_share_of_the_load_at_every_height() -> None:
    open_, behind = (design_wind(WindAsked(10.0, "on deck", "gust", shelter=share), BOAT) for share in (1.0, 0.5))
    assert behind.pressure == pytest.approx(0.5 * open_.pressure)
    assert dynamic_pressure(behind.speed_at(1.0)) == pytest.approx(0.5 * dynamic_pressure(open_.speed_at(1.0)))


def test_a_hull_higher_than_its_roughness_allows_is_refused() -> None:
    with pytest.raises(ValueError, match="roughness"):
        design_wind(WindAsked(10.0, "forecast 10 m", "gust", roughness=1.0), BOAT)
