"""Sections show what they cut, and say for which load their heights hold."""

from functools import lru_cache
from itertools import pairwise

import pytest
from tests.coupled import DEMO, build_of, core_of, edited

from hushwright.drawings.air_runs import air_runs
from hushwright.drawings.ducts import stretches
from hushwright.drawings.every_sheet import every_sheet, named
from hushwright.drawings.marks import text_width
from hushwright.drawings.paper import paper_named
from hushwright.drawings.plan import plan
from hushwright.drawings.primitives import Balloon, Drawing, Hatch, Polyline, Text
from hushwright.drawings.sections import section
from hushwright.model.air_in_place import BaffleBoxInPlace
from hushwright.model.build import Build


@lru_cache(maxsize=1)
def demo() -> Build:
    return build_of(DEMO)


def numbers(drawing: Drawing) -> dict[str, str]:
    return {each.part: each.text for each in drawing.elements if isinstance(each, Balloon)}


def test_the_desk_is_filled_where_it_is_cut_and_thin_where_it_is_seen_beyond() -> None:
    desk = next(each for each in demo().use.envelopes if each.name == "desk and cabinets")
    cut = section(demo(), "A", desk.centre[0])
    filled = next(each for each in cut.elements if isinstance(each, Hatch) and each.part == desk.name)
    xs, ys = zip(*filled.outline, strict=True)
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx(desk.size[1:])
    assert (max(xs) + min(xs)) / 2.0 == pytest.approx(-desk.centre[1])
    beyond = section(demo(), "A", desk.centre[0] + desk.size[0])
    assert not any(isinstance(each, Hatch) and each.part == desk.name for each in beyond.elements)
    assert any(isinstance(each, Polyline) and each.part == desk.name and each.layer == "beyond"
               for each in beyond.elements)  # fmt: skip
    before = section(demo(), "A", desk.centre[0] - desk.size[0])
    assert desk.name not in numbers(before)


def test_a_section_has_the_numbers_of_the_plan() -> None:
    in_plan = numbers(plan(demo()))
    for name, station in demo().drawn.sections:
        drawn = section(demo(), name, station)
        shown = numbers(drawn)
        assert shown
        assert all(in_plan[part] == number for part, number in shown.items() if part in in_plan)
        assert {number for number, _ in drawn.key} == {
            each.text for each in drawn.elements if isinstance(each, Balloon)
        }


def test_a_duct_through_a_side_is_cut_at_its_station() -> None:
    station = next(each.centre[0] for each in demo().openings if each.name == "extract")
    hole = next(each for each in section(demo(), "C", station).elements
                if isinstance(each, Hatch) and each.part == "extract")  # fmt: skip
    assert hole.tone == "duct"
    assert all(x < 0.0 for x, _ in hole.outline)  # the left of the van lies to the left
    assert "extract" not in numbers(section(demo(), "B", station - 0.5))


def test_the_plan_draws_the_room_that_a_fitting_takes() -> None:
    desk = next(each for each in demo().use.envelopes if each.name == "desk and cabinets")
    drawn = next(each for each in plan(demo()).elements if isinstance(each, Polyline) and each.part == desk.name)
    xs, ys = zip(*drawn.points, strict=True)
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx(desk.size[:2])


def test_sheets_say_both_clear_heights_as_the_verdict_holds_them() -> None:
    space = next(each for each in core_of(DEMO).space if each.mount_deflection > 0.0)
    drawn = next(room for room in demo().rooms if room.name == space.room).section.height
    sheets = named(every_sheet(demo(), paper_named("A3")), ("section-b", "section-c", "floor"))
    for sheet in sheets:
        (told,) = sheet.remarks
        assert f"under no load: clear height {1000 * drawn:.0f} mm" in told
        assert f"clear height {1000 * space.headroom_centre:.0f} mm, which" in told


def test_a_room_without_mounts_has_one_height() -> None:
    (sheet,) = named(every_sheet(demo(), paper_named("A3")), ("section-a",))
    room = next(room for room in demo().rooms if room.purpose != "quiet")
    assert sheet.remarks == (
        f"Clear height {1000 * room.section.height:.0f} mm, without what is hung from the ceiling.",
    )


def test_an_absorber_over_the_singers_is_taken_off_the_height() -> None:
    hung = build_of(edited(DEMO, ("thickness: 20, coverage: 45 %", "thickness: 20, coverage: 60 %")))
    (sheet,) = named(every_sheet(hung, paper_named("A3")), ("section-b",))
    assert "absorbers at the ceiling taken off" in sheet.remarks[0]


def test_names_of_rooms_stay_between_the_ends_of_their_room() -> None:
    for scale in (20.0, 42.0):
        for room in demo().rooms:
            name = next(each for each in plan(demo(), scale=scale).elements
                        if isinstance(each, Text) and each.part == room.name and each.bold)  # fmt: skip
            half = scale * 1.06 * text_width(name.text, name.size) / 2.0
            assert room.front <= name.at[0] - half
            assert name.at[0] + half <= room.rear


def test_a_box_on_its_way_is_cut_with_its_own_size_under_its_number_on_the_sheet_of_runs() -> None:
    box = next(each.what for run in demo().air.runs if run.name == "supply" for each in run.pieces
               if isinstance(each.what, BaffleBoxInPlace))  # fmt: skip
    drawn = section(demo(), "A", 0.85)
    hole = next(each for each in drawn.elements if isinstance(each, Hatch) and each.part == "supply_duct")
    xs, ys = zip(*hole.outline, strict=True)
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((box.width, box.height))
    assert (max(xs) + min(xs)) / 2.0 == pytest.approx(-0.5)  # half a metre left of the centre line
    assert dict(drawn.key)["B3"] == "baffle box, supply"
    assert "B3" in dict(air_runs(demo()).key)


def test_pieces_fill_their_way_from_end_to_end() -> None:
    route = next(each for each in demo().routes if each.run == "supply")
    found = [each for each in stretches(demo()) if each.part == "supply_duct"]
    assert (found[0].start, found[-1].end) == (route.points[0], pytest.approx(route.points[-1]))
    for one, after in pairwise(found):
        assert one.end == pytest.approx(after.start)


def test_a_duct_across_the_van_shows_its_length() -> None:
    turned = edited(DEMO, ("{station: 450, offset: 500, height: 1680}", "{station: 1500, offset: -600, height: 1680}"))
    drawn = section(build_of(turned), "A", 1.5)
    boxes = [each for each in drawn.elements if isinstance(each, Hatch) and each.part == "supply_duct" and each.lines]
    assert max(max(x for x, _ in each.outline) - min(x for x, _ in each.outline) for each in boxes) > 0.8
