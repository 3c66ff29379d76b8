"""Every section of the build file says what cannot be, where, and what to do; all at once and in file order."""

import pytest
from tests.coupled import DEMO, edited, library
from tests.plain_builds import plain_build, two_rooms
from tests.unit.impossible_builds import IMPOSSIBLE, REMARKS

from hushwright.document.read import read_document_text
from hushwright.errors import Diagnostic
from hushwright.model.build import Build
from hushwright.model.resolve import resolve


def resolved(text: str) -> tuple[Build | None, tuple[Diagnostic, ...]]:
    document, problems = read_document_text(text, "van.yaml")
    assert document is not None, problems
    assert not problems, problems
    return resolve(document, library())


def only(text: str, reference: str) -> Diagnostic:
    """The one problem of a kind in a file."""
    _, found = resolved(text)
    named = [each for each in found if each.reference == reference]
    assert named, [f"{each.reference}: {each.note}" for each in found]
    return named[0]


@pytest.mark.parametrize(
    ("change", "reference", "path"),
    [row[1:] for row in IMPOSSIBLE if row[2]],
    ids=[row[0] for row in IMPOSSIBLE if row[2]],
)
def test_what_cannot_be_is_told_at_its_place(change: tuple[str, str], reference: str, path: str) -> None:
    text = edited(DEMO, change)
    found = only(text, reference)
    assert found.place.dotted == path
    assert found.place.line > 0
    assert found.value
    assert found.note
    assert found.severity == "error"
    assert resolved(text)[0] is None


@pytest.mark.parametrize(
    "change", [row[1] for row in IMPOSSIBLE if not row[2]], ids=[row[0] for row in IMPOSSIBLE if not row[2]]
)
def test_other_impossible_files_are_refused_or_resolved_but_never_break(change: tuple[str, str]) -> None:
    build, found = resolved(edited(DEMO, change))
    assert (build is None) == any(each.severity == "error" for each in found)


@pytest.mark.parametrize(("change", "reference", "path"), [row[1:] for row in REMARKS], ids=[row[0] for row in REMARKS])
def test_what_is_odd_is_remarked_and_still_built(change: tuple[str, str], reference: str, path: str) -> None:
    text = edited(DEMO, change)
    if reference == "several-rooms":
        text = text.replace("fixed_to: [control]", "fixed_to: [body]").replace("[quiet, control]", "[quiet, body]")
    found = only(text, reference)
    assert found.place.dotted == path
    assert found.severity == "warning"
    assert resolved(text)[0] is not None


def test_the_demo_has_no_problem() -> None:
    assert resolved(DEMO)[1] == ()


def test_names_nearly_right_are_answered_with_the_right_ones() -> None:
    assert "quiet_room" in only(edited(DEMO, ("face: quiet_room.rear", "face: quit_room.rear")), "unknown-name").hint
    assert "birch plywood" in only(edited(DEMO, ("birch plywood, thickness: 9}", "birch plywod, thickness: 9}")),
                                   "unknown-record").hint  # fmt: skip
    assert "side_door" in only(edited(DEMO, ("open: [side_door]", "open: [sidedoor]")), "unknown-name").hint


def test_all_problems_come_at_once_in_the_order_of_the_file() -> None:
    text = edited(
        DEMO,
        ("open: [side_door]", "open: [x]"),
        ("limit: NC 25", "limit: loud"),
        ("behind: rear_doors", "behind: x"),
        ("rear_axle: 2850", "rear_axle: unknown"),
        ("absorber: rock wool 60 kg/m3", "absorber: x"),
    )
    _, found = resolved(text)
    assert len(found) == 4
    assert [each.place.line for each in found] == sorted(each.place.line for each in found)


def test_a_problem_of_a_shared_build_up_is_told_once() -> None:
    _, found = resolved(edited(DEMO, ("{cavity: 93,", "{cavity: 45,")))
    assert [each.reference for each in found].count("space-shallower-than-ribs") == 1


def test_a_quiet_room_without_any_build_up_is_remarked() -> None:
    text = plain_build()
    bare = text[: text.index("surfaces:")] + text[text.index("states:") :]
    build, found = resolved(bare)
    assert build is not None
    assert "quiet-room-bare" in {each.reference for each in found}


def test_a_build_without_a_room_is_remarked_and_built() -> None:
    head = DEMO[: DEMO.index("rooms:\n")]
    text = head[: head.index("  session:")] + head[head.index("\nvehicle:") :] + "tolerances: {mass: 5 %}\n"
    build, found = resolved(text)
    assert build is not None
    assert [each.reference for each in found if not each.place.dotted.startswith("brief.")] == ["no-room"]


def test_rooms_without_a_wall_between_are_told() -> None:
    text = two_rooms().replace("    front:\n      layers:\n        - {limp: heavy sheet, thickness: 30}\n", "", 1)
    assert only(text, "no-wall-between").place.dotted == "surfaces.quiet_room.front"


def test_a_fitting_on_a_room_that_is_not_there_is_told() -> None:
    rest = "fittings:\n  - {name: desk, mass: 10 kg, station: 1000, fixed_to: [control]}\n"
    assert "control" in only(plain_build(rest=rest), "unknown-name").note
