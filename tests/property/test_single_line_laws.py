"""Lines of a single-line diagram: what runs along with another would be read as joined to it."""

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import combinations, pairwise
from pathlib import Path

import pytest
from tests.coupled import build_of

from hushwright.drawings.paper import paper_named
from hushwright.drawings.primitives import Drawing, Point, Polyline
from hushwright.drawings.single_lines import single_lines
from hushwright.evaluation.power.chargers import with_chargers
from hushwright.evaluation.results.wiring import WiringResults
from hushwright.evaluation.wiring.wiring import wiring_of

EXAMPLES = Path(__file__).parents[2] / "examples"
NEAR = 1e-5  # m on paper

Stretch = tuple[Point, Point]


@lru_cache(maxsize=4)
def wired(name: str) -> WiringResults:
    build = build_of((EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8"))
    return with_chargers(wiring_of(build, {}), build, linked=True)


def networks(number: int, seed: int) -> Iterator[WiringResults]:
    """Circuits from anywhere to anywhere, back and round included."""
    chance = random.Random(seed)
    first = wired("archive-van").circuits[0]
    for _ in range(number):
        nodes = [f"n{at}" for at in range(chance.randrange(3, 10))]
        circuits = []
        for at in range(chance.randrange(2, 12)):
            source, *ends = chance.sample(nodes, chance.randrange(2, min(5, len(nodes)) + 1))
            circuits.append(replace(first, name=f"c{at}", takes_from=source, gives_to=tuple(ends)))
        yield replace(wired("archive-van"), circuits=tuple(circuits))


def stretches(drawing: Drawing) -> list[tuple[str, Stretch]]:
    """Straight stretches of all lines, each with the circuit or node that it belongs to."""
    lines = [each for each in drawing.elements if isinstance(each, Polyline) and not each.closed]
    return [(line.part, pair) for line in lines for pair in pairwise(line.points)]


def shared(one: Stretch, other: Stretch) -> float:
    """Length that two upright or level stretches have in common [m on paper]."""
    for along, across in ((0, 1), (1, 0)):
        at = {point[across] for point in (*one, *other)}
        if max(at) - min(at) < NEAR:
            low = max(min(point[along] for point in each) for each in (one, other))
            high = min(max(point[along] for point in each) for each in (one, other))
            return high - low
    return 0.0


def along(drawing: Drawing) -> list[str]:
    """Lines of different owners that run along one another."""
    return [
        f"{part} along {beside}"
        for (part, one), (beside, other) in combinations(stretches(drawing), 2)
        if part != beside and shared(one, other) > NEAR
    ]


def seeming(drawing: Drawing, results: WiringResults) -> list[str]:
    """Lines that end or turn on a line which they are not joined to."""
    ends = {each.name: {each.takes_from, *each.gives_to} for each in results.circuits}
    found = stretches(drawing)
    return [
        f"{part} turns on {beside}"
        for part, one in found
        for point in one
        for beside, other in found
        if part != beside
        and shared_point(point, other)
        and beside not in ends.get(part, ())
        and part not in ends.get(beside, ())
    ]


def shared_point(point: Point, stretch: Stretch) -> bool:
    return all(
        min(pair) - NEAR < at < max(pair) + NEAR for at, pair in zip(point, zip(*stretch, strict=True), strict=True)
    )


@pytest.mark.parametrize("paper", ["A3", "A4"])
@pytest.mark.parametrize("name", ["archive-van", "hearing-screening-van", "voice-booth-short-van"])
def test_no_line_of_an_example_runs_along_that_of_another_circuit(name: str, paper: str) -> None:
    for drawing in single_lines(wired(name), paper_named(paper), "metric"):
        assert stretches(drawing)
        assert not along(drawing)
        assert not seeming(drawing, wired(name))


def test_no_line_of_any_network_runs_along_that_of_another_circuit() -> None:
    for results in networks(40, 7):
        for drawing in single_lines(results, paper_named("A3"), "metric"):
            told = [(each.name, each.takes_from, each.gives_to) for each in results.circuits]
            assert not along(drawing), told
            assert not seeming(drawing, results), told
