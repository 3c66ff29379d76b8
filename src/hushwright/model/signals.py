"""Signals of the build file in place: lines with their ways, headphone points, earths, gear near microphones."""

from __future__ import annotations

import math
from dataclasses import replace

from hushwright.document.schema import BuildFile
from hushwright.document.schema.signals import HeadphonePoint, Signals, SignalWishes
from hushwright.model.build import BridgeInPlace, OpeningInPlace, Room
from hushwright.model.cuts_in_place import CutInPlace
from hushwright.model.names import NAME
from hushwright.model.routes_in_place import RouteInPlace
from hushwright.model.signal_lines import Passages, resolve_line
from hushwright.model.signals_in_place import (
    STAR,
    AmplifierInPlace,
    GearInPlace,
    GlandInPlace,
    LineInPlace,
    PointInPlace,
    SignalLimits,
    SignalsInPlace,
)
from hushwright.model.taking import Path, Taker, dotted
from hushwright.model.wishes import StateOfUse

_PARTS = ("lines", "amplifiers", "headphones", "earths", "gear")
_FOR_CABLES = ("gland", "hole")


def resolve_signals(
    taker: Taker,
    root: BuildFile,
    states: tuple[StateOfUse, ...],
    openings: tuple[OpeningInPlace, ...],
    cuts: tuple[CutInPlace, ...],
    routes: tuple[RouteInPlace, ...],
) -> SignalsInPlace | None:
    """Resolve `signals` and `brief.signals`; `None` where the file has no signals.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    root : BuildFile
        The build file.
    states : tuple of StateOfUse
        Its states.
    openings, cuts, routes : tuple
        In place, for what lines pass.

    Returns
    -------
    SignalsInPlace or None
        Lines, headphone points, earths, gear, limits.
    """
    typed = root.signals
    if typed is None:
        if root.brief.signals is not None:
            taker.say("key-without-effect", ("brief", "signals"), "signals", "is asked for, but the file has none",
                      "add `signals:` with lines and headphones", severity="warning")  # fmt: skip
        return None
    _check_names(taker, typed)
    passages = Passages(taker, root, openings, cuts, routes)
    lines = tuple(resolve_line(passages, typed, name, each) for name, each in typed.lines.items())
    earths = tuple(
        (name, taker.quantity(("signals", "earths", name), value, "voltage",
                              fallback=passages.usual("voltage between earths"),
                              label=f"voltage of the earth {name}"))
        for name, value in typed.earths.items()
    )  # fmt: skip
    return SignalsInPlace(
        lines, _amplifiers(taker, typed), _points(taker, root, typed, lines), earths, _gear(taker, root, typed, states),
        _glands(openings, cuts, lines, routes), _wanted(taker, root, states), _limits(taker, root.brief.signals),
    )  # fmt: skip


def tied_by_lines(rooms: tuple[Room, ...], signals: SignalsInPlace | None) -> tuple[Room, ...]:
    """Rooms with the bridges that lines of their own make; those along a route are tied by it."""
    tied = [each for each in (signals.lines if signals is not None else ()) if each.bridges and not each.route]
    if not tied or signals is None:
        return rooms
    return tuple(_tied(room, tied) if room.purpose == "quiet" else room for room in rooms)


def _tied(room: Room, lines: list[LineInPlace]) -> Room:
    surfaces = []
    for surface in room.surfaces:
        hollow = any(layer.is_cavity for layer in surface.layers)
        added = tuple(
            BridgeInPlace("point", line.number / surface.area, None, f"cable {_spoken(line.name)}, without a loop",
                          line.place)
            for line in lines
            if hollow and surface.face == tied_face(line)
        )  # fmt: skip
        surfaces.append(replace(surface, bridges=(*surface.bridges, *added)) if added else surface)
    return replace(room, surfaces=tuple(surfaces))


def tied_face(line: LineInPlace) -> str:
    """Face of the floating room whose leaves a line ties: towards the control room its front, else its floor."""
    return "front" if "control" in line.fixed_to or not line.fixed_to else "floor"


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def _check_names(taker: Taker, typed: Signals) -> None:
    for part in _PARTS:
        for name in getattr(typed, part):
            if not NAME.fullmatch(name) or (part == "earths" and name == STAR):
                means = "means the one earth point already" if name == STAR else "is no name: letters, digits, _ and -"
                taker.say("name-unusable", ("signals", part, name), name, means, "give it another name")


def _amplifiers(taker: Taker, typed: Signals) -> tuple[AmplifierInPlace, ...]:
    found = []
    for name, each in typed.amplifiers.items():
        at: Path = ("signals", "amplifiers", name)
        found.append(AmplifierInPlace(
            name,
            taker.quantity((*at, "voltage"), each.voltage, "voltage", label=f"voltage of {name}"),
            taker.quantity((*at, "output_impedance"), each.output_impedance, "resistance",
                           label=f"output impedance of {name}"),
            taker.quantity((*at, "lowest_load"), each.lowest_load, "resistance", label=f"lowest load of {name}"),
            dotted(at),
        ))  # fmt: skip
    return tuple(found)


def _points(taker: Taker, root: BuildFile, typed: Signals, lines: tuple[LineInPlace, ...]) -> tuple[PointInPlace, ...]:
    places = (*root.rooms, "cab", "outdoors")
    found = []
    for name, each in typed.headphones.items():
        at: Path = ("signals", "headphones", name)
        known = taker.name_of(each.room, places, (*at, "room"), "room")
        taker.name_of(each.amplifier, tuple(typed.amplifiers), (*at, "amplifier"), "amplifier for headphones")
        if each.line and taker.name_of(each.line, tuple(typed.lines), (*at, "line"), "line") and known:
            _check_line(taker, each, next(line for line in lines if line.name == each.line), at)
        limiter = None
        if each.limiter is not None:
            limiter = taker.quantity((*at, "limiter"), each.limiter, "level_a", label=f"limiter of {name}")
        found.append(PointInPlace(
            name, each.room, each.number, each.amplifier, each.line,
            taker.quantity((*at, "impedance"), each.impedance, "resistance", label=f"impedance at {name}"),
            taker.quantity((*at, "sensitivity"), each.sensitivity, "level", label=f"sensitivity at {name}"),
            limiter,
            taker.convention((*at, "attenuation"), each.attenuation, "level", "attenuation of headphones",
                             "attenuation of headphones"),
            dotted(at),
        ))  # fmt: skip
    return tuple(found)


def _check_line(taker: Taker, point: HeadphonePoint, line: LineInPlace, at: Path) -> None:
    if line.kind != "headphone":
        taker.say("not-for-headphones", (*at, "line"), line.name, f"carries {line.kind}, no headphones",
                  "name a line of the kind `headphone`")  # fmt: skip
    elif point.room not in (line.comes_from, line.goes_to):
        taker.say("line-ends-elsewhere", (*at, "line"), line.name,
                  f"runs from {line.comes_from} to {line.goes_to}, not to {point.room}",
                  "name the line that leads there", severity="warning")  # fmt: skip


def _gear(taker: Taker, root: BuildFile, typed: Signals, states: tuple[StateOfUse, ...]) -> tuple[GearInPlace, ...]:
    names = tuple(state.name for state in states)
    found = []
    for name, each in typed.gear.items():
        at: Path = ("signals", "gear", name)
        taker.name_of(each.room, tuple(root.rooms), (*at, "room"), "room")
        for index, state in enumerate(each.runs_in):
            taker.name_of(state, names, (*at, "runs_in", index), "state")
        frequency = (None if each.frequency is None
                     else taker.quantity((*at, "frequency"), each.frequency, "frequency",
                                         label=f"frequency of {name}"))  # fmt: skip
        power = (None if each.sound_power is None or each.sound_power.unknown
                 else taker.quantity((*at, "sound_power"), each.sound_power, "level_a",
                                     label=f"sound power of {name}"))  # fmt: skip
        found.append(GearInPlace(name, each.what, each.room, frequency, power, each.steady == "yes", each.runs_in,
                                 dotted(at)))  # fmt: skip
    return tuple(found)


def _glands(
    openings: tuple[OpeningInPlace, ...], cuts: tuple[CutInPlace, ...], lines: tuple[LineInPlace, ...],
    routes: tuple[RouteInPlace, ...],
) -> tuple[GlandInPlace, ...]:  # fmt: skip
    passed = {name for line in lines for name in line.passes} | {name for route in routes for name in route.passes}
    found = [
        GlandInPlace(each.name, each.area, each.number, min(each.width, each.height), each.place)
        for each in openings
        if each.name in passed and each.kind in _FOR_CABLES
    ]
    for cut in cuts:
        if cut.name in passed:
            area = math.pi / 4.0 * cut.width**2 if cut.round else cut.width * cut.height
            found.append(GlandInPlace(cut.name, area, 1, min(cut.width, cut.height), cut.place))
    return tuple(found)


def _wanted(taker: Taker, root: BuildFile, states: tuple[StateOfUse, ...]) -> tuple[tuple[str, int, str], ...]:
    wishes = root.brief.signals or SignalWishes()
    if wishes.points:
        at: Path = ("brief", "signals", "points")
        for place in wishes.points:
            taker.name_of(place, (*root.rooms, "outdoors"), (*at, place), "room")
        return tuple((place, number, dotted((*at, place))) for place, number in wishes.points.items())
    takes = [state for state in states if state.takes]
    most = {room: max((state.people_in(room) for state in takes), default=0) for room in root.rooms}
    return tuple((room, number, "states") for room, number in most.items() if number)


def _limits(taker: Taker, wishes: SignalWishes | None) -> SignalLimits:
    asked = wishes or SignalWishes()
    at: Path = ("brief", "signals")
    return SignalLimits(
        taker.convention((*at, "listening"), asked.listening, "level_a", "level at the ear while listening",
                         "level at the ear while listening"),
        taker.convention((*at, "ceiling"), asked.ceiling, "level_a", "ceiling of headphones", "ceiling of headphones"),
        taker.convention((*at, "hum"), asked.hum, "level", "hum under the signal", "hum under the signal"),
        taker.convention((*at, "treble"), asked.treble, "frequency", "treble of a line", "treble of lines"),
        taker.convention((*at, "gear"), asked.gear, "level_a", "sound of gear in a quiet room",
                         "sound of gear in the quiet room"),
    )  # fmt: skip
