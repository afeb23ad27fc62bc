"""Thrusters: OUR OWN ARITHMETIC, figures FROM MEMORY and REFERENCE PROGRAMS, labelled one by one."""

from __future__ import annotations

from math import pi

import pytest

from athwart.thruster import disc, tunnel
from athwart.thruster.immersion import class_ventilation_factor, cover_ratio, immersion_factor, tunnel_wall
from athwart.thruster.scaling import power_at_speed, thrust_at_speed, tip_cavitation_number, tip_speed


@pytest.mark.parametrize(
    ("ratio", "thrust", "merit", "quality"), [(disc.OPEN, 958.9, 1.41421, 1.0), (disc.TUNNEL, 1208.1, 2.0, 1.259921)]
)
def test_the_ideal_disc(ratio: float, thrust: float, merit: float, quality: float) -> None:
    """Own arithmetic: momentum theory, 4 kW, 185 mm."""
    ideal = disc.ideal_thrust(4000.0, 0.185, ratio)
    assert ideal == pytest.approx(thrust, abs=0.05)
    assert disc.merit_coefficient(ideal, 4000.0, 0.185) == pytest.approx(merit, rel=1e-5)
    assert disc.thrust_quality(ideal, 4000.0, 0.185) == pytest.approx(quality, rel=1e-6)


def test_the_jet_carries_the_power() -> None:
    """Own arithmetic: thrust times half the jet's speed is the power of the ideal tunnel."""
    ideal = disc.ideal_thrust(4000.0, 0.185)
    assert disc.jet_speed(ideal, 0.185) == pytest.approx(6.622, abs=5e-4)
    assert 0.5 * ideal * disc.jet_speed(ideal, 0.185) == pytest.approx(4000.0)


def test_the_constant_in_mixed_units() -> None:
    """Own arithmetic: 1172 N for a kilowatt and a metre, open and ideal."""
    assert disc.ideal_thrust(1000.0, 1.0, disc.OPEN) == pytest.approx(1172.05, abs=0.005)


def test_the_imperial_merit_coefficient() -> None:
    """From memory: 0.00182 T^1.5 over horsepower; 1000 lbf, 50 hp, 1.5 ft, 1.99 slug/ft³."""
    newtons, watts, metres, density = 1000.0 * 4.4482216, 50.0 * 745.69987, 1.5 * 0.3048, 1.99 * 515.3788
    assert disc.merit_coefficient(newtons, watts, metres, density) == pytest.approx(0.6132, rel=2e-3)


@pytest.mark.parametrize(
    ("factor", "propeller", "brake", "effective"),
    [(0.93, 0.7141, 0.6804, 0.6124), (1.0, 0.7679, 0.7316, 0.6585), (1.07, 0.8216, 0.7828, 0.7045)],
)
def test_the_class_rule_as_a_quality(factor: float, propeller: float, brake: float, effective: float) -> None:
    """Own arithmetic on the rule's constants."""
    at_rotor = disc.class_thrust(4000.0, 0.185, 1.0, factor, 9.0)
    geared = disc.class_thrust(4000.0, 0.185, 0.93, factor, 9.0)
    assert disc.thrust_quality(at_rotor, 4000.0, 0.185) == pytest.approx(propeller, abs=1e-4)
    assert disc.thrust_quality(geared, 4000.0, 0.185) == pytest.approx(brake, abs=1e-4)
    assert disc.thrust_quality(0.9 * geared, 4000.0, 0.185) == pytest.approx(effective, abs=1e-4)


def test_a_real_unit_of_one_metre() -> None:
    """Own arithmetic on a published unit and area: 200 kW, lateral windage 172 m²."""
    nominal = [disc.class_thrust(200e3, 1.0, 0.93, factor, 9.0) for factor in (0.93, 1.0, 1.07)]
    assert nominal == pytest.approx([27273.0, 29326.0, 31379.0], abs=0.5)
    assert 0.9 * nominal[1] / 172.0 == pytest.approx(153.4, abs=0.06)


@pytest.mark.parametrize(
    ("rpm", "force", "coefficient"), [(100.0, 849.72, 0.2984), (150.0, 1879.12, 0.2933), (200.0, 3627.52, 0.3185)]
)
def test_the_thrust_coefficient_of_a_real_unit(rpm: float, force: float, coefficient: float) -> None:
    """Reference program: standstill force of a 1.0 m unit (its fit), turned into K_T."""
    assert disc.thrust_coefficient(force, rpm * pi / 30.0, 1.0) == pytest.approx(coefficient, abs=5e-5)


@pytest.mark.parametrize(("losses", "share"), [(1.30, 1.0), (1.38, 0.961), (1.63, 0.860), (1.71, 0.833)])
def test_thrust_by_the_sum_of_losses(losses: float, share: float) -> None:
    """Own arithmetic: reference tunnel, seven diameters, grids at both ends, sharp entry."""
    assert tunnel.thrust_share(losses, 1.30) == pytest.approx(share, abs=6e-4)


def test_the_sums_of_losses_themselves() -> None:
    """Own arithmetic."""
    good = tunnel.entry_loss(0.10)
    grids = 2.0 * tunnel.grid_loss(tunnel.BARS["round"], 0.010, 0.060, pi / 2)
    assert tunnel.loss_sum(good, 3.0, 1.0) == pytest.approx(1.30, abs=5e-3)
    assert tunnel.loss_sum(good, 7.0, 1.0) == pytest.approx(1.38, abs=5e-3)
    assert tunnel.loss_sum(good, 3.0, 1.0, grids=grids) == pytest.approx(1.63, abs=5e-3)
    assert tunnel.loss_sum(tunnel.entry_loss(0.0), 3.0, 1.0) == pytest.approx(1.71, abs=5e-3)


def test_a_tunnel_without_losses_is_the_ideal_one() -> None:
    """Own arithmetic."""
    assert tunnel.thrust_with_losses(4000.0, 0.185, 1.0, 1.0) == pytest.approx(disc.ideal_thrust(4000.0, 0.185))


@pytest.mark.parametrize(("bars", "loss"), [("round", 0.16418), ("flat", 0.22196)])
def test_a_grid_of_bars(bars: str, loss: float) -> None:
    """Own arithmetic; shape factors from memory."""
    assert tunnel.grid_loss(tunnel.BARS[bars], 0.010, 0.060, pi / 2) == pytest.approx(loss, abs=5e-6)


@pytest.mark.parametrize(
    ("depth", "factor"), [(0.0, 0.325), (0.5, 0.6334), (1.0, 0.8932), (1.25, 0.9887), (1.3, 1.0), (2.0, 1.0)]
)
def test_the_immersion_factor(depth: float, factor: float) -> None:
    """From memory: depth of the axis in radii."""
    assert immersion_factor(depth * 0.1, 0.2) == pytest.approx(factor, abs=5e-5)


def test_the_class_rule_for_ventilation_is_refused_for_boats() -> None:
    """Own arithmetic on a published unit; the same rule would stop small units that work."""
    assert class_ventilation_factor(29326.0, 1.0, 1.063) == pytest.approx(0.656, abs=2e-3)
    for thrust, diameter, depth in ((958.9, 0.185, 0.185), (958.9, 0.185, 0.37), (3000.0, 0.3, 0.6)):
        with pytest.raises(ValueError, match="ship units"):
            class_ventilation_factor(thrust, diameter, depth)


def test_tips_of_a_small_unit() -> None:
    """Own arithmetic: 3000 rpm, 185 mm, half a metre deep."""
    assert tip_speed(100.0 * pi, 0.185) == pytest.approx(29.06, abs=5e-3)
    assert tip_cavitation_number(29.06, 0.5) == pytest.approx(0.2404, rel=1e-3)


def test_nine_tenths_of_the_speed() -> None:
    """Own arithmetic."""
    assert thrust_at_speed(1000.0, 0.9) == pytest.approx(810.0)
    assert power_at_speed(1000.0, 0.9) == pytest.approx(729.0)


@pytest.mark.parametrize(("rpm", "force"), [(125.0, 50_000.0), (250.0, 200_000.0)])
def test_the_square_law_of_a_supply_vessel(rpm: float, force: float) -> None:
    """Reference program: 3.2 N for each rpm squared."""
    assert thrust_at_speed(3.2 * 250.0**2, rpm / 250.0) == pytest.approx(force, rel=1e-9)


def test_cover_of_a_real_unit() -> None:
    """Own arithmetic: axis 1.063 m deep, 1.0 m: a little over half a diameter of water on the roof."""
    assert cover_ratio(1.063, 1.0) == pytest.approx(0.563)


@pytest.mark.parametrize(
    ("material", "shell", "wall"),
    [("steel", 5, 7), ("steel", 6, 8), ("steel", 10, 12), ("steel", 25, 27.5), ("aluminium", 6, 8), ("aluminium", 12, 13.2),
     ("grp", 6, 8), ("grp", 10, 12.5)],
)  # fmt: skip
def test_walls_of_tunnels(material: str, shell: float, wall: float) -> None:
    """Own arithmetic on the class rule, millimetres."""
    assert tunnel_wall(shell / 1000.0, material) == pytest.approx(wall / 1000.0)
