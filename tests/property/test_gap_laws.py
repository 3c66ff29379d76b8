"""Laws of the gap round the inner box."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.physics.acoustics.gap_network import (
    Junction,
    Segment,
    gap_powers,
    gap_transfer,
    junction_conductance,
    lateral_decay,
)
from hushwright.physics.acoustics.layers import Porous

AREAS = {"left": 4.3, "right": 4.3, "ceiling": 3.5, "floor": 3.5, "dividing": 3.0, "wheel": 0.5}
EDGES = (
    ("left", "ceiling", 2.25),
    ("right", "ceiling", 2.25),
    ("left", "floor", 2.25),
    ("right", "floor", 2.25),
    ("dividing", "left", 1.9),
    ("dividing", "right", 1.9),
    ("wheel", "left", 1.0),
)


def wool(flow_resistivity=10_000.0):
    return Porous(flow_resistivity, 0.98, 1.0, 40.0)


def ring(fill=None, share=0.0, aperture=0.03, way=0.0, inner=28.0):
    segments = tuple(
        Segment(name, area, 0.06, (inner + index,) * 27, (22.0,) * 27, fill, share)
        for index, (name, area) in enumerate(AREAS.items())
    )
    return segments, tuple(Junction(a, b, length, aperture, way) for a, b, length in EDGES)


def transfer(*arguments, **named):
    return np.asarray(gap_transfer(*ring(*arguments, **named)).transfer)


@given(
    share=st.floats(0.0, 1.0),
    flow_resistivity=st.floats(2e3, 5e4),
    aperture=st.floats(0.0, 0.06),
    way=st.floats(0.0, 0.3),
)
@settings(max_examples=25, deadline=None)
def test_what_is_put_in_is_absorbed_or_comes_out(share, flow_resistivity, aperture, way):
    shares = gap_transfer(*ring(wool(flow_resistivity), share, aperture, way))
    through = np.asarray(shares.transfer)
    total = through.sum(axis=1) + np.asarray(shares.own) + np.asarray(shares.absorbed) + np.asarray(shares.returned)
    assert total == pytest.approx(np.ones_like(total), abs=1e-9)
    assert through.min() >= -1e-12


@given(low=st.floats(0.0, 0.9), step=st.floats(0.05, 0.5))
@settings(max_examples=15, deadline=None)
def test_more_wool_passes_less_round_the_gap(low, step):
    less = transfer(wool(), low)
    more = transfer(wool(), min(1.0, low + step))
    assert np.all(more <= less * (1.0 + 1e-9))


@given(way=st.floats(0.0, 0.2), step=st.floats(0.01, 0.2))
@settings(max_examples=15, deadline=None)
def test_longer_way_passes_less(way, step):
    near = transfer(wool(), 0.6, way=way)
    far = transfer(wool(), 0.6, way=way + step)
    assert np.all(far <= near * (1.0 + 1e-9))
    assert far[0, 2, 15] < near[0, 2, 15]


@given(share=st.floats(0.0, 1.0), aperture=st.floats(0.001, 0.06))
@settings(max_examples=15, deadline=None)
def test_transfer_is_reciprocal(share, aperture):
    """Per area and transmission factor of the leaf at the far end, i→j equals j→i."""
    segments, junctions = ring(wool(), share, aperture)
    shares = np.asarray(gap_transfer(segments, junctions).transfer)
    tau_area = np.array([s.area * 10.0 ** (-s.inner_reduction[0] / 10.0) for s in segments])
    exposure = shares / tau_area[None, :, None]
    assert exposure == pytest.approx(np.swapaxes(exposure, 0, 1), rel=1e-6, abs=1e-300)


def test_conductance_is_the_same_both_ways():
    segments, junctions = ring(wool(), 0.5)
    junction, named = junctions[0], {s.name: s for s in segments}
    there = junction_conductance(junction, named["left"], named["ceiling"])
    back = junction_conductance(junction, named["ceiling"], named["left"])
    assert there == back


def test_closed_edges_pass_nothing():
    assert transfer(wool(), 0.5, aperture=0.0).max() == 0.0


def test_larger_faces_need_a_longer_way_across():
    segments, junctions = ring(wool(), 0.7)
    names = [s.name for s in segments]
    through = np.asarray(gap_transfer(segments, junctions).transfer)
    wider = tuple(
        Segment(s.name, s.area * (2.0 if s.name == "ceiling" else 1.0), s.thickness, s.inner_reduction,
                s.outer_reduction, s.fill, s.fill_share)
        for s in segments
    )  # fmt: skip
    across = np.asarray(gap_transfer(wider, junctions).transfer)
    left, right = names.index("left"), names.index("right")
    assert across[left, right, 14] < through[left, right, 14]


def test_heavier_inner_leaf_passes_less_round_the_gap():
    heavy, light = transfer(wool(), 0.5, inner=34.0), transfer(wool(), 0.5, inner=28.0)
    assert np.all(heavy[light > 0.0] < light[light > 0.0])


def test_empty_undamped_gap_comes_to_equal_levels():
    """Without loss in the gap the transmitted shares follow τ·S alone."""
    segments, junctions = ring(aperture=0.06)
    lossless = tuple(
        Segment(s.name, s.area, s.thickness, (60.0,) * 27, (60.0,) * 27, surface_absorption=0.0) for s in segments
    )
    shares = np.asarray(gap_transfer(lossless, junctions).transfer)[0, :, 10]
    areas = np.array(list(AREAS.values()))
    assert shares[1:] / areas[1:] == pytest.approx(np.full(5, shares[1] / areas[1]), rel=1e-2)


def test_powers_add_over_the_segments():
    shares = gap_transfer(*ring(wool(), 0.5))
    injected = tuple((float(index + 1),) * 27 for index in range(6))
    powers = np.asarray(gap_powers(shares, injected))
    by_hand = sum((index + 1) * np.asarray(shares.transfer)[index] for index in range(6))
    assert powers == pytest.approx(by_hand)


@given(flow_resistivity=st.floats(2e3, 5e4), share=st.floats(0.05, 1.0))
@settings(max_examples=20, deadline=None)
def test_decay_in_wool_rises_with_frequency(flow_resistivity, share):
    decay = lateral_decay(wool(flow_resistivity), share)
    assert np.all(np.diff(decay) > 0.0)
    assert np.all(decay <= lateral_decay(wool(flow_resistivity), 1.0) * (1.0 + 1e-9))


def test_leaks_count_straight_through_and_radiation_does_not():
    shares = gap_transfer(*ring(wool(), 0.5))
    silent, one = ((0.0,) * 27,) * 6, ((1.0,) * 27,) + ((0.0,) * 27,) * 5
    leaked = np.asarray(gap_powers(shares, silent, one))
    radiated = np.asarray(gap_powers(shares, one))
    assert leaked[0] == pytest.approx(np.asarray(shares.own)[0])
    assert radiated[0] == pytest.approx(np.zeros(27))
    assert leaked[1:] == pytest.approx(radiated[1:])


def test_exposure_times_transmission_is_what_passes():
    segments, junctions = ring(wool(), 0.5)
    shares = gap_transfer(segments, junctions)
    tau = 10.0 ** (-segments[2].inner_reduction[0] / 10.0)
    assert np.asarray(shares.exposure)[0, 2] * tau == pytest.approx(np.asarray(shares.transfer)[0, 2])
