"""The brief in SI: situations, targets, sources, states of use."""

from __future__ import annotations

import re

from hushwright.document.schema import BuildFile
from hushwright.document.schema.brief import Neighbours, Outdoors, Sources
from hushwright.library.library import UnknownRecord
from hushwright.library.records import Criterion, Limit, OutdoorSituation, RoomSource, Spread
from hushwright.model.build import BriefInPlace, Situation, Target
from hushwright.model.octaves import assume_ends, octave_values, unbroken_octaves
from hushwright.model.taking import COMMON, Path, Taker, dotted
from hushwright.model.wishes import METER_UNCERTAINTY

_LIMIT = re.compile(
    r"\s*(?:(?P<dba>\d+(?:\.\d+)?)\s*dB\(A\)|(?P<curve>NC|NR)\s*(?P<number>\d+(?:\.\d+)?)(?:\s*\((?P<year>\d+)\))?"
    r"|hearing tests?(?:\s+(?P<tone>\d+)\s*Hz)?(?P<more>(?:\s*,\s*[^,]+)*))\s*"
)
_EXAMPLE = (
    "write `35 dB(A)`, `NC 25`, `NC 25 (2019)`, `NR 20`, `hearing test 250 Hz` or "
    "`hearing test 250 Hz, insert earphones, 5 dB`"
)
TRANSDUCERS = {
    "earphones": "supra_aural",
    "insert earphones": "insert",
    "circumaural earphones": "circumaural",
    "bone conduction": "bone",
    "sound field": "sound_field",
}
"""How the tones of a hearing test reach the ear, as typed and as ISO 8253 has it."""
_ERRORS = {"2 dB": 2, "5 dB": 5}
_NEW_CURVES = "2019"
DEFAULT_SOURCE = "singing voice"
TONES = (125, 250, 500)
SHADOWS = ("ends reduction", "lee side reduction", "roof reduction", "underfloor reduction")
METRICS = {"nc": "NC", "nr": "NR", "dba": "dB(A)", "hearing-test": "hearing test"}


def read_target(taker: Taker, text: str, path: Path, lowest_band: float, usual: str = "") -> Target | None:
    """Read a limit as typed; noted when it is none."""
    match = _LIMIT.fullmatch(text)
    if match is None:
        taker.say("limit-unreadable", path, text, "is no limit Hushwright knows", _EXAMPLE)
        return None
    basis = "target in the build file"
    if usual:
        basis += f" (usual for {usual})"
    if match["curve"] is not None:
        return _curve(taker, text, match, path, lowest_band, basis)
    if lowest_band > 0.0:
        taker.say("key-without-effect", (*path[:-1], "limit_from"), "limit_from",
                  f"says nothing about a limit of {text}", "it belongs to NC and NR limits",
                  severity="warning")  # fmt: skip
    if match["dba"] is not None:
        return Target(text, "dB(A)", float(match["dba"]), 0.0, dotted(path), basis)
    return _hearing_test(taker, text, match, path, basis)


def _curve(taker: Taker, text: str, match: re.Match[str], path: Path, lowest_band: float, basis: str) -> Target | None:
    """NC or NR; only NC has a set of a year beside the classic one."""
    if match["year"] is not None and (match["curve"], match["year"]) != ("NC", _NEW_CURVES):
        taker.say("limit-unreadable", path, text, "the only set of a year is NC of 2019", _EXAMPLE)
        return None
    number = float(match["number"])
    if match["year"] is None:
        return Target(text, match["curve"], number, lowest_band, dotted(path), basis)
    return Target(text, match["curve"], number, lowest_band, dotted(path), f"{basis}; ANSI/ASA S12.2-2019", _NEW_CURVES)


def _hearing_test(taker: Taker, text: str, match: re.Match[str], path: Path, basis: str) -> Target | None:
    """Hearing test: lowest tone, how it reaches the ear, error that the background may cause."""
    tone = int(match["tone"] or 250)
    if tone not in TONES:
        taker.say("limit-unreadable", path, text, f"hearing tests begin at {', '.join(map(str, TONES))} Hz", _EXAMPLE)
        return None
    heard_by, error = "supra_aural", 2
    for word in (" ".join(each.split()) for each in match["more"].split(",")[1:]):
        if word in TRANSDUCERS:
            heard_by = TRANSDUCERS[word]
        elif word in _ERRORS:
            error = _ERRORS[word]
        else:
            known = ", ".join((*TRANSDUCERS, *_ERRORS))
            taker.say("limit-unreadable", path, text, f"{word!r} is none of: {known}", _EXAMPLE)
            return None
    if tone == _EARPHONES_ONLY and heard_by in ("bone", "sound_field"):
        taker.say("limit-unreadable", path, text, "only earphones have limits from 500 Hz", _EXAMPLE)
        return None
    standard = "ISO 8253-2:2009" if heard_by == "sound_field" else "ISO 8253-1:2010"
    return Target(
        text, "hearing test", float(tone), 0.0, dotted(path), f"{basis}; {standard}", "classic", heard_by, error
    )


_EARPHONES_ONLY = 500
"""Hz, lowest tone for which ISO 8253-1 has limits with earphones alone."""


def resolve_brief(taker: Taker, root: BuildFile) -> BriefInPlace:
    """Resolve the `brief` section."""
    brief, at = root.brief, ("brief",)
    sources = brief.sources or Sources()
    if brief.sources is None and any(room.purpose == "quiet" for room in root.rooms.values()):
        taker.assume((*at, "sources"), f"a {DEFAULT_SOURCE} sounds in the quiet room", COMMON)
    source = taker.record(RoomSource, sources.quiet_room, (*at, "sources", "quiet_room"))
    level = sources.quiet_room_level
    return BriefInPlace(
        use=brief.use,
        stature=taker.quantity((*at, "tallest"), brief.tallest, "length"),
        shoes=taker.convention((*at, "shoes"), brief.shoes, "length", "shoe height", "height of shoes"),
        clearance=taker.convention((*at, "clearance"), brief.clearance, "length", "headroom clearance",
                                   "air over the head"),
        shoulder_width=taker.convention((*at, "shoulder_width"), brief.shoulder_width, "length",
                                        "clear width at standing places", "clear width at the shoulders"),
        person_mass=taker.convention((*at, "person_mass"), brief.person_mass, "mass", "standing person mass",
                                     "mass of a person"),
        crew_on_the_road=brief.crew_on_the_road,
        air_temperature=taker.quantity((*at, "air_temperature"), brief.air_temperature, "temperature",
                                       fallback=_ROOM_AIR),
        situations=_situations(taker, root),
        source=source if source is not None else taker.library.find(RoomSource, DEFAULT_SOURCE),
        source_level=None if level is None
        else taker.quantity((*at, "sources", "quiet_room_level"), level, "level_a"),
        monitor=_monitor(taker, root),
        neighbours=_neighbours(taker, brief.neighbours),
        rain=_rain(taker, root),
        shadow=tuple((name, _shadow(taker, name)) for name in SHADOWS),
    )  # fmt: skip


_ROOM_AIR = Spread(20.0, 10.0, 30.0)  # °C, where the file says unknown; common practice, no source


def _shadow(taker: Taker, name: str) -> float:
    limit = taker.library.find(Limit, name)
    return taker.quantity(("library", "limits", name), None, "level", fallback=limit.value, source=str(limit.source))


def _situations(taker: Taker, root: BuildFile) -> tuple[Situation, ...]:
    found: list[Situation] = []
    for index, typed in enumerate(root.brief.outdoors):
        at: Path = ("brief", "outdoors", index)
        record = None
        name = typed.situation or f"situation {index + 1}"
        if any(each.name == name for each in found):
            taker.say("name-given-twice", (*at, "situation"), name, "another situation has that name",
                      "give each a name of its own")  # fmt: skip
            continue
        if typed.octaves is None:
            record = taker.record(OutdoorSituation, typed.situation, (*at, "situation"))
            if record is None:
                continue
            taker.assume((*at, "octaves"), f"levels of {record.name}", str(record.source))
        elif not octave_values(taker, typed.octaves, (*at, "octaves")):
            taker.say("value-needed", (*at, "octaves"), name, "has no levels",
                      "type at least one, `hz_500: 55 dB`, or leave `octaves` out")  # fmt: skip
            continue
        found.append(_situation(taker, root, typed, record, at, name))
    return tuple(found)


def _situation(
    taker: Taker, root: BuildFile, typed: Outdoors, record: OutdoorSituation | None, at: Path, name: str
) -> Situation:
    octaves = unbroken_octaves(taker, typed.octaves, (*at, "octaves"))
    assume_ends(taker, octaves, (*at, "octaves"), name)
    if record is not None:
        octaves = tuple(zip(record.frequency, record.level, strict=True))
    lowest = 0.0 if typed.limit_from is None else taker.quantity((*at, "limit_from"), typed.limit_from, "frequency")
    return Situation(
        name=name,
        octaves=octaves,
        record=record,
        level=None if typed.level is None else taker.quantity((*at, "level"), typed.level, "level_a"),
        level_uncertainty=_level_uncertainty(typed, record),
        comes_from=typed.comes_from,
        target=_target(taker, root, typed.limit, (*at, "limit"), lowest),
        source=str(record.source) if record is not None else "levels in the brief: conditions, without uncertainty",
        place=dotted(at),
    )


def _level_uncertainty(typed: Outdoors, record: OutdoorSituation | None) -> float:
    """Of a kind of place, unless its level is typed: that is a meter's, or as typed, where it counts as an input."""
    if record is None:
        return 0.0
    if typed.level is None or typed.level.unknown:
        return record.standard_uncertainty
    return 0.0 if typed.level.standard_uncertainty > 0.0 else METER_UNCERTAINTY


def _target(taker: Taker, root: BuildFile, typed: str, path: Path, lowest: float) -> Target | None:
    """Target as typed, else the usual one for the use, from the library's criteria."""
    criterion = _criterion(taker, root.brief.use)
    usual = "" if criterion is None else f"{root.brief.use}: {_told(criterion)}"
    if typed:
        # What is usual helps beside a limit on the same scale alone.
        same = criterion is not None and METRICS[criterion.metric] in typed
        return read_target(taker, typed, path, lowest, usual if same else "")
    if criterion is None:
        return None
    taker.assume(path, f"usual target for {usual}", str(criterion.source))
    return Target(_told(criterion), METRICS[criterion.metric], criterion.value, lowest, dotted(path),
                  f"usual for {usual}; {criterion.source}")  # fmt: skip


def _criterion(taker: Taker, use: str) -> Criterion | None:
    """Usual criterion for a use; `other` has none."""
    try:
        return taker.library.find(Criterion, use)
    except UnknownRecord:
        return None


def _told(criterion: Criterion) -> str:
    kind = METRICS[criterion.metric]
    if kind == "hearing test":
        return f"hearing test {criterion.value:g} Hz"
    return f"{criterion.value:g} dB(A)" if kind == "dB(A)" else f"{kind} {criterion.value:g}"


def _monitor(taker: Taker, root: BuildFile) -> tuple[float, RoomSource, float, str] | None:
    typed = root.brief.monitor
    if typed is None:
        return None
    at: Path = ("brief", "monitor")
    spectrum = taker.record(RoomSource, typed.spectrum, (*at, "spectrum"))
    if spectrum is None:
        return None
    level = taker.quantity((*at, "level"), typed.level, "level_a")
    below = taker.convention((*at, "below"), typed.below, "level", "direct sound below monitor level",
                             "direct sound below the monitor level")  # fmt: skip
    return level, spectrum, below, dotted(at)


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
    target = _target(taker, root, typed.limit, (*at, "limit"), 0.0)
    return taker.quantity((*at, "rate"), typed.rate, "rain_rate"), target, dotted(at)
