"""Are people warned, and is their hearing safe: detectors, alarms through the walls, noise of a day."""

from __future__ import annotations

import math

from hushwright.evaluation.results import SILENCE, Evaluation, Quantity
from hushwright.evaluation.results.safety import AlarmInRoom, Dose, DosePart
from hushwright.evaluation.safety.doses import what_would_do
from hushwright.evaluation.safety.safety import equipment_missing, missing_in, people_are_in
from hushwright.model.safety_in_place import SafetyInPlace
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import SHORT
from hushwright.verdicts.safety_cases import ALARM, EQUIPMENT, NOISE, library_case, limit_of, spoken, state_with


def _detectors(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None:
        return ()
    basis = "; ".join(limit_of(evaluation, name)[1] for name in ("smoke alarms in a room",
                      "carbon monoxide alarms in a room", "carbon dioxide alarms in a sealed room"))  # fmt: skip
    return tuple(
        Case(room, state_with(evaluation, room), evaluation.quantities[f"detectors/{room}"], 0.0, basis,
             "safety.detectors", hint=_missing(evaluation, safety, room), caution=ALARM,
             question=f"Has the {spoken(room)} the detectors it needs?")
        for room in people_are_in(evaluation.build)
    )  # fmt: skip


def _missing(evaluation: Evaluation, safety: SafetyInPlace, room: str) -> str:
    missing = missing_in(evaluation.build, safety, room)
    return f"add detectors: {', '.join(missing)}" if missing else ""


def _equipment(evaluation: Evaluation) -> tuple[Case, ...]:
    safety, counted = evaluation.build.safety, evaluation.quantities.get("equipment")
    if safety is None or counted is None:
        return ()
    wanted = ", ".join(dict.fromkeys(safety.asked))
    basis = f"asked for: {wanted}; the file" if safety.asked_said else f"{wanted}; common practice, no source"
    missing = ", ".join(equipment_missing(safety))
    hint = f"take along: {missing}, each as a fitting and under `safety.equipment`" if missing else ""
    if not hint and not safety.asked_said:
        hint = "ask what client, venue and local rules want, and list it under `safety.equipment_asked`"
    return (Case("aboard", "", counted, 0.0, basis, "safety.equipment", hint=hint, caution=EQUIPMENT),)


def _places(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None:
        return ()
    cases = []
    for each in safety.detectors:
        name = "detector from the wall" if each.on_ceiling else "detector below the ceiling"
        key = f"{each.kind}/{each.room}"
        cases.append(library_case(evaluation, key, "", f"detector/{each.place}", name, f"{each.place}.from_edge",
                                  hint="move it {short} away from corner or edge, where air stands"
                                       " still", caution=ALARM,
                                  question=f"Does the {each.kind} detector in the {spoken(each.room)} get moving"
                                           " air?"))  # fmt: skip
        near = evaluation.quantities.get(f"detector-near/{each.place}")
        if near is not None:
            least, basis, _ = limit_of(evaluation, "detector from an appliance")
            most = limit_of(evaluation, "detector near an appliance")[0]
            cases.append(Case(f"{key}/appliance", "", near, 0.0, f"{least:g} m to {most:g} m; {basis}",
                              f"{each.place}.from_appliance", hint="move it along the ceiling by"
                                                                   " {short}", caution=ALARM,
                              question=f"Is the {each.kind} detector in the {spoken(each.room)} at the right distance"
                                       " from what burns?"))  # fmt: skip
    return tuple(cases)


def _alarms(evaluation: Evaluation) -> tuple[AlarmInRoom, ...]:
    return evaluation.safety.alarms


def _heard(evaluation: Evaluation) -> tuple[Case, ...]:
    """The alarm in the pauses, over what comes from outside and from the fans."""
    basis = limit_of(evaluation, "alarm level")[1]
    return tuple(
        Case(f"{each.room}/{each.state}", each.state, evaluation.quantities[f"alarm-heard/{each.room}/{each.state}"],
             0.0, f"65 dB(A), and 15 dB over the noise or the rule by bands; {basis}", each.place, hint=_level(each),
             caution=ALARM, question=f"Is the alarm heard in the {spoken(each.room)} while nobody plays?")
        for each in _alarms(evaluation)
        if each.sounder and f"alarm-heard/{each.room}/{each.state}" in evaluation.quantities
    )  # fmt: skip


def _wakes(evaluation: Evaluation) -> tuple[Case, ...]:
    """The alarm where people rest: light does not wake them, so it has to be heard."""
    return tuple(
        library_case(evaluation, f"{each.room}/{each.state}", each.state, f"alarm-wakes/{each.room}/{each.state}",
                     "alarm level for sleepers", each.place, hint=_louder(each), caution=ALARM,
                     question=f"Does the alarm wake people in the {spoken(each.room)}?")
        for each in _alarms(evaluation)
        if f"alarm-wakes/{each.room}/{each.state}" in evaluation.quantities
    )  # fmt: skip


def _level(each: AlarmInRoom) -> str:
    over = "the noise there is not computed" if each.noise <= SILENCE / 2.0 else f"over noise of {each.noise:.0f} dB(A)"
    return f"{_louder(each)}, {over}"


def _louder(each: AlarmInRoom) -> str:
    """What makes an alarm be heard."""
    if not each.sounder:
        return "put a sounder into the room"
    own = each.sounder == each.room
    told = f"take a sounder {SHORT} louder" if own else f"put a sounder into the room, or take one {SHORT} louder"
    return f"{told}; {_from(each)}"


def _from(each: AlarmInRoom) -> str:
    if not each.sounder:
        return "no sounder is named"
    own = "its own sounder" if each.sounder == each.room else f"the sounder in the {spoken(each.sounder)}, by the walls"
    return f"{each.level:.0f} dB(A) from {own}"


def _noticed(evaluation: Evaluation) -> tuple[Case, ...]:
    """The alarm while people play or listen, with headphones on or not: heard over it, or seen."""
    cases = []
    for each in _alarms(evaluation):
        key = f"{each.room}/{each.state}"
        over = [evaluation.quantities[name] for name in (f"alarm-played/{key}", f"alarm-worn/{key}")
                if name in evaluation.quantities]  # fmt: skip
        if f"alarm-seen/{key}" not in evaluation.quantities or (each.sounder and not over):
            continue  # people sleep there, or nothing is played there: the rule above is all
        question = f"Is the alarm noticed in the {spoken(each.room)} while people play and listen?"
        weakest = min(over, key=_surely, default=None)
        if weakest is not None and _surely(weakest) >= 0.0:
            cases.append(Case(key, each.state, weakest, 0.0, limit_of(evaluation, "alarm over noise")[1], each.place,
                              hint=f"take a louder sounder;"
                                   f" {_over(each)}", caution=ALARM, question=question))  # fmt: skip
            continue
        basis = "; ".join(limit_of(evaluation, name)[1]
                          for name in ("intensity of a visual signal", "flash rate at least"))  # fmt: skip
        hint = f"put a light that is bright enough and flashes once or twice a second in sight of all; {_over(each)}"
        cases.append(Case(key, each.state, evaluation.quantities[f"alarm-seen/{key}"], 1.0,
                          f"what is not heard has to be seen (ISO 11428, memory): {basis}", "safety.visual_signals",
                          hint=hint, caution=ALARM, question=question))  # fmt: skip
    return tuple(cases)


def _surely(quantity: Quantity) -> float:
    return quantity.value - 2.0 * quantity.standard_uncertainty


def _over(each: AlarmInRoom) -> str:
    lights = f"; {each.signals} lights, {each.seen} of them serve" if each.signals else "; no light"
    if not each.sounder:
        return f"no sounder is named{lights}"
    played = "" if each.played is None else f" over {each.played:.0f} dB(A) that are played"
    worn = "" if each.margin_worn is None else f"; with headphones on {round(each.margin_worn):+d} dB against the rule"
    return f"{each.level:.0f} dB(A){played}{worn}{lights}"


def _tone(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None:
        return ()
    limit, basis, _ = limit_of(evaluation, "highest alarm tone")
    return tuple(
        Case(f"{each.room}/{index}", "", Quantity(each.tone, "frequency"), limit, basis, f"{each.place}.tone",
             hint="take a tone at least {short} lower; walls and ageing ears take high ones, 520 Hz wakes"
                  " best", caution=ALARM)
        for index, each in enumerate(safety.sounders)
    )  # fmt: skip


def _dose(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None:
        return ()
    return tuple(
        library_case(evaluation, each.who, "", f"dose/{each.who}", f"noise exposure, {safety.noise_rule}", each.place,
                     hint=_quieter_day(evaluation, each, safety.noise_rule), caution=NOISE,
                     question=f"Is the noise of a day bearable for {spoken(each.who)}?")
        for each in evaluation.safety.doses
    )  # fmt: skip


def _quieter_day(evaluation: Evaluation, dose: Dose, rule: str) -> str:
    """What to turn down, or how long it may last, until the whole day is surely bearable."""
    if not dose.parts:
        return "type the level, or say in which state takes are recorded (`takes: yes`)"
    limit, _, _ = limit_of(evaluation, f"noise exposure, {rule}")
    enough = limit - 2.0 * evaluation.quantities[f"dose/{dose.who}"].standard_uncertainty
    found = what_would_do(dose, enough)
    ranked = sorted(dose.parts, key=lambda each: -each.share)[:2]
    most = f"most of the day's noise is {', '.join(map(_told, ranked))}"
    if found is None:
        return f"turn everything down by {SHORT}, or share the time among more people; {most}"
    part, down, time = found
    if down <= 0.0:
        return f"keep it so; {most}"
    do = f"turn down by {math.ceil(10.0 * down) / 10.0:g} dB"
    if part.of == "headphones turned up":
        do = f"set a `limiter` of {math.floor(part.level - down):.0f} dB(A)"
    return f"{do}: {_which(part)}; or let it last {hours(time)} a day at most; {most}"


def _told(part: DosePart) -> str:
    return f"{_which(part)} for {hours(part.duration)}, {100 * part.share:.0f} %"


def _which(part: DosePart) -> str:
    return f"{named_part(part)}, {part.level:.0f} dB(A)"


def named_part(part: DosePart) -> str:
    """Part of a day in words."""
    if part.of.startswith("headphones"):
        return f"headphones {spoken(part.point)}{part.of.removeprefix('headphones')}"
    return {"typed": "level as typed", "monitors": "monitors and what comes through the wall"}.get(part.of, part.of)


def hours(time: float) -> str:
    """Time of a day, rounded down so that it is kept.

    Examples
    --------
    >>> hours(5400.0), hours(1259.0), hours(44.2)
    ('1.5 h', '20 min', '44 s')
    """
    if time < 60.0:
        return f"{math.floor(time):.0f} s"
    return f"{math.floor(time / 60.0):.0f} min" if time < 3600.0 else f"{math.floor(time / 360.0) / 10.0:g} h"


def _peak(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None:
        return ()
    return tuple(
        library_case(evaluation, each.who, "", f"peak/{each.who}", "noise peak, EU", f"{each.place}.peak",
                     hint="keep away from what bangs, or take {short} off by plugs", caution=NOISE,
                     question=f"Are the peaks bearable for {spoken(each.who)}?")
        for each in safety.exposures
        if each.peak is not None
    )  # fmt: skip


_NO = "the file has no `safety`"
CHECKS = (
    Check("detectors", "Safety", "Have the rooms the detectors they need?", "at_most", _detectors, _NO,
          counts="detectors that are missing"),
    Check("equipment", "Safety", "Is the equipment for fire, way out and first aid aboard?", "at_most", _equipment,
          "the file names no equipment under `safety`", counts="pieces of equipment that are missing"),
    Check("detector-place", "Safety", "Do the detectors get moving air?", "at_least", _places, "no detector is named"),
    Check("alarm-heard", "Safety", "Is the alarm heard while nobody plays?", "at_least", _heard,
          "no sounder is named, or no takes are recorded"),
    Check("alarm-noticed", "Safety", "Is the alarm noticed while people play and listen?", "at_least", _noticed,
          "no alarm is named, or nothing is played", counts="lights that serve"),
    Check("alarm-wakes", "Safety", "Does the alarm wake people who sleep?", "at_least", _wakes,
          "nobody rests in any state, or no alarm is named"),
    Check("alarm-tone", "Safety", "Is the tone of the alarm low enough?", "at_most", _tone, "no sounder is named"),
    Check("noise-exposure", "Safety", "Is the noise of a day bearable?", "at_most", _dose,
          "no noise of a day is named"),
    Check("noise-peak", "Safety", "Are the peaks bearable?", "at_most", _peak, "no peak level is named"),
)  # fmt: skip
