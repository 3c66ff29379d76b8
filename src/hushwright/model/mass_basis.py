"""What the masses stand on, from the file or the library's body."""

from __future__ import annotations

import math

from hushwright.document.schema import BuildFile
from hushwright.document.schema.mass import STAGES, Scales
from hushwright.library.records import Limit
from hushwright.model.build import VehicleInPlace
from hushwright.model.mass_in_place import MassBasis, Weighing
from hushwright.model.taking import Path, Taker, dotted

_WHEELS = ("front_left", "front_right", "rear_left", "rear_right")


def resolve_mass_basis(taker: Taker, root: BuildFile, vehicle: VehicleInPlace) -> MassBasis:
    """Join what the file says of wheels, centre and weighings with the body of the library."""
    body, typed = vehicle.body, root.vehicle
    source = str(body.source)
    allowance = taker.library.find(Limit, "mass not yet listed")
    given = root.tolerances.not_yet_listed if root.tolerances is not None else None
    return MassBasis(
        track_width=taker.quantity(("vehicle", "track_width"), typed.track_width, "length",
                                   fallback=body.track_width, source=source, label="track width"),
        kerb_height=taker.quantity(("vehicle", "kerb_height"), typed.kerb_height, "length",
                                   fallback=body.kerb_height, source=source,
                                   label="empty van's centre of gravity"),
        driver_side=1.0 if typed.driver_side == "left" else -1.0,
        not_yet_listed=taker.quantity(("tolerances", "not_yet_listed"), given, "share", fallback=allowance.value,
                                      source=str(allowance.source), label="share for what is not yet listed"),
        scale_uncertainty=taker.library.find(Limit, "uncertainty of scales").value.value,
        weighings=_weighings(taker, root),
    )  # fmt: skip


def _weighings(taker: Taker, root: BuildFile) -> tuple[Weighing, ...]:
    if root.measured is None:
        return ()
    found = [
        _weighing(taker, root, scales, ("measured", "scales", index))
        for index, scales in enumerate(root.measured.scales)
    ]
    return tuple(sorted(found, key=lambda each: STAGES.index(each.stage)))


def _weighing(taker: Taker, root: BuildFile, typed: Scales, at: Path) -> Weighing:
    fittings = tuple(dict.fromkeys(fitting.name for fitting in root.fittings))
    used, other = ("missing", "aboard") if typed.stage == "finish" else ("aboard", "missing")
    if getattr(typed, other):
        taker.say("key-without-effect", (*at, other), other, f"says nothing at the stage {typed.stage}",
                  f"list the fittings under `{used}`", severity="warning")  # fmt: skip
    names = tuple(
        name for index, name in enumerate(getattr(typed, used))
        if taker.name_of(name, fittings, (*at, used, index), "fitting")
    )  # fmt: skip
    values = [getattr(typed, wheel) for wheel in _WHEELS]
    front_left, front_right, rear_left, rear_right = (
        taker.quantity((*at, wheel), value, "mass", label=f"{typed.stage}, {wheel.replace('_', ' ')} wheel")
        for wheel, value in zip(_WHEELS, values, strict=True)
    )
    if typed.people > root.vehicle.seats:
        taker.say("more-people-than-seats", (*at, "people"), str(typed.people),
                  f"the cab has {root.vehicle.seats} seats", "one seat a person", severity="warning")  # fmt: skip
    spread = math.sqrt(sum(value.standard_uncertainty**2 for value in values) / len(values))
    return Weighing(typed.stage, (front_left, front_right, rear_left, rear_right), spread, typed.people, names,
                    typed.date, dotted(at))  # fmt: skip
