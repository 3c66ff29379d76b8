"""A drawing as SVG: true scale in millimetres, every element tied to the part of the build that it shows."""

from __future__ import annotations

import math
import unicodedata
from xml.sax.saxutils import escape, quoteattr

from hushwright.drawings.layers import LAYERS, TONES
from hushwright.drawings.marks import Fill, Letters, Mark, Ring, Stroke, extent
from hushwright.drawings.on_paper import on_paper
from hushwright.drawings.primitives import Drawing, Point
from hushwright.units import System

_MARGIN = 4.0  # mm
_FAMILY = "'Source Sans Pro', 'Source Sans 3', sans-serif"
_ANCHOR = {"left": "start", "centre": "middle", "right": "end"}
_BASELINE = {"bottom": 0.0, "middle": 0.34, "top": 0.68}  # of the height of the text


def svg(drawing: Drawing, scale: float = 20.0, system: System = "metric") -> str:
    """Write a drawing as one SVG document.

    Parameters
    ----------
    drawing : Drawing
        What to draw.
    scale : float
        How many times smaller than the thing it is on paper.
    system : {"metric", "us"}
        Units of the dimensions shown.

    Returns
    -------
    str
        The document; one user unit is one millimetre on paper. Elements carry ``data-layer`` and, where they show a
        part of the build, ``data-part`` with its name. The root carries ``data-left`` and ``data-top``, the place of
        its corner [mm on paper] from the origin of the drawing, and ``data-scale``.
    """
    marks = on_paper(drawing, scale, system)
    left, bottom, right, top = extent(marks)
    left, bottom, right, top = left - _MARGIN, bottom - _MARGIN, right + _MARGIN, top + _MARGIN
    width, height = right - left, top - bottom
    body = "".join(_mark(mark, left, top) for mark in marks)
    title = _plain(drawing.title)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(width)}mm" height="{_n(height)}mm"'
        f' viewBox="0 0 {_n(width)} {_n(height)}" data-scale="{scale:g}" data-left="{_n(left)}" data-top="{_n(top)}"'
        f' role="img" font-family="{escape(_FAMILY)}" fill="none" stroke-linecap="round" stroke-linejoin="round">'
        f"<title>{escape(title)}</title><desc>{escape(_plain(drawing.seen))}</desc>{body}</svg>\n"
    )


def _plain(text: str) -> str:
    """Text without characters that XML forbids."""
    return "".join(each if each in "\t\n" or unicodedata.category(each) not in ("Cc", "Cs") else " " for each in text)


def _n(number: float) -> str:
    return f"{number:.3f}".rstrip("0").rstrip(".") or "0"


def _xy(point: Point, left: float, top: float) -> str:
    return f"{_n(point[0] - left)} {_n(top - point[1])}"


def _marked(layer: str, part: str) -> str:
    return f' data-layer="{layer}"' + (f" data-part={quoteattr(_plain(part))}" if part else "")


def _line_style(layer: str, dashed: bool) -> str:
    style = LAYERS[layer]
    dashes = ' stroke-dasharray="2.4 1.2"' if dashed or style.dashed else ""
    return f' stroke="{style.colour}" stroke-width="{style.width:g}"{dashes}'


def _mark(mark: Mark, left: float, top: float) -> str:
    marked = _marked(mark.layer, mark.part)
    if isinstance(mark, Stroke):
        path = "L".join(_xy(point, left, top) for point in mark.points)
        return f'<path d="M{path}{"Z" if mark.closed else ""}"{_line_style(mark.layer, mark.dashed)}{marked}/>'
    if isinstance(mark, Ring):
        fill = f' fill="{TONES["paper"]}"' if mark.covers else ""
        return (f'<circle cx="{_n(mark.centre[0] - left)}" cy="{_n(top - mark.centre[1])}" r="{_n(mark.radius)}"'
                f"{fill}{_line_style(mark.layer, mark.dashed)}{marked}/>")  # fmt: skip
    if isinstance(mark, Fill):
        shapes = "".join(
            "M" + "L".join(_xy(point, left, top) for point in shape) + "Z" for shape in (mark.outline, *mark.holes)
        )
        return f'<path d="{shapes}" fill="{TONES[mark.tone]}" fill-rule="evenodd" stroke="none"{marked}/>'
    return _letters(mark, left, top, marked)


def _letters(mark: Letters, left: float, top: float, marked: str) -> str:
    x, y = mark.at[0] - left, top - mark.at[1]
    turn = f' transform="rotate({_n(-math.degrees(mark.angle))} {_n(x)} {_n(y)})"' if mark.angle else ""
    weight = ' font-weight="600"' if mark.bold else ""
    halo = f' stroke="{TONES["paper"]}" stroke-width="0.5" paint-order="stroke"' if mark.covers else ""
    return (
        f'<text x="{_n(x)}" y="{_n(y + _BASELINE[mark.upward] * mark.size)}" font-size="{_n(mark.size)}"'
        f' text-anchor="{_ANCHOR[mark.across]}" style="unicode-bidi:plaintext" fill="{LAYERS[mark.layer].colour}"'
        f"{weight}{halo}{turn}{marked}>{escape(_plain(mark.text))}</text>"
    )
