"""What the rating and criteria functions refuse, and what they say with a result."""

import math

import numpy as np
import pytest

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.absorption_air import air_absorption_area, air_attenuation
from hushwright.physics.acoustics.criteria import (
    earphone_attenuation,
    hearing_test_limits,
    noise_criterion,
    noise_criterion_limits,
    noise_rating,
    noise_rating_limits,
)
from hushwright.physics.acoustics.hearing import audibility, threshold_of_hearing
from hushwright.physics.acoustics.level_differences import (
    apparent_sound_reduction_index,
    standardized_level_difference,
)
from hushwright.physics.acoustics.outdoors import (
    Shadow,
    diffuse_equivalent_level,
    face_levels,
    level_at_distance,
    pressure_rise,
    segment_sound_power,
    spreading_in_front,
)
from hushwright.physics.acoustics.published import published_row
from hushwright.physics.acoustics.rain import drop_force, radiated_per_force, rain_sound_power
from hushwright.physics.acoustics.ratings import (
    absorption_rating,
    rate,
    weighted_level_difference,
    weighted_sound_reduction_index,
)
from hushwright.physics.acoustics.reverberation import (
    eyring_reverberation_time,
    level_in_room,
    sabine_reverberation_time,
    schroeder_frequency,
)
from hushwright.physics.acoustics.spectra import (
    complete_thirds,
    octaves_to_thirds,
    pink_noise,
    rating_spectrum,
    spectrum_with_level,
    speech_levels,
    speech_sound_power,
)
from hushwright.physics.acoustics.weighting import a_weighted_level, a_weighting

FLAT = [30.0] * 27
SHADOW = Shadow(3.0, 10.0, 5.0, 8.0)
REFUSED = {
    "curve of 20 bands": lambda: rate([30.0] * 20),
    "curve that starts at 100 Hz": lambda: rate([math.nan] * 3 + [30.0] * 18),
    "six absorption values": lambda: absorption_rating([0.5] * 6),
    "negative absorption": lambda: absorption_rating([-0.1, 0.5, 0.5, 0.5, 0.5]),
    "frequency zero": lambda: a_weighting([0.0]),
    "A-weighted level of octaves": lambda: a_weighted_level([30.0] * 9),
    "threshold at 20 Hz": lambda: threshold_of_hearing([20.0]),
    "audibility of octaves": lambda: audibility([30.0] * 9, 1.0),
    "negative uncertainty": lambda: audibility(FLAT, -1.0),
    "NC of eight octaves": lambda: noise_criterion([30.0] * 8),
    "NC from 16 kHz up": lambda: noise_criterion(FLAT, lowest_band=16000),
    "NC 5": lambda: noise_criterion_limits(5),
    "NR from 16 kHz up": lambda: noise_rating(FLAT, lowest_band=16000),
    "NR -5": lambda: noise_rating_limits(-5),
    "margins of octaves to thirds": lambda: hearing_test_limits().margins([30.0] * 9),
    "unknown transducer": lambda: hearing_test_limits("headset"),
    "bone conduction from 500 Hz": lambda: hearing_test_limits("bone", lowest_tone=500),
    "3 dB of error": lambda: hearing_test_limits(uncertainty=3),
    "attenuation of bone conduction": lambda: earphone_attenuation("bone"),
    "unknown rating spectrum": lambda: rating_spectrum("white"),
    "unknown spectrum of a term": lambda: weighted_level_difference(FLAT, spectrum="white"),
    "no reverberation": lambda: standardized_level_difference(40.0, 0.0),
    "wall without area": lambda: apparent_sound_reduction_index(40.0, 0.0, 1.0),
    "unknown row": lambda: published_row("rating_spectra.csv", id="none"),
    "octaves with a hole": lambda: octaves_to_thirds([50.0, 50.0], (63, 250)),
    "octave that is none": lambda: octaves_to_thirds([50.0], (100,)),
    "two levels for three octaves": lambda: octaves_to_thirds([50.0, 50.0], (63, 125, 250)),
    "level that is no number": lambda: octaves_to_thirds([math.nan], (63,)),
    "silence set to a level": lambda: spectrum_with_level(pink_noise(-math.inf), 60.0),
    "unknown effort": lambda: speech_levels("whisper"),
    "air at 60 degrees": lambda: air_attenuation(1000.0, temperature=60.0),
    "dry air": lambda: air_attenuation(1000.0, relative_humidity=0.0),
    "vacuum": lambda: air_attenuation(1000.0, pressure=0.0),
    "tone of no frequency": lambda: air_attenuation(0.0),
    "negative volume": lambda: air_absorption_area(1000.0, -1.0),
    "room without volume": lambda: sabine_reverberation_time(0.0, 1.0),
    "negative absorption area": lambda: sabine_reverberation_time(1.0, -1.0),
    "open window in Eyring": lambda: eyring_reverberation_time(1.0, [1.0], [1.0]),
    "more areas than coefficients": lambda: eyring_reverberation_time(1.0, [1.0, 2.0], [0.5]),
    "Schroeder without volume": lambda: schroeder_frequency(0.0, 1.0),
    "no absorption": lambda: level_in_room(80.0, 0.0),
    "segment without area": lambda: segment_sound_power(70.0, 30.0, 0.0),
    "receiver on the face": lambda: spreading_in_front(3.0, 2.0, 0.0),
    "sound from behind the face": lambda: pressure_rise([100.0], 3.0, 2.0, 2.0),
    "grazing wave into a face": lambda: diffuse_equivalent_level(60.0, math.pi / 2),
    "source above": lambda: face_levels(60.0, "above", SHADOW),
    "unknown rain": lambda: drop_force("drizzle"),
    "plate without mass": lambda: radiated_per_force([100.0], 0.0, 1.0, [0.1], 1.0, 1.0),
    "plate without loss": lambda: radiated_per_force([100.0], 1.0, 1.0, [0.0], 1.0, 1.0),
}


@pytest.mark.parametrize("name", REFUSED)
def test_impossible_input_is_refused(name):
    with pytest.raises(InvalidInput):
        REFUSED[name]()


def test_the_message_names_the_missing_bands():
    with pytest.raises(InvalidInput, match="100, 125 Hz"):
        weighted_sound_reduction_index([math.nan] * 5 + [30.0] * 16)


def test_nc_below_the_lowest_curve_says_so():
    quiet = noise_criterion(np.full(27, -5.0))
    assert quiet.value < 15
    assert "outside the printed curves" in quiet.validity[0]
    assert "below the lowest printed curve" in noise_criterion_limits(12).validity[0]


def test_silence_rates_below_everything():
    silence = [-math.inf] * 27
    assert noise_criterion(silence).whole == -math.inf
    assert noise_rating(silence).curve_of_five == -math.inf


def test_octaves_below_the_lowest_band_have_no_limit():
    limits = noise_criterion_limits(25, lowest_band=250)
    assert limits.limits[:3] == (math.inf,) * 3
    assert limits.validity == ("octaves below 250 Hz have no limit",)
    loud_bass = np.array([90.0, 90.0, 90.0, *limits.limits[3:]])
    assert np.min(limits.margins(loud_bass)) == 0.0


def test_circumaural_earphones_gain_nothing_where_no_attenuation_is_printed():
    plain, closed = hearing_test_limits(), hearing_test_limits("circumaural")
    assert closed.limits[1:4] == plain.limits[1:4]
    assert "31.5, 40, 50 Hz" in closed.validity[0]


def test_an_octave_alone_goes_on_level():
    assert len(set(octaves_to_thirds([60.0], (1000,)).levels)) == 1


def test_slopes_go_on_at_both_ends():
    spectrum = complete_thirds([50.0, 52.0, 54.0, 56.0], (100, 125, 160, 200))
    assert spectrum.levels[5] == 48.0
    assert spectrum.levels[10] == 58.0


def test_a_forward_voice_has_less_power_for_the_same_level_in_front():
    assert speech_sound_power(directivity_index=3.0).levels[13] == pytest.approx(speech_sound_power().levels[13] - 3.0)


def test_air_and_directivity_lower_the_level_at_a_distance():
    plain = level_at_distance(70.0, 3.0, 2.0, 10.0)
    assert level_at_distance(70.0, 3.0, 2.0, 10.0, directivity_index=-5.0, air_attenuation=0.1) == pytest.approx(
        plain - 6.0
    )


def test_the_face_towards_the_source_takes_the_pressure_rise():
    levels = face_levels(60.0, "front", SHADOW, rise={"front": 6.0, "left": 6.0})
    assert [float(levels[face]) for face in ("front", "rear", "left", "roof", "floor")] == [
        66.0,
        50.0,
        57.0,
        55.0,
        52.0,
    ]


def test_rain_on_foil_is_an_upper_bound():
    sound = rain_sound_power(0.5, 0.05, 0.02, 1.0, perimeter=4.0, rain="cloudburst")
    assert any("yields under the drop" in note for note in sound.validity)
    assert any("scaled from heavy rain" in note for note in sound.validity)
    assert 100 not in sound.assumed
    assert 25 in sound.assumed


def test_the_band_of_the_sound_field_table_above_ours_is_told():
    assert hearing_test_limits("sound_field").validity == (
        "the limit at 12500 Hz lies above the bands that are computed",
    )


def test_a_dead_room_has_a_lower_standardized_level_difference():
    # DnT = D + 10 lg(T/0.5 s): half the reference time costs 3 dB (ISO 16283-1 clause 3, by hand)
    assert float(standardized_level_difference(40.0, 0.25)) == pytest.approx(36.99, abs=0.01)
    assert float(apparent_sound_reduction_index(40.0, 10.0, 5.0)) == pytest.approx(43.01, abs=0.01)
