"""Charts: no two labels over each other, curves where their figures are, the asked value drawn."""

from __future__ import annotations

import itertools
import re
from math import degrees, inf, pi

import pytest

from athwart.design.proposal import Lane
from athwart.papers import charts, pages_need, pages_power
from athwart.papers.context import Context
from tests.unit.papers.made import EXAMPLES, brief_of, proposal_of


def context(name: str) -> Context:
    """The context of an example."""
    file = brief_of(name)
    return Context(proposal_of(name), file.digest, file.origins)


def clashes(chart: charts.Chart) -> list[tuple[str, str]]:
    """Pairs of labels that lie over each other."""
    return [(one.text, other.text) for one, other in itertools.combinations(chart.labels, 2) if one.overlaps(other)]


def drawn(monkeypatch: pytest.MonkeyPatch) -> list[charts.Chart]:
    """Every chart whose SVG is asked for from here on."""
    found: list[charts.Chart] = []
    plain = charts.Chart.svg

    def keep(self: charts.Chart) -> str:
        found.append(self)
        return plain(self)

    monkeypatch.setattr(charts.Chart, "svg", keep)
    return found


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_two_labels_lie_over_each_other_and_none_leaves_its_chart(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    found = drawn(monkeypatch)
    c = context(name)
    pages_need.need_page(c)
    pages_need.place_pages(c)
    pages_power.power_page(c)
    pages_power.fault_page(c)
    assert found
    for chart in found:
        assert clashes(chart) == []
        for label in chart.labels:
            assert label.left >= -0.1, label
            assert label.right <= chart.width + 0.1, label
            assert label.top >= -0.1, label
            assert label.bottom <= chart.height + 0.1, label


def test_a_clash_is_found_when_there_is_one() -> None:
    chart = charts.Chart(50, 50)
    chart.text((10, 10), "one")
    chart.text((11, 10.5), "two")
    assert clashes(chart) == [("one", "two")]


def test_the_polar_picture_is_symmetric_and_its_least_point_is_the_answer() -> None:
    c = context("1-motor-yacht")
    lane: Lane = c.proposal.lanes[0]
    held, sigma = pages_need._held(c, lane)
    assert lane.wind_held_worst is not None
    least = min(speed for _, speed in held)
    assert least == pytest.approx(lane.wind_held_worst / 0.5144444, rel=2e-3)
    assert 0.02 < sigma < 0.3
    by_angle = {round(degrees(angle), 1): speed for angle, speed in held}
    for angle, speed in by_angle.items():
        if 0 < angle < 180:
            assert by_angle[-angle] == pytest.approx(speed)


def test_beyond_the_outer_ring_the_curve_is_held_on_it() -> None:
    chart = charts.polar([(0.0, 500.0), (pi / 2, 10.0), (pi, 500.0)], 0.1, 20.0, 40.0)
    assert "nan" not in chart.svg()
    assert "inf" not in chart.svg()


def test_stairs_name_every_piece_with_its_volts() -> None:
    steps = [
        charts.Step("at rest", 25.6, 0.0, 0.1, 24.8),
        charts.Step("posts", 23.0, 2.6, 0.3, 21.6),
        charts.Step("1P1", 22.9, 0.1, 0.3, 21.5),
    ]
    chart = charts.stair(steps, "full", "cold", 21.0, "21.0 V, least at the unit")
    texts = [label.text for label in chart.labels]
    assert {"at rest", "posts", "1P1", "25.60", "22.90"} <= set(texts)
    assert any("least at the unit" in text for text in texts)
    assert clashes(chart) == []


def test_a_fuse_that_never_opens_and_a_cable_that_bears_for_ever_still_make_a_picture() -> None:
    data = charts.Coordination(
        ("F1.1 500 A", "least to most"), lambda amps: (inf, inf) if amps < 900 else (1.0, inf), ("cable 70 mm²", "bears"), lambda amps: inf if amps < 500 else 100.0,
        (300.0, 60.0), "longest run 60 s", (charts.Mark(1500.0, ("least fault 1.50 kA", "unit")), charts.Mark(1520.0, ("locked", "cold"))),
    )  # fmt: skip
    chart = charts.coordination(data)
    assert clashes(chart) == []
    assert not re.search(r"nan|inf", chart.svg().replace("window", ""))


def test_a_margin_bar_is_a_share_of_one_and_a_half_times_the_asked_value() -> None:
    made = charts.bar(30.0, 20.0, 2.0)
    assert made is not None
    assert made["found"] == pytest.approx(1.0)
    assert made["asked"] == pytest.approx(2 / 3)
    assert made["low"] == pytest.approx(28 / 30)
    assert charts.bar(60.0, 20.0, None) == {"found": 1.0, "low": 1.0, "high": 1.0, "asked": pytest.approx(2 / 3), "over": 1.0}
    assert charts.bar(None, 20.0, 1.0) is None
    assert charts.bar(5.0, None, 1.0) is None


def test_labels_are_spread_apart_in_order() -> None:
    assert charts.spread([1.0, 1.5, 2.0], 3.0, 0.0, 20.0) == [1.0, 4.0, 7.0]
    assert charts.spread([18.0, 19.0], 3.0, 0.0, 20.0) == [17.0, 20.0]
