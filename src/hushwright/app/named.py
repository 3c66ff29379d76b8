"""Parts of the van that a verdict names: where their values stand in the file, and what shows them in a drawing."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final

from hushwright.app.cures import cures_of, holds_limit

if TYPE_CHECKING:
    from hushwright.document.nodes import Path
    from hushwright.evaluation.results import Evaluation
    from hushwright.model.build import Build
    from hushwright.verdicts.verdict import Verdict

WISH: Final = "brief"
"""Section of the file that holds what the client asks for; no part of the van can be changed there."""

_MOST = 6
_PLACES = ".places"  # of mounts that are placed one by one
_TYPED = re.compile(r"`([a-z_]+(?:\.[\w ]+)+)`|(?<=type )`([a-z_]+)`")
_GEAR = "signals.gear."
_OF_GEAR = ("Quiet", "Signals")
"""Groups whose hints mean the gear by its name; elsewhere "the converter" is the one of the supply."""


@dataclass(frozen=True, slots=True)
class Named:
    """A part: what it is called, its place in the file, its name in drawings, and in Walls where it has layers.

    ``said`` is told beside the name instead of the place.
    """

    name: str
    place: str
    drawn: str = ""
    face: str = ""
    said: str = ""


@lru_cache(maxsize=4)
def parts_of(build: Build) -> Mapping[str, Named]:
    """Every part of a build that texts may name, by what they call it."""
    from hushwright.search.build_ups import layered_names  # with much behind it: the first page does not wait for that

    found: dict[str, Named] = {}

    def add(name: str, place: str, drawn: str, face: str = "", said: str = "") -> None:
        found.setdefault(name, Named(name, place, drawn, face, said))

    faces = {surface.name for room in build.rooms for surface in room.surfaces}
    for room in build.rooms:
        for surface in room.surfaces:
            said = _borrowed(surface.name, surface.place, faces)
            for name in (spoken(surface.name), spoken(surface.name, ", ")):
                add(name, surface.place, surface.name, surface.name if surface.layers else "", said)
    runs, layered = _runs(build), frozenset(layered_names(build))
    for section in ("openings", "cuts", "mounts"):
        for name in getattr(build.document.root, section, None) or {}:
            if name in runs:
                continue  # "the supply" may be the run, the opening or the cut; with what is meant it is told below
            for each in dict.fromkeys((spoken(name), name)):
                add(each, f"{section}.{name}", name, name if name in layered else "")
    for name, group in build.document.root.mounts.items():
        if group.places:
            add(f"{spoken(name)}, places", f"mounts.{name}{_PLACES}", name)
    for index, fitting in enumerate(build.document.root.fittings):
        if " " in fitting.name:
            add(fitting.name, f"fittings.{index}", fitting.name)
    return found


def _borrowed(name: str, place: str, faces: Collection[str]) -> str:
    """Of a face that takes its layers from another one: from which."""
    lender = place.removeprefix("surfaces.")
    if lender == name or lender not in faces:
        return ""
    room, _, face = lender.partition(".")
    return f"same layers as {spoken(face if room == name.partition('.')[0] else lender)}"


def parts_with_ways(build: Build, evaluation: Evaluation) -> dict[str, Named]:
    """Parts of a build, and the ways of its sounds by their names."""
    found = dict(parts_of(build))
    ways = [*(way for each in evaluation.backgrounds for way in each.paths),
            *(way for each in evaluation.between_rooms for way in each.paths),
            *(way for each in evaluation.neighbours for way in each.paths)]  # fmt: skip
    for way in ways:
        if way.name not in found:
            found[way.name] = _of_place(way.name, way.place, build)
    for run in _runs(build):
        for piece in ("outlet", "intake", "fan", "baffle box"):
            name = f"{piece} of {spoken(run)}"
            found.setdefault(name, _of_place(name, f"air.runs.{run}", build))
    return found


def _runs(build: Build) -> tuple[str, ...]:
    air = build.document.root.air
    return tuple(air.runs) if air is not None else ()


def _of_place(name: str, place: str, build: Build) -> Named:
    """Part at a place, with the name under which a drawing shows it, as far as one does."""
    keys = place.split(".")
    if keys[0] == "surfaces":
        faces = [each for each in parts_of(build).values() if each.place == place]
        ends = name.replace(",", "").split(" ")[-1]
        same = next((each for each in faces if each.drawn.endswith(ends)), faces[0] if faces else None)
        return Named(name, place, same.drawn if same else "", same.face if same else "")
    if keys[0] == "fittings" and keys[-1].isdigit():
        return Named(name, place, build.document.root.fittings[int(keys[1])].name)
    return Named(name, place, keys[2] if keys[:2] == ["air", "runs"] else keys[1] if len(keys) > 1 else "")


def pieces_of(text: str, parts: Mapping[str, Named]) -> list[dict[str, str]]:
    """A text cut where it names a part or a place of the file, each piece with its part.

    Examples
    --------
    >>> [(one["text"], one["place"]) for one in pieces_of("seal window; type `brief.tallest`",
    ...                                                   {"window": Named("window", "openings.window")})]
    [('seal ', ''), ('window', 'openings.window'), ('; type ', ''), ('brief.tallest', 'brief.tallest')]
    """
    found: list[dict[str, str]] = []
    at = 0
    for start, end, word, named in _matches(text, parts):
        if start > at:
            found.append({"text": text[at:start], "place": "", "drawn": ""})
        found.append({"text": word, "place": named.place, "drawn": named.drawn})
        at = end
    return [*found, {"text": text[at:], "place": "", "drawn": ""}] if at < len(text) else found


@lru_cache(maxsize=4)
def _pattern(names: tuple[str, ...]) -> re.Pattern[str]:
    """Any of some names as whole words, the longest first."""
    longest = sorted(names, key=len, reverse=True)
    return re.compile(rf"(?<![\w`.])({'|'.join(map(re.escape, longest))})(?![\w`])" if names else r"(?!)")


def _matches(text: str, parts: Mapping[str, Named]) -> list[tuple[int, int, str, Named]]:
    pattern = _pattern(tuple(parts))
    found = [(each.start(), each.end(), each[1], parts[each[1]]) for each in pattern.finditer(text)]
    typed = [(each.start(), each.end(), each[1] or each[2]) for each in _TYPED.finditer(text)]
    found += [(start, end, place, Named(place, place)) for start, end, place in typed]
    return sorted(found, key=lambda each: each[0])


def parts_meant(one: Verdict, parts: Mapping[str, Named]) -> Mapping[str, Named]:
    """Parts that the hint of a verdict may mean by a name."""
    if one.group in _OF_GEAR:
        return parts
    return {name: each for name, each in parts.items() if not each.place.startswith(_GEAR)}


def parts_to_change(one: Verdict, parts: Mapping[str, Named]) -> list[Named]:
    """Parts that a verdict leads to: those its hint names and its place, else what its spread rests on.

    A wish of the client is none of them; where nothing else is left, the section that serves the wish. Where the
    place holds the limit, the means come before it and it is called the limit.
    """
    found = {each.drawn or each.place: each for *_rest, each in _matches(one.hint, parts_meant(one, parts))}
    singly = {each.place.removesuffix(_PLACES) for each in parts.values() if each.place.endswith(_PLACES)}
    cures = cures_of(one, {name: each.place for name, each in parts.items()}, singly)
    for place in cures:
        face = next((each for each in parts.values() if each.place == place and each.face), None)
        found.setdefault(face.drawn if face else place, face or _at_place(place, parts, _means(place)))
    if cures and holds_limit(one.place):
        found = dict([*found.items()][: _MOST - 1])
        found["limit"] = replace(_at_place(one.place, parts, "limit"), drawn="", face="")
    elif one.place and " " not in one.place and not _is_wish(one.place):
        at = _at_place(one.place, parts)
        found.setdefault(at.drawn or at.place, at)
    if not found:
        ranked = sorted(one.contributions, key=lambda each: -abs(each.change))
        found = {each.path: _at_place(each.path, parts, each.label) for each in ranked if not _is_wish(each.path)}
    if not found and one.group in _SECTIONS:
        place = _SECTIONS[one.group]
        found = {place: Named(place, place)}
    return [each for each in found.values() if each.place and not _is_wish(each.place)][:_MOST]


def _means(place: str) -> str:
    """What is changed, in words: the part and the word of the file."""
    return ", ".join(spoken(each) for each in place.split(".")[-2:])


_SECTIONS: Final = {"Air": "air", "Heat": "climate", "Quiet": "surfaces", "Power": "power"}
"""Where the means are that serve a wish, where nothing closer is named."""


def _is_wish(place: str) -> bool:
    return place.split(".")[0] == WISH


def _at_place(place: str, parts: Mapping[str, Named], name: str = "") -> Named:
    """A place of the file, with what shows the part that it belongs to."""
    around = [each for each in parts.values() if each.drawn and f"{place}.".startswith(f"{each.place}.")]
    part = max(around, key=lambda each: len(each.place), default=Named("", ""))
    return Named(name or place, place, part.drawn, part.face)


def marks_of(parts: Sequence[Named]) -> list[dict[str, Any]]:
    """What a drawing marks: each part once, with a number and its name."""
    drawn: dict[str, str] = {}
    for each in parts:
        if each.drawn:
            drawn.setdefault(each.drawn, each.name)
    return [{"part": part, "label": f"{at} {name}"} for at, (part, name) in enumerate(drawn.items(), start=1)]


def spoken(name: str, joint: str = " ") -> str:
    """A name of the file as it is said."""
    return name.replace("_", " ").replace(".", joint)


def said_path(path: Path) -> str:
    """Place as a person reads it.

    Examples
    --------
    >>> said_path(("openings", "quiet_door")), said_path(("surfaces", "quiet_room", "floor", "layers", 1, "cavity"))
    ('openings, quiet door', 'surfaces, quiet room, floor, layers 2, cavity')
    """
    found = ""
    for key in path:
        found += f" {key + 1}" if isinstance(key, int) else f", {key.replace('_', ' ')}"
    return found.removeprefix(", ")
