"""Sheets of paper: a drawing at true scale or a table, with key, title block and frame, as typst source."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from hushwright.drawings.layers import LAYERS, TONES
from hushwright.drawings.marks import Fill, Letters, Mark, Ring, Stroke, text_width
from hushwright.drawings.numbers import scale_text
from hushwright.drawings.paper import GAP, KEY_WIDTH, MARGIN, TITLE_HEIGHT, Paper, Placed, fitted, placed
from hushwright.drawings.primitives import Drawing, Point
from hushwright.drawings.typeset import literal, preamble, typeset
from hushwright.model.build import Build
from hushwright.units import System


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under a heading; the first row names the columns. ``widths`` are shares of the width."""

    heading: str
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: a drawing, or tables, or both; ``scale`` fixes the scale."""

    name: str
    title: str
    drawing: Drawing | None = None
    tables: tuple[Table, ...] = ()
    scale: float | None = None
    remarks: tuple[str, ...] = ()


_TEXT, _BESIDE = 3.18, 8.0  # mm, height of the text of tables (9 pt), and what a column has beside its words

HELPERS = """
#let _at(x, y, a, al, s, c, w, st, body) = {
  let dx = if al.x == left { 0 } else if al.x == right { 600 } else { 300 }
  place(top + left, dx: x * 1mm, dy: y * 1mm,
    rotate(-a * 1rad, origin: top + left, box(width: 0mm, height: 0mm,
      place(top + left, dx: -dx * 1mm, box(width: 600mm, height: 0mm,
        place(al, text(size: s * 1mm, fill: rgb(c), weight: w, stroke: st, body)))))))
}
#let _l(c, w, d, ..ps) = place(top + left, curve(
  stroke: (paint: rgb(c), thickness: w * 1mm, cap: "round", join: "round", dash: d), ..ps.pos()))
#let _m(x, y) = curve.move((x * 1mm, y * 1mm))
#let _n(x, y) = curve.line((x * 1mm, y * 1mm))
#let _z = curve.close(mode: "straight")
#let _f(c, ..ps) = place(top + left, curve(fill: rgb(c), fill-rule: "even-odd", ..ps.pos()))
#let _o(x, y, r, c, w, d, f) = place(top + left, dx: (x - r) * 1mm, dy: (y - r) * 1mm,
  circle(radius: r * 1mm, fill: f, stroke: (paint: rgb(c), thickness: w * 1mm, dash: d)))
"""
_DASHES = "(2.4mm, 1.2mm)"
_PAGE = "context [#counter(page).get().first() of #counter(page).final().first()]"


def sheets_pdf(sheets: Sequence[Sheet], build: Build, paper: Paper, system: System = "metric") -> bytes:
    """Sheets as one PDF.

    Parameters
    ----------
    sheets : sequence of Sheet
        What to print.
    build : Build
        Gives the title block.
    paper : Paper
        On what.
    system : {"metric", "us"}
        Units.

    Returns
    -------
    bytes
        PDF/A, the same for the same input.
    """
    title = build.title or "Untitled build"
    head = preamble(f"{title}, drawings", build.drawn.revision_date)
    pages = [sheet_source(sheet, build, paper, system) for sheet in sheets]
    return typeset(head + HELPERS + "\n#pagebreak(weak: true)\n".join(pages))


def sheet_source(
    sheet: Sheet, build: Build, paper: Paper, system: System, number: tuple[int, int] | None = None
) -> str:
    """Source of one sheet with its frame; a table that is longer than the paper goes on with the same frame.

    Without a number the pages are counted as they are printed.
    """
    shown = None
    drawing = sheet.drawing
    remarks = (*sheet.remarks, *(drawing.remarks if drawing is not None else ()))
    if drawing is not None:
        keeps = bool(drawing.key or remarks)
        shown = placed(drawing, sheet.scale, system) if sheet.scale else fitted(drawing, paper, system, with_key=keeps)
    block = _frame(sheet, build, paper, system, shown, number)
    page = (
        f"#set page(width: {paper.width}mm, height: {paper.height}mm, margin: (x: {MARGIN + GAP}mm,"
        f" top: {MARGIN + GAP}mm, bottom: {MARGIN + TITLE_HEIGHT + GAP}mm), background: [{block}])\n"
    )
    body = ""
    if shown is not None and drawing is not None:
        body += drawing_source(shown, *_centred(shown, paper, bool(drawing.key or remarks)))
        body += _key(drawing, remarks, paper)
    body += "".join(table_source(table, paper.width - 2.0 * (MARGIN + GAP)) for table in sheet.tables)
    if drawing is None:  # beside a drawing they stand in its key
        body += "".join(f"#par[#{literal(remark, breakable=True)}]\n" for remark in remarks)
    return page + body + "\n"


def _centred(shown: Placed, paper: Paper, with_key: bool) -> Point:
    """Upper left corner of the drawing from the upper left corner of the text [mm]."""
    width = paper.width - 2.0 * (MARGIN + GAP) - (KEY_WIDTH if with_key else 0.0)
    height = paper.height - 2.0 * (MARGIN + GAP) - TITLE_HEIGHT
    return max((width - shown.width) / 2.0, 0.0), max((height - shown.height) / 2.0, 0.0)


def drawing_source(shown: Placed, x: float, y: float) -> str:
    """All marks of a drawing, its upper left corner at a place of the page [mm]."""
    return "".join(marks_source(shown.marks, x - shown.left, y + shown.top))


def marks_source(marks: Iterable[Mark], x: float, y: float) -> Iterable[str]:
    """Marks with their origin at a place of the page; strokes of one kind in a row become one curve."""
    for style, group in groupby(marks, key=_style):
        if style is not None:
            colour, width, dashed = style
            parts = ", ".join(_path(mark, x, y) for mark in group if isinstance(mark, Stroke))
            yield f'#_l("{colour}", {width}, {_DASHES if dashed else "none"}, {parts})\n'
            continue
        for mark in group:
            yield _single(mark, x, y)


def _style(mark: Mark) -> tuple[str, float, bool] | None:
    if not isinstance(mark, Stroke):
        return None
    layer = LAYERS[mark.layer]
    return layer.colour, layer.width, mark.dashed or layer.dashed


def _xy(point: Point, x: float, y: float) -> str:
    return f"{x + point[0]:.3f}, {y - point[1]:.3f}"


def _path(stroke: Stroke, x: float, y: float) -> str:
    first, *rest = stroke.points
    steps = [f"_m({_xy(first, x, y)})", *(f"_n({_xy(point, x, y)})" for point in rest)]
    return ", ".join([*steps, "_z"] if stroke.closed else steps)


def _single(mark: Mark, x: float, y: float) -> str:
    layer = LAYERS[mark.layer]
    if isinstance(mark, Fill):
        shapes = ", ".join(_path(Stroke(shape, mark.layer, closed=True), x, y) for shape in (mark.outline, *mark.holes))
        return f'#_f("{TONES[mark.tone]}", {shapes})\n'
    if isinstance(mark, Ring):
        fill = f'rgb("{TONES["paper"]}")' if mark.covers else "none"
        dash = _DASHES if mark.dashed or layer.dashed else "none"
        return f'#_o({_xy(mark.centre, x, y)}, {mark.radius:.3f}, "{layer.colour}", {layer.width}, {dash}, {fill})\n'
    assert isinstance(mark, Letters)
    return _letters(mark, x, y)


def _letters(mark: Letters, x: float, y: float) -> str:
    across = {"left": "left", "centre": "center", "right": "right"}[mark.across]
    upward = {"bottom": "bottom", "middle": "horizon", "top": "top"}[mark.upward]
    weight = '"semibold"' if mark.bold else '"regular"'
    text = literal(mark.text)
    angle = math.remainder(mark.angle, 2.0 * math.pi)
    head = f"#_at({_xy(mark.at, x, y)}, {angle:.6f}, {across} + {upward}, {mark.size:.3f}"
    colour = LAYERS[mark.layer].colour
    halo = f'{head}, "{TONES["paper"]}", {weight}, 0.7mm + rgb("{TONES["paper"]}"), {text})\n' if mark.covers else ""
    return f'{halo}{head}, "{colour}", {weight}, none, {text})\n'


def _key(drawing: Drawing, remarks: tuple[str, ...], paper: Paper) -> str:
    """Numbers and remarks in a column at the right; in smaller print where there are many."""
    if not drawing.key and not remarks:
        return ""
    height = paper.height - 2.0 * (MARGIN + GAP) - TITLE_HEIGHT
    key = tuple((number, _short(text, 120)) for number, text in drawing.key)
    size = _size_of_key(tuple(text for _, text in key), remarks, height)
    cells = ", ".join(f"[#{literal(number)}], [#{literal(text, breakable=True)}]" for number, text in key)
    lines = "".join(f"#par[#{literal(remark, breakable=True)}]\n" for remark in remarks)
    table = f"#grid(columns: (7mm, 1fr), row-gutter: {0.45 * size:.2f}mm, {cells})\n" if cells else ""
    return (
        f"#place(top + right, box(width: {KEY_WIDTH - GAP}mm)[#set align(top + left)\n#set text(size: {size:.2f}mm)\n"
        f"#set par(leading: {0.35 * size:.2f}mm, spacing: {0.9 * size:.2f}mm)\n{table}#v({size:.2f}mm)\n{lines}])\n"
    )


def _size_of_key(texts: tuple[str, ...], remarks: tuple[str, ...], height: float) -> float:
    """Largest size of text [mm] at which a key fits beside its drawing."""
    size = 2.6
    while size > 1.3:
        lines = sum(math.ceil(1.1 * text_width(text, size) / (KEY_WIDTH - GAP - 7.0)) for text in texts)
        lines += sum(math.ceil(1.1 * text_width(text, size) / (KEY_WIDTH - GAP)) + 1 for text in remarks)
        if 1.15 * size * (lines + 2) + 0.45 * size * len(texts) < height:
            break
        size -= 0.1
    return size


def table_source(table: Table, width: float) -> str:
    """A table with its heading, no wider than its words; the row of names comes again on every page."""
    if not table.rows:
        return ""
    head, *rows = table.rows
    names = ", ".join(f"[*#{literal(cell, breakable=True)}*]" for cell in head)
    cells = ", ".join(f"[#{literal(cell, breakable=True)}]" for row in rows for cell in row)
    shares = _columns(table, width)
    return (
        f'#block(below: 2mm, sticky: true)[#text(size: 11pt, weight: "semibold")[#{literal(table.heading)}]]\n'
        "#table(columns: (" + shares + ",), inset: (x: 1.2mm, y: 0.9mm), align: left + top,"
        ' stroke: (x: none, y: 0.1mm + rgb("#9aa3aa")),'
        f" table.header({names}), {cells})\n#v(4mm)\n"
    )


def _columns(table: Table, width: float) -> str:
    """Columns as wide as their words where all of them fit beside each other, else by their shares."""
    natural = [max(1.1 * text_width(row[column], _TEXT) for row in table.rows) + _BESIDE
               for column in range(len(table.rows[0]))]  # fmt: skip
    if sum(natural) <= width:
        return ", ".join(f"{each:.1f}mm" for each in natural)
    return ", ".join(f"{share:g}fr" for share in table.widths or (1.0,) * len(natural))


def _frame(
    sheet: Sheet, build: Build, paper: Paper, system: System, shown: Placed | None, number: tuple[int, int] | None
) -> str:
    """Border and title block, drawn behind the page."""
    width, height = paper.width - 2.0 * MARGIN, paper.height - 2.0 * MARGIN
    border = (
        f"#place(top + left, dx: {MARGIN}mm, dy: {MARGIN}mm,"
        f' rect(width: {width}mm, height: {height}mm, stroke: 0.35mm + rgb("#20262b")))'
    )
    return border + title_block(sheet, build, paper, system, shown.scale if shown is not None else None, number)


def title_block(
    sheet: Sheet, build: Build, paper: Paper, system: System, scale: float | None, number: tuple[int, int] | None
) -> str:
    """Strip along the lower edge: what it is, at which scale, of which revision."""
    drawn = build.drawn
    last = drawn.revisions[-1] if drawn.revisions else None
    seen = sheet.drawing.seen if sheet.drawing is not None else ""
    to_scale = sheet.drawing is not None and sheet.drawing.to_scale
    unit = "feet and inches" if system == "us" else "millimetres"
    cells = (
        ("build", build.title or "untitled"), ("sheet", sheet.title),
        ("scale", scale_text(scale, system) if scale and to_scale else "none"), ("lengths", unit),
        ("revision", drawn.revision or "none"), ("date", drawn.revision_date or "none"),
        ("job", drawn.number or "none"), ("drawn, checked", f"{drawn.drawn_by or '–'} / {drawn.checked_by or '–'}"),
        ("paper", paper.name),
    )  # fmt: skip
    change = last.change if last is not None and last.change else ""
    page = literal(f"{number[0]} of {number[1]}") if number else _PAGE
    shown = "".join(_cell(label, literal(_short(text, 60), breakable=True)) for label, text in cells)
    shown += _cell("page", page)
    low = " · ".join(each for each in (seen, f"last change: {change}" if change else "") if each)
    return (
        f"#place(bottom + left, dx: {MARGIN}mm, dy: -{MARGIN}mm, box(width: {paper.width - 2.0 * MARGIN}mm,"
        f' height: {TITLE_HEIGHT}mm, stroke: (top: 0.35mm + rgb("#20262b")), inset: (x: 2mm, y: 1.2mm), clip: true)['
        "#set align(top + left)\n#set text(size: 2.9mm)\n#set par(leading: 0.8mm, spacing: 1mm)\n"
        "#grid(columns: (1.7fr, 1.5fr, 1.05fr, 0.9fr, 0.6fr, 0.75fr, 0.75fr, 0.9fr, 0.5fr, 0.55fr), column-gutter: 2mm,"
        f" {shown})\n#v(0.4mm)\n#text(size: 2.5mm)[#{literal(low, breakable=True)}]])"
    )


def _cell(label: str, shown: str) -> str:
    """A label and under it what typst code shows."""
    return f'[#text(size: 2.1mm, fill: rgb("#5b6670"))[#{literal(label)}] \\ #{shown}],'


def _short(text: str, most: int) -> str:
    """Text cut to a length, with a mark where something is left out."""
    return text if len(text) <= most else text[: most - 1] + "…"
