"""One signal line in place: its way, what it passes, its usual electrical values."""

from __future__ import annotations

from dataclasses import dataclass, field

from hushwright.document.schema import BuildFile
from hushwright.document.schema.signals import NearLine, SignalLine, Signals
from hushwright.document.values import Value
from hushwright.library.records import Limit, Spread
from hushwright.model.build import OpeningInPlace
from hushwright.model.cuts_in_place import CutInPlace
from hushwright.model.routes_in_place import RouteInPlace
from hushwright.model.signals_in_place import SOUNDING, STAR, LineInPlace, NearInPlace
from hushwright.model.taking import Path, Taker, dotted
from hushwright.units import Kind, format_quantity

_OF_ROUTE = ("length", "passes", "fixed_to", "loop")
_SHORT = 0.05  # m, closer than anybody measures a cable
_LIKE = {"talkback": "line"}
"""Kinds whose usual values are those of another."""


@dataclass(slots=True)
class Passages:
    """What lines pass and follow, and which usual values have been told."""

    taker: Taker
    root: BuildFile
    openings: tuple[OpeningInPlace, ...]
    cuts: tuple[CutInPlace, ...]
    routes: tuple[RouteInPlace, ...]
    told: dict[str, float] = field(default_factory=dict)

    def usual(self, limit: str) -> Spread:
        """Usual value of the library, as a convention."""
        return Spread.point(self.taker.library.find(Limit, limit).value.value)

    def value(self, path: Path, given: Value | None, kind: Kind, limit: str) -> float:
        """Value of the file, else the library's; each usual value is told once, however many lines take it."""
        taker = self.taker
        if given is not None and not given.unknown:
            return taker.quantity(path, given, kind, label=f"{str(path[-1]).replace('_', ' ')} of {path[2]}")
        if limit not in self.told:
            record = taker.library.find(Limit, limit)
            self.told[limit] = record.value.value
            taker.assume(path, f"{limit}: {format_quantity(record.value.value, kind, 'metric', digits=3)}",
                         str(record.source))  # fmt: skip
        return self.told[limit]


def resolve_line(passages: Passages, signals: Signals, name: str, typed: SignalLine) -> LineInPlace:
    """One line of the file in place."""
    taker, at = passages.taker, ("signals", "lines", name)
    _check_ends(taker, passages.root, signals, typed, at)
    route = _route(passages, typed, at)
    passes = route.passes if route is not None else _passes(passages, typed, at)
    fixed_to = route.fixed_to if route is not None else typed.fixed_to
    loop = route.loop if route is not None else typed.loop == "yes"
    into_quiet = _enters_quiet(passages.root, typed)
    tied = "quiet" in fixed_to and bool({"body", "control"} & set(fixed_to))
    bridges = route.is_bridge if route is not None else not loop and (tied or into_quiet)
    sounding = typed.kind in SOUNDING
    like = _LIKE.get(typed.kind, typed.kind)
    level = passages.value((*at, "level"), typed.level, "voltage", f"signal, {like}") if sounding else 0.0
    impedance = (passages.value((*at, "source_impedance"), typed.source_impedance, "resistance",
                                f"source impedance, {like}") if sounding else 0.0)  # fmt: skip
    rejection = passages.value((*at, "rejection"), typed.rejection, "level", _rejection(typed)) if sounding else 0.0
    capacitance = (passages.value((*at, "capacitance"), typed.capacitance, "capacitance_per_length",
                                  "capacitance of a signal cable") if sounding else 0.0)  # fmt: skip
    length = _length(taker, typed, route, at)
    near = tuple(_near(passages, each, (*at, "near", index)) for index, each in enumerate(typed.near))
    _check_near(taker, near, length, at)
    return LineInPlace(
        name, typed.kind, typed.comes_from, typed.goes_to, typed.number, typed.connectors, typed.route,
        length, passes, fixed_to, loop,
        taker.quantity((*at, "diameter"), typed.diameter, "length", label=f"diameter of {name}"),
        typed.balanced == "yes", typed.isolated == "yes", level, impedance, capacitance,
        taker.quantity((*at, "conductor"), typed.conductor, "area", label=f"conductor of {name}"), rejection,
        (typed.earths[0], typed.earths[1]) if len(typed.earths) == 2 else (STAR, STAR),
        near, bridges, _unpassed(passages, typed, route, passes, into_quiet), dotted(at),
    )  # fmt: skip


def _rejection(typed: SignalLine) -> str:
    if typed.isolated == "yes":
        return "rejection through a transformer"
    return "rejection of a balanced line" if typed.balanced == "yes" else "rejection of an unbalanced line"


def _near(passages: Passages, typed: NearLine, at: Path) -> NearInPlace:
    taker, of = passages.taker, f"near {at[2]}"
    return NearInPlace(
        typed.what,
        taker.quantity((*at, "distance"), typed.distance, "length", label=f"distance {of}"),
        taker.quantity((*at, "along"), typed.along, "length", label=f"length {of}"),
        passages.value((*at, "current"), typed.current, "current", f"alternating current, {typed.what}"),
        passages.value((*at, "frequency"), typed.frequency, "frequency", f"frequency, {typed.what}"),
        taker.quantity((*at, "spacing"), typed.spacing, "length", label=f"spacing {of}"),
    )


def _check_near(taker: Taker, near: tuple[NearInPlace, ...], length: float, at: Path) -> None:
    for index, each in enumerate(near):
        if each.along > length + _SHORT > _SHORT:
            taker.say_fit("longer-than-line", (*at, "near", index, "along"), f"{each.along:.2f} m",
                          f"the line is {length:.2f} m long", "give the length side by side",
                          severity="warning")  # fmt: skip


def _check_ends(taker: Taker, root: BuildFile, signals: Signals, typed: SignalLine, at: Path) -> None:
    places = (*root.rooms, "cab", "outdoors")
    for key in ("comes_from", "goes_to"):
        taker.name_of(getattr(typed, key), places, (*at, key), "room")
    for key in ("connectors", "earths"):
        ends = getattr(typed, key)
        if ends and len(ends) != 2:
            taker.say("two-ends", (*at, key), ", ".join(ends), "a line has two ends", "name both, in their order")
    for index, earth in enumerate(typed.earths):
        taker.name_of(earth, (STAR, *signals.earths), (*at, "earths", index), "earth")
    if typed.near and typed.kind not in SOUNDING:
        taker.say("key-without-effect", (*at, "near"), typed.kind, "no hum is computed for what carries no sound",
                  "leave it out", severity="warning")  # fmt: skip
    purposes = {room.purpose for room in root.rooms.values()}
    for index, body in enumerate(typed.fixed_to):
        if body not in (*purposes, "body", "loose"):
            taker.say("unknown-name", (*at, "fixed_to", index), body, f"the build has no {body} room to fix it to",
                      "fix it to the body, or add the room")  # fmt: skip


def _route(passages: Passages, typed: SignalLine, at: Path) -> RouteInPlace | None:
    taker = passages.taker
    if not typed.route:
        return None
    if not taker.name_of(typed.route, tuple(each.name for each in passages.routes), (*at, "route"), "route"):
        return None
    for key in _OF_ROUTE:
        if key in typed.model_fields_set:
            taker.say("key-without-effect", (*at, key), key, f"the route {typed.route} says it already", "leave it out",
                      severity="warning")  # fmt: skip
    return next(each for each in passages.routes if each.name == typed.route)


def _passes(passages: Passages, typed: SignalLine, at: Path) -> tuple[str, ...]:
    taker, root = passages.taker, passages.root
    known = [
        each for index, each in enumerate(typed.passes)
        if taker.name_of(each, (*root.openings, *root.cuts), (*at, "passes", index), "opening or cut")
    ]  # fmt: skip
    for each in passages.openings:
        if each.name in known and each.kind not in ("gland", "hole", "duct") and not each.in_vehicle:
            taker.say("cable-in-a-door", (*at, "passes"), each.name, f"is a {each.kind}; a cable in its seal leaks",
                      "lead it through a gland", severity="warning")  # fmt: skip
    return tuple(known)


def _length(taker: Taker, typed: SignalLine, route: RouteInPlace | None, at: Path) -> float:
    if route is not None:
        return route.length
    if typed.length is None and not typed.route:
        taker.say("value-needed", (*at, "length"), "unknown", "has neither a route nor a length",
                  "add `length: 4 m`, or name a route")  # fmt: skip
    if typed.length is None:
        return 0.0
    return taker.quantity((*at, "length"), typed.length, "length", label=f"length of {at[2]}")


def _enters_quiet(root: BuildFile, typed: SignalLine) -> bool:
    """Whether one end of a line is in a floating room and the other is not."""
    quiet = [root.rooms[each].purpose == "quiet" if each in root.rooms else False
             for each in (typed.comes_from, typed.goes_to)]  # fmt: skip
    return quiet[0] != quiet[1]


def _unpassed(
    passages: Passages, typed: SignalLine, route: RouteInPlace | None, passes: tuple[str, ...], into_quiet: bool
) -> tuple[str, ...]:
    """Walls that a line passes without an opening."""
    found = [f"{each.room}.{each.face}" for each in route.without_gland] if route is not None else []
    ends = (typed.comes_from, typed.goes_to)
    opened = {each.room for each in passages.openings if each.name in passes and not each.in_vehicle}
    quiet = {name for name, room in passages.root.rooms.items() if room.purpose == "quiet"}
    if route is None and into_quiet:
        found += [each for each in ends if each in quiet - opened]
    if ends.count("outdoors") == 1:
        cuts = {each.name for each in passages.cuts}
        outward = {each.name for each in passages.openings if each.in_vehicle}
        if not (cuts | outward) & set(passes):
            found.append("vehicle")
    return tuple(found)
