"""Real briefs for the tests of the checks: an example, a few changes, the whole way through search and examination.

``proposal("1", {"wind.speed": "40 kn"})`` reads example 1 with that one value changed. A value is what a person would type:
text, or a list or mapping for a whole section; None takes the key (or the list's item) out. Paths are those of the findings:
``thrusters[0].tunnel.axis_depth``. Results are kept, since a search costs far more than a look at its findings.

Firing and non-firing tests name the code they are about::

    @fires("TUNNEL-05")
    def test_a_sharp_entry_is_seen() -> None: ...

    @silent("TUNNEL-05")
    def test_a_rounded_entry_is_not() -> None: ...

The two marks are read by ``tests/contracts/test_findings_tested.py``.
"""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any, Literal, TypeVar

from ruamel.yaml import YAML

from athwart.catalogue.builtin import builtin
from athwart.design.brief import Brief
from athwart.design.proposal import Proposal
from athwart.findings import Finding
from athwart.store.amend import loc_of
from athwart.store.briefs import parse_brief

EXAMPLES = Path(__file__).parents[4] / "examples"
Mode = Literal["propose", "check"]
Test = TypeVar("Test", bound=Callable[..., None])

FIRING: dict[str, list[str]] = {}
"""Code -> names of tests in which it must be found."""
SILENT: dict[str, list[str]] = {}
"""Code -> names of tests in which it must not."""


def fires(*codes: str) -> Callable[[Test], Test]:
    """Mark a test in which these codes must be found."""
    return _mark(FIRING, codes)


def silent(*codes: str) -> Callable[[Test], Test]:
    """Mark a test in which these codes must not be found."""
    return _mark(SILENT, codes)


def _mark(register: dict[str, list[str]], codes: tuple[str, ...]) -> Callable[[Test], Test]:
    def mark(test: Test) -> Test:
        for code in codes:
            register.setdefault(code, []).append(test.__name__)
        return test

    return mark


def text_of(example: str) -> str:
    """The text of an example, by its number."""
    return next(EXAMPLES.glob(f"{example}*.yaml")).read_text(encoding="utf-8")


def changed_text(text: str, changes: Mapping[str, Any]) -> str:
    """A brief's text with values changed, put in or (None) taken out."""
    yaml = YAML()
    yaml.width = 10_000
    data = yaml.load(text)
    for path, value in changes.items():
        _put(data, loc_of(path), value, path)
    out = io.StringIO()
    yaml.dump(data, out)
    return out.getvalue()


def _put(data: Any, loc: tuple[str | int, ...], value: Any, path: str) -> None:
    for part in loc[:-1]:
        if isinstance(data, list):
            data = data[int(part)]
        else:
            data = data.setdefault(part, {})
    last = loc[-1]
    if value is None:
        if (last in data) if isinstance(data, dict) else (int(last) < len(data)):
            del data[last]
            return
        raise KeyError(f"{path} is not in the brief: nothing to take out")
    if isinstance(data, list) and int(last) == len(data):
        data.append(value)
    else:
        data[last] = value


def brief(example: str, changes: Mapping[str, Any] | None = None) -> Brief:
    """A brief with changes."""
    return parse_brief(changed_text(text_of(example), changes or {}), f"example {example}").brief


def proposal(example: str, changes: Mapping[str, Any] | None = None, mode: Mode = "propose") -> Proposal:
    """The proposal for a brief with changes; the same question is worked out once."""
    return _worked(example, json.dumps(changes or {}, sort_keys=False), mode)


@lru_cache(maxsize=256)
def _worked(example: str, changes: str, mode: Mode) -> Proposal:
    from athwart.design.search import propose as search

    file = parse_brief(changed_text(text_of(example), json.loads(changes)), f"example {example}")
    work = search.propose if mode == "propose" else search.check
    return work(file.brief, builtin(), defaults=file.defaults)


def codes(found: Proposal) -> set[str]:
    """The codes of a proposal's findings."""
    return {finding.code for finding in found.findings}


def of(found: Proposal, code: str, where: str = "") -> tuple[Finding, ...]:
    """The findings of one code, at one place where it is named."""
    return tuple(finding for finding in found.findings if finding.code == code and where in finding.where)


def severities(found: Proposal, code: str) -> set[str]:
    """Severities a code has in a proposal."""
    return {finding.severity for finding in of(found, code)}
