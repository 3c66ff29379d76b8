"""Paths of a PDF page in millimetres from its lower left corner, read from the page's own content."""

from __future__ import annotations

import io
from typing import Any

from pypdf import PdfReader
from pypdf.generic import ContentStream

POINT = 25.4 / 72.0  # mm
Matrix = tuple[float, float, float, float, float, float]
Path = list[tuple[float, float]]


def reader(pdf: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(pdf))


def page_sizes(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of every page [mm]."""
    boxes = [page.mediabox for page in reader(pdf).pages]
    return [(float(box.width) * POINT, float(box.height) * POINT) for box in boxes]


def _after(new: Matrix, old: Matrix) -> Matrix:
    a, b, c, d, e, f = new
    A, B, C, D, E, F = old
    return (a * A + b * C, a * B + b * D, c * A + d * C, c * B + d * D, e * A + f * C + E, e * B + f * D + F)


def paths(pdf: bytes, page: int = 0) -> list[Path]:
    """Every path that is stroked or filled; of curves the ends and control points."""
    source = reader(pdf)
    content = ContentStream(source.pages[page].get_contents(), source)
    matrix: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    stack: list[Matrix] = []
    found: list[Path] = []
    path: Path = []

    def at(x: Any, y: Any) -> tuple[float, float]:
        a, b, c, d, e, f = matrix
        return ((a * float(x) + c * float(y) + e) * POINT, (b * float(x) + d * float(y) + f) * POINT)

    for operands, operator in content.operations:
        if operator == b"q":
            stack.append(matrix)
        elif operator == b"Q":
            matrix = stack.pop()
        elif operator == b"cm":
            matrix = _after(tuple(float(each) for each in operands), matrix)  # type: ignore[arg-type]
        elif operator == b"m":
            if path:
                found.append(path)
            path = [at(*operands)]
        elif operator == b"l":
            path.append(at(*operands))
        elif operator == b"c":
            path += [at(*operands[index : index + 2]) for index in (0, 2, 4)]
        elif operator == b"re":
            x, y, w, h = (float(each) for each in operands)
            found.append([at(x, y), at(x + w, y), at(x + w, y + h), at(x, y + h)])
        elif operator in (b"S", b"s", b"f", b"f*", b"B", b"B*", b"b", b"b*", b"n", b"F"):
            if path:
                found.append(path)
            path = []
    return found


def size(path: Path) -> tuple[float, float]:
    """Width and height of a path [mm]."""
    xs, ys = zip(*path, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)
