"""Doors one behind the other, and what stands in the skin before the quiet room; found in a review."""

import numpy as np
import pytest
from tests.coupled import DEMO, build_of, core_of, edited, paths_between, paths_to_quiet, value_of
from tests.plain_builds import two_rooms

from hushwright.evaluation.sound.gap import gap_links
from hushwright.evaluation.sound.heard import setting_of
from hushwright.physics.air import Air

BRIEF = (
    "  sources: {quiet_room: pink noise, quiet_room_level: 99 dB(A)}\n"
    "  monitor: {level: 78 dB(A), spectrum: pink noise, below: 10 dB}\n"
)
SHEET = "        - {limp: heavy sheet, thickness: "
FRONT = f"{SHEET}2}}\n        - {{cavity: 27}}\n{SHEET}1}}\n"
SIZE = "kind: door, face: quiet_room.front, width: 620, height: 1620, sill: 90"
LEAF = "layers: [{limp: light sheet, thickness: 20}]"  # so thick that its slit is a slit
SEAL = "seals: {seal: compression bulb, rows: 1, residual_gap: 0.3 mm}"
OUTER = f"  outer: {{{SIZE}, {LEAF}, {SEAL}}}\n"
SINGLE = f"openings:\n  inner: {{{SIZE}, {LEAF}, {SEAL}}}\n"
PAIR = f"openings:\n  inner: {{{SIZE}, {LEAF}, {SEAL}, behind: outer}}\n{OUTER}"
BOTH_OPEN = "  through:\n    people: {quiet_room: 0, control_room: 0}\n    takes: yes\n    open: [inner, outer]\n"
INNER_OPEN = BOTH_OPEN.replace("[inner, outer]", "[inner]")
OUTER_OPEN = BOTH_OPEN.replace("[inner, outer]", "[outer]")
SKIN = "  {name}: {{kind: {kind}, face: vehicle.left, diameter: 100, offset: 2900, sill: 700{more}}}\n"


def rooms(doors: str, state: str = "") -> str:
    return two_rooms(BRIEF, doors, front=FRONT, state=state)


def level_between(text: str, state: str = "record") -> float:
    """Level of the direct sound at 500 Hz."""
    return next(each for each in core_of(text).between_rooms if each.state == state).received[13]


def test_two_doors_one_behind_the_other_are_not_in_each_others_way() -> None:
    build_of(rooms(PAIR))  # an error in it fails


def test_two_doors_one_behind_the_other_keep_out_more_than_one() -> None:
    single, pair = (paths_between(rooms(doors))["inner"].levels[16] for doors in (SINGLE, PAIR))
    assert pair < single - 10.0


def test_the_outer_one_of_two_doors_is_no_way_of_its_own() -> None:
    assert not [name for name in paths_between(rooms(PAIR)) if name.startswith("outer")]


def test_the_slit_of_the_outer_door_leads_into_the_gap() -> None:
    """The wider its slit, the more goes round the gap; the way straight through both leaves stays."""
    narrow, wide = (paths_between(rooms(PAIR.replace(f"{OUTER}", OUTER.replace("0.3 mm", gap)))) for gap in
                    ("0.3 mm", "2 mm"))  # fmt: skip
    assert wide["inner"].levels == narrow["inner"].levels
    assert wide["round the gap"].levels[16] > narrow["round the gap"].levels[16] + 3.0


def test_one_open_door_of_two_is_between_both_shut_and_both_open() -> None:
    shut = level_between(rooms(PAIR))
    half = [level_between(rooms(PAIR, state), "through") for state in (INNER_OPEN, OUTER_OPEN)]
    opened = level_between(rooms(PAIR, BOTH_OPEN), "through")
    assert shut < min(half)
    assert max(half) < opened - 10.0


def test_an_open_outer_door_leaves_the_inner_one_alone() -> None:
    """By its own leaf and slit it is then as the single door."""
    single = paths_between(rooms(SINGLE))["inner"]
    left = paths_between(rooms(PAIR, OUTER_OPEN), "through")["inner"]
    assert left.levels[20] == pytest.approx(single.levels[20], abs=0.5)


def test_a_door_behind_a_door_of_another_face_stands_alone_in_its_own() -> None:
    """The way there leads by the control room; before the leaf itself there is only that room."""
    side = f"  outer: {{{SIZE.replace('quiet_room.front', 'control_room.left')}, offset: 1200, {LEAF}}}\n"
    elsewhere = PAIR.replace(OUTER, side)
    assert paths_between(rooms(elsewhere))["inner"].levels[16] == paths_between(rooms(SINGLE))["inner"].levels[16]


@pytest.mark.parametrize(
    ("kind", "more"), [("hole", ""), ("hole", ", filled: sealed"), ("gland", ", filled: sealed"), ("duct", "")]
)
def test_what_pierces_the_skin_before_the_quiet_room_lets_sound_into_the_gap(kind: str, more: str) -> None:
    pierced = edited(DEMO, ("openings:\n", "openings:\n" + SKIN.format(name="through", kind=kind, more=more)))
    levels = [np.asarray(paths_to_quiet(text, "fair/record")["round the gap"].levels) for text in (DEMO, pierced)]
    assert np.max(levels[1] - levels[0]) > 1e-3


def test_an_open_hole_lets_in_more_than_a_sealed_one_and_as_much_as_a_duct_at_most() -> None:
    through = []
    for kind, more in (("hole", ", filled: sealed"), ("duct", ", insertion_loss: {hz_1000: 10 dB}"), ("duct", "")):
        text = edited(DEMO, ("openings:\n", "openings:\n" + SKIN.format(name="through", kind=kind, more=more)))
        build = build_of(text)
        links = gap_links(build, build.states[0], setting_of(build, Air(20.0)))
        through.append(sum(link.through[16] for link in links if link.first_face == "left"))
    assert through == sorted(through)
    assert through[2] > 2.0 * through[1]


def test_a_hole_packed_with_putty_lets_nothing_through() -> None:
    packed = SKIN.format(name="through", kind="gland", more=", filled: packed with putty")
    key = "background/fair/record"
    assert value_of(edited(DEMO, ("openings:\n", f"openings:\n{packed}")), key) == pytest.approx(value_of(DEMO, key))
