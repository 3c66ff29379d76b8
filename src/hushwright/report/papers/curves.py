"""Charts of the dossier: levels outside and inside, isolation between rooms, sound reduction, the session over time."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.report.papers.blocks import Block, Chart, Curve, Heading, Say, Table
from hushwright.report.papers.common import Case, spoken
from hushwright.report.timeline_columns import Column, columns_of, moments_of

_BANDS = tuple(f"{band:g}" for band in THIRD_OCTAVE_BANDS)
_HEARD = -10.0  # dB, below which a level is drawn as nothing
_MOST_FACES = 5
_POINTS = 61  # moments of a session that are drawn


def sound_charts(case: Case) -> list[Block]:
    """Background of every situation and state, then isolation and faces."""
    evaluation = case.evaluation
    charts: list[Block] = []
    drawn: set[tuple[float, ...]] = set()
    for one in evaluation.backgrounds:
        key = tuple(round(level) for level in (*one.outside, *one.levels))
        if key in drawn:
            continue
        drawn.add(key)
        inside = Curve(f"in the {spoken(one.room)}", _levels(one.levels), _spread(one.levels, one.uncertainty))
        others = [Curve("outside", _levels(one.outside), dashed=True)]
        if one.from_outside:
            others.append(Curve("what comes in from outside, without fans and devices", _levels(one.from_outside)))
        charts.append(Chart(_BANDS, "dB", (inside, *others),
                            f"{spoken(one.situation)}, state {spoken(one.state)}"))  # fmt: skip
    for room in evaluation.between_rooms:
        curves = (Curve("difference D", room.level_difference), Curve("DnT at 0.5 s", room.standardized_difference))
        charts.append(Chart(_BANDS, "dB", curves, f"between the rooms, state {spoken(room.state)}"))
    weakest = sorted(evaluation.faces, key=lambda face: face.rw)[:_MOST_FACES]
    if weakest:
        names = tuple(Curve(f"{spoken(face.name)}, Rw {face.rw}", face.reduction) for face in weakest)
        charts.append(Chart(_BANDS, "dB", names, "sound reduction of the weakest faces and openings"))
    return charts or [Say("Nothing of the sound is computed for this build.")]


def _levels(levels: Sequence[float]) -> tuple[float | None, ...]:
    return tuple(level if level > _HEARD else None for level in levels)


def _spread(levels: Sequence[float], uncertainty: Sequence[float]) -> tuple[float, ...]:
    return tuple(2.0 * u if level > _HEARD else 0.0 for level, u in zip(levels, uncertainty, strict=True))


def timeline_charts(case: Case) -> list[Block]:
    """The session over time, a chart for each quantity; what is not computed is said."""
    moments = moments_of(case.evaluation)
    if moments is None:
        return [Say("The build file names no session.")]
    columns, missing = columns_of(case.evaluation, moments, case.system)
    step = max(1, (len(moments.times) - 1) // (_POINTS - 1))
    at = list(range(0, len(moments.times), step))
    axis = tuple(f"{moments.times[index] / 60.0:.0f}" for index in at)
    told = ", ".join(f"{spoken(state)} {(end - begin) / 60.0:.0f} min" for state, begin, end in moments.phases)
    blocks: list[Block] = [Say(told)]
    steady: list[tuple[str, str, str]] = []
    for name in dict.fromkeys(_chart_of(column) for column in columns):
        ours = [column for column in columns if _chart_of(column) == name]
        titled = f"background, {spoken(name[0])}" if name[1].startswith("dB") else spoken(name[0])
        if all(map(_is_steady, ours)):
            steady += [(titled, _named(column, name[0]), _value(column)) for column in ours]
            continue
        curves = tuple(Curve(_named(column, name[0]), tuple(column.values[index] for index in at)) for column in ours)
        blocks.append(Chart(axis, ours[0].unit or "number", curves, titled, along="min"))
    if steady:
        table = Table(("", "where", "value"), tuple(steady), (1.6, 1.6, 1), small=True)
        blocks += [Heading("What stays the same wherever it is known", 3), table]
    return blocks + [Say(f"{each.what}: {each.why}", "small") for each in missing]


def _is_steady(column: Column) -> bool:
    """Whether a line would be a flat one."""
    return len({round(each, column.digits) for each in column.values if each is not None}) <= 1


def _value(column: Column) -> str:
    value = next((each for each in column.values if each is not None), None)
    return "–" if value is None else f"{value:.{column.digits}f} {column.unit}".rstrip()


def _chart_of(column: Column) -> tuple[str, str]:
    return column.chart or column.name, column.unit


def _named(column: Column, chart: str) -> str:
    part = spoken(column.part)
    return part if column.name == chart else f"{part}, {column.name}"
