"""Laws that hold for every curve: ratings, criteria, spectra, room statistics, rain, outdoors."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hushwright.physics.acoustics.absorption_air import air_absorption_area, air_attenuation
from hushwright.physics.acoustics.bands import (
    FREQUENCIES,
    N_BANDS,
    OCTAVE_BANDS,
    THIRD_OCTAVE_BANDS,
    energy_sum_level,
    third_to_octave_levels,
)
from hushwright.physics.acoustics.criteria import (
    hearing_test_limits,
    noise_criterion,
    noise_criterion_limits,
    noise_rating,
    noise_rating_limits,
)
from hushwright.physics.acoustics.hearing import audibility
from hushwright.physics.acoustics.outdoors import FACES, Shadow, face_levels, pressure_rise, spreading_in_front
from hushwright.physics.acoustics.rain import radiated_per_force, rain_sound_power
from hushwright.physics.acoustics.ratings import (
    absorption_rating,
    outdoor_indoor_level_difference,
    rate,
    sound_transmission_class,
    transmission_class_fit,
    weighted_index_fit,
    weighted_sound_reduction_index,
)
from hushwright.physics.acoustics.reverberation import (
    arau_reverberation_time,
    eyring_reverberation_time,
    fitzroy_reverberation_time,
    level_in_room,
    millington_reverberation_time,
    sabine_reverberation_time,
)
from hushwright.physics.acoustics.spectra import Spectrum, complete_thirds, octaves_to_thirds, spectrum_with_level
from hushwright.physics.acoustics.weighting import a_weighted_difference, a_weighted_level

curves = st.lists(st.floats(0.0, 90.0), min_size=N_BANDS, max_size=N_BANDS).map(np.array)
spectra = st.lists(st.floats(-10.0, 110.0), min_size=N_BANDS, max_size=N_BANDS).map(np.array)
octave_spectra = st.lists(st.floats(0.0, 100.0), min_size=9, max_size=9)
coefficients = st.lists(st.floats(0.01, 0.98), min_size=3, max_size=3)
sizes = st.tuples(st.floats(0.5, 10.0), st.floats(0.5, 10.0), st.floats(0.5, 10.0))


@given(curves, st.integers(-20, 40))
def test_adding_whole_decibels_to_all_bands_adds_them_to_every_rating(curve, decibels):
    before, after = rate(curve), rate(curve + decibels)
    assert after.rw == before.rw + decibels
    assert after.stc == before.stc + decibels
    assert after.oitc == before.oitc + decibels
    for term in ("c", "ctr", "c_50_5000", "ctr_50_5000"):
        assert getattr(after, f"spectrum_adaptation_term_{term}") == getattr(before, f"spectrum_adaptation_term_{term}")


@given(curves, st.integers(0, N_BANDS - 1), st.floats(0.0, 30.0))
def test_a_better_band_never_lowers_a_rating(curve, band, gain):
    better = curve.copy()
    better[band] += gain
    assert weighted_sound_reduction_index(better) >= weighted_sound_reduction_index(curve)
    assert sound_transmission_class(better) >= sound_transmission_class(curve)
    assert outdoor_indoor_level_difference(better) >= outdoor_indoor_level_difference(curve) - 1e-9


@given(curves)
def test_rating_in_tenths_lies_within_the_decibel_above_the_whole_one(curve):
    assert 0.0 <= weighted_sound_reduction_index(curve, in_tenths=True) - weighted_sound_reduction_index(curve) < 1.0


@given(curves)
def test_contours_rest_within_their_allowance(curve):
    assert weighted_index_fit(curve).deficiency_sum <= 32.0
    fit = transmission_class_fit(curve)
    assert fit.deficiency_sum <= 32.0
    assert all(lacking <= 8.0 for _, lacking in fit.deficiencies)
    assert sound_transmission_class(curve, eight_decibel_rule=False) >= fit.value


@given(st.lists(st.floats(0.0, 1.2), min_size=N_BANDS, max_size=N_BANDS))
def test_absorption_rating_stays_between_nothing_and_one(absorption):
    assert 0.0 <= absorption_rating(absorption).weighted <= 1.0


@given(spectra, st.floats(-30.0, 30.0))
def test_a_weighted_difference_of_an_even_isolation_is_that_isolation(levels, isolation):
    assert a_weighted_difference(levels, np.full(N_BANDS, isolation)) == pytest.approx(isolation, abs=1e-9)


@given(spectra, st.floats(10.0, 70.0), st.sampled_from(["classic", "2019"]), st.sampled_from([31.5, 63.0, 250.0]))
def test_a_spectrum_meets_an_nc_curve_just_when_it_rates_no_higher(levels, number, curve_set, lowest):
    rating = noise_criterion(levels, curve_set=curve_set, lowest_band=lowest).value
    margin = float(np.min(noise_criterion_limits(number, curve_set=curve_set, lowest_band=lowest).margins(levels)))
    if abs(margin) > 1e-6 and abs(rating - number) > 1e-6:
        assert (margin > 0) == (rating < number)


@given(spectra, st.floats(0.0, 100.0))
def test_a_spectrum_meets_an_nr_curve_just_when_it_rates_no_higher(levels, number):
    rating = noise_rating(levels).value
    margin = float(np.min(noise_rating_limits(number).margins(levels)))
    if abs(margin) > 1e-6:
        assert (margin > 0) == (rating < number)


@given(st.sampled_from(["supra_aural", "insert", "circumaural"]), st.floats(-10.0, 40.0))
def test_a_higher_lowest_tone_never_tightens_the_limit(transducer, level):
    low, middle, high = (
        np.array(hearing_test_limits(transducer, lowest_tone=tone, lowest_level=level).limits)
        for tone in (125, 250, 500)
    )
    assert np.all(low <= middle)
    assert np.all(middle <= high)


@given(spectra, st.floats(0.0, 10.0), st.floats(0.0, 30.0))
def test_a_louder_band_is_never_heard_less(levels, uncertainty, gain):
    order = {"not heard": 0, "just heard": 1, "heard": 2}
    quiet, loud = audibility(levels, uncertainty), audibility(levels + gain, uncertainty)
    assert all(order[b] >= order[a] for a, b in zip(quiet, loud, strict=True))


@given(octave_spectra)
def test_octaves_come_back_from_their_thirds(octaves):
    spectrum = octaves_to_thirds(octaves)
    assert third_to_octave_levels(spectrum.levels) == pytest.approx(octaves, abs=1e-9)
    assert spectrum.assumed == ()


@given(st.lists(st.floats(0.0, 100.0), min_size=1, max_size=9), st.integers(0, 8))
def test_bands_beyond_those_given_are_listed(octaves, first):
    bands = OCTAVE_BANDS[first : first + len(octaves)]
    spectrum = octaves_to_thirds(octaves[: len(bands)], bands)
    assert len(spectrum.assumed) == N_BANDS - 3 * len(bands)
    assert complete_thirds(spectrum.levels, THIRD_OCTAVE_BANDS).levels == spectrum.levels


@given(spectra, st.floats(0.0, 120.0))
def test_a_shape_takes_any_level_and_keeps_its_shape(levels, wanted):
    shape = Spectrum(tuple(levels.tolist()), (), "any")
    got = spectrum_with_level(shape, wanted)
    assert a_weighted_level(got.levels) == pytest.approx(wanted, abs=1e-9)
    assert np.ptp(got.array() - levels) == pytest.approx(0.0, abs=1e-9)


@given(sizes, coefficients)
def test_reverberation_times_keep_their_order(size, alpha):
    length, width, height = size
    areas = [2 * width * height, 2 * length * height, 2 * length * width]
    volume = length * width * height
    sabine = float(sabine_reverberation_time(volume, float(np.dot(areas, alpha))))
    eyring = float(eyring_reverberation_time(volume, areas, alpha))
    millington = float(millington_reverberation_time(volume, areas, alpha))
    arau = float(arau_reverberation_time(size, alpha))
    fitzroy = float(fitzroy_reverberation_time(size, alpha))
    # concave logarithm: Millington absorbs most; geometric mean below arithmetic mean
    assert millington <= eyring * (1 + 1e-12) <= sabine * (1 + 1e-9)
    assert arau <= fitzroy * (1 + 1e-12)


@given(sizes, st.floats(0.01, 0.98))
def test_even_absorption_makes_all_closed_forms_alike(size, alpha):
    length, width, height = size
    areas = [2 * width * height, 2 * length * height, 2 * length * width]
    expected = float(eyring_reverberation_time(length * width * height, areas, [alpha] * 3))
    for got in (
        millington_reverberation_time(length * width * height, areas, [alpha] * 3),
        arau_reverberation_time(size, [alpha] * 3),
        fitzroy_reverberation_time(size, [alpha] * 3),
    ):
        assert float(got) == pytest.approx(expected, rel=1e-9)


@given(st.floats(0.1, 100.0), st.floats(0.1, 20.0), st.floats(1.0, 2.0))
def test_more_absorption_or_distance_is_never_louder(area, distance, factor):
    level = float(level_in_room(80.0, area, distance))
    assert float(level_in_room(80.0, area * factor, distance)) <= level + 1e-12
    assert float(level_in_room(80.0, area, distance * factor)) <= level + 1e-12


@given(st.floats(-20.0, 50.0), st.floats(0.05, 1.0))
def test_air_takes_more_of_higher_tones(temperature, humidity):
    attenuation = air_attenuation(FREQUENCIES, temperature=temperature, relative_humidity=humidity)
    assert np.all(np.diff(attenuation) > 0)
    area = air_absorption_area(FREQUENCIES, 10.0, temperature=temperature, relative_humidity=humidity)
    assert area == pytest.approx(attenuation * 4.0 * 10.0 / (10.0 * math.log10(math.e)))


@given(st.floats(0.5, 10.0), st.floats(0.5, 5.0))
def test_a_face_is_a_point_on_the_ground_from_afar(width, height):
    assert spreading_in_front(width, height, 1000.0) == pytest.approx(10 * math.log10(math.pi * 1e6), abs=1e-3)
    distances = [1.0, 2.0, 5.0, 20.0]
    assert np.all(np.diff([spreading_in_front(width, height, distance) for distance in distances]) > 0)


@given(st.floats(0.0, math.pi / 2), st.floats(0.5, 5.0))
def test_pressure_rises_by_no_more_than_doubling(angle, width):
    rise = pressure_rise(FREQUENCIES, width, 2.0, angle)
    assert np.all(rise >= 0.0)
    assert np.all(rise <= 20 * math.log10(2.0) + 1e-12)
    assert np.all(np.diff(rise) >= -1e-12)


@given(spectra, st.floats(0.0, 6.0), st.floats(0.0, 15.0))
def test_no_side_of_a_box_is_special(levels, side, lee):
    shadow = Shadow(side=side, lee=lee, roof=5.0, floor=8.0)
    around = face_levels(levels, "all round", shadow)
    for face in ("right", "front", "rear"):
        assert around[face] == pytest.approx(around["left"])
    assert around["roof"] == pytest.approx(levels - 5.0)
    assert set(around) == set(FACES)
    left, right = face_levels(levels, "left", shadow), face_levels(levels, "right", shadow)
    assert left["left"] == pytest.approx(right["right"])
    assert left["right"] == pytest.approx(right["left"])


@given(st.floats(2.0, 20.0), st.floats(2.0, 500.0), st.floats(0.005, 0.3), st.floats(1.0, 10.0))
def test_damping_never_makes_rain_louder_and_the_near_field_stays(mass, stiffness, loss, factor):
    bare = radiated_per_force(FREQUENCIES, mass, stiffness, np.full(N_BANDS, loss), 10.0, 4.0)
    damped = radiated_per_force(FREQUENCIES, mass, stiffness, np.full(N_BANDS, loss * factor), 10.0, 4.0)
    undampable = radiated_per_force(FREQUENCIES, mass, stiffness, np.full(N_BANDS, 1e9), 10.0, 4.0)
    assert np.all(damped <= bare * (1 + 1e-12))
    assert np.all(damped >= undampable * (1 - 1e-12))


@given(st.floats(2.0, 20.0), st.floats(2.0, 500.0), st.floats(0.005, 0.3))
def test_heavier_rain_is_louder_in_every_band(mass, stiffness, loss):
    levels = [
        rain_sound_power(mass, stiffness, loss, 4.0, perimeter=12.0, rain=rain).array()
        for rain in ("moderate", "intense", "heavy", "cloudburst")
    ]
    assert np.all(np.diff(levels, axis=0) > 0)


@given(spectra)
def test_energy_of_all_round_sound_is_kept_without_shadow(levels):
    around = face_levels(levels, "all round", Shadow(0.0, 0.0, 0.0, 0.0))
    assert float(energy_sum_level(around["left"])) == pytest.approx(float(energy_sum_level(levels)))
