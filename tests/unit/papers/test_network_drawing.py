"""What the sheet of the control line shows."""

from __future__ import annotations

from dataclasses import replace

from athwart.papers.audit import audit
from athwart.papers.network_drawing import control_netlist, network_drawing
from tests.properties.proposal_strategies import Shape, UnitShape, proposal_of


def words(shape: Shape) -> list[str]:
    return [text.text for scene in network_drawing(proposal_of(shape)) for text in scene.texts()]


def test_every_stop_shows_its_place_instance_and_volts() -> None:
    text = words(Shape(helms=2))
    assert {"at 0.3 m", "at 2.8 m", "at 5.3 m"} <= set(text)
    assert text.count("12.60 V at rest") == 3
    assert text.count("10.40 V lowest") == 3
    assert {"instance 0", "instance 1", "instance 2"} <= set(text)
    assert "instance: set aboard" in words(Shape(instances=False))


def test_the_ohms_to_expect_and_the_fuse_are_said() -> None:
    text = "\n".join(words(Shape()))
    assert "all power off: 60 Ω" in text
    assert "fuse 3 A at the source: ship bank" in text


def test_changes_are_listed_and_what_is_new_is_marked() -> None:
    text = words(Shape(units=(UnitShape(), UnitShape(role="stern"))))
    assert "1  trunk re-laid past the stern unit" in text
    assert "new" in text
    assert "new" not in words(Shape())


def test_a_terminator_inside_the_trunk_is_drawn_where_it_is() -> None:
    proposal = proposal_of(Shape(helms=3))
    assert proposal.network is not None
    from athwart.design.wiring import wire

    network = replace(proposal.network, terminators=("helm 1", "helm 3"))
    netlist = wire(proposal.brief, proposal.catalogue, proposal.lanes, proposal.banks, proposal.charging, network)
    spoilt = replace(proposal, network=network, netlist=netlist)
    sheets = network_drawing(spoilt)
    assert audit(sheets, control_netlist(netlist)) == ()
    at = {port.stud: port.at for scene in sheets for port in scene.ports}
    assert at["R9.2:1"][0] == at["X9.3:third"][0]


def test_no_control_line_no_sheet() -> None:
    assert network_drawing(proposal_of(Shape(network=False))) == ()
