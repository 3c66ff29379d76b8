"""What can be changed about an opening: its leaf or panes, its seals, what fills a hole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hushwright.document.edits import Edit
from hushwright.library.records import Seal
from hushwright.model.build import Build, LayerInPlace, OpeningInPlace
from hushwright.search.writing import Writing

Told = tuple[str, str, Sequence[Edit]]
"""What, where, and the edits."""

_HEAVIER = 1.35  # of the thickness of a sheet or a pane without stock sizes; common practice, no source
_DEEPER = 0.03  # m, by which the space between panes or boards is tried deeper; common practice, no source
_MAT = "{limp: loaded vinyl, thickness: "  # a heavy mat on a leaf
_MAT_THICKNESS = 0.005
_SECOND_LEAF = (0.04, "rock wool 40 kg/m3", "birch plywood", 0.012)  # m and names; common practice, no source
_LINING = ("butyl pad with aluminium foil", 0.002, 0.05, "rock wool 40 kg/m3", "birch plywood", 0.009)
_MOST_ROWS = 3  # of seals one behind the other; common practice, no source


def changes_of_opening(build: Build, opening: OpeningInPlace, writing: Writing) -> Iterator[Told]:
    """Changes of a door, window, gland or hole."""
    where = opening.name.replace("_", " ")
    if opening.kind in ("gland", "hole"):
        if opening.filled != "packed with putty":
            yield "packed with putty", where, (Edit("set", writing.path(opening.place, "filled"), "packed with putty"),)
        return
    if opening.kind == "duct":
        return
    for what, edits in (*_seals(build, opening, writing), *_layers(build, opening, writing)):
        yield what, where, edits


def _seals(build: Build, opening: OpeningInPlace, writing: Writing) -> Iterator[tuple[str, Sequence[Edit]]]:
    """One row more, or the seal of the library that leaves the least slit to a leaf that opens."""
    seals = opening.seals
    if seals is None or not writing.is_given(opening.place, "seals"):
        return
    if seals.rows < _MOST_ROWS:
        rows = seals.rows + 1
        yield f"{rows} rows of seals", (Edit("set", writing.path(opening.place, "seals", "rows"), str(rows)),)
    best = "compression bulb" if opening.kind != "window" else "sealant joint"
    record = build.library.find(Seal, best)
    if record.residual_gap.value < seals.residual_gap and record.name != seals.seal.name:
        edits = [Edit("set", writing.path(opening.place, "seals", "seal"), best)]
        edits += [Edit("remove", writing.path(opening.place, "seals", key)) for key in ("residual_gap", "force")
                  if writing.is_given(opening.place, "seals", key)]  # fmt: skip
        yield f"seal: {best}", edits


def _layers(build: Build, opening: OpeningInPlace, writing: Writing) -> Iterator[tuple[str, Sequence[Edit]]]:
    at = writing.path(opening.place, "layers")
    if not writing.is_given(opening.place, "layers"):
        if opening.kind == "vehicle door":
            pad, pad_thick, space, wool, board, thick = _LINING
            text = (f"[{{skin: body}}, {{damping: {pad}, thickness: {writing.length(pad_thick)}}}, "
                    f"{{cavity: {writing.length(space)}, fill: {wool}}}, "
                    f"{{sheet: {board}, thickness: {writing.length(thick)}}}]")  # fmt: skip
            yield "pad, wool and a board inside it", (Edit("set", at, text),)
        return
    layers = opening.layers
    for index, layer in enumerate(layers):
        heavy = _heavier(layer)
        if heavy is not None:
            edit = Edit("set", (*at, index, "thickness"), writing.length(heavy))
            yield f"{layer.name} {1000 * heavy:g} mm", (edit,)
    spaces = [index for index, layer in enumerate(layers) if layer.kind == "cavity"]
    for index in spaces[-1:]:
        deep = layers[index].thickness + _DEEPER
        yield f"space deeper by {1000 * _DEEPER:g} mm", (Edit("set", (*at, index, "cavity"), writing.length(deep)),)
    if opening.kind in ("window", "vehicle window"):
        if spaces and opening.frames == "common":
            yield "each pane in its own frame", (Edit("set", writing.path(opening.place, "frames"), "separate"),)
        return
    if not any(layer.kind == "limp" for layer in layers):
        yield "heavy mat on the leaf", (Edit("add", at, f"{_MAT}{writing.length(_MAT_THICKNESS)}}}"),)
    if not spaces:
        space, wool, board, second = _SECOND_LEAF
        yield (
            "second leaf behind a space with wool",
            (
                Edit("add", at, f"{{cavity: {writing.length(space)}, fill: {wool}}}"),
                Edit("add", at, f"{{sheet: {board}, thickness: {writing.length(second)}}}"),
            ),
        )


def _heavier(layer: LayerInPlace) -> float | None:
    """Next thickness of a sheet, pane or mat: of its stock sizes, else a third more."""
    if layer.kind not in ("sheet", "glass", "limp"):
        return None
    sizes = getattr(layer.record, "stock_thickness", ())
    more = [size for size in sizes if size > 1.1 * layer.thickness]
    return min(more) if more else round(_HEAVIER * layer.thickness, 4)
