"""Which parts come off which plate: boards of one material and thickness, laid out for the panel saw.

Parts that are no rectangle are sawn as the smallest rectangle round them and cut to shape afterwards. Where a material
has a grain, all parts of a face lie the same way: their length along it, if they fit so. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from hushwright.costing.cutting import Blank, CutPlate, Stock, cut_from_plates, least_plates
from hushwright.drawings.dividing import SHEET_LENGTH, SHEET_WIDTH
from hushwright.drawings.geometry import spoken
from hushwright.drawings.parts import Part, parts_of
from hushwright.evaluation.cost.cost import cost_of
from hushwright.evaluation.results.cost import US_AMOUNTS, PurchaseLine
from hushwright.library.materials import Sheet
from hushwright.model.build import Build, LayerInPlace

KERF = 0.0032  # m, blade of a panel saw; common practice, no source
USUAL_PLATES = (
    (2.44, 1.22), (2.5, 1.25), (2.5, 1.22), (2.5, 1.5), (3.0, 1.5), (3.05, 1.525), (3.05, 1.22), (1.525, 1.525),
    (2.8, 2.07), (2.6, 1.25), (2.0, 1.25), (1.25, 2.5),
)  # fmt: skip
"""Length along the grain and width of plates in use [m]; common practice, no source."""
_SAME_AREA = 0.002  # share to which a pack is the area of a plate
_SAWN = ("sheet", "facing")
_WITH_GRAIN = ("plywood", "oriented strand", "softwood", "spruce", "birch", "oak", "bamboo")


@dataclass(frozen=True, slots=True)
class Board:
    """A piece that comes off a plate: short name, what it is, material, size [m], and which face it belongs to."""

    code: str
    label: str
    material: str
    thickness: float
    size: tuple[float, float]
    grain: bool
    together: str
    part: Part | None = None


@dataclass(frozen=True, slots=True)
class PlatesOf:
    """Plates of one material and thickness, the boards on them by code, and what the purchase list buys."""

    material: str
    thickness: float
    stock: Stock
    is_assumed: bool  # the size of the plate, where no price says it
    plates: tuple[CutPlate, ...]
    boards: tuple[Board, ...]
    too_large: tuple[str, ...]
    least: int
    grain: bool
    bought: PurchaseLine | None

    @property
    def used(self) -> float:
        """Share of all plates that becomes boards [-]."""
        return sum(plate.used for plate in self.plates) / max(len(self.plates), 1)


def plates_of(build: Build) -> tuple[PlatesOf, ...]:
    """Every board of a build on plates, material by material in the order of the parts.

    Parameters
    ----------
    build : Build
        The build.

    Returns
    -------
    tuple of PlatesOf
        Mats, foams and coverings come off a roll and are not among them.
    """
    lots: dict[tuple[str, float], list[Board]] = {}
    for board in (*_of_faces(build), *_of_openings(build)):
        lots.setdefault((board.material, round(board.thickness, 5)), []).append(board)
    if not lots:
        return ()
    purchase = cost_of(build).purchase
    return tuple(_plates(material, thickness, boards, purchase) for (material, thickness), boards in lots.items())


def _of_faces(build: Build) -> Iterable[Board]:
    layers = {layer.place: layer for room in build.rooms for each in room.surfaces for layer in each.layers}
    for part in parts_of(build):
        if part.kind in _SAWN:
            layer = layers.get(part.place)
            grain = layer is not None and has_grain(layer)
            face = f"{part.room} {part.face} {part.layer}"
            yield Board(part.code, part.label, part.material, part.thickness, part.size, grain, face, part)


def _of_openings(build: Build) -> Iterable[Board]:
    """Leaves of doors and shutters, with what lies over their frames."""
    number = 0
    for opening in build.openings:
        if opening.in_vehicle or opening.round:
            continue
        for index, layer in enumerate(opening.layers, 1):
            if layer.kind not in _SAWN:
                continue
            for _ in range(opening.number):
                number += 1
                yield Board(f"D{number:02d}", f"{spoken(opening.name)}, layer {index}", layer.name, layer.thickness,
                            opening.leaf_size, has_grain(layer), f"{opening.name} {index}")  # fmt: skip


def has_grain(layer: LayerInPlace) -> bool:
    """Whether a board has a grain: two moduli of elasticity, or wood that is not ground or chipped."""
    record = layer.record
    if not isinstance(record, Sheet):
        return False
    names = " ".join((record.name, *record.aliases)).lower()
    return record.youngs_modulus_across is not None or any(word in names for word in _WITH_GRAIN)


def _plates(material: str, thickness: float, boards: Sequence[Board], purchase: Sequence[PurchaseLine]) -> PlatesOf:
    line = next((line for line in purchase if line.name == material and line.pack and _same(line, thickness)), None)
    size = None if line is None else plate_of_pack(float(line.pack) * _unit(line))
    stock = Stock(*(size or (SHEET_LENGTH, SHEET_WIDTH)), KERF)
    blanks = tuple(blank for group in _groups(boards) for blank in _blanks(group, stock))
    fits = [blank for blank in blanks if stock.takes(blank) or (blank.turns and stock.takes(blank.turned))]
    too_large = tuple(blank.name for blank in blanks if blank not in fits)
    plates = cut_from_plates(fits, stock)
    return PlatesOf(
        material, thickness, stock, size is None, plates, tuple(boards), too_large, least_plates(fits, stock),
        any(board.grain for board in boards), line if size else None,
    )  # fmt: skip


def _same(line: PurchaseLine, thickness: float) -> bool:
    by_area = US_AMOUNTS.get(line.unit, (line.unit,))[0] == "m2"
    return by_area and line.size is not None and abs(line.size - thickness) < 5e-5


def _unit(line: PurchaseLine) -> float:
    return US_AMOUNTS[line.unit][1] if line.unit in US_AMOUNTS else 1.0


def plate_of_pack(area: float) -> tuple[float, float] | None:
    """Plate in use that has the area of a pack [m²]; `None` where none has.

    Examples
    --------
    >>> plate_of_pack(3.125), plate_of_pack(32 * 0.3048**2), plate_of_pack(1.0)
    ((2.5, 1.25), (2.44, 1.22), None)
    """
    return next((size for size in USUAL_PLATES if abs(size[0] * size[1] / area - 1.0) <= _SAME_AREA), None)


def _groups(boards: Sequence[Board]) -> Iterable[list[Board]]:
    groups: dict[str, list[Board]] = {}
    for board in boards:
        groups.setdefault(board.together, []).append(board)
    return groups.values()


def _blanks(boards: Sequence[Board], stock: Stock) -> list[Blank]:
    """Boards of one face as they lie on the plate, all the same way where they have a grain."""
    lying = [Blank(board.code, *board.size, turns=not board.grain) for board in boards]
    if not boards[0].grain:
        return lying
    standing = [blank.turned for blank in lying]
    largest = max(lying, key=lambda blank: blank.width * blank.height)
    first, second = (lying, standing) if largest.width >= largest.height else (standing, lying)
    if all(map(stock.takes, first)):
        return first
    return second if all(map(stock.takes, second)) else first
