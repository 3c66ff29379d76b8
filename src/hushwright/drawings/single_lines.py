"""Single-line diagram of the circuits: sources to the left, what they feed to the right, lines clear of all symbols.

Every node has a row of its own or that of the first thing it feeds; a line that leads back, or a second one to what was
reached another way, has a row of its own below. So no level line meets a box. Upright lines run in two lanes beside the
boxes of a column, where neither signs nor words stand. What feeds several things has its fuse before it splits,
in a lane of its own before the boxes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import count

from hushwright.drawings.electrical import length_with_unit
from hushwright.drawings.geometry import spoken
from hushwright.drawings.marks import text_width
from hushwright.drawings.paper import Paper, room_for_drawing
from hushwright.drawings.primitives import (
    SMALL,
    Circle,
    Drawing,
    Element,
    Hatch,
    Line,
    Point,
    Polyline,
    Text,
    box,
)
from hushwright.evaluation.results_wiring import CircuitResult, WiringResults
from hushwright.units import System

_BOX = (0.0225, 0.0062)  # m on paper, a node
_ROW, _LEAST_ROW = 0.0145, 0.0115  # m on paper from one line to the next
_WIDEST = 0.085  # m on paper from one column to the next
_OUT, _IN = 0.004, 0.003  # m on paper from a box to the upright line behind it, and before it
_SPLIT, _DOT = 0.0055, 0.0004  # m on paper from a box to where a circuit splits before it; radius of the joint
_CLEAR = 0.0025  # m on paper from an upright line to the signs beside it
_ISOLATOR, _FUSE, _RING, _NEXT = 0.0034, 0.005, 0.0012, 0.0016  # m on paper: lengths of signs, radius, between them
_WORDS, _LEAST = 0.77 * SMALL, 0.8  # and how much smaller a long name may stand


@dataclass(frozen=True, slots=True)
class _Node:
    name: str
    column: int
    row: float


@dataclass(frozen=True, slots=True)
class _Layout:
    """Nodes by name; ``lanes`` are rows of circuits, by name and end, to a node found another way.

    The lane of a circuit to no end is the row of what it splits from, where nothing that it feeds stands beside it.
    """

    nodes: dict[str, _Node]
    lanes: dict[tuple[str, str], float]
    rows: float
    columns: int


@dataclass(frozen=True, slots=True)
class _Way:
    """Line of a circuit: its corners, where its signs begin and how much room they have."""

    points: tuple[Point, ...]
    signs: Point
    room: float


def single_lines(results: WiringResults, paper: Paper, system: System) -> tuple[Drawing, ...]:
    """Single-line diagrams: sources to the left, what they feed to the right, one line a circuit.

    Parameters
    ----------
    results : WiringResults
        Circuits with conductors and fuses.
    paper : Paper
        On what it is to fit.
    system : {"metric", "us"}
        Units of the lengths.

    Returns
    -------
    tuple of Drawing
        Diagrams in metres on paper, to be printed 1:1; several where one sheet is too small.
    """
    width, height = (each / 1000.0 for each in room_for_drawing(paper, with_key=False))
    most = int(height / _LEAST_ROW)
    groups: list[list[str]] = []
    for root in _roots(results.circuits):
        if not groups or _layout([*groups[-1], root], results.circuits).rows > most:
            groups.append([])
        groups[-1].append(root)
    found = []
    for number, roots in enumerate(groups, 1):
        layout = _layout(roots, results.circuits)
        across = min((width - _BOX[0] - _OUT - 0.001) / max(layout.columns - 1, 1), _WIDEST)
        pitch = across, max(min(_ROW, (height - _ROW) / max(layout.rows - 1.0, 1.0)), _BOX[1])
        title = "Single-line diagram" + (f" {number}" if len(groups) > 1 else "")
        found.append(
            Drawing(
                f"power-{number}",
                title,
                "one line for each circuit, from its source to the right",
                tuple(_diagram(layout, results.circuits, pitch, system)),
                to_scale=False,
            )
        )
    return tuple(found)


def _roots(circuits: Sequence[CircuitResult]) -> tuple[str, ...]:
    """Where circuits begin that nothing feeds, and one place of every ring that nothing else reaches."""
    fed = {name for circuit in circuits for name in circuit.gives_to}
    roots = list(dict.fromkeys(circuit.takes_from for circuit in circuits if circuit.takes_from not in fed))
    reached = set(_layout(roots, circuits).nodes)
    for circuit in circuits:
        if circuit.takes_from not in reached:
            roots.append(circuit.takes_from)
            reached = set(_layout(roots, circuits).nodes)
    return tuple(roots)


def _layout(roots: Sequence[str], circuits: Sequence[CircuitResult]) -> _Layout:
    """Column and row of every node below some roots; a node stands beside the first thing that it feeds."""
    nodes: dict[str, _Node] = {}
    lanes: dict[tuple[str, str], float] = {}
    seen: set[str] = set()
    rows = count(0)

    def place(name: str, column: int) -> float:
        seen.add(name)
        row: float | None = None
        ahead: list[float] = []
        ours = [each for each in circuits if each.takes_from == name]
        back = [each for each in ours if seen.issuperset(each.gives_to)]  # their rows come below all others
        for circuit in (*(each for each in ours if each not in back), *back):
            again: list[str] = []
            below: list[float] = []
            for to in circuit.gives_to:
                if to in seen:
                    again.append(to)
                else:
                    below.append(place(to, column + 1))
            row = row if row is not None or not below else below[0]
            if len(circuit.gives_to) > 1 and not below:
                lanes[circuit.name, ""] = float(next(rows))
                ahead.append(lanes[circuit.name, ""])
            for to in again:
                lanes[circuit.name, to] = float(next(rows))
                if len(circuit.gives_to) == 1 and to in nodes and nodes[to].column > column:
                    ahead.append(lanes[circuit.name, to])
        row = row if row is not None else ahead[0] if ahead else float(next(rows))
        nodes[name] = _Node(name, column, row)
        return row

    for root in roots:
        if root not in seen:
            place(root, 0)
    splitting = {circuit.takes_from for circuit in circuits if (circuit.name, "") in lanes}
    columns = max((node.column + (1 if node.name in splitting else 0) for node in nodes.values()), default=0) + 1
    return _Layout(nodes, lanes, float(next(rows)), columns)


def _diagram(
    layout: _Layout, circuits: Sequence[CircuitResult], pitch: tuple[float, float], system: System
) -> list[Element]:
    ours = [circuit for circuit in circuits if circuit.takes_from in layout.nodes]
    ways = [(circuit, _ways(circuit, layout, pitch)) for circuit in ours]
    uprights = [
        (a[0], min(a[1], b[1]), max(a[1], b[1]))
        for _, each in ways for way in each for a, b in zip(way.points, way.points[1:], strict=False) if a[0] == b[0]
    ]  # fmt: skip
    found: list[Element] = []
    for circuit, each in ways:
        found += [Polyline(way.points, "power", circuit.name, dashed=circuit.alternating) for way in each]
        found += [Circle(at, _DOT, "power", circuit.name) for at in _joints(each)]
        if circuit.conductor and each:
            found += _signs(circuit, *_free(each[0], uprights, pitch), system)
    for node in layout.nodes.values():
        x, y = node.column * pitch[0], -node.row * pitch[1]
        corners = box((x, y - _BOX[1] / 2.0), (x + _BOX[0], y + _BOX[1] / 2.0))
        name = spoken(node.name)
        size = SMALL * min(1.0, 0.94 * _BOX[0] / max(text_width(_short(name, 22), SMALL), 1e-9))
        found += [Hatch(corners, "power", node.name, "power"), Polyline(corners, "power", node.name, closed=True),
                  Text((x + _BOX[0] / 2.0, y), _short(name, 22), part=node.name, size=size)]  # fmt: skip
    return found


def _ways(circuit: CircuitResult, layout: _Layout, pitch: tuple[float, float]) -> list[_Way]:
    """Lines of a circuit; the first carries its signs, and where it has several ends all others go on from it."""
    if len(circuit.gives_to) < 2:
        return [_way(circuit, layout, to, pitch) for to in circuit.gives_to]
    start = layout.nodes[circuit.takes_from]
    x0, y0 = start.column * pitch[0] + _BOX[0], -start.row * pitch[1]
    split = (start.column + 1) * pitch[0] - _SPLIT
    beside = [layout.nodes[to].row for to in circuit.gives_to if (circuit.name, to) not in layout.lanes]
    level = -pitch[1] * layout.lanes.get((circuit.name, ""), min(beside, default=0.0))
    bend = x0 + _OUT
    to_level = ((x0, y0),) if level == y0 else ((x0, y0), (bend, y0), (bend, level))
    found = [_Way((*to_level, (split, level)), (bend, level), split - bend - 0.001)]
    for to in circuit.gives_to:
        end = layout.nodes[to]
        x1, y1 = end.column * pitch[0], -end.row * pitch[1]
        lane = layout.lanes.get((circuit.name, to))
        low = y1 if lane is None else -lane * pitch[1]
        turns = () if lane is None else ((x1 - _IN, low), (x1 - _IN, y1))
        points = ((split, level), *(((split, low),) if low != level else ()), *turns, (x1, y1))
        found.append(_Way(points, (split, low), 0.0))
    return found


def _joints(ways: Sequence[_Way]) -> list[Point]:
    """Where the lines of a circuit part: at the end of what carries its signs, and where one leaves the upright."""
    if len(ways) < 2:
        return []
    start = ways[0].points[-1]
    heights = [way.points[1][1] if way.points[1][0] == start[0] else start[1] for way in ways[1:]]
    ends = {min(heights), max(heights)} - {start[1]}
    return [start, *((start[0], y) for y in sorted({*heights} - ends - {start[1]}))]


def _way(circuit: CircuitResult, layout: _Layout, to: str, pitch: tuple[float, float]) -> _Way:
    """From the right of one box to the left of another, or round it by a row of its own."""
    start, end = layout.nodes[circuit.takes_from], layout.nodes[to]
    x0, y0 = start.column * pitch[0] + _BOX[0], -start.row * pitch[1]
    x1, y1 = end.column * pitch[0], -end.row * pitch[1]
    bend, turn = x0 + _OUT, x1 - _IN
    room = pitch[0] - _BOX[0] - _OUT - _IN - 0.001
    lane = layout.lanes.get((circuit.name, to))
    if lane is None:
        points = ((x0, y0), (x1, y1)) if y0 == y1 else ((x0, y0), (bend, y0), (bend, y1), (x1, y1))
        return _Way(points, (bend, y1), room)
    low = -lane * pitch[1]
    across = ((x0, y0),) if low == y0 else ((x0, y0), (bend, y0), (bend, low))
    around = (*across, (turn, low), (turn, y1), (x1, y1))
    if end.column == start.column:  # below its own column, where no box stands in this row
        return _Way(around, (turn, low), bend - turn - 0.001)
    return _Way(around, (bend if turn > bend else x1 + _BOX[0] + _OUT, low), room)


def _free(way: _Way, uprights: Sequence[tuple[float, float, float]], pitch: tuple[float, float]) -> tuple[Point, float]:
    """Where signs and words stand on a way: between two columns, where no upright line passes."""
    x, y = way.signs
    level = [end[0] for pair in zip(way.points, way.points[1:], strict=False) for end in pair
             if pair[0][1] == pair[1][1] == y]  # fmt: skip
    while x + way.room < max(level, default=x):
        reach = (x + 1e-6, x + way.room)
        if not any(reach[0] < at < reach[1] and low - 0.004 < y < high + 0.004 for at, low, high in uprights):
            return (x, y), way.room
        x += pitch[0]
    return way.signs, way.room


def _signs(circuit: CircuitResult, run: Point, room: float, system: System) -> list[Element]:
    """Isolator, fuse and residual-current device on a level line, name over it and what it is of below."""
    layer, name = "power", circuit.name
    x, y = run
    found: list[Element] = []
    at = x + _CLEAR
    if circuit.isolator:
        found += [Hatch(box((at, y - 0.0004), (at + _ISOLATOR, y + 0.0004)), layer, name, "paper"),
                  Line((at, y), (at + _ISOLATOR, y + 0.0017), layer, name)]  # fmt: skip
        at += _ISOLATOR + _NEXT
    if circuit.fuse is not None:
        corners = box((at, y - 0.001), (at + _FUSE, y + 0.001))
        found += [Hatch(corners, layer, name, "paper"), Polyline(corners, layer, name, closed=True),
                  Line((at, y), (at + _FUSE, y), layer, name)]  # fmt: skip
        at += _FUSE + _NEXT
    if circuit.residual is not None:
        found.append(Circle((at + _RING, y), _RING, layer, name))
    size = _WORDS * max(_LEAST, min(1.0, (room - 0.0012) / max(text_width(spoken(circuit.name), _WORDS), 1e-9)))
    title = _fitting(spoken(circuit.name), room, size)
    over = 0.0024 if circuit.isolator else 0.0015
    found.append(Text(run, title, part=name, size=size, across="left", upward="bottom", shift=(0.0012, over)))
    for at_line, text in enumerate(_lines(circuit, room, system)):
        down = -(0.0016 + 1.15 * _WORDS * at_line)
        found.append(Text(run, text, part=name, size=_WORDS, across="left", upward="top", shift=(0.0012, down)))
    return found


def _lines(circuit: CircuitResult, room: float, system: System) -> list[str]:
    """What a circuit is of, in as many lines as its room asks for."""
    gauged = system == "us" and circuit.gauge
    parts = [circuit.gauge if gauged else circuit.conductor, length_with_unit(circuit.length, system)]
    if circuit.fuse is not None:
        parts.append(f"{circuit.fuse:g} A")
    if circuit.residual is not None:
        parts.append(f"{1000 * circuit.residual[0]:.0f} mA {circuit.residual[1]}")
    lines: list[str] = []
    for part in parts:
        longer = f"{lines[-1]}, {part}" if lines else part
        if lines and text_width(longer, _WORDS) <= room - 0.0012:
            lines[-1] = longer
        else:
            lines.append(part)
    return lines


def _fitting(text: str, room: float, size: float) -> str:
    """Text cut to the letters that its room has."""
    most = len(text)
    while most > 4 and text_width(_short(text, most), size) > room - 0.0012 + 1e-9:
        most -= 1
    return _short(text, most)


def _short(text: str, most: int) -> str:
    return text if len(text) <= most else text[: most - 1] + "…"
