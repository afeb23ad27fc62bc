"""The schedules as a workbook: cables, fuses, bill of materials, commissioning, findings. Units stand in the heads.

Text is written as text: nothing a user typed becomes a formula or an address. Equal inputs give equal bytes.
"""

from __future__ import annotations

import datetime
import io
from collections.abc import Iterable, Sequence
from math import degrees
from typing import TYPE_CHECKING, Any

from athwart.design.proposal import Proposal
from athwart.design.robustness.cases import most_looked
from athwart.papers.bill import bill, family_of
from athwart.papers.context import CAUTION, Context
from athwart.trial.predicted import GROUPS, sheets
from athwart.units import KNOT

if TYPE_CHECKING:
    from xlsxwriter.format import Format
    from xlsxwriter.workbook import Workbook

Value = str | float | int | None
OPTIONS: dict[str, Any] = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
    "nan_inf_to_errors": True,
}
WIDEST = 60

SHEETS = ("cable schedule", "fuse schedule", "bill of materials", "commissioning", "findings", "wind held")


def workbook(proposal: Proposal, digest: str) -> bytes:
    """The workbook as bytes.

    Parameters
    ----------
    proposal : What is written.
    digest : SHA-256 of the brief's text.
    """
    return workbook_of(Context(proposal, digest, {}))


def workbook_of(c: Context) -> bytes:
    """The workbook of papers in the making."""
    from xlsxwriter.workbook import Workbook

    proposal, digest = c.proposal, c.digest
    stream = io.BytesIO()
    book = Workbook(stream, OPTIONS)
    year, month, day = (int(part) for part in proposal.brief.date.split("-"))
    book.set_properties(
        {
            "title": f"{c.number} {proposal.brief.name}", "author": "athwart", "comments": f"{c.notice} Input {digest[:12]}.",
            "created": datetime.datetime(year, month, day, tzinfo=datetime.UTC).replace(tzinfo=None),
        }
    )  # fmt: skip
    tables = (_cables(proposal), _fuses(proposal), _bill(proposal), _commissioning(proposal), _findings(c), _held(c))
    for name, (heads, rows) in zip(SHEETS, tables, strict=True):
        _sheet(
            book,
            name,
            f"{c.number}, issue {proposal.brief.issue}, {proposal.brief.name}, {proposal.brief.date}",
            c.notice + (f" {c.banner}." if c.banner else ""),
            heads,
            rows,
        )
    book.close()
    return stream.getvalue()


Table = tuple[Sequence[str], list[Sequence[Value]]]


def _sheet(book: Workbook, name: str, title: str, notice: str, heads: Sequence[str], rows: Iterable[Sequence[Value]]) -> None:
    sheet = book.add_worksheet(name)
    bold, head = (
        book.add_format({"bold": True}),
        book.add_format({"italic": True, "bottom": 1, "text_wrap": True, "valign": "bottom"}),
    )
    wrap = book.add_format({"text_wrap": True, "valign": "top"})
    top = book.add_format({"valign": "top"})
    sheet.write_string(0, 0, f"{name}: {title}", bold)
    sheet.write_string(1, 0, notice)
    for column, words in enumerate(heads):
        sheet.write_string(3, column, words, head)
    widths = [len(words) * 0.75 for words in heads]
    count = 0
    for count, row in enumerate(rows, 1):
        for column, value in enumerate(row):
            _write(sheet, 3 + count, column, value, wrap, top)
            widths[column] = max(widths[column], min(len(str(value if value is not None else "")), WIDEST))
    for column, width in enumerate(widths):
        sheet.set_column(column, column, max(6.0, min(width + 1.5, WIDEST)))
    sheet.freeze_panes(4, 1)
    sheet.autofilter(3, 0, 3 + max(count, 1), len(heads) - 1)
    sheet.set_landscape()
    sheet.set_paper(9)
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(3)
    sheet.set_footer(f"&L{_footer(notice)}&RPage &P of &N")


def _footer(words: str) -> str:
    """Words of a footer, where an ampersand would begin a code."""
    return words.replace("&", "&&")[:200]


def _write(sheet: Any, row: int, column: int, value: Value, wrap: Format, top: Format) -> None:
    if value is None or value == "":
        sheet.write_blank(row, column, None, top)
    elif isinstance(value, str):
        sheet.write_string(row, column, value, wrap)
    else:
        sheet.write_number(row, column, value, top)


def _round(value: float | None, places: int) -> float | None:
    return None if value is None else round(value, places) + 0.0


def _cables(p: Proposal) -> Table:
    heads = (
        "tag", "from", "to", "purpose", "colour", "size", "area, mm²", "in parallel", "length one way, m", "resistance at 20 °C, mΩ", "current, A", "carries, A",
        "ampacity verified", "fuse", "route", "catalogue row", "aboard", "fitted",
    )  # fmt: skip
    rows: list[Sequence[Value]] = [
        (
            w.tag, str(w.start), str(w.end), w.purpose, w.colour, w.size.replace("mm2", "mm²"), _round(w.area * 1e6, 2) or None, w.parallel, _round(w.length, 2),
            _round(w.resistance * 1e3, 3), _round(w.current, 1), _round(w.ampacity, 0), ("yes" if w.ampacity_verified else "no") if w.ampacity is not None else "",
            w.fuse or "", w.route, w.row or "", "yes" if w.aboard else "no", "",
        )
        for w in p.netlist.conductors
    ]  # fmt: skip
    return heads, rows


def _fuses(p: Proposal) -> Table:
    heads = (
        "tag",
        "name",
        "rating, A",
        "family",
        "catalogue row",
        "protects",
        "breaks, kA",
        "to, V",
        "from its source, m",
        "curve verified",
        "aboard",
        "fitted",
    )
    rows: list[Sequence[Value]] = []
    wires = p.netlist.conductors
    for part in p.netlist.components:
        if part.kind != "fuse":
            continue
        found = family_of(p, part)
        breaks = found[1].breaking_capacity[-1] if found and found[1].breaking_capacity else None
        rows.append(
            (
                part.tag, part.name, float(part.facts.get("amps", 0.0) or 0.0) or None, found[1].family if found else "", found[0].id if found else "",
                ", ".join(w.tag for w in wires if w.fuse == part.tag), _round(breaks[1] / 1e3, 2) if breaks else None, breaks[0] if breaks else None,
                _round(sum(w.length for w in wires if (w.end.component, w.end.terminal) == (part.tag, "1")), 2),
                ("yes" if found[1].verified else "no") if found else "", "yes" if part.aboard else "no", "",
            )
        )  # fmt: skip
    return heads, rows


def _held(c: Context) -> Table:
    """The largest wind held at every heading, one column a curve."""
    curves = [(polar, curve) for polar in c.polars for curve in polar.curves]
    most = _round(most_looked(c.brief) / KNOT, 1)
    heads = (
        f"wind off the bow, °, starboard + ({most:g} kn: that or more)",
        *(f"{p.case}: {p.name}, {curve.name}, kn" for p, curve in curves),
    )
    if not curves:
        return heads, []
    angles = [angle for angle, _ in curves[0][1].points]
    rows: list[Sequence[Value]] = [
        (round(degrees(angle)), *(_round(curve.points[place][1] / KNOT, 1) for _, curve in curves))
        for place, angle in enumerate(angles)
    ]
    return heads, rows


def _bill(p: Proposal) -> Table:
    money = p.brief.choices.currency
    heads = (
        "no.",
        "quantity",
        "unit",
        "part",
        "rating",
        "tags",
        "catalogue row",
        "mass, kg",
        f"price, {money}" if money else "price",
        "spare aboard",
        "note",
        "got",
    )
    rows: list[Sequence[Value]] = [
        (
            line.number, line.quantity, line.unit, line.what.replace("mm2", "mm²"), line.rating.replace("mm2", "mm²"), ", ".join(line.tags), line.row or "",
            _round(line.mass, 3), _round(line.price, 2), line.spare, line.note, "",
        )
        for line in bill(p)
    ]  # fmt: skip
    return heads, rows


def _commissioning(p: Proposal) -> Table:
    heads = (
        "sheet",
        "no.",
        "group",
        "reading",
        "probes at",
        "predicted",
        "± band",
        "unit",
        "least",
        "most",
        "pass limit",
        "measured to port",
        "measured to starboard",
    )
    rows: list[Sequence[Value]] = []
    for sheet in sheets(p):
        for r in sheet.readings:
            rows.append(
                (
                    sheet.number, r.number, GROUPS[r.group][0], r.what, r.where, r.words or _round(r.predicted, 3), _round(r.sigma, 3), r.unit, _round(r.least, 3),
                    _round(r.most, 3), r.limit, "", "" if r.per_direction else "–",
                )
            )  # fmt: skip
    return heads, rows


def _findings(c: Context) -> Table:
    heads = (
        "no.",
        "code",
        "severity",
        "where",
        "what",
        "value",
        "limit",
        "margin, %",
        "what to do",
        "source",
        "tags",
        "brief field",
    )
    rows: list[Sequence[Value]] = [
        (
            number, x.code, x.severity, x.where, x.what, x.value, x.limit, _round(None if x.margin is None else x.margin * 100, 1), x.remedy, x.source,
            ", ".join(x.tags), x.path,
        )
        for number, x in c.numbered
    ]  # fmt: skip
    return heads, rows or [("", "", "", "", f"No rule has anything to say. {CAUTION}", "", "", None, "", "", "", "")]
