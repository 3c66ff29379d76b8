"""Pieces of a duct run in place: each takes the section of the piece before it where it names none."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.document.schema import duct_elements as typed
from hushwright.document.values import Value
from hushwright.errors import Mend
from hushwright.library.records import Blanket, Limit
from hushwright.model.air_in_place import (
    BaffleBoxInPlace,
    BendInPlace,
    DuctShape,
    FanInPlace,
    FilterInPlace,
    FlexibleInPlace,
    GrilleInPlace,
    Piece,
    PieceInPlace,
    ReducerInPlace,
    StraightInPlace,
)
from hushwright.model.mending import down, up
from hushwright.model.octaves import unbroken_octaves
from hushwright.model.taking import Path, Taker, dotted

_LEAST = 1e-4
"""m, least clear way left in a box; common practice, no source."""

Inner = (
    typed.StraightElement
    | typed.BendElement
    | typed.FlexibleElement
    | typed.ReducerElement
    | typed.FilterElement
    | typed.BaffleBoxElement
    | typed.FanElement
)
Sized = typed.GrilleElement | typed.StraightElement | typed.ReducerElement


def pieces_of(taker: Taker, elements: Sequence[typed.RunElement], at: Path, *, to_people: bool) -> tuple[Piece, ...]:
    """Pieces in the order of the flow; an end without a grille becomes an open pipe.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    elements : sequence of sections
        As the file has them.
    at : path
        Place of the list in the file.
    to_people : bool
        Whether the run ends in a room, so that its outlet's distance to people counts.

    Returns
    -------
    tuple of Piece
        Empty where a piece cannot be made; the reason is noted.
    """
    _check_order(taker, elements, at)
    shape = _first_shape(taker, elements, at)
    if shape is None:
        return ()
    found: list[Piece] = []
    first = shape
    for index, element in enumerate(elements):
        path = (*at, index)
        if isinstance(element, typed.GrilleElement):
            piece: PieceInPlace | None = _grille(taker, element, shape, path, to_people=to_people)
        else:
            piece = _piece(taker, element, shape, path)
        if piece is None:
            return ()
        found.append(Piece(_told(element), piece, dotted(path)))
        shape = _behind(piece, shape)
    return _with_ends(taker, found, first, shape, at)


def _check_order(taker: Taker, elements: Sequence[typed.RunElement], at: Path) -> None:
    last = len(elements) - 1
    for index, element in enumerate(elements):
        if isinstance(element, typed.GrilleElement):
            place, word = (0, "first") if element.grille == "intake" else (last, "last")
            if index != place:
                taker.say("piece-out-of-place", (*at, index, "grille"), element.grille,
                          f"an {element.grille} is the {word} piece of a run",
                          "list the pieces in the order of the flow")  # fmt: skip


def _told(element: typed.RunElement) -> str:
    """Name of a piece in lists."""
    if isinstance(element, typed.FanElement):
        return f"fan {element.fan}"
    if isinstance(element, typed.FilterElement):
        return f"filter {element.filter}"
    if isinstance(element, typed.GrilleElement):
        return f"{element.grille} grille"
    return element.key.replace("_", " ")


def _first_shape(taker: Taker, elements: Sequence[typed.RunElement], at: Path) -> DuctShape | None:
    """Section at the beginning: that of the first piece that names one."""
    for index, element in enumerate(elements):
        if isinstance(element, typed.FlexibleElement):
            diameter = taker.quantity((*at, index, "diameter"), element.diameter, "length")
            return DuctShape(diameter, diameter, round=True)
        if isinstance(element, typed.GrilleElement | typed.StraightElement):
            shape = _shape(taker, element, (*at, index))
            if shape is not None:
                return shape
    taker.say("value-needed", at, "no size", "no piece of the run says how wide it is",
              "give a grille, straight or flexible piece its `diameter`, or `width` and `height`")  # fmt: skip
    return None


def _shape(taker: Taker, element: Sized, at: Path) -> DuctShape | None:
    if element.diameter is not None:
        diameter = taker.quantity((*at, "diameter"), element.diameter, "length")
        return DuctShape(diameter, diameter, round=True)
    if element.width is None or element.height is None:
        return None
    return DuctShape(taker.quantity((*at, "width"), element.width, "length"),
                     taker.quantity((*at, "height"), element.height, "length"), round=False)  # fmt: skip


def _behind(piece: PieceInPlace, before: DuctShape) -> DuctShape:
    """Section behind a piece; a grille and a box leave the duct as it was."""
    if isinstance(piece, StraightInPlace | BendInPlace):
        return piece.shape
    if isinstance(piece, FlexibleInPlace):
        return DuctShape(piece.diameter, piece.diameter, round=True)
    return piece.after if isinstance(piece, ReducerInPlace) else before


def _piece(taker: Taker, element: Inner, shape: DuctShape, at: Path) -> PieceInPlace | None:
    if isinstance(element, typed.StraightElement):
        return StraightInPlace(
            _shape(taker, element, at) or shape,
            taker.quantity((*at, "straight"), element.straight, "length"),
            taker.quantity((*at, "lining"), element.lining, "length"),
            element.wall,
        )
    if isinstance(element, typed.BendElement):
        return _bend(taker, element, shape, at)
    if isinstance(element, typed.FlexibleElement):
        return FlexibleInPlace(
            taker.quantity((*at, "diameter"), element.diameter, "length"),
            taker.quantity((*at, "flexible"), element.flexible, "length"),
            1.0 - taker.quantity((*at, "stretched"), element.stretched, "share"),
            taker.quantity((*at, "free_share"), element.free_share, "share"),
            element.lined == "yes",
        )
    if isinstance(element, typed.ReducerElement):
        return _reducer(taker, element, shape, at)
    if isinstance(element, typed.FilterElement):
        return FilterInPlace(
            taker.quantity((*at, "at"), element.at, "volume_flow"),
            taker.quantity((*at, "pressure_loss"), element.pressure_loss, "pressure"),
            1.0 + taker.quantity((*at, "soiling"), element.soiling, "share"),
        )
    return _box(taker, element, shape, at) if isinstance(element, typed.BaffleBoxElement) else _fan(taker, element, at)


def _grille(
    taker: Taker, element: typed.GrilleElement, shape: DuctShape, at: Path, *, to_people: bool
) -> GrilleInPlace:
    away = 1.0
    if element.grille == "outlet" and element.throws == "jet" and to_people:
        limit = taker.library.find(Limit, "outlet to people")
        away = taker.quantity((*at, "from_people"), element.from_people, "length", fallback=limit.value,
                              source=str(limit.source), label="from the outlet to the nearest neck")  # fmt: skip
    share = taker.quantity((*at, "free_share"), element.free_share, "share")
    return GrilleInPlace(element.grille, _shape(taker, element, at) or shape, share, max(away, 0.05),
                          element.throws == "spread", bare=False)  # fmt: skip


def _bend(taker: Taker, element: typed.BendElement, shape: DuctShape, at: Path) -> BendInPlace:
    radius = None if element.radius is None else taker.quantity((*at, "radius"), element.radius, "length")
    least = 0.5 * max(shape.width, shape.height)
    if radius is not None and radius < least:
        taker.say_fit("bend-too-tight", (*at, "radius"), f"{1000 * radius:.0f} mm",
                      f"the centre line of this duct has at least {1000 * least:.0f} mm",
                      "leave the radius out for a sharp corner",
                      mends=(Mend("set the radius to", (*at, "radius"), up(least)),))  # fmt: skip
    return BendInPlace(shape, taker.quantity((*at, "bend"), element.bend, "angle"), radius)


def _reducer(taker: Taker, element: typed.ReducerElement, shape: DuctShape, at: Path) -> ReducerInPlace | None:
    after = _shape(taker, element, at)
    if after is None:
        taker.say("value-needed", at, "reducer", "does not say what it goes over to",
                  "give the `diameter`, or `width` and `height`, behind it")  # fmt: skip
        return None
    return ReducerInPlace(shape, after, taker.quantity((*at, "reducer"), element.reducer, "length"))


def _box(taker: Taker, element: typed.BaffleBoxElement, shape: DuctShape, at: Path) -> BaffleBoxInPlace | None:
    absorber = taker.record(Blanket, element.absorber, (*at, "absorber"))
    length, width, height, wall, lining = (
        taker.quantity((*at, name), given, "length")
        for name, given in (
            ("baffle_box", element.baffle_box), ("width", element.width), ("height", element.height),
            ("wall", element.wall), ("lining", element.lining),
        )
    )  # fmt: skip
    taken = 2.0 * (wall + lining)
    if min(length, width, height) - taken < _LEAST or length - taken - element.baffles * lining < _LEAST:
        mends = _large_enough((length, width, height), taken, element.baffles * lining, at)
        taker.say_fit("no-room-in-box", at, f"{1000 * min(length, width, height):.0f} mm",
                      f"walls, lining and {element.baffles} baffles leave no way for the air",
                      "or make lining and baffles less", mends=mends)  # fmt: skip
        return None
    passage = _passage(taker, element, width - taken, at)
    if absorber is None or passage is None:
        return None
    return BaffleBoxInPlace(length, width, height, wall, lining, absorber, element.baffles, passage, shape)


def _large_enough(size: tuple[float, float, float], taken: float, baffles: float, at: Path) -> tuple[Mend, ...]:
    """The one size of a box that leaves a way as wide as its walls take, where one size is enough."""
    needed = (taken + baffles, taken, taken)
    short = [index for index, given in enumerate(size) if given - needed[index] < _LEAST]
    if len(short) != 1:
        return ()
    word, key = (("length", "baffle_box"), ("width", "width"), ("height", "height"))[short[0]]
    return (Mend(f"enlarge the {word} of the box to", (*at, key), up(needed[short[0]] + taken)),)


def _passage(taker: Taker, element: typed.BaffleBoxElement, inner: float, at: Path) -> float | None:
    """Free width at the tip of a baffle; the whole box without baffles."""
    if element.baffles == 0:
        return inner
    given: Value | None = element.passage
    if given is None or given.unknown:
        taker.say("value-needed", (*at, "passage"), "unknown", "says not how much the baffles leave free",
                  "give `passage`, the free width at the tip of a baffle")  # fmt: skip
        return None
    passage = taker.quantity((*at, "passage"), given, "length")
    if passage >= inner:
        taker.say_fit("no-room-in-box", (*at, "passage"), f"{1000 * passage:.0f} mm",
                      f"the box is {1000 * inner:.0f} mm wide between its linings, so its baffles have no width",
                      mends=(Mend("make the passage", (*at, "passage"), down(inner / 2.0)),))  # fmt: skip
        return None
    return passage


def _fan(taker: Taker, element: typed.FanElement, at: Path) -> FanInPlace | None:
    curve = _curve(taker, element, at)
    if curve is None:
        return None
    level = element.sound_power
    return FanInPlace(
        kind=element.kind,
        flows=curve[0],
        pressures=curve[1],
        speed=taker.quantity((*at, "speed"), element.speed, "share"),
        power=None if element.power is None else taker.quantity((*at, "power"), element.power, "power"),
        sound_power=None if level is None else taker.quantity((*at, "sound_power"), level, "level_a"),
        octaves=unbroken_octaves(taker, element.octaves, (*at, "octaves")),
    )


def _curve(taker: Taker, element: typed.FanElement, at: Path) -> tuple[tuple[float, ...], tuple[float, ...]] | None:
    """Flows and pressures: as measured, or a straight line between the two numbers."""
    if element.curve:
        flows = tuple(taker.quantity((*at, "curve", index, "flow"), point.flow, "volume_flow")
                      for index, point in enumerate(element.curve))  # fmt: skip
        pressures = tuple(taker.quantity((*at, "curve", index, "pressure"), point.pressure, "pressure")
                          for index, point in enumerate(element.curve))  # fmt: skip
        rising = all(first < second for first, second in zip(flows, flows[1:], strict=False))
        if len(flows) < 2 or not rising or pressures[-1] >= pressures[-2]:
            taker.say_fit("curve-unusable", (*at, "curve"), f"{len(flows)} points",
                          "flows have to rise from point to point, and the pressure falls at the end",
                          "two points or more")  # fmt: skip
            return None
        return flows, pressures
    if element.shut_off is None or element.free_flow is None:
        taker.say("value-needed", at, element.fan, "has no curve",
                  "give `shut_off` and `free_flow`, or points under `curve`")  # fmt: skip
        return None
    free = taker.quantity((*at, "free_flow"), element.free_flow, "volume_flow")
    return (0.0, free), (taker.quantity((*at, "shut_off"), element.shut_off, "pressure"), 0.0)


def _with_ends(taker: Taker, found: list[Piece], first: DuctShape, last: DuctShape, at: Path) -> tuple[Piece, ...]:
    """Run whose ends are grilles or open pipes."""
    pieces = list(found)
    away = taker.library.find(Limit, "outlet to people").value.value
    if not isinstance(found[0].what, GrilleInPlace):
        pieces.insert(0, Piece("open end", GrilleInPlace("intake", first, 1.0, away, False, bare=True), dotted(at)))
    if not (isinstance(found[-1].what, GrilleInPlace) and len(pieces) > 1):
        pieces.append(Piece("open end", GrilleInPlace("outlet", last, 1.0, away, False, bare=True), dotted(at)))
    return tuple(pieces)
