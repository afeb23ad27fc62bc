"""``athwart check``: examine what is aboard, choose nothing."""

from __future__ import annotations

from pathlib import Path

import click

from athwart import units
from athwart.cli import answer, asked


@click.command(short_help="Examine what is aboard; choose nothing.")
@asked.of_brief
@asked.rehearsed
@asked.how_printed
def check(brief: Path, own: Path | None, only_own: bool, runs: int | None, system: str, everything: bool, as_json: bool) -> int:
    """Examine what BRIEF says is aboard or fixed, and list its findings; parts that are missing stay missing.

    Exit code 1 when a finding says stop.
    """
    from athwart.design.search.propose import check as examine_aboard
    from athwart.store.briefs import read_brief
    from athwart.store.catalogues import catalogue_for

    file = read_brief(brief)
    with asked.placed(file), units.printed_in("metric" if as_json else system):
        proposal = examine_aboard(
            file.brief, catalogue_for(own, only_own), defaults=file.defaults, rehearse=asked.rehearser(runs or 0, as_json)
        )
        answer.show(proposal, file.digest, everything, as_json)
    return answer.exit_code(proposal)
