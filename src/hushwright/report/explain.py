"""How one number came about: its spread, its paths, the build-ups and the sources behind it."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

from hushwright.evaluation.results import (
    AtNeighbours,
    Background,
    BetweenRooms,
    Contribution,
    Evaluation,
    FacePrediction,
    PathLevel,
)
from hushwright.evaluation.sound.deciding import deciding_of
from hushwright.evaluation.sound.octaves import where_told
from hushwright.model.battens import batten_mass, pieces_of
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.spread import INTERVAL
from hushwright.report import heat, sections, structure, wiring
from hushwright.report.air_steps import balance
from hushwright.report.bands import strip_scale
from hushwright.report.drop_steps import drop_leg_by_leg
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import counted, heading, labelled, shortened, table, wrapped
from hushwright.report.method_steps import steps_of
from hushwright.report.needs import need_rows
from hushwright.report.sections import deciding_rows, octave_rows
from hushwright.report.units_out import restated, shown, shown_difference, shown_spread
from hushwright.report.verdict_text import largest_of, percent_cell, placed, verdict_block
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

_CONTRIBUTIONS_SHOWN = 12
_LEAST_SHARE = 0.005
_ALL_PATHS = 20
_FACES_SHOWN = 5
_MIDDLE = THIRD_OCTAVE_BANDS.index(500)


def explanation(verdict: Verdict, evaluation: Evaluation, system: System) -> str:
    """Whole explanation of one verdict."""
    document = evaluation.build.document
    lines = [f"{words('how')}: {verdict.id}", *verdict_block(verdict, document, system)]
    lines += labelled(label("caution"), restated(verdict.caution, system), indent=4, column=14)
    lines += _arithmetic(verdict, system) + _spread(verdict, evaluation, system)
    sound = _sound_behind(verdict, evaluation)
    paths = () if sound is None else deciding_of(sound, evaluation.build)[1]
    if sound is not None and paths:
        octaves = octave_rows(sound) if isinstance(sound, Background) else []
        rows = deciding_rows(sound, evaluation, most=_ALL_PATHS)
        if isinstance(sound, Background):
            octaves += wrapped(where_told(sound, evaluation), indent=4)
        lines += [*heading(words("weakest_paths")), *octaves, *rows, f"  {strip_scale()}"]
        lines += _path_notes(paths, evaluation, system) + need_rows(verdict, evaluation, system)
        lines += _faces(paths, evaluation, system)
    lines += drop_leg_by_leg(verdict, evaluation, system)
    lines += _tables(verdict, evaluation, system)
    lines += balance(verdict, evaluation, system)
    return "\n".join(lines + _sources(verdict, paths, evaluation, system))


def _tables(verdict: Verdict, evaluation: Evaluation, system: System) -> list[str]:
    """Return the part of the report that a verdict without a spectrum rests on."""
    named = f"{verdict.group} {verdict.id}"
    if verdict.group == "Anchoring":
        return structure.anchoring(evaluation, system)
    if verdict.group == "Heat":
        return heat.heat(evaluation, system)
    if verdict.group == "Wiring":
        return wiring.wiring(evaluation, system)
    if verdict.group == "Doors":
        return structure.doors(evaluation, system)
    if verdict.group == "Mass":
        return [*sections.masses(evaluation, system), *structure.wheels(evaluation, system)]
    if verdict.group == "Mounts" or "mount" in named:
        return sections.mounts(evaluation, system)
    if "headroom" in named or "width" in named or "space" in named:
        return sections.headroom(evaluation, system)
    return []


def _arithmetic(verdict: Verdict, system: System) -> list[str]:
    """Return the rule of the outcome with the numbers of this one."""
    if verdict.value is None or verdict.limit is None or verdict.margin is None:
        return []
    like = largest_of(verdict)
    value, limit = (shown(number, verdict.kind, system, like=like) for number in (verdict.value, verdict.limit))
    margin = shown_difference(verdict.margin, verdict.kind, system, signed=True, like=like)
    text = f"{label('margin')} = {limit} − {value}" if verdict.sense == "at_most" else f"margin = {value} − {limit}"
    text += f" = {margin}; "
    if verdict.uncertainty is not None:
        spread = shown_spread(2.0 * verdict.uncertainty, verdict.kind, system, like=like)
        text += f"2u = {spread.removeprefix('±')}. "
    text += "It meets when the margin is at least 2u, fails when it is below −2u, and is unproven between."
    if verdict.verdict == "unproven" and abs(verdict.margin) >= 2.0 * (verdict.uncertainty or 0.0):
        text += " This margin is outside that span; the verdict is unproven all the same, because the method is beyond"
        text += f" its range: {restated(verdict.reason, system)}."
    return ["", *wrapped(text, indent=2)]


def _spread(verdict: Verdict, evaluation: Evaluation, system: System) -> list[str]:
    """Each share of u², the method's first."""
    if not verdict.uncertainty:
        return []
    whole = verdict.uncertainty**2
    inputs = {one.path: one for one in evaluation.build.inputs}
    rows = [(percent_cell(verdict.method_uncertainty**2 / whole), label("method"), "", "", "")]
    largest = [one for one in _largest(verdict.contributions) if one.change**2 >= _LEAST_SHARE * whole]
    for one in largest:
        known = inputs.get(one.path)
        now = "" if known is None else shown(known.value, known.kind, system)
        rows.append((percent_cell(one.change**2 / whole), shortened(one.label, 30), now,
                     shown_spread(abs(one.change), verdict.kind, system), shortened(one.path, 40)))  # fmt: skip
    spread = shown_spread(verdict.uncertainty, verdict.kind, system).removeprefix("±")
    explained = f"u = {spread}; shares of u², with the value of each input and what its own u does to the result"
    left = len(verdict.contributions) - len(largest)
    rest = [f"    and {counted(left, 'input')} below 1 % each"] if left else []
    return [*heading(words("uncertainty")), f"  {explained}", *table(rows, right=(0, 2, 3)), *rest]


def _largest(contributions: Iterable[Contribution]) -> list[Contribution]:
    return sorted(contributions, key=lambda one: -abs(one.change))[:_CONTRIBUTIONS_SHOWN]


def _background_behind(verdict: Verdict, evaluation: Evaluation) -> Background | None:
    """Background that the verdict judges, when it judges one."""
    named = set(re.split(r"[/ ._-]+", verdict.id))
    for one in evaluation.backgrounds:
        if one.state == verdict.state and set(re.split(r"[/ ._-]+", one.situation)) <= named:
            return one
    return None


def _sound_behind(verdict: Verdict, evaluation: Evaluation) -> Background | BetweenRooms | AtNeighbours | None:
    """Sound that the verdict judges, when it judges one."""
    background = _background_behind(verdict, evaluation)
    if background is not None:
        return background
    if verdict.id.startswith("rooms"):
        return next((one for one in evaluation.between_rooms if one.state == verdict.state), None)
    if verdict.id.startswith("neighbours"):
        return next((one for one in evaluation.neighbours if one.state == verdict.state), None)
    return None


def _path_notes(paths: tuple[PathLevel, ...], evaluation: Evaluation, system: System) -> list[str]:
    lines: list[str] = []
    for path in paths:
        where = placed(path.place, evaluation.build.document)
        if path.note or where:
            lines += wrapped(f"{path.name}: {restated(path.note, system)} {where}", indent=4, hanging=6)
    return lines


def _faces(paths: tuple[PathLevel, ...], evaluation: Evaluation, system: System) -> list[str]:
    """Build-ups of the faces that the paths name."""
    named = {path.name for path in sorted(paths, key=lambda path: -path.share)[:_FACES_SHOWN]}
    behind = [face for face in evaluation.faces if re.sub("[._]", " ", face.name) in named]
    lines: list[str] = []
    for face in behind:
        lines += _face(face, evaluation, system)
    return [*heading(words("build_up")), *lines] if lines else []


def _face(face: FacePrediction, evaluation: Evaluation, system: System) -> list[str]:
    where = placed(face.place, evaluation.build.document)
    lines = ["", f"  {face.name}: Rw {face.rw} dB, {face.construction}"]
    lines += wrapped(where, indent=4)
    surface = next((s for room in evaluation.build.rooms for s in room.surfaces if s.name == face.name), None)
    for layer in surface.layers if surface is not None else ():
        record_source = str(getattr(layer.record, "source", ""))
        thickness, mass = (shown(layer.thickness, "length", system),
                           shown(layer.surface_density, "surface_density", system))  # fmt: skip
        text = f"{restated(layer.name, system)}, {thickness}, {mass}"
        lines += wrapped(f"{text} [{record_source}]" if record_source else text, indent=4, hanging=8)
        if surface is not None and (pieces := pieces_of(surface, layer)):
            kind = "bearers" if layer.kind == "floor_mounts" else "battens"
            weigh = shown(batten_mass(surface, layer), "mass", system)
            long = shown(math.fsum(pieces), "length", system)
            lines += wrapped(f"in it {len(pieces)} {kind}, {long} together, {weigh}", indent=8, hanging=8)
    half = INTERVAL * face.uncertainty[_MIDDLE]
    lines += labelled(label("method"), f"nine of ten octaves of measured walls and windows of this class lay within "
                      f"±{half:.0f} dB, 100 Hz to 2 kHz (docs/accuracy.md)", indent=4, column=14)  # fmt: skip
    for note in face.validity:
        lines += labelled(label("validity"), restated(note, system), indent=4, column=14)
    return lines


def _sources(verdict: Verdict, paths: tuple[PathLevel, ...], evaluation: Evaluation, system: System) -> list[str]:
    """Where the limit and the filled-in inputs of this verdict come from."""
    touched = {one.path for one in verdict.contributions}
    lines: list[str] = []
    for what, source in steps_of(verdict.id):
        lines += wrapped(f"{what} [{source}]", indent=2, hanging=4)
    lines += labelled(label("limit"), restated(verdict.basis, system), column=12)
    for one in evaluation.assumptions:
        if one.path in touched or any(path.startswith(f"{one.path}.") for path in touched):
            lines += wrapped(f"{one.path}: {restated(one.text, system)} [{one.source}]", indent=2, hanging=4)
    return [*heading(words("sources")), *lines]
