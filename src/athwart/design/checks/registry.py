"""The list of checks. A check is a function from a proposal to findings; it never prints and never stops another."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from athwart.design.proposal import Proposal
from athwart.findings import CODES, Finding, in_order

Check = Callable[[Proposal], Iterable[Finding]]

CHECKS: list[Check] = []

NEVER_ACCEPTED = frozenset(
    {
        "FUSE-01",
        "FUSE-05",
        "FUSE-06",
        "STOP-01",
        "STOP-02",
        "STOP-03",
        "PETROL-01",
        "PETROL-02",
        "PETROL-03",
        "CHARGE-20",
        "BANK-16",
    }
)
"""Stops that burn, explode or leave no way to stop a propeller: no reason makes them acceptable (own judgement)."""


def check(func: Check) -> Check:
    """Register a check."""
    CHECKS.append(func)
    return func


@cache
def load() -> None:
    """Import every module of checks beside this one."""
    package = import_module("athwart.design.checks")
    for info in iter_modules(package.__path__):
        import_module(f"{package.__name__}.{info.name}")


def findings_of(proposal: Proposal) -> Iterator[Finding]:
    """Findings of every check."""
    for entry in CHECKS:
        yield from entry(proposal)


def examine(proposal: Proposal) -> tuple[Finding, ...]:
    """All findings, the gravest first; a stop that the brief overrides with a reason becomes a caution that says so,
    but for those of :data:`NEVER_ACCEPTED`."""
    load()
    reasons = {override.finding: override.reason for override in proposal.brief.choices.overrides}
    found = []
    for finding in findings_of(proposal):
        if finding.severity == "stop" and finding.code in reasons and finding.code not in NEVER_ACCEPTED:
            finding = Finding(
                finding.code,
                "caution",
                finding.where,
                f"{finding.what} Accepted in the brief: {reasons[finding.code]}",
                finding.value,
                finding.limit,
                finding.margin,
                finding.source,
                finding.remedy,
                finding.tags,
                finding.path,
            )
        found.append(finding)
    codes = {finding.code for finding in found}
    for index, override in enumerate(proposal.brief.choices.overrides):
        path = f"choices.overrides[{index}]"
        if override.finding in codes and override.finding in NEVER_ACCEPTED:
            found.append(CODES["PROOF-04"].found("brief", f"{override.finding} stays a stop.", path=path))
        if override.finding not in codes:
            found.append(CODES["PROOF-03"].found("brief", f"{override.finding} is overridden and not found.", path=path))
    return in_order(tuple(found))
