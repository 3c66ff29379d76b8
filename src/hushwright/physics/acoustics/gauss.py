"""Gauss–Legendre nodes, computed once per count."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]


@lru_cache(maxsize=128)
def gauss_nodes(count: int) -> tuple[FloatArray, FloatArray]:
    """Nodes and weights on −1 to 1.

    Parameters
    ----------
    count : int
        Number of nodes [-].

    Returns
    -------
    tuple of two ndarrays, shape (count,)
        Nodes and weights [-]; read-only.

    References
    ----------
    .. [1] M. Abramowitz and I. A. Stegun, *Handbook of Mathematical Functions*, 1964, 25.4.29.

    Examples
    --------
    >>> nodes, weights = gauss_nodes(2)
    >>> weights.tolist()
    [1.0, 1.0]
    """
    nodes, weights = np.polynomial.legendre.leggauss(count)
    nodes.setflags(write=False)
    weights.setflags(write=False)
    return nodes, weights
