"""Small direct-current networks: node volts and branch currents of resistors, sources and nonlinear loads.

Nodes have names; one is the reference at 0 V. Resistors of nought ohms are exact: their ends are merged into one node, and
their currents recovered from the balance of its members. Loads give their current at any volts (a motor, a drive) and are met
by Newton's method from the high-voltage side, where a constant-power load has its stable answer. Every answer is checked: the
currents into each node balance to 1e-9 of the largest.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from math import isfinite
from typing import TypeAlias

from athwart.errors import NoConvergence, NotComputed
from athwart.units.names import Ampere, Ohm, Volt

BALANCE = 1e-9
MOST_TURNS = 60
PIVOT = 1e-13


class FloatingNodes(NotComputed):
    """Nodes without a way to the reference through resistors and sources; ``nodes`` names them."""

    def __init__(self, nodes: tuple[str, ...]) -> None:
        super().__init__(f"no resistor or source joins these nodes to the reference: {', '.join(nodes)}")
        self.nodes = nodes


@dataclass(frozen=True, slots=True)
class Resistor:
    """Resistance between two nodes; its current counts from ``start`` to ``end``. Nought ohms are a solid connection."""

    name: str
    start: str
    end: str
    ohms: Ohm


@dataclass(frozen=True, slots=True)
class Source:
    """Electromotive force behind a resistance; its current counts out of ``plus``."""

    name: str
    plus: str
    minus: str
    emf: Volt
    ohms: Ohm


@dataclass(frozen=True, slots=True)
class Load:
    """A consumer whose current (from ``plus`` to ``minus``) is a function of the volts between them."""

    name: str
    plus: str
    minus: str
    current: Callable[[Volt], Ampere]


Element: TypeAlias = Resistor | Source | Load


@dataclass(frozen=True, slots=True)
class Circuit:
    """A network. ``reference`` is the node at 0 V."""

    resistors: tuple[Resistor, ...]
    sources: tuple[Source, ...]
    loads: tuple[Load, ...] = ()
    reference: str = "ground"

    @property
    def elements(self) -> tuple[Element, ...]:
        """Everything in it."""
        return (*self.resistors, *self.sources, *self.loads)

    def with_fault(self, start: str, end: str, ohms: Ohm = 0.0, name: str = "fault") -> Circuit:
        """The network with two nodes short-circuited, bolted unless ``ohms`` says otherwise."""
        return Circuit((*self.resistors, Resistor(name, start, end, ohms)), self.sources, self.loads, self.reference)

    def without(self, *names: str) -> Circuit:
        """The network with these elements taken out: a fuse that opened, a switch thrown."""
        known = {element.name for element in self.elements}
        if unknown := sorted(set(names) - known):
            raise ValueError(f"no element named {', '.join(unknown)} in the network")
        return Circuit(
            tuple(element for element in self.resistors if element.name not in names),
            tuple(element for element in self.sources if element.name not in names),
            tuple(element for element in self.loads if element.name not in names),
            self.reference,
        )


@dataclass(frozen=True, slots=True)
class Answer:
    """Volts by node and currents by element; ``turns`` of Newton's method it took."""

    volts: dict[str, Volt]
    currents: dict[str, Ampere]
    turns: int

    def across(self, start: str, end: str) -> Volt:
        """Volts from one node to another."""
        return self.volts[start] - self.volts[end]


@dataclass(slots=True)
class _Net:
    """A network with its solid connections merged: nodes as numbers, -1 being the reference."""

    groups: dict[str, str]
    index: dict[str, int]
    conductance: list[list[float]] = field(default_factory=list)
    injection: list[float] = field(default_factory=list)

    def at(self, node: str) -> int:
        return self.index.get(self.groups[node], -1)


def solve(circuit: Circuit) -> Answer:
    """Volts and currents of a network.

    Raises
    ------
    ValueError
        Two elements of one name, a negative resistance, a source without resistance, an empty network.
    FloatingNodes
        Some nodes hang on nothing.
    NoConvergence
        The loads find no common answer; ``state`` is the last set of volts by node.
    """
    _refuse_mistakes(circuit)
    net = _merged(circuit)
    _refuse_floating(circuit, net)
    _stamp(circuit, net)
    volts = eliminate(net.conductance, net.injection)
    turns = 0
    if circuit.loads:
        volts, turns = _newton(circuit, net, volts)
    by_node = {node: (volts[net.at(node)] if net.at(node) >= 0 else 0.0) for node in sorted(net.groups)}
    currents = _currents(circuit, net, by_node)
    answer = Answer(by_node, currents, turns)
    assert_balances(circuit, answer)
    return answer


def assert_balances(circuit: Circuit, answer: Answer, tolerance: float = BALANCE) -> None:
    """Fail unless the currents into every node sum to nought, to ``tolerance`` of the largest current."""
    sums = dict.fromkeys(answer.volts, 0.0)
    for element in circuit.elements:
        leaving, entering = _ends(element)
        current = answer.currents[element.name] * (-1.0 if isinstance(element, Source) else 1.0)
        sums[leaving] -= current
        sums[entering] += current
    scale = max((abs(current) for current in answer.currents.values()), default=0.0)
    for node, left in sums.items():
        if abs(left) > tolerance * max(scale, 1e-6):
            raise NoConvergence(f"{left:.3g} A are left over at {node}; the largest current is {scale:.3g} A", answer)


def eliminate(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """Solve linear equations by Gaussian elimination with partial pivoting; noughts are skipped.

    Raises
    ------
    NotComputed
        The equations are singular.
    """
    n = len(right)
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    scale = max((abs(value) for row in matrix for value in row), default=0.0)
    for k in range(n):
        best = max(range(k, n), key=lambda i: abs(rows[i][k]))
        if abs(rows[best][k]) <= PIVOT * scale:
            raise NotComputed(f"the equations are singular at unknown {k}")
        rows[k], rows[best] = rows[best], rows[k]
        pivot = rows[k]
        live = [j for j in range(k + 1, n + 1) if pivot[j] != 0.0]
        for i in range(k + 1, n):
            row = rows[i]
            if row[k] != 0.0:
                factor = row[k] / pivot[k]
                for j in live:
                    row[j] -= factor * pivot[j]
    answer = [0.0] * n
    for k in range(n - 1, -1, -1):
        row = rows[k]
        answer[k] = (row[n] - sum(row[j] * answer[j] for j in range(k + 1, n) if row[j] != 0.0)) / row[k]
    return answer


def _ends(element: Element) -> tuple[str, str]:
    return (element.start, element.end) if isinstance(element, Resistor) else (element.plus, element.minus)


def _refuse_mistakes(circuit: Circuit) -> None:
    names = [element.name for element in circuit.elements]
    faults = [f"two elements named {name}" for name in sorted({name for name in names if names.count(name) > 1})]
    faults += [f"{r.name} has {r.ohms:g} ohm" for r in circuit.resistors if not (isfinite(r.ohms) and r.ohms >= 0.0)]
    faults += [
        f"source {s.name} has {s.ohms:g} ohm; it needs some" for s in circuit.sources if not (isfinite(s.ohms) and s.ohms > 0.0)
    ]
    faults += [f"source {s.name} has an emf of {s.emf:g} V" for s in circuit.sources if not isfinite(s.emf)]
    if not any(circuit.reference in _ends(element) for element in circuit.elements):
        faults.append(f"nothing is joined to the reference {circuit.reference!r}")
    if faults:
        raise ValueError("; ".join(faults))


def _merged(circuit: Circuit) -> _Net:
    """Number the nodes, the ends of solid connections sharing one number."""
    nodes = [node for element in circuit.elements for node in _ends(element)]
    root = _union(nodes, [_ends(r) for r in circuit.resistors if r.ohms == 0.0])
    ground = root[circuit.reference]
    heads = sorted({head for head in root.values() if head != ground})
    return _Net(root, {head: number for number, head in enumerate(heads)})


def _union(nodes: Iterable[str], joined: Iterable[tuple[str, str]]) -> dict[str, str]:
    """Node -> representative of its group."""
    parent = {node: node for node in nodes}

    def find(node: str) -> str:
        while parent[node] != node:
            parent[node] = parent[parent[node]]
            node = parent[node]
        return node

    for a, b in joined:
        parent[find(a)] = find(b)
    return {node: find(node) for node in parent}


def _refuse_floating(circuit: Circuit, net: _Net) -> None:
    """Loads do not hold a node: what hangs on loads alone floats."""
    joined = [_ends(r) for r in circuit.resistors] + [_ends(s) for s in circuit.sources]
    reach = _union(net.groups, joined)
    ground = reach[circuit.reference]
    if floating := tuple(sorted(node for node, head in reach.items() if head != ground)):
        raise FloatingNodes(floating)


def _stamp(circuit: Circuit, net: _Net) -> None:
    n = len(net.index)
    net.conductance, net.injection = [[0.0] * n for _ in range(n)], [0.0] * n
    for r in circuit.resistors:
        if r.ohms > 0.0:
            _add(net.conductance, net.at(r.start), net.at(r.end), 1.0 / r.ohms)
    for s in circuit.sources:
        plus, minus = net.at(s.plus), net.at(s.minus)
        _add(net.conductance, plus, minus, 1.0 / s.ohms)
        _inject(net.injection, plus, minus, s.emf / s.ohms)


def _add(matrix: list[list[float]], a: int, b: int, siemens: float) -> None:
    if a == b:
        return
    for one, other in ((a, b), (b, a)):
        if one >= 0:
            matrix[one][one] += siemens
            if other >= 0:
                matrix[one][other] -= siemens


def _inject(right: list[float], plus: int, minus: int, current: float) -> None:
    if plus >= 0:
        right[plus] += current
    if minus >= 0:
        right[minus] -= current


def _newton(circuit: Circuit, net: _Net, volts: list[float]) -> tuple[list[float], int]:
    """Volts at which sources and loads agree, from the volts without load downwards."""
    worst = _misfit(circuit, net, volts)
    for turn in range(1, MOST_TURNS + 1):
        matrix, right = [row[:] for row in net.conductance], net.injection[:]
        for load in circuit.loads:
            plus, minus = net.at(load.plus), net.at(load.minus)
            if plus == minus:
                continue
            across = _between(volts, plus, minus)
            current, slope = load.current(across), _slope(load, across)
            _add(matrix, plus, minus, slope)
            _inject(right, minus, plus, current - slope * across)
        goal = eliminate(matrix, right)
        share = 1.0
        while True:
            trial = [v + share * (g - v) for v, g in zip(volts, goal, strict=True)]
            left = _misfit(circuit, net, trial)
            if left < worst or share < 1e-4:
                break
            share *= 0.5
        step = max((abs(t - v) for t, v in zip(trial, volts, strict=True)), default=0.0)
        if left < worst or step == 0.0:
            volts, worst = trial, left
        if worst <= 0.01 * BALANCE or (worst <= 0.5 * BALANCE and step <= 1e-12 * max(map(abs, volts), default=1.0)):
            return volts, turn
        if left > worst:
            break
    raise NoConvergence(
        f"the loads find no common answer; {worst:.2g} of the largest current is left over",
        {node: (volts[net.at(node)] if net.at(node) >= 0 else 0.0) for node in net.groups},
    )


def _between(volts: list[float], plus: int, minus: int) -> float:
    return (volts[plus] if plus >= 0 else 0.0) - (volts[minus] if minus >= 0 else 0.0)


def _slope(load: Load, volts: float) -> float:
    """Change of the load's current with its volts, by central difference."""
    h = 1e-5 * max(abs(volts), 1.0)
    return (load.current(volts + h) - load.current(volts - h)) / (2.0 * h)


def _misfit(circuit: Circuit, net: _Net, volts: list[float]) -> float:
    """Largest imbalance of a node as a share of the largest current between nodes."""
    right = net.injection[:]
    largest = 1e-6
    for load in circuit.loads:
        plus, minus = net.at(load.plus), net.at(load.minus)
        current = load.current(_between(volts, plus, minus)) if plus != minus else 0.0
        largest = max(largest, abs(current))
        _inject(right, minus, plus, current)
    for source in circuit.sources:
        largest = max(largest, abs(source.emf - _between(volts, net.at(source.plus), net.at(source.minus))) / source.ohms)
    worst = 0.0
    for row, value in zip(net.conductance, right, strict=True):
        worst = max(worst, abs(value - sum(g * v for g, v in zip(row, volts, strict=True) if g != 0.0)))
    return worst / largest


def _currents(circuit: Circuit, net: _Net, volts: dict[str, float]) -> dict[str, float]:
    currents = {s.name: (s.emf - (volts[s.plus] - volts[s.minus])) / s.ohms for s in circuit.sources}
    for load in circuit.loads:
        currents[load.name] = load.current(volts[load.plus] - volts[load.minus])
    for r in circuit.resistors:
        if r.ohms > 0.0:
            currents[r.name] = (volts[r.start] - volts[r.end]) / r.ohms
    currents.update(_solid_currents(circuit, net, currents))
    return currents


def _solid_currents(circuit: Circuit, net: _Net, currents: dict[str, float]) -> dict[str, float]:
    """Currents in connections without resistance, from what flows into each of their ends.

    Around a ring of them the current is undetermined; it is shared as if all had one small equal resistance.
    """
    solid = [r for r in circuit.resistors if r.ohms == 0.0]
    if not solid:
        return {}
    into = dict.fromkeys(net.groups, 0.0)
    for element in circuit.elements:
        if element.name in currents:
            start, end = _ends(element)
            current = currents[element.name] * (-1.0 if isinstance(element, Source) else 1.0)
            into[start] -= current
            into[end] += current
    found: dict[str, float] = {}
    for head in sorted({net.groups[r.start] for r in solid}):
        inside = [r for r in solid if net.groups[r.start] == head]
        members = sorted({node for r in inside for node in (r.start, r.end)})
        last = circuit.reference if circuit.reference in members else members[-1]
        number = {node: i for i, node in enumerate(node for node in members if node != last)}
        matrix = [[0.0] * len(number) for _ in number]
        for r in inside:
            _add(matrix, number.get(r.start, -1), number.get(r.end, -1), 1.0)
        level = eliminate(matrix, [into[node] for node in number])
        for r in inside:
            a, b = number.get(r.start, -1), number.get(r.end, -1)
            found[r.name] = (level[a] if a >= 0 else 0.0) - (level[b] if b >= 0 else 0.0)
    return found
