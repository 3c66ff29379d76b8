"""What a wall needs: two ways worked out by hand, and laws that hold for every level."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.coupled import DEMO, build_of, evaluation_of
from tests.plain_builds import plain_build

from hushwright.app.wall_rows import said_of
from hushwright.document.edits import edited
from hushwright.evaluation.results import SILENCE, PathLevel
from hushwright.evaluation.sound.needs import Allowance, Sound, asked_faces, face_need, needs_of, sounds_of
from hushwright.search.build_ups import alternatives_of
from hushwright.search.comparing import AS_BUILT, Comparison

N = 27
OFF = math.inf


def way(name: str, levels: tuple[float, ...], kind: str = "through") -> PathLevel:
    return PathLevel(name, levels, (2.0,) * N, 0.0, 0.5, "", kind=kind)


def sound(own: tuple[float, ...], other: tuple[float, ...], allowance: Allowance) -> Sound:
    total = tuple(10.0 * math.log10(10.0 ** (a / 10.0) + 10.0 ** (b / 10.0)) for a, b in zip(own, other, strict=True))
    paths = (way("quiet room left", own), way("fan", other, "fan"))
    return Sound("background/x/record", "x", "record", "quiet_room", "", "", allowance, total, (5.0,) * N, paths, "")


def test_two_ways_of_known_level_leave_what_a_hand_finds() -> None:
    # One third octave of limit 33 dB; own 40 dB, other 30 dB: 10^3.3 - 10^3 = 995 leaves 29.98 dB, 10.02 dB less.
    limits = tuple(33.0 if band == 10 else OFF for band in range(N))
    need = face_need(sound((40.0,) * N, (30.0,) * N, Allowance(limits)), "quiet_room.left", ("quiet_room.left",),
                     (50.0,) * N, (2.0,) * N)  # fmt: skip
    assert need is not None
    assert need.margin[10] == pytest.approx(-10.02, abs=0.01)
    assert need.needed[10] == pytest.approx(60.02, abs=0.01)
    assert need.deciding == 10
    assert need.spare == pytest.approx(-10.02, abs=0.02)
    assert need.without == pytest.approx(3.0, abs=0.01)
    assert need.margin[11] is None
    assert need.beyond_it == ()


def test_where_the_other_ways_alone_are_over_no_wall_is_enough_and_the_loudest_is_named() -> None:
    limits = tuple(28.0 if band == 10 else OFF for band in range(N))
    need = face_need(sound((40.0,) * N, (30.0,) * N, Allowance(limits)), "quiet_room.left", ("quiet_room.left",))
    assert need is not None
    assert (need.allowed[10], need.margin[10], need.spare) == (SILENCE, None, None)
    assert need.beyond_it == (10,)
    assert need.loudest_others == ("fan",)
    assert need.without == pytest.approx(-2.0, abs=0.01)


def test_where_the_other_ways_alone_are_over_each_way_gets_its_even_share() -> None:
    # Own 40 dB and other 30 dB sum to 40.41 dB; both lowered by 12.41 dB just meet 28 dB.
    limits = tuple(28.0 if band == 10 else OFF for band in range(N))
    need = face_need(sound((40.0,) * N, (30.0,) * N, Allowance(limits)), "quiet_room.left", ("quiet_room.left",),
                     (50.0,) * N, (2.0,) * N)  # fmt: skip
    assert need is not None
    assert need.shared_margin[10] == pytest.approx(-12.41, abs=0.01)
    assert need.shared_need[10] == pytest.approx(62.41, abs=0.01)
    assert need.shared_need[11] is None
    told = " ".join(said_of(need, "quiet_room.left"))
    assert "each has to let in 12.4 dB less at 250 Hz, so quiet room, left has to keep out 62.4 dB there" in told


def test_a_way_that_lets_in_hardly_anything_is_not_blamed() -> None:
    # A-weighted, the fan at 30 dB in each band carries the sum; the duct is louder at 25 Hz alone, which weighs
    # −44.7 dB there (IEC 61672-1).
    fan, duct, own = way("fan", (30.0,) * N, "fan"), way("duct", (35.0, *((0.0,) * 26)), "duct"), (20.0,) * N
    base = sound(own, (30.0,) * N, Allowance((20.0,)))
    paths = (base.paths[0], fan, duct)
    levels = tuple(10.0 * math.log10(sum(10.0 ** (path.levels[band] / 10.0) for path in paths)) for band in range(N))
    need = face_need(replace(base, levels=levels, paths=paths), "quiet_room.left", ("quiet_room.left",))
    assert need is not None
    assert need.loudest_others == ("fan",)
    assert "in all bands: fan." in " ".join(said_of(need, "quiet_room.left"))


def test_an_octave_is_shared_among_its_thirds_as_the_sound_is() -> None:
    # Thirds 40, 34, 28 dB sum to 41.2 dB; an octave limit of 41.2 - 6 dB moves each by 6 dB.
    levels = (*([0.0] * 12), 40.0, 34.0, 28.0, *([0.0] * 12))
    whole = 10.0 * math.log10(10.0**4.0 + 10.0**3.4 + 10.0**2.8)
    allowance = Allowance(tuple(whole - 6.0 if octave == 4 else OFF for octave in range(9)))
    assert list(allowance.of(levels)[12:15]) == pytest.approx([34.0, 28.0, 22.0])
    assert allowance.over(levels) == pytest.approx(6.0)


_LEVELS = st.lists(st.floats(0.0, 70.0), min_size=N, max_size=N).map(tuple)
_LIMITS = st.sampled_from([Allowance((35.0,)), Allowance((45.0,) * 9), Allowance((38.0,) * N)])


@given(_LEVELS, _LEVELS, _LIMITS)
@settings(max_examples=60, deadline=None)
def test_a_wall_better_by_its_margin_brings_every_band_to_its_limit(
    own: tuple[float, ...], other: tuple[float, ...], allowance: Allowance
) -> None:
    heard = sound(own, other, allowance)
    need = face_need(heard, "quiet_room.left", ("quiet_room.left",))
    assert need is not None
    allowed = allowance.of(heard.levels)
    for band, margin in enumerate(need.margin):
        if margin is not None:
            reached = 10.0 ** ((own[band] + margin) / 10.0) + 10.0 ** (other[band] / 10.0)
            assert 10.0 * math.log10(reached) == pytest.approx(allowed[band], abs=0.1)
    if need.spare is not None and abs(need.spare) < 59.0:
        assert sound(tuple(level + need.spare for level in own), other, allowance).slack == pytest.approx(0.0, abs=0.1)


@given(_LEVELS, _LEVELS, st.floats(20.0, 60.0), st.floats(0.0, 20.0))
@settings(max_examples=40, deadline=None)
def test_a_higher_limit_never_asks_more(
    own: tuple[float, ...], other: tuple[float, ...], limit: float, more: float
) -> None:
    strict, mild = (
        face_need(sound(own, other, Allowance((each,))), "quiet_room.left", ("quiet_room.left",))
        for each in (limit, limit + more)
    )
    assert strict is not None
    assert mild is not None
    assert all(a <= b for a, b in zip(strict.allowed, mild.allowed, strict=True))
    assert mild.spare is not None or strict.spare is None


def test_the_demo_says_the_need_of_each_build_up_once_and_counts_twins_together() -> None:
    evaluation = evaluation_of(DEMO)
    names = asked_faces(evaluation)
    assert "quiet_room.left" in names
    assert "quiet_room.right" not in names
    found = needs_of(evaluation, "quiet_room.left")
    assert {each.together for each in found} == {("quiet_room.left", "quiet_room.right")}
    assert {each.sound.key.split("/")[0] for each in found} == {"background", "neighbours"}
    assert {each.key.split("/")[0] for each in sounds_of(evaluation)} == {"background", "rooms", "neighbours"}
    through = needs_of(evaluation, "window")
    assert any(each.sound.key.startswith("rooms/") for each in through)


PLAIN = plain_build(
    brief="  outdoors:\n    - {situation: quay, octaves: {hz_125: 60 dB, hz_500: 55 dB, hz_2000: 45 dB}, "
    "comes_from: all round, limit: 35 dB(A)}\n",
    left="        - {sheet: birch plywood, thickness: 9}   # of the yard\n"
    "        - {cavity: 60}\n        - {sheet: birch plywood, thickness: 12}\n",
)


def test_build_ups_are_compared_by_the_verbs_and_each_is_one_edit_of_the_file() -> None:
    rows = list(Comparison(PLAIN, "van.yaml", "quiet_room.left"))
    assert rows[0].name == AS_BUILT
    key = "background/quay/record"
    there = rows[0].level(key)
    assert there is not None
    whole = evaluation_of(PLAIN).quantities[key].value
    assert there == pytest.approx(whole, abs=1e-9)
    filled = next(each for each in rows if each.name == "cavity filled with wool")
    assert filled.problem == ""
    assert filled.level(key) == pytest.approx(
        evaluation_of(edited(PLAIN, filled.edits)).quantities[key].value, abs=1e-9
    )
    assert filled.prediction is not None
    assert rows[0].prediction is not None
    assert filled.prediction.rw > rows[0].prediction.rw
    deeper = next(each for each in rows if each.name.startswith("cavity deeper"))
    assert rows[0].width - deeper.width == pytest.approx(0.03, abs=1e-9)
    assert "# of the yard" in edited(PLAIN, deeper.edits)


def test_alternatives_of_the_demo_can_be_written_into_its_file() -> None:
    build = build_of(DEMO)
    for face in ("quiet_room.left", "quiet_room.front", "quiet_room.floor"):
        found = [each for each in alternatives_of(build, face) if not each.name.startswith("as ")]
        assert len(found) >= 4
        last = found[-2]
        assert edited(DEMO, last.edits) != DEMO


def test_a_window_is_compared_with_heavier_panes_and_more_seals() -> None:
    openings = """openings:
  window: {kind: window, face: quiet_room.left, width: 700, height: 500, sill: 900, offset: 1500,
    layers: [{glass: float glass, thickness: 6}, {cavity: 60}, {glass: float glass, thickness: 6}], frames: separate,
    seals: {seal: compression bulb, rows: 1, residual_gap: 0.2 mm}}
"""
    text = f"{PLAIN}{openings}"
    rows = list(Comparison(text, "build.yaml", "window"))
    assert rows[0].name == AS_BUILT
    assert not [each.problem for each in rows if each.problem]
    names = [each.name for each in rows]
    assert "2 rows of seals" in names
    heavier = next(each for each in rows if each.name.startswith("float glass"))
    assert heavier.prediction is not None
    assert rows[0].prediction is not None
    assert heavier.prediction.surface_density > rows[0].prediction.surface_density
    key = next(name for name, _, _ in rows[0].levels if name.startswith("background/"))
    for each in (heavier, rows[names.index("2 rows of seals")]):
        assert each.level(key) == pytest.approx(evaluation_of(edited(text, each.edits)).quantities[key].value, abs=1e-9)


def test_a_floating_floor_is_compared_with_floors_that_float() -> None:
    names = [each.name for each in alternatives_of(build_of(DEMO), "quiet_room.floor")]
    assert names
    assert "as control room, floor" not in names
