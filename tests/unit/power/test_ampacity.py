"""Ampacity: the safe row and column, factors named, rule sets never mixed, unverified cells said."""

from __future__ import annotations

import pytest

from athwart.power.ampacity import (
    ambient_factor,
    ampacity,
    awg_ampacity,
    bundle_factor,
    engine_space_factor,
    may_enter_engine_space,
    table_ampacity,
)
from athwart.power.conductor import awg_area
from athwart.power.rules import OTHER_LIMITS, RULE_SETS, fuse_ceiling, rule_set
from athwart.sources import register

ISO = "iso small craft"


def kelvin(celsius: float) -> float:
    return celsius + 273.15


def test_a_size_between_rows_takes_the_thinner_one() -> None:
    assert table_ampacity("us", 70e-6, kelvin(105)) == table_ampacity("us", awg_area(-1), kelvin(105)) == 330.0
    found = ampacity(ISO, awg_area(-1), kelvin(70))
    assert (found.value, found.row, found.column) == (210.0, "50 mm²", 70)


def test_a_rating_between_columns_takes_the_cooler_one() -> None:
    assert ampacity(ISO, 70e-6, kelvin(75)).column == 70
    assert ampacity(ISO, 70e-6, kelvin(90)).column == 85


def test_a_cell_that_nobody_saw_says_so() -> None:
    assert ampacity(ISO, 70e-6, kelvin(70)).verified
    assert not ampacity(ISO, 95e-6, kelvin(70)).verified
    assert not ampacity(ISO, 70e-6, kelvin(70), bundle=4).verified
    assert awg_ampacity("2/0", kelvin(105), engine_space=True).verified
    assert not awg_ampacity("2/0", kelvin(75), engine_space=True).verified


def test_factors_multiply_and_are_named() -> None:
    found = awg_ampacity("2/0", kelvin(105), engine_space=True, bundle=3)
    assert found.value == pytest.approx(330.0 * 0.85 * 0.70)
    assert [factor.name for factor in found.factors] == ["engine space", "bundle"]
    assert found.sources == ("33-cfr-183-425", "33-cfr-183-425-105", "uscg-bundles")


def test_iso_engine_spaces_refuse_60_degree_insulation() -> None:
    assert not may_enter_engine_space(ISO, kelvin(60))
    assert may_enter_engine_space("us", kelvin(60))
    with pytest.raises(ValueError, match="not allowed in an engine space"):
        ampacity(ISO, 70e-6, kelvin(60), engine_space=True)
    assert engine_space_factor(ISO, kelvin(105)).value == 0.86


def test_bundles_count_from_the_rows_on() -> None:
    assert [bundle_factor("us", count).value for count in (1, 2, 3, 4, 6, 7, 24, 25)] == [1.0, 1.0, 0.7, 0.6, 0.6, 0.5, 0.5, 0.4]
    assert [bundle_factor(ISO, count).value for count in (1, 3, 4, 7, 25)] == [1.0, 1.0, 0.7, 0.6, 0.5]
    with pytest.raises(ValueError, match="bundle of 0"):
        bundle_factor("us", 0)


@pytest.mark.parametrize(
    ("rules", "area", "rated", "words"),
    [
        ("us", 0.5e-6, 105, "first row"),
        ("us", 200e-6, 105, "last row"),
        (ISO, 0.5e-6, 105, "first row"),
        (ISO, 185e-6, 105, "last row"),
        (ISO, 70e-6, 50, "starts at 60"),
        ("german", 70e-6, 70, "there are iso small craft and us"),
    ],
)
def test_what_the_table_does_not_hold_is_refused(rules: str, area: float, rated: float, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        ampacity(rules, area, kelvin(rated))


def test_hot_air_leaves_nothing() -> None:
    with pytest.raises(ValueError, match="round insulation rated"):
        ambient_factor(kelvin(60), kelvin(60))
    with pytest.raises(ValueError, match="there are"):
        bundle_factor("german", 3)


def test_every_limit_of_every_rule_set_has_its_source() -> None:
    for rules in RULE_SETS.values():
        assert set(rules.sources) <= set(register())
        for limit in rules.limits().values():
            assert limit.source in register()
            assert limit.says
    assert all(limit.source in register() for limit in OTHER_LIMITS.values())
    assert not RULE_SETS[ISO].fuse_ceiling.verified
    assert RULE_SETS["us"].fuse_ceiling.verified


def test_fuse_distances_by_place_and_sheath() -> None:
    iso, us = rule_set(ISO), rule_set("us")
    assert iso.fuse_distance(at_battery=True, sheathed=False).value == pytest.approx(0.2)
    assert iso.fuse_distance(at_battery=True, sheathed=True).value == pytest.approx(1.8)
    assert us.fuse_distance(at_battery=False, sheathed=True).value == pytest.approx(1.016)
    assert us.fuse_distance(at_battery=True, sheathed=True).value == pytest.approx(1.8288)
    with pytest.raises(ValueError, match="there are"):
        rule_set("mixed")


def test_from_50_volts_on_the_conductor_sets_the_fuse() -> None:
    us = rule_set("us")
    assert fuse_ceiling(us, 330.0, 28.8) == pytest.approx(495.0)
    assert fuse_ceiling(us, 330.0, 57.6) == pytest.approx(330.0)
    assert fuse_ceiling(rule_set(ISO), 330.0, 28.8) == pytest.approx(330.0)
