"""How far predictions of a class of construction were from published measurements."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from functools import lru_cache
from importlib import resources
from typing import Final

from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.bridges import Bridge
from hushwright.physics.acoustics.layers import BondedPlates, DampedPlate, LooseBoards, Plate
from hushwright.physics.acoustics.resonances import LeafLayers

CONSTRUCTIONS: Final = (
    "single leaf",
    "single glazing",
    "double glazing",
    "uncoupled double leaf",
    "double leaf on compliant bridges",
    "double leaf on stiff bridges",
    "masonry",
)
"""Classes of construction that have an uncertainty of their own."""

_MASONRY = 75.0
"""Surface density [kg/m²] from which one leaf counts as masonry."""

INTERVAL: Final = 1.645
"""Half-width of an interval that holds 90 % over its standard uncertainty [-], normal distribution."""

SHARED_BETWEEN_BUILD_UPS: Final = 0.25
"""Share [-] of the squared error that two different build-ups of one class have in common; the mean product of their
errors over the mean square is 0.0 to 0.22 in the fit half of light walls and glazing, see docs/accuracy.md."""

_GROWTH_BELOW_100 = 0.1
"""Growth of the uncertainty per third octave below 100 Hz [-]; laboratories themselves scatter about so much more there
(ISO 12999-1:2020, from memory: 50 Hz about 1.6 times 100 Hz)."""


def classify(leaves: Sequence[LeafLayers], bridges: Sequence[Bridge]) -> str:
    """Class of construction.

    Parameters
    ----------
    leaves : sequence of LeafLayers
        Leaves, outside in (surface density [kg/m²]).
    bridges : sequence of Bridge
        Bridges between them (per area [1/m] or [1/m²]).

    Returns
    -------
    str
        One of `CONSTRUCTIONS` [-].

    References
    ----------
    .. [1] docs/accuracy.md: the classes of the accuracy table.

    Examples
    --------
    >>> classify((), ())
    'single leaf'
    """
    glazing = bool(leaves) and all(is_glass(leaf) for leaf in leaves)
    if len(leaves) < 2:
        if glazing:
            return "single glazing"
        return "masonry" if leaves and leaves[0].surface_density > _MASONRY else "single leaf"
    if glazing:
        return "double glazing"
    if not bridges:
        return "uncoupled double leaf"
    stiff = any(_is_stiff(bridge) for bridge in bridges)
    return "double leaf on stiff bridges" if stiff else "double leaf on compliant bridges"


def _is_stiff(bridge: Bridge) -> bool:
    stiffness = getattr(bridge, "stiffness_per_length", getattr(bridge, "stiffness", None))
    return stiffness is None


def is_glass(leaf: LeafLayers) -> bool:
    """Whether a leaf is glass, by density and modulus.

    Parameters
    ----------
    leaf : LeafLayers
        The leaf (surface density [kg/m²]).

    Returns
    -------
    bool
        Whether all its sheets are glass [-].

    References
    ----------
    .. [1] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, table A2.

    Examples
    --------
    >>> pane = Plate(0.006, 2500.0, 64e9, 0.24, 0.03)
    >>> is_glass(LeafLayers(0, 0, (pane,), None))
    True
    """
    for layer in leaf.layers:
        if isinstance(layer, Plate):
            plates: tuple[Plate, ...] = (layer,)
        elif isinstance(layer, BondedPlates | LooseBoards):
            plates = layer.plates
        elif isinstance(layer, DampedPlate):
            plates = (layer.plate,)
        else:
            return False
        if not all(2350.0 <= p.density <= 2620.0 and 5e10 <= p.youngs_modulus <= 9e10 for p in plates):
            return False
    return True


@lru_cache(maxsize=1)
def _table() -> dict[str, tuple[float, float, float]]:
    """Standard uncertainty of a band, of one from 3150 Hz on, and of a rating, by class."""
    text = resources.files("hushwright.physics.acoustics").joinpath("prediction_spread.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {
        row["construction"]: (float(row["band_db"]), float(row["high_band_db"]), float(row["rating_db"]))
        for row in rows
    }


def standard_uncertainty(construction: str) -> tuple[tuple[float, ...], float]:
    """Standard uncertainty of a predicted sound reduction.

    Parameters
    ----------
    construction : str
        Class of construction [-].

    Returns
    -------
    tuple
        Per third octave (27 values) [dB], and of a single-number rating [dB].

    Raises
    ------
    KeyError
        If the class is unknown.

    Notes
    -----
    Half-width of the interval that holds 90 % of the errors of the fit half of the published rows, over 1.645; wider
    by a tenth per third octave below 100 Hz [1]_. Leaves that nothing joins are few among the rows with octaves; double
    windows, where the space decides as well, stand in for them.

    References
    ----------
    .. [1] ISO 12999-1:2020, *Determination and application of measurement uncertainties in building acoustics – Part
       1*.

    Examples
    --------
    >>> bands, rating = standard_uncertainty("single leaf")
    >>> bands[0] > bands[10]
    True
    """
    band, high_band, rating = _table()[construction]
    start, high = THIRD_OCTAVE_BANDS.index(100), THIRD_OCTAVE_BANDS.index(3150)
    widths = tuple(
        (high_band if i >= high else band) * (1.0 + _GROWTH_BELOW_100 * max(0, start - i))
        for i in range(len(THIRD_OCTAVE_BANDS))
    )
    return widths, rating
