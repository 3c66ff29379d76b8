"""A section: the van cut across at a station, seen from behind, left of the van to the left."""

from __future__ import annotations

from hushwright.drawings.geometry import (
    Band,
    bands,
    battens_over,
    centres,
    half_width,
    labelled,
    leaf_depth,
    openings_in,
    room_holding,
    side_line,
    spoken,
)
from hushwright.drawings.in_plan import Side, filled
from hushwright.drawings.in_section import NOTHING, in_section
from hushwright.drawings.layers import tone_of
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
    Point,
    Polyline,
    Text,
    box,
    chain,
)
from hushwright.model.build import Build, Room, Surface
from hushwright.model.parts import MOUNT_PAD
from hushwright.units import System, format_quantity

_TALL = 1.0  # m, from which the name of an opening stands in its middle
_SHOULDER = 1.35  # m over the finished floor; common practice, no source


def section(build: Build, name: str, station: float, system: System = "metric", *, with_things: bool = True) -> Drawing:
    """Section across the van at a station.

    Parameters
    ----------
    build : Build
        The build.
    name : str
        Letter of the section.
    station : float
        Where the van is cut [m].
    system : {"metric", "us"}
        Units of the words.
    with_things : bool
        Whether fittings, ducts and openings are drawn, with the numbers of the plan.

    Returns
    -------
    Drawing
        x runs to the right of the van, y upward from the steel floor.
    """
    room = room_holding(build, station)
    things = in_section(build, station, room, system) if with_things else NOTHING
    found = _body(build)
    if room is not None:
        found += _lining(build, room, station)
    found += _wheel_boxes(build, room, station)
    found.append(Polyline(body_outline(build), "body", "vehicle", closed=True))
    if room is not None:
        found += _seen_beyond(build, room)
    found += [*things.beyond, *things.cut]
    if room is not None:
        found += _dimensions(build, room, station)
    found += _outer_dimensions(build, station)
    label = room.name if room is not None else ""
    title = f"Section {name}" + (f", {spoken(label)}" if label else "")
    at = format_quantity(station, "length", system)
    seen = f"cut {at} behind the B-pillar line, seen from behind"
    said = (
        ("Filled: what the cut meets. Thin: what is seen beyond it, as far as this room reaches.",)
        if things.key
        else ()
    )
    return Drawing(f"section-{name.lower()}", title, seen, tuple(found), things.key, said)


def mirrored(points: tuple[Point, ...], sign: float) -> tuple[Point, ...]:
    """Points of (y, z) as they lie in the view; ``sign`` -1 for the left side."""
    return tuple((sign * abs(y), z) for y, z in points)


def roof_line(build: Build) -> tuple[Point, ...]:
    """Outer line of the roof over the bows: level, or with the radius of the roof where that is flatter."""
    vehicle = build.vehicle
    top, half = vehicle.floor_to_bow, vehicle.section.ceiling_width / 2.0
    depth = vehicle.bows.depth
    rise = half * half / (2.0 * vehicle.roof_radius) if vehicle.roof_radius > half else 0.0
    rise = min(rise, depth)
    steps = [half * index / 8.0 for index in range(-8, 9)]
    return tuple((y, top + depth - rise * (y / half) ** 2) for y in steps)


def body_outline(build: Build) -> tuple[Point, ...]:
    """Skin and roof, closed over the steel floor."""
    left = mirrored(build.vehicle.section.left, -1.0)
    right = mirrored(build.vehicle.section.right, 1.0)
    return (*left, *roof_line(build), *reversed(right))


def _body(build: Build) -> list[Element]:
    vehicle = build.vehicle
    low = -vehicle.floor_over_ground
    half = vehicle.section.floor_width / 2.0
    return [
        Hatch(body_outline(build), "body", "vehicle", "room"),
        Line((-vehicle.section.ceiling_width / 2.0, vehicle.floor_to_bow),
             (vehicle.section.ceiling_width / 2.0, vehicle.floor_to_bow), "hidden", "vehicle"),
        Line((-1.15 * half, low), (1.15 * half, low), "structure"),
        Text((-1.15 * half, low), "ground", across="left", upward="top", shift=(0.0, -0.0008)),
    ]  # fmt: skip


def _lining(build: Build, room: Room, station: float) -> list[Element]:
    """Layers of sides, floor and ceiling round the room; the outer ones run on behind the leaves."""
    found: list[Element] = []
    for face in ("left", "right"):
        surface = room.surface(face)
        for band in bands(surface):
            found += _side(build, room, surface, band, -1.0 if face == "left" else 1.0)
    depth = {side: leaf_depth(room.surface(side)) for side in ("left", "right")}
    for face, side in (("floor", "low y"), ("ceiling", "high y")):
        surface = room.surface(face)
        if surface is None:
            continue
        for band in bands(surface):
            zs = _heights(build, face, band)
            widths = [half_width(build.vehicle, depth[each], sum(zs) / 2.0) for each in ("left", "right")]
            outer: Side = "low y" if side == "low y" else "high y"
            found += filled((-widths[0], zs[0]), (widths[1], zs[1]), band, surface.name,
                            "floor" if face == "floor" else "linings", outer)  # fmt: skip
            if band.layer.kind == "floor_mounts":
                found += _mounts(build, band, surface, room, station)
    return found


def _heights(build: Build, face: str, band: Band) -> tuple[float, float]:
    """Lower and upper side of a layer of floor or ceiling [m]."""
    if face == "floor":
        return band.outer, band.inner
    top = build.vehicle.floor_to_bow
    return top - band.inner, top - band.outer


def _side(build: Build, room: Room, surface: Surface | None, band: Band, sign: float) -> list[Element]:
    assert surface is not None
    low, high = 0.0, build.vehicle.floor_to_bow
    if band.in_inner_leaf:
        low, high = room.section.floor_height, room.section.ceiling_height
    outer = mirrored(side_line(build.vehicle, band.outer, low, high), sign)
    inner = mirrored(side_line(build.vehicle, band.inner, low, high), sign)
    shape = (*outer, *reversed(inner))
    cavity = band.layer.cavity
    if cavity is None:
        return [Hatch(shape, "linings", surface.name, tone_of(band.layer.kind) or "sheet"),
                Polyline(shape, "linings", surface.name, closed=True)]  # fmt: skip
    if cavity.fill is None or cavity.fill_thickness <= 0.0:
        return [Hatch(shape, "linings", surface.name, "room")]
    reach = band.outer + min(cavity.fill_thickness, band.inner - band.outer)
    wool = (*outer, *reversed(mirrored(side_line(build.vehicle, reach, low, high), sign)))
    return [Hatch(shape, "linings", surface.name, "room"), Hatch(wool, "linings", surface.name, "wool", lines=True)]


def _mounts(build: Build, band: Band, surface: Surface, room: Room, station: float) -> list[Element]:
    """Mounts of the row next to the cut, seen in their free height, and along them the bearer that lies over them."""
    space = band.layer.cavity
    group = next((each for each in build.mounts if space is not None and each.name == space.mount_group), None)
    if group is None or not group.places:
        return []
    nearest = min((place[0] for place in group.places), key=lambda each: abs(each - station))
    found: list[Element] = []
    pad = MOUNT_PAD / 2.0
    for place in group.places:
        if abs(place[0] - nearest) > 1e-3:
            continue
        corners = box((-place[1] - pad, band.outer), (-place[1] + pad, band.outer + group.free_height))
        found += [Hatch(corners, "mounts", group.name, "limp"), Polyline(corners, "mounts", group.name, closed=True)]
    over = min(battens_over(surface), key=lambda each: abs(sum(each[0]) / 2.0 - nearest), default=None)
    if over is not None and space is not None and space.frame is not None:
        right, left = over[1]
        bearer = box((-left, band.inner - space.frame.depth), (-right, band.inner))
        found += [Hatch(bearer, "floor", room.name, "sheet"), Polyline(bearer, "floor", room.name, closed=True)]
    return found


def _wheel_boxes(build: Build, room: Room | None, station: float) -> list[Element]:
    """Boxes at this station with their lining, or dashed where they lie elsewhere."""
    boxes = build.vehicle.wheel_boxes
    if boxes is None:
        return []
    between, height, front, rear = boxes
    half = between / 2.0
    found: list[Element] = []
    for sign, face in ((-1.0, "left"), (1.0, "right")):
        surface = room.surface(f"wheel_box_{face}") if room is not None else None
        at = front - 1e-6 <= station <= rear + 1e-6
        if at and surface is not None:
            found += _box_lining(build, surface, sign, half, height)
        skin = half_width(build.vehicle, 0.0, height / 2.0)
        shape = box((min(sign * half, sign * skin), 0.0), (max(sign * half, sign * skin), height))
        if at:
            found += [Hatch(shape, "body", f"wheel_box_{face}", "paper"),
                      Polyline(shape, "body", f"wheel_box_{face}", closed=True)]  # fmt: skip
        else:
            found.append(Polyline(shape, "hidden", f"wheel_box_{face}", closed=True))
    return found


def _box_lining(build: Build, surface: Surface, sign: float, half: float, height: float) -> list[Element]:
    """Layers round a wheel box, the innermost first so that each outer one covers what is not its own."""
    found: list[Element] = []
    for band in reversed(bands(surface)):
        reach = half_width(build.vehicle, 0.0, height)
        shape = box((min(sign * (half - band.inner), sign * reach), 0.0),
                    (max(sign * (half - band.inner), sign * reach), height + band.inner))  # fmt: skip
        wool = band.layer.cavity is not None and band.layer.cavity.fill is not None
        tone = "wool" if wool else tone_of(band.layer.kind) or "room"
        found += [Hatch(shape, "linings", surface.name, tone, lines=wool),
                  Polyline(shape, "linings", surface.name, closed=True)]  # fmt: skip
    return found


def _seen_beyond(build: Build, room: Room) -> list[Element]:
    """Openings of the wall ahead, as one sees them from the cut."""
    found: list[Element] = []
    for opening in openings_in(build, room.name, "front"):
        for _, y, z in centres(opening):
            if opening.round:
                found.append(Circle((-y, z), opening.width / 2.0, "openings", opening.name))
                continue
            low = (-y - opening.width / 2.0, z - opening.height / 2.0)
            high = (-y + opening.width / 2.0, z + opening.height / 2.0)
            found.append(Polyline(box(low, high), "openings", opening.name, closed=True))
        place = (-opening.centre[1], opening.centre[2] - opening.height / 2.0)
        if opening.height > _TALL:
            place = (place[0], opening.centre[2])
        found.append(Text(place, labelled(opening.name), "openings", opening.name, upward="top", shift=(0.0, -0.001),
                          clear=True))  # fmt: skip
    top = room.section.ceiling_height
    beside = (0.2 * room.section.floor_width, top)  # beside the centre line
    found.append(Text(beside, labelled(room.name), part=room.name, size=1.4 * NORMAL, bold=True,
                      shift=(0.0, -0.006)))  # fmt: skip
    found.append(Line((0.0, 0.0), (0.0, build.vehicle.floor_to_bow), "hidden"))
    return found


def _dimensions(build: Build, room: Room, station: float) -> list[Element]:
    """Clear sizes inside the room."""
    inner = room.section
    shoulder = inner.floor_height + _SHOULDER
    found: list[Element] = []
    at = -0.22 * inner.floor_width
    found.append(Dimension((at, inner.floor_height), (at, inner.ceiling_height), "y", at, 0.0))
    if inner.floor_height < shoulder < inner.ceiling_height:
        ends = [inner.half_width_at(side, shoulder) for side in ("left", "right")]
        found.append(Dimension((-ends[0], shoulder), (ends[1], shoulder), "x", shoulder, 0.0))
    low = inner.floor_height + 0.35 * inner.height
    boxes = build.vehicle.wheel_boxes
    lined = room.surface("wheel_box_left")
    if boxes is not None and lined is not None and boxes[2] <= station <= boxes[3]:
        half = boxes[0] / 2.0 - lined.thickness
        place = inner.floor_height + 0.1
        found.append(Dimension((-half, place), (half, place), "x", place, 0.0))
    else:
        ends = [inner.half_width_at(side, low) for side in ("left", "right")]
        found.append(Dimension((-ends[0], low), (ends[1], low), "x", low, 0.0))
    return found


def _outer_dimensions(build: Build, station: float) -> list[Element]:
    vehicle = build.vehicle
    room = room_holding(build, station)
    half = max(half_width(vehicle, 0.0, z) for z in (0.0, vehicle.floor_to_bow / 2.0))
    heights = [0.0, vehicle.floor_to_bow]
    widths = [-half_width(vehicle, 0.0, 0.0), half_width(vehicle, 0.0, 0.0)]
    if room is not None:
        heights += [room.section.floor_height, room.section.ceiling_height]
        widths += [-room.section.half_width_at("left", 0.0), room.section.half_width_at("right", 0.0)]
    low = -vehicle.floor_over_ground
    found: list[Element] = list(chain(tuple(heights), "y", half, FIRST_ROW))
    found.append(Dimension((half, low), (half, vehicle.floor_to_bow + vehicle.bows.depth), "y", half,
                           FIRST_ROW + NEXT_ROW))  # fmt: skip
    found += chain(tuple(widths), "x", 0.0, -FIRST_ROW)
    found.append(Dimension((-half, 0.0), (half, 0.0), "x", 0.0, -FIRST_ROW - NEXT_ROW))
    return found
