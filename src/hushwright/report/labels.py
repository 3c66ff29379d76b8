"""Every heading and label of the text output, in one place; each is listed in docs/decisions/words.md."""

from __future__ import annotations

from typing import Final

OUTCOMES: Final = {"fails": "FAILS", "unproven": "UNPROVEN", "meets": "MEETS", "not_applicable": "NOT APPLICABLE"}
"""Word of each outcome, worst first; the word itself carries the meaning, colour never does."""

HEADINGS: Final = {
    "verdicts": "Verdicts",
    "weakest_paths": "Weakest paths",
    "between_rooms": "Isolation between the rooms",
    "neighbours": "At the neighbours",
    "resonances": "Resonances",
    "headroom": "Headroom",
    "mounts": "Mounts",
    "mass": "Mass",
    "assumptions": "Assumptions",
    "measure_next": "Measure next",
    "cautions": "Cautions",
    "notes": "Notes",
    "how": "How this number came about",
    "uncertainty": "Uncertainty",
    "sources": "Sources",
    "build_up": "Build-up",
    "sound_reduction": "Sound reduction",
    "measure_sheet": "What to measure on the donor van",
    "sketches": "Sketches",
    "elsewhere": "Ask the supplier, weigh, or measure in the workshop",
    "materials": "Library",
}
LABELS: Final = {
    "value": "value",
    "limit": "limit",
    "margin": "margin",
    "chance": "chance",
    "state": "state",
    "basis": "basis",
    "reason": "reason",
    "hint": "try",
    "caution": "caution",
    "validity": "validity",
    "band": "octave [Hz]",
    "outside": "outside",
    "inside": "in the room",
    "received": "received",
    "monitor": "monitor level",
    "spread": "±2u",
    "by_ear": "by ear",
    "source": "source",
    "method": "method",
    "headroom_centre": "headroom, centre",
    "headroom_shoulder": "headroom, shoulder",
    "clear_width": "clear width, shoulder",
    "floor_area": "floor area",
    "volume": "volume",
    "load": "load",
    "deflection": "deflection",
    "natural_frequency": "natural frequency",
    "helps_above": "helps above",
    "snubber": "snubber clearance",
    "added_mass": "added mass",
    "people": "people",
    "total": "total",
    "front_axle": "front axle",
    "rear_axle": "rear axle",
    "group": "group",
    "mass": "mass",
    "surface_density": "surface density",
    "thickness": "thickness",
    "assumed": "assumed",
    "aliases": "also called",
    "note": "note",
    "area": "area",
    "toward": "toward",
    "range": "range",
}


def label(key: str) -> str:
    """Label by its key."""
    return LABELS[key]


def heading(key: str) -> str:
    """Heading of a section by its key."""
    return HEADINGS[key]
