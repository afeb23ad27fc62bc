"""Load units, drops and the ladder."""

from __future__ import annotations

import pytest

from athwart.network.supply import (
    FEED_KINDS,
    Tap,
    checked_resistance,
    even_drop,
    feed_kind,
    ladder,
    least_plausible_resistance,
    load_units,
    lumped_drop,
    units_current,
)

R = 0.053


def test_load_units_round_up_a_node() -> None:
    assert [load_units(current) for current in (0.0, 0.001, 0.05, 0.0501, 0.15, 1.0)] == [0, 1, 1, 2, 3, 20]


def test_the_ladder_with_all_load_at_the_end_is_the_lumped_drop() -> None:
    solved = ladder([Tap("end", 40.0, units_current(20))], 0.0, R, 12.0)
    assert 12.0 - solved.lowest.volts == pytest.approx(lumped_drop(20, 40.0, R))


def test_many_even_loads_come_to_half_the_lumped_drop() -> None:
    taps = [Tap(str(i), (i + 0.5) * 0.04, units_current(20) / 1000) for i in range(1000)]
    assert 12.0 - ladder(taps, 0.0, R, 12.0).lowest.volts == pytest.approx(even_drop(20, 40.0, R), rel=1e-3)


def test_a_feed_in_the_middle_by_hand() -> None:
    """Own arithmetic: 4 m to each side, two nodes left, one right, a feed lead of 0.1 ohm."""
    taps = [Tap("bow", 0.0, 0.2, 2.0), Tap("locker", 2.0, 0.1), Tap("helm", 4.0, 0.3), Tap("stern", 8.0, 0.4, 1.0)]
    solved = ladder(taps, 4.0, 0.05, 12.0, 0.1)
    assert solved.feed_volts == pytest.approx(11.9)
    locker = 11.9 - 2 * 0.05 * 2.0 * 0.3
    bow = locker - 2 * 0.05 * 2.0 * 0.2 - 2 * 0.05 * 2.0 * 0.2
    stern = 11.9 - 2 * 0.05 * 4.0 * 0.4 - 2 * 0.05 * 1.0 * 0.4
    assert [node.volts for node in solved.nodes] == pytest.approx([bow, locker, 11.9, stern])
    assert (solved.toward_start, solved.toward_end, solved.current) == pytest.approx((0.3, 0.4, 1.0))
    assert solved.most_in_trunk == pytest.approx(0.4)
    assert solved.lowest.name == "stern"


def test_a_drop_cable_may_have_its_own_resistance() -> None:
    tap = [Tap("bow", 0.0, 0.5, 3.0)]
    assert ladder(tap, 0.0, R, 12.0, drop_resistance_per_metre=0.1).lowest.volts == pytest.approx(12.0 - 0.3)


def test_two_nodes_at_one_tee_share_its_volts() -> None:
    solved = ladder([Tap("a", 5.0, 0.2), Tap("b", 5.0, 0.3)], 0.0, R, 12.0)
    assert {node.tee_volts for node in solved.nodes} == {12.0 - 2 * R * 5.0 * 0.5}


def test_a_node_works_from_9_to_16_volts() -> None:
    low = ladder([Tap("a", 0.0, 0.1)], 0.0, R, 8.99).lowest
    assert not low.works()
    assert ladder([Tap("a", 0.0, 0.1)], 0.0, R, 12.0).lowest.works()
    assert not ladder([Tap("a", 0.0, 0.1)], 0.0, R, 28.8).lowest.works()


@pytest.mark.parametrize(
    ("taps", "resistance", "words"),
    [([], R, "without nodes"), ([Tap("a", 0.0, -0.1)], R, "nought or more"), ([Tap("a", 0.0, 0.1)], -R, "nought or more")],
)
def test_nonsense_is_refused(taps: list[Tap], resistance: float, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        ladder(taps, 0.0, resistance, 12.0)


def test_a_resistance_a_fifth_below_copper_is_refused_and_a_little_is_not() -> None:
    area = 0.3255e-6
    least = least_plausible_resistance(area)
    assert checked_resistance(least, area) == least
    with pytest.raises(ValueError, match="mΩ/m"):
        checked_resistance(least * 0.999, area)


def test_feeds_stand_in_order_of_preference() -> None:
    ranks = [feed_kind(kind).rank for kind in ("ship bank", "converter", "lower block", "engine start", "upper block")]
    assert ranks == sorted(ranks)
    assert FEED_KINDS["upper block"].severity == "stop"
    with pytest.raises(ValueError, match="ship bank"):
        feed_kind("shore")
