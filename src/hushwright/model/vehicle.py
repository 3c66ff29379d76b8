"""The van before the conversion, from the file or the library's body."""

from __future__ import annotations

from hushwright.document.schema.vehicle import AxleMasses as TypedMasses
from hushwright.document.schema.vehicle import Vehicle
from hushwright.errors import InvalidInput
from hushwright.library.records import Sheet, Spread, VanBody
from hushwright.model.build import AxleMasses, Ribs, VehicleInPlace
from hushwright.model.section import Section, body_section
from hushwright.model.taking import Path, Taker

_WEIGHING = 0.01  # share by which two axle masses may miss their total
_BOW_WIDTH = 0.05  # m; only its spacing and depth matter to the air behind the ceiling


def resolve_vehicle(taker: Taker, vehicle: Vehicle, path: Path = ("vehicle",)) -> VehicleInPlace | None:
    """Join the `vehicle` section with the library's body."""
    body = taker.record(VanBody, vehicle.body, (*path, "body"))
    skin = _skin(taker, vehicle, path, body)
    if body is None or skin is None:
        return None
    sheet, thickness, beading, radius = skin
    floor_to_bow = _length(taker, path, vehicle, body, "floor_to_bow", body.steel_floor_to_bow)
    section = _section(taker, vehicle, path, body, floor_to_bow)
    if section is None:
        return None
    found = VehicleInPlace(
        body=body,
        load_length=_length(taker, path, vehicle, body, "load_length", body.load_length),
        floor_to_bow=floor_to_bow,
        floor_over_ground=_length(taker, path, vehicle, body, "floor_over_ground", body.floor_over_ground),
        section=section,
        skin=sheet,
        skin_thickness=thickness,
        beading=beading,
        roof_radius=radius,
        ribs=_ribs(taker, vehicle, path, body),
        bows=_bows(taker, vehicle, path, body),
        wheel_boxes=_wheel_boxes(taker, vehicle, path, body),
        front_axle=_length(taker, path, vehicle, body, "front_axle", body.front_axle),
        rear_axle=_length(taker, path, vehicle, body, "rear_axle", body.rear_axle),
        kerb=_masses(taker, (*path, "kerb"), vehicle.kerb, body,
                     (body.kerb_mass, body.kerb_mass_front, body.kerb_mass_rear)),
        plated=_masses(taker, (*path, "plated"), vehicle.plated, body,
                       (body.permissible_mass, body.permissible_front, body.permissible_rear)),
        seats=vehicle.seats,
    )  # fmt: skip
    _check_axles(taker, found, path)
    return found


def _check_axles(taker: Taker, vehicle: VehicleInPlace, path: Path) -> None:
    if vehicle.rear_axle - vehicle.front_axle < _SHORTEST_WHEELBASE:
        taker.say("axles-too-close", (*path, "rear_axle"), f"{vehicle.rear_axle - vehicle.front_axle:.3f} m",
                  f"no van has its axles closer than {_SHORTEST_WHEELBASE:.1f} m",
                  "stations run rearward from the B-pillar line; the front axle is negative")  # fmt: skip
    if vehicle.plated.total < vehicle.kerb.total:
        taker.say("plated-below-kerb", (*path, "plated", "total"), f"{vehicle.plated.total:.0f} kg",
                  f"the empty van weighs {vehicle.kerb.total:.0f} kg already", "read the plate again",
                  severity="warning")  # fmt: skip


_SHORTEST_WHEELBASE = 1.5  # m; common practice, no source


def _length(taker: Taker, path: Path, vehicle: Vehicle, body: VanBody, name: str, fallback: Spread) -> float:
    return taker.quantity((*path, name), getattr(vehicle, name), "length", fallback=fallback, source=str(body.source))


def _skin(
    taker: Taker, vehicle: Vehicle, path: Path, body: VanBody | None
) -> tuple[Sheet, float, float, float] | None:
    typed = vehicle.skin
    at = (*path, "skin")
    sheet = taker.record(Sheet, typed.material if typed is not None else "steel", (*at, "material"))
    if sheet is None or body is None:
        return None
    source = str(body.source)
    if typed is None:
        taker.assume((*at, "material"), "skin of steel", source)
    return (
        sheet,
        taker.quantity((*at, "thickness"), typed.thickness if typed else None, "length",
                       fallback=body.skin_thickness, source=source, label="skin thickness"),
        taker.quantity((*at, "beading"), typed.beading if typed else None, "count", fallback=body.beading_ratio,
                       source=source, label="stiffness ratio of the beaded skin"),
        taker.quantity((*at, "roof_radius"), typed.roof_radius if typed else None, "length",
                       fallback=body.roof_radius, source=source, label="roof radius"),
    )  # fmt: skip


def _section(taker: Taker, vehicle: Vehicle, path: Path, body: VanBody, top: float) -> Section | None:
    at = (*path, "widths")
    if vehicle.widths:
        pairs = tuple(
            (
                taker.quantity((*at, index, "height"), width.height, "length"),
                taker.quantity((*at, index, "width"), width.width, "length", label="width of the body"),
            )
            for index, width in enumerate(vehicle.widths)
        )
    else:
        taker.assume(at, f"section of the body {body.name}", str(body.source))
        pairs = tuple((height, 2.0 * half) for half, height in _by_height(body.section))
    try:
        return body_section(pairs, top)
    except InvalidInput as problem:
        taker.say("section-impossible", at, f"{len(pairs)} widths", str(problem),
                  "give widths from the steel floor up to the roof bows")  # fmt: skip
        return None


def _by_height(points: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    """Half width and height in rising height, whichever of the two stands first in a row of the table."""
    rising = all(b[0] > a[0] for a, b in zip(points, points[1:], strict=False))
    return tuple((half, height) for height, half in points) if rising else points


def _ribs(taker: Taker, vehicle: Vehicle, path: Path, body: VanBody) -> Ribs:
    typed, at, source = vehicle.ribs, (*path, "ribs"), str(body.source)
    return Ribs(
        taker.quantity((*at, "depth"), typed.depth if typed else None, "length", fallback=body.rib_depth,
                       source=source, label="rib depth"),
        taker.quantity((*at, "spacing"), typed.spacing if typed else None, "length", fallback=body.rib_spacing,
                       source=source, label="rib spacing"),
        taker.quantity((*at, "width"), typed.width if typed else None, "length", fallback=body.rib_width,
                       source=source, label="rib width"),
    )  # fmt: skip


def _bows(taker: Taker, vehicle: Vehicle, path: Path, body: VanBody) -> Ribs:
    typed, at, source = vehicle.bows, (*path, "bows"), str(body.source)
    return Ribs(
        taker.quantity((*at, "depth"), typed.depth if typed else None, "length", fallback=body.bow_depth,
                       source=source, label="depth of the roof bows"),
        taker.quantity((*at, "spacing"), typed.spacing if typed else None, "length", fallback=body.bow_spacing,
                       source=source, label="spacing of the roof bows"),
        _BOW_WIDTH,
    )  # fmt: skip


def _wheel_boxes(
    taker: Taker, vehicle: Vehicle, path: Path, body: VanBody
) -> tuple[float, float, float, float] | None:
    if vehicle.wheel_boxes_present == "no":
        return None
    typed, at, source = vehicle.wheel_boxes, (*path, "wheel_boxes"), str(body.source)
    given = (typed.between, typed.height, typed.front, typed.rear) if typed else (None,) * 4
    names = ("between", "height", "front", "rear")
    spreads = (body.wheel_box_between, body.wheel_box_height, body.wheel_box_front, body.wheel_box_rear)
    between, height, front, rear = (
        taker.quantity((*at, name), value, "length", fallback=spread, source=source, label=f"wheel boxes {name}")
        for name, value, spread in zip(names, given, spreads, strict=True)
    )
    if rear <= front:
        taker.say_fit("stations-reversed", (*at, "rear"), f"{rear:.3f} m", f"lies before their front at {front:.3f} m",
                      "stations run rearward")  # fmt: skip
    return between, height, front, rear


def _masses(
    taker: Taker, path: Path, typed: TypedMasses | None, body: VanBody, spreads: tuple[Spread, Spread, Spread]
) -> AxleMasses:
    given = (typed.total, typed.front, typed.rear) if typed else (None,) * 3
    total, front, rear = (
        taker.quantity((*path, name), value, "mass", fallback=spread, source=str(body.source),
                       label=f"{path[-1]} mass {name}")
        for name, value, spread in zip(("total", "front", "rear"), given, spreads, strict=True)
    )  # fmt: skip
    if path[-1] == "kerb" and typed is not None and abs(front + rear - total) > _WEIGHING * total:
        taker.say_fit("axles-do-not-add-up", path, f"{front:.0f} kg + {rear:.0f} kg",
                      f"is not the total of {total:.0f} kg", "read the weighbridge tickets again",
                      severity="warning")  # fmt: skip
    return AxleMasses(total, front, rear)
