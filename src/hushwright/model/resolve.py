"""Document + library → Build. Goes on past faulty nodes, so that all problems are seen at once."""

from __future__ import annotations

from collections.abc import Mapping

from hushwright.document.document import Document
from hushwright.document.schema import BuildFile
from hushwright.errors import Diagnostic
from hushwright.library.library import Library
from hushwright.model.brief import resolve_brief, resolve_states, resolve_tolerances
from hushwright.model.build import Build
from hushwright.model.gap import gap_edges
from hushwright.model.masses import resolve_masses
from hushwright.model.mounts import resolve_mounts
from hushwright.model.openings import resolve_openings
from hushwright.model.own_records import records_of
from hushwright.model.rooms import resolve_rooms
from hushwright.model.taking import Taker
from hushwright.model.vehicle import resolve_vehicle


def resolve(
    document: Document, library: Library, *, shifts: Mapping[str, float] | None = None
) -> tuple[Build | None, tuple[Diagnostic, ...]]:
    """Resolve a document to surfaces, layers, openings and masses, in SI metres.

    Parameters
    ----------
    document : Document
        The build file, read.
    library : Library
        Records it may name.
    shifts : mapping of path to amount, optional
        Inputs to move, in their own SI unit: the way sensitivities are found.

    Returns
    -------
    tuple of Build or None and diagnostics
        `None` when an error leaves no build; warnings do not.
    """
    root = document.root
    assert isinstance(root, BuildFile)
    taker = Taker(document, library.with_own_records(records_of(root.library)), shifts or {})
    brief = resolve_brief(taker, root)
    vehicle = resolve_vehicle(taker, root.vehicle)
    if vehicle is None:
        return None, tuple(taker.diagnostics)
    mounts = resolve_mounts(taker, root, vehicle)
    rooms = resolve_rooms(taker, root, vehicle, mounts)
    openings = resolve_openings(taker, root, vehicle, rooms)
    build = Build(
        title=root.title,
        file=document.file,
        brief=brief,
        vehicle=vehicle,
        rooms=rooms,
        openings=openings,
        mounts=mounts,
        gap_edges=gap_edges(next((room for room in rooms if room.purpose == "quiet"), None)),
        masses=resolve_masses(taker, root, rooms, openings),
        fans=tuple((fan.name, fan.runs_in) for fan in (root.air.fans if root.air is not None else ())),
        states=resolve_states(taker, root),
        tolerances=resolve_tolerances(taker, root),
        inputs=tuple(taker.inputs.values()),
        assumptions=tuple(taker.assumptions.values()),
        document=document,
        library=library,
    )
    failed = any(each.severity == "error" for each in taker.diagnostics)
    return None if failed else build, tuple(taker.diagnostics)
