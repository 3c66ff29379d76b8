"""How errors of ways go together: wholly within a build-up, in part within a class, not between classes."""

import math

import numpy as np
import pytest

from hushwright.evaluation.results import PathLevel
from hushwright.evaluation.sound.uncertainty import combined_uncertainty, weighted_uncertainty
from hushwright.physics.acoustics.spread import SHARED_BETWEEN_BUILD_UPS

NONE = (0.0,) * 27
U = 6.0


def _way(name, family, build_up):
    return PathLevel(name, (30.0,) * 27, (U,) * 27, 40.0, 0.5, "", family=family, build_up=build_up)


def _of(*ways):
    band = combined_uncertainty(ways, NONE, 0.0)
    total = weighted_uncertainty(ways, NONE, 0.0, np.zeros(27))
    assert total == pytest.approx(band[10])  # equal bands of one way go together
    return band[10]


def test_walls_of_one_build_up_are_wrong_together():
    both = _of(_way("left", "uncoupled double leaf", "walls"), _way("right", "uncoupled double leaf", "walls"))
    assert both == pytest.approx(U)


def test_wheel_boxes_share_a_part_of_the_error_of_the_walls():
    # two equal ways: u² = s·U² + (1 − s)·U²/2
    both = _of(
        _way("left", "uncoupled double leaf", "walls"), _way("wheel box", "uncoupled double leaf", "wheel boxes")
    )
    share = SHARED_BETWEEN_BUILD_UPS
    assert both == pytest.approx(U * math.sqrt(share + (1 - share) / 2))


def test_classes_are_wrong_apart():
    both = _of(_way("left", "uncoupled double leaf", "walls"), _way("skin", "single leaf", "walls"))
    assert both == pytest.approx(U / math.sqrt(2))


def test_ways_without_a_class_are_wrong_apart():
    assert _of(_way("slit", "", ""), _way("hole", "", "")) == pytest.approx(U / math.sqrt(2))
