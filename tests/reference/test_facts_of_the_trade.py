"""What every workshop knows, held against the coupled result. All of it: common practice, no source."""

import numpy as np
import pytest
from tests.coupled import DEMO, STILL, core_of, edited, evaluation_of, paths_to_quiet

from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.mechanics.insertion_loss import MountPath, floor_reduction_improvement
from hushwright.physics.mechanics.mobility import floating_floor_mobility

QUAY = "quay/record"
FURNITURE = "height: 500, fixed_to: [quiet], restraint:"
STATE = "    open: [side_door]\n"


def energy(levels: tuple[float, ...]) -> np.ndarray:
    return np.asarray(10.0 ** (np.asarray(levels) / 10.0))


def lowest_double_wall_resonance(face: str) -> float:
    return min(
        each.frequency
        for each in evaluation_of(DEMO).resonances
        if each.surface == face and each.kind == "mass-air-mass"
    )


def test_a_rigid_fixing_costs_isolation_above_twice_the_double_wall_resonance_and_little_below_it() -> None:
    """Common practice, no source."""
    text = edited(DEMO, (FURNITURE, "height: 500, fixed_to: [quiet, body], restraint:"))
    paths = paths_to_quiet(text, QUAY)
    wall = energy(paths["quiet room left"].levels)
    tied = wall + energy(paths["quiet room left, quiet furniture, fixed to both"].levels)
    loss = 10.0 * np.log10(tied / wall)
    resonance = lowest_double_wall_resonance("quiet_room.left")
    assert np.all(loss[(4.0 * resonance < FREQUENCIES) & (FREQUENCIES < 2500.0)] > 6.0)
    assert np.all(loss[resonance > FREQUENCIES] < 1.0)


def test_the_double_wall_is_worse_than_its_leaves_as_one_at_its_resonance_and_far_better_well_above() -> None:
    """Common practice, no source."""
    face = next(each for each in evaluation_of(DEMO).faces if each.name == "quiet_room.left")
    resonance = lowest_double_wall_resonance("quiet_room.left")
    mass_law = 20.0 * np.log10(np.pi * FREQUENCIES * face.surface_density / 413.0) - 5.0
    gain = np.asarray(face.reduction) - mass_law
    at_resonance = (resonance / 1.3 < FREQUENCIES) & (resonance * 1.3 > FREQUENCIES)
    assert np.min(gain[at_resonance]) < 0.0
    assert np.min(gain[(5.0 * resonance < FREQUENCIES) & (FREQUENCIES < 2000.0)]) > 10.0


def test_a_door_that_stands_open_is_as_good_as_none() -> None:
    """L = L_outside + 10 lg(S/A), ISO 12354-3 with R = 0: a hole of one square metre into a room that absorbs six."""
    text = edited(DEMO, (STATE, STATE.replace("[side_door]", "[quiet_door, rear_doors]")))
    quantities = core_of(text).quantities
    closed, open_ = (
        quantities["background/quay/record"].value,
        quantities["background/quay/record_side_door_open"].value,
    )
    outside = 54.0  # dB(A), sum of the demo's octaves by hand
    assert closed < outside - 15.0
    assert open_ == pytest.approx(outside + 10.0 * np.log10(0.62 * 1.62 / 6.0), abs=2.0)


def test_an_open_door_of_the_next_room_is_heard_through_the_wall_between() -> None:
    """Common practice, no source. Fans at rest, so that both states hear the same outdoors alone."""
    quantities = core_of(STILL).quantities
    for name in ("quay", "fair"):
        closed, open_ = (
            quantities[f"background/{name}/{state}"].value for state in ("record", "record_side_door_open")
        )
        assert closed < open_ < closed + 15.0


def test_a_soft_floor_passes_less_than_a_bolted_one_well_above_its_resonance() -> None:
    """Common practice, no source."""
    mounts = next(each for each in core_of(DEMO).mounts if each.state == "record")
    improvement = np.asarray(mounts.improvement)
    assert np.all(improvement[10.0 * mounts.with_air < FREQUENCIES] > 0.0)
    assert np.max(improvement) > 10.0


def test_a_floor_on_rubber_harms_at_its_resonance_and_helps_well_above_it() -> None:
    """Common practice, no source. Twelve mounts of the demo's kind on a base that hardly gives way."""
    stiffness, mass = 12 * 182e3, 744.0
    resonance = np.sqrt(stiffness / mass) / (2.0 * np.pi)
    frequency = resonance * np.array([0.3, 1.0, 2.0, 5.0])
    floor = floating_floor_mobility(mass, 12, 3.0, 1500.0, 25.0, frequency)
    gain = floor_reduction_improvement(MountPath(182e3, 0.07), 12, 1e-6, floor, frequency)
    assert abs(gain[0]) < 1.5
    assert gain[1] < -6.0
    assert gain[2] > 3.0
    assert gain[3] > 20.0


def test_a_hole_of_a_few_square_centimetres_to_the_street_spoils_the_voice_bands() -> None:
    """Common practice, no source."""
    hole = (
        "  hole: {kind: hole, face: quiet_room.left, diameter: 30, depth: 100, filled: open, sill: 500, offset: 3000}\n"
    )
    spoilt = next(
        each for each in core_of(edited(STILL, ("openings:\n", f"openings:\n{hole}"))).backgrounds if each.key == QUAY
    )
    sound = next(each for each in core_of(STILL).backgrounds if each.key == QUAY)
    rise = np.asarray(spoilt.levels) - np.asarray(sound.levels)
    assert np.min(rise[(FREQUENCIES > 900.0) & (FREQUENCIES < 4500.0)]) > 6.0


def test_bass_comes_in_where_voices_do_not() -> None:
    """Common practice, no source: a room in a van keeps speech out long before it keeps out bass."""
    found = next(each for each in core_of(DEMO).backgrounds if each.key == QUAY)
    kept_out = np.asarray(found.outside) - np.asarray(found.levels)
    assert np.max(kept_out[FREQUENCIES < 160.0]) < np.min(kept_out[(FREQUENCIES > 450.0) & (FREQUENCIES < 4500.0)])
