"""Laws that the coupled result keeps whatever the build: additions in decibels, bounds, reciprocity, bookkeeping."""

from functools import lru_cache

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from tests.coupled import DEMO, STILL, build_of, core_of, edited, evaluation_of
from tests.plain_builds import ONE_LEAF, plain_build
from tests.unit_systems import in_us_units

from hushwright.evaluation.mass.space import first_take
from hushwright.evaluation.results import PathLevel
from hushwright.evaluation.sound.floor import floating_room
from hushwright.evaluation.sound.heard import setting_of
from hushwright.evaluation.sound.links import Link, links_of
from hushwright.evaluation.sound.sound import Network, Standing, network_of, standing_in
from hushwright.evaluation.sound.ways import source_levels, sum_levels
from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.rooms import crossover_frequency
from hushwright.physics.air import Air

FEW = settings(max_examples=4, phases=(Phase.explicit, Phase.generate))  # each example couples a whole van
QUAY = (
    "octaves: {hz_63: 60 dB, hz_125: 56 dB, hz_250: 53 dB, hz_500: 51 dB, hz_1000: 49 dB, hz_2000: 45 dB, "
    "hz_4000: 40 dB}"
)
LINING = "        - {sheet: birch plywood, thickness: 9}\n        - {core: viscoelastic glue, thickness: 1}\n"


def shifted(decibels: float) -> str:
    levels = (60, 56, 53, 51, 49, 45, 40)
    octaves = (63, 125, 250, 500, 1000, 2000, 4000)
    inside = ", ".join(f"hz_{octave}: {level + decibels:.6f} dB" for octave, level in zip(octaves, levels, strict=True))
    return edited(STILL, (QUAY, f"octaves: {{{inside}}}"))


@FEW
@given(st.floats(-15.0, 25.0))
def test_so_many_decibels_more_outside_are_as_many_more_inside(decibels: float) -> None:
    before, after = core_of(STILL).backgrounds, core_of(shifted(decibels)).backgrounds
    for first, second in zip(before, after, strict=True):
        more = decibels if first.situation == "quay" else 0.0
        assert np.asarray(second.levels) - np.asarray(first.levels) == pytest.approx(np.full(27, more), abs=1e-4)
        for one, other in zip(first.paths, second.paths, strict=True):
            assert (other.name, other.share) == (one.name, pytest.approx(one.share, abs=1e-6))


@FEW
@given(st.floats(80.0, 115.0))
def test_a_louder_source_is_as_much_louder_next_door_and_at_the_neighbours(level: float) -> None:
    louder = core_of(edited(DEMO, ("quiet_room_level: 99 dB(A)", f"quiet_room_level: {level:.6f} dB(A)")))
    more, before = level - 99.0, core_of(DEMO).quantities
    assert louder.quantities["rooms/record"].value == pytest.approx(before["rooms/record"].value - more, abs=1e-4)
    assert louder.quantities["neighbours/record"].value == pytest.approx(
        before["neighbours/record"].value + more, abs=1e-4
    )


@FEW
@given(st.floats(0.3, 2.0))
def test_a_limp_layer_never_lowers_isolation_between_resonance_and_coincidence(thickness: float) -> None:
    """Up to 900 Hz: more mass also moves the dip of coincidence up, and into bands where it was not before."""
    heavier = edited(DEMO, (LINING, f"        - {{limp: barrier mat 5, thickness: {thickness:.3f}}}\n{LINING}"))
    between = (FREQUENCIES > 350.0) & (FREQUENCIES < 900.0)
    for face in ("left", "right", "ceiling", "wheel box left"):
        name = f"quiet room {face}"
        before = np.asarray(straight(DEMO)[name].reduction)
        assert np.min((np.asarray(straight(heavier)[name].reduction) - before)[between]) > 0.0, name


@FEW
@given(st.floats(0.5, 20.0))
def test_a_limp_leaf_is_better_with_more_of_it_in_all_high_bands(thickness: float) -> None:
    more = plain_build(left=f"{ONE_LEAF}        - {{limp: light sheet, thickness: {thickness:.3f}}}\n")
    gain = np.asarray(straight(more)["quiet room left"].reduction) - np.asarray(
        straight(plain_build(left=ONE_LEAF))["quiet room left"].reduction
    )
    assert gain[FREQUENCIES > 450.0] == pytest.approx(20.0 * np.log10(1.0 + thickness), abs=0.5)


@lru_cache(maxsize=16)
def straight(text: str) -> dict[str, Link]:
    """Ways straight through the faces, by name."""
    build = build_of(text)
    setting = setting_of(build, Air(build.brief.air_temperature))
    room = build.room_for("quiet")
    assert room is not None
    return {link.name: link for link in links_of(build, room, build.states[0], setting)}


def test_both_unit_systems_give_the_same_van() -> None:
    metric, customary = core_of(DEMO).quantities, core_of(in_us_units(DEMO)).quantities
    assert metric.keys() == customary.keys()
    for key, quantity in metric.items():
        assert customary[key].value == pytest.approx(quantity.value, rel=1e-6), key
        assert customary[key].method_uncertainty == pytest.approx(quantity.method_uncertainty, rel=1e-6), key


COUNTED = (
    "room-anchors/", "skin-anchors/", "held-unsaid/", "bridges/", "cut-behind", "cut-sealed", "door-threshold/",
    "wiring-current/", "wiring-fuse/", "wiring-load/", "wiring-selective/", "wiring-distance/", "wiring-rcd/",
    "wiring-socket/", "wiring-bond", "headphone-listening", "venue-", "burning/", "unmet/", "charging/",
)  # fmt: skip
"""Whole numbers that a person counts, and what is as typed: a height, a fuse, a load, a venue, a label."""


def test_no_uncertainty_is_less_than_any_part_of_it() -> None:
    for key, quantity in evaluation_of(DEMO).quantities.items():
        parts = [quantity.method_uncertainty, *(abs(each.change) for each in quantity.contributions)]
        assert quantity.standard_uncertainty >= max(parts) * (1.0 - 1e-12), key
        whole = quantity.kind == "count" and quantity.value == round(quantity.value)
        bound = any("at least:" in note for note in quantity.validity)  # told as the least it is, not as a value
        assert quantity.standard_uncertainty > 0.0 or whole or bound or key.startswith(COUNTED), key


def all_paths() -> list[tuple[str, tuple[PathLevel, ...], tuple[float, ...]]]:
    core = core_of(DEMO)
    return [
        *((found.key, found.paths, found.levels) for found in core.backgrounds),
        *((f"rooms {found.state}", found.paths, found.received) for found in core.between_rooms),
        *((f"neighbours {found.state}", found.paths, found.levels) for found in core.neighbours),
    ]


def test_shares_add_up_to_one_and_ways_to_the_level() -> None:
    for key, paths, levels in all_paths():
        check_books(key, paths, levels)


def check_books(key: str, paths: tuple[PathLevel, ...], levels: tuple[float, ...]) -> None:
    assert sum(path.share for path in paths) == pytest.approx(1.0, abs=1e-4), key
    energy = np.sum(10.0 ** (np.array([path.levels for path in paths]) / 10.0), axis=0)
    # Ways 60 dB below the loudest are not listed; in a band of their own they may be more than that.
    assert 10.0 * np.log10(energy) == pytest.approx(np.asarray(levels), abs=0.2)
    assert [path.level_a for path in paths] == sorted((path.level_a for path in paths), reverse=True)
    loudest = np.max(np.array([path.levels for path in paths]), axis=0)
    assert np.all(np.asarray(levels) >= loudest - 1e-9)


def standing() -> tuple[Standing, Network]:
    build = build_of(DEMO)
    air, state = Air(build.brief.air_temperature), first_take(build)
    stands = standing_in(build, state, setting_of(build, air), floating_room(build, state, air))
    return stands, network_of(stands, None)


def test_a_way_is_as_wide_there_as_back() -> None:
    for link in standing()[1].links:
        back = link.reversed()
        assert (back.first, back.second, back.through) == (link.second, link.first, link.through)
        assert back.reversed() == link


def test_what_the_control_room_hears_of_the_quiet_room_is_what_it_would_hear_back() -> None:
    """Reciprocity of level over sound power. Exact where both rooms are diffuse; modal sums meet it within 4 dB."""
    stands, network = standing()
    quiet, control = (stands.build.room_for(purpose) for purpose in ("quiet", "control"))
    assert quiet is not None
    assert control is not None
    power = (100.0,) * 27
    there = np.asarray(
        sum_levels(network.arrivals(control, dict(source_levels(quiet, network.fields[quiet.name], power)[1])))
    )
    back = np.asarray(
        sum_levels(network.arrivals(quiet, dict(source_levels(control, network.fields[control.name], power)[1])))
    )
    crossover = max(crossover_frequency(field) for field in network.fields.values())
    diffuse = crossover * np.sqrt(2.0) < FREQUENCIES
    assert there[diffuse] == pytest.approx(back[diffuse], abs=0.01)
    assert there == pytest.approx(back, abs=4.0)


def test_a_wall_with_a_door_lies_between_the_wall_and_the_door() -> None:
    links = {link.name: link for link in standing()[1].links}
    wall, window = links["quiet room front"], links["window"]
    area = wall.area + window.area
    together = -10.0 * np.log10((np.asarray(wall.through) + np.asarray(window.through)) / area)
    both = np.array([wall.reduction, window.reduction])
    assert np.all(together >= both.min(axis=0) - 1e-9)
    assert np.all(together <= both.max(axis=0) + 1e-9)
    quiet = build_of(DEMO).room_for("quiet")
    front = quiet.surface("front") if quiet is not None else None
    assert front is not None
    assert area == pytest.approx(front.area, rel=1e-9), "what the window takes is not counted twice"
