"""Plates of a build: every board lies on one, the saw's layout and the purchase list agree, grain runs one way."""

import math
from collections import Counter
from functools import lru_cache
from pathlib import Path

import pytest
from tests.coupled import build_of, edited

from hushwright.costing.cutting import Blank, Stock
from hushwright.drawings.parts import parts_of
from hushwright.drawings.plate_sheets import plate_drawing, plate_list
from hushwright.drawings.plates import PlatesOf, plates_of
from hushwright.drawings.primitives import Balloon
from hushwright.model.build import Build
from hushwright.report.plates import plates_told

EXAMPLES = Path(__file__).parents[2] / "examples"


@lru_cache(maxsize=4)
def van(name: str) -> Build:
    return build_of((EXAMPLES / f"{name}.yaml").read_text())


@lru_cache(maxsize=4)
def lots(name: str) -> tuple[PlatesOf, ...]:
    return plates_of(van(name))


@pytest.mark.parametrize("name", ["archive-van", "hearing-screening-van", "voice-booth-short-van"])
def test_the_purchase_list_buys_the_plates_that_the_saw_takes(name: str) -> None:
    for lot in lots(name):
        assert lot.bought is not None
        assert lot.bought.packs == len(lot.plates), (lot.material, lot.thickness)
        assert lot.least <= len(lot.plates)
    assert plates_told(van(name), "metric")[0].startswith("As many plates are bought as the saw takes: ")


def test_a_purchase_by_area_that_is_too_small_is_told_with_what_mends_it() -> None:
    text = (EXAMPLES / "archive-van.yaml").read_text()
    build = build_of(edited(text, ("plates: 12", "waste: 12 %")))
    told = plates_told(build, "metric")
    assert told[0] == (
        "birch plywood, 6 mm: the saw takes 12 plates of 2500 mm by 1250 mm, 10 are bought; `plates: 12` in its price"
        " buys them all."
    )
    assert [each.split(" come off")[0] for each in told[1:2]] == ["Battens and bearers"]
    assert told[2].startswith("Off the roll, by the strips on the sheet of rolls: rock wool 40")
    assert "`plates: 12`" in plate_list(plates_of(build), "metric").rows[1][-1]


def test_every_board_of_the_faces_and_doors_lies_on_one_plate() -> None:
    laid = Counter(area.name for lot in lots("archive-van") for plate in lot.plates for area in plate.blanks)
    assert max(laid.values()) == 1
    boards = {part.code for part in parts_of(van("archive-van")) if part.kind in ("sheet", "facing")}
    assert {code for code in laid if code.startswith("P")} == boards
    assert sum(code.startswith("D") for code in laid) == 2  # two sheets of the quiet door


def test_boards_of_a_face_lie_one_way_where_there_is_a_grain() -> None:
    for lot in lots("hearing-screening-van"):
        assert lot.grain  # plywood
        ways: dict[str, set[bool]] = {}
        areas = {area.name: area for plate in lot.plates for area in plate.blanks}
        for board in lot.boards:
            if not math.isclose(*board.size, abs_tol=1e-6):
                lies = math.isclose(areas[board.code].width, board.size[0], abs_tol=1e-9)
                ways.setdefault(board.together, set()).add(lies)
        assert all(len(each) == 1 for each in ways.values())


def test_a_board_without_grain_may_turn() -> None:
    first = next(lot for lot in lots("archive-van-first-draft") if lot.material == "gypsum fibre board")
    assert not first.grain
    assert first.is_assumed  # its pack of 1.5 m² is no plate in use
    assert first.bought is None


def test_every_cut_has_its_number_and_its_fence_on_the_sheet() -> None:
    lot = lots("archive-van")[0]
    drawing = plate_drawing(lot, lot.plates[0], (1, len(lot.plates)), 1, "metric")
    numbers = [each.text for each in drawing.elements if isinstance(each, Balloon)]
    assert numbers == [str(at) for at in range(1, len(lot.plates[0].cuts) + 1)] == [number for number, _ in drawing.key]
    assert all(text.startswith("fence ") for _, text in drawing.key)


def test_a_plate_says_what_the_leaves_of_doors_on_it_are() -> None:
    lot = lots("archive-van")[-1]  # 2 × 680 beside each other are wider than a plate of 1250
    said = [plate_drawing(lot, plate, (1, 2), 1, "metric").remarks[-1] for plate in lot.plates]
    assert said == ["D01: quiet door, layer 1", "D02: quiet door, layer 3"]


def test_a_blank_fits_where_it_is_as_large_as_the_plate() -> None:
    stock = Stock(2.5, 1.25, 0.003)
    assert stock.takes(Blank("a", 2.5, 1.25))
    assert not stock.takes(Blank("a", 1.25, 2.5))
