"""Every field of a brief is read by a rule, the search or a paper, or listed as "read, not used" with the answer it would change.

Reading is watched, not declared: attribute access on the brief's sections is recorded while all examples are proposed, checked
and turned into papers, together with the boats on which findings fire.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from athwart.design.brief import Brief, Section
from athwart.design.checks.evidence import NOT_USED
from athwart.design.robustness.afloat import afloat
from athwart.design.robustness.cases import four_cases
from athwart.papers.as_json import proposal_json
from athwart.papers.dossier import dossier_pdf
from tests.unit.design.checks._boats import proposal
from tests.unit.design.checks._cases import FIRES, SOUND

MORE = ("NEED-05", "NET-03", "BANK-07", "STOP-10", "RETRACT-07", "DRIVE-10", "PROOF-03", "CHARGE-18", "BANK-15")
"""Boats beside the examples whose findings look at fields that the examples do not have."""
WALKERS = ("store/briefs.py",)
"""Modules that walk over all fields without making anything of them."""
FILE_ONLY = {"athwart", "story", "notes", "planted", "propulsion.engines[].take_off.name"}
"""Fields for people and for the file itself."""


def _sections(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from _sections(part)


def leaves(model: type[BaseModel], path: str = "") -> Iterator[tuple[str, type[BaseModel], str]]:
    """(path with ``[]`` for positions, section, field) of every leaf."""
    for name, info in model.model_fields.items():
        key = f"{path}.{info.alias or name}" if path else (info.alias or name)
        inner = list(dict.fromkeys(_sections(info.annotation)))
        if not inner:
            yield key, model, name
        many = "[]" if "tuple" in str(info.annotation) else ""
        for section in inner:
            yield from leaves(section, f"{key}{many}")


@pytest.fixture(scope="module")
def seen() -> set[tuple[str, str]]:
    """(section, field) of everything that was looked at."""
    found: set[tuple[str, str]] = set()
    original = Section.__getattribute__

    def watch(self: Section, name: str) -> Any:
        if not sys._getframe(1).f_code.co_filename.endswith(WALKERS):
            found.add((type(self).__name__, name))
        return original(self, name)

    patch = pytest.MonkeyPatch()
    worked = proposal.__globals__["_worked"]
    with patch.context() as context:
        context.setattr(Section, "__getattribute__", watch)
        worked.cache_clear()
        for example, mode, changes in [
            ("1", "propose", {}),
            ("2", "propose", {}),
            ("4", "propose", {}),
            ("7", "propose", {}),
            ("6", "check", {}),
            *(FIRES[code] for code in MORE),
            (
                "1",
                "propose",
                {"network.trunk": None, "network.nodes": [{"name": "display", "place": "lower helm", "current": "0.2 A"}]},
            ),
            ("7", "check", {"aboard.lanes.bow.charger.row": None, "aboard.lanes.bow.charger.current": "8 A", **SOUND}),
        ]:
            answer = proposal(example, changes, mode)  # type: ignore[arg-type]
            if not changes:
                proposal_json(answer)
                dossier_pdf(answer, "", {})
                four_cases(afloat(answer))
    return found


def test_every_field_is_read_or_listed(seen: set[tuple[str, str]]) -> None:
    unread = [
        path
        for path, section, name in leaves(Brief)
        if (section.__name__, name) not in seen and path not in NOT_USED and path not in FILE_ONLY
    ]
    assert not unread


def test_a_listed_field_is_not_read(seen: set[tuple[str, str]]) -> None:
    known = {path: (section.__name__, name) for path, section, name in leaves(Brief)}
    assert set(NOT_USED) <= set(known), "a listed field does not exist"
    assert not [path for path in NOT_USED if known[path] in seen]


def test_the_watch_can_fail(seen: set[tuple[str, str]]) -> None:
    assert ("Boat", "no_such_field") not in seen
    assert ("Boat", "beam") in seen
