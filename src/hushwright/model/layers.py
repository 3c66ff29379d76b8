"""Layers of the file to layers in place: record, thickness, mass."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from hushwright.document.schema import surfaces as typed
from hushwright.errors import Mend
from hushwright.library.records import (
    Blanket,
    ClosedFoam,
    Covering,
    DampingLayer,
    Facing,
    Glass,
    LimpBarrier,
    Record,
    Sheet,
    Spread,
    ViscoelasticCore,
)
from hushwright.model.build import CavityInPlace, FrameInPlace, LayerInPlace, MountSet, Ribs, VehicleInPlace
from hushwright.model.mending import down, up
from hushwright.model.order import check_order
from hushwright.model.taking import COMMON, Path, Taker, dotted

__all__ = ["resolve_layers"]

_RIB_TOLERANCE = 0.001  # m

_SIMPLE: dict[str, type[Record]] = {
    "damping": DampingLayer,
    "sheet": Sheet,
    "core": ViscoelasticCore,
    "limp": LimpBarrier,
    "blanket": Blanket,
    "foam": ClosedFoam,
    "glass": Glass,
    "facing": Facing,
    "covering": Covering,
}


def resolve_layers(
    taker: Taker,
    layers: Sequence[Any],
    path: Path,
    vehicle: VehicleInPlace,
    *,
    ribs: Ribs | None = None,
    extra_depth: float = 0.0,
    mounts: tuple[MountSet, ...] | None = None,
) -> tuple[LayerInPlace, ...]:
    """Layers in place, outside first; a layer whose record is unknown is left out after a diagnostic.

    Parameters
    ----------
    taker : Taker
        Collects inputs, assumptions, diagnostics.
    layers : sequence of Layer
        As typed.
    path : tuple
        Where they stand in the file.
    vehicle : VehicleInPlace
        Gives the skin.
    ribs : Ribs, optional
        What stands in the first cavity behind the skin.
    extra_depth : float, optional
        Air between bows that the build-up does not take from the room [m].
    mounts : tuple of MountSet, optional
        Groups that may stand here; `None` where a face cannot stand on mounts.

    Returns
    -------
    tuple of LayerInPlace
        Layers in place.
    """
    check_order(taker, layers, path)
    found: list[LayerInPlace] = []
    for index, layer in enumerate(layers):
        at = (*path, index)
        on_skin = bool(found) and all(each.kind in ("skin", "damping") for each in found)
        if isinstance(layer, typed.SkinLayer):
            found.append(_skin(vehicle, at))
        elif isinstance(layer, typed.CavityLayer):
            found.append(_cavity(taker, layer, at, ribs if on_skin else None, extra_depth if on_skin else 0.0))
        elif isinstance(layer, typed.FloorMountsLayer):
            found += _floor_mounts(taker, layer, at, mounts)
        else:
            found += _simple(taker, layer, at)
    return tuple(found)


def _skin(vehicle: VehicleInPlace, at: Path) -> LayerInPlace:
    density = vehicle.skin.density.value * vehicle.skin_thickness
    return LayerInPlace("skin", f"body skin, {vehicle.skin.name}", vehicle.skin_thickness, density, vehicle.skin,
                        dotted(at))  # fmt: skip


def _simple(taker: Taker, layer: Any, at: Path) -> list[LayerInPlace]:
    kind = layer.key
    name = getattr(layer, kind)
    record = taker.record(_SIMPLE[kind], name, (*at, kind))
    if record is None:
        return []
    thickness = taker.quantity((*at, "thickness"), layer.thickness, "length", label=f"{record.name} thickness",
                               fallback=_stock(record))  # fmt: skip
    coverage = 1.0
    if isinstance(layer, typed.DampingLayer):
        coverage = taker.quantity((*at, "coverage"), layer.coverage, "share", label="coverage")
    density = record.spread("density").value
    if isinstance(record, Facing) and record.open_area_ratio is not None:
        density *= 1.0 - record.open_area_ratio.value
    joint = layer.joint if isinstance(layer, typed.SheetLayer) else "glued"
    return [LayerInPlace(kind, record.name, thickness, density * thickness * coverage, record, dotted(at),
                         coverage=coverage, joint=joint)]  # fmt: skip


def _stock(record: Record) -> Spread | None:
    """Range of stock thicknesses, for a layer whose thickness is unknown."""
    stock: tuple[float, ...] = getattr(record, "stock_thickness", ())
    return Spread(sorted(stock)[len(stock) // 2], min(stock), max(stock)) if stock else None


def _fill(taker: Taker, layer: Any, at: Path, depth: float) -> tuple[Blanket | None, float]:
    if not layer.fill:
        return None, 0.0
    blanket = taker.record(Blanket, layer.fill, (*at, "fill"))
    if blanket is None:
        return None, 0.0
    if layer.fill_thickness is None:
        return blanket, depth
    thickness = taker.quantity((*at, "fill_thickness"), layer.fill_thickness, "length",
                               fallback=Spread(depth / 2, 0.0, depth), label="wool thickness")  # fmt: skip
    if thickness > depth + 1e-4:
        taker.say_fit("fill-too-thick", (*at, "fill_thickness"), f"{1000 * thickness:.0f} mm",
                      f"the space is {1000 * depth:.0f} mm deep",
                      "wool that is squeezed ties the leaves together",
                      mends=(Mend("lessen the wool to", (*at, "fill_thickness"), down(depth)),))  # fmt: skip
    return blanket, min(max(thickness, 0.0), depth)


def _cavity(taker: Taker, layer: typed.CavityLayer, at: Path, ribs: Ribs | None, extra: float) -> LayerInPlace:
    depth = taker.quantity((*at, "cavity"), layer.cavity, "length", label="depth of the space",
                           fallback=Spread(0.05, 0.02, 0.1), source=COMMON)  # fmt: skip
    if ribs is not None and extra == 0.0 and depth < ribs.depth - _RIB_TOLERANCE:
        taker.say_fit("space-shallower-than-ribs", (*at, "cavity"), f"{1000 * depth:.0f} mm",
                      f"the ribs of the body stand {1000 * ribs.depth:.0f} mm into it",
                      "measured from the skin, the space is at least as deep as the ribs",
                      mends=(Mend("deepen the space to", (*at, "cavity"), up(ribs.depth)),))  # fmt: skip
    blanket, thickness = _fill(taker, layer, at, depth + extra)
    frame = _frame(taker, layer.frame, (*at, "frame"), depth)
    density = blanket.density.value * thickness if blanket is not None else 0.0  # battens are weighed by the piece
    space = CavityInPlace(blanket, thickness, frame, ribs, extra_depth=extra)
    name = f"space {1000 * depth:.0f} mm" + (f" with {blanket.name}" if blanket is not None else ", empty")
    return LayerInPlace("cavity", name, depth, density, None, dotted(at), cavity=space)


def _frame(taker: Taker, frame: typed.Frame | None, at: Path, depth: float) -> FrameInPlace | None:
    if frame is None:
        return None
    sheet = taker.record(Sheet, frame.sheet, (*at, "sheet"))
    if sheet is None:
        return None
    take: Callable[[str], float] = lambda name: taker.quantity(  # noqa: E731  one line a dimension
        (*at, name), getattr(frame, name), "length", label=f"batten {name}", fallback=Spread(0.04, 0.02, 0.06)
    )
    battens = FrameInPlace(take("depth"), take("width"), take("spacing"), sheet)
    if battens.depth > depth + 1e-4:
        taker.say_fit("layers-too-thick", (*at, "depth"), f"{1000 * battens.depth:.0f} mm",
                      f"the space is only {1000 * depth:.0f} mm deep",
                      mends=(Mend("deepen the space to", (*at[:-1], "cavity"), up(battens.depth)),
                             Mend("take battens of", (*at, "depth"), down(depth))))  # fmt: skip
    if battens.width > battens.spacing:
        taker.say_fit("battens-overlap", (*at, "spacing"), f"{1000 * battens.spacing:.0f} mm",
                      f"the battens are {1000 * battens.width:.0f} mm wide", "space them further apart")  # fmt: skip
    return battens


def _floor_mounts(
    taker: Taker, layer: typed.FloorMountsLayer, at: Path, mounts: tuple[MountSet, ...] | None
) -> list[LayerInPlace]:
    if mounts is None:
        taker.say("mounts-not-under-floor", (*at, "floor_mounts"), layer.floor_mounts,
                  "only a floor stands on mounts", "take a cavity here")  # fmt: skip
        return []
    names = tuple(each.name for each in mounts)
    if not taker.name_of(layer.floor_mounts, names, (*at, "floor_mounts"), "group of mounts"):
        return []
    group = mounts[names.index(layer.floor_mounts)]
    sheet = taker.record(Sheet, layer.bearer_sheet, (*at, "bearer_sheet"))
    if sheet is None:
        return []
    take: Callable[[str], float] = lambda name: taker.quantity(  # noqa: E731  one line a dimension
        (*at, name), getattr(layer, name), "length", label=name.replace("_", " "), fallback=Spread(0.03, 0.02, 0.06)
    )
    bearers = FrameInPlace(take("bearer_depth"), take("bearer_width"), take("bearer_spacing"), sheet)
    if bearers.width > bearers.spacing:
        taker.say_fit("battens-overlap", (*at, "bearer_spacing"), f"{1000 * bearers.spacing:.0f} mm",
                      f"the bearers are {1000 * bearers.width:.0f} mm wide", "space them further apart")  # fmt: skip
    depth = group.free_height + bearers.depth
    blanket, thickness = _fill(taker, layer, at, depth)
    density = blanket.density.value * thickness if blanket is not None else 0.0  # bearers are weighed by the piece
    space = CavityInPlace(blanket, thickness, bearers, mount_group=group.name)
    return [LayerInPlace("floor_mounts", f"mounts {group.name} and bearers", depth, density, None, dotted(at),
                         cavity=space)]  # fmt: skip
