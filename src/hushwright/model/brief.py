"""The brief in SI: situations, targets, sources, states of use."""

from __future__ import annotations

import re

from hushwright.document.schema import BuildFile
from hushwright.document.schema.brief import Neighbours, Outdoors, Sources
from hushwright.library.library import UnknownRecord
from hushwright.library.records import Criterion, Limit, OutdoorSituation, RoomSource
from hushwright.model.build import BriefInPlace, Situation, StateOfUse, Target, ToleranceSet
from hushwright.model.openings import octave_pairs
from hushwright.model.taking import Path, Taker, dotted

_LIMIT = re.compile(
    r"\s*(?:(?P<dba>\d+(?:\.\d+)?)\s*dB\(A\)|(?P<curve>NC|NR)\s*(?P<number>\d+(?:\.\d+)?)"
    r"|hearing tests?(?:\s+(?P<tone>\d+)\s*Hz)?)\s*"
)
_EXAMPLE = "write `35 dB(A)`, `NC 25`, `NR 20` or `hearing test 250 Hz`"
DEFAULT_SOURCE = "singing voice"
SHADOWS = ("ends reduction", "lee side reduction", "roof reduction", "underfloor reduction")
METRICS = {"nc": "NC", "nr": "NR", "dba": "dB(A)", "hearing-test": "hearing test"}


def read_target(taker: Taker, text: str, path: Path, lowest_band: float) -> Target | None:
    """Read a limit as typed; noted when it is none."""
    match = _LIMIT.fullmatch(text)
    if match is None:
        taker.say("limit-unreadable", path, text, "is no limit Hushwright knows", _EXAMPLE)
        return None
    basis = "target in the build file"
    if match["dba"] is not None:
        return Target(text, "dB(A)", float(match["dba"]), 0.0, dotted(path), basis)
    if match["curve"] is not None:
        return Target(text, match["curve"], float(match["number"]), lowest_band, dotted(path), basis)
    return Target(text, "hearing test", float(match["tone"] or 250), 0.0, dotted(path), f"{basis}; ISO 8253-1:2010")


def resolve_brief(taker: Taker, root: BuildFile) -> BriefInPlace:
    """Resolve the `brief` section."""
    brief, at = root.brief, ("brief",)
    sources = brief.sources or Sources()
    if brief.sources is None:
        taker.assume((*at, "sources"), f"a {DEFAULT_SOURCE} sounds in the quiet room", "common practice, no source")
    source = taker.record(RoomSource, sources.quiet_room, (*at, "sources", "quiet_room"))
    level = sources.quiet_room_level
    return BriefInPlace(
        use=brief.use,
        stature=taker.quantity((*at, "tallest"), brief.tallest, "length"),
        shoes=taker.quantity((*at, "shoes"), brief.shoes, "length"),
        clearance=taker.quantity((*at, "clearance"), brief.clearance, "length"),
        shoulder_width=taker.quantity((*at, "shoulder_width"), brief.shoulder_width, "length"),
        person_mass=taker.quantity((*at, "person_mass"), brief.person_mass, "mass"),
        crew_on_the_road=brief.crew_on_the_road,
        air_temperature=taker.quantity((*at, "air_temperature"), brief.air_temperature, "temperature"),
        situations=_situations(taker, root),
        source=source if source is not None else taker.library.find(RoomSource, DEFAULT_SOURCE),
        source_level=None if level is None
        else taker.quantity((*at, "sources", "quiet_room_level"), level, "level_a"),
        monitor=_monitor(taker, root),
        neighbours=_neighbours(taker, brief.neighbours),
        rain=_rain(taker, root),
        shadow=tuple((name, _shadow(taker, name)) for name in SHADOWS),
    )  # fmt: skip


def _shadow(taker: Taker, name: str) -> float:
    limit = taker.library.find(Limit, name)
    return taker.quantity(("library", "limits", name), None, "level", fallback=limit.value, source=str(limit.source))


def _situations(taker: Taker, root: BuildFile) -> tuple[Situation, ...]:
    found = []
    for index, typed in enumerate(root.brief.outdoors):
        at: Path = ("brief", "outdoors", index)
        record = None
        if typed.octaves is None:
            record = taker.record(OutdoorSituation, typed.situation, (*at, "situation"))
            if record is None:
                continue
            taker.assume((*at, "octaves"), f"levels of {record.name}", str(record.source))
        found.append(_situation(taker, root, typed, record, at, index))
    return tuple(found)


def _situation(
    taker: Taker, root: BuildFile, typed: Outdoors, record: OutdoorSituation | None, at: Path, index: int
) -> Situation:
    octaves = octave_pairs(taker, typed.octaves, (*at, "octaves"))
    if record is not None:
        octaves = tuple(zip(record.frequency, record.level, strict=True))
    lowest = 0.0 if typed.limit_from is None else taker.quantity((*at, "limit_from"), typed.limit_from, "frequency")
    target = read_target(taker, typed.limit, (*at, "limit"), lowest) if typed.limit else _usual(taker, root, at)
    return Situation(
        name=typed.situation or f"situation {index + 1}",
        octaves=octaves,
        record=record,
        level=None if typed.level is None else taker.quantity((*at, "level"), typed.level, "level_a"),
        level_uncertainty=record.standard_uncertainty if record is not None else 0.0,
        comes_from=typed.comes_from,
        target=target,
        source=str(record.source) if record is not None else "levels in the brief: conditions, without uncertainty",
        place=dotted(at),
    )


def _usual(taker: Taker, root: BuildFile, at: Path) -> Target | None:
    """Usual target for the use, from the library's criteria."""
    try:
        criterion = taker.library.find(Criterion, root.brief.use)
    except UnknownRecord:
        return None
    kind = METRICS[criterion.metric]
    text = f"{kind} {criterion.value:g}" if kind != "dB(A)" else f"{criterion.value:g} dB(A)"
    taker.assume((*at, "limit"), f"usual target for {root.brief.use}: {text}", str(criterion.source))
    return Target(text, kind, criterion.value, 0.0, dotted((*at, "limit")), str(criterion.source))


def _monitor(taker: Taker, root: BuildFile) -> tuple[float, RoomSource, float, str] | None:
    typed = root.brief.monitor
    if typed is None:
        return None
    at: Path = ("brief", "monitor")
    spectrum = taker.record(RoomSource, typed.spectrum, (*at, "spectrum"))
    if spectrum is None:
        return None
    level = taker.quantity((*at, "level"), typed.level, "level_a")
    return level, spectrum, taker.quantity((*at, "below"), typed.below, "level"), dotted(at)


def _neighbours(taker: Taker, typed: Neighbours | None) -> tuple[float, str, float, str] | None:
    if typed is None:
        return None
    at: Path = ("brief", "neighbours")
    distance = taker.quantity((*at, "distance"), typed.distance, "length")
    return distance, typed.side, taker.quantity((*at, "limit"), typed.limit, "level_a"), dotted(at)


def _rain(taker: Taker, root: BuildFile) -> tuple[float, Target | None, str] | None:
    typed = root.brief.rain
    if typed is None:
        return None
    at: Path = ("brief", "rain")
    target = read_target(taker, typed.limit, (*at, "limit"), 0.0) if typed.limit else None
    return taker.quantity((*at, "rate"), typed.rate, "rain_rate"), target, dotted(at)


def resolve_states(taker: Taker, root: BuildFile) -> tuple[StateOfUse, ...]:
    """States of use; one for takes and one for the road when the file names none."""
    fans = root.air.fans if root.air is not None else ()
    openings = tuple(root.openings)
    found = []
    for name, typed in root.states.items():
        for opening in typed.open:
            taker.name_of(opening, openings, ("states", name, "open"), "opening")
        people = typed.people
        counted = (
            (("quiet_room", people.quiet_room), ("control_room", people.control_room), ("cab", people.cab))
            if people is not None else ()
        )  # fmt: skip
        running = tuple(fan.name for fan in fans if name in fan.runs_in)
        found.append(StateOfUse(name, counted, typed.open, typed.road == "yes", typed.takes == "yes", running))
    for index, fan in enumerate(fans):
        for state in fan.runs_in:
            taker.name_of(state, tuple(root.states) or ("record", "drive"), ("air", "fans", index, "runs_in"), "state")
    if found:
        return tuple(found)
    taker.assume(("states",), "two states: takes with one person in each room, and the road", "nothing is given")
    running = tuple(fan.name for fan in fans if "record" in fan.runs_in)
    return (
        StateOfUse("record", (("quiet_room", 1), ("control_room", 1)), (), False, True, running),
        StateOfUse("drive", (("cab", root.brief.crew_on_the_road),), (), True, False, ()),
    )


def resolve_tolerances(taker: Taker, root: BuildFile) -> ToleranceSet:
    """How closely the workshop builds, as standard uncertainties."""
    from hushwright.document.schema.rooms import Tolerances

    typed = root.tolerances or Tolerances()
    at: Path = ("tolerances",)
    return ToleranceSet(
        taker.quantity((*at, "headroom"), typed.headroom, "length") / 2.0,
        taker.quantity((*at, "width"), typed.width, "length") / 2.0,
        taker.quantity((*at, "mass"), typed.mass, "share") / 2.0,
        typed.measured_vans,
    )
