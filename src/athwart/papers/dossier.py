"""The dossier: everything a surveyor, an installer and an owner need, as one PDF.

The pages are plain data (:mod:`athwart.papers.blocks`) handed to a template as JSON. Only fonts inside the PDF writer are used;
a warning of the writer is an error. The same proposal and brief give the same bytes.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

from athwart import resources
from athwart.design.proposal import Proposal
from athwart.papers import blocks as b
from athwart.papers.context import Context
from athwart.papers.drawings import electrical, general, network
from athwart.papers.figures import SPACE
from athwart.papers.pages_cases import cases_pages, rehearsal_pages
from athwart.papers.pages_front import answers_page, data_page
from athwart.papers.pages_need import need_page, place_pages, unit_page
from athwart.papers.pages_power import bank_page, fault_page, power_page, schedule_page
from athwart.papers.pages_rest import (
    commissioning_pages,
    drills_page,
    entries_page,
    maintenance_page,
    network_page,
    owner_page,
    parts_page,
    sources_page,
    steps_page,
)
from athwart.papers.scene import Scene
from athwart.papers.svg import svg

TEMPLATE = ("papers", "templates", "dossier.typ")


class PaperError(RuntimeError):
    """The template met something it cannot set as it should; a mistake of the program."""


def dossier_data(proposal: Proposal, digest: str, origins: Mapping[str, tuple[int, str]]) -> dict[str, Any]:
    """All pages as data."""
    return data_of(Context(proposal, digest, origins))


def data_of(c: Context) -> dict[str, Any]:
    """All pages of a dossier in the making as data."""
    proposal, digest = c.proposal, c.digest
    pages = [
        answers_page(c),
        data_page(c),
        need_page(c),
        *cases_pages(c),
        *rehearsal_pages(c),
        unit_page(c),
        *place_pages(c),
        *_sheets(general(proposal)),
        power_page(c),
        *_sheets(electrical(proposal)),
        schedule_page(c),
        fault_page(c),
        bank_page(c),
        network_page(c),
        *_sheets(network(proposal)),
        parts_page(c),
        steps_page(c),
        *commissioning_pages(c),
        drills_page(c),
        maintenance_page(c),
        entries_page(c),
        sources_page(c),
    ]
    brief = proposal.brief
    return {
        "number": brief.number,
        "issue": brief.issue,
        "boat": brief.name,
        "date": brief.date,
        "lang": "en",
        "banner": c.banner,
        "notice": c.notice,
        "digest": digest or "0" * 64,
        "pages": glued(pages),
        "owner": glued([owner_page(c)]),
    }


GLUED = re.compile(
    r"(?<=\d) (?=\d{3}(?!\d))|(?<=\d) (?=(?:kn|N|V|A|kA|Ah|W|mV|m|mm|mm²|m²|km|kg|h|min|s|%|°C|K|mΩ|Ω|kbit/s|D|dBA|AWG)(?![\w]))"
)
UNTOUCHED = frozenset({"svg", "kind", "style", "digest"})


def glued(data: Any) -> Any:
    """The same data with no-break spaces inside numbers and before units, wherever a sentence came from."""
    if isinstance(data, str):
        return GLUED.sub(SPACE, data)
    if isinstance(data, dict):
        return {name: value if name in UNTOUCHED else glued(value) for name, value in data.items()}
    return [glued(entry) for entry in data] if isinstance(data, list) else data


def _sheets(scenes: tuple[Scene, ...]) -> list[b.Block]:
    return [b.drawing(svg(scene), scene.title, scene.number, scene.description) for scene in scenes]


def dossier_pdf(proposal: Proposal, text_digest: str, origins: Mapping[str, tuple[int, str]] | None = None) -> bytes:
    """The dossier as PDF.

    Parameters
    ----------
    proposal : What is printed.
    text_digest : SHA-256 of the brief's text, hexadecimal; its first twelve digits stand on every page.
    origins : Path of every input given -> its line in the brief and the text as typed.
    """
    return compiled(dossier_data(proposal, text_digest, origins or {}))


def compiled(data: Mapping[str, Any], template: tuple[str, ...] = TEMPLATE) -> bytes:
    """A template filled with data, as PDF; any warning is an error."""
    import typst

    inputs = {"data": json.dumps(data, ensure_ascii=False, allow_nan=False)}
    try:
        made, warnings = typst.compile_with_warnings(
            resources.data(*template), sys_inputs=inputs, ignore_system_fonts=True, format="pdf", pdf_standards=[]
        )
    except typst.TypstError as error:
        raise PaperError(f"{template[-1]}: {error.message}") from error
    if warnings:
        raise PaperError(f"{template[-1]}: {'; '.join(warning.message for warning in warnings)}")
    assert isinstance(made, bytes)
    return made
