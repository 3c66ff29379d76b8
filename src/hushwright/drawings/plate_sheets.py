"""Plates on paper: what comes off each, the saw cuts in order, and how many plates are bought for that."""

from __future__ import annotations

from hushwright.costing.cutting import Area, CutPlate, SawCut
from hushwright.drawings.geometry import labelled
from hushwright.drawings.numbers import length_text
from hushwright.drawings.plates import Board, PlatesOf
from hushwright.drawings.primitives import (
    FIRST_ROW,
    NORMAL,
    SMALL,
    Balloon,
    Dimension,
    Drawing,
    Element,
    Hatch,
    Line,
    Point,
    Polyline,
    Text,
    box,
)
from hushwright.drawings.sheets import Sheet, Table
from hushwright.library.us_names import sized_name
from hushwright.units import System

_ARROW = 0.05  # m of the plate, head of the arrow along the grain
_MOST_CUTS = 40  # listed beside a plate
_ROUGH = "Parts that are no rectangle are sawn as the rectangle round them and cut to shape after their own sheet."


def plate_sheets(found: tuple[PlatesOf, ...], system: System) -> tuple[Sheet, ...]:
    """A list of all plates, and a sheet for each.

    Parameters
    ----------
    found : tuple of PlatesOf
        Plates by material and thickness.
    system : {"metric", "us"}
        Units.

    Returns
    -------
    tuple of Sheet
        The list is called `plates`, each plate `plate-1` and on.
    """
    if not found:
        return ()
    sheets = [Sheet("plates", "Plates", tables=(plate_list(found, system),))]
    for lot in found:
        for at, plate in enumerate(lot.plates, 1):
            each = plate_drawing(lot, plate, (at, len(lot.plates)), len(sheets), system)
            sheets.append(Sheet(each.name, each.title, each))
    return tuple(sheets)


def plate_list(found: tuple[PlatesOf, ...], system: System) -> Table:
    """Materials with their plates: sawn, the fewest there can be, bought, and why that differs."""
    rows = [("material", "thick", "plate", "boards", "sawn from", "at least", "used", "bought", "remark")]
    for lot in found:
        size = f"{length_text(lot.stock.length, system)} × {length_text(lot.stock.width, system)}"
        size += " (assumed)" if lot.is_assumed else ""
        rows.append((
            sized_name(lot.material, system), length_text(lot.thickness, system), size,
            str(len(lot.boards)), str(len(lot.plates)), str(lot.least), f"{100.0 * lot.used:.0f} %",
            "–" if lot.bought is None else str(lot.bought.packs), said_of_plates(lot, system),
        ))  # fmt: skip
    return Table("Plates", tuple(rows), (1.6, 0.7, 1.7, 0.7, 0.8, 0.7, 0.6, 0.7, 3.0))


def said_of_plates(lot: PlatesOf, system: System) -> str:
    """Why the purchase list buys another number than is sawn, and what is too large for a plate."""
    told = []
    if lot.bought is None:
        told.append("no price by the plate says how large it is")
    elif lot.bought.packs < len(lot.plates):
        told.append(f"fewer are bought than the saw takes; `plates: {len(lot.plates)}` in its price buys them all")
    elif lot.bought.packs > len(lot.plates):
        told.append("more are bought than the saw takes")
    if lot.too_large:
        told.append(f"larger than a plate of {length_text(lot.stock.length, system)}: {', '.join(lot.too_large)}")
    return "; ".join(told)


def plate_drawing(lot: PlatesOf, plate: CutPlate, place: tuple[int, int], number: int, system: System) -> Drawing:
    """One plate as it lies on the saw: boards, offcuts, numbered cuts."""
    stock = plate.stock
    boards = {board.code: board for board in lot.boards}
    whole = box((0.0, 0.0), (stock.length, stock.width))
    found: list[Element] = [Hatch(whole, "outlines", "", "room")]
    for area in plate.offcuts:
        found.append(Hatch(box((area.x, area.y), (area.x + area.width, area.y + area.height)), "fills", "", lines=True))
    for area in plate.blanks:
        found += _board(area, boards[area.name], system)
    for at, cut in enumerate(plate.cuts, 1):
        found += _cut(cut, str(at))
    found += [
        Polyline(whole, "outlines", closed=True),
        Dimension((0.0, 0.0), (stock.length, 0.0), "x", 0.0, -FIRST_ROW),
        Dimension((stock.length, 0.0), (stock.length, stock.width), "y", stock.length, FIRST_ROW),
        *(_grain(stock.width) if lot.grain else ()),
    ]
    name = labelled(sized_name(lot.material, system), 40)
    title = f"{name} {length_text(lot.thickness, system)}, plate {place[0]} of {place[1]}"
    kerf = length_text(stock.kerf, system)
    others = [boards[area.name] for area in plate.blanks if boards[area.name].part is None]
    leaves = sorted({f"{board.code}: {board.label}" for board in others})
    remarks = (f"Fence from the edge of the piece on the table; the blade takes {kerf}.", _ROUGH, *leaves)
    return Drawing(f"plate-{number}", title, "as it lies on the saw; cuts in the order of their numbers", tuple(found),
                   _cut_list(plate, system), remarks)  # fmt: skip


def _cut_list(plate: CutPlate, system: System) -> tuple[tuple[str, str], ...]:
    key = [(str(at), _told(cut, system)) for at, cut in enumerate(plate.cuts[:_MOST_CUTS], 1)]
    left = len(plate.cuts) - _MOST_CUTS
    return (*key, *([("", f"and {left} more")] if left > 0 else []))


def _told(cut: SawCut, system: System) -> str:
    way = "along" if cut.across == "y" else "across"
    return f"fence {length_text(cut.fence, system)}, {way}, {length_text(cut.end - cut.start, system)} long"


def _board(area: Area, board: Board, system: System) -> list[Element]:
    """A board with its code and size, and the outline that is cut from it."""
    corners = box((area.x, area.y), (area.x + area.width, area.y + area.height))
    found: list[Element] = [Hatch(corners, "outlines", board.code, "sheet"),
                            Polyline(corners, "outlines", board.code, closed=True)]  # fmt: skip
    if board.part is not None and len(board.part.outline) + len(board.part.holes) > 4:
        stands = abs(area.width - board.size[0]) > 1e-6
        found += [Polyline(tuple(_on_plate(point, area, stands=stands) for point in ring), "hidden", board.code,
                           closed=True) for ring in (board.part.outline, *board.part.holes)]  # fmt: skip
    middle = (area.x + area.width / 2.0, area.y + area.height / 2.0)
    size = f"{length_text(area.width, system)} × {length_text(area.height, system)}"
    turned = area.height > 1.5 * area.width
    angle = 1.5707963267948966 if turned else 0.0
    apart = ((-0.002, 0.0), (0.002, 0.0)) if turned else ((0.0, 0.002), (0.0, -0.002))
    return [*found, Text(middle, board.code, part=board.code, size=NORMAL, bold=True, angle=angle, shift=apart[0]),
            Text(middle, size, part=board.code, size=0.8 * SMALL, angle=angle, shift=apart[1])]  # fmt: skip


def _on_plate(point: Point, area: Area, *, stands: bool) -> Point:
    """A point of a part on its plate; one that stands is turned by a right angle."""
    if stands:
        return (area.x + area.width - point[1], area.y + point[0])
    return (area.x + point[0], area.y + point[1])


def _cut(cut: SawCut, number: str) -> list[Element]:
    """Line of a saw cut in the middle of what the blade takes, its number near where the blade enters."""
    at = cut.at + cut.wide / 2.0
    into = cut.start + min(0.06, 0.3 * (cut.end - cut.start))
    if cut.across == "x":
        return [Line((at, cut.start), (at, cut.end), "cuts"), Balloon((at, into), number, "cuts")]
    return [Line((cut.start, at), (cut.end, at), "cuts"), Balloon((into, at), number, "cuts")]


def _grain(width: float) -> list[Element]:
    """Arrow along the grain above a plate."""
    y = width + 0.06
    left, right = (0.05, y), (0.45, y)
    heads = [Line(end, (end[0] + way * _ARROW, y + up * 0.4 * _ARROW), "dimensions")
             for end, way in ((left, 1.0), (right, -1.0)) for up in (1.0, -1.0)]  # fmt: skip
    return [Line(left, right, "dimensions"), *heads,
            Text((right[0], y), "grain", size=SMALL, across="left", shift=(0.0025, 0.0))]  # fmt: skip
