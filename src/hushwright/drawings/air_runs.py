"""Duct runs: every run stretched out, its pieces in the order of the flow, lengths to scale."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.drawings.geometry import labelled
from hushwright.drawings.numbers import length_text
from hushwright.drawings.primitives import (
    NORMAL,
    SMALL,
    Arc,
    Circle,
    Dimension,
    Drawing,
    Element,
    Hatch,
    Line,
    Polyline,
    Text,
    box,
)
from hushwright.model.air_in_place import (
    BaffleBoxInPlace,
    BendInPlace,
    DuctShape,
    FanInPlace,
    FilterInPlace,
    FlexibleInPlace,
    GrilleInPlace,
    PieceInPlace,
    ReducerInPlace,
    RunInPlace,
    StraightInPlace,
)
from hushwright.model.build import Build
from hushwright.units import System, format_quantity

_ROW = 0.42  # m between one run and the next
_END, _FAN, _FILTER, _GAP = 0.06, 0.18, 0.05, 0.16  # m drawn for pieces that have no length in the file, and between


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A piece: what is drawn, how long, how high, in words; ``true`` where the length is the real one."""

    elements: tuple[Element, ...]
    length: float
    height: float
    words: tuple[str, ...]
    true: bool
    above: float | None = None  # m over the middle, where it is not half the height


def air_runs(build: Build, system: System = "metric") -> Drawing:
    """All runs, one below the other.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units of the sizes beside the pieces.

    Returns
    -------
    Drawing
        x is the way of the air.
    """
    found: list[Element] = []
    key: list[tuple[str, str]] = []
    y = 0.0
    for letter, run in zip("ABCDEFGHIJKLMNOPQRSTUVWXYZ", build.air.runs, strict=False):
        high = max(_piece(piece.what, 0.0, 0.0, "", system).height for piece in run.pieces)
        y -= high / 2.0
        found += _run(run, letter, y, high, system)
        key += _words(run, letter, system)
        y -= high / 2.0 + _ROW
    return Drawing("air", "Duct runs", "each run stretched out, air from left to right", tuple(found), tuple(key),
                   ("Lengths with a dimension are to scale; fans, filters and ends are signs.",))  # fmt: skip


def _words(run: RunInPlace, letter: str, system: System) -> list[tuple[str, str]]:
    """The pieces of a run by their numbers."""
    found = []
    for number, piece in enumerate(run.pieces, 1):
        words = _piece(piece.what, 0.0, 0.0, "", system).words
        if isinstance(piece.what, FanInPlace | FilterInPlace) and piece.name:
            words = (piece.name, *words[1:])
        found.append((f"{letter}{number}", ", ".join(words)))
    return found


def _run(run: RunInPlace, letter: str, y: float, high: float, system: System) -> list[Element]:
    wanted = f", {format_quantity(run.wanted, 'volume_flow', system)} wanted" if run.wanted is not None else ""
    title = f"{letter}  {labelled(run.name)}: {labelled(run.takes_from)} to {labelled(run.gives_to)}{wanted}"
    found: list[Element] = [
        Text((0.0, y + high / 2.0), title, "text", run.name, NORMAL, "left", "bottom", shift=(0.0, 0.0055), bold=True)
    ]
    x = 0.0
    for number, piece in enumerate(run.pieces, 1):
        drawn = _piece(piece.what, x, y, piece.name or run.name, system)
        found += drawn.elements
        top = y + (drawn.height / 2.0 if drawn.above is None else drawn.above)
        found.append(Text((x + drawn.length / 2.0, top), f"{letter}{number}", part=piece.name, upward="bottom",
                          size=SMALL, shift=(0.0, 0.001), bold=True))  # fmt: skip
        if drawn.true and drawn.length > 1e-6:
            below = y - drawn.height / 2.0
            found.append(Dimension((x, below), (x + drawn.length, below), "x", below, -0.0052))
        x += drawn.length + _GAP
        if number < len(run.pieces):
            found.append(Line((x - _GAP, y), (x, y), "air", run.name, dashed=True))
    found.append(Line((x - _GAP, y), (x - _GAP + 0.1, y), "air", run.name))
    found.append(Polyline(((x - 0.1, y + 0.02), (x - _GAP + 0.1, y), (x - 0.1, y - 0.02)), "air", run.name))
    return found


def _counted(baffles: int) -> str:
    return f"{baffles} baffle" + ("" if baffles == 1 else "s")


def _across(shape: DuctShape, system: System) -> str:
    if shape.round:
        return f"dia. {length_text(shape.width, system)}"
    return f"{length_text(shape.width, system)} × {length_text(shape.height, system)}"


def _piece(what: PieceInPlace, x: float, y: float, part: str, system: System) -> _Drawn:
    if isinstance(what, GrilleInPlace):
        return _grille(what, x, y, part, system)
    if isinstance(what, StraightInPlace):
        lined = f"lined {length_text(what.lining, system)}" if what.lining > 0.0 else "unlined"
        return _duct(x, y, part, what.length, what.shape.height, ("duct", _across(what.shape, system), lined))
    if isinstance(what, FlexibleInPlace):
        words = ("flexible, lined" if what.lined else "flexible", f"dia. {length_text(what.diameter, system)}")
        return _flexible(what, x, y, part, words)
    if isinstance(what, ReducerInPlace):
        return _reducer(what, x, y, part, system)
    if isinstance(what, BendInPlace):
        return _bend(what, x, y, part, system)
    if isinstance(what, BaffleBoxInPlace):
        return _box(what, x, y, part, system)
    if isinstance(what, FanInPlace):
        return _fan(what, x, y, part, system)
    assert isinstance(what, FilterInPlace)
    corners = box((x, y - 0.08), (x + _FILTER, y + 0.08))
    loss = format_quantity(what.rated_loss, "pressure", system)
    at = format_quantity(what.rated_flow, "volume_flow", system)
    return _Drawn((Hatch(corners, "air", part, "duct", lines=True), Polyline(corners, "air", part, closed=True)),
                  _FILTER, 0.16, ("filter", f"{loss} at {at}"), true=False)  # fmt: skip


def _fan(what: FanInPlace, x: float, y: float, part: str, system: System) -> _Drawn:
    words = ("fan", what.kind, f"free {format_quantity(max(what.flows), 'volume_flow', system)}")
    arrow = ((x + 0.3 * _FAN, y + 0.35 * _FAN), (x + _FAN, y), (x + 0.3 * _FAN, y - 0.35 * _FAN))
    ring = Circle((x + _FAN / 2.0, y), _FAN / 2.0, "air", part)
    return _Drawn((ring, Polyline(arrow, "air", part, closed=True)), _FAN, _FAN, words, true=False)


def _grille(what: GrilleInPlace, x: float, y: float, part: str, system: System) -> _Drawn:
    height = what.shape.height
    word = "open pipe" if what.bare else what.end
    words = (word, _across(what.shape, system), "" if what.bare else f"{100 * what.free_share:.0f} % free")
    corners = box((x, y - height / 2.0), (x + _END, y + height / 2.0))
    bars = [Line((x, y - height / 2.0 + height * k / 5.0), (x + _END, y - height / 2.0 + height * k / 5.0), "air", part)
            for k in range(1, 5)]  # fmt: skip
    elements: list[Element] = [Polyline(corners, "air", part, closed=True), *(bars if not what.bare else [])]
    return _Drawn(tuple(elements), _END, height, tuple(each for each in words if each), true=False)


def _duct(x: float, y: float, part: str, length: float, height: float, words: tuple[str, ...]) -> _Drawn:
    corners = box((x, y - height / 2.0), (x + length, y + height / 2.0))
    return _Drawn((Hatch(corners, "air", part, "duct"), Polyline(corners, "air", part, closed=True)), length, height,
                  words, true=True)  # fmt: skip


def _flexible(what: FlexibleInPlace, x: float, y: float, part: str, words: tuple[str, ...]) -> _Drawn:
    half, count = what.diameter / 2.0, max(round(what.length / 0.04), 2)
    steps = [x + what.length * index / (2 * count) for index in range(2 * count + 1)]
    upper = tuple((at, y + half - (0.012 if index % 2 else 0.0)) for index, at in enumerate(steps))
    lower = tuple((at, y - half + (0.012 if index % 2 else 0.0)) for index, at in enumerate(steps))
    outline = (*upper, *reversed(lower))
    return _Drawn((Hatch(outline, "air", part, "duct"), Polyline(outline, "air", part, closed=True)), what.length,
                  what.diameter, words, true=True)  # fmt: skip


def _reducer(what: ReducerInPlace, x: float, y: float, part: str, system: System) -> _Drawn:
    a, b = what.before.height / 2.0, what.after.height / 2.0
    outline = ((x, y - a), (x + what.length, y - b), (x + what.length, y + b), (x, y + a))
    words = ("reducer", f"{_across(what.before, system)} to {_across(what.after, system)}")
    return _Drawn((Hatch(outline, "air", part, "duct"), Polyline(outline, "air", part, closed=True)), what.length,
                  2.0 * max(a, b), words, true=True)  # fmt: skip


def _bend(what: BendInPlace, x: float, y: float, part: str, system: System) -> _Drawn:
    wide = what.shape.height
    inner = max((what.radius or 0.5 * wide) - wide / 2.0, 0.0)
    outer = inner + wide
    centre = (x, y - wide / 2.0 - inner)
    turn = min(what.angle, math.pi)
    start, end = math.pi / 2.0 - turn, math.pi / 2.0
    tips = [(centre[0] + r * math.cos(start), centre[1] + r * math.sin(start)) for r in (inner, outer)]
    radius = f"radius {length_text(what.radius, system)}" if what.radius is not None else "sharp corner"
    elements: list[Element] = [Arc(centre, outer, start, end, "air", part), Line(tips[0], tips[1], "air", part),
                               Line((x, y - wide / 2.0), (x, y + wide / 2.0), "air", part)]  # fmt: skip
    if inner > 1e-6:
        elements.append(Arc(centre, inner, start, end, "air", part))
    words = (f"bend {math.degrees(what.angle):.0f}°", _across(what.shape, system), radius)
    return _Drawn(tuple(elements), outer, 2.0 * outer - wide, words, true=False, above=wide / 2.0)


def _box(what: BaffleBoxInPlace, x: float, y: float, part: str, system: System) -> _Drawn:
    """Lined box from above: length, and the side along which the baffles stand."""
    half = what.width / 2.0
    corners = box((x, y - half), (x + what.length, y + half))
    skin = what.wall + what.lining
    clear = box((x + skin, y - half + skin), (x + what.length - skin, y + half - skin))
    elements: list[Element] = [Hatch(corners, "air", part, "absorber", lines=True), Hatch(clear, "air", part, "room"),
                               Polyline(corners, "air", part, closed=True)]  # fmt: skip
    for index in range(what.baffles):
        at = x + what.length * (index + 1) / (what.baffles + 1)
        low, high = y - half + skin, y + half - skin - what.passage
        if index % 2:
            low, high = y - half + skin + what.passage, y + half - skin
        if high > low:
            elements.append(Hatch(box((at - 0.015, low), (at + 0.015, high)), "air", part, "limp"))
    words = ("baffle box", f"{length_text(what.length, system)} × {length_text(what.width, system)}"
             f" × {length_text(what.height, system)}", f"{_counted(what.baffles)}, passage"
             f" {length_text(what.passage, system)}, lined {length_text(what.lining, system)}")  # fmt: skip
    return _Drawn(tuple(elements), what.length, what.width, words, true=True)
