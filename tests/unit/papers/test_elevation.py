"""Scale, places and words of the elevation and of the sections at the tunnels."""

from __future__ import annotations

from dataclasses import replace

import pytest

from athwart.papers.audit import audit
from athwart.papers.elevation import elevation, lightest
from athwart.papers.scene import Circle, Scene
from tests.properties.proposal_strategies import Shape, UnitShape, proposal_of


def words(*scenes: Scene) -> list[str]:
    return [text.text for scene in scenes for text in scene.texts()]


@pytest.mark.parametrize(("length", "scale"), [(6.0, 25), (8.5, 50), (14.0, 50), (18.0, 100), (24.0, 100), (40.0, 200)])
def test_the_scale_suits_the_boat(length: float, scale: int) -> None:
    sheet = elevation(proposal_of(Shape(length=length)))[0]
    assert f"SIDE ELEVATION  1 : {scale}" in words(sheet)


def test_a_metre_is_twenty_millimetres_at_one_to_fifty() -> None:
    sheet = elevation(proposal_of(Shape(units=(UnitShape(), UnitShape(role="stern", bank=None)))))[0]
    tunnels = [
        element for element in sheet.elements if isinstance(element, Circle) and element.radius == pytest.approx(0.125 * 20)
    ]
    bow, stern = sorted((circle.centre[0] for circle in tunnels), reverse=True)
    assert bow - stern == pytest.approx((0.88 - 0.02) * 14.0 * 20.0, abs=0.2)


def test_the_bow_is_at_the_right_wherever_x_begins() -> None:
    for x_from in ("transom", "bow"):
        sheet = elevation(proposal_of(Shape(x_from=x_from, units=(UnitShape(), UnitShape(role="stern")))))[0]
        tunnels = [element.centre[0] for element in sheet.elements if isinstance(element, Circle) and element.fill == "white"]
        assert max(tunnels) > 300.0 > min(tunnels)


def test_the_lightest_waterline_counts_trim_and_is_named_when_it_differs() -> None:
    proposal = proposal_of(Shape())
    aft, forward = lightest(proposal)
    assert aft == pytest.approx(-0.004)
    assert forward == pytest.approx(0.012)
    assert "lightest, trimmed" in words(elevation(proposal)[0])
    level = replace(proposal, trim=replace(proposal.trim, bow_change=0.002, stern_change=0.001))
    assert "lightest, trimmed" not in words(elevation(level)[0])


def test_what_is_given_by_area_only_or_cut_off_is_said() -> None:
    text = " ".join(words(elevation(proposal_of(Shape(underwater=False)))[0]))
    assert "By area only, not drawn: mast 1.2 m²." in text
    assert "Underwater profile not in the brief" in text


def test_a_section_says_there_wanted_and_rule_once() -> None:
    sheets = elevation(proposal_of(Shape()))
    text = words(sheets[1])
    assert sheets[1].number == "A-001-G2"
    assert {"cover 250", "axis 550", "D 250", "below 275"} <= set(text)
    assert [line for line in text if line.startswith(("below 0", "below 1 D"))] == [
        "below 1 D: note",
        "below 0.75 D: caution",
        "below 0.5 D: stop",
    ]


def test_eight_tunnels_take_two_sheets_of_sections() -> None:
    sheets = elevation(proposal_of(Shape(units=tuple(UnitShape(bank=0) for _ in range(8)))))
    assert len(sheets) == 3
    assert audit(sheets) == ()
