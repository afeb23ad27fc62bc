"""Briefs with wild but readable numbers: each is answered, or refused in words; no other exception.

Every value with a unit is scaled, every choice may be dropped; the seed is fixed and printed in the test's id.
"""

from __future__ import annotations

import random
import re

import pytest

from athwart.catalogue.builtin import builtin
from athwart.design.search.propose import check, propose
from athwart.errors import AthwartError, BriefError
from athwart.papers.as_json import proposal_json
from athwart.resources import example, example_names
from athwart.store.briefs import parse_brief

SEED = 20_261_125
BRIEFS = 120
NUMBER = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?)(?= (?:m|mm|cm|t|kg|kn|A|V|Ah|s|min|h|mm2|mohm|m2|deg|%|°C|dBA|rpm|kW)\b)")


def wild(rng: random.Random) -> str:
    """An example with some of its numbers scaled and some of its lines dropped."""
    lines = example(rng.choice(example_names())).split("\n")
    for _ in range(rng.randint(1, 6)):
        at = rng.randrange(len(lines))
        factor = rng.choice((0.0, 0.01, 0.1, 0.5, 2.0, 5.0, 20.0, 100.0))
        lines[at] = NUMBER.sub(lambda found, k=factor: f"{float(found.group(1)) * k:.6g}", lines[at])  # type: ignore[misc]
    for _ in range(rng.randint(0, 2)):
        at = rng.randrange(len(lines))
        if re.match(r"^\s+\w+: \S", lines[at]):
            del lines[at]
    return "\n".join(lines)


@pytest.mark.parametrize("part", range(6), ids=lambda part: f"seed {SEED} part {part}")
def test_a_wild_brief_is_answered_or_refused_in_words(part: int) -> None:
    rng = random.Random(SEED + part)
    answered = 0
    for _ in range(BRIEFS // 6):
        text = wild(rng)
        try:
            file = parse_brief(text)
        except BriefError:
            continue
        for search in (propose, check):
            try:
                proposal = search(file.brief, builtin(), defaults=file.defaults)
            except AthwartError as error:
                assert str(error)
                continue
            proposal_json(proposal)
            answered += 1
    assert answered > 0
