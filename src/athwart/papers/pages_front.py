"""First pages: the six answers, key data, findings, assumptions and bands."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import ceil, degrees
from typing import Any

from athwart.design.proposal import Answer, Lane
from athwart.papers import blocks as b
from athwart.papers import figures as f
from athwart.papers.charts import bar
from athwart.papers.context import Context
from athwart.papers.sheet import RULE_SETS
from athwart.papers.steps import ANSWERS, bank_words
from athwart.trial.commissioned import state_words

INDEX = re.compile(r"\[(\d+)\]")
HALF_PAGE = 60
"""Rows of a column of defaults that still fit one page."""
LETTERS, LINES = 66, 33
"""Letters in a line of an answer, and lines of answers that leave room for the key data on the first page."""


def answers_page(c: Context) -> b.Block:
    """Title fields, the six answers, the data everybody asks for next."""
    brief = c.brief
    fields = [
        ("boat", brief.name),
        ("hull", f"{f.metres(brief.boat.length_overall, 2)}, {brief.boat.kind}, {brief.boat.hull_material}"),
        ("issue", f"{brief.issue}, {'first issue' if brief.issue == 'A' else 'replaces the issue before it'}"),
        ("rule set", RULE_SETS[brief.choices.rule_set]),
        ("catalogue", c.proposal.catalogue.name),
        ("date", brief.date),
    ]
    blocks: list[b.Block] = [{"kind": "fields", "pairs": [list(entry) for entry in fields]}]
    if brief.story:
        blocks.append(b.text(brief.story))
    blocks.append({"kind": "answers", "rows": [_answer(answer) for answer in c.proposal.answers]})
    if _fits_first_page(c):
        blocks += [b.section("Key data"), _key_data(c)]
    return b.page("Answers", blocks)


def _fits_first_page(c: Context) -> bool:
    """Whether the key data find room under the answers: the lines of the six sentences, counted by their letters."""
    lines = sum(
        max(ceil((len(a.sentence) + len(a.remark)) / LETTERS), ceil(len(a.question) / 16), 2) + 0.7 for a in c.proposal.answers
    )
    return lines <= LINES


def _answer(a: Answer) -> dict[str, Any]:
    asked = (
        f"asked {f.number(a.asked, 0 if a.asked == round(a.asked) else 1)}{f.SPACE}{a.unit}"
        if a.asked is not None and a.unit
        else ""
    )
    if a.unit == "parts":
        asked = ""
    if asked and a.better == "less":
        asked = asked.replace("asked", "at most")
    band = f"±{f.SPACE}{f.number(a.band, 1 if a.band < 10 else 0)}{f.SPACE}{a.unit}" if a.band is not None else ""
    return {
        "question": a.question, "sentence": a.sentence, "remark": a.remark, "figure": a.figure, "verdict": a.verdict, "band": band, "asked": asked,
        "bar": bar(a.found, a.asked, a.band) if asked else None,
    }  # fmt: skip


def data_page(c: Context) -> b.Block:
    """Findings, assumptions and bands."""
    first = [] if _fits_first_page(c) else [b.section("Key data"), _key_data(c)]
    return b.page(
        "Findings and assumptions" if not first else "Key data, findings and assumptions",
        [*first, *_findings(c), *_assumptions(c)],
    )


def _key_data(c: Context) -> b.Block:
    p, need = c.proposal, c.proposal.need
    lanes = p.lanes
    rows: list[list[b.Cell]] = [
        [
            "windage, side view",
            *_same(lanes, f"{f.number(need.lateral_area, 1)} m² ± {f.percent(c.brief.boat.windage_uncertainty)}"),
        ],
        ["wind asked; on the silhouette, gust in it", *_same(lanes, f"{f.knots(need.wind_speed)}; {f.knots(need.design_speed)}")],
    ]

    def row(name: str, of: Any) -> None:
        rows.append([name, *[of(lane) for lane in lanes]])

    ruling = {lane.lane: need.ruling(lane.thruster.identity) for lane in lanes}
    row("thrust needed, worst heading", lambda n: _band(ruling[n.lane].worst, ruling[n.lane].sigma))
    row(
        "worst heading off the bow; thrust on the beam",
        lambda n: f"{degrees(ruling[n.lane].worst_heading):.0f}°; {f.newtons(ruling[n.lane].beam)}",
    )
    row("thrust there, bank cold and aged", lambda n: _band(n.design.thrust, n.design.thrust_sigma) if n.design else _not(n))
    row("thrust there, bank warm, full, charging", lambda n: f.newtons(n.peak.thrust) if n.peak else _not(n))
    row(
        "volts at the unit: cold, aged; warm",
        lambda n: f"{f.volts(n.design.terminal_volts)}; {f.volts(n.peak.terminal_volts)}" if n.design and n.peak else _not(n),
    )
    row(
        "amperes: cold, aged; warm; first moment",
        lambda n: (
            f"{f.amps(n.design.current)}; {f.amps(n.peak.current)}; {f.amps(n.start_current)}" if n.design and n.peak else _not(n)
        ),
    )
    row("bank", lambda n: bank_words(bank) if (bank := p.bank(n.bank)) else f.DASH)
    row(
        "cable a pole, loop of the route",
        lambda n: f"{_cable(n)}, {f.metres(n.cable.plus + n.cable.minus)}" if n.cable else f.DASH,
    )
    row("main fuse", lambda n: f"{f.amps(n.fuse.fuse.rating)} {n.fuse.family.family}" if n.fuse else "none")
    row("greatest fault, at the bank", lambda n: f.kiloamps(bank.fault_current_most) if (bank := p.bank(n.bank)) else f.DASH)
    row(
        "cover over the tunnel, lightest trim",
        lambda n: f"{f.millimetres(n.cover)}, {f.number(n.cover_ratio, 2)} D" if n.unit.tunnel_diameter else f.DASH,
    )
    columns: list[b.Column] = [("", "l", "auto"), *[(lane.thruster.identity, "l", "1fr") for lane in lanes]]
    return b.table(columns, rows, size=8.5 if len(lanes) < 3 else 7.0)


def _same(lanes: tuple[Lane, ...], words: str) -> list[str]:
    return [words] + [f.DASH] * (len(lanes) - 1) if len(lanes) > 1 else [words]


def _not(lane: Lane) -> str:
    return "not computed yet" if lane.not_computed else f.DASH


def _band(value: float, sigma: float) -> str:
    return f"{f.newtons(value)} ± {f.number(value * sigma, -1)}"


def _cable(lane: Lane) -> str:
    assert lane.cable is not None
    many = f"{lane.cable.parallel} × " if lane.cable.parallel > 1 else ""
    return f"{many}{lane.cable.cable.gauge.replace('mm2', 'mm²')}"


def _findings(c: Context) -> list[b.Block]:
    if not c.numbered:
        return [b.section("Findings"), b.text("No rule has anything to say.")]
    rows: list[list[b.Cell]] = []
    for number, finding in c.numbered:
        figures = f"{finding.value}; limit {finding.limit}" if finding.value and finding.limit else finding.value or f.DASH
        accepted = next((entry.reason for entry in c.brief.choices.overrides if entry.finding == finding.code), "")
        remedy = f"Accepted in the brief: {accepted}" if accepted else finding.remedy
        rows.append([b.mark(finding.severity), f"{number} {finding.code}", f"{finding.where}: {finding.what}", figures, remedy])
    counts = {severity: sum(entry.severity == severity for _, entry in c.numbered) for severity in ("stop", "caution", "note")}
    words = f"{counts['stop']} of severity stop, {counts['caution']} cautions, {counts['note']} notes. Stop: not to be built before it is mended or accepted with a reason."
    columns: list[b.Column] = [
        ("finding", "l", "17mm"),
        ("no., code", "l", "21.5mm"),
        ("what", "l", "1.5fr"),
        ("value and limit", "l", "0.75fr"),
        ("what to do", "l", "1.1fr"),
    ]
    return [b.section("Findings"), b.table(columns, rows, size=7.5, inset=2.4), b.text(words, small=True)]


def _assumptions(c: Context) -> list[b.Block]:
    p = c.proposal
    found: list[b.Block] = [b.section("Assumptions and bands")]
    found.append(
        b.text(
            "A band (±) is one standard deviation. A range is lowest to highest, a limit is ≤ or ≥. Design state: bank at its coldest, 70 % charged, "
            "its resistance 1.5 times that of new and its capacity 0.8, charger off, cables at 50 °C. Peak state: 25 °C, full, new, charging, cables at 20 °C. "
            + (f"Commissioning: {state_words(p.banks[0])}." if p.banks else "")
        )
    )
    if p.unverified:
        found.append(
            b.text(
                f"{len(p.unverified)} things this verdict rests on were not verified; where they touch fuse, cable or stop it reads “to be verified”."
            )
        )
        found.append(
            b.table(
                [("no.", "r", "auto"), ("unverified", "l", "1fr")],
                [[str(n), words] for n, words in enumerate(p.unverified, 1)],
                size=7.5,
                inset=1.9,
            )
        )
    if p.need.assumptions:
        found.append(b.text("Need: " + "; ".join(p.need.assumptions) + "."))
    found.append(b.text(ANSWERS, small=True))
    if p.defaults:
        listed = grouped(p.defaults)
        half = (len(listed) + 1) // 2
        tables = [
            b.table(
                [("default used", "l", "1fr"), ("value", "r", "auto")],
                [[b.tag(path), value] for path, value in part],
                size=7.0,
                inset=1.7,
            )
            for part in (listed[:half], listed[half:])
            if part
        ]
        found += [b.section("Defaults used"), b.pair(tables[:1], tables[1:], whole=half <= HALF_PAGE)]
    return found


def grouped(defaults: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
    """Defaults of one field and one value in several places as one line: ``layout.places[0, 2].ventilated``.

    >>> grouped((("places[0].tall", "no"), ("users", "owner"), ("places[2].tall", "no"), ("places[3].tall", "yes")))
    [('places[0, 2].tall', 'no'), ('users', 'owner'), ('places[3].tall', 'yes')]
    """
    places: dict[tuple[str, str, str], list[str]] = {}
    for path, value in defaults:
        found = INDEX.search(path)
        before, index, after = (path[: found.start()], found.group(1), path[found.end() :]) if found else (path, "", "")
        places.setdefault((before, after, value), []).append(index)
    return [
        (f"{before}[{', '.join(at)}]{after}" if at != [""] else before, value) for (before, after, value), at in places.items()
    ]
