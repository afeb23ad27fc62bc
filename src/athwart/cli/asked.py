"""What `propose`, `check` and `why` ask alike: the brief and the catalogue, and how the answer is printed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from athwart.errors import BriefError

if TYPE_CHECKING:
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
