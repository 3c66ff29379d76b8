"""All that heat and moisture of a Build depend on, as one value that can be remembered."""

from __future__ import annotations

from dataclasses import dataclass, field

from hushwright.evaluation.air.flow import Flows, flows_in
from hushwright.evaluation.results.air import AirResults, RoomAir
from hushwright.model.air_in_place import AirInPlace
from hushwright.model.build import Build, OpeningInPlace, Room, StateOfUse, VehicleInPlace
from hushwright.model.climate_in_place import ClimateInPlace
from hushwright.model.faces import hash_once


@dataclass(frozen=True, slots=True)
class Heated:
    """Climate, rooms with their openings, who is where, what flows, and the air in which people give off moisture."""

    climate: ClimateInPlace
    rooms: tuple[Room, ...]
    openings: tuple[OpeningInPlace, ...]
    vehicle: VehicleInPlace
    air: AirInPlace
    states: tuple[StateOfUse, ...]
    flows: tuple[Flows, ...]  # of the states, in their order
    moist: tuple[RoomAir, ...]  # rooms in the first take
    temperature: float
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)


def heated(build: Build, air: AirResults) -> Heated | None:
    """What heat depends on; `None` where the file has no climate or no room."""
    if build.climate is None or not build.rooms:
        return None
    takes = next((state.name for state in build.states if state.takes), build.states[0].name)
    breathed = air.state(takes)
    return Heated(
        build.climate, build.rooms, build.openings, build.vehicle, build.air, build.states,
        tuple(flows_in(build, state) for state in build.states), breathed.rooms if breathed is not None else (),
        build.brief.air_temperature,
    )  # fmt: skip
