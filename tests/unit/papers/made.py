"""Proposals the tests of the papers share, each made once."""

from __future__ import annotations

from functools import cache, partial
from hashlib import sha256

from athwart import resources
from athwart.catalogue.builtin import builtin
from athwart.design.proposal import Proposal
from athwart.design.robustness.rehearsal import rehearse_all
from athwart.design.search.propose import propose
from athwart.papers.dossier import dossier_data, dossier_pdf
from athwart.store.briefs import BriefFile, parse_brief

EXAMPLES = ("1-motor-yacht", "2-sailing-yacht", "3-planing-yacht", "4-day-boat", "6-old-installation", "7-stern-unit-added")
REHEARSED = ("3-planing-yacht", "7-stern-unit-added")
"""Examples whose papers tell rehearsals."""


@cache
def brief_of(name: str) -> BriefFile:
    """An example brief."""
    return parse_brief(resources.example(name), f"{name}.yaml")


@cache
def proposal_of(name: str) -> Proposal:
    """Its proposal."""
    file = brief_of(name)
    rehearse = partial(rehearse_all, runs=64) if name in REHEARSED else None
    return propose(file.brief, builtin(), defaults=file.defaults, rehearse=rehearse)


@cache
def pdf_of(name: str) -> bytes:
    """Its dossier."""
    file = brief_of(name)
    return dossier_pdf(proposal_of(name), file.digest, file.origins)


@cache
def data_of(name: str) -> dict[str, object]:
    """The pages of its dossier as data."""
    file = brief_of(name)
    return dossier_data(proposal_of(name), file.digest, file.origins)


def digest(data: bytes) -> str:
    """Fingerprint of bytes."""
    return sha256(data).hexdigest()
