"""Single-line diagram of the circuits, schedules of circuits and of signal lines, and the routes in plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import count

from hushwright.drawings.geometry import labelled, spoken
from hushwright.drawings.in_plan import outline_in_plan
from hushwright.drawings.numbers import length_text
from hushwright.drawings.paper import Paper, room_for_drawing
from hushwright.drawings.plan import CUT_HEIGHT
from hushwright.drawings.primitives import (
    NORMAL,
    SMALL,
    Balloon,
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
        columns = max(node.column for node in layout.nodes.values()) + 1
        across = min((width - _BOX[0] - 0.004) / max(columns - 1, 1), 0.085)
        pitch = across, max(min(_ROW, height / layout.rows), 0.004)
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


@dataclass(frozen=True, slots=True)
class _Layout:
    """Nodes by name; ``lanes`` are rows of links that lead to a node found another way."""

    nodes: dict[str, _Node]
    lanes: dict[tuple[str, str], float]
    rows: float


def _layout(roots: Sequence[str], circuits: Sequence[CircuitResult]) -> _Layout:
    """Column and row of every node below some roots; a node stands beside the middle of what it feeds."""
    nodes: dict[str, _Node] = {}
    lanes: dict[tuple[str, str], float] = {}
    seen: set[str] = set()
    rows = count(0)

    def place(name: str, column: int) -> float:
        seen.add(name)
        own: list[float] = []
        for to in dict.fromkeys(to for each in circuits if each.takes_from == name for to in each.gives_to):
            if to in seen:
                lanes[name, to] = float(next(rows))
            else:
                own.append(place(to, column + 1))
        if not own:
            own = [lanes[key] for key in lanes if key[0] == name][:1] or [float(next(rows))]
        nodes[name] = _Node(name, column, (own[0] + own[-1]) / 2.0)
        return nodes[name].row

    for root in roots:
        if root not in seen:
            place(root, 0)
    return _Layout(nodes, lanes, float(next(rows)))


def _diagram(
    layout: _Layout, circuits: Sequence[CircuitResult], pitch: tuple[float, float], system: System
) -> list[Element]:
    found: list[Element] = []
    for circuit in circuits:
        if circuit.takes_from not in layout.nodes:
            continue
        for number, to in enumerate(circuit.gives_to):
            found += _circuit(circuit, layout, to, pitch, system, first=number == 0)
    for node in layout.nodes.values():
        x, y = node.column * pitch[0], -node.row * pitch[1]
        corners = box((x, y - _BOX[1] / 2.0), (x + _BOX[0], y + _BOX[1] / 2.0))
        found += [Hatch(corners, "power", node.name, "power"), Polyline(corners, "power", node.name, closed=True),
                  Text((x + _BOX[0] / 2.0, y), _short(spoken(node.name), 20), part=node.name, size=SMALL)]  # fmt: skip
    return found


def _circuit(
    circuit: CircuitResult, layout: _Layout, to: str, pitch: tuple[float, float], system: System, *, first: bool
) -> list[Element]:
    """Line of a circuit with its signs; of a circuit that feeds several, words and signs stand at the first."""
    start, end = layout.nodes[circuit.takes_from], layout.nodes[to]
    x0, y0 = start.column * pitch[0] + _BOX[0], -start.row * pitch[1]
    x1, y1 = end.column * pitch[0], -end.row * pitch[1]
    bend, turn = x0 + 0.004, x1 - 0.003
    lane = layout.lanes.get((circuit.takes_from, to))
    points: tuple[Point, ...] = ((x0, y0), (bend, y0), (bend, y1), (x1, y1))
    run = (bend, y1)
    if lane is not None:
        low = -lane * pitch[1]
        points = ((x0, y0), (bend, y0), (bend, low), (turn, low), (turn, y1), (x1, y1))
        run = (bend if turn > bend else x1 + _BOX[0] + 0.006, low)
    found: list[Element] = [Polyline(points, "power", circuit.name, dashed=circuit.alternating)]
    return [*found, *_signs(circuit, run, system)] if first and circuit.conductor else found


def _signs(circuit: CircuitResult, run: tuple[float, float], system: System) -> list[Element]:
    """Isolator, fuse and residual-current device on a level line, name over it and what it is of below."""
    layer, name = "power", circuit.name
    x, y = run
    found: list[Element] = []
    at = x + 0.0015
    if circuit.isolator:
        found += [Hatch(box((at, y - 0.0004), (at + 0.004, y + 0.0004)), layer, name, "paper"),
                  Line((at, y), (at + 0.004, y + 0.0018), layer, name)]  # fmt: skip
        at += 0.006
    if circuit.fuse is not None:
        corners = box((at, y - 0.001), (at + _SYMBOL, y + 0.001))
        found += [Hatch(corners, layer, name, "paper"), Polyline(corners, layer, name, closed=True),
                  Line((at, y), (at + _SYMBOL, y), layer, name)]  # fmt: skip
        at += _SYMBOL + 0.002
    if circuit.residual is not None:
        found.append(Circle((at + 0.0015, y), 0.0012, layer, name))
    size = SMALL * 0.84
    over = 0.0024 if circuit.isolator else 0.0015
    words = ((_short(spoken(circuit.name), 30), "bottom", over), (_words(circuit, system), "top", -0.0016))
    for text, upward, shift in words:
        found.append(Text(run, text, part=name, size=size, across="left", shift=(0.0012, shift),
                          upward="bottom" if upward == "bottom" else "top"))  # fmt: skip
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
        found.append(Text(((room.front + room.rear) / 2.0, half), labelled(room.name), part=room.name, size=NORMAL,
                          bold=True, shift=(0.0, -0.005)))  # fmt: skip
    key = []
    for number, route in enumerate(build.routes, 1):
        points = tuple((station, -y) for station, y, _ in route.points)
        found.append(Polyline(points, "air" if route.run else "routes", route.name))
        middle = max(zip(points, points[1:], strict=False), key=lambda pair: _square(*pair), default=(points[0],) * 2)
        place = ((middle[0][0] + middle[1][0]) / 2.0, (middle[0][1] + middle[1][1]) / 2.0)
        found.append(Balloon(place, str(number), "routes", route.name))
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
