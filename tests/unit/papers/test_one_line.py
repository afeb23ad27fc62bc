"""What the one-line diagram shows, and on how many sheets."""

from __future__ import annotations

from athwart.papers.audit import audit
from athwart.papers.one_line import one_line
from athwart.papers.scene import Scene
from athwart.papers.sheet import FRAME, grid_reference
from tests.properties.proposal_strategies import BankShape, Shape, UnitShape, proposal_of


def words(*scenes: Scene) -> str:
    return "\n".join(text.text for scene in scenes for text in scene.texts())


def drawn(shape: Shape) -> tuple[Scene, ...]:
    proposal = proposal_of(shape)
    sheets = one_line(proposal)
    assert audit(sheets, proposal.netlist) == ()
    return sheets


def test_one_unit_is_one_sheet_with_nothing_going_on_elsewhere() -> None:
    (sheet,) = drawn(Shape(alternators=1, shore=True))
    assert sheet.continuations == ()
    assert sheet.number == "A-001-E1"
    assert {"BOW LANE  24 V", "SHIP", "CONTROL LINE"} <= set(words(sheet).splitlines())


def test_plus_runs_along_the_top_from_source_to_unit() -> None:
    (sheet,) = drawn(Shape())
    at = {port.stud: port.at for port in sheet.ports}
    order = ["G1.2:+", "F1.1:1", "F1.1:2", "Q1.1:1", "Q1.1:2", "Q1.2:1", "Q1.2:2", "M1.1:+"]
    assert [at[stud][0] for stud in order] == sorted(at[stud][0] for stud in order)
    assert len({at[stud][1] for stud in order[1:-1]}) == 1
    assert at["M1.1:-"][1] > at["M1.1:+"][1]
    assert at["G1.1:+"][1] > at["G1.2:-"][1]


def test_terminators_stand_at_the_two_ends_of_the_line() -> None:
    (sheet,) = drawn(Shape())
    at = {port.stud: port.at for port in sheet.ports}
    tees = [at[stud][0] for stud in at if stud.startswith("X9.")]
    assert at["R9.1:1"][0] < min(tees)
    assert at["R9.2:1"][0] > max(tees)


def test_a_shared_bank_stands_once_and_says_so() -> None:
    sheets = drawn(Shape(units=(UnitShape(), UnitShape(role="stern")), banks=(BankShape(),)))
    assert words(*sheets).count("SHARED BANK") == 1
    lanes = next(sheet for sheet in sheets if "STERN LANE" in words(sheet))
    studs = [port.stud for port in lanes.ports]
    assert studs.count("X1.1:1") == 1
    assert {"F1.1:1", "F2.1:1"} <= set(studs)


def test_a_large_bank_has_a_sheet_of_its_own() -> None:
    sheets = drawn(Shape(banks=(BankShape(series=8, parallel=4, consumers=4, mid_tap=True),)))
    assert any("bank of lane 1" in sheet.title for sheet in sheets)


def test_the_kind_of_stop_its_feed_and_the_ties_are_said() -> None:
    text = words(
        *drawn(Shape(units=(UnitShape(), UnitShape(stop="latching", bank=1)), banks=(BankShape(), BankShape(isolated=True))))
    )
    assert "Q1.2: energise to run; fed from the bank of the unit." in text
    assert "Q2.2: latching, a pulse opens it; fed from the ship's" in text
    assert "is a second tie, sized as one." in text
    assert "U2.1 isolated: no tie through it." in text


def test_a_bank_kept_apart_is_said_to_be_so() -> None:
    text = words(*drawn(Shape(common_negative="isolated")))
    assert "No common negative link: bank minus kept apart from X0.2." in text
    assert "Network interface not said to be isolated at any unit." in text


def test_an_absent_part_leaves_a_gap_and_not_a_symbol() -> None:
    (sheet,) = drawn(Shape(units=(UnitShape(stop=None, switch=False),)))
    assert not [port.stud for port in sheet.ports if port.stud.startswith(("Q1.", "S1."))]


def test_a_hydraulic_lane_is_drawn_double_and_says_what_is_not_computed() -> None:
    sheets = drawn(Shape(units=(UnitShape(bank=None),)))
    assert "not computed yet" in words(*sheets)
    assert sum(line.style == "hydraulic" for sheet in sheets for line in sheet.lines("wire")) == 4


def test_reversing_contactors_or_a_drive_stand_in_the_unit() -> None:
    (contactors,) = drawn(Shape())
    assert {"port", "stbd"} <= set(words(contactors).splitlines())
    (drive,) = drawn(Shape(units=(UnitShape(drive="brushless", control="proportional"),)))
    assert "3~" in words(drive)


def test_grid_references_count_from_the_upper_left_corner() -> None:
    assert grid_reference((FRAME.left + 1, FRAME.top + 1)) == "A1"
    assert grid_reference((FRAME.right - 1, FRAME.bottom - 1)) == "F8"


def test_size_and_length_stand_with_every_conductor() -> None:
    text = words(*drawn(Shape(units=(UnitShape(parallel=2),))))
    assert "2 × 70 mm² 1.8 m" in text
    assert "aboard" in text
