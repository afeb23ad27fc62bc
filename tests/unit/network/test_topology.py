"""What is wrong with a line, laying one, extending one."""

from __future__ import annotations

import pytest

from athwart.network.bus import profile
from athwart.network.extension import changes, extend
from athwart.network.topology import (
    Fact,
    Node,
    Trunk,
    best_feed,
    facts,
    free_identity,
    identity_facts,
    lay,
    power_off_resistance,
    supply,
    terminated,
    terminator_facts,
)

MARINE = profile("IEC 61162-3")
BOW = Node("bow", 0, 0.15, 0.5, function="thruster")
HELM = Node("helm", None, 0.10, 0.5)
BRIDGE = Node("fly bridge", None, 0.10, 0.5)
STERN = Node("stern", None, 0.15, 0.5, function="thruster")


def line(*terminators: str, stops: tuple[Node, ...] = (BOW, HELM, BRIDGE), **words: object) -> Trunk:
    given: dict[str, object] = {"feeds": ("helm",), "screen_grounds": ("helm",)} | words
    return Trunk(stops, (8.5,) + (4.0,) * (len(stops) - 2), terminators=terminators, **given)  # type: ignore[arg-type]


GOOD = line("bow", "fly bridge")


def kinds(trunk: Trunk) -> set[str]:
    return {fact.kind for fact in facts(trunk, MARINE)}


def test_a_good_line_has_nothing_wrong() -> None:
    assert facts(GOOD, MARINE) == ()
    assert power_off_resistance(GOOD) == pytest.approx(59.64, abs=0.01)


@pytest.mark.parametrize(
    ("terminators", "found"),
    [
        ((), {"no terminator"}),
        (("bow",), {"one terminator"}),
        (("bow", "helm"), {"terminator not at an end"}),
        (("bow", "bow"), {"both terminators at one end"}),
        (("bow", "helm", "fly bridge"), {"too many terminators", "terminator not at an end"}),
    ],
)
def test_terminators_are_two_and_at_the_ends(terminators: tuple[str, ...], found: set[str]) -> None:
    assert kinds(line(*terminators)) == found


def test_a_terminator_built_in_counts() -> None:
    helm = Node("helm", None, 0.1, 0.5, builtin_terminator=True)
    built_in = line("bow", "fly bridge", stops=(BOW, helm, BRIDGE))
    assert terminator_facts(built_in)[0] == Fact("too many terminators", ("bow", "fly bridge", "helm"), 3.0, 2.0)


def test_lengths_nodes_and_currents_are_held_to_the_profile() -> None:
    far = Trunk(
        (Node("a", drop_length=7.0, load=1.2), *(Node(str(i), drop_length=1.8) for i in range(50))),
        (60.0,) + (1.0,) * 49,
        ("a",),
        ("a", "49"),
        ("a",),
    )
    assert kinds(far) == {"trunk too long", "drop too long", "drops too long in all", "too many nodes", "node takes too much"}
    drop = next(fact for fact in facts(far, MARINE) if fact.kind == "drop too long")
    assert (drop.where, drop.value, drop.limit) == (("a",), 7.0, 6.0)


def test_feeds_and_grounds_are_one_each() -> None:
    assert kinds(line("bow", "fly bridge", feeds=(), screen_grounds=())) == {"no feed", "screen not grounded"}
    both = line("bow", "fly bridge", feeds=("bow", "helm"), screen_grounds=("bow", "helm"))
    assert kinds(both) == {"several feeds", "screen grounded at several places"}
    assert {fact.kind for fact in facts(both, MARINE, screened=False)} == {"several feeds"}


def test_identities_differ_within_a_function() -> None:
    same = Trunk((BOW, Node("stern", 0, function="thruster"), Node("monitor", 0, function="battery")), (5.0, 5.0))
    assert identity_facts(same) == (Fact("identity used twice", ("bow", "stern"), 0.0),)
    assert identity_facts(Trunk((STERN,), ()))[0].kind == "identity missing"
    assert identity_facts(Trunk((Node("x", 253),), ()))[0].kind == "identity out of range"


def test_a_node_fed_from_the_bus_must_not_touch_another_negative() -> None:
    computer = Node("chart table", None, 0.2, 0.5, galvanic_negative=True)
    own_supply = Node("chart table", None, 0.0, 0.5, galvanic_negative=True)
    assert kinds(line("bow", "chart table", stops=(BOW, HELM, computer))) == {"second path to a negative"}
    assert kinds(line("bow", "chart table", stops=(BOW, HELM, own_supply))) == set()


@pytest.mark.parametrize(
    ("build", "words"),
    [
        (lambda: Trunk((), ()), "at least one stop"),
        (lambda: Trunk((BOW, HELM), ()), "need 1 lengths"),
        (lambda: Trunk((BOW, BOW), (1.0,)), "named twice: bow"),
        (lambda: Trunk((BOW, HELM), (-1.0,)), "nought or more"),
        (lambda: Trunk((BOW, HELM), (1.0,), ("mast",)), "no stop of the trunk: mast"),
        (lambda: GOOD.node("mast"), "no stop 'mast'"),
        (lambda: supply(Trunk((BOW,), ()), 0.053, 12.0), "has no feed"),
    ],
)
def test_a_line_that_does_not_hang_together_is_refused(build: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        build()  # type: ignore[operator]


def test_a_line_is_fed_where_the_worst_node_keeps_most() -> None:
    assert best_feed(GOOD) == "helm"
    assert best_feed(Trunk((Node("a", load=1.0), Node("b", load=0.01), Node("c", load=0.01)), (5.0, 5.0))) == "a"


def test_a_laid_line_is_right_from_the_start() -> None:
    inside = Node("helm", None, 0.1, 0.5, builtin_terminator=True)
    at_end = Node("stern", 1, 0.15, 0.5, builtin_terminator=True, function="thruster")
    laid = lay([(at_end, 17.0), (BOW, 0.0), (inside, 8.0)])
    assert facts(laid, MARINE) == ()
    assert laid.terminators == ("bow",)
    assert not laid.node("helm").builtin_terminator
    assert lay([(BOW, 0.0), (HELM, 3.0)], feed="bow", screen_ground="helm").screen_grounds == ("helm",)


def test_a_line_of_one_stop_has_both_terminators_there() -> None:
    assert terminated(Trunk((BOW,), ())).all_terminators == ("bow", "bow")


def test_a_stern_unit_moves_the_terminator_to_the_new_end() -> None:
    joined = extend(GOOD, STERN, "fly bridge", 9.5, separate_bank=True)
    assert joined.trunk.terminators == ("bow", "stern")
    assert joined.trunk.node("stern").identity == 1
    assert facts(joined.trunk, MARINE) == ()
    said = [change.says for change in joined.changes]
    assert said == [
        "Lay 9.5 m of trunk from fly bridge to stern.",
        "Move the terminator from fly bridge to stern.",
        "Fit a tee for stern.",
        "Run a drop of 0.5 m from the tee to stern.",
        "Set the identity of stern to 1, once, before it is joined.",
        "Join the negative of stern's bank to the common negative with a link of its own, without a fuse.",
    ]


def test_a_unit_between_two_stops_opens_the_trunk_and_moves_no_terminator() -> None:
    joined = extend(GOOD, STERN, "helm", 3.0)
    assert joined.trunk.lengths == (8.5, 3.0, 7.0)
    assert joined.trunk.terminators == ("bow", "fly bridge")
    assert "Open the trunk between helm and fly bridge." in [change.says for change in joined.changes]
    assert extend(GOOD, STERN, "helm", 3.0, onward=2.0).trunk.lengths == (8.5, 3.0, 2.0)


def test_a_unit_before_the_first_stop_becomes_the_first_end() -> None:
    joined = extend(GOOD, STERN, "bow", 2.0)
    assert joined.trunk.ends == ("stern", "fly bridge")
    assert joined.trunk.terminators == ("stern", "fly bridge")


def test_a_faulty_line_is_mended_when_it_is_extended() -> None:
    faulty = line("helm", feeds=("bow", "helm"), screen_grounds=())
    joined = extend(faulty, STERN, "fly bridge", 9.5)
    assert facts(joined.trunk, MARINE) == ()
    said = " ".join(change.says for change in joined.changes)
    assert "Move the terminator from helm to bow." in said
    assert "Fit a terminator at stern." in said
    assert "Take the feed at helm away: one feed only." in said
    assert "Join the screen to the boat's ground at bow." in said


def test_a_terminator_built_into_the_old_end_is_switched_off() -> None:
    end = Node("fly bridge", None, 0.1, 0.5, builtin_terminator=True)
    joined = extend(line("bow", stops=(BOW, HELM, end)), STERN, "fly bridge", 9.5)
    assert joined.trunk.terminators == ("bow", "stern")
    assert any(change.says.startswith("Switch off the terminator built into fly bridge") for change in joined.changes)


def test_an_identity_that_is_taken_is_changed_and_the_holder_named() -> None:
    joined = extend(GOOD, Node("stern", 0, 0.15, 0.5, function="thruster"), "fly bridge", 9.5)
    assert joined.trunk.node("stern").identity == 1
    assert any("0 belongs to bow" in change.says for change in joined.changes)
    assert free_identity(joined.trunk.stops, "thruster") == 2


def test_a_line_that_stays_as_it_is_needs_no_change() -> None:
    assert changes(GOOD, GOOD) == ()


def test_a_stop_that_goes_is_named() -> None:
    assert changes(GOOD, Trunk((BOW, HELM), (8.5,), ("helm",), ("bow", "helm"), ("helm",)))[0].says.startswith(
        "Take fly bridge off"
    )
