"""What ties two leaves together: typed fixings, battens that touch ribs, fittings fixed to two bodies."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.document.schema.rooms import Fitting
from hushwright.document.schema.surfaces import SurfaceBuildUp
from hushwright.library.records import Spread
from hushwright.model.build import BridgeInPlace, LayerInPlace
from hushwright.model.taking import Path, Taker, dotted

_TOUCHING = 0.001  # m; less air than this between batten and rib is closed by the first warp of a panel
_UNUSED = {"line": ("number", "stiffness"), "point": ("spacing", "line_stiffness")}
_LOW = 0.25  # m over the steel floor; fittings below sit on the floor


def resolve_bridges(
    taker: Taker,
    root: BuildFile,
    purpose: str,
    face: str,
    layers: tuple[LayerInPlace, ...],
    typed: SurfaceBuildUp | None,
    path: Path,
    area: float,
) -> tuple[BridgeInPlace, ...]:
    """All bridges across the cavities of one face."""
    if not any(layer.is_cavity for layer in layers):
        return ()
    found = list(_typed(taker, typed, path, area)) if typed is not None else []
    found += _touching(taker, layers)
    if purpose == "quiet":
        found += _fittings(taker, root, face, area)
    return tuple(found)


def _typed(taker: Taker, typed: SurfaceBuildUp, path: Path, area: float) -> list[BridgeInPlace]:
    found = []
    for index, bridge in enumerate(typed.bridges):
        at: Path = (*path, "bridges", index)
        for key in _UNUSED[bridge.kind]:
            if key in bridge.model_fields_set:
                taker.say("key-without-effect", (*at, key), key, f"says nothing about a {bridge.kind} bridge",
                          "leave it out", severity="warning")  # fmt: skip
        if bridge.kind == "line":
            if bridge.spacing is None:
                taker.say("value-needed", at, "line", "a line bridge needs its spacing", "add `spacing: 600 mm`")
                continue
            spacing = taker.quantity((*at, "spacing"), bridge.spacing, "length", fallback=Spread(0.5, 0.3, 0.7))
            stiffness = (
                None if bridge.line_stiffness is None
                else taker.quantity((*at, "line_stiffness"), bridge.line_stiffness, "modulus")
            )  # fmt: skip
            found.append(BridgeInPlace("line", 1.0 / spacing, stiffness, "battens across the space", dotted(at)))
            continue
        if bridge.number is None:
            taker.say("value-needed", at, "point", "point bridges need their number", "add `number: 24`")
            continue
        stiffness = (
            None if bridge.stiffness is None else taker.quantity((*at, "stiffness"), bridge.stiffness, "stiffness")
        )
        found.append(BridgeInPlace("point", bridge.number / area, stiffness, "fixings across the space", dotted(at)))
    return found


def clear_of_ribs(layer: LayerInPlace) -> float | None:
    """Air between the ribs of the body and the battens of the inner leaf [m], `None` without both."""
    space = layer.cavity
    if space is None or space.ribs is None or space.frame is None:
        return None
    return layer.thickness + space.extra_depth - space.ribs.depth - space.frame.depth


def _touching(taker: Taker, layers: tuple[LayerInPlace, ...]) -> list[BridgeInPlace]:
    for layer in layers:
        clear = clear_of_ribs(layer)
        if clear is None or clear > _TOUCHING or layer.cavity is None:
            continue
        ribs, frame = layer.cavity.ribs, layer.cavity.frame
        if ribs is None or frame is None:
            continue
        path = tuple(int(key) if key.isdigit() else key for key in layer.place.split("."))
        taker.say_fit("battens-touch-ribs", path, f"{1000 * max(clear, 0.0):.0f} mm clear",
                      "the battens of the inner leaf touch the ribs and tie the leaves together",
                      "deepen the space or take thinner battens", severity="warning")  # fmt: skip
        return [BridgeInPlace("point", 1.0 / (ribs.spacing * frame.spacing), None, "battens touch the ribs",
                              layer.place)]  # fmt: skip
    return []


def _fittings(taker: Taker, root: BuildFile, face: str, area: float) -> list[BridgeInPlace]:
    found = []
    for index, fitting in enumerate(root.fittings):
        if bridged_face(fitting) != face:
            continue
        at: Path = ("fittings", index)
        stiffness = (
            None if fitting.fixing_stiffness is None
            else taker.quantity((*at, "fixing_stiffness"), fitting.fixing_stiffness, "stiffness")
        )  # fmt: skip
        found.append(
            BridgeInPlace("point", fitting.fixings / area, stiffness, f"{fitting.name or 'fitting'}, fixed to both",
                          dotted(at))
        )  # fmt: skip
    return found


def bridged_face(fitting: Fitting) -> str | None:
    """Face of the quiet room whose leaves a fitting ties together, `None` when it is fixed to one body only."""
    to = set(fitting.fixed_to)
    if "quiet" not in to or not to & {"body", "control"}:
        return None
    if "control" in to:
        return "front"
    if fitting.height.value < _LOW:
        return "floor"
    return "left" if fitting.offset.value >= 0.0 else "right"
