"""Drilling templates for the cuts of the vehicle at true size, tiled where paper is too small."""

from __future__ import annotations

import math
from textwrap import wrap

from hushwright.drawings.cut_sheets import datums_of, size_of
from hushwright.drawings.elevations import cut_outline, members
from hushwright.drawings.geometry import labelled, spoken
from hushwright.drawings.numbers import length_text
from hushwright.drawings.paper import Paper, placed, room_for_drawing
from hushwright.drawings.primitives import (
    NORMAL,
    SMALL,
    Circle,
    Dimension,
    Drawing,
    Element,
    Line,
    Point,
    Polyline,
    Text,
    box,
)
from hushwright.drawings.sheets import Sheet
from hushwright.model.build import Build
from hushwright.model.cuts_in_place import CutInPlace
from hushwright.units import System

_PILOT = 0.003  # m, radius of the pilot hole; common practice, no source
_MARGIN = 0.012  # m round a cut on its template
_RULE = {"metric": 0.1, "us": 4 * 0.0254}  # m, by which the print is checked
_LINE = 52  # letters in a line beside the cut
_OVERLAP = 0.01  # m by which neighbouring tiles show the same


def template(build: Build, cut: CutInPlace, system: System, *, narrow: bool = False) -> Drawing:
    """A cut at true size, seen from outside, with its middle at the origin.

    Parameters
    ----------
    build : Build
        The build.
    cut : CutInPlace
        Which cut.
    system : {"metric", "us"}
        Units of the words.
    narrow : bool
        Whether the words stand in the column of remarks, for small paper and for tiles.

    Returns
    -------
    Drawing
        To be printed 1:1. x runs rearward (on the right side and under the floor forward, on the front to the left of
        the van, on the rear to its right): as one looks at the sheet from outside.
    """
    way = -1.0 if cut.face in ("right", "floor") else 1.0
    wide, high = cut.width / 2.0 + _MARGIN, cut.height / 2.0 + _MARGIN
    found = cut_outline(cut, (0.0, 0.0))
    found.append(Circle((0.0, 0.0), _PILOT, "cuts", cut.name))
    if not cut.round:
        found += [Circle((x * (cut.width / 2.0 - 0.006), y * (cut.height / 2.0 - 0.006)), _PILOT, "datums", cut.name)
                  for x in (-1.0, 1.0) for y in (-1.0, 1.0)]  # fmt: skip
    found += [
        Line((-wide, 0.0), (wide, 0.0), "datums", cut.name, dashed=True),
        Line((0.0, -high), (0.0, high), "datums", cut.name, dashed=True),
    ]
    found += _ribs_beside(build, cut, way, wide, high)
    found += _rules_close(wide, high, system) if narrow else _words(cut, wide, max(high, 0.04), system)
    remarks = _said(cut, system) if narrow else ()
    title = f"Template {spoken(cut.name)}"
    return Drawing(f"template-{cut.name}", title, "seen from outside", tuple(found), (), remarks)


def _said(cut: CutInPlace, system: System) -> tuple[str, ...]:
    """What it is, where its middle goes and how it is used."""
    datums = datums_of(cut)
    return (
        f"{labelled(cut.name)}, {cut.face}",
        f"{size_of(cut, system)}, outer face of the sheet",
        f"upright line: {length_text(datums.along_distance, system)} {datums.along}",
        f"level line: {length_text(datums.up_distance, system)} {datums.up}",
        "Print 1:1, without fitting to the page; check both rules with a steel rule. Set the middle from both datums,"
        " then drill the pilot hole in the middle ring.",
    )


def _rules_close(wide: float, high: float, system: System) -> list[Element]:
    """The two rules by which the print is checked, beside and under the cut."""
    rule, x, y = _RULE[system], wide + 0.005, -high - 0.005
    return [Dimension((-rule / 2.0, y), (rule / 2.0, y), "x", y, 0.0),
            Dimension((x, -rule / 2.0), (x, rule / 2.0), "y", x, 0.0)]  # fmt: skip


def _words(cut: CutInPlace, wide: float, high: float, system: System) -> list[Element]:
    """The words beside the cut, with the two rules."""
    rule, x = _RULE[system], wide + 0.006
    name, *others = _said(cut, system)
    lines = [(name, NORMAL, True), *((text, SMALL, False) for each in others for text in wrap(each, _LINE))]
    found: list[Element] = [
        Text((x, high), text, "text", cut.name, size, "left", "top", shift=(0.012, -0.0045 * index), bold=bold)
        for index, (text, size, bold) in enumerate(lines)
    ]
    foot = high - rule - 0.007
    found.append(Dimension((x + 0.004, foot), (x + 0.004 + rule, foot), "x", foot, 0.0))
    found.append(Dimension((x + 0.004, high - rule), (x + 0.004, high), "y", x + 0.004, 0.0))
    return found


def _ribs_beside(build: Build, cut: CutInPlace, way: float, wide: float, high: float) -> list[Element]:
    """Edges of the members that come onto the template."""
    face = "roof" if cut.face == "roof" else "side" if cut.face in ("left", "right") else ""
    if not face or cut.members is None:
        return []
    found: list[Element] = []
    for station in members(build, "roof" if face == "roof" else "left"):
        for edge in (-0.5, 0.5):
            x = way * (station + edge * cut.members.width - cut.along)
            if abs(x) < wide:
                found.append(Line((x, -high), (x, high), "hidden", "vehicle"))
                found.append(Text((x, -high), f"edge of {cut.members.word}", "hidden", size=SMALL, upward="bottom",
                                  angle=math.pi / 2.0, across="left", shift=(-0.0005, 0.001)))  # fmt: skip
    return found


def template_sheets(build: Build, paper: Paper, system: System) -> tuple[Sheet, ...]:
    """Templates of all cuts at true size; a large one comes in tiles that overlap, with marks to lay them together."""
    sheets: list[Sheet] = []
    for cut in build.cuts:
        whole = template(build, cut, system)
        if not _fits(whole, paper, system):
            whole = template(build, cut, system, narrow=True)
        tiles = tiles_of(whole, paper, system)
        for number, tile in enumerate(tiles, 1):
            suffix = f", tile {number} of {len(tiles)}" if len(tiles) > 1 else ""
            name = f"template-{cut.name}" + (f"-{number}" if len(tiles) > 1 else "")
            sheets.append(Sheet(name, f"{whole.title}{suffix}", tile, scale=1.0))
    return tuple(sheets)


def _fits(whole: Drawing, paper: Paper, system: System) -> bool:
    shown = placed(whole, 1.0, system)
    width, height = room_for_drawing(paper, with_key=bool(whole.remarks))
    return shown.width <= width and shown.height <= height


def tiles_of(whole: Drawing, paper: Paper, system: System) -> tuple[Drawing, ...]:
    """A drawing cut into pieces that fit on a paper at true size, row by row from the upper left."""
    shown = placed(whole, 1.0, system)
    wide, high = shown.width / 1000.0, shown.height / 1000.0
    if _fits(whole, paper, system):
        return (whole,)
    room = [each / 1000.0 for each in room_for_drawing(paper, with_key=True)]
    step = (room[0] - _OVERLAP - 0.02, room[1] - _OVERLAP - 0.02)
    columns, rows = math.ceil(wide / step[0]), math.ceil(high / step[1])
    left, top = shown.left / 1000.0 - 0.001, shown.top / 1000.0 + 0.001
    found = []
    for row in range(rows):
        for column in range(columns):
            low = (left + column * step[0], top - (row + 1) * step[1] - _OVERLAP)
            window = (low, (low[0] + step[0] + _OVERLAP, low[1] + step[1] + _OVERLAP))
            tile = _tile(whole, window, (row, column), (rows, columns))
            if tile is not None:
                found.append(tile)
    return tuple(found)


def _tile(
    whole: Drawing, window: tuple[Point, Point], place: tuple[int, int], count: tuple[int, int]
) -> Drawing | None:
    """What lies in a window, with its frame and marks named after the corners of tiles; `None` if nothing."""
    from hushwright.drawings.clip import clipped

    low, high = window
    found: list[Element] = list(clipped(whole.elements, low, high))
    if not found:
        return None
    found.append(Polyline(box(low, high), "structure", closed=True, dashed=True))
    for right in (0, 1):
        for down in (0, 1):
            x = high[0] - _OVERLAP / 2.0 if right else low[0] + _OVERLAP / 2.0
            y = low[1] + _OVERLAP / 2.0 if down else high[1] - _OVERLAP / 2.0
            reach = 0.004
            found += [Line((x - reach, y), (x + reach, y), "datums"), Line((x, y - reach), (x, y + reach), "datums")]
            name = f"{chr(65 + (place[0] + down) % 26)}{place[1] + right + 1}"
            found.append(Text((x, y), name, "datums", size=SMALL, across="left" if not right else "right",
                              upward="top" if not down else "bottom",
                              shift=(0.001 if not right else -0.001, -0.001 if not down else 0.001)))  # fmt: skip
    remarks = (*whole.remarks, "Lay the crosses of the same name over each other.",
               f"Row {place[0] + 1} of {count[0]}, column {place[1] + 1} of {count[1]}.")  # fmt: skip
    return Drawing(f"{whole.name}-{place[0] + 1}-{place[1] + 1}", whole.title, whole.seen, tuple(found), (), remarks)
