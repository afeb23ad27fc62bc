"""Hydraulic units: judged by duty, pressure and flow at idle only. Everything else about them reads "not computed yet"."""

from __future__ import annotations

from math import pi

from athwart.catalogue.records import Catalogue, HydraulicPump, ThrusterUnit
from athwart.design.brief import Brief, Engine
from athwart.design.limits import Limit
from athwart.design.search.chain import Chain, Task

NOT_COMPUTED = "not computed yet: thrust at the oil's pressure, lines, oil temperature, tank and pump drive of a hydraulic unit"
IDLE: float = 700 * 2 * pi / 60
"""Idle of an engine that names none (own judgement)."""


def engine_with_take_off(brief: Brief) -> Engine | None:
    """The engine that can drive a pump."""
    return next((engine for engine in brief.propulsion.engines if engine.take_off is not None), None)


def pump_for(catalogue: Catalogue, engine: Engine, unit: ThrusterUnit) -> tuple[HydraulicPump | None, float]:
    """The smallest pump that gives the unit's flow at idle, or the largest; and the flow it gives there."""
    assert engine.take_off is not None
    idle = (engine.idle or IDLE) * engine.take_off.ratio
    need = unit.hydraulic_flow or 0.0
    rows = sorted(catalogue.pumps, key=lambda pump: (pump.displacement, pump.price))
    flows = [
        (pump, pump.displacement * idle * pump.volumetric_efficiency)
        for pump in rows
        if pump.pressure_most >= (unit.hydraulic_pressure or 0.0)
    ]
    enough = [(pump, flow) for pump, flow in flows if flow >= need]
    if enough:
        return enough[0]
    return flows[-1] if flows else (None, 0.0)


def limits(brief: Brief, unit: ThrusterUnit, catalogue: Catalogue) -> tuple[Limit, ...]:
    """Flow and pressure at idle against what the unit needs."""
    engine = engine_with_take_off(brief)
    if engine is None:
        return (("engine with a take-off for a pump", 0.0, 1.0, False),)
    pump, flow = pump_for(catalogue, engine, unit)
    need = unit.hydraulic_flow or 0.0
    pressure = pump.pressure_most if pump is not None else 0.0
    return (
        ("flow at idle, l/min", flow * 60_000, need * 60_000, flow >= need),
        ("pressure, bar", pressure / 1e5, (unit.hydraulic_pressure or 0.0) / 1e5, pressure >= (unit.hydraulic_pressure or 0.0)),
    )


def judge(task: Task, unit: ThrusterUnit) -> Chain:
    """A chain of a unit alone; it is never called adequate by thrust, since its thrust is not computed."""
    broken = [limit for limit in limits(task.brief, unit, task.catalogue) if not limit[3]]
    broken.append((NOT_COMPUTED, 0.0, 0.0, False))
    return Chain(unit, None, None, None, None, None, None, None, 0.0, None, (), tuple(broken))
