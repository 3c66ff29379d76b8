"""Doors, windows and wheel boxes cut square to them: every layer the file has can be dragged, and nothing else."""

from tests.coupled import DEMO, build_of

from hushwright.app.leaf_pictures import leaf_elements, leaf_handles
from hushwright.app.wall_pictures import layer_handles, wall_picture
from hushwright.app.wall_rows import item_text, layer_rows
from hushwright.document.outline import outline
from hushwright.drawings.primitives import Text
from hushwright.search.build_ups import layered_named, layered_names


def test_a_window_shows_its_panes_and_its_space_each_with_a_handle_where_it_ends() -> None:
    build = build_of(DEMO)
    window = next(each for each in build.openings if each.name == "window")
    handles = leaf_handles(window)
    assert [one.moves[0].path[-1] for one in handles] == ["thickness", "cavity", "thickness"]
    assert [round(1000.0 * one.x, 1) for one in handles] == [10.8, 110.8, 119.6]
    numbers = [each.text for each in leaf_elements(window) if isinstance(each, Text)]
    assert numbers == ["1", "2", "3"]
    shown = wall_picture(build, "window", "metric")
    assert shown is not None
    assert len(shown["handles"]) == 3


def test_what_can_be_chosen_is_what_the_file_has_layers_of() -> None:
    build = build_of(DEMO)
    names = layered_names(build)
    assert {"window", "quiet_door", "quiet_room.wheel_box_left"} <= set(names)
    assert "rear_doors" not in names  # bare sheet, none of it in the file
    assert layered_named(build, "rear_doors") is None
    for name in names:
        assert layer_handles(build, name), name
        assert wall_picture(build, name, "us") is not None, name


def test_layers_of_a_door_are_listed_with_the_records_they_may_have() -> None:
    build = build_of(DEMO)
    door = next(each for each in build.openings if each.name == "quiet_door")
    rows, lists, note = layer_rows(build, "quiet_door", outline(DEMO))
    assert [(row["word"], row["text"]) for row in rows] == [("sheet", "18"), ("limp", "6"), ("sheet", "18")]
    assert door.layers[0].name in lists["sheet"]
    assert note == ""


def test_a_new_space_and_a_new_pane_are_words_of_the_file() -> None:
    assert item_text("cavity", "mm") == "{cavity: 50}"
    assert item_text("glass", "mm").startswith("{glass: laminated glass, thickness: ")
