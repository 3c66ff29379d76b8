"""Exponential of a small matrix, without a quarter of a second of imports."""

from __future__ import annotations

import math

import numpy as np

from hushwright.physics.airflow._guard import FloatArray

_LARGEST = 0.5
"""Norm up to which the series is summed."""

_TERMS = 16
"""Terms of the series: 0.5^17/17! is below the last bit."""


def matrix_exponential(matrix: FloatArray) -> FloatArray:
    """Exponential of a square matrix by scaling, series and squaring.

    Parameters
    ----------
    matrix : ndarray, shape (n, n)
        Finite numbers [-].

    Returns
    -------
    ndarray, shape (n, n)
        Its exponential [-].

    References
    ----------
    .. [1] C. Moler and C. Van Loan, "Nineteen dubious ways to compute the exponential of a matrix, twenty-five years
       later", *SIAM Review* 45 (2003) 3-49, method 3.

    Examples
    --------
    >>> matrix_exponential(np.array([[0.0, 1.0], [0.0, 0.0]])).tolist()
    [[1.0, 1.0], [0.0, 1.0]]
    """
    norm = float(np.max(np.sum(np.abs(matrix), axis=1), initial=0.0))
    squarings = max(0, math.ceil(math.log2(norm / _LARGEST))) if norm > 0.0 else 0
    scaled = matrix / 2.0**squarings
    term = np.eye(len(matrix))
    found = term.copy()
    for order in range(1, _TERMS + 1):
        term = term @ scaled / order
        found += term
    for _ in range(squarings):
        found = found @ found
    return found
