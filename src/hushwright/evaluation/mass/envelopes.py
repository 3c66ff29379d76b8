"""What moves must clear what stands; and from the seat hands must reach, eyes see, ears hear."""

from __future__ import annotations

import math
from collections.abc import Iterator

from hushwright.evaluation.results import Quantity
from hushwright.evaluation.results.use import Clearance, Corners, Swept, UseResults
from hushwright.model.build import Build, Room, StateOfUse
from hushwright.model.use_in_place import EnvelopeInPlace, Spot, SwingInPlace, WindowInPlace, WorkplaceInPlace

_ARC_STEP = math.radians(10.0)
_ANGLE_SPREAD = math.radians(1.0)  # rad, how closely loudspeakers and cameras are set; common practice, no source
_POSTURE = 0.03  # m, how much people of one size sit and reach differently; common practice, no source


def use_of(build: Build, quantities: dict[str, Quantity]) -> UseResults:
    """Clearances of every state, and what the workplace gives; quantities are added.

    Parameters
    ----------
    build : Build
        What is there.
    quantities : dict
        Gets `clearance/<state>` [m], `knee-room` [m], `reach` [m], `sight-line` [m], `speaker-angle` [rad],
        `camera-field` [rad].

    Returns
    -------
    UseResults
        Nearest things of every state, and which control, singer is worst.
    """
    use = build.use
    clearances = []
    if use.envelopes or use.swings:
        for state in build.states:
            found = clearance_in(build, state)
            if found is not None:
                clearances.append(found)
                # Two things are each as exact as the workshop builds.
                spread = math.sqrt(2.0) * build.tolerances.width / 2.0
                quantities[f"clearance/{state.name}"] = Quantity(found.distance, "length", spread)
    if use.workplace is None:
        return UseResults(tuple(clearances))
    return _from_the_seat(use.workplace, tuple(clearances), quantities, build.tolerances.width / 2.0)


def clearance_in(build: Build, state: StateOfUse) -> Clearance | None:
    """Least distance between any two things of a state of which at least one moves, or of one and its room."""
    things = tuple(swept_in(build, state))
    found: list[tuple[float, str, str, str]] = []
    for index, one in enumerate(things):
        for other in things[index + 1 :]:
            if one.moves or other.moves:
                found.append((apart(one, other), one.name, other.name, one.place if one.moves else other.place))
        room = _room_round(build, one)
        if room is not None and not _leaves(build, state, one):
            found.append((_to_walls(one, room), one.name, f"the walls of the {room.name.replace('_', ' ')}", one.place))
    if not found:
        return None
    least = min(found)
    strikes = tuple((a, b, distance) for distance, a, b, _ in sorted(found) if distance < 0.0)
    return Clearance(state.name, (least[1], least[2]), least[0], least[3], strikes, things)


def _leaves(build: Build, state: StateOfUse, one: Swept) -> bool:
    """Whether a thing is no matter of the walls: a door in them, or something carried out of doors."""
    if any(each.name == one.name for each in build.use.swings):
        return True
    found = next(each for each in build.use.envelopes if each.name == one.name)
    if found.out is None or found.name not in state.out:
        return False
    x, y, z = found.out
    side = build.vehicle.section.half_width_at("left", min(max(z, 0.0), build.vehicle.floor_to_bow))
    return not (0.0 <= x <= build.vehicle.load_length and abs(y) <= side)


def swept_in(build: Build, state: StateOfUse) -> Iterator[Swept]:
    """Room that every thing takes in a state: at rest where it stands, out or open the whole way there."""
    for one in build.use.envelopes:
        if one.name not in state.unloaded:
            yield _of_fitting(one, out=one.name in state.out)
    for swing in build.use.swings:
        if swing.name in state.open:
            yield _of_door(swing)


def _of_door(swing: SwingInPlace) -> Swept:
    return Swept(swing.name, sector(swing), swing.low, swing.high, swing.place, moves=True)


def in_the_swing(build: Build, state: StateOfUse, door: str) -> tuple[tuple[str, float], ...]:
    """What stands where a door leaf has to pass in a state, the deepest first, and how deep [m].

    What is carried out of doors in that state is not in the way; what moves inside may stand anywhere on its way.
    """
    swing = next((each for each in build.use.swings if each.name == door), None)
    if swing is None:
        return ()
    leaf = _of_door(swing)
    standing = [_of_fitting(one, out=one.name in state.out) for one in build.use.envelopes
                if one.name not in state.unloaded]  # fmt: skip
    found = [(-apart(leaf, one), one.name) for one in standing if not _leaves(build, state, one)]
    return tuple((name, depth) for depth, name in sorted(found, reverse=True) if depth > 0.0)


def _of_fitting(one: EnvelopeInPlace, *, out: bool) -> Swept:
    corners = list(rectangle(one.centre, one.size))
    low, high = one.centre[2] - one.size[2] / 2.0, one.centre[2] + one.size[2] / 2.0
    if one.turning_radius is not None:
        corners += circle(one.centre, one.turning_radius)
    if out and one.out is not None:
        corners += rectangle(one.out, one.out_size)
        low, high = min(low, one.out[2] - one.size[2] / 2.0), max(high, one.out[2] + one.size[2] / 2.0)
    moves = one.turning_radius is not None or (out and one.out is not None)
    return Swept(one.name, hull(tuple(corners)), low, high, one.place, moves)


def rectangle(centre: Spot, size: Spot) -> Corners:
    """Corners of an upright box in plan."""
    (x, y, _), (along, across, _) = centre, size
    a, b = along / 2.0, across / 2.0
    return ((x - a, y - b), (x + a, y - b), (x + a, y + b), (x - a, y + b))


def circle(centre: Spot, radius: float) -> Corners:
    """Corners of a circle in plan, drawn round it so that nothing of it is left out."""
    number = round(2.0 * math.pi / _ARC_STEP)
    outer = radius / math.cos(math.pi / number)
    steps = [2.0 * math.pi * (each + 0.5) / number for each in range(number)]
    return tuple((centre[0] + outer * math.cos(step), centre[1] + outer * math.sin(step)) for step in steps)


def sector(swing: SwingInPlace) -> Corners:
    """Corners of what a door leaf sweeps in plan.

    Examples
    --------
    >>> door = SwingInPlace("door", (0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.5708, 0.8, 0.0, 2.0, "")
    >>> round(max(x for x, _ in sector(door)), 3)
    0.8
    """
    number = max(2, math.ceil(swing.angle / _ARC_STEP))
    found = [swing.hinge]
    for step in range(number + 1):
        turn = swing.angle * step / number
        along, off = swing.width * math.cos(turn), swing.width * math.sin(turn)
        found.append((swing.hinge[0] + along * swing.closed[0] + off * swing.towards[0],
                      swing.hinge[1] + along * swing.closed[1] + off * swing.towards[1]))  # fmt: skip
    return hull(tuple(found))


def hull(points: Corners) -> Corners:
    """Convex outline of points, anticlockwise.

    Examples
    --------
    >>> hull(((0.0, 0.0), (2.0, 0.0), (1.0, 0.2), (1.0, 1.0)))
    ((0.0, 0.0), (2.0, 0.0), (1.0, 1.0))
    """
    ordered = sorted(set(points))

    def side(way: list[tuple[float, float]]) -> list[tuple[float, float]]:
        found: list[tuple[float, float]] = []
        for point in way:
            while len(found) > 1 and _turn(found[-2], found[-1], point) <= 0.0:
                found.pop()
            found.append(point)
        return found[:-1]

    return (*side(ordered), *side(ordered[::-1]))


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def apart(one: Swept, other: Swept) -> float:
    """Distance between two upright prisms along the direction that parts them best [m]; below zero they overlap.

    Where two corners face each other the true distance is a little larger, never smaller.
    """
    heights = max(one.low - other.high, other.low - one.high)
    return max(heights, _plan_apart(one.outline, other.outline), _plan_apart(other.outline, one.outline))


def _plan_apart(one: Corners, other: Corners) -> float:
    best = -math.inf
    for a, b in zip(one, (*one[1:], one[0]), strict=True):
        run = math.hypot(b[0] - a[0], b[1] - a[1])
        normal = ((b[1] - a[1]) / run, (a[0] - b[0]) / run)
        best = max(best, min((p[0] - a[0]) * normal[0] + (p[1] - a[1]) * normal[1] for p in other))
    return best


def _room_round(build: Build, one: Swept) -> Room | None:
    """Room that holds the middle of a thing; what lies over the ceiling, under the floor or outside is in none."""
    x = sum(point[0] for point in one.outline) / len(one.outline)
    y = sum(point[1] for point in one.outline) / len(one.outline)
    z = (one.low + one.high) / 2.0
    for room in build.rooms:
        section = room.section
        if room.front <= x <= room.rear and section.floor_height <= z <= section.ceiling_height:
            return room if abs(y) <= section.half_width_at("left", z) else None
    return None


def _to_walls(one: Swept, room: Room) -> float:
    section = room.section
    heights = (max(one.low, section.floor_height), min(one.high, section.ceiling_height))
    left = min(section.half_width_at("left", each) for each in heights)
    right = min(section.half_width_at("right", each) for each in heights)
    stations, across = [point[0] for point in one.outline], [point[1] for point in one.outline]
    return min(min(stations) - room.front, room.rear - max(stations), left - max(across), right + min(across),
               section.ceiling_height - one.high)  # fmt: skip


def _from_the_seat(
    work: WorkplaceInPlace, clearances: tuple[Clearance, ...], quantities: dict[str, Quantity], spread: float
) -> UseResults:
    if work.seat_height is not None and work.desk_underside is not None:
        room = work.desk_underside - work.seat_height - work.thighs
        quantities["knee-room"] = Quantity(room, "length", math.hypot(spread, _POSTURE / 2.0))
    shoulder = (work.eye[0], work.eye[1], work.eye[2] - work.shoulder_below_eye)
    distances = tuple((name, math.dist(shoulder, spot)) for name, spot in work.controls)
    farthest = max(distances, key=lambda each: each[1], default=None)
    if farthest is not None:
        quantities["reach"] = Quantity(farthest[1], "length", _POSTURE)
    hidden, outside = 0, 0
    if work.singers and work.window is not None:
        seen = [(through(work.eye, one, work.window), at + 1) for at, one in enumerate(work.singers)]
        least, hidden = min(seen)
        quantities["sight-line"] = Quantity(least, "length", _POSTURE)
    if len(work.speakers) == 2:
        off = abs(angle_between(work.eye, *work.speakers) - work.base_angle)
        quantities["speaker-angle"] = Quantity(off, "angle", _ANGLE_SPREAD)
    if work.camera is not None and work.singers:
        where, field = work.camera
        shown = [
            (field / 2.0 - angle_between(where, work.singers[0], one), at + 1) for at, one in enumerate(work.singers)
        ]
        least, outside = min(shown)
        quantities["camera-field"] = Quantity(least, "angle", _ANGLE_SPREAD)
    return UseResults(clearances, distances, hidden, outside)


def through(eye: Spot, face: Spot, window: WindowInPlace) -> float:
    """How far inside the clear opening the line of sight passes, at both ends of its depth [m]; hidden below zero.

    Examples
    --------
    >>> pane = WindowInPlace("window", (2.0, 2.2), 0.0, 1.3, 0.8, 0.6)
    >>> round(through((1.0, 0.0, 1.2), (3.0, 0.0, 1.4), pane), 3)
    0.28
    """
    found = math.inf
    run = face[0] - eye[0]
    for station in window.stations:
        share = (station - eye[0]) / run if run else math.inf
        if not 0.0 <= share <= 1.0:
            return -math.inf if math.isinf(share) else -abs(station - eye[0])
        y, z = (eye[i] + share * (face[i] - eye[i]) for i in (1, 2))
        found = min(found, window.width / 2.0 - abs(y - window.y), window.height / 2.0 - abs(z - window.z))
    return found


def angle_between(at: Spot, one: Spot, other: Spot) -> float:
    """Angle between two points, seen from a third [rad].

    Examples
    --------
    >>> round(angle_between((0.0, 0.0, 0.0), (1.0, 1.0, 0.0), (1.0, -1.0, 0.0)), 4)
    1.5708
    """
    (a, b, c), (u, v, w) = (tuple(p - q for p, q in zip(spot, at, strict=True)) for spot in (one, other))
    across = math.hypot(b * w - c * v, c * u - a * w, a * v - b * u)
    return math.atan2(across, a * u + b * v + c * w)
