"""The built-in catalogue: invented, large enough, and fit for the boats it is shown on."""

from __future__ import annotations

from collections import Counter

import pytest

from athwart.catalogue.builtin import NAME, builtin
from athwart.catalogue.plausibility import implausible
from athwart.catalogue.records import ThrusterUnit

CATALOGUE = builtin()


def units(**wanted: object) -> list[ThrusterUnit]:
    return [unit for unit in CATALOGUE.units if all(getattr(unit, name) == value for name, value in wanted.items())]


def test_it_passes_its_own_check() -> None:
    assert implausible(CATALOGUE) == ()


def test_it_says_everywhere_that_it_is_invented() -> None:
    assert CATALOGUE.invented
    assert "not for construction" in NAME
    assert all(row.invented for rows in CATALOGUE.tables().values() for row in rows)
    assert not any(family.verified for family in CATALOGUE.fuse_families.values())


def test_it_covers_all_kinds_of_unit() -> None:
    assert len(CATALOGUE.units) >= 40
    assert {unit.drive for unit in CATALOGUE.units} == {"brushed", "brushless", "hydraulic"}
    assert {unit.housing for unit in CATALOGUE.units} == {"tunnel", "retractable", "external", "rim"}
    assert {unit.control for unit in CATALOGUE.units} == {"on/off", "stepped", "proportional"}
    assert {unit.volts for unit in CATALOGUE.units} == {12.0, 24.0, 48.0, None}
    assert min(unit.thrust for unit in CATALOGUE.units) == 250.0
    assert max(unit.thrust for unit in CATALOGUE.units) == 12_000.0
    assert any(unit.step_up_inside for unit in CATALOGUE.units)
    assert sum(unit.ignition_protected and unit.drive != "hydraulic" for unit in CATALOGUE.units) >= 5


def test_it_covers_all_other_tables() -> None:
    assert len(CATALOGUE.blocks) >= 14
    assert {block.chemistry for block in CATALOGUE.blocks} == {"flooded", "starting", "agm", "thin plate agm", "gel", "lfp"}
    assert {block.volts for block in CATALOGUE.blocks} == {6.0, 12.0, 12.8, 25.6, 48.0, 51.2}
    metric = Counter(round(cable.insulation_temperature) for cable in CATALOGUE.cables if "mm2" in cable.gauge and cable.marine)
    assert min(metric[343], metric[378]) >= 9
    assert sum("AWG" in cable.gauge for cable in CATALOGUE.cables) >= 7
    assert len({fuse.family for fuse in CATALOGUE.fuses}) >= 5
    assert {fuse.family for fuse in CATALOGUE.fuses} == set(CATALOGUE.fuse_families)
    assert len(CATALOGUE.switches) >= 6
    assert len(CATALOGUE.contactors) >= 6
    assert {contactor.stop_kind for contactor in CATALOGUE.contactors} == {"energise to run", "latching"}
    assert {charger.kind for charger in CATALOGUE.chargers} == {
        "step-up",
        "battery to battery",
        "shore",
        "series/parallel switch",
    }
    assert len(CATALOGUE.panels) >= 4
    assert len(CATALOGUE.pumps) >= 3
    assert {"terminator", "tee", "network converter", "equaliser", "negative bar", "fuse holder", "lug"} <= {
        s.use for s in CATALOGUE.sundries
    }


def test_ids_and_names_tell_rows_apart() -> None:
    rows = [row for table in CATALOGUE.tables().values() for row in table]
    assert len({row.id for row in rows}) == len(rows)
    assert CATALOGUE.row("tunnel-24V-1550N") in CATALOGUE.units
    assert CATALOGUE.row("nobody") is None


@pytest.mark.parametrize(
    ("wanted", "low", "high", "diameter"),
    [
        ({"housing": "tunnel", "volts": 24.0, "drive": "brushed"}, 1100.0, 1900.0, 0.300),
        ({"housing": "retractable", "volts": 24.0}, 700.0, 1200.0, 0.250),
        ({"housing": "tunnel", "volts": 48.0, "drive": "brushless"}, 1000.0, 2000.0, 0.250),
    ],
)
def test_the_example_boats_find_units_on_both_sides_of_enough(
    wanted: dict[str, object], low: float, high: float, diameter: float
) -> None:
    found = sorted(
        unit.thrust for unit in units(**wanted) if unit.tunnel_diameter is not None and unit.tunnel_diameter <= diameter
    )
    assert found[0] <= 1.05 * low
    assert found[-1] >= 0.95 * high
    assert sum(low <= thrust <= high for thrust in found) >= 3


def test_a_lane_of_any_size_finds_switch_stop_and_fuse() -> None:
    """Largest stalled and running currents of the electric units, at 48 V charging volts."""
    largest = max(unit.rated_current or 0.0 for unit in CATALOGUE.units)
    for volts in (28.8, 58.4):
        assert any(s.lockable and s.volts_most >= volts and s.five_minutes >= largest for s in CATALOGUE.switches)
        assert any(
            c.volts_most >= volts and c.five_minutes >= largest for c in CATALOGUE.contactors if c.stop_kind == "energise to run"
        )
        assert any(CATALOGUE.fuse_families[f.family].volts_most >= volts and f.rating >= largest for f in CATALOGUE.fuses)
