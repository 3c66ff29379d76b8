"""Doors and windows to build from: each seen from inside its room, with a section through its leaf or panes.

Sizes are those of the clear opening. What the file does not know (how far a leaf covers its frame, where latches sit)
is said beside the drawing instead of drawn.
"""

from __future__ import annotations

from collections.abc import Iterator

from hushwright.drawings.build_ups import layer_shapes
from hushwright.drawings.geometry import labelled, spoken
from hushwright.drawings.numbers import length_text
from hushwright.drawings.primitives import (
    FIRST_ROW,
    NEXT_ROW,
    NORMAL,
    SMALL,
    Balloon,
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
)
from hushwright.library.us_names import sized_name
from hushwright.model.build import Build, LayerInPlace, OpeningInPlace, Room
from hushwright.model.cuts_in_place import DoorInPlace
from hushwright.model.use_in_place import SwingInPlace
from hushwright.units import System, format_quantity

_SECTION_FROM = 0.50  # m from the opening to its section
_HINGE = (0.016, 0.09)  # m, width and height of the sign of a hinge
_KINDS = ("door", "window")


def openings_drawn(build: Build, system: System) -> tuple[Drawing, ...]:
    """A drawing of every door and window of the rooms.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units of the sizes in the key.

    Returns
    -------
    tuple of Drawing
        Seen from inside; x runs to the right of who looks, from the centre line of the van on its ends, from the
        B-pillar line on its sides; y is the height over the steel floor.
    """
    rooms = {room.name: room for room in build.rooms}
    return tuple(_drawing(build, rooms[each.room], each, system) for each in build.openings
                 if each.kind in _KINDS and not each.in_vehicle and each.room in rooms
                 and each.face in ("front", "rear", "left", "right"))  # fmt: skip


def _drawing(build: Build, room: Room, opening: OpeningInPlace, system: System) -> Drawing:
    middle, low = _across(opening, opening.centre), opening.centre[2] - opening.height / 2.0
    left, right, high = middle - opening.width / 2.0, middle + opening.width / 2.0, low + opening.height
    door = next((each for each in build.doors if each.name == opening.name), None)
    swing = next((each for each in build.use.swings if each.name == opening.name), None)
    floor = room.section.floor_height
    found: list[Element] = [
        Hatch(
            box((left, low), (right, high)), "openings", opening.name, "glass" if opening.kind == "window" else "sheet"
        ),
        Polyline(box((left, low), (right, high)), "openings", opening.name, closed=True),
        Line((left - 0.15, floor), (right + 0.15, floor), "floor"),
        Text((right + 0.15, floor), "finished floor", size=SMALL, across="left", shift=(0.001, 0.0)),
        Line((left - 0.15, 0.0), (right + 0.15, 0.0), "body"),
        Text((right + 0.15, 0.0), "steel floor", size=SMALL, across="left", shift=(0.001, 0.0)),
    ]
    if opening.face in ("front", "rear"):
        top = (0.0, high + 0.035)
        found += [Line((0.0, -0.06), top, "datums"),
                  Text(top, "centre line", "datums", size=SMALL, across="left", upward="top",
                       shift=(0.001, 0.0))]  # fmt: skip
    if swing is not None and door is not None:
        found += _leaf(opening, door, swing, (left, right), (low, high))
    found += _sizes(opening, (left, right), (low, high), floor)
    found += _section(opening, right + _SECTION_FROM, low, high)
    where = f"{spoken(room.name)}, {spoken(opening.face)}"
    return Drawing(f"opening-{opening.name.replace('_', '-')}", f"{labelled(opening.name, 40)}: {where}",
                   "seen from inside the room; beside it the section, outside to the left", tuple(found),
                   tuple(_key(opening, system)), tuple(_remarks(opening, door, swing, system)))  # fmt: skip


def _across(opening: OpeningInPlace, place: tuple[float, float, float]) -> float:
    """Place across the picture: who looks rearward has the left of the van at the right hand."""
    station, y, _ = place
    return {"front": -y, "rear": y, "left": -station, "right": station}[opening.face]


def _leaf(
    opening: OpeningInPlace,
    door: DoorInPlace,
    swing: SwingInPlace,
    across: tuple[float, float],
    up: tuple[float, float],
) -> list[Element]:
    """Hinges, handle and the way the leaf swings: broken lines meet at its hinges."""
    (left, right), (low, high) = across, up
    at_left = abs(_across(opening, (*swing.hinge, 0.0)) - left) < abs(_across(opening, (*swing.hinge, 0.0)) - right)
    edge, other, into = (left, right, 1.0) if at_left else (right, left, -1.0)
    middle = (low + high) / 2.0
    found: list[Element] = [Line((other, end), (edge, middle), "hidden", opening.name) for end in (low, high)]
    step = door.hinge_spacing / max(door.hinges - 1, 1)
    places = [middle + step * (index - (door.hinges - 1) / 2.0) for index in range(door.hinges)]
    for z in places:
        x0, x1 = sorted((edge - into * _HINGE[0], edge + into * _HINGE[0]))
        found.append(Polyline(box((x0, z - _HINGE[1] / 2.0), (x1, z + _HINGE[1] / 2.0)), "fittings", opening.name,
                              closed=True))  # fmt: skip
    handle = edge + into * door.handle_distance
    found += [Circle((handle, middle), 0.02, "fittings", opening.name),
              Dimension((edge, high), (handle, high), "x", high, FIRST_ROW * 1.1)]  # fmt: skip
    hinged = chain((low, *places, high), "y", edge, -FIRST_ROW if at_left else FIRST_ROW)
    return [*found, *(hinged if len(places) > 1 else ())]


def _sizes(
    opening: OpeningInPlace, across: tuple[float, float], up: tuple[float, float], floor: float
) -> list[Element]:
    (left, right), (low, high) = across, up
    base = min(low, 0.0)
    found: list[Element] = [
        *chain((left, right), "x", base, -FIRST_ROW),
        *chain((floor, low, high), "y", left, -FIRST_ROW - NEXT_ROW * 1.3),
        *chain((0.0, low), "y", left, -FIRST_ROW - NEXT_ROW * 2.6),
    ]
    if opening.face in ("front", "rear"):
        found += chain((left, 0.0, right), "x", base, -FIRST_ROW - NEXT_ROW)
    else:
        way = 1.0 if opening.face == "right" else -1.0
        edge = left if way > 0.0 else right
        found.append(Text((edge, base), f"{length_text(abs(edge))} behind the B-pillar line", size=SMALL, upward="top",
                          shift=(0.0, -0.012)))  # fmt: skip
    return found


def _section(opening: OpeningInPlace, x: float, low: float, high: float) -> list[Element]:
    """Section through leaf or panes, outside to the left."""
    found: list[Element] = []
    at, places = x, [x]
    for layer in opening.layers:
        found += layer_shapes(layer, at, at + layer.thickness, low, high, opening.name)
        at += layer.thickness
        places.append(at)
    middles = [(a + b) / 2.0 for a, b in zip(places, places[1:], strict=False)]
    for index, middle in enumerate(middles):  # thicknesses stand in the key: side by side they would find no room
        up = low + (0.3 + 0.4 * index / len(middles)) * (high - low)
        found.append(Balloon((middle, up), str(index + 1), part=opening.name, beside=True))
    if len(places) > 1:
        found += chain((x, at), "x", high, FIRST_ROW)
    found.append(Text(((x + at) / 2.0, low), "section", size=NORMAL, upward="top", shift=(0.0, -0.002)))
    return found


def _key(opening: OpeningInPlace, system: System) -> Iterator[tuple[str, str]]:
    yield "", f"{opening.number} alike" if opening.number > 1 else "one piece"
    for number, layer in enumerate(opening.layers, 1):
        yield str(number), _layer(layer, system)


def _layer(layer: LayerInPlace, system: System) -> str:
    size = length_text(layer.thickness, system)
    if layer.cavity is None:
        return f"{sized_name(layer.name, system)}, {size}"
    fill = layer.cavity.fill
    return f"space {size}" + (f" with {sized_name(fill.name, system)}" if fill is not None else "")


def _remarks(
    opening: OpeningInPlace, door: DoorInPlace | None, swing: SwingInPlace | None, system: System
) -> Iterator[str]:
    """Seals, frames, hardware, weight, and what is not in the file."""
    seals = opening.seals
    if seals is not None:
        rows = f"{seals.rows} rows" if seals.rows > 1 else "one row"
        whole = format_quantity(seals.length * seals.rows, "length", system)
        gap = format_quantity(seals.residual_gap, "length", system, digits=2)
        yield f"Seal: {sized_name(seals.seal.name, system)}, {rows}, {whole} in all; no wider gap than {gap} is left."
    if opening.kind == "window" and any(layer.is_cavity for layer in opening.layers):
        yield ("Each frame is fixed to its own leaf and touches the other nowhere." if opening.frames == "separate"
               else "One frame holds both panes.")  # fmt: skip
    if opening.reveal > 0.0:
        yield f"Niche {length_text(opening.reveal, system)} deep before the pane."
    yield f"Weight {format_quantity(opening.mass, 'mass', system, digits=3)}."
    if door is not None:
        apart = length_text(door.hinge_spacing, system)
        yield (f"{door.hinges} hinges, outer ones {apart} apart; {door.latches} latches; threshold"
               f" {length_text(door.threshold, system)}.")  # fmt: skip
    if swing is not None:
        yield "Broken lines meet at the hinges."
    covers = "its frame covers" if opening.kind == "window" else "the leaf covers its frame"
    yield f"Sizes are clear. Not in the file, to be settled with the maker: how far {covers}, where latches sit."
