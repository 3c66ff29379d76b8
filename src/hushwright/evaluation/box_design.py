"""A baffle box for one run: what it has to take so that the quiet room meets its curve, and the box that does."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.evaluation.air.flow import flows_in
from hushwright.evaluation.layers import porous_of
from hushwright.evaluation.mass.space import first_take
from hushwright.evaluation.results import SILENCE
from hushwright.evaluation.sound.fans import end_sound
from hushwright.evaluation.sound.floor import floating_room
from hushwright.evaluation.sound.heard import setting_of
from hushwright.evaluation.sound.sound import standing_in
from hushwright.evaluation.sound.ways import source_levels
from hushwright.library.records import Blanket
from hushwright.model.air_in_place import BaffleBoxInPlace, Piece, RunInPlace
from hushwright.model.build import Build
from hushwright.physics.acoustics.bands import third_to_octave_levels
from hushwright.physics.acoustics.criteria import noise_criterion_limits
from hushwright.physics.acoustics.duct_baffle_sizing import BaffleBoxDesign, BoxLimits, size_baffle_box
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES, summed_power
from hushwright.physics.air import Air

_BELOW = 3.0
"""dB, how far the run is to stay under the curve, since others sound too; common practice, no source."""

_USUAL = (0.9, 0.35, 0.25)
"""m, length, width and height a box may have where the run has none; common practice, no source."""

_CURVE = 20.0
"""NC that fans keep to where the brief names no curve; common practice, no source."""

_FREE = 0.6
"""Share [-] of the duct's area that stays free between baffles, so that the air does not hiss; common practice,
no source."""


@dataclass(frozen=True, slots=True)
class BoxDesign:
    """A designed box for a run."""

    run: str
    room: str
    curve: float
    without_box: tuple[float, ...]  # octaves 63 Hz to 8 kHz in the room without a box [dB]
    required: tuple[float, ...]
    design: BaffleBoxDesign
    absorber: str


def design_box(
    build: Build,
    run_name: str,
    *,
    length: float | None = None,
    width: float | None = None,
    height: float | None = None,
    curve: float | None = None,
) -> BoxDesign:
    """Design the baffle box of one run.

    Parameters
    ----------
    build : Build
        With its runs.
    run_name : str
        Run that gets the box; one that it has is taken out first and gives the space there is.
    length, width, height : float, optional
        Most that the box may measure outside [m].
    curve : float, optional
        NC that the run keeps to in the quiet room; the brief's, else NC 20.

    Returns
    -------
    BoxDesign
        What is asked for, and the smallest box that gives it, or the nearest.

    Raises
    ------
    InvalidInput
        If there is no such run, no quiet room at its end, nothing sounds in it, or no box fits.
    """
    run = build.air.run(run_name)
    quiet = build.room_for("quiet")
    if run is None:
        known = ", ".join(each.name for each in build.air.runs) or "none"
        raise InvalidInput(f"the build has no run {run_name!r}; there are {known}")
    if quiet is None or quiet.name not in (run.takes_from, run.gives_to):
        raise InvalidInput(f"run {run_name!r} does not end in a quiet room")
    present = next((piece.what for piece in run.pieces if isinstance(piece.what, BaffleBoxInPlace)), None)
    without = _octaves_without_box(build, run, quiet.name)
    aim = curve if curve is not None else _asked(build)
    required = tuple(max(level - (limit - _BELOW), 0.0) for level, limit in zip(without, noise_curve(aim), strict=True))
    size = (present.length, present.width, present.height) if present is not None else _USUAL
    most = [given if given is not None else usual for given, usual in zip((length, width, height), size, strict=True)]
    duct = run.ends[0].shape if present is None else present.duct
    limits = BoxLimits(most[0], most[1], most[2], _FREE * duct.area, duct.area)
    absorber = present.absorber if present is not None else build.library.find(Blanket, "melamine foam")
    design = size_baffle_box(required, limits, porous_of(absorber), air=Air(build.brief.air_temperature))
    return BoxDesign(run.name, quiet.name, aim, without, required, design, absorber.name)


def _asked(build: Build) -> float:
    target = build.air.fans_alone
    return target.value if target is not None and target.kind == "NC" else _CURVE


def noise_curve(number: float) -> tuple[float, ...]:
    """Octave levels 63 Hz to 8 kHz of an NC curve [dB]."""
    limits = noise_criterion_limits(number, lowest_band=DUCT_OCTAVES[0])
    level_of = dict(zip(limits.bands, limits.limits, strict=True))
    return tuple(float(level_of[octave]) for octave in DUCT_OCTAVES)


def _octaves_without_box(build: Build, run: RunInPlace, room: str) -> tuple[float, ...]:
    """Octave levels that the run makes in the quiet room with its boxes taken out."""
    state = next((each for each in build.states if each.takes and run.open_in(each.name)), first_take(build))
    air = Air(build.brief.air_temperature)
    standing = standing_in(build, state, setting_of(build, air), floating_room(build, state, air))
    flows = flows_in(build, state)
    bare = replace(run, pieces=tuple(piece for piece in run.pieces if not _is_box(piece)))
    pressure = next(each.fan_pressure for each in flows.runs if each.run == run.name)
    fan, moving = end_sound(bare, flows.flow_of(run.name), max(pressure, 0.0), air, intake=run.takes_from == room)
    power = np.maximum(summed_power([fan, moving]).array(), SILENCE)
    quiet = next(each for each in standing.build.rooms if each.name == room)
    level, _ = source_levels(quiet, standing.fields[room], tuple(power.tolist()))
    octaves = third_to_octave_levels(level)
    if not np.any(octaves > 0.0):
        raise InvalidInput(f"nothing sounds in run {run.name!r} while takes are recorded, so no box is needed")
    return tuple(float(each) for each in octaves[-len(DUCT_OCTAVES) :])


def _is_box(piece: Piece) -> bool:
    return isinstance(piece.what, BaffleBoxInPlace)
