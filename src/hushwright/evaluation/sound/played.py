"""What is played or sung in the quiet room, as loud as it is there for others than who plays."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hushwright.evaluation.results import Bands
from hushwright.evaluation.sound.between import source_uncertainty
from hushwright.evaluation.sound.outside import sound_power_of
from hushwright.evaluation.sound.sound import Network, Standing
from hushwright.evaluation.sound.ways import source_levels, source_spread
from hushwright.physics.acoustics.weighting import A_WEIGHTING, a_weighted_level


@dataclass(frozen=True, slots=True)
class PlayedInRoom:
    """Source in the quiet room in one state: A-weighted level there [dB(A)] with its standard uncertainty."""

    state: str
    level: float
    uncertainty: float


def played_in(standing: Standing, network: Network) -> PlayedInRoom | None:
    """Level of the source in the quiet room.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    network : Network
        Its fields.

    Returns
    -------
    PlayedInRoom or None
        `None` without a quiet room.
    """
    build = standing.build
    quiet = build.room_for("quiet")
    if quiet is None:
        return None
    field = network.fields[quiet.name]
    levels, _ = source_levels(quiet, field, sound_power_of(build.brief.source, build.brief.source_level))
    level = a_weighted_level(levels)
    if standing.values_alone:
        return PlayedInRoom(standing.state.name, level, 0.0)
    places = _over_places(levels, source_spread(field))
    return PlayedInRoom(standing.state.name, level, float(np.hypot(source_uncertainty(build), places)))


def _over_places(levels: Bands, spread: Bands) -> float:
    """Spread of the A-weighted level over places: that of each band by its share, bands apart."""
    energy = 10.0 ** ((np.asarray(levels) + A_WEIGHTING) / 10.0)
    return float(np.sqrt(np.sum(np.square(energy / energy.sum() * np.asarray(spread)))))
