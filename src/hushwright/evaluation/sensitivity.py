"""What each uncertain input does to each quantity: one build per input, shifted by its standard uncertainty."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from hushwright.errors import InvalidInput
from hushwright.evaluation.couple import Core, couple, couple_sound
from hushwright.evaluation.guard import CannotEvaluate
from hushwright.evaluation.held import held_geometry
from hushwright.evaluation.results import Contribution, Quantity
from hushwright.model.brief import SHADOWS
from hushwright.model.build import Build, Input
from hushwright.model.resolve import moved

_LEAST_CHANGE = 1e-9
"""Change in the unit of a quantity that is rounding noise."""


@dataclass(frozen=True, slots=True)
class InputChanges:
    """What one input, moved by its standard uncertainty, changes in each quantity; `None` where no law takes it."""

    path: str
    changes: tuple[tuple[str, float], ...] | None


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
    """
    return joined(build, core.quantities, changes_by(build, core, build.inputs, hold=hold))


def changes_by(build: Build, core: Core, inputs: Sequence[Input], *, hold: bool = True) -> tuple[InputChanges, ...]:
    """Move some of the inputs of a build, one after the other.

    Parameters
    ----------
    build : Build
        Build as the file has it.
    core : Core
        What was computed for it.
    inputs : sequence of Input
        Which to move: all, or the part that one of several processes takes.
    hold : bool, optional
        Whether shapes of rooms that move by less than one percent are held for the sound.

    Returns
    -------
    tuple of InputChanges
        One for each input, in their order.

    Notes
    -----
    Inputs move up by one standard uncertainty; where that leaves what the file, the model or a law takes, they move
    down, and the change is taken with its sign turned. Slits move both ways, since what they let through goes up
    steeply with their width: the mean of both changes counts. The uncertainty of a quantity is the root of the sum of
    the squares.
    """
    origin = _met(_Origin(build, core, build.inputs, (build.library, *_read_by_moves(build))))
    for each in inputs:
        if (each, hold) not in origin.known:
            origin.known[each, hold] = _changed(origin, each, hold)
    return tuple(origin.known[each, hold] for each in inputs)


NOT_MOVED = ("title", "note", "date", "papers", "prices", "labour", "options", "quote", "handover", "drawings")
"""Parts of a build file that nothing hangs on that an input moves; a test holds the code to it."""


@dataclass(frozen=True, slots=True)
class _Origin:
    """What inputs are moved from: where two builds agree in what is compared, an input changes the same in both."""

    build: Build = field(compare=False)
    core: Core = field(compare=False)
    inputs: tuple[Input, ...]
    read: tuple[object, ...]
    known: dict[tuple[Input, bool], InputChanges] = field(default_factory=dict, compare=False, repr=False)

    def __hash__(self) -> int:
        return hash(self.inputs)  # of the rest it would take longer than to compare it


def _read_by_moves(build: Build) -> Iterator[object]:
    """What a moved build is resolved from: an edit of a price or of the budget leaves all of it as it was."""
    root = build.document.root
    for name in type(root).model_fields:
        if name == "brief":
            yield root.brief.model_copy(update={"budget": None})
        elif name not in NOT_MOVED:
            yield getattr(root, name)


@lru_cache(maxsize=4)
def _met(origin: _Origin) -> _Origin:
    """The first of all origins that are equal, so that they need to be compared only once."""
    return origin


def forget() -> None:
    """Forget what inputs have changed: the next answer is worked out anew."""
    _met.cache_clear()


def _changed(origin: _Origin, each: Input, hold: bool) -> InputChanges:
    quantities = _moved(origin.build, origin.core, each, hold)
    changes = None
    if quantities is not None:
        seen = _changes(quantities, origin.core.quantities)
        changes = tuple((key, change) for key, change in seen.items() if abs(change) > _LEAST_CHANGE)
    return InputChanges(each.path, changes)


def dealt(inputs: Sequence[Input], share: int, shares: int) -> tuple[Input, ...]:
    """Deal the inputs of a build out to processes, each always the same ones.

    Parameters
    ----------
    inputs : sequence of Input
        All of them.
    share : int
        Number of the process, from 0.
    shares : int
        How many there are.

    Returns
    -------
    tuple of Input
        Those of this process. Inputs of one kind stand together and take alike long, so each round is dealt the other
        way round; the first process, which has the nominal numbers to tell as well, comes last in the first.
    """
    backwards, forwards = shares - 1 - share, shares + share
    return tuple(each for index, each in enumerate(inputs) if index % (2 * shares) in (backwards, forwards))


def joined(
    build: Build, quantities: Mapping[str, Quantity], parts: Iterable[InputChanges]
) -> tuple[dict[str, Quantity], tuple[str, ...]]:
    """Join what the inputs change, whoever worked it out and in whatever order, with the nominal quantities.

    Parameters
    ----------
    build : Build
        Build whose inputs were moved.
    quantities : mapping of key to Quantity
        Nominal ones; shares that they have already stay.
    parts : iterable of InputChanges
        One for each input of the build.

    Returns
    -------
    tuple of dict and tuple
        Quantities with their contributions, largest first, and a note for each input that could not be moved.

    Raises
    ------
    InvalidInput
        If an input is missing among the parts.
    """
    by_path = {each.path: each for each in parts}
    found: dict[str, list[Contribution]] = {key: list(each.contributions) for key, each in quantities.items()}
    notes = []
    for each in build.inputs:
        if each.path not in by_path:
            raise InvalidInput(f"what {each.path} changes is not worked out yet")
        changes = by_path[each.path].changes
        if changes is None:
            notes.append(
                f"{each.label} ({each.path}): no law takes it {each.standard_uncertainty:.3g} higher or lower than "
                f"{each.value:.3g}, so its share of the uncertainty is left out"
            )
            continue
        for key, change in changes:
            found[key].append(Contribution(each.path, each.label, change))
    complete = {
        key: replace(quantity, contributions=tuple(sorted(found[key], key=lambda each: -abs(each.change))))
        for key, quantity in quantities.items()
    }
    return complete, tuple(notes)


_STEEP = ("residual_gap", "edge_gap")
"""Ends of the paths of inputs whose law is far from straight over one standard uncertainty."""

_Moved = tuple[tuple[float, dict[str, Quantity]], ...]
"""Quantities with an input moved, each with the direction."""


def _changes(moved: _Moved, nominal: dict[str, Quantity]) -> dict[str, float]:
    """Change of each quantity by one standard uncertainty upward: mean size over the directions, sign of the first."""
    found = {}
    for key, quantity in nominal.items():
        if all(other.get(key) is quantity for _, other in moved):
            continue  # taken over from the nominal build
        changes = [sign * (other[key].value - quantity.value) for sign, other in moved if key in other]
        if changes:
            first = next((each for each in changes if each != 0.0), 0.0)
            found[key] = math.copysign(sum(map(abs, changes)) / len(changes), first)
    return found


def _moved(build: Build, core: Core, uncertain: Input, hold: bool) -> _Moved | None:
    """Quantities with one input moved, and the direction; `None` where it can go neither way."""
    found = []
    for sign in (1.0, -1.0):
        if sign < 0.0 and 0.0 <= uncertain.value <= uncertain.standard_uncertainty:
            continue  # below zero is no size, no loss and no share
        quantities = _with_shift(build, core, uncertain.path, sign * uncertain.standard_uncertainty, hold)
        if quantities is not None:
            found.append((sign, quantities))
            if not uncertain.path.endswith(_STEEP):
                break
    return tuple(found) or None


def _with_shift(build: Build, core: Core, path: str, shift: float, hold: bool) -> dict[str, Quantity] | None:
    """Quantities with one input shifted; `None` where file, model or a law do not take it."""
    try:
        other = moved(build, {path: shift})
        if other is None:
            return None
        sounding = held_geometry(other, build) if hold else other
        if path.endswith(_STEEP) or path.endswith(SHADOWS):
            return couple_sound(other, sounding, core, values_alone=True)
        return couple(other, sounding, beside=core).quantities
    except (InvalidInput, CannotEvaluate):
        return None
