"""Build → Evaluation: couples the domains once, then shifts each uncertain input and couples again."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hushwright.evaluation.absorption import room_field, room_sound
from hushwright.evaluation.between import at_neighbours, between_rooms
from hushwright.evaluation.faces import Setting, opening_partition, predict, surface_partition
from hushwright.evaluation.floor import Floating, floating_room, settled
from hushwright.evaluation.instruments import lets_through
from hushwright.evaluation.mass import masses_in
from hushwright.evaluation.quiet import background, rain_background
from hushwright.evaluation.results import (
    AtNeighbours,
    Background,
    BetweenRooms,
    Contribution,
    Evaluation,
    FacePrediction,
    MassResult,
    MountsResult,
    Quantity,
    Resonance,
    RoomSound,
    SpaceResult,
)
from hushwright.evaluation.sound import network_of, standing_in
from hushwright.evaluation.space import space_of
from hushwright.library.records import Limit
from hushwright.model.build import Build, StateOfUse
from hushwright.model.resolve import resolve
from hushwright.physics.acoustics.partition import Partition
from hushwright.physics.acoustics.ratings import rate
from hushwright.physics.air import Air


@dataclass(frozen=True, slots=True)
class Core:
    """Everything of an Evaluation but the shares of the inputs."""

    quantities: dict[str, Quantity]
    backgrounds: tuple[Background, ...]
    between_rooms: tuple[BetweenRooms, ...]
    neighbours: tuple[AtNeighbours, ...]
    space: tuple[SpaceResult, ...]
    mounts: tuple[MountsResult, ...]
    masses: tuple[MassResult, ...]


def evaluate(build: Build) -> Evaluation:
    """Compute every quantity with its uncertainty.

    Parameters
    ----------
    build : Build
        What is there.

    Returns
    -------
    Evaluation
        Quantities, ways of the sound, space, mounts, masses.
    """
    core = couple(build)
    quantities = with_contributions(build, core)
    air = Air(build.brief.air_temperature)
    setting = _setting(build, air)
    loaded = settled(build, floating_room(build, _first_take(build), air))
    faces, resonances = _faces(loaded, setting)
    return Evaluation(
        build, quantities, core.backgrounds, core.between_rooms, core.neighbours, faces, resonances,
        _rooms(build, setting), core.space, core.mounts, core.masses,
    )  # fmt: skip


def _setting(build: Build, air: Air) -> Setting:
    return Setting(air, build.brief.air_temperature, build.vehicle, build.library)


def _first_take(build: Build) -> StateOfUse:
    """State in which sound is judged first; any other where nothing is recorded."""
    takes = _take_states(build)
    return takes[0] if takes else build.states[0]


def _take_states(build: Build) -> tuple[StateOfUse, ...]:
    return tuple(state for state in build.states if state.takes)


def couple(build: Build) -> Core:
    """All quantities of one Build, without the shares of the inputs."""
    air = Air(build.brief.air_temperature)
    quantities: dict[str, Quantity] = {}
    floats = {state.name: floating_room(build, state, air) for state in build.states}
    backgrounds, between, neighbours = _sound(build, air, floats, quantities)
    mounts = tuple(each.result for each in floats.values() if each is not None)
    _mount_quantities(build, mounts, quantities)
    space = _space(build, floats, quantities)
    masses = tuple(masses_in(build, state) for state in build.states)
    _mass_quantities(build, masses, quantities)
    return Core(quantities, backgrounds, between, neighbours, space, mounts, masses)


def _sound(
    build: Build, air: Air, floats: dict[str, Floating | None], quantities: dict[str, Quantity]
) -> tuple[tuple[Background, ...], tuple[BetweenRooms, ...], tuple[AtNeighbours, ...]]:
    quiet = build.room_for("quiet")
    backgrounds: list[Background] = []
    between: list[BetweenRooms] = []
    neighbours: list[AtNeighbours] = []
    if quiet is None:
        return (), (), ()
    setting = _setting(build, air)
    for state in _take_states(build):
        standing = standing_in(build, state, setting, floats[state.name])
        diffuse = network_of(standing, None)
        room = next(each for each in standing.build.rooms if each.name == quiet.name)
        for situation in build.brief.situations:
            found, quantity = background(standing, situation, room)
            backgrounds.append(found)
            quantities[f"background/{found.key}"] = quantity
        rain = rain_background(standing, diffuse, room)
        if rain is not None:
            backgrounds.append(rain[0])
            quantities[f"background/{rain[0].key}"] = rain[1]
        rooms = between_rooms(standing, diffuse)
        if rooms is not None:
            between.append(rooms[0])
            quantities[f"rooms/{state.name}"] = rooms[1]
        outward = at_neighbours(standing, diffuse)
        if outward is not None:
            neighbours.append(outward[0])
            quantities[f"neighbours/{state.name}"] = outward[1]
    return tuple(backgrounds), tuple(between), tuple(neighbours)


def _mount_quantities(build: Build, mounts: tuple[MountsResult, ...], quantities: dict[str, Quantity]) -> None:
    mass_share = build.tolerances.mass
    for result in mounts:
        loads = [each.load for each in result.loads]
        quantities[f"mount-least/{result.state}"] = Quantity(min(loads), "mass", mass_share * abs(min(loads)))
        quantities[f"mount-most/{result.state}"] = Quantity(max(loads), "mass", mass_share * max(loads))
        spread = max(loads) / (sum(loads) / len(loads))
        quantities[f"mount-spread/{result.state}"] = Quantity(spread, "count", 0.05 * spread)
        quantities[f"floor-frequency/{result.state}"] = Quantity(
            result.with_air, "frequency", 0.5 * mass_share * result.with_air, validity=result.notes
        )
        if result.snubber_clear is not None:
            quantities[f"snubber/{result.state}"] = Quantity(result.snubber_clear, "length", _SNUBBER_SPREAD)


_SNUBBER_SPREAD = 0.0005  # m, how closely a snubber is set; common practice, no source


def _space(
    build: Build, floats: dict[str, Floating | None], quantities: dict[str, Quantity]
) -> tuple[SpaceResult, ...]:
    state = _first_take(build)
    found = tuple(space_of(build, room, floats[state.name]) for room in build.rooms)
    for result in found:
        tolerance = build.tolerances
        low = min(result.headroom_centre, result.headroom_shoulder)
        quantities[f"headroom/{result.room}"] = Quantity(low, "length", tolerance.headroom)
        quantities[f"width/{result.room}"] = Quantity(result.clear_width_shoulder, "length", tolerance.width)
    return found


def _mass_quantities(build: Build, masses: tuple[MassResult, ...], quantities: dict[str, Quantity]) -> None:
    share = build.tolerances.mass
    for state, result in zip(build.states, masses, strict=True):
        if not state.road:
            continue
        u = share * result.added
        quantities[f"payload/{state.name}"] = Quantity(result.total, "mass", u)
        quantities[f"front-axle/{state.name}"] = Quantity(result.front, "mass", u / 2.0)
        quantities[f"rear-axle/{state.name}"] = Quantity(result.rear, "mass", u / 2.0)


def with_contributions(build: Build, core: Core) -> dict[str, Quantity]:
    """Add to every quantity what each uncertain input, moved by its standard uncertainty, changes in it."""
    found: dict[str, list[Contribution]] = {key: [] for key in core.quantities}
    for each in build.inputs:
        moved, _ = resolve(build.document, build.library, shifts={each.path: each.standard_uncertainty})
        if moved is None:
            moved, _ = resolve(build.document, build.library, shifts={each.path: -each.standard_uncertainty})
        if moved is None:
            continue
        for key, quantity in couple(moved).quantities.items():
            if key not in core.quantities:
                continue
            change = quantity.value - core.quantities[key].value
            if abs(change) > 1e-9:
                found[key].append(Contribution(each.path, each.label, change))
    return {
        key: replace(quantity, contributions=tuple(sorted(found[key], key=lambda each: -abs(each.change))))
        for key, quantity in core.quantities.items()
    }


def _faces(build: Build, setting: Setting) -> tuple[tuple[FacePrediction, ...], tuple[Resonance, ...]]:
    faces, resonances = [], []
    for room in build.rooms:
        for surface in room.surfaces:
            if surface.layers:
                partition = surface_partition(surface, setting)
                face, found = face_prediction(surface.name, surface.beyond, partition, surface.area, surface.place, setting)
                faces.append(face)
                resonances += found
    for opening in build.openings:
        leaf = opening_partition(opening, setting)
        if leaf is not None:
            face, found = face_prediction(opening.name, opening.face, leaf, opening.area, opening.place, setting)
            faces.append(face)
            resonances += found
    return tuple(faces), tuple(resonances)


def face_prediction(
    name: str, beyond: str, partition: Partition, area: float, place: str, setting: Setting
) -> tuple[FacePrediction, list[Resonance]]:
    """Ratings and resonances of one partition."""
    result = predict(partition, setting)
    rating = rate(result.reduction)
    face = FacePrediction(
        name, beyond, result.reduction, result.standard_uncertainty, rating.rw, rating.c, rating.ctr, rating.stc,
        result.surface_density, result.thickness, area, result.construction, result.validity, place,
    )  # fmt: skip
    found = [
        Resonance(name, each.kind, each.frequency, each.text, lets_through(each.frequency))
        for each in result.resonances
    ]
    return face, found


def _rooms(build: Build, setting: Setting) -> tuple[RoomSound, ...]:
    state = _first_take(build)
    return tuple(room_sound(room, room_field(room, state, setting)) for room in build.rooms)


def limit_value(build: Build, name: str) -> tuple[float, str]:
    """Library limit and where it comes from."""
    limit = build.library.find(Limit, name)
    return limit.value.value, str(limit.source)
