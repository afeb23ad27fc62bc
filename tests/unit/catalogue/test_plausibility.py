"""Each rule has a built-in row that passes it and the same row, changed, that fails it."""

from __future__ import annotations

from dataclasses import replace
from math import inf, nan
from typing import Any

import pytest

from athwart.catalogue.builtin import builtin
from athwart.catalogue.plausibility import Implausible, implausible
from athwart.catalogue.records import SHEETS, Catalogue
from athwart.explain import FORMULAS
from athwart.sources import register

CATALOGUE = builtin()

UNIT, BRUSHLESS, HYDRAULIC, STEP_UP = "tunnel-24V-1550N", "tunnel-48V-1600N-bl", "tunnel-hyd-3000N", "tunnel-12V-850N-stepup"
AGM, LFP = "agm-12V-110Ah", "lfp-24V-200Ah"
CABLE, AWG = "70mm2-105C", "awg-2-0-105C"
FUSE, SWITCH, STOP = "class-t-400A", "switch-400A-ip", "stop-24V-300A-ip"
CHARGER, SHARED, B2B = "stepup-12-24-15A", "serpar-12-24-150A", "b2b-24-24-30A-iso"


def with_row(row_id: str, **changes: Any) -> Catalogue:
    """The built-in catalogue with one row changed."""
    for attribute, _ in SHEETS.values():
        rows = getattr(CATALOGUE, attribute)
        if any(row.id == row_id for row in rows):
            new = tuple(replace(row, **changes) if row.id == row_id else row for row in rows)
            table: dict[str, Any] = {attribute: new}
            return replace(CATALOGUE, **table)
    raise AssertionError(row_id)


def found(row_id: str, **changes: Any) -> tuple[Implausible, ...]:
    return implausible(with_row(row_id, **changes))


@pytest.mark.parametrize(
    ("row", "changes", "what"),
    [
        (UNIT, {"thrust": 4500.0}, "ideal disc on shaft power"),
        (UNIT, {"thrust": 2100.0}, "thrust quality on electrical power"),
        (UNIT, {"thrust": 850.0}, "thrust quality on shaft power"),
        (UNIT, {"tunnel_diameter": 0.125}, "ideal disc on shaft power"),
        (UNIT, {"rated_current": 250.0}, "shaft power over rated volts"),
        (UNIT, {"rated_current": 900.0}, "shaft power over rated volts"),
        (UNIT, {"armature_resistance": 20e-3}, "armature's resistance against shaft power"),
        (UNIT, {"armature_resistance": 20e-3, "shaft_power": None}, "efficiency by the armature's resistance"),
        (UNIT, {"armature_resistance": 2e-3}, "stalled over rated"),
        (UNIT, {"brush_drop": 22.0}, "rated volts against brush drop"),
        (UNIT, {"rated_time": 600.0}, "run time for its heat"),
        (UNIT, {"armature_resistance": None, "rated_time": 600.0}, "run time for its heat"),
        (UNIT, {"rated_volts": 10.5}, "rated terminal volts"),
        (UNIT, {"volts": None}, "system volts of an electric unit"),
        (UNIT, {"no_load_current": 250.0}, "no-load current"),
        (UNIT, {"mass": 350.0}, "kilograms per newton"),
        (UNIT, {"length": 20.0}, "kilograms per litre of its outline"),
        (UNIT, {"rotors": 0}, "rotors"),
        (UNIT, {"minutes_in_hour": 60.0}, "run in an hour"),
        (UNIT, {"tunnel_diameter": 1.9}, "diameter"),
        (UNIT, {"thrust": -1.0}, "thrust_N"),
        (UNIT, {"length": 0.0}, "length_mm"),
        (UNIT, {"price": -1.0}, "price"),
        (BRUSHLESS, {"fold_back_volts": 60.0}, "folds back"),
        (BRUSHLESS, {"cut_out_volts": 45.0}, "cuts out"),
        (BRUSHLESS, {"current_limit": 100.0}, "current limit"),
        (STEP_UP, {"motor_volts": 12.0}, "behind a step-up"),
        (HYDRAULIC, {"hydraulic_flow": 30e-3 / 60.0}, "pressure and flow"),
        (HYDRAULIC, {"rotation": 400.0}, "swept volume"),
        (AGM, {"volts": 6.0}, "nominal volts of 6 cells"),
        (AGM, {"resistance": 20e-3}, "resistance for its capacity"),
        (AGM, {"cranking": 3000.0}, "cranking current per ampere hour"),
        (AGM, {"cranking": 300.0}, "resistance against cranking"),
        (AGM, {"cranking_standard": "DIN", "cranking": 1000.0}, "resistance against cranking"),
        (AGM, {"short_circuit": 300.0}, "short-circuit"),
        (AGM, {"charge_volts": 16.0}, "charging volts per cell"),
        (AGM, {"float_volts": 14.9}, "float volts per cell"),
        (AGM, {"float_volts": 14.5, "charge_volts": 14.4}, "float volts against charging volts"),
        (AGM, {"charge_most": 200.0}, "largest charging current"),
        (AGM, {"mass": 3.0}, "watt hours per kilogram"),
        (AGM, {"height": 2.0}, "kilograms per litre"),
        (LFP, {"discharge_continuous": 900.0}, "continuous limit"),
        (LFP, {"discharge_peak": 2000.0}, "peak limit per"),
        (LFP, {"discharge_peak": 200.0}, "peak limit against"),
        (LFP, {"cut_off_volts": 26.0}, "low volts per cell"),
        (CABLE, {"resistance_per_metre": 0.2e-3}, "ohm/km for its size"),
        (CABLE, {"resistance_per_metre": 0.4e-3}, "ohm/km for its size"),
        (CABLE, {"gauge": "50 mm2"}, "cross-section of the size"),
        (CABLE, {"diameter": 9e-3}, "outer diameter"),
        (CABLE, {"mass": 0.3}, "kg per metre"),
        (CABLE, {"insulation_temperature": 300.0}, "rated temperature"),
        (AWG, {"resistance_per_metre": 0.24e-3}, "ohm/km for its size"),
        (FUSE, {"resistance": 5e-3}, "volts lost at rated"),
        (SWITCH, {"resistance": 1e-3}, "volts lost at continuous"),
        (SWITCH, {"five_minutes": 100.0}, "five-minute"),
        (SWITCH, {"breaking": 10.0}, "breaking current"),
        (STOP, {"pull_in_volts": 48.0}, "pull-in volts"),
        (STOP, {"hold_volts": 23.0}, "hold volts"),
        (STOP, {"coil_current": 6.0}, "coil power"),
        (CHARGER, {"current_in": 15.0}, "input current for its output"),
        (CHARGER, {"efficiency": 1.05}, "efficiency"),
        (CHARGER, {"charge_volts": 14.4}, "charging volts"),
        (CHARGER, {"volts_out": 12.0}, "output volts of a step-up"),
        (CHARGER, {"off_volts": 13.4}, "off volts"),
        (CHARGER, {"mass": 0.1}, "watts per kilogram"),
        (CHARGER, {"length": 30.0}, "kilograms per litre"),
        (SHARED, {"current_in": 30.0}, "input current for its output"),
        (B2B, {"volts_in": 12.0}, "battery-to-battery"),
        ("panel-prop", {"network_current": 3.0}, "network current"),
        ("panel-prop", {"least_volts": 24.0}, "least volts"),
        ("net-thin", {"supply_ohm_per_metre": 5.7e-3}, "supply pair"),
        ("net-thin", {"impedance": 75.0}, "impedance"),
        ("net-thin", {"supply_most": 20.0}, "most current"),
        ("terminator-120", {"resistance": 60.0}, "terminator"),
        ("pump-45cc-ls", {"volumetric_efficiency": 1.2}, "volumetric"),
        ("pump-45cc-ls", {"pressure_most": 2e6}, "largest pressure"),
        ("pump-45cc-ls", {"rotation_most": 2600.0}, "fastest speed"),
        ("pump-45cc-ls", {"mass": 1.0}, "kilograms per litre"),
    ],
)
def test_a_figure_that_cannot_be_true_is_found(row: str, changes: dict[str, Any], what: str) -> None:
    doubts = found(row, **changes)
    assert any(what in doubt.what for doubt in doubts), [doubt.what for doubt in doubts]
    for doubt in doubts:
        assert doubt.row == row
        assert doubt.value
        assert doubt.limit
        assert doubt.source in register()
        assert not doubt.formula or doubt.formula in FORMULAS


@pytest.mark.parametrize(
    ("points", "what"),
    [
        (((1.0, 100.0, inf), (2.0, 200.0, 300.0)), "least time"),
        (((1.0, 100.0, inf), (2.0, 5.0, 10.0), (3.0, 1.0, 20.0)), "most time"),
        (((1.0, 100.0, inf), (2.0, 50.0, 10.0)), "least time at 2"),
        (((1.35, 5.0, 10.0), (2.0, 1.0, 2.0)), "holds for ever"),
    ],
)
def test_a_curve_that_does_not_fall_is_found(points: tuple[tuple[float, float, float], ...], what: str) -> None:
    family = replace(CATALOGUE.fuse_families["class t"], points=points)
    doubts = implausible(replace(CATALOGUE, fuse_families={**CATALOGUE.fuse_families, "class t": family}))
    assert any(what in doubt.what and doubt.sheet == "fuse curves" for doubt in doubts)


def test_a_breaking_capacity_that_rises_with_volts_is_found() -> None:
    family = replace(CATALOGUE.fuse_families["class t"], breaking_capacity=((32.0, 1000.0), (125.0, 20_000.0)))
    doubts = implausible(replace(CATALOGUE, fuse_families={"class t": family}))
    assert any("breaking capacity" in doubt.what for doubt in doubts)
    family = replace(CATALOGUE.fuse_families["class t"], volts_most=60.0)
    doubts = implausible(replace(CATALOGUE, fuse_families={"class t": family}))
    assert any("rated volts" in doubt.what for doubt in doubts)


def test_points_known_on_one_side_only_are_no_doubt() -> None:
    family = replace(
        CATALOGUE.fuse_families["class t"], points=((1.0, 1e4, inf), (2.0, nan, 100.0), (3.0, 5.0, nan), (9.0, 0.1, 0.5))
    )
    assert implausible(replace(CATALOGUE, fuse_families={"class t": family})) == ()


@pytest.mark.parametrize("row", [UNIT, BRUSHLESS, HYDRAULIC, AGM, LFP, STOP, CHARGER])
def test_unknown_figures_are_not_judged(row: str) -> None:
    entry = CATALOGUE.row(row)
    assert entry is not None
    optional = {
        name: None
        for name, field in type(entry).__dataclass_fields__.items()
        if not field.metadata["needed"] and not (name == "volts" and row != HYDRAULIC)
    }
    assert found(row, **optional) == ()


def test_a_size_that_is_no_gauge_is_held_to_nothing() -> None:
    assert found(CABLE, gauge="battery cable, thick") == ()
