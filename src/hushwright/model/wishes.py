"""What is asked for: brief, targets, states of use, tolerances; and what is unsure or assumed."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.library.records import OutdoorSituation, RoomSource


@dataclass(frozen=True, slots=True)
class Input:
    """A value that is not exactly known: where it stands, its standard uncertainty and where that comes from."""

    path: str
    value: float
    standard_uncertainty: float
    origin: str
    kind: str
    label: str
    ends: tuple[float, float] | None = None  # of a range, which has no plus or minus of its own


@dataclass(frozen=True, slots=True)
class Assumption:
    """Something the file leaves out and the library fills in."""

    path: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class PeopleInPlace:
    """People in a room who do the same."""

    room: str
    number: int
    activity: str
    sex: str = "unspecified"
    age: int = 35


@dataclass(frozen=True, slots=True)
class StateOfUse:
    """Who is where and what stands open."""

    name: str
    people: tuple[tuple[str, int], ...]
    open: tuple[str, ...]
    road: bool
    takes: bool
    fans: tuple[str, ...]
    out: tuple[str, ...] = ()  # fittings at their second place
    unloaded: tuple[str, ...] = ()  # fittings not aboard
    full: tuple[tuple[str, float], ...] = ()  # how full tanks are
    who: tuple[PeopleInPlace, ...] = ()  # everybody in the rooms

    def people_in(self, room: str) -> int:
        """Number of people in a room."""
        return dict(self.people).get(room, 0)

    def rest_in(self, room: str) -> bool:
        """Whether somebody rests in a room, and may be asleep."""
        return any(each.room == room and each.activity == "resting" for each in self.who)


@dataclass(frozen=True, slots=True)
class Target:
    """A limit from the brief, read."""

    text: str
    kind: str  # "dB(A)" | "NC" | "NR" | "hearing test"
    value: float
    lowest_band: float
    place: str
    basis: str
    curve_set: str = "classic"  # of NC: "classic" | "2019"
    heard_by: str = "supra_aural"  # hearing test: "supra_aural" | "insert" | "circumaural" | "bone" | "sound_field"
    error: int = 2  # dB, error that the background may cause in a hearing test, 2 or 5


METER_UNCERTAINTY = 1.0
"""dB, standard uncertainty of a level from a meter where nobody says how sure it is; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Situation:
    """Sound outside: levels in front of the van per octave, and from where."""

    name: str
    octaves: tuple[tuple[float, float], ...]
    record: OutdoorSituation | None
    level: float | None
    level_uncertainty: float
    comes_from: str
    target: Target | None
    source: str
    place: str


@dataclass(frozen=True, slots=True)
class BriefInPlace:
    """What the client asks for, in SI."""

    use: str
    stature: float
    shoes: float
    clearance: float
    shoulder_width: float
    person_mass: float
    crew_on_the_road: int
    air_temperature: float
    situations: tuple[Situation, ...]
    source: RoomSource
    source_level: float | None
    monitor: tuple[float, RoomSource, float, str] | None  # level, spectrum, below, place
    neighbours: tuple[float, str, float, str] | None  # distance, side, limit, place
    rain: tuple[float, Target | None, str] | None  # rate, target, place
    shadow: tuple[tuple[str, float], ...]  # how much less [dB] reaches faces that sound has to bend round to


@dataclass(frozen=True, slots=True)
class ToleranceSet:
    """How closely the workshop builds."""

    headroom: float
    width: float
    mass: float
    measured_vans: int
