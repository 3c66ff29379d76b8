"""Battens and bearers of a face piece by piece: what is drawn, listed, cut, bought and weighed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from hushwright.model.faces import BattenInPlace, FrameInPlace, LayerInPlace, Surface
from hushwright.model.parts import MountSet, OpeningInPlace
from hushwright.model.wheel_boxes import WheelBoxes

Placed = tuple[tuple[LayerInPlace, ...], tuple[BattenInPlace, ...]]


def placed_battens(
    face: str,
    front: float,
    size: tuple[float, float],
    layers: tuple[LayerInPlace, ...],
    mounts: Sequence[MountSet],
    boxes: WheelBoxes,
) -> Placed:
    """Battens and bearers of a face, and its layers with the spacing at which they stand.

    Parameters
    ----------
    face : str
        Name of the face.
    front : float
        Station of the room's front [m].
    size : tuple of float
        Width and height of the developed face [m]; of a floor, its length and width.
    layers : tuple of LayerInPlace
        Layers with the spacing that the file asks for.
    mounts : sequence of MountSet
        Mounts, on whose rows bearers lie.
    boxes : WheelBoxes
        What lined wheel boxes take of the room; no piece runs into them.

    Returns
    -------
    tuple of layers and battens
        The layers and every piece.
    """
    width, height = size
    found: list[LayerInPlace] = []
    pieces: list[BattenInPlace] = []
    for index, layer in enumerate(layers):
        frame = layer.cavity.frame if layer.cavity is not None else None
        if layer.cavity is None or frame is None or frame.depth <= 0.0:
            found.append(layer)
            continue
        rows = [station - front for station in _rows(layer.cavity.mount_group, mounts)]
        places = bearer_places(width, rows, frame) if rows else batten_places(0.0, width, frame)
        for along in places:
            reach = (front + along - frame.width / 2.0, front + along + frame.width / 2.0)
            pieces.append(BattenInPlace(index, along, *boxes.clear_of(face, reach, height)))
        spacing = (places[-1] - places[0]) / (len(places) - 1) if len(places) > 1 else width
        cavity = replace(layer.cavity, frame=replace(frame, spacing=spacing))
        found.append(replace(layer, cavity=cavity))
    return tuple(found), tuple(pieces)


def _rows(group: str, mounts: Sequence[MountSet]) -> tuple[float, ...]:
    """Stations of the rows of a group, front first."""
    return tuple(sorted({station for each in mounts if each.name == group for station, _ in each.places}))


def bearer_places(length: float, rows: Sequence[float], frame: FrameInPlace) -> tuple[float, ...]:
    """Middle of every bearer: one over each row of mounts, more between rows that lie further apart than the spacing.

    Rows closer together than a bearer is wide share one; a row at the very edge has its bearer just inside it.

    Parameters
    ----------
    length : float
        Length of the floor [m].
    rows : sequence of float
        Rows of mounts, from its front [m].
    frame : FrameInPlace
        Bearers.

    Returns
    -------
    tuple of float
        Places [m].
    """
    over = _over_rows(length, rows, min(frame.width, length))
    found = over[:1]
    for start, end in zip(over, over[1:], strict=False):
        steps = _steps(end - start, frame)
        found += [start + (end - start) * step / steps for step in range(1, steps + 1)]
    return tuple(found)


def _over_rows(length: float, rows: Sequence[float], width: float) -> list[float]:
    """Bearers that the rows need, none over another: from the front on, then back from the rear edge."""
    shared: list[list[float]] = []
    for row in sorted(min(max(row, width / 2.0), length - width / 2.0) for row in rows):
        if shared and row - shared[-1][0] < width:
            shared[-1].append(row)
        else:
            shared.append([row])
    found: list[float] = []
    for group in shared:
        middle = (group[0] + group[-1]) / 2.0
        found.append(max(middle, found[-1] + width) if found else middle)
    limit = length - width / 2.0
    for index in reversed(range(len(found))):
        found[index] = min(found[index], limit)
        limit = found[index] - width
    return found


def _steps(length: float, frame: FrameInPlace) -> int:
    """Spaces into which a length is parted: about the spacing each, none narrower than a batten is wide."""
    return max(min(round(length / frame.spacing), int(length / frame.width + 1e-9)), 1)


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
        Places [m]; one alone where two would overlap.
    """
    if high - low < 2.0 * frame.width:
        return ((low + high) / 2.0,)
    first, last = low + frame.width / 2.0, high - frame.width / 2.0
    count = _steps(last - first, frame)
    return tuple(first + (last - first) * index / count for index in range(count + 1))


def places_of(face: Surface | OpeningInPlace, layer: LayerInPlace) -> tuple[float, ...]:
    """Middle of every batten or bearer in a layer, over the width of a face or of one leaf [m]."""
    frame = layer.cavity.frame if layer.cavity is not None else None
    if frame is None or frame.depth <= 0.0:
        return ()
    if isinstance(face, Surface):
        index = face.layers.index(layer)
        return tuple(each.along for each in face.battens if each.layer == index)
    return batten_places(0.0, face.leaf_size[0], frame)


def pieces_of(face: Surface | OpeningInPlace, layer: LayerInPlace) -> tuple[float, ...]:
    """Length of every batten or bearer in a layer of a face or of a leaf [m]; nothing where it has none.

    Battens run over the whole face: what an opening cuts out of them frames that opening.
    """
    if isinstance(face, Surface):
        index = face.layers.index(layer)
        return tuple(each.length for each in face.battens if each.layer == index)
    return (face.leaf_size[1],) * (face.number * len(places_of(face, layer)))


def batten_mass(face: Surface | OpeningInPlace, layer: LayerInPlace) -> float:
    """Mass of all battens or bearers in a layer of a face or of a leaf [kg]."""
    frame = layer.cavity.frame if layer.cavity is not None else None
    return 0.0 if frame is None else frame.mass_per_length * math.fsum(pieces_of(face, layer))
