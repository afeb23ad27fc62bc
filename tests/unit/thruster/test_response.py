"""How a unit answers its lever, against the first-order law it is and the motion that uses it; what a tunnel leaves of thrust."""

from __future__ import annotations

from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st

from athwart.plant.motion import Pusher, SteadyThrust
from athwart.thruster.response import commanded, thrust_after, time_to_nine_tenths, time_to_reverse
from athwart.thruster.scaling import rotor_speed, thrust_at_speed, tip_speed
from athwart.thruster.tunnel import REFERENCE_LOSSES, entry_loss, loss_sum, tunnel_factor


def test_thrust_makes_two_thirds_of_the_way_in_one_lag() -> None:
    assert thrust_after(0.0, 1000.0, 0.3, 0.3) == pytest.approx(1000.0 * (1.0 - exp(-1.0)))
    assert thrust_after(800.0, -800.0, 1e9, 0.3) == pytest.approx(-800.0)


@given(st.floats(-1e3, 1e3), st.floats(-1e3, 1e3), st.floats(0.0, 5.0), st.floats(0.0, 5.0))
def test_two_waits_are_one_long_wait(before: float, wanted: float, first: float, second: float) -> None:
    whole = thrust_after(before, wanted, first + second, 0.4)
    assert thrust_after(thrust_after(before, wanted, first, 0.4), wanted, second, 0.4) == pytest.approx(whole, abs=1e-9)


def test_nine_tenths_and_reversal_are_the_same_law() -> None:
    assert thrust_after(0.0, 1.0, time_to_nine_tenths(0.25), 0.25) == pytest.approx(0.9)
    assert time_to_reverse(0.5, 0.25) - time_to_nine_tenths(0.25) == pytest.approx(0.5)


@given(st.floats(-2.0, 2.0))
def test_levers_are_mirror_images_and_steps_are_near(lever: float) -> None:
    for control in ("on/off", "stepped", "proportional"):
        assert commanded(lever, control) == -commanded(-lever, control) or lever == 0.0
    inside = min(1.0, max(-1.0, lever))
    assert abs(commanded(lever, "stepped", 3) - inside) <= 1.0 / 6.0 + 1e-9
    assert commanded(lever, "proportional") == inside
    assert commanded(lever, "on/off") in (-1.0, 0.0, 1.0)


def test_the_motion_uses_the_same_lever() -> None:
    unit = Pusher(4.0, SteadyThrust(900.0, 900.0), 5.0, 0.3, 0.5, "stepped", 3)
    assert unit.commanded(0.6) == commanded(0.6, "stepped", 3) == pytest.approx(2.0 / 3.0)


def test_a_good_tunnel_leaves_all_and_none_gives_more() -> None:
    assert tunnel_factor(REFERENCE_LOSSES) == 1.0
    assert tunnel_factor(loss_sum(entry_loss(0.15), 0.4, 0.2)) == 1.0
    assert loss_sum(entry_loss(0.10), 0.6, 0.2) == pytest.approx(REFERENCE_LOSSES)
    assert tunnel_factor(loss_sum(entry_loss(0.0), 0.6, 0.2)) == pytest.approx(0.833, abs=1e-3)


def test_a_rotor_that_turns_as_reckoned_gives_the_thrust_it_was_reckoned_from() -> None:
    turns = rotor_speed(800.0, 0.185)
    assert thrust_at_speed(800.0, 2.0) == pytest.approx(3200.0)
    assert rotor_speed(3200.0, 0.185) == pytest.approx(2.0 * turns)
    assert tip_speed(turns, 0.185) == pytest.approx(27.0, abs=3.0)
