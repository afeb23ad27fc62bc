"""Rehearsals and the four cases as plain data: numbers with the unit in the key."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import degrees
from typing import Any

from athwart import __version__
from athwart.design.proposal import Proposal
from athwart.design.robustness.afloat import afloat
from athwart.design.robustness.cases import Polar, four_cases, polars
from athwart.design.robustness.rehearsal import Percentile, Rehearsal, Share, TrackBand
from athwart.papers.as_json import held_json
from athwart.units import KNOT

SCHEMA = 1


def rehearsals_json(p: Proposal, digest: str, done: Sequence[Rehearsal], left_out: Iterable[tuple[str, str]]) -> dict[str, Any]:
    """All rehearsals of one call."""
    a = afloat(p)
    return {
        "schema": SCHEMA,
        "program": f"athwart {__version__}",
        "brief": p.brief.number,
        "brief_digest": digest,
        "rehearsals": [rehearsal_json(r) for r in done],
        "not_rehearsed": [{"manoeuvre": name, "reason": reason} for name, reason in left_out],
        "cases": [held_json(held) for held in four_cases(a)],
        "polars": [polar_json(polar) for polar in polars(a)],
    }


def rehearsal_json(r: Rehearsal) -> dict[str, Any]:
    """One rehearsal."""
    return {
        "manoeuvre": r.exercise.name,
        "words": r.exercise.words,
        "runs": r.runs,
        "seed": r.seed,
        "driver": {
            "kind": r.driver.kind,
            "delay_s": r.driver.delay,
            "dead_band_m": r.driver.dead_band,
            "look_ahead_s": r.driver.look_ahead,
            "wrong_side_s": r.driver.wrong_side,
        },
        "success": _share(r.success),
        "failed_by": {cause: _share(share) for cause, share in r.causes},
        "by_wind": [{"wind_off_bow_deg": degrees(angle), **_share(share)} for angle, share in r.by_heading],
        "bow_time_on_s": _percentiles(r.bow_on),
        "stern_time_on_s": _percentiles(r.stern_on),
        "charge_Ah": _percentiles(r.charge, 1.0 / 3600.0),
        "charge_aft_Ah": _percentiles(r.charge_aft, 1.0 / 3600.0),
        "charge_mean_Ah": r.mean_charge / 3600.0,
        "ended_s": _percentiles(r.ended),
        "worst_heading_deg": _percentiles(r.worst_heading, degrees(1.0)),
        "worst_offset_m": _percentiles(r.worst_offset),
        "tracks": {
            name: _band(band, degrees(1.0) if name == "heading" else 1.0, "deg" if name == "heading" else "m")
            for name, band in r.tracks
        },
        "typical": {
            "run": r.typical_run,
            "success": r.typical.success,
            "cause": r.typical.cause,
            "wind_from_deg": degrees(r.typical_wind),
            "samples": [
                {
                    "time_s": s.time,
                    "ahead_m": s.motion.x,
                    "sideways_m": s.motion.y,
                    "heading_deg": degrees(s.motion.heading),
                    "bow_thrust_N": s.bow_thrust,
                    "stern_thrust_N": s.stern_thrust,
                    "wind_kn": s.wind / KNOT,
                }
                for s in r.typical.track
            ],
        },
        "notes": list(r.notes),
    }


def polar_json(polar: Polar) -> dict[str, Any]:
    """One polar with its curves."""
    return {
        "case": polar.case,
        "name": polar.name,
        "words": polar.words,
        "curves": [
            {
                "name": curve.name,
                "points": [{"wind_off_bow_deg": degrees(angle), "wind_held_kn": speed / KNOT} for angle, speed in curve.points],
            }
            for curve in polar.curves
        ],
    }


def _share(share: Share) -> dict[str, Any]:
    low, high = share.interval
    return {"count": share.count, "of": share.of, "share_1": share.value, "low_1": low, "high_1": high}


def _percentiles(found: Sequence[Percentile], factor: float = 1.0) -> list[dict[str, float]]:
    return [{"share_1": p.share, "value": p.value * factor, "low": p.low * factor, "high": p.high * factor} for p in found]


def _band(band: TrackBand, factor: float, unit: str) -> dict[str, Any]:
    return {
        "time_s": list(band.times),
        "under_way": list(band.under_way),
        f"percentiles_{unit}": [[value * factor for value in row] for row in band.bands],
    }
