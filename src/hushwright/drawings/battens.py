"""Battens and bearers on paper: face by face, and which of them come off which bar."""

from __future__ import annotations

import math
from collections import Counter

from hushwright.costing.bars import SAW_CUT
from hushwright.drawings.geometry import spoken
from hushwright.drawings.numbers import length_text
from hushwright.drawings.sheets import Sheet, Table
from hushwright.evaluation.cost.cost import cost_of
from hushwright.evaluation.results.cost import US_AMOUNTS, PurchaseLine
from hushwright.library.us_names import sized_name
from hushwright.model.battens import pieces_of
from hushwright.model.build import Build, LayerInPlace
from hushwright.units import System

_WHERE = ("A bearer lies over each row of mounts, more between rows that are further apart than the bearers' spacing; "
          "battens stand at both ends of their face and evenly between. None runs into a lined wheel box.")  # fmt: skip
_WHOLE = (
    "Battens are listed whole: what an opening cuts out of them frames it. Mass, bars and purchase count these pieces."
)


def batten_sheets(build: Build, system: System = "metric") -> tuple[Sheet, ...]:
    """Battens and bearers with the bars they are cut from.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units of the sizes.

    Returns
    -------
    tuple of Sheet
        None where the build has neither.
    """
    rows = batten_list(build, system)
    if len(rows) == 1:
        return ()
    pieces = Table("Battens and bearers", rows)
    bars = bar_list(build, system)
    if len(bars) == 1:
        return (Sheet("battens", "Battens and bearers", tables=(pieces,), remarks=(_WHERE, _WHOLE)),)
    cut = Table("Cut from bars", bars, (1.2, 0.6, 0.8, 2.4, 1.0))
    blade = length_text(SAW_CUT, system)
    told = (
        _WHERE,
        _WHOLE,
        f"Cut from bars: the longest first, each from the first bar with room; a cut takes {blade}.",
    )
    return (Sheet("battens", "Battens and bearers", tables=(pieces, cut), remarks=told),)


def batten_list(build: Build, system: System) -> tuple[tuple[str, ...], ...]:
    """Battens and bearers of every face and leaf: section, number, length of each, all together."""
    rows: list[tuple[str, ...]] = [("face", "section", "number", "each", "together")]
    for room in build.rooms:
        for surface in room.surfaces:
            where = f"{spoken(room.name)} {spoken(surface.face)}"
            rows += [row for layer in surface.layers for row in _rows(where, layer, pieces_of(surface, layer), system)]
    for opening in build.openings:
        where = spoken(opening.name)
        rows += [row for each in opening.layers for row in _rows(where, each, pieces_of(opening, each), system)]
    return tuple(rows)


def _rows(where: str, layer: LayerInPlace, pieces: tuple[float, ...], system: System) -> list[tuple[str, ...]]:
    """Pieces of one length in a row, in the order in which they stand on their face."""
    frame = layer.cavity.frame if layer.cavity is not None else None
    if frame is None:
        return []
    section = f"{length_text(frame.depth, system)} × {length_text(frame.width, system)}"
    alike: dict[str, list[float]] = {}
    for piece in pieces:
        alike.setdefault(length_text(piece, system), []).append(piece)
    return [(where, f"{section}, {sized_name(frame.sheet.name, system)}", str(len(each)), length,
             length_text(math.fsum(each), system)) for length, each in alike.items()]  # fmt: skip


def bar_list(build: Build, system: System) -> tuple[tuple[str, ...], ...]:
    """What comes off each bar of every timber that is bought by the bar; bars that are cut alike in one row."""
    rows: list[tuple[str, ...]] = [("timber", "bars", "sold as", "pieces of each", "left over")]
    for line in cost_of(build).purchase:
        rows += _bars_of(line, system)
    return tuple(rows)


def _bars_of(line: PurchaseLine, system: System) -> list[tuple[str, ...]]:
    if not line.bars:
        return []
    length = float(line.pack) * US_AMOUNTS.get(line.unit, ("m", 1.0))[1]
    name = sized_name(line.name, system) + ("" if line.size is None else f", {length_text(line.size, system)} thick")
    alike = Counter(tuple(length_text(piece, system) for piece in bar) for bar in line.bars)
    left = {tuple(length_text(piece, system) for piece in bar): _left(bar, length) for bar in line.bars}
    spare = line.packs - len(line.bars)
    whole = length_text(length, system)
    rows: list[tuple[str, ...]] = [
        (name, str(number), whole, " + ".join(pieces), length_text(left[pieces], system))
        for pieces, number in alike.items()
    ]
    return [*rows, (name, str(spare), whole, "none, bought as waste", whole)] if spare > 0 else rows


def _left(bar: tuple[float, ...], length: float) -> float:
    """What is left of a bar behind its last cut [m]."""
    return max(length - math.fsum(bar) - len(bar) * SAW_CUT, 0.0)
