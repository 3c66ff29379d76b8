"""Wool, mats and foams on paper: which strips fill which face, and what comes off which roll."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from hushwright.costing.rolls import Roll
from hushwright.drawings.geometry import spoken
from hushwright.drawings.numbers import length_text
from hushwright.drawings.sheets import Sheet, Table
from hushwright.evaluation.cost.cost import cost_of
from hushwright.evaluation.results.cost import PurchaseLine
from hushwright.library.us_names import sized_name
from hushwright.model.build import Build, LayerInPlace
from hushwright.model.strips import bays_of
from hushwright.units import System

_TOLD = (
    "Strips run as the battens do, over the whole length of a face; a bay wider than the roll takes several beside each"
    " other. Rests share a length of the roll."
)


def roll_sheets(build: Build, system: System = "metric") -> tuple[Sheet, ...]:
    """Bays of every face that wool, mat or foam fills, and the rolls its strips come off.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units of the sizes.

    Returns
    -------
    tuple of Sheet
        None where no price says how wide its roll is.
    """
    lines = [line for line in cost_of(build).purchase if line.rolls]
    if not lines:
        return ()
    rows = [row for line in lines for row in _rolls_of(line, system)]
    bays = [row for line in lines for row in _bays_of(build, line, system)]
    cut = Table("Cut from rolls", (("material", "rolls", "strips, one cut after the other", "left over"), *rows),
                (1.2, 0.5, 3.6, 0.7))  # fmt: skip
    filled = Table("Bays", (("material", "where", "bays, width × length"), *bays), (1.2, 1.2, 3.6))
    return (Sheet("rolls", "Rolls", tables=(filled, cut), remarks=(_TOLD,)),)


def _name(line: PurchaseLine, system: System) -> str:
    return sized_name(line.name, system) + ("" if line.size is None else f", {length_text(line.size, system)}")


def _sizes(strips: tuple[tuple[float, float], ...], system: System) -> str:
    """Strips by size, alike ones once with their number."""
    alike = Counter(f"{length_text(wide, system)} × {length_text(long, system)}" for wide, long in strips)
    return ", ".join(size if number == 1 else f"{number} of {size}" for size, number in alike.items())


def _rolls_of(line: PurchaseLine, system: System) -> Iterator[tuple[str, ...]]:
    """Rolls of a material, those that are cut alike in one row."""
    alike: dict[str, list[Roll]] = {}
    for roll in line.rolls:
        said = _slices(roll, system)
        alike.setdefault(said, []).append(roll)
    endless = line.pack <= 0
    for said, rolls in alike.items():
        wide = length_text(rolls[0].width, system)
        left = f"none, {length_text(rolls[0].used, system)} bought" if endless else length_text(rolls[0].left, system)
        yield f"{_name(line, system)}, {wide} wide", str(len(rolls)), said, left


def _slices(roll: Roll, system: System) -> str:
    """Slices of a roll, those that are cut alike once with their number."""
    said = Counter(
        _sizes(each.strips, system) + (" side by side" if len(each.strips) > 1 else "") for each in roll.slices
    )
    return "; ".join(size if number == 1 else f"{number} of {size}" for size, number in said.items())


def _bays_of(build: Build, line: PurchaseLine, system: System) -> Iterator[tuple[str, ...]]:
    for room in build.rooms:
        for surface in room.surfaces:
            where = f"{spoken(room.name)} {spoken(surface.face)}"
            yield from ((_name(line, system), where, _sizes(bays_of(surface, layer), system))
                        for layer in surface.layers if _is(line, layer) and bays_of(surface, layer))  # fmt: skip
    for opening in build.openings:
        yield from ((_name(line, system), spoken(opening.name), _sizes(bays_of(opening, layer), system))
                    for layer in opening.layers if _is(line, layer) and bays_of(opening, layer))  # fmt: skip


def _is(line: PurchaseLine, layer: LayerInPlace) -> bool:
    """Whether a layer is of the material and thickness of a line."""
    fill = layer.cavity.fill if layer.cavity is not None else None
    name, thick = (fill.name, layer.cavity.fill_thickness) if fill is not None and layer.cavity is not None else (
        layer.name, layer.thickness)  # fmt: skip
    return name == line.name and (line.size is None or abs(thick - line.size) < 5e-5)
