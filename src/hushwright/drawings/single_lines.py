"""Single-line diagram of the circuits: sources to the left, what they feed to the right, lines clear of all symbols.

Rows and columns come from `single_line_rows`, lines from `single_line_ways`, signs and words from `single_line_signs`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from hushwright.drawings.geometry import spoken
from hushwright.drawings.marks import text_width
from hushwright.drawings.paper import Paper, room_for_drawing
from hushwright.drawings.primitives import SMALL, Circle, Drawing, Element, Hatch, Polyline, Text, box
from hushwright.drawings.single_line_rows import Layout, layout_of, roots_of
from hushwright.drawings.single_line_signs import Upright, free_place, short, signs_of
from hushwright.drawings.single_line_ways import BOX, OUT, Grid, Shared, Way, grid_of, joints_of, shared_of, ways_of
from hushwright.evaluation.results.wiring import CircuitResult, WiringResults
from hushwright.units import System

_ROW, _LEAST_ROW = 0.0145, 0.0115  # m on paper from one line to the next
_WIDEST = 0.085  # m on paper from one column to the next
_DOT = 0.0004  # m on paper, radius of a joint
_LETTERS = 22  # of a node's name


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
    for root in roots_of(results.circuits):
        if not groups or layout_of([*groups[-1], root], results.circuits).rows > most:
            groups.append([])
        groups[-1].append(root)
    found = []
    for number, roots in enumerate(groups, 1):
        layout = layout_of(roots, results.circuits)
        across = min((width - BOX[0] - OUT - 0.001) / max(layout.columns - 1, 1), _WIDEST)
        pitch = across, max(min(_ROW, (height - _ROW) / max(layout.rows - 1.0, 1.0)), BOX[1])
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


def _diagram(
    layout: Layout, circuits: Sequence[CircuitResult], pitch: tuple[float, float], system: System
) -> list[Element]:
    ours = [circuit for circuit in circuits if circuit.takes_from in layout.nodes]
    grid = grid_of(layout, ours, pitch)
    ways = [(circuit, ways_of(circuit, grid)) for circuit in ours]
    shared = tuple(shared_of(ours, grid))
    uprights = _uprights([way for _, each in ways for way in each], shared)
    found: list[Element] = []
    for circuit, each in ways:
        found += [Polyline(way.points, "power", circuit.name, dashed=circuit.alternating) for way in each]
        found += [Circle(at, _DOT, "power", circuit.name) for at in joints_of(each)]
        if circuit.conductor and each:
            found += signs_of(circuit, *free_place(each[0], uprights, pitch[0]), system)
    for one in shared:
        found += [Polyline(line, "power", one.node, dashed=one.alternating) for line in one.lines]
        found += [Circle(at, _DOT, "power", one.node) for at in one.joints]
    for name in layout.nodes:
        found += _box(name, grid)
    return found


def _uprights(ways: Sequence[Way], shared: Sequence[Shared]) -> list[Upright]:
    lines = [*(way.points for way in ways), *(line for one in shared for line in one.lines)]
    return [(a[0], min(a[1], b[1]), max(a[1], b[1])) for line in lines for a, b in pairwise(line) if a[0] == b[0]]


def _box(node: str, grid: Grid) -> list[Element]:
    x, y = grid.corner(node)
    corners = box((x, y - BOX[1] / 2.0), (x + BOX[0], y + BOX[1] / 2.0))
    name = short(spoken(node), _LETTERS)
    size = SMALL * min(1.0, 0.94 * BOX[0] / max(text_width(name, SMALL), 1e-9))
    return [Hatch(corners, "power", node, "power"), Polyline(corners, "power", node, closed=True),
            Text((x + BOX[0] / 2.0, y), name, part=node, size=size)]  # fmt: skip
