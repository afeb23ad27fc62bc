"""What all pages are made from: the proposal, where inputs came from, the predicted readings, the bill."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from athwart.design.brief import Brief
from athwart.design.proposal import Lane, Proposal
from athwart.design.robustness.afloat import Afloat, afloat
from athwart.design.robustness.cases import Polar, polars
from athwart.findings import Finding
from athwart.papers.bill import Line, bill
from athwart.trial.predicted import Sheet, sheets

INVENTED = "Equipment from the invented catalogue: not for purchase."
CAUTION = "Defer to local codes and licensed practice."
SEVERITY_LETTERS = {"stop": "S", "caution": "C", "note": "N"}


@dataclass(frozen=True)
class Context:
    """One dossier in the making."""

    proposal: Proposal
    digest: str
    origins: Mapping[str, tuple[int, str]]

    @property
    def brief(self) -> Brief:
        """The brief."""
        return self.proposal.brief

    @property
    def number(self) -> str:
        """Number of the dossier."""
        return self.brief.number

    @cached_property
    def sheets(self) -> tuple[Sheet, ...]:
        """Commissioning sheets."""
        return sheets(self.proposal)

    @cached_property
    def bill(self) -> tuple[Line, ...]:
        """Bill of materials."""
        return bill(self.proposal)

    @cached_property
    def numbered(self) -> tuple[tuple[str, Finding], ...]:
        """Findings with their numbers on paper: S-1, C-1, N-1."""
        counts: dict[str, int] = {}
        found = []
        for severity in SEVERITY_LETTERS:
            for finding in self.proposal.findings:
                if finding.severity == severity:
                    counts[severity] = counts.get(severity, 0) + 1
                    found.append((f"{SEVERITY_LETTERS[severity]}-{counts[severity]}", finding))
        return tuple(found)

    @property
    def banner(self) -> str:
        """The words of a paper with an open stop."""
        stops = [number for number, finding in self.numbered if finding.severity == "stop" and not self.accepted(finding)]
        if not stops:
            return ""
        return f"NOT TO BE BUILT: {stops[0]} to {stops[-1]}" if len(stops) > 3 else f"NOT TO BE BUILT: {', '.join(stops)}"

    def accepted(self, finding: Finding) -> bool:
        """Whether the brief accepts a finding with a reason."""
        return any(entry.finding == finding.code for entry in self.brief.choices.overrides)

    @cached_property
    def polars(self) -> tuple[Polar, ...]:
        """Wind held at every heading, case by case; none where the boat is outside the models."""
        return polars(self.afloat) if self.proposal.cases else ()

    @cached_property
    def afloat(self) -> Afloat:
        """Hull, wind and units in motion."""
        return afloat(self.proposal)

    @property
    def electric(self) -> tuple[Lane, ...]:
        """Lanes with a bank."""
        return tuple(lane for lane in self.proposal.lanes if lane.bank is not None and lane.unit.drive != "hydraulic")

    def origin(self, path: str) -> str:
        """Where an input came from: the line of the brief, or a default."""
        if path in self.origins:
            return f"brief, line {self.origins[path][0]}"
        if any(name == path for name, _ in self.proposal.defaults):
            return "default"
        inside = sorted(line for name, (line, _) in self.origins.items() if name.startswith((f"{path}.", f"{path}[")))
        return f"brief, line {inside[0]}" if inside else "default"

    @property
    def notice(self) -> str:
        """What stands at the foot of every page."""
        catalogue = self.proposal.catalogue
        first = INVENTED if catalogue.invented else f"Equipment from {catalogue.name}."
        return f"{first} {CAUTION}"
