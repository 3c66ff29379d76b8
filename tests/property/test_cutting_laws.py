"""Plates and saw cuts: nothing overlaps, every cut goes right through a piece, no area is lost, bounds hold."""

from __future__ import annotations

import math
import random
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.costing.cutting import Blank, CutPlate, Stock, cut_from_plates, least_plates, shelved
from hushwright.errors import InvalidInput

LENGTH, WIDTH = 2.44, 1.22
Rectangle = tuple[float, float, float, float]

sizes = st.tuples(st.integers(30, 2440), st.integers(30, 1220))
blanks_of_any_size = st.lists(st.tuples(sizes, st.booleans()), min_size=1, max_size=14).map(
    lambda each: [Blank(f"P{at}", w / 1000, h / 1000, turns) for at, ((w, h), turns) in enumerate(each)]
)
stocks = st.sampled_from([0.0, 0.003, 0.0045]).map(lambda kerf: Stock(LENGTH, WIDTH, kerf))


def sawn(plate: CutPlate) -> list[Rectangle]:
    """Pieces that lie on the table when every cut was made in order, each right through one of them."""
    pieces: list[Rectangle] = [(0.0, 0.0, plate.stock.length, plate.stock.width)]
    for cut in plate.cuts:
        along, across = (1, 0) if cut.across == "x" else (0, 1)
        meant = [
            piece for piece in pieces
            if abs(piece[along] - cut.start) < 1e-9 and abs(piece[along + 2] - cut.end) < 1e-9
            and piece[across] < cut.at < piece[across + 2]
        ]  # fmt: skip
        assert len(meant) == 1, "a cut goes from edge to edge of one piece"
        piece = meant[0]
        assert cut.fence == pytest.approx(cut.at - piece[across], abs=1e-9)
        pieces.remove(piece)
        first, rest = list(piece), list(piece)
        first[across + 2], rest[across] = cut.at, cut.at + cut.wide
        pieces += [(a, b, c, d) for a, b, c, d in (first, rest) if min(c - a, d - b) > 1e-7]
    return pieces


@settings(deadline=None, max_examples=60)
@given(blanks_of_any_size, stocks)
def test_the_saw_leaves_the_blanks_and_the_offcuts_and_nothing_else(blanks: list[Blank], stock: Stock) -> None:
    plates = cut_from_plates(blanks, stock)
    for plate in plates:
        areas = (*plate.blanks, *plate.offcuts)
        told = sorted((each.x, each.y, each.x + each.width, each.y + each.height) for each in areas)
        found = sorted(sawn(plate))
        assert len(told) == len(found)
        for one, other in zip(told, found, strict=True):
            assert one == pytest.approx(other, abs=1e-7)
        lost = sum(cut.wide * (cut.end - cut.start) for cut in plate.cuts)
        assert sum(each.width * each.height for each in areas) + lost == pytest.approx(stock.area)


@settings(deadline=None, max_examples=60)
@given(blanks_of_any_size, stocks)
def test_every_blank_lies_once_inside_a_plate_over_no_other(blanks: list[Blank], stock: Stock) -> None:
    plates = cut_from_plates(blanks, stock)
    laid = {each.name: each for plate in plates for each in plate.blanks}
    assert sorted(each.name for plate in plates for each in plate.blanks) == sorted(blank.name for blank in blanks)
    for blank in blanks:
        size = (laid[blank.name].width, laid[blank.name].height)
        assert size == (blank.width, blank.height) or (blank.turns and size == (blank.height, blank.width))
    for plate in plates:
        for each in plate.blanks:
            assert min(each.x, each.y) >= 0.0
            assert each.x + each.width <= LENGTH + 1e-7
            assert each.y + each.height <= WIDTH + 1e-7
        for a, b in combinations(plate.blanks, 2):
            beside = max(b.x - a.x - a.width, a.x - b.x - b.width)
            above = max(b.y - a.y - a.height, a.y - b.y - b.height)
            assert max(beside, above) >= stock.kerf - 1e-7, "a cut lies between them"


@settings(deadline=None, max_examples=60)
@given(blanks_of_any_size, stocks)
def test_no_fewer_plates_than_their_area_takes_and_no_more_than_blanks(blanks: list[Blank], stock: Stock) -> None:
    assert least_plates(blanks, stock) <= len(cut_from_plates(blanks, stock)) <= len(blanks)


def divided(rectangle: tuple[float, float], count: int, chance: random.Random) -> list[tuple[float, float]]:
    """Rectangles into which cuts right through divide one: together they fill it, so no arrangement is lower."""
    pieces = [rectangle]
    while len(pieces) < count:
        width, height = pieces.pop(chance.randrange(len(pieces)))
        share = chance.uniform(0.1, 0.9)
        across = chance.random() < 0.5
        pieces += [(width * share, height), (width * (1 - share), height)] if across else [
            (width, height * share), (width, height * (1 - share))]  # fmt: skip
    return pieces


def test_shelves_keep_the_published_bound_where_the_best_height_is_known() -> None:
    # Coffman, Garey, Johnson, Tarjan 1980, SIAM J. Comput. 9, 808-826: FFDH <= 1.7 OPT + the greatest height
    chance = random.Random(5)
    worst = 0.0
    for _ in range(150):
        best = chance.uniform(2.0, 30.0)
        pieces = divided((1.0, best), chance.randrange(2, 60), chance)
        high = max(height for _, height in pieces)
        found = sum(shelf.height for shelf in shelved([Blank(str(at), *each) for at, each in enumerate(pieces)], 1.0))
        assert best - 1e-9 <= found <= 1.7 * best + high
        worst = max(worst, found / best)
    assert worst > 1.05  # the cases are not trivial


def test_plates_keep_the_published_bound_where_the_best_number_is_known() -> None:
    # Chung, Garey, Johnson 1982, SIAM J. Alg. Disc. Meth. 3, 66-76: HFF <= 2.125 OPT + 5 (memory)
    chance = random.Random(7)
    for _ in range(40):
        best = chance.randrange(1, 9)
        pieces = [each for _ in range(best) for each in divided((LENGTH, WIDTH), chance.randrange(1, 8), chance)]
        blanks = [Blank(str(at), *each) for at, each in enumerate(pieces)]
        plates = cut_from_plates(blanks, Stock(LENGTH, WIDTH, 0.0))
        assert best == least_plates(blanks, Stock(LENGTH, WIDTH, 0.0)) <= len(plates) <= math.floor(2.125 * best + 5)


def test_the_saw_blade_takes_its_width() -> None:
    halves = [Blank("a", 1.22, 1.22), Blank("b", 1.22, 1.22)]
    assert len(cut_from_plates(halves, Stock(LENGTH, WIDTH, 0.0))) == 1
    assert len(cut_from_plates(halves, Stock(LENGTH, WIDTH, 0.003))) == 2


def test_grain_keeps_a_blank_as_it_lies() -> None:
    assert len(cut_from_plates([Blank("a", 1.0, 2.0, turns=True)], Stock(LENGTH, WIDTH, 0.003))) == 1
    with pytest.raises(InvalidInput, match="fits on no plate"):
        cut_from_plates([Blank("a", 1.0, 2.0)], Stock(LENGTH, WIDTH, 0.003))


def test_a_blank_as_large_as_its_plate_takes_no_cut() -> None:
    (plate,) = cut_from_plates([Blank("a", LENGTH, WIDTH)], Stock(LENGTH, WIDTH, 0.003))
    assert plate.cuts == ()
    assert plate.used == pytest.approx(1.0)
