"""Floor with its mounts, bearers and anchors; ceiling with its battens, absorbers and openings."""

from __future__ import annotations

from collections.abc import Iterator

from hushwright.drawings.elevations import cut_outline, cuts_of, members
from hushwright.drawings.geometry import battens_over, holes_of, labelled, spoken
from hushwright.drawings.in_plan import outline_in_plan
from hushwright.drawings.primitives import (
    FIRST_ROW,
    NEXT_ROW,
    NORMAL,
    Circle,
    Dimension,
    Drawing,
    Element,
    Hatch,
    Line,
    Polyline,
    Text,
    box,
    chain,
    distinct,
)
from hushwright.library.us_names import sized_name
from hushwright.model.battens import pieces_of
from hushwright.model.build import Build, Room, Surface
from hushwright.model.parts import MOUNT_PAD
from hushwright.units import System, format_quantity


def floor(build: Build, system: System = "metric") -> Drawing:
    """Steel floor from above with wheel boxes, mounts, bearers, anchors, and cuts in it.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units of the words.

    Returns
    -------
    Drawing
        x is the station, y runs to the right of the van.
    """
    found: list[Element] = [outline_in_plan(build, 0.0)]
    half = build.vehicle.section.floor_width / 2.0
    found += _wheel_boxes(build, half)
    for room in build.rooms:
        found += _room(room)
        surface = room.surface("floor")
        if surface is not None:
            found += _bearers(surface)
    key = [("▭", words) for words in _bearers_in_words(build, system)]
    pad = MOUNT_PAD / 2.0
    for group in build.mounts:
        for station, y in group.places:
            corners = box((station - pad, -y - pad), (station + pad, -y + pad))
            found += [
                Hatch(corners, "mounts", group.name, "limp"),
                Polyline(corners, "mounts", group.name, closed=True),
            ]
        high, low, top = (
            format_quantity(group.free_height, "length", system),
            format_quantity(group.lowest_load, "mass", system),
            format_quantity(group.highest_load, "mass", system),
        )
        words = f"{spoken(group.name)}: {len(group.places)} mounts, {high} high, made for {low} to {top} each"
        key.append(("■", f"{words}, over a {group.stands_on}"))
    anchors = tuple(_anchors(build))
    found += [each for group in anchors for each in group]
    if anchors:
        key.append(("+", f"anchors of the floating room, {len(anchors)}"))
    for cut in cuts_of(build, "floor"):
        found += cut_outline(cut, (cut.along, -cut.up))
        found.append(Text((cut.along, -cut.up), labelled(cut.name), "cuts", cut.name, shift=(0.0, -0.005)))
    found += _floor_dimensions(build, half)
    return Drawing("floor", "Floor with mounts", "seen from above, front of the van to the left", tuple(found),
                   tuple(key), (_pads_in_words(system),) if build.mounts else ())  # fmt: skip


def _wheel_boxes(build: Build, half: float) -> list[Element]:
    boxes = build.vehicle.wheel_boxes
    if boxes is None:
        return []
    between, _, front, rear = boxes
    found: list[Element] = []
    for sign, face in ((-1.0, "left"), (1.0, "right")):
        ys = sorted((sign * between / 2.0, sign * half))
        corners = box((front, ys[0]), (rear, ys[1]))
        found += [Hatch(corners, "body", f"wheel_box_{face}", "metal"),
                  Polyline(corners, "body", f"wheel_box_{face}", closed=True)]  # fmt: skip
    return found


def _room(room: Room) -> list[Element]:
    """Finished room at its floor, dashed, with its name."""
    width = room.section.floor_width
    corners = box((room.front, -width / 2.0), (room.rear, width / 2.0))
    place = ((room.front + room.rear) / 2.0, width / 2.0)
    return [Polyline(corners, "hidden", room.name, closed=True),
            Text(place, labelled(room.name), part=room.name, size=NORMAL, bold=True, shift=(0.0, -0.005))]  # fmt: skip


def _pads_in_words(system: System) -> str:
    """How wide mounts are drawn, and what is checked with it."""
    wide = format_quantity(MOUNT_PAD, "length", system)
    return f"Mounts are drawn {wide} wide, as their places under the bearers are checked; the file has no width."


def _bearers_in_words(build: Build, system: System) -> list[str]:
    """Section and number of the bearers under every floor."""
    found = []
    for room in build.rooms:
        surface = room.surface("floor")
        for layer in surface.layers if surface is not None else ():
            if layer.kind != "floor_mounts" or surface is None or layer.cavity is None or layer.cavity.frame is None:
                continue
            pieces, frame = pieces_of(surface, layer), layer.cavity.frame
            if pieces:
                deep, wide = (format_quantity(each, "length", system) for each in (frame.depth, frame.width))
                found.append(f"bearers of {spoken(room.name)}: {len(pieces)}, {deep} deep and {wide} wide, "
                             "one over each row of mounts; lengths on the sheet of battens")  # fmt: skip
    return found


def _bearers(surface: Surface) -> list[Element]:
    """Bearers across the van, each as it is cut, with its middle line over the mounts."""
    found: list[Element] = []
    for (low, high), (right, left) in battens_over(surface):
        found += [Hatch(box((low, -left), (high, -right)), "structure", surface.name, "sheet"),
                  Polyline(box((low, -left), (high, -right)), "structure", surface.name, closed=True)]  # fmt: skip
    return found


def _anchors(build: Build) -> Iterator[list[Element]]:
    for anchor in build.anchoring.room:
        station, y, _ = anchor.at
        reach = 0.03
        yield [
            Circle((station, -y), 0.6 * reach, "fittings", "restraint"),
            Line((station - reach, -y), (station + reach, -y), "fittings", "restraint"),
            Line((station, -y - reach), (station, -y + reach), "fittings", "restraint"),
        ]


def _floor_dimensions(build: Build, half: float) -> list[Element]:
    length = build.vehicle.load_length
    stations = distinct(place[0] for group in build.mounts for place in group.places)
    offsets = distinct(-place[1] for group in build.mounts for place in group.places)
    found: list[Element] = list(chain((0.0, *stations, length), "x", -half, -FIRST_ROW))
    found.append(Dimension((0.0, -half), (length, -half), "x", -half, -FIRST_ROW - NEXT_ROW))
    found += chain((-half, *offsets, half), "y", length, FIRST_ROW)
    found.append(Dimension((length, -half), (length, half), "y", length, FIRST_ROW + NEXT_ROW))
    if build.vehicle.wheel_boxes is not None:
        between, _, front, rear = build.vehicle.wheel_boxes
        found += chain((0.0, front, rear, length), "x", half, FIRST_ROW)
        at = front + 0.3 * (rear - front)
        found.append(Dimension((at, -between / 2.0), (at, between / 2.0), "y", at, 0.0))
    return found


def ceiling(build: Build, system: System = "metric") -> Drawing:
    """Ceiling from below with bows, battens, absorbers, openings; sides with absorbers are told in the key.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units of the words.

    Returns
    -------
    Drawing
        x is the station, y runs to the left of the van, as one lies on the floor and looks up.
    """
    half, length = build.vehicle.section.ceiling_width / 2.0, build.vehicle.load_length
    found: list[Element] = [Polyline(box((0.0, -half), (length, half)), "body", "vehicle", closed=True)]
    for station in members(build, "roof"):
        for edge in (-0.5, 0.5):
            x = station + edge * build.vehicle.bows.width
            found.append(Line((x, -half), (x, half), "hidden", "vehicle"))
    for room in build.rooms:
        found += _ceiling_of(build, room)
    for cut in cuts_of(build, "roof"):
        found += cut_outline(cut, (cut.along, cut.up))
        found.append(Text((cut.along, cut.up), labelled(cut.name), "cuts", cut.name, across="left", shift=(0.004, 0.0)))
    rooms = [place for room in build.rooms for place in (room.front, room.rear)]
    found += chain((0.0, *rooms, length), "x", -half, -FIRST_ROW)
    found.append(Dimension((0.0, -half), (length, -half), "x", -half, -FIRST_ROW - NEXT_ROW))
    found.append(Dimension((length, -half), (length, half), "y", length, FIRST_ROW))
    return Drawing("ceiling", "Ceiling with treatments", "seen from below, front of the van to the left",
                   tuple(found), tuple(_absorbers(build, system)),
                   ("Absorbers are drawn in the middle of their face; their place is agreed on site.",))  # fmt: skip


def _ceiling_of(build: Build, room: Room) -> list[Element]:
    surface = room.surface("ceiling")
    if surface is None:
        return []
    wide = room.section.ceiling_width / 2.0
    found: list[Element] = [
        Polyline(box((room.front, -wide), (room.rear, wide)), "linings", surface.name, closed=True),
        Text(((room.front + room.rear) / 2.0, wide), labelled(room.name), part=room.name, size=NORMAL, bold=True,
             shift=(0.0, -0.005)),
    ]  # fmt: skip
    for (low, high), _ in battens_over(surface):
        found += [Line((x, -wide), (x, wide), "structure", surface.name, dashed=True) for x in (low, high)]
    for treatment in room.treatments:
        if treatment.face == "ceiling":
            share = treatment.coverage**0.5
            middle, reach = (room.front + room.rear) / 2.0, share * room.length / 2.0
            corners = box((middle - reach, -share * wide), (middle + reach, share * wide))
            found += [Hatch(corners, "treatments", surface.name, "absorber", lines=True),
                      Polyline(corners, "treatments", surface.name, closed=True)]  # fmt: skip
    for hole in holes_of(build, room, "ceiling"):
        found.append(Polyline(hole.outline, "openings", hole.name, closed=True))
    return found


def _absorbers(build: Build, system: System) -> Iterator[tuple[str, str]]:
    """All absorbers of all rooms in words."""
    number = 0
    for room in build.rooms:
        for treatment in room.treatments:
            number += 1
            surface = room.surface(treatment.face)
            area = treatment.coverage * (surface.area if surface is not None else 0.0)
            thick = format_quantity(treatment.thickness, "length", system)
            behind = ""
            if treatment.air_behind > 0.0:
                behind = f", {format_quantity(treatment.air_behind, 'length', system)} of air behind"
            where = (
                f"{spoken(room.name)} {spoken(treatment.face)}: {sized_name(treatment.blanket.name, system)} {thick}"
            )
            size = format_quantity(area, "area", system)
            yield str(number), f"{where}, {100 * treatment.coverage:.0f} % or {size}{behind}"
