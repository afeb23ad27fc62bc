"""``athwart reckon``: the formula book at the prompt."""

from __future__ import annotations

import json

import click

from athwart.cli import say
from athwart.design import book
from athwart.explain import FORMULAS, Formula
from athwart.sources import source


@click.command(short_help="Evaluate one formula of the book by hand.", context_settings={"ignore_unknown_options": True})
@click.argument("words", nargs=-1)
@click.option("--search", metavar="WORD", help="List the formulas whose name, symbol or summary has this word.")
@click.option("--json", "as_json", is_flag=True, help="As JSON.")
def reckon(words: tuple[str, ...], search: str | None, as_json: bool) -> None:
    """Evaluate one formula: athwart reckon loop_voltage_drop current=300A run=8m area=70mm2

    Without arguments the book is listed. With a FORMULA alone its inputs, units, source and validity are shown.
    """
    book.load()
    if not words:
        _list(search, as_json)
        return
    entry = book.find(words[0])
    if len(words) == 1 and any(p.default is p.empty for p in entry.signature.parameters.values()):
        _describe(entry, as_json)
        return
    result = book.reckon(entry, words[1:])
    if as_json:
        click.echo(json.dumps(result.as_json(), indent=1, ensure_ascii=False))
        return
    for name, text, origin in result.inputs:
        click.echo(f"  {name} = {text}" + ("" if origin == "entered" else f"   ({origin})"))
    click.echo(say.bold(f"{entry.symbol} = {result.text}"))
    click.echo(
        say.block(
            f"formula: {entry.symbol} = {entry.expr}" if entry.kind != "equation" else f"satisfies: {entry.expr} = 0", hang="  "
        )
    )
    _provenance(entry)


def _list(search: str | None, as_json: bool) -> None:
    wanted = (search or "").lower()
    rows = []
    for name, entry in sorted(FORMULAS.items()):
        summary = book.summary(entry)
        if wanted in f"{name} {entry.symbol} {summary}".lower():
            rows.append((name, entry.symbol, entry.unit, summary))
    if as_json:
        keys = ("name", "symbol", "unit", "summary")
        click.echo(json.dumps({"formulas": [dict(zip(keys, row, strict=True)) for row in rows]}, indent=1, ensure_ascii=False))
        return
    if not rows:
        click.echo(f"No formula has {search!r} in its name, symbol or summary.", err=True)
        return
    click.echo(say.table(("formula", "symbol", "unit", "what it is"), rows))


def _describe(entry: Formula, as_json: bool) -> None:
    rows = []
    hints = book.hints(entry)
    for name, parameter in entry.signature.parameters.items():
        default = (
            "needed"
            if parameter.default is parameter.empty
            else f"default {parameter.default:g}"
            if isinstance(parameter.default, float)
            else f"default {parameter.default}"
        )
        rows.append((name, book.unit_of(hints.get(name)) or "word", default, book.parameter_words(entry, name)))
    if as_json:
        keys = ("name", "unit", "default", "what")
        inputs = [dict(zip(keys, row, strict=True)) for row in rows]
        click.echo(
            json.dumps(
                {
                    "formula": entry.name,
                    "symbol": entry.symbol,
                    "unit": entry.unit,
                    "expression": entry.expr,
                    "source": entry.source,
                    "valid": entry.valid,
                    "inputs": inputs,
                },
                indent=1,
                ensure_ascii=False,
            )
        )
        return
    click.echo(say.bold(f"{entry.name}   {entry.symbol} [{entry.unit}]"))
    click.echo(say.block(book.summary(entry)))
    click.echo(say.table(("input", "unit", "", "what it is"), rows))
    click.echo(say.block(f"{entry.symbol} = {entry.expr}", hang="  "))
    _provenance(entry)


def _provenance(entry: Formula) -> None:
    where = source(entry.source)
    unsure = "" if where.verified else f" ({where.seen}: not verified)"
    click.echo(say.block(f"source: {where.title}{unsure} [{where.key}]", hang="  "))
    if entry.valid:
        click.echo(say.block(f"valid: {entry.valid}", hang="  "))
