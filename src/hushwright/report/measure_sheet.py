"""A sheet to take to the donor van: what to measure, where, and what each value is worth to the verdicts."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.evaluation.sound.outside import free_field
from hushwright.model.build import Build, Input
from hushwright.physics.acoustics.weighting import a_weighted_level
from hushwright.report.labels import heading as words
from hushwright.report.layout import heading, labelled, shortened, table, wrapped
from hushwright.report.measure_next import between, now, told_verdicts
from hushwright.report.round_distances import in_units
from hushwright.report.sketches import LOOK, SKETCHES, how_to_measure, legend
from hushwright.report.text import title_lines
from hushwright.report.units_out import restated
from hushwright.report.verdict_text import percent
from hushwright.units import System
from hushwright.verdicts.measure_next import MeasureNext

_ELSEWHERE_LISTED = 10
_WORTH_ASKING = 0.005
_BLANK = "________________"
_WITH_A_METER = (
    "With a sound level meter of class 1, or class 2 where nothing better is at hand, calibrated before and after: "
    "where the van will stand, but without it, 1.5 m over ground, 3.5 m at least from walls and cars; dry, wind under "
    "5 m/s, wind screen on. Equivalent level over fifteen minutes at the loudest hour in which takes are to be made, "
    "in octaves, and what is heard."
)
_WRITE_IT: dict[System, str] = {
    "metric": "In the file: {is: 93 mm, from: measured, plus_minus: 2 mm, by: tape and date}; or hushwright set FILE"
    " PATH VALUE.",
    "us": "In the file: {is: 3 5/8 in, from: measured, plus_minus: 1/16 in, by: tape and date}; or hushwright set FILE"
    " PATH VALUE.",
}


def measure_sheet(build: Build, ranked: Sequence[MeasureNext], system: System) -> str:
    """Sheet for one build: values of the van by effect, the rest of the uncertain inputs, sketches."""
    effects = {one.path: one for one in ranked}
    van = [one for one in build.inputs if one.path.startswith("vehicle.")]
    van.sort(key=lambda one: -effects[one.path].share if one.path in effects else 0.0)
    lines = title_lines(words("measure_sheet"), build.file, "largest effect on the verdicts first", note=build.title)
    lines += ["", f"  date {_BLANK}   by {_BLANK}   van {_BLANK}"]
    weighing = [one for one in van if one.path in effects]
    for number, one in enumerate(weighing, start=1):
        lines += ["", *_item(number, one, effects[one.path], system)]
    lines += _without_spread(build, len(weighing), system) + _without_effect(van[len(weighing) :], system)
    lines += _elsewhere(build, effects, system) + _how_loud(build, system)
    lines += heading(words("sketches"))
    for title, drawing in SKETCHES:
        lines += ["", f"  {title}", *drawing.strip("\n").splitlines()]
    lines += [""]
    for letter, how in legend():
        lines += labelled(letter, how, column=6)
    lines += ["", *wrapped(_WRITE_IT[system], indent=2)]
    return "\n".join(lines)


def _item(number: int, one: Input, effect: MeasureNext, system: System) -> list[str]:
    letter, how = how_to_measure(one.path)
    return [
        f"{number:>3}  {shortened(one.label, 60)}",
        *wrapped(_worth(effect), indent=5),
        f"     {letter:<6}{how or 'as listed in the file'}",
        f"     now {now(one, system)}, {one.origin}; {one.path}",
        f"     measured {_BLANK}  ±{_BLANK}",
    ]


def _worth(effect: MeasureNext) -> str:
    return f"{percent(effect.share)} of the spread of {told_verdicts(effect)}"


def _without_effect(inputs: Sequence[Input], system: System) -> list[str]:
    """Values of the van that move no verdict of this build: one line each, still worth a look."""
    if not inputs:
        return []
    rows = [(how_to_measure(one.path)[0], shortened(one.label, 36), between(one, system), _BLANK) for one in inputs]
    return ["", "  No verdict hangs on these; measure them when the tape is out anyway.", "", *table(rows)]


def _without_spread(build: Build, before: int, system: System) -> list[str]:
    """What the library fills in whole, without a spread of its own: the section of the body."""
    known = {one.path for one in build.inputs}
    lines: list[str] = []
    left = [one for one in build.assumptions if one.path.startswith("vehicle.") and one.path not in known]
    for number, one in enumerate(left, start=before + 1):
        letter, how = how_to_measure(one.path)
        asked = "answer" if letter == LOOK else "measured"
        lines += ["", f"{number:>3}  {shortened(restated(one.text, system), 90)}", f"     {letter:<6}{how}",
                  f"     from the library; {one.path}", f"     {asked} {_BLANK}"]  # fmt: skip
    return lines


def _how_loud(build: Build, system: System) -> list[str]:
    """Levels of every situation of the brief, to be taken where the van will stand, with what the file has now."""
    if not build.brief.situations:
        return []
    lines = [*heading(words("how_loud")), *wrapped(in_units(_WITH_A_METER, system), indent=2)]
    bands = "  ".join(f"{band} ____" for band in ("63 Hz", "125", "250", "500", "1000", "2000", "4000"))
    for one in build.brief.situations:
        level = a_weighted_level(free_field(one).levels)
        told = (
            f"{one.name}, now {level:.0f} dB(A), {'octaves of the brief' if one.octaves else one.source or 'typical'}"
        )
        lines += ["", *wrapped(f"{told}; {one.place}", indent=2, hanging=6)]
        lines += [f"      dB(A) ____  {bands}", f"      date and hour {_BLANK}   meter, its class {_BLANK}"]
    return lines


def _elsewhere(build: Build, effects: dict[str, MeasureNext], system: System) -> list[str]:
    """Inputs that are not found on the van but weigh: suppliers, the weighbridge of parts, the workshop."""
    others = [one for one in build.inputs if not one.path.startswith("vehicle.") and one.path in effects]
    others = [one for one in others if effects[one.path].share >= _WORTH_ASKING]
    others.sort(key=lambda one: -effects[one.path].share)
    if not others:
        return []
    lines = heading(words("elsewhere"))
    for one in others[:_ELSEWHERE_LISTED]:
        lines += [f"  {shortened(one.label, 40)}, now {now(one, system)}, {one.origin}"]
        lines += wrapped(f"{one.path}; {_worth(effects[one.path])}", indent=6)
    return lines
