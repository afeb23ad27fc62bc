"""A proposal as JSON: one documented schema, the unit in every key, the same for the command line, the file and the web.

Numbers are rounded to six significant digits: more would claim more than the models know, and equal inputs give equal bytes.
"""

from __future__ import annotations

from math import degrees, isfinite
from typing import Any

from athwart import __version__
from athwart.design.proposal import (
    Answer,
    Bank,
    CableChoice,
    Case,
    ChargingChoice,
    FuseChoice,
    Held,
    Lane,
    LaneState,
    NetworkChoice,
    Proposal,
)
from athwart.design.robustness.rehearsal import Rehearsal
from athwart.findings import Finding
from athwart.units import KNOT

SCHEMA = 1


def number(value: float | None) -> float | None:
    """Six significant digits."""
    return None if value is None else float(f"{value:.6g}")


def proposal_json(proposal: Proposal, digest: str = "") -> dict[str, Any]:
    """The whole answer."""
    brief, need = proposal.brief, proposal.need
    return {
        "athwart": {"version": __version__, "schema": SCHEMA, "mode": proposal.mode},
        "caution": "Calculations and proposals. Defer to local codes and licensed practice.",
        "boat": {"name": brief.name, "number": brief.number, "issue": brief.issue, "date": brief.date, "brief_sha256": digest},
        "catalogue": {
            "name": proposal.catalogue.name,
            "sha256": proposal.catalogue.digest,
            "invented": proposal.catalogue.invented,
        },
        "rule_set": brief.choices.rule_set,
        "answers": [answer_json(answer) for answer in proposal.answers],
        "need": {
            "wind_asked_kn": number(need.wind_speed / KNOT),
            "wind_at_boat_kn": number(need.design_speed / KNOT),
            "pressure_Pa": number(need.pressure),
            "lateral_area_m2": number(need.lateral_area),
            "frontal_area_m2": number(need.frontal_area),
            "centroid_forward_of_midships_m": number(need.centroid_x),
            "centroid_height_m": number(need.centroid_height),
            "model": need.model,
            "run_time_s": number(need.run_time),
            "full_thrust_per_docking_s": number(need.energy_share),
            "cases": [case_json(case) for case in need.cases],
            "assumptions": list(need.assumptions),
        },
        "cases": [held_json(held) for held in proposal.cases],
        "rehearsals": [rehearsed_json(r) for r in proposal.rehearsals],
        "not_rehearsed": [{"manoeuvre": name, "reason": reason} for name, reason in proposal.not_rehearsed],
        "lanes": [lane_json(lane, proposal) for lane in proposal.lanes],
        "banks": [bank_json(bank) for bank in proposal.banks],
        "charging": [charging_json(entry) for entry in proposal.charging],
        "network": network_json(proposal.network),
        "trim": {
            "mass_kg": number(proposal.trim.mass),
            "sinkage_mm": number(proposal.trim.sinkage * 1e3),
            "trim_mm": number(proposal.trim.trim * 1e3),
            "bow_change_mm": number(proposal.trim.bow_change * 1e3),
            "stern_change_mm": number(proposal.trim.stern_change * 1e3),
            "lost_buoyancy_kg": number(proposal.trim.lost_buoyancy),
        },
        "mass_kg": number(proposal.mass),
        "price": number(proposal.price),
        "currency": brief.choices.currency,
        "findings": [finding_json(finding) for finding in proposal.findings],
        "rejections": [
            {
                "thruster": r.identity,
                "row": r.row,
                "name": r.name,
                "rule": r.rule,
                "figure": r.figure,
                "limit": r.limit,
                "margin": number(r.margin),
            }
            for r in proposal.rejections
        ],
        "conductors": [
            {
                "tag": c.tag,
                "kind": c.kind,
                "lane": c.lane,
                "from": str(c.start),
                "to": str(c.end),
                "area_mm2": number(c.area * 1e6),
                "size": c.size,
                "in_parallel": c.parallel,
                "length_m": number(c.length),
                "resistance_20C_mohm": number(c.resistance * 1e3),
                "fuse": c.fuse,
                "current_A": number(c.current),
                "ampacity_A": number(c.ampacity),
                "row": c.row,
                "aboard": c.aboard,
            }
            for c in proposal.netlist.conductors
        ],
        "components": [
            {
                "tag": c.tag,
                "kind": c.kind,
                "lane": c.lane,
                "name": c.name,
                "rating": list(c.rating),
                "row": c.row,
                "place": c.place,
                "aboard": c.aboard,
            }
            for c in proposal.netlist.components
        ],
        "to_be_verified": list(proposal.unverified),
        "defaults_used": [{"field": path, "value": value} for path, value in proposal.defaults],
    }


def answer_json(a: Answer) -> dict[str, Any]:
    """One of the six answers."""
    return {
        "number": a.number,
        "question": a.question,
        "answer": a.sentence,
        "figure": a.figure,
        "verdict": a.verdict,
        "unit": a.unit,
        "found": number(a.found),
        "asked": number(a.asked),
        "band": number(a.band),
        "better": a.better,
        "remark": a.remark,
    }


def case_json(c: Case) -> dict[str, Any]:
    """One static case."""
    return {
        "case": c.case,
        "thruster": c.identity,
        "thrust_need_beam_N": number(c.beam),
        "thrust_need_worst_N": number(c.worst),
        "worst_heading_deg": number(degrees(c.worst_heading)),
        "thrust_need_with_current_N": number(c.with_current),
        "side_force_beam_N": number(c.side_force_beam),
        "lever_m": number(c.lever),
        "relative_sigma": number(c.sigma),
        "by_heading": [{"heading_deg": number(degrees(h)), "thrust_need_N": number(n)} for h, n in c.headings],
    }


def held_json(held: Held) -> dict[str, Any]:
    """One of the four cases; a need is null where another part of the case gives out first."""
    return {
        "case": held.case,
        "name": held.name,
        "words": held.words,
        "thruster": held.identity,
        "need_beam_N": finite(held.need_beam),
        "need_worst_N": finite(held.need_worst),
        "worst_heading_deg": number(degrees(held.worst_heading)),
        "thrust_N": number(held.thrust),
        "relative_sigma": number(held.band),
        "wind_held_worst_kn": number(held.wind_worst / KNOT),
        "wind_held_beam_kn": number(held.wind_beam / KNOT),
        "held_worst_is_at_least": held.at_least[0],
        "held_beam_is_at_least": held.at_least[1],
        "need_with_current_N": None if held.need_current is None else finite(held.need_current),
    }


def finite(value: float) -> float | None:
    """Six significant digits of what is finite, else null."""
    return number(value) if isfinite(value) else None


def rehearsed_json(r: Rehearsal) -> dict[str, Any]:
    """What came of one manoeuvre rehearsed; `athwart rehearse --json` has the whole of it."""
    low, high = r.success.interval
    return {
        "manoeuvre": r.exercise.name,
        "words": r.exercise.words,
        "runs": r.runs,
        "seed": r.seed,
        "succeeded": r.success.count,
        "success_share": number(r.success.value),
        "low_share": number(low),
        "high_share": number(high),
        "failed_by": {cause: share.count for cause, share in r.causes},
        "time_on_median_s": number(r.bow_on[2].value),
        "time_on_median_low_s": number(r.bow_on[2].low),
        "time_on_median_high_s": number(r.bow_on[2].high),
        "time_on_95_s": number(r.bow_on[4].value),
        "time_on_95_low_s": number(r.bow_on[4].low),
        "time_on_95_high_s": number(r.bow_on[4].high),
        "charge_mean_Ah": number(r.mean_charge / 3600.0),
    }


def finding_json(f: Finding) -> dict[str, Any]:
    """One finding."""
    return {
        "code": f.code,
        "severity": f.severity,
        "where": f.where,
        "what": f.what,
        "value": f.value,
        "limit": f.limit,
        "margin": number(f.margin),
        "source": f.source,
        "remedy": f.remedy,
        "tags": list(f.tags),
        "field": f.path,
    }


def _state(s: LaneState | None) -> dict[str, Any] | None:
    if s is None:
        return None
    return {
        "state": s.state,
        "open_V": number(s.open_volts),
        "bank_V": number(s.bank_volts),
        "terminal_V": number(s.terminal_volts),
        "current_A": number(s.current),
        "thrust_N": number(s.thrust),
        "thrust_relative_sigma": number(s.thrust_sigma),
        "bank_mohm": number(s.bank_resistance * 1e3),
        "path_mohm": number(s.path_resistance * 1e3),
        "conductor_C": number(s.conductor_temperature - 273.15),
        "drops": [
            {"tag": d.tag, "name": d.name, "resistance_mohm": number(d.resistance * 1e3), "drop_mV": number(d.volts * 1e3)}
            for d in s.drops
        ],
    }


def _limits(rows: tuple[tuple[str, float, float, bool], ...]) -> list[dict[str, Any]]:
    return [
        {"limit": name, "figure": number(value), "allowed": number(limit), "passes": passes}
        for name, value, limit, passes in rows
    ]


def _cable(c: CableChoice | None) -> dict[str, Any] | None:
    if c is None:
        return None
    return {
        "row": c.cable.id,
        "size": c.cable.gauge,
        "in_parallel": c.parallel,
        "area_mm2": number(c.area * 1e6),
        "plus_m": number(c.plus),
        "minus_m": number(c.minus),
        "loop_m": number(c.plus + c.minus),
        "kept": c.kept,
        "ampacity_A": number(c.ampacity),
        "ampacity_verified": c.ampacity_verified,
        "limits": _limits(c.limits),
    }


def _fuse(f: FuseChoice | None) -> dict[str, Any] | None:
    if f is None:
        return None
    return {
        "row": f.fuse.id,
        "family": f.family.family,
        "rating_A": number(f.fuse.rating),
        "kept": f.kept,
        "from_source_m": number(f.from_source),
        "opens_at_least_fault_s": number(f.opens_at_least_fault),
        "opens_when_locked_s": number(f.opens_when_locked),
        "limits": _limits(f.limits),
    }


def lane_json(lane: Lane, proposal: Proposal) -> dict[str, Any]:
    """One thruster with its chain."""
    return {
        "lane": lane.lane,
        "thruster": lane.thruster.identity,
        "role": lane.thruster.role,
        "passes": lane.passes,
        "unit": {
            "row": lane.unit.id,
            "name": lane.unit.name,
            "drive": lane.unit.drive,
            "housing": lane.unit.housing,
            "control": lane.unit.control,
            "system_V": number(lane.unit.volts),
            "label_thrust_N": number(lane.unit.thrust),
            "kept": lane.kept,
        },
        "bank": lane.bank,
        "cable": _cable(lane.cable),
        "fuse": _fuse(lane.fuse),
        "switch": lane.switch.id if lane.switch else None,
        "stop": lane.stop.id if lane.stop else None,
        "stop_kind": lane.stop_kind,
        "panel": lane.panel.id if lane.panel else None,
        "design": _state(lane.design),
        "peak": _state(lane.peak),
        "all_units_running": _state(lane.both_design),
        "wind_held_worst_kn": number(lane.wind_held_worst / KNOT) if lane.wind_held_worst is not None else None,
        "wind_held_beam_kn": number(lane.wind_held_beam / KNOT) if lane.wind_held_beam is not None else None,
        "chance_of_holding": number(lane.chance),
        "run_time_full_s": number(lane.run_time_full),
        "run_time_half_s": number(lane.run_time_half),
        "run_time_limit": lane.run_time_limit,
        "start_current_A": number(lane.start_current),
        "cover_mm": number(lane.cover * 1e3),
        "cover_diameters": number(lane.cover_ratio),
        "immersion_factor": number(lane.immersion_factor),
        "tunnel_share": number(lane.tunnel_share),
        "faults": [
            {
                "fault": f.name,
                "current_A": number(f.current),
                "loop_mohm": number(f.loop_resistance * 1e3),
                "opens_first": f.opens_first,
                "after_s": number(f.after),
            }
            for f in lane.faults
        ],
        "replaced": list(lane.replaced),
        "not_computed": lane.not_computed,
    }


def bank_json(b: Bank) -> dict[str, Any]:
    """One bank."""
    return {
        "name": b.name,
        "place": b.place,
        "row": b.block.id,
        "chemistry": b.block.chemistry,
        "series": b.series,
        "parallel": b.parallel,
        "nominal_V": number(b.volts),
        "capacity_Ah": number(b.capacity / 3600),
        "capacity_design_Ah": number(b.capacity_design / 3600),
        "feeds": list(b.feeds),
        "kept": b.kept,
        "new_mohm": number(b.resistance_new * 1e3),
        "design_mohm": number(b.resistance_design * 1e3),
        "open_design_V": number(b.open_volts_design),
        "fault_most_A": number(b.fault_current_most),
        "mass_kg": number(b.mass),
        "string_fuse": b.string_fuse[0].id if b.string_fuse else None,
        "resistance_assumed": b.assumed_resistance,
    }


def charging_json(c: ChargingChoice) -> dict[str, Any]:
    """How one bank is charged."""
    return {
        "bank": c.bank,
        "kind": c.kind,
        "row": c.charger.id if c.charger else None,
        "kept": c.kept,
        "from": c.from_battery,
        "input_A": number(c.input_current),
        "output_A": number(c.output_current),
        "input_cable": c.cable.id if c.cable else None,
        "input_plus_m": number(c.input_plus),
        "input_minus_m": number(c.input_minus),
        "input_drop_V": number(c.input_drop),
        "fuse_at_source": c.fuse_source.id if c.fuse_source else None,
        "fuse_at_bank": c.fuse_bank.id if c.fuse_bank else None,
        "refill_after_docking_s": number(c.refill_time),
        "refill_from_empty_s": number(c.refill_full_time),
        "out_per_day_Ah": number(c.energy_out_per_day / 3600),
        "in_per_day_Ah": number(c.energy_in_per_day / 3600),
        "alternator_left_at_idle_A": number(c.alternator_idle_margin),
        "sensing_margin_V": number(c.chatter_margin),
        "limits": _limits(c.limits),
    }


def network_json(n: NetworkChoice | None) -> dict[str, Any] | None:
    """The control line."""
    if n is None:
        return None
    return {
        "profile": n.profile,
        "bit_rate_kbit_s": number(n.bit_rate / 1e3),
        "cable": n.cable_row,
        "feed": n.feed,
        "feed_at": n.feed_at,
        "feed_fuse_A": number(n.feed_fuse),
        "trunk_m": number(n.trunk_length),
        "drops_m": number(n.drops_total),
        "terminators": list(n.terminators),
        "power_off_ohm": number(n.resistance_power_off),
        "load_A": number(n.load),
        "converter": n.converter_row,
        "common_mode_shift_V": number(n.common_mode_shift),
        "changes": list(n.changes),
        "stops": [
            {
                "tag": s.tag,
                "name": s.name,
                "at_m": number(s.at),
                "drop_m": number(s.drop),
                "current_A": number(s.current),
                "rest_V": number(s.volts_rest),
                "sag_V": number(s.volts_sag),
                "instance": s.instance,
                "new": s.is_new,
            }
            for s in n.stops
        ],
    }
