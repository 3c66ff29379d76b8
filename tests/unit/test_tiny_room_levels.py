"""What a room too small for a diffuse field makes of the power that comes in."""

import math

import numpy as np
import pytest
from tests.coupled import DEMO, build_of, core_of
from tests.plain_builds import plain_build

from hushwright.evaluation.mass.space import first_take
from hushwright.evaluation.sound.floor import floating_room
from hushwright.evaluation.sound.heard import setting_of
from hushwright.evaluation.sound.outside import outside_of
from hushwright.evaluation.sound.sound import Network, Standing, network_of, outside_levels, standing_in
from hushwright.evaluation.sound.ways import sum_levels
from hushwright.model.build import Build, Room
from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.rooms import crossover_frequency
from hushwright.physics.air import Air


def standing(build: Build) -> Standing:
    air = Air(build.brief.air_temperature)
    state = first_take(build)
    return standing_in(build, state, setting_of(build, air), floating_room(build, state, air))


def quiet_in(stands: Standing) -> Room:
    room = stands.build.room_for("quiet")
    assert room is not None
    return room


def by_absorption_alone(network: Network, room: Room, outside: dict[tuple[str, str], tuple[float, ...]]) -> np.ndarray:
    """L = L1 − R + 10 lg(S/A) for every way, as if the room were a reverberation chamber."""
    area = np.asarray(network.fields[room.name].absorption_area)
    energy = np.zeros(27)
    for link in network.links:
        walked = link if link.second == room.name else link.reversed()
        level = outside.get((walked.first, walked.first_face))
        if level is not None and walked.second == room.name:
            energy += 10.0 ** (np.asarray(level) / 10.0) * np.asarray(walked.through) / area
    return np.asarray(10.0 * np.log10(energy))


def against_absorption_alone(text: str) -> tuple[np.ndarray, float]:
    """Computed level less that of the plain formula [dB], and the crossover [Hz]."""
    stands = standing(build_of(text))
    room, build = quiet_in(stands), stands.build
    outside = outside_of(build, build.brief.situations[0])
    network = network_of(stands, outside)
    levels = outside_levels(build, outside, stands.setting)
    computed = np.asarray(sum_levels(network.arrivals(room, levels)))
    return computed - by_absorption_alone(network, room, levels), crossover_frequency(network.fields[room.name])


LOW = (
    "  outdoors:\n    - situation: lee\n      octaves: {hz_63: 80 dB, hz_125: 80 dB}\n      comes_from: right\n"
    "      limit: 35 dB(A)\n"
)


def leaf_of(mass: float) -> str:
    """Build whose left side is one limp leaf [kg/m²] of 5000 kg/m³, everything else heavy and hard."""
    return plain_build(LOW, left=f"        - {{limp: light sheet, thickness: {mass / 5.0}}}\n")


@pytest.mark.parametrize(("text", "wrong_by"), [(DEMO, 5.0), (leaf_of(40.0), 10.0)], ids=["demo", "hard room"])
def test_absorption_area_alone_would_be_wrong_below_the_crossover(text: str, wrong_by: float) -> None:
    """Ten decibels in a hard room; the demo's leaves give way in the bass and damp it, which leaves six."""
    difference, crossover = against_absorption_alone(text)
    assert np.max(np.abs(difference[crossover / math.sqrt(2.0) > FREQUENCIES])) > wrong_by
    assert np.max(np.abs(difference[crossover * math.sqrt(2.0) < FREQUENCIES])) < 0.05


@pytest.mark.parametrize("mass", [30.0, 40.0])
def test_below_its_first_mode_the_room_is_a_spring_behind_the_wall(mass: float) -> None:
    """By hand: p_in = p_blocked · K/(Z + K), K = ρc²S/(jωV), Z = jωm; Morse & Ingard, Theoretical Acoustics, ch. 9.

    The first mode of 2.4 m is at 72 Hz. A diffuse field of level L1 doubles its energy on a hard wall: + 3 dB.
    """
    found = core_of(leaf_of(mass)).backgrounds[0].levels
    area, volume = 2.4 * 1.94, 2.4 * 1.94 * (1.77 - mass / 5000.0)
    for band in (25.0, 31.5, 40.0):
        angular = 2.0 * math.pi * band
        spring, wall = 1.4 * 101_325.0 * area / (angular * volume), angular * mass
        blocked = 80.0 - 10.0 * math.log10(3.0) - 8.0 + 3.0
        expected = blocked + 20.0 * math.log10(spring / (wall - spring))
        # 1 dB: radiation of the finite sheet into the open, the third octave's width, the 3 % of the hard faces.
        assert found[THIRD_OCTAVE_BANDS.index(band)] == pytest.approx(expected, abs=1.0)
