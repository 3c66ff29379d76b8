"""Every layer, part and opening as a mass at a place."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.model.build import MassItem, OpeningInPlace, Room, Surface, TreatmentInPlace
from hushwright.model.taking import Path, Taker, dotted


def resolve_masses(
    taker: Taker, root: BuildFile, rooms: tuple[Room, ...], openings: tuple[OpeningInPlace, ...]
) -> tuple[MassItem, ...]:
    """All masses that the conversion adds, people aside."""
    found: list[MassItem] = []
    for room in rooms:
        for surface in room.surfaces:
            found += _surface(room, surface, openings)
        found += [_treatment(room, treatment) for treatment in room.treatments]
    purposes = {room.name: room.purpose for room in rooms}
    found += [item for opening in openings if opening.mass > 0.0 for item in _opening(opening, purposes)]
    found += [_fitting(taker, root, index) for index in range(len(root.fittings))]
    return tuple(found)


def _surface(room: Room, surface: Surface, openings: tuple[OpeningInPlace, ...]) -> list[MassItem]:
    holes = sum(
        each.area * each.number
        for each in openings
        if not each.in_vehicle and (each.room, each.face) == (room.name, surface.face)
    )
    area = max(surface.area - holes, 0.0)
    inner = surface.inner_surface_density if room.purpose == "quiet" else 0.0
    outer = surface.added_surface_density - inner
    between = surface.face in ("front", "rear") and surface.beyond not in ("outdoors", "cab")
    carried_by = "control" if between else "body"
    station, y, z = surface.centre
    items = []
    for density, body, part in ((inner, "quiet", "inner leaf"), (outer, carried_by, "outer layers")):
        if density > 0.0:
            name = f"{room.name} {surface.face.replace('_', ' ')}, {part}"
            items.append(MassItem(name, "build-ups", density * area, station, y, z, (body,), surface.place,
                                  _size(surface)))  # fmt: skip
    return items


def _size(surface: Surface) -> tuple[float, float, float]:
    """Extent of a face along, across and up [m]."""
    if surface.face in ("ceiling", "floor"):
        return surface.width, surface.height, 0.0
    if surface.face in ("front", "rear"):
        return 0.0, surface.width, surface.height
    return surface.width, 0.0, surface.height


def _treatment(room: Room, treatment: TreatmentInPlace) -> MassItem:
    surface = room.surface(treatment.face)
    area = (surface.area if surface is not None else 0.0) * treatment.coverage
    station, y, z = surface.centre if surface is not None else (room.front, 0.0, 0.0)
    mass = treatment.blanket.density.value * treatment.thickness * area
    body = "quiet" if room.purpose == "quiet" else "control"
    return MassItem(f"absorber on {room.name} {treatment.face}", "treatments", mass, station, y, z, (body,),
                    treatment.place)  # fmt: skip


def _opening(opening: OpeningInPlace, purposes: dict[str, str]) -> list[MassItem]:
    """Mass of a door or window; of panes whose frames are separate, the inner leaf carries only its own."""
    inner, outer = _carried(opening, purposes)
    cut = max((index for index, layer in enumerate(opening.layers) if layer.is_cavity), default=None)
    parts = [(opening.layers, inner)]
    if cut is not None and opening.frames == "separate":
        parts = [(opening.layers[:cut], outer), (opening.layers[cut:], inner)]
    station, y, z = opening.centre
    area = opening.area * opening.number
    found = []
    for part, body in parts:
        mass = area * sum(layer.surface_density for layer in part if layer.kind != "skin")
        if mass > 0.0:
            found.append(MassItem(opening.name.replace("_", " "), "openings", mass, station, y, z, (body,),
                                  opening.place))  # fmt: skip
    return found


def _carried(opening: OpeningInPlace, purposes: dict[str, str]) -> tuple[str, str]:
    """Body that carries the inner leaf of an opening, and the one that carries its outer pane."""
    if opening.in_vehicle:
        return "body", "body"
    inner = "quiet" if purposes.get(opening.room) == "quiet" else "control"
    return inner, "control" if opening.face in ("front", "rear") else "body"


def _fitting(taker: Taker, root: BuildFile, index: int) -> MassItem:
    typed = root.fittings[index]
    at: Path = ("fittings", index)
    return MassItem(
        typed.name or f"fitting {index + 1}",
        "fittings",
        taker.quantity((*at, "mass"), typed.mass, "mass", label=f"{typed.name} mass"),
        taker.quantity((*at, "station"), typed.station, "length", label=f"{typed.name} station"),
        taker.quantity((*at, "offset"), typed.offset, "length", label=f"{typed.name} offset"),
        taker.quantity((*at, "height"), typed.height, "length", label=f"{typed.name} height"),
        typed.fixed_to or ("body",),
        dotted(at),
    )  # fmt: skip
