"""Masses on the wheels, by moments; what the scales say; what must go or move."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import Quantity
from hushwright.evaluation.results.mass import MassResult, ScaleResult, Wheels
from hushwright.model.build import Build, MassItem, StateOfUse
from hushwright.model.mass_in_place import Weighing
from hushwright.physics.mechanics.axles import (
    AxleLoads,
    Axles,
    PlacedMass,
    axle_loads,
    not_listed_allowance,
    vehicle_on_axles,
)
from hushwright.physics.mechanics.weighbridge import Reconciliation, reconcile

_CAB_STATION_BEHIND_AXLE = 0.95  # m, seats of a cab over or just behind the front axle; common practice, no source
_SEATS = (0.42, -0.42, 0.0)  # m towards the driver's side: driver, far seat, middle seat; common practice, no source
_SEATED = 0.65  # m, centre of a seated person over the floor; common practice, no source
_STANDING = 0.95  # m, the same standing; common practice, no source
_EMPTY_SIDE = 0.01  # share by which the bare van's halves may differ unweighed; common practice, no source
_HEIGHT_SHARE = 0.03  # of the height of the centre of gravity, from items whose height is a guess; common practice
_WITHIN = 0.05  # m that a fitting keeps from the skin; common practice, no source
_NOTHING: Wheels = (0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class _Loaded:
    """One state on its wheels: loads as listed, those not weighed, and what the scales add."""

    loads: AxleLoads
    unweighed: tuple[PlacedMass, ...]
    added: Wheels
    not_yet_listed: float


def masses_in(build: Build, state: StateOfUse) -> MassResult:
    """Mass, people, and what each wheel carries in one state.

    The conversion's moments go to the axles over the wheelbase; see docs/methods/mass.md.
    """
    loaded = _loaded(build, state)
    groups: dict[str, float] = {}
    for item in build.aboard(state):
        groups[item.group] = groups.get(item.group, 0.0) + item.mass
    wheels = _sum(loaded.loads.wheels, loaded.added)
    total = sum(wheels)
    rear = wheels[2] + wheels[3]
    x, y, z = loaded.loads.centre_of_gravity
    scales = sum(loaded.added)
    if scales:
        x, y = _centre_of(build, wheels)
    return MassResult(
        state.name, sum(groups.values()), _people_mass(build, state), total, total - rear, rear,
        tuple(sorted(groups.items())), wheels, (-x, y, z), loaded.loads.static_stability_factor,
        loaded.not_yet_listed, scales,
    )  # fmt: skip


def mass_quantities(build: Build, masses: Iterable[MassResult], quantities: dict[str, Quantity]) -> None:
    """What the verdicts on mass ask: states driven on the road alone, and every weighing."""
    plated = build.vehicle.plated
    for state, result in zip(build.states, masses, strict=True):
        if not state.road:
            continue
        u_total, u_front, u_rear, u_side = _spread(build, state)
        name = state.name
        quantities[f"payload/{name}"] = Quantity(result.total, "mass", u_total)
        quantities[f"front-axle/{name}"] = Quantity(result.front, "mass", u_front)
        quantities[f"rear-axle/{name}"] = Quantity(result.rear, "mass", u_rear)
        used, axle = heaviest_wheel(build, result)
        u_axle, most = (u_front, plated.front) if axle == "front" else (u_rear, plated.rear)
        quantities[f"wheel/{name}"] = Quantity(used, "share", (u_axle + u_side * result.total) / most)
        quantities[f"side-balance/{name}"] = Quantity(abs(left_surplus(result)) / result.total, "share", u_side)
        share = result.front / result.total
        quantities[f"steering-axle/{name}"] = Quantity(share, "share", u_front / result.total)
        quantities[f"stability/{name}"] = Quantity(result.stability, "count", _HEIGHT_SHARE * result.stability)
    for weighing, scales in zip(build.mass_basis.weighings, scale_results(build), strict=True):
        known = 2.0 * weighing.uncertainty  # of the sum of four readings; comes as shares of the inputs
        u = math.sqrt(max(scales.uncertainty**2 - known**2, 0.0))
        quantities[f"scales/{scales.place}"] = Quantity(abs(scales.unaccounted), "mass", u)


def heaviest_wheel(build: Build, result: MassResult) -> tuple[float, str]:
    """Largest load of a wheel over half the plated mass of its axle, and that axle."""
    plated = build.vehicle.plated
    front = max(result.wheels[:2]) / (plated.front / 2.0)
    rear = max(result.wheels[2:]) / (plated.rear / 2.0)
    return (front, "front") if front >= rear else (rear, "rear")


def left_surplus(result: MassResult) -> float:
    """Load of the left wheels less that of the right ones [kg]."""
    front_left, front_right, rear_left, rear_right = result.wheels
    return front_left + rear_left - front_right - rear_right


def scale_results(build: Build) -> tuple[ScaleResult, ...]:
    """Every weighing held against what was listed at that stage."""
    found = []
    for weighing in build.mass_basis.weighings:
        result = _reconciled(build, weighing)
        listed = weighing.total - result.unaccounted_mass
        at_ = None if result.place is None else (-result.place[0], result.place[1])
        found.append(
            ScaleResult(weighing.stage, weighing.date, weighing.total, listed, result.unaccounted_mass,
                        result.mass_uncertainty, result.wheel_differences, at_, result.place_uncertainty,
                        result.agrees, result.misplaced, weighing.place)
        )  # fmt: skip
    return tuple(found)


@lru_cache(maxsize=64)
def _loaded(build: Build, state: StateOfUse) -> _Loaded:
    """Moments of the bare van, everything aboard, the allowance and the people; scales on top."""
    latest = build.mass_basis.latest
    aboard = build.aboard(state)
    placed = [_placed(build, item) for item in aboard]
    weighed = [item.weighed or (latest is not None and latest.covers(item.group, item.fitting)) for item in aboard]
    unweighed = [each for each, done in zip(placed, weighed, strict=True) if not done and each.mass > 0.0]
    allowance = not_listed_allowance(placed, weighed, build.mass_basis.not_yet_listed)
    if allowance > 0.0:
        placed.append(_at_centre("not yet listed", allowance, unweighed))
    with at("vehicle"):
        loads = axle_loads([_bare(build), *placed, *_people(build, state)], axles_of(build))
    added = _NOTHING if latest is None else _reconciled(build, latest).wheel_differences
    return _Loaded(loads, tuple(unweighed), added, allowance)


def _spread(build: Build, state: StateOfUse) -> tuple[float, float, float, float]:
    """Standard uncertainty of total, front, rear [kg] and of the difference of the sides as a share.

    Masses that were computed err together, by the workshop's tolerance; readings err each on its own.
    """
    loaded = _loaded(build, state)
    share, latest = build.tolerances.mass, build.mass_basis.latest
    reading = 0.0 if latest is None else _unshared(build, latest)
    listed = axle_loads(loaded.unweighed, axles_of(build)) if loaded.unweighed else None
    total, front, rear = (0.0, 0.0, 0.0) if listed is None else (listed.total, listed.front, listed.rear)
    lean = 0.0 if listed is None else abs(2.0 * listed.left_share - 1.0) * listed.total / loaded.loads.total
    side = math.hypot(share * lean, _EMPTY_SIDE if latest is None else 2.0 * reading / loaded.loads.total,
                      *(lever for _, lever in untyped_sides(build, state)))  # fmt: skip
    root = math.sqrt(2.0) * reading
    return (
        math.hypot(share * total, 2.0 * reading),
        math.hypot(share * front, root),
        math.hypot(share * rear, root),
        side,
    )


def untyped_sides(build: Build, state: StateOfUse) -> tuple[tuple[MassItem, float], ...]:
    """What stands on the centre line because nobody says where, largest first.

    Beside each is by how much it may make left and right differ, as a share of the total: one standard uncertainty,
    alike wherever it fits between the skins. What a weighing covers is where the scales say.
    """
    latest = build.mass_basis.latest
    total = _loaded(build, state).loads.total
    found: dict[str, tuple[MassItem, float]] = {}
    for item in build.aboard(state):
        if not item.y_taken or item.y != 0.0 or (latest is not None and latest.covers(item.group, item.fitting)):
            continue
        half = min(build.vehicle.section.half_width_at(side, item.z) for side in ("left", "right"))
        leeway = max(half - _WITHIN - item.size[1] / 2.0, 0.0)
        lever = 2.0 * item.mass * leeway / math.sqrt(3.0) / (build.mass_basis.track_width * total)
        first, other = found.get(item.fitting, (item, 0.0))  # what a fitting holds stands where it stands
        found[item.fitting] = (first, other + lever)
    return tuple(sorted(found.values(), key=lambda each: -each[1]))


def _reading_uncertainty(build: Build, weighing: Weighing) -> float:
    """Standard uncertainty of one reading [kg]: the file's, or usual for scales."""
    return weighing.uncertainty or build.mass_basis.scale_uncertainty * weighing.total / 4.0


def _unshared(build: Build, weighing: Weighing) -> float:
    """Reading uncertainty that does not come as the share of an input: where the file says nothing of it."""
    return 0.0 if weighing.uncertainty > 0.0 else _reading_uncertainty(build, weighing)


def _reconciled(build: Build, weighing: Weighing) -> Reconciliation:
    """Readings against the bare van, what was aboard, and the people in the cab."""
    share = build.tolerances.mass
    aboard = [
        _placed(build, item, 0.0 if item.weighed else share * item.mass)
        for item in build.masses
        if weighing.covers(item.group, item.fitting)
    ]
    people = [PlacedMass("person", build.brief.person_mass, _seat(build, number)) for number in range(weighing.people)]
    with at(weighing.place):
        return reconcile([_bare(build), *aboard, *people], weighing.wheels, axles_of(build),
                         _reading_uncertainty(build, weighing))  # fmt: skip


def axles_of(build: Build) -> Axles:
    """Axles and tracks of the van."""
    vehicle, track = build.vehicle, build.mass_basis.track_width
    return Axles(-vehicle.front_axle, -vehicle.rear_axle, track, track)


def _bare(build: Build) -> PlacedMass:
    """Bare van; the front axle is what the rear leaves of the total."""
    kerb = build.vehicle.kerb
    with at("vehicle.kerb"):
        return vehicle_on_axles(kerb.total - kerb.rear, kerb.rear, axles_of(build), build.mass_basis.kerb_height)


def _placed(build: Build, item: MassItem, uncertainty: float = 0.0) -> PlacedMass:
    height = item.z + build.vehicle.floor_over_ground
    return PlacedMass(item.name, item.mass, (-item.station, item.y, height), uncertainty)


def _at_centre(name: str, mass: float, others: list[PlacedMass]) -> PlacedMass:
    """Mass where others have their common centre."""
    total = sum(each.mass for each in others)
    x, y, z = (sum(each.mass * each.position[axis] for each in others) / total for axis in range(3))
    return PlacedMass(name, mass, (x, y, z))


def _people(build: Build, state: StateOfUse) -> list[PlacedMass]:
    """People in the van, where they are; only states that drive are held against plated masses."""
    found = []
    for where, count in state.people:
        for number in range(count):
            found.append(PlacedMass("person", build.brief.person_mass, _position(build, where, number)))
    return found


def _people_mass(build: Build, state: StateOfUse) -> float:
    return build.brief.person_mass * sum(count for _, count in state.people)


def _position(build: Build, where: str, number: int) -> tuple[float, float, float]:
    room = next((room for room in build.rooms if room.name == where), None)
    if room is None:
        return _seat(build, number)
    over_floor = _STANDING if room.purpose == "quiet" else _SEATED
    height = build.vehicle.floor_over_ground + room.section.floor_height + over_floor
    return -(room.front + room.rear) / 2.0, 0.0, height


def _seat(build: Build, number: int) -> tuple[float, float, float]:
    y = build.mass_basis.driver_side * _SEATS[min(number, len(_SEATS) - 1)]
    return -(build.vehicle.front_axle + _CAB_STATION_BEHIND_AXLE), y, build.vehicle.floor_over_ground + _SEATED


def _centre_of(build: Build, wheels: Wheels) -> tuple[float, float]:
    """Where the centre lies by the wheels, x forward and y left [m]."""
    axles = axles_of(build)
    front_left, front_right, rear_left, rear_right = wheels
    total = sum(wheels)
    x = (axles.front * (front_left + front_right) + axles.rear * (rear_left + rear_right)) / total
    y = 0.5 * axles.front_track * (front_left - front_right) + 0.5 * axles.rear_track * (rear_left - rear_right)
    return x, y / total


def _sum(one: Wheels, other: Wheels) -> Wheels:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2], one[3] + other[3]
