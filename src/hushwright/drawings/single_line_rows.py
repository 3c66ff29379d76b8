"""Where the nodes of a single-line diagram stand: a column and a row each, and rows of lines that go another way.

Every node has a row of its own or that of the first thing it feeds; a line that leads back, or a second one to what was
reached another way, has a row of its own below. So no level line meets a box.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import count

from hushwright.evaluation.results.wiring import CircuitResult


@dataclass(frozen=True, slots=True)
class Node:
    """Source, board or load: its column and its row."""

    name: str
    column: int
    row: float


@dataclass(frozen=True, slots=True)
class Layout:
    """Nodes by name; ``lanes`` are rows of circuits, by name and end, to a node found another way.

    The lane of a circuit to no end is the row of what it splits from, where nothing that it feeds stands beside it.
    """

    nodes: dict[str, Node]
    lanes: dict[tuple[str, str], float]
    rows: float
    columns: int


def roots_of(circuits: Sequence[CircuitResult]) -> tuple[str, ...]:
    """Where circuits begin that nothing feeds, and one place of every ring that nothing else reaches."""
    fed = {name for circuit in circuits for name in circuit.gives_to}
    roots = list(dict.fromkeys(circuit.takes_from for circuit in circuits if circuit.takes_from not in fed))
    reached = set(layout_of(roots, circuits).nodes)
    for circuit in circuits:
        if circuit.takes_from not in reached:
            roots.append(circuit.takes_from)
            reached = set(layout_of(roots, circuits).nodes)
    return tuple(roots)


def layout_of(roots: Sequence[str], circuits: Sequence[CircuitResult]) -> Layout:
    """Column and row of every node below some roots; a node stands beside the first thing that it feeds."""
    placing = _Placing(circuits)
    for root in roots:
        if root not in placing.seen:
            placing.place(root, 0)
    splitting = {circuit.takes_from for circuit in circuits if (circuit.name, "") in placing.lanes}
    reach = (node.column + (1 if node.name in splitting else 0) for node in placing.nodes.values())
    return Layout(placing.nodes, placing.lanes, float(next(placing.rows)), max(reach, default=0) + 1)


@dataclass(slots=True)
class _Placing:
    """Nodes and lanes as they are found, from the roots on."""

    circuits: Sequence[CircuitResult]
    nodes: dict[str, Node] = field(default_factory=dict)
    lanes: dict[tuple[str, str], float] = field(default_factory=dict)
    seen: set[str] = field(default_factory=set)
    rows: count[int] = field(default_factory=count)

    def place(self, name: str, column: int) -> float:
        """Row of a node, once everything that it feeds has its own."""
        self.seen.add(name)
        beside: list[float] = []
        ahead: list[float] = []
        for circuit in self._in_order(name):
            again = [to for to in circuit.gives_to if to in self.seen]
            below = []
            for to in circuit.gives_to:
                if to not in self.seen:
                    below.append(self.place(to, column + 1))
                elif to not in again:
                    again.append(to)  # reached on the way of one before it
            beside += below
            ahead += self._lanes(circuit, again, column, alone=not below)
        row = beside[0] if beside else ahead[0] if ahead else self._row()
        self.nodes[name] = Node(name, column, row)
        return row

    def _in_order(self, name: str) -> list[CircuitResult]:
        """Circuits of a node; those that lead to known nodes alone come last, their rows below all others."""
        ours = [each for each in self.circuits if each.takes_from == name]
        back = [each for each in ours if self.seen.issuperset(each.gives_to)]
        return [*(each for each in ours if each not in back), *back]

    def _lanes(self, circuit: CircuitResult, again: Sequence[str], column: int, *, alone: bool) -> list[float]:
        """Rows of a circuit to nodes found another way; those returned lead ahead, where the node may stand."""
        ahead = []
        if len(circuit.gives_to) > 1 and alone:
            self.lanes[circuit.name, ""] = self._row()
            ahead.append(self.lanes[circuit.name, ""])
        for to in again:
            self.lanes[circuit.name, to] = self._row()
            if len(circuit.gives_to) == 1 and to in self.nodes and self.nodes[to].column > column:
                ahead.append(self.lanes[circuit.name, to])
        return ahead

    def _row(self) -> float:
        return float(next(self.rows))
