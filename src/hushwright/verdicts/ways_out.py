"""Can people get out: locks, doors, ways, and the time until somebody opens; nothing here certifies anything."""

from __future__ import annotations

from dataclasses import replace

from hushwright.evaluation.results import Evaluation, Quantity
from hushwright.evaluation.results.safety import DoorOnWay, WayWalked
from hushwright.evaluation.safety.safety import kept_in, people_are_in, worst_ways
from hushwright.model.safety_in_place import WayDoorInPlace
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.safety_cases import WAY_OUT, library_case, limit_of, spoken, state_with, typed_case


def _said(evaluation: Evaluation) -> tuple[Case, ...]:
    """A room in which people are shut in or sleep asks for a way out, whatever else the file leaves out."""
    safety = evaluation.build.safety
    note = () if safety is not None else ("the file has no `safety`: nobody says how people get out",)
    cases, kept = [], kept_in(evaluation.build)
    for room in evaluation.build.rooms:
        state = state_with(evaluation, room.name)
        if room.name in kept:
            named = sum(way.room == room.name for way in safety.ways_out) if safety is not None else 0
            cases.append(Case(room.name, state, Quantity(float(named), "count", validity=note, known=not note), 1.0,
                              "a room in which people are shut in or sleep needs a way out that is thought of: common"
                              " practice, no source",
                              room.place if safety is None else "safety",
                              hint="name doors and ways out under `safety`", caution=WAY_OUT))  # fmt: skip
    return tuple(cases)


def _doors(evaluation: Evaluation) -> list[tuple[DoorOnWay, WayDoorInPlace, str]]:
    """Openings on ways out of rooms with people, each with its first state."""
    safety = evaluation.build.safety
    found = []
    for each in evaluation.safety.doors:
        door = safety.door(each.name) if safety is not None else None
        states = [way.state for way in evaluation.safety.ways if each.name in way.through]
        if door is not None and states:
            found.append((each, door, states[0]))
    return found


def _without_power(evaluation: Evaluation) -> tuple[Case, ...]:
    return tuple(
        Case(each.name, state, evaluation.quantities[f"lock-power/{each.name}"], 0.0,
             "electric locks on the way out open on loss of power: NFPA 101, public copy", each.place,
             hint="take a fail-safe lock; one that stays shut without power is not for a room with people in",
             caution=WAY_OUT, question=f"Can people open {spoken(each.name)} when power is gone?")
        for each, _, state in _doors(evaluation)
    )  # fmt: skip


def _inside(evaluation: Evaluation) -> tuple[Case, ...]:
    basis = limit_of(evaluation, "moves that open a door")[1]
    return tuple(
        Case(each.name, state, evaluation.quantities[f"inside/{each.name}"], 0.0, basis, each.place,
             hint="; ".join(("put on a lever that draws bolt and keep by one move of the"
                             " hand", *each.obstacles)), caution=WAY_OUT,
             question=f"Can people open {spoken(each.name)} from inside by one plain move of the hand?")
        for each, _, state in _doors(evaluation)
    )  # fmt: skip


def _lock_holds(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    cases = []
    for each, door, state in _doors(evaluation):
        quantity = evaluation.quantities.get(f"lock-holds/{each.name}")
        if quantity is None or safety is None or door.holding is None:
            continue
        notes = (*quantity.validity, *((safety.push.doubt,) if safety.push.doubt else ()))
        load = replace(quantity, validity=notes)
        cases.append(Case(each.name, state, load, door.holding,
                          f"holding force in the build file, against seals and a push of {safety.push.value:.0f} N"
                          f" ({safety.push.basis})", f"{each.place}.holding",
                          hint="take a lock that holds {enough}, or latches that carry the seals", caution=WAY_OUT,
                          question=f"Does the lock of {spoken(each.name)} hold against seals and a push?"))  # fmt: skip
    return tuple(cases)


def _keep_holds(evaluation: Evaluation) -> tuple[Case, ...]:
    level = evaluation.build.anchoring.design_level
    road = next((state.name for state in evaluation.build.states if state.road), "")
    cases = []
    for each, door, _ in _doors(evaluation):
        quantity = evaluation.quantities.get(f"keep-holds/{each.name}")
        if quantity is None:
            continue
        unknown = door.said and door.keep != "none" and door.keep_strength is None
        if unknown:
            notes = (*quantity.validity, f"nobody says what the keep of {each.name} holds")
            quantity = replace(quantity, validity=notes, known=False)
        basis = (f"strength of the keep in the build file, against seals and {level:g} times the weight"
                 f" ({evaluation.build.anchoring.design_basis})")  # fmt: skip
        none = door.keep in ("", "none")
        hint = "give it a keep of its own for the road" if none else "take a keep"
        hint += " that holds {enough}"
        cases.append(Case(each.name, road, quantity, door.keep_strength or 0.0, basis, f"{each.place}.keep_strength",
                          hint=hint, caution=WAY_OUT,
                          question=f"Does a keep of its own hold {spoken(each.name)} on the road?"))  # fmt: skip
    return tuple(cases)


def _occupied(evaluation: Evaluation) -> tuple[Case, ...]:
    """Doors of quiet rooms that a lock can shut."""
    quiet = {room.name for room in evaluation.build.rooms if room.purpose == "quiet"}
    first = {way.through[0] for way in evaluation.safety.ways if way.room in quiet and way.through}
    return tuple(
        Case(each.name, state, evaluation.quantities[f"occupied-alarm/{each.name}"], 1.0,
             "somebody outside must know that people are shut in: common practice, no source", each.place,
             hint="put a switch at the bolt and one at the light: an alarm when it is locked with people in",
             caution=WAY_OUT, question=f"Does an alarm tell that {spoken(each.name)} is locked with people in?")
        for each, door, state in _doors(evaluation)
        if each.name in first and door.lock != "none"
    )  # fmt: skip


def _ways_out(evaluation: Evaluation) -> tuple[Case, ...]:
    if evaluation.build.safety is None:
        return ()
    cases = []
    for room in people_are_in(evaluation.build):
        worst = worst_ways(evaluation.build, evaluation.safety.ways, room)
        state = worst[0].state if worst else state_with(evaluation, room)
        place = worst[0].place if worst else "safety.ways_out"
        cases.append(library_case(evaluation, room, state, f"ways-out/{room}", "ways out", place, hint=_why(worst),
                                  caution=WAY_OUT,
                                  question=f"Are there two ways out of the {spoken(room)}?"))  # fmt: skip
    return tuple(cases)


def _why(ways: list[WayWalked]) -> str:
    """What each way meets."""
    if not ways:
        return "name the ways out under `safety.ways_out`"
    told = []
    for way in ways:
        problems = [*way.hindrances, *(f"nobody says how {name} opens" for name in way.not_said)]
        told.append(f"{' then '.join(spoken(name) for name in way.through)}: {'; '.join(problems) or 'serves'}")
    hindered = any(way.hindrances or way.not_said for way in ways)
    return f"{'clear these or name' if hindered else 'name'} a second way out; {'. '.join(told)}"


def _swings(evaluation: Evaluation) -> tuple[Case, ...]:
    cases = {}
    for way in evaluation.safety.ways:
        for name, _, width in way.swings:
            quantity = evaluation.quantities[f"way-swing/{name}/{way.state}"]
            place = f"safety.doors.{name}.swing"
            cases[name, way.state] = Case(
                f"{name}/{way.state}", way.state, quantity, width, "width of the leaf, which needs as much depth",
                place, hint="give {short} more depth, or let it swing into the room, or slide; a shut door behind it"
                            " leaves no depth",
                caution=WAY_OUT,
                question=f"Is there depth for {spoken(name)} to swing open while what follows is shut?",
            )  # fmt: skip
    return tuple(cases.values())


def _clear(evaluation: Evaluation) -> tuple[Case, ...]:
    width, basis, doubt = limit_of(evaluation, "passing width of a way out")
    height = limit_of(evaluation, "passing height of a way out")[0]
    assert not doubt, doubt
    return tuple(
        Case(each.name, state, evaluation.quantities[f"way-clear/{each.name}"], 1.0, basis,
             f"{each.place}.clear_width" if each.said else f"openings.{each.name}",
             hint="widen it until a body passes"
                  f"; {1000 * door.clear_width:.0f} mm by {1000 * door.clear_height:.0f} mm are clear;"
                  f" a body of {1000 * width:.0f} mm by {1000 * height:.0f} mm has to pass",
             caution=WAY_OUT, question=f"Can people pass through {spoken(each.name)}?")
        for each, door, state in _doors(evaluation)
    )  # fmt: skip


def _found(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None:
        return ()
    ppm, source, _ = limit_of(evaluation, "carbon dioxide for a short time")
    cases = []
    for state in evaluation.air.states:
        for room in state.rooms:
            quantity = evaluation.quantities.get(f"found/{room.room}/{state.state}")
            if quantity is not None:
                hint = ("have somebody look in {short} sooner, or let air in without a fan; a watch outside, a door"
                        " that"
                        " opens from inside and an alarm on carbon dioxide come first"
                        f"; counted to {1e6 * ppm:.0f} ppm ({source})")  # fmt: skip
                cases.append(typed_case(f"{room.room}/{state.state}", state.state, quantity, safety.found_within,
                                        safety.found_within.place, hint=hint, caution=WAY_OUT))  # fmt: skip
    return tuple(cases)


_NO = "the file has no `safety`"
_NO_WAY = "no way out of a room with people is named"
CHECKS = (
    Check("safety-said", "Safety", "Does the file say how people get out?", "at_least", _said,
          "nobody stays shut in or sleeps in a room", counts="ways out named"),
    Check("lock-without-power", "Safety", "Do the doors open when power is gone?", "at_most", _without_power, _NO_WAY,
          counts="locks that stay shut"),
    Check("opens-from-inside", "Safety", "Do the doors open from inside by one plain move?", "at_most", _inside,
          _NO_WAY, counts="what keeps it from opening"),
    Check("lock-holds", "Safety", "Do the locks hold against seals and a push?", "at_most", _lock_holds,
          "no lock on a way out says what it holds"),
    Check("keep-holds", "Safety", "Do keeps of their own hold the doors on the road?", "at_most", _keep_holds,
          "no door of the workshop's own is on a way out, or the van does not drive"),
    Check("occupied-alarm", "Safety", "Does an alarm tell that a room is locked with people in?", "at_least", _occupied,
          "no door of a quiet room has a lock", counts="alarms at the lock"),
    Check("ways-out", "Safety", "Are there two ways out?", "at_least", _ways_out, _NO, counts="ways that serve"),
    Check("way-swing", "Safety", "Is there depth for the doors to swing?", "at_least", _swings, _NO_WAY),
    Check("way-clear", "Safety", "Can people pass through the ways out?", "at_least", _clear, _NO_WAY),
    Check("time-until-found", "Safety", "Does the air last until somebody opens?", "at_least", _found,
          "nobody stays shut in or sleeps in a room, or the file has no `safety`"),
)  # fmt: skip
