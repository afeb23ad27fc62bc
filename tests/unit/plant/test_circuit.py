"""The nodal solver against closed forms, random ladders and its own refusals."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from athwart.errors import NoConvergence, NotComputed
from athwart.plant.circuit import (
    Answer,
    Circuit,
    FloatingNodes,
    Load,
    Resistor,
    Source,
    assert_balances,
    eliminate,
    solve,
)
from athwart.power.battery import Source as Thevenin
from athwart.power.battery import parallel_source, string_currents
from athwart.power.drive import Drive, drive_load, run_drive
from athwart.power.motor import brushed_load, brushed_motor, run_brushed

MOTOR = brushed_motor(24.0, 300.0, 363.636, 0.010, 1.0, 8.0)
PATH = (Resistor("plus", "bank+", "motor+", 3.0e-3), Resistor("minus", "motor-", "ground", 1.4e-3))
BANK = Source("bank", "bank+", "ground", 25.2, 8.0e-3)


def with_motor() -> Circuit:
    return Circuit(PATH, (BANK,), (Load("motor", "motor+", "motor-", lambda volts: brushed_load(MOTOR, volts)),))


def with_drive(part: Drive) -> Circuit:
    return Circuit(PATH, (BANK,), (Load("drive", "motor+", "motor-", lambda volts: drive_load(part, volts)),))


def test_a_motor_behind_a_bank_has_its_closed_form() -> None:
    answer, closed = solve(with_motor()), run_brushed(MOTOR, 25.2, 12.4e-3)
    assert answer.currents["motor"] == pytest.approx(closed.current, rel=1e-9)
    assert answer.across("motor+", "motor-") == pytest.approx(closed.terminal_volts, rel=1e-9)
    assert answer.currents["plus"] == pytest.approx(answer.currents["bank"], rel=1e-9)
    assert answer.volts["ground"] == 0.0


@pytest.mark.parametrize(
    "part", [Drive(6000.0), Drive(9000.0, 350.0), Drive(22_000.0, None, 21.0, 18.0), Drive(9000.0, 350.0, 23.0, 17.0)]
)
def test_a_drive_finds_its_high_voltage_answer(part: Drive) -> None:
    answer, closed = solve(with_drive(part)), run_drive(part, 25.2, 12.4e-3)
    assert answer.currents["drive"] == pytest.approx(closed.current, rel=1e-8)
    assert answer.across("motor+", "motor-") == pytest.approx(closed.terminal_volts, rel=1e-8)


def test_a_power_nobody_can_draw_is_said_with_the_last_volts() -> None:
    with pytest.raises(NoConvergence, match="no common answer") as caught:
        solve(with_drive(Drive(13_000.0)))
    assert isinstance(caught.value.state, dict)
    assert set(caught.value.state) == {"bank+", "motor+", "motor-", "ground"}


def test_a_bolted_fault_is_exact() -> None:
    answer = solve(with_motor().with_fault("motor+", "motor-"))
    assert answer.volts["motor+"] == answer.volts["motor-"]
    assert answer.currents["fault"] == pytest.approx(25.2 / 12.4e-3, rel=1e-12)
    assert answer.currents["motor"] == 0.0
    to_hull = solve(with_motor().with_fault("motor+", "ground"))
    assert to_hull.currents["fault"] == pytest.approx(25.2 / 11.0e-3, rel=1e-12)
    resisted = solve(with_motor().with_fault("bank+", "ground", 1e-3))
    assert resisted.currents["fault"] > 2000.0


def test_a_fault_of_a_microohm_is_nearly_the_bolted_one() -> None:
    near = solve(with_motor().with_fault("motor+", "motor-", 1e-9))
    assert near.currents["fault"] == pytest.approx(25.2 / 12.4e-3, rel=1e-6)


def test_chains_and_rings_of_solid_connections_carry_their_currents() -> None:
    solid = (
        Resistor("link 1", "bank+", "a", 0.0),
        Resistor("link 2", "a", "b", 0.0),
        Resistor("link 3", "a", "b", 0.0),
        Resistor("house", "a", "ground", 2.0),
        Resistor("load", "b", "ground", 1.0),
    )
    answer = solve(Circuit(solid, (Source("bank", "bank+", "ground", 12.6, 0.1),)))
    assert answer.currents["link 2"] == pytest.approx(answer.currents["load"] / 2.0)
    assert answer.currents["link 3"] == pytest.approx(answer.currents["link 2"])
    assert answer.currents["link 1"] == pytest.approx(answer.currents["load"] + answer.currents["house"])


def test_unequal_strings_share_as_their_closed_form() -> None:
    strings = [Thevenin(25.4, 8e-3), Thevenin(24.6, 20e-3), Thevenin(25.1, 10e-3)]
    sources = tuple(Source(f"string {i}", "bus", "ground", s.emf, s.resistance) for i, s in enumerate(strings))
    whole = parallel_source(strings)
    current = whole.emf / (whole.resistance + 0.08)
    answer = solve(Circuit((Resistor("load", "bus", "ground", 0.08),), sources))
    assert answer.currents["load"] == pytest.approx(current)
    assert [answer.currents[s.name] for s in sources] == pytest.approx(string_currents(strings, current))


def test_two_thrusters_on_one_bank_pull_each_other_down() -> None:
    both = Circuit(
        (*PATH, Resistor("plus 2", "bank+", "motor+ 2", 2e-3), Resistor("minus 2", "motor- 2", "ground", 2e-3)),
        (BANK,),
        (
            *with_motor().loads,
            Load("stern", "motor+ 2", "motor- 2", lambda volts: brushed_load(MOTOR, volts)),
        ),
    )
    alone, together = solve(with_motor()), solve(both)
    assert together.currents["motor"] < alone.currents["motor"]
    assert together.currents["bank"] == pytest.approx(together.currents["motor"] + together.currents["stern"])


@pytest.mark.parametrize("seed", range(8))
def test_a_random_ladder_agrees_with_numpy(seed: int) -> None:
    rng = Random(seed)
    count = 30
    rungs = [Resistor(f"series {i}", f"n{i}", f"n{i + 1}", rng.uniform(1e-4, 1e-2)) for i in range(count)]
    rungs += [Resistor(f"shunt {i}", f"n{i}", "ground", rng.uniform(0.1, 10.0)) for i in range(1, count + 1)]
    rungs += [Resistor(f"cross {i}", f"n{rng.randrange(count)}", f"n{rng.randrange(count)}", 0.05) for i in range(10)]
    rungs = [rung for rung in rungs if rung.start != rung.end]
    answer = solve(Circuit(tuple(rungs), (Source("bank", "n0", "ground", 25.2, 8e-3),)))
    matrix, right = np.zeros((count + 1, count + 1)), np.zeros(count + 1)
    for rung in rungs:
        a = int(rung.start[1:])
        matrix[a, a] += 1.0 / rung.ohms
        if rung.end != "ground":
            b = int(rung.end[1:])
            matrix[b, b] += 1.0 / rung.ohms
            matrix[a, b] -= 1.0 / rung.ohms
            matrix[b, a] -= 1.0 / rung.ohms
    matrix[0, 0] += 1.0 / 8e-3
    right[0] = 25.2 / 8e-3
    expected = np.linalg.solve(matrix, right)
    assert [answer.volts[f"n{i}"] for i in range(count + 1)] == pytest.approx(expected.tolist(), rel=1e-9)


def test_what_hangs_on_nothing_is_named() -> None:
    with pytest.raises(FloatingNodes, match=r"motor-") as caught:
        solve(with_motor().without("minus"))
    assert caught.value.nodes == ("motor-",)
    island = Circuit((*PATH[:1], Resistor("lost", "x", "y", 1.0)), (BANK,))
    with pytest.raises(FloatingNodes, match="x, y"):
        solve(island)


def test_mistakes_in_a_network_are_told_at_once() -> None:
    wrong = Circuit(
        (Resistor("a", "p", "q", -1.0), Resistor("a", "p", "q", 1.0)),
        (Source("s", "p", "q", 12.0, 0.0), Source("t", "p", "q", float("nan"), 1.0)),
        reference="earth",
    )
    with pytest.raises(ValueError, match="two elements named a") as caught:
        solve(wrong)
    for words in ("a has -1 ohm", "source s has 0 ohm", "emf of nan", "reference 'earth'"):
        assert words in str(caught.value)
    with pytest.raises(ValueError, match="no element named main"):
        with_motor().without("main", "bank")


def test_an_answer_that_does_not_balance_is_refused() -> None:
    answer = solve(with_motor())
    spoiled = Answer(answer.volts, answer.currents | {"plus": answer.currents["plus"] * (1 + 1e-8)}, answer.turns)
    assert_balances(with_motor(), answer)
    with pytest.raises(NoConvergence, match="left over"):
        assert_balances(with_motor(), spoiled)


def test_elimination_pivots_and_knows_singular_equations() -> None:
    assert eliminate([[0.0, 1.0], [2.0, 0.0]], [3.0, 4.0]) == [2.0, 3.0]
    with pytest.raises(NotComputed, match="singular"):
        eliminate([[1.0, 1.0], [2.0, 2.0]], [1.0, 2.0])


def test_a_short_circuited_load_takes_nothing() -> None:
    shorted = Circuit(
        (Resistor("bond", "bank+", "ground", 0.0),), (BANK,), (Load("lamp", "bank+", "ground", lambda volts: volts / 2.0),)
    )
    answer = solve(shorted)
    assert answer.currents["lamp"] == 0.0
    assert answer.currents["bond"] == pytest.approx(25.2 / 8e-3)


def test_a_load_that_jumps_over_the_answer_finds_none() -> None:
    jumping = Circuit(PATH, (BANK,), (Load("odd", "motor+", "motor-", lambda volts: 2000.0 if volts > 20.0 else 0.0),))
    with pytest.raises(NoConvergence, match="left over"):
        solve(jumping)


def test_a_search_cut_short_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("athwart.plant.circuit.MOST_TURNS", 1)
    with pytest.raises(NoConvergence, match="left over"):
        solve(with_motor())
