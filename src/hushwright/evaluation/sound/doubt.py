"""Of what the doubt about a background is made, and what is left of it when one part is found out."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from hushwright.evaluation.results import Background, Quantity
from hushwright.evaluation.sound.background import deciding_band, vehicle_allowance
from hushwright.evaluation.sound.deciding import target_of
from hushwright.evaluation.sound.uncertainty import OUT_OF_THE_SUM, weighted_uncertainty
from hushwright.library.records import Limit
from hushwright.model.build import Build
from hushwright.model.wishes import METER_UNCERTAINTY
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.weighting import A_WEIGHTING

_NOWHERE = (0.0,) * len(THIRD_OCTAVE_BANDS)


@dataclass(frozen=True, slots=True)
class Doubt:
    """Standard uncertainty of a background by what causes it, in the unit of the quantity.

    ``left_with_level`` is what is left once the level outdoors is measured, ``left_with_vans`` once three vans of the
    workshop are measured and compared, ``left_with_both`` with both.
    """

    ways: float
    places: float
    vehicle: float
    outdoors: float
    inputs: float
    left_with_level: float
    left_with_vans: float
    left_with_both: float


def doubt_of(found: Background, quantity: Quantity, build: Build) -> Doubt:
    """Take the uncertainty of a background apart.

    Parameters
    ----------
    found : Background
        With its ways and their uncertainty [dB].
    quantity : Quantity
        Its value as the brief asks for it.
    build : Build
        Whose tolerances say how many vans were measured.
    """
    deciding = deciding_band(found.levels, target_of(found, build))
    weights = A_WEIGHTING if deciding is None else np.where(deciding[1], 0.0, OUT_OF_THE_SUM)
    ways = weighted_uncertainty(found.paths, _NOWHERE, 0.0, weights)
    with_places = weighted_uncertainty(found.paths, found.spread_over_places, 0.0, weights)
    places = math.sqrt(max(with_places**2 - ways**2, 0.0))
    vehicle, outdoors = vehicle_allowance(build), _outdoors(found, build)
    known = build.library.find(Limit, "vehicle allowance, three vans measured").value.value
    # The quantity may be a number of a curve, which steps otherwise than decibels.
    decibels = math.hypot(ways, places, vehicle, outdoors)
    step = quantity.method_uncertainty / decibels if decibels > 0.0 else 1.0
    inputs = math.sqrt(max(quantity.standard_uncertainty**2 - quantity.method_uncertainty**2, 0.0))

    def left(allowance: float, level: float) -> float:
        return math.hypot(step * math.hypot(ways, places, allowance, level), inputs)

    least = min(known, vehicle)
    metered = min(outdoors, METER_UNCERTAINTY)
    return Doubt(step * ways, step * places, step * vehicle, step * outdoors, inputs,
                 left(vehicle, metered), left(least, outdoors), left(least, metered))  # fmt: skip


def _outdoors(found: Background, build: Build) -> float:
    """Spread of the level of a kind of place; that of a meter where the level is typed [dB]."""
    if found.key.startswith("rain/"):
        return 0.0
    return next((each.level_uncertainty for each in build.brief.situations if each.name == found.situation), 0.0)
