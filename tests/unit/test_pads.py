"""Damping pads: the sheet of the hold point weighs what the purchase list buys."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

import pytest
from tests.coupled import DEMO, build_of

from hushwright.evaluation.cost.cost import cost_of
from hushwright.evaluation.cost.take_off import things_of
from hushwright.report.papers.hold_points import HOLD_POINTS


def test_pads_of_the_hold_point_are_those_that_are_bought() -> None:
    build = build_of(DEMO)
    point = next(each for each in HOLD_POINTS if each.name == "skin damping")
    case = SimpleNamespace(evaluation=SimpleNamespace(build=build), system="metric")
    rows = cast(Any, point.tables(cast(Any, case))[0]).rows
    pads = [thing for thing in things_of(build) if thing.kind == "damping"]
    together = rows[-1]
    assert together[0] == "together"
    assert sum(float(row[4].split()[0]) for row in rows[:-1]) == pytest.approx(float(together[4].split()[0]), abs=0.3)
    assert float(together[3].split()[0]) == pytest.approx(sum(each.amount("m2") or 0.0 for each in pads), abs=0.05)
    assert float(together[4].split()[0]) == pytest.approx(sum(each.amount("kg") or 0.0 for each in pads), abs=0.05)
    line = next(line for line in cost_of(build).purchase if line.kind == "damping")
    assert float(together[3].split()[0]) == pytest.approx(float(line.need), abs=0.05)
