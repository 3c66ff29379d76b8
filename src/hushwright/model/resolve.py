"""Document + library → Build. Goes on past faulty nodes, so that all problems are seen at once."""

from __future__ import annotations

from collections.abc import Mapping

from hushwright.document.document import Document
from hushwright.errors import Diagnostic
from hushwright.library.library import Library
from hushwright.model.air import resolve_air
from hushwright.model.anchoring import resolve_anchoring
from hushwright.model.brief import resolve_brief
from hushwright.model.build import Build, Room
from hushwright.model.climate import resolve_climate
from hushwright.model.costs import resolve_costs
from hushwright.model.cuts import resolve_cuts, resolve_doors
from hushwright.model.defaults import note_defaults
from hushwright.model.drawn import resolve_drawn
from hushwright.model.gap import gap_edges
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
from hushwright.model.taking import Taker
from hushwright.model.use import resolve_use
from hushwright.model.vehicle import resolve_vehicle
from hushwright.model.venue import resolve_papers, resolve_venues
from hushwright.model.wiring import resolve_wiring


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
        Inputs to move, in their own SI unit: the way sensitivities are found. What then no longer fits by a little is
        not noted.

    Returns
    -------
    tuple of Build or None and diagnostics
        `None` when an error leaves no build; warnings do not.
    """
    root = document.root
    taker = Taker(document, library, shifts or {})
    check_names(taker, root)
    taker.library = library_with(taker, root.library)
    brief = resolve_brief(taker, root)
    states = resolve_states(taker, root)
    air = resolve_air(taker, root, states)
    vehicle = resolve_vehicle(taker, root.vehicle)
    if vehicle is None:
        return None, _in_file_order(taker)
    extents = extents_of(taker, root.rooms, vehicle)
    mounts = resolve_mounts(taker, root, extents, vehicle)
    rooms = resolve_rooms(taker, root, extents, vehicle, mounts)
    openings = resolve_openings(taker, root, vehicle, rooms)
    routes = resolve_routes(taker, root, rooms, openings, air)
    rooms = tied_by_routes(rooms, routes)
    masses = resolve_masses(taker, root, rooms, openings)
    tolerances = resolve_tolerances(taker, root)
    mass_basis = resolve_mass_basis(taker, root, vehicle)
    anchoring = resolve_anchoring(taker, root, masses)
    cuts, doors = resolve_cuts(taker, root, vehicle), resolve_doors(taker, root, openings)
    climate = resolve_climate(taker, root, states, rooms, openings)
    power = resolve_power(taker, root, states, air, climate, vehicle, cuts)
    wiring = resolve_wiring(taker, root, vehicle, openings, routes, air, climate, power)
    safety = resolve_safety(taker, root, rooms, openings, masses, cuts, vehicle)
    venues, papers = resolve_venues(taker, root), resolve_papers(taker, root)
    costs = resolve_costs(taker, root)
    signals = resolve_signals(taker, root, states, openings, cuts, routes)
    rooms = tied_by_lines(rooms, signals)
    use = resolve_use(taker, root, openings, rooms)
    if not taker.shifts:  # a moved input leaves out nothing new
        note_defaults(taker)
    if any(each.severity == "error" for each in taker.diagnostics):
        return None, _in_file_order(taker)
    build = Build(
        title=root.title, file=document.file, brief=brief, vehicle=vehicle, rooms=rooms, openings=openings,
        mounts=mounts, gap_edges=gap_edges(_quiet(rooms)), masses=masses, air=air, states=states,
        tolerances=tolerances, inputs=tuple(taker.inputs.values()), assumptions=tuple(taker.assumptions.values()),
        document=document, library=library, mass_basis=mass_basis, anchoring=anchoring, cuts=cuts, doors=doors,
        climate=climate, power=power, safety=safety, venues=venues, papers=papers,
        drawn=resolve_drawn(taker, root, rooms, vehicle), costs=costs, routes=routes, wiring=wiring, signals=signals,
        use=use,
    )  # fmt: skip
    return build, _in_file_order(taker)


def _in_file_order(taker: Taker) -> tuple[Diagnostic, ...]:
    """Each problem once, by line; faces that share a build-up share its problems."""
    return tuple(sorted(dict.fromkeys(taker.diagnostics), key=lambda each: each.place.line))


def _quiet(rooms: tuple[Room, ...]) -> Room | None:
    return next((room for room in rooms if room.purpose == "quiet"), None)
