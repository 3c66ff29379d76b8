"""Sound along the skin past the dividing wall: EN ISO 12354-1 with the lining of each side; found in a review."""

import numpy as np
import pytest
from tests.coupled import DEMO, build_of

from hushwright.evaluation.sound.faces import outer_partition, predict, surface_partition
from hushwright.evaluation.sound.flank import flanking_links
from hushwright.evaluation.sound.heard import setting_of
from hushwright.evaluation.sound.links import Link
from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.air import Air


def along(text: str, face: str = "left") -> Link:
    build = build_of(text)
    links = flanking_links(build, setting_of(build, Air(20.0)))
    return next(each for each in links if each.first_face == face)


def test_each_side_counts_the_whole_of_its_lining() -> None:
    """R_ij = (R_i + R_j)/2 + ΔR_i + ΔR_j + D_v + …: what is left without both ΔR is the same skin all over."""
    build = build_of(DEMO)
    setting = setting_of(build, Air(20.0))
    rest = []
    for face in ("left", "right"):
        linings = np.zeros(27)
        for room in build.rooms:
            surface = room.surface(face)
            assert surface is not None
            lined = predict(surface_partition(surface, setting), setting)
            linings += np.asarray(lined.reduction) - np.asarray(
                predict(outer_partition(surface, setting), setting).reduction
            )
        rest.append(np.asarray(along(DEMO, face).reduction) - linings)
    assert rest[0][:10] == pytest.approx(rest[1][:10], abs=0.5)
    assert np.all(rest[0][:10] > 15.0)  # a bare damped sheet by its free waves alone, and what the ribs hold
    assert np.all(rest[0][:10] < 60.0)


def test_the_way_along_the_skin_does_not_end_at_a_band() -> None:
    """From band to band it gets weaker by a dozen decibels at most, up to where nothing is left to count."""
    reduction = np.asarray(along(DEMO).reduction)
    counted = reduction < 140.0
    assert np.count_nonzero(counted) >= 15
    assert np.max(np.abs(np.diff(reduction[counted]))) < 17.0


def test_a_bare_skin_still_passes_sound_along_itself_at_its_coincidence() -> None:
    """Above the coincidence of its stiff direction free and forced waves are the same: the whole of R counts."""
    bare = _without_linings()
    reduction = np.asarray(along(bare).reduction)
    assert np.all(reduction < 90.0)
    assert FREQUENCIES[int(np.argmin(reduction[18:])) + 18] > 2000.0


def _without_linings() -> str:
    """Both left sides of the demo as bare skin with its pads."""
    lines, skipping, found = DEMO.split("\n"), False, []
    for line in lines:
        if line.startswith("    left:"):
            skipping = True
            found += ["    left:", "      layers:", "        - skin: body"]
            continue
        if skipping and line.startswith(("    ", "   ")) and not (line[:4] == "    " and line[4:5].strip()):
            continue
        skipping = False
        found.append(line)
    return "\n".join(found)
