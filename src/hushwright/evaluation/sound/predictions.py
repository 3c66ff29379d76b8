"""Sound reduction, rating and resonances of each face and opening, for reports."""

from __future__ import annotations

from functools import lru_cache

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import FacePrediction, Resonance
from hushwright.evaluation.sound.faces import Setting, opening_partition, predict, surface_partition
from hushwright.evaluation.sound.instruments import lets_through
from hushwright.model.build import Build
from hushwright.physics.acoustics.partition import Partition
from hushwright.physics.acoustics.ratings import rate

_rated = lru_cache(maxsize=512)(rate)


def face_predictions(build: Build, setting: Setting) -> tuple[tuple[FacePrediction, ...], tuple[Resonance, ...]]:
    """All faces with layers and all leaves of openings.

    Parameters
    ----------
    build : Build
        With its mounts loaded.
    setting : Setting
        Air and skin.

    Returns
    -------
    tuple of two tuples
        Predictions, and resonances of all of them.
    """
    faces: list[FacePrediction] = []
    resonances: list[Resonance] = []
    for room in build.rooms:
        for surface in room.surfaces:
            if surface.layers:
                with at(surface.place):
                    partition = surface_partition(surface, setting)
                    face, found = face_prediction(
                        surface.name, surface.beyond, partition, surface.area, surface.place, setting
                    )
                faces.append(face)
                resonances += found
    for opening in build.openings:
        with at(opening.place):
            leaf = opening_partition(opening, setting)
            if leaf is None:
                continue
            face, found = face_prediction(opening.name, opening.face, leaf, opening.area, opening.place, setting)
        faces.append(face)
        resonances += found
    return tuple(faces), tuple(resonances)


def face_prediction(
    name: str, beyond: str, partition: Partition, area: float, place: str, setting: Setting
) -> tuple[FacePrediction, list[Resonance]]:
    """Ratings and resonances of one partition."""
    result = predict(partition, setting)
    rating = _rated(result.reduction)
    face = FacePrediction(
        name, beyond, result.reduction, result.standard_uncertainty, rating.rw, rating.spectrum_adaptation_term_c,
        rating.spectrum_adaptation_term_ctr, rating.stc, rating.oitc,
        result.surface_density, result.thickness, area, result.construction, result.validity, place,
    )  # fmt: skip
    found = [
        Resonance(name, each.kind, each.frequency, each.text, lets_through(each.frequency))
        for each in result.resonances
    ]
    return face, found
