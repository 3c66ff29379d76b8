"""Build → quantities: couples the domains of one Build, state by state."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import lru_cache

from hushwright.evaluation.air import air_states, fan_sound_in
from hushwright.evaluation.alarms import alarms_in, takes_in
from hushwright.evaluation.between import at_neighbours, between_rooms
from hushwright.evaluation.cables import with_cables
from hushwright.evaluation.doses import Sounding
from hushwright.evaluation.envelopes import use_of
from hushwright.evaluation.faces import Setting
from hushwright.evaluation.floor import Floating, floating_room
from hushwright.evaluation.gear_sound import gear_sound_in
from hushwright.evaluation.heat import heat_of_build
from hushwright.evaluation.mass import mass_quantities, masses_in
from hushwright.evaluation.played import PlayedInRoom, played_in
from hushwright.evaluation.power import power_of_build
from hushwright.evaluation.quiet import background
from hushwright.evaluation.rain import rain_background
from hushwright.evaluation.results import (
    AtNeighbours,
    Background,
    BetweenRooms,
    MountsResult,
    Quantity,
    SpaceResult,
)
from hushwright.evaluation.results_air import NO_AIR, AirResults, FanSound
from hushwright.evaluation.results_heat import NO_HEAT, HeatResults
from hushwright.evaluation.results_mass import NO_STRUCTURE, MassResult, StructureResults
from hushwright.evaluation.results_power import NO_POWER, PowerResults
from hushwright.evaluation.results_safety import NO_SAFETY, AlarmInRoom, SafetyResults
from hushwright.evaluation.results_signals import NO_SIGNALS, GearInState, SignalResults
from hushwright.evaluation.results_use import NO_USE_RESULTS, UseResults
from hushwright.evaluation.results_wiring import NO_WIRING, WiringResults
from hushwright.evaluation.safety import safety_of_build
from hushwright.evaluation.signals import signals_of
from hushwright.evaluation.sound import Standing, network_of, standing_in
from hushwright.evaluation.space import first_take, space_of
from hushwright.evaluation.structure import structure_of
from hushwright.evaluation.wiring import wiring_of
from hushwright.model.build import Build, hash_once
from hushwright.physics.air import Air

_SPREAD_OF_LOADS = 0.05
"""Share [-] of the ratio of largest to mean load: seats of the mounts differ in height by about a millimetre; common
practice, no source."""

_FREQUENCY_BY_MASS = 0.5
"""Relative change [-] of a natural frequency over that of the mass: f goes with 1/√m."""

_SNUBBER_SPREAD = 0.0005
"""m, how closely a snubber is set; common practice, no source."""


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
    structure: StructureResults = NO_STRUCTURE
    air: AirResults = NO_AIR
    heat: HeatResults = NO_HEAT
    signals: SignalResults = NO_SIGNALS
    safety: SafetyResults = NO_SAFETY
    wiring: WiringResults = NO_WIRING
    power: PowerResults = NO_POWER
    use: UseResults = NO_USE_RESULTS
    heard: Heard | None = None


def couple(build: Build, sounding: Build | None = None, *, beside: Core | None = None) -> Core:
    """All quantities of one Build, without the shares of the inputs.

    Parameters
    ----------
    build : Build
        What is there.
    sounding : Build, optional
        The same for the sound, with shapes held; the build itself when left out.
    beside : Core, optional
        That of the nominal Build, where this one is it with an input moved. Of the sound then only values are new: its
        uncertainties and ways, which nobody asks of a moved Build, are left out.

    Returns
    -------
    Core
        Quantities, ways of the sound, space, mounts, masses.

    Raises
    ------
    CannotEvaluate
        If a part lies outside what its law takes.
    """
    build, sounding = with_cables(build), None if sounding is None else with_cables(sounding)
    air = Air(build.brief.air_temperature)
    quantities: dict[str, Quantity] = {}
    floats = {state.name: floating_room(build, state, air) for state in build.states}
    breathed = air_states(build, quantities)
    heat = heat_of_build(sounding or build, breathed, quantities)
    heard = _sound(sounding or build, air, floats, beside)
    sound = heard.sounds
    quantities.update(heard.quantities)
    mounts = tuple(each.result for each in floats.values() if each is not None)
    _mount_quantities(build, mounts, quantities)
    space = _space(build, floats, quantities)
    masses = tuple(masses_in(build, state) for state in build.states)
    mass_quantities(build, masses, quantities)
    signals = replace(signals_of(build, quantities), gear=tuple(sound.gear))
    structure = structure_of(build, floats, masses, quantities)
    safety = safety_of_build(build, structure.doors, breathed, sound.alarms,
                             Sounding(signals, sound.between_rooms, sound.played), quantities)  # fmt: skip
    return Core(
        quantities, tuple(sound.backgrounds), tuple(sound.between_rooms), tuple(sound.neighbours), space, mounts,
        masses, structure, replace(breathed, sounds=tuple(sound.fans)), heat,
        signals=signals, safety=safety, wiring=wiring_of(build, quantities),
        power=power_of_build(build, breathed, heat, quantities), use=use_of(build, quantities), heard=heard,
    )  # fmt: skip


def couple_sound(build: Build, sounding: Build, known: Core, *, values_alone: bool = False) -> dict[str, Quantity]:
    """Quantities that hang on the sound of one Build alone, where all else is as it was.

    Parameters
    ----------
    build : Build
        What is there: the Build of ``known`` but for slits, or for what faces turned away from a source get.
    sounding : Build
        The same for the sound, with shapes held.
    known : Core
        Doors and air of the Build as the file has it.
    values_alone : bool, optional
        Leave out how sure the values are, as nobody asks it of a Build with a moved input.

    Returns
    -------
    dict
        Quantities of sound, and of alarms through the build's own walls.
    """
    build, sounding = with_cables(build), with_cables(sounding)
    air = Air(build.brief.air_temperature)
    floats = {state.name: floating_room(build, state, air) for state in build.states}
    heard = _sound(sounding, air, floats, known if values_alone else None)
    quantities = dict(heard.quantities)
    safety_of_build(build, known.structure.doors, known.air, heard.sounds.alarms,
                    Sounding(known.signals, heard.sounds.between_rooms, heard.sounds.played), quantities)  # fmt: skip
    return quantities


def setting_of(build: Build, air: Air) -> Setting:
    """What all faces of a Build share."""
    return _setting(air, build.brief.air_temperature, build.vehicle, build.library)


_setting = lru_cache(maxsize=64)(Setting)


@dataclass(frozen=True, slots=True)
class _Sounds:
    """Sound of all states in which takes are recorded; alarms also where people rest."""

    backgrounds: list[Background] = field(default_factory=list)
    between_rooms: list[BetweenRooms] = field(default_factory=list)
    neighbours: list[AtNeighbours] = field(default_factory=list)
    fans: list[FanSound] = field(default_factory=list)
    gear: list[GearInState] = field(default_factory=list)
    alarms: list[AlarmInRoom] = field(default_factory=list)
    played: list[PlayedInRoom] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Sounding:
    """All that sound reads of a Build and its floats: two that agree in it sound alike, whatever else differs."""

    build: Build = field(compare=False)
    floats: tuple[tuple[str, Floating | None], ...]
    read: tuple[object, ...]
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)


HEARD_OF_BUILD = ("air", "gap_edges", "mounts", "openings", "rooms", "safety", "signals", "states", "tolerances",
                  "vehicle", "library")  # fmt: skip
HEARD_OF_BRIEF = ("air_temperature", "monitor", "neighbours", "rain", "shadow", "situations", "source", "source_level")
"""What sound reads of a Build and its brief; a test holds the code to it."""


@dataclass(frozen=True, slots=True, eq=False)
class Heard:
    """Sound of all states, with its quantities; neither is changed by who gets them."""

    sounding: _Sounding
    sounds: _Sounds
    quantities: dict[str, Quantity]


def _sound(build: Build, air: Air, floats: dict[str, Floating | None], beside: Core | None = None) -> Heard:
    """Sound of a build; of one with an input moved the values alone, and what is known where it sounds alike."""
    read = [getattr(build, name) for name in HEARD_OF_BUILD] + [getattr(build.brief, name) for name in HEARD_OF_BRIEF]
    sounding = _Sounding(build, tuple(floats.items()), tuple(read))
    if beside is None or beside.heard is None:
        return _heard(sounding, air)
    if hash(sounding) == hash(beside.heard.sounding) and sounding == beside.heard.sounding:
        return beside.heard
    return _heard(sounding, air, values_alone=True)


@lru_cache(maxsize=128)
def _heard(sounding: _Sounding, air: Air, *, values_alone: bool = False) -> Heard:
    quantities: dict[str, Quantity] = {}
    build, floats = sounding.build, dict(sounding.floats)
    return Heard(sounding, _sounds_of(build, air, floats, quantities, values_alone=values_alone), quantities)


def _sounds_of(
    build: Build, air: Air, floats: dict[str, Floating | None], quantities: dict[str, Quantity], *, values_alone: bool
) -> _Sounds:
    found = _Sounds()
    setting = setting_of(build, air)
    for state in build.states:
        if not takes_in(build, state):
            if any(state.rest_in(room.name) for room in build.rooms):  # alarms have to wake them
                standing = standing_in(build, state, setting, floats[state.name], values_alone=values_alone)
                found.alarms.extend(alarms_in(standing, network_of(standing, None), [], None))
            continue
        standing = standing_in(build, state, setting, floats[state.name], values_alone=values_alone)
        backgrounds = _backgrounds(standing, quantities)
        found.backgrounds.extend(backgrounds)
        diffuse = network_of(standing, None)
        fans = fan_sound_in(standing, diffuse, backgrounds, quantities)
        if fans is not None:
            found.fans.append(fans)
        gear = gear_sound_in(standing, diffuse, quantities)
        if gear is not None:
            found.gear.append(gear)
        played = played_in(standing, diffuse)
        found.played.extend([played] if played is not None else [])
        rooms = between_rooms(standing, diffuse)
        if rooms is not None:
            found.between_rooms.append(rooms[0])
            quantities[f"rooms/{state.name}"] = rooms[1]
        found.alarms.extend(alarms_in(standing, diffuse, backgrounds, None if rooms is None else rooms[0]))
        outward = at_neighbours(standing, diffuse)
        if outward is not None:
            found.neighbours.append(outward[0])
            quantities[f"neighbours/{state.name}"] = outward[1]
    return found


def _backgrounds(standing: Standing, quantities: dict[str, Quantity]) -> list[Background]:
    """Every situation outside, and rain."""
    quiet = standing.build.room_for("quiet")
    assert quiet is not None
    found = [background(standing, situation, quiet) for situation in standing.build.brief.situations]
    rain = rain_background(standing, network_of(standing, None), quiet)
    if rain is not None:
        found.append(rain)
    for result, quantity in found:
        quantities[f"background/{result.key}"] = quantity
    return [result for result, _ in found]


def _mount_quantities(build: Build, mounts: tuple[MountsResult, ...], quantities: dict[str, Quantity]) -> None:
    mass_share = build.tolerances.mass
    for result in mounts:
        loads = [each.load for each in result.loads]
        quantities[f"mount-least/{result.state}"] = Quantity(min(loads), "mass", mass_share * abs(min(loads)))
        quantities[f"mount-most/{result.state}"] = Quantity(max(loads), "mass", mass_share * abs(max(loads)))
        spread = max(loads) / (sum(loads) / len(loads))
        quantities[f"mount-spread/{result.state}"] = Quantity(spread, "count", _SPREAD_OF_LOADS * spread)
        quantities[f"floor-frequency/{result.state}"] = Quantity(
            result.with_air, "frequency", _FREQUENCY_BY_MASS * mass_share * result.with_air, validity=result.notes
        )
        if result.snubber_clear is not None:
            quantities[f"snubber/{result.state}"] = Quantity(result.snubber_clear, "length", _SNUBBER_SPREAD)


def _space(
    build: Build, floats: dict[str, Floating | None], quantities: dict[str, Quantity]
) -> tuple[SpaceResult, ...]:
    state = first_take(build)
    found = tuple(space_of(build, room, floats[state.name]) for room in build.rooms)
    for result in found:
        tolerance = build.tolerances
        low = min(result.headroom_centre, result.headroom_shoulder)
        quantities[f"headroom/{result.room}"] = Quantity(low, "length", tolerance.headroom)
        quantities[f"width/{result.room}"] = Quantity(result.clear_width_shoulder, "length", tolerance.width)
    return found
