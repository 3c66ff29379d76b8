"""Safety of a Build: what verdicts judge of doors, ways out, alarms, noise, linings, bank and exhausts."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable

from hushwright.evaluation.air.air import COUNTED_TIME
from hushwright.evaluation.results import REPORTED, Quantity
from hushwright.evaluation.results.air import AirResults
from hushwright.evaluation.results.mass import DoorResult
from hushwright.evaluation.results.safety import (
    NO_SAFETY,
    AlarmInRoom,
    DoorOnWay,
    ExhaustNear,
    SafetyResults,
    WayWalked,
)
from hushwright.evaluation.safety.doses import Sounding, doses_of
from hushwright.evaluation.safety.ways import doors_on_ways, independent, ways_walked
from hushwright.evaluation.sound.alarms import takes_in
from hushwright.library.safety import SafetyLimit
from hushwright.model.build import Build
from hushwright.model.safety_in_place import DetectorInPlace, SafetyInPlace

_SEALS = 0.1
"""Share [-], standard uncertainty of the force of seals, as at doors; common practice, no source."""

_TAPE = 0.002
"""m, how closely a depth or clear size is known once built; common practice, no source."""

_PLACED = 0.01
"""m, how closely a detector is set; common practice, no source."""

_WORN = 4.0
"""dB, how far headphones on a head differ from what is told: what they take off, how loud they are; common practice, no
source."""

_RATE = 0.1
"""Share [-], standard uncertainty of a burning rate between batches; common practice, no source."""

_AIR = 2.0
"""K, standard uncertainty of the temperature round the bank; common practice, no source."""

_EXHAUST = 0.05
"""m, how closely the end of an exhaust is known; common practice, no source."""

NOT_WITHIN = f"at least: the air does not get that bad within {COUNTED_TIME / 3600.0:.0f} h, where counting ends"

WANTED = ("smoke", "carbon monoxide")
"""Detectors that every room with people needs; one in which they stay shut in or sleep also one of carbon dioxide."""


def safety_of_build(
    build: Build, doors: tuple[DoorResult, ...], air: AirResults, alarms: Iterable[AlarmInRoom],
    sounding: Sounding, quantities: dict[str, Quantity],
) -> SafetyResults:  # fmt: skip
    """Add the quantities of safety to those that are there, and give the results behind them.

    Parameters
    ----------
    build : Build
        What is there.
    doors : tuple of DoorResult
        Doors closed against their seals.
    air : AirResults
        Minutes with stopped fans.
    alarms : iterable of AlarmInRoom
        Alarms where people are.
    sounding : Sounding
        Headphones, monitors, players, for noise of a day.
    quantities : dict
        Takes up what verdicts judge.

    Returns
    -------
    SafetyResults
        Nothing where the file has no `safety`.
    """
    _venue_quantities(build, quantities)
    safety = build.safety
    if safety is None:
        return NO_SAFETY
    on_ways = doors_on_ways(build, doors)
    walked = ways_walked(build, on_ways)
    found = SafetyResults(on_ways, walked, tuple(alarms), doses_of(build, sounding, quantities),
                          _exhausts(safety))  # fmt: skip
    _door_quantities(build, on_ways, quantities)
    _way_quantities(build, walked, quantities)
    _found_quantities(build, air, quantities)
    _detector_quantities(build, safety, quantities)
    _alarm_quantities(build, found.alarms, quantities)
    _thing_quantities(safety, found.exhausts, quantities)
    return found


def people_are_in(build: Build) -> tuple[str, ...]:
    """Rooms with people in any state, in the order of the file."""
    return tuple(room.name for room in build.rooms if any(state.people_in(room.name) > 0 for state in build.states))


def kept_in(build: Build) -> tuple[str, ...]:
    """Rooms in which people stay shut in or sleep in any state: quiet rooms with people, and where somebody rests."""
    quiet = {room.name for room in build.rooms if room.purpose == "quiet"}
    return tuple(name for name in people_are_in(build)
                 if name in quiet or any(state.rest_in(name) for state in build.states))  # fmt: skip


def _door_quantities(build: Build, doors: tuple[DoorOnWay, ...], quantities: dict[str, Quantity]) -> None:
    safety = build.safety
    assert safety is not None
    for each in doors:
        door = safety.door(each.name)
        assert door is not None
        unsaid = () if each.said else (f"nobody says how {each.name} is locked and opens",)
        locked = float(each.locked_without_power)
        quantities[f"lock-power/{each.name}"] = Quantity(locked, "count", validity=unsaid, known=each.said)
        quantities[f"inside/{each.name}"] = Quantity(float(len(each.obstacles)), "count", validity=unsaid,
                                                     known=each.said)  # fmt: skip
        quantities[f"way-clear/{each.name}"] = Quantity(each.passes, "share", _TAPE / 0.4 * each.passes)
        quantities[f"occupied-alarm/{each.name}"] = Quantity(float(door.occupied_alarm), "count", validity=unsaid,
                                                             known=each.said)  # fmt: skip
        if each.load is not None and door.holding is not None:
            quantities[f"lock-holds/{each.name}"] = Quantity(each.load, "force", _SEALS * each.load)
        if each.road_load is not None:
            u = math.hypot(_SEALS, build.tolerances.mass) * each.road_load
            quantities[f"keep-holds/{each.name}"] = Quantity(each.road_load, "force", u, validity=unsaid)


def _way_quantities(build: Build, walked: tuple[WayWalked, ...], quantities: dict[str, Quantity]) -> None:
    for room in people_are_in(build):
        worst = worst_ways(build, walked, room)
        said = [way for way in worst if not way.hindrances]
        number = independent([way for way in worst if way.serves])
        unsure = sorted({name for way in said for name in way.not_said})
        notes = tuple(f"nobody says how {name} opens" for name in unsure) if independent(said) > number else ()
        quantities[f"ways-out/{room}"] = Quantity(float(number), "count", validity=notes)
    for way in walked:
        for name, depth, _ in way.swings:
            quantities[f"way-swing/{name}/{way.state}"] = Quantity(depth, "length", _TAPE)


def worst_ways(build: Build, walked: tuple[WayWalked, ...], room: str) -> list[WayWalked]:
    """Ways out of a room in the state in which fewest serve."""
    by_state = [
        [way for way in walked if way.room == room and way.state == state.name]
        for state in build.states
        if state.people_in(room) > 0
    ]
    return min(by_state, key=lambda ways: independent([way for way in ways if way.serves]), default=[])


def _found_quantities(build: Build, air: AirResults, quantities: dict[str, Quantity]) -> None:
    """Time with stopped fans until people cannot bear it, as the air domain has it."""
    limit = build.library.find(SafetyLimit, "carbon dioxide for a short time").value.value
    kept = kept_in(build)
    for state in air.states:
        for room in state.rooms:
            known = quantities.get(f"without-fan/{room.room}/{state.state}")
            time = dict(room.without_fan).get(limit)
            if room.room in kept and known is not None and time is not None:
                share = known.method_uncertainty / known.value if known.value > 0.0 else 0.0
                quantities[f"found/{room.room}/{state.state}"] = _lasting(time, share)


def _lasting(time: float, share: float) -> Quantity:
    """Time with its spread; where it is surely longer than counting goes, that end as a bound without a spread."""
    if math.isfinite(time) and time * (1.0 - 2.0 * share) < COUNTED_TIME:
        return Quantity(time, "time", share * time)
    return Quantity(COUNTED_TIME, "time", validity=(f"{REPORTED}{NOT_WITHIN}",))


def wanted_in(build: Build, room: str) -> tuple[str, ...]:
    """Detectors that a room needs."""
    return (*WANTED, "carbon dioxide") if room in kept_in(build) else WANTED


def missing_in(build: Build, safety: SafetyInPlace, room: str) -> tuple[str, ...]:
    """Detectors that a room needs and does not have."""
    there = {each.kind for each in safety.detectors if each.room == room}
    return tuple(kind for kind in wanted_in(build, room) if kind not in there)


ASKED_UNTOLD = "nobody says what client, venue and local rules ask for: `safety.equipment_asked`"


def equipment_missing(safety: SafetyInPlace) -> tuple[str, ...]:
    """Equipment that is asked for and not aboard, once for each piece."""
    there = Counter(each.kind for each in safety.equipment)
    return tuple((Counter(safety.asked) - there).elements())


def _detector_quantities(build: Build, safety: SafetyInPlace, quantities: dict[str, Quantity]) -> None:
    for room in people_are_in(build):
        missing = missing_in(build, safety, room)
        quantities[f"detectors/{room}"] = Quantity(float(len(missing)), "count")
    if safety.equipment or safety.asked_said:
        untold = () if safety.asked_said else (ASKED_UNTOLD,)
        quantities["equipment"] = Quantity(float(len(equipment_missing(safety))), "count", validity=untold)
    for each in safety.detectors:
        quantities[f"detector/{each.place}"] = Quantity(each.from_edge, "length", _PLACED)
        if each.kind == "carbon monoxide" and each.from_appliance is not None:
            left = _within(build, each, each.from_appliance)
            quantities[f"detector-near/{each.place}"] = Quantity(left, "length", _PLACED)


def _within(build: Build, _detector: DetectorInPlace, distance: float) -> float:
    """How far inside the band of distances from an appliance; below zero outside it."""
    least = build.library.find(SafetyLimit, "detector from an appliance").value.value
    most = build.library.find(SafetyLimit, "detector near an appliance").value.value
    return min(distance - least, most - distance)


def _alarm_quantities(build: Build, alarms: tuple[AlarmInRoom, ...], quantities: dict[str, Quantity]) -> None:
    states = {state.name: state for state in build.states}
    for each in alarms:
        key = f"{each.room}/{each.state}"
        if states[each.state].rest_in(each.room):
            quantities[f"alarm-wakes/{key}"] = Quantity(max(each.level, 0.0), "level_a", each.uncertainty)
        if not takes_in(build, states[each.state]):
            continue  # sleepers alone: noise is not computed there
        quantities[f"alarm-heard/{key}"] = Quantity(each.margin, "margin", each.uncertainty)
        if each.margin_played is not None:
            quantities[f"alarm-played/{key}"] = Quantity(each.margin_played, "margin", each.uncertainty)
        if each.margin_worn is not None:
            u = math.hypot(each.uncertainty, _WORN)
            quantities[f"alarm-worn/{key}"] = Quantity(each.margin_worn, "margin", u)
        quantities[f"alarm-seen/{key}"] = Quantity(float(each.seen), "count")


def _exhausts(safety: SafetyInPlace) -> tuple[ExhaustNear, ...]:
    """Each exhaust with the intake nearest to it; the straight way, which errs on the safe side."""
    found = []
    for each in safety.exhausts:
        near = min(((math.dist(each.at, point), name) for name, point in safety.intakes), default=None)
        if near is not None:
            found.append(ExhaustNear(each.name, near[1], near[0], each.place))
    return tuple(found)


def _thing_quantities(
    safety: SafetyInPlace, exhausts: tuple[ExhaustNear, ...], quantities: dict[str, Quantity]
) -> None:
    for lining in safety.linings:
        rate = lining.burning_rate
        notes = () if rate is not None else (f"nobody says how {lining.material} burns",)
        quantities[f"burning/{lining.material}"] = Quantity(rate or 0.0, "burning_rate", _RATE * (rate or 0.0),
                                                            validity=notes, known=not notes)  # fmt: skip
    known = {each.name: each for each in exhausts}
    lost = tuple(f"nobody says where {name} takes its air in" for name in safety.unknown_intakes)
    for exhaust in safety.exhausts:
        if exhaust.name in known:
            quantities[f"exhaust/{exhaust.name}"] = Quantity(known[exhaust.name].distance, "length", _EXHAUST,
                                                             validity=lost)  # fmt: skip
        elif lost:
            quantities[f"exhaust/{exhaust.name}"] = Quantity(0.0, "length", validity=lost, known=False)
    if safety.bank is not None:
        _bank_quantities(safety, quantities)


def _bank_quantities(safety: SafetyInPlace, quantities: dict[str, Quantity]) -> None:
    bank = safety.bank
    assert bank is not None
    quantities["bank-place"] = Quantity(float(bank.in_quiet), "count")
    unsaid = tuple(f"nobody says whether there is {name}" for name in bank.not_said)
    quantities["bank-ready"] = Quantity(float(len(bank.missing)), "count", validity=() if bank.missing else unsaid,
                                        known=bool(bank.missing) or not unsaid)  # fmt: skip
    for key, value, kind, u, what in (
        ("bank-edge", bank.from_skin, "length", _TAPE, "how far the bank stands from the outer skin"),
        ("bank-warm", bank.warmest, "temperature", _AIR, "how warm it gets round the bank"),
        ("bank-cold", bank.coldest, "temperature", _AIR, "how cold the bank is when it is charged"),
    ):
        notes = () if value is not None else (f"nobody says {what}",)
        quantities[key] = Quantity(value or 0.0, kind, u, validity=notes, known=not notes)


def _venue_quantities(build: Build, quantities: dict[str, Quantity]) -> None:
    """What is typed of venues, for what its spread does to verdicts."""
    for each in build.venues:
        for field, value, kind in (("residual_current", each.residual_current, "current"),
                                   ("cable", each.cable, "length"), ("slope", each.slope, "angle"),
                                   ("generator_distance", each.generator_distance, "length"),
                                   ("wind", each.wind, "speed")):  # fmt: skip
            if value is not None:
                quantities[f"venue-{field}/{each.name}"] = Quantity(value, kind)
