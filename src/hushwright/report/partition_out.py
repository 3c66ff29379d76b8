"""One build-up on its own: as text and as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from hushwright.evaluation.sound.single import SinglePartition
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.report.as_json import SCHEMA, written
from hushwright.report.bands import band_name
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import heading, labelled, table
from hushwright.report.units_out import bare_number, restated, shown, unit_of
from hushwright.report.verdict_text import once
from hushwright.units import System, format_quantity

REPORTED: Final = (50.0, 5000.0)
"""Bands [Hz] in which sound reduction is reported."""
_HIGHEST_SHOWN = 11_220.0  # Hz, upper edge of the highest band


def reported_bands(levels: Sequence[float]) -> list[tuple[float, float]]:
    """Band and level, inside what is reported."""
    pairs = zip(THIRD_OCTAVE_BANDS, levels, strict=True)
    return [(band, level) for band, level in pairs if REPORTED[0] <= band <= REPORTED[1]]


def partition_json(single: SinglePartition, system: System) -> str:
    """JSON of one build-up; surface density and thickness in the units named beside them."""
    face = single.face
    bands = reported_bands(face.reduction)
    node: dict[str, Any] = {
        "schema": SCHEMA,
        "bands_hz": [int(band) if band == int(band) else band for band, _ in bands],
        "sound_reduction_index_db": [round(level, 2) for _, level in bands],
        "uncertainty_db": [round(level, 2) for _, level in reported_bands(face.uncertainty)],
        "rw": face.rw,
        "c": face.c,
        "ctr": face.ctr,
        "stc": face.stc,
        "oitc": face.oitc,
        "surface_density": bare_number(face.surface_density, "surface_density", system),
        "surface_density_unit": unit_of("surface_density", system),
        "thickness": bare_number(face.thickness, "length", system),
        "thickness_unit": unit_of("length", system),
        "mass_air_mass_resonance_hz": [round(frequency, 1) for frequency in single.mass_air_mass],
        "validity": [restated(note, system) for note in face.validity],
        "assumptions": [restated(text, system) for text in single.assumptions],
    }
    return written(node)


def partition_text(title: str, single: SinglePartition, system: System) -> str:
    """Text of one build-up: rating, spectrum, resonances."""
    face = single.face
    resonances = [one for one in single.resonances if one.frequency <= _HIGHEST_SHOWN]
    lines = [title or face.name, "═" * 40]
    lines += [
        f"  Rw (C; Ctr) {face.rw} ({face.c}; {face.ctr}) dB   STC {face.stc}   OITC {face.oitc}   {face.construction}"
    ]
    lines += [
        f"  {label('surface_density')} {shown(face.surface_density, 'surface_density', system)}"
        f"   {label('thickness')} {shown(face.thickness, 'length', system)}"
        f"   area {shown(face.area, 'area', system)}"
    ]
    lines += heading(words("sound_reduction"))
    spreads = dict(reported_bands(face.uncertainty))
    bands = reported_bands(face.reduction)
    rows = [("Hz", "dB", label("spread"), "")]
    rows += [
        (band_name(band), f"{level:.1f}", f"±{2 * spreads[band]:.0f}", "█" * max(round(level / 2.0), 0))
        for band, level in bands
    ]
    lines += [*table(rows, right=(0, 1, 2))]
    lines += heading(words("resonances")) if resonances else []
    for one in resonances:
        frequency = format_quantity(one.frequency, "frequency", system, digits=3)
        lines += labelled(f"{frequency:>8}", f"{one.kind}. {restated(one.text, system)}", column=12)
    lines += [""] if face.validity or single.assumptions else []
    for note in once(face.validity):
        lines += labelled(label("validity"), restated(note, system))
    lines += labelled(label("assumed"), restated("; ".join(single.assumptions), system))
    return "\n".join(lines)
