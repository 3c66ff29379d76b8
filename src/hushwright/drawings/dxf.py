"""A drawing as DXF: true size in millimetres or inches, layers by trade, dimensions that measure themselves."""

from __future__ import annotations

import io
import math
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from hushwright.drawings.layers import LAYERS, TONES
from hushwright.drawings.marks import Letters, Ring, Stroke
from hushwright.drawings.on_paper import on_paper
from hushwright.drawings.primitives import (
    SMALL,
    Arc,
    Balloon,
    Circle,
    Dimension,
    Drawing,
    Element,
    Hatch,
    Line,
    Point,
    Polyline,
    Text,
)
from hushwright.errors import InvalidInput
from hushwright.units import System

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Dxf
    from ezdxf.layouts.layout import Modelspace

_STYLE, _FONT, _DIMENSIONS, _DASHED = "TEXT", "SourceSansPro-Regular.ttf", "WORKSHOP", "DASHED"
_ALIGN = {("left", "bottom"): "LEFT", ("centre", "bottom"): "CENTER", ("right", "bottom"): "RIGHT",
          ("left", "middle"): "MIDDLE_LEFT", ("centre", "middle"): "MIDDLE_CENTER",
          ("right", "middle"): "MIDDLE_RIGHT", ("left", "top"): "TOP_LEFT", ("centre", "top"): "TOP_CENTER",
          ("right", "top"): "TOP_RIGHT"}  # fmt: skip
_CAPITAL = 0.66  # height of a capital over the size of the text, of the text font


def dxf(drawing: Drawing, scale: float = 20.0, system: System = "metric") -> bytes:
    """Write a drawing as a DXF file that a reader finds nothing to repair in.

    Parameters
    ----------
    drawing : Drawing
        What to draw.
    scale : float
        Scale for which text and dimension lines are sized; the thing itself is always true to size.
    system : {"metric", "us"}
        Millimetres, or inches.

    Returns
    -------
    bytes
        The file, the same for the same input.

    Raises
    ------
    InvalidInput
        If what is drawn cannot be written as a sound file.
    """
    with _same_every_time():
        document = _document(scale, system)
        writer = _Writer(document.modelspace(), 1000.0 / 25.4 if system == "us" else 1000.0, scale, drawing, system)
        writer.write(drawing.elements)
        problems = document.audit()
        if problems.errors:
            first = problems.errors[0].message
            raise InvalidInput(f"{drawing.name}: {len(problems.errors)} faults in the DXF, the first: {first}")
        text = io.StringIO()
        document.write(text)
        return text.getvalue().encode(document.output_encoding, "dxfreplace")


@contextmanager
def _same_every_time() -> Iterator[None]:
    """No time of day and no random names in the file; fonts from the package of the text font only."""
    from ezdxf._options import options
    from ezdxf.fonts import fonts

    from hushwright.drawings.typeset import font_folder

    if not fonts.font_manager.has_font(_FONT):
        fonts.font_manager.build([str(font_folder())], support_dirs=False)
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _document(scale: float, system: System) -> Dxf:
    from ezdxf import units
    from ezdxf.filemanagement import new

    document = new("R2010")
    inch = system == "us"
    document.units = units.IN if inch else units.MM
    document.header["$MEASUREMENT"] = 0 if inch else 1
    millimetre = scale / 25.4 if inch else scale  # of paper, in units of the drawing
    document.linetypes.add(_DASHED, [3.6, 2.4, -1.2], description="dashed")
    document.header["$LTSCALE"] = millimetre
    document.styles.add(_STYLE, font=_FONT)
    for name, style in LAYERS.items():
        layer = document.layers.add(name, linetype=_DASHED if style.dashed else "Continuous")
        layer.rgb = _rgb(style.colour)
        layer.dxf.lineweight = _lineweight(style.width)
    _dimension_style(document, millimetre, inch=inch)
    return document


def _rgb(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _lineweight(width: float) -> int:
    """The nearest of the line weights that the format knows [hundredths of a millimetre]."""
    known = (13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70)
    return min(known, key=lambda each: abs(each - 100.0 * width))


def _dimension_style(document: Dxf, millimetre: float, *, inch: bool) -> None:
    style = document.dimstyles.add(_DIMENSIONS)
    style.dxf.dimtxsty = _STYLE
    style.dxf.dimtxt = 1000.0 * SMALL * _CAPITAL * millimetre
    style.dxf.dimtsz = 0.9 * millimetre
    style.dxf.dimexo = 1.0 * millimetre
    style.dxf.dimexe = 1.2 * millimetre
    style.dxf.dimgap = 0.55 * millimetre
    style.dxf.dimtad = 1
    style.dxf.dimtih = 0
    style.dxf.dimtoh = 0
    style.dxf.dimscale = 1.0
    style.dxf.dimlfac = 1.0
    style.dxf.dimrnd = 0.0
    style.dxf.dimzin = 8
    style.dxf.dimdec = 4 if inch else 0
    style.dxf.dimlunit = 5 if inch else 2


class _Writer:
    """Elements into the model space; ``unit`` is units of the file per metre."""

    def __init__(self, space: Modelspace, unit: float, scale: float, drawing: Drawing, system: System) -> None:
        self._space, self._unit, self._scale, self._system = space, unit, scale, system
        self._balloons = Drawing(drawing.name, "", "", tuple(e for e in drawing.elements if isinstance(e, Balloon)))

    def write(self, elements: Iterable[Element]) -> None:
        """All elements, fills first, balloons last."""
        rest = []
        for element in elements:
            if isinstance(element, Hatch):
                self._fill(element)
            else:
                rest.append(element)
        for element in rest:
            self._one(element)
        self._write_balloons()

    def _xy(self, point: Point) -> Point:
        return (point[0] * self._unit, point[1] * self._unit)

    def _look(self, layer: str, *, dashed: bool = False) -> dict[str, str]:
        return {"layer": layer} | ({"linetype": _DASHED} if dashed and not LAYERS[layer].dashed else {})

    def _one(self, element: Element) -> None:
        if isinstance(element, Line):
            self._space.add_line(self._xy(element.start), self._xy(element.end),
                                 dxfattribs=self._look(element.layer, dashed=element.dashed))  # fmt: skip
        elif isinstance(element, Polyline):
            points = [self._xy(point) for point in element.points]
            self._space.add_lwpolyline(points, close=element.closed,
                                       dxfattribs=self._look(element.layer, dashed=element.dashed))  # fmt: skip
        elif isinstance(element, Circle):
            self._space.add_circle(self._xy(element.centre), element.radius * self._unit,
                                   dxfattribs=self._look(element.layer, dashed=element.dashed))  # fmt: skip
        elif isinstance(element, Arc):
            self._space.add_arc(self._xy(element.centre), element.radius * self._unit, math.degrees(element.start),
                                math.degrees(element.end), dxfattribs=self._look(element.layer))  # fmt: skip
        elif isinstance(element, Text):
            self._text(element)
        elif isinstance(element, Dimension):
            self._dimension(element)

    def _fill(self, element: Hatch) -> None:
        from ezdxf.colors import RGB

        if element.tone:
            fill = self._space.add_hatch(dxfattribs={"layer": "fills"})
            fill.set_solid_fill(rgb=RGB(*_rgb(TONES[element.tone])))
            for outline in (element.outline, *element.holes):
                fill.paths.add_polyline_path([self._xy(point) for point in outline], is_closed=True)
        if element.lines:
            lines = self._space.add_hatch(dxfattribs={"layer": "fills"})
            spacing = 2.2 * self._scale * self._unit / 1000.0
            step = spacing / math.sqrt(2.0)
            lines.set_pattern_fill("SLANTED", definition=[[45.0, (0.0, 0.0), (-step, step), []]])
            lines.rgb = _rgb(LAYERS["fills"].colour)
            lines.paths.add_polyline_path([self._xy(point) for point in element.outline], is_closed=True)

    def _text(self, element: Text) -> None:
        shift = self._scale * self._unit
        x, y = self._xy(element.at)
        self._letters(
            (x + element.shift[0] * shift, y + element.shift[1] * shift),
            element.text,
            element.size * shift,
            _ALIGN[element.across, element.upward],
            element.angle,
            element.layer,
        )

    def _letters(self, at: Point, text: str, size: float, align: str, angle: float, layer: str) -> None:
        from ezdxf.enums import TextEntityAlignment

        written = self._space.add_text(
            plain(text), height=size * _CAPITAL, rotation=math.degrees(angle),
            dxfattribs={"layer": layer, "style": _STYLE},
        )  # fmt: skip
        written.set_placement(at, align=TextEntityAlignment[align])

    def _dimension(self, element: Dimension) -> None:
        a, b = self._xy(element.start), self._xy(element.end)
        away = element.offset * self._scale * self._unit
        look = {"layer": element.layer}
        if element.axis == "along":
            made = self._space.add_aligned_dim(a, b, distance=away, dimstyle=_DIMENSIONS, dxfattribs=look)
        else:
            level = element.level * self._unit + away
            base, angle = ((a[0], level), 0.0) if element.axis == "x" else ((level, a[1]), 90.0)
            made = self._space.add_linear_dim(base, a, b, angle=angle, dimstyle=_DIMENSIONS, dxfattribs=look)
        made.render()

    def _write_balloons(self) -> None:
        """Rings where they stand on paper at this scale."""
        back = self._scale * self._unit / 1000.0
        for mark in on_paper(self._balloons, self._scale, self._system):
            if isinstance(mark, Stroke):
                self._space.add_lwpolyline([(x * back, y * back) for x, y in mark.points],
                                           dxfattribs={"layer": mark.layer})  # fmt: skip
            elif isinstance(mark, Ring):
                self._space.add_circle((mark.centre[0] * back, mark.centre[1] * back), mark.radius * back,
                                       dxfattribs={"layer": mark.layer})  # fmt: skip
            elif isinstance(mark, Letters):
                self._letters((mark.at[0] * back, mark.at[1] * back), mark.text, mark.size * back, "MIDDLE_CENTER",
                              0.0, mark.layer)  # fmt: skip


def plain(text: str) -> str:
    r"""Text of one line in which nothing is a control code of the format.

    Examples
    --------
    >>> plain("50 %%d wide"), plain("a\nb ^J c")
    ('50 % %d wide', 'a b ^ J c')
    """
    single = "".join(each if each.isprintable() else " " for each in text)
    while "%%" in single:
        single = single.replace("%%", "% %")
    return single.replace("^", "^ ")
