"""Pictures of anchors, doors and alarms show what the verdicts judge."""

import math
from pathlib import Path

import pytest
from tests.coupled import DEMO, build_of, evaluation_of
from tests.plain_builds import plain_build

from hushwright.app.group_pictures import drawn_of
from hushwright.drawings.every_sheet import every_sheet
from hushwright.drawings.held import held
from hushwright.drawings.paper import paper_named
from hushwright.drawings.primitives import Balloon, Polyline, Text
from hushwright.drawings.ways_out import doors, safety
from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.evaluation.mass.anchoring import loads_at_worst

EXAMPLES = Path(__file__).parents[2] / "examples"


def test_loads_at_the_anchors_balance_the_push_and_hold_the_largest_that_is_judged() -> None:
    evaluation = evaluation_of(DEMO)
    state = evaluation.structure.anchoring[0]
    room = state.room
    assert room is not None
    loads = loads_at_worst(evaluation.build, room)
    assert len(loads) == room.anchors
    across = sum(force[1] for _at, force in loads)
    # statics: the anchors together bear the mass at the design level, here pushed to the right, y runs to the left
    assert room.direction == "right"
    assert across == pytest.approx(-room.blow * state.design_level * room.mass * 9.80665, rel=1e-3)
    assert max(math.hypot(x, y, max(z, 0.0)) for _at, (x, y, z) in loads) == pytest.approx(room.load, rel=0.05)


def test_the_picture_of_anchors_tells_the_loads_that_are_judged() -> None:
    drawn = held(evaluation_of(DEMO))
    assert drawn is not None
    state = evaluation_of(DEMO).structure.anchoring[0]
    assert len(drawn.key) == 2
    texts = [each.text for each in drawn.elements if isinstance(each, Text) and each.bold]
    assert state.room is not None
    assert any(text.endswith("kN") and text.startswith(f"{state.room.load / 1000.0:.1f}") for text in texts)


def test_every_way_out_is_drawn_to_the_outside_and_every_door_has_its_width() -> None:
    build = build_of(DEMO)
    drawn = doors(build, "us")
    assert drawn is not None
    assert build.safety is not None
    ways = [each for each in drawn.elements if isinstance(each, Polyline) and each.layer == "line"]
    assert len(ways) == len(build.safety.ways_out)
    length, half = build.vehicle.load_length, 0.85
    assert all(not (0.0 < way.points[-1][0] < length and abs(way.points[-1][1]) < half) for way in ways)
    assert len(drawn.key) == len(build.safety.doors)
    assert all(" in " in text for _mark, text in drawn.key)


def test_everything_that_warns_has_a_number_in_the_picture_of_safety() -> None:
    said = build_of(DEMO).safety
    drawn = safety(build_of(DEMO))
    assert drawn is not None
    assert said is not None
    numbers = [each.text for each in drawn.elements if isinstance(each, Balloon)]
    assert numbers == [mark for mark, _text in drawn.key]
    warning = len(said.detectors) + len(said.equipment) + len(said.sounders) + len(said.visual_signals)
    assert len(numbers) == warning + len(said.exhausts) + len(said.intakes) + 1  # the bank


def test_a_van_without_any_of_it_has_no_such_picture() -> None:
    evaluation = evaluate_nominal(build_of(plain_build()))[0]
    assert [drawn_of(group, evaluation, "metric") for group in ("Anchoring", "Doors", "Safety", "Quiet")] == [None] * 4


def test_the_picture_of_safety_is_a_sheet_with_a_key() -> None:
    sheet = next(each for each in every_sheet(build_of(DEMO), paper_named("A4")) if each.name == "safety")
    assert sheet.title == "Alarms, equipment and ways out"
    assert sheet.drawing is not None
    assert any("fire extinguisher" in text for _mark, text in sheet.drawing.key)
    assert "safety" not in {each.name for each in every_sheet(build_of(plain_build()), paper_named("A4"))}


def test_a_second_way_out_of_a_room_is_dashed_and_things_of_a_short_room_do_not_lie_on_each_other() -> None:
    drawn = safety(build_of((EXAMPLES / "hearing-screening-van.yaml").read_text(encoding="utf-8")))
    assert drawn is not None
    ways = [each for each in drawn.elements if isinstance(each, Polyline) and each.layer == "line"]
    assert [way.dashed for way in ways] == [False, True, False, True]
    places = [each.at for each in drawn.elements if isinstance(each, Balloon)]
    assert len(set(places)) == len(places)
