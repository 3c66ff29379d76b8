"""Noise of a day in place: parts at a typed level, and parts of what sounds in the van."""

from __future__ import annotations

from collections.abc import Iterator

from hushwright.document.schema import BuildFile
from hushwright.document.schema.safety import Exposure, NoisePart, Safety
from hushwright.model.safety_in_place import ExposureInPlace, NoisePartInPlace
from hushwright.model.taking import Path, Taker, dotted

_DAY = 86_400.0
ON_HEADPHONES = ("headphones", "headphones turned up")


def resolve_exposures(taker: Taker, root: BuildFile, typed: Safety) -> Iterator[ExposureInPlace]:
    """Noise of a day of each kind of person, in the order of the file.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    root : BuildFile
        The build file, for headphones, monitors and rooms.
    typed : Safety
        Its safety.

    Yields
    ------
    ExposureInPlace
        One for each that can be.
    """
    for who, each in typed.exposures.items():
        at: Path = ("safety", "exposures", who)
        parts = _parts(taker, root, who, each)
        together = sum(part.duration or 0.0 for part in parts)
        if together > _DAY:
            taker.say_fit("longer-than-a-day", (*at, "parts"), f"{together / 3600.0:.1f} h",
                          "a day has 24 h", "give the parts of one day")  # fmt: skip
            continue
        peak = None if each.peak is None or each.peak.unknown else taker.quantity((*at, "peak"), each.peak, "level")
        yield ExposureInPlace(who, parts, peak, dotted(at))


def _parts(taker: Taker, root: BuildFile, who: str, exposure: Exposure) -> tuple[NoisePartInPlace, ...]:
    at: Path = ("safety", "exposures", who, "parts")
    found = ((index, part) for index, part in enumerate(exposure.parts)
             if _can_be_heard(taker, root, part, (*at, index)))  # fmt: skip
    return tuple(_part(taker, who, part, (*at, index)) for index, part in found)


def _part(taker: Taker, who: str, part: NoisePart, at: Path) -> NoisePartInPlace:
    level = duration = None
    if part.level is not None:
        level = taker.quantity((*at, "level"), part.level, "level_a", label=f"level at {who}")
    if part.duration is not None:
        duration = taker.quantity((*at, "duration"), part.duration, "time", label=f"time of {who}")
    else:
        taker.assume((*at, "duration"), f"{who} hears it during all takes of the session", "brief: session")
    return NoisePartInPlace(part.of, level, part.point, duration, dotted(at))


def _can_be_heard(taker: Taker, root: BuildFile, part: NoisePart, at: Path) -> bool:
    """Whether a part has what its level is taken from; says what is wrong."""
    on_headphones = part.of in ON_HEADPHONES
    if part.point and not on_headphones:
        taker.say("key-without-effect", (*at, "point"), part.point, f"headphones have no part in `{part.of}`",
                  "leave it out, or write `of: headphones`", severity="warning")  # fmt: skip
    if part.level is not None and part.of not in ("typed", "headphones"):
        taker.say("key-without-effect", (*at, "level"), part.level.text, f"the level of `{part.of}` is computed",
                  "leave it out, or leave out `of`", severity="warning")  # fmt: skip
    if on_headphones:
        points = () if root.signals is None else tuple(root.signals.headphones)
        if not part.point:
            there = f"there are {', '.join(points)}" if points else "describe one under `signals.headphones` first"
            taker.say("value-needed", (*at, "point"), part.of, "says not on which headphones", f"give `point`; {there}")
            return False
        return taker.name_of(part.point, points, (*at, "point"), "headphone point")
    if part.of == "typed" and part.level is None:
        taker.say("level-not-said", (*at, "level"), "", "nothing says how loud this part of the day is",
                  "type a level at the ear, or take it `of` headphones, monitors or players")  # fmt: skip
        return False
    missing = {
        "monitors": root.brief.monitor is None and "`brief.monitor`",
        "players": all(room.purpose != "quiet" for room in root.rooms.values()) and "a quiet room",
    }.get(part.of)
    if missing:
        taker.say("level-not-said", (*at, "of"), part.of, f"the level of {part.of} needs {missing}",
                  f"add {missing}, or type the level")  # fmt: skip
    return not missing
