"""``athwart new``: a brief to begin with."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Literal, cast

import click

from athwart.errors import InputError
from athwart.resources import example, example_names

EDITOR_LINE = "# yaml-language-server:"


@click.command(short_help="Write a commented brief, from an example or by questions.")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path), required=False)
@click.option("--from", "source", metavar="EXAMPLE", help="Begin with an example: its number or name; 'list' names them.")
@click.option("--ask/--no-ask", default=None, help="Ask a few questions (default on a terminal, when --from is not given).")
@click.option("--force", is_flag=True, help="Overwrite FILE if it exists.")
@click.option("--fields", is_flag=True, help="Print every field of a brief, what it means and takes, as Markdown.")
@click.option("--schema", is_flag=True, help="Print the JSON Schema of a brief, for editors.")
def new(file: Path | None, source: str | None, ask: bool | None, force: bool, fields: bool, schema: bool) -> int:
    """Write a commented brief to FILE, step by step or from an example; then edit it and run athwart propose FILE."""
    if fields or schema:
        from athwart.store.schema import reference, schema_text

        click.echo(reference() if fields else schema_text(), nl=False)
        return 0
    if source == "list":
        for name in example_names():
            click.echo(f"{name}  {_story(name)}")
        return 0
    if file is None:
        raise click.UsageError("Give the FILE to write, for example: athwart new my-boat.yaml")
    if file.exists() and not force:
        raise click.UsageError(f"{file} exists and is not overwritten. Take another name, or say --force.")
    if not file.parent.is_dir():
        raise click.UsageError(f"The folder {file.parent} does not exist.")
    text = _text(source, ask)
    from athwart.store.briefs import parse_brief, write_whole

    parse_brief(text, str(file))
    try:
        write_whole(file, text.encode("utf-8"))
    except OSError as error:
        raise click.UsageError(f"{file} cannot be written: {error.strerror}.") from error
    click.echo(f"{file} written. Edit it, then: athwart propose {file}", err=True)
    return 0


def _text(source: str | None, ask: bool | None) -> str:
    if source is not None:
        if ask:
            raise click.UsageError("--from begins with an example, --ask with questions: one of the two.")
        lines = example(_example_name(source)).splitlines(keepends=True)
        return "".join(line for line in lines if not line.startswith(EDITOR_LINE)).removeprefix("#\n")
    if ask is False or (ask is None and not sys.stdin.isatty()):
        raise click.UsageError(
            "Nobody can be asked here. Begin with an example: --from 1 (--from list names them), or say --ask."
        )
    return _asked()


def _example_name(source: str) -> str:
    names = example_names()
    found = [name for name in names if name in (source, source.removesuffix(".yaml")) or name.split("-")[0] == source]
    if not found:
        raise click.UsageError(f"No example {source!r}. Examples: {', '.join(names)}.")
    return found[0]


def _story(name: str) -> str:
    lines = (line for line in example(name).splitlines() if line.startswith("story:"))
    return next(lines, "story:").removeprefix("story:").strip()


# ---- questions
def _asked() -> str:
    from athwart.store import starting as s

    click.echo(
        "A few questions; Enter takes the answer in brackets. What is not asked is assumed and marked so in the file.", err=True
    )
    name = _words("Name of the boat or job", "My boat")
    kind = _choice("Kind of boat", tuple(s.PROPORTIONS), "motor yacht, displacement")
    length_text, length = _quantity("Length overall", "12 m", "length", (5.0, 45.0))
    beam_text, beam = _quantity(
        "Beam, assumed from the length", s.length_text(s.assumed_beam(kind, length)), "length", (1.0, 20.0)
    )
    draught_text, draught = _quantity(
        "Draught, assumed from the length", s.length_text(s.assumed_draught(kind, length)), "length", (0.2, 8.0)
    )
    guess = s.mass_text(s.assumed_displacement(kind, length, beam, draught))
    displacement_text, displacement = _quantity("Displacement, assumed from the sizes", guess, "mass", (200.0, 900e3))
    wind_text, _ = _quantity("Wind she must be held against", "20 kn", "wind_speed", (0.5, 60.0))
    read_at = _choice("Where that wind is read", ("on deck", "forecast 10 m", "masthead"), "on deck")
    height_text = (
        _quantity("Height of the masthead above the water", "15 m", "length", (2.0, 60.0))[0] if read_at == "masthead" else ""
    )
    gust = _choice("Is that a mean or a gust", ("gust", "mean"), "gust")
    volts = _choice("Ship's supply", ("12 V", "24 V"), "12 V")
    housing = _choice(
        "Tunnel or retractable unit", ("tunnel", "retractable"), "retractable" if kind == "sailing yacht" else "tunnel"
    )
    where = _choice("Where the thruster's bank stands", ("near the unit", "aft with the ship's batteries"), "near the unit")
    near = where == "near the unit"
    run_text, _ = _quantity(
        "Cable from that bank to the unit, one way", s.length_text(s.assumed_run(length, near)), "length", (0.1, 60.0)
    )
    answers = s.Answers(
        name,
        kind,
        length_text,
        length,
        beam_text,
        draught_text,
        draught,
        displacement_text,
        displacement,
        wind_text,
        cast("Literal['forecast 10 m', 'masthead', 'on deck']", read_at),
        height_text,
        gust == "gust",
        volts,
        cast("Literal['tunnel', 'retractable']", housing),
        near,
        run_text,
    )
    return s.starting_brief(answers)


def _words(question: str, default: str) -> str:
    def read(text: str) -> str:
        text = text.strip()
        if not text or len(text) > 80 or not text.isprintable():
            raise click.BadParameter("one to 80 printable characters")
        return text

    return click.prompt(question, default=default, value_proc=read, err=True)


def _choice(question: str, choices: tuple[str, ...], default: str) -> str:
    """One of some words, by number, word or the beginning of a word."""

    def read(text: str) -> str:
        text = text.strip()
        if text.isdigit() and 1 <= int(text) <= len(choices):
            return choices[int(text) - 1]
        found = [choice for choice in choices if choice == text] or [
            choice for choice in choices if text and choice.startswith(text)
        ]
        if len(found) != 1:
            raise click.BadParameter(f"type a number from 1 to {len(choices)}, or the words")
        return found[0]

    listed = "; ".join(f"{number} {choice}" for number, choice in enumerate(choices, 1))
    return click.prompt(f"{question} ({listed})", default=default, value_proc=read, err=True)


def _quantity(question: str, default: str, kind: str, bounds: tuple[float, float]) -> tuple[str, float]:
    """A quantity with its unit: the text as typed and its SI value."""
    from athwart.units import parse, show

    def read(text: str) -> tuple[str, float]:
        try:
            value = parse(text, kind)
        except InputError as error:
            raise click.BadParameter("; ".join(str(mistake) for mistake in error.mistakes) or str(error)) from error
        if not bounds[0] <= value <= bounds[1]:
            low, high = (show(bound, kind, plain=True) for bound in bounds)
            raise click.BadParameter(f"from {low} to {high}")
        return " ".join(text.split()), value

    ask: Callable[..., object] = click.prompt
    return cast("tuple[str, float]", ask(question, default=default, value_proc=read, err=True))
