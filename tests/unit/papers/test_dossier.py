"""The dossier: everything said, every tag named, nothing over the edge, same bytes twice."""

from __future__ import annotations

import io
import json
import re
from dataclasses import replace
from functools import cache

import pypdf
import pypdfium2
import pytest

from athwart import resources
from athwart.design.proposal import Proposal
from athwart.papers import dossier
from athwart.papers.context import CAUTION, INVENTED
from athwart.papers.dossier import PaperError, compiled, dossier_data, dossier_pdf, glued
from tests.properties import proposal_strategies as shapes
from tests.unit.papers.made import EXAMPLES, brief_of, data_of, digest, pdf_of, proposal_of

A4 = (595.3, 841.9)
MM = 72 / 25.4


@cache
def pages(name: str) -> tuple[str, ...]:
    """Text of each page."""
    return tuple(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf_of(name))).pages)


def plain(text: str) -> str:
    """Text with every kind of space and the invisible ones as one space."""
    return re.sub(r"[\s\u00a0\u202f\u200b\u00ad]+", " ", text)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_tag_of_the_netlist_is_named(name: str) -> None:
    whole = plain(" ".join(pages(name)))
    net = proposal_of(name).netlist
    for tag in [*(part.tag for part in net.components), *(wire.tag for wire in net.conductors)]:
        assert tag in whole, tag


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_first_page_asks_and_answers_the_six_questions(name: str) -> None:
    first = plain(pages(name)[0])
    answers = proposal_of(name).answers
    assert len(answers) == 6
    for answer in answers:
        assert plain(answer.question) in first
        assert plain(answer.figure) in first


@pytest.mark.parametrize("name", EXAMPLES)
def test_caution_and_notice_of_the_invented_catalogue_stand_on_every_page(name: str) -> None:
    for number, text in enumerate(pages(name), 1):
        assert CAUTION in plain(text), f"page {number}"
        assert INVENTED in plain(text), f"page {number}"


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_text_page_says_which_boat_issue_date_page_and_input(name: str) -> None:
    brief, reader = brief_of(name), pypdf.PdfReader(io.BytesIO(pdf_of(name)))
    counted = 0
    for page in reader.pages:
        text = plain(page.extract_text())
        if float(page.mediabox.width) > 600 or f"{brief.brief.number}-O1" in text.split("input")[0][-260:]:
            continue
        counted += 1
        assert f"Dossier {brief.brief.number}, issue {brief.brief.issue}" in text
        assert brief.brief.date in text
        assert brief.digest[:12] in text
    assert counted >= 10


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_runs_over_the_edge_of_the_text(name: str) -> None:
    """Margins of the A4 pages are blank: 27 mm left, 19 right, the head above and the foot below."""
    document = pypdfium2.PdfDocument(pdf_of(name))  # type: ignore[no-untyped-call]
    for number in range(len(document)):
        page = document[number]
        if abs(page.get_width() - A4[0]) > 1:
            continue
        picture = page.render(scale=1, grayscale=True).to_numpy()
        height, width = picture.shape
        assert picture[:, : int(27 * MM)].min() > 250, f"page {number + 1}, left"
        assert picture[:, width - int(19 * MM) :].min() > 250, f"page {number + 1}, right"
        assert picture[: int(12 * MM), :].min() > 250, f"page {number + 1}, above"
        assert picture[height - int(10 * MM) :, :].min() > 250, f"page {number + 1}, below"


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_page_is_nearly_empty(name: str) -> None:
    for number, text in enumerate(pages(name), 1):
        assert len(plain(text)) > 330, f"page {number}: {text}"


def test_the_same_proposal_gives_the_same_bytes() -> None:
    file = brief_of("1-motor-yacht")
    again = dossier_pdf(proposal_of("1-motor-yacht"), file.digest, file.origins)
    assert digest(again) == digest(pdf_of("1-motor-yacht"))
    other = dossier_pdf(proposal_of("1-motor-yacht"), "0" * 64, file.origins)
    assert digest(other) != digest(again)


def test_the_file_has_a_title_a_language_and_tags() -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf_of("1-motor-yacht")))
    brief = brief_of("1-motor-yacht").brief
    assert reader.metadata is not None
    assert reader.metadata.title == f"{brief.number} {brief.name}"
    root = reader.trailer["/Root"]
    assert root["/Lang"] == "en"  # type: ignore[index]
    assert root["/MarkInfo"]["/Marked"]  # type: ignore[index]


def test_a_boats_name_is_words_and_never_code() -> None:
    proposal = proposal_of("1-motor-yacht")
    evil = "#panic() $x^2$ *b* _i_ @no \\ <l> //"
    named = replace(proposal, brief=proposal.brief.model_copy(update={"name": evil, "story": evil}))
    reader = pypdf.PdfReader(io.BytesIO(dossier_pdf(named, "0" * 64)))
    assert evil in plain(reader.pages[0].extract_text())


def test_an_open_stop_stands_in_the_head_of_every_page_until_it_is_accepted() -> None:
    name = "6-old-installation"
    stops = [finding for finding in proposal_of(name).findings if finding.severity == "stop"]
    assert stops
    for number, text in enumerate(pages(name), 1):
        if f"page {number} of" in plain(text):
            assert "NOT TO BE BUILT: S-1" in plain(text), f"page {number}"
    assert not any("NOT TO BE BUILT" in text for text in pages("1-motor-yacht"))


def test_an_accepted_stop_is_printed_with_its_reason_and_no_banner() -> None:
    from athwart.design.brief import Override
    from athwart.findings import Finding

    proposal = proposal_of("1-motor-yacht")
    stop = Finding("TUNNEL-01", "stop", "bow", "too little cover", "0.4 D", "0.5 D", -0.2, "own-judgement", "go deeper")
    reason = "towed to the berth by a tug every time"
    choices = proposal.brief.choices.model_copy(update={"overrides": (Override(finding="TUNNEL-01", reason=reason),)})
    barred = dossier_data(replace(proposal, findings=(stop,)), "", {})
    passed = dossier_data(
        replace(proposal, findings=(stop,), brief=proposal.brief.model_copy(update={"choices": choices})), "", {}
    )
    assert barred["banner"] == "NOT TO BE BUILT: S-1"
    assert passed["banner"] == ""
    assert reason in json.dumps(passed)


def test_hydraulic_lanes_read_not_computed_yet() -> None:
    shape = shapes.Shape(units=(shapes.UnitShape(), shapes.UnitShape(role="stern", bank=None)))
    made = rated(shapes.proposal_of(shape))
    made = replace(
        made,
        lanes=(
            made.lanes[0],
            replace(
                made.lanes[1],
                design=None,
                peak=None,
                not_computed="hydraulic: everything but duty, pressure and flow is not computed yet",
            ),
        ),
    )
    text = plain(" ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(dossier_pdf(made, "0" * 64))).pages))
    assert text.count("not computed yet") >= 4


@pytest.mark.parametrize(
    "shape",
    [
        shapes.Shape(units=tuple(shapes.UnitShape(bank=k % 3) for k in range(5)), banks=(shapes.BankShape(parallel=3), shapes.BankShape(series=4), shapes.BankShape(series=1)), helms=4),
        shapes.Shape(units=(shapes.UnitShape(stop=None, switch=False, fuse=False),), network=False, helms=0),
        shapes.Shape(units=(shapes.UnitShape(stop="latching", parallel=3),), names=" with a long name, port side", rule_set="us", common_negative="isolated"),
    ],
)  # fmt: skip
def test_systems_of_any_shape_are_set_without_a_warning(shape: shapes.Shape) -> None:
    made = rated(shapes.proposal_of(shape))
    assert dossier_pdf(made, "0" * 64).startswith(b"%PDF")


def test_a_warning_of_the_writer_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    plain_template = resources.data(*dossier.TEMPLATE)
    assert b"Libertinus Serif" in plain_template
    monkeypatch.setattr(resources, "data", lambda *_: plain_template.replace(b"Libertinus Serif", b"No Such Face"))
    with pytest.raises(PaperError, match="unknown font"):
        compiled(data_of("1-motor-yacht"))


def test_a_mistake_in_the_template_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(resources, "data", lambda *_: b"#nothing-of-this-name")
    with pytest.raises(PaperError, match=r"dossier\.typ"):
        compiled({})


def test_numbers_do_not_break_from_their_units() -> None:
    assert glued("asked 1 090 N at 21.0 V; 2 banks") == "asked 1\u00a0090\u00a0N at 21.0\u00a0V; 2 banks"
    assert glued({"svg": "1 000 N", "text": ["5 m"]}) == {"svg": "1 000 N", "text": ["5\u00a0m"]}


def test_every_finding_is_printed_with_its_number_and_remedy() -> None:
    name = "6-old-installation"
    whole = plain(" ".join(pages(name)))
    counts = {"stop": 0, "caution": 0, "note": 0}
    for finding in proposal_of(name).findings:
        counts[finding.severity] += 1
        assert finding.code in whole
    for letter, severity in (("S", "stop"), ("C", "caution"), ("N", "note")):
        if counts[severity]:
            assert f"{letter}-{counts[severity]} " in whole


def rated(made: Proposal) -> Proposal:
    """The proposal of a shape, its units with a rated point and its banks with their volts."""
    lanes = tuple(replace(lane, unit=replace(lane.unit, rated_volts=22.0, rated_current=340.0)) for lane in made.lanes)
    return replace(made, lanes=lanes)
