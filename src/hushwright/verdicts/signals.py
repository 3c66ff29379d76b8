"""Do signals arrive: treble, hum, earths, glands, headphones, and gear that microphones hear."""

from __future__ import annotations

import math
from collections.abc import Callable

from hushwright.evaluation.results import Evaluation, Quantity
from hushwright.evaluation.results.signals import AmplifierResult, GearInState, LineResult, SignalResults
from hushwright.library.records import Limit
from hushwright.model.signals_in_place import GearInPlace, SignalsInPlace
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import SHORT

_EARS = (
    "Loud sound at the ear harms hearing for good, and nobody feels it come; turn down before you put headphones on."
    " Local rules on noise at work decide."
)
_MAINS = "Never part a protective earth against hum: work on mains and earths is for a licensed electrician."
_WORKDAY = 8.0  # h
_HALVES = 3.0  # dB by which the time of the same dose is halved
_TOLD = 4


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def _basis(evaluation: Evaluation, name: str) -> str:
    """Limit as asked for in the brief, or where the usual one comes from."""
    path = f"brief.signals.{name}"
    left_out = next((each for each in evaluation.assumptions if each.path == path), None)
    return "limit in the brief" if left_out is None else f"usual limit: {left_out.source}"


def _signals(evaluation: Evaluation) -> tuple[SignalsInPlace, SignalResults] | None:
    signals = evaluation.build.signals
    return None if signals is None else (signals, evaluation.signals)


def _treble(evaluation: Evaluation) -> tuple[Case, ...]:
    given = _signals(evaluation)
    lines = [each for each in evaluation.signals.lines if each.roll_off is not None and math.isfinite(each.roll_off)]
    if given is None or not lines:
        return ()
    worst = min(lines, key=lambda each: each.roll_off or 0.0)
    ratio = (worst.roll_off or 0.0) * 0.4 / given[0].limits.treble  # a spread of 0.3 taken twice off
    hint = (f"shorten the cable to {worst.length * min(ratio, 1.0):.1f} m from {worst.length:.1f} m, or take less"
            f" capacitance or source impedance by as much; dullest is {_spoken(worst.name)}")  # fmt: skip
    return (Case(worst.name, "", evaluation.quantities[f"line-treble/{worst.name}"], given[0].limits.treble,
                 _basis(evaluation, "treble"), worst.place, hint=hint),)  # fmt: skip


def _hum(evaluation: Evaluation) -> tuple[Case, ...]:
    given = _signals(evaluation)
    lines = [each for each in evaluation.signals.lines if each.hum is not None]
    if given is None or not lines:
        return ()
    worst = min(lines, key=lambda each: each.hum or 0.0)
    causes = ", ".join(f"{what} {level:.0f} dB under it" for what, level in worst.hum_from[:_TOLD])
    hint = (f"part earths by a transformer, go farther from power, cross it at a right angle: {SHORT} less are wanted;"
            f" most in {_spoken(worst.name)}, by {causes}")  # fmt: skip
    return (Case(worst.name, "", evaluation.quantities[f"line-hum/{worst.name}"], given[0].limits.hum,
                 _basis(evaluation, "hum"), worst.place, hint=hint, caution=_MAINS),)  # fmt: skip


def _counted(
    key: str, wrong: Callable[[LineResult], bool], basis: str, hint: str, caution: str = ""
) -> Callable[[Evaluation], tuple[Case, ...]]:
    """Cases of a number of cables that is to be none."""

    def cases(evaluation: Evaluation) -> tuple[Case, ...]:
        lines = evaluation.signals.lines
        if not lines:
            return ()
        found = [each for each in lines if wrong(each)]
        named = ", ".join(_named(each, key) for each in found[:_TOLD])
        return (Case("lines", "", evaluation.quantities[key], 0.0, basis, found[0].place if found else "signals.lines",
                     hint=f"{hint}: {named}" if found else "", caution=caution),)  # fmt: skip

    return cases


def _named(line: LineResult, key: str) -> str:
    return f"{_spoken(line.name)} ({', '.join(line.unpassed)})" if key == "lines-unpassed" else _spoken(line.name)


def _glands(evaluation: Evaluation) -> tuple[Case, ...]:
    glands = evaluation.signals.glands
    if not glands:
        return ()
    worst = max(glands, key=lambda each: evaluation.quantities[f"gland/{each.name}"].value)
    hint = (f"widen it, or lead cables elsewhere; fullest is {_spoken(worst.name)}: its {worst.cables} cables fill"
            f" {100 * worst.fill:.0f} % of"
            f" it, {100 * worst.permitted:.0f} % go through; the thickest is {1000 * worst.thickest:.0f} mm in"
            f" {1000 * worst.width:.0f} mm")  # fmt: skip
    return (Case(worst.name, "", evaluation.quantities[f"gland/{worst.name}"], 1.0,
                 "NEC, chapter 9, table 1: 53 % for one cable, 31 % for two, 40 % for more", worst.place,
                 hint=hint),)  # fmt: skip


def _points(evaluation: Evaluation) -> tuple[Case, ...]:
    given = _signals(evaluation)
    if given is None:
        return ()
    return tuple(
        Case(place, "", evaluation.quantities[f"headphone-points/{place}"], float(number),
             "asked for in the brief" if where.startswith("brief") else "one for everybody in the room during takes",
             where, question=f"Are there enough headphone points: {_spoken(place)}?",
             hint="add {short} of them, at a new point or as sockets at one")
        for place, number, where in given[0].wanted
    )  # fmt: skip


def _loud(evaluation: Evaluation) -> tuple[Case, ...]:
    given, points = _signals(evaluation), evaluation.signals.points
    if given is None or not points:
        return ()
    worst = min(points, key=lambda each: each.in_use)
    crest = evaluation.build.library.find(Limit, "crest of music")
    listening = given[0].limits.listening
    hint = f"take {SHORT} more voltage or sensitivity; softest is {_spoken(worst.name)} with all headphones plugged in"
    return (Case(worst.name, "", evaluation.quantities[f"headphone-loud/{worst.name}"],
                 listening + crest.value.value,
                 f"{listening:g} dB(A) while listening and {crest.value.value:g} dB for peaks: {crest.source}",
                 worst.place, hint=hint),)  # fmt: skip


def _ceiling(evaluation: Evaluation) -> tuple[Case, ...]:
    given, points = _signals(evaluation), evaluation.signals.points
    if given is None or not points:
        return ()
    worst = max(points, key=lambda each: each.most)
    hint = (f"set a `limiter`, less voltage or a resistor in series: {SHORT} less; loudest is {_spoken(worst.name)},"
            f" {worst.alone:.0f} dB(A) when one headphone alone is plugged in and turned right up")  # fmt: skip
    return (Case(worst.name, "", evaluation.quantities[f"headphone-most/{worst.name}"], given[0].limits.ceiling,
                 _basis(evaluation, "ceiling"), worst.place, hint=hint, caution=_EARS),)  # fmt: skip


def _listening(evaluation: Evaluation) -> tuple[Case, ...]:
    given = _signals(evaluation)
    quantity = evaluation.quantities.get("headphone-listening")
    if given is None or quantity is None:
        return ()
    limit = evaluation.build.library.find(Limit, "level at the ear while listening")
    hours = _WORKDAY * 2.0 ** ((limit.value.value - quantity.value) / _HALVES)
    hint = f"turn down by {SHORT}, or listen for {hours:.1f} h a day at most: then the dose of a day is reached"
    return (Case("day", "", quantity, limit.value.value, str(limit.source), "brief.signals.listening", hint=hint,
                 caution=_EARS),)  # fmt: skip


def _lighter(evaluation: Evaluation, each: AmplifierResult, lowest: float) -> str:
    """How much more impedance the headphones together need."""
    quantity = evaluation.quantities[f"headphone-load/{each.name}"]
    sure = max(quantity.value - 2.0 * quantity.standard_uncertainty, 1e-9)
    return (f"use headphones of {max(lowest / sure, 1.0):.1f} times the impedance, or a second amplifier;"
            f" {each.number} headphones lie in parallel")  # fmt: skip


def _load(evaluation: Evaluation) -> tuple[Case, ...]:
    given = _signals(evaluation)
    if given is None:
        return ()
    lowest = {each.name: each.lowest_load for each in given[0].amplifiers}
    return tuple(
        Case(each.name, "", evaluation.quantities[f"headphone-load/{each.name}"], lowest[each.name],
             "lowest load of the amplifier in the build file", f"{each.place}.lowest_load",
             question=f"Can the amplifier drive its headphones: {_spoken(each.name)}?",
             hint=_lighter(evaluation, each, lowest[each.name]))
        for each in evaluation.signals.amplifiers
    )  # fmt: skip


def _talkback(evaluation: Evaluation) -> tuple[Case, ...]:
    quantity = evaluation.quantities.get("talkback")
    if quantity is None:
        return ()
    return (Case("quiet room", "", quantity, 1.0,
                 "people in a closed room are told what goes on: common practice, no source", "signals.lines",
                 hint="add a line of the kind `talkback` from the control room to the quiet room"),)  # fmt: skip


def _gear(evaluation: Evaluation) -> tuple[Case, ...]:
    given = _signals(evaluation)
    if given is None:
        return ()
    return tuple(
        Case(each.state, each.state, evaluation.quantities[f"gear/{each.state}"], given[0].limits.gear,
             _basis(evaluation, "gear"), each.sources[0].place, hint=_loudest(each))
        for each in evaluation.signals.gear
    )  # fmt: skip


def _loudest(found: GearInState) -> str:
    known = sorted((each for each in found.sources if each.level is not None), key=lambda each: -(each.level or 0.0))
    told = ", ".join(
        f"{_spoken(each.name)} {each.level:.0f} dB(A)" for each in known[:_TOLD] if each.level and each.level > 0.0
    )
    silent = ", ".join(_spoken(each.name) for each in found.sources if each.level is None)
    parts = [f"listen to, measure, or ask the supplier about: {silent}"] if silent else []
    parts += [f"quieten or move out, for {SHORT} less: {told}"] if told else []
    return "; ".join(parts)


def _dimmers(evaluation: Evaluation) -> tuple[Case, ...]:
    given = _signals(evaluation)
    if given is None:
        return ()
    limit = evaluation.build.library.find(Limit, "frequency of dimmers")
    pulsing = [each for each in given[0].gear if each.what == "dimmer" and each.frequency != 0.0]
    return tuple(
        Case(each.name, "", _frequency(each), limit.value.value, f"usual limit: {limit.source}", each.place,
             question=f"Do the pulses of the dimmer lie above hearing: {_spoken(each.name)}?",
             hint="take a steady dimmer (`frequency: 0 Hz`) or one that pulses above 20 kHz; keep its lines from"
             " signals")
        for each in pulsing
    )  # fmt: skip


def _frequency(dimmer: GearInPlace) -> Quantity:
    if dimmer.frequency is None:
        return Quantity(0.0, "frequency", validity=("the file does not say at which frequency it pulses",))
    return Quantity(dimmer.frequency, "frequency", 0.0)


_NO_LINES = "the file names no lines in `signals`"
_NO_POINTS = "the file names no headphones in `signals`"
CHECKS = (
    Check("line-treble", "Signals", "Do lines for sound carry the treble?", "at_least", _treble,
          "no line for sound in `signals`"),
    Check("line-hum", "Signals", "Does hum stay far enough under the signal?", "at_least", _hum,
          "no line for sound beside power or between two earths"),
    Check("star-earth", "Signals", "Does everything hang on one earth?", "at_most",
          _counted("lines-joining-earths", lambda each: each.joins_earths,
                   "one star earth, lines to any other parted by a transformer or light: common practice, no source",
                   "put in a transformer or light (`isolated: yes`), or bring its gear to the star", _MAINS),
          _NO_LINES, counts="cables between two earths"),
    Check("through-glands", "Signals", "Do all cables pass walls through a gland?", "at_most",
          _counted("lines-unpassed", lambda each: bool(each.unpassed),
                   "a cable that passes a wall beside its glands is a leak: common practice, no source",
                   "lead them through an opening or cut and name it in `passes`"), _NO_LINES,
          counts="cables beside the glands"),
    Check("cable-bridges", "Signals", "Do cables leave the floating room free?", "at_most",
          _counted("lines-bridging", lambda each: each.bridges,
                   "what is clipped on both sides goes round the mounts: common practice, no source",
                   "hang them in a loose loop (`loop: yes`); until then they are bridges in the isolation"), _NO_LINES,
          counts="cables without a loop"),
    Check("gland-fill", "Signals", "Do the cables fit through their glands?", "at_most", _glands,
          "no line passes a gland, hole or cut"),
    Check("headphone-points", "Signals", "Are there enough headphone points?", "at_least", _points,
          "no signals, or nobody in a room during takes", counts="headphone points"),
    Check("headphone-loud", "Signals", "Are headphones loud enough with all plugged in?", "at_least", _loud,
          _NO_POINTS),
    Check("headphone-ceiling", "Signals", "Can no headphone become too loud?", "at_most", _ceiling, _NO_POINTS),
    Check("headphone-listening", "Signals", "Can people listen at that level for a day?", "at_most", _listening,
          _NO_POINTS),
    Check("headphone-load", "Signals", "Can the amplifiers drive their headphones?", "at_least", _load, _NO_POINTS),
    Check("talkback", "Signals", "Can the control room talk to the quiet room?", "at_least", _talkback,
          "no signals, or no quiet room beside a control room", counts="talkback lines"),
    Check("gear-sound", "Signals", "Is gear quiet enough at the microphones?", "at_most", _gear,
          "no gear in `signals`, or no state in which takes are recorded"),
    Check("dimmer-frequency", "Signals", "Do the pulses of dimmers lie above hearing?", "at_least", _dimmers,
          "no dimmer that pulses"),
)  # fmt: skip
