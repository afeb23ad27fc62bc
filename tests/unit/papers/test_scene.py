"""Boxes, texts and lines of the drawing list."""

from __future__ import annotations

import pytest

from athwart.papers.scene import ADVANCE, Arc, Box, Pen, Text, offset, wrapped


def test_a_text_covers_its_width_and_leans_on_its_anchor() -> None:
    for anchor, left in (("start", 10.0), ("middle", 10.0 - 1.5 * 2 * ADVANCE), ("end", 10.0 - 3 * 2 * ADVANCE)):
        box = Text((10.0, 5.0), "1P2", 2.0, anchor).box  # type: ignore[arg-type]
        assert box.left == pytest.approx(left)
        assert box.right - box.left == pytest.approx(3 * 2.0 * ADVANCE)
        assert box.top < 5.0 < box.bottom


def test_only_letters_with_tails_reach_below_the_line() -> None:
    assert Text((0, 0), "main", 2.0).box.bottom < Text((0, 0), "plug", 2.0).box.bottom


def test_an_upright_text_reads_from_below() -> None:
    box = Text((10.0, 50.0), "abcd", 2.0, upright=True).box
    assert box.bottom == 50.0
    assert box.top == pytest.approx(50.0 - 4 * 2.0 * ADVANCE)
    assert box.left < 10.0


@pytest.mark.parametrize(
    ("start", "end", "inside"),
    [
        ((0, 5), (20, 5), 10.0),
        ((5, 0), (5, 5), 0.0),
        ((7, -3), (7, 30), 10.0),
        ((0, 0), (4, 20), 0.0),
        ((5, 0), (15, 0), 0.0),
        ((6, 5), (9, 5), 3.0),
    ],
)
def test_the_length_of_a_line_inside_a_box(start: tuple[float, float], end: tuple[float, float], inside: float) -> None:
    assert Box(5, 0, 15, 10).length_inside(start, end) == pytest.approx(inside)
    assert Box(5, 0, 15, 10).cut_by(start, end) == (inside > 0)


def test_boxes_that_share_an_edge_do_not_overlap() -> None:
    assert not Box(0, 0, 5, 5).overlaps(Box(5, 0, 9, 5))
    assert Box(0, 0, 5, 5).overlaps(Box(4.9, 0, 9, 5))
    assert Box(0, 0, 5, 5).contains(Box(1, 1, 5, 5))


def test_a_line_beside_a_bent_line_keeps_its_distance() -> None:
    assert offset(((0.0, 0.0), (10.0, 0.0), (10.0, 10.0)), 1.0) == ((0.0, 1.0), (9.0, 1.0), (9.0, 10.0))


def test_a_hydraulic_line_is_drawn_double_and_carries_its_tag_once() -> None:
    pen = Pen()
    pen.wire("1H1", (0.0, 0.0), (0.0, 0.0), (10.0, 0.0))
    scene = pen.scene("n", "N", "t", "d", 20, 20, None)
    assert [line.carries for line in scene.lines()] == ["1H1", "", ""]
    assert [line.role for line in scene.lines()] == ["hidden", "wire", "wire"]
    assert scene.lines()[0].points == ((0.0, 0.0), (10.0, 0.0))


def test_words_wrap_and_what_finds_no_room_is_cut_with_an_ellipsis() -> None:
    assert wrapped("main switch", 20) == ("main switch",)
    assert wrapped("stop at the flybridge", 12) == ("stop at the", "flybridge")
    assert wrapped("one two three four five six", 9, 2) == ("one two", "three fo…")
    assert wrapped("unbreakable", 6, 1) == ("unbre…",)


def test_an_arc_begins_and_ends_where_it_says() -> None:
    points = Arc((0.0, 0.0), 2.0, 180.0, 360.0, "symbol", "SYMBOL").points(4)
    assert points[0] == pytest.approx((-2.0, 0.0))
    assert points[2] == pytest.approx((0.0, -2.0))
    assert points[-1] == pytest.approx((2.0, 0.0))
