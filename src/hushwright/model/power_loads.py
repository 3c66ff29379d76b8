"""Loads of the build file in place; what cooler, fans, lamps and gear take is joined, never counted twice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hushwright.document.schema.power import Power, PowerLoad
from hushwright.model.air_in_place import AirInPlace
from hushwright.model.climate_in_place import ClimateInPlace
from hushwright.model.names import NAME
from hushwright.model.power_in_place import ALWAYS, STANDING, LoadOnBank, PlannedPhase
from hushwright.model.taking import Path, Taker, dotted
from hushwright.model.wishes import StateOfUse

FANS, COOLER, HEATER, LIGHTS, EQUIPMENT = "fans", "cooler", "heater", "lights", "equipment"
_WHOLE = (FANS, COOLER, HEATER)
"""What has its power and its duty from air and heat alone."""

_ROUNDING = 0.5
"""W, parts and whole that differ by less are equal."""

_SIDES = {FANS: "dc", COOLER: "ac", LIGHTS: "dc", EQUIPMENT: "ac"}
"""Side of what is joined and no load names; common practice, no source."""

Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class LoadsOf:
    """What loads are looked up in."""

    states: tuple[StateOfUse, ...]
    day: tuple[PlannedPhase, ...]
    air: AirInPlace
    climate: ClimateInPlace | None

    @property
    def usual(self) -> tuple[str, ...]:
        """States of the day plan that are not on the road."""
        road = {state.name for state in self.states if state.road}
        return tuple(dict.fromkeys(phase.state for phase in self.day if phase.state not in road))

    def wholes(self) -> dict[Key, float]:
        """Greatest power [W] of everything that air and heat know, by what and where; of fans whether there are any."""
        found: dict[Key, float] = {}
        if any(run.fans for run in self.air.runs):
            found[FANS, ""] = 0.0
        if self.climate is None:
            return found
        found.update({(COOLER, unit.room): unit.power_draw for unit in self.climate.coolers})
        found.update({(HEATER, unit.room): unit.power / unit.efficiency for unit in self.climate.heaters})
        for load in self.climate.loads:
            for what, power in ((LIGHTS, load.lights), (EQUIPMENT, load.equipment)):
                if power > 0.0:
                    found[what, load.room] = max(found.get((what, load.room), 0.0), power)
        return found


def check_names(taker: Taker, typed: Power) -> None:
    """Note names of sources and loads that cannot be told from paths."""
    for section in ("sources", "loads"):
        for name in getattr(typed, section):
            if not NAME.fullmatch(name):
                taker.say("name-unusable", ("power", section, name), name, "a name is made of letters, digits, _ and -",
                          "begin with a letter, without blanks or dots")  # fmt: skip


def loads_in_place(taker: Taker, typed: Power, known: LoadsOf) -> tuple[LoadOnBank, ...]:
    """Every load of the file, and what of air and heat no load takes.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    typed : Power
        What the file says.
    known : LoadsOf
        States, plan, fans, cooler, lamps and gear.

    Returns
    -------
    tuple of LoadOnBank
        In the order of the file, joined ones last.
    """
    wholes = known.wholes()
    loads = [load for name, each in typed.loads.items() if (load := _load(taker, name, each, known, wholes))]
    _check_parts(taker, loads, known)
    whole_taken = [load.of for load in loads if load.of[0] and not load.power]
    for index, key in enumerate(whole_taken):
        if key in whole_taken[:index]:
            taker.say("load-given-twice", ("power", "loads"), " ".join(key).strip(), "is taken by two loads",
                      "leave it to one of them")  # fmt: skip
    return (*loads, *_joined(taker, loads, known, wholes, whole_taken))


def _load(
    taker: Taker, name: str, typed: PowerLoad, known: LoadsOf, wholes: dict[Key, float]
) -> LoadOnBank | None:  # fmt: skip
    at: Path = ("power", "loads", name)
    states = (*(state.name for state in known.states), STANDING, ALWAYS)
    for index, state in enumerate(typed.states):
        taker.name_of(state, states, (*at, "states", index), "state")
    key = _key(taker, at, typed, wholes) if typed.of else ("", "")
    if key is None:
        return None
    power = 0.0 if typed.power is None else taker.quantity((*at, "power"), typed.power, "power", label=f"power, {name}")
    if typed.power is None and not typed.of:
        taker.say("value-needed", (*at, "power"), name, "has no power",
                  "give `power`, or `of` where the file gives it elsewhere")  # fmt: skip
    if typed.power is not None and key[0] in _WHOLE:
        taker.say("power-given-twice", (*at, "power"), name, f"the power of the {key[0]} stands elsewhere in the file",
                  "take `power` or `of` out")  # fmt: skip
    surge = 0.0 if typed.surge is None else taker.quantity((*at, "surge"), typed.surge, "power", label=f"surge, {name}")
    return LoadOnBank(
        name, typed.side, power, key, taker.quantity((*at, "duty"), typed.duty, "share", label=f"duty, {name}"),
        typed.states or (known.usual if power or not key[0] else ()), surge,
        taker.quantity((*at, "power_factor"), typed.power_factor, "share", label=f"power factor, {name}"), dotted(at),
    )  # fmt: skip


def _key(taker: Taker, at: Path, typed: PowerLoad, wholes: dict[Key, float]) -> Key | None:
    what, _, room = typed.of.strip().partition(" ")
    key = (what, room.strip())
    known = tuple(" ".join(each).strip() for each in wholes)
    if taker.name_of(" ".join(key).strip(), known, (*at, "of"), "cooler, heater, lamp, gear or fan"):
        return key
    return None


def _given(climate: ClimateInPlace | None) -> Iterator[tuple[Key, float, tuple[str, ...]]]:
    """Lamps and gear of the heat: what and where, power [W], states."""
    for load in climate.loads if climate is not None else ():
        yield (LIGHTS, load.room), load.lights, load.states
        yield (EQUIPMENT, load.room), load.equipment, load.states


def power_of_heat(climate: ClimateInPlace | None, key: Key, state: str, usual: tuple[str, ...]) -> float:
    """Power of lamps or gear in a state as the heat has it [W]; ``usual`` are the states where it names none."""
    return sum(power for each, power, states in _given(climate) if each == key and state in (states or usual))


def parts_of(loads: tuple[LoadOnBank, ...] | list[LoadOnBank], key: Key, state: str) -> float:
    """Mean power in a state of all loads that are parts of lamps or gear [W]."""
    return sum(each.power * each.duty for each in loads if each.of == key and state in each.states)


def _check_parts(taker: Taker, loads: list[LoadOnBank], known: LoadsOf) -> None:
    for load in loads:
        if load.of[0] not in (LIGHTS, EQUIPMENT) or not load.power:
            continue
        for state in load.states:
            whole, parts = power_of_heat(known.climate, load.of, state, known.usual), parts_of(loads, load.of, state)
            if state in known.usual and parts > whole + _ROUNDING:
                taker.say_fit("parts-exceed-whole", tuple(load.place.split(".")), f"{parts:.0f} W",
                              f"is what the {' of '.join(load.of)} takes in {state}; the heat counts {whole:.0f} W",
                              "raise it in `climate.loads`, or lower the loads", severity="warning")  # fmt: skip
                break


def _joined(
    taker: Taker, loads: list[LoadOnBank], known: LoadsOf, wholes: dict[Key, float], taken: list[Key]
) -> Iterator[LoadOnBank]:
    """What no load takes whole; heaters burn fuel unless a load says otherwise."""
    for key in wholes:
        what, room = key
        if what == HEATER:
            if key not in taken:
                taker.assume(("power", "loads", f"heater {room}"), f"the heater of {room} takes no power from the bank",
                             "no load of the file takes it")  # fmt: skip
            continue
        if key in taken or not _something_left(loads, known, key):
            continue
        name = " ".join(key).strip()
        taker.assume(("power", "loads", name), f"{name.replace('_', ' ')} on the {_SIDES[what]} side, as air and heat"
                     " have it", "no load of the file takes it")  # fmt: skip
        yield LoadOnBank(name, _SIDES[what], 0.0, key, 1.0, (), 0.0, 1.0, "power.loads")


def _something_left(loads: list[LoadOnBank], known: LoadsOf, key: Key) -> bool:
    if key[0] in _WHOLE:
        return True
    return any(
        power_of_heat(known.climate, key, each, known.usual) > parts_of(loads, key, each) + _ROUNDING
        for each in known.usual
    )
