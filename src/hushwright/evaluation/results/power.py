"""Results of power: how long the bank lasts, its charge over the day, who gives and takes, losses, peaks."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PowerCase:
    """The bank under one kind of day: a month, or the hottest or coldest day."""

    name: str
    used: bool  # whether the van is used then
    off_grid: float | None  # s of use until something goes without power; `None` when nothing does
    clock: float | None  # s by the clock until then, idle hours between included
    lowest_charge: float  # with every source of the day plan
    unmet: float  # J over all days
    locked: float  # share of the time in which the cells are too cold to be charged
    solar: float  # J a day that the panels bring at most


@dataclass(frozen=True, slots=True)
class EnergyShare:
    """One load, source or loss: energy a day [J]."""

    name: str
    kind: str  # "dc" | "ac" of loads, "solar" | "alternator" | "shore" | "generator" of sources, "loss"
    energy: float


@dataclass(frozen=True, slots=True)
class PowerBalance:
    """Where the energy of the days comes from and goes to; all [J] a day."""

    case: str
    sources: tuple[EnergyShare, ...]
    loads: tuple[EnergyShare, ...]
    losses: tuple[EnergyShare, ...]
    change: float  # of what the bank holds, the last day's end less the first day's begin, over the days

    @property
    def difference(self) -> float:
        """What comes in less all that goes out; nothing but rounding."""
        came = sum(each.energy for each in self.sources)
        return came - sum(each.energy for each in (*self.loads, *self.losses)) - self.change


@dataclass(frozen=True, slots=True)
class PowerCourse:
    """The first day of one case in steps: times [s after midnight, going on over it], charge [-], powers [W]."""

    case: str
    times: tuple[float, ...]
    charge: tuple[float, ...]
    sources: tuple[tuple[str, tuple[float, ...]], ...]
    demand: tuple[float, ...]  # of all loads, with what the converter loses
    unmet: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class PowerPeak:
    """All that runs at once in one state, and the largest start on top."""

    state: str
    mains: float  # VA
    mains_start: float  # VA
    starts: str  # load with the largest start
    current: float  # A out of the bank at its lowest charge
    current_start: float
    voltage: float  # V at its terminals then
    voltage_start: float
    given: bool  # whether any current of the bank gives it at all


@dataclass(frozen=True, slots=True)
class PowerResults:
    """Everything about power of a Build."""

    cases: tuple[PowerCase, ...] = ()
    worst: str = ""  # case of use in which the bank lasts shortest
    tightest: str = ""  # case of use in which least is left with every source
    balance: PowerBalance | None = None  # in the tightest case
    course: PowerCourse | None = None  # in the tightest case
    peaks: tuple[PowerPeak, ...] = ()
    rating_current: float | None = None  # A that the converter would take at its rating
    charging: float = 0.0  # A that all sources of one state give at most
    charging_state: str = ""
    shore: tuple[tuple[str, float], ...] = ()  # feeder, VA that loads and charger ask of it at most
    coldest_cells: float | None = None  # °C in cases of use
    panels: float = 0.0  # m² on the roof
    roof: float = 0.0  # m² that is left for them

    def case(self, name: str) -> PowerCase | None:
        """Case by name."""
        return next((each for each in self.cases if each.name == name), None)

    @property
    def peak(self) -> PowerPeak | None:
        """State in which most is asked of the bank."""
        return max(self.peaks, key=lambda each: each.current, default=None)


NO_POWER = PowerResults()
