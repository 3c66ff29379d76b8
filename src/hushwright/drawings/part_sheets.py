"""Sheet parts on paper: several beside each other with their sizes, and one alone for the machine that cuts it."""

from __future__ import annotations

import math

from hushwright.drawings.geometry import labelled
from hushwright.drawings.numbers import length_text
from hushwright.drawings.paper import Paper, placed, room_for_drawing
from hushwright.drawings.parts import Part
from hushwright.drawings.primitives import (
    FIRST_ROW,
    NORMAL,
    SMALL,
    Circle,
    Drawing,
    Element,
    Hatch,
    Point,
    Polyline,
    Text,
    area_of,
    chain,
    distinct,
)
from hushwright.drawings.sheets import Table
from hushwright.library.us_names import sized_name
from hushwright.units import System, format_quantity

_SHEET_SCALES = {"metric": (15, 20, 25, 30, 40, 50), "us": (16, 24, 32, 48)}
_CHAIN_ROW = 0.0085  # m on paper between chains, so that a text fits under each line
_BETWEEN = 6.0  # mm on paper between parts
_ROOM_BELOW = 0.08  # m from a hole to the edge under it, from which its size finds room between them
_SHARP, _STRAIGHT = math.radians(10.0), math.radians(0.5)  # turn of a corner beside an arc, and without any arc
_BREAKS, _LONG = 0.03, 5.0  # m, and its length over it, from which a strip breaks; common practice, no source
_SHARP_EDGE = 1e-3  # m from the foot of a part
_NO_STEP = 0.002  # m between corners that get no size of their own
_ROUND_FROM = 40  # corners from which a hole is drawn as the circle it is


def part_alone(part: Part) -> Drawing:
    """Outline, holes and label of one part, corner at the origin: what a cutter takes."""
    found: list[Element] = [*_lines(part, (0.0, 0.0))]
    width, height = part.size
    text = labelled(f"{part.code} {part.label}, {part.material}", 90)
    found.append(Text((width / 2.0, height), text, part=part.code, upward="bottom", shift=(0.0, 0.003)))
    return Drawing(f"part-{part.code.lower()}", f"Part {part.code}", "finished face up", tuple(found))


def _lines(part: Part, at: Point) -> list[Element]:
    """Outline and holes at a place."""
    x, y = at
    move = [tuple((px + x, py + y) for px, py in ring) for ring in (part.outline, *part.holes)]
    found: list[Element] = [Polyline(move[0], "outlines", part.code, closed=True)]
    for ring in move[1:]:
        found.append(_hole(ring, part.code))
    return found


def _hole(ring: tuple[Point, ...], part: str) -> Element:
    """A hole as a circle where it is one, so that a cutter runs an arc."""
    if len(ring) < _ROUND_FROM or len(_shown(ring)) > 1:
        return Polyline(ring, "cuts", part, closed=True)
    xs, ys = zip(*ring, strict=True)
    return Circle(((max(xs) + min(xs)) / 2.0, (max(ys) + min(ys)) / 2.0), true_radius(ring), "cuts", part)


def true_radius(ring: tuple[Point, ...]) -> float:
    """Radius of the circle that has the area of a many-sided hole [m]."""
    return float((area_of(ring) / math.pi) ** 0.5)


def part_with_sizes(part: Part, at: Point, system: System) -> list[Element]:
    """A part with what it measures, its lower left corner at a place."""
    x, y = at
    width, height = part.size
    move = tuple((px + x, py + y) for px, py in part.outline)
    holes = tuple(tuple((px + x, py + y) for px, py in ring) for ring in part.holes)
    tone = "sheet" if part.kind == "sheet" else "room"
    found: list[Element] = [Hatch(move, "outlines", part.code, tone, holes=holes)]
    found += _lines(part, at)
    found += _sizes(part, at, 0) + _sizes(part, at, 1)
    found += _diameters(part, at, system)
    middle = (x + width / 2.0, y + height)
    found.append(Text(middle, part.code, part=part.code, upward="bottom", size=NORMAL, bold=True, shift=(0.0, 0.0045)))
    found.append(
        Text(middle, labelled(part.label, 52), part=part.code, upward="bottom", size=0.8 * SMALL, shift=(0.0, 0.0015))
    )
    found += [
        Text(middle, text, part=part.code, upward="bottom", size=0.8 * SMALL, bold=True, shift=(0.0, 0.0075))
        for text in weak_places(part, system)[:1]
    ]
    return found


def weak_places(part: Part, system: System) -> tuple[str, ...]:
    """Strips between two edges that break when they are sawn or carried, the narrowest first."""
    from shapely.geometry import Polygon  # 0.1 s, and only sheets of parts ask

    whole = Polygon(part.outline, part.holes)
    firm = whole.buffer(-_BREAKS / 2.0, join_style="mitre").buffer(_BREAKS / 2.0, join_style="mitre")
    thin = whole.difference(firm.buffer(1e-5, join_style="mitre"))
    found = []
    for each in getattr(thin, "geoms", (thin,)):
        if each.is_empty:
            continue
        low_x, low_y, high_x, high_y = each.bounds
        narrow, long = sorted((high_x - low_x, high_y - low_y))
        if long > _LONG * narrow and long > _BREAKS:
            how = "set the opening lower by as much" if low_y < _SHARP_EDGE else "move the opening"
            found.append((narrow, f"strip of {length_text(narrow, system)} by {length_text(long, system)} will break:"
                                  f" leave it off, or {how}"))  # fmt: skip
    return tuple(text for _, text in sorted(found))


def _diameters(part: Part, at: Point, system: System) -> list[Element]:
    """Diameters of round holes, alike ones in one text below the middle of them all, or above where an edge is near."""
    alike: dict[float, list[Circle]] = {}
    for element in _lines(part, at):
        if isinstance(element, Circle):
            alike.setdefault(round(element.radius, 5), []).append(element)
    found: list[Element] = []
    for radius, circles in alike.items():
        x = sum(circle.centre[0] for circle in circles) / len(circles)
        y = min(circle.centre[1] for circle in circles) - radius
        number = f"{len(circles)} × " if len(circles) > 1 else ""
        said = f"{number}dia. {length_text(2.0 * radius, system)}"
        below = y - min(py for _, py in part.outline) - at[1] > _ROOM_BELOW
        top = max(circle.centre[1] for circle in circles) + radius
        found.append(Text((x, y if below else top), said, "cuts", part.code, 0.8 * SMALL,
                          upward="top" if below else "bottom", shift=(0.0, -0.0012 if below else 0.0012)))  # fmt: skip
    return found


def _shown(ring: tuple[Point, ...]) -> tuple[Point, ...]:
    """Corners that get a size; of a circle its middle, of an arc its ends."""
    before, after = (ring[-1], *ring[:-1]), (*ring[1:], ring[0])
    least = _SHARP if len(ring) >= _ROUND_FROM else _STRAIGHT
    sharp = tuple(here for one, here, two in zip(before, ring, after, strict=True) if _turn(one, here, two) > least)
    if sharp:
        return sharp
    xs, ys = zip(*ring, strict=True)
    return (((max(xs) + min(xs)) / 2.0, (max(ys) + min(ys)) / 2.0),)


def _turn(a: Point, b: Point, c: Point) -> float:
    """By how much a line turns at its corner [rad]."""
    one = math.atan2(b[1] - a[1], b[0] - a[0])
    return abs(math.remainder(math.atan2(c[1] - b[1], c[0] - b[0]) - one, 2.0 * math.pi))


def _sizes(part: Part, at: Point, axis: int) -> list[Element]:
    """Chains along the lower or the right edge: corners, then holes, then the whole; a chain of one says no more."""
    width, height = part.size
    level, away = (at[1], -1.0) if axis == 0 else (at[0] + width, 1.0)
    ends = (0.0, (width, height)[axis])
    corners = distinct((*ends, *(point[axis] for point in _shown(part.outline))))
    holes = distinct((*ends, *(point[axis] for ring in part.holes[:6] for point in _shown(ring))))
    chains = [each for each in dict.fromkeys((_told_apart(corners), _told_apart(holes))) if len(each) > 2]
    found: list[Element] = []
    for row, places in enumerate((*chains, ends)):
        offset = away * (FIRST_ROW + _CHAIN_ROW * row)
        found += chain(tuple(at[axis] + each for each in places), "x" if axis == 0 else "y", level, offset)
    return found


def _told_apart(places: tuple[float, ...]) -> tuple[float, ...]:
    """Places without those so near to the one before, or to the end, that their sizes would lie over each other."""
    if not places:
        return ()
    kept = [places[0]]
    kept += [each for each in places[1:-1] if each - kept[-1] >= _NO_STEP and places[-1] - each >= _NO_STEP]
    return (*kept, places[-1]) if len(places) > 1 else tuple(kept)


def part_drawings(parts: tuple[Part, ...], paper: Paper, system: System) -> tuple[tuple[Drawing, float], ...]:
    """Parts set in rows, face by face, on as many sheets as it takes; each drawing with its scale."""
    width, height = room_for_drawing(paper, with_key=False)
    scale = next((each for each in _SHEET_SCALES[system] if all(_fits(p, each, width, height, system) for p in parts)),
                 _SHEET_SCALES[system][-1])  # fmt: skip
    pages: list[list[Element]] = []
    names: list[list[str]] = []
    x = y = row = 0.0
    for part in parts:
        left, low, right, top = _room_of(part, scale, system)
        wide, high = right - left + _BETWEEN, top - low + _BETWEEN
        if x + wide > width:
            x, y, row = 0.0, y + row, 0.0
        if not pages or y + high > height + _BETWEEN:
            pages.append([])
            names.append([])
            x = y = row = 0.0
        back = scale / 1000.0
        pages[-1] += part_with_sizes(part, ((x - left) * back, (-y - top) * back), system)
        names[-1].append(part.code)
        x, row = x + wide, max(row, high)
    return tuple(
        (Drawing(f"parts-{index}", f"Parts {codes[0]} to {codes[-1]}", "each part with its finished face up",
                 tuple(page)), float(scale))
        for index, (page, codes) in enumerate(zip(pages, names, strict=True), 1)
    )  # fmt: skip


def _room_of(part: Part, scale: float, system: System) -> tuple[float, float, float, float]:
    """Extent of a part with its sizes on paper [mm], its corner at the origin."""
    shown = placed(Drawing("", "", "", tuple(part_with_sizes(part, (0.0, 0.0), system))), scale, system)
    return shown.left, shown.bottom, shown.right, shown.top


def _fits(part: Part, scale: float, width: float, height: float, system: System) -> bool:
    left, low, right, top = _room_of(part, scale, system)
    return right - left <= width and top - low <= height


def part_list(parts: tuple[Part, ...], system: System) -> Table:
    """All parts with material, thickness and size."""
    rows = [("part", "where", "material", "thick", "width", "height", "area")]
    for part in parts:
        width, height = part.size
        rows.append((part.code, part.label, sized_name(part.material, system), length_text(part.thickness, system),
                     length_text(width, system), length_text(height, system),
                     format_quantity(part.area, "area", system)))  # fmt: skip
    return Table("Sheet parts", tuple(rows), (0.7, 4.2, 3.0, 1.0, 1.2, 1.2, 1.2))
