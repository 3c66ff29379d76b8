"""Lines of a single-line diagram: one a circuit, none along another; what several circuits share is the node's own.

Upright lines run in lanes beside the boxes of a column, where neither signs nor words stand: where circuits part behind
a box, where they meet before one, and where a circuit that feeds several things splits, behind its fuse.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from hushwright.drawings.primitives import Point
from hushwright.drawings.single_line_rows import Layout
from hushwright.evaluation.results.wiring import CircuitResult

BOX = (0.0225, 0.0062)  # m on paper, a node
OUT, _IN = 0.004, 0.003  # m on paper from a box to the upright line behind it, and before it
_SPLIT = 0.0055  # m on paper from a box to where a circuit splits before it
_LANE = 0.0025  # m on paper between upright lines that lead to different boxes of a column
_END = 0.001  # m on paper that words keep from the upright line after them


@dataclass(frozen=True, slots=True)
class Way:
    """Line of a circuit: its corners, where its signs begin and how much room they have."""

    points: tuple[Point, ...]
    signs: Point
    room: float


@dataclass(frozen=True, slots=True)
class Shared:
    """Line of a node that several circuits share: from its box and upright, with the heights at which they join it."""

    node: str
    stub: tuple[Point, Point]
    heights: tuple[float, ...]
    alternating: bool

    @property
    def lines(self) -> tuple[tuple[Point, Point], ...]:
        """The stub, and the upright line where the heights differ."""
        x, y = self.stub[1]
        ends = min(*self.heights, y), max(*self.heights, y)
        return (self.stub, ((x, ends[0]), (x, ends[1]))) if ends[0] < ends[1] else (self.stub,)

    @property
    def joints(self) -> tuple[Point, ...]:
        """Where three lines meet."""
        x, y = self.stub[1]
        low, high = min(*self.heights, y), max(*self.heights, y)
        meeting = {at: (at < high) + (at > low) + (at == y) + (at in self.heights) for at in (*self.heights, y)}
        return tuple((x, at) for at, lines in sorted(meeting.items()) if lines > 2)


@dataclass(frozen=True, slots=True)
class Grid:
    """Layout on paper: ``parting`` and ``meeting`` are nodes that several circuits leave or come to.

    ``lane_of`` numbers the upright lines before the boxes of a column, from the box outwards.
    """

    layout: Layout
    pitch: tuple[float, float]
    parting: frozenset[str]
    meeting: frozenset[str]
    lane_of: Mapping[str, int]

    def corner(self, name: str) -> Point:
        """Middle of the left side of a box."""
        node = self.layout.nodes[name]
        return node.column * self.pitch[0], self.height(node.row)

    def height(self, row: float) -> float:
        """Height of a row."""
        return -row * self.pitch[1]

    def bend(self, name: str) -> float:
        """Upright line behind a box."""
        return self.corner(name)[0] + BOX[0] + OUT

    def turn(self, name: str) -> float:
        """Upright line before a box."""
        return self.corner(name)[0] - _IN - _LANE * self.lane_of.get(name, 0)

    def inset(self, column: int) -> float:
        """What lanes more than one take before the boxes of a column."""
        ours = (lane for name, lane in self.lane_of.items() if self.layout.nodes[name].column == column)
        return _LANE * max(ours, default=0)

    def room(self, column: int) -> float:
        """Room for signs and words before the boxes of a column."""
        return self.pitch[0] - BOX[0] - OUT - _IN - _END - self.inset(column)

    def begin(self, name: str, level: float) -> tuple[Point, ...]:
        """First corners of a way from a node to its level: from its box, or from the line that circuits share."""
        y, bend = self.corner(name)[1], self.bend(name)
        if name in self.parting:
            return ((bend, level),)
        start = (self.corner(name)[0] + BOX[0], y)
        return (start,) if level == y else (start, (bend, y), (bend, level))

    def end(self, name: str, level: float) -> tuple[Point, ...]:
        """Last corners of a way that comes to a node at a level."""
        y, turn = self.corner(name)[1], self.turn(name)
        if name in self.meeting:
            return ((turn, level),)
        return (self.corner(name),) if level == y else ((turn, level), (turn, y), self.corner(name))


def grid_of(layout: Layout, circuits: Sequence[CircuitResult], pitch: tuple[float, float]) -> Grid:
    """Layout with the lanes that its lines need."""
    leaving = [circuit.takes_from for circuit in circuits if circuit.gives_to]
    coming = [to for circuit in circuits for to in circuit.gives_to]
    spans: dict[str, tuple[float, float]] = {}
    for (_, to), row in layout.lanes.items():
        if to:
            low, high = spans.get(to, (layout.nodes[to].row,) * 2)
            spans[to] = min(low, row), max(high, row)
    lanes: dict[str, int] = {}
    for name, (low, high) in sorted(spans.items(), key=lambda pair: (pair[1][1] - pair[1][0], pair[0])):
        column = layout.nodes[name].column
        beside = [other for other in lanes if layout.nodes[other].column == column]
        taken = {lanes[other] for other in beside if spans[other][0] <= high and spans[other][1] >= low}
        lanes[name] = next(lane for lane in range(len(spans)) if lane not in taken)
    return Grid(layout, pitch, _several(leaving), _several(coming), lanes)


def _several(names: Sequence[str]) -> frozenset[str]:
    return frozenset(each for each in names if names.count(each) > 1)


def ways_of(circuit: CircuitResult, grid: Grid) -> list[Way]:
    """Lines of a circuit; the first carries its signs, and where it has several ends all others go on from it."""
    if len(circuit.gives_to) < 2:
        return [_way(circuit, to, grid) for to in circuit.gives_to]
    source, lanes = circuit.takes_from, grid.layout.lanes
    column = grid.layout.nodes[source].column + 1
    split = column * grid.pitch[0] - _SPLIT - grid.inset(column)
    beside = [grid.layout.nodes[to].row for to in circuit.gives_to if (circuit.name, to) not in lanes]
    level = grid.height(lanes.get((circuit.name, ""), min(beside, default=0.0)))
    bend = grid.bend(source)
    found = [Way((*grid.begin(source, level), (split, level)), (bend, level), split - bend - _END)]
    for to in circuit.gives_to:
        low = grid.height(lanes.get((circuit.name, to), grid.layout.nodes[to].row))
        start = ((split, level),) if low == level else ((split, level), (split, low))
        found.append(Way((*start, *grid.end(to, low)), (split, low), 0.0))
    return found


def _way(circuit: CircuitResult, to: str, grid: Grid) -> Way:
    """From the right of one box to the left of another, or round it by a row of its own."""
    start, end = grid.layout.nodes[circuit.takes_from], grid.layout.nodes[to]
    bend, turn = grid.bend(start.name), grid.turn(to)
    lane = grid.layout.lanes.get((circuit.name, to))
    low = grid.height(end.row if lane is None else lane)
    points = (*grid.begin(start.name, low), *grid.end(to, low))
    if lane is None:
        return Way(points, (bend, low), grid.room(end.column))
    if end.column == start.column:  # below its own column, where no box stands in this row
        after = grid.corner(to)[0] - _IN
        return Way(points, (after, low), bend - after - _END)
    room = min(grid.room(column) for column in range(grid.layout.columns))
    return Way(points, (bend if turn > bend else grid.bend(to), low), room)


def shared_of(circuits: Sequence[CircuitResult], grid: Grid) -> Iterator[Shared]:
    """Lines of nodes that several circuits share, behind and before their boxes."""
    for name in grid.layout.nodes:
        x, y = grid.corner(name)
        ours = [circuit for circuit in circuits if circuit.takes_from == name and circuit.gives_to]
        if name in grid.parting:
            heights = tuple(ways_of(each, grid)[0].points[0][1] for each in ours)
            stub = (x + BOX[0], y), (grid.bend(name), y)
            yield Shared(name, stub, heights, all(each.alternating for each in ours))
        coming = [circuit for circuit in circuits if name in circuit.gives_to]
        if name in grid.meeting:
            heights = tuple(
                grid.height(grid.layout.lanes.get((each.name, name), grid.layout.nodes[name].row)) for each in coming
            )
            yield Shared(name, ((x, y), (grid.turn(name), y)), heights, all(each.alternating for each in coming))


def joints_of(ways: Sequence[Way]) -> list[Point]:
    """Where the lines of a circuit part: at the end of what carries its signs, and where one leaves the upright."""
    if len(ways) < 2:
        return []
    start = ways[0].points[-1]
    heights = [way.points[1][1] if way.points[1][0] == start[0] else start[1] for way in ways[1:]]
    ends = {min(heights), max(heights)} - {start[1]}
    return [start, *((start[0], y) for y in sorted({*heights} - ends - {start[1]}))]
