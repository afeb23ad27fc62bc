"""Laws of the control line, for any line."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from athwart.network.bus import bus_resistance, profile, resistance_reading
from athwart.network.extension import extend
from athwart.network.ground import link_size, shared_resistance, tap_shortfall
from athwart.network.supply import Tap, copper_resistance, ladder
from athwart.network.topology import Node, Trunk, best_feed, facts, lay, supply, taps, terminated, terminator_facts

LENGTHS = st.floats(0.1, 40.0)
CURRENTS = st.floats(0.0, 1.0)
RESISTANCES = st.floats(0.005, 0.1)
NAMES = [f"stop {number}" for number in range(12)]
MARINE = profile("IEC 61162-3")


@st.composite
def nodes(draw: st.DrawFn, name: str) -> Node:
    """Any node."""
    return Node(
        name,
        draw(st.none() | st.integers(0, 5)),
        draw(CURRENTS),
        draw(st.floats(0.0, 6.0)),
        draw(st.booleans()),
        draw(st.sampled_from(["", "thruster", "battery"])),
    )


@st.composite
def trunks(draw: st.DrawFn) -> Trunk:
    """Any line, faults and all."""
    names = NAMES[: draw(st.integers(1, 9))]
    some = st.lists(st.sampled_from(names), max_size=4).map(tuple)
    return Trunk(
        tuple(draw(nodes(name)) for name in names),
        tuple(draw(LENGTHS) for _ in names[1:]),
        tuple(dict.fromkeys(draw(some))),
        draw(some),
        tuple(dict.fromkeys(draw(some))),
    )


@given(trunks(), st.data())
def test_extending_any_line_leaves_exactly_two_terminators_at_the_ends(trunk: Trunk, data: st.DataObject) -> None:
    neighbour = data.draw(st.sampled_from([node.name for node in trunk.stops]))
    joined = extend(trunk, data.draw(nodes("new")), neighbour, data.draw(LENGTHS)).trunk
    assert Counter(joined.all_terminators) == Counter(joined.ends)
    assert terminator_facts(joined) == ()
    assert len(joined.feeds) == len(joined.screen_grounds) == 1
    assert len(joined.stops) == len(trunk.stops) + 1
    assert joined.length > trunk.length


@given(trunks(), st.data())
def test_every_terminator_that_moves_is_said(trunk: Trunk, data: st.DataObject) -> None:
    neighbour = data.draw(st.sampled_from([node.name for node in trunk.stops]))
    new = data.draw(nodes("new"))
    found = extend(trunk, new, neighbour, data.draw(LENGTHS))
    said = [change.where for change in found.changes if change.kind == "terminator"]
    touched = {name for where in said for name in where}
    before, after = Counter(trunk.all_terminators), Counter(found.trunk.all_terminators)
    assert set((before - after) | (after - before)) <= touched
    assert new.identity is None or found.trunk.node("new").identity is not None
    same = [node for node in trunk.stops if node.function == new.function]
    assert found.trunk.node("new").identity not in {node.identity for node in same}


@given(trunks())
def test_a_line_put_right_stays_as_it_is(trunk: Trunk) -> None:
    right = terminated(trunk)
    assert terminated(right) == right
    assert terminator_facts(right) == ()


@given(st.lists(st.tuples(LENGTHS, CURRENTS), min_size=1, max_size=9))
def test_a_laid_line_runs_in_order_with_nothing_wrong_at_its_ends(stops: list[tuple[float, float]]) -> None:
    trunk = lay([(Node(NAMES[i], None, current, 0.5), place) for i, (place, current) in enumerate(stops)])
    places = list(trunk.positions.values())
    assert places == sorted(places)
    kinds = {fact.kind for fact in facts(trunk, MARINE)}
    assert kinds <= {"trunk too long"}


@given(trunks(), RESISTANCES)
def test_tees_lose_volts_away_from_the_feed(trunk: Trunk, resistance: float) -> None:
    feed = best_feed(trunk)
    solved = supply(trunk, resistance, 12.0, feed=feed)
    at = trunk.positions[feed]
    for side in (-1.0, 1.0):
        tees = [
            node.tee_volts for node in sorted(solved.nodes, key=lambda n: side * n.position) if side * (node.position - at) >= 0.0
        ]
        assert all(far <= near + 1e-12 for near, far in pairwise(tees))
    assert all(node.volts <= node.tee_volts <= solved.feed_volts for node in solved.nodes)


@given(trunks(), RESISTANCES, st.floats(0.0, 0.5), st.floats(1.01, 3.0), st.data())
def test_more_load_or_a_poorer_feed_never_raises_volts(
    trunk: Trunk, resistance: float, lead: float, more: float, data: st.DataObject
) -> None:
    loads = list(taps(trunk))
    index = data.draw(st.integers(0, len(loads) - 1))
    heavier = [
        Tap(tap.name, tap.position, tap.current * more + 0.01, tap.drop_length) if i == index else tap
        for i, tap in enumerate(loads)
    ]
    place = data.draw(st.sampled_from([tap.position for tap in loads]))
    usual = ladder(loads, place, resistance, 12.0, lead)
    for other in (ladder(heavier, place, resistance, 12.0, lead), ladder(loads, place, resistance * more, 12.0, lead * more)):
        assert all(after.volts <= before.volts + 1e-12 for before, after in zip(usual.nodes, other.nodes, strict=True))
    assert ladder(heavier, place, resistance, 12.0, lead).nodes[index].volts <= usual.nodes[index].volts


@given(trunks(), RESISTANCES, st.floats(0.0, 0.5))
def test_power_given_is_power_used_and_lost(trunk: Trunk, resistance: float, lead: float) -> None:
    """Own balance: source power = node power + heat, the heat of each piece summed from its current."""
    feed = best_feed(trunk)
    solved = supply(trunk, resistance, 12.0, lead, feed)
    at = trunk.positions[feed]
    heat = solved.current**2 * lead + sum(2 * resistance * node.drop_length * node.load**2 for node in trunk.stops)
    names = [node.name for node in trunk.stops]
    for here, there, length in zip(names, names[1:], trunk.lengths, strict=False):
        far = [
            node.load
            for node in trunk.stops
            if (trunk.positions[node.name] >= trunk.positions[there]) == (trunk.positions[here] >= at)
        ]
        heat += 2 * resistance * length * sum(far) ** 2
    used = sum(node.volts * node.current for node in solved.nodes)
    assert abs(12.0 * solved.current - used - heat) <= 1e-9 * max(1.0, abs(heat))


@given(st.floats(0.05e-6, 300e-6), st.floats(0.1, 50.0))
def test_resistances_are_positive_and_fall_with_copper(area: float, length: float) -> None:
    assert 0.0 < copper_resistance(1.5 * area) < copper_resistance(area)
    assert 0.0 < shared_resistance(length, 1.5 * area) < shared_resistance(length, area) < shared_resistance(2 * length, area)


@given(st.integers(0, 6), st.integers(1, 60))
def test_another_terminator_or_node_lowers_the_reading(terminators: int, count: int) -> None:
    usual = bus_resistance(terminators, count)
    assert 0.0 < bus_resistance(terminators + 1, count) < usual
    assert bus_resistance(terminators, count + 1) < usual
    assert resistance_reading(usual).means


@given(st.floats(1.5e-6, 240e-6), st.floats(0.0, 1e8), st.floats(87e6, 176e6))
def test_a_link_is_never_thinner_than_either_rule(positive: float, energy: float, constant: float) -> None:
    size = link_size(positive, energy, constant)
    assert size.area >= size.by_heat * (1 - 1e-6)
    assert size.area >= size.by_size * (1 - 1e-6)
    assert size.by_size <= positive * (1 + 1e-6)


@given(CURRENTS, st.floats(0.0, 1e6), CURRENTS, st.floats(0.0, 1e6))
def test_an_equaliser_never_makes_a_shortfall_larger(current: float, time: float, equaliser: float, runs: float) -> None:
    assert 0.0 <= tap_shortfall(current, time, equaliser, runs) <= tap_shortfall(current, time)
