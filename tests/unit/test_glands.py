"""Glands are as full as what takes their way: signal cables and conductors of power."""

import math

import pytest
from tests.coupled import DEMO, build_of, edited

from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.evaluation.results.signals import GlandResult


def gland(text: str) -> GlandResult:
    evaluation, _ = evaluate_nominal(build_of(text))
    return next(each for each in evaluation.signals.glands if each.name == "tie_lines")


def test_power_on_the_same_way_fills_a_gland_by_its_conductors() -> None:
    with_power = gland(DEMO)
    without = gland(edited(DEMO, ("route: quiet_lead, area: 2.5 mm2", "length: 4 m, area: 2.5 mm2")))
    assert "quiet_feed" in with_power.lines
    assert "quiet_feed" not in without.lines
    assert with_power.cables == without.cables + 2
    # two conductors of 2.5 mm²: strands that fill three quarters of their circle, and 0.8 mm of wall
    diameter = math.sqrt(4.0 / math.pi * 2.5e-6 / 0.75) + 1.6e-3
    opening = next(each for each in build_of(DEMO).openings if each.name == "tie_lines")
    more = 2.0 * math.pi / 4.0 * diameter**2 / (opening.area * opening.number)
    assert with_power.fill - without.fill == pytest.approx(more, rel=1e-9)
