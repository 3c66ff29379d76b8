"""Heat in place: place and weather, heater, cooler, lamps, and what the layers do to heat and vapour."""

from __future__ import annotations

from dataclasses import dataclass, field

from hushwright.library.thermal import ThermalMaterial
from hushwright.model.faces import hash_once


@dataclass(frozen=True, slots=True)
class PlaceOnEarth:
    """Where the van stands and how: angles [rad], height [m], share of the sun that the ground throws back [-]."""

    latitude: float
    longitude: float
    altitude: float
    heading: float
    ground: float


@dataclass(frozen=True, slots=True)
class DayInPlace:
    """Weather of one day; temperatures [°C]."""

    name: str  # "hottest" | "coldest"
    day: int  # of a year of 365 days, from 1 on
    highest: float
    lowest: float
    humidity: float
    sky: str
    place: str


@dataclass(frozen=True, slots=True)
class YearInPlace:
    """Means of the coldest and the warmest month, and the share of the time in use."""

    coldest: float
    warmest: float
    humidity_in_cold: float
    humidity_in_warmth: float
    in_use: float


@dataclass(frozen=True, slots=True)
class HeaterInPlace:
    """A heater: power [W], setpoint [°C]."""

    room: str
    power: float
    setpoint: float
    efficiency: float
    runs_in: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class CoolerInPlace:
    """A cooler: capacity and power draw [W], setpoint and coil [°C]."""

    room: str
    capacity: float
    power_draw: float
    setpoint: float
    coil: float
    fades: float
    silent_in_takes: bool
    runs_in: tuple[str, ...]
    place: str


@dataclass(frozen=True, slots=True)
class LoadInPlace:
    """Lamps and gear in a room [W]."""

    room: str
    lights: float
    equipment: float
    states: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HeatLimits:
    """What is asked of the rooms."""

    warmest: float
    coldest: float
    without_cooler: float
    surface_humidity: float
    water_in_walls: float
    water_left: float


@dataclass(frozen=True, slots=True)
class ClimateInPlace:
    """Everything about heat that the build file says."""

    stands: PlaceOnEarth
    wind: float
    colour: float
    days: tuple[DayInPlace, ...]
    year: YearInPlace | None
    session_begins: float
    warm_up: float
    heaters: tuple[HeaterInPlace, ...]
    coolers: tuple[CoolerInPlace, ...]
    loads: tuple[LoadInPlace, ...]
    limits: HeatLimits
    materials: tuple[tuple[str, ThermalMaterial], ...]  # by the name of the layer's record
    kept_hash: int = field(default=0, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        return hash_once(self)

    def day(self, name: str) -> DayInPlace | None:
        """Hottest or coldest day."""
        return next((each for each in self.days if each.name == name), None)
