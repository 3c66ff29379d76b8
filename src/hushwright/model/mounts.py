"""Mounts: from the file, else from their record; places spread over the floor."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.document.schema import BuildFile
from hushwright.document.schema.mounts import MountGroup
from hushwright.document.values import Value
from hushwright.errors import Mend
from hushwright.library.records import MountRecord, Spread
from hushwright.model.build import MountSet, VehicleInPlace
from hushwright.model.mending import down, up
from hushwright.model.stations import Extent
from hushwright.model.taking import COMMON, Path, Taker, dotted
from hushwright.units import STANDARD_GRAVITY, Kind

_RUBBER = COMMON
_SHEAR_SHARE = 0.25  # lateral over vertical stiffness of a mount that says nothing; common practice, no source
_USUAL_INSET = 0.08  # m from the edge to the first row; common practice, no source
_ON_FLOOR = 0.005  # m, how far past the floor's edge a mount may be given


@dataclass(frozen=True, slots=True)
class _Floor:
    front: float
    rear: float
    half_width: float


def resolve_mounts(
    taker: Taker, root: BuildFile, extents: tuple[Extent, ...], vehicle: VehicleInPlace
) -> tuple[MountSet, ...]:
    """All groups of mounts, placed under the floor of the quiet room."""
    found = []
    floor = _floor(extents, vehicle)
    for name, group in root.mounts.items():
        at: Path = ("mounts", name)
        record = taker.record(MountRecord, group.mount, (*at, "mount")) if group.mount else None
        found.append(_mount_set(taker, floor, name, group, record, at))
    _check_used(taker, root)
    return tuple(found)


def _check_used(taker: Taker, root: BuildFile) -> None:
    """Note groups on which no floor stands."""
    used = {
        getattr(layer, "floor_mounts", "")
        for faces in root.surfaces.values()
        if faces.floor is not None
        for layer in faces.floor.layers
    }
    for name in root.mounts:
        if name not in used:  # placed and loaded by nothing, so nothing of it is judged
            taker.say("mounts-unused", ("mounts", name), name, "no floor stands on these mounts",
                      f"name them in a floor: `floor_mounts: {name}`", severity="warning")  # fmt: skip


def _mount_set(
    taker: Taker,
    floor: _Floor,
    name: str,
    group: MountGroup,
    record: MountRecord | None,
    at: Path,
) -> MountSet:
    source = str(record.source) if record is not None else _RUBBER
    from_record = _spreads(record)

    def take(field: str, given: Value | None, kind: Kind) -> float:
        return taker.quantity((*at, field), given, kind, fallback=from_record.get(field), source=source,
                              label=f"mount {field.replace('_', ' ')}")  # fmt: skip

    static = take("static_stiffness", group.static_stiffness, "stiffness")
    lateral_known = group.lateral_stiffness is not None or "lateral_stiffness" in from_record
    if not lateral_known:
        taker.assume((*at, "lateral_stiffness"), f"sideways {_SHEAR_SHARE:g} of the vertical stiffness", _RUBBER)
    if "stands_on" not in group.model_fields_set:
        taker.assume((*at, "stands_on"), f"mounts stand over a {group.stands_on} of the vehicle's floor", COMMON)
    group_set = MountSet(
        name=name,
        record=record,
        places=_places(taker, floor, group, at),
        static_stiffness=static,
        lateral_stiffness=take("lateral_stiffness", group.lateral_stiffness, "stiffness") if lateral_known
        else _SHEAR_SHARE * static,
        dynamic_ratio=take("dynamic_ratio", group.dynamic_ratio, "count"),
        loss_factor=_own(taker, at, "loss_factor", record, Spread(0.1, 0.05, 0.2)),
        lowest_load=take("lowest_load", group.lowest_load, "mass"),
        highest_load=take("highest_load", group.highest_load, "mass"),
        free_height=take("free_height", group.free_height, "length"),
        creep_per_decade=_own(taker, at, "creep_per_decade", record, Spread(0.05, 0.02, 0.1)),
        cold_factor=_own(taker, at, "cold_factor", record, Spread(1.5, 1.2, 2.0)),
        edges=group.edges,
        stands_on=group.stands_on,
        snubber_gap=None if group.snubber_gap is None
        else taker.quantity((*at, "snubber_gap"), group.snubber_gap, "length", label="snubber gap"),
        load_time=taker.quantity((*at, "load_years"), group.load_years, "time", fallback=_ONE_YEAR),
        place=dotted(at),
    )  # fmt: skip
    _check_loads(taker, group_set, at)
    return group_set


_ONE_YEAR = Spread.point(365.0 * 86400.0)


def _check_loads(taker: Taker, group: MountSet, at: Path) -> None:
    if group.lowest_load > group.highest_load:
        taker.say("loads-reversed", (*at, "highest_load"), f"{group.highest_load:.0f} kg",
                  f"is below the lowest load of {group.lowest_load:.0f} kg",
                  "read the mount's sheet again")  # fmt: skip
    if _in_a_line(group.places):
        taker.say("mounts-in-a-line", at, f"{len(group.places)} mounts",
                  "a floor tips over mounts that stand in one line",
                  "take at least three, not in one line")  # fmt: skip
    if group.snubber_gap is not None and group.snubber_gap > group.free_height:
        taker.say_fit("snubber-beyond-mount", (*at, "snubber_gap"), f"{1000 * group.snubber_gap:.0f} mm",
                      f"the mount itself is {1000 * group.free_height:.0f} mm high",
                      mends=(Mend("set the snubbers to", (*at, "snubber_gap"), down(group.free_height)),))  # fmt: skip


def _in_a_line(places: tuple[tuple[float, float], ...]) -> bool:
    """Whether no three of the places span an area that a floor can stand on."""
    first = places[0]
    far = max(places, key=lambda place: math.dist(first, place))
    length = math.dist(first, far)
    if length < _LEAST_BASE:
        return True
    along, across = (far[0] - first[0]) / length, (far[1] - first[1]) / length
    aside = (abs((place[0] - first[0]) * across - (place[1] - first[1]) * along) for place in places)
    return max(aside) < _LEAST_BASE


_LEAST_BASE = 0.05  # m; common practice, no source


def _spreads(record: MountRecord | None) -> dict[str, Spread]:
    if record is None:
        return {}
    return {
        "static_stiffness": record.static_stiffness,
        "lateral_stiffness": record.shear_stiffness,
        "dynamic_ratio": record.dynamic_ratio,
        "lowest_load": record.lowest_load.times(1.0 / STANDARD_GRAVITY),
        "highest_load": record.highest_load.times(1.0 / STANDARD_GRAVITY),
        "free_height": record.free_height,
    }


def _own(taker: Taker, at: Path, field: str, record: MountRecord | None, usual: Spread) -> float:
    """Value that only a record or common practice gives."""
    spread = record.spread(field) if record is not None else usual
    source = str(record.source) if record is not None else _RUBBER
    return taker.quantity((*at, field), None, "count", fallback=spread, source=source,
                          label=f"mount {field.replace('_', ' ')}")  # fmt: skip


def _places(taker: Taker, floor: _Floor, group: MountGroup, at: Path) -> tuple[tuple[float, float], ...]:
    if group.places:
        return _typed_places(taker, floor, group, at)
    inset = taker.quantity((*at, "inset"), group.inset, "length", fallback=Spread(_USUAL_INSET, 0.05, 0.15))
    half = min(floor.half_width, (floor.rear - floor.front) / 2.0)
    if inset >= half:
        taker.say_fit("mount-outside-floor", (*at, "inset"), f"{1000 * inset:.0f} mm",
                      "the rows would pass the middle of the floor", "set the rows closer to the edge",
                      mends=(Mend("set the rows in by", (*at, "inset"), _USUAL_INSET),)
                      if half > 2.0 * _USUAL_INSET else ())  # fmt: skip
    stations = _spread_over(floor.front + inset, floor.rear - inset, group.along)
    offsets = _spread_over(-floor.half_width + inset, floor.half_width - inset, group.across)
    return tuple((station, offset) for station in stations for offset in offsets)


def _typed_places(taker: Taker, floor: _Floor, group: MountGroup, at: Path) -> tuple[tuple[float, float], ...]:
    """Places one by one, each on the floor that it carries."""
    for key in ("along", "across", "inset"):
        if key in group.model_fields_set:
            taker.say("key-without-effect", (*at, key), key, "says nothing beside `places`", "leave out one of the two",
                      severity="warning")  # fmt: skip
    found = []
    for index, place in enumerate(group.places):
        here: Path = (*at, "places", index)
        station = taker.quantity((*here, "station"), place.station, "length", label=f"mount {index + 1} station")
        offset = taker.quantity((*here, "offset"), place.offset, "length", label=f"mount {index + 1} offset")
        along = floor.front - _ON_FLOOR <= station <= floor.rear + _ON_FLOOR
        if not along or abs(offset) > floor.half_width + _ON_FLOOR:
            taker.say_fit("mount-outside-floor", here, f"station {station:.3f} m, offset {offset:.3f} m",
                          f"the floor runs from {floor.front:.3f} to {floor.rear:.3f} m,"
                          f" {floor.half_width:.3f} m to each side", "move the mount under the floor",
                          mends=_under_the_floor(floor, station, offset, here, index))  # fmt: skip
        found.append((station, offset))
    return tuple(found)


def _under_the_floor(floor: _Floor, station: float, offset: float, at: Path, index: int) -> tuple[Mend, ...]:
    """The one length that brings a mount under the floor's edge, where one is enough."""
    in_along = min(max(station, up(floor.front)), down(floor.rear))
    in_across = min(max(offset, up(-floor.half_width)), down(floor.half_width))
    if in_across == offset:
        return (Mend(f"move mount {index + 1} to station", (*at, "station"), in_along),)
    return (Mend(f"move mount {index + 1} to offset", (*at, "offset"), in_across),) if in_along == station else ()


def _floor(extents: tuple[Extent, ...], vehicle: VehicleInPlace) -> _Floor:
    """Steel floor between the wheel boxes, over the length of the quiet room."""
    quiet = next((each for each in extents if each.purpose == "quiet"), None)
    half = vehicle.section.floor_width / 2.0
    if vehicle.wheel_boxes is not None:
        half = min(half, vehicle.wheel_boxes[0] / 2.0)
    if quiet is None:
        return _Floor(0.0, vehicle.load_length, half)
    return _Floor(quiet.front, quiet.rear, half)


def _spread_over(low: float, high: float, number: int) -> tuple[float, ...]:
    if number == 1:
        return ((low + high) / 2.0,)
    return tuple(low + (high - low) * index / (number - 1) for index in range(number))
