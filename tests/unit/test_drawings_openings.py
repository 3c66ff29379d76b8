"""Doors and windows: every size that a joiner needs is on their sheet, hinges on the side of the file."""

from functools import lru_cache

from tests.coupled import DEMO, build_of, edited

from hushwright.drawings.every_sheet import every_sheet
from hushwright.drawings.openings import openings_drawn
from hushwright.drawings.paper import paper_named
from hushwright.drawings.primitives import Balloon, Circle, Dimension, Drawing, Polyline


@lru_cache(maxsize=4)
def drawn(text: str = DEMO) -> dict[str, Drawing]:
    return {each.name: each for each in openings_drawn(build_of(text), "metric")}


def sizes(drawing: Drawing) -> set[float]:
    return {round(1000.0 * each.length, 1) for each in drawing.elements if isinstance(each, Dimension)}


def test_every_door_and_window_of_a_room_has_a_sheet() -> None:
    assert set(drawn()) == {"opening-window", "opening-quiet-door"}
    assert set(drawn()) <= {sheet.name for sheet in every_sheet(build_of(DEMO), paper_named("A3"))}


def test_the_door_has_its_clear_sizes_hinges_handle_sill_and_layers() -> None:
    # the demo's file: 620 by 1620, sill 90, three hinges over 1300, handle 560 from their axis, 18 + 6 + 18 thick
    door = drawn()["opening-quiet-door"]
    assert {620.0, 1620.0, 90.0, 650.0, 560.0, 42.0} <= sizes(door)
    said = " ".join((*(text for _, text in door.key), *door.remarks))
    numbers = {each.text for each in door.elements if isinstance(each, Balloon)}
    assert numbers == {"1", "2", "3"}  # the layers of the key
    for words in ("birch plywood, 18", "barrier mat 5, 6", "compression bulb, 2 rows, 9140 mm", "3 latches", "39.9 kg"):
        assert words in said  # seals midway over the frame: 2 × 2 × (650 + 1635) = 9140


def test_the_window_has_its_panes_its_place_and_how_its_frames_stand() -> None:
    # 740 by 560, sill 1020, centre 250 right of the centre line: its edges 120 and 620 from it; 10.8 + 100 + 8.8
    window = drawn()["opening-window"]
    assert {740.0, 560.0, 1020.0, 120.0, 620.0, 119.6} <= sizes(window)
    assert window.key[1:] == (("1", "laminated glass, 10.8"), ("2", "space 100"), ("3", "laminated glass, 8.8"))
    assert "Each frame is fixed to its own leaf and touches the other nowhere." in window.remarks


def test_hinges_stand_on_the_side_of_the_file_as_seen_from_inside() -> None:
    for side, sign in (("right", 1.0), ("left", -1.0)):
        text = edited(DEMO, ("swing: {hinge: right, opens: in}", f"swing: {{hinge: {side}, opens: in}}"))
        door = drawn(text)["opening-quiet-door"]
        hinges = [each for each in door.elements if isinstance(each, Polyline) and each.layer == "fittings"]
        (handle,) = [each for each in door.elements if isinstance(each, Circle)]
        assert len(hinges) == 3
        middle = sum(x for x, _ in hinges[0].points) / 4.0
        assert (middle - handle.centre[0]) * sign > 0.0


def test_the_sheet_of_a_door_has_its_leaf_its_frame_and_how_it_opens() -> None:
    door = drawn()["opening-quiet-door"]  # two rows of seals: 30 over the frame, none at the foot
    assert {680.0, 1650.0} <= sizes(door)
    said = " ".join(door.remarks)
    assert (
        "Clear 620 × 1620, which is the frame inside; leaf 680 × 1650, 30 over the frame at both sides and the head."
        in said
    )
    assert "Hinges at the right as one faces it from inside; opens into the room." in said
    assert "Opened from inside by lever; lock fail-safe" in said
    assert "threshold 15 high" in said
    assert said.endswith("Not in the file, to be settled before it is built: at what heights the latches sit.")


def test_a_door_without_swing_or_step_says_so_and_one_latch_sits_at_the_handle() -> None:
    text = edited(DEMO, ("    swing: {hinge: right, opens: in}\n", ""), ("      latches: 3\n", ""),
                  ("      threshold: 15\n", ""))  # fmt: skip
    said = " ".join(drawn(text)["opening-quiet-door"].remarks)
    assert "one latch, at the handle; no threshold above the floor beside it" in said
    assert "on which side the hinges are, so that none is drawn" in said
    assert "latches sit" not in said
    assert "Opens in." in said


def test_halves_of_a_door_on_the_centre_line_are_not_told_apart() -> None:
    text = edited(DEMO, ("    width: 620\n    height: 1620", "    width: 625\n    height: 1620"))
    door = drawn(text)["opening-quiet-door"]
    assert 312.5 not in sizes(door)
    assert 625.0 in sizes(door)
