"""``athwart check``: examine what is aboard, choose nothing."""

from __future__ import annotations

import json
from pathlib import Path

import click

from athwart.cli import answer


@click.command(short_help="Examine what is aboard; choose nothing.")
@click.argument("brief", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option(
    "--catalogue",
    "own",
    type=click.Path(exists=True, path_type=Path),
    metavar="PATH",
    help="Own equipment: a folder of CSV or an XLSX file.",
)
@click.option("--only-own", is_flag=True, help="Use the own catalogue alone, without the built-in one.")
@click.option(
    "--units",
    "system",
    type=click.Choice(("metric", "imperial")),
    default="metric",
    show_default=True,
    help="Units of the printed answer.",
)
@click.option("--all", "everything", is_flag=True, help="Print every finding and every default.")
@click.option("--json", "as_json", is_flag=True, help="As JSON, units in the keys.")
def check(brief: Path, own: Path | None, only_own: bool, system: str, everything: bool, as_json: bool) -> int:
    """Examine what BRIEF says is aboard or fixed, and list its findings; parts that are missing stay missing.

    Exit code 1 when a finding says stop.
    """
    from athwart.design.search.propose import check as examine_aboard
    from athwart.papers.as_json import proposal_json
    from athwart.store.briefs import read_brief
    from athwart.store.catalogues import catalogue_for

    file = read_brief(brief)
    proposal = examine_aboard(file.brief, catalogue_for(own, only_own), defaults=file.defaults)
    if as_json:
        click.echo(json.dumps(proposal_json(proposal, file.digest), indent=1, ensure_ascii=False))
    else:
        click.echo(answer.text(proposal, system, everything))
    return answer.exit_code(proposal)
