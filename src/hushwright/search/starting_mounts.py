"""How many mounts a first build stands on: chosen by what they carry, empty on the road and with everybody in."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.evaluation.sound.floor import floating_room
from hushwright.library.library import Library
from hushwright.library.records import Limit, MountRecord
from hushwright.model.build import Build
from hushwright.physics.air import STANDARD_GRAVITY, Air

MOUNTS = ("rubber floor mount 130 N/mm", "rubber floor mount 60 N/mm")
"""Mounts of a first build; the softer one carries what is too light for the other."""
_ROWS = tuple((along, across) for across in (3, 2) for along in range(2, 11))
_SPARE = 1.25  # of the lowest load, so that it is carried for sure with masses known to a tenth
_USED = 0.85  # of the highest load, for the same reason


@dataclass(frozen=True, slots=True)
class MountRows:
    """A kind of mount and its rows along and across the floor."""

    mount: str
    along: int
    across: int


def mount_rows(build: Build, library: Library) -> MountRows | None:
    """Rows that carry the room of a build as it is on any mounts.

    Parameters
    ----------
    build : Build
        A first build on some number of equal mounts.
    library : Library
        For the loads of the mounts.

    Returns
    -------
    MountRows or None
        The most mounts that all carry more than their lowest load in every state, of the first kind that bears the
        fullest one; ``None`` where nothing floats.
    """
    air = Air(build.brief.air_temperature)
    floats = [one for state in build.states if (one := floating_room(build, state, air)) is not None]
    loads = [[each.load for each in one.result.loads] for one in floats]
    if not loads:
        return None
    least = min(min(each) * len(each) for each in loads)  # shared by n mounts, the least loaded bears a n-th of this
    most = max(max(each) * len(each) for each in loads)
    for name in MOUNTS:
        record = library.find(MountRecord, name)
        lowest = _use(library, "mount least load use") * record.lowest_load.value / STANDARD_GRAVITY
        highest = _use(library, "mount load use") * record.highest_load.value / STANDARD_GRAVITY
        fewest, largest = most / (_USED * highest), least / (_SPARE * lowest)
        can = [rows for rows in _ROWS if fewest <= rows[0] * rows[1] <= largest]
        if can:
            along, across = max(can, key=lambda rows: rows[0] * rows[1])
            return MountRows(name, along, across)
    return MountRows(MOUNTS[-1], 2, 2)


def _use(library: Library, name: str) -> float:
    return library.find(Limit, name).value.value
