"""Each way into the quiet room counts in the demo, and answers to its own geometry: no constant decibels."""

from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
import pytest
from tests.coupled import DEMO, build_of, core_of, edited, paths_between, paths_to_quiet, value_of

from hushwright.evaluation.evaluate import Core, couple
from hushwright.evaluation.results import PathLevel
from hushwright.evaluation.sound import heard, sound
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS

EXAMPLES = Path(__file__).parents[2] / "examples"
BOOTH = (EXAMPLES / "voice-booth-short-van.yaml").read_text(encoding="utf-8")
QUAY = "quay/record"
BACKGROUNDS = [
    f"background/{name}/{state}" for name in ("quay", "fair") for state in ("record", "record_side_door_open")
]
JUDGED = [*BACKGROUNDS, "rooms/record", "neighbours/record"]
COUNTS = 0.01  # dB, least change of a verdict's value that is called one; the program shows tenths

SLITS = (
    ("residual_gap: 0..0.1 mm", "residual_gap: 0 mm"),
    ("residual_gap: 0..0.15 mm", "residual_gap: 0 mm"),
    ("residual_gap: 0.05..0.3 mm", "residual_gap: 0 mm"),
)
STIFFNESS = "static_stiffness: {is: 130 N/mm, from: supplier, plus_minus: 15 %}"
FURNITURE = "height: 500, fixed_to: [quiet],"
BOXES = "  wheel_boxes: {between: 1350, height: 300, front: 2330, rear: 3370}"
BOX_CAVITY = "{cavity: 60, fill: rock wool 40 kg/m3}\n"
DAMPING = "butyl pad with aluminium foil, thickness: 2, coverage: 55 %"
BEFORE_CEILING = "      layers:\n        - skin: body\n        - {damping: " + DAMPING + "}\n        - {cavity: 40"
WOOL = "{cavity: 93, fill: rock wool 40 kg/m3, frame"
RIBS, BOWS = "ribs: {depth: 55, spacing: 700", "bows: {depth: 45, spacing: 700"


def largest_change(other: Core) -> float:
    demo = core_of(DEMO)
    return max(abs(other.quantities[key].value - demo.quantities[key].value) for key in JUDGED)


def at(path: PathLevel, lowest: float, highest: float) -> np.ndarray:
    """Levels of a way from one third octave to another."""
    bands = np.array(THIRD_OCTAVE_BANDS)
    return np.asarray(path.levels)[(bands >= lowest) & (bands <= highest)]


def rising(levels: Sequence[float]) -> bool:
    return all(second > first for first, second in zip(levels, levels[1:], strict=False))


@pytest.mark.parametrize(
    ("way", "changes"),
    [
        ("slits", SLITS),
        ("bridges", ((FURNITURE, "height: 500, fixed_to: [quiet, body],"),)),
        ("soft mounts", ((STIFFNESS, "static_stiffness: 5000 N/mm"),)),
        ("edges of the dividing wall", (("edge_gap: 0..0.3 mm", "edge_gap: 2 mm"),)),
        ("wheel boxes", ((BOXES, "  wheel_boxes_present: no"),)),
        ("damping of the skin", ((f"        - {{damping: {DAMPING}}}\n", ""),)),
    ],
)
def test_leaving_a_way_out_of_the_file_changes_a_verdict(way: str, changes: tuple[tuple[str, str], ...]) -> None:
    assert largest_change(core_of(edited(DEMO, *changes))) > COUNTS, way


@pytest.fixture
def nothing_remembered() -> Iterator[None]:
    """Sound computed anew, and nothing of it left for other tests: what is replaced here is no input of a build."""
    core_of(DEMO)
    core_of(BOOTH)
    heard.forget()
    yield
    heard.forget()


@pytest.mark.usefixtures("nothing_remembered")
def test_leaving_the_gap_out_of_the_computation_changes_a_verdict(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sound, "gap_links", lambda *_: [])
    assert largest_change(couple(build_of(DEMO))) > COUNTS


@pytest.mark.usefixtures("nothing_remembered")
def test_leaving_the_skin_out_of_the_computation_changes_a_verdict(monkeypatch: pytest.MonkeyPatch) -> None:
    """In the booth, whose control room is lined least; in the demo two linings leave next to nothing of this way."""
    with_skin = value_of(BOOTH, "rooms/record")
    monkeypatch.setattr(sound, "flanking_links", lambda *_: [])
    assert couple(build_of(BOOTH)).quantities["rooms/record"].value > with_skin + COUNTS


@pytest.mark.usefixtures("nothing_remembered")
def test_leaving_the_mounts_out_of_the_computation_changes_a_verdict(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sound, "mount_link", lambda *_: None)
    assert largest_change(couple(build_of(DEMO))) > COUNTS


def slit_between(*changes: tuple[str, str]) -> float:
    return paths_between(edited(DEMO, *changes))["window, slit at its seals"].level_a


def test_a_wider_slit_is_louder() -> None:
    assert rising([slit_between(("residual_gap: 0..0.1 mm", f"residual_gap: {gap} mm")) for gap in (0.1, 0.3, 1.0)])


def test_a_longer_slit_is_louder_as_its_length() -> None:
    wide = ("residual_gap: 0..0.1 mm", "residual_gap: 0.6 mm")
    longer = ("    width: 740\n    height: 560\n", "    width: 1036\n    height: 400\n")  # the same area
    way_out = ("clear_height: 520", "clear_height: 360")
    hinges = ("hinge_spacing: 440", "hinge_spacing: 280")
    gain = slit_between(wide, longer, way_out, hinges) - slit_between(wide)
    lap = 30  # the seals run midway over a frame of 30 mm, on either side
    assert gain == pytest.approx(10.0 * np.log10((1036 + 400 + 2 * lap) / (740 + 560 + 2 * lap)), abs=0.1)


def test_a_second_row_of_seals_keeps_sound_out() -> None:
    wide = ("residual_gap: 0..0.1 mm", "residual_gap: 0.3 mm")
    single = ("rows: 2, residual_gap: 0..0.1 mm", "rows: 1, residual_gap: 0.3 mm")
    assert slit_between(single) > slit_between(wide)


def test_slits_of_the_vehicles_doors_and_of_the_quiet_door_let_sound_round_the_gap() -> None:
    def around(*changes: tuple[str, str]) -> float:
        return paths_to_quiet(edited(DEMO, *changes), QUAY)["round the gap"].level_a

    vehicle = ("residual_gap: 0.05..0.3 mm", "residual_gap: 1 mm")
    lobby = ("residual_gap: 0..0.15 mm", "residual_gap: 1 mm")
    assert around() < around(vehicle) < around(vehicle, lobby)


@pytest.mark.parametrize("kind", ["kind: point, number: {}", "kind: line, spacing: {}"])
def test_more_bridges_are_louder(kind: str) -> None:
    few_to_many = (4, 16, 64) if "point" in kind else (1200, 600, 300)
    texts = [
        edited(DEMO, (BEFORE_CEILING, f"      bridges: [{{{kind.format(amount)}}}]\n{BEFORE_CEILING}"))
        for amount in few_to_many
    ]
    assert rising([core_of(text).quantities["background/fair/record"].value for text in (DEMO, *texts)])


def test_a_springy_bridge_is_quieter_than_a_rigid_one() -> None:
    rigid, springy = (
        edited(DEMO, (BEFORE_CEILING, f"      bridges: [{{kind: point, number: 16{more}}}]\n{BEFORE_CEILING}"))
        for more in ("", ", stiffness: 50 N/mm")
    )
    assert rising([core_of(text).quantities["background/fair/record"].value for text in (springy, rigid)])


def test_softer_mounts_pass_less_above_their_resonance() -> None:
    texts = [edited(DEMO, (STIFFNESS, f"static_stiffness: {value} N/mm")) for value in (100, 200, 800)]
    passed = [at(paths_to_quiet(text, QUAY)["up through the mounts"], 125.0, 2000.0) for text in texts]
    assert np.all(np.diff(passed, axis=0) > 0.0)


def test_mounts_pressed_through_their_travel_pass_as_much_as_bolts() -> None:
    soft, bolted = (
        paths_to_quiet(edited(DEMO, (STIFFNESS, f"static_stiffness: {value} N/mm")), QUAY)["up through the mounts"]
        for value in (40, 100_000)
    )
    # From 5 kHz up waves inside a stiff mount still take some, at -8 dB and less, 60 dB under what is heard.
    assert np.asarray(soft.levels[:23]) == pytest.approx(np.asarray(bolted.levels[:23]), abs=0.5)


def test_a_deeper_space_over_the_wheel_boxes_is_quieter() -> None:
    levels = []
    for depth in (100, 60, 30):
        text = edited(DEMO, (BOX_CAVITY, f"{{cavity: {depth}, fill: rock wool 40 kg/m3}}\n"))
        levels.append(at(paths_to_quiet(text, QUAY)["quiet room wheel box left"], 200.0, 1000.0))
    assert np.all(np.diff(levels, axis=0) > 0.0)


def test_longer_wheel_boxes_pass_more() -> None:
    longer = edited(DEMO, (BOXES, BOXES.replace("rear: 3370", "rear: 3670")))
    assert rising([paths_to_quiet(text, QUAY)["quiet room wheel box left"].level_a for text in (DEMO, longer)])


def test_wool_in_the_gap_keeps_sound_from_going_round() -> None:
    bare = edited(DEMO, (WOOL, WOOL.replace("fill: rock wool 40 kg/m3, ", "")))
    half = edited(DEMO, (WOOL, WOOL.replace("40 kg/m3,", "40 kg/m3, fill_thickness: 45,")))
    around = [at(paths_to_quiet(text, QUAY)["round the gap"], 100.0, 1000.0) for text in (DEMO, half, bare)]
    assert np.all(np.diff(around, axis=0) > 0.0)


def test_a_wider_slit_round_the_dividing_wall_lets_more_round_the_gap() -> None:
    texts = [edited(DEMO, ("edge_gap: 0..0.3 mm", f"edge_gap: {gap} mm")) for gap in (0, 0.3, 1, 3)]
    assert rising([paths_between(text)["round the gap"].level_a for text in texts])


def test_damping_the_skin_more_keeps_sound_from_running_along_it() -> None:
    texts = [edited(DEMO, ("coverage: 55 %}", f"coverage: {share} %}}")) for share in (90, 55, 20)]
    for face in ("left", "ceiling"):
        along = [at(paths_between(text)[f"along the skin, {face}"], 100.0, 630.0) for text in texts]
        assert np.all(np.diff(along, axis=0) > 0.0)


def test_longer_bays_pass_less_along_the_skin() -> None:
    """Above the first bays' own modes, below where linings leave nothing; edges are where free waves radiate."""
    texts = [
        edited(DEMO, (RIBS, RIBS.replace("700", spacing)), (BOWS, BOWS.replace("700", spacing)))
        for spacing in ("1050", "700", "350")
    ]
    for face in ("left", "ceiling"):
        along = [at(paths_between(text)[f"along the skin, {face}"], 200.0, 630.0) for text in texts]
        assert np.all(np.diff(along, axis=0) > 0.0)


def test_a_fixing_between_inner_room_and_body_names_itself() -> None:
    text = edited(DEMO, (FURNITURE, "height: 500, fixed_to: [quiet, body],"))
    named = [name for name in paths_to_quiet(text, QUAY) if "fixed to both" in name]
    assert named == ["quiet room left, quiet furniture, fixed to both"]
