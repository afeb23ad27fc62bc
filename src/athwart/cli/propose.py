"""``athwart propose``: the main job."""

from __future__ import annotations

import json
from pathlib import Path

import click

from athwart.cli import answer


@click.command(short_help="Answer a brief: answers, system, findings, papers.")
@click.argument("brief", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option(
    "--papers",
    type=click.Path(file_okay=False, path_type=Path),
    metavar="DIR",
    help="Write dossier, drawings, schedules and JSON here.",
)
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
@click.option("--all", "everything", is_flag=True, help="Print every rejected unit, every finding and every default.")
@click.option("--json", "as_json", is_flag=True, help="As JSON, units in the keys.")
@click.pass_context
def propose(
    ctx: click.Context,
    brief: Path,
    papers: Path | None,
    own: Path | None,
    only_own: bool,
    system: str,
    everything: bool,
    as_json: bool,
) -> int:
    """Answer BRIEF: will it hold, how long can it run, how long to refill, what may stay, which system, what does it weigh.

    Exit code 1 when a finding says stop.
    """
    from athwart.design.search.propose import propose as search
    from athwart.papers.as_json import proposal_json
    from athwart.store.briefs import read_brief
    from athwart.store.catalogues import catalogue_for

    file = read_brief(brief)
    proposal = search(file.brief, catalogue_for(own, only_own), defaults=file.defaults)
    written: tuple[Path, ...] = ()
    if papers is not None:
        from athwart.papers.write import write_papers

        written = write_papers(proposal, papers, file.text, file.origins)
    if as_json:
        click.echo(json.dumps(proposal_json(proposal, file.digest), indent=1, ensure_ascii=False))
    else:
        click.echo(answer.text(proposal, system, everything))
        if papers is not None:
            click.echo(f"\nPapers, {len(written)} files, in {papers}:")
            for path in written:
                click.echo(f"  {path.name}")
    return answer.exit_code(proposal)
