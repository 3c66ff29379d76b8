"""Scales, changes, anchoring, doors and cuts of one Build, with what their verdicts ask."""

from __future__ import annotations

from collections.abc import Mapping

from hushwright.evaluation.mass.anchoring import anchoring_of, anchoring_quantities
from hushwright.evaluation.mass.changes import changes_of
from hushwright.evaluation.mass.doors import cut_quantities, cuts_of, door_quantities, doors_of
from hushwright.evaluation.mass.mass import scale_results
from hushwright.evaluation.results import Quantity
from hushwright.evaluation.results.mass import MassResult, StructureResults
from hushwright.evaluation.sound.floor import Floating
from hushwright.model.build import Build


def structure_of(
    build: Build,
    floats: Mapping[str, Floating | None],
    masses: tuple[MassResult, ...],
    quantities: dict[str, Quantity],
) -> StructureResults:
    """Add the quantities of structure to those that are there, and give the results behind them."""
    held = tuple(anchoring_of(build, state, floats[state.name]) for state in build.states if state.road)
    for result in held:
        anchoring_quantities(build, result, quantities)
    doors, cuts = doors_of(build), cuts_of(build)
    door_quantities(build, doors, quantities)
    cut_quantities(build, cuts, quantities)
    return StructureResults(scale_results(build), changes_of(build, masses, quantities), held, doors, cuts)
