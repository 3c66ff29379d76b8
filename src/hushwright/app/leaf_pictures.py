"""A door, window or wheel box cut square to it, outside to the left: layers numbered, their thickness to be dragged."""

from __future__ import annotations

from itertools import accumulate

from hushwright.app.handles import Handle, Move
from hushwright.document.nodes import parse_path
from hushwright.drawings.build_ups import layer_shapes
from hushwright.drawings.primitives import Element, Line, Text
from hushwright.model.build import LayerInPlace, OpeningInPlace, Surface

HALF = 0.035  # m, half of what is shown along the leaf


def _depths(leaf: OpeningInPlace | Surface) -> list[tuple[int, LayerInPlace, float, float]]:
    """Number of each layer that takes depth, the layer, and the depths at which it begins and ends [m]."""
    ends = list(accumulate(layer.thickness for layer in leaf.layers))
    begins = [0.0, *ends[:-1]]
    return [
        (number, layer, begin, end)
        for number, (layer, begin, end) in enumerate(zip(leaf.layers, begins, ends, strict=True), 1)
        if end > begin
    ]


def leaf_handles(leaf: OpeningInPlace | Surface) -> tuple[Handle, ...]:
    """One handle at the inner side of each layer; dragged inwards the layer gets thicker."""
    found = []
    for number, layer, _, end in _depths(leaf):
        if ".layers." not in layer.place:
            continue
        path = (*parse_path(layer.place), "cavity" if layer.kind == "cavity" else "thickness")
        step = -0.6 * HALF if number % 2 else 0.2 * HALF
        found.append(Handle(f"layer {layer.place}", f"{layer.name}, thickness", "layer", end, step,
                            (Move(path, by_x=1.0),)))  # fmt: skip
    return tuple(found)


def leaf_elements(leaf: OpeningInPlace | Surface) -> tuple[Element, ...]:
    """Layers of a leaf as the drawings of build-ups show them, each with its number."""
    found: list[Element] = []
    for number, layer, begin, end in _depths(leaf):
        found += layer_shapes(layer, begin, end, -HALF, HALF, leaf.name)
        row = HALF * (0.8 - 0.2 * ((number - 1) % 3))
        found.append(Line((end, -HALF), (end, HALF), "dimensions", leaf.name))
        found.append(Text(((begin + end) / 2.0, row), str(number), part=leaf.name, size=0.0034, bold=True))
    return tuple(found)
