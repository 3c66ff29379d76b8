"""``hushwright draw``: drawings of a build on paper, for the screen, for a cutter, and in three dimensions."""

from __future__ import annotations

from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hushwright.cli.options import FileArgument, Units, UnitsOption, refuse
from hushwright.cli.output import say
from hushwright.cli.writing import check_folder, make_folder, write_bytes

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from hushwright.drawings.paper import Paper
    from hushwright.drawings.sheets import Sheet
    from hushwright.model.build import Build
    from hushwright.units import System


class Format(Enum):
    """What drawings are written as."""

    PDF = "pdf"
    SVG = "svg"
    DXF = "dxf"
    GLTF = "gltf"


def draw(
    file: FileArgument,
    out: Annotated[
        str, typer.Option("--out", metavar="FOLDER", help="Folder for the files; made if it is not there.")
    ] = "drawings",
    sheet: Annotated[
        list[str] | None,
        typer.Option("--sheet", metavar="NAME", help="Draw one sheet only, again for more: plan, section, parts, …"),
    ] = None,
    paper: Annotated[str, typer.Option("--paper", help="A4, A3, Letter or Tabloid.")] = "A3",
    form: Annotated[Format, typer.Option("--format", help="What to write.")] = Format.PDF,
    units: UnitsOption = Units.METRIC,
) -> None:
    """Draw a build: views, build-ups, doors and windows, services, alarms and ways out, cuts, parts, plates.

    PDF holds all sheets, true to scale on the paper; SVG is one file for each drawing; DXF one for each drawing and
    for each sheet part, true to size in millimetres or inches; glTF is the whole in three dimensions.

    Exit code 0 when everything is written, 2 when the file cannot be read or the call is wrong.
    """
    from hushwright.cli.options import tell_remarks
    from hushwright.cli.reading import read_build
    from hushwright.drawings.every_sheet import every_sheet, named
    from hushwright.drawings.paper import paper_named
    from hushwright.errors import InvalidInput

    check_folder(Path(out))
    build, remarks = read_build(file)
    tell_remarks(remarks)
    try:
        on = paper_named(paper)
        sheets = every_sheet(build, on, units.system)
        sheets = named(sheets, tuple(sheet)) if sheet else sheets
    except InvalidInput as problem:
        refuse(f"{problem}.")
    _write_all(out, _files(form, build, sheets, on, units.system))


def _files(
    form: Format, build: Build, sheets: Sequence[Sheet], paper: Paper, system: System
) -> Iterator[tuple[str, bytes]]:
    """Names and contents of the files of one format."""
    if form is Format.PDF:
        from hushwright.drawings.sheets import sheets_pdf

        yield "drawings.pdf", sheets_pdf(sheets, build, paper, system)
    elif form is Format.GLTF:
        from hushwright.drawings.scene import gltf

        yield "scene.glb", gltf(build)
    elif form is Format.SVG:
        from hushwright.drawings.svg import svg

        for one in sheets:
            if one.drawing is not None:
                yield f"{one.name}.svg", svg(one.drawing, _scale(one, paper, system), system).encode()
    else:
        yield from _dxf_files(build, sheets, paper, system)


def _dxf_files(build: Build, sheets: Sequence[Sheet], paper: Paper, system: System) -> Iterator[tuple[str, bytes]]:
    """Views as they are; of the parts one file each instead of their sheets."""
    from hushwright.drawings.dxf import dxf

    for one in sheets:
        if one.drawing is not None and not one.name.startswith("parts-"):
            yield f"{one.name}.dxf", dxf(one.drawing, _scale(one, paper, system), system)
    if any(one.name.startswith("parts-") for one in sheets):
        from hushwright.drawings.part_sheets import part_alone
        from hushwright.drawings.parts import parts_of

        pages = [one.drawing for one in sheets if one.drawing is not None and one.name.startswith("parts-")]
        shown = {element.part for page in pages for element in page.elements}
        for part in parts_of(build):
            if part.code in shown:
                alone = part_alone(part)
                yield f"{alone.name}.dxf", dxf(alone, 10.0, system)


def _scale(sheet: Sheet, paper: Paper, system: System) -> float:
    from hushwright.drawings.paper import fitted

    assert sheet.drawing is not None
    return sheet.scale or fitted(sheet.drawing, paper, system).scale


def _write_all(folder: str, files: Iterator[tuple[str, bytes]]) -> None:
    """Write the files under names that cannot leave the folder; two that would be one get a number."""
    written: list[str] = []
    make_folder(Path(folder))
    for name, content in files:
        plain = file_name(name, written)
        write_bytes(Path(folder) / plain, content)
        written.append(plain)
    say("\n".join(f"Written: {Path(folder) / name}" for name in written) or "Nothing of this has a drawing.")


def file_name(name: str, taken: Sequence[str] = ()) -> str:
    """Name of a sheet as a file name of plain characters, no other file's.

    Examples
    --------
    >>> file_name("template-../öl.dxf"), file_name("plan.svg", ["plan.svg"])
    ('template-l.dxf', 'plan-2.svg')
    """
    stem, _, ending = name.rpartition(".")
    kept = "".join(each if each.isascii() and (each.isalnum() or each in "-_") else "" for each in stem).strip("-")
    kept = kept[:80] or "sheet"
    number, found = 1, f"{kept}.{ending}"
    while found.lower() in {each.lower() for each in taken}:
        number += 1
        found = f"{kept}-{number}.{ending}"
    return found
