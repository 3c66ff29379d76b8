"""Every sheet of a build, by name and in order."""

from __future__ import annotations

from hushwright.drawings.air_runs import air_runs
from hushwright.drawings.battens import batten_sheets
from hushwright.drawings.build_ups import CELL, DETAIL_SCALE, build_ups, details_of
from hushwright.drawings.cut_sheets import cut_list, cuts_on_face
from hushwright.drawings.electrical import circuit_schedule, routes, signal_schedule
from hushwright.drawings.elevations import side
from hushwright.drawings.geometry import room_holding
from hushwright.drawings.heights import heights_told
from hushwright.drawings.levels import ceiling, floor
from hushwright.drawings.openings import openings_drawn
from hushwright.drawings.paper import Paper, fitted, room_for_drawing
from hushwright.drawings.part_sheets import part_drawings, part_list
from hushwright.drawings.parts import parts_of
from hushwright.drawings.plan import plan
from hushwright.drawings.plate_sheets import plate_sheets
from hushwright.drawings.plates import plates_of
from hushwright.drawings.primitives import Drawing
from hushwright.drawings.rolls import roll_sheets
from hushwright.drawings.sections import section
from hushwright.drawings.sheets import Sheet
from hushwright.drawings.single_lines import single_lines
from hushwright.drawings.templates import template_sheets
from hushwright.drawings.ways_out import safety
from hushwright.errors import InvalidInput
from hushwright.evaluation.power.chargers import with_chargers
from hushwright.evaluation.wiring.wiring import wiring_of
from hushwright.model.build import Build
from hushwright.units import System


def every_sheet(build: Build, paper: Paper, system: System = "metric") -> tuple[Sheet, ...]:
    """All sheets: views first, then services, safety, cuts with their templates, and parts.

    Parameters
    ----------
    build : Build
        The build.
    paper : Paper
        Paper on which they are to fit.
    system : {"metric", "us"}
        Units.

    Returns
    -------
    tuple of Sheet
        Each with a name of its own; what the build does not have has no sheet.
    """
    return (*_views(build, paper, system), *_services(build, paper, system), *_safety(build, paper, system),
            *_cuts(build, paper, system), *_parts(build, paper, system))  # fmt: skip


def named(sheets: tuple[Sheet, ...], names: tuple[str, ...]) -> tuple[Sheet, ...]:
    """Sheets by their names; the first word of a family (`section`, `template`, `parts`) takes all of it.

    Raises
    ------
    InvalidInput
        If no sheet has a name.
    """
    found: list[Sheet] = []
    for name in names:
        ours = [sheet for sheet in sheets if sheet.name == name or sheet.name.startswith(f"{name}-")]
        if not ours:
            raise InvalidInput(f"no sheet is called {name!r}; there are {', '.join(sheet.name for sheet in sheets)}")
        found += [sheet for sheet in ours if sheet not in found]
    return tuple(found)


def _views(build: Build, paper: Paper, system: System) -> tuple[Sheet, ...]:
    quiet = heights_told(build, build.room_for("quiet"), system)
    drawings: list[tuple[Drawing, tuple[str, ...]]] = [
        (plan(build, system=system), ()),
        (side(build, "left"), ()),
        (side(build, "right"), ()),
    ]
    drawings += [(section(build, name, station, system), heights_told(build, room_holding(build, station), system))
                 for name, station in build.drawn.sections]  # fmt: skip
    drawings += [(floor(build, system), quiet), (ceiling(build, system), ())]
    sheets = [Sheet(each.name, each.title, each, remarks=told) for each, told in drawings]
    width, height = (each / 1000.0 for each in room_for_drawing(paper, with_key=False))
    columns, rows = max(int(width / CELL[0]), 1), max(int(height / CELL[1]), 1)
    details = details_of(build)
    for number, first in enumerate(range(0, len(details), columns * rows), 1):
        each = build_ups(build, details[first : first + columns * rows], number, system, columns)
        sheets.append(Sheet(each.name, each.title, each, scale=DETAIL_SCALE))
    sheets += [Sheet(each.name, each.title, each) for each in openings_drawn(build, system)]
    return (*sheets, *batten_sheets(build, system), *roll_sheets(build, system))


def _services(build: Build, paper: Paper, system: System) -> tuple[Sheet, ...]:
    sheets: list[Sheet] = []
    if build.air.runs:
        sheets.append(Sheet("air", "Duct runs", air_runs(build, system)))
    if build.routes:
        sheets.append(Sheet("routes", "Routes", routes(build, system)))
    wiring = wiring_of(build, {})
    sheets += [Sheet(each.name, each.title, each, scale=1.0) for each in
               single_lines(with_chargers(wiring, build, linked=True), paper, system)]  # fmt: skip
    if wiring.circuits:
        sheets.append(Sheet("circuits", "Circuits", tables=(circuit_schedule(with_chargers(wiring, build), system),)))
    signals = signal_schedule(build, system)
    if len(signals.rows) > 1:
        sheets.append(Sheet("signals", "Signal lines", tables=(signals,)))
    return tuple(sheets)


def _safety(build: Build, paper: Paper, system: System) -> tuple[Sheet, ...]:
    """Drawn twice: names of rooms find their place at the scale that fits the paper."""
    rough = safety(build, system)
    drawn = None if rough is None else safety(build, system, fitted(rough, paper, system).scale)
    return () if drawn is None else (Sheet(drawn.name, drawn.title, drawn),)


def _cuts(build: Build, paper: Paper, system: System) -> tuple[Sheet, ...]:
    if not build.cuts:
        return ()
    faces = [cuts_on_face(build, face, system) for face in dict.fromkeys(cut.face for cut in build.cuts)]
    sheets = [Sheet("cuts", "Cuts", tables=(cut_list(build, system),))]
    sheets += [Sheet(each.name, each.title, each) for each in faces]
    return (*sheets, *template_sheets(build, paper, system))


def _parts(build: Build, paper: Paper, system: System) -> tuple[Sheet, ...]:
    parts = parts_of(build)
    if not parts:
        return ()
    pages = part_drawings(parts, paper, system)
    return (*(Sheet(each.name, each.title, each, scale=scale) for each, scale in pages),
            Sheet("part-list", "Sheet parts", tables=(part_list(parts, system),)),
            *plate_sheets(plates_of(build), system))  # fmt: skip
