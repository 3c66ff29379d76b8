"""Safety of the build file in place."""

from __future__ import annotations

from collections.abc import Iterator

from hushwright.document.schema import BuildFile
from hushwright.document.schema.safety import BankPlace, Safety
from hushwright.document.values import Value
from hushwright.library.library import plain
from hushwright.library.safety import SafetyLimit
from hushwright.model.air_in_place import OUTDOORS
from hushwright.model.cuts_in_place import CutInPlace
from hushwright.model.faces import LayerInPlace, Room
from hushwright.model.parts import MassItem, OpeningInPlace, VehicleInPlace
from hushwright.model.safety_doors import resolve_ways
from hushwright.model.safety_exposures import resolve_exposures
from hushwright.model.safety_in_place import (
    BankInPlace,
    ExhaustInPlace,
    LiningInPlace,
    Point,
    SafetyInPlace,
    SounderInPlace,
    VisualSignalInPlace,
)
from hushwright.model.safety_limits import limit_of
from hushwright.model.safety_things import USUAL, detectors, equipment
from hushwright.model.taking import Path, Taker, dotted
from hushwright.units import Kind

_AT: Path = ("safety",)
_NEVER_BURN = ("skin", "glass")


def resolve_safety(
    taker: Taker, root: BuildFile, rooms: tuple[Room, ...], openings: tuple[OpeningInPlace, ...],
    masses: tuple[MassItem, ...], cuts: tuple[CutInPlace, ...], vehicle: VehicleInPlace,
) -> SafetyInPlace | None:  # fmt: skip
    """Resolve `safety`; `None` where the file has none.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    root : BuildFile
        The build file.
    rooms : tuple of Room
        Rooms in place.
    openings : tuple of OpeningInPlace
        Openings in place.
    masses : tuple of MassItem
        Where fittings are.
    cuts : tuple of CutInPlace
        Cuts in the vehicle, for intakes.
    vehicle : VehicleInPlace
        The vehicle, for where its faces are.

    Returns
    -------
    SafetyInPlace or None
        Doors, ways, alarms, noise, linings, bank, exhausts.
    """
    typed = root.safety
    if typed is None:
        return None
    doors, ways = resolve_ways(taker, root, typed, rooms, openings)
    intakes, unknown = _intakes(taker, root, typed, cuts, vehicle)
    return SafetyInPlace(
        doors=doors,
        ways_out=ways,
        detectors=tuple(detectors(taker, typed, {room.name: room for room in rooms}, tuple(root.rooms))),
        equipment=tuple(equipment(taker, root, typed, masses)),
        asked=typed.equipment_asked or USUAL,
        asked_said=bool(typed.equipment_asked),
        sounders=tuple(_sounders(taker, root, typed)),
        visual_signals=tuple(_visual_signals(taker, root, typed)),
        noise_rule=typed.noise_rule,
        exposures=tuple(resolve_exposures(taker, root, typed)),
        burning_rule=typed.burning_rule,
        linings=_linings(taker, typed, rooms, openings),
        bank=None if typed.bank is None else _bank(taker, root, typed.bank, rooms, masses),
        exhausts=tuple(_exhausts(taker, typed)),
        intakes=intakes,
        unknown_intakes=unknown,
        found_within=limit_of(taker, (*_AT, "found_within"), typed.found_within, "time", "time until found"),
        push=limit_of(taker, (*_AT, "push"), typed.push, "force", "push on a door"),
        bank_to_skin=limit_of(taker, (*_AT, "bank_to_skin"), typed.bank_to_skin, "length", "bank to the outer skin"),
    )


def _sounders(taker: Taker, root: BuildFile, typed: Safety) -> Iterator[SounderInPlace]:
    for index, each in enumerate(typed.sounders):
        at: Path = (*_AT, "sounders", index)
        if taker.name_of(each.room, tuple(root.rooms), (*at, "room"), "room"):
            yield SounderInPlace(
                each.room,
                taker.quantity((*at, "level"), each.level, "level_a", label=f"level of the sounder in {each.room}"),
                taker.quantity((*at, "distance"), each.distance, "length", label="distance of its level"),
                taker.quantity((*at, "tone"), each.tone, "frequency", label="tone of the sounder"),
                dotted(at),
            )


def _visual_signals(taker: Taker, root: BuildFile, typed: Safety) -> Iterator[VisualSignalInPlace]:
    for index, each in enumerate(typed.visual_signals):
        at: Path = (*_AT, "visual_signals", index)
        if taker.name_of(each.room, tuple(root.rooms), (*at, "room"), "room"):
            yield VisualSignalInPlace(
                each.room,
                taker.quantity((*at, "intensity"), each.intensity, "luminous_intensity", label="intensity of a light"),
                taker.quantity((*at, "rate"), each.rate, "frequency", label="flashes of the light"),
                dotted(at),
            )


def _optional(taker: Taker, path: Path, given: Value | None, kind: Kind) -> float | None:
    return None if given is None or given.unknown else taker.quantity(path, given, kind)


def _linings(
    taker: Taker, typed: Safety, rooms: tuple[Room, ...], openings: tuple[OpeningInPlace, ...]
) -> tuple[LiningInPlace, ...]:
    """Every material in reach of the air of a room, with what the file tells of it."""
    depth = taker.library.find(SafetyLimit, "depth of linings that count").value.value
    reached: dict[str, str] = {}
    for room in rooms:
        for surface in room.surfaces:
            for name in _in_reach(surface.layers, depth):
                reached.setdefault(name, surface.place)
        for treatment in room.treatments:
            reached.setdefault(treatment.blanket.name, treatment.place)
    for opening in openings:
        if not opening.in_vehicle:
            for name in _in_reach(opening.layers, depth):
                reached.setdefault(name, opening.place)
    told = {plain(name): (name, each) for name, each in typed.linings.items()}
    whole = all(each.severity != "error" for each in taker.diagnostics)  # else a layer may be left out
    for name, _ in told.values():
        if whole and plain(name) not in map(plain, reached):
            taker.say("key-without-effect", (*_AT, "linings", name), name, "is in reach of no room's air",
                      f"there are {', '.join(reached) or 'none'}", severity="warning")  # fmt: skip
    found = []
    for material, where in reached.items():
        name, each = told.get(plain(material), ("", None))
        at: Path = (*_AT, "linings", name)
        rate = None if each is None else _optional(taker, (*at, "burning_rate"), each.burning_rate, "burning_rate")
        found.append(LiningInPlace(material, where, rate, "" if each is None else each.by,
                                   where if each is None else dotted((*_AT, "linings"))))  # fmt: skip
    return tuple(found)


def _in_reach(layers: tuple[LayerInPlace, ...], depth: float) -> Iterator[str]:
    """Materials from the inside on, until a space begins or the depth is reached."""
    gone = 0.0
    for layer in reversed(layers):
        if gone >= depth or layer.is_cavity:
            return
        name = getattr(layer.record, "name", "")
        if name and layer.kind not in _NEVER_BURN:
            yield name
        gone += layer.thickness


def _bank(
    taker: Taker, root: BuildFile, typed: BankPlace, rooms: tuple[Room, ...], masses: tuple[MassItem, ...]
) -> BankInPlace | None:
    at: Path = (*_AT, "bank")
    if not taker.name_of(typed.fitting, tuple(each.name for each in root.fittings), (*at, "fitting"), "fitting"):
        return None
    item = next((each for each in masses if each.fitting == typed.fitting), None)
    room = None if item is None else next((each for each in rooms if _inside(each, item)), None)
    fixed = () if item is None else item.fixed_to
    said = {"ventilation as its maker asks": typed.ventilation, "a way to take it out": typed.removal,
            "a label for responders": typed.label}  # fmt: skip
    return BankInPlace(
        typed.fitting,
        "" if room is None else room.name,
        "quiet" in fixed or (room is not None and room.purpose == "quiet"),
        _optional(taker, (*at, "from_skin"), typed.from_skin, "length"),
        _optional(taker, (*at, "warmest"), typed.warmest, "temperature"),
        _optional(taker, (*at, "coldest"), typed.coldest, "temperature"),
        tuple(name for name, word in said.items() if word == "no"),
        tuple(name for name, word in said.items() if word == "not said"),
        dotted(at),
    )


def _inside(room: Room, item: MassItem) -> bool:
    """Whether a thing stands in the room itself, not behind or under its linings."""
    section = room.section
    return (
        room.front <= item.station <= room.rear
        and section.floor_height <= item.z <= section.ceiling_height
        and abs(item.y) < section.floor_width / 2.0
    )


def _exhausts(taker: Taker, typed: Safety) -> Iterator[ExhaustInPlace]:
    for name, each in typed.exhausts.items():
        at: Path = (*_AT, "exhausts", name)
        point = _point(taker, at, each.station, each.offset, each.height, f"exhaust {name}")
        apart = limit_of(taker, (*at, "maker_distance"), each.maker_distance, "length", "exhaust to intake")
        yield ExhaustInPlace(name, each.kind, point, apart, dotted(at))


def _point(taker: Taker, at: Path, station: Value, offset: Value, height: Value, label: str) -> Point:
    return (
        taker.quantity((*at, "station"), station, "length", label=f"station of {label}"),
        taker.quantity((*at, "offset"), offset, "length", label=f"offset of {label}"),
        taker.quantity((*at, "height"), height, "length", label=f"height of {label}"),
    )


def _intakes(
    taker: Taker, root: BuildFile, typed: Safety, cuts: tuple[CutInPlace, ...], vehicle: VehicleInPlace
) -> tuple[tuple[tuple[str, Point], ...], tuple[str, ...]]:
    """Intakes as typed, else the cuts that have the name of a run from outdoors; runs of which nobody knows it."""
    if typed.intakes:
        found = tuple(
            (name, _point(taker, (*_AT, "intakes", name), each.station, each.offset, each.height, f"intake {name}"))
            for name, each in typed.intakes.items()
        )
        return found, ()
    runs = root.air.runs if root.air is not None else {}
    wanted = [name for name, run in runs.items() if run.takes_from == OUTDOORS]
    at = {cut.name: _point_of(cut, vehicle) for cut in cuts}
    for name in wanted:
        if name in at:
            taker.assume((*_AT, "intakes"), f"run {name} takes its air at the cut of that name", "names in the file")
    return tuple((name, at[name]) for name in wanted if name in at), tuple(each for each in wanted if each not in at)


def _point_of(cut: CutInPlace, vehicle: VehicleInPlace) -> Point:
    """Where a cut is on the vehicle."""
    if cut.face in ("left", "right"):
        half = vehicle.section.half_width_at("left" if cut.face == "left" else "right", cut.up)
        return cut.along, half if cut.face == "left" else -half, cut.up
    if cut.face in ("roof", "floor"):
        return cut.along, cut.up, vehicle.floor_to_bow if cut.face == "roof" else 0.0
    return 0.0 if cut.face == "front" else vehicle.load_length, cut.along, cut.up
