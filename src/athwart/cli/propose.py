"""``athwart propose``: the main job."""

from __future__ import annotations

from pathlib import Path

import click

from athwart import units
from athwart.cli import answer, asked


@click.command(short_help="Answer a brief: answers, system, findings, papers.")
@asked.of_brief
@click.option(
    "--papers",
    type=click.Path(file_okay=False, path_type=Path),
    metavar="DIR",
    help="Write dossier, drawings, schedules and JSON here.",
)
@asked.rehearsed
@asked.how_printed
def propose(
    brief: Path,
    own: Path | None,
    only_own: bool,
    papers: Path | None,
    runs: int | None,
    system: str,
    everything: bool,
    as_json: bool,
) -> int:
    """Answer BRIEF: will it hold, how long can it run, how long to refill, what may stay, which system, what does it weigh.

    Exit code 1 when a finding says stop.
    """
    from athwart.design.search.propose import propose as search
    from athwart.store.briefs import read_brief
    from athwart.store.catalogues import catalogue_for

    file = read_brief(brief)
    with asked.placed(file):
        rows = catalogue_for(own, only_own)
        count = runs if runs is not None else asked.RUNS_FOR_PAPERS if papers is not None else 0
        proposal = search(file.brief, rows, defaults=file.defaults, rehearse=asked.rehearser(count, as_json))
    written: tuple[Path, ...] = ()
    if papers is not None:
        from athwart.papers.write import write_papers

        written = write_papers(proposal, papers, file.text, file.origins)
    if system != "metric" and not as_json:
        with units.printed_in(system):
            answer.show(
                search(file.brief, rows, defaults=file.defaults, rehearse=asked.as_before(proposal)),
                file.digest,
                everything,
                as_json,
            )
    else:
        answer.show(proposal, file.digest, everything, as_json)
    if papers is not None and not as_json:
        click.echo(f"\nPapers, {len(written)} files, in {papers}:")
        for path in written:
            click.echo(f"  {path.name}")
    return answer.exit_code(proposal)
