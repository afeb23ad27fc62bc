"""``athwart sources``: the register of sources."""

from __future__ import annotations

import json
from dataclasses import asdict
from difflib import get_close_matches

import click

from athwart.cli import say
from athwart.errors import UnknownName
from athwart.sources import SEEN, register


@click.command(short_help="List the register of sources.")
@click.argument("key", required=False)
@click.option("--seen", type=click.Choice(SEEN), help="Only those seen in this way.")
@click.option("--json", "as_json", is_flag=True, help="As JSON.")
def sources(key: str | None, seen: str | None, as_json: bool) -> None:
    """List the register of sources, or show one by its KEY.

    Each entry says how it was seen: read, excerpt, memory (not verified), practice (of the trade, no source), own
    (arithmetic derived here) or judgement (a default chosen here).
    """
    entries = register()
    if key is not None:
        if key not in entries:
            raise UnknownName("source", key, next(iter(get_close_matches(key, entries, n=1)), ""))
        entries = {key: entries[key]}
    chosen = {name: entry for name, entry in sorted(entries.items()) if seen is None or entry.seen == seen}
    if as_json:
        click.echo(json.dumps({"sources": {name: asdict(entry) for name, entry in chosen.items()}}, indent=1, ensure_ascii=False))
        return
    if key is not None:
        for name, value in asdict(entries[key]).items():
            if value:
                click.echo(say.block(f"{name}: {value}", hang="  "))
        return
    click.echo(say.table(("key", "seen", "title"), [(name, entry.seen, entry.title) for name, entry in chosen.items()]))
