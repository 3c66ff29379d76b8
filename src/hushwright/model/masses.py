"""Every layer, part and opening as a mass at a place."""

from __future__ import annotations

import math
from dataclasses import replace

from hushwright.document.schema import BuildFile
from hushwright.document.schema.rooms import Fitting
from hushwright.model.battens import batten_mass
from hushwright.model.build import LayerInPlace, MassItem, OpeningInPlace, Room, Surface, TreatmentInPlace
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
    for index in range(len(root.fittings)):
        found += _fitting(taker, root, index)
    return tuple(found)


def _surface(room: Room, surface: Surface, openings: tuple[OpeningInPlace, ...]) -> list[MassItem]:
    holes = sum(
        each.area * each.number
        for each in openings
        if not each.in_vehicle and (each.room, each.face) == (room.name, surface.face)
    )
    area = max(surface.area - holes, 0.0)
    inner, outer = _leaves(surface, area, floats=room.purpose == "quiet")
    between = surface.face in ("front", "rear") and surface.beyond not in ("outdoors", "cab")
    carried_by = "control" if between else "body"
    station, y, z = surface.centre
    items = []
    for mass, body, part in ((inner, "quiet", "inner leaf"), (outer, carried_by, "outer layers")):
        if mass > 0.0:
            name = f"{room.name} {surface.face.replace('_', ' ')}, {part}"
            items.append(MassItem(name, "build-ups", mass, station, y, z, (body,), surface.place,
                                  _size(surface)))  # fmt: skip
    return items


def _leaves(surface: Surface, area: float, *, floats: bool) -> tuple[float, float]:
    """Mass of the inner leaf with the battens it carries, and of all outside of it [kg]; a fixed room is one body."""
    battens = [batten_mass(surface, layer) for layer in surface.layers]
    whole = surface.added_surface_density * area + math.fsum(battens)
    if not floats or surface.last_cavity is None:
        return 0.0, whole
    inner = surface.inner_surface_density * area + battens[surface.last_cavity]
    return inner, max(whole - inner, 0.0)


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
    found = []
    for part, body in parts:
        mass = mass_of_leaf(opening, part)
        if mass > 0.0:
            found.append(MassItem(opening.name.replace("_", " "), "openings", mass, station, y, z, (body,),
                                  opening.place))  # fmt: skip
    return found


def mass_of_leaf(opening: OpeningInPlace, layers: tuple[LayerInPlace, ...]) -> float:
    """Mass of some layers of all leaves of an opening, with their battens [kg]; the van's own skin is there already."""
    area = opening.leaf_area * opening.number
    return math.fsum(area * layer.surface_density + batten_mass(opening, layer)
                     for layer in layers if layer.kind != "skin")  # fmt: skip


def _carried(opening: OpeningInPlace, purposes: dict[str, str]) -> tuple[str, str]:
    """Body that carries the inner leaf of an opening, and the one that carries its outer pane."""
    if opening.in_vehicle:
        return "body", "body"
    inner = "quiet" if purposes.get(opening.room) == "quiet" else "control"
    return inner, "control" if opening.face in ("front", "rear") else "body"


def _fitting(taker: Taker, root: BuildFile, index: int) -> list[MassItem]:
    """Mass of a fitting, and of what it holds, as two items."""
    typed = root.fittings[index]
    at: Path = ("fittings", index)
    name = typed.name or f"fitting {index + 1}"
    if typed.mass is None and typed.litres is None and typed.length is None:
        taker.say("value-needed", at, name, "has no mass", "give `mass`, `litres`, or `length` and `mass_per_length`")
    mass = 0.0 if typed.mass is None else taker.quantity((*at, "mass"), typed.mass, "mass", label=f"{name} mass")
    mass += _along(taker, typed, at, name)
    station = taker.quantity((*at, "station"), typed.station, "length", label=f"{name} station")
    y = taker.quantity((*at, "offset"), typed.offset, "length", label=f"{name} offset")
    z = taker.quantity((*at, "height"), typed.height, "length", label=f"{name} height")
    weighed = typed.mass is not None and typed.mass.origin == "measured"
    item = MassItem(name, "fittings", mass, station, y, z, typed.fixed_to or ("body",), dotted(at), fitting=name,
                    weighed=weighed, out=_out(taker, typed, at, name),
                    y_taken=typed.offset.origin == "assumed" and typed.offset.standard_uncertainty == 0.0)  # fmt: skip
    if typed.litres is None:
        return [item]
    held = taker.quantity((*at, "litres"), typed.litres, "volume", label=f"{name} contents") * _DENSITY[typed.liquid]
    contents = replace(item, name=f"{typed.liquid} in {name}", group="liquids", mass=held, weighed=True, liquid=True)
    return [item, contents]


_DENSITY = {"water": 1000.0, "diesel": 835.0, "petrol": 745.0}  # kg/m³ at 15 °C; common practice, no source


def _along(taker: Taker, typed: Fitting, at: Path, name: str) -> float:
    """Mass of cable, hose or rail by its length."""
    if typed.length is None:
        if typed.mass_per_length is not None:
            taker.say("value-needed", at, name, "has a mass per length and no length", "give `length`")
        return 0.0
    length = taker.quantity((*at, "length"), typed.length, "length", label=f"{name} length")
    if typed.mass_per_length is None:
        if typed.mass is None:
            taker.say("value-needed", at, name, "has a length and no mass", "give `mass_per_length`")
        return 0.0
    return length * taker.quantity((*at, "mass_per_length"), typed.mass_per_length, "mass_per_length",
                                   label=f"{name} mass per length")  # fmt: skip


def _out(taker: Taker, typed: Fitting, at: Path, name: str) -> tuple[float, float, float] | None:
    """Where the centre of a fitting is when a state has it out."""
    if typed.out is None:
        return None
    on: Path = (*at, "out")
    return (
        taker.quantity((*on, "station"), typed.out.station, "length", label=f"{name} station, out"),
        taker.quantity((*on, "offset"), typed.out.offset, "length", label=f"{name} offset, out"),
        taker.quantity((*on, "height"), typed.out.height, "length", label=f"{name} height, out"),
    )
