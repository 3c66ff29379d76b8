"""The cab as a room of glass: what it lets in towards the wall behind it."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import Bands
from hushwright.evaluation.sound.absorption import thirds_from_octaves
from hushwright.evaluation.sound.faces import Setting, predict
from hushwright.evaluation.sound.links import bands
from hushwright.evaluation.sound.outside import Outside
from hushwright.library.records import AbsorptionRow, Glass, VanBody
from hushwright.model.build import Build
from hushwright.physics.acoustics.bands import N_BANDS
from hushwright.physics.acoustics.layers import Plate
from hushwright.physics.acoustics.partition import Partition

_OTHER_ABSORPTION = 1.5  # m², roof lining, carpet and dashboard of a cab; common practice, no source


def cab_level(build: Build, outside: Outside, setting: Setting) -> Bands:
    """Diffuse level in the cab, whose windscreen and door windows rule; its sheet metal is left out."""
    with at("vehicle.body"):
        return _level(build.vehicle.body, build.vehicle.seats, outside, setting)


@lru_cache(maxsize=256)
def _level(body: VanBody, seats: int, outside: Outside, setting: Setting) -> Bands:
    seat = setting.library.find(AbsorptionRow, "medium upholstered seat, unoccupied")
    absorption = _OTHER_ABSORPTION + seats * np.asarray(thirds_from_octaves(seat.absorption))
    energy = np.zeros(N_BANDS)
    panes = (
        ("front", body.windscreen_area.value, body.windscreen_thickness.value),
        ("left", body.cab_window_area.value / 2.0, body.cab_window_thickness.value),
        ("right", body.cab_window_area.value / 2.0, body.cab_window_thickness.value),
    )
    for face, area, thickness in panes:
        energy += area * _pane(area, thickness, setting) * 10.0 ** (np.asarray(outside.level[face]) / 10.0)
    return bands(10.0 * np.log10(energy / absorption))


def _pane(area: float, thickness: float, setting: Setting) -> np.ndarray:
    glass = setting.library.find(Glass, "float glass")
    plate = Plate(
        thickness, glass.density.value, glass.youngs_modulus.value, glass.poisson.value, glass.loss_factor.value
    )
    side = area**0.5
    result = predict(Partition((plate,), side, side), setting)
    return 10.0 ** (-np.asarray(result.reduction) / 10.0)
