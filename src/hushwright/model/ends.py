"""Walls between rooms: built once, and built at all."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.model.stations import Extent
from hushwright.model.taking import Taker


def check_ends_built(taker: Taker, root: BuildFile, extents: tuple[Extent, ...]) -> None:
    """Each wall between two rooms is given with one of them, not with both and not with none."""
    for before, after in zip(extents, extents[1:], strict=False):
        given = [name for name, face in ((before.name, "rear"), (after.name, "front")) if _given(root, name, face)]
        path = ("surfaces", after.name, "front")
        if len(given) == 2:
            taker.say("wall-given-twice", path, f"{before.name} / {after.name}",
                      f"the wall is built up both as {before.name}.rear and as {after.name}.front",
                      f"keep all its layers in {after.name}.front")  # fmt: skip
        elif not given and "quiet" in (before.purpose, after.purpose):
            taker.say("no-wall-between", path, f"{before.name} / {after.name}",
                      "nothing stands between the two rooms", f"add layers under {'.'.join(path)}")  # fmt: skip
        elif not given:
            taker.say("no-wall-between", path, f"{before.name} / {after.name}",
                      "nothing stands between the two rooms; they are computed as apart",
                      "make one room of them, or add the wall", severity="warning")  # fmt: skip


def _given(root: BuildFile, room: str, face: str) -> bool:
    faces = root.surfaces.get(room)
    typed = getattr(faces, face) if faces is not None else None
    return typed is not None and bool(typed.layers or typed.same_as)
