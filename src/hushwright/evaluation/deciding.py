"""Ways of sound ranked by what decides: their shares over all bands for dB(A), in the deciding band for a curve."""

from __future__ import annotations

from dataclasses import replace

from hushwright.evaluation.background import deciding_band
from hushwright.evaluation.results import Background, PathLevel
from hushwright.model.build import Build, Target


def target_of(found: Background, build: Build) -> Target | None:
    """What the brief asks of a background: of its situation, or of rain."""
    if found.key.startswith("rain/"):
        return None if build.brief.rain is None else build.brief.rain[1]
    return next((each.target for each in build.brief.situations if each.name == found.situation), None)


def deciding_paths(found: Background, target: Target | None) -> tuple[str, tuple[PathLevel, ...]]:
    """Band that decides, in words, and the ways with their shares of the energy in it, largest first.

    Parameters
    ----------
    found : Background
        One background with its ways.
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
    energies = [sum(10.0 ** (level / 10.0) for level, at in zip(path.levels, counts, strict=True) if at)
                for path in found.paths]  # fmt: skip
    whole = sum(energies)
    if not whole:
        return "", ()
    shared = [replace(path, share=energy / whole) for path, energy in zip(found.paths, energies, strict=True)]
    return band, tuple(sorted(shared, key=lambda path: (-round(path.share, 6), path.name)))
