"""What makes an evaluation quick changes no result: held shapes, memoised parts, series for integrals."""

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from tests.coupled import DEMO, STILL, build_of, edited

from hushwright.errors import InvalidInput
from hushwright.evaluation import sensitivity
from hushwright.evaluation.couple import couple, couple_sound
from hushwright.evaluation.evaluate import evaluate
from hushwright.evaluation.guard import CannotEvaluate
from hushwright.evaluation.held import held_geometry
from hushwright.evaluation.results import REPORTED
from hushwright.evaluation.sensitivity import dealt, with_contributions
from hushwright.model.build import Build, Input
from hushwright.model.resolve import moved as resolve_moved
from hushwright.model.resolve import resolve
from hushwright.physics.acoustics.radiation import radiation_factor
from hushwright.physics.acoustics.radiation_series import LARGEST, small_panel_radiation_factor

SUNLESS = edited(DEMO, ("sky: clear", "sky: no sun"))
HELD_WITHIN = 0.1  # dB
HELD_SHARE = 0.01  # of the uncertainty of a time


def moved(build: Build, each: Input) -> Build:
    found, _ = resolve(build.document, build.library, shifts={each.path: each.standard_uncertainty})
    assert found is not None
    return found


@pytest.mark.parametrize("path", ["vehicle.floor_to_bow", "vehicle.widths.0.width"])
def test_levels_in_held_shapes_are_those_of_the_full_computation(path: str) -> None:
    build = build_of(DEMO)
    other = moved(build, next(each for each in build.inputs if each.path == path))
    held = couple(other, held_geometry(other, build)).quantities
    full = couple(other).quantities
    assert held.keys() == full.keys()
    for key, quantity in full.items():
        within = HELD_SHARE * quantity.method_uncertainty if quantity.kind == "time" else HELD_WITHIN
        assert held[key].value == pytest.approx(quantity.value, abs=within), key


def test_held_shapes_change_no_uncertainty_that_is_shown() -> None:
    build = build_of(DEMO)
    core = couple(build)
    held, full = (with_contributions(build, core, hold=hold)[0] for hold in (True, False))
    for key, quantity in full.items():
        assert held[key].standard_uncertainty == pytest.approx(quantity.standard_uncertainty, abs=0.05), key


@pytest.mark.parametrize("path", ["vehicle.floor_to_bow", "vehicle.widths.0.width"])
def test_a_van_a_little_larger_is_found_in_the_very_rooms_of_the_nominal_one(path: str) -> None:
    """Battens that are shared out over a face are held with it; else all that hangs on it is worked out again."""
    build = build_of(DEMO)
    other = moved(build, next(each for each in build.inputs if each.path == path))
    held = held_geometry(other, build)
    assert all(one is room for one, room in zip(held.rooms, build.rooms, strict=True))


def test_shapes_that_move_by_more_than_a_percent_are_not_held() -> None:
    build, other = build_of(DEMO), build_of(edited(DEMO, ("rear: 4050", "rear: 3990")))
    held = held_geometry(other, build)
    assert held.room_for("quiet") == other.room_for("quiet")


def test_mass_and_headroom_follow_the_moved_build() -> None:
    build = build_of(DEMO)
    each = next(each for each in build.inputs if each.path == "vehicle.floor_to_bow")
    other = moved(build, each)
    before, after = (couple(one, held_geometry(one, build)).quantities for one in (build, other))
    rise = after["headroom/quiet_room"].value - before["headroom/quiet_room"].value
    assert rise == pytest.approx(each.standard_uncertainty, rel=0.02)


_FRESH = """
import sys
from hushwright.document.read import read_document_text
from hushwright.evaluation.evaluate import changes_of, evaluate_nominal
from hushwright.library.read import read_library
from hushwright.model.resolve import resolve
build, _ = resolve(read_document_text(sys.stdin.read(), "build.yaml")[0], read_library())
nominal, core = evaluate_nominal(build)
changes_of(nominal, core, build.inputs[::6])  # the laws are the same whichever input moves
print([name for name in sys.modules if name.startswith("scipy")])
"""


def test_evaluating_needs_no_scipy_at_the_start() -> None:
    """Half a second of imports; `scipy` is only loaded for open round holes in the skin, and with the sun."""
    found = subprocess.run([sys.executable, "-c", _FRESH], input=SUNLESS, capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"


@pytest.mark.parametrize("size", [(1.0, 1.0), (2.2, 0.3), (1.5, 1.9), (4.3, 1.9), (0.05, 3.0)])
def test_the_series_is_the_radiation_integral(size: tuple[float, float]) -> None:
    chosen = np.random.default_rng(3)
    wavenumber = chosen.uniform(0.01, LARGEST, 200) / np.hypot(*size)
    cosine = chosen.uniform(0.0, 1.0, 200)
    exact = radiation_factor(wavenumber, cosine, *size, exact=True)
    assert small_panel_radiation_factor(wavenumber, cosine, *size) == pytest.approx(exact, rel=5e-4)


def test_the_series_says_where_it_ends() -> None:
    with pytest.raises(InvalidInput, match="up to 40"):
        small_panel_radiation_factor(20.0, 1.0, 1.6, 1.2)


def test_an_input_that_cannot_move_up_moves_down_and_turns_its_sign(monkeypatch: pytest.MonkeyPatch) -> None:
    build = build_of(DEMO)
    each = next(each for each in build.inputs if each.path == "mounts.under_floor.static_stiffness")
    core = couple(build)
    plain = contribution(build, core, each.path)

    def only_down(build: Build, shifts: dict[str, float]) -> Build | None:
        if shifts.get(each.path, 0.0) > 0.0:
            raise InvalidInput("too stiff")
        return resolve_moved(build, shifts)

    sensitivity.forget()
    monkeypatch.setattr("hushwright.evaluation.sensitivity.moved", only_down)
    assert np.sign(contribution(build, core, each.path)) == np.sign(plain)


def contribution(build: Build, core: object, path: str) -> float:
    quantities, notes = with_contributions(build, core)  # type: ignore[arg-type]
    assert notes == ()
    found = [each.change for each in quantities["floor-frequency/record"].contributions if each.path == path]
    return found[0]


def test_an_input_that_can_move_neither_way_is_noted(monkeypatch: pytest.MonkeyPatch) -> None:
    build = build_of(DEMO)
    path = build.inputs[0].path

    def never(build: Build, shifts: dict[str, float]) -> Build | None:
        if path in shifts:
            raise InvalidInput("no")
        return resolve_moved(build, shifts)

    sensitivity.forget()
    monkeypatch.setattr("hushwright.evaluation.sensitivity.moved", never)
    monkeypatch.setattr("hushwright.evaluation.sensitivity._met", lambda origin: origin)  # nothing is remembered
    _, notes = with_contributions(build, couple(build))
    assert len(notes) == 1
    assert path in notes[0]


def test_what_no_law_takes_is_said_with_its_place_in_the_file() -> None:
    build = build_of(DEMO)
    quiet = build.room_for("quiet")
    assert quiet is not None
    thin = tuple(
        replace(each, layers=(replace(each.layers[0], thickness=-1.0), *each.layers[1:]))
        if each.face == "left"
        else each
        for each in quiet.surfaces
    )
    rooms = tuple(replace(each, surfaces=thin) if each is quiet else each for each in build.rooms)
    with pytest.raises(CannotEvaluate, match=r"build\.yaml:\d+: surfaces\.quiet_room\.left"):
        evaluate(replace(build, rooms=rooms))


def test_caveats_on_rain_inform_and_leave_the_verdict_to_the_margin() -> None:
    found = couple(build_of(DEMO)).quantities["background/rain/record_side_door_open"]
    assert found.validity
    assert all(note.startswith(REPORTED) for note in found.validity)


@pytest.mark.parametrize(("limit", "decides"), [(0, False), (10, False), (27, True), (50, False)])
def test_rain_in_bands_without_a_published_value_blocks_only_what_it_could_turn(limit: int, decides: bool) -> None:
    """6 dB(A), u 10.4 dB, a third of it assumed: nothing is proven at 10, ten decibels more turn 27, not 50."""
    asked = couple(build_of(edited(STILL, ("rate: 4 mm/h, limit: 40 dB(A)", f"rate: 4 mm/h, limit: {limit} dB(A)"))))
    notes = asked.quantities["background/rain/record_side_door_open"].validity
    told = [note for note in notes if "without a published value" in note]
    assert [not note.startswith(REPORTED) for note in told] == [decides]


def test_a_floor_pressed_beyond_its_straight_range_stays_unproven() -> None:
    found = couple(build_of(DEMO)).quantities["floor-frequency/record"]
    assert found.validity
    assert not any(note.startswith(REPORTED) for note in found.validity)


@pytest.mark.parametrize("path", ["library.limits.roof reduction", "openings.quiet_door.seals.residual_gap"])
def test_an_input_of_the_sound_alone_changes_nothing_that_is_not_computed_again(path: str) -> None:
    build = build_of(DEMO)
    core = couple(build)
    other = moved(build, next(each for each in build.inputs if each.path == path))
    sounding = held_geometry(other, build)
    alone, full = couple_sound(other, sounding, core), couple(other, sounding).quantities
    for key, quantity in full.items():
        assert quantity.value == alone.get(key, core.quantities[key]).value, key


EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.mark.parametrize("example", ["hearing-screening-van", "repair-workshop-van", "voice-booth-short-van"])
def test_values_alone_of_a_moved_build_are_those_of_the_full_computation(example: str) -> None:
    build = build_of((EXAMPLES / f"{example}.yaml").read_text(encoding="utf-8"))
    core = couple(build)
    others = ((each, resolve_moved(build, {each.path: each.standard_uncertainty})) for each in build.inputs)
    ends = ("coverage", "floor_to_bow", "residual_gap", "temperature")
    moving = [other for each, other in others if other is not None and each.path.endswith(ends)]
    assert moving
    for other in moving[:3]:
        sounding = held_geometry(other, build)
        alone, full = couple(other, sounding, beside=core).quantities, couple(other, sounding).quantities
        assert {key: (each.value, each.kind) for key, each in alone.items()} == {
            key: (each.value, each.kind) for key, each in full.items()
        }


@pytest.mark.parametrize("shares", [1, 2, 3])
def test_inputs_are_dealt_out_each_to_one_process_and_evenly(shares: int) -> None:
    inputs = build_of(DEMO).inputs
    hands = [dealt(inputs, share, shares) for share in range(shares)]
    assert sorted(each.path for hand in hands for each in hand) == sorted(each.path for each in inputs)
    assert max(map(len, hands)) - min(map(len, hands)) <= 1
