"""Rating of sound absorbers after ISO 11654."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.rating_contours import half_up


@dataclass(frozen=True, slots=True)
class AbsorptionRating:
    """ISO 11654 rating: weighted coefficient [-], shape indicator ("", "L", "M", "H" or joined) and class A–E or ""."""

    weighted: float
    indicator: str
    absorption_class: str


def absorption_rating(absorption: ArrayLike) -> AbsorptionRating:
    """Weighted absorption coefficient, shape indicator and class after ISO 11654.

    Parameters
    ----------
    absorption : array_like, shape (27,) or (5,)
        Absorption coefficient [-] in third octaves 25 Hz–10 kHz, or the practical coefficient in the octaves
        250–4000 Hz.

    Returns
    -------
    AbsorptionRating
        Weighted coefficient [-], indicator, class.

    Raises
    ------
    InvalidInput
        If the shape is another or a value is negative.

    Notes
    -----
    Thirds are averaged into octaves and rounded to 0.05, at most 1.00. The curve 0.80, 1.00, 1.00, 1.00, 0.90 is moved
    down in steps of 0.05 until the values lack no more than 0.10 together. An indicator is set where a value exceeds
    the moved curve by 0.25 or more [1]_.

    References
    ----------
    .. [1] ISO 11654:1997, *Sound absorbers for use in buildings* (reference curve and classes from memory).

    Examples
    --------
    >>> absorption_rating([0.35, 0.70, 0.65, 0.60, 0.55])
    AbsorptionRating(weighted=0.6, indicator='', absorption_class='C')
    """
    values = np.asarray(absorption, dtype=np.float64)
    if values.shape == (len(THIRD_OCTAVE_BANDS),):
        values = values.reshape(9, 3)[3:8].mean(axis=1)
    if values.shape != (5,) or np.any(~np.isfinite(values)) or np.any(values < 0):
        raise InvalidInput(f"absorption {np.asarray(absorption).tolist()}; give 27 thirds or 5 octaves, none negative")
    # Twentieths as integers keep the comparison with 0.10 exact.
    practical = np.minimum(half_up(values, 0.05), 20)
    curve = np.array([16, 20, 20, 20, 18])
    shift = next(shift for shift in range(21) if np.maximum(curve - shift - practical, 0).sum() <= 2)
    excess = practical - np.maximum(curve - shift, 0) >= 5
    indicator = "".join(
        letter for letter, hit in zip("LMH", (excess[0], excess[1:3].any(), excess[3:].any()), strict=True) if hit
    )
    twentieths = 20 - shift
    floors = (("A", 18), ("B", 16), ("C", 12), ("D", 6), ("E", 3))
    return AbsorptionRating(
        round(twentieths * 0.05, 2), indicator, next((name for name, floor in floors if twentieths >= floor), "")
    )
