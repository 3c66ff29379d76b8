"""What must go or move for the van to be legal on its wheels: the fewest fittings, largest help first."""

from __future__ import annotations

from hushwright.evaluation.mass.mass import axles_of
from hushwright.evaluation.results import Quantity
from hushwright.evaluation.results.mass import MassChange, MassResult
from hushwright.model.build import Build, MassItem, StateOfUse

_MOST = 6  # fittings named; a build that needs more is another build
_CLEAR = 0.3  # m kept from the ends of the load space by the centre of what is moved; common practice, no source
_WORTH = 0.2  # m, way from which it is worth moving something; common practice, no source


def changes_of(build: Build, masses: tuple[MassResult, ...], quantities: dict[str, Quantity]) -> tuple[MassChange, ...]:
    """Changes for every road state that is not within its plated masses with twice the uncertainty."""
    found: list[MassChange] = []
    for state, result in zip(build.states, masses, strict=True):
        if state.road:
            found += _for_state(build, state, result, quantities)
    return tuple(found)


def _for_state(
    build: Build, state: StateOfUse, result: MassResult, quantities: dict[str, Quantity]
) -> list[MassChange]:
    plated = build.vehicle.plated
    items = _movable(build, state)
    excess = _excess(quantities[f"payload/{state.name}"], plated.total)
    taken = _taken_out(state.name, items, excess)
    gone = {change.fitting for change in taken}
    left = [item for item in items if item.name not in gone]
    relief = _relief(build, [item for item in items if item.name in gone])
    moved: list[MassChange] = []
    for axle, most, rear in (("front", plated.front, False), ("rear", plated.rear, True)):
        over = _excess(quantities[f"{axle}-axle/{state.name}"], most) - relief[rear]
        moved += _moved(build, state.name, left, over, forward=rear)
    return taken + moved


def _excess(quantity: Quantity, most: float) -> float:
    """Mass [kg] that is too much for the limit to be kept with twice the uncertainty."""
    return quantity.value + 2.0 * quantity.standard_uncertainty - most


def _movable(build: Build, state: StateOfUse) -> list[MassItem]:
    """Fittings and liquids aboard, heaviest first; what is built in is not carried out."""
    items = [item for item in build.aboard(state) if item.fitting and item.mass > 0.0]
    return sorted(items, key=lambda item: -item.mass)


def _taken_out(state: str, items: list[MassItem], excess: float) -> list[MassChange]:
    """Greedy: the lightest single fitting that is enough, else the heaviest and on."""
    found: list[MassChange] = []
    rest = list(items)
    while excess > 0.0 and rest and len(found) < _MOST:
        enough = [item for item in rest if item.mass >= excess]
        item = enough[-1] if enough else rest[0]
        rest.remove(item)
        excess -= item.mass
        found.append(MassChange(state, item.name, item.mass, item.station, None))
    return found


def _relief(build: Build, gone: list[MassItem]) -> tuple[float, float]:
    """What the front and the rear axle lose [kg] by what is taken out."""
    vehicle = build.vehicle
    wheelbase = axles_of(build).wheelbase
    rear = sum(item.mass * (item.station - vehicle.front_axle) for item in gone) / wheelbase
    return sum(item.mass for item in gone) - rear, rear


def _moved(build: Build, state: str, items: list[MassItem], over: float, *, forward: bool) -> list[MassChange]:
    """Greedy: what helps an axle most by going to the other end, and only as far as is needed."""
    wheelbase = axles_of(build).wheelbase
    end = _CLEAR if forward else build.vehicle.load_length - _CLEAR

    def way(item: MassItem) -> float:
        return item.station - end if forward else end - item.station

    found: list[MassChange] = []
    for item in sorted(items, key=lambda each: -each.mass * max(way(each), 0.0)):
        if over <= 0.0 or len(found) >= _MOST or way(item) < _WORTH:
            break
        needed = min(over * wheelbase / item.mass, way(item))
        over -= item.mass * needed / wheelbase
        to = item.station - needed if forward else item.station + needed
        found.append(MassChange(state, item.name, item.mass, item.station, to))
    return found
