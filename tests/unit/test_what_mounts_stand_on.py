"""Mounts stand over a member of the vehicle's floor or on bare sheet; found in a review."""

from pathlib import Path

import numpy as np
import pytest
from tests.coupled import DEMO, build_of, core_of, edited, library

from hushwright.document.read import read_document_text
from hushwright.errors import Diagnostic
from hushwright.evaluation.sound.floor import base_mobility
from hushwright.model.parts import MOUNT_PAD
from hushwright.model.resolve import resolve
from hushwright.physics.acoustics.bands import FREQUENCIES

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))

STIFFNESS = ("static_stiffness: {is: 130 N/mm, from: supplier, plus_minus: 15 %}", "static_stiffness: 1300 N/mm")


def standing(on: str, *more: tuple[str, str]) -> str:
    return edited(DEMO, ("stands_on: cross-member", f"stands_on: {on}"), *more)


def mobility(on: str) -> np.ndarray:
    build = build_of(standing(on))
    quiet = build.room_for("quiet")
    assert quiet is not None
    floor = quiet.surface("floor")
    assert floor is not None
    return np.abs(base_mobility(floor, build.vehicle, build.mounts[0].stands_on))


def test_a_member_of_the_floor_gives_way_less_than_the_sheet_between() -> None:
    """Common practice, no source; in the mean over an octave, since a bay of sheet has its own modes."""
    octaves = {on: np.log10(mobility(on)).reshape(9, 3).mean(axis=1) for on in ("cross-member", "rib", "sheet")}
    assert np.all(octaves["cross-member"] < octaves["rib"])
    assert np.all(octaves["rib"][1:] < octaves["sheet"][1:])


def test_bare_sheet_is_in_the_mean_as_mobile_as_an_endless_one() -> None:
    """1/(8 √(B m)) above the first modes of a bay: Cremer, Heckl and Petersson, Structure-Borne Sound, ch. 5."""
    build = build_of(DEMO)
    quiet = build.room_for("quiet")
    assert quiet is not None
    floor = quiet.surface("floor")
    assert floor is not None
    sheet = build.vehicle.skin
    bending = sheet.youngs_modulus.value * build.vehicle.skin_thickness**3 / (12.0 * (1.0 - sheet.poisson.value**2))
    mass = sum(layer.surface_density for layer in floor.outer_leaf)
    endless = 1.0 / (8.0 * np.sqrt(bending * np.sqrt(build.vehicle.beading) * mass))
    found = np.median(mobility("sheet")[FREQUENCIES > 500.0])
    assert abs(20.0 * np.log10(found / endless)) < 3.0


def test_mounts_gain_less_on_bare_sheet() -> None:
    on_member, on_sheet = (np.asarray(core_of(standing(on)).mounts[0].improvement) for on in ("cross-member", "sheet"))
    assert np.all(np.cumsum(on_member - on_sheet)[3:] > 0.0)


def test_a_floor_harms_where_it_resonates() -> None:
    """Common practice, no source: at 28 Hz, on a cross-member."""
    assert min(core_of(standing("cross-member", STIFFNESS)).mounts[0].improvement[:4]) < -0.5


def test_what_mounts_stand_on_is_assumed_where_nobody_says() -> None:
    unsaid = edited(DEMO, ("    stands_on: cross-member\n", ""))
    told = [each.text for each in build_of(unsaid).assumptions if each.path.endswith("stands_on")]
    assert told == ["mounts stand over a cross-member of the vehicle's floor"]
    assert not [each for each in build_of(standing("rib")).assumptions if each.path.endswith("stands_on")]


def beyond_bearers(text: str) -> list[Diagnostic]:
    document, _ = read_document_text(text, "van.yaml")
    assert document is not None
    return [each for each in resolve(document, library())[1] if each.reference == "mount-beyond-bearer"]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_every_mount_of_an_example_stands_under_its_bearer_with_its_whole_pad(example: Path) -> None:
    assert beyond_bearers(example.read_text(encoding="utf-8")) == []


def test_a_pad_that_hangs_out_is_told_with_how_far_to_move_it_in() -> None:
    """Plain sums: boxes 1350 apart are lined with 60 + 9 + 1 + 6 each, so that a bearer ends 599 from the middle."""
    (told,) = beyond_bearers(edited(DEMO, ("    inset: 105\n", "    inset: 80\n")))
    assert told.severity == "warning"
    assert told.place.path == ("mounts", "under_floor", "inset")
    assert told.value == "595 mm from the middle"
    assert "4 mounts hang out" in told.note  # two rows of four lie between the boxes
    assert f"{595 + 1000 * MOUNT_PAD / 2 - 599:.0f} mm" in told.note
    (mend,) = told.mends
    assert (mend.path, round(mend.length, 6)) == (("mounts", "under_floor", "inset"), 0.101)
    moved = edited(DEMO, ("    inset: 105\n", f"    inset: {1000 * mend.length:g}\n"))
    assert beyond_bearers(moved) == []


def test_a_single_mount_that_hangs_out_is_told_at_its_own_place() -> None:
    at = [(1900, 570), (1900, -570), (2600, 570), (2600, -590), (3900, 570), (3900, -570)]
    places = ", ".join(f"{{station: {station}, offset: {offset}}}" for station, offset in at)
    rows = "    along: 4\n    across: 3\n    inset: 105\n"
    (told,) = beyond_bearers(edited(DEMO, (rows, f"    places: [{places}]\n")))
    assert told.place.path == ("mounts", "under_floor", "places", 3, "offset")
    assert "one mount hangs out" in told.note
    assert [round(each.length, 6) for each in told.mends] == [-0.574]
