"""Immersion, tunnel, speed and drives."""

from __future__ import annotations

import pytest

from athwart.thruster import disc, drive, immersion, speed_loss, tunnel
from athwart.thruster.scaling import power_at_speed, thrust_at_speed


@pytest.mark.parametrize(
    ("ratio", "grade"),
    [(-0.2, "stop"), (0.499, "stop"), (0.5, "caution"), (0.749, "caution"), (0.75, "note"), (0.999, "note"), (1.0, "good")],
)
def test_the_grades_of_cover(ratio: float, grade: str) -> None:
    assert immersion.cover_grade(ratio) == grade


def test_the_largest_tunnel_has_just_the_cover_asked() -> None:
    diameter = immersion.largest_diameter(0.40, immersion.COVER_CAUTION, 0.05)
    assert immersion.cover_ratio(0.40, diameter, 0.05) == pytest.approx(immersion.COVER_CAUTION)


def test_hull_left_below_a_tunnel() -> None:
    assert immersion.hull_below_ratio(0.12, 0.2) == pytest.approx(immersion.HULL_BELOW)


def test_a_small_disc_is_loaded_harder_than_a_ship_unit() -> None:
    boat, ship = immersion.surface_loading(800.0, 0.185), immersion.surface_loading(26_400.0, 1.0)
    assert 4.0 < boat / ship < 10.0


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: immersion.cover_ratio(0.4, 0.0), "diameter"),
        (lambda: immersion.largest_diameter(0.2, 0.5, 0.3), "out of the water"),
        (lambda: immersion.immersion_factor(-0.1, 0.2), "out of the water"),
        (lambda: immersion.tunnel_wall(0.02, "wood"), "no wall rule"),
        (lambda: tunnel.entry_loss(-0.1), "radius"),
        (lambda: tunnel.entry_loss_second_table(0.3), "outside the table"),
        (lambda: speed_loss.moment_left(1.3), "outside the curve"),
        (lambda: disc.class_thrust_of(1e5, 1.0, "cycloidal", reversed_sense=True), "no reverse sense"),
        (lambda: thrust_at_speed(1.0, -0.1), "rated one"),
        (lambda: power_at_speed(1.0, -0.1), "rated one"),
    ],
)
def test_outside_the_rules_is_refused(make: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        make()  # type: ignore[operator]


def test_both_tables_of_entries_fall_with_the_radius() -> None:
    ratios = [k / 100.0 for k in range(21)]
    for table in (tunnel.entry_loss, tunnel.entry_loss_second_table):
        losses = [table(ratio) for ratio in ratios]
        assert losses == sorted(losses, reverse=True)
    assert tunnel.entry_loss(0.5) == 0.04


def test_the_moment_falls_to_half_and_comes_back() -> None:
    left = [speed_loss.moment_left(k / 100.0) for k in range(126)]
    assert min(left) == pytest.approx(0.5)
    assert left.index(min(left)) == 33
    assert left[0] == left[-1] == 1.0


def test_the_force_loses_less_than_the_moment_and_a_pod_less_than_a_tunnel() -> None:
    assert speed_loss.side_force_left(0.5) == pytest.approx(0.65)
    assert speed_loss.pod_moment_left(0.5) == pytest.approx(0.75)


def test_a_small_unit_is_at_its_worst_near_four_knots() -> None:
    jet = disc.jet_speed(400.0, 0.125)
    assert 0.33 * jet / 0.514444 == pytest.approx(3.6, abs=0.2)


def test_plausible_thrust() -> None:
    assert disc.is_plausible(disc.thrust_quality(750.0, 4000.0, 0.185), electrical=True)
    assert not disc.is_plausible(1.1, electrical=False)
    assert disc.exceeds_ideal(1300.0, 4000.0, 0.185)
    assert not disc.exceeds_ideal(1200.0, 4000.0, 0.185)


def test_rim_driven_units_lose_least_between_motor_and_rotor() -> None:
    rim = disc.class_thrust_of(4000.0, 0.25, transmission="rim")
    assert rim / disc.class_thrust_of(4000.0, 0.25) == pytest.approx((0.995 / 0.93) ** (2 / 3))


def test_a_long_hold_is_no_duty_for_brushes() -> None:
    assert not drive.bears("brushed", 600.0)
    assert drive.bears("brushed", 120.0)
    assert drive.suited(1800.0) == ("hydraulic",)
    assert drive.suited(60.0, petrol_vapour=True, proportional=True) == ("brushless", "hydraulic")
    assert set(drive.HOUSINGS) == {"tunnel", "rim", "retractable", "external"}
