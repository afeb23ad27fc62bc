"""Air for battery spaces: kinds known, classes by power."""

from __future__ import annotations

import pytest

from athwart.power.ventilation import (
    INLAND_LEAST_DUCT,
    charging_area_air_flow,
    charging_power,
    gas_current,
    least_room,
    space_class,
    space_demand,
)


def test_unknown_batteries_are_refused_with_the_known_ones() -> None:
    for kind, stage in (("lithium", "float"), ("vented", "bulk")):
        with pytest.raises(ValueError, match="vented, sealed, vented nicd"):
            gas_current(kind, stage)
    with pytest.raises(ValueError, match="iu with vented"):
        charging_area_air_flow(12, 720_000.0, "taper", "vented")


def test_classes_turn_at_their_limits() -> None:
    assert [space_class(power) for power in (199.0, 200.0, 2000.0, 2001.0)] == ["small", "moderate", "moderate", "large"]
    assert [space_demand(power)[:2] for power in (200.0, 201.0, 2001.0)] == ["no", "a ", "a "]
    assert charging_power(50.0, 24.0) == 1200.0


def test_a_room_has_two_and_a_half_hours_of_air() -> None:
    assert least_room(1.2 / 3600.0) == pytest.approx(3.0)
    assert INLAND_LEAST_DUCT["lead"] < INLAND_LEAST_DUCT["nicd"]
