"""Octave levels of the file as pairs."""

from __future__ import annotations

from hushwright.document.schema.brief import Octaves
from hushwright.model.taking import Path, Taker


def octave_values(taker: Taker, octaves: Octaves | None, at: Path) -> tuple[tuple[float, float], ...]:
    """Typed octave levels as (nominal frequency [Hz], level [dB]), lowest first; an unknown one is left out."""
    if octaves is None:
        return ()
    found = []
    for field in type(octaves).model_fields:
        value = getattr(octaves, field)
        if value is not None and not value.unknown:
            nominal = 31.5 if field == "hz_31" else float(field.removeprefix("hz_"))
            label = f"level at {nominal:g} Hz"
            found.append((nominal, taker.quantity((*at, field), value, "level", label=label)))
    return tuple(found)
