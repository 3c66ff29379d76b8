"""Battens and bearers of a face piece by piece: what is drawn, listed and bought."""

from __future__ import annotations

from hushwright.model.faces import FrameInPlace, LayerInPlace, Surface
from hushwright.model.parts import OpeningInPlace


def batten_places(low: float, high: float, frame: FrameInPlace) -> tuple[float, ...]:
    """Middle of every batten: one at each end, the rest about their spacing apart.

    Parameters
    ----------
    low, high : float
        Ends of the face [m].
    frame : FrameInPlace
        Battens.

    Returns
    -------
    tuple of float
        Places [m].
    """
    first, last = low + frame.width / 2.0, high - frame.width / 2.0
    count = max(round((last - first) / frame.spacing), 1)
    return tuple(first + (last - first) * index / count for index in range(count + 1))


def pieces_of(face: Surface | OpeningInPlace, layer: LayerInPlace) -> tuple[float, ...]:
    """Length of every batten or bearer in a layer of a face or of a leaf [m]; nothing where it has none.

    Each runs over the whole face: what an opening cuts out of it frames that opening.
    """
    frame = layer.cavity.frame if layer.cavity is not None else None
    if frame is None:
        return ()
    number = face.number if isinstance(face, OpeningInPlace) else 1
    return (face.height,) * (number * len(batten_places(0.0, face.width, frame)))
