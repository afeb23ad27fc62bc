"""The main fuse: each question can refuse, the ceiling goes by the rule set, the smallest that passes is taken."""

from __future__ import annotations

from dataclasses import replace

import pytest

from athwart.catalogue.records import Cable
from athwart.design.proposal import FuseChoice
from athwart.design.search import fusing
from tests.unit.design.checks._boats import brief
from tests.unit.design.search._tasks import CATALOGUE, cable, fuse

CABLE = cable("95mm2-105C")
DUTY = fusing.FuseDuty(
    run_current=300.0,
    run_time=60.0,
    largest_fault=4000.0,
    smallest_fault=1900.0,
    volts=28.8,
    ampacity=390.0,
    air=303.15,
    locked=1500.0,
)


def _choose(duty: fusing.FuseDuty, rule_set: str = "iso small craft", **others: object) -> FuseChoice | None:
    boat = brief("1", {"choices.rule_set": rule_set})
    found, _ = fusing.choose(boat, CATALOGUE, duty, CABLE, 2, duty.locked, **others)  # type: ignore[arg-type]
    return found


def _broken(row: str, duty: fusing.FuseDuty, conductor: Cable = CABLE, parallel: int = 1) -> set[str]:
    found = fusing.judged_alone(brief("1"), CATALOGUE, duty, conductor, parallel, duty.locked, fuse(row), "fixed", 0.15)
    return {limit[0].split(",")[0] for limit in found.limits if not limit[3]}


def test_a_fuse_that_suits_breaks_no_limit() -> None:
    chosen = _choose(DUTY)
    assert chosen is not None
    assert all(limit[3] for limit in chosen.limits)
    assert len(chosen.limits) == 7


def test_the_smallest_rating_that_passes_is_taken() -> None:
    duty = replace(DUTY, run_current=430.0, run_time=3600.0, ampacity=450.0)
    chosen = _choose(duty)
    assert chosen is not None
    smaller = [row for row in CATALOGUE.fuses if 0.8 * duty.run_current <= row.rating < chosen.fuse.rating]
    assert smaller
    assert all(_broken(row.id, duty, parallel=2) for row in smaller)


@pytest.mark.parametrize(
    ("limit", "row", "changes"),
    [
        ("rating over the run's current", "marine-strip-400A", {"run_current": 520.0}),
        ("carries the longest run", "marine-strip-400A", {"run_current": 500.0, "run_time": 7200.0}),
        ("rating within the conductor's by the rule", "marine-strip-400A", {"ampacity": 350.0}),
        ("rated volts", "marine-strip-400A", {"volts": 57.6}),
        ("breaking capacity over the largest fault", "marine-strip-400A", {"largest_fault": 15000.0}),
        ("opens at the smallest fault", "marine-strip-400A", {"smallest_fault": 620.0}),
        ("opens before the cable suffers", "marine-strip-400A", {"locked": 420.0, "air": 343.15}),
    ],
)
def test_each_question_refuses(limit: str, row: str, changes: dict[str, float]) -> None:
    easy = replace(DUTY, ampacity=500.0, largest_fault=2500.0)
    thin = cable("25mm2-70C")
    assert limit not in _broken(row, easy, thin)
    assert limit in _broken(row, replace(easy, **changes), thin)


def test_the_us_rules_allow_half_as_much_again_over_the_conductor() -> None:
    duty = replace(DUTY, run_current=380.0, ampacity=300.0, run_time=120.0)
    iso, us = _choose(duty), _choose(duty, "us")
    assert iso is None
    assert us is not None
    assert 300.0 < us.fuse.rating <= 450.0


def test_from_50_volts_on_the_us_rules_allow_no_more_than_the_conductor_bears() -> None:
    duty = replace(DUTY, run_current=380.0, ampacity=300.0, run_time=120.0, largest_fault=2000.0)
    assert _choose(replace(duty, volts=48.0), "us") is not None
    assert _choose(replace(duty, volts=57.6), "us") is None


def test_none_of_them_passes_gives_the_limits_of_the_one_that_came_furthest() -> None:
    found, limits = fusing.choose(brief("1"), CATALOGUE, replace(DUTY, ampacity=50.0), CABLE, 2, 0.0)
    assert found is None
    assert limits[-1][0].startswith("rating within the conductor's")
    assert not limits[-1][3]


def test_a_fixed_fuse_is_kept_whatever_it_breaks() -> None:
    chosen = _choose(replace(DUTY, ampacity=50.0), kept=(fuse("marine-strip-400A"), "fixed", 0.9))
    assert chosen is not None
    assert (chosen.fuse.id, chosen.kept, chosen.from_source) == ("marine-strip-400A", "fixed", 0.9)
    assert any(not limit[3] for limit in chosen.limits)


def test_a_fuse_aboard_stays_only_if_it_passes() -> None:
    stays = _choose(replace(DUTY, ampacity=500.0, largest_fault=2500.0), kept=(fuse("marine-strip-400A"), "aboard", 0.3))
    goes = _choose(replace(DUTY, ampacity=350.0), kept=(fuse("marine-strip-400A"), "aboard", 0.3))
    assert stays is not None
    assert (stays.fuse.id, stays.kept, stays.from_source) == ("marine-strip-400A", "aboard", 0.3)
    assert goes is None or goes.kept == "chosen"


def test_where_vapour_may_be_only_ignition_protected_families_count() -> None:
    chosen = _choose(DUTY, ignition=True)
    assert chosen is None or chosen.family.ignition_protected


def test_a_cable_bears_a_small_current_longer_than_a_large_one() -> None:
    bears = fusing.withstand(CABLE, 1, 303.15)
    times = [bears(current) for current in (600.0, 1200.0, 3000.0, 8000.0, 20000.0)]
    assert times == sorted(times, reverse=True)
    assert fusing.withstand(CABLE, 2, 303.15)(20000.0) == pytest.approx(4 * times[-1], rel=1e-6)
