"""What of a face is covered by the roll: wool between battens bay by bay, mats and foams over the whole face."""

from __future__ import annotations

from hushwright.model.battens import places_of
from hushwright.model.faces import LayerInPlace, Surface
from hushwright.model.parts import OpeningInPlace

ROLLED = ("limp", "foam", "covering", "blanket", "facing")
"""Kinds of layers that come off a roll."""
_SLACK = 1e-4  # m


def bays_of(face: Surface | OpeningInPlace, layer: LayerInPlace) -> tuple[tuple[float, float], ...]:
    """Width and length of every bay of a layer [m]; nothing where it is no wool, mat or foam, or covers a part.

    Bays run as battens do, over the whole face: what an opening cuts out of a strip is an offcut. Wool that lies clear
    of its battens runs on behind them.
    """
    number = face.number if isinstance(face, OpeningInPlace) else 1
    wide, long = face.leaf_size if isinstance(face, OpeningInPlace) else (
        face.width, max(face.height, face.area / face.width))  # fmt: skip
    space = layer.cavity
    if space is None:
        whole = layer.kind in ROLLED and layer.coverage >= 1.0
        return ((wide, long),) * number if whole else ()
    if space.fill is None or space.fill_thickness <= 0.0:
        return ()
    frame = space.frame
    if frame is None or space.fill_thickness + frame.depth <= layer.thickness + space.extra_depth + _SLACK:
        return ((wide, long),) * number
    half = frame.width / 2.0
    edges = (-half, *places_of(face, layer), wide + half)  # bearers leave a bay at either end of their floor
    clear = [b - a - frame.width for a, b in zip(edges, edges[1:], strict=False)]
    return tuple((bay, long) for bay in clear if bay > _SLACK) * number
