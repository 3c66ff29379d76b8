"""Spectra as text: a row of octaves, a strip of blocks, a bar of shares."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from hushwright.physics.acoustics.bands import OCTAVE_BANDS, THIRD_OCTAVE_BANDS, third_to_octave_levels

_BLOCKS: Final = " ▁▂▃▄▅▆▇█"
LOWEST_SHOWN: Final = 0.0
"""Level [dB] that a strip shows as empty; each step above it is `STEP`."""
STEP: Final = 8.0


def octave_names() -> tuple[str, ...]:
    """Headings of octave columns, ``31.5 63 … 8k``."""
    return tuple(band_name(band) for band in OCTAVE_BANDS)


def band_name(band: float) -> str:
    """Nominal band as it is said, ``31.5``, ``125``, ``1k``, ``1.25k``."""
    return f"{band / 1000:g}k" if band >= 1000 else f"{band:g}"


def octave_cells(levels: Sequence[float]) -> tuple[str, ...]:
    """Octave levels of third-octave ones, rounded to whole decibels; a dot where there is nothing.

    Examples
    --------
    >>> octave_cells([30.0] * 27)[:2]
    ('35', '35')
    """
    return tuple(
        "·" if level < -50.0 else f"{level:.0f}".replace("-0", "0") for level in third_to_octave_levels(levels)
    )


def strip(levels: Sequence[float], *, lowest: float = LOWEST_SHOWN, step: float = STEP) -> str:
    """One block a band: each eighth of a block stands for ``step`` decibels above ``lowest``.

    Examples
    --------
    >>> strip([0.0, 8.0, 32.0, 64.0, 80.0])
    ' ▁▄██'
    """
    return "".join(_BLOCKS[min(max(int((level - lowest) // step), 0), len(_BLOCKS) - 1)] for level in levels)


def spans(words: Sequence[str]) -> str:
    """Third octaves that share a word, as spans: ``heard 63 to 250 Hz; just heard 25 to 50 Hz``.

    Examples
    --------
    >>> spans(["just heard", "heard", "heard", "not heard"])
    'heard 31.5 to 40 Hz; just heard 25 Hz; not heard 50 Hz'
    """
    found: dict[str, list[str]] = {}
    first = 0
    for at, word in enumerate(words):
        if at + 1 < len(words) and words[at + 1] == word:
            continue
        low, high = (band_name(THIRD_OCTAVE_BANDS[end]) for end in (first, at))
        found.setdefault(word, []).append(low if first == at else f"{low} to {high}")
        first = at + 1
    return "; ".join(f"{word} {', '.join(each)} Hz" for word, each in sorted(found.items()))


def bar(share: float, width: int = 10) -> str:
    """Bar of a share of one; a share above nothing shows at least a mark.

    Examples
    --------
    >>> bar(0.42), bar(0.001), bar(0.0)
    ('████░░░░░░', '▏░░░░░░░░░', '░░░░░░░░░░')
    """
    full = min(max(round(share * width), 0), width)
    if full == 0:
        return ("▏" if share > 0.0 else "░") + "░" * (width - 1)
    return "█" * full + "░" * (width - full)


def strip_scale() -> str:
    """Say how to read a strip."""
    first, last = band_name(THIRD_OCTAVE_BANDS[0]), band_name(THIRD_OCTAVE_BANDS[-1])
    return f"strips: third octaves {first} Hz to {last}Hz, each step of a block {STEP:g} dB, empty below {STEP:g} dB"
