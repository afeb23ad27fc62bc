"""All papers of a proposal into one folder: dossier, drawings, schedules, JSON, the brief they were made from.

Everything is made in memory first, written into a folder beside the target and moved from there, file by file: an error on the
way leaves no half paper behind. Equal inputs give equal bytes.
"""

from __future__ import annotations

import json
import os
import tempfile
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from athwart.design.proposal import Proposal
from athwart.papers.as_json import proposal_json
from athwart.papers.context import Context
from athwart.papers.dossier import compiled, data_of
from athwart.papers.drawings import drawings
from athwart.papers.dxf import dxf
from athwart.papers.pictures import case_pictures, rehearsal_pictures, svg_bytes
from athwart.papers.svg import svg
from athwart.papers.workbook import workbook_of


def papers(proposal: Proposal, brief_text: str, origins: Mapping[str, tuple[int, str]]) -> dict[str, bytes]:
    """Name of each file and its bytes, in the order they are listed."""
    digest = sha256(brief_text.encode("utf-8")).hexdigest()
    number = proposal.brief.number
    c = Context(proposal, digest, origins)
    made = {f"{number}-dossier.pdf": compiled(data_of(c))}
    for scene in drawings(proposal):
        made[f"{scene.number}-{scene.name}.svg"] = svg(scene).encode("utf-8")
        made[f"{scene.number}-{scene.name}.dxf"] = dxf(scene).encode("utf-8")
    pictures = [*case_pictures(proposal, c.polars)]
    pictures += rehearsal_pictures(proposal, proposal.rehearsals)
    for name, chart in pictures:
        made[name] = svg_bytes(chart)
    made[f"{number}-schedules.xlsx"] = workbook_of(c)
    made[f"{number}-proposal.json"] = (json.dumps(proposal_json(proposal, digest), indent=1, ensure_ascii=False) + "\n").encode(
        "utf-8"
    )
    made[f"{number}-brief.yaml"] = brief_text.encode("utf-8")
    return made


def write_papers(proposal: Proposal, folder: Path, brief_text: str, origins: Mapping[str, tuple[int, str]]) -> tuple[Path, ...]:
    """Write all papers; the paths written, in order.

    Parameters
    ----------
    proposal : What is printed.
    folder : Where to; made if it is not there. Files of the same names are replaced, others left alone.
    brief_text : The brief as read; a copy goes with the papers.
    origins : Path of every input given -> its line in the brief and the text as typed.
    """
    made = papers(proposal, brief_text, origins)
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    with tempfile.TemporaryDirectory(prefix=".papers-", dir=folder) as beside:
        for name, data in made.items():
            (Path(beside) / name).write_bytes(data)
        for name in made:
            os.replace(Path(beside) / name, folder / name)
            written.append(folder / name)
    return tuple(written)
