"""Threshold of hearing, and which bands of a spectrum are heard in quiet."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import N_BANDS, THIRD_OCTAVE_BANDS, FloatArray
from hushwright.physics.acoustics.published import published_values

Audibility = Literal["heard", "just heard", "not heard"]


def threshold_of_hearing(
    band: ArrayLike = THIRD_OCTAVE_BANDS, *, field: Literal["free", "diffuse"] = "free"
) -> FloatArray:
    """Reference threshold of hearing, binaural, of young people with normal hearing.

    Parameters
    ----------
    band : array_like, shape (n_band,), optional
        Nominal third-octave bands [Hz], 25 Hz to 10 kHz.
    field : {"free", "diffuse"}, optional
        Tones from the front, or narrow-band noise from all sides [-].

    Returns
    -------
    ndarray
        Sound pressure level at the threshold [dB].

    Raises
    ------
    InvalidInput
        If a band is not in the table.

    Notes
    -----
    Half of the people hear less than this, half more; the standard deviation between people is about 5 dB (common
    practice, no source). Both fields are alike up to 250 Hz.

    References
    ----------
    .. [1] ISO 389-7:2019, *Reference threshold of hearing under free-field and diffuse-field listening conditions*,
       table 1 (found in public transcriptions, read twice).

    Examples
    --------
    >>> threshold_of_hearing([63, 1000]).tolist()
    [37.5, 2.4]
    """
    table = dict(published_values("threshold_of_hearing.csv", "f_", id=field))
    labels = np.atleast_1d(np.asarray(band, dtype=np.float64))
    missing = [float(label) for label in labels if float(label) not in table]
    if missing:
        raise InvalidInput(f"{missing} Hz is not in the table of the threshold of hearing, 25 Hz to 10 kHz")
    return np.array([table[float(label)] for label in labels]).reshape(np.shape(band))


def audibility(
    levels: ArrayLike, standard_uncertainty: ArrayLike, *, field: Literal["free", "diffuse"] = "diffuse"
) -> tuple[Audibility, ...]:
    """Which bands are heard when nothing else sounds.

    Parameters
    ----------
    levels : array_like, shape (27,)
        Sound pressure levels [dB].
    standard_uncertainty : array_like, shape (27,) or scalar
        Standard uncertainty of the levels [dB], ≥ 0.
    field : {"free", "diffuse"}, optional
        Which threshold [-].

    Returns
    -------
    tuple of {"heard", "just heard", "not heard"}, length 27
        "just heard" where the level is within one standard uncertainty of the threshold [-].

    Raises
    ------
    InvalidInput
        If there are not 27 levels or an uncertainty is negative.

    Notes
    -----
    Each band by itself. Below 160 Hz an ear sums over about 100 Hz, so several bands just under the threshold may be
    heard together; a sound with other sounds around it is masked. Neither is counted.

    References
    ----------
    .. [1] ISO 389-7:2019, table 1.

    Examples
    --------
    >>> audibility([36.0] * 27, 3.0)[3:6]
    ('not heard', 'just heard', 'heard')
    """
    third = np.asarray(levels, dtype=np.float64)
    if third.shape != (N_BANDS,):
        raise InvalidInput(f"{third.shape} levels given; audibility needs the {N_BANDS} third-octave bands")
    spread = np.broadcast_to(np.asarray(standard_uncertainty, dtype=np.float64), third.shape)
    if np.any(~(spread >= 0)):
        raise InvalidInput(f"standard uncertainty is {spread.tolist()} dB; it must not be negative")
    above = third - threshold_of_hearing(field=field)
    return tuple(
        "heard" if excess > u else "not heard" if excess < -u else "just heard"
        for excess, u in zip(above.tolist(), spread.tolist(), strict=True)
    )
