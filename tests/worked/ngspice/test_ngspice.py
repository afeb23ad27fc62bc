"""REFERENCE PROGRAM: the circuit simulator ngspice solves every example's power circuit from its parts, within 0.1 %.

The netlists come from a second writer (``_deck.py``) that shares only catalogue rows and documented defaults with the program.
Its decks and the simulator's answers are kept in ``outputs/`` with the simulator's version, so that a machine without ngspice
holds athwart to them; with ngspice they are run again. After a change of an example, the catalogue or a default:
``python -m tests.worked.ngspice.regenerate``, then read the difference.

Compared for each lane alone in both states and for all units of a bank together: terminal volts, current, bank volts, share of
rated thrust and the volts lost in every single piece of the path.
"""

from __future__ import annotations

import pytest

from tests.worked.ngspice._cases import BOATS, cases, differences, kept, proposal_of, ruling, run, version

AGAIN = 1e-6
"""Two runs of the simulator agree to this; other versions may end a digit elsewhere."""


@pytest.mark.parametrize("boat", BOATS)
def test_the_kept_decks_are_those_of_todays_parts(boat: str) -> None:
    """Else the kept answers are of another system: ``python -m tests.worked.ngspice.regenerate``."""
    _, found = kept(boat)
    today = {case.name: case.deck for case in cases(boat)}
    assert today == {name: deck for name, (deck, _) in found.items()}


@pytest.mark.parametrize("boat", BOATS)
def test_volts_currents_and_drops_agree_with_the_kept_answers(boat: str) -> None:
    _, found = kept(boat)
    theirs = ruling({name: answer for name, (_, answer) in found.items()})
    ours = ruling({case.name: case.athwart for case in cases(boat)})
    assert set(ours) == set(theirs)
    assert {name: differences(ours[name], theirs[name]) for name in theirs} == {name: [] for name in theirs}


def test_the_kept_answers_name_their_simulator() -> None:
    assert {kept(boat)[0].split("-")[0] for boat in BOATS} == {"ngspice"}


def test_every_kind_of_circuit_is_among_them() -> None:
    """Brushed and constant power, links in a string, strings side by side with fuses, other loads, joints as found, two units."""
    lanes = [lane for boat in BOATS for lane in proposal_of(boat).lanes]
    assert {lane.unit.drive for lane in lanes} == {"brushed", "brushless"}
    names = {case.name for boat in BOATS for case in cases(boat)}
    assert "all units of the common bank, design" in names
    decks = [case.deck for boat in BOATS for case in cases(boat)]
    assert any("Rlink" in deck for deck in decks)
    assert any("Iother" in deck for deck in decks)
    assert any("Rstringfuse2" in deck for deck in decks)
    assert {lane.cable.kept for lane in lanes if lane.cable is not None} == {"chosen", "aboard"}


@pytest.mark.parametrize(("factor", "caught"), [(1.0005, False), (1.002, True), (0.998, True)])
def test_a_figure_two_tenths_of_a_per_cent_off_is_caught(factor: float, caught: bool) -> None:
    case = next(cases(BOATS[0]))
    wrong = {**case.athwart, "terminal1": case.athwart["terminal1"] * factor}
    assert bool(differences(wrong, case.athwart)) is caught


@pytest.mark.ngspice
@pytest.mark.parametrize("boat", BOATS)
def test_the_simulator_gives_the_kept_answers_again(boat: str) -> None:
    _, found = kept(boat)
    for name, (deck, answer) in found.items():
        assert differences(run(deck), answer, AGAIN) == [], (name, version())


@pytest.mark.ngspice
@pytest.mark.parametrize("boat", BOATS)
def test_the_simulator_agrees_with_todays_proposal(boat: str) -> None:
    theirs = ruling({case.name: run(case.deck) for case in cases(boat)})
    ours = ruling({case.name: case.athwart for case in cases(boat)})
    assert {name: differences(ours[name], theirs[name]) for name in theirs} == {name: [] for name in theirs}


@pytest.mark.ngspice
def test_lugs_left_out_of_a_deck_are_seen() -> None:
    """The check can fail: one piece of the path without its two lugs."""
    case = next(cases(BOATS[0]))
    line = next(line for line in case.deck.splitlines() if line.startswith("Rto_unit1 "))
    *head, ohms = line.split()
    without = case.deck.replace(line, " ".join([*head, f"{float(ohms) - 40e-6:.9g}"]))
    assert any(text.startswith("drop1_to_unit") for text in differences(case.athwart, run(without)))
