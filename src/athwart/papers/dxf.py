"""A scene as DXF (R2010): layers, line weights and line types, text as text; same scene, same bytes."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

from athwart.papers.scene import CAP_HEIGHT, LAYERS, STYLES, Arc, Circle, Element, Line, Scene, Text

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

FIXED_GUID = "{00000000-0000-0000-0000-000000000000}"
WEIGHTS = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211)
"""Line weights the format allows, hundredths of a millimetre."""
ALIGN = {"start": "LEFT", "middle": "CENTER", "end": "RIGHT"}


def dxf(scene: Scene) -> str:
    """The DXF text of a sheet; y is up there, origin at the sheet's lower left corner."""
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # else the library stamps the file with the clock
    try:
        return _document(scene)
    finally:
        options.write_fixed_meta_data_for_testing = before


def _document(scene: Scene) -> str:
    import ezdxf
    from ezdxf import units

    document = ezdxf.new("R2010", setup=False)  # type: ignore[attr-defined,unused-ignore]
    document.units = units.MM
    document.header["$FINGERPRINTGUID"] = document.header["$VERSIONGUID"] = FIXED_GUID
    _tables(document)
    space = document.modelspace()
    for element in scene.elements:
        _draw(space, element, scene.height)
    document.header["$EXTMIN"] = (0.0, 0.0, 0.0)
    document.header["$EXTMAX"] = (scene.width, scene.height, 0.0)
    _order_classes(document)
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue()


def _order_classes(document: Drawing) -> None:
    """Register the classes every file carries and sort them: the library keeps them in a set, whose order is another each run."""
    section = document.classes
    section.add_required_classes(document.dxfversion)
    for key in sorted(section.classes):
        section.classes[key] = section.classes.pop(key)


def _tables(document: Drawing) -> None:
    for layer in LAYERS:
        document.layers.add(layer, color=7)
    for style in STYLES.values():
        if style.dashes:
            pattern = [part if index % 2 == 0 else -part for index, part in enumerate(style.dashes)]
            document.linetypes.add(style.name.upper(), [sum(style.dashes), *pattern], description=style.name)
    document.styles.add("TAGS", font="DejaVuSansMono.ttf")
    document.styles.add("TAGSBOLD", font="DejaVuSansMono-Bold.ttf")


def _draw(space: Modelspace, element: Element, height: float) -> None:
    if isinstance(element, Text):
        _text(space, element, height)
        return
    if element.role == "hidden":
        return
    style = STYLES[element.style]
    weight = min(WEIGHTS, key=lambda allowed: abs(allowed - 100 * style.weight))
    look: dict[str, Any] = {"layer": element.layer, "lineweight": weight}
    if style.dashes:
        look["linetype"] = style.name.upper()
    if isinstance(element, Line):
        _line(space, element, height, look)
    elif isinstance(element, Circle):
        _circle(space, element, height, look)
    else:
        _arc(space, element, height, look)


def _line(space: Modelspace, line: Line, height: float, look: dict[str, Any]) -> None:
    points = [(round(x, 3), round(height - y, 3)) for x, y in line.points]
    if line.fill in ("black", "grey"):
        _hatch(space, line.layer, points, line.fill)
    space.add_lwpolyline(points, close=line.closed, dxfattribs=look)


def _hatch(space: Modelspace, layer: str, points: list[tuple[float, float]], fill: str) -> None:
    hatch = space.add_hatch(color=7, dxfattribs={"layer": layer})
    if fill == "grey":
        hatch.rgb = (227, 227, 227)
    hatch.paths.add_polyline_path(points, is_closed=True)


def _circle(space: Modelspace, circle: Circle, height: float, look: dict[str, Any]) -> None:
    centre = (round(circle.centre[0], 3), round(height - circle.centre[1], 3))
    if circle.fill == "black":
        hatch = space.add_hatch(color=7, dxfattribs={"layer": circle.layer})
        hatch.paths.add_edge_path().add_arc(centre, circle.radius, 0, 360)
    space.add_circle(centre, circle.radius, dxfattribs=look)


def _arc(space: Modelspace, arc: Arc, height: float, look: dict[str, Any]) -> None:
    centre = (round(arc.centre[0], 3), round(height - arc.centre[1], 3))
    start, end = sorted((arc.start, arc.end))
    space.add_arc(centre, arc.radius, -end, -start, dxfattribs=look)


def _text(space: Modelspace, text: Text, height: float) -> None:
    from ezdxf.enums import TextEntityAlignment

    style = "TAGSBOLD" if text.bold else "TAGS"
    look = {"layer": "TEXT", "style": style, "rotation": 90.0 if text.upright else 0.0}
    entity = space.add_text(text.text, height=round(text.size * CAP_HEIGHT, 3), dxfattribs=look)
    at = (round(text.at[0], 3), round(height - text.at[1], 3))
    entity.set_placement(at, align=TextEntityAlignment[ALIGN[text.anchor]])
