"""Why a build-up is no better than the one that stands there: what moved at the band that decides."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS

if TYPE_CHECKING:
    from hushwright.search.comparing import Compared

_NO_BETTER = 0.05  # dB, by which the room has to get quieter so that it counts
_MOVED = 0.03  # share, by which a frequency has to move so that it is told
_LEAST = 0.3  # dB of a sound reduction that are told
_NEAR = 1.6  # ratio of frequencies up to which a resonance acts on a band; common practice, no source
_TOLD = 0.01  # dB that are told in figures
_HEAVIER = 0.2  # kg/m²
_WORDS = {"mass-air-mass": "resonance of the leaves on the air between them", "coincidence": "coincidence",
          "cavity": "first standing wave across the space", "panel": "lowest panel resonance"}  # fmt: skip


def why_no_better(each: Compared, first: Compared, key: str, deciding: int) -> str:
    """Say why the room gets no quieter with a build-up that is as heavy or heavier; empty where it does.

    Parameters
    ----------
    each, first : Compared
        The build-up, and the one that stands there.
    key : str
        Quantity of the sound that is asked for.
    deciding : int
        Position of the third octave that decides for this face.

    Returns
    -------
    str
        What its sound reduction does in that band, and which of its frequencies moved towards it.
    """
    now, before = each.level(key), first.level(key)
    one, old = each.prediction, first.prediction
    if now is None or before is None or one is None or old is None or each is first:
        return ""
    is_quieter = now > before + _NO_BETTER if key.startswith("rooms/") else now < before - _NO_BETTER
    if is_quieter or one.surface_density < old.surface_density - _HEAVIER:
        return ""
    if each.edits and all("seals" in edit.path for edit in each.edits):
        moved = abs(now - before)
        told = f"{moved:.2f} dB" if moved >= _TOLD else f"less than {_TOLD:g} dB"
        return f"moves it by {told}: the slit at its seals is a small way here"
    gains = [after - earlier for after, earlier in zip(one.reduction, old.reduction, strict=True)]
    band, gain = THIRD_OCTAVE_BANDS[deciding], gains[deciding]
    worst = min(range(len(gains)), key=lambda at: gains[at])
    if gain >= _LEAST:
        told = f"keeps out {gain:.1f} dB more at {band:g} Hz, where most came in; other ways decide now"
        if gains[worst] <= -_LEAST:
            band = THIRD_OCTAVE_BANDS[worst]
            told += f", and {-gains[worst]:.1f} dB less at {band:g} Hz"
    elif gain <= -_LEAST:
        told = f"keeps out {-gain:.1f} dB less at {band:g} Hz, where most comes in"
    else:
        told = f"keeps out no more at {band:g} Hz, where most comes in"
    return "; ".join((told, *_moved(each, first, band)))


def _moved(each: Compared, first: Compared, band: float) -> list[str]:
    """Frequencies of the face that moved and act on a band, the nearest to it first; room lost by the space."""
    found = []
    for (kind, text), frequency in each.resonances.items():
        before = first.resonances.get((kind, text))
        if before is None or abs(frequency / before - 1.0) < _MOVED:
            continue
        if max(frequency, band) / min(frequency, band) <= _NEAR or min(frequency, before) <= band <= max(
            frequency, before
        ):
            word = _WORDS.get(kind, kind)
            found.append((abs(frequency - band), f"{word} ({text}) moves from {before:.0f} Hz to {frequency:.0f} Hz"))
    told = [text for _, text in sorted(found)[:2]]
    if first.space - each.space > 1e-4:
        told.append(f"its space is {1000.0 * (first.space - each.space):.0f} mm shallower")
    return told
