"""Parts of the check report below the verdicts: paths, resonances, headroom, mounts, mass, assumptions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from typing import TypeVar

from hushwright.evaluation.results import (
    SILENCE,
    AtNeighbours,
    Background,
    Bands,
    BetweenRooms,
    Evaluation,
    MountLoad,
    MountsResult,
    PathLevel,
    SpaceResult,
)
from hushwright.evaluation.results.mass import MassResult
from hushwright.evaluation.sound.deciding import deciding_of, share_told
from hushwright.physics.acoustics.bands import energy_sum_level, third_to_octave_levels
from hushwright.report.bands import bar, octave_cells, octave_names, spans, strip, strip_scale
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import Row, heading, labelled, row_of, shortened, table, wrapped
from hushwright.report.units_out import restated, shown, shown_difference
from hushwright.report.verdict_text import once, percent, percent_cell
from hushwright.units import System, format_quantity

PATHS_SHOWN = 5
_NAME_WIDTH = 30
_SOURCE_WIDTH = 90
_HIGHEST_SHOWN = 11_220.0  # Hz, upper edge of the highest band
R = TypeVar("R", BetweenRooms, AtNeighbours)


def weakest_paths(evaluation: Evaluation, system: System) -> list[str]:
    """Each situation in its loudest state, with its octaves and the paths that let most through."""
    if not evaluation.backgrounds:
        return []
    lines = heading(words("weakest_paths"))
    for situation in dict.fromkeys(one.situation for one in evaluation.backgrounds):
        ranked = sorted(
            (one for one in evaluation.backgrounds if one.situation == situation), key=_level_a, reverse=True
        )
        lines += ["", *_background(ranked[0], evaluation, system)]
        others = ", ".join(f"{one.state} {_level_a(one):.1f} dB(A)" for one in ranked[1:])
        lines += wrapped(f"other states: {others}", indent=4, hanging=6) if others else []
    return [*lines, "", f"  {strip_scale()}"]


def _level_a(one: Background) -> float:
    """Level [dB(A)] of all paths together."""
    return float(energy_sum_level([SILENCE, *(path.level_a for path in one.paths)]))


def between_rooms(evaluation: Evaluation, system: System) -> list[str]:
    """What is heard in the control room of the source in the quiet room."""
    if not evaluation.between_rooms:
        return []
    lines = heading(words("between_rooms"))
    for one, states in _alike(evaluation.between_rooms, lambda each: each.received):
        lines += [f"  {states}", *_between(one), *deciding_rows(one, evaluation)]
    return lines


def neighbours(evaluation: Evaluation, system: System) -> list[str]:
    """What reaches the neighbours."""
    if not evaluation.neighbours:
        return []
    lines = heading(words("neighbours"))
    for one, states in _alike(evaluation.neighbours, lambda each: each.levels):
        lines += [f"  {states}, at {shown(one.distance, 'length', system)}", *_at_neighbours(one)]
        lines += deciding_rows(one, evaluation)
    return lines


def _alike(results: Iterable[R], levels: Callable[[R], Bands]) -> list[tuple[R, str]]:
    """Results of several states, those that sound the same together: ``states record, pack``."""
    groups: dict[tuple[float, ...], list[R]] = {}
    for one in results:
        groups.setdefault(tuple(round(level) for level in levels(one)), []).append(one)
    return [(group[0], _named_states([one.state for one in group])) for group in groups.values()]


def _named_states(states: list[str]) -> str:
    return f"{label('state')} {states[0]}" if len(states) == 1 else f"{label('state')}s {', '.join(states)}"


def faces(evaluation: Evaluation, system: System) -> list[str]:
    """Each face and opening with its rating, mass and thickness."""
    if not evaluation.faces:
        return []
    rows = [
        ("", "Rw (C; Ctr)", "STC", "OITC", label("surface_density"), label("thickness"), label("area"), label("toward"))
    ]
    rows += [
        (
            shortened(face.name, _NAME_WIDTH),
            f"{face.rw} ({face.c};{face.ctr})",
            f"{face.stc}",
            f"{face.oitc}",
            shown(face.surface_density, "surface_density", system),
            shown(face.thickness, "length", system),
            shown(face.area, "area", system),
            shortened(face.beyond, 16),
        )
        for face in evaluation.faces
    ]
    return [*heading(words("sound_reduction")), *table(rows, right=(1, 2, 3, 4, 5, 6))]


def resonances(evaluation: Evaluation, system: System) -> list[str]:
    """Where a build-up lets sound through, and which instruments have it; alike faces on one line."""
    groups: dict[tuple[str, str, str, str], list[str]] = {}
    for one in sorted(evaluation.resonances, key=lambda each: each.frequency):
        if one.frequency <= _HIGHEST_SHOWN:
            frequency = format_quantity(one.frequency, "frequency", system, digits=2)
            groups.setdefault((frequency, one.kind, one.text, one.lets_through), []).append(one.surface)
    if not groups:
        return []
    lines = heading(words("resonances"))
    for (frequency, kind, text, through), surfaces in groups.items():
        lets = f"; lets through {through}" if through else ""
        told = f"{restated(text, system)}".rstrip(". ")
        lines += labelled(f"{frequency:>8}", f"{kind}, {told}: {', '.join(surfaces)}{lets}", column=12)
    return lines


def headroom(evaluation: Evaluation, system: System) -> list[str]:
    """Stack from the steel floor to the bow, and what remains."""
    lines: list[str] = []
    for one in evaluation.space:
        lines += ["", f"  {one.room}", *_stack(one, system)]
    return [*heading(words("headroom")), *lines] if lines else []


def mounts(evaluation: Evaluation, system: System) -> list[str]:
    """Loads, deflections and natural frequencies of each floor; states with the same loads together."""
    groups: dict[tuple[str, tuple[MountLoad, ...]], list[MountsResult]] = {}
    for one in evaluation.mounts:
        groups.setdefault((one.group, one.loads), []).append(one)
    lines: list[str] = []
    for group in groups.values():
        lines += ["", *_mounts(group[0], _named_states([one.state for one in group]), system)]
    return [*heading(words("mounts")), *lines] if lines else []


def masses(evaluation: Evaluation, system: System) -> list[str]:
    """Axles and groups."""
    if not evaluation.masses:
        return []
    rows = [(label("state"), label("added_mass"), label("people"), label("total"), label("front_axle"),
             label("rear_axle"))]  # fmt: skip
    rows += [
        (
            one.state,
            shown(one.added, "mass", system),
            shown(one.people, "mass", system),
            shown(one.total, "mass", system),
            shown(one.front, "mass", system),
            shown(one.rear, "mass", system),
        )
        for one in evaluation.masses
    ]
    return [*heading(words("mass")), *table(rows, right=range(1, 6)), *_groups(evaluation.masses[0], system)]


def assumptions(evaluation: Evaluation, system: System) -> list[str]:
    """What the file leaves out and the library fills in."""
    if not evaluation.assumptions:
        return []
    lines = heading(words("assumptions"))
    for source in dict.fromkeys(one.source for one in evaluation.assumptions):
        lines += wrapped(f"[{source}]", indent=2, hanging=4)
        for one in evaluation.assumptions:
            if one.source == source:
                lines += wrapped(f"{restated(one.text, system)}  ({one.path})", indent=4, hanging=6)
    return lines


def assumptions_by_source(evaluation: Evaluation) -> list[str]:
    """How many values the library fills in, by where they come from."""
    sources = Counter(one.source for one in evaluation.assumptions)
    if not sources:
        return []
    rows = [(str(number), shortened(source, _SOURCE_WIDTH)) for source, number in sources.most_common()]
    return [*heading(words("assumptions")), *table(rows, right=(0,))]


def path_rows(paths: Iterable[PathLevel], *, most: int = PATHS_SHOWN) -> list[str]:
    """Paths with the largest share first: share as number and bar, level, strip of its spectrum."""
    ranked = sorted(paths, key=lambda path: path.share, reverse=True)
    rows = [
        (percent_cell(path.share), bar(path.share), shortened(path.name, _NAME_WIDTH), f"{path.level_a:.1f} dB(A)",
         f"|{strip(path.levels)}|")
        for path in ranked[:most]
    ]  # fmt: skip
    lines = table(rows, indent=4, right=(0, 3))
    left = ranked[most:]
    if left:
        lines.append(f"    and {len(left)} more with {percent(sum(path.share for path in left))} together")
    return lines


def deciding_rows(
    one: Background | BetweenRooms | AtNeighbours, evaluation: Evaluation, *, most: int = PATHS_SHOWN
) -> list[str]:
    """Paths of a sound with their shares of what decides its limit: one band, or all bands."""
    band, paths = deciding_of(one, evaluation.build)
    return [f"    {share_told(band)}", *path_rows(paths, most=most)]


def _background(one: Background, evaluation: Evaluation, system: System) -> list[str]:
    lines = [f"  {one.situation}, {label('state')} {one.state}, in {one.room}", *octave_rows(one)]
    lines += deciding_rows(one, evaluation)
    if len(one.audibility) == len(one.levels):
        lines += labelled(label("by_ear"), spans(one.audibility), indent=4, column=12)
    return lines


def octave_rows(one: Background) -> list[str]:
    """Octave levels outside and in the room, under their headings."""
    return [
        _octaves(label("band"), octave_names(), 6),
        _octaves(label("outside"), octave_cells(one.outside), 6),
        _octaves(label("inside"), octave_cells(one.levels), 6),
    ]


def _octaves(name: str, cells: Iterable[str], width: int) -> Row:
    listed = list(cells)
    line = f"    {name:<18}" + "".join(cell.rjust(width) for cell in listed)
    return row_of(line, (name, *listed), range(1, 1 + len(listed)), begins=name == label("band"))


def _between(one: BetweenRooms) -> list[str]:
    standardized = _octaves(label("standardized_difference"), _standardized(one), 6)
    rating = f"DnT,w {one.standardized_rating} dB"
    names = [f"{frequency:g}" if frequency < 1000 else f"{frequency / 1000:g}k" for frequency, _ in one.octave_margins]
    return [
        _octaves(label("band"), octave_names(), 6),
        _octaves(label("received"), octave_cells(one.received), 6),
        _octaves(label("monitor"), octave_cells(one.monitor), 6),
        _octaves(label("level_difference"), _octave_differences(one.source_levels, one.received), 6),
        row_of(f"{standardized}   {rating}", (*standardized.cells, rating), standardized.right, begins=False),
        "    " + f"{label('margin')}: " + ", ".join(
            f"{name} {margin:+.0f} dB" for name, (_, margin) in zip(names, one.octave_margins, strict=True)
        ),
    ]  # fmt: skip


def _octave_differences(source: Bands, received: Bands) -> tuple[str, ...]:
    """Differences of octave levels, which are not sums of third-octave differences."""
    return tuple(f"{value:.0f}" for value in third_to_octave_levels(source) - third_to_octave_levels(received))


def _standardized(one: BetweenRooms) -> tuple[str, ...]:
    """DnT by octave: the energy mean of its three thirds, levels under an even 0 dB at the source."""
    received = third_to_octave_levels([-value for value in one.standardized_difference])
    even = third_to_octave_levels([0.0] * len(one.standardized_difference))
    return tuple(f"{value:.0f}" for value in even - received)


def _at_neighbours(one: AtNeighbours) -> list[str]:
    return [_octaves(label("band"), octave_names(), 6), _octaves(label("received"), octave_cells(one.levels), 6)]


def _stack(one: SpaceResult, system: System) -> list[str]:
    rows = [(item.name, shown(item.thickness, "length", system)) for item in one.stack]
    rows += [
        (label("headroom_centre"), shown(one.headroom_centre, "length", system)),
        (label("headroom_shoulder"), shown(one.headroom_shoulder, "length", system)),
        (label("clear_width"), shown(one.clear_width_shoulder, "length", system)),
        (label("floor_area"), shown(one.floor_area, "area", system)),
        (label("volume"), shown(one.volume, "volume", system)),
    ]
    return table([(shortened(restated(name, system), 60), value) for name, value in rows], indent=4, right=(1,))


def _mounts(one: MountsResult, states: str, system: System) -> list[str]:
    lines = [f"  {one.group}, {states}: {shown(one.mass, 'mass', system)} on the mounts"]
    loads = [load.load for load in one.loads]
    if loads:
        given = [load.deflection for load in one.loads]
        lines.append(
            f"    {label('load')} {shown(min(loads), 'mass', system)} to {shown(max(loads), 'mass', system)} each,"
            f" {label('deflection')} {shown(min(given), 'length', system)} to {shown(max(given), 'length', system)}"
        )
        wrong = [load for load in one.loads if load.status not in ("", "in range")]
        for load in wrong[:PATHS_SHOWN]:
            where = f"station {shown(load.place[0], 'length', system)}, offset {shown(load.place[1], 'length', system)}"
            lines.append(f"    {where}: {shown(load.load, 'mass', system)}, {load.status}")
    frequencies = ", ".join(f"{name} {shown(value, 'frequency', system)}" for name, value in one.natural_frequencies)
    lines += wrapped(f"{label('natural_frequency')}: {frequencies}", indent=4, hanging=6)
    lines.append(
        f"    vertical {shown(one.vertical_frequency, 'frequency', system)}, with the air under the floor"
        f" {shown(one.with_air, 'frequency', system)}; {label('helps_above')}"
        f" {shown(one.helps_above, 'frequency', system)}"
    )
    if one.snubber_clear is not None:
        lines.append(f"    {label('snubber')} {shown_difference(one.snubber_clear, 'length', system)}")
    for note in once(one.notes):
        lines += wrapped(restated(note, system), indent=4, hanging=6)
    return lines


def _groups(one: MassResult, system: System) -> list[str]:
    rows = [(name, shown(mass, "mass", system)) for name, mass in sorted(one.groups, key=lambda pair: -pair[1])]
    return ["", f"  {label('added_mass')}, by {label('group')}", *table(rows, indent=4, right=(1,))] if rows else []
