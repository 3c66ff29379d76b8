"""Pieces on bars: each is cut once, no bar is overfull, the count lies between its bounds."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.costing.bars import cut_from_bars, joined
from hushwright.errors import InvalidInput

BAR = 3.0

pieces_on_a_bar = st.lists(st.integers(50, 3000).map(lambda each: each / 1000.0), max_size=20)
few_pieces = st.lists(st.integers(400, 3000).map(lambda each: each / 1000.0), min_size=1, max_size=7)
kerfs = st.sampled_from([0.0, 0.003, 0.005])


def fewest(pieces: list[float], kerf: float) -> int:
    """Fewest bars that there can be, by trying every way."""
    best = len(pieces)
    rooms: list[float] = []

    def place(at: int) -> None:
        nonlocal best
        if len(rooms) >= best:
            return
        if at == len(pieces):
            best = len(rooms)
            return
        for index in range(len(rooms)):
            if pieces[at] <= rooms[index] + 1e-7:
                rooms[index] -= pieces[at] + kerf
                place(at + 1)
                rooms[index] += pieces[at] + kerf
        rooms.append(BAR - pieces[at] - kerf)
        place(at + 1)
        rooms.pop()

    place(0)
    return best


@settings(max_examples=60, deadline=None)
@given(pieces=pieces_on_a_bar, kerf=kerfs)
def test_every_piece_is_cut_once_and_no_bar_is_overfull(pieces: list[float], kerf: float) -> None:
    bars = cut_from_bars(pieces, BAR, kerf)
    assert sorted(piece for bar in bars for piece in bar.pieces) == sorted(pieces)
    for bar in bars:
        assert bar.pieces
        assert math.fsum(bar.pieces) + kerf * (len(bar.pieces) - 1) <= BAR + 1e-6
    assert len(bars) >= math.fsum(pieces) / BAR - 1e-6


@settings(max_examples=60, deadline=None)
@given(pieces=few_pieces, kerf=kerfs)
def test_bars_keep_the_bound_of_first_fit_decreasing(pieces: list[float], kerf: float) -> None:
    """At most 11/9 of the fewest and 6/9: Dósa, LNCS 4614 (2007) 1-11."""
    least = fewest(pieces, kerf)
    assert least <= len(cut_from_bars(pieces, BAR, kerf)) <= 11.0 / 9.0 * least + 6.0 / 9.0 + 1e-9


@settings(max_examples=40, deadline=None)
@given(pieces=st.lists(st.floats(0.05, 20.0), max_size=8))
def test_joined_pieces_keep_their_length_and_fit_on_a_bar(pieces: list[float]) -> None:
    parts = joined(pieces, BAR)
    assert math.fsum(parts) == pytest.approx(math.fsum(pieces))
    assert all(0.0 < part <= BAR + 1e-6 for part in parts)


def test_bearers_longer_than_half_a_bar_take_one_each() -> None:
    assert [bar.pieces for bar in cut_from_bars([1.582] * 5, 3.0)] == [(1.582,)] * 5


def test_the_saw_cut_counts_between_two_pieces() -> None:
    assert len(cut_from_bars([1.5, 1.5], 3.0, 0.0)) == 1
    assert len(cut_from_bars([1.5, 1.5], 3.0, 0.003)) == 2
    assert len(cut_from_bars([1.4985, 1.4985], 3.0, 0.003)) == 1


@pytest.mark.parametrize("pieces", [(3.2,), (0.0,), (-1.0,), (math.inf,), (math.nan,)])
def test_what_cannot_be_cut_is_refused(pieces: tuple[float, ...]) -> None:
    with pytest.raises(InvalidInput):
        cut_from_bars(pieces, BAR)
