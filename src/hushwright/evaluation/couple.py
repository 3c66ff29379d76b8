"""Build → quantities: couples the domains of one Build, state by state."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from hushwright.evaluation.parts import Part, Parts, floats_of, parts_of
from hushwright.evaluation.results import (
    AtNeighbours,
    Background,
    BetweenRooms,
    MountsResult,
    Quantity,
    SpaceResult,
)
from hushwright.evaluation.results.air import NO_AIR, AirResults
from hushwright.evaluation.results.heat import NO_HEAT, HeatResults
from hushwright.evaluation.results.mass import NO_STRUCTURE, MassResult, StructureResults
from hushwright.evaluation.results.power import NO_POWER, PowerResults
from hushwright.evaluation.results.safety import NO_SAFETY, SafetyResults
from hushwright.evaluation.results.signals import NO_SIGNALS, SignalResults
from hushwright.evaluation.results.use import NO_USE_RESULTS, UseResults
from hushwright.evaluation.results.wiring import NO_WIRING, WiringResults
from hushwright.evaluation.safety.doses import Sounding
from hushwright.evaluation.safety.safety import safety_of_build
from hushwright.evaluation.sound.heard import Heard, Sounds, heard_of
from hushwright.evaluation.wiring.cables import with_cables
from hushwright.model.build import Build
from hushwright.physics.air import Air

_BEFORE_SOUND = ("air", "heat")
_BEFORE_SAFETY = ("mounts", "space", "masses", "signals", "structure")
_AFTER_SAFETY = ("wiring", "power", "use")
"""Order of the quantities."""


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
    parts: Mapping[str, Part] = field(default_factory=dict, repr=False)


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
        uncertainties and ways, which nobody asks of a moved Build, are left out. Domains that read nothing that has
        moved are those of the nominal Build.

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
    parts = parts_of(build, sounding or build, None if beside is None else beside.parts)
    heard = heard_of(sounding or build, Air(build.brief.air_temperature), parts.found["floats"].result,
                     None if beside is None else beside.heard)  # fmt: skip
    return replace(with_sound(build, parts, heard.sounds, heard.quantities), heard=heard)


def with_sound(build: Build, parts: Parts, sound: Sounds, heard: dict[str, Quantity]) -> Core:
    """Join the parts of a Build with its sound, and work out what needs both.

    Parameters
    ----------
    build : Build
        What is there, with its cables.
    parts : Parts
        What needs no sound.
    sound : Sounds
        Of all states.
    heard : dict
        Quantities of the sound.

    Returns
    -------
    Core
        All of it.
    """
    found = parts.found
    air, signals, structure = found["air"], found["signals"], found["structure"]
    signalling: SignalResults = replace(signals.result, gear=tuple(sound.gear))

    def safe(quantities: dict[str, Quantity]) -> SafetyResults:
        """Alarms, noise and time without fans, which those of the air tell."""
        whole = dict(air.quantities)
        result = safety_of_build(build, structure.result.doors, air.result, sound.alarms,
                                 Sounding(signalling, sound.between_rooms, sound.played), whole)  # fmt: skip
        quantities.update({key: each for key, each in whole.items() if key not in air.quantities})
        return result

    safety = parts.take("safety", build, safe, air, signals, structure.result.doors, sound)
    quantities: dict[str, Quantity] = {}
    for names, also in ((_BEFORE_SOUND, heard), (_BEFORE_SAFETY, found["safety"].quantities), (_AFTER_SAFETY, {})):
        for name in names:
            quantities.update(found[name].quantities)
        quantities.update(also)
    return Core(
        quantities, tuple(sound.backgrounds), tuple(sound.between_rooms), tuple(sound.neighbours),
        found["space"].result, found["mounts"].result, found["masses"].result, structure.result,
        replace(air.result, sounds=tuple(sound.fans)), found["heat"].result,
        signals=signalling, safety=safety, wiring=found["wiring"].result,
        power=found["power"].result, use=found["use"].result, parts=found,
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
    heard = heard_of(sounding, Air(build.brief.air_temperature), floats_of(build, Parts(known.parts)),
                     known.heard if values_alone else None)  # fmt: skip
    quantities = dict(heard.quantities)
    sounds = heard.sounds
    safety_of_build(build, known.structure.doors, known.air, sounds.alarms,
                    Sounding(known.signals, sounds.between_rooms, sounds.played), quantities)  # fmt: skip
    return quantities
