"""Mounts: from the file, else from their record; places spread over the floor."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.document.schema import BuildFile
from hushwright.document.schema.mounts import MountGroup
from hushwright.document.values import Value
from hushwright.library.records import MountRecord, Spread
from hushwright.model.build import MountSet, VehicleInPlace
from hushwright.model.taking import Path, Taker, dotted
from hushwright.units import Kind

GRAVITY = 9.80665  # m/s², standard value (CGPM 1901)
_RUBBER = "common practice, no source"


@dataclass(frozen=True, slots=True)
class _Floor:
    front: float
    rear: float
    half_width: float


def resolve_mounts(taker: Taker, root: BuildFile, vehicle: VehicleInPlace) -> tuple[MountSet, ...]:
    """All groups of mounts, placed under the floor of the quiet room."""
    found = []
    for name, group in root.mounts.items():
        at: Path = ("mounts", name)
        record = taker.record(MountRecord, group.mount, (*at, "mount")) if group.mount else None
        found.append(_mount_set(taker, root, vehicle, name, group, record, at))
    return tuple(found)


def _mount_set(
    taker: Taker,
    root: BuildFile,
    vehicle: VehicleInPlace,
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
    return MountSet(
        name=name,
        record=record,
        places=_places(taker, root, vehicle, group, at),
        static_stiffness=static,
        lateral_stiffness=take("lateral_stiffness", group.lateral_stiffness, "stiffness") if lateral_known
        else static / 4.0,
        dynamic_ratio=take("dynamic_ratio", group.dynamic_ratio, "count"),
        loss_factor=_own(taker, at, "loss_factor", record, Spread(0.1, 0.05, 0.2)),
        lowest_load=take("lowest_load", group.lowest_load, "mass"),
        highest_load=take("highest_load", group.highest_load, "mass"),
        free_height=take("free_height", group.free_height, "length"),
        creep_per_decade=_own(taker, at, "creep_per_decade", record, Spread(0.05, 0.02, 0.1)),
        cold_factor=_own(taker, at, "cold_factor", record, Spread(1.5, 1.2, 2.0)),
        edges=group.edges,
        snubber_gap=None if group.snubber_gap is None
        else taker.quantity((*at, "snubber_gap"), group.snubber_gap, "length", label="snubber gap"),
        load_time=taker.quantity((*at, "load_years"), group.load_years, "time"),
        place=dotted(at),
    )  # fmt: skip


def _spreads(record: MountRecord | None) -> dict[str, Spread]:
    if record is None:
        return {}
    return {
        "static_stiffness": record.static_stiffness,
        "lateral_stiffness": record.shear_stiffness,
        "dynamic_ratio": record.dynamic_ratio,
        "lowest_load": record.lowest_load.times(1.0 / GRAVITY),
        "highest_load": record.highest_load.times(1.0 / GRAVITY),
        "free_height": record.free_height,
    }


def _own(taker: Taker, at: Path, field: str, record: MountRecord | None, usual: Spread) -> float:
    """Value that only a record or common practice gives."""
    spread = record.spread(field) if record is not None else usual
    source = str(record.source) if record is not None else _RUBBER
    return taker.quantity((*at, field), None, "count", fallback=spread, source=source,
                          label=f"mount {field.replace('_', ' ')}")  # fmt: skip


def _places(
    taker: Taker, root: BuildFile, vehicle: VehicleInPlace, group: MountGroup, at: Path
) -> tuple[tuple[float, float], ...]:
    if group.places:
        return tuple(
            (
                taker.quantity((*at, "places", index, "station"), place.station, "length"),
                taker.quantity((*at, "places", index, "offset"), place.offset, "length"),
            )
            for index, place in enumerate(group.places)
        )
    floor = _floor(root, vehicle)
    inset = taker.quantity((*at, "inset"), group.inset, "length")
    stations = _spread_over(floor.front + inset, floor.rear - inset, group.along)
    offsets = _spread_over(-floor.half_width + inset, floor.half_width - inset, group.across)
    return tuple((station, offset) for station in stations for offset in offsets)


def _floor(root: BuildFile, vehicle: VehicleInPlace) -> _Floor:
    quiet = next((room for room in root.rooms.values() if room.purpose == "quiet"), None)
    half = vehicle.section.floor_width / 2.0
    if vehicle.wheel_boxes is not None:
        half = min(half, vehicle.wheel_boxes[0] / 2.0)
    if quiet is None:
        return _Floor(0.0, vehicle.load_length, half)
    return _Floor(quiet.front.value, quiet.rear.value, half)


def _spread_over(low: float, high: float, number: int) -> tuple[float, ...]:
    if number == 1:
        return ((low + high) / 2.0,)
    return tuple(low + (high - low) * index / (number - 1) for index in range(number))
