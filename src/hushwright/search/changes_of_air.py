"""What can be changed about a run of air: its boxes and linings, its fan, its widths."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hushwright.document.edits import Edit
from hushwright.model.air_in_place import (
    BaffleBoxInPlace,
    FanInPlace,
    FlexibleInPlace,
    GrilleInPlace,
    RunInPlace,
    StraightInPlace,
)
from hushwright.model.build import Build
from hushwright.search.writing import Writing

Told = tuple[str, str, Sequence[Edit]]
"""What, where, and the edits."""

_SLOWER = 0.8  # of a fan's speed
_LEAST_SPEED = 0.3  # slower ones hardly start; common practice, no source
_LONGER_BOX = 0.3  # m
_LONGER_DUCT = 0.5  # m
_LONGEST = 1.5  # m, of a duct or a box; longer ones find no room in a van
_THICKER = 0.02  # m of lining
_LINING = 0.025  # m, first lining of a bare straight duct
_MOST_LINING = 0.08  # m
_WIDER_GRILLE = 1.4  # of the width of an outlet
_SIZES = (0.08, 0.1, 0.125, 0.15, 0.16, 0.18, 0.2, 0.224, 0.25, 0.28, 0.315)
"""m, diameters in which ducts are sold; common practice, no source. So are the steps above."""
_BOX = (0.6, 0.32, 0.25, 0.04, 2)  # m: length, width, height, lining; baffles


def changes_of_run(build: Build, run: RunInPlace, writing: Writing) -> Iterator[Told]:
    """Changes of one run that make fan, moving air or the sound that comes along it quieter."""
    where = f"run {run.name.replace('_', ' ')}"
    boxes = 0
    for index, piece in enumerate(run.pieces):
        made = piece.what
        if not piece.place.startswith(f"{run.place}.elements.") or (isinstance(made, GrilleInPlace) and made.bare):
            continue
        if isinstance(made, BaffleBoxInPlace):
            boxes += 1
            found = _box(made, piece.place, writing)
        elif isinstance(made, FanInPlace):
            found = _fan(made, piece.place, writing)
        elif isinstance(made, StraightInPlace | FlexibleInPlace):
            found = _duct(made, piece.place, writing)
        elif isinstance(made, GrilleInPlace) and index == len(run.pieces) - 1 and run.gives_to != "outdoors":
            found = _outlet(made, piece.place, writing)
        else:
            continue
        for what, edits in found:
            yield what, where, edits
    if not boxes:
        yield from _first_box(run, where, writing)
    wider = _wider(build, run, writing)
    if wider is not None:
        yield wider[0], where, wider[1]


def _box(box: BaffleBoxInPlace, place: str, writing: Writing) -> Iterator[tuple[str, Sequence[Edit]]]:
    yield (
        f"one more baffle in the box: {box.baffles + 1}",
        (
            Edit("set", writing.path(place, "baffles"), str(box.baffles + 1)),
            *(() if box.baffles else (writing.set_length(box.passage / 2.0, place, "passage"),)),
        ),
    )
    longer = box.length + _LONGER_BOX
    if longer <= _LONGEST:
        yield f"box longer by {1000 * _LONGER_BOX:.0f} mm", (writing.set_length(longer, place, "baffle_box"),)
    if box.lining + _THICKER <= _MOST_LINING:
        more = 2.0 * _THICKER
        yield (
            f"box with {1000 * (box.lining + _THICKER):.0f} mm of lining, wider and higher by as much",
            (
                writing.set_length(box.lining + _THICKER, place, "lining"),
                writing.set_length(box.width + more, place, "width"),
                writing.set_length(box.height + more, place, "height"),
            ),
        )


def _fan(fan: FanInPlace, place: str, writing: Writing) -> Iterator[tuple[str, Sequence[Edit]]]:
    speed = _SLOWER * fan.speed
    if speed >= _LEAST_SPEED:
        slower = Edit("set", writing.path(place, "speed"), f"{100 * speed:.0f} %")
        yield f"fan at {100 * speed:.0f} % of its speed", (slower,)


def _duct(
    duct: StraightInPlace | FlexibleInPlace, place: str, writing: Writing
) -> Iterator[tuple[str, Sequence[Edit]]]:
    key, word = ("straight", "straight duct") if isinstance(duct, StraightInPlace) else ("flexible", "flexible duct")
    lined = duct.lining > 0.0 if isinstance(duct, StraightInPlace) else duct.lined
    if isinstance(duct, StraightInPlace):
        lining = duct.lining + _LINING
        if lining <= _MOST_LINING:
            yield f"{word} lined {1000 * lining:.0f} mm", (writing.set_length(lining, place, "lining"),)
    elif not lined:
        yield f"{word} lined", (Edit("set", writing.path(place, "lined"), "yes"),)
    if lined and duct.length + _LONGER_DUCT <= _LONGEST:
        longer = writing.set_length(duct.length + _LONGER_DUCT, place, key)
        yield f"lined {word} longer by {1000 * _LONGER_DUCT:.0f} mm", (longer,)


def _outlet(grille: GrilleInPlace, place: str, writing: Writing) -> Iterator[tuple[str, Sequence[Edit]]]:
    key = "diameter" if grille.shape.round else "width"
    wide = _WIDER_GRILLE * grille.shape.width
    if writing.is_given(place, key):
        yield f"outlet {1000 * wide:.0f} mm wide", (writing.set_length(wide, place, key),)


def _first_box(run: RunInPlace, where: str, writing: Writing) -> Iterator[Told]:
    """A lined box before the end in the room, or behind the end where the air is taken from it."""
    length, width, height, lining, baffles = _BOX
    passage = (width - 2.0 * (0.012 + lining)) / 3.0
    sizes = {"baffle_box": length, "width": width, "height": height, "lining": lining, "passage": passage}
    item = f"{{{', '.join(f'{key}: {writing.length(size)}' for key, size in sizes.items())}, baffles: {baffles}}}"
    at = writing.path(run.place, "elements")
    number = len([each for each in run.pieces if each.place.startswith(f"{run.place}.elements.")])
    last, first = run.pieces[-1], run.pieces[0]
    if run.gives_to == "outdoors":
        before = 0 if first.place == run.place or not isinstance(first.what, GrilleInPlace) or first.what.bare else 1
    else:
        before = number - (0 if not isinstance(last.what, GrilleInPlace) or last.what.bare else 1)
    yield (
        f"a lined box of {1000 * length:.0f} mm with {baffles} baffles",
        where,
        (Edit("add", at, item, before if before < number else None),),
    )


def _wider(build: Build, run: RunInPlace, writing: Writing) -> tuple[str, Sequence[Edit]] | None:
    """Give all round ducts of a run, and the holes that they pass, the next size."""
    edits = []
    size = 0.0
    for piece in run.pieces:
        made = piece.what
        now = made.diameter if isinstance(made, FlexibleInPlace) else 0.0
        if isinstance(made, StraightInPlace) and made.shape.round:
            now = made.shape.width
        if now and piece.place.startswith(f"{run.place}.elements.") and writing.is_given(piece.place, "diameter"):
            size = max(size, _next(now))
            edits.append(writing.set_length(_next(now), piece.place, "diameter"))
    if not edits or not size:
        return None
    for opening in build.openings:
        if opening.run == run.name and opening.round and writing.is_given(opening.place, "diameter"):
            edits.append(writing.set_length(_next(opening.width), opening.place, "diameter"))
    return f"ducts up to {1000 * size:.0f} mm wide", edits


def _next(now: float) -> float:
    return next((size for size in _SIZES if size > 1.02 * now), now)
