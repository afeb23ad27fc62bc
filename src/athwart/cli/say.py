"""What the command line says besides results: mistakes, internal errors, tables of plain text."""

from __future__ import annotations

import os
import sys
import tempfile
import traceback
from collections.abc import Sequence
from pathlib import Path
from shutil import get_terminal_size
from textwrap import wrap

import click

from athwart import __version__
from athwart.errors import InputError


def mistakes(error: InputError) -> None:
    """Print every mistake of an input, one a line, then their number."""
    if not error.mistakes:
        click.echo(str(error), err=True)
        return
    for mistake in error.mistakes:
        click.echo(str(mistake), err=True)
    count = len(error.mistakes)
    click.echo(f"{count} mistake{'s' if count > 1 else ''}; nothing was written.", err=True)


def internal(error: Exception) -> None:
    """Say that the program itself failed and where its report is; no traceback on the screen."""
    folder = Path(tempfile.mkdtemp(prefix="athwart-"))
    report = folder / "report.txt"
    report.write_text(
        f"athwart {__version__}, Python {sys.version}\narguments: {sys.argv[1:]}\n\n{''.join(traceback.format_exception(error))}",
        encoding="utf-8",
    )
    click.echo(f"An internal error, not yours: {type(error).__name__}. Please send the file {report} with your brief.", err=True)


def width() -> int:
    """Columns to use: the terminal's, at most 120; 100 when piped."""
    return min(get_terminal_size((100, 24)).columns, 120) if sys.stdout.isatty() else 100


def colourful() -> bool:
    """Whether bold may be used: a terminal, and NO_COLOR not set."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR")


def bold(text: str) -> str:
    """Bold on a terminal, plain elsewhere."""
    return click.style(text, bold=True) if colourful() else text


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], right: Sequence[int] = ()) -> str:
    """A plain table: columns two blanks apart, those of ``right`` aligned on their right edge."""
    cells = [list(heads), *[list(row) for row in rows]]
    widths = [max(len(row[i]) for row in cells) for i in range(len(heads))]
    lines = []
    for number, row in enumerate(cells):
        line = "  ".join(cell.rjust(widths[i]) if i in right else cell.ljust(widths[i]) for i, cell in enumerate(row)).rstrip()
        lines.append(line)
        if number == 0:
            lines.append("  ".join("-" * w for w in widths))
    return "\n".join(lines)


def block(text: str, indent: str = "", hang: str | None = None) -> str:
    """Text wrapped to the width."""
    return "\n".join(wrap(text, width(), initial_indent=indent, subsequent_indent=indent if hang is None else hang))
