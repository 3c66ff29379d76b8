"""Ventilation, people and session of the build file in place."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.document.schema.air import AirSupply, DuctRun, OutdoorAir
from hushwright.document.schema.air_wishes import AirWishes, PeopleGroup
from hushwright.document.schema.rooms import State
from hushwright.document.values import Value
from hushwright.library.records import Limit, Spread
from hushwright.model.air_in_place import OUTDOORS, AirInPlace, PhaseInPlace, RunInPlace
from hushwright.model.brief import read_target
from hushwright.model.duct_pieces import pieces_of
from hushwright.model.names import headcount
from hushwright.model.taking import COMMON, Path, Taker, dotted
from hushwright.model.wishes import PeopleInPlace, StateOfUse
from hushwright.units import Kind

USUAL_STATES = ("record", "drive")
"""States of a file that names none."""

_TARGETS: tuple[tuple[str, str, Kind, str], ...] = (
    ("carbon_dioxide", "carbon dioxide in rooms", "concentration", "most carbon dioxide"),
    ("fresh_air", "fresh air per person", "volume_flow", "air for each person"),
    ("humidity", "relative humidity of rooms", "share", "most relative humidity"),
    ("draught", "share who feel draught", "share", "share who may feel a draught"),
    ("terminal_speed", "speed at grilles", "speed", "speed at grilles"),
    ("without_fan", "time without fans", "time", "time without fans"),
)
_OUTDOORS: tuple[tuple[str, Kind, Spread], ...] = (
    ("carbon_dioxide", "concentration", Spread(420e-6, 400e-6, 500e-6)),
    ("temperature", "temperature", Spread(15.0, 0.0, 30.0)),
    ("humidity", "share", Spread(0.75, 0.4, 0.95)),
)
"""Air outside where the file says unknown; common practice, no source."""


def resolve_air(taker: Taker, root: BuildFile, states: tuple[StateOfUse, ...]) -> AirInPlace:
    """Resolve `air`, `brief.air` and `brief.session`.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    root : BuildFile
        The build file.
    states : tuple of StateOfUse
        Its states.

    Returns
    -------
    AirInPlace
        Also where the file has no ventilation: then no run brings air.
    """
    supply = root.air or AirSupply()
    wishes = root.brief.air or AirWishes()
    names = tuple(state.name for state in states)
    targets = {name: _target(taker, wishes, name, limit, kind, label) for name, limit, kind, label in _TARGETS}
    outside = _outdoors(taker, supply)
    at: Path = ("brief", "air", "fans_alone")
    return AirInPlace(
        runs=tuple(run for name, typed in supply.runs.items() if (run := _run(taker, root, name, typed, names))),
        leaks=_leaks(taker, root, supply),
        outdoor_carbon_dioxide=outside["carbon_dioxide"],
        outdoor_temperature=outside["temperature"],
        outdoor_humidity=outside["humidity"],
        **targets,
        door_difference=taker.library.find(Limit, "temperature between rooms").value.value,
        fans_alone=read_target(taker, wishes.fans_alone, at, 0.0, "") if wishes.fans_alone else None,
        session=_session(taker, root, states),
    )


def _target(taker: Taker, wishes: AirWishes, name: str, limit: str, kind: Kind, label: str) -> float:
    given: Value | None = getattr(wishes, name)
    return taker.convention(("brief", "air", name), given, kind, limit, label)


def _outdoors(taker: Taker, supply: AirSupply) -> dict[str, float]:
    typed = supply.outdoors or OutdoorAir()
    if supply.outdoors is None:
        taker.assume(("air", "outdoors"), "outdoors 420 ppm of carbon dioxide, 15 °C and 75 % humidity", COMMON)
    return {
        name: taker.quantity(("air", "outdoors", name), getattr(typed, name), kind, fallback=spread,
                             label=f"{name.replace('_', ' ')} outdoors")
        for name, kind, spread in _OUTDOORS
    }  # fmt: skip


def _run(taker: Taker, root: BuildFile, name: str, typed: DuctRun, states: tuple[str, ...]) -> RunInPlace | None:
    at: Path = ("air", "runs", name)
    ends = (*root.rooms, OUTDOORS)
    known = [taker.name_of(getattr(typed, key), ends, (*at, key), "room") for key in ("takes_from", "gives_to")]
    for index, state in enumerate(typed.runs_in):
        taker.name_of(state, states, (*at, "runs_in", index), "state")
    if not all(known):
        return None
    if typed.takes_from == typed.gives_to:
        taker.say("run-in-a-circle", (*at, "gives_to"), typed.gives_to, "takes its air from where it gives it to",
                  "name two ends")  # fmt: skip
        return None
    pieces = pieces_of(taker, typed.elements, (*at, "elements"), to_people=typed.gives_to != OUTDOORS)
    if not pieces:
        return None
    wanted = None if typed.wanted is None else taker.quantity((*at, "wanted"), typed.wanted, "volume_flow")
    run = RunInPlace(name, typed.takes_from, typed.gives_to, typed.runs_in, wanted, typed.outdoor_end, pieces,
                     dotted(at))  # fmt: skip
    if typed.runs_in and not run.fans:
        taker.say("key-without-effect", (*at, "runs_in"), ", ".join(typed.runs_in), "the run has no fan",
                  "add a `fan` to its pieces, or take `runs_in` out", severity="warning")  # fmt: skip
    return run


def _leaks(taker: Taker, root: BuildFile, supply: AirSupply) -> tuple[tuple[str, float], ...]:
    found = []
    for room, given in supply.leaks.items():
        at: Path = ("air", "leaks", room)
        if taker.name_of(room, tuple(root.rooms), at, "room"):
            found.append((room, taker.quantity(at, given, "area", label=f"leakage of {room.replace('_', ' ')}")))
    if not supply.leaks:
        taker.assume(("air", "leaks"), "rooms leak no air but through runs and open doors", "safe side")
    return tuple(found)


def _session(taker: Taker, root: BuildFile, states: tuple[StateOfUse, ...]) -> tuple[PhaseInPlace, ...]:
    names = tuple(state.name for state in states)
    at: Path = ("brief", "session")
    if not root.brief.session:
        first = next((state for state in states if state.takes), states[0])
        limit = taker.library.find(Limit, "length of a take session")
        taker.assume(at, f"a session of {limit.value.value / 60:.0f} min in state {first.name}", str(limit.source))
        return (PhaseInPlace(first.name, limit.value.value),)
    return tuple(
        PhaseInPlace(phase.state, taker.quantity((*at, index, "duration"), phase.duration, "time"))
        for index, phase in enumerate(root.brief.session)
        if taker.name_of(phase.state, names, (*at, index, "state"), "state")
    )


def people_in_state(taker: Taker, root: BuildFile, name: str, typed: State) -> tuple[PeopleInPlace, ...]:
    """Everybody in a room in one state, with what they do; those not named do the usual."""
    at: Path = ("states", name, "who")
    found: list[PeopleInPlace] = []
    named: dict[str, int] = {}
    for index, group in enumerate(typed.who):
        if taker.name_of(group.room, tuple(root.rooms), (*at, index, "room"), "room"):
            found.append(_group(group))
            named[group.room] = named.get(group.room, 0) + group.number
    for room, count in typed.people.items():
        left = count - named.get(room, 0)
        if room in root.rooms and left > 0:
            found.append(usual_people(root, room, left))
            taker.assume((*at, room), f"{headcount(left)} {found[-1].activity} in {room.replace('_', ' ')}", COMMON)
    for room, count in named.items():
        if count > typed.people.get(room, 0):
            taker.say("more-who-than-people", at, f"{count} in {room}",
                      f"the state has {headcount(typed.people.get(room, 0))} there; all that are named breathe",
                      "make `people` and `who` agree", severity="warning")  # fmt: skip
    return tuple(found)


def _group(group: PeopleGroup) -> PeopleInPlace:
    return PeopleInPlace(group.room, group.number, group.activity, group.sex, group.age)


def usual_people(root: BuildFile, room: str, number: int) -> PeopleInPlace:
    """Others in a room: they sing where music is recorded, talk in other quiet rooms, else sit at a desk."""
    quiet = root.rooms[room].purpose == "quiet"
    activity = ("singing" if root.brief.use == "recording" else "talking") if quiet else "at the desk"
    return PeopleInPlace(room, number, activity)


def running_in(root: BuildFile, state: str) -> tuple[str, ...]:
    """Runs whose fans run in a state."""
    runs = root.air.runs if root.air is not None else {}
    return tuple(
        name for name, run in runs.items() if state in run.runs_in and any(each.key == "fan" for each in run.elements)
    )
