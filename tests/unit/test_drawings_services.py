"""Single-line diagram, schedules and routes: every circuit, line and route of the Build is there."""

import random
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from tests.coupled import DEMO, build_of

from hushwright.drawings.electrical import circuit_schedule, routes, signal_schedule
from hushwright.drawings.every_sheet import every_sheet
from hushwright.drawings.marks import Letters, extent
from hushwright.drawings.paper import PAPERS, paper_named, placed, room_for_drawing
from hushwright.drawings.primitives import Balloon, Circle, Drawing, Point, Polyline, Text
from hushwright.drawings.single_lines import single_lines
from hushwright.drawings.things import things_of
from hushwright.evaluation.power.chargers import with_chargers
from hushwright.evaluation.results.wiring import CircuitResult, WiringResults
from hushwright.evaluation.wiring.wiring import wiring_of
from hushwright.library.us_names import sized_name
from hushwright.model.build import Build

EXAMPLES = Path(__file__).parents[2] / "examples"


def demo() -> Build:
    return build_of(DEMO)


def wiring() -> WiringResults:
    return wiring_of(demo(), {})


def words(drawings: tuple[Drawing, ...]) -> set[str]:
    return {each.text for drawing in drawings for each in drawing.elements if isinstance(each, Text)}


@pytest.mark.parametrize("paper", PAPERS)
def test_every_circuit_is_in_the_diagram_with_its_conductor_and_fuse(paper: str) -> None:
    drawings = single_lines(wiring(), paper_named(paper), "metric")
    said = words(drawings)
    drawn = {each.part for drawing in drawings for each in drawing.elements if isinstance(each, Polyline)}
    assert wiring().circuits
    for circuit in wiring().circuits:
        assert circuit.name in drawn
        assert circuit.name.replace("_", " ") in said
        assert any(text.startswith(circuit.conductor) for text in said)
        assert {each.replace("_", " ") for each in circuit.gives_to} <= said


@pytest.mark.parametrize("paper", PAPERS)
def test_the_diagram_fits_on_its_paper(paper: str) -> None:
    width, height = room_for_drawing(paper_named(paper), with_key=False)
    for drawing in single_lines(wiring(), paper_named(paper), "us"):
        shown = placed(drawing, 1.0, "us")
        assert shown.width <= width
        assert shown.height <= height


def test_a_charger_stands_between_its_source_and_the_bank() -> None:
    told = {each.name: each for each in with_chargers(wiring(), demo()).circuits}
    assert told["charger_in"].gives_to == ("shore_charger",)
    assert told["charger_out"].takes_from == "shore_charger"
    assert told["panels_in"].takes_from == "panels_controller"
    assert told["shore_in"].takes_from == "shore"
    said = words(single_lines(with_chargers(wiring(), demo(), linked=True), paper_named("A3"), "metric"))
    assert {"shore", "shore charger", "panels", "panels controller", "engine", "engine charger"} <= said


@pytest.mark.parametrize("paper", PAPERS)
def test_the_diagram_with_chargers_fits_on_its_paper(paper: str) -> None:
    width, height = room_for_drawing(paper_named(paper), with_key=False)
    for drawing in single_lines(with_chargers(wiring(), demo(), linked=True), paper_named(paper), "us"):
        shown = placed(drawing, 1.0, "us")
        assert shown.width <= width
        assert shown.height <= height


Box = tuple[float, float, float, float]


def gap(a: Point, b: Point, box: Box) -> float:
    """Distance [mm] of an upright or level line from a box [m]."""
    low, high = (min(a[0], b[0]), min(a[1], b[1])), (max(a[0], b[0]), max(a[1], b[1]))
    across = max(box[0] - high[0], low[0] - box[2], 0.0)
    up = max(box[1] - high[1], low[1] - box[3], 0.0)
    return 1000.0 * max(across, up)


def around(points: tuple[Point, ...]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def too_close(drawing: Drawing, results: WiringResults) -> Iterator[str]:
    """Lines of a diagram that come nearer than 2 mm to a sign or box where they do not end, or cross a word."""
    circuits = {circuit.name: circuit for circuit in results.circuits}
    closed = [each for each in drawing.elements if isinstance(each, Polyline) and each.closed]
    rings = [each for each in drawing.elements if isinstance(each, Circle)]
    signs = [(each.part, around(each.points)) for each in closed] + [
        (each.part, (each.centre[0] - each.radius, each.centre[1] - each.radius, each.centre[0] + each.radius,
                     each.centre[1] + each.radius)) for each in rings
    ]  # fmt: skip
    texts = [(each.text, extent([each])) for each in placed(drawing, 1.0, "metric").marks if isinstance(each, Letters)]
    for line in drawing.elements:
        if not isinstance(line, Polyline) or line.closed:
            continue
        circuit = circuits.get(line.part)  # none of a line that the circuits of a node share
        ends = {line.part} if circuit is None else {circuit.takes_from, *circuit.gives_to, circuit.name}
        for number, (a, b) in enumerate(pairwise(line.points)):
            touching = ends if number in (0, len(line.points) - 2) or a[1] == b[1] else {circuit.name}
            for part, box in signs:
                if part not in touching and gap(a, b, box) < 2.0 - 1e-6:
                    yield f"{line.part} passes {part}"
            for text, (left, low, right, top) in texts:
                if gap(a, b, (left / 1000.0, low / 1000.0, right / 1000.0, top / 1000.0)) <= 0.0 and text not in (
                    each.replace("_", " ") for each in ends
                ):
                    yield f"{line.part} crosses {text}"


@pytest.mark.parametrize("name", ["archive-van", "hearing-screening-van", "voice-booth-short-van"])
@pytest.mark.parametrize("paper", ["A3", "A4", "Letter"])
def test_no_line_meets_a_sign_or_word_where_it_does_not_end(name: str, paper: str) -> None:
    build = build_of((EXAMPLES / f"{name}.yaml").read_text())
    results = with_chargers(wiring_of(build, {}), build, linked=True)
    for drawing in single_lines(results, paper_named(paper), "us" if paper == "Letter" else "metric"):
        assert not list(too_close(drawing, results))


def test_no_line_of_any_circuits_meets_a_sign_or_word_where_it_does_not_end() -> None:
    chance = random.Random(3)
    first = wiring().circuits[0]
    for _ in range(40):
        nodes = [f"n{at}" for at in range(chance.randrange(3, 9))]
        circuits = []
        for at in range(chance.randrange(2, 10)):
            source, *ends = chance.sample(nodes, chance.randrange(2, min(4, len(nodes)) + 1))
            circuits.append(replace(first, name=f"c{at}", takes_from=source, gives_to=tuple(ends)))
        results = replace(wiring(), circuits=tuple(circuits))
        for drawing in single_lines(results, paper_named("A3"), "metric"):
            assert not list(too_close(drawing, results))


def meets(one: Box, other: Box) -> bool:
    return all(one[i] <= other[i + 2] + 1e-7 and other[i] <= one[i + 2] + 1e-7 for i in (0, 1))


def reached(drawing: Drawing, circuit: CircuitResult, *, blown: bool) -> set[str]:
    """What the lines of a circuit lead to from its source, all the way or with its fuse taken out.

    A node is its box and the lines that its circuits share; a line that only crosses those does not join them.
    """
    lines = [each for each in drawing.elements if isinstance(each, Polyline)]
    boxes = {each.part: around(each.points) for each in lines if each.closed}
    shared = {name: [around(pair) for each in lines if each.part == name and not each.closed
                     for pair in pairwise(each.points)] for name in boxes}  # fmt: skip
    pieces = [pair for each in lines if not each.closed and each.part == circuit.name for pair in pairwise(each.points)]
    if blown:
        pieces = [pair for pair in pieces if not meets(around(pair), boxes[circuit.name])]

    def joins(pair: tuple[Point, Point], node: str) -> bool:
        ends = [around((end,)) for end in pair]
        return meets(around(pair), boxes[node]) or any(meets(end, each) for end in ends for each in shared[node])

    found = [pair for pair in pieces if joins(pair, circuit.takes_from)]
    while more := [
        one for one in pieces if one not in found and any(meets(around(one), around(each)) for each in found)
    ]:
        found += more
    return {name for name in circuit.gives_to if any(joins(pair, name) for pair in found)}


def fused_and_drawn(results: WiringResults, paper: str) -> Iterator[str]:
    """Circuits of which an end is not led to, or led to without passing the fuse."""
    for drawing in single_lines(results, paper_named(paper), "metric"):
        drawn = {each.part for each in drawing.elements if isinstance(each, Polyline)}
        for circuit in results.circuits:
            if circuit.name not in drawn:
                continue
            if reached(drawing, circuit, blown=False) != set(circuit.gives_to):
                yield f"{circuit.name} does not lead to all its ends"
            if circuit.fuse is not None and reached(drawing, circuit, blown=True):
                yield f"{circuit.name} passes its fuse by"


@pytest.mark.parametrize("paper", ["A3", "A4"])
@pytest.mark.parametrize("name", ["archive-van", "hearing-screening-van"])
def test_nothing_is_fed_past_the_fuse_of_its_circuit(name: str, paper: str) -> None:
    build = build_of((EXAMPLES / f"{name}.yaml").read_text())
    results = with_chargers(wiring_of(build, {}), build, linked=True)
    assert any(circuit.fuse is not None and len(circuit.gives_to) > 1 for circuit in results.circuits)
    assert not list(fused_and_drawn(results, paper))


def test_no_random_network_feeds_anything_past_a_fuse() -> None:
    chance = random.Random(11)
    first = next(circuit for circuit in wiring().circuits if circuit.fuse is not None)
    for _ in range(60):
        nodes = [f"n{at}" for at in range(chance.randrange(3, 9))]
        circuits = []
        for at in range(chance.randrange(2, 9)):
            source, *ends = chance.sample(nodes, chance.randrange(2, min(5, len(nodes)) + 1))
            circuits.append(replace(first, name=f"c{at}", takes_from=source, gives_to=tuple(ends)))
        assert not list(fused_and_drawn(replace(wiring(), circuits=tuple(circuits)), "A3"))


def test_circuits_in_a_ring_are_all_drawn() -> None:
    first = wiring().circuits[0]
    ring = tuple(replace(first, name=f"c{i}", takes_from=f"n{i}", gives_to=(f"n{(i + 1) % 3}",)) for i in range(3))
    (drawing,) = single_lines(replace(wiring(), circuits=ring), paper_named("A4"), "metric")
    assert {"c0", "c1", "c2", "n0", "n1", "n2"} <= words((drawing,))


def test_many_circuits_go_on_to_another_sheet() -> None:
    first = wiring().circuits[0]
    many = tuple(replace(first, name=f"c{i}", takes_from=f"s{i}", gives_to=(f"n{i}",)) for i in range(60))
    drawings = single_lines(replace(wiring(), circuits=many), paper_named("A4"), "metric")
    assert len(drawings) > 1
    assert {f"c{i}" for i in range(60)} <= words(drawings)


def test_a_van_without_circuits_has_no_diagram() -> None:
    assert single_lines(WiringResults(), paper_named("A4"), "metric") == ()


def test_schedules_have_a_row_for_each_circuit_and_line() -> None:
    build = demo()
    assert [row[0] for row in circuit_schedule(wiring(), "metric").rows[1:]] == [
        circuit.name.replace("_", " ") for circuit in wiring().circuits
    ]
    assert build.signals is not None
    assert [row[0] for row in signal_schedule(build, "us").rows[1:]] == [
        line.name.replace("_", " ") for line in build.signals.lines
    ]
    for table in (circuit_schedule(wiring(), "metric"), signal_schedule(build, "metric")):
        assert {len(row) for row in table.rows} == {len(table.widths)}


def test_every_route_is_drawn_where_it_runs() -> None:
    build = demo()
    drawing = routes(build)
    lines: dict[str, list[tuple[tuple[float, float], ...]]] = {}
    for each in drawing.elements:
        if isinstance(each, Polyline):
            lines.setdefault(each.part, []).append(each.points)
    van = next(each for each in lines["vehicle"][1:] if each[0][0] == 0.0)  # from the left
    for route in build.routes:
        above, beside = lines[route.name]
        assert above == tuple((station, -y) for station, y, _ in route.points)
        for point, (station, _, z) in zip(beside, route.points, strict=True):
            assert point == pytest.approx((station, van[0][1] + z))
    assert len(drawing.key) == len(build.routes)


def test_every_opening_and_fitting_has_its_number_in_the_plan() -> None:
    from hushwright.drawings.plan import plan

    drawing = plan(demo())
    marks = {each.text for each in drawing.elements if isinstance(each, Balloon)}
    assert marks == {mark for mark, _ in drawing.key}
    assert {mark for mark in marks if mark.isdigit()} == {thing.number for thing in things_of(demo())}
    assert {opening.name for opening in demo().openings} <= {thing.part for thing in things_of(demo())}
    assert {item.name for item in demo().masses if item.group == "fittings"} <= {t.part for t in things_of(demo())}


def test_a_metric_size_in_a_name_has_its_us_size_beside_it() -> None:
    rows = circuit_schedule(wiring(), "us").rows
    at = rows[0].index("conductor")
    assert all("mm²" not in row[at] or "AWG" in row[at] or "kcmil" in row[at] for row in rows[1:])
    assert rows[3][at] == "1.5 mm² (14 AWG)"
    # 40 kg/m³ is 40 / 16.0185 = 2.497 lb/ft³ (NIST SP 811: 1 lb/ft³ = 16.018 46 kg/m³)
    assert sized_name("rock wool 40 kg/m3", "us") == "rock wool 40 (2.5 lb/ft³)"
    sheets = every_sheet(demo(), paper_named("Letter"), "us")
    said = " ".join(
        mark.text for sheet in sheets if sheet.drawing is not None for mark in placed(sheet.drawing, 20.0, "us").marks
        if isinstance(mark, Letters)
    )  # fmt: skip
    assert "kg/m3" not in said
    assert "mm²" not in said
