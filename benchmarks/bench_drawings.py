"""All drawings of the demo in every format; the aim is five seconds for all of them together.

Run with ``python3 start.py bench drawings``. Times are processor times of this process on the machine at hand, imports
of the drawing packages included in the first round.
"""

import time
from pathlib import Path

from hushwright.document.read import read_document
from hushwright.drawings.dxf import dxf
from hushwright.drawings.every_sheet import every_sheet
from hushwright.drawings.paper import fitted, paper_named
from hushwright.drawings.part_sheets import part_alone
from hushwright.drawings.parts import parts_of
from hushwright.drawings.scene import gltf
from hushwright.drawings.sheets import sheets_pdf
from hushwright.drawings.svg import svg
from hushwright.library.read import read_library
from hushwright.model.build import Build
from hushwright.model.resolve import resolve

AIM = 5.0  # s
DEMO = Path(__file__).resolve().parents[1] / "examples" / "archive-van.yaml"


def demo() -> Build:
    document, _ = read_document(str(DEMO))
    assert document is not None
    build, _ = resolve(document, read_library())
    assert build is not None
    return build


def one_round(build: Build) -> tuple[tuple[str, float], ...]:
    """Processor time of each step [s]."""
    paper, times, begun = paper_named("A3"), [], time.process_time()

    def took(what: str) -> None:
        nonlocal begun
        now = time.process_time()
        times.append((what, now - begun))
        begun = now

    sheets = every_sheet(build, paper)
    took(f"{len(sheets)} sheets as primitives")
    pdf = sheets_pdf(sheets, build, paper)
    took(f"PDF, {len(pdf) // 1000} kB")
    drawn = [sheet for sheet in sheets if sheet.drawing is not None]
    scales = {sheet.name: sheet.scale or fitted(sheet.drawing, paper).scale for sheet in drawn if sheet.drawing}
    for sheet in drawn:
        assert sheet.drawing is not None
        svg(sheet.drawing, scales[sheet.name])
    took(f"{len(drawn)} SVG")
    views = [sheet for sheet in drawn if not sheet.name.startswith("parts-")]
    parts = parts_of(build)
    for sheet in views:
        assert sheet.drawing is not None
        dxf(sheet.drawing, scales[sheet.name])
    for part in parts:
        dxf(part_alone(part))
    took(f"{len(views)} + {len(parts)} DXF")
    scene = gltf(build)
    took(f"glTF, {len(scene) // 1000} kB")
    return tuple(times)


def main() -> None:
    build = demo()
    for word in ("first round, with imports", "second round"):
        times = one_round(build)
        total = sum(seconds for _, seconds in times)
        print(f"{word}: {total:.2f} s of {AIM:.0f} s")
        for what, seconds in times:
            print(f"  {what:<28}{seconds:8.2f} s")


if __name__ == "__main__":
    main()
