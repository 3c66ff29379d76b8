"""Defaults that hold because the file leaves something out, each told once with its places."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from hushwright.document.fields import Section
from hushwright.document.schema.anchoring import FittingRestraint
from hushwright.document.schema.cuts import Cut
from hushwright.document.schema.mass import Scales
from hushwright.document.schema.mounts import MountGroup
from hushwright.document.schema.openings import Opening
from hushwright.document.schema.rooms import Fitting
from hushwright.document.schema.signals import SignalLine
from hushwright.document.schema.surfaces import SheetLayer
from hushwright.document.schema.vehicle import Vehicle
from hushwright.model.bridges import bridged_face
from hushwright.model.opening_checks import LEAVES
from hushwright.model.signals_in_place import SOUNDING
from hushwright.model.taking import COMMON, Path, Taker

_TRIVIAL = (
    "situation", "limit", "number", "road", "takes", "room", "behind", "mount", "same_as", "fill", "run", "fans_alone",
    "lining", "baffles", "speed", "soiling", "throws", "loop", "isolated", "steady", "per", "at_shore", "at_converter",
    "at_generator", "change_over", "insulation_monitor", "sheathed",
    "operations", "leaves", "travel_keep", "occupied_alarm", "ventilation", "removal", "label", "cable_way", "light",
    "awning", "supply", "status",
)  # fmt: skip
"""Fields whose default says that there is nothing, one of it, or that another field decides."""

_OF_A_PART = 2
"""Length of a path above which it lies within a part of its section."""

_LABELS = {"joint": "sheets directly on sheets:", "sheet": "battens of", "bearer_sheet": "bearers of"}


def note_defaults(taker: Taker) -> None:
    """Add every default of the schema that says something to the assumptions, equal ones as one line."""
    grouped: dict[tuple[type[Section], str, str], list[Path]] = {}
    for path, spec in taker.document.left_out():
        name = str(path[-1])
        if not spec.default_text or spec.descriptive or name in _TRIVIAL:
            continue
        section: Any = taker.document.value_at(path[:-1])
        if _applies(taker, path, section):
            grouped.setdefault((type(section), name, spec.default_text), []).append(path)
    for (_, name, text), paths in grouped.items():
        places = f" (in {len(paths)} places)" if len(paths) > 1 else ""
        part = paths[0][1] if paths[0][0] == "power" and len(paths[0]) > _OF_A_PART else paths[0][0]
        label = _LABELS.get(name, f"{str(part).replace('_', ' ')}: {name.replace('_', ' ')}")
        taker.assume(paths[0], f"{label} {text}{places}", COMMON)


def _applies(taker: Taker, path: Path, section: Any) -> bool:
    """Whether a default says anything where it stands."""
    if isinstance(section, SheetLayer):
        return _on_a_sheet(taker, path)
    rule = _RULES.get((type(section), str(path[-1])))
    return rule is None or rule(section)


def _on_a_sheet(taker: Taker, path: Path) -> bool:
    """How a sheet lies on the one before it matters only where there is one."""
    index = path[-2]
    if not isinstance(index, int) or index == 0:
        return False
    before: Any = taker.document.value_at((*path[:-2], index - 1))
    return bool(before.key == "sheet")


def _two_leaves(opening: Opening) -> bool:
    return opening.kind in LEAVES and any(layer.key == "cavity" for layer in opening.layers)


_RULES: Mapping[tuple[type, str], Callable[[Any], bool]] = {
    (Opening, "frames"): _two_leaves,
    (Opening, "reveal"): lambda opening: opening.kind in ("window", "vehicle window"),
    (Opening, "filled"): lambda opening: opening.kind in ("gland", "hole"),
    (MountGroup, "along"): lambda group: not group.places,
    (MountGroup, "across"): lambda group: not group.places,
    (MountGroup, "inset"): lambda group: not group.places,
    (Fitting, "fixings"): lambda fitting: bridged_face(fitting) is not None,
    (Fitting, "liquid"): lambda fitting: fitting.litres is not None,
    (FittingRestraint, "base_length"): lambda restraint: restraint.base_height is not None,
    (FittingRestraint, "base_width"): lambda restraint: restraint.base_height is not None,
    (Cut, "reinforcement"): lambda _cut: False,
    (SignalLine, "balanced"): lambda line: line.kind in SOUNDING,
    (SignalLine, "conductor"): lambda line: line.kind in SOUNDING,
    (Cut, "seal"): lambda _cut: False,
    (Scales, "people"): lambda _scales: False,
    (Vehicle, "wheel_boxes_present"): lambda vehicle: vehicle.wheel_boxes is None,
}
