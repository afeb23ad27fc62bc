"""SVG, DXF and the recorder: the same sheet, the same bytes, nothing a strict page would refuse."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET
from typing import cast

import ezdxf
import pytest
from ezdxf.entities.lwpolyline import LWPolyline

from athwart.papers.dxf import dxf
from athwart.papers.elevation import elevation
from athwart.papers.network_drawing import network_drawing
from athwart.papers.one_line import one_line
from athwart.papers.recorder import record
from athwart.papers.scene import LAYERS, STYLES, Line, Scene
from athwart.papers.svg import style_sheet, svg
from tests.properties.proposal_strategies import BankShape, Shape, UnitShape, proposal_of

PROPOSAL = proposal_of(
    Shape(
        units=(UnitShape(), UnitShape(role="stern", bank=1, drive="brushless", control="proportional")),
        banks=(BankShape(), BankShape(parallel=2)),
    )
)
SHEETS = (*one_line(PROPOSAL), *network_drawing(PROPOSAL), *elevation(PROPOSAL))
NS = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("scene", SHEETS, ids=lambda scene: scene.name)
def test_svg_is_well_formed_in_millimetres_and_described(scene: Scene) -> None:
    root = ET.fromstring(svg(scene))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("420mm", "297mm", "0 0 420 297")
    assert root.get("role") == "img"
    names = {element.get("id") for element in root if element.tag in (f"{NS}title", f"{NS}desc")}
    assert names == set((root.get("aria-labelledby") or "").split())
    shown = [element.text for element in root.iter(f"{NS}text")]
    assert shown == [text.text for text in scene.texts()]


@pytest.mark.parametrize("scene", SHEETS, ids=lambda scene: scene.name)
def test_the_copy_for_a_page_has_classes_only(scene: Scene) -> None:
    page = svg(scene, standalone=False)
    assert "<style" not in page
    assert " style=" not in page
    used = set(re.findall(r'class="([^"]+)"', page))
    known = set(re.findall(r"\.([a-z-]+)\{", style_sheet()))
    assert {name for entry in used for name in entry.split()} <= known
    assert " style=" not in svg(scene)


def test_no_colour_but_black_white_and_one_grey() -> None:
    assert set(re.findall(r"#[0-9a-f]+", style_sheet())) == {"#fff", "#000", "#e3e3e3"}


@pytest.mark.parametrize("scene", SHEETS, ids=lambda scene: scene.name)
def test_dxf_opens_without_errors_and_says_the_same(scene: Scene) -> None:
    text = dxf(scene)
    assert text == dxf(scene)
    document = ezdxf.read(io.StringIO(text))  # type: ignore[attr-defined,unused-ignore]
    assert document.audit().errors == []
    assert {layer.dxf.name for layer in document.layers} >= set(LAYERS)
    space = document.modelspace()
    written = [entity for entity in space if entity.dxftype() == "TEXT"]
    assert [entity.dxf.text for entity in written] == [text.text for text in scene.texts()]
    assert {entity.dxf.layer for entity in space} <= set(LAYERS)
    lines = [entity for entity in space if entity.dxftype() == "LWPOLYLINE"]
    assert len(lines) == sum(line.role != "hidden" for line in scene.lines())


def test_dxf_turns_y_up_and_keeps_true_size() -> None:
    scene = Scene("n", "N", "t", "d", 100, 50, (Line(((10.0, 5.0), (90.0, 5.0)), "power", "POS", "wire", "1P1"),))
    document = ezdxf.read(io.StringIO(dxf(scene)))  # type: ignore[attr-defined,unused-ignore]
    (line,) = document.modelspace()
    assert [tuple(point[:2]) for point in cast(LWPolyline, line).get_points()] == [(10.0, 45.0), (90.0, 45.0)]
    assert line.dxf.lineweight == 60
    assert line.dxf.layer == "POS"


def test_dxf_carries_no_clock_and_no_random_number() -> None:
    text = dxf(SHEETS[0])
    assert set(re.findall(r"@ (\S+)", text)) == {"2000-01-01T00:00:00.000000+00:00"}
    for name in ("TDCREATE", "TDUCREATE", "TDUPDATE", "TDUUPDATE"):
        assert f"${name}\n 40\n2451545.0\n" in text
    assert text.count("{00000000-0000-0000-0000-000000000000}") == 2


def test_every_style_has_a_weight_that_prints() -> None:
    assert min(style.weight for style in STYLES.values()) >= 0.13


@pytest.mark.parametrize("scene", SHEETS, ids=lambda scene: scene.name)
def test_the_recorder_writes_one_line_an_element(scene: Scene) -> None:
    text = record(scene)
    count = 3 + len(scene.elements) + len(scene.symbols) + len(scene.ports) + len(scene.continuations)
    assert len(text.splitlines()) == count
    assert text == record(scene)
