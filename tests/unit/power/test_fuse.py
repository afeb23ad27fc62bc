"""Fuses: bands, questions, selection."""

from __future__ import annotations

from math import inf

import pytest

from athwart.power.fuse import (
    Duty,
    ambient_derating,
    are_selective,
    breaking_capacity_at,
    breaks_fault,
    carries_run,
    conventional_time,
    judge,
    opening_band,
    opening_time,
    opens_at,
    protects_cable,
    select_fuse,
    within_ceiling,
)
from athwart.power.fuse_data import FAMILIES
from athwart.power.heating import INSULATIONS, cable, withstand_time
from athwart.sources import register

SF51, CLASS_T, GG, STRIP = (FAMILIES[key] for key in ("bolt-down sf51", "class t", "gg blade", "marine strip"))
CABLE = cable(70e-6, 0.272e-3, 0.0155, INSULATIONS["pvc 105"])


def bears(current: float) -> float:
    return withstand_time(CABLE, current, 313.15, 323.15)


def duty(**changes: float) -> Duty:
    figures = {
        "run_current": 300.0,
        "run_time": 180.0,
        "ceiling": 495.0,
        "largest_fault": 4200.0,
        "smallest_fault": 1400.0,
        "volts": 28.8,
    }
    return Duty(withstand=bears, **(figures | changes))


def test_between_points_both_axes_are_logarithmic() -> None:
    band = opening_time(SF51.points, (2.0 * 3.5) ** 0.5)
    assert (band.least, band.most) == pytest.approx(((1.0 * 0.3) ** 0.5, (15.0 * 5.0) ** 0.5))


def test_below_a_tenth_of_a_second_i_squared_t_is_constant() -> None:
    for family in FAMILIES.values():
        first, second = (opening_time(family.points, multiple) for multiple in (30.0, 60.0))
        assert first.least / second.least == pytest.approx(4.0)
        assert first.most / second.most == pytest.approx(4.0)
    knee = opening_time(CLASS_T.points, 3.99).least
    assert knee == pytest.approx(0.1, rel=0.05)


def test_a_fuse_that_may_hold_for_ever_says_so() -> None:
    assert opening_band(SF51, 300.0, 300.0).most == inf
    assert opening_band(SF51, 300.0, 290.0).least == inf
    assert opening_band(GG, 300.0, 360.0).least == inf
    assert opening_band(GG, 300.0, 480.0).most == pytest.approx(14400.0)


def test_a_warm_fuse_carries_less() -> None:
    derated = ambient_derating(333.15)
    assert derated == pytest.approx(1.0 - 0.0015 * 37.0)
    assert ambient_derating(273.15) == 1.0
    assert opening_band(SF51, 300.0, 400.0, derated).least < opening_band(SF51, 300.0, 400.0).least
    with pytest.raises(ValueError, match="85 °C"):
        ambient_derating(363.15)


def test_breaking_capacity_falls_with_the_volts() -> None:
    cube = FAMILIES["terminal cube"]
    assert [breaking_capacity_at(cube, volts) for volts in (14.0, 28.8, 57.6, 60.0)] == [10000.0, 5000.0, 2000.0, 0.0]
    assert not breaks_fault(SF51, 28.8, 2001.0).passed
    assert breaks_fault(SF51, 28.8, 2000.0).passed
    assert not breaks_fault(SF51, 57.6, 100.0).passed


def test_each_question_can_be_answered_both_ways() -> None:
    assert carries_run(SF51, 300.0, 300.0, 180.0).passed
    assert not carries_run(SF51, 200.0, 300.0, 180.0).passed
    assert within_ceiling(495.0, 495.0).passed
    assert not within_ceiling(500.0, 495.0).passed
    assert opens_at(CLASS_T, 300.0, 1400.0).passed
    assert not opens_at(CLASS_T, 600.0, 1400.0).passed
    assert protects_cable(STRIP, 300.0, bears, 4200.0).passed
    assert not protects_cable(GG, 630.0, bears, 4200.0).passed


def test_protection_is_judged_at_the_current_with_the_least_room() -> None:
    verdict = protects_cable(GG, 630.0, bears, 4200.0)
    assert verdict.at_current is not None
    assert verdict.value == pytest.approx(opening_band(GG, 630.0, verdict.at_current).most)
    assert verdict.limit == pytest.approx(bears(verdict.at_current))
    assert protects_cable(CLASS_T, 350.0, bears, 4200.0, least_overload=1400.0).passed
    assert not protects_cable(CLASS_T, 350.0, bears, 4200.0).passed, "its guaranteed times are long at twice its rating"
    small_fault = protects_cable(GG, 630.0, bears, 900.0)
    assert small_fault.at_current == 900.0


def test_the_smallest_fuse_that_passes_is_chosen_and_the_rest_keep_their_reason() -> None:
    found = select_fuse([(SF51, SF51.ratings), (STRIP, STRIP.ratings)], duty())
    assert found.chosen is not None
    assert found.chosen.family is STRIP
    assert found.chosen.passed
    assert found.chosen.refused_by is None
    reasons = {candidate.refused_by.name for candidate in found.refused if candidate.refused_by}
    assert {"carries the run", "breaks the largest fault"} <= reasons
    assert all(not candidate.passed for candidate in found.refused)
    smaller = [rating for rating in STRIP.ratings if rating < found.chosen.rating]
    assert all(not judge(STRIP, rating, duty()).passed for rating in smaller)


def test_if_no_fuse_serves_the_cable_is_too_thin() -> None:
    found = select_fuse([(STRIP, STRIP.ratings)], duty(ceiling=200.0))
    assert found.chosen is None
    assert found.cable_too_thin
    weak = select_fuse([(STRIP, STRIP.ratings)], duty(largest_fault=30_000.0))
    assert weak.chosen is None
    assert not weak.cable_too_thin


def test_gg_fuses_in_series() -> None:
    assert are_selective(100.0, 160.0)
    assert not are_selective(125.0, 160.0)
    with pytest.raises(ValueError, match="ends at 1250"):
        conventional_time(1600.0)


def test_every_family_is_ordered_and_sourced() -> None:
    for family in FAMILIES.values():
        assert list(family.ratings) == sorted(family.ratings)
        assert {family.source, family.breaking_source} <= set(register())
        multiples = [point[0] for point in family.points]
        assert multiples == sorted(multiples)
