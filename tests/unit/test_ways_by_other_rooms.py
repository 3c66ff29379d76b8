"""Sound that passes other rooms, and how sure its level is; found in a review."""

import numpy as np
from tests.coupled import DEMO, build_of, core_of
from tests.plain_builds import NOTHING_PASSES, ONE_LEAF, faces, two_rooms

from hushwright.evaluation.sound.heard import setting_of
from hushwright.evaluation.sound.sound import network_of, received, standing_in
from hushwright.evaluation.sound.ways import across, source_spread, sum_levels
from hushwright.physics.air import Air

BRIEF = (
    "  outdoors:\n    - situation: lee\n      octaves: {hz_125: 80 dB, hz_500: 80 dB}\n      limit: 30 dB(A)\n"
    "  sources: {quiet_room: pink noise, quiet_room_level: 99 dB(A)}\n"
    "  monitor: {level: 78 dB(A), spectrum: pink noise, below: 10 dB}\n"
)


def three_rooms(wall: str) -> str:
    """A store whose left side is thin, the control room behind it, the quiet room behind that."""
    text = two_rooms(BRIEF, front=ONE_LEAF)
    text = text.replace("{purpose: control, front: 30, rear: 2430}", "{purpose: control, front: 1620, rear: 3210}")
    text = text.replace("{purpose: quiet, front: 2460, rear: 4860}", "{purpose: quiet, front: 3240, rear: 4860}")
    text = text.replace("rooms:\n", "rooms:\n  store: {purpose: other, front: 30, rear: 1590}\n", 1)
    head, tail = text[: text.index("  control_room:\n")], text[text.index("states:") :]
    return f"{head}{faces('control_room', rear='', front=wall)}{faces('store', left=ONE_LEAF, rear='')}{tail}"


def test_sound_comes_through_two_rooms_one_after_the_other() -> None:
    """Outdoors, store, control room, quiet room: each wall between passes all of it on."""
    shut, passing = (core_of(three_rooms(wall)).backgrounds[0].levels[13] for wall in (NOTHING_PASSES, ONE_LEAF))
    assert passing > shut + 6.0  # shut, it comes by the other faces, which hardly pass anything


def test_sound_that_has_passed_a_room_does_not_come_back_to_it() -> None:
    """The way from the quiet room into the control room does not lead by the store and back to the quiet room."""
    build = build_of(three_rooms(ONE_LEAF))
    stands = standing_in(build, build.states[0], setting_of(build, Air(20.0)), None)
    network = network_of(stands, None)
    quiet, store = build.room_for("quiet"), build.rooms[0]
    assert quiet is not None
    level = {("quiet_room", "front"): (90.0,) * 27}
    reached = received(network, build, store, level, closed=("quiet_room",))
    assert {link.first for link in reached.links} == {"control_room"}
    assert sum_levels(reached)[13] < 90.0


def test_the_level_between_rooms_is_as_uncertain_as_the_place_of_the_source() -> None:
    """Common practice, no source: where one stands in a tiny room makes several decibels in the bass."""
    found = core_of(DEMO).between_rooms[0]
    build = build_of(DEMO)
    stands = standing_in(build, build.states[0], setting_of(build, Air(20.0)), None)
    places = np.asarray(source_spread(stands.fields["quiet_room"]))
    assert np.all(np.asarray(found.uncertainty) >= places - 0.2)
    assert max(places) > 3.0


def test_what_source_and_ear_may_not_exchange_is_uncertain() -> None:
    """Reciprocity of sound: two computed ways differ in the bass, and the level is no surer than half of that."""
    build = build_of(DEMO)
    stands = standing_in(build, build.states[0], setting_of(build, Air(20.0)), None)
    network = network_of(stands, None)
    quiet, control = (build.room_for(purpose) for purpose in ("quiet", "control"))
    assert quiet is not None
    assert control is not None
    wall = next(link for link in network.straight if link.kind == "through" and link.first == control.name)
    ways = (
        across(network.fields[control.name], network.fields[quiet.name], control, quiet, wall),
        across(network.fields[quiet.name], network.fields[control.name], quiet, control, wall.reversed()),
    )
    apart = np.abs(np.subtract(*ways))
    assert np.max(apart) > 2.0
    assert np.max(apart[15:]) < 1e-9
    assert np.all(np.asarray(core_of(DEMO).between_rooms[0].uncertainty) >= apart / 2.0 - 1e-9)
