"""Cuts of the vehicle: a list with two datums for each, and every face with its cuts measured from both."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.drawings.elevations import cut_outline, cuts_of, members
from hushwright.drawings.geometry import spoken
from hushwright.drawings.numbers import length_text
from hushwright.drawings.primitives import (
    FIRST_ROW,
    NORMAL,
    Drawing,
    Element,
    Hatch,
    Line,
    Point,
    Polyline,
    Text,
    box,
    chain,
)
from hushwright.drawings.sheets import Table
from hushwright.model.build import Build
from hushwright.model.cuts_in_place import CutInPlace
from hushwright.units import System


@dataclass(frozen=True, slots=True)
class Datums:
    """The two lines from which a cut is measured, and its distance from each [m]."""

    along: str
    up: str
    along_distance: float
    up_distance: float


def datums_of(cut: CutInPlace) -> Datums:
    """Two datums of a cut: on sides and level faces the B-pillar line, on ends the centre line.

    Examples
    --------
    >>> cut = CutInPlace("inlet", "left", 1.4, 0.3, 0.08, 0.09, False, None, (), (), "none", True, "cuts.inlet")
    >>> datums_of(cut).along, datums_of(cut).up
    ('behind the B-pillar line', 'over the steel floor')
    """
    if cut.face in ("front", "rear"):
        side = "left" if cut.along >= 0.0 else "right"
        return Datums(f"{side} of the centre line", "over the steel floor", abs(cut.along), cut.up)
    way = "behind" if cut.along >= 0.0 else "before"
    if cut.face in ("roof", "floor"):
        side = "left" if cut.up >= 0.0 else "right"
        return Datums(f"{way} the B-pillar line", f"{side} of the centre line", abs(cut.along), abs(cut.up))
    return Datums(f"{way} the B-pillar line", "over the steel floor", abs(cut.along), cut.up)


def cut_list(build: Build, system: System) -> Table:
    """All cuts of the vehicle: size, datums, what strengthens and seals them, what is still to be looked for."""
    rows = [("cut", "face", "size", "first datum", "second datum", "reinforcement", "behind it", "still to look for")]
    for cut in build.cuts:
        datums = datums_of(cut)
        rows.append((
            spoken(cut.name), cut.face, size_of(cut, system),
            f"{length_text(datums.along_distance, system)} {datums.along}",
            f"{length_text(datums.up_distance, system)} {datums.up}",
            cut.reinforcement + ("" if cut.sealed else ", not sealed"),
            ", ".join(cut.behind) or "nothing told", ", ".join(cut.not_looked_for) or "nothing",
        ))  # fmt: skip
    return Table("Cuts of the vehicle", tuple(rows), (1.2, 0.6, 1.1, 1.9, 1.9, 1.1, 1.1, 1.5))


def cuts_on_face(build: Build, face: str, system: System = "metric") -> Drawing:
    """One face of the vehicle from outside with its cuts, each measured from both datums.

    Parameters
    ----------
    build : Build
        The build.
    face : str
        ``left``, ``right``, ``roof``, ``floor``, ``front`` or ``rear``.
    system : {"metric", "us"}
        Units of the sizes in the key.

    Returns
    -------
    Drawing
        x runs rearward as one looks at the face, reversed on the right side and under the floor; on the ends it runs
        across the van.
    """
    way = -1.0 if face in ("right", "floor", "rear") else 1.0
    low, high = _extent(build, face, way)
    up = -1.0 if face in ("roof", "floor") else 1.0  # as one looks at them, left of the van lies below
    found: list[Element] = [Hatch(box(low, high), "body", "vehicle", "room"),
                            Polyline(box(low, high), "body", "vehicle", closed=True)]  # fmt: skip
    if face in ("left", "right", "roof"):
        found += [Line((way * station, low[1]), (way * station, high[1]), "hidden", "vehicle")
                  for station in members(build, "roof" if face == "roof" else "left")]  # fmt: skip
    cuts = cuts_of(build, face)
    for number, cut in enumerate(cuts, 1):
        place = (way * cut.along, up * cut.up)
        found += cut_outline(cut, place)
        found.append(Text((place[0], place[1] + cut.height / 2.0), str(number), "cuts", cut.name, NORMAL,
                          upward="bottom", shift=(0.0, 0.002), bold=True))  # fmt: skip
    found += chain((0.0, *(way * cut.along for cut in cuts)), "x", low[1], -FIRST_ROW)
    found += chain((0.0, *(up * cut.up for cut in cuts)), "y", low[0], -FIRST_ROW)
    found += [Line((0.0, low[1]), (0.0, high[1]), "datums"), Line((low[0], 0.0), (high[0], 0.0), "datums")]
    key = tuple((str(number), f"{spoken(cut.name)}: {size_of(cut, system)}, {_strengthened(cut)}")
                for number, cut in enumerate(cuts, 1))  # fmt: skip
    return Drawing(f"cuts-{face}", f"Cuts, {face}", "seen from outside; red lines are the datums", tuple(found), key)


def _strengthened(cut: CutInPlace) -> str:
    return "no reinforcement" if cut.reinforcement == "none" else f"reinforced by a {cut.reinforcement}"


def _extent(build: Build, face: str, way: float) -> tuple[Point, Point]:
    """Lower left and upper right corner of a face as one looks at it."""
    vehicle = build.vehicle
    half, end = vehicle.section.floor_width / 2.0, way * vehicle.load_length
    if face in ("front", "rear"):
        return (-half, 0.0), (half, vehicle.floor_to_bow)
    if face in ("roof", "floor"):
        return (min(0.0, end), -half), (max(0.0, end), half)
    return (min(0.0, end), 0.0), (max(0.0, end), vehicle.floor_to_bow)


def size_of(cut: CutInPlace, system: System) -> str:
    """Size of a cut in words."""
    if cut.round:
        return f"dia. {length_text(cut.width, system)}"
    return f"{length_text(cut.width, system)} × {length_text(cut.height, system)}"
