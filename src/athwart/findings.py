"""Findings: one check that has something to say.

A code is stable for ever. Codes are registered by the check modules with :func:`code`; each has a page in the docs, made
from the register (``says``, ``why``, ``remedy``) and from nothing else, so page and program cannot disagree.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["stop", "caution", "note"]
SEVERITIES: tuple[Severity, ...] = ("stop", "caution", "note")


@dataclass(frozen=True, slots=True)
class Code:
    """What a finding code means, independent of any boat."""

    code: str
    title: str
    severity: Severity
    says: str
    why: str
    remedy: str
    source: str

    def found(
        self,
        where: str,
        what: str,
        *,
        value: str = "",
        limit: str = "",
        margin: float | None = None,
        remedy: str = "",
        severity: Severity | None = None,
        tags: tuple[str, ...] = (),
        path: str = "",
    ) -> Finding:
        """A finding of this code; ``severity`` overrides the usual one, ``path`` is the brief field to change."""
        return Finding(
            self.code,
            severity or self.severity,
            where,
            what,
            value,
            limit,
            margin,
            self.source,
            remedy or self.remedy,
            tags,
            path,
        )


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding on one boat.

    ``value`` and ``limit`` are printed texts with units. ``margin`` is (limit - value)/limit in the sense that negative
    means broken, None where no number applies. ``where`` names the thing (lane, part), ``tags`` its tags on paper.
    """

    code: str
    severity: Severity
    where: str
    what: str
    value: str
    limit: str
    margin: float | None
    source: str
    remedy: str
    tags: tuple[str, ...] = ()
    path: str = ""


CODES: dict[str, Code] = {}


def code(code: str, title: str, severity: Severity, *, says: str, why: str, remedy: str, source: str) -> Code:
    """Register a finding code; a code is never registered twice and never reused."""
    if code in CODES:
        raise ValueError(f"finding code {code} is registered twice")
    CODES[code] = entry = Code(code, title, severity, says, why, remedy, source)
    return entry


def gravest(findings: tuple[Finding, ...]) -> Severity | None:
    """The worst severity among findings."""
    present = {finding.severity for finding in findings}
    return next((severity for severity in SEVERITIES if severity in present), None)


def in_order(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Findings with the worst first, then by code and place; the order is stable."""
    return tuple(sorted(findings, key=lambda f: (SEVERITIES.index(f.severity), f.code, f.where, f.what)))
