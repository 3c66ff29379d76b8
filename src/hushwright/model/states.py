"""States of use, and how closely the workshop builds."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.document.schema.rooms import State, Tolerances
from hushwright.library.records import Spread
from hushwright.model.air import people_in_state, running_in, usual_people
from hushwright.model.build import StateOfUse, ToleranceSet
from hushwright.model.names import headcount
from hushwright.model.taking import Path, Taker

CAB = "cab"
_MASS_SHARE = 0.05  # plus or minus, of masses computed from densities; common practice, no source


def resolve_states(taker: Taker, root: BuildFile) -> tuple[StateOfUse, ...]:
    """States of use; one for takes and one for the road when the file names none."""
    if not root.states:
        taker.assume(("states",), "two states: takes with one person in each room, and the road", "nothing is given")
        rooms = tuple((name, 1) for name, room in root.rooms.items() if room.purpose in ("quiet", "control"))
        who = tuple(usual_people(root, name, count) for name, count in rooms)
        return (
            StateOfUse("record", rooms, (), False, True, running_in(root, "record"), who=who),
            StateOfUse("drive", ((CAB, root.brief.crew_on_the_road),), (), True, False, running_in(root, "drive")),
        )
    return tuple(_state(taker, root, name, typed) for name, typed in root.states.items())


def _state(taker: Taker, root: BuildFile, name: str, typed: State) -> StateOfUse:
    for opening in typed.open:
        taker.name_of(opening, tuple(root.openings), ("states", name, "open"), "opening")
    for room in typed.people:
        taker.name_of(room, (*root.rooms, CAB), ("states", name, "people", room), "room")
    people = dict(typed.people)
    road, takes = typed.road == "yes", typed.takes == "yes"
    if road:
        people = _crew(taker, root, name, people)
    if people.get(CAB, 0) > root.vehicle.seats:
        taker.say("more-people-than-seats", ("states", name, "people", CAB), str(people[CAB]),
                  f"the cab has {root.vehicle.seats} seats", "one seat a person", severity="warning")  # fmt: skip
    return StateOfUse(name, tuple(people.items()), typed.open, road, takes, running_in(root, name), typed.out,
                      typed.unloaded, _fittings_in(taker, root, name, typed),
                      people_in_state(taker, root, name, typed))  # fmt: skip


def _fittings_in(taker: Taker, root: BuildFile, name: str, typed: State) -> tuple[tuple[str, float], ...]:
    """Check what a state says of fittings; how full it leaves the tanks."""
    at: Path = ("states", name)
    fittings = {fitting.name: fitting for fitting in root.fittings}
    for index, fitting in enumerate(typed.out):
        known = taker.name_of(fitting, tuple(fittings), (*at, "out", index), "fitting")
        if known and fittings[fitting].out is None:
            taker.say("nowhere-to-go", (*at, "out", index), fitting, "has no `out` place",
                      "say under the fitting where its centre is then")  # fmt: skip
    for index, fitting in enumerate(typed.unloaded):
        taker.name_of(fitting, tuple(fittings), (*at, "unloaded", index), "fitting")
    found = []
    for fitting, share in typed.full.items():
        here: Path = (*at, "full", fitting)
        if taker.name_of(fitting, tuple(each for each in fittings if fittings[each].litres is not None), here, "tank"):
            found.append((fitting, taker.quantity(here, share, "share", label=f"{fitting}, how full")))
    return tuple(found)


def _crew(taker: Taker, root: BuildFile, name: str, people: dict[str, int]) -> dict[str, int]:
    """People on the road: as the state says, else the brief's crew in the cab."""
    crew = root.brief.crew_on_the_road
    if CAB not in people:
        taker.assume(("states", name, "people", CAB), f"{headcount(crew)} in the cab on the road",
                     "brief: crew_on_the_road")  # fmt: skip
        return {**people, CAB: crew}
    if people[CAB] != crew and "crew_on_the_road" in root.brief.model_fields_set:
        taker.say("crew-differs", ("states", name, "people", CAB), str(people[CAB]),
                  f"the brief has a crew of {crew} on the road; the state's own number counts",
                  "make them one", severity="warning")  # fmt: skip
    return people


def resolve_tolerances(taker: Taker, root: BuildFile) -> ToleranceSet:
    """How closely the workshop builds, as standard uncertainties."""
    typed = root.tolerances or Tolerances()
    at: Path = ("tolerances",)
    if root.tolerances is None:
        taker.assume((*at, "mass"), f"computed masses hold within {_MASS_SHARE:.0%}", "common practice, no source")
    return ToleranceSet(
        taker.convention((*at, "headroom"), typed.headroom, "length", "build tolerance", "spread of the height") / 2.0,
        taker.convention((*at, "width"), typed.width, "length", "build tolerance", "spread of the width") / 2.0,
        taker.quantity((*at, "mass"), typed.mass, "share", fallback=Spread.point(_MASS_SHARE)) / 2.0,
        typed.measured_vans,
    )  # fmt: skip
