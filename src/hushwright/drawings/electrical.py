"""Single-line diagram of the circuits, schedules of circuits and of signal lines, and the routes in plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hushwright.drawings.geometry import spoken
from hushwright.drawings.in_plan import outline_in_plan
from hushwright.drawings.numbers import length_text
from hushwright.drawings.paper import Paper, room_for_drawing
from hushwright.drawings.plan import CUT_HEIGHT
from hushwright.drawings.primitives import (
    NORMAL,
    SMALL,
    Circle,
    Drawing,
    Element,
    Hatch,
    Line,
    Polyline,
    Text,
    box,
)
from hushwright.drawings.sheets import Table
from hushwright.evaluation.results_wiring import CircuitResult, WiringResults
from hushwright.model.build import Build
from hushwright.units import System, format_quantity

_BOX = (0.026, 0.0062)  # m on paper, a node
_ROW, _LEAST_ROW = 0.0105, 0.0075  # m on paper from one line to the next
_SYMBOL = 0.006  # m on paper, length of a fuse


@dataclass(frozen=True, slots=True)
class _Node:
    name: str
    column: int
    row: float


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
    if not results.circuits:
        return ()
    width, height = (each / 1000.0 for each in room_for_drawing(paper, with_key=False))
    most = int(height / _LEAST_ROW)
    groups: list[list[str]] = [[]]
    for root in _roots(results.circuits):
        if groups[-1] and _rows([*groups[-1], root], results.circuits) > most:
            groups.append([])
        groups[-1].append(root)
    found = []
    for number, roots in enumerate(groups, 1):
        nodes = _layout(roots, results.circuits)
        columns = max(node.column for node in nodes.values()) + 1
        rows = max(node.row for node in nodes.values()) + 1.0
        pitch = (width - _BOX[0]) / max(columns - 1, 1), max(min(_ROW, height / rows), 0.004)
        elements = _diagram(nodes, results.circuits, (min(pitch[0], 0.085), pitch[1]), system)
        title = "Single-line diagram" + (f" {number}" if len(groups) > 1 else "")
        found.append(Drawing(f"power-{number}", title, "one line for each circuit, from the source to the right",
                             tuple(elements)))  # fmt: skip
    return tuple(found)


def _roots(circuits: Sequence[CircuitResult]) -> tuple[str, ...]:
    """Where circuits begin that nothing feeds; where all go in a circle, the first of them."""
    fed = {name for circuit in circuits for name in circuit.gives_to}
    roots = tuple(dict.fromkeys(circuit.takes_from for circuit in circuits if circuit.takes_from not in fed))
    return roots or (circuits[0].takes_from,)


def _layout(roots: Sequence[str], circuits: Sequence[CircuitResult]) -> dict[str, _Node]:
    """Column and row of every node below some roots; a node stands beside the middle of what it feeds."""
    placed: dict[str, _Node] = {}
    seen: set[str] = set()
    next_row = [0.0]

    def place(name: str, column: int) -> float:
        seen.add(name)
        below = dict.fromkeys(to for c in circuits if c.takes_from == name for to in c.gives_to)
        rows = [place(to, column + 1) for to in below if to not in seen]
        if not rows:
            rows = [next_row[0]]
            next_row[0] += 1.0
        placed[name] = _Node(name, column, (rows[0] + rows[-1]) / 2.0)
        return placed[name].row

    for root in roots:
        if root not in seen:
            place(root, 0)
    return placed


def _rows(roots: Sequence[str], circuits: Sequence[CircuitResult]) -> float:
    return max(node.row for node in _layout(roots, circuits).values()) + 1.0


def _diagram(
    nodes: dict[str, _Node], circuits: Sequence[CircuitResult], pitch: tuple[float, float], system: System
) -> list[Element]:
    found: list[Element] = []
    for circuit in circuits:
        if circuit.takes_from not in nodes:
            continue
        for number, to in enumerate(circuit.gives_to):
            found += _circuit(circuit, nodes[circuit.takes_from], nodes[to], pitch, system, first=number == 0)
    for node in nodes.values():
        x, y = node.column * pitch[0], -node.row * pitch[1]
        corners = box((x, y - _BOX[1] / 2.0), (x + _BOX[0], y + _BOX[1] / 2.0))
        found += [Hatch(corners, "power", node.name, "power"), Polyline(corners, "power", node.name, closed=True),
                  Text((x + _BOX[0] / 2.0, y), _short(spoken(node.name), 22), part=node.name,
                       size=SMALL * 0.9)]  # fmt: skip
    return found


def _circuit(
    circuit: CircuitResult, start: _Node, end: _Node, pitch: tuple[float, float], system: System, *, first: bool
) -> list[Element]:
    """Line of a circuit with its signs; of a circuit that feeds several, words and signs stand at the first."""
    x0, y0 = start.column * pitch[0] + _BOX[0], -start.row * pitch[1]
    x1, y1 = end.column * pitch[0], -end.row * pitch[1]
    bend = x0 + 0.004
    layer, name = "power", circuit.name
    if x1 <= x0:  # back to a node further left: round the outside
        return [Polyline(((x0, y0), (bend, y0), (bend, y1 + 0.45 * pitch[1]), (x1 - 0.002, y1 + 0.45 * pitch[1]),
                          (x1 - 0.002, y1), (x1, y1)), layer, name, dashed=True)]  # fmt: skip
    found: list[Element] = [Polyline(((x0, y0), (bend, y0), (bend, y1), (x1, y1)), layer, name,
                                     dashed=circuit.alternating)]  # fmt: skip
    if not first:
        return found
    at = bend + 0.0015
    if circuit.isolator:
        found += [Hatch(box((at, y1 - 0.0004), (at + 0.004, y1 + 0.0004)), layer, name, "paper"),
                  Line((at, y1), (at + 0.004, y1 + 0.0018), layer, name)]  # fmt: skip
        at += 0.006
    if circuit.fuse is not None:
        corners = box((at, y1 - 0.0011), (at + _SYMBOL, y1 + 0.0011))
        found += [Hatch(corners, layer, name, "paper"), Polyline(corners, layer, name, closed=True),
                  Line((at, y1), (at + _SYMBOL, y1), layer, name)]  # fmt: skip
        at += _SYMBOL + 0.002
    if circuit.residual is not None:
        found += [Circle((at + 0.0015, y1), 0.0015, layer, name)]
    size = SMALL * 0.72
    found.append(Text((bend, y1), _short(spoken(circuit.name), 34), part=name, size=size, across="left",
                      upward="bottom", shift=(0.0008, 0.0014)))  # fmt: skip
    found.append(Text((bend, y1), _words(circuit, system), part=name, size=size, across="left", upward="top",
                      shift=(0.0008, -0.0016)))  # fmt: skip
    return found


def _words(circuit: CircuitResult, system: System) -> str:
    parts = [circuit.conductor, length_with_unit(circuit.length, system)]
    if circuit.fuse is not None:
        parts.append(f"{circuit.fuse:g} A")
    if circuit.residual is not None:
        parts.append(f"{1000 * circuit.residual[0]:.0f} mA {circuit.residual[1]}")
    return ", ".join(parts)


def length_with_unit(length: float, system: System) -> str:
    """Length of a cable: metres to the centimetre, or feet and inches."""
    return format_quantity(length, "length", "us") if system == "us" else f"{length:.2f} m"


def _short(text: str, most: int) -> str:
    return text if len(text) <= most else text[: most - 1] + "…"


def circuit_schedule(results: WiringResults, system: System) -> Table:
    """Schedule of circuits: what each feeds, over what, behind what."""
    rows = [("circuit", "from", "to", "V", "A", "conductor", "length", "drop", "fuse", "residual device", "isolator",
             "route")]  # fmt: skip
    for circuit in results.circuits:
        fuse = f"{circuit.fuse:g} A {circuit.fuse_type}" if circuit.fuse is not None else (
            f"behind {spoken(circuit.guarded_by)}" if circuit.guarded_by else "none")  # fmt: skip
        residual = f"{1000 * circuit.residual[0]:.0f} mA, type {circuit.residual[1]}" if circuit.residual else "none"
        rows.append((
            spoken(circuit.name), spoken(circuit.takes_from), ", ".join(spoken(each) for each in circuit.gives_to),
            f"{circuit.voltage:.3g}" + (" ~" if circuit.alternating else ""), f"{circuit.current:.3g}",
            circuit.conductor + (" (chosen)" if circuit.chosen else ""), length_with_unit(circuit.length, system),
            f"{100 * circuit.drop:.1f} %", fuse, residual, circuit.isolator or "none",
            spoken(circuit.route) or "none",
        ))  # fmt: skip
    title = f"Circuits, after {results.rules}" if results.rules else "Circuits"
    return Table(title, tuple(rows), (1.5, 1.2, 1.7, 0.6, 0.6, 1.3, 0.9, 0.7, 1.5, 1.1, 0.9, 1.1))


def signal_schedule(build: Build, system: System) -> Table:
    """Schedule of signal lines with their connectors."""
    rows = [("line", "kind", "from", "to", "number", "connectors", "length of one", "route", "passes")]
    if build.signals is not None:
        rows += [(
            spoken(line.name), line.kind, spoken(line.comes_from), spoken(line.goes_to), str(line.number),
            ", ".join(line.connectors) or "none told", length_with_unit(line.length, system),
            spoken(line.route) or "none", ", ".join(spoken(each) for each in line.passes) or "nothing",
        ) for line in build.signals.lines]  # fmt: skip
    return Table("Signal lines", tuple(rows), (1.4, 1.1, 1.3, 1.3, 0.7, 1.6, 1.0, 1.2, 1.2))


def routes(build: Build, system: System = "metric") -> Drawing:
    """Routes of cables and ducts in plan, numbered.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units of the lengths in the key.

    Returns
    -------
    Drawing
        x is the station, y runs to the right of the van; heights stand in the key.
    """
    found: list[Element] = [outline_in_plan(build, CUT_HEIGHT)]
    for room in build.rooms:
        half = room.section.half_width_at("left", CUT_HEIGHT)
        found.append(Polyline(box((room.front, -half), (room.rear, half)), "hidden", room.name, closed=True))
        found.append(Text(((room.front + room.rear) / 2.0, half), spoken(room.name), part=room.name, size=NORMAL,
                          bold=True, shift=(0.0, -0.005)))  # fmt: skip
    key = []
    for number, route in enumerate(build.routes, 1):
        points = tuple((station, -y) for station, y, _ in route.points)
        found.append(Polyline(points, "air" if route.run else "routes", route.name))
        middle = max(zip(points, points[1:], strict=False), key=lambda pair: _square(*pair), default=(points[0],) * 2)
        place = ((middle[0][0] + middle[1][0]) / 2.0, (middle[0][1] + middle[1][1]) / 2.0)
        found.append(Text(place, str(number), "routes", route.name, SMALL, bold=True, shift=(0.0, 0.0018)))
        found += [Circle(point, 0.012, "routes", route.name) for point in points]
        heights = sorted({round(z, 3) for _, _, z in route.points})
        span = " to ".join(length_text(z, system) for z in dict.fromkeys((heights[0], heights[-1])))
        through = f", through {', '.join(spoken(each) for each in route.passes)}" if route.passes else ""
        key.append(
            (str(number), f"{spoken(route.name)}: {length_with_unit(route.length, system)}, height {span}{through}")
        )
    return Drawing("routes", "Routes", "seen from above, front of the van to the left", tuple(found), tuple(key))


def _square(a: tuple[float, float], b: tuple[float, float]) -> float:
    return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2
