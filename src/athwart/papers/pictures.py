"""The pictures of cases and rehearsals as SVG files: what `rehearse --pictures` and the papers write."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from athwart.design.proposal import Proposal
from athwart.design.robustness.cases import Polar
from athwart.design.robustness.rehearsal import Rehearsal
from athwart.papers import rehearsal_charts as charts
from athwart.papers.charts import Chart


def rehearsal_pictures(p: Proposal, done: Sequence[Rehearsal]) -> Iterator[tuple[str, Chart]]:
    """File name and chart: track, course over time and successes by direction of every rehearsal."""
    boat = p.brief.boat
    for r in done:
        stem = f"{p.brief.number}-{r.exercise.name.replace(' ', '-')}"
        yield f"{stem}-track.svg", charts.track(r, boat.length_overall, boat.beam, spacing=boat.hull_spacing)
        yield f"{stem}-time.svg", charts.over_time(r)
        yield f"{stem}-success.svg", charts.success_polar(r)


def case_pictures(p: Proposal, polars: Sequence[Polar]) -> Iterator[tuple[str, Chart]]:
    """File name and polar of the wind held of every case."""
    for polar in polars:
        name = f"{p.brief.number}-case-{polar.case}-{polar.name.replace(' ', '-')}.svg"
        yield name, charts.held_polar(polar, p.brief.wind.speed)


def svg_bytes(chart: Chart) -> bytes:
    """A chart as a file."""
    return (chart.svg() + "\n").encode("utf-8")
