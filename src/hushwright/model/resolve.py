"""Document + library → Build. Goes on past faulty nodes, so that all problems are seen at once."""

from __future__ import annotations

from collections.abc import Mapping

from hushwright.document.document import Document
from hushwright.errors import Diagnostic
from hushwright.library.library import Library
from hushwright.model.air import resolve_air
from hushwright.model.anchoring import resolve_anchoring
from hushwright.model.brief import resolve_brief
from hushwright.model.build import Build, GapEdge, Room
from hushwright.model.climate import resolve_climate
from hushwright.model.costs import resolve_costs
from hushwright.model.cuts import resolve_cuts, resolve_doors
from hushwright.model.defaults import note_defaults
from hushwright.model.drawn import resolve_drawn
from hushwright.model.gap import gap_edges
from hushwright.model.linings_over_doors import tell_linings_over_doors
from hushwright.model.mass_basis import resolve_mass_basis
from hushwright.model.masses import resolve_masses
from hushwright.model.mounts import resolve_mounts
from hushwright.model.names import check_names
from hushwright.model.openings import resolve_openings
from hushwright.model.own_records import library_with
from hushwright.model.power import resolve_power
from hushwright.model.rooms import resolve_rooms
from hushwright.model.routes import resolve_routes, tied_by_routes
from hushwright.model.safety import resolve_safety
from hushwright.model.signals import resolve_signals, tied_by_lines
from hushwright.model.states import resolve_states, resolve_tolerances
from hushwright.model.stations import extents_of
from hushwright.model.steps import Steps
from hushwright.model.taking import Taker
from hushwright.model.use import resolve_use
from hushwright.model.vehicle import resolve_vehicle
from hushwright.model.venue import resolve_papers, resolve_venues
from hushwright.model.wiring import resolve_wiring


def resolve(
    document: Document, library: Library, *, shifts: Mapping[str, float] | None = None, nominal: Build | None = None
) -> tuple[Build | None, tuple[Diagnostic, ...]]:
    """Resolve a document to surfaces, layers, openings and masses, in SI metres.

    Parameters
    ----------
    document : Document
        The build file, read.
    library : Library
        Records it may name.
    shifts : mapping of path to amount, optional
        Inputs to move, in their own SI unit: the way sensitivities are found. What then no longer fits by a little is
        not noted.
    nominal : Build, optional
        The same document resolved without shifts: steps that read nothing of what is shifted are taken from it.

    Returns
    -------
    tuple of Build or None and diagnostics
        `None` when an error leaves no build; warnings do not.
    """
    found, problems = _resolved(document, library, shifts, nominal)
    if found is not None or document.stand_in is None:
        return found, problems
    # What follows from a refused value changes, or is gone, where another value stands in its place.
    others = set(_resolved(document.stand_in, library, shifts, nominal)[1])
    return None, tuple(each for each in problems if each in others)


def _resolved(
    document: Document, library: Library, shifts: Mapping[str, float] | None, nominal: Build | None
) -> tuple[Build | None, tuple[Diagnostic, ...]]:
    root = document.root
    taker = Taker(document, library, shifts or {})
    steps = Steps(taker, nominal.steps if nominal is not None else {})
    take = steps.take
    take(check_names, root)
    taker.library = take(library_with, root.library)
    brief = take(resolve_brief, root)
    states = take(resolve_states, root)
    air = take(resolve_air, root, states)
    vehicle = take(resolve_vehicle, root.vehicle)
    if vehicle is None:
        return None, _in_file_order(taker)
    extents = take(extents_of, root.rooms, vehicle)
    mounts = take(resolve_mounts, root, extents, vehicle)
    rooms = take(resolve_rooms, root, extents, vehicle, mounts)
    openings = take(resolve_openings, root, vehicle, rooms)
    routes = take(resolve_routes, root, rooms, openings, air)
    rooms = steps.derive(tied_by_routes, rooms, routes)
    masses = take(resolve_masses, root, rooms, openings)
    tolerances = take(resolve_tolerances, root)
    mass_basis = take(resolve_mass_basis, root, vehicle)
    anchoring = take(resolve_anchoring, root, masses, mounts)
    cuts, doors = take(resolve_cuts, root, vehicle), take(resolve_doors, root, openings)
    climate = take(resolve_climate, root, states, rooms, openings)
    power = take(resolve_power, root, states, air, climate, vehicle, cuts)
    wiring = take(resolve_wiring, root, vehicle, openings, routes, air, climate, power)
    safety = take(resolve_safety, root, rooms, openings, masses, cuts, vehicle)
    venues, papers = take(resolve_venues, root), take(resolve_papers, root)
    costs = take(resolve_costs, root)
    signals = take(resolve_signals, root, states, openings, cuts, routes)
    rooms = steps.derive(tied_by_lines, rooms, signals)
    use = take(resolve_use, root, openings, rooms)
    if not taker.shifts:  # a moved input leaves out nothing new
        note_defaults(taker)
        tell_linings_over_doors(taker, openings, rooms)
    if any(each.severity == "error" for each in taker.diagnostics):
        return None, _in_file_order(taker)
    build = Build(
        title=root.title, file=document.file, brief=brief, vehicle=vehicle, rooms=rooms, openings=openings,
        mounts=mounts, gap_edges=steps.derive(_gap_edges, rooms), masses=masses, air=air, states=states,
        tolerances=tolerances, inputs=tuple(taker.inputs.values()), assumptions=tuple(taker.assumptions.values()),
        document=document, library=library, mass_basis=mass_basis, anchoring=anchoring, cuts=cuts, doors=doors,
        climate=climate, power=power, safety=safety, venues=venues, papers=papers,
        drawn=take(resolve_drawn, root, rooms, vehicle), costs=costs, routes=routes, wiring=wiring, signals=signals,
        use=use, steps=steps.taken,
    )  # fmt: skip
    return build, _in_file_order(taker)


def moved(build: Build, shifts: Mapping[str, float]) -> Build | None:
    """Resolve a build again with some inputs moved: only what reads them, or follows from what does.

    Parameters
    ----------
    build : Build
        As `resolve` gives it without shifts.
    shifts : mapping of path to amount
        Inputs to move, in their own SI unit.

    Returns
    -------
    Build or None
        What `resolve` gives for the document with these shifts; `None` when an error leaves no build.
    """
    found, _ = resolve(build.document, build.library, shifts=shifts, nominal=build)
    return found


def _gap_edges(rooms: tuple[Room, ...]) -> tuple[GapEdge, ...]:
    return gap_edges(_quiet(rooms))


def _in_file_order(taker: Taker) -> tuple[Diagnostic, ...]:
    """Each problem once, by line; faces that share a build-up share its problems."""
    return tuple(sorted(dict.fromkeys(taker.diagnostics), key=lambda each: each.place.line))


def _quiet(rooms: tuple[Room, ...]) -> Room | None:
    return next((room for room in rooms if room.purpose == "quiet"), None)
