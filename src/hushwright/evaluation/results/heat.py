"""Results of heat and moisture: what faces let through, the hottest and coldest day, water in build-ups."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FaceHeat:
    """What one face or opening lets through; transmittances [W/(m²·K)] by the standard's wind."""

    name: str
    room: str
    beyond: str
    area: float
    transmittance: float
    least: float  # from the upper limit of the resistance
    most: float  # from its lower limit
    surface_factor: float  # of the coldest place of the face
    notes: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class InState:
    """A room with people in it in one state of the session: lowest and highest air temperature [°C]."""

    room: str
    state: str
    lowest: float
    highest: float


BEFORE = "before the session"
"""Time in which heater and cooler run before people come."""


@dataclass(frozen=True, slots=True)
class UnitDuty:
    """A heater or cooler over the day: energies [J], share of its capacity at its busiest, condensate [kg]."""

    kind: str  # "heater" | "cooler"
    room: str
    heat: float
    moisture: float
    energy: float
    busiest: float  # W
    full: float  # share of the session at full power
    condensate: float
    draws: tuple[tuple[str, float], ...] = ()  # state or `before the session`, mean power that it takes [W]


@dataclass(frozen=True, slots=True)
class SurfaceDew:
    """Highest relative humidity at the coldest place of a room's faces while people are in it."""

    room: str
    face: str
    humidity: float
    temperature: float


@dataclass(frozen=True, slots=True)
class HeatDay:
    """One day in steps: air temperatures [°C] and humidity of the rooms, their units, and where heat came from."""

    name: str  # "hottest" | "coldest"
    rooms: tuple[str, ...]
    phases: tuple[tuple[str, float, float], ...]  # state, begin, end [s after midnight]
    times: tuple[float, ...]
    outdoors: tuple[float, ...]
    temperature: tuple[tuple[float, ...], ...]  # a row per time
    humidity: tuple[tuple[float, ...], ...]
    states: tuple[InState, ...]
    units: tuple[UnitDuty, ...]
    energy: float  # J, taken by heaters and coolers over the day
    flows: tuple[tuple[str, float], ...]  # cause, heat into rooms and walls over the session [J]
    dew: tuple[SurfaceDew, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SilentCooler:
    """How long a take goes on from its begin until a room is too warm [s]; `None` when it does not get so warm."""

    room: str
    state: str
    begins: float
    time: float | None
    start: float  # °C


@dataclass(frozen=True, slots=True)
class FaceWater:
    """Water in one build-up over a year [kg/m²], and the dampest month at its surface."""

    name: str
    room: str
    peak: float
    left: float
    plane: str
    saturation: tuple[float, ...]  # of each month from January on: highest vapour pressure inside over saturation
    surface_humidity: float
    month: str
    place: str


@dataclass(frozen=True, slots=True)
class HeatResults:
    """Everything about heat and moisture of a Build."""

    faces: tuple[FaceHeat, ...] = ()
    days: tuple[HeatDay, ...] = ()
    silent: tuple[SilentCooler, ...] = ()
    water: tuple[FaceWater, ...] = ()

    def day(self, name: str) -> HeatDay | None:
        """Hottest or coldest day."""
        return next((each for each in self.days if each.name == name), None)


NO_HEAT = HeatResults()
