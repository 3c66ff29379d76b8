"""Venues and papers of the build file in place."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.document.schema.venue import PaperList, Venue
from hushwright.library.library import UnknownRecord
from hushwright.library.safety import PAPER_ITEMS, PaperRecord
from hushwright.model.safety_in_place import PaperInPlace, VenueInPlace
from hushwright.model.safety_limits import limit_of
from hushwright.model.taking import Path, Taker, dotted
from hushwright.units import Kind


def resolve_venues(taker: Taker, root: BuildFile) -> tuple[VenueInPlace, ...]:
    """Venues by name, in the order of the file."""
    return tuple(_venue(taker, name, typed) for name, typed in root.venue.items())


def _venue(taker: Taker, name: str, typed: Venue) -> VenueInPlace:
    at: Path = ("venue", name)

    def take(field: str, kind: Kind) -> float | None:
        given = getattr(typed, field)
        label = f"{field.replace('_', ' ')} at {name}"
        return None if given is None or given.unknown else taker.quantity((*at, field), given, kind, label=label)

    if typed.supply == "none":
        for field in ("cable", "residual_current", "generator_distance"):
            if getattr(typed, field) is not None:
                taker.say("key-without-effect", (*at, field), field.replace("_", " "), "this venue has no supply",
                          "name its `supply`", severity="warning")  # fmt: skip
    return VenueInPlace(
        name=name,
        supply=typed.supply,
        cable=take("cable", "length"),
        longest_cable=limit_of(taker, (*at, "longest_cable"), typed.longest_cable, "length", "supply cable"),
        residual_current=take("residual_current", "current"),
        generator_distance=take("generator_distance", "length"),
        slope=take("slope", "angle"),
        steepest=limit_of(taker, (*at, "steepest"), typed.steepest, "angle", "slope of the ground"),
        wind=take("wind", "speed"),
        awning_out=typed.awning == "out",
        awning_limit=take("awning_limit", "speed"),
        cable_way=typed.cable_way,
        light=typed.light,
        place=dotted(at),
    )


def resolve_papers(taker: Taker, root: BuildFile) -> tuple[PaperInPlace, ...]:
    """Every paper of every list, those that each list is asked for first, whether it is on it or not."""
    return tuple(
        _paper(taker, jurisdiction, item, listed)
        for jurisdiction, listed in root.papers.items()
        for item in dict.fromkeys([*PAPER_ITEMS, *listed.items])
    )


def _paper(taker: Taker, jurisdiction: str, item: str, listed: PaperList) -> PaperInPlace:
    typed = listed.items.get(item)
    place: Path = ("papers", jurisdiction, *(() if typed is None else ("items", item)))
    known = _known(taker, jurisdiction, item)
    if typed is None:
        return PaperInPlace(jurisdiction, item, False, "", "", "", "", known, dotted(place))
    return PaperInPlace(jurisdiction, item, True, typed.status, typed.owner, typed.date, typed.says_who, known,
                        dotted(place))  # fmt: skip


def _known(taker: Taker, jurisdiction: str, item: str) -> str:
    try:
        record = taker.library.find(PaperRecord, f"{jurisdiction}, {item}")
    except UnknownRecord:
        return ""
    return f"{record.sentence.rstrip('.')}: {record.source}"
