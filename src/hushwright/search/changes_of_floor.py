"""What can be changed about a floor on mounts: the space under it, its edges, softer mounts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hushwright.document.edits import Edit
from hushwright.library.records import MountRecord
from hushwright.model.build import Build, MountSet, Surface
from hushwright.search.writing import Writing

Told = tuple[str, str, Sequence[Edit]]
"""What, where, and the edits."""

_HIGHER = (0.02, 0.04)  # m, by which bearers are tried deeper; common practice, no source
_SOFTER = (0.3, 0.9)  # of the stiffness: softer ones hold no floor, stiffer ones change nothing; common practice
_TRIED = 2  # kinds of softer mounts that are tried


def changes_of_floor(build: Build, surface: Surface, writing: Writing, *, of_mounts: bool) -> Iterator[Told]:
    """Changes of the space under a floor, or of its mounts where sound comes up through these."""
    at = next((index for index, layer in enumerate(surface.layers) if layer.kind == "floor_mounts"), None)
    if at is None or ".layers." not in surface.layers[at].place:
        return
    layer = surface.layers[at]
    typed = build.document.value_at(writing.path(layer.place))
    mounts = next((each for each in build.mounts if each.name == typed.floor_mounts), None)
    if of_mounts:
        yield from _softer(build, mounts, writing)
        return
    where = f"{surface.room.replace('_', ' ')} floor"
    for by in _HIGHER:
        depth = typed.bearer_depth.value + by
        edits = [writing.set_length(depth, layer.place, "bearer_depth")]
        if typed.fill and typed.fill_thickness is not None:
            edits.append(writing.set_length(depth, layer.place, "fill_thickness"))
        yield f"bearers deeper by {1000 * by:.0f} mm", where, edits
    if mounts is not None and mounts.edges != "filled":
        edit = Edit("set", writing.path(mounts.place, "edges"), "filled")
        yield "edges under the floor filled with wool", where, (edit,)


def _softer(build: Build, mounts: MountSet | None, writing: Writing) -> Iterator[Told]:
    """Softer mounts of the library that carry what these carry, stiffest first."""
    if mounts is None or not writing.is_given(mounts.place, "mount"):
        return
    low, high = (factor * mounts.static_stiffness for factor in _SOFTER)
    records = [build.library.find(MountRecord, name) for name in build.library.records("mount")]
    fitting = [each for each in records if low <= each.static_stiffness.value <= high]
    fitting.sort(key=lambda each: -each.static_stiffness.value)
    for each in fitting[:_TRIED]:
        edit = Edit("set", writing.path(mounts.place, "mount"), writing.word(each.name))
        yield f"softer mounts: {each.name}", mounts.name.replace("_", " "), (edit,)
