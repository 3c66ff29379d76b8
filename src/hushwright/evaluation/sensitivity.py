"""What each uncertain input does to each quantity: one build per input, shifted by its standard uncertainty."""

from __future__ import annotations

from dataclasses import replace

from hushwright.errors import InvalidInput
from hushwright.evaluation.core import Core, couple
from hushwright.evaluation.guard import CannotEvaluate
from hushwright.evaluation.held import held_geometry
from hushwright.evaluation.results import Contribution, Quantity
from hushwright.model.build import Build, Input
from hushwright.model.resolve import resolve

_LEAST_CHANGE = 1e-9
"""Change in the unit of a quantity that is rounding noise."""


def with_contributions(build: Build, core: Core, *, hold: bool = True) -> tuple[dict[str, Quantity], tuple[str, ...]]:
    """Add to every quantity what each uncertain input, moved by its standard uncertainty, changes in it.

    Parameters
    ----------
    build : Build
        Build as the file has it.
    core : Core
        What was computed for it.
    hold : bool, optional
        Whether shapes of rooms that move by less than one percent are held for the sound.

    Returns
    -------
    tuple of dict and tuple
        Quantities with their contributions, largest first, and a note for each input that could not be moved.

    Notes
    -----
    Inputs move up by one standard uncertainty; where that leaves what the file, the model or a law takes, they move
    down, and the change is taken with its sign turned. The uncertainty of a quantity is the root of the sum of the
    squares.
    """
    found: dict[str, list[Contribution]] = {key: [] for key in core.quantities}
    notes = []
    for each in build.inputs:
        moved = _moved(build, each, hold)
        if moved is None:
            notes.append(
                f"{each.label} ({each.path}): no law takes it {each.standard_uncertainty:.3g} higher or lower than "
                f"{each.value:.3g}, so its share of the uncertainty is left out"
            )
            continue
        sign, other = moved
        for key, quantity in core.quantities.items():
            if key in other:
                change = sign * (other[key].value - quantity.value)
                if abs(change) > _LEAST_CHANGE:
                    found[key].append(Contribution(each.path, each.label, change))
    quantities = {
        key: replace(quantity, contributions=tuple(sorted(found[key], key=lambda each: -abs(each.change))))
        for key, quantity in core.quantities.items()
    }
    return quantities, tuple(notes)


def _moved(build: Build, uncertain: Input, hold: bool) -> tuple[float, dict[str, Quantity]] | None:
    """Quantities with one input moved, and the direction; `None` where it can go neither way."""
    for sign in (1.0, -1.0):
        if sign < 0.0 and 0.0 <= uncertain.value <= uncertain.standard_uncertainty:
            continue  # below zero is no size, no loss and no share
        shift = {uncertain.path: sign * uncertain.standard_uncertainty}
        try:
            moved, _ = resolve(build.document, build.library, shifts=shift)
            if moved is not None:
                return sign, couple(moved, held_geometry(moved, build) if hold else moved).quantities
        except (InvalidInput, CannotEvaluate):
            continue
    return None
