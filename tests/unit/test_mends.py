"""What does not fit is told with one length that settles it, and setting that length does."""

import pytest
from tests.coupled import DEMO, edited
from tests.unit.impossible_builds import IMPOSSIBLE
from tests.unit.test_model_diagnostics import resolved

from hushwright.document.edits import bare_unit, written_length
from hushwright.document.outline import outline
from hushwright.document.parts import set_deep
from hushwright.errors import Diagnostic, Mend

SETTLED = ("no-room-in-box", "bend-too-tight", "room-outside-vehicle", "rooms-overlap", "room-too-short",
           "layers-too-thick", "space-shallower-than-ribs", "fill-too-thick", "opening-outside-face",
           "openings-overlap", "mount-outside-floor", "snubber-beyond-mount")  # fmt: skip
CASES = {reference: change for name, change, reference, _ in IMPOSSIBLE
         if reference in SETTLED and name != "surfaces: sides that meet"}  # fmt: skip


def mended(text: str, mend: Mend) -> str:
    """The text with a length set as the screen sets it."""
    entry = outline(text).find(mend.path)
    return set_deep(text, mend.path, written_length(mend.length, entry.text if entry else "", bare_unit(text)))


def stuck(found: tuple[Diagnostic, ...]) -> set[tuple[str, tuple[str | int, ...]]]:
    return {(one.reference, one.place.path) for one in found if one.severity == "error"}


@pytest.mark.parametrize(("reference", "change"), CASES.items(), ids=CASES)
def test_each_mend_settles_the_problem_that_it_is_told_for(reference: str, change: tuple[str, str]) -> None:
    text = edited(DEMO, change)
    with_mends = [one for one in resolved(text)[1] if one.mends and one.reference == reference]
    assert with_mends
    for one in with_mends:
        for mend in one.mends:
            assert f"{mend.says} {1000.0 * mend.length:.10g} mm" in one.hint
            assert (one.reference, one.place.path) not in stuck(resolved(mended(text, mend))[1]), mend


def test_a_taller_floor_is_answered_by_the_sill_that_the_door_then_needs() -> None:
    text = edited(DEMO, ("bearer_depth: 25", "bearer_depth: 75"))
    (one,) = (each for each in resolved(text)[1] if each.reference == "opening-outside-face")
    assert one.place.dotted == "openings.quiet_door"
    assert "131 mm" in one.note  # 81 mm of the demo's floor and 50 mm more
    assert one.mends[0] == Mend("raise the sill of quiet door to", ("openings", "quiet_door", "sill"), 0.131)
    assert one.place.path not in {path for _, path in stuck(resolved(mended(text, one.mends[0]))[1])}


@pytest.mark.parametrize(
    ("change", "told"),
    [(("sill: 90", "sill: 400"), "reaches above the rear of"), (("bearer_depth: 25", "bearer_depth: 75"), "below"),
     (("width: 620", "width: 1620"), "past the sides of the rear of")],
)  # fmt: skip
def test_an_opening_is_told_by_the_edge_that_it_passes(change: tuple[str, str], told: str) -> None:
    (one,) = (each for each in resolved(edited(DEMO, change))[1]
              if each.reference == "opening-outside-face" and each.place.dotted == "openings.quiet_door")  # fmt: skip
    assert told in one.note
    assert "beyond" not in one.note
