"""Each run of the ventilation as a way of the sound: outdoors in through the duct, crosstalk between rooms."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

import numpy as np

from hushwright.evaluation.air.pieces import sound_parts
from hushwright.evaluation.guard import at
from hushwright.evaluation.sound.links import Link, bands
from hushwright.evaluation.sound.passages import OUTDOORS
from hushwright.model.air_in_place import RunInPlace
from hushwright.model.build import Build
from hushwright.physics.acoustics.duct_path import run_loss
from hushwright.physics.air import Air

_UNNAMED = "ceiling"
"""Face in which a run ends where no opening names it."""

_LEAST_UNCERTAINTY = 2.0
"""dB, of the loss of a whole run; common practice, no source."""


def run_links(build: Build, air: Air) -> tuple[Link, ...]:
    """Each run as a way of the sound between its two spaces, through whatever lies in it.

    Parameters
    ----------
    build : Build
        With its runs; a duct among the openings that names a run says in which face it ends.
    air : Air
        Air in the ducts.

    Returns
    -------
    tuple of Link
        Runs whose opening has an insertion loss of its own are left out: that opening is their way.
    """
    faces = {opening.run: (opening.room, opening.face, opening.place) for opening in build.openings if opening.run}
    return _run_links(build.air.runs, tuple(faces.items()), tuple(room.name for room in build.rooms), air)


@lru_cache(maxsize=256)
def _run_links(
    runs: tuple[RunInPlace, ...], faces: tuple[tuple[str, tuple[str, str, str]], ...], rooms: tuple[str, ...], air: Air
) -> tuple[Link, ...]:
    named: Mapping[str, tuple[str, str, str]] = dict(faces)
    return tuple(_run_link(run, named.get(run.name), rooms, air) for run in runs)


def _run_link(run: RunInPlace, named: tuple[str, str, str] | None, rooms: tuple[str, ...], air: Air) -> Link:
    near, far = (run.gives_to, run.takes_from) if run.gives_to in rooms else (run.takes_from, run.gives_to)
    if named is not None and named[0] in (run.gives_to, run.takes_from):
        near, far = named[0], run.gives_to if named[0] == run.takes_from else run.takes_from
    face = named[1] if named is not None else _UNNAMED
    beyond = run.outdoor_end if far not in rooms else _facing(face)
    with at(run.place):
        loss = run_loss(sound_parts(run, air))
    area = run.ends[0 if far == run.takes_from else 1].shape.area
    through = area * 10.0 ** (-np.asarray(loss.attenuation) / 10.0)
    place = named[2] if named is not None else run.place
    name, space = f"{run.name.replace('_', ' ')} duct", far if far in rooms else OUTDOORS
    unsure = bands(np.maximum(loss.standard_uncertainty, _LEAST_UNCERTAINTY))
    return Link(name, space, beyond, near, face, area, bands(through), unsure, place, "duct")


def _facing(face: str) -> str:
    """Face of the room beyond that looks at this one."""
    return {"front": "rear", "rear": "front"}.get(face, face)
