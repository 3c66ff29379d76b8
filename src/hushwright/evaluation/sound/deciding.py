"""Ways of sound ranked by what decides: their shares over all bands for dB(A), in the deciding band for a curve."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from hushwright.evaluation.results import AtNeighbours, Background, BetweenRooms, PathLevel
from hushwright.evaluation.results.air import FanSound
from hushwright.evaluation.sound.background import deciding_band
from hushwright.evaluation.sound.uncertainty import octave_weighting
from hushwright.model.build import Build, Target
from hushwright.physics.acoustics.bands import FREQUENCIES


def target_of(found: Background, build: Build) -> Target | None:
    """What the brief asks of a background: of its situation, or of rain."""
    if found.key.startswith("rain/"):
        return None if build.brief.rain is None else build.brief.rain[1]
    return next((each.target for each in build.brief.situations if each.name == found.situation), None)


def deciding_paths(found: Background | FanSound, target: Target | None) -> tuple[str, tuple[PathLevel, ...]]:
    """Band that decides, in words, and the ways with their shares of the energy in it, largest first.

    Parameters
    ----------
    found : Background or FanSound
        One background, or the fans and air alone, with its ways.
    target : Target or None
        What it is held against.

    Returns
    -------
    tuple of str and tuple of PathLevel
        An empty text where all bands count, A-weighted; then the shares stay as they are.
    """
    deciding = deciding_band(found.levels, target)
    if deciding is None:
        return "", found.paths
    band, counts = deciding
    shared = _shared(found.paths, np.asarray(counts, dtype=bool))
    return (band, shared) if shared else ("", ())


def deciding_between(found: BetweenRooms) -> tuple[str, tuple[PathLevel, ...]]:
    """Octave in which direct sound comes nearest to the monitors, in words, and the ways with their shares of it."""
    if not found.octave_margins:
        return "", found.paths
    octave, _ = min(found.octave_margins, key=lambda pair: pair[1])
    shared = _shared(found.paths, octave_weighting(octave, FREQUENCIES) == 0.0)
    return (f"the octave at {octave:g} Hz", shared) if shared else ("", ())


def deciding_of(found: Background | BetweenRooms | AtNeighbours, build: Build) -> tuple[str, tuple[PathLevel, ...]]:
    """Band that decides, in words, and the ways with their shares of it, whatever the sound is held against.

    Parameters
    ----------
    found : Background, BetweenRooms or AtNeighbours
        One sound with its ways.
    build : Build
        With the targets of its brief.

    Returns
    -------
    tuple of str and tuple of PathLevel
        An empty text where all bands count, A-weighted, as with neighbours; else shares of that band, largest first.
    """
    if isinstance(found, Background):
        return deciding_paths(found, target_of(found, build))
    return deciding_between(found) if isinstance(found, BetweenRooms) else ("", found.paths)


def share_told(band: str) -> str:
    """What shares are shares of.

    Examples
    --------
    >>> share_told("the octave at 125 Hz"), share_told("")
    ('share of the octave at 125 Hz, which decides', 'share of the A-weighted sum')
    """
    return f"share of {band}, which decides" if band else "share of the A-weighted sum"


def _shared(paths: Sequence[PathLevel], counts: NDArray[np.bool_]) -> tuple[PathLevel, ...]:
    """Ways with their shares of the energy in some bands, largest first; none where nothing is there."""
    energies = [sum(10.0 ** (level / 10.0) for level, at in zip(path.levels, counts, strict=True) if at)
                for path in paths]  # fmt: skip
    whole = sum(energies)
    if not whole:
        return ()
    shared = [replace(path, share=energy / whole) for path, energy in zip(paths, energies, strict=True)]
    return tuple(sorted(shared, key=lambda path: (-round(path.share, 6), path.name)))
