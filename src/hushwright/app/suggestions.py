"""Words that a field may well hold: names of the library, of rooms, openings, states of this file."""

from __future__ import annotations

import re
from collections.abc import Mapping

from hushwright.document.fields import FieldSpec
from hushwright.document.nodes import Path
from hushwright.document.outline import Entry
from hushwright.library.library import Library
from hushwright.library.records import KINDS

_OF_THE_LIBRARY = re.compile(r"^(?:Material, a )?([A-Za-z][a-z -]*?) of the library")
_FACES = ("left", "right", "ceiling", "floor", "front", "rear", "wheel_boxes")
_VEHICLE_FACES = ("front", "left", "right", "rear", "roof", "floor")
# Words in the sentences of fields → kind of the library, where the sentence does not use the kind's own word.
_SPOKEN = {"viscoelastic core": "core", "limp barrier": "limp", "closed foam": "foam", "damping layer": "damping"}
# Name of a field → part of the file whose names it takes.
_NAMED_AFTER: Mapping[str, str] = {
    "room": "rooms", "takes_from": "rooms", "gives_to": "rooms", "open": "openings", "behind": "openings",
    "out": "fittings", "unloaded": "fittings", "state": "states", "states": "states", "runs_in": "states",
    "floor_mounts": "mounts", "run": "runs",
}  # fmt: skip
_IN_SIGNALS: Mapping[str, str] = {"point": "headphones", "amplifier": "amplifiers"}


def suggestions(entry: Entry, root: Entry, library: Library) -> tuple[str, ...]:
    """Words for one field that takes free text; none where anything may stand."""
    spec = entry.spec
    if spec is None or spec.form != "words":
        return ()
    kind = library_kind(spec)
    if kind:
        return tuple(library.records(kind))
    name = next((str(key) for key in reversed(entry.path) if isinstance(key, str)), "")
    if name == "face":
        return faces_of(root)
    if name in ("on", "same_as"):
        return _FACES
    if name in _IN_SIGNALS:
        return names_in(root, ("signals", _IN_SIGNALS[name]))
    part = _NAMED_AFTER.get(name, "")
    if part in ("rooms",):
        return (*names_in(root, ("rooms",)), *(("outdoors",) if name in ("takes_from", "gives_to") else ()))
    if part == "runs":
        return names_in(root, ("air", "runs"))
    return names_in(root, (part,)) if part else ()


def library_kind(spec: FieldSpec) -> str:
    """Kind of library record that a field names, by its sentence; empty where it names none."""
    found = _OF_THE_LIBRARY.match(spec.sentence)
    if found is None:
        return ""
    word = found[1].lower()
    for kind in KINDS.values():
        if word in (kind.word, kind.spoken.lower()) or _SPOKEN.get(word) == kind.word:
            return kind.word
    return next((kind.word for kind in KINDS.values() if kind.spoken.lower().startswith(word.split()[-1])), "")


def faces_of(root: Entry) -> tuple[str, ...]:
    """Faces that an opening can be in: of each room, and of the vehicle."""
    rooms = names_in(root, ("rooms",))
    of_rooms = [f"{room}.{face}" for room in rooms for face in _FACES[:6]]
    return (*of_rooms, *(f"vehicle.{face}" for face in _VEHICLE_FACES))


def names_in(root: Entry, path: Path) -> tuple[str, ...]:
    """Names of the parts at a path: keys of a map, or what list items call themselves."""
    entry = root.find(path)
    if entry is None:
        return ()
    if entry.form == "map":
        return tuple(child.name for child in entry.children)
    named = (item.find((*item.path, "name")) for item in entry.children)
    return tuple(one.text for one in named if one is not None and one.text)
