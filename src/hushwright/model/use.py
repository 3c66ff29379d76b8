"""Envelopes of fittings, swings of doors and the workplace, from the build file."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.document.schema.mass import OutPlace
from hushwright.document.schema.rooms import Fitting
from hushwright.document.schema.use import SpotPlace, Swing, Workplace
from hushwright.model.build import OpeningInPlace, Room
from hushwright.model.taking import Path, Taker, dotted
from hushwright.model.use_in_place import (
    EnvelopeInPlace,
    Spot,
    SwingInPlace,
    UseInPlace,
    WindowInPlace,
    WorkplaceInPlace,
)

# Face → unit vector (station, y) to the left hand of who faces it from inside, and the way into the room.
_LEFT_HAND = {"front": (0.0, 1.0), "rear": (0.0, -1.0), "left": (1.0, 0.0), "right": (-1.0, 0.0)}
_INWARD = {"front": (1.0, 0.0), "rear": (-1.0, 0.0), "left": (0.0, -1.0), "right": (0.0, 1.0)}


def resolve_use(
    taker: Taker, root: BuildFile, openings: tuple[OpeningInPlace, ...], rooms: tuple[Room, ...]
) -> UseInPlace:
    """Resolve what moves and where someone works.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    root : BuildFile
        The build file.
    openings, rooms : tuple
        In place.

    Returns
    -------
    UseInPlace
        Envelopes, swings and the workplace.
    """
    envelopes = tuple(
        _envelope(taker, root, index) for index, one in enumerate(root.fittings) if one.envelope is not None
    )
    swings = []
    for opening in openings:
        typed = root.openings[opening.name].swing
        if typed is not None:
            found = _swing(taker, typed, opening)
            swings += [found] if found is not None else []
    workplace = None if root.workplace is None else _workplace(taker, root.workplace, openings, rooms)
    return UseInPlace(envelopes, tuple(swings), workplace)


def _envelope(taker: Taker, root: BuildFile, index: int) -> EnvelopeInPlace:
    typed = root.fittings[index]
    at: Path = ("fittings", index)
    on: Path = (*at, "envelope")
    envelope = typed.envelope
    assert envelope is not None
    length, width, height = (
        taker.quantity((*on, name), getattr(envelope, name), "length", label=f"{typed.name} {name}")
        for name in ("length", "width", "height")
    )
    out = None if typed.out is None else _spot(taker, typed.out, (*at, "out"))
    if out is None:
        for name in ("out_length", "out_width"):
            if getattr(envelope, name) is not None:
                taker.say("key-without-effect", (*on, name), name, "says nothing without an `out` place",
                          "give `out` to the fitting, or leave it out", severity="warning")  # fmt: skip
    out_length = length if envelope.out_length is None else taker.quantity((*on, "out_length"), envelope.out_length,
                                                                             "length")  # fmt: skip
    out_width = width if envelope.out_width is None else taker.quantity((*on, "out_width"), envelope.out_width,
                                                                          "length")  # fmt: skip
    radius = None
    if envelope.turning_radius is not None:
        radius = taker.quantity((*on, "turning_radius"), envelope.turning_radius, "length")
    return EnvelopeInPlace(typed.name, _spot(taker, typed, at), (length, width, height), out,
                           (out_length, out_width, height), radius, dotted(on))  # fmt: skip


def _swing(taker: Taker, typed: Swing, opening: OpeningInPlace) -> SwingInPlace | None:
    at: Path = ("openings", opening.name, "swing")
    if opening.face not in _LEFT_HAND:
        taker.say("no-hinged-door", at, opening.face, "a door swings in an end or a side only", "leave `swing` out")
        return None
    hand, inward = _LEFT_HAND[opening.face], _INWARD[opening.face]
    sign = 1.0 if typed.hinge == "left" else -1.0
    way = 1.0 if typed.opens == "in" else -1.0
    station, y, z = opening.centre
    half = opening.width / 2.0
    return SwingInPlace(
        opening.name, (station + sign * half * hand[0], y + sign * half * hand[1]),
        (-sign * hand[0], -sign * hand[1]), (way * inward[0], way * inward[1]),
        taker.quantity((*at, "angle"), typed.angle, "angle"), opening.width, z - opening.height / 2.0,
        z + opening.height / 2.0, dotted(at),
    )  # fmt: skip


def _workplace(
    taker: Taker, typed: Workplace, openings: tuple[OpeningInPlace, ...], rooms: tuple[Room, ...]
) -> WorkplaceInPlace:
    at: Path = ("workplace",)

    def length(name: str) -> float | None:
        value = getattr(typed, name)
        return None if value is None else taker.quantity((*at, name), value, "length")

    if len(typed.speakers) == 1:
        taker.say("one-loudspeaker", (*at, "speakers"), "1", "two loudspeakers make the triangle with the seat",
                  "give both", severity="warning")  # fmt: skip
    camera = None
    if typed.camera is not None:
        field = taker.quantity((*at, "camera", "field"), typed.camera.field, "angle")
        camera = (_spot(taker, typed.camera, (*at, "camera")), field)
    thighs, reach, below = length("thighs"), length("reach"), length("shoulder_below_eye")
    assert thighs is not None
    assert reach is not None
    assert below is not None
    return WorkplaceInPlace(
        _spot(taker, typed.eye, (*at, "eye")), length("seat_height"), length("desk_underside"), thighs, reach, below,
        tuple((one.name, _spot(taker, one, (*at, "controls", i))) for i, one in enumerate(typed.controls)),
        tuple(_spot(taker, one, (*at, "speakers", i)) for i, one in enumerate(typed.speakers)),
        taker.quantity((*at, "base_angle"), typed.base_angle, "angle"),
        taker.quantity((*at, "base_tolerance"), typed.base_tolerance, "angle"),
        tuple(_spot(taker, one, (*at, "singers", i)) for i, one in enumerate(typed.singers)),
        _window(taker, typed, openings, rooms), camera,
    )  # fmt: skip


def _window(
    taker: Taker, typed: Workplace, openings: tuple[OpeningInPlace, ...], rooms: tuple[Room, ...]
) -> WindowInPlace | None:
    """Window between the rooms, as deep as the wall that it is in."""
    ends = {one.name: one for one in openings if one.face in ("front", "rear") and not one.in_vehicle}
    if typed.window:
        if not taker.name_of(typed.window, tuple(ends), ("workplace", "window"), "opening in an end of a room"):
            return None
        one = ends[typed.window]
    else:
        found = next((each for each in ends.values() if each.kind == "window"), None)
        if found is None:
            return None
        one = found
    room = next(each for each in rooms if each.name == one.room)
    surface = room.surface(one.face)
    depth = surface.thickness if surface is not None else 0.0
    station = room.front if one.face == "front" else room.rear
    far = station - depth if one.face == "front" else station + depth
    return WindowInPlace(one.name, (min(station, far), max(station, far)), one.centre[1], one.centre[2], one.width,
                         one.height)  # fmt: skip


def _spot(taker: Taker, typed: SpotPlace | OutPlace | Fitting, at: Path) -> Spot:
    return (
        taker.quantity((*at, "station"), typed.station, "length"),
        taker.quantity((*at, "offset"), typed.offset, "length"),
        taker.quantity((*at, "height"), typed.height, "length"),
    )
