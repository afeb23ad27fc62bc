"""What the verdict rests on: unverified rows, estimates, fields of the brief that no rule reads yet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from pydantic import BaseModel

from athwart.design.checks.registry import check
from athwart.design.proposal import Proposal
from athwart.findings import Finding, code

PROOF_01 = code(
    "PROOF-01",
    "The fuse, cable and stop chain is to be verified",
    "note",
    says="The verdict on fuse, cable or stop rests on something nobody has verified: an invented part, a curve or a limit from memory, a usual "
    'resistance, an estimated route. It therefore reads "to be verified".',
    why="A chain that may burn a boat is not called good on figures that nobody saw.",
    remedy="Replace each by the data of the part bought or the text of the standard; the list stands beside the answer.",
    source="own-judgement",
)
PROOF_02 = code(
    "PROOF-02",
    "Read, not used",
    "caution",
    says="The brief gives a value that no rule reads yet.",
    why="Who enters it expects it to count. It does not, and the answer named would change if it did.",
    remedy="Judge it by hand; it is kept in the brief.",
    source="own-judgement",
)
PROOF_03 = code(
    "PROOF-03",
    "A stop finding was overridden that does not exist",
    "note",
    says="The brief overrides a finding that this boat does not have.",
    why="An override that no longer applies hides the next one.",
    remedy="Take the override out of the brief.",
    source="own-judgement",
)
PROOF_04 = code(
    "PROOF-04",
    "A stop that no reason makes acceptable",
    "caution",
    says="The brief accepts a stop finding that stays one whatever the reason: no fuse, no stop, a spark where petrol vapour may be.",
    why="A reason written into a file puts out no fire and stops no propeller.",
    remedy="Mend what the finding names and take the override out.",
    source="own-judgement",
)

NOT_USED: Mapping[str, str] = {
    "propulsion.place": "heat of the engine space on banks and cables",
    "propulsion.engines[].alternator": "alternator output by engine speed",
    "propulsion.engines[].take_off.torque_most_power": "whether the take-off bears the pump",
    "water.temperature": "cooling of hydraulic oil",
    "duty.dockings_per_season": "wear and maintenance intervals",
    "supply.batteries[].age_years": "what the ship's battery gives the charger",
}
"""Leaf of the brief that no rule reads yet -> the answer it would change."""


@check
def to_be_verified(p: Proposal) -> Iterator[Finding]:
    """One finding for all that is unverified in the chain."""
    chain = [words for words in p.unverified if words != "equipment rows are invented"]
    if chain:
        yield PROOF_01.found(
            "verdict",
            f"It rests on {len(p.unverified)} things: {'; '.join(p.unverified)}.",
            value=f"{len(p.unverified)} unverified",
            limit="none",
        )


def _given(section: object, path: str) -> Iterator[str]:
    """Leaves of the brief that were given, with ``[]`` for positions; looked at from outside, so as not to count as reading them."""
    if isinstance(section, BaseModel):
        for name, info in type(section).model_fields.items():
            if name in section.model_fields_set or info.alias in section.model_fields_set:
                yield from _given(section.__dict__[name], f"{path}.{info.alias or name}" if path else (info.alias or name))
    elif isinstance(section, tuple) and section and isinstance(section[0], BaseModel):
        for entry in section:
            yield from _given(entry, f"{path}[]")
    elif section is not None:
        yield path


@check
def not_used(p: Proposal) -> Iterator[Finding]:
    """Values given that nothing reads yet, gathered in one finding with the answers they would change."""
    given = tuple(dict.fromkeys(path for path in _given(p.brief, "") if path in NOT_USED))
    if given:
        would: dict[str, list[str]] = {}
        for path in given:
            section, _, field = path.partition(".")
            would.setdefault(NOT_USED[path], []).append(field.replace("[]", "") or section)
        words = "; ".join(f"{answer} ({', '.join(fields)})" for answer, fields in would.items())
        yield PROOF_02.found("brief", f"Read, not used; they would change {words}.", value=f"{len(given)} fields", path=given[0])
