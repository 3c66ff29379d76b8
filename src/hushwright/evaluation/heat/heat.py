"""Heat and moisture of a Build: faces, hottest and coldest day, water in build-ups, and what is judged of them."""

from __future__ import annotations

from functools import lru_cache

from hushwright.evaluation.heat.case import Heated, heated
from hushwright.evaluation.heat.day import DayCase, day_of
from hushwright.evaluation.heat.people import Acting, acting_in
from hushwright.evaluation.heat.walls import (
    SUNLIT,
    UNDERSIDE,
    Wall,
    build_up_of,
    faces_of,
    panes_of,
    surface_factor_of,
    surfaces_of,
    walls_of,
)
from hushwright.evaluation.heat.water import DampWall, RoomYear, months_in_use, months_of, vapour_excess, water_of
from hushwright.evaluation.results import REPORTED, Quantity
from hushwright.evaluation.results.air import AirResults
from hushwright.evaluation.results.heat import (
    NO_HEAT,
    FaceWater,
    HeatDay,
    HeatResults,
    SilentCooler,
)
from hushwright.model.build import Build, Room
from hushwright.model.climate_in_place import DayInPlace
from hushwright.physics.thermal.rooms import Envelope, RoomNode

_DAY = 86_400.0
_STANDARD_WIND = 4.0
"""m/s, ISO 6946; the coldest day."""

_FURNITURE = 1e4
"""J/(m²·K) of floor, furniture that follows the air; ISO 52016-1, annex B (memory)."""

_WARM, _COLD = 1.5, 1.0
"""K, standard uncertainty of an air temperature on the hottest and coldest day: one temperature a room, conductivities,
absorptance; common practice, no source."""

_SILENT = 0.25
"""Share [-], standard uncertainty of the time until a room is too warm; common practice, no source."""

_MOMENT = 30.0
"""s, that and not less is known of a time; common practice, no source."""

_DAMP = 0.05
"""Standard uncertainty [-] of a relative humidity at a surface; common practice, no source."""

_WATER = 0.3
"""Share [-], standard uncertainty of water in a build-up: vapour resistances; common practice, no source."""

_TRACE = 0.002
"""kg/m², water that nobody can tell from none; common practice, no source."""

_LONGEST = 4.0 * 3600.0
"""s, time that is told where a room never gets too warm; common practice, no source."""


def heat_of_build(build: Build, air: AirResults, quantities: dict[str, Quantity]) -> HeatResults:
    """Add the quantities of heat to those that are there, and give the results behind them.

    Parameters
    ----------
    build : Build
        What is there.
    air : AirResults
        What people breathe, for the moisture they give off.
    quantities : dict
        Takes up what verdicts judge.

    Returns
    -------
    HeatResults
        Nothing where the file has no climate or no room.
    """
    case = heated(build, air)
    if case is None:
        return NO_HEAT
    found = _results(case)
    _day_quantities(found.days, quantities)
    _silent_quantities(found.silent, quantities)
    _water_quantities(found.water, quantities)
    return found


@lru_cache(maxsize=64)
def _results(case: Heated) -> HeatResults:
    walls = walls_of(case)
    days: list[HeatDay] = []
    silent: tuple[SilentCooler, ...] = ()
    for day in case.climate.days:
        found, stopped = day_of(_day_case(case, walls, day))
        days.append(found)
        silent = (*silent, *stopped)
    return HeatResults(faces_of(case, walls), tuple(days), silent, _water(case, walls))


def _day_case(case: Heated, walls: tuple[Wall, ...], day: DayInPlace) -> DayCase:
    hot, climate = day.name == "hottest", case.climate
    wind = climate.wind if hot else _STANDARD_WIND
    temperature = climate.limits.warmest if hot else climate.limits.coldest
    used = dict.fromkeys(phase.state for phase in case.air.session)
    acting = tuple(acting_in(case, state, flows, temperature)
                   for state, flows in zip(case.states, case.flows, strict=True) if state.name in used)  # fmt: skip
    outer = [each for each in walls if _outer(each)]
    return DayCase(
        day, climate.stands, climate.colour, wind,
        tuple(_room(room) for room in case.rooms),
        tuple(_envelope(case, wall, wind, hot=hot) for wall in walls),
        tuple((each.room, each.name, surface_factor_of(case, each)) for each in outer),
        panes_of(case), acting, _phases(case, acting), climate.warm_up, climate.heaters, climate.coolers,
        climate.limits.warmest,
    )  # fmt: skip


def _phases(case: Heated, acting: tuple[Acting, ...]) -> tuple[tuple[str, float, float], ...]:
    """Parts of the session after midnight; what goes beyond the day is cut off."""
    found, begin = [], case.climate.session_begins
    known = {each.state for each in acting}
    for phase in case.air.session:
        end = min(begin + phase.duration, _DAY)
        if end > begin and phase.state in known:
            found.append((phase.state, begin, end))
        begin = end
    return tuple(found)


def _room(room: Room) -> RoomNode:
    """Air of a room with its furniture; what people take of it changes no temperature."""
    return RoomNode(room.name, room.volume, _FURNITURE * room.section.floor_width * room.length)


def _envelope(case: Heated, wall: Wall, wind: float, *, hot: bool) -> Envelope:
    build_up = build_up_of(case, wall, hot=hot)
    around = surfaces_of(case, wall, build_up.heat_flow, wind)
    core = build_up.resistance(around).value - around.inside - around.outside
    skin, leaf = build_up.capacities()
    return Envelope(wall.name, wall.room, wall.beyond, wall.area, around.outside, skin, core, leaf, around.inside)


def _water(case: Heated, walls: tuple[Wall, ...]) -> tuple[FaceWater, ...]:
    """Water in every build-up towards outdoors; people give moisture off as in the first take."""
    year, day = case.climate.year, case.climate.day("coldest")
    if year is None:
        return ()
    coldest = (day.highest + day.lowest) / 2.0 if day is not None else None
    found = []
    for wall in walls:
        if not _outer(wall):
            continue
        build_up = build_up_of(case, wall, hot=False)
        around = surfaces_of(case, wall, build_up.heat_flow, _STANDARD_WIND)
        here = next((each for each in case.moist if each.room == wall.room), None)
        excess = 0.0 if here is None else vapour_excess(here, case.temperature, case.air.outdoor_temperature,
                                                        case.air.outdoor_humidity)  # fmt: skip
        damp = DampWall(wall.name, wall.room, build_up, surface_factor_of(case, wall), around.outside,
                        around.inside, wall.place)  # fmt: skip
        room = RoomYear(case.temperature, excess, coldest)
        found.append(water_of(damp, months_of(year, room), months_in_use(year, room)))
    return tuple(found)


def _outer(wall: Wall) -> bool:
    """Whether a wall stands towards outdoors."""
    return wall.beyond.startswith(SUNLIT) or wall.beyond == UNDERSIDE


def _day_quantities(days: tuple[HeatDay, ...], quantities: dict[str, Quantity]) -> None:
    for day in days:
        for each in day.states:
            key = f"{each.room}/{each.state}"
            if day.name == "hottest":
                quantities[f"warmest/{key}"] = Quantity(each.highest, "temperature", _WARM, validity=day.notes)
            else:
                quantities[f"coldest/{key}"] = Quantity(each.lowest, "temperature", _COLD, validity=day.notes)
        if day.name == "coldest":
            for dew in day.dew:
                quantities[f"dew/{dew.room}"] = Quantity(dew.humidity, "share", _DAMP, validity=day.notes)


def _silent_quantities(silent: tuple[SilentCooler, ...], quantities: dict[str, Quantity]) -> None:
    for each in silent:
        if each.time is None:
            found = Quantity(_LONGEST, "time", _SILENT * _LONGEST,
                             validity=(f"{REPORTED}it never gets too warm; four hours are told",))  # fmt: skip
        else:
            found = Quantity(each.time, "time", max(_SILENT * each.time, _MOMENT))
        quantities[f"without-cooler/{each.room}/{each.state}"] = found


def _water_quantities(water: tuple[FaceWater, ...], quantities: dict[str, Quantity]) -> None:
    for room in dict.fromkeys(each.room for each in water):
        here = [each for each in water if each.room == room]
        peak, left = max(each.peak for each in here), max(each.left for each in here)
        damp = max(each.surface_humidity for each in here)
        quantities[f"mould/{room}"] = Quantity(damp, "share", _DAMP)
        quantities[f"wall-water/{room}"] = Quantity(peak, "surface_density", max(_WATER * peak, _TRACE))
        quantities[f"wall-drying/{room}"] = Quantity(left, "surface_density", max(_WATER * left, _TRACE))
