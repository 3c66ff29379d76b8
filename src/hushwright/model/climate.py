"""Place, weather, heater, cooler and lamps of the build file in place."""

from __future__ import annotations

import re
from collections.abc import Iterable

from hushwright.document.schema import BuildFile
from hushwright.document.schema.climate import MONTHS, Climate, CoolerUnit, DesignDay, HeaterUnit, HeatWishes, RoomLoad
from hushwright.library.library import UnknownRecord
from hushwright.library.records import Limit, Spread
from hushwright.library.thermal import ThermalMaterial
from hushwright.model.climate_in_place import (
    ClimateInPlace,
    CoolerInPlace,
    DayInPlace,
    HeaterInPlace,
    HeatLimits,
    LoadInPlace,
    PlaceOnEarth,
    YearInPlace,
)
from hushwright.model.faces import LayerInPlace, Room
from hushwright.model.parts import OpeningInPlace
from hushwright.model.taking import COMMON, Path, Taker, dotted
from hushwright.model.wishes import StateOfUse
from hushwright.units import Kind

_MONTHS = tuple(month[:3].casefold() for month in MONTHS)
_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_DATE = re.compile(r"(?:(\d{1,2})\.? +([a-z]{3,9})|([a-z]{3,9}) +(\d{1,2}))")
_COIL_BELOW_AIR = 2.0  # K; a coil that is as warm as the air cools nothing
_DAY = 86_400.0
_IN_GENERAL = {"skin": "any sheet", "limp": "any limp barrier", "damping": "any damping layer"}
"""Row for layers whose material has none, by kind; else `any` and the kind."""


def resolve_climate(
    taker: Taker, root: BuildFile, states: tuple[StateOfUse, ...], rooms: tuple[Room, ...],
    openings: tuple[OpeningInPlace, ...],
) -> ClimateInPlace | None:  # fmt: skip
    """Resolve `climate` and `brief.heat`; `None` where the file has no climate.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    root : BuildFile
        The build file.
    states : tuple of StateOfUse
        Its states.
    rooms : tuple of Room
        Rooms in place, for the layers.
    openings : tuple of OpeningInPlace
        Openings in place, for theirs.

    Returns
    -------
    ClimateInPlace or None
        Weather, units, loads, limits, materials.
    """
    typed = root.climate
    if typed is None:
        if root.brief.heat is not None and root.rooms:
            taker.say("key-without-effect", ("brief", "heat"), "heat", "is asked for, but the file has no climate",
                      "add `climate:` with place and weather", severity="warning")  # fmt: skip
        return None
    names = tuple(state.name for state in states)
    days = tuple(each for name in ("hottest", "coldest") if (each := _day(taker, name, getattr(typed, name))))
    begins = taker.quantity(("climate", "session_begins"), typed.session_begins, "time")
    _check_session(taker, root, begins)
    heaters = tuple(_heater(taker, root, names, index, each) for index, each in enumerate(typed.heaters))
    coolers = tuple(_cooler(taker, root, names, index, each) for index, each in enumerate(typed.coolers))
    _check_once(taker, "heaters", [each.room for each in heaters])
    _check_once(taker, "coolers", [each.room for each in coolers])
    return ClimateInPlace(
        stands=_stands(taker, typed),
        wind=taker.quantity(("climate", "wind"), typed.wind, "speed"),
        colour=taker.convention(("climate", "colour"), typed.colour, "share", "colour of the skin",
                                "share of the sun that the paint takes up"),
        days=days,
        year=_year(taker, typed),
        session_begins=begins,
        warm_up=taker.quantity(("climate", "warm_up"), typed.warm_up, "time"),
        heaters=heaters,
        coolers=coolers,
        loads=tuple(_load(taker, root, names, index, each) for index, each in enumerate(typed.loads)),
        limits=_limits(taker, root.brief.heat or HeatWishes()),
        materials=_materials(taker, rooms, openings),
    )  # fmt: skip


def _stands(taker: Taker, typed: Climate) -> PlaceOnEarth:
    def take(name: str, kind: Kind) -> float:
        return taker.quantity(("climate", name), getattr(typed, name), kind)

    return PlaceOnEarth(take("latitude", "latitude"), take("longitude", "angle"), take("altitude", "length"),
                        take("heading", "angle"), take("ground", "share"))  # fmt: skip


def _day(taker: Taker, name: str, typed: DesignDay | None) -> DayInPlace | None:
    if typed is None:
        return None
    at: Path = ("climate", name)
    day = day_of_year(typed.date)
    if day is None:
        taker.say("date-unreadable", (*at, "date"), typed.date, "is no day of the year", "write `21 July`")
        return None
    highest = taker.quantity((*at, "highest"), typed.highest, "temperature", label=f"highest on the {name} day")
    lowest = taker.quantity((*at, "lowest"), typed.lowest, "temperature", label=f"lowest on the {name} day")
    if lowest > highest:
        taker.say_fit("temperatures-reversed", (*at, "lowest"), f"{lowest:.1f} °C",
                      f"the highest of the day is {highest:.1f} °C", "swap the two")  # fmt: skip
    humidity = taker.quantity((*at, "humidity"), typed.humidity, "share", fallback=Spread(0.45, 0.2, 0.9))
    return DayInPlace(name, day, max(highest, lowest), min(highest, lowest), humidity, typed.sky, dotted(at))


def day_of_year(text: str) -> int | None:
    """Day of a year of 365 days, from 1 on; `None` for what is no date.

    Examples
    --------
    >>> day_of_year("21 July"), day_of_year("July 21"), day_of_year("1 Jan"), day_of_year("31 June")
    (202, 202, 1, None)
    """
    found = _DATE.fullmatch(" ".join(text.casefold().split()))
    if found is None:
        return None
    number, month = int(found[1] or found[4]), (found[2] or found[3])[:3]
    if month not in _MONTHS or not 1 <= number <= _DAYS[_MONTHS.index(month)]:
        return None
    return sum(_DAYS[: _MONTHS.index(month)]) + number


def _year(taker: Taker, typed: Climate) -> YearInPlace | None:
    year = typed.year
    if year is None:
        return None
    at: Path = ("climate", "year")

    def take(name: str, kind: Kind, low: float, high: float) -> float:
        return taker.quantity((*at, name), getattr(year, name), kind, label=f"{name.replace('_', ' ')} of the year",
                              fallback=Spread((low + high) / 2.0, low, high))  # fmt: skip

    found = YearInPlace(take("coldest", "temperature", -5.0, 5.0), take("warmest", "temperature", 15.0, 22.0),
                        take("humidity_in_cold", "share", 0.8, 0.9), take("humidity_in_warmth", "share", 0.65, 0.75),
                        take("in_use", "share", 0.1, 0.4))  # fmt: skip
    if found.coldest > found.warmest:
        taker.say_fit("temperatures-reversed", (*at, "coldest"), f"{found.coldest:.1f} °C",
                      f"the warmest month has {found.warmest:.1f} °C", "swap the two")  # fmt: skip
    return found


def _check_session(taker: Taker, root: BuildFile, begins: float) -> None:
    length = sum(phase.duration.value for phase in root.brief.session)
    if begins + length > _DAY:
        taker.say("session-past-midnight", ("climate", "session_begins"), f"{begins / 3600.0:.1f} h",
                  f"a session of {length / 3600.0:.1f} h goes on after midnight; heat is computed until then",
                  "begin earlier", severity="warning")  # fmt: skip


def _known(taker: Taker, root: BuildFile, names: tuple[str, ...], at: Path, room: str, states: tuple[str, ...],
           key: str) -> None:  # fmt: skip
    taker.name_of(room, tuple(root.rooms), (*at, "room"), "room")
    for index, state in enumerate(states):
        taker.name_of(state, names, (*at, key, index), "state")


def _heater(taker: Taker, root: BuildFile, names: tuple[str, ...], index: int, typed: HeaterUnit) -> HeaterInPlace:
    at: Path = ("climate", "heaters", index)
    _known(taker, root, names, at, typed.room, typed.runs_in, "runs_in")
    return HeaterInPlace(
        typed.room,
        taker.quantity((*at, "power"), typed.power, "power", label="power of the heater"),
        taker.quantity((*at, "setpoint"), typed.setpoint, "temperature", label="setpoint of the heater"),
        taker.quantity((*at, "efficiency"), typed.efficiency, "share", label="efficiency of the heater"),
        typed.runs_in,
        dotted(at),
    )


def _cooler(taker: Taker, root: BuildFile, names: tuple[str, ...], index: int, typed: CoolerUnit) -> CoolerInPlace:
    at: Path = ("climate", "coolers", index)
    _known(taker, root, names, at, typed.room, typed.runs_in, "runs_in")
    setpoint = taker.quantity((*at, "setpoint"), typed.setpoint, "temperature", label="setpoint of the cooler")
    coil = taker.quantity((*at, "coil"), typed.coil, "temperature", label="coil of the cooler")
    if coil > setpoint - _COIL_BELOW_AIR:
        taker.say("coil-too-warm", (*at, "coil"), f"{coil:.1f} °C",
                  f"the room is to be {setpoint:.1f} °C; the coil must be {_COIL_BELOW_AIR:.0f} K colder",
                  "read the cooler's data again")  # fmt: skip
    return CoolerInPlace(
        typed.room,
        taker.quantity((*at, "capacity"), typed.capacity, "power", label="capacity of the cooler"),
        taker.quantity((*at, "power_draw"), typed.power_draw, "power", label="power draw of the cooler"),
        setpoint,
        coil,
        taker.quantity((*at, "fades"), typed.fades, "share", label="capacity lost for each kelvin"),
        typed.silent_in_takes == "yes",
        typed.runs_in,
        dotted(at),
    )


def _check_once(taker: Taker, key: str, rooms: list[str]) -> None:
    for index, room in enumerate(rooms):
        if room in rooms[:index]:
            taker.say("unit-given-twice", ("climate", key, index, "room"), room,
                      f"has one of the {key} already", "add up their power in one")  # fmt: skip


def _load(taker: Taker, root: BuildFile, names: tuple[str, ...], index: int, typed: RoomLoad) -> LoadInPlace:
    at: Path = ("climate", "loads", index)
    _known(taker, root, names, at, typed.room, typed.states, "states")
    return LoadInPlace(
        typed.room,
        taker.quantity((*at, "lights"), typed.lights, "power", label=f"lamps in {typed.room}"),
        taker.quantity((*at, "equipment"), typed.equipment, "power", label=f"gear in {typed.room}"),
        typed.states,
    )


def _limits(taker: Taker, typed: HeatWishes) -> HeatLimits:
    def take(name: str, kind: Kind, limit: str, label: str) -> float:
        return taker.convention(("brief", "heat", name), getattr(typed, name), kind, limit, label)

    found = HeatLimits(
        take("warmest", "temperature", "warmest room", "warmest in a room"),
        take("coldest", "temperature", "coldest room", "coldest in a room"),
        take("without_cooler", "time", "time without cooler", "time without cooler"),
        take("surface_humidity", "share", "humidity at surfaces", "most humidity at surfaces"),
        take("water_in_walls", "surface_density", "water in a build-up", "most water in a build-up"),
        taker.library.find(Limit, "water left after a year").value.value,
    )
    if found.coldest > found.warmest:
        taker.say_fit("temperatures-reversed", ("brief", "heat"), f"{found.coldest:.1f} °C",
                      f"is the least and {found.warmest:.1f} °C the most that is asked for",
                      "swap the two")  # fmt: skip
    return found


def _materials(
    taker: Taker, rooms: Iterable[Room], openings: Iterable[OpeningInPlace]
) -> tuple[tuple[str, ThermalMaterial], ...]:
    """Heat and vapour values of every material that stands in a layer, by the name of its record."""
    found: dict[str, ThermalMaterial] = {}
    layers = [layer for room in rooms for surface in room.surfaces for layer in surface.layers]
    for layer in (*layers, *(layer for each in openings for layer in each.layers)):
        for name, kind in _materials_of(layer):
            if name not in found:
                found[name] = _material(taker, name, kind, layer.place)
    for treatment in (each for room in rooms for each in room.treatments):
        if treatment.blanket.name not in found:
            found[treatment.blanket.name] = _material(taker, treatment.blanket.name, "blanket", treatment.place)
    return tuple(found.items())


def _materials_of(layer: LayerInPlace) -> list[tuple[str, str]]:
    """Names and kinds of what a layer is made of."""
    if layer.cavity is None:
        name = getattr(layer.record, "name", "")
        return [(name, layer.kind)] if name else []
    found = []
    if layer.cavity.fill is not None:
        found.append((layer.cavity.fill.name, "blanket"))
    if layer.cavity.frame is not None:
        found.append((layer.cavity.frame.sheet.name, "sheet"))
    return found


def _material(taker: Taker, name: str, kind: str, place: str) -> ThermalMaterial:
    try:
        return taker.library.find(ThermalMaterial, name)
    except UnknownRecord:
        general = taker.library.find(ThermalMaterial, _IN_GENERAL.get(kind, f"any {kind}"))
        taker.assume((*place.split("."), "heat"), f"{name} passes heat and vapour like {general.name}", COMMON)
        return general
