"""Octave levels of the file as pairs."""

from __future__ import annotations

from hushwright.document.schema.brief import Octaves
from hushwright.model.taking import Path, Taker

Pairs = tuple[tuple[float, float], ...]


def octave_values(taker: Taker, octaves: Octaves | None, at: Path) -> Pairs:
    """Typed octave levels as (nominal frequency [Hz], level [dB]), lowest first; an unknown one is left out."""
    if octaves is None:
        return ()
    found = []
    for field in type(octaves).model_fields:
        value = getattr(octaves, field)
        if value is not None and not value.unknown:
            label = f"level at {_nominal(field):g} Hz"
            found.append((_nominal(field), taker.quantity((*at, field), value, "level", label=label)))
    return tuple(found)


def unbroken_octaves(taker: Taker, octaves: Octaves | None, at: Path) -> Pairs:
    """As `octave_values`, octaves left out between two typed ones on the line between their neighbours."""
    typed = dict(octave_values(taker, octaves, at))
    bands = [_nominal(field) for field in Octaves.model_fields]
    given = [index for index, band in enumerate(bands) if band in typed]
    for low, high in zip(given, given[1:], strict=False):
        for index in range(low + 1, high):
            share = (index - low) / (high - low)
            typed[bands[index]] = typed[bands[low]] + share * (typed[bands[high]] - typed[bands[low]])
            taker.assume((*at, f"hz_{bands[index]:.0f}"), f"level at {bands[index]:g} Hz {typed[bands[index]]:.1f} dB",
                         "on the line between its neighbours")  # fmt: skip
    return tuple((band, typed[band]) for band in bands if band in typed)


def assume_ends(taker: Taker, pairs: Pairs, at: Path, name: str) -> None:
    """Note octaves below the lowest and above the highest typed one, whose levels go on with the slope there."""
    if not pairs:
        return
    bands = [band for band, _ in pairs]
    ends = [(bands[0], bands[:2], [each for each in _all() if each < bands[0]]),
            (bands[-1], bands[-2:], [each for each in _all() if each > bands[-1]])]  # fmt: skip
    for end, pair, beyond in ends:
        how = f"as at {end:g} Hz" if len(pair) < 2 else f"with the slope from {pair[0]:g} to {pair[1]:g} Hz"
        for band in beyond:
            taker.assume((*at, f"hz_{int(band)}"), f"{name}: level at {band:g} Hz goes on {how}",
                         "bands beyond those typed go on with the last slope")  # fmt: skip


def _all() -> list[float]:
    return [_nominal(field) for field in Octaves.model_fields]


def _nominal(field: str) -> float:
    """Nominal frequency [Hz] of a field of `Octaves`."""
    return 31.5 if field == "hz_31" else float(field.removeprefix("hz_"))
