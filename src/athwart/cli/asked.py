"""What `propose`, `check` and `why` ask alike: the brief and the catalogue, and how the answer is printed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from athwart.errors import BriefError

if TYPE_CHECKING:
    from athwart.design.proposal import Proposal
    from athwart.design.robustness.rehearsal import Rehearsal
    from athwart.design.search.propose import Rehearse
    from athwart.store.briefs import BriefFile

Command = Callable[..., Any]


@contextmanager
def placed(file: BriefFile) -> Iterator[None]:
    """Mistakes that show themselves only with a catalogue get their lines in the brief."""
    try:
        yield
    except BriefError as error:
        raise file.placed(error) from None


def _only_with_own(ctx: click.Context, _: click.Parameter, value: bool) -> bool:
    if value and ctx.params.get("own") is None:
        raise click.UsageError("--only-own needs --catalogue PATH: without it there is no equipment at all.", ctx)
    return value


def cores() -> int:
    """Threads to use where nobody says."""
    import os

    return max(1, min(os.cpu_count() or 1, 32))


@contextmanager
def bar(total: int, quiet: bool) -> Iterator[Callable[[int], None]]:
    """A progress bar on standard error where that is a terminal; first a word when the code has to be compiled."""
    import sys

    from athwart.plant.warm import is_warm

    if not is_warm():
        click.echo("Compiling the simulation, once after installation: some 5 to 10 seconds.", err=True)
    if quiet or not sys.stderr.isatty():
        yield lambda done: None
        return
    with click.progressbar(length=total, label="rehearsing", file=sys.stderr) as shown:
        yield shown.update


def of_brief(command: Command) -> Command:
    """The brief file and the user's own equipment."""
    for mark in reversed(
        (
            click.argument("brief", type=click.Path(exists=True, dir_okay=False, path_type=Path)),
            click.option(
                "--catalogue",
                "own",
                type=click.Path(exists=True, path_type=Path),
                metavar="PATH",
                is_eager=True,
                help="Own equipment: a folder of CSV or an XLSX file.",
            ),
            click.option(
                "--only-own", is_flag=True, callback=_only_with_own, help="Use the own catalogue alone, without the built-in one."
            ),
        )
    ):
        command = mark(command)
    return command


RUNS_FOR_PAPERS = 1000
"""Runs a manoeuvre that papers are made with where nobody says."""


def rehearsed(command: Command) -> Command:
    """Whether, and how often, the answer is rehearsed."""
    return click.option(
        "--rehearse",
        "runs",
        type=click.IntRange(0, 1_000_000),
        metavar="N",
        help=f"Rehearse every manoeuvre N times and tell it in the answer; {RUNS_FOR_PAPERS} with --papers, else none.",
    )(command)


def rehearser(runs: int, quiet: bool) -> Rehearse | None:
    """What rehearses a proposal so many times, with a progress bar; None for no runs."""
    if runs == 0:
        return None

    def run(proposal: Proposal) -> tuple[tuple[Rehearsal, ...], tuple[tuple[str, str], ...]]:
        from athwart.design.robustness.rehearsal import manoeuvre_names, rehearse_all

        with bar(runs * len(manoeuvre_names(proposal)), quiet) as advance:
            return rehearse_all(proposal, runs, workers=cores(), progress=advance)

    return run


def as_before(proposal: Proposal) -> Rehearse:
    """The rehearsals of a proposal once more, for the same answer in other units."""
    return lambda _: (proposal.rehearsals, proposal.not_rehearsed)


def how_printed(command: Command) -> Command:
    """Units, length and form of the printed answer."""
    for mark in reversed(
        (
            click.option(
                "--units",
                "system",
                type=click.Choice(("metric", "imperial")),
                default="metric",
                show_default=True,
                help="Units of the printed answer.",
            ),
            click.option("--all", "everything", is_flag=True, help="Print every refused unit, finding and default."),
            click.option("--json", "as_json", is_flag=True, help="As JSON, units in the keys."),
        )
    ):
        command = mark(command)
    return command
