"""Can people breathe: carbon dioxide, fresh air, humidity, draught; and can the fans run during takes."""

from __future__ import annotations

from hushwright.evaluation.air.air import warning_limit
from hushwright.evaluation.results import Evaluation, Quantity
from hushwright.evaluation.results.air import AirState, FanSound, RoomAir, RunFlow
from hushwright.evaluation.sound.deciding import deciding_paths
from hushwright.evaluation.sound.fans_alone import strictest_situation
from hushwright.library.records import Limit
from hushwright.model.build import Target
from hushwright.model.names import headcount
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import SHORT
from hushwright.verdicts.quiet import what_to_quieten

SEALED = (
    "A sealed room holds minutes of good air. A carbon dioxide alarm, a door that opens from inside without power and"
    " someone who watches come before any figure here; local codes and licensed practice decide."
)
_LEAST_LOSS = 1.0
"""Pa, below which a piece is not named."""


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def _basis(evaluation: Evaluation, name: str) -> str:
    """Limit as asked for in the brief, or where the usual one comes from."""
    path = f"brief.air.{name}"
    left_out = next((each for each in evaluation.assumptions if each.path == path), None)
    return "limit in the brief" if left_out is None else f"usual limit: {left_out.source}"


def _rooms(evaluation: Evaluation) -> list[tuple[AirState, RoomAir]]:
    """Every room with people in it in every state."""
    return [(state, room) for state in evaluation.air.states for room in state.rooms if room.people]


def _steady(evaluation: Evaluation) -> tuple[Case, ...]:
    air = evaluation.build.air
    return tuple(
        Case(f"{room.room}/{state.state}", state.state,
             quantity := evaluation.quantities[f"co2-steady/{room.room}/{state.state}"],
             air.carbon_dioxide, _basis(evaluation, "carbon_dioxide"), "brief.air.carbon_dioxide",
             hint=_more_air(state, room, _for_settled(evaluation, room, quantity)), caution=SEALED,
             question=f"Does the air in the {_spoken(room.room)} stay good however long people are there?")
        for state, room in _rooms(evaluation)
    )  # fmt: skip


def _more_air(state: AirState, room: RoomAir, limit: float) -> str:
    """What would do, what reaches the people, and the pieces that hold the air up most."""
    get = "gets" if room.people == 1 else "get"
    told = (f"{headcount(room.people)} {get} {1000 * room.supplied:.0f} l/s through the runs, as good as"
            f" {1000 * room.outdoor_air:.0f} l/s from outdoors")  # fmt: skip
    return "; ".join([_wanted(room, limit), told, *_tightest(state)])


def _wanted(room: RoomAir, wanted: float) -> str:
    """Outdoor air that would do, in l/s [m³/s typed]."""
    instead = f" instead of {1000 * room.outdoor_air:.0f} l/s" if room.outdoor_air > 0.0 else ""
    if not wanted > 0.0:
        return f"let outdoor air into the {_spoken(room.room)}"
    return f"bring {1000 * wanted:.0f} l/s of outdoor air into the {_spoken(room.room)}{instead}, or fewer people"


def _for_settled(evaluation: Evaluation, room: RoomAir, quantity: Quantity) -> float:
    """Outdoor air [m³/s] by which the settled excess, which goes down as one over it, surely stays under the limit."""
    outdoors = evaluation.build.air.outdoor_carbon_dioxide
    allowed = evaluation.build.air.carbon_dioxide - outdoors
    return room.outdoor_air * (room.carbon_dioxide - outdoors + 2.0 * quantity.standard_uncertainty) / allowed


def _for_people(evaluation: Evaluation, room: RoomAir, quantity: Quantity) -> float:
    """Outdoor air [m³/s] by which each person surely gets enough; the spread is a share of the flow."""
    share = quantity.standard_uncertainty / quantity.value if quantity.value > 0.0 else 0.0
    return evaluation.build.air.fresh_air * room.people / max(1.0 - 2.0 * share, 0.1)


def _tightest(state: AirState) -> list[str]:
    """The two pieces with the largest loss of all runs."""
    losses = [(loss, f"{name} of {_spoken(run.run)} {loss:.0f} Pa") for run in state.runs for name, loss in run.losses]
    named = [text for loss, text in sorted(losses, reverse=True)[:2] if loss >= _LEAST_LOSS]
    return ["most pressure goes to: " + ", ".join(named)] if named else []


def _session(evaluation: Evaluation) -> tuple[Case, ...]:
    session = evaluation.air.session
    if session is None:
        return ()
    minutes = session.times[-1] / 60.0
    cases = []
    for room in session.rooms:
        quantity = evaluation.quantities.get(f"co2-session/{room}")
        if quantity is None:
            continue
        values = session.of(room)
        when = session.times[values.index(max(values))]
        state = next((name for name, begin, end in session.phases if begin <= when <= end), "")
        cases.append(Case(room, state, quantity, evaluation.build.air.carbon_dioxide,
                          _basis(evaluation, "carbon_dioxide"), "brief.session",
                          hint=f"open doors sooner, or bring more air, for {SHORT} less; highest after"
                               f" {when / 60.0:.0f} of"
                          f" {minutes:.0f} min",
                          caution=SEALED,
                          question=f"Does the air in the {_spoken(room)} stay good over the session?"))  # fmt: skip
    return tuple(cases)


def _without_fan(evaluation: Evaluation) -> tuple[Case, ...]:
    air, warning = evaluation.build.air, warning_limit(evaluation.build)
    quiet = {room.name for room in evaluation.build.rooms if room.purpose == "quiet"}
    states = {state.name: state for state in evaluation.build.states}
    source = evaluation.build.library.find(Limit, "carbon dioxide that warns").source
    cases = []
    for state, room in _rooms(evaluation):
        quantity = evaluation.quantities.get(f"without-fan/{room.room}/{state.state}")
        rests = states[state.state].rest_in(room.room)
        if quantity is not None and (room.room in quiet or rests):
            basis = f"{_basis(evaluation, 'without_fan')}; air is bad from {1e6 * warning:.0f} ppm on: {source}"
            cases.append(Case(f"{room.room}/{state.state}", state.state, quantity, air.without_fan, basis,
                              "brief.air.without_fan", hint=f"{_AIR_WITHOUT_FAN};"
                                                            f" {_minutes(room)}" + (_ASLEEP if rests else ""),
                              caution=SEALED))  # fmt: skip
    return tuple(cases)


_AIR_WITHOUT_FAN = f"let air in without a fan, or take fewer people or a larger room: {SHORT} more are wanted"
_ASLEEP = "; people who sleep notice nothing: an alarm of carbon dioxide, or a way for air that needs no fan"


def _minutes(room: RoomAir) -> str:
    """Every limit with the time until it is met."""
    told = [
        f"{1e6 * limit:.0f} ppm {'at once' if time <= 0.0 else f'after {time / 60.0:.0f} min'}"
        for limit, time in room.without_fan
        if time < float("inf")
    ]
    return "with stopped fans: " + (", ".join(told) if told else "the air stays as it is")


def _fresh_air(evaluation: Evaluation) -> tuple[Case, ...]:
    quiet = {room.name for room in evaluation.build.rooms if room.purpose == "quiet"}
    takes = {state.name for state in evaluation.build.states if state.takes}
    return tuple(
        Case(f"{room.room}/{state.state}", state.state,
             quantity := evaluation.quantities[f"fresh-air/{room.room}/{state.state}"],
             evaluation.build.air.fresh_air, _basis(evaluation, "fresh_air"), "brief.air.fresh_air",
             hint=_more_air(state, room, _for_people(evaluation, room, quantity)), caution=SEALED)
        for state, room in _rooms(evaluation)
        if room.room in quiet and state.state in takes
    )  # fmt: skip


def _run_flow(evaluation: Evaluation) -> tuple[Case, ...]:
    cases = []
    for state in evaluation.air.states:
        for each in state.runs:
            quantity = evaluation.quantities.get(f"run-flow/{each.run}/{state.state}")
            run = evaluation.build.air.run(each.run)
            if quantity is None or run is None:
                continue
            ranked = sorted(each.losses, key=lambda pair: -pair[1])[:3]
            hint = f"{_stronger(each, quantity)}; its pressure goes to: " + ", ".join(
                f"{name} {loss:.0f} Pa" for name, loss in ranked
            )
            cases.append(Case(f"{each.run}/{state.state}", state.state, quantity, each.wanted,
                              "flow that the build file wants of this run; what arrives counts, never a fan's label",
                              f"{run.place}.wanted", hint=hint, caution=SEALED,
                              question=f"Does as much air flow through {_spoken(each.run)} as is wanted?"))  # fmt: skip
    return tuple(cases)


def _stronger(run: RunFlow, quantity: Quantity) -> str:
    """Fan that moves what is wanted: what the pieces lose grows with the square of the flow."""
    lost = sum(loss for _, loss in run.losses)
    if run.wanted is None or quantity.value <= 0.0 or lost <= 0.0:
        return "put a fan on it, or free its way"
    wanted = run.wanted / max(1.0 - 2.0 * quantity.standard_uncertainty / quantity.value, 0.1)
    pressure = lost * (wanted / quantity.value) ** 2
    return (f"take a fan that gives {1000 * wanted:.1f} l/s at {pressure:.1f} Pa instead of"
            f" {1000 * quantity.value:.1f} l/s at {lost:.1f} Pa, or wider pieces")  # fmt: skip


def _humidity(evaluation: Evaluation) -> tuple[Case, ...]:
    temperature = evaluation.build.brief.air_temperature
    return tuple(
        Case(f"{room.room}/{state.state}", state.state, evaluation.quantities[f"humidity/{room.room}/{state.state}"],
             evaluation.build.air.humidity, _basis(evaluation, "humidity"), "brief.air.humidity",
             hint=f"bring in more air, or dry it, for {SHORT} less; counted at the brief's {temperature:.0f} °C; a"
                  f" warmer room is drier, a colder one damper",
             caution=SEALED, question=f"Does the {_spoken(room.room)} stay dry enough?")
        for state, room in _rooms(evaluation)
    )  # fmt: skip


def _terminal(evaluation: Evaluation) -> tuple[Case, ...]:
    return _at_terminals(evaluation, "terminal", evaluation.build.air.terminal_speed, "terminal_speed",
                         "take a larger or freer grille, until the air is {short} slower")  # fmt: skip


def _draught(evaluation: Evaluation) -> tuple[Case, ...]:
    return _at_terminals(evaluation, "draught", evaluation.build.air.draught, "draught",
                         "point the outlet away from people, or spread its air over a large face")  # fmt: skip


def _at_terminals(evaluation: Evaluation, key: str, limit: float, name: str, hint: str) -> tuple[Case, ...]:
    cases = []
    for state in evaluation.air.states:
        peopled = {room.room for room in state.rooms if room.people}
        for each in state.terminals:
            run = evaluation.build.air.run(each.run)
            if each.room in peopled and run is not None:
                told = f"{hint}; {each.velocity:.1f} m/s in the grille, {each.at_neck:.2f} m/s at the nearest neck"
                cases.append(Case(f"{each.run}/{state.state}", state.state,
                                  evaluation.quantities[f"{key}/{each.run}/{state.state}"], limit,
                                  _basis(evaluation, name), run.place, hint=told, caution=SEALED))  # fmt: skip
    return tuple(cases)


def _fans_alone(evaluation: Evaluation) -> tuple[Case, ...]:
    target = evaluation.build.air.fans_alone
    return tuple(_heard(evaluation, found, "fans-alone", target, "brief.air.fans_alone") for found in
                 evaluation.air.sounds)  # fmt: skip


def _fans_in_takes(evaluation: Evaluation) -> tuple[Case, ...]:
    situation = strictest_situation(evaluation.build)
    if situation is None:
        return ()
    return tuple(
        _heard(evaluation, found, "fans-in-takes", situation.target, situation.place, f" ({situation.name})")
        for found in evaluation.air.sounds
    )


def _heard(evaluation: Evaluation, found: FanSound, key: str, target: Target | None, place: str, of: str = "") -> Case:
    limit = None if target is None else 0.0 if target.kind == "hearing test" else target.value
    basis = "the brief names no limit" if target is None else f"{target.basis}{of}"
    shares = "; ".join(
        f"{situation}: fans {100 * fan:.0f} %, moving air {100 * flow:.0f} %, everything else {100 * rest:.0f} % of the"
        " background"
        for situation, fan, flow, rest in found.shares
    )
    quantity = evaluation.quantities[f"{key}/{found.state}"]
    band, paths = deciding_paths(found, target)
    over = 0.0 if limit is None else quantity.value - limit
    hint = "; ".join(text for text in (what_to_quieten(paths, over, quantity, band), shares) if text)
    return Case(found.state, found.state, quantity, limit, basis, place, hint=hint)


_NOBODY = "nobody is in a room in any state"
_NO_FANS = "no fan runs while takes are recorded in a quiet room"
CHECKS = (
    Check("fans-alone", "Quiet", "Are fans and air quiet enough on their own?", "at_most", _fans_alone, _NO_FANS),
    Check("fans-in-takes", "Quiet", "Can the fans run during takes?", "at_most", _fans_in_takes, _NO_FANS),
    Check("co2-steady", "Air", "Does the air stay good however long people are there?", "at_most", _steady, _NOBODY),
    Check("co2-session", "Air", "Does the air stay good over the session?", "at_most", _session, _NOBODY),
    Check("without-fan", "Air", "Is there time to notice that the fans have stopped?", "at_least", _without_fan,
          "nobody is in a quiet room, and nobody rests in a room"),
    Check("fresh-air", "Air", "Does each person in the quiet room get enough air?", "at_least", _fresh_air,
          "nobody is in a quiet room while takes are recorded"),
    Check("run-flow", "Air", "Does as much air flow as is wanted?", "at_least", _run_flow,
          "no run says how much air is wanted of it, or no fan runs"),
    Check("humidity", "Air", "Do the rooms stay dry enough?", "at_most", _humidity, _NOBODY),
    Check("terminal", "Air", "Is the air slow enough in the grilles?", "at_most", _terminal,
          "no run brings air to people"),
    Check("draught", "Air", "Do people sit without a draught?", "at_most", _draught, "no run brings air to people"),
)  # fmt: skip
