"""The audit sees each fault it is there for: a good drawing is spoilt in one way at a time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from athwart.design.netlist import Netlist
from athwart.papers.audit import audit
from athwart.papers.one_line import one_line
from athwart.papers.scene import Circle, Line, Scene, Text
from tests.properties.proposal_strategies import Shape, UnitShape, proposal_of

PROPOSAL = proposal_of(Shape())
GOOD = one_line(PROPOSAL)


def spoilt(change: Callable[[Scene], Scene]) -> str:
    return "\n".join(audit((change(GOOD[0]), *GOOD[1:]), PROPOSAL.netlist))


def wire(scene: Scene, tag: str) -> Line:
    return next(line for line in scene.lines() if line.carries == tag)


def without(scene: Scene, *gone: object) -> Scene:
    return replace(scene, elements=tuple(element for element in scene.elements if not any(element is entry for entry in gone)))


def with_more(scene: Scene, *more: Line | Text | Circle) -> Scene:
    return replace(scene, elements=(*scene.elements, *more))


def label(scene: Scene, tag: str) -> Text:
    return next(text for text in scene.texts() if text.tag == tag)


def symbol(scene: Scene, tag: str) -> tuple[float, float]:
    box = next(entry.box for entry in scene.symbols if entry.owner == tag)
    return (box.left + box.right) / 2, (box.top + box.bottom) / 2


def test_the_drawing_as_it_is_has_no_fault() -> None:
    assert audit(GOOD, PROPOSAL.netlist) == ()


def test_a_wire_through_a_symbol() -> None:
    x, y = symbol(GOOD[0], "F1.1")
    line = Line(((x, y - 15.0), (x, y + 15.0)), "power", "POS", "wire")
    assert "runs through F1.1" in spoilt(lambda scene: with_more(scene, line))


def test_a_dimension_or_help_line_through_a_symbol() -> None:
    x, y = symbol(GOOD[0], "U1.1")
    for role in ("dimension", "help"):
        line = Line(((x - 40.0, y), (x + 40.0, y)), "help", "DIM", role)
        assert "runs through U1.1" in spoilt(lambda scene, line=line: with_more(scene, line))  # type: ignore[misc]


def test_a_text_over_a_wire_a_text_and_a_symbol() -> None:
    good = label(GOOD[0], "1P2")
    on_wire = replace(good, tag="", at=wire(GOOD[0], "1P2").points[0], text="wire")
    assert "lies over line 1P2" in spoilt(lambda scene: with_more(scene, on_wire))
    twice = replace(good, tag="", text="twin")
    assert "lies over text" in spoilt(lambda scene: with_more(scene, twice))
    over = replace(good, tag="", at=symbol(GOOD[0], "U1.1"), text="over")
    assert "lies over U1.1" in spoilt(lambda scene: with_more(scene, over))


def test_a_text_on_the_rim_of_a_circle() -> None:
    text = label(GOOD[0], "1P2")
    ring = Circle((text.box.left - 1.0, text.at[1]), 2.0, "symbol", "SYMBOL")
    assert "lies over a circle" in spoilt(lambda scene: with_more(scene, ring))


def test_a_label_missing_doubled_or_wrong() -> None:
    text = label(GOOD[0], "1P2")
    assert "tag 1P2 stands 0 times" in spoilt(lambda scene: without(scene, text))
    assert "tag 1P2 stands 2 times" in spoilt(lambda scene: with_more(scene, replace(text, at=(300.0, 240.0))))
    wrong = replace(text, text="9P9")
    assert "does not name 1P2" in spoilt(lambda scene: with_more(without(scene, text), wrong))
    strange = replace(text, text="7P7", tag="7P7", at=(300.0, 240.0))
    assert "tag 7P7 is not in the netlist" in spoilt(lambda scene: with_more(scene, strange))


def test_a_label_far_from_its_wire() -> None:
    text = label(GOOD[0], "1P2")
    assert "mm from its line" in spoilt(lambda scene: with_more(without(scene, text), replace(text, at=(300.0, 240.0))))


def test_a_wire_left_out() -> None:
    said = spoilt(lambda scene: without(scene, wire(scene, "1P2")))
    assert "conductor 1P2 is not drawn" in said
    assert "is drawn in 2 pieces" in said


def test_a_wire_that_stops_short() -> None:
    def shorten(scene: Scene) -> Scene:
        line = wire(scene, "1P2")
        (x, y), *rest = line.points
        return with_more(without(scene, line), replace(line, points=((x + 1.0, y), *rest)))

    assert "is drawn in 2 pieces" in spoilt(shorten)


def test_a_wire_that_joins_two_nets() -> None:
    def bridge(scene: Scene) -> Scene:
        plus, minus = wire(scene, "1P4").points[0], wire(scene, "1N1").points[-1]
        return with_more(scene, Line((plus, minus), "power", "POS", "node"))

    assert "are drawn joined" in spoilt(bridge)


def test_a_wire_laid_on_another() -> None:
    def double(scene: Scene) -> Scene:
        line = wire(scene, "1P4")
        return with_more(scene, replace(line, carries="", role="node", points=line.points[:2]))

    assert "lie on each other" in spoilt(double)


def test_a_stud_not_drawn() -> None:
    assert "stud Q1.1:1 is not drawn" in spoilt(
        lambda scene: replace(scene, ports=tuple(port for port in scene.ports if port.stud != "Q1.1:1"))
    )


def test_two_symbols_on_one_spot_and_things_outside_the_frame() -> None:
    first = GOOD[0].symbols[1]
    assert "overlaps" in spoilt(lambda scene: replace(scene, symbols=(*scene.symbols, replace(first, owner="other"))))
    far = Text((415.0, 100.0), "far", 2.0)
    assert "leaves the frame" in spoilt(lambda scene: with_more(scene, far))
    line = Line(((300.0, 240.0), (415.0, 240.0)), "help", "DIM", "help")
    assert "leaves the frame" in spoilt(lambda scene: with_more(scene, line))


def test_a_netlist_that_says_something_else() -> None:
    other = proposal_of(Shape(units=(UnitShape(switch=False),))).netlist
    assert audit(GOOD, other) != ()
    assert isinstance(other, Netlist)


@pytest.mark.parametrize("tag", ["1L1", "1N1", "9T2", "9D3", "1C2", "0P1"])
def test_every_kind_of_wire_counts(tag: str) -> None:
    assert f"conductor {tag} is not drawn" in spoilt(lambda scene: without(scene, wire(scene, tag)))
