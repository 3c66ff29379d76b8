"""Laws of sound in ducts that hold whatever the numbers."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.physics.acoustics.bands import FREQUENCIES, energy_sum_level
from hushwright.physics.acoustics.duct_baffle_box import BaffleBox, baffle_box_loss, baffle_box_noise
from hushwright.physics.acoustics.duct_baffle_sizing import BoxLimits, size_baffle_box
from hushwright.physics.acoustics.duct_bands import attenuated, loss_from_octaves, power_from_octaves, summed_power
from hushwright.physics.acoustics.duct_elements import (
    elbow_element,
    end_element,
    flexible_element,
    split_element,
    straight_element,
    terminal_element,
)
from hushwright.physics.acoustics.duct_fan import FanDuty, estimated_fan_power, fan_law_level
from hushwright.physics.acoustics.duct_fan_figures import power_at_speed
from hushwright.physics.acoustics.duct_fittings import end_reflection, plenum
from hushwright.physics.acoustics.duct_flow_noise import (
    bend_noise,
    damper_noise,
    silencer_noise,
    straight_duct_noise,
    vaned_bend_noise,
)
from hushwright.physics.acoustics.duct_lined import bare_duct, flexible_duct, lined_duct
from hushwright.physics.acoustics.duct_passage import decibel_per_metre, passage_loss, passage_wavenumber
from hushwright.physics.acoustics.duct_path import (
    arrival,
    crosstalk_power,
    normalized_level_difference,
    opening_of_run,
    run_loss,
)
from hushwright.physics.acoustics.duct_sections import RectangularSection, RoundSection
from hushwright.physics.acoustics.duct_terminals import terminal_noise
from hushwright.physics.acoustics.layers import Porous
from hushwright.physics.acoustics.porous import effective_bulk_modulus, effective_density
from hushwright.physics.air import AIR_20C

WOOL = Porous(12_000.0, 0.97, 1.0, 40.0)
ROUND = RoundSection(0.125)
PARTS = (
    straight_element("lined duct", RectangularSection(0.2, 0.15), 1.2, 0.025),
    elbow_element("elbow", ROUND, "radiused"),
    flexible_element("hose", 0.127, 1.5),
    split_element("split", 0.55),
    terminal_element("grille", 0.02, 3.0),
    end_element("end", 0.0123),
)
FAN = power_from_octaves([65, 66, 64, 60, 57, 52, 46, 40], standard_uncertainty=4.0)


def demo_box(count=3, passage=0.1, lining=0.04, width=0.35):
    return BaffleBox(0.9, width, 0.25, 0.012, WOOL, lining, count, 0.04, passage, 0.0123)


# runs


@given(order=st.permutations(range(len(PARTS))))
@settings(max_examples=30)
def test_order_of_passive_parts_does_not_matter(order):
    shuffled = [PARTS[place] for place in order]
    assert run_loss(shuffled).attenuation == pytest.approx(run_loss(PARTS).attenuation)
    still = arrival(shuffled, FAN, 0.0).total
    assert still.sound_power_level == pytest.approx(arrival(PARTS, FAN, 0.0).total.sound_power_level)


@given(flow=st.floats(0.005, 0.08))
@settings(max_examples=20)
def test_fan_and_flow_add_in_energy_to_the_total(flow):
    arrived = arrival(PARTS, FAN, flow)
    parts = np.array([arrived.source_part.sound_power_level, arrived.flow_part.sound_power_level])
    assert energy_sum_level(parts, axis=0) == pytest.approx(arrived.total.sound_power_level)
    assert np.all(arrived.total.array() >= arrived.source_part.array() - 1e-9)


def test_without_air_nothing_is_made():
    assert np.all(np.isneginf(arrival(PARTS, FAN, 0.0).flow_part.array()))


def test_flow_behind_a_split_is_its_share():
    flows = [step.volume_flow_rate for step in arrival(PARTS, FAN, 0.06).steps]
    assert flows == pytest.approx([0.06] * 4 + [0.033] * 2)


def test_duct_carries_alike_both_ways():
    """Crosstalk by D_n,e, by the opening and by power is one quantity."""
    run = [PARTS[5], PARTS[0], PARTS[5]]
    area = 0.0123
    opening = opening_of_run(run, area)
    power = crosstalk_power(run, [70.0] * 27, area).array()
    level_in_ten_square_metres = power + 6.0 - 10.0
    assert 70.0 - level_in_ten_square_metres == pytest.approx(normalized_level_difference(run, area))
    assert np.array(opening.reduction) - 10.0 * math.log10(area / 10.0) == pytest.approx(
        normalized_level_difference(run, area)
    )
    assert run_loss(run).attenuation == run_loss(run[::-1]).attenuation


# lengths


@given(length=st.floats(0.05, 4.0), more=st.floats(1.01, 2.0))
@settings(max_examples=25)
def test_longer_duct_never_takes_less(length, more):
    for short, long in (
        (lined_duct(RectangularSection(0.2, 0.15), at, 0.025) for at in (length, length * more)),
        (bare_duct(ROUND, at) for at in (length, length * more)),
        (flexible_duct(0.14, at) for at in (length, length * more)),
    ):
        assert np.all(long.array() >= short.array() - 1e-9)


@given(diameter=st.floats(0.05, 1.0), more=st.floats(1.05, 3.0))
@settings(max_examples=25)
def test_wider_end_throws_back_less(diameter, more):
    small, large = (end_reflection(math.pi / 4.0 * d**2, "free", limit=None) for d in (diameter, diameter * more))
    assert np.all(large.array() < small.array())
    flush = end_reflection(math.pi / 4.0 * diameter**2, "flush", limit=None)
    assert np.all(flush.array() < small.array())


@given(absorption=st.floats(0.05, 0.9), more=st.floats(1.01, 1.1))
@settings(max_examples=20)
def test_more_lining_in_a_chamber_takes_more(absorption, more):
    less, greater = (plenum(0.01, 1.0, a, 0.6).array() for a in (absorption, absorption * more))
    assert np.all(greater >= less)


# flow noise


@given(velocity=st.floats(0.3, 15.0), more=st.floats(1.05, 2.0))
@settings(max_examples=30)
def test_flow_noise_rises_with_speed(velocity, more):
    laws = (
        lambda u: straight_duct_noise(u, 0.0123),
        lambda u: bend_noise(u, 0.0123),
        lambda u: damper_noise(u, 0.0123, 0.125, 2.0),
        lambda u: vaned_bend_noise(u, 0.04, 0.2, 0.05, 4, 0.3),
        lambda u: silencer_noise(u, 1, 0.15),
    )
    for law in laws:
        assert np.all(law(velocity * more).array() >= law(velocity).array())
    total = [energy_sum_level(terminal_noise(u, 0.0123, 3.0).array()) for u in (velocity, velocity * 2.0)]
    assert total[1] > total[0] + 12.0


@given(coefficient=st.floats(0.2, 50.0), more=st.floats(1.05, 3.0))
@settings(max_examples=20)
def test_closing_a_damper_makes_it_louder(coefficient, more):
    open_one, closed = (damper_noise(3.0, 0.0123, 0.125, c).array() for c in (coefficient, coefficient * more))
    assert np.all(closed >= open_one - 1e-9)


# fans


@given(flow=st.floats(0.01, 5.0), pressure=st.floats(20.0, 1000.0))
@settings(max_examples=20)
def test_two_like_fans_are_three_decibels_louder_than_one(flow, pressure):
    one = estimated_fan_power(FanDuty(flow, pressure))
    assert summed_power([one, one]).array() - one.array() == pytest.approx(10.0 * math.log10(2.0))


def test_small_fan_is_less_certain_and_says_so():
    small, large = (estimated_fan_power(FanDuty(flow, 120.0)) for flow in (0.033, 3.0))
    assert small.notes
    assert not large.notes
    assert small.standard_uncertainty[10] > large.standard_uncertainty[10] + 2.0


@given(ratio=st.floats(0.5, 1.9))
@settings(max_examples=20)
def test_fan_law_and_speed_law_agree(ratio):
    """Flow with n, pressure with n²: the fan law gives 50 lg n."""
    slow, fast = FanDuty(0.05, 100.0), FanDuty(0.05 * ratio, 100.0 * ratio**2)
    shift = power_at_speed(FAN, ratio).array() - FAN.array()
    assert shift == pytest.approx(fan_law_level(fast) - fan_law_level(slow))


# baffle box


@given(half_width=st.floats(0.02, 0.2), thickness=st.floats(0.02, 0.08), band=st.integers(0, 26))
@settings(max_examples=40)
def test_wave_between_linings_satisfies_its_own_equation(half_width, thickness, band):
    """Scott's equation for a lining in which sound runs along: the root is looked up, not assumed."""
    frequency = FREQUENCIES[band : band + 1]
    along = passage_wavenumber(half_width, WOOL, thickness, frequency, order=24)[0]
    omega = 2.0 * math.pi * float(frequency[0])
    density = complex(effective_density(WOOL, frequency)[0])
    modulus = complex(effective_bulk_modulus(WOOL, frequency)[0])
    across = np.sqrt((omega / AIR_20C.speed_of_sound) ** 2 - along**2 + 0j)
    across_lining = np.sqrt(omega**2 * density / modulus - along**2 + 0j)
    left = across * np.sin(across * half_width) * np.cos(across_lining * thickness) / AIR_20C.density
    right = across_lining * np.sin(across_lining * thickness) * np.cos(across * half_width) / density
    assert abs(left + right) < 1e-4 * (abs(left) + abs(right) + 1e-9)


@given(width=st.floats(0.04, 0.3), height=st.floats(0.04, 0.3))
@settings(max_examples=15)
def test_lining_on_more_sides_takes_more(width, height):
    two = passage_loss(width, height, WOOL, lining_on_width=0.04, lining_on_height=0.0)
    four = passage_loss(width, height, WOOL, lining_on_width=0.04, lining_on_height=0.04)
    assert np.all(decibel_per_metre(four) > decibel_per_metre(two))
    assert np.all(decibel_per_metre(two) > 0.0)


def test_bare_box_only_steps_its_area():
    """An unlined box without baffles is the chamber of the textbooks: ¼(m − 1/m)² sin² kL (Bies 2017, ch. 8)."""
    box = BaffleBox(0.5, 0.2, 0.2, 0.0, WOOL, 0.0, 0, 0.0, 0.2, 0.01)
    ratio, band = 0.04 / 0.01, 8
    steps = FREQUENCIES[band] * 10.0 ** (0.1 * ((np.arange(400) + 0.5) / 400 - 0.5))
    phase = 2.0 * math.pi * steps / AIR_20C.speed_of_sound * 0.5
    expected = -10.0 * np.log10(np.mean(1.0 / (1.0 + 0.25 * (ratio - 1.0 / ratio) ** 2 * np.sin(phase) ** 2)))
    assert baffle_box_loss(box).attenuation[band] == pytest.approx(expected, abs=0.1)


def test_more_baffles_take_more_and_thicker_lining_too_in_the_middle():
    losses = [np.array(baffle_box_loss(demo_box(count)).octaves) for count in (1, 2, 3, 4)]
    middle = slice(3, 6)
    for fewer, more in zip(losses, losses[1:], strict=False):
        assert np.all(more[middle] >= fewer[middle] - 0.5)
    thin, thick = (np.array(baffle_box_loss(demo_box(lining=t)).octaves) for t in (0.025, 0.05))
    assert np.all(thick[2:4] > thin[2:4])


def test_straight_view_lets_the_treble_through():
    covered, open_view = demo_box(2, 0.1), demo_box(2, 0.2)
    assert covered.sight_area == 0.0
    assert open_view.sight_area > 0.0
    assert any("straight view" in note for note in baffle_box_loss(open_view).notes)
    assert baffle_box_loss(open_view).octaves[-1] < baffle_box_loss(covered).octaves[-1]


@given(flow=st.floats(0.01, 0.06))
@settings(max_examples=15)
def test_more_air_makes_the_box_louder(flow):
    assert np.all(baffle_box_noise(demo_box(), 1.2 * flow).array() > baffle_box_noise(demo_box(), flow).array())


@given(first=st.floats(1.0, 14.0), second=st.floats(5.0, 38.0))
@settings(max_examples=10)
def test_sized_box_meets_what_it_says_and_keeps_its_limits(first, second):
    limits = BoxLimits(0.9, 0.35, 0.25, 0.0123, 0.0123)
    design = size_baffle_box([first, second], limits, WOOL, bands=(500, 1000))
    box, octaves = design.box, np.array(design.loss.octaves)[[3, 4]]
    assert design.shortfall == pytest.approx(np.maximum(0.0, np.array([first, second]) - octaves))
    assert box.free_area >= limits.free_area
    assert (box.length, box.width, box.height) <= (limits.length, limits.width, limits.height)
    assert baffle_box_loss(box).attenuation == design.loss.attenuation


def test_asking_for_less_never_needs_a_larger_box():
    limits = BoxLimits(0.9, 0.35, 0.25, 0.0123, 0.0123)
    volumes = [size_baffle_box([asked], limits, WOOL, bands=(500,)).box.outer_volume for asked in (2.0, 6.0, 10.0)]
    assert volumes == sorted(volumes)


# bands


@given(st.lists(st.floats(0.0, 40.0), min_size=8, max_size=8))
@settings(max_examples=25)
def test_octaves_survive_the_way_over_thirds(values):
    assert loss_from_octaves(values).octaves == pytest.approx(values, abs=1e-9)
    power = power_from_octaves(values)
    left = attenuated(power, loss_from_octaves(values))
    assert left.octaves == pytest.approx([0.0] * 8, abs=1e-9)


@given(st.lists(st.floats(0.0, 40.0), min_size=7, max_size=7))
@settings(max_examples=25)
def test_bands_beyond_a_table_are_listed_and_never_exceed_its_edge(values):
    loss = loss_from_octaves(values, (63, 125, 250, 500, 1000, 2000, 4000))
    assert loss.assumed == (25, 31.5, 40, 6300, 8000, 10000)
    assert max(loss.attenuation[:3]) <= values[0] + 1e-9
    assert max(loss.attenuation[-3:]) <= values[-1] + 1e-9
