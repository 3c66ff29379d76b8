"""One mass on one spring over a base that does not move: natural frequency and transmissibility."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.air import STANDARD_GRAVITY
from hushwright.physics.mechanics._guard import FloatArray, not_negative, positive


def natural_frequency(static_deflection: float, dynamic_ratio: float = 1.0) -> float:
    """Natural frequency of a mass from how far it pressed its spring down.

    Parameters
    ----------
    static_deflection : float
        Deflection under the weight [m].
    dynamic_ratio : float, optional
        Dynamic over static stiffness [-]; 1 for steel springs.

    Returns
    -------
    float
        Natural frequency [Hz], ``√(g κ/δ)/2π``.

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    >>> round(natural_frequency(0.005), 2), round(natural_frequency(0.005, 1.4), 2)
    (7.05, 8.34)
    """
    ratio = positive("dynamic ratio", dynamic_ratio, "")
    return math.sqrt(STANDARD_GRAVITY * ratio / positive("static deflection", static_deflection, "m")) / math.tau


def viscous_transmissibility(frequency_ratio: ArrayLike, damping_ratio: float) -> FloatArray:
    """Force or motion passed by one spring and dashpot under one mass.

    Parameters
    ----------
    frequency_ratio : array_like, shape (n_frequency,)
        Frequency over natural frequency [-].
    damping_ratio : float
        Share of critical damping [-].

    Returns
    -------
    ndarray, shape (n_frequency,)
        Transmissibility [-].

    Raises
    ------
    InvalidInput
        If the damping is negative, or zero exactly at resonance.

    Notes
    -----
    ``T = √((1 + (2ζr)²)/((1 − r²)² + (2ζr)²))``; 1 at r = √2 whatever the damping.

    References
    ----------
    .. [1] ISO 2041:2018, *Mechanical vibration, shock and condition monitoring – Vocabulary*.

    Examples
    --------
    >>> round(float(viscous_transmissibility(7.930, 0.05)), 4)
    0.0206
    """
    ratio = np.asarray(frequency_ratio, dtype=np.float64)
    loss = 2.0 * not_negative("damping ratio", damping_ratio, "") * ratio
    return _transmissibility(ratio, loss)


def rubber_transmissibility(frequency_ratio: ArrayLike, loss_factor: float) -> FloatArray:
    """Force or motion passed by one rubber spring under one mass, losses the same at all frequencies.

    Parameters
    ----------
    frequency_ratio : array_like, shape (n_frequency,)
        Frequency over natural frequency [-].
    loss_factor : float
        Loss factor [-].

    Returns
    -------
    ndarray, shape (n_frequency,)
        Transmissibility [-], ``|1 + jη|/|1 − r² + jη|``.

    Raises
    ------
    InvalidInput
        If the loss factor is negative, or zero exactly at resonance.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    >>> round(float(rubber_transmissibility(1.0, 0.1)), 2)
    10.05
    """
    ratio = np.asarray(frequency_ratio, dtype=np.float64)
    return _transmissibility(ratio, np.full(ratio.shape, not_negative("loss factor", loss_factor, "")))


def _transmissibility(ratio: FloatArray, loss: FloatArray) -> FloatArray:
    """Common form of both: ``|1 + j l|/|1 − r² + j l|``."""
    below = np.abs(1.0 - ratio**2 + 1j * loss)
    if np.any(ratio < 0.0) or np.any(below == 0.0):
        raise InvalidInput(f"frequency ratio {ratio.tolist()} with no damping has no finite transmissibility")
    return np.asarray(np.abs(1.0 + 1j * loss) / below, dtype=np.float64)
