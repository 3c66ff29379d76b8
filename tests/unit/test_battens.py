"""Battens and bearers: drawn, listed, bought and worked on with one length."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from tests.coupled import DEMO, build_of, edited

from hushwright.drawings.battens import bar_list, batten_list, batten_sheets
from hushwright.drawings.levels import floor
from hushwright.drawings.paper import PAPERS
from hushwright.drawings.primitives import Polyline
from hushwright.drawings.sections import section
from hushwright.drawings.sheets import sheet_source
from hushwright.evaluation.cost.cost import cost_of
from hushwright.evaluation.cost.take_off import things_of
from hushwright.model.build import Build
from hushwright.model.strips import bays_of


@pytest.fixture(scope="module")
def demo() -> Build:
    return build_of(DEMO)


def test_the_list_of_battens_is_as_long_as_what_is_bought(demo: Build) -> None:
    rows = batten_list(demo, "metric")[1:]
    listed = {thick: sum(int(row[4]) for row in rows if row[1].startswith(thick)) for thick in ("25", "28")}
    lines = {line.size: line for line in cost_of(demo).purchase if line.name == "spruce"}
    assert float(lines[0.025].need) == pytest.approx(listed["25"] / 1000.0, abs=0.005)
    assert float(lines[0.028].need) == pytest.approx(listed["28"] / 1000.0, abs=0.005)


def test_a_bearer_lies_over_every_row_of_mounts_and_is_as_long_as_the_way_between_the_boxes(demo: Build) -> None:
    room = demo.room_for("quiet")
    floor = room.surface("floor")
    rows = sorted({round(station, 6) for station, _ in demo.mounts[0].places})
    assert [round(room.front + piece.along, 6) for piece in floor.battens] == rows
    boxed = [piece for piece in floor.battens if 2330 < 1000 * (room.front + piece.along) < 3370]
    # 1350 between the boxes, each lined with 60 of wool and boards of 9 + 1 + 6.
    assert [piece.length for piece in boxed] == pytest.approx([1.350 - 2 * 0.076] * 2)
    assert [piece.length for piece in floor.battens if piece not in boxed] == pytest.approx([floor.height] * 2)


def test_wool_between_bearers_is_cut_to_the_bays_that_they_leave() -> None:
    full = build_of(edited(DEMO, ("fill: rock wool 40 kg/m3, fill_thickness: 25}\n        - {sheet: birch plywood, "
                                  "thickness: 12}", "fill: rock wool 40 kg/m3}\n        - {sheet: birch plywood, "
                                  "thickness: 12}")))  # fmt: skip
    floor = full.room_for("quiet").surface("floor")
    layer = next(layer for layer in floor.layers if layer.kind == "floor_mounts")
    clear = [width for width, _ in bays_of(floor, layer)]
    assert clear == pytest.approx([0.0825, *[0.68 - 0.045] * 3, 0.0825], abs=0.001)  # 105 from each edge to a row


def test_rows_further_apart_than_the_spacing_have_bearers_between_them() -> None:
    close = build_of(edited(DEMO, ("bearer_spacing: 500", "bearer_spacing: 350")))
    floor = close.room_for("quiet").surface("floor")
    assert len(floor.battens) == 4 + 3  # rows 680 apart, one more bearer between any two
    frame = next(layer.cavity.frame for layer in floor.layers if layer.kind == "floor_mounts")
    assert frame.spacing == pytest.approx(0.68 / 2, abs=0.001)


def test_plan_section_list_and_purchase_have_the_same_bearers(demo: Build) -> None:
    surface = demo.room_for("quiet").surface("floor")
    drawn = [each for each in floor(demo).elements if isinstance(each, Polyline) and each.part == surface.name]
    across = sorted(abs(each.points[1][1] - each.points[2][1]) for each in drawn)
    assert across == pytest.approx(sorted(piece.length for piece in surface.battens))
    bought = next(thing for thing in things_of(demo) if thing.kind == "bearer")
    assert sorted(bought.pieces) == pytest.approx(across)
    row = surface.centre[0] - surface.width / 2.0 + surface.battens[1].along
    seen = [each for each in section(demo, "X", row, with_things=False).elements
            if isinstance(each, Polyline) and each.layer == "floor" and each.part == "quiet_room"]  # fmt: skip
    assert [max(x for x, _ in each.points) - min(x for x, _ in each.points) for each in seen] == pytest.approx(
        [surface.battens[1].length]
    )
    assert any("bearers of quiet room: 4" in words for _, words in floor(demo).key)


def test_battens_longer_than_half_a_bar_are_bought_one_from_each(demo: Build) -> None:
    lines = {line.size: line for line in cost_of(demo).purchase if line.name == "spruce"}
    pieces = [piece for row in batten_list(demo, "metric")[1:] if row[1].startswith("28")
              for piece in [int(row[3])] * int(row[2])]  # fmt: skip
    alone = sum(piece > 1500 for piece in pieces)
    assert len(lines[0.025].bars) == 2  # bearers of 1582 mm with one of 1198 mm each
    assert lines[0.025].packs == 3  # 8 % waste on 5.56 m is more than two bars
    assert alone <= lines[0.028].packs == len(lines[0.028].bars) <= alone + math.ceil((len(pieces) - alone) / 2)


def test_the_bars_on_the_sheet_are_those_that_are_bought(demo: Build) -> None:
    bought = sum(line.packs for line in cost_of(demo).purchase if line.bars)
    assert sum(int(row[1]) for row in bar_list(demo, "metric")[1:]) == bought
    assert [table.heading for table in batten_sheets(demo)[0].tables] == ["Battens and bearers", "Cut from bars"]


def test_work_on_battens_is_for_the_same_length(demo: Build) -> None:
    length = math.fsum(thing.amount("m") or 0.0 for thing in things_of(demo) if thing.kind == "batten")
    job = next(job for job in cost_of(demo).jobs if job.name == "battens")
    assert float(job.hours) == pytest.approx(length * 12.0 / 60.0, abs=0.005)


def test_waste_is_still_added_where_it_takes_more_than_the_bars() -> None:
    wasteful = build_of(edited(DEMO, ("per: m, pack: 3, waste: 8 %", "per: m, pack: 3, waste: 100 %")))
    line = next(line for line in cost_of(wasteful).purchase if (line.name, line.size) == ("spruce", 0.028))
    assert line.packs == math.ceil(2 * float(line.need) / 3.0) > len(line.bars)


def test_timber_by_the_metre_is_bought_as_it_is_needed() -> None:
    loose = build_of(edited(DEMO, ("per: m, pack: 3, waste: 8 %", "per: m")))
    line = next(line for line in cost_of(loose).purchase if (line.name, line.size) == ("spruce", 0.028))
    assert line.bars == ()
    assert line.amount == line.need > Decimal(35)
    assert len(batten_sheets(loose)[0].tables) == 1


def test_battens_longer_than_a_bar_are_joined_from_several() -> None:
    short = build_of(edited(DEMO, ("per: m, pack: 3, waste: 8 %", "per: m, pack: 1.2")))
    line = next(line for line in cost_of(short).purchase if (line.name, line.size) == ("spruce", 0.028))
    assert all(0.0 < math.fsum(bar) <= 1.2 + 1e-6 for bar in line.bars)
    assert math.fsum(piece for bar in line.bars for piece in bar) == pytest.approx(float(line.need))


def test_the_sheet_of_battens_prints_where_they_lie(demo: Build) -> None:
    sheet = batten_sheets(demo)[0]
    source = sheet_source(sheet, demo, PAPERS["A3"], "metric")
    assert len(sheet.remarks) == 3
    assert "each row of mounts" in source
