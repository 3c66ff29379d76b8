"""Paper, and the scale at which a drawing fits on it."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.drawings.marks import Mark, extent
from hushwright.drawings.numbers import scales_of
from hushwright.drawings.on_paper import on_paper
from hushwright.drawings.primitives import Drawing, bare_size
from hushwright.errors import InvalidInput
from hushwright.units import System


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet lying on its long side [mm]."""

    name: str
    width: float
    height: float


PAPERS: dict[str, Paper] = {
    "A4": Paper("A4", 297.0, 210.0),
    "A3": Paper("A3", 420.0, 297.0),
    "Letter": Paper("Letter", 279.4, 215.9),
    "Tabloid": Paper("Tabloid", 431.8, 279.4),
}
"""ISO 216, and ANSI/ASME Y14.1 sizes A and B."""

MARGIN, TITLE_HEIGHT, KEY_WIDTH, GAP = 10.0, 15.0, 54.0, 5.0  # mm


def paper_named(name: str) -> Paper:
    """Paper by its name, whatever the case of its letters.

    Raises
    ------
    InvalidInput
        If there is none of that name.

    Examples
    --------
    >>> paper_named("a3").width
    420.0
    """
    found = next((paper for paper in PAPERS.values() if paper.name.lower() == name.lower()), None)
    if found is None:
        raise InvalidInput(f"no paper is called {name!r}; there are {', '.join(PAPERS)}")
    return found


@dataclass(frozen=True, slots=True)
class Placed:
    """A drawing at its scale: marks [mm], their extent, and the scale."""

    marks: tuple[Mark, ...]
    left: float
    bottom: float
    right: float
    top: float
    scale: float

    @property
    def width(self) -> float:
        """Width on paper [mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height on paper [mm]."""
        return self.top - self.bottom


def placed(drawing: Drawing, scale: float, system: System) -> Placed:
    """A drawing at one scale."""
    marks = on_paper(drawing, scale, system)
    return Placed(marks, *extent(marks), scale)


def room_for_drawing(paper: Paper, *, with_key: bool) -> tuple[float, float]:
    """Width and height that a drawing may take [mm]."""
    width = paper.width - 2.0 * MARGIN - 2.0 * GAP - (KEY_WIDTH if with_key else 0.0)
    return width, paper.height - 2.0 * MARGIN - TITLE_HEIGHT - 2.0 * GAP


def fitted(drawing: Drawing, paper: Paper, system: System = "metric", *, with_key: bool | None = None) -> Placed:
    """A drawing at the largest scale in use at which it fits on a paper.

    Parameters
    ----------
    drawing : Drawing
        What to draw.
    paper : Paper
        Where to.
    system : {"metric", "us"}
        Units, and with them the scales in use.
    with_key : bool, optional
        Whether room is kept for a key; where the drawing has one, when left out.
    """
    keeps = bool(drawing.key or drawing.remarks) if with_key is None else with_key
    width, height = room_for_drawing(paper, with_key=keeps)
    scales = scales_of(system)
    wide, high = bare_size(drawing.elements)
    for scale in scales:
        if 1000.0 * wide / scale > width or 1000.0 * high / scale > height:
            continue  # no need to set what is already too large without its sizes and texts
        found = placed(drawing, scale, system)
        if found.width <= width and found.height <= height:
            return found
    return placed(drawing, scales[-1], system)
