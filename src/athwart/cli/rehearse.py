"""``athwart rehearse``: how often manoeuvres succeed in gusts, current and with different hands, and what stops them."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from athwart.cli import asked, say

if TYPE_CHECKING:
    from athwart.design.proposal import Proposal
    from athwart.design.robustness.rehearsal import Rehearsal
    from athwart.plant.motion import Control

DEFAULT_RUNS = 1000
GUST_CHANCES = 512
GUST_EVERY = 0.5
"""Seconds between two lines of a gust file."""


@click.command(short_help="Rehearse manoeuvres in gusts and current, thousands of times.")
@asked.of_brief
@click.option("--runs", type=click.IntRange(1, 10_000_000), default=DEFAULT_RUNS, show_default=True, help="Runs a manoeuvre.")
@click.option("--manoeuvre", metavar="NAME", help='One manoeuvre, such as "hold station"; all unless said.')
@click.option("--seed", type=click.IntRange(0, 2**63), default=1, show_default=True, help="Of all chances.")
@click.option("--workers", type=click.IntRange(1, 256), default=None, help="Threads; the numbers do not depend on them.")
@click.option(
    "--driver", type=click.Choice(("bang-bang", "proportional")), help="How the levers are used; by the unit unless said."
)
@click.option(
    "--control",
    type=click.Choice(("on/off", "stepped", "proportional")),
    help="The units as if they had this control, to compare.",
)
@click.option("--delay", metavar="TIME", help="Delay of the driver, such as 1.5 s; by the brief's users unless said.")
@click.option("--wrong-side", metavar="TIME", help="How long every first push goes to the wrong side.")
@click.option("--pictures", type=click.Path(file_okay=False, path_type=Path), metavar="DIR", help="Write SVG pictures here.")
@click.option(
    "--parquet", type=click.Path(file_okay=False, path_type=Path), metavar="DIR", help="Write every run as Parquet here."
)
@click.option(
    "--gusts", type=click.Path(dir_okay=False, path_type=Path), metavar="FILE", help="Write ten minutes of her gusts as CSV here."
)
@click.option("--as-found", is_flag=True, help="Of what is aboard, as `check` sees it, not of the proposal.")
@click.option("--json", "as_json", is_flag=True, help="As JSON, units in the keys.")
def rehearse(
    brief: Path,
    own: Path | None,
    only_own: bool,
    runs: int,
    manoeuvre: str | None,
    seed: int,
    workers: int | None,
    driver: str | None,
    control: Control | None,
    delay: str | None,
    wrong_side: str | None,
    pictures: Path | None,
    parquet: Path | None,
    gusts: Path | None,
    as_found: bool,
    as_json: bool,
) -> int:
    """Rehearse manoeuvres with the boat of BRIEF and the thrusters proposed for her.

    Every run has its own wind, gusts, current, loading, drag, thrust, battery and driver. The same seed gives the same numbers.
    """
    from athwart.design.robustness import rehearsal
    from athwart.design.search.propose import check, propose
    from athwart.store.briefs import read_brief
    from athwart.store.catalogues import catalogue_for

    late, wrong = _time("--delay", delay), _time("--wrong-side", wrong_side)
    file = read_brief(brief)
    with asked.placed(file):
        answer = check if as_found else propose
        proposal = answer(file.brief, catalogue_for(own, only_own), defaults=file.defaults)
    names = rehearsal.manoeuvre_names(proposal) if manoeuvre is None else (manoeuvre,)
    with asked.bar(runs * len(names), as_json) as advance:
        done, left_out = rehearsal.rehearse_all(
            proposal,
            runs,
            seed,
            names=names,
            workers=workers or asked.cores(),
            delay=late,
            wrong_side=wrong or 0.0,
            kind=driver,
            control=control,
            progress=advance,
            sinks=lambda name: _sink(parquet, name),
        )
    if gusts is not None:
        _write_gusts(proposal, seed, gusts)
    written = _pictures(proposal, done, pictures) if pictures is not None else []
    if as_json:
        from athwart.papers.rehearsal_json import rehearsals_json

        click.echo(json.dumps(rehearsals_json(proposal, file.digest, done, left_out), indent=1, ensure_ascii=False))
        return 0
    _show(proposal, done, left_out)
    if written:
        click.echo(f"\nPictures, {len(written)} files, in {pictures}:")
        for path in written:
            click.echo(f"  {path.name}")
    return 0


def _time(option: str, text: str | None) -> float | None:
    from athwart.errors import QuantityError
    from athwart.units import read

    if text is None:
        return None
    try:
        value = read(text, "time").value
    except QuantityError as error:
        raise click.UsageError(f"{option}: {error}") from None
    if not 0.0 <= value <= 6.0:
        raise click.UsageError(f"{option}: {text} is outside what a hand does; allowed are 0 s to 6 s")
    return value


@contextmanager
def _sink(folder: Path | None, name: str) -> Iterator[Any]:
    """Where the runs of a manoeuvre are written, None where nowhere; a file appears whole or not at all."""
    if folder is None:
        yield None
        return
    try:
        import pyarrow
        import pyarrow.parquet
    except ImportError:
        raise click.UsageError("--parquet needs the package pyarrow; type: pip install 'athwart[parquet]'") from None
    folder.mkdir(parents=True, exist_ok=True)
    target = folder / f"{name.replace(' ', '-')}.parquet"
    beside = target.with_suffix(".part")
    writer: Any = None
    arrow: Any = pyarrow  # its types are not said
    from athwart.plant.motion import CAUSES

    def write(columns: dict[str, Any]) -> None:
        nonlocal writer
        named = {**columns, "success": columns["success"] > 0.5, "cause": [CAUSES[int(cause)] for cause in columns["cause"]]}
        table = arrow.table(named)
        if writer is None:
            writer = arrow.parquet.ParquetWriter(beside, table.schema)
        writer.write_table(table)

    try:
        yield write
    except BaseException:
        if writer is not None:
            writer.close()
        beside.unlink(missing_ok=True)
        raise
    if writer is not None:
        writer.close()
        beside.replace(target)


def _write_gusts(proposal: Proposal, seed: int, path: Path) -> None:
    """Ten minutes of the wind at the silhouette, as a series with Kaimal's spectrum that does not come round."""
    from athwart.design.robustness.afloat import TEN_MINUTES, afloat
    from athwart.numerics.chances import uniform
    from athwart.store.briefs import write_whole
    from athwart.units import KNOT
    from athwart.vessel.spectra import gust_series, kaimal

    a = afloat(proposal)
    sigma = a.intensity * a.mean_speed
    chances = [uniform(seed, 0, which) for which in range(GUST_CHANCES)]
    series = gust_series(lambda f: kaimal(f, a.mean_speed, sigma, a.length_scale), a.mean_speed, sigma, chances)
    lines = ["time_s,wind_m_per_s,wind_kn"]
    for k in range(round(TEN_MINUTES / GUST_EVERY)):
        speed = series(k * GUST_EVERY)
        lines.append(f"{k * GUST_EVERY:.1f},{speed:.3f},{speed / KNOT:.2f}")
    write_whole(path, ("\n".join(lines) + "\n").encode("utf-8"))


def _pictures(proposal: Proposal, done: Sequence[Rehearsal], folder: Path) -> list[Path]:
    from athwart.design.robustness.afloat import afloat
    from athwart.design.robustness.cases import polars
    from athwart.papers.pictures import case_pictures, rehearsal_pictures, svg_bytes
    from athwart.store.briefs import write_whole

    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for name, chart in (*rehearsal_pictures(proposal, done), *case_pictures(proposal, polars(afloat(proposal)))):
        write_whole(folder / name, svg_bytes(chart))
        written.append(folder / name)
    return written


def _show(p: Proposal, done: Sequence[Rehearsal], left_out: Sequence[tuple[str, str]]) -> None:
    first = done[0]
    click.echo(say.bold(p.brief.name))
    click.echo(f"Rehearsal of {p.brief.number} issue {p.brief.issue}: {first.runs} runs a manoeuvre, seed {first.seed}")
    click.echo(f"Driver: {driver_words(first)}\n")
    rows = []
    for r in done:
        rows.append(
            (
                r.exercise.label,
                r.success.counted,
                r.success.between,
                r.failed_by or "-",
                _percentile(r.bow_on[2], "s"),
                _percentile(r.bow_on[4], "s"),
                f"{r.mean_charge / 3600.0:.1f} Ah",
            )
        )
    heads = ("manoeuvre", "succeeds", "19 times in 20", "the rest fails by", "time on, half", "time on, 95 %", "charge, mean")
    click.echo(say.table(heads, rows))
    click.echo()
    for r in done:
        click.echo(say.block(f"{r.exercise.name}: {r.exercise.words}.", "", "  "))
    for name, reason in left_out:
        click.echo(say.block(f"{name}: not rehearsed. {reason}.", "", "  "))
    click.echo()
    click.echo(say.block(f"Taken: {'; '.join(first.notes)}.", "", "  "))
    click.echo(
        say.block(
            "Time on counts the first thruster, by its lever. Values in brackets are where another seed might put them. "
            "A rehearsal is a calculation: people in the water, lines and other boats are not in it.",
            "",
            "  ",
        )
    )


def _percentile(p: Any, unit: str) -> str:
    return f"{p.value:.1f} {unit} ({p.low:.1f}-{p.high:.1f})"


def driver_words(r: Rehearsal) -> str:
    """The driver of a rehearsal in words."""
    d = r.driver
    words = "a hand on a switch" if d.kind == "bang-bang" else "a lever moved as far as needed"
    late = f", delay {d.delay:.1f} s"
    wrong = f", every first push {d.wrong_side:.1f} s to the wrong side" if d.wrong_side > 0.0 else ""
    return words + late + wrong
