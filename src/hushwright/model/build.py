"""The Build: what is there, in SI metres, and how it lies. It says nothing about how it behaves.

Axes after ISO 8855: x forward from the B-pillar line, y left, z up from the steel floor; stations run rearward,
x = −station.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from hushwright.document.document import Document
from hushwright.library.library import Library
from hushwright.model.air_in_place import AirInPlace
from hushwright.model.anchoring_in_place import Anchoring
from hushwright.model.climate_in_place import ClimateInPlace
from hushwright.model.costs_in_place import EMPTY_COSTS, Costs
from hushwright.model.cuts_in_place import CutInPlace, DoorInPlace
from hushwright.model.drawn_in_place import NOTHING_DRAWN, DrawnInPlace
from hushwright.model.faces import (
    BODIES,
    FACES,
    BridgeInPlace,
    CavityInPlace,
    FrameInPlace,
    LayerInPlace,
    LayerRecord,
    Ribs,
    Room,
    Surface,
    TreatmentInPlace,
    hash_once,
)
from hushwright.model.mass_in_place import MassBasis
from hushwright.model.parts import (
    AxleMasses,
    GapEdge,
    MassItem,
    MountSet,
    OpeningInPlace,
    SealInPlace,
    VehicleInPlace,
)
from hushwright.model.power_in_place import PowerInPlace
from hushwright.model.routes_in_place import RouteInPlace
from hushwright.model.safety_in_place import PaperInPlace, SafetyInPlace, VenueInPlace
from hushwright.model.signals_in_place import SignalsInPlace
from hushwright.model.use_in_place import NO_USE, UseInPlace
from hushwright.model.wiring_in_place import WiringInPlace
from hushwright.model.wishes import (
    Assumption,
    BriefInPlace,
    Input,
    Situation,
    StateOfUse,
    Target,
    ToleranceSet,
)

if TYPE_CHECKING:
    from hushwright.model.steps import Step

__all__ = [
    "Assumption",
    "AxleMasses",
    "BODIES",
    "BridgeInPlace",
    "BriefInPlace",
    "Build",
    "CavityInPlace",
    "FACES",
    "FrameInPlace",
    "GapEdge",
    "Input",
    "LayerInPlace",
    "LayerRecord",
    "MassItem",
    "MountSet",
    "OpeningInPlace",
    "Ribs",
    "Room",
    "SealInPlace",
    "Situation",
    "StateOfUse",
    "Surface",
    "Target",
    "ToleranceSet",
    "TreatmentInPlace",
    "VehicleInPlace",
    "hash_once",
]


@dataclass(frozen=True, slots=True, eq=False)
class Build:
    """A document joined with the library, resolved to surfaces, openings, masses."""

    title: str
    file: str
    brief: BriefInPlace
    vehicle: VehicleInPlace
    rooms: tuple[Room, ...]
    openings: tuple[OpeningInPlace, ...]
    mounts: tuple[MountSet, ...]
    gap_edges: tuple[GapEdge, ...]
    masses: tuple[MassItem, ...]
    air: AirInPlace
    states: tuple[StateOfUse, ...]
    tolerances: ToleranceSet
    inputs: tuple[Input, ...]
    assumptions: tuple[Assumption, ...]
    document: Document = field(repr=False)
    library: Library = field(repr=False)
    mass_basis: MassBasis
    anchoring: Anchoring
    cuts: tuple[CutInPlace, ...] = ()
    doors: tuple[DoorInPlace, ...] = ()
    use: UseInPlace = NO_USE
    climate: ClimateInPlace | None = None
    power: PowerInPlace | None = None
    safety: SafetyInPlace | None = None
    venues: tuple[VenueInPlace, ...] = ()
    papers: tuple[PaperInPlace, ...] = ()
    drawn: DrawnInPlace = NOTHING_DRAWN
    costs: Costs = EMPTY_COSTS
    routes: tuple[RouteInPlace, ...] = ()
    wiring: WiringInPlace | None = None
    signals: SignalsInPlace | None = None
    steps: Mapping[str, Step] = field(default_factory=dict, repr=False)  # how it was resolved, for moved inputs

    @property
    def centre_of_masses(self) -> tuple[float, float, float] | None:
        """Station, y and height [m] of the centre of all that the conversion adds, `None` where it adds nothing."""
        total = sum(item.mass for item in self.masses)
        if total <= 0.0:
            return None
        return (
            sum(item.mass * item.station for item in self.masses) / total,
            sum(item.mass * item.y for item in self.masses) / total,
            sum(item.mass * item.z for item in self.masses) / total,
        )

    def aboard(self, state: StateOfUse) -> tuple[MassItem, ...]:
        """Everything of the conversion that is aboard in a state, where it is then."""
        full = dict(state.full)
        found = []
        for item in self.masses:
            if item.fitting and item.fitting in state.unloaded:
                continue
            if item.out is not None and item.fitting in state.out:
                station, y, z = item.out
                item = replace(item, station=station, y=y, z=z)
            if item.liquid and item.fitting in full:
                item = replace(item, mass=item.mass * full[item.fitting])
            found.append(item)
        return tuple(found)

    def room_for(self, purpose: str) -> Room | None:
        """First room with a purpose."""
        return next((room for room in self.rooms if room.purpose == purpose), None)
