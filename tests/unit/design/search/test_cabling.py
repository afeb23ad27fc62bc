"""Cables: candidates by rule set, and each limit refusing once."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from athwart.design.places import RunOf
from athwart.design.search import cabling
from athwart.power.rules import RULE_SETS
from tests.unit.design.checks._boats import brief
from tests.unit.design.search._tasks import CATALOGUE, cable, unit

UNIT = unit("tunnel-24V-1550N")
SHORT = RunOf(2.5, 2.5, False, 1, False, True, "a to b")


def _broken(found: cabling.Judged) -> set[str]:
    return {limit[0].split(",")[0] for limit in found.limits if not limit[3]}


def _judge(
    row: str, parallel: int = 1, run: RunOf = SHORT, current: float = 450.0, time: float = 60.0, **changes: Any
) -> cabling.Judged:
    return cabling.judge(brief("1", changes.get("changes")), UNIT, cable(row), parallel, run, current, time)


def test_candidates_grow_and_keep_to_marine_metric_sizes() -> None:
    found = list(cabling.candidates(CATALOGUE, brief("1")))
    areas = [round(row.area * n * 1e6, 1) for row, n in found]
    assert areas == sorted(areas)
    assert all(row.marine and "AWG" not in row.gauge and row.area >= 10e-6 for row, _ in found)
    assert all(row.area >= 34e-6 for row, n in found if n > 1)


def test_the_us_rule_set_takes_awg_sizes() -> None:
    found = list(cabling.candidates(CATALOGUE, brief("1", {"choices.rule_set": "us"})))
    assert found
    assert all("AWG" in row.gauge for row, _ in found)


def test_a_catalogue_without_awg_still_offers_its_cables_to_us_rules() -> None:
    metric = replace(CATALOGUE, cables=tuple(row for row in CATALOGUE.cables if "AWG" not in row.gauge))
    assert list(cabling.candidates(metric, brief("1", {"choices.rule_set": "us"})))


def test_a_kept_cable_comes_first() -> None:
    own = cable("35mm2-70C")
    assert next(cabling.candidates(CATALOGUE, brief("1"), (own, 1))) == (own, 1)


def test_a_thick_short_cable_keeps_every_limit() -> None:
    assert _judge("95mm2-105C", 2).passes


def test_volts_lost_by_the_rule_refuse_a_long_thin_cable() -> None:
    long = RunOf(14.0, 14.0, False, 1, False, True, "a to b")
    assert "volts lost by the rule at rated current" in _broken(_judge("35mm2-105C", run=long))


def test_the_three_per_cent_class_is_stricter() -> None:
    run = RunOf(10.0, 10.0, False, 1, False, True, "a to b")
    assert _judge("95mm2-105C", 2, run=run, current=300.0).passes
    strict = _judge("95mm2-105C", 2, run=run, current=300.0, changes={"choices.circuit_class": "3 % circuit"})
    assert "volts lost by the rule at rated current" in _broken(strict)


def test_steady_current_refuses_where_bursts_follow_without_a_pause() -> None:
    assert "docking's steady current" not in _broken(_judge("70mm2-105C"))
    assert "docking's steady current" in _broken(_judge("70mm2-105C", changes={"duty.pause": "1 s", "duty.burst": "20 s"}))


def test_a_long_run_overheats_a_thin_conductor() -> None:
    assert "conductor after the longest run" in _broken(_judge("25mm2-70C", time=300.0))
    assert "conductor after the longest run" not in _broken(_judge("120mm2-70C", 2, time=300.0))


def test_insulation_of_60_degrees_may_not_enter_an_engine_space() -> None:
    hot = replace(SHORT, engine_space=True)
    weak = replace(cable("95mm2-70C"), insulation_temperature=333.15)
    found = cabling.judge(brief("1"), UNIT, weak, 2, hot, 300.0, 60.0)
    assert "insulation in an engine space" in _broken(found)


def test_an_engine_space_lowers_what_a_cable_carries() -> None:
    cool, hot = (cabling.allowed_current("iso small craft", cable("70mm2-105C"), space, 1) for space in (False, True))
    assert cool is not None
    assert hot is not None
    assert hot.value < cool.value


def test_the_rules_print_their_own_volts_lost() -> None:
    iso = cabling.rule_drop(RULE_SETS["iso small craft"], 300.0, 16.0, 70e-6)
    us = cabling.rule_drop(RULE_SETS["us"], 300.0, 16.0, 70e-6)
    assert iso == pytest.approx(0.0164 * 300 * 16 / 70)
    assert us == pytest.approx(1.23, abs=0.005)
