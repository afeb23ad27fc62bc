"""A network-tool maker's FAQ and specification pages on IEC 61162-3 networks (address not recorded). Read: an excerpt."""

from __future__ import annotations

from collections.abc import Callable

from athwart.network.bus import Limit, profile
from athwart.network.supply import LEAST_NODE_VOLTS, MOST_NODE_VOLTS, load_units, units_current
from tests.published._check import Check, each

MARINE = profile("IEC 61162-3")


def value(limit: Limit) -> Callable[[], float]:
    assert limit.value is not None
    figure = limit.value
    return lambda: figure


KEY = "marine-network-tool"
CHECKS = [
    Check(KEY, "load units of 151 mA", 4.0, lambda: load_units(0.151), "1", 0.5, "load equivalents"),
    Check(KEY, "load units of 50 mA", 1.0, lambda: load_units(0.050), "1", 0.5, "load equivalents"),
    Check(KEY, "current of 20 load units", "1.0", lambda: units_current(20.0), "A", 0.05, "load equivalents"),
    Check(KEY, "most a node takes", 1.0, value(MARINE.node_current), "A", 0.5, "load equivalents"),
    Check(KEY, "longest drop", 6.0, value(MARINE.drop), "m", 0.5, "specification"),
    Check(KEY, "all drops", 78.0, value(MARINE.drops), "m", 0.5, "specification"),
    Check(KEY, "nodes", 50.0, value(MARINE.nodes), "1", 0.5, "specification"),
    Check(KEY, "least volts of a node", 9.0, lambda: LEAST_NODE_VOLTS, "V", 0.5, "specification"),
    Check(KEY, "most volts of a node", 16.0, lambda: MOST_NODE_VOLTS, "V", 0.5, "specification"),
]


@each(CHECKS)
def test_a_figure_of_the_tool_maker(check: Check) -> None:
    check.holds()
