"""What the view of walls says: layers of a face, its need in words, rows of its tables."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from hushwright.app.form import is_bare
from hushwright.document.edits import written_length
from hushwright.document.nodes import parse_path
from hushwright.document.outline import Entry
from hushwright.evaluation.cost.pricing import names_meant, same_size
from hushwright.evaluation.results import FacePrediction
from hushwright.evaluation.results.cost import Unpriced
from hushwright.evaluation.sound.needs import FaceNeed, Sound, names_with
from hushwright.library.library import plain
from hushwright.library.read import read_library
from hushwright.model.build import Build, LayerInPlace
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.report.units_out import restated, shown, shown_difference
from hushwright.search.build_ups import layered_named
from hushwright.search.comparing import Compared
from hushwright.search.worse import why_no_better
from hushwright.units import System

FACES_HEAD = ["face", "towards", "of what gets in", "Rw", "C", "Ctr", "mass", "depth", "build-up"]
COMPARED_HEAD = ["build-up", "Rw (C; Ctr)", "in the room", "mass", "van", "depth", "headroom", "width", "materials",
                 "no better because", ""]  # fmt: skip
KINDS_TO_ADD = {
    "sheet": ("birch plywood", 0.009), "limp": ("loaded vinyl", 0.003), "core": ("viscoelastic glue", 0.001),
    "damping": ("butyl pad with aluminium foil", 0.002), "blanket": ("rock wool 40 kg/m3", 0.03),
    "glass": ("laminated glass", 0.0064),
    "foam": ("cross-linked polyethylene foam", 0.01), "covering": ("vinyl flooring", 0.002),
}  # fmt: skip
ADDED = ("sheet", "cavity", *(kind for kind in KINDS_TO_ADD if kind != "sheet"))
"""Kinds of layers that can be added, the likeliest first."""
_SPACE = 0.05  # m, a new space; dragged to what it is to be
_HARDLY = 0.01  # share [-] below which a face has no part in a sound; common practice, no source
_LISTED = ("sheet", "limp", "core", "damping", "blanket", "foam", "glass", "facing", "covering")


def layer_rows(
    build: Build, name: str, root: Entry, system: System = "metric", unpriced: Sequence[Unpriced] = ()
) -> tuple[list[dict[str, Any]], dict[str, list[str]], str]:
    """Layers of a face as the screen takes them, names of the library they may have, and what to know of the face."""
    surface = layered_named(build, name)
    if surface is None:
        return [], {}, ""
    rows: list[dict[str, Any]] = []
    for layer in surface.layers:
        path = parse_path(layer.place)
        if ".layers." not in layer.place:
            continue
        size = {"cavity": "cavity", "skin": "", "floor_mounts": ""}.get(layer.kind, "thickness")
        entry = root.find((*path, size)) if size else None
        text = entry.text if entry is not None else ""
        rows.append({"path": list(path), "id": layer.place, "word": layer.kind.replace("_", " "), "key": layer.kind,
                     "list": layer.kind if layer.kind in _LISTED else "", "size": size,
                     "name": layer.name if layer.kind in (*_LISTED, "skin") else _in_space(layer),
                     "text": text, "unit": root.lengths if is_bare(text) else "",
                     "notes": _notes_of(build, layer, system, unpriced)})  # fmt: skip
    kinds = {row["list"] for row in rows if row["list"]}
    library = read_library()
    lists = {kind: _with(list(library.records(kind)), rows, kind) for kind in kinds}
    others = [spoken(each) for each in names_with(build, name) if each != name]
    return rows, lists, f"The same layers: {', '.join(others)}; what is changed here changes there." if others else ""


def _notes_of(build: Build, layer: LayerInPlace, system: System, unpriced: Sequence[Unpriced]) -> list[str]:
    """What nobody sells as it stands there, and what has no price; a size with a price is sold."""
    stock: tuple[float, ...] = getattr(layer.record, "stock_thickness", ())
    priced, notes = _priced_sizes(build, layer.name), []
    if stock and not _among(layer.thickness, (*stock, *priced)):
        near = sorted(sorted(stock, key=lambda each: abs(each - layer.thickness))[:2])
        sizes = " and ".join(shown(each, "length", system) for each in near)
        notes.append(f"not usually made in {shown(layer.thickness, 'length', system)}; nearest: {sizes}")
    for name, size in ((layer.name, layer.thickness), (_fill_of(layer), None)):
        found = next((one for one in unpriced if name and one.name == name and _agree(one.size, size)), None)
        if found is not None:
            others = ", ".join(shown(each, "length", system) for each in _priced_sizes(build, name))
            notes.append(f"{name}: {found.reason}{f'; priced are {others}' if others else ''}")
    return notes


def _priced_sizes(build: Build, name: str) -> list[float]:
    """Thicknesses of a material that have a price in the file."""
    meant = plain(name)
    return sorted({each.size for each in build.costs.prices if each.size is not None and meant in names_meant(each.of)})


def _among(thickness: float, sizes: Iterable[float]) -> bool:
    return any(same_size(each, thickness) for each in sizes)


def _agree(size: float | None, thickness: float | None) -> bool:
    return size is None or thickness is None or _among(thickness, (size,))


def _fill_of(layer: LayerInPlace) -> str:
    space = layer.cavity
    return space.fill.name if space is not None and space.fill is not None else ""


def _with(names: list[str], rows: list[dict[str, Any]], kind: str) -> list[str]:
    """Names of the library, and those of this file's own records that stand there."""
    return list(dict.fromkeys([*(row["name"] for row in rows if row["list"] == kind), *names]))


def _in_space(layer: LayerInPlace) -> str:
    return _fill_of(layer) or "air"


def item_text(kind: str, bare: str) -> str:
    """Text of a new layer of a kind."""
    if kind == "cavity":
        return f"{{cavity: {written_length(_SPACE, '' if bare else '1 mm', bare)}}}"
    name, thickness = KINDS_TO_ADD.get(kind, KINDS_TO_ADD["sheet"])
    word = kind if kind in KINDS_TO_ADD else "sheet"
    return f"{{{word}: {name}, thickness: {written_length(thickness, '' if bare else '1 mm', bare)}}}"


def said_of(need: FaceNeed | None, name: str) -> list[str]:
    """A need in words."""
    if need is None:
        return [f"The brief limits no sound that comes through {spoken(name)}."]
    band, margin = f"{need.band:g} Hz", need.margin[need.deciding]
    said = [f"How bands are judged: {need.sound.drawn}."]
    if need.spare is None:
        said += _said_of_others(need, name)
    elif need.spare >= 0.0:
        said.append(f"▲ Enough: its sound reduction could be {need.spare:.1f} dB less, alike in all bands.")
    else:
        said.append(f"▼ Short of it: its sound reduction has to rise by {-need.spare:.1f} dB, alike in all bands.")
    if margin is not None:
        u = 2.0 * need.margin_uncertainty[need.deciding]
        word = "enough" if margin >= 0.0 else "short of it"
        said.append(f"Decides at {band}: margin {margin:+.1f} dB ± {u:.1f} dB, {word}.")
    return said


def _said_of_others(need: FaceNeed, name: str) -> list[str]:
    """That other ways alone are over, and what this face has to keep out if all are brought down alike."""
    told = (f"▼ Other ways alone are over, by {-need.without:.1f} dB, {_bands_told(need.beyond_it)}:"
            f" {', '.join(need.loudest_others)}.")  # fmt: skip
    if need.share < _HARDLY:
        return [f"{told} {spoken(name).capitalize()} lets in under 1 % of it: there is nothing to gain here."]
    at = need.deciding if need.deciding in need.beyond_it else need.beyond_it[0]
    by, whole = need.shared_margin[at], need.shared_need[at]
    more = "" if by is None else f" has to let in {-by:.1f} dB less at {THIRD_OCTAVE_BANDS[at]:g} Hz"
    keeps = "" if whole is None else f", so {spoken(name)} has to keep out {whole:.1f} dB there"
    return [told, f"If all ways are brought down alike, each{more}{keeps}. The line “needed” and the hatched"
                  " margins are this even share."]  # fmt: skip


def _bands_told(bands: Sequence[int]) -> str:
    """Third octaves as spans.

    Examples
    --------
    >>> _bands_told(range(27)), _bands_told((4, 5, 6, 10))
    ('in all bands', 'at 63 to 100 and 250 Hz')
    """
    if len(bands) == len(THIRD_OCTAVE_BANDS):
        return "in all bands"
    spans: list[list[int]] = []
    for band in bands:
        if spans and band == spans[-1][-1] + 1:
            spans[-1].append(band)
        else:
            spans.append([band])
    told = [f"{THIRD_OCTAVE_BANDS[each[0]]:g}" + (f" to {THIRD_OCTAVE_BANDS[each[-1]]:g}" if len(each) > 1 else "")
            for each in spans]  # fmt: skip
    return f"at {', '.join(told[:-1])} and {told[-1]} Hz" if len(told) > 1 else f"at {told[0]} Hz"


def said_of_shares(sound: Sound | None) -> str:
    """Which sound the shares of a table are shares of."""
    if sound is None:
        return ""
    counted = "A-weighted, all bands" if len(sound.allowance.limits) == 1 else "in the band that decides"
    state = sound.state.replace("_", " ")
    return f"Of what gets in: {sound.name}, {state}, {counted}. What comes by ducts, pipes and mounts has no row here."


def face_row(
    one: FacePrediction, chosen: str, system: System, *, can: bool = True, share: float | None = None
) -> dict[str, Any]:
    """One face of the table of all; a link where its layers can be changed."""
    part = "" if share is None else "< 1 %" if share < 0.01 else f"{100.0 * share:.0f} %"
    cells = [spoken(one.name), spoken(one.beyond), part, f"{one.rw} dB", f"{one.c}", f"{one.ctr}",
             shown(one.surface_density, "surface_density", system), shown(one.thickness, "length", system),
             restated(one.construction, system)]  # fmt: skip
    return {"id": one.name, "cells": cells, "link": can, "chosen": one.name == chosen}


def compared_row(
    at: int, each: Compared, first: Compared, key: str, system: System, deciding: int | None = None
) -> dict[str, Any]:
    """One build-up of the comparison; where it is no better, why, at the band that decides."""
    if each.problem or each.prediction is None:
        told = f"cannot stand there: {restated(each.problem, system)}"
        return {"id": at, "cells": [each.name, told], "problem": True}
    one = each.prediction
    kind = next((kind for name, _, kind in each.levels if name == key), "")
    level = each.level(key)

    def change(now: float, before: float, kind: str) -> str:
        moved = round(now - before, 4)  # to a tenth of a millimetre
        return "" if at == 0 or not moved else shown_difference(moved, kind, system, signed=True)

    money = "no prices" if each.money is None else f"{each.money:.2f} {each.currency}"
    if each.unpriced:
        money += f"; no price: {', '.join(each.unpriced)}"
    known = {name for name, _ in first.one_price}
    other = dict.fromkeys(name for name, _ in set(each.one_price) - set(first.one_price) if name in known)
    if other:
        money += f"; one price for every thickness: {', '.join(other)}"
    cells = [each.name, f"{one.rw} ({one.c}; {one.ctr}) dB", "" if level is None else shown(level, kind, system),
             shown(one.surface_density, "surface_density", system), change(each.mass, first.mass, "mass"),
             shown(one.thickness, "length", system), change(each.headroom, first.headroom, "length"),
             change(each.width, first.width, "length"), money,
             "" if deciding is None else restated(why_no_better(each, first, key, deciding), system)]  # fmt: skip
    return {"id": at, "cells": cells, "can": at > 0}


def spoken(name: str) -> str:
    """Name of a face as a person reads it."""
    return name.replace("_", " ").replace(".", ", ")
