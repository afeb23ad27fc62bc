"""The four cases with the wind held at every heading, and what came of the rehearsals."""

from __future__ import annotations

from math import degrees, isfinite, pi

from athwart.design.proposal import Held
from athwart.design.robustness.cases import Polar, most_looked
from athwart.design.robustness.rehearsal import Rehearsal
from athwart.papers import blocks as b
from athwart.papers import figures as f
from athwart.papers import rehearsal_charts as charts
from athwart.papers.context import Context

SHOWN = tuple(range(0, 181, 30))
"""Degrees off the bow of the table."""
DETAILED = ("hold station", "box berth")
"""Rehearsals shown with pictures, where they were made; else the two that succeed least."""


def cases_pages(c: Context) -> list[b.Block]:
    """Cases with their polars; nothing where the boat or her units are outside the models."""
    if not c.proposal.cases:
        return []
    blocks: list[b.Block] = [
        b.text(
            "Largest wind in which each case is a balance, said where and as the wind asked was read. The unit is judged by the case that "
            "rules (section Need); the others tell what to expect. The weaker sense of a unit gives 5 % less thrust, so 2.5 % less wind; rehearsals push that much less one way."
        ),
        b.table(
            [
                ("case", "l", "1fr"),
                ("need, beam", "r", "auto"),
                ("need, worst", "r", "auto"),
                ("heading", "r", "auto"),
                ("thrust", "r", "auto"),
                ("held, beam", "r", "auto"),
                ("held, worst", "r", "auto"),
                ("band", "r", "auto"),
            ],
            [_case(held) for held in c.proposal.cases],
            size=8.0,
        ),
    ]
    current = [held for held in c.proposal.cases if held.need_current is not None]
    if current:
        words = "; ".join(f"{held.words}: {_newtons(held.need_current)}" for held in current)
        blocks.append(
            b.text(f"With a current of {f.knots(c.brief.water.current)} and the wind asked, both abeam: {words}.", small=True)
        )
    a = c.afloat
    blocks.append(
        b.text(
            "Band: one standard deviation of the wind held, of inputs, models and thrust; in A and D with the place of the wind's force and "
            f"the hull's drag tried off by theirs. Hull in the water: {'; '.join(a.hull.notes)}; drag sure to {f.percent(a.hull.sigma)}.",
            small=True,
        )
    )
    blocks += [b.section("Wind held by heading, bank cold and aged"), _by_heading(c)]
    for polar in c.polars:
        least = ", ".join(f"{curve.name} {f.knots(curve.least[1])}" for curve in polar.curves)
        chart = charts.held_polar(polar, c.brief.wind.speed)
        caption = f"Case {polar.case}: {polar.words}. Dashed ring: the wind asked."
        blocks.append(b.figure(chart.svg(), caption, f"Polar of the wind held, case {polar.case}. Least: {least}.", width=104.0))
    return [b.page("Four cases", blocks)]


def _newtons(value: float | None) -> str:
    return f.newtons(value) if value is not None and isfinite(value) else "more than there is"


def _case(held: Held) -> list[b.Cell]:
    calm = "not in a calm"
    return [
        f"{held.case}: {held.words}",
        _newtons(held.need_beam),
        _newtons(held.need_worst),
        f"{degrees(held.worst_heading):.0f}°",
        f.newtons(held.thrust),
        held.beam_words(f.knots(held.wind_beam)) if held.wind_beam > 0.0 else calm,
        held.worst_words(f.knots(held.wind_worst)) if held.wind_worst > 0.0 else calm,
        f.percent(held.band),
    ]


def _at(c: Context, polar: Polar, off: int) -> str:
    """Wind held at so many degrees off the bow, the lesser side."""
    points = polar.curves[0].points
    found = [speed for angle, speed in points if abs(abs(angle) - off * pi / 180.0) < 1e-6]
    least = min(found)
    return f.knots(least) if least < most_looked(c.brief) * (1.0 - 1e-6) else f"≥ {f.knots(least)}"


def _by_heading(c: Context) -> b.Block:
    columns: list[b.Column] = [("case", "l", "1fr"), *[(f"{off}°", "r", "auto") for off in SHOWN]]
    rows: list[list[b.Cell]] = [[f"{polar.case}: {polar.name}", *[_at(c, polar, off) for off in SHOWN]] for polar in c.polars]
    return b.table(columns, rows, size=8.0)


def rehearsal_pages(c: Context) -> list[b.Block]:
    """Shares of success with their intervals, what ended the rest, and pictures of two manoeuvres."""
    done = c.proposal.rehearsals
    if not done:
        return []
    first = done[0]
    blocks: list[b.Block] = [
        b.text(
            f"Every manoeuvre was run {first.runs} times with gusts, loading, drag, thrust, battery and driver drawn anew (seed "
            f"{first.seed}). The interval holds the share of endless runs 19 times in 20; values in brackets are where another seed might "
            "put a percentile. A rehearsal is a calculation: people in the water, lines and other boats are not in it."
        ),
        b.table(
            [
                ("manoeuvre", "l", "auto"),
                ("succeeds", "r", "auto"),
                ("19 in 20", "r", "auto"),
                ("the rest fails by", "l", "1fr"),
                ("time on, half", "r", "auto"),
                ("95 %", "r", "auto"),
                ("charge", "r", "auto"),
            ],
            [_row(r) for r in done],
            size=8.0,
        ),
        b.table(
            [("manoeuvre", "l", "auto"), ("what it is", "l", "1fr")],
            [[r.exercise.label, r.exercise.words] for r in done],
            size=7.6,
        ),
    ]
    blocks += [b.text(f"{name}: not rehearsed. {reason}.", small=True) for name, reason in c.proposal.not_rehearsed]
    blocks.append(b.text(f"Taken: {'; '.join(first.notes)}.", small=True))
    boat = c.brief.boat
    for r in _detailed(done):
        told = f"{r.success.counted} succeed, {r.success.between}"
        seen = charts.track(r, boat.length_overall, boat.beam, spacing=boat.hull_spacing)
        share = charts.success_polar(r)
        blocks += [
            b.section(r.exercise.name[0].upper() + r.exercise.name[1:]),
            b.pair(
                [b.figure(seen.svg(), "One run from above.", f"Track of run {r.typical_run}; {told}.", width=92.0)],
                [b.figure(share.svg(), "Successes by where the wind came from.", told, width=66.0)],
                share=(1.35, 1.0),
                whole=True,
            ),
            b.figure(
                charts.over_time(r).svg(), "The same run over time.", f"Heading, thrust and wind over time; {told}.", width=124.0
            ),
        ]
    return [b.page("Rehearsals", blocks)]


def _detailed(done: tuple[Rehearsal, ...]) -> list[Rehearsal]:
    wanted = [r for r in done if r.exercise.name in DETAILED]
    return wanted if len(wanted) == 2 else sorted(done, key=lambda r: r.success.value)[:2]


def _row(r: Rehearsal) -> list[b.Cell]:
    middle, most = r.bow_on[2], r.bow_on[4]
    return [
        r.exercise.label,
        r.success.counted,
        r.success.between,
        r.failed_by or f.DASH,
        f"{middle.value:.0f} s ({middle.low:.0f}–{middle.high:.0f})",
        f"{most.value:.0f} s ({most.low:.0f}–{most.high:.0f})",
        f"{r.mean_charge / 3600.0:.1f} Ah",
    ]
