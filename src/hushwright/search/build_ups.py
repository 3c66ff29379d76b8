"""Build-ups to compare one face with: those of the same file, and a handful made from its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from hushwright.document.edits import Edit, bare_unit, in_brackets, written_length
from hushwright.document.nodes import Path, parse_path
from hushwright.document.save import typed_text
from hushwright.model.bridges import clear_of_ribs
from hushwright.model.build import Build, LayerInPlace, OpeningInPlace, Surface

_DEEPER = 0.03  # m, by which a cavity is tried deeper; common practice, no source
_MUCH_DEEPER = 0.08  # m, by which a bolder search tries it; common practice, no source
_CLEAR = 0.01  # m of air between battens and ribs; common practice, no source
_LEAST_BATTEN = 0.015  # m; thinner ones hold no screw. Common practice, no source
_LEAST_SPACE = 0.02  # m, that a cavity keeps where something else takes its depth; common practice, no source
_HEAVIER = 1.5  # of a thickness where the file has no price for a thicker sheet; common practice, no source
_MOST_HEADROOM = 0.06  # m, that another face's build-up may take above or under foot; common practice, no source
_CORE, _CORE_THICKNESS = "viscoelastic glue", 0.001
_BARRIER, _BARRIER_THICKNESS = "loaded vinyl", 0.003
_PAD, _PAD_THICKNESS = "butyl pad with aluminium foil", 0.002
_WOOL = "rock wool 40 kg/m3"
_ENDS = ("front", "rear")
OTHER_FACE = "as "
"""How the names of build-ups begin that another face of the file has."""


@dataclass(frozen=True, slots=True)
class Alternative:
    """A build-up that one face may have instead of its own, and how the file gets there."""

    name: str
    edits: tuple[Edit, ...]


def surface_named(build: Build, name: str) -> Surface | None:
    """Face of a name such as ``quiet_room.left``."""
    return next((each for room in build.rooms for each in room.surfaces if each.name == name), None)


def layered_named(build: Build, name: str) -> Surface | OpeningInPlace | None:
    """Face, door or window of a name that has layers in the file."""
    found = surface_named(build, name) or next((each for each in build.openings if each.name == name), None)
    return found if found is not None and has_typed_layers(found) else None


def layered_names(build: Build) -> list[str]:
    """Names of all faces, doors and windows that `layered_named` finds, in the order of the file."""
    walls = [surface.name for room in build.rooms for surface in room.surfaces if has_typed_layers(surface)]
    return walls + [opening.name for opening in build.openings if has_typed_layers(opening)]


def has_typed_layers(one: Surface | OpeningInPlace) -> bool:
    """Whether the file has the layers itself, so that it can change them."""
    return bool(one.layers) and one.layers[-1].place.startswith(f"{one.place}.layers")


def alternatives_of(build: Build, name: str, *, bolder: bool = False) -> tuple[Alternative, ...]:
    """Build-ups to compare a face with; none for a face without layers in the file.

    Parameters
    ----------
    build : Build
        As the file has it.
    name : str
        Face such as ``quiet_room.left``.
    bolder : bool, optional
        Add changes that go further than one would at first.

    Returns
    -------
    tuple of Alternative
        What is made from its own build-up first, then the other build-ups of the file that can stand there.
    """
    surface = surface_named(build, name)
    if surface is None or not has_typed_layers(surface):
        return ()
    own = _Own(build, surface)
    made = (own.one_more_board(), own.heavier_board(), own.deeper(), own.filled(), own.no_bridges(),
            own.with_core(), own.with_barrier(), own.pad_all_over(),
            *((own.deeper(_MUCH_DEEPER),) if bolder else ()))  # fmt: skip
    return (*(each for each in made if each is not None), *_others(build, surface))


class _Own:
    """Alternatives made from a face's own layers, in the file that has them."""

    def __init__(self, build: Build, surface: Surface) -> None:
        self.build, self.surface = build, surface
        self.at: Path = (*parse_path(surface.place), "layers")
        self.bare = bare_unit(build.document.text)
        cut = surface.last_cavity
        self.cavity = cut if cut is not None and surface.layers[cut].kind == "cavity" else None
        first = 0 if cut is None else cut + 1
        boards = [index for index in range(first, len(surface.layers)) if surface.layers[index].kind == "sheet"]
        self.board = boards[-1] if boards else None

    def length(self, value: float) -> str:
        """Length as the file would have it."""
        return written_length(value, "" if self.bare else "1 mm", self.bare)

    def one_more_board(self) -> Alternative | None:
        """One board more like the innermost, laid loose on it."""
        if self.board is None:
            return None
        board = self.surface.layers[self.board]
        item = f"{{sheet: {_word(board.name)}, thickness: {self.length(board.thickness)}, joint: loose}}"
        return self._with("one more board inside", [self._add(item, self.board + 1)], board.thickness)

    def heavier_board(self) -> Alternative | None:
        """Make the innermost board thicker: the next thickness that has a price, else half as thick again."""
        if self.board is None:
            return None
        board = self.surface.layers[self.board]
        sizes = (price.size for price in self.build.costs.prices if price.of == board.name and price.size is not None)
        thick = min((size for size in sizes if size > board.thickness + 1e-4), default=_HEAVIER * board.thickness)
        edit = Edit("set", (*self.at, self.board, "thickness"), self.length(thick))
        return self._with(f"inner board {1000.0 * thick:g} mm", [edit], thick - board.thickness)

    def deeper(self, by: float = _DEEPER) -> Alternative | None:
        """Deepen the innermost cavity; at an end the room gets shorter by as much."""
        if self.cavity is None:
            return None
        space = self.surface.layers[self.cavity]
        edits = [Edit("set", (*self.at, self.cavity, "cavity"), self.length(space.thickness + by))]
        if self.surface.face in _ENDS:
            room = next(each for each in self.build.rooms if each.name == self.surface.room)
            station = room.front + by if self.surface.face == "front" else room.rear - by
            edits.append(Edit("set", ("rooms", room.name, self.surface.face), self.length(station)))
        return Alternative(f"cavity deeper by {1000.0 * by:g} mm", tuple(edits))

    def filled(self) -> Alternative | None:
        """Fill the innermost cavity with wool."""
        space = self._space()
        if space is None or space.cavity is None or self.cavity is None:
            return None
        depth = space.thickness + space.cavity.extra_depth
        if space.cavity.fill is not None and space.cavity.fill_thickness > 0.95 * depth:
            return None
        at = (*self.at, self.cavity)
        edits = []
        if space.cavity.fill is None:
            edits.append(Edit("set", (*at, "fill"), _word(_most_used_wool(self.build))))
        typed = self.build.document.value_at(at)
        if getattr(typed, "fill_thickness", None) is not None:
            edits.append(Edit("remove", (*at, "fill_thickness")))
        return Alternative("cavity filled with wool", tuple(edits)) if edits else None

    def no_bridges(self) -> Alternative | None:
        """Battens clear of the ribs, and no fixings across the space."""
        edits: list[Edit] = []
        for index, layer in enumerate(self.surface.layers):
            clear = clear_of_ribs(layer)
            if clear is None or clear > _CLEAR / 2.0 or layer.cavity is None or layer.cavity.frame is None:
                continue
            depth = layer.cavity.frame.depth - (_CLEAR - clear)
            at = (*self.at, index, "frame")
            new = Edit("set", (*at, "depth"), self.length(depth)) if depth >= _LEAST_BATTEN else Edit("remove", at)
            edits.append(new)
        typed = self.build.document.value_at(self.at[:-1])
        if getattr(typed, "bridges", ()):
            edits.append(Edit("remove", (*self.at[:-1], "bridges")))
        return Alternative("no bridges across the space", tuple(edits)) if edits else None

    def with_core(self) -> Alternative | None:
        """Lay a viscoelastic layer between the two innermost boards, or under one more."""
        if self.board is None or any(layer.kind == "core" for layer in self.surface.inner_leaf):
            return None
        before = self.surface.layers[self.board - 1] if self.board else None
        core = f"{{core: {_CORE}, thickness: {self.length(_CORE_THICKNESS)}}}"
        if before is not None and before.kind == "sheet":
            edits = [self._add(core, self.board)]
            if self.surface.layers[self.board].joint == "loose":
                edits = [Edit("remove", (*self.at, self.board, "joint")), *edits]
            return self._with("viscoelastic layer between the boards", edits, _CORE_THICKNESS)
        board = self.surface.layers[self.board]
        item = f"{{sheet: {_word(board.name)}, thickness: {self.length(board.thickness)}}}"
        inside = self.board + 1 < len(self.surface.layers)  # a covering stays innermost
        edits = [self._add(core, self.board + 1),
                 Edit("add", self.at, item, self.board + 2 if inside else None)]  # fmt: skip
        return self._with("viscoelastic layer and one more board", edits, _CORE_THICKNESS + board.thickness)

    def with_barrier(self) -> Alternative | None:
        """Lay a heavy mat on the outer side of the inner leaf."""
        if self.board is None or any(layer.kind == "limp" for layer in self.surface.inner_leaf):
            return None
        used = [layer for layer in _layers(self.build) if layer.kind == "limp"]
        name, thick = (used[0].name, used[0].thickness) if used else (_BARRIER, _BARRIER_THICKNESS)
        first = len(self.surface.layers) - len(self.surface.inner_leaf)
        item = f"{{limp: {_word(name)}, thickness: {self.length(thick)}}}"
        return self._with("barrier mat on the inner leaf", [self._add(item, first)], thick)

    def pad_all_over(self) -> Alternative | None:
        """Cover the van's sheet with a damping pad altogether."""
        layers = self.surface.layers
        if layers[0].kind != "skin":
            return None
        if len(layers) > 1 and layers[1].kind == "damping":
            if layers[1].coverage > 0.98:
                return None
            edit = Edit("set", (*self.at, 1, "coverage"), "100 %")
        else:
            edit = self._add(f"{{damping: {_PAD}, thickness: {self.length(_PAD_THICKNESS)}}}", 1)
        return Alternative("damping pad on all of the sheet", (edit,))

    def _space(self) -> LayerInPlace | None:
        return None if self.cavity is None else self.surface.layers[self.cavity]

    def _add(self, item: str, before: int) -> Edit:
        return Edit("add", self.at, item, before if before < len(self.surface.layers) else None)

    def _with(self, name: str, edits: Iterable[Edit], thicker: float) -> Alternative | None:
        """At an end wall the space is given: the cavity gives up what something else takes."""
        if self.surface.face not in _ENDS:
            return Alternative(name, tuple(edits))
        space = self._space()
        if space is None or self.cavity is None or space.thickness - thicker < _LEAST_SPACE:
            return None
        shallower = Edit("set", (*self.at, self.cavity, "cavity"), self.length(space.thickness - thicker))
        return Alternative(f"{name}, the cavity shallower by as much", (shallower, *edits))


def _layers(build: Build) -> Iterator[LayerInPlace]:
    for room in build.rooms:
        for surface in room.surfaces:
            yield from surface.layers


def _most_used_wool(build: Build) -> str:
    names = Counter(
        layer.cavity.fill.name for layer in _layers(build) if layer.cavity is not None and layer.cavity.fill is not None
    )
    return names.most_common(1)[0][0] if names else _WOOL


def _word(name: str) -> str:
    return typed_text(name, in_flow=True, quote="", whole=False)


def _others(build: Build, surface: Surface) -> Iterator[Alternative]:
    """Other build-ups of the file that begin like this one: on the sheet of the van or not, under foot or not."""
    text = build.document.text
    at: Path = (*parse_path(surface.place), "layers")
    own = in_brackets(text, at)
    seen = {own}
    for room in build.rooms:
        for other in room.surfaces:
            if other.place == surface.place or not has_typed_layers(other) or _stands_on(other) != _stands_on(surface):
                continue
            items = in_brackets(text, (*parse_path(other.place), "layers"))
            if items in seen:
                continue
            seen.add(items)
            if surface.face in ("floor", "ceiling") and other.thickness - surface.thickness > _MOST_HEADROOM:
                continue
            name = f"{OTHER_FACE}{other.name.replace('_', ' ').replace('.', ', ')}"
            yield Alternative(name, tuple(_replaced(at, own, items)))


def _stands_on(surface: Surface) -> tuple[bool, bool, bool]:
    """What no build-up may change: the sheet of the van outside, being under foot, the mounts of a floating floor."""
    floats = any(layer.kind == "floor_mounts" for layer in surface.layers)
    return surface.layers[0].kind == "skin", surface.face == "floor", floats


def _replaced(at: Path, own: tuple[str, ...], wanted: tuple[str, ...]) -> Iterator[Edit]:
    """Keep what both begin with; add the rest of the new one before the old rest is taken out."""
    same = 0
    while same < min(len(own), len(wanted)) and own[same] == wanted[same]:
        same += 1
    for item in wanted[same:]:
        yield Edit("add", at, item)
    for index in range(len(own) - 1, same - 1, -1):
        yield Edit("remove", (*at, index))
