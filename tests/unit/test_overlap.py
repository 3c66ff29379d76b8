"""How far a leaf lies over its frame: what is sawn, weighed, bought and sealed."""

from __future__ import annotations

from functools import lru_cache

import pytest
from tests.coupled import DEMO, edited, library

from hushwright.document.read import read_document_text
from hushwright.drawings.plates import plates_of
from hushwright.evaluation.cost.take_off import things_of
from hushwright.model.build import Build, OpeningInPlace
from hushwright.model.resolve import resolve

_SEALS = "    seals: {seal: compression bulb, rows: 2, residual_gap: 0..0.15 mm,"


@lru_cache(maxsize=4)
def built(overlap: str = "") -> tuple[Build, tuple[str, ...]]:
    text = edited(DEMO, (_SEALS, f"    overlap: {overlap}\n{_SEALS}")) if overlap else DEMO
    document, _ = read_document_text(text, "build.yaml")
    assert document is not None
    build, _ = resolve(document, library())
    assert build is not None
    return build, tuple(f"{each.path}: {each.text}" for each in build.assumptions)


def opening(build: Build, name: str) -> OpeningInPlace:
    return next(each for each in build.openings if each.name == name)


def test_two_rows_of_seals_take_thirty_millimetres_of_the_frame_and_say_so() -> None:
    build, assumed = built()
    assert opening(build, "quiet_door").overlap == pytest.approx(0.030)  # common practice, no source
    assert any("lies 30 mm over its frame" in each for each in assumed)
    assert opening(build, "rear_doors").overlap == 0.0  # the van's own leaf is there already


def test_boards_of_a_door_are_sawn_with_what_lies_over_its_frame() -> None:
    boards = [board for lot in plates_of(built("25")[0]) for board in lot.boards if board.code.startswith("D")]
    assert boards
    assert {tuple(round(1000 * side) for side in board.size) for board in boards} == {
        (670, 1645)
    }  # the floor is at its foot


def test_leaf_weighs_and_costs_what_is_sawn() -> None:
    narrow, wide = (built(each)[0] for each in ("0", "50"))
    share = 0.72 * 1.67 / (0.62 * 1.62)
    assert opening(wide, "quiet_door").mass == pytest.approx(share * opening(narrow, "quiet_door").mass)
    areas = [sum(each.amount("m2") or 0.0 for each in things_of(build)
                 if each.place.startswith("openings.quiet_door.layers")) for build in (narrow, wide)]  # fmt: skip
    assert areas[1] == pytest.approx(share * areas[0])


def test_seals_lie_midway_over_the_frame() -> None:
    seals = opening(built("30")[0], "quiet_door").seals
    assert seals is not None
    assert seals.length == pytest.approx(2 * (0.65 + 1.635))
