"""What stands in a section: fittings and openings that it cuts, filled, and thin what is seen beyond them."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.drawings.ducts import across, stretches
from hushwright.drawings.geometry import bands, centres, half_width, labelled
from hushwright.drawings.primitives import Balloon, Element, Hatch, Line, Point, Polyline, Text, box
from hushwright.drawings.things import Thing, things_of
from hushwright.model.build import Build, OpeningInPlace, Room
from hushwright.units import System

_CROSS = 0.03  # m, arm of the cross of what has no size
_SLACK = 1e-6  # m


@dataclass(frozen=True, slots=True)
class InSection:
    """What is drawn of the things of a section, beyond and cut, and what their numbers mean."""

    beyond: tuple[Element, ...]
    cut: tuple[Element, ...]
    key: tuple[tuple[str, str], ...]


NOTHING = InSection((), (), ())


def in_section(build: Build, station: float, room: Room | None, system: System = "metric") -> InSection:
    """Fittings and openings at a station, seen from behind, under the numbers of the plan.

    Parameters
    ----------
    build : Build
        The build.
    station : float
        Where the van is cut [m].
    room : Room or None
        Room in which the station lies; where none does, the whole load space is looked along.
    system : {"metric", "us"}
        Units of the words.

    Returns
    -------
    InSection
        x runs to the right of the van, y upward from the steel floor.
    """
    front, rear = (room.front, room.rear) if room is not None else (0.0, build.vehicle.load_length)
    beyond: list[Element] = []
    cut: list[Element] = []
    key: list[tuple[str, str]] = []
    openings = {each.name: each for each in build.openings}
    for thing in things_of(build, system):
        opening = openings.get(thing.part) if thing.layer == "openings" else None
        if opening is not None:
            found = _cut_opening(build, opening, station, room)
            where = cut
        elif thing.layer == "fittings" and front - _SLACK <= thing.station <= rear + _SLACK:
            meets = abs(thing.station - station) <= thing.size[0] / 2.0 + _SLACK
            found = _fitting(thing, cut=meets) if meets or thing.station < station else []
            where = cut if meets else beyond
        else:
            continue
        if found:
            where += found
            where.append(Balloon(_middle(build, thing, opening), thing.number, part=thing.part,
                                 beside=thing.layer == "fittings" and not _has_outline(thing)))  # fmt: skip
            key.append((thing.number, thing.text))
    for stretch in stretches(build):
        meets = stretch.front - _SLACK <= station <= stretch.rear + _SLACK
        if meets or front - _SLACK <= stretch.rear < station:
            shown, middle = across(stretch, station, cut=meets)
            where = cut if meets else beyond
            where += shown
            if stretch.number not in {number for number, _ in key}:
                where.append(Balloon(middle, stretch.number, "air", stretch.part))
                key.append((stretch.number, stretch.text))
    cut += _cuts(build, station)
    return InSection(tuple(beyond), tuple(cut), tuple(key))


def _has_outline(thing: Thing) -> bool:
    return thing.size[1] > 0.0 and thing.size[2] > 0.0


def _middle(build: Build, thing: Thing, opening: OpeningInPlace | None) -> Point:
    """Where the number stands: on the thing, of an opening on the skin."""
    if opening is not None and opening.face in ("left", "right"):
        sign = -1.0 if opening.face == "left" else 1.0
        return sign * half_width(build.vehicle, 0.0, thing.z), thing.z
    return -thing.y, thing.z


def _fitting(thing: Thing, *, cut: bool) -> list[Element]:
    """Outline of a fitting; a line where only its base is known, with a cross at its middle; else the cross alone."""
    x, z = -thing.y, thing.z
    _, across, high = thing.size
    layer = "fittings" if cut else "beyond"
    if across > 0.0 and high > 0.0:
        corners = box((x - across / 2.0, z - high / 2.0), (x + across / 2.0, z + high / 2.0))
        outline = Polyline(corners, layer, thing.part, closed=True)
        return [Hatch(corners, layer, thing.part, "metal"), outline] if cut else [outline]
    found: list[Element] = [Line((x - _CROSS, z), (x + _CROSS, z), layer, thing.part),
                            Line((x, z - _CROSS), (x, z + _CROSS), layer, thing.part)]  # fmt: skip
    if across > 0.0 and thing.base is not None:
        found.append(Line((x - across / 2.0, thing.base), (x + across / 2.0, thing.base), layer, thing.part))
    return found


def _cut_opening(build: Build, opening: OpeningInPlace, station: float, room: Room | None) -> list[Element]:
    """Opening of a side, floor or ceiling at this station: through the build-up of its room, or in the skin."""
    if opening.face not in ("left", "right", "floor", "ceiling", "roof"):
        return []
    if not opening.in_vehicle and (room is None or opening.room != room.name):
        return []
    found: list[Element] = []
    for at, y, z in centres(opening):
        if abs(at - station) > opening.width / 2.0 + _SLACK:
            continue
        if opening.face in ("left", "right"):
            found += _in_side(build, opening, z, room)
        elif room is not None:
            surface = room.surface(opening.face)
            thick = sum(band.inner - band.outer for band in bands(surface))
            low = 0.0 if opening.face == "floor" else build.vehicle.floor_to_bow - thick
            found += _hole(box((-y - opening.height / 2.0, low), (-y + opening.height / 2.0, low + thick)), opening)
    return found


def _in_side(build: Build, opening: OpeningInPlace, z: float, room: Room | None) -> list[Element]:
    sign = -1.0 if opening.face == "left" else 1.0
    low, high = max(z - opening.height / 2.0, 0.0), min(z + opening.height / 2.0, build.vehicle.floor_to_bow)
    outer = _line(build, 0.0, sign, low, high)
    if opening.in_vehicle:
        return [Polyline(outer, "openings", opening.name)]
    surface = room.surface(opening.face) if room is not None else None
    depth = sum(band.inner - band.outer for band in bands(surface))
    inner = _line(build, depth, sign, low, high)
    return _hole((*outer, *reversed(inner)), opening)


def _line(build: Build, depth: float, sign: float, low: float, high: float) -> tuple[Point, ...]:
    """A side of the van moved inwards, between two heights however close, with the corners between them."""
    corners = [z for _, z in build.vehicle.section.left if low < z < high]
    return tuple((sign * half_width(build.vehicle, depth, z), z) for z in (low, *corners, high))


def _hole(shape: tuple[Point, ...], opening: OpeningInPlace) -> list[Element]:
    """A hole through a build-up; the tone of a duct where air runs in it."""
    tone = "duct" if opening.kind == "duct" else "paper"
    return [Hatch(shape, "openings", opening.name, tone), Polyline(shape, "openings", opening.name, closed=True)]


def _cuts(build: Build, station: float) -> list[Element]:
    """Cuts in the van's own sheet at this station, with their names outside."""
    found: list[Element] = []
    for cut in build.cuts:
        if abs(cut.along - station) > cut.width / 2.0 + _SLACK or cut.face not in ("left", "right"):
            continue
        sign = -1.0 if cut.face == "left" else 1.0
        low, high = cut.up - cut.height / 2.0, cut.up + cut.height / 2.0
        line = _line(build, 0.0, sign, low, high)
        found.append(Polyline(line, "cuts", cut.name))
        place = (sign * half_width(build.vehicle, 0.0, cut.up), cut.up)
        found.append(Text(place, labelled(cut.name), "cuts", cut.name, across="right" if sign < 0 else "left",
                          shift=(sign * 0.002, 0.0)))  # fmt: skip
    return found
