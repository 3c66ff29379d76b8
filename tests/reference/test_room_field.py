"""The level in a tiny room against closed forms: spring of air, closed tube, diffuse field."""

import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.modal_coupling import radiation_factor_forced
from hushwright.physics.acoustics.radiation import radiation_factor
from hushwright.physics.acoustics.room_field import path_gain, source_gain
from hushwright.physics.acoustics.rooms import (
    FaceOnRoom,
    PointSource,
    RoomField,
    crossover_frequency,
    reverberation_times,
)
from hushwright.physics.air import Air

TABLE = tomllib.loads((Path(__file__).parent / "tables" / "room_examples.toml").read_text(encoding="utf-8"))
AIR = Air()
SECTION = ((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9))


def booth(absorption_area, length=2.25, section=SECTION):
    return RoomField(section, length, (float(absorption_area),) * 27, AIR)


def test_crossover_is_the_frequency_schroeder_prints():
    """Kuttruff, Room Acoustics: V = 200 m³, T = 1.0 s gives 140 Hz (141.4 by the formula)."""
    example = TABLE["schroeder"]
    area = 24.0 * math.log(10.0) * example["volume_m3"] / (AIR.speed_of_sound * example["rt_s"])
    room = RoomField(((0.0, 0.0), (8.0, 0.0), (8.0, 5.0), (0.0, 5.0)), 5.0, (area,) * 27, AIR)
    assert float(reverberation_times(room)[0]) == pytest.approx(example["rt_s"])
    assert crossover_frequency(room) == pytest.approx(example["f_hz_printed"], abs=2.0)


@pytest.mark.parametrize("reduction", [3.0, 20.0, 50.0])
def test_below_the_first_mode_the_room_is_a_spring(reduction):
    """methods.md section 1: p_in/p_blocked = K/(Z_w + K), K = ρc²S/(jωV); cube of 0.25 m at 25 Hz."""
    side, band, frequency = 0.25, 0, 25.1189
    room = RoomField(((0.0, 0.0), (side, 0.0), (side, side), (0.0, side)), side, (1e-4,) * 27, AIR)
    gain = path_gain(room, FaceOnRoom("edge", 0, side**2), (reduction,) * 27).gain[band]
    # By hand: a blocked pressure of 1 Pa is a diffuse field of ½ Pa², which brings S·½/(4ρc) watts.
    rho_c = AIR.density * AIR.speed_of_sound
    k = 2.0 * math.pi * frequency / AIR.speed_of_sound
    radiation = k**2 * side**2 / (2.0 * math.pi)  # small piston in a wall
    tau = 10.0 ** (-reduction / 10.0)
    wall = rho_c * math.sqrt(8.0 * radiation / tau)
    spring = AIR.density * AIR.speed_of_sound**2 * side**2 / (2.0 * math.pi * frequency * side**3)
    inside_squared = (spring / (wall - spring)) ** 2  # wall a mass (+j), room a spring (−j)
    radiated = tau * side**2 * 0.5 / (4.0 * rho_c)
    assert gain == pytest.approx(10.0 * math.log10(inside_squared / (radiated * rho_c)), abs=0.25)


def test_closed_tube_driven_at_its_end_has_the_level_of_its_standing_wave():
    """⟨p²⟩ = (ρ c v)²·½(1 + sin 2kL/2kL)/sin² kL for a rigid tube, closed form; bands clear of the resonances."""
    side, length = 0.3, 2.25
    room = RoomField(((0.0, 0.0), (side, 0.0), (side, side), (0.0, side)), length, (5e-3,) * 27, AIR)
    gain = path_gain(room, FaceOnRoom("end_front", None, side**2), (60.0,) * 27).gain
    for band in (0, 1, 2, 3, 6):
        middle = FREQUENCIES[band]
        frequency = np.linspace(middle * 10**-0.05, middle * 10**0.05, 400)
        k = 2.0 * np.pi * frequency / AIR.speed_of_sound
        standing = 0.5 * (1.0 + np.sin(2 * k * length) / (2 * k * length)) / np.sin(k * length) ** 2
        radiation = radiation_factor_forced(k, (side, side))
        exact = 10.0 * math.log10(float(np.mean(standing / (side**2 * radiation))))
        assert gain[band] == pytest.approx(exact, abs=0.2)


def test_statistics_alone_are_ten_decibels_wrong_below_schroeder():
    """methods.md section 1: 10 lg(4/A) below Schroeder is wrong by about ten decibels; above, both agree."""
    for absorption_area in (2.0, 5.0):
        room = booth(absorption_area)
        gain = path_gain(room, FaceOnRoom("edge", 1, 1.9 * 2.25), (35.0,) * 27)
        error = np.asarray(gain.gain) - 10.0 * math.log10(4.0 / absorption_area)
        start = crossover_frequency(room)
        assert np.max(np.abs(error[0.5 * start > FREQUENCIES])) > 4.0
        assert np.ptp(error[0.5 * start > FREQUENCIES]) > 9.0
        assert np.max(np.abs(error[1.42 * start < FREQUENCIES])) < 1e-6


def test_modal_sum_reaches_the_diffuse_field_by_itself():
    """Nothing forces the sum to meet 10 lg(4/A): within 1.5 dB in the octave under the crossover."""
    room = booth(2.0)
    for face in (
        FaceOnRoom("edge", 1, 1.9 * 2.25),
        FaceOnRoom("edge", 2, 1.6 * 2.25),
        FaceOnRoom("end_rear", None, 1.6 * 1.9),
        FaceOnRoom("end_rear", None, 1.0),
    ):
        gain = np.asarray(path_gain(room, face, (35.0,) * 27).gain)
        below = np.abs(np.log2(FREQUENCIES / crossover_frequency(room)) + 0.5) < 0.5
        assert np.abs(gain[below] - 10.0 * math.log10(2.0)).max() < 1.5


def test_forced_radiation_is_the_mean_over_directions_of_the_exact_factor():
    """Second opinion: the finite radiation factor of methods.md section 1, averaged over the half space."""
    cosine, weight = np.polynomial.legendre.leggauss(24)
    cosine, weight = 0.5 * (cosine + 1.0), 0.5 * weight
    for k in (0.3, 1.0, 3.0, 6.0):
        by_angle = radiation_factor(np.full(cosine.shape, k), cosine, 2.25, 1.9, exact=True)
        mine = float(radiation_factor_forced(np.array([k]), (2.25, 1.9))[0])
        assert mine == pytest.approx(float(weight @ by_angle), rel=0.01)


def test_source_room_is_a_spring_below_its_first_mode():
    """⟨p²⟩ = (Q ρc²/(ωV))² with Q² = 4πW/(ρ c k²), by hand for 25 Hz in a cube of 1 m."""
    room = RoomField(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)), 1.0, (1e-3,) * 27, AIR)
    gain = source_gain(room, PointSource((0.4, 0.5, 0.5)), FaceOnRoom("end_rear", None, 1.0))
    k = 2.0 * math.pi * 25.1189 / AIR.speed_of_sound
    expected = 10.0 * math.log10(4.0 * math.pi / k**4)  # over ρ c W, V = 1 m³
    assert gain.space_mean[0] == pytest.approx(expected, abs=0.3)
    assert gain.at_face[0] == pytest.approx(expected - 3.01, abs=0.4)


def test_source_room_is_statistical_above_schroeder():
    """Lp = Lw + 10 lg(4/A) (Kuttruff, Room Acoustics, ch. 5); the direct wave raises the face near the source."""
    room = booth(3.0)
    face = FaceOnRoom("end_rear", None, 1.6 * 1.9)
    spread_out = source_gain(room, None, face)
    near = source_gain(room, PointSource((2.0, 0.8, 1.0)), face)
    assert spread_out.space_mean[20] == pytest.approx(10.0 * math.log10(4.0 / 3.0))
    assert near.at_face[20] > spread_out.at_face[20]
